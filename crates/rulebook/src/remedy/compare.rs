//! What a change did to the findings: which are gone, which are new, which are worse.

use std::collections::BTreeMap;

use pintle_finding::{Bound, Margin, Reading, Verdict};
use pintle_quantity::Units;
use pintle_script::ARRANGEMENT;

/// Which finding a reading is, whatever its figures: a finding before a change and one after it are the same when their
/// keys are. Of the arrangements the worst is read, which may be another one after a change, so they count as one.
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
        let arranged = reading.subject.kind == ARRANGEMENT;
        let reason = match reading.verdict {
            Verdict::Pass | Verdict::Fault => "",
            _ => reading.reason.as_deref().unwrap_or_default(),
        };
        let (sort, words) = sort_of(&reading.bound);
        Self {
            rule: reading.rule.id.clone(),
            kind: reading.subject.kind,
            name: if arranged { String::new() } else { reading.subject.name.clone() },
            what: reading.what.clone(),
            bound: (sort, format!("{words}{reason}")),
            verdict: reading.verdict,
        }
    }
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

/// What is worse after a change, in words: a finding that was not there before, or one whose margin has shrunk. None
/// where nothing is.
pub(super) fn worse(before: &[Reading], after: &[Reading]) -> Option<String> {
    let before = findings(before);
    for (key, now) in findings(after) {
        let then = before.get(&key).map_or(&[][..], Vec::as_slice);
        for (at, (reading, margin)) in now.iter().enumerate() {
            let Some((_, was)) = then.get(at) else { return Some(reading.sentence(Units::AsWritten)) };
            let shrunk = match (was, margin) {
                (Some(was), Some(margin)) => margin.amount.at_least(was.amount) != Ok(true),
                (None, None) => false,
                _ => true,
            };
            if shrunk {
                return Some(reading.sentence(Units::AsWritten));
            }
        }
    }
    None
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

/// Whether a finding is no longer there.
pub(super) fn is_gone(finding: &Reading, after: &[Reading]) -> bool {
    let key = Key::of(finding);
    after.iter().all(|reading| Key::of(reading) != key)
}
