//! What changed between two versions of a spec, or of many: parts, weights, margins, findings.
//!
//! Both versions have been read and judged. Parts are compared as resolved, stock under them; readings are brought
//! together by rule, subject and what was measured. What did not change is counted. Start from [`compare`] and
//! [`Changes`].

mod counts;
mod figures;
mod flat;
mod pairing;
mod parts;
mod readings;
mod rules;
mod say;
mod waivers;

pub mod human;
pub mod json;
pub mod markdown;
pub mod plain;

use pintle_finding::{Grade, Inspection, Problem, Stage};
use pintle_source::Sources;
use pintle_spec::Build;

pub use counts::{Class, Counts, Turn};
pub use figures::FigureChange;
pub use flat::Worth;
pub use parts::{Axis, Fate, FieldChange, Move, PartChange};
pub use readings::{MarginChange, News, ReadingChange};
pub use rules::{RuleChange, RuleFacts, RulebookChange, RulebookFacts, Tolerance};
pub use waivers::{WaivedIn, WaiverChange, WaiverFacts, WaiverTerms};

/// One version of a spec, read and judged.
#[derive(Debug)]
pub struct Side {
    /// What was found; `spec` is the name it is shown under.
    pub inspection: Inspection,
    /// The build, when the file is sound.
    pub build: Option<Build>,
    /// The files it was read from.
    pub sources: Sources,
}

/// What a version of a spec is called, and what is wrong with its file.
#[derive(Debug, Clone)]
pub struct Head {
    /// The name it is shown under.
    pub spec: String,
    /// The build's number; empty when it could not be read.
    pub number: String,
    /// The build's title; empty when it could not be read.
    pub title: String,
    /// The build's stage.
    pub stage: Option<Stage>,
    /// Rules that wait for a later stage.
    pub later: Vec<String>,
    /// What is wrong with the file.
    pub problems: Vec<Problem>,
    /// The files it was read from.
    pub sources: Sources,
}

/// How two versions were brought together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Matched {
    /// The call names both.
    Call,
    /// They stand under one path of the two folders.
    Path,
    /// The path is gone, and the build number is the same.
    Number,
}

impl Matched {
    /// The word for it in machine-readable output.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Call => "call",
            Self::Path => "path",
            Self::Number => "number",
        }
    }
}

/// Which of the two versions can be compared.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// Both.
    Both,
    /// There was none before.
    Added,
    /// There is none now.
    Removed,
    /// The old one could not be read: of the new one nothing can be said to be new.
    OldWrong,
    /// The new one could not be read: of the old one nothing can be said to be gone.
    NewWrong,
    /// Neither could be read.
    BothWrong,
}

impl Standing {
    /// The words for it in every output.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Both => "both",
            Self::Added => "added",
            Self::Removed => "removed",
            Self::OldWrong => "old cannot be read",
            Self::NewWrong => "new cannot be read",
            Self::BothWrong => "neither can be read",
        }
    }
}

/// What changed between two versions of one spec.
#[derive(Debug)]
pub struct Comparison {
    /// The old version.
    pub old: Option<Head>,
    /// The new version.
    pub new: Option<Head>,
    /// How the two were brought together.
    pub matched: Matched,
    /// Which of them can be compared.
    pub standing: Standing,
    /// Readings that are not as they were, the worst news first.
    pub readings: Vec<ReadingChange>,
    /// Weights that are not as they were, in the order of the new spec's states.
    pub figures: Vec<FigureChange>,
    /// Parts that are not as they were, in the order of the new spec, those that are gone last.
    pub parts: Vec<PartChange>,
    /// What it comes to, and what is as it was.
    pub counts: Counts,
}

/// All that changed.
#[derive(Debug)]
pub struct Changes {
    /// The grade at or above which a new fault holds a build.
    pub hold: Grade,
    /// Each spec, the worst news first; unchanged ones among them.
    pub specs: Vec<Comparison>,
    /// Rulebooks that are not as they were.
    pub rulebooks: Vec<RulebookChange>,
    /// Problems that belong to no spec, with the files they are in.
    pub loose: Vec<(Vec<Problem>, Sources)>,
}

/// Compares two versions of a spec; faults at `hold` and above hold.
pub fn compare(old: Option<Side>, new: Option<Side>, matched: Matched, hold: Grade) -> Comparison {
    let readable = |side: &Option<Side>| side.as_ref().map(|side| side.build.is_some());
    let standing = match (readable(&old), readable(&new)) {
        (Some(true), Some(true)) => Standing::Both,
        (None, Some(true)) => Standing::Added,
        (Some(true), None) => Standing::Removed,
        (Some(false), Some(true)) => Standing::OldWrong,
        (Some(true), Some(false)) => Standing::NewWrong,
        _ => Standing::BothWrong,
    };
    let mut counts = Counts::default();
    let (mut figures, mut parts) = (Vec::new(), Vec::new());
    if let (Some(Some(before)), Some(Some(after))) =
        (old.as_ref().map(|side| side.build.as_ref()), new.as_ref().map(|side| side.build.as_ref()))
    {
        figures = figures::changes(before, after, &mut counts.same_figures);
        parts = parts::changes(before, after, &mut counts.same_parts);
    }
    let (old, before) = taken(old);
    let (new, after) = taken(new);
    let readings = readings::changes(before, after, standing, hold, &mut counts);
    let problems = |head: &Option<Head>| head.as_ref().map_or(0, |head| Problem::count_wrong(&head.problems));
    counts.problems = problems(&old) + problems(&new);
    counts.unreadable = usize::from(problems(&old) > 0) + usize::from(problems(&new) > 0);
    counts.changed_parts = parts.len();
    counts.changed_figures = figures.len();
    counts.come_or_gone = usize::from(matches!(standing, Standing::Added | Standing::Removed));
    Comparison { old, new, matched, standing, readings, figures, parts, counts }
}

/// Splits a side into what it is called and what was read on it.
fn taken(side: Option<Side>) -> (Option<Head>, Vec<pintle_finding::Reading>) {
    let Some(Side { inspection, sources, .. }) = side else { return (None, Vec::new()) };
    // A comparison asks for no remedies.
    let Inspection { spec, number, title, stage, problems, readings, later, .. } = inspection;
    let later = later.into_iter().map(|(rule, _)| rule).collect();
    (Some(Head { spec, number, title, stage, later, problems, sources }), readings)
}

impl Comparison {
    /// The name of the newer version there is.
    pub fn name(&self) -> &str {
        self.new.as_ref().or(self.old.as_ref()).map_or("", |head| head.spec.as_str())
    }

    /// Whether nothing is to be said of it.
    pub fn is_same(&self) -> bool {
        self.counts.is_same() && self.matched != Matched::Number
    }

    /// What it comes to by itself.
    pub fn turn(&self) -> Turn {
        self.counts.turn()
    }

    /// The files that a change's place is in: the new version's, or the old one's where only that has it.
    fn sources(&self, of_new: bool) -> Option<&Sources> {
        let head = if of_new { self.new.as_ref() } else { self.old.as_ref() };
        head.map(|head| &head.sources)
    }
}

impl Changes {
    /// Puts comparisons in the order of their news, the worst first; those of one sort by name.
    pub fn new(
        hold: Grade,
        mut specs: Vec<Comparison>,
        rulebooks: Vec<RulebookChange>,
        loose: Vec<(Vec<Problem>, Sources)>,
    ) -> Self {
        specs.sort_by(|left, right| {
            let rank = |one: &Comparison| one.counts.rank();
            rank(left).cmp(&rank(right)).then_with(|| left.name().cmp(right.name()))
        });
        Self { hold, specs, rulebooks, loose }
    }

    /// Counts over all specs.
    pub fn counts(&self) -> Counts {
        let mut counts = Counts::default();
        for spec in &self.specs {
            counts.add(&spec.counts);
        }
        for (problems, _) in &self.loose {
            counts.problems += Problem::count_wrong(problems);
            counts.unreadable += usize::from(Problem::any_wrong(problems));
        }
        counts.changed_rules = self.rulebooks.iter().map(|book| book.changes.len()).sum();
        counts
    }

    /// What it comes to.
    pub fn turn(&self) -> Turn {
        self.counts().turn()
    }

    /// What it comes to, in one line.
    pub fn headline(&self) -> String {
        counts::headline(&self.counts(), self.hold)
    }
}

#[cfg(test)]
mod tests;
