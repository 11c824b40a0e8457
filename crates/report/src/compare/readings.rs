//! Readings before and after: what became of each.

use std::cmp::Ordering;

use pintle_finding::{Accepted, Bound, Grade, Margin, Reading, Verdict};
use pintle_quantity::Quantity;

use super::Standing;
use super::counts::Counts;
use super::pairing::paired;

/// What became of a reading, the worst first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum News {
    /// A fault that was not there, or was below the hold grade and no longer is.
    NewFault,
    /// What cannot be judged, and could be or was not there.
    Unjudged,
    /// A fault that was there and has less margin now.
    Worse,
    /// A finding that was there and is another now: another limit, another grade, another value missing.
    Altered,
    /// A fault that was there and has more margin now, or is below the hold grade now.
    Better,
    /// A finding of a version whose other version could not be read.
    Uncompared,
    /// A finding that is no longer there.
    Gone,
    /// A pass, before and now, with another value or limit.
    Moved,
    /// Not a finding, before or now, and not what it was: taken for the first time, or no longer.
    Otherwise,
}

impl News {
    /// The words for it in every output.
    pub const fn word(self) -> &'static str {
        match self {
            Self::NewFault => "new fault",
            Self::Unjudged => "cannot judge now",
            Self::Worse => "worse",
            Self::Altered => "altered",
            Self::Better => "better",
            Self::Uncompared => "not compared",
            Self::Gone => "gone",
            Self::Moved => "margin",
            Self::Otherwise => "otherwise",
        }
    }
}

/// How a margin moved.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MarginChange {
    /// Before.
    pub old: Margin,
    /// Now.
    pub new: Margin,
    /// Now less before; negative when it is tighter.
    pub by: Quantity,
}

/// A reading that is not as it was.
#[derive(Debug, Clone, PartialEq)]
pub struct ReadingChange {
    /// What became of it.
    pub news: News,
    /// Before.
    pub old: Option<Reading>,
    /// Now.
    pub new: Option<Reading>,
    /// How its margin moved, where both versions have one.
    pub margin: Option<MarginChange>,
    /// Whether the finding is at or above the hold grade: now, or before where it is gone.
    pub holds: bool,
}

impl ReadingChange {
    /// The newer of the two readings there is.
    pub fn latest(&self) -> Option<&Reading> {
        self.new.as_ref().or(self.old.as_ref())
    }

    /// The reading that is told in full: the finding, be it one that is no longer there.
    pub(super) fn told(&self) -> Option<&Reading> {
        if self.news == News::Gone { self.old.as_ref() } else { self.latest() }
    }
}

/// Every reading that is not as it was, the worst news first.
pub(super) fn changes(
    old: Vec<Reading>,
    new: Vec<Reading>,
    standing: Standing,
    hold: Grade,
    counts: &mut Counts,
) -> Vec<ReadingChange> {
    let mut changes = Vec::new();
    if matches!(standing, Standing::OldWrong | Standing::NewWrong) {
        let of_new = standing == Standing::OldWrong;
        for reading in old.into_iter().chain(new) {
            let holds = holds(&reading, hold);
            counts.uncompared.note(&reading, holds);
            if reading.verdict.is_finding() {
                let (old, new) = if of_new { (None, Some(reading)) } else { (Some(reading), None) };
                changes.push(ReadingChange { news: News::Uncompared, old, new, margin: None, holds });
            }
        }
    } else {
        for (old, new) in paired(old, new) {
            changes.extend(change(old, new, hold, counts));
        }
    }
    changes.sort_by(order);
    changes
}

/// News, then grade, then tightness; what is alike keeps the rulebook's order.
fn order(left: &ReadingChange, right: &ReadingChange) -> Ordering {
    let grade = |change: &ReadingChange| change.latest().map(Reading::grade);
    let share = |change: &ReadingChange| {
        let margin = change.latest().and_then(Reading::margin);
        // Without a share there is no telling how tight it is; outside the limit it comes first.
        margin.map_or(f64::INFINITY, |margin| {
            margin.share.unwrap_or(if margin.amount.si() < 0.0 { f64::NEG_INFINITY } else { f64::INFINITY })
        })
    };
    let news = left.news.cmp(&right.news);
    let graded = if left.news == News::Moved { Ordering::Equal } else { grade(right).cmp(&grade(left)) };
    news.then(graded).then_with(|| share(left).total_cmp(&share(right)))
}

/// Whether a finding is at or above the hold grade, and nobody has accepted it.
fn holds(reading: &Reading, hold: Grade) -> bool {
    reading.accepted.is_none() && reading.grade() >= hold
}

fn change(
    old: Option<Reading>,
    new: Option<Reading>,
    hold: Grade,
    counts: &mut Counts,
) -> Option<ReadingChange> {
    let holds = |reading: &Reading| holds(reading, hold);
    let finding =
        |reading: &Option<Reading>| reading.as_ref().filter(|one| one.verdict.is_finding()).cloned();
    let (was, is) = (finding(&old), finding(&new));
    let kept = was.as_ref().zip(is.as_ref()).is_some_and(|(was, is)| was.verdict == is.verdict);
    let raised = kept && was.as_ref().zip(is.as_ref()).is_some_and(|(was, is)| !holds(was) && holds(is));
    let lowered = kept && was.as_ref().zip(is.as_ref()).is_some_and(|(was, is)| holds(was) && !holds(is));
    if let Some(is) = is.as_ref().filter(|_| !kept || raised) {
        counts.gained.note(is, holds(is));
    }
    if let Some(was) = was.as_ref().filter(|_| !kept || lowered) {
        counts.lost.note(was, holds(was));
    }
    if let Some(is) = is.as_ref().filter(|_| kept && !raised && !lowered) {
        counts.standing.note(is, holds(is));
    }
    if same(old.as_ref(), new.as_ref()) {
        counts.same_readings += 1;
        return None;
    }
    counts.changed_readings += 1;
    let margin = margin(old.as_ref(), new.as_ref());
    let by = margin.map_or(Ordering::Equal, |margin| sign(margin.by));
    let news = match (&was, &is) {
        (_, Some(is)) if !kept || raised => {
            if is.verdict == Verdict::Fault {
                News::NewFault
            } else {
                News::Unjudged
            }
        }
        (Some(_), Some(_)) if lowered => News::Better,
        (Some(_), Some(_)) if by == Ordering::Less => News::Worse,
        (Some(_), Some(_)) if by == Ordering::Greater => News::Better,
        (Some(_), Some(_)) => News::Altered,
        (Some(_), None) => News::Gone,
        (None, _) if passes(old.as_ref()) && passes(new.as_ref()) => News::Moved,
        (None, _) => News::Otherwise,
    };
    counts.worse += usize::from(news == News::Worse);
    counts.better += usize::from(news == News::Better);
    counts.gone += usize::from(news == News::Gone);
    let holds = is.as_ref().or(was.as_ref()).is_some_and(holds);
    Some(ReadingChange { news, old, new, margin, holds })
}

fn passes(reading: Option<&Reading>) -> bool {
    reading.is_some_and(|reading| reading.verdict == Verdict::Pass)
}

/// How the margin moved, where both have one in the same dimension.
fn margin(old: Option<&Reading>, new: Option<&Reading>) -> Option<MarginChange> {
    let (old, new) = (old?.margin()?, new?.margin()?);
    Some(MarginChange { old, new, by: super::say::difference(old.amount, new.amount)? })
}

/// On which side of nothing a quantity lies.
fn sign(quantity: Quantity) -> Ordering {
    quantity.compare(quantity.scaled(0.0)).unwrap_or(Ordering::Equal)
}

/// Whether nothing about a reading changed that is judged.
fn same(old: Option<&Reading>, new: Option<&Reading>) -> bool {
    let (Some(old), Some(new)) = (old, new) else { return false };
    if old.verdict != new.verdict {
        return false;
    }
    let finding = old.verdict.is_finding();
    let accepted = |reading: &Reading| reading.accepted.as_ref().map(Accepted::word);
    let graded = old.grade() != new.grade() || accepted(old) != accepted(new);
    if finding && (graded || old.reason != new.reason) {
        return false;
    }
    let value = match (old.value, new.value) {
        (Some(old), Some(new)) => old.equals(new) == Ok(true),
        (None, None) => true,
        _ => false,
    };
    value && old.limit_name == new.limit_name && same_bound(&old.bound, &new.bound)
}

fn same_bound(old: &Bound, new: &Bound) -> bool {
    let equal = |old: &Quantity, new: &Quantity| old.equals(*new) == Ok(true);
    match (old, new) {
        (Bound::AtLeast(old), Bound::AtLeast(new))
        | (Bound::AtMost(old), Bound::AtMost(new))
        | (Bound::Equal(old), Bound::Equal(new)) => equal(old, new),
        (Bound::Between(least, most), Bound::Between(new_least, new_most)) => {
            equal(least, new_least) && equal(most, new_most)
        }
        (Bound::Holds(old), Bound::Holds(new)) => old == new,
        (Bound::None, Bound::None) => true,
        _ => false,
    }
}
