//! One weight that nobody accounts for, and its place, that would explain the tickets.

use std::rc::Rc;

use pintle_quantity::{Dimension, Quantity};
use pintle_spec::schema::trailer::{self, axle};
use pintle_spec::{Build, Coordinate, Known, Missing};

use super::fit::{Fit, Observation, fit};
use super::reading::{Of, tickets};
use crate::figure::Figure;
use crate::space::{alike, sum};
use crate::uncertainty::{self, Tolerances};
use crate::weights::Weights;

/// One reading of one ticket, and what was worked out for it.
#[derive(Debug, Clone)]
pub(super) struct Seen {
    pub(super) of: Of,
    pub(super) weights: Rc<Weights>,
    /// The reading.
    pub(super) reading: Figure,
    /// What was worked out.
    pub(super) sum: Figure,
    /// Standard uncertainty of the reading, in kg.
    pub(super) u: f64,
    /// How far off the reading can be at most, in kg.
    pub(super) most: f64,
}

impl Seen {
    /// The reading less what was worked out, in kg.
    pub(super) fn apart(&self) -> f64 {
        self.reading.quantity.si() - self.sum.quantity.si()
    }
}

/// What was worked out for a reading.
pub(super) fn worked_out(weights: &Rc<Weights>, of: Of) -> Known<Figure> {
    match of {
        Of::Gross => weights.gross(),
        Of::Tongue => weights.tongue(),
        Of::Axles => weights.axles(),
        Of::Left => weights.left(),
        Of::Right => weights.right(),
    }
}

/// Every reading of every ticket that says something of its own.
pub(super) fn all_seen(build: &Build) -> Known<Vec<Seen>> {
    let mut seen = Vec::new();
    for ticket in tickets(build) {
        let weights = Weights::of_state(build, ticket.state);
        for reading in ticket.readings()?.iter().filter(|reading| ticket.says_more(reading)) {
            seen.push(Seen {
                of: reading.of,
                sum: worked_out(&weights, reading.of)?,
                weights: Rc::clone(&weights),
                reading: reading.figure.clone(),
                u: reading.u,
                most: reading.most,
            });
        }
    }
    Ok(seen)
}

/// Whether every reading agrees with what was worked out, to within what the scale can tell.
pub(super) fn agree(seen: &[Seen]) -> bool {
    // A billionth of a gram decides nothing.
    seen.iter().all(|seen| seen.apart().abs() <= seen.most + 1e-9)
}

/// The weight that nobody accounts for.
#[derive(Debug, Clone)]
pub struct Drift {
    /// The weight; negative where the sum of the parts is too heavy. Its ± is the scale's.
    pub mass: Figure,
    /// How far behind the ball it would sit; nothing where it is no more than what the scale can tell.
    pub x: Known<Option<Figure>>,
    /// How far to the right of the centreline.
    pub y: Known<Option<Figure>>,
    /// What the tickets are off without it: Σ (difference / u)².
    pub before: f64,
    /// What is left with it.
    pub after: f64,
    /// Readings less unknowns.
    pub freedom: usize,
}

/// One weight, the same in every ticket, that explains best what the scale said beyond the sum of the parts: weighted
/// least squares over all readings. Of a weight m at x and y the gross has m, the axles have m·x/L, the tongue has the
/// rest, and right less left is 2·m·y/b. Nothing where there is no reading.
///
/// # Errors
/// How sure a reading is, or what its state weighs, where that is not known; or readings that do not tell even its mass.
pub fn drift(build: &Build, tolerances: &Tolerances) -> Known<Option<Drift>> {
    let seen = all_seen(build)?;
    if seen.is_empty() {
        return Ok(None);
    }
    let before = seen.iter().map(|seen| (seen.apart() / seen.u).powi(2)).sum();
    let sides = |of: Of| matches!(of, Of::Left | Of::Right);
    // Where left and right stand on a ticket the weight has a place across; else only one lengthways; else none.
    if let Some((found, used)) = solved::<3>(&seen, |_| true) {
        let [mass, axles, side] = unknowns(&found, &used)?;
        let (x, y) = (lengthways(build, &mass, &axles, tolerances), across(build, &mass, &side, tolerances));
        return Ok(Some(Drift { mass, x, y, before, after: found.chi_square, freedom: found.freedom }));
    }
    let no_side = || Missing::new("left and right on one ticket", None, "weigh the wheels of each side");
    if let Some((found, used)) = solved::<2>(&seen, |of| !sides(of)) {
        let [mass, axles] = unknowns(&found, &used)?;
        let x = lengthways(build, &mass, &axles, tolerances);
        let (after, freedom) = (found.chi_square, found.freedom);
        return Ok(Some(Drift { mass, x, y: Err(no_side()), before, after, freedom }));
    }
    if let Some((found, used)) = solved::<1>(&seen, |of| of == Of::Gross) {
        let [mass] = unknowns(&found, &used)?;
        let no_x = Missing::new("tongue and axles on one ticket", None, "weigh the tongue as well");
        let (after, freedom) = (found.chi_square, found.freedom);
        return Ok(Some(Drift { mass, x: Err(no_x), y: Err(no_side()), before, after, freedom }));
    }
    let help = "a ticket needs `gross`, or `tongue` and `axles`";
    Err(Missing::new("enough readings to tell a weight from its place", None, help))
}

fn solved<const N: usize>(seen: &[Seen], fits: impl Fn(Of) -> bool) -> Option<(Fit<N>, Vec<&Seen>)> {
    let used: Vec<&Seen> = seen.iter().filter(|seen| fits(seen.of)).collect();
    let observation = |seen: &&Seen| {
        let row = seen.of.row();
        let cell = |at: usize| row.get(at).copied().unwrap_or_default();
        Observation { row: std::array::from_fn(cell), value: seen.apart(), u: seen.u }
    };
    let found = fit(&used.iter().map(observation).collect::<Vec<_>>())?;
    Some((found, used))
}

/// The unknowns as figures that depend on the readings. What was worked out stands in them as it is: it is what the scale
/// is held against.
fn unknowns<const N: usize>(found: &Fit<N>, used: &[&Seen]) -> Known<[Figure; N]> {
    let mut figures = Vec::with_capacity(N);
    for gains in &found.gains {
        let part = |(gain, seen): (&f64, &&Seen)| -> Known<Figure> {
            let sum = Figure::constant(seen.sum.quantity);
            Ok(alike(seen.reading.minus(&sum))?.scaled(*gain))
        };
        let parts: Vec<Figure> = gains.iter().zip(used).map(part).collect::<Known<_>>()?;
        let figure = sum(Dimension::MASS, parts)?;
        let unit = used.first().map(|seen| seen.reading.quantity);
        let shown = unit.map_or(figure.quantity, |unit| figure.quantity.with_unit_of(unit));
        figures.push(Figure::traced(shown, figure.trace));
    }
    figures.try_into().map_err(|_| Missing::new("the unknowns of a fit", None, "report this"))
}

/// Whether a weight is more than what the scale can tell.
fn told(mass: &Figure, tolerances: &Tolerances) -> bool {
    let width = uncertainty::expanded(&mass.trace, tolerances);
    width.is_some_and(|width| mass.quantity.si().abs() > width)
}

fn lengthways(
    build: &Build,
    mass: &Figure,
    axles: &Figure,
    tolerances: &Tolerances,
) -> Known<Option<Figure>> {
    let length = Figure::coordinate(&build.surfaces.axle.clone()?);
    Ok(told(mass, tolerances).then(|| shown_as(&length.times(&axles.over(mass)), &length)))
}

fn across(build: &Build, mass: &Figure, side: &Figure, tolerances: &Tolerances) -> Known<Option<Figure>> {
    let track = Coordinate::of(build.trailer.need_table(&trailer::AXLE)?, &axle::TRACK)?;
    let track = Figure::coordinate(&track);
    Ok(told(mass, tolerances).then(|| shown_as(&track.scaled(0.5).times(&side.over(mass)), &track)))
}

fn shown_as(figure: &Figure, like: &Figure) -> Figure {
    let plain = Quantity::from_si(figure.quantity.si(), Dimension::LENGTH);
    Figure::traced(plain.with_unit_of(like.quantity), figure.trace.clone())
}
