//! For machines: one document with every reading, pass or fault, and where each word and figure stands.
//!
//! The order of keys is fixed. Keys without a value are written as `null`, so that a reader need not guess
//! whether a key was forgotten. Figures are written in full, so that reading them back gives the same number; one
//! that is not finite is written as `null`.

mod counts;
mod figure;
mod place;
mod reading;
mod remedy;

pub use counts::{ByGrade, Counts};
pub use figure::{Bound, Margin, Value};
pub use place::{Label, Place, Point, SetBy, Setting};
pub use reading::{Citation, Contribution, Input, Limit, Listed, Reading, Subject, Waived};
pub use remedy::{But, Change, Cost, Other, Remedy, Tried};

use pintle_finding::Inspection;
use pintle_source::Sources;
use serde::Serialize;

use crate::{Look, Summary, outcome, safe};

/// The name every document opens with.
pub const FORMAT: &str = "pintle-inspection";

/// The version of the format. It rises when a key changes its meaning or goes; a new key does not raise it.
pub const VERSION: u32 = 1;

/// The whole document.
#[derive(Debug, Serialize)]
pub struct Document<'a> {
    /// Always [`FORMAT`].
    pub format: &'static str,
    /// Always [`VERSION`].
    pub version: u32,
    /// What wrote the document.
    pub tool: Tool,
    /// The grade at or above which a build is held.
    pub hold: &'static str,
    /// What all specs together come to: `released`, `held`, `cannot judge` or `input wrong`.
    pub verdict: &'static str,
    /// Counts over all specs.
    pub summary: Counts,
    /// What is wrong with files that are no specs (rulebook, stock list, rules) or with the call.
    pub problems: Vec<Problem<'a>>,
    /// What the tool's own rules say of each rulebook as a whole.
    pub rulebooks: Vec<Rulebook<'a>>,
    /// Each spec, in the order of the run.
    pub specs: Vec<Spec<'a>>,
}

/// A rulebook and what was found on it.
#[derive(Debug, Serialize)]
pub struct Rulebook<'a> {
    /// The shop's file.
    pub file: &'a str,
    /// The shop's name; empty when not given.
    pub shop: &'a str,
    /// The files it is put together from, each over those before it.
    pub layers: &'a [String],
    /// What it comes to by itself, in the same words as the document's verdict.
    pub verdict: &'static str,
    /// Every reading.
    pub readings: Vec<Reading<'a>>,
}

/// The tool that wrote a document.
#[derive(Debug, Serialize)]
pub struct Tool {
    /// Its name.
    pub name: &'static str,
    /// Its version.
    pub version: &'static str,
}

/// All that was found on one spec.
#[derive(Debug, Serialize)]
pub struct Spec<'a> {
    /// The spec's file name.
    pub spec: &'a str,
    /// The build's number; empty when it could not be read.
    pub number: &'a str,
    /// The build's title; empty when it could not be read.
    pub title: &'a str,
    /// The build's stage: `quote`, `design`, `build`, `delivery` or `service`.
    pub stage: Option<&'static str>,
    /// What this spec comes to by itself, in the same words as the document's verdict.
    pub verdict: &'static str,
    /// Every reading, in the rulebook's order and then the spec's.
    pub readings: Vec<Reading<'a>>,
    /// Rules that wait for a later stage.
    pub later: Vec<Later<'a>>,
    /// What is wrong with the file. A spec with problems has no readings.
    pub problems: Vec<Problem<'a>>,
}

/// A rule that was not judged because the build has not come to its stage.
#[derive(Debug, Serialize)]
pub struct Later<'a> {
    /// `pack/rule`.
    pub rule: &'a str,
    /// The stage from which it is judged.
    pub from: &'static str,
}

/// What is wrong with a file.
#[derive(Debug, Serialize)]
pub struct Problem<'a> {
    /// The kind of problem, such as `unknown-key`.
    pub code: &'a str,
    /// Whether it is to be changed and taken all the same; what is not makes the input wrong.
    pub warning: bool,
    /// What is wrong.
    pub message: &'a str,
    /// What to change.
    pub help: Option<&'a str>,
    /// Where; the first is the place itself.
    pub labels: Vec<Label<'a>>,
}

/// Inspections with the files they were made from.
pub type Inspected = [(Inspection, Sources)];
/// Problems that belong to no spec, with the files they are in.
pub type Loose = [(Vec<pintle_finding::Problem>, Sources)];

/// The document as data.
pub fn document<'a>(
    inspected: &'a Inspected,
    loose: &'a Loose,
    summary: &Summary,
    look: &Look,
) -> Document<'a> {
    let readings = |inspection: &'a Inspection, sources: &'a Sources| {
        let numbers = 0..inspection.readings.len();
        numbers.filter_map(|number| Reading::new(inspection, number, sources, *look)).collect()
    };
    let verdict = |inspection: &Inspection| outcome(std::slice::from_ref(inspection), summary.hold()).word();
    let rulebook = |(inspection, sources): &'a (Inspection, Sources)| Rulebook {
        file: &inspection.spec,
        shop: &inspection.title,
        layers: &inspection.layers,
        verdict: verdict(inspection),
        readings: readings(inspection, sources),
    };
    let spec = |(inspection, sources): &'a (Inspection, Sources)| Spec {
        spec: &inspection.spec,
        number: &inspection.number,
        title: &inspection.title,
        stage: inspection.stage.map(pintle_finding::Stage::word),
        verdict: verdict(inspection),
        readings: readings(inspection, sources),
        later: inspection.later.iter().map(|(rule, from)| Later { rule, from: from.word() }).collect(),
        problems: inspection.problems.iter().map(|one| problem(one, sources)).collect(),
    };
    let loose = loose.iter().flat_map(|(problems, sources)| problems.iter().map(|one| problem(one, sources)));
    Document {
        format: FORMAT,
        version: VERSION,
        tool: Tool { name: "pintle", version: env!("CARGO_PKG_VERSION") },
        hold: summary.hold().word(),
        verdict: summary.outcome().word(),
        summary: Counts::new(summary.tally()),
        problems: loose.collect(),
        rulebooks: inspected.iter().filter(|(one, _)| one.of_rulebook).map(rulebook).collect(),
        specs: inspected.iter().filter(|(one, _)| !one.of_rulebook).map(spec).collect(),
    }
}

/// The document as text, laid out in lines and closed with a line end. Characters that a terminal would obey are
/// written as `\u` escapes.
///
/// ```
/// use pintle_finding::Grade;
/// use pintle_report::{Look, Summary, json};
///
/// let text = json::text(&[], &[], &Summary::new(Grade::Major), &Look::default());
/// assert!(text.starts_with("{\n  \"format\": \"pintle-inspection\",\n  \"version\": 1,"));
/// ```
pub fn text(inspected: &Inspected, loose: &Loose, summary: &Summary, look: &Look) -> String {
    let document = document(inspected, loose, summary, look);
    // Names are the only keys and every value can be written, so this does not fail. Should it all the same, a
    // reader must meet an error and not an empty pass.
    let text = serde_json::to_string_pretty(&document)
        .unwrap_or_else(|error| format!("the document could not be written: {error}"));
    safe::json(text + "\n")
}

pub(crate) fn problem<'a>(problem: &'a pintle_finding::Problem, sources: &'a Sources) -> Problem<'a> {
    Problem {
        code: problem.code,
        warning: problem.is_warning,
        message: &problem.message,
        help: problem.help.as_deref(),
        labels: problem.labels.iter().map(|label| Label::new(label, sources)).collect(),
    }
}

#[cfg(test)]
mod tests;
