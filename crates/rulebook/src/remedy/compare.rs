//! What a change did to the findings: which are gone, which are new, which are worse.

use std::collections::BTreeMap;

use pintle_finding::{Bound, Grade, Margin, Reading, Verdict};
use pintle_script::{ARRANGEMENT, TIGHT};

/// Which finding a reading is, whatever its figures: a finding before a change and one after it are the same when their
/// keys are. Of the arrangements the worst is read, which may be another one after a change, so they count as one; so do
/// the tight readings of one rule.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Key {
    rule: String,
    kind: &'static str,
    name: String,
    what: String,
    bound: (u8, String),
    verdict: Verdict,
}

impl Key {
    /// The key of a reading.
    pub(super) fn of(reading: &Reading) -> Self {
        let name = match reading.subject.kind {
            ARRANGEMENT => String::new(),
            TIGHT => read_by(reading).unwrap_or_default().to_owned(),
            _ => reading.subject.name.clone(),
        };
        let reason = match reading.verdict {
            Verdict::Pass | Verdict::Fault => "",
            _ => reading.reason.as_deref().unwrap_or_default(),
        };
        let (sort, words) = sort_of(&reading.bound);
        Self {
            rule: reading.rule.id.clone(),
            kind: reading.subject.kind,
            name,
            what: reading.what.clone(),
            bound: (sort, format!("{words}{reason}")),
            verdict: reading.verdict,
        }
    }
}

/// The rule whose reading is judged, for a finding on a tight reading.
fn read_by(reading: &Reading) -> Option<&str> {
    let tight = reading.subject.kind == TIGHT;
    reading.subject.name.rsplit_once(", by ").filter(|_| tight).map(|(_, rule)| rule)
}

/// Whether, after a change, a reading of a rule passes by less than it could be off by.
pub(super) fn is_tight(rule: &str, after: &[Reading]) -> bool {
    let found = |reading: &Reading| reading.verdict.is_finding() && read_by(reading) == Some(rule);
    after.iter().any(found)
}

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

/// The findings among readings, with the margins of each, least first.
fn findings(readings: &[Reading]) -> BTreeMap<Key, Vec<(&Reading, Option<Margin>)>> {
    let mut found: BTreeMap<Key, Vec<(&Reading, Option<Margin>)>> = BTreeMap::new();
    for reading in readings.iter().filter(|reading| reading.verdict.is_finding()) {
        found.entry(Key::of(reading)).or_default().push((reading, reading.margin()));
    }
    let amount = |margin: &Option<Margin>| margin.map_or(f64::NEG_INFINITY, |margin| margin.amount.si());
    for alike in found.values_mut() {
        alike.sort_by(|(_, one), (_, other)| amount(one).total_cmp(&amount(other)));
    }
    found
}

/// What is worse after a change.
#[derive(Debug, Default)]
pub(super) struct Worse<'r> {
    /// Findings that were not there before, and such whose margin has shrunk; the gravest first.
    pub(super) harm: Vec<&'r Reading>,
    /// What is told and not refused: advice that was there before and whose margin has shrunk, since advice is no defect;
    /// and readings that pass and have become tight or tighter, since they still pass.
    pub(super) told: Vec<&'r Reading>,
    /// Faults of arrangements that were there before, hidden behind a state that showed as much, and are no worse.
    pub(super) uncovered: Vec<&'r Reading>,
}

/// What is worse after a change. A fault that has become a pass may pass by less than it could be off by: that is what is
/// left of it, and told with the reading itself.
pub(super) fn worse<'r>(before: &[Reading], after: &'r [Reading]) -> Worse<'r> {
    let was = findings(before);
    let mut worse = Worse::default();
    for (key, now) in findings(after) {
        let left = if key.kind == TIGHT { cleared(&key.name, before, after) } else { 0 };
        let then = was.get(&key).map_or(&[][..], Vec::as_slice);
        for (at, (reading, margin)) in now.iter().skip(left).enumerate() {
            let was = then.get(at).map(|(_, was)| was);
            if was.is_none() && was_hidden(before, reading) {
                worse.uncovered.push(reading);
                continue;
            }
            let shrunk = match (was, margin) {
                (Some(Some(was)), Some(margin)) => margin.amount.at_least(was.amount) != Ok(true),
                (Some(None), None) => false,
                _ => true,
            };
            let advice = was.is_some() && reading.grade() == Grade::Advice;
            let mild = reading.verdict == Verdict::Fault && (advice || key.kind == TIGHT);
            match (shrunk, mild) {
                (false, _) => {}
                (true, true) => worse.told.push(reading),
                (true, false) => worse.harm.push(reading),
            }
        }
    }
    worse.harm.sort_by_key(|reading| std::cmp::Reverse(reading.grade()));
    worse
}

/// Whether a fault of an arrangement was there before, behind a state on which the same was at least as far beyond its
/// limit: an arrangement is only listed where no state shows as much.
fn was_hidden(before: &[Reading], fault: &Reading) -> bool {
    let same = |held: &&Reading| {
        held.rule.id == fault.rule.id
            && held.verdict == Verdict::Fault
            && held.what == fault.what
            && sort_of(&held.bound) == sort_of(&fault.bound)
    };
    let as_far = |held: &Reading| match (held.margin(), fault.margin()) {
        (Some(was), Some(now)) => now.amount.at_least(was.amount) == Ok(true),
        (None, None) => true,
        _ => false,
    };
    fault.subject.kind == ARRANGEMENT && before.iter().filter(same).any(as_far)
}

/// How many faults fewer a rule finds.
fn cleared(rule: &str, before: &[Reading], after: &[Reading]) -> usize {
    let faults = |readings: &[Reading]| {
        readings.iter().filter(|held| held.rule.id == rule && held.verdict == Verdict::Fault).count()
    };
    faults(before).saturating_sub(faults(after))
}

/// The reading that stands in a finding's place after a change: of the same rule on the same subject, measuring the
/// same. For an arrangement the worst of all that the rule measured on the road.
pub(super) fn successor<'r>(finding: &Reading, after: &'r [Reading]) -> Option<&'r Reading> {
    let arranged = finding.subject.kind == ARRANGEMENT;
    let same_rule = after.iter().filter(|reading| reading.rule.id == finding.rule.id);
    let same_subject = same_rule.filter(|reading| {
        arranged
            || (reading.subject.kind, &reading.subject.name) == (finding.subject.kind, &finding.subject.name)
    });
    let mut same: Vec<&Reading> = same_subject.collect();
    let measured = |reading: &&Reading| {
        reading.what == finding.what && sort_of(&reading.bound) == sort_of(&finding.bound)
    };
    if same.iter().any(measured) {
        same.retain(measured);
    }
    let margin = |reading: &&Reading| reading.margin().map_or(f64::INFINITY, |margin| margin.amount.si());
    same.into_iter().min_by(|one, other| margin(one).total_cmp(&margin(other)))
}

/// Whether a finding is no longer there, and no arrangement shows the same that it hid before.
pub(super) fn is_gone(finding: &Reading, before: &[Reading], after: &[Reading]) -> bool {
    let key = Key::of(finding);
    let same_sort = |held: &Reading| {
        held.rule.id == finding.rule.id
            && held.what == finding.what
            && sort_of(&held.bound) == sort_of(&finding.bound)
    };
    let uncovered = |held: &&Reading| {
        held.subject.kind == ARRANGEMENT
            && held.verdict == Verdict::Fault
            && same_sort(held)
            && before.iter().all(|was| Key::of(was) != Key::of(held))
    };
    after.iter().all(|reading| Key::of(reading) != key) && !after.iter().any(|held| uncovered(&held))
}
