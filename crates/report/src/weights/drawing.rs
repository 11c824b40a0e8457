//! The envelope of a build as a drawing.

use pintle_calc::Known;
use pintle_calc::arrange::{Arrangements, Bounded, End, Envelope, Extremum, Point};
use pintle_quantity::{Quantity, Units};
use pintle_spec::Build;

use super::arranged::Count;
use super::envelope::{allowed, name_of};
use super::{Limit, Terms, is_metric};
use crate::plot::{self, Plot};

/// The envelope of a build, ready to be drawn.
///
/// # Errors
/// What is missing to know the gross and the tongue weight of every road arrangement.
pub fn drawing(build: &Build, terms: Terms<'_>) -> Known<Plot> {
    let envelope = Arrangements::of(build)?.envelope()?;
    let allowed = allowed(build, terms.band, &envelope);
    let (unit, kilograms) = unit(build, terms.look.units);
    let point = |point: &Point| -> plot::Point { (point.gross / kilograms, point.tongue / kilograms) };
    let points = |points: &[Point]| points.iter().map(point).collect::<Vec<_>>();
    let mut notes = Vec::new();
    let mut limits = Vec::new();
    match terms.band {
        Ok(band) => {
            let line = |words: &str, limit: &Limit| plot::Limit {
                words: format!(
                    "tongue share {words} {} ({})",
                    limit.share.show(Units::AsWritten),
                    limit.rule
                ),
                counts: (limit.share.si(), -1.0),
                sum: 0.0,
            };
            limits.extend([line("at least", &band.least), line("at most", &band.most)]);
        }
        Err(missing) => notes.push(format!("no band for the tongue share: {} is not in force", missing.what)),
    }
    for (bounds, rating) in &allowed.ratings {
        let (of, counts) = match bounds {
            Bounded::Gross => ("gross weight", (1.0, 0.0)),
            Bounded::Tongue => ("tongue weight", (0.0, 1.0)),
            Bounded::Axles => ("axle load", (1.0, -1.0)),
        };
        let words = format!("{of} at most {}, {}", rating.quantity.show(terms.look.units), name_of(rating));
        limits.push(plot::Limit { words, counts, sum: rating.quantity.si() / kilograms });
    }
    notes.extend(
        allowed.not_given.iter().map(|missing| format!("not given, and so no bound: {}", missing.what)),
    );
    notes.push("figures are computed, not measured: weigh the real trailer".to_owned());
    Ok(Plot {
        title: format!("{}: {}", build.number.value, build.title.value),
        unit: unit.to_owned(),
        points: envelope.points.as_deref().map(points).unwrap_or_default(),
        too_many: envelope.points.is_none().then(|| Count::of(envelope.count).in_words()),
        reach: points(&envelope.hull),
        allowed: points(&allowed.region),
        limits,
        marked: marked(&envelope).into_iter().map(|(words, at)| (words, point(&at))).collect(),
        notes,
    })
}

/// The arrangements to be told apart: the extremes first, then those that a builder thinks of; each once, with all
/// that it is.
fn marked(envelope: &Envelope) -> Vec<(String, Point)> {
    let mut marked: Vec<(Vec<String>, &str, Point)> = Vec::new();
    for extreme in &envelope.extremes {
        let figure = match extreme.what {
            Extremum::Gross => "gross weight",
            Extremum::Tongue => "tongue weight",
            _ => "tongue share",
        };
        let role = format!("{} {figure}", if extreme.end == End::Least { "least" } else { "most" });
        match marked.iter_mut().find(|(_, name, point)| *name == extreme.name && *point == extreme.point) {
            Some((roles, ..)) => roles.push(role),
            None => marked.push((vec![role], &extreme.name, extreme.point)),
        }
    }
    for (name, point) in &envelope.named {
        if !marked.iter().any(|(_, held, at)| held == name && at == point) {
            marked.push((Vec::new(), name, *point));
        }
    }
    let words = |roles: Vec<String>, name: &str| {
        if roles.is_empty() { name.to_owned() } else { format!("{}: {name}", roles.join(", ")) }
    };
    marked.into_iter().map(|(roles, name, point)| (words(roles, name), point)).collect()
}

/// The unit that weights are drawn in, and how many kilograms it is: the author's system, unless another is asked for.
fn unit(build: &Build, units: Units) -> (&'static str, f64) {
    let metric = match units {
        Units::AsWritten => is_metric(build),
        Units::Us => false,
        Units::Metric => true,
    };
    if metric { ("kg", 1.0) } else { ("lb", Quantity::pounds(1.0).si()) }
}
