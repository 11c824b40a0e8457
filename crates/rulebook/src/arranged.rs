//! Judging a rule on every way the trailer can be arranged on the road, by the arrangements at which the figures that
//! it asks for are least and greatest.
//!
//! A rule is judged on the extremes of what its script reads of a state; of its readings on them the worst of each sort
//! is kept. Nothing is lost by that: where the worst passes, so do all.

use pintle_finding::{Bound, Reading, Verdict};

use crate::taken::Taken;

/// Of readings on arrangements, the worst of each sort: for each figure read the one with the least margin, each
/// missing value once, each way of failing once. What the spec's own states have shown as well is left out.
pub(crate) fn worst(of_states: &[Taken], on_arrangements: Vec<Taken>) -> Vec<Taken> {
    let mut kept: Vec<Taken> = Vec::new();
    for taken in on_arrangements {
        match kept.iter_mut().find(|held| same_sort(&held.reading, &taken.reading)) {
            Some(held) if worse(&taken.reading, &held.reading) => *held = taken,
            Some(_) => {}
            None => kept.push(taken),
        }
    }
    kept.retain(|taken| !of_states.iter().any(|state| shows_as_much(&state.reading, &taken.reading)));
    kept
}

/// Whether two readings of one rule measure the same thing.
pub(crate) fn same_sort(left: &Reading, right: &Reading) -> bool {
    let measured = |reading: &Reading| matches!(reading.verdict, Verdict::Pass | Verdict::Fault);
    match (measured(left), measured(right)) {
        (true, true) => left.what == right.what && sort_of(&left.bound) == sort_of(&right.bound),
        (false, false) => left.verdict == right.verdict && left.reason == right.reason,
        _ => false,
    }
}

/// What sort of comparison was made, and for a condition which.
fn sort_of(bound: &Bound) -> (u8, &str) {
    match bound {
        Bound::AtLeast(_) => (0, ""),
        Bound::AtMost(_) => (1, ""),
        Bound::Between(..) => (2, ""),
        Bound::Equal(_) => (3, ""),
        Bound::Holds(words) => (4, words),
        Bound::None => (5, ""),
    }
}

fn worse(reading: &Reading, than: &Reading) -> bool {
    match (reading.verdict, than.verdict) {
        (Verdict::Fault, Verdict::Pass) => true,
        (Verdict::Pass, Verdict::Fault) => false,
        _ => match (reading.margin(), than.margin()) {
            (Some(margin), Some(other)) => margin.amount.at_least(other.amount) == Ok(false),
            _ => false,
        },
    }
}

/// Whether a state of the spec's own shows at least as much as an arrangement does.
fn shows_as_much(state: &Reading, arrangement: &Reading) -> bool {
    same_sort(state, arrangement) && !worse(arrangement, state) && state.verdict == arrangement.verdict
}
