//! For machines: one document with all that changed. Figures are written in full, differences with their sign.

use std::borrow::Cow;

use serde::Serialize;

use super::counts::{Class, Counts, Findings};
use super::waivers::{self, WaiverChange};
use super::{
    Changes, Comparison, FieldChange, FigureChange, Head, PartChange, ReadingChange, RuleChange,
    RulebookChange, Tolerance, Worth, say,
};
use crate::json::{Bound, Margin, Place, Problem, Tool, Value};
use crate::{Look, json, safe};

/// The name every document opens with.
pub const FORMAT: &str = "pintle-comparison";

/// The version of the format. It rises when a key changes its meaning or goes; a new key does not raise it.
pub const VERSION: u32 = 1;

#[derive(Debug, Serialize)]
struct Document<'c> {
    format: &'static str,
    version: u32,
    tool: Tool,
    hold: &'static str,
    verdict: &'static str,
    headline: String,
    summary: Summary,
    problems: Vec<Problem<'c>>,
    rulebooks: Vec<Rulebook<'c>>,
    specs: Vec<Compared<'c>>,
}

#[derive(Debug, Serialize)]
struct Summary {
    specs: usize,
    unchanged_specs: usize,
    #[serde(flatten)]
    counts: Numbers,
}

#[derive(Debug, Serialize)]
struct Numbers {
    gained: Sorts,
    lost: Sorts,
    standing: Sorts,
    not_compared: Sorts,
    worse: usize,
    better: usize,
    gone: usize,
    readings: Pair,
    weights: Pair,
    parts: Pair,
    unreadable: usize,
    problems: usize,
}

#[derive(Debug, Serialize)]
struct Sorts {
    fault: Grades,
    cannot_judge: Grades,
    broken: Grades,
}

#[derive(Debug, Serialize)]
struct Grades {
    at_or_above_hold: usize,
    below: usize,
}

#[derive(Debug, Serialize)]
struct Pair {
    changed: usize,
    as_before: usize,
}

#[derive(Debug, Serialize)]
struct Rulebook<'c> {
    old: Option<&'c str>,
    new: Option<&'c str>,
    changes: Vec<RuleTurned<'c>>,
}

#[derive(Debug, Serialize)]
struct RuleTurned<'c> {
    rule: Option<&'c str>,
    what: &'static str,
    limit: Option<&'c str>,
    old: Option<Said<'c>>,
    new: Option<Said<'c>>,
    by: Option<Value>,
    item: Option<&'c str>,
    builds: Option<Vec<&'c str>>,
    sentence: String,
}

/// A word, or a quantity.
#[derive(Debug, Serialize)]
#[serde(untagged)]
enum Said<'c> {
    Word(Cow<'c, str>),
    Quantity(Value),
}

#[derive(Debug, Serialize)]
struct Compared<'c> {
    spec: &'c str,
    old: Option<Version<'c>>,
    new: Option<Version<'c>>,
    matched: &'static str,
    standing: &'static str,
    verdict: &'static str,
    summary: Numbers,
    readings: Vec<Reading<'c>>,
    weights: Vec<Figure<'c>>,
    parts: Vec<Turned<'c>>,
}

#[derive(Debug, Serialize)]
struct Version<'c> {
    spec: &'c str,
    number: &'c str,
    title: &'c str,
    stage: Option<&'static str>,
    problems: Vec<Problem<'c>>,
}

#[derive(Debug, Serialize)]
struct Reading<'c> {
    news: &'static str,
    at_or_above_hold: bool,
    rule: &'c str,
    title: &'c str,
    subject: Subject<'c>,
    what: &'c str,
    old: Option<Taken<'c>>,
    new: Option<Taken<'c>>,
    margin_by: Option<Value>,
    words: String,
}

#[derive(Debug, Serialize)]
struct Subject<'c> {
    kind: &'c str,
    name: &'c str,
}

#[derive(Debug, Serialize)]
struct Taken<'c> {
    subject: Subject<'c>,
    grade: &'static str,
    verdict: &'static str,
    /// `waived` or `backlog`, where the finding is accepted; else `null`.
    pub accepted: Option<&'static str>,
    value: Option<Value>,
    bound: Bound,
    limit: &'c str,
    margin: Option<Margin>,
    reason: Option<&'c str>,
    sentence: String,
    place: Option<Place<'c>>,
}

#[derive(Debug, Serialize)]
struct Figure<'c> {
    state: Option<&'c str>,
    name: &'c str,
    old: Known<'c>,
    new: Known<'c>,
    by: Option<Value>,
}

#[derive(Debug, Serialize)]
#[serde(untagged)]
enum Known<'c> {
    Value(Value),
    Missing { missing: &'c str },
}

#[derive(Debug, Serialize)]
struct Turned<'c> {
    part: &'c str,
    fate: &'static str,
    place: Option<Place<'c>>,
    moves: Vec<Move>,
    fields: Vec<Restated<'c>>,
}

#[derive(Debug, Serialize)]
struct Move {
    axis: &'static str,
    old: Value,
    new: Value,
    by: Value,
}

#[derive(Debug, Serialize)]
struct Restated<'c> {
    field: &'c str,
    old: Option<Said<'c>>,
    new: Option<Said<'c>>,
    by: Option<Value>,
    place: Option<Place<'c>>,
}

/// The document as text, laid out in lines and closed with a line end. Characters that a terminal would obey are
/// written as `\u` escapes.
///
/// ```
/// use pintle_finding::Grade;
/// use pintle_report::{Look, compare};
///
/// let nothing = compare::Changes::new(Grade::Major, Vec::new(), Vec::new(), Vec::new());
/// let text = compare::json::text(&nothing, &Look::default());
/// assert!(text.starts_with("{\n  \"format\": \"pintle-comparison\",\n  \"version\": 1,"));
/// ```
pub fn text(changes: &Changes, look: &Look) -> String {
    let problems = changes
        .loose
        .iter()
        .flat_map(|(problems, sources)| problems.iter().map(move |problem| json::problem(problem, sources)));
    let unchanged = changes.specs.iter().filter(|spec| spec.is_same()).count();
    let document = Document {
        format: FORMAT,
        version: VERSION,
        tool: Tool { name: "pintle", version: env!("CARGO_PKG_VERSION") },
        hold: changes.hold.word(),
        verdict: changes.turn().word(),
        headline: changes.headline(),
        summary: Summary {
            specs: changes.specs.len(),
            unchanged_specs: unchanged,
            counts: numbers(&changes.counts()),
        },
        problems: problems.collect(),
        rulebooks: changes.rulebooks.iter().map(|book| rulebook(book, look)).collect(),
        specs: changes.specs.iter().filter(|spec| !spec.is_same()).map(|one| spec(one, look)).collect(),
    };
    // Names are the only keys and every value can be written, so this does not fail. Should it all the same, a
    // reader must meet an error and not an empty comparison.
    let text = serde_json::to_string_pretty(&document)
        .unwrap_or_else(|error| format!("the document could not be written: {error}"));
    safe::json(text + "\n")
}

fn numbers(counts: &Counts) -> Numbers {
    let grades = |class: Class| Grades { at_or_above_hold: class.holds, below: class.below };
    let sorts = |findings: Findings| Sorts {
        fault: grades(findings.fault),
        cannot_judge: grades(findings.cannot_judge),
        broken: grades(findings.broken),
    };
    let pair = |changed, as_before| Pair { changed, as_before };
    Numbers {
        gained: sorts(counts.gained),
        lost: sorts(counts.lost),
        standing: sorts(counts.standing),
        not_compared: sorts(counts.uncompared),
        worse: counts.worse,
        better: counts.better,
        gone: counts.gone,
        readings: pair(counts.changed_readings, counts.same_readings),
        weights: pair(counts.changed_figures, counts.same_figures),
        parts: pair(counts.changed_parts, counts.same_parts),
        unreadable: counts.unreadable,
        problems: counts.problems,
    }
}

fn rulebook<'c>(book: &'c RulebookChange, look: &Look) -> Rulebook<'c> {
    let one = |change: &'c RuleChange| {
        let word = |word: &'static str| Said::Word(Cow::Borrowed(word));
        let quantity = |value: &pintle_quantity::Quantity| Said::Quantity(Value::new(*value, look.units));
        let (rule, what, limit, old, new, by) = match change {
            RuleChange::Hold(old, new) => {
                (None, "hold", None, Some(word(old.word())), Some(word(new.word())), None)
            }
            RuleChange::Added(id) => (Some(id), "added", None, None, None, None),
            RuleChange::Removed(id) => (Some(id), "removed", None, None, None, None),
            RuleChange::Renamed(was, id) => {
                (Some(id), "renamed", None, Some(Said::Word(Cow::Borrowed(was))), None, None)
            }
            RuleChange::Grade(id, old, new) => {
                (Some(id), "grade", None, Some(word(old.word())), Some(word(new.word())), None)
            }
            RuleChange::From(id, old, new) => {
                (Some(id), "from", None, Some(word(old.word())), Some(word(new.word())), None)
            }
            RuleChange::Limit(id, name, old, new) => {
                let by = old.zip(*new).and_then(|(old, new)| say::difference(old, new));
                let [old, new] = [old, new].map(|value| value.as_ref().map(quantity));
                (Some(id), "limit", Some(name.as_str()), old, new, by)
            }
            RuleChange::Judgement(id) => (Some(id), "judgement", None, None, None, None),
            RuleChange::Tolerance(name, old, new) => {
                let shown = |one: &Tolerance| Said::Word(Cow::Owned(one.show(look.units)));
                let (old, new) = (old.as_ref().map(shown), new.as_ref().map(shown));
                (None, "tolerance", Some(name.as_str()), old, new, None)
            }
            RuleChange::Waiver(waiver) => {
                let whole = |terms| Said::Word(Cow::Owned(waivers::whole(terms)));
                let (old, new) = (waiver.old.as_ref().map(whole), waiver.new.as_ref().map(whole));
                (Some(&waiver.rule), "waiver", None, old, new, None)
            }
        };
        let by = by.map(|by| Value::new(by, look.units));
        let sentence = say::rule(change, look.units);
        let waiver = match change {
            RuleChange::Waiver(waiver) => Some(waiver),
            _ => None,
        };
        let (item, builds) = (waiver.and_then(|one| one.item.as_deref()), waiver.map(WaiverChange::builds));
        RuleTurned { rule: rule.map(String::as_str), what, limit, old, new, by, item, builds, sentence }
    };
    Rulebook {
        old: book.old.as_deref(),
        new: book.new.as_deref(),
        changes: book.changes.iter().map(one).collect(),
    }
}

fn spec<'c>(spec: &'c Comparison, look: &Look) -> Compared<'c> {
    let version = |head: &'c Head| Version {
        spec: &head.spec,
        number: &head.number,
        title: &head.title,
        stage: head.stage.map(pintle_finding::Stage::word),
        problems: head.problems.iter().map(|one| json::problem(one, &head.sources)).collect(),
    };
    Compared {
        spec: spec.name(),
        old: spec.old.as_ref().map(version),
        new: spec.new.as_ref().map(version),
        matched: spec.matched.word(),
        standing: spec.standing.word(),
        verdict: spec.turn().word(),
        summary: numbers(&spec.counts),
        readings: spec.readings.iter().filter_map(|change| reading(spec, change, look)).collect(),
        weights: spec.figures.iter().map(|change| figure(change, look)).collect(),
        parts: spec.parts.iter().map(|change| part(spec, change, look)).collect(),
    }
}

fn reading<'c>(spec: &'c Comparison, change: &'c ReadingChange, look: &Look) -> Option<Reading<'c>> {
    let latest = change.latest()?;
    let taken = |reading: &'c pintle_finding::Reading, of_new: bool| Taken {
        subject: subject(reading),
        grade: reading.grade().word(),
        verdict: reading.verdict.word(),
        accepted: reading.accepted.as_ref().map(pintle_finding::Accepted::word),
        value: reading.value.map(|value| Value::new(value, look.units)),
        bound: Bound::new(&reading.bound, look.units),
        limit: &reading.limit_name,
        margin: reading.margin().map(|margin| Margin::new(margin, look.units)),
        reason: reading.reason.as_deref(),
        sentence: reading.sentence(look.units),
        place: reading
            .subject
            .span
            .zip(spec.sources(of_new))
            .map(|(span, sources)| Place::new(span, sources)),
    };
    Some(Reading {
        news: change.news.word(),
        at_or_above_hold: change.holds,
        rule: &latest.rule.id,
        title: &latest.rule.title,
        subject: subject(latest),
        what: &latest.what,
        old: change.old.as_ref().map(|one| taken(one, false)),
        new: change.new.as_ref().map(|one| taken(one, true)),
        margin_by: change.margin.map(|margin| Value::new(margin.by, look.units)),
        words: spec.other_words(change, look.units),
    })
}

fn subject(reading: &pintle_finding::Reading) -> Subject<'_> {
    Subject { kind: reading.subject.kind, name: &reading.subject.name }
}

fn figure<'c>(change: &'c FigureChange, look: &Look) -> Figure<'c> {
    let known = |side: &'c Result<pintle_quantity::Quantity, String>| match side {
        Ok(value) => Known::Value(Value::new(*value, look.units)),
        Err(missing) => Known::Missing { missing },
    };
    Figure {
        state: change.state.as_deref(),
        name: change.name,
        old: known(&change.old),
        new: known(&change.new),
        by: change.by.map(|by| Value::new(by, look.units)),
    }
}

fn part<'c>(spec: &'c Comparison, change: &'c PartChange, look: &Look) -> Turned<'c> {
    let place = |span: Option<_>, of_new: bool| Some(Place::new(span?, spec.sources(of_new)?));
    let said = |worth: &'c Worth| match worth {
        Worth::Quantity(value) => Said::Quantity(Value::new(*value, look.units)),
        Worth::Words(words) => Said::Word(Cow::Borrowed(words)),
    };
    let field = |field: &'c FieldChange| Restated {
        field: &field.path,
        old: field.old.as_ref().map(said),
        new: field.new.as_ref().map(said),
        by: field.by.map(|by| Value::new(by, look.units)),
        place: place(Some(field.span), field.new.is_some()),
    };
    let value = |quantity| Value::new(quantity, look.units);
    let moved = |step: &super::Move| Move {
        axis: step.axis.word(),
        old: value(step.old),
        new: value(step.new),
        by: value(step.by),
    };
    Turned {
        part: &change.what,
        fate: change.fate.word(),
        place: place(change.span, change.fate != super::Fate::Removed),
        moves: change.moves.iter().map(moved).collect(),
        fields: change.fields.iter().map(field).collect(),
    }
}
