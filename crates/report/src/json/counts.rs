//! Counts over all specs.

use pintle_finding::{Grade, Tally, Verdict};
use serde::Serialize;

/// Counts over all specs.
#[derive(Debug, Serialize)]
pub struct Counts {
    /// Specs looked at.
    pub specs: usize,
    /// Specs that could not be read.
    pub unreadable: usize,
    /// Problems of files.
    pub problems: usize,
    /// What is to be changed in files and taken all the same.
    pub warnings: usize,
    /// Readings in all.
    pub readings: usize,
    /// Readings that passed.
    pub pass: usize,
    /// Readings that did not apply.
    pub not_applicable: usize,
    /// Faults that nobody has accepted, by grade.
    pub fault: ByGrade,
    /// Faults that are waived, by grade.
    pub waived: ByGrade,
    /// Findings of the backlog, by grade.
    pub backlog: ByGrade,
    /// Readings that could not be judged and are not in the backlog, by grade.
    pub cannot_judge: ByGrade,
    /// Readings whose rule failed, by grade.
    pub broken: ByGrade,
}

/// A count for each grade.
#[derive(Debug, Serialize)]
pub struct ByGrade {
    /// Likely unsafe, or against mandatory law.
    pub critical: usize,
    /// Likely to fail, or much less usable.
    pub major: usize,
    /// A small departure.
    pub minor: usize,
    /// Worth knowing.
    pub advice: usize,
}

impl Counts {
    pub(super) fn new(tally: &Tally) -> Self {
        Self {
            specs: tally.specs,
            unreadable: tally.unreadable,
            problems: tally.problems,
            warnings: tally.warnings,
            readings: tally.all_readings(),
            pass: tally.with(Verdict::Pass),
            not_applicable: tally.with(Verdict::NotApplicable),
            fault: ByGrade::new(tally, Verdict::Fault),
            waived: ByGrade::of(|grade| tally.waived.get(&grade).copied()),
            backlog: ByGrade::of(|grade| tally.backlog.get(&grade).copied()),
            cannot_judge: ByGrade::new(tally, Verdict::CannotJudge),
            broken: ByGrade::new(tally, Verdict::Broken),
        }
    }
}

impl ByGrade {
    fn new(tally: &Tally, verdict: Verdict) -> Self {
        Self::of(|grade| tally.readings.get(&(verdict, grade)).copied())
    }

    fn of(count: impl Fn(Grade) -> Option<usize>) -> Self {
        let at = |grade| count(grade).unwrap_or(0);
        Self {
            critical: at(Grade::Critical),
            major: at(Grade::Major),
            minor: at(Grade::Minor),
            advice: at(Grade::Advice),
        }
    }
}
