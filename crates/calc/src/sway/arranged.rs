//! The arrangements that a trailer is looked at in besides its own states: those with the least and the most on the
//! ball, and that with the greatest yaw inertia.

use pintle_spec::{Known, Missing, State, Use};

use super::yaw;
use crate::arrange::{Arrangements, End, Extremum};
use crate::case::Case;

/// More arrangements than these are not swung one by one.
const MOST_SWUNG: f64 = 512.0;

/// The arrangements to look at, each once.
pub(super) fn worst(case: &Case<'_>) -> Known<Vec<State>> {
    let arrangements = Arrangements::of(case.build)?;
    let mut found: Vec<State> = Vec::new();
    let extremes = [
        arrangements.extreme(Extremum::TongueShare, End::Least)?,
        arrangements.extreme(Extremum::TongueShare, End::Most)?,
        greatest_inertia(case, &arrangements)?,
    ];
    for state in extremes {
        if !found.iter().any(|held| held.name.value == state.name.value) {
            found.push(state);
        }
    }
    Ok(found)
}

/// The arrangement with the greatest yaw inertia. Whatever is added adds to it: a mass m at a distance r from the centre
/// of gravity of a trailer of mass W adds m·W / (m + W)·r² and its own. So where all can ride together, that is it; else
/// each arrangement with tanks and loads at their least or most is worked out.
pub(super) fn greatest_inertia(case: &Case<'_>, arrangements: &Arrangements<'_>) -> Known<State> {
    let build = case.build;
    let on_road = || build.states.iter().filter(|state| state.used == Use::Road);
    if build.eithers.is_empty() && on_road().all(|state| state.loads.is_empty()) {
        return arrangements.extreme(Extremum::Gross, End::Most);
    }
    let many = || {
        Missing::new(
            format!("the greatest yaw inertia of more than {MOST_SWUNG} arrangements"),
            Some(build.number.span),
            "write fewer either-or groups, or fewer loads in states of their own",
        )
    };
    if arrangements.count()? > MOST_SWUNG {
        return Err(many());
    }
    let mut best: Option<(f64, State)> = None;
    for state in arrangements.corners()?.ok_or_else(many)? {
        let inertia = yaw(case, &state)?.about_centre.quantity.si();
        if best.as_ref().is_none_or(|(held, _)| inertia > *held) {
            best = Some((inertia, state));
        }
    }
    best.map(|(_, state)| state).ok_or_else(many)
}
