//! Weights before and after.

use std::rc::Rc;

use pintle_calc::weights::Weights;
use pintle_calc::{Figure, Known};
use pintle_quantity::Quantity;
use pintle_spec::{Build, Use};

use super::say::difference;

/// A weight that is not as it was.
#[derive(Debug, Clone)]
pub struct FigureChange {
    /// The state, such as "road state `outward`"; none for the trailer as built.
    pub state: Option<String>,
    /// What it is, such as "tongue".
    pub name: &'static str,
    /// Before, or what is missing to know it.
    pub old: Result<Quantity, String>,
    /// Now, or what is missing to know it.
    pub new: Result<Quantity, String>,
    /// Now less before.
    pub by: Option<Quantity>,
}

type Worked = fn(&Rc<Weights>) -> Known<Figure>;

const AS_BUILT: &[(&str, Worked)] =
    &[("unloaded", Weights::unloaded), ("cargo capacity", Weights::cargo_capacity)];

const OF_STATE: &[(&str, Worked)] = &[
    ("gross", Weights::gross),
    ("tongue", Weights::tongue),
    ("tongue share", Weights::tongue_share),
    ("axles", Weights::axles),
    ("left", Weights::left),
    ("right", Weights::right),
    ("cg behind the ball", Weights::centre_x),
    ("cg right of the centreline", Weights::centre_y),
    ("cg above the ground", Weights::centre_z),
];

/// How a state is called.
pub(super) fn called(used: Use, name: &str) -> String {
    format!("{} state `{name}`", if used == Use::Road { "road" } else { "camp" })
}

/// Every weight that is not as it was, of the trailer as built and of the states that both versions have. States are
/// brought together by name.
pub(super) fn changes(old: &Build, new: &Build, same: &mut usize) -> Vec<FigureChange> {
    let mut changes = Vec::new();
    let mut add =
        |state: Option<&str>, rows: &[(&'static str, Worked)], before: &Rc<Weights>, after: &Rc<Weights>| {
            for (name, work) in rows {
                let worked =
                    |weights| work(weights).map(|figure| figure.quantity).map_err(|missing| missing.what);
                let (old, new) = (worked(before), worked(after));
                if is_same(&old, &new) {
                    *same += 1;
                    continue;
                }
                let by =
                    old.as_ref().ok().zip(new.as_ref().ok()).and_then(|(old, new)| difference(*old, *new));
                changes.push(FigureChange { state: state.map(str::to_owned), name, old, new, by });
            }
        };
    add(None, AS_BUILT, &Weights::as_built(old), &Weights::as_built(new));
    for (at, state) in new.states.iter().enumerate() {
        let Some(before) = old.states.iter().position(|held| held.name.value == state.name.value) else {
            continue;
        };
        let called = called(state.used, &state.name.value);
        add(Some(&called), OF_STATE, &Weights::of_state(old, before), &Weights::of_state(new, at));
    }
    changes
}

/// Two figures that compare as equal, or that nobody knows, be it for another reason.
fn is_same(old: &Result<Quantity, String>, new: &Result<Quantity, String>) -> bool {
    match (old, new) {
        (Ok(old), Ok(new)) => old.equals(*new) == Ok(true),
        (Err(_), Err(_)) => true,
        _ => false,
    }
}
