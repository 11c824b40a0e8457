//! Which part that nobody weighed most likely explains what the scale said.

use pintle_quantity::{Dimension, Quantity};
use pintle_spec::{Build, Footing, Known, Span};

use super::drift::{Seen, agree, all_seen};
use crate::figure::Figure;
use crate::uncertainty::{self, Tolerances};
use crate::weights::{Body, BodyKind};

/// A part that nobody weighed, and what it would have to weigh.
#[derive(Debug, Clone, PartialEq)]
pub struct Suspect {
    /// What it is called.
    pub name: String,
    /// Where it stands in the files.
    pub span: Option<Span>,
    /// Its mass as the spec has it, in the first state weighed that it is aboard in.
    pub mass: Quantity,
    /// How much more it would have to weigh there.
    pub change: Quantity,
    /// What is left of the tickets' differences then: Σ (difference / u)².
    pub chi_square: f64,
    /// How many of its own ± that is; none where nobody knows how sure its mass is.
    pub spreads: Option<f64>,
}

impl Suspect {
    /// The less, the likelier: what is left of the differences, and the change in its own standard uncertainties (half
    /// of its ±), both squared.
    pub fn score(&self) -> f64 {
        self.spreads.map_or(f64::INFINITY, |spreads| self.chi_square + (2.0 * spreads).powi(2))
    }
}

/// What leaves more than this of the differences explains nothing; ours, no source.
const EXPLAINS: f64 = 0.5;

/// The parts and loads aboard whose mass no scale gave, each with the change of its mass alone that explains the tickets
/// best; the likeliest first, without those that leave more than half of the differences. Nothing where all readings agree
/// with what was worked out, or there are none.
///
/// A part that weighs m and puts a of it into a reading whose difference is d with the standard uncertainty u is changed by
/// Σ(a·d/u²)/Σ(a²/u²) times m: least squares with one unknown. A load of which a state carries less changes there in
/// proportion. Water is no suspect: its weight follows from how full a tank is.
///
/// # Errors
/// The same as [`drift`](super::drift()) for readings and weights that are not known.
pub fn suspects(build: &Build, tolerances: &Tolerances) -> Known<Option<Vec<Suspect>>> {
    let seen = all_seen(build)?;
    if agree(&seen) {
        return Ok(None);
    }
    let before: f64 = seen.iter().map(|seen| (seen.apart() / seen.u).powi(2)).sum();
    let mut found: Vec<Suspect> = Vec::new();
    for body in seen.iter().flat_map(|seen| &seen.weights.bodies) {
        let held = found.iter().any(|held| held.name == body.name && held.span == body.span);
        if !held && is_unweighed(body) {
            found.extend(suspect(&seen, body, tolerances));
        }
    }
    found.retain(|suspect| suspect.chi_square <= EXPLAINS * before);
    found.sort_by(|one, other| one.score().total_cmp(&other.score()));
    Ok(Some(found))
}

/// Whether a body's mass was neither weighed nor follows from how full something is.
pub(super) fn is_unweighed(body: &Body) -> bool {
    let unweighed = [Footing::Maker, Footing::Computed, Footing::Guessed, Footing::Unstated].as_slice();
    matches!(body.kind, BodyKind::Trailer | BodyKind::Fitted | BodyKind::Load)
        && body.kilograms > 0.0
        && body.inputs.iter().any(|input| unweighed.contains(&input.footing))
}

fn suspect(seen: &[Seen], body: &Body, tolerances: &Tolerances) -> Option<Suspect> {
    let amounts: Vec<f64> = seen.iter().map(|seen| amount(seen, body)).collect();
    let weigh = |of: &dyn Fn(f64, f64) -> f64| -> f64 {
        seen.iter().zip(&amounts).map(|(seen, amount)| of(*amount, seen.apart()) / (seen.u * seen.u)).sum()
    };
    let squares = weigh(&|amount, _| amount * amount);
    if squares <= 0.0 {
        return None;
    }
    let times = weigh(&|amount, apart| amount * apart) / squares;
    let spread = uncertainty::expanded(&body.mass().trace, tolerances);
    // A mass that its author says is exact is no suspect.
    if spread.is_some_and(|spread| spread <= 0.0) {
        return None;
    }
    let mass = body.mass().quantity;
    let change = Quantity::from_si(times * body.kilograms, Dimension::MASS).with_unit_of(mass);
    Some(Suspect {
        name: body.name.clone(),
        span: body.span,
        mass,
        change,
        chi_square: weigh(&|amount, apart| (apart - times * amount).powi(2)),
        spreads: spread.map(|spread| change.si().abs() / spread),
    })
}

/// What a body puts into a reading, in kg; nothing where it is not aboard.
fn amount(seen: &Seen, body: &Body) -> f64 {
    let parts = seen.weights.parts(seen.of.measure());
    let same = parts.iter().filter(|part| part.name == body.name && part.span == body.span);
    same.map(|part| part.amount.si()).sum()
}

/// The parts and loads of a state that nobody weighed, the heaviest first.
pub(super) fn unweighed(seen_in: &crate::weights::Weights) -> Vec<(String, Figure)> {
    let mut found: Vec<(String, Figure)> = seen_in
        .bodies
        .iter()
        .filter(|body| is_unweighed(body))
        .map(|body| (body.name.clone(), body.mass()))
        .collect();
    found.sort_by(|one, other| other.1.quantity.si().total_cmp(&one.1.quantity.si()));
    found
}
