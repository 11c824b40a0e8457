//! Which readings of two versions belong together.

use std::collections::BTreeMap;

use pintle_finding::{Bound, Reading, Verdict};

/// Kinds of subjects whose names tell how they are arranged, and so may differ between two versions of one.
const ARRANGEMENT: &str = "arrangement";
const TIGHT: &str = "tight reading";

/// A reading before and now.
pub(super) type Pair = (Option<Reading>, Option<Reading>);

/// What belongs together: of one rule, one kind of subject and, where names are kept, one name.
type Key = (String, &'static str, String);

/// Brings readings together. A rule that stops for want of a value makes a reading of nothing in particular: it stands
/// for one that was taken before.
pub(super) fn paired(old: Vec<Reading>, new: Vec<Reading>) -> Vec<Pair> {
    let (old_named, new_named) = (named(&old), named(&new));
    let (of_old_states, of_new_states) = (of_states(&old), of_states(&new));
    let mut groups: BTreeMap<Key, usize> = BTreeMap::new();
    let mut sides: Vec<(Vec<Reading>, Vec<Reading>)> = Vec::new();
    let mut put = |reading: Reading, is_new: bool| {
        let next = sides.len();
        let names = if is_new { &new_named } else { &old_named };
        let at = *groups.entry(key(&reading, names)).or_insert(next);
        if at == next {
            sides.push((Vec::new(), Vec::new()));
        }
        if let Some((before, after)) = sides.get_mut(at) {
            if is_new { after.push(reading) } else { before.push(reading) }
        }
    };
    for reading in new {
        put(reading, true);
    }
    for reading in old {
        put(reading, false);
    }
    let mut pairs = Vec::new();
    for (mut before, mut after) in sides {
        pairs.extend(matched(&mut before, &mut after, alike));
        pairs.extend(matched(&mut before, &mut after, |old, new| old.what == new.what && measured(old, new)));
        pairs.extend(matched(&mut before, &mut after, |old, new| stands_for_any(old) || stands_for_any(new)));
        pairs.extend(before.into_iter().map(|old| {
            let new = stand_in(&old, &of_new_states);
            (Some(old), new)
        }));
        pairs.extend(after.into_iter().map(|new| (stand_in(&new, &of_old_states), Some(new))));
    }
    pairs
}

fn key(reading: &Reading, named: &BTreeMap<String, String>) -> Key {
    let name = match reading.subject.kind {
        ARRANGEMENT => String::new(),
        TIGHT => named.get(&reading.subject.name).unwrap_or(&reading.subject.name).clone(),
        _ => reading.subject.name.clone(),
    };
    (reading.rule.id.clone(), reading.subject.kind, name)
}

/// Tight readings are named by what was read, on what, and by which rule. Which state or arrangement is the tightest can
/// change: the name with it, and the name without it.
fn named(readings: &[Reading]) -> BTreeMap<String, String> {
    let name = |reading: &Reading| {
        let short = format!("{}, by {}", reading.what, reading.rule.id);
        let full = match reading.subject.name.as_str() {
            "" => short.clone(),
            name => format!("{} of {name}, by {}", reading.what, reading.rule.id),
        };
        (full, short)
    };
    readings.iter().filter(|reading| reading.subject.kind != TIGHT).map(name).collect()
}

/// Readings that can stand in for one on an arrangement.
fn of_states(readings: &[Reading]) -> Vec<Reading> {
    readings.iter().filter(|reading| !matches!(reading.subject.kind, ARRANGEMENT | TIGHT)).cloned().collect()
}

/// The reading on an arrangement is left out where one of the spec's own states shows as much. Then the worst that the
/// same rule read of the same thing on a state stands in for it: it was the worst of all arrangements.
fn stand_in(reading: &Reading, of_states: &[Reading]) -> Option<Reading> {
    if reading.subject.kind != ARRANGEMENT {
        return None;
    }
    let mut worst: Option<&Reading> = None;
    for state in
        of_states.iter().filter(|state| state.rule.id == reading.rule.id && same_sort(state, reading))
    {
        if worst.is_none_or(|held| worse(state, held)) {
            worst = Some(state);
        }
    }
    worst.cloned()
}

/// Whether two readings of one rule are of the same thing: the same figure against the same sort of limit, the same
/// condition, or the same that is missing.
fn same_sort(left: &Reading, right: &Reading) -> bool {
    match (stands_for_any(left), stands_for_any(right)) {
        (true, true) => left.verdict == right.verdict && left.reason == right.reason,
        (false, false) => {
            left.what == right.what
                && match (&left.bound, &right.bound) {
                    (Bound::Holds(left), Bound::Holds(right)) => left == right,
                    (left, right) => std::mem::discriminant(left) == std::mem::discriminant(right),
                }
        }
        _ => false,
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

/// Takes out, in order, what belongs together by some measure.
fn matched(
    before: &mut Vec<Reading>,
    after: &mut Vec<Reading>,
    together: impl Fn(&Reading, &Reading) -> bool,
) -> Vec<Pair> {
    let mut pairs = Vec::new();
    let mut rest = Vec::new();
    for new in after.drain(..) {
        match before.iter().position(|old| together(old, &new)) {
            Some(at) => pairs.push((Some(before.remove(at)), Some(new))),
            None => rest.push(new),
        }
    }
    *after = rest;
    pairs
}

/// The same thing measured against the same limit, or the same condition.
fn alike(old: &Reading, new: &Reading) -> bool {
    let condition = |reading: &Reading| match &reading.bound {
        Bound::Holds(words) => Some(words.clone()),
        _ => None,
    };
    old.what == new.what
        && old.limit_name == new.limit_name
        && condition(old) == condition(new)
        && stands_for_any(old) == stands_for_any(new)
}

/// Two conditions that differ are two faults, not one; a figure is the same figure against another limit.
fn measured(old: &Reading, new: &Reading) -> bool {
    old.value.is_some() && new.value.is_some()
}

/// Whether a reading is of nothing in particular: the rule did not apply, or stopped.
fn stands_for_any(reading: &Reading) -> bool {
    matches!(reading.verdict, Verdict::NotApplicable | Verdict::CannotJudge | Verdict::Broken)
}
