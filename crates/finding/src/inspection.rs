//! All that was found on one spec, and the counts over many.

use std::collections::{BTreeMap, BTreeSet};

use crate::{Accepted, Grade, Problem, Reading, Remedies, Stage, Verdict};

/// All that was found on one spec.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Inspection {
    /// The spec's file name.
    pub spec: String,
    /// The build's number and title, when they could be read.
    pub number: String,
    /// The build's title.
    pub title: String,
    /// The build's stage.
    pub stage: Option<Stage>,
    /// Every reading, in the rulebook's order and then the spec's.
    pub readings: Vec<Reading>,
    /// Rules that were not judged because the build has not come to their stage: `pack/rule` and the stage.
    pub later: Vec<(String, Stage)>,
    /// Changes that were tried; none where none were asked for.
    pub remedies: Option<Remedies>,
    /// What is wrong with the file itself. A spec with problems has no readings.
    pub problems: Vec<Problem>,
    /// Waivers of the rulebook that accept a fault of it, by number.
    pub waivers_used: BTreeSet<usize>,
    /// Waivers of the rulebook for any build whose rule could not be judged here, by number.
    pub waivers_waiting: BTreeSet<usize>,
    /// The files that a rulebook is put together from, where it is of one.
    pub layers: Vec<String>,
    /// Whether it is of a shop's rulebook as a whole, and `spec` its file, rather than of a spec.
    pub of_rulebook: bool,
}

impl Inspection {
    /// The readings that are findings.
    pub fn findings(&self) -> impl Iterator<Item = &Reading> {
        self.readings.iter().filter(|reading| reading.verdict.is_finding())
    }

    /// The trailer's passes whose margin is a share of their limit, with that share. A limit that a shop sets is no margin
    /// of a trailer's.
    pub fn margins(&self) -> impl Iterator<Item = (&Reading, f64)> {
        let passes =
            self.readings.iter().filter(|reading| reading.verdict == Verdict::Pass && !reading.rule.kept);
        let with_share = passes.filter_map(|reading| Some((reading, reading.margin()?.share?)));
        with_share.filter(|(_, share)| share.is_finite())
    }
}

/// Counts over many inspections.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Tally {
    /// Specs looked at.
    pub specs: usize,
    /// Specs that could not be read.
    pub unreadable: usize,
    /// Problems of files.
    pub problems: usize,
    /// What is to be changed in files and taken all the same.
    pub warnings: usize,
    /// Readings by verdict and grade, but for those that are waived or in the backlog.
    pub readings: BTreeMap<(Verdict, Grade), usize>,
    /// Waived findings by grade.
    pub waived: BTreeMap<Grade, usize>,
    /// Findings of the backlog by grade.
    pub backlog: BTreeMap<Grade, usize>,
}

impl Tally {
    /// Adds one inspection.
    pub fn add(&mut self, inspection: &Inspection) {
        self.specs += usize::from(!inspection.of_rulebook);
        self.add_problems(&inspection.problems);
        for reading in &inspection.readings {
            let grade = reading.grade();
            let counted = match reading.accepted {
                None => self.readings.entry((reading.verdict, grade)).or_default(),
                Some(Accepted::Waived(_)) => self.waived.entry(grade).or_default(),
                Some(Accepted::Backlog(_)) => self.backlog.entry(grade).or_default(),
            };
            *counted += 1;
        }
    }

    /// Adds what is wrong with a file, or with several.
    pub fn add_problems(&mut self, problems: &[Problem]) {
        let wrong = Problem::count_wrong(problems);
        self.unreadable += usize::from(wrong > 0);
        self.problems += wrong;
        self.warnings += problems.len() - wrong;
    }

    /// Readings in all.
    pub fn all_readings(&self) -> usize {
        self.readings.values().chain(self.waived.values()).chain(self.backlog.values()).sum()
    }

    /// Readings with a verdict, at any grade, that nobody has accepted.
    pub fn with(&self, verdict: Verdict) -> usize {
        self.readings.iter().filter(|((found, _), _)| *found == verdict).map(|(_, count)| count).sum()
    }

    /// Readings with a verdict at or above a grade that nobody has accepted.
    pub fn at_or_above(&self, verdict: Verdict, grade: Grade) -> usize {
        let counts = self.readings.iter();
        counts.filter(|((found, at), _)| *found == verdict && *at >= grade).map(|(_, count)| count).sum()
    }
}
