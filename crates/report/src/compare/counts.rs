//! What a comparison comes to: counts, one word, and a headline.

use pintle_finding::{Grade, Reading, Verdict};

use crate::words::counted;

/// Findings of one sort, by whether they are at or above the hold grade.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Class {
    /// At or above it.
    pub holds: usize,
    /// Below it.
    pub below: usize,
}

impl Class {
    /// All of them.
    pub const fn all(self) -> usize {
        self.holds + self.below
    }

    pub(super) fn note(&mut self, holds: bool) {
        if holds {
            self.holds += 1;
        } else {
            self.below += 1;
        }
    }

    fn add(&mut self, other: Self) {
        self.holds += other.holds;
        self.below += other.below;
    }
}

/// Findings by verdict.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Findings {
    /// Faults.
    pub fault: Class,
    /// What could not be judged.
    pub cannot_judge: Class,
    /// What the rule failed on.
    pub broken: Class,
}

impl Findings {
    pub(super) fn note(&mut self, reading: &Reading, holds: bool) {
        match reading.verdict {
            Verdict::Fault => self.fault.note(holds),
            Verdict::CannotJudge => self.cannot_judge.note(holds),
            Verdict::Broken => self.broken.note(holds),
            Verdict::Pass | Verdict::NotApplicable => {}
        }
    }

    fn add(&mut self, other: Self) {
        self.fault.add(other.fault);
        self.cannot_judge.add(other.cannot_judge);
        self.broken.add(other.broken);
    }

    /// What could not be judged, for want of a value or because the rule failed.
    pub const fn unjudged(self) -> Class {
        Class {
            holds: self.cannot_judge.holds + self.broken.holds,
            below: self.cannot_judge.below + self.broken.below,
        }
    }

    /// All of them.
    pub const fn all(self) -> usize {
        self.fault.all() + self.unjudged().all()
    }
}

/// What changed and what did not, in numbers.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Counts {
    /// Findings that are there now and were not before.
    pub gained: Findings,
    /// Findings that were there before and are not now.
    pub lost: Findings,
    /// Findings that were there before and are there now.
    pub standing: Findings,
    /// Findings of a version whose other version could not be read.
    pub uncompared: Findings,
    /// Faults that were there before and have less margin now.
    pub worse: usize,
    /// Faults that were there before and have more margin now, or are below the hold grade now.
    pub better: usize,
    /// Findings that were there before, where there is none now.
    pub gone: usize,
    /// Readings that are not as they were, findings among them.
    pub changed_readings: usize,
    /// Readings that are as they were.
    pub same_readings: usize,
    /// Weights that are not as they were.
    pub changed_figures: usize,
    /// Weights that are as they were.
    pub same_figures: usize,
    /// Parts that are not as they were.
    pub changed_parts: usize,
    /// Parts that are as they were.
    pub same_parts: usize,
    /// Rules and limits that are not as they were.
    pub changed_rules: usize,
    /// Specs that are there in one version only.
    pub come_or_gone: usize,
    /// Files with problems.
    pub unreadable: usize,
    /// Problems of files.
    pub problems: usize,
}

/// What a comparison comes to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Turn {
    /// No new fault at or above the hold grade.
    NoNewFault,
    /// A new fault at or above it.
    NewFault,
    /// A file could not be read as what it should be.
    InputWrong,
    /// Something at or above it cannot be judged, and could be before or was not there; no new fault.
    CannotJudge,
}

impl Turn {
    /// The words for it in every output.
    pub const fn word(self) -> &'static str {
        match self {
            Self::NoNewFault => "no new fault",
            Self::NewFault => "new fault",
            Self::InputWrong => "input wrong",
            Self::CannotJudge => "cannot judge",
        }
    }
}

impl Counts {
    pub(super) fn add(&mut self, other: &Self) {
        self.gained.add(other.gained);
        self.lost.add(other.lost);
        self.standing.add(other.standing);
        self.uncompared.add(other.uncompared);
        self.worse += other.worse;
        self.better += other.better;
        self.gone += other.gone;
        self.changed_readings += other.changed_readings;
        self.same_readings += other.same_readings;
        self.changed_figures += other.changed_figures;
        self.same_figures += other.same_figures;
        self.changed_parts += other.changed_parts;
        self.same_parts += other.same_parts;
        self.changed_rules += other.changed_rules;
        self.come_or_gone += other.come_or_gone;
        self.unreadable += other.unreadable;
        self.problems += other.problems;
    }

    /// Whether nothing changed and nothing is wrong.
    pub fn is_same(&self) -> bool {
        self.is_unchanged() && self.problems == 0
    }

    /// Whether nothing changed of what could be read.
    fn is_unchanged(&self) -> bool {
        self.changed_readings
            + self.changed_figures
            + self.changed_parts
            + self.changed_rules
            + self.come_or_gone
            == 0
    }

    /// Whether there was nothing to compare.
    fn is_empty(&self) -> bool {
        self.is_unchanged()
            && self.same_readings + self.same_figures + self.same_parts + self.uncompared.all() == 0
    }

    /// What it comes to.
    pub fn turn(&self) -> Turn {
        if self.problems > 0 {
            Turn::InputWrong
        } else if self.gained.fault.holds > 0 {
            Turn::NewFault
        } else if self.gained.unjudged().holds > 0 {
            Turn::CannotJudge
        } else {
            Turn::NoNewFault
        }
    }

    /// How bad the news is; the worst is least.
    pub(super) fn rank(&self) -> u8 {
        match self.turn() {
            Turn::InputWrong => 0,
            Turn::NewFault => 1,
            Turn::CannotJudge => 2,
            Turn::NoNewFault if self.worse > 0 => 3,
            Turn::NoNewFault if self.gained.all() > 0 => 4,
            Turn::NoNewFault if !self.is_same() => 5,
            Turn::NoNewFault => 6,
        }
    }
}

/// What it comes to, in one line.
pub(super) fn headline(counts: &Counts, hold: Grade) -> String {
    let changed = if counts.is_unchanged() {
        "nothing changed that is weighed or judged".to_owned()
    } else {
        news(counts, hold)
    };
    let rest = [changed, standing_words(counts), uncompared_words(counts)];
    let rest: Vec<String> = rest.into_iter().filter(|words| !words.is_empty()).collect();
    if counts.problems == 0 {
        return rest.join("; ");
    }
    let wrong = format!("input wrong: {}", counted(counts.problems, "problem"));
    if counts.is_empty() {
        format!("{wrong}, and nothing is compared")
    } else {
        format!("{wrong}; besides, {}", rest.join("; "))
    }
}

/// What became of findings, the worst first.
fn news(counts: &Counts, hold: Grade) -> String {
    let gained = counts.gained;
    let mut parts = vec![match gained.fault.holds {
        0 => format!("no new fault at or above {hold}"),
        new => format!("{} at or above {hold}", counted(new, "new fault")),
    }];
    let unjudged = |count: usize, place: &str| {
        let were = if count == 1 { "was" } else { "were" };
        format!(
            "{} {place} {hold} cannot be judged now, and could be or {were} not there",
            counted(count, "reading")
        )
    };
    match gained.unjudged() {
        Class { holds: 0, below: 0 } => {}
        Class { holds: 0, below } => parts.push(unjudged(below, "below")),
        Class { holds, .. } => parts.push(unjudged(holds, "at or above")),
    }
    match counts.worse {
        0 => {}
        1 => parts.push("1 fault that was there before is worse".to_owned()),
        worse => parts.push(format!("{worse} faults that were there before are worse")),
    }
    if gained.fault.below > 0 {
        parts.push(format!("{} below {hold}", counted(gained.fault.below, "new fault")));
    }
    match counts.better {
        0 => {}
        1 => parts.push("1 fault is less bad".to_owned()),
        better => parts.push(format!("{better} faults are less bad")),
    }
    match counts.gone {
        0 => {}
        1 => parts.push("1 finding is no longer there".to_owned()),
        gone => parts.push(format!("{gone} findings are no longer there")),
    }
    parts.join("; ")
}

fn uncompared_words(counts: &Counts) -> String {
    match counts.uncompared.all() {
        0 => String::new(),
        all => format!("{} with no other version to compare with", counted(all, "finding")),
    }
}

fn standing_words(counts: &Counts) -> String {
    match counts.standing.all() {
        0 => String::new(),
        1 => "1 finding stands as before".to_owned(),
        all => format!("{all} findings stand as before"),
    }
}
