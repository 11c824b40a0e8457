//! Where the difference sits, and which part most likely makes it.

use pintle_quantity::{Quantity, Units};
use pintle_spec::Known;

use super::super::drift::{Drift, drift};
use super::super::reading::tickets;
use super::super::suspects::{Suspect, suspects, unweighed};
use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::sum;
use crate::weights::Weights;
use crate::working::{Outcome, Working};

/// So many suspects, and so many of the heaviest parts, are named.
const NAMED: usize = 10;

const FITTED: Origin = Origin::derived("weighted least squares over all readings of all tickets");

/// What is sought over all tickets together.
pub(super) fn workings(case: &Case<'_>) -> Vec<Working> {
    let found = drift(case.build, case.assumptions.tolerances());
    let mut all = placed(&found);
    let ranked = suspects(case.build, case.assumptions.tolerances());
    all.push(Working::of(
        "scale",
        "suspects",
        "the build",
        "parts that would explain the tickets, likeliest first",
        |_| {
            Ok(match ranked.clone()? {
                None => agreed(),
                Some(ranked) if ranked.is_empty() => Outcome::None(
                    "no part that was not weighed explains half of the differences by itself".to_owned(),
                ),
                Some(ranked) => Outcome::Texts(ranked.iter().take(NAMED).map(told).collect()),
            })
        },
    ));
    if let Ok(Some(ranked)) = &ranked {
        all.extend(ranked.iter().take(NAMED).flat_map(of_suspect));
    }
    all.extend(never_weighed(case));
    all
}

fn agreed() -> Outcome {
    Outcome::None("every reading agrees with what was worked out, to what the scale can tell".to_owned())
}

fn placed(found: &Known<Option<Drift>>) -> Vec<Working> {
    let of = "the build";
    let unread = || Outcome::None("no ticket has a reading".to_owned());
    let too_little = || Outcome::None("the weight is no more than what the scale can tell".to_owned());
    let with = |key, says, symbol, formula, pick: fn(&Drift) -> Known<Option<Figure>>| {
        Working::of("scale", key, of, says, |work| {
            let Some(drift) = found.clone()? else { return Ok(unread()) };
            let Some(figure) = pick(&drift)? else { return Ok(too_little()) };
            Ok(work.step(symbol, says, formula, Ok(figure), FITTED)?.into())
        })
    };
    vec![
        with(
            "unaccounted_mass",
            "one weight that would explain the tickets",
            "m",
            "least Σ ((reading − sum − row·(m, m·x/L, 2·m·y/b)) / u)²",
            |found| Ok(Some(found.mass.clone())),
        ),
        with(
            "unaccounted_behind_ball",
            "how far behind the ball it would sit",
            "x",
            "L · (m·x/L) / m",
            |found| found.x.clone(),
        ),
        with(
            "unaccounted_right_of_centre",
            "how far right of the centreline it would sit",
            "y",
            "b/2 · (2·m·y/b) / m",
            |found| found.y.clone(),
        ),
        with(
            "chi_square_before",
            "what the tickets are off, in squares of their standard uncertainties",
            "χ²",
            "Σ ((reading − sum) / u)²",
            |found| Ok(Some(Figure::constant(Quantity::share(found.before)))),
        ),
        with(
            "chi_square_after",
            "what is left with that weight in its place",
            "χ²",
            "Σ ((reading − sum − fitted) / u)²",
            |found| Ok(Some(Figure::constant(Quantity::share(found.after)))),
        ),
    ]
}

fn told(suspect: &Suspect) -> String {
    let Suspect { name, change, chi_square, spreads, .. } = suspect;
    let way = if change.si() < 0.0 { "less" } else { "more" };
    let change = change.abs().show(Units::AsWritten);
    let spreads = match spreads {
        Some(spreads) => format!("{spreads:.1} of its ±"),
        None => "how sure its mass is, is not known".to_owned(),
    };
    format!("{name} {change} {way} ({spreads}; chi-square {chi_square:.1} left)")
}

fn of_suspect(suspect: &Suspect) -> [Working; 3] {
    let mass = Figure::constant(suspect.mass);
    let change = Figure::constant(suspect.change);
    let fitted = || Origin::derived("least squares with the mass of this part as the one unknown");
    let more =
        Working::of("scale", "mass_change", &suspect.name, "what it would have to weigh more", |work| {
            work.know("m", "its mass in the spec", mass, Origin::WRITTEN);
            work.step("δ", "change", "m · Σ(a·d/u²) / Σ(a²/u²)", Ok(change.clone()), fitted())
        });
    let says = "what is left of the tickets' differences then";
    let left = Working::of("scale", "mass_change_chi_square", &suspect.name, says, |work| {
        let chi_square = Figure::constant(Quantity::share(suspect.chi_square));
        work.step("χ²", says, "Σ ((d − δ·a/m) / u)²", Ok(chi_square), fitted())
    });
    let says = "that change over its own ±";
    let over = Working::of("scale", "mass_change_over_spread", &suspect.name, says, |work| {
        let Some(spreads) = suspect.spreads else {
            return Ok(Outcome::None("how sure its mass is, is not known".to_owned()));
        };
        let figure = Figure::constant(Quantity::share(spreads));
        Ok(work.step("", says, "|δ| / ±", Ok(figure), Origin::derived("definition"))?.into())
    });
    [more, left, over]
}

fn never_weighed(case: &Case<'_>) -> Vec<Working> {
    let mut all = Vec::new();
    let mut done: Vec<usize> = Vec::new();
    for ticket in tickets(case.build) {
        if done.contains(&ticket.state) {
            continue;
        }
        done.push(ticket.state);
        let weights = Weights::of_state(case.build, ticket.state);
        let named = case.build.states.get(ticket.state).map(|state| format!("state `{}`", state.name.value));
        let of = named.unwrap_or_default();
        let parts = unweighed(&weights);
        let says = "weight of parts and loads that nobody weighed";
        all.push(Working::of("scale", "unweighed_mass", of.clone(), says, |work| {
            let total = sum(pintle_quantity::Dimension::MASS, parts.iter().map(|(_, mass)| mass.clone()))?;
            let unit = weights.gross()?.quantity;
            let total = Figure::traced(total.quantity.with_unit_of(unit), total.trace);
            let definition = Origin::derived("masses whose basis is not a scale");
            work.step("", says, "Σ m", Ok(total), definition)
        }));
        all.push(Working::of("scale", "heaviest_unweighed", of, "the heaviest of them", |_| {
            let named = parts.iter().take(NAMED);
            Ok(named
                .map(|(name, mass)| format!("{name} {}", mass.quantity.show(Units::AsWritten)))
                .collect::<Vec<_>>())
        }));
    }
    all
}
