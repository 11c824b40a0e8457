//! The envelope in the documents: gross against tongue weight of every arrangement, and what ratings and the band allow.

use pintle_calc::Known;
use pintle_calc::arrange::{self, Allowed, Arrangements, Bounded, End, Extremum, Point};
use pintle_quantity::{Dimension, Quantity, Units};
use pintle_spec::Build;
use pintle_spec::schema::trailer;
use serde::Serialize;

use super::Terms;
use super::arranged::Count;
use super::band::{Band, Written};
use super::shown::{Maybe, Shown};

/// Gross and tongue weights of all road arrangements.
#[derive(Debug, Serialize)]
pub(super) struct Envelope {
    /// Gross and tongue weight of each arrangement with all that varies at its ends, in kg; none where they are many.
    points: Option<Vec<[f64; 2]>>,
    /// How many arrangements are not listed for being too many.
    not_listed: Option<Count>,
    hull: Vec<Corner>,
    allowed: Region,
    ratings_not_given: Vec<String>,
    extremes: Vec<Marked>,
    named: Vec<Marked>,
}

#[derive(Debug, Serialize)]
struct Corner {
    gross: Shown,
    tongue: Shown,
}

#[derive(Debug, Serialize)]
struct Region {
    corners: Vec<Corner>,
    band: Maybe<Written>,
    ratings: Vec<Rating>,
    framed: bool,
}

#[derive(Debug, Serialize)]
struct Rating {
    bounds: &'static str,
    of: String,
    value: Shown,
}

#[derive(Debug, Serialize)]
struct Marked {
    #[serde(skip_serializing_if = "Option::is_none")]
    figure: Option<&'static str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    end: Option<&'static str>,
    arrangement: String,
    gross: Shown,
    tongue: Shown,
}

impl Envelope {
    /// The envelope of a build.
    pub(super) fn of(build: &Build, all: &Arrangements<'_>, terms: Terms<'_>) -> Maybe<Self> {
        let units = terms.look.units;
        let weight = |kilograms: f64| Shown::of(weight(build, kilograms), units);
        let corner = |point: &Point| Corner { gross: weight(point.gross), tongue: weight(point.tongue) };
        let marked = |arrangement: &str, point: Point| Marked {
            figure: None,
            end: None,
            arrangement: arrangement.to_owned(),
            gross: weight(point.gross),
            tongue: weight(point.tongue),
        };
        Maybe::of(all.envelope(), |envelope| {
            let allowed = allowed(build, terms.band, &envelope);
            let point = |point: &Point| [point.gross, point.tongue];
            Self {
                not_listed: envelope.points.is_none().then_some(Count::of(envelope.count)),
                points: envelope.points.as_ref().map(|points| points.iter().map(point).collect()),
                hull: envelope.hull.iter().map(corner).collect(),
                ratings_not_given: allowed.not_given.iter().map(|missing| missing.what.clone()).collect(),
                extremes: envelope
                    .extremes
                    .iter()
                    .map(|extreme| Marked {
                        figure: Some(match extreme.what {
                            Extremum::Gross => "gross",
                            Extremum::Tongue => "tongue",
                            _ => "tongue_share",
                        }),
                        end: Some(if extreme.end == End::Least { "least" } else { "most" }),
                        ..marked(&extreme.name, extreme.point)
                    })
                    .collect(),
                named: envelope.named.iter().map(|(name, point)| marked(name, *point)).collect(),
                allowed: Region {
                    corners: allowed.region.iter().map(corner).collect(),
                    band: Written::of(terms.band, units),
                    ratings: ratings(&allowed, units),
                    framed: allowed.framed,
                },
            }
        })
    }
}

fn ratings(allowed: &Allowed, units: Units) -> Vec<Rating> {
    let rating = |(bounds, figure): &(Bounded, pintle_calc::Figure)| Rating {
        bounds: match bounds {
            Bounded::Gross => "gross",
            Bounded::Tongue => "tongue",
            Bounded::Axles => "axles",
        },
        of: name_of(figure),
        value: Shown::of(figure.quantity, units),
    };
    allowed.ratings.iter().map(rating).collect()
}

/// What a rating is called: the values that it stands on.
pub fn name_of(figure: &pintle_calc::Figure) -> String {
    let names = figure.trace.inputs().into_iter().map(|input| input.name());
    names.collect::<Vec<_>>().join(" × ")
}

/// What ratings and the band allow. Where there is no band, what ratings allow of any share that a tongue can have: from
/// −100 % to 100 %.
pub(super) fn allowed(build: &Build, band: &Known<Band>, envelope: &arrange::Envelope) -> Allowed {
    let (least, most) = match band {
        Ok(band) => (band.least.share, band.most.share),
        Err(_) => (Quantity::share(-1.0), Quantity::share(1.0)),
    };
    // Far enough out that no rating that is given lies beyond.
    let ratings = arrange::allowed(build, least, most, 1.0).ratings;
    let ratings = ratings.iter().map(|(_, rating)| rating.quantity.si());
    let reach = envelope.hull.iter().flat_map(|point| [point.gross, point.tongue.abs()]);
    let greatest = ratings.chain(reach).fold(1.0, f64::max);
    arrange::allowed(build, least, most, 4.0 * greatest)
}

/// A weight in the unit that the trailer's was written in.
pub(super) fn weight(build: &Build, kilograms: f64) -> Quantity {
    let plain = Quantity::from_si(kilograms, Dimension::MASS);
    build.trailer.quantity(&trailer::MASS).map_or(plain, |mass| plain.with_unit_of(mass.value))
}
