//! One rule as written: its data file, checked, and its script, compiled once to see that it can be.

mod mend;

use std::sync::Arc;

use pintle_finding::{Basis, Citation, Grade, Label, Problem, Role, Stage, nearest};
use pintle_quantity::{Dimension, Quantity};
use pintle_script::{Around, Engine, Judges, Script, ScriptError, place};
use pintle_source::{SourceId, Sources, Span, Spanned};
use pintle_spec::OwnField;
use pintle_spec::node::{self, Node};
use pintle_spec::read::{read, require};
use pintle_spec::record::{Record, Value};

use crate::direction::Side;
use crate::pack_file::{Declared, Picked, unknown_subject};
use crate::schema::{limit, rule, source, trial};

/// One rule as written.
#[derive(Debug, Clone)]
pub struct RuleFile {
    /// `pack/rule`.
    pub id: String,
    /// Ids that it had before.
    pub was: Vec<Spanned<String>>,
    /// Whether it came with the tool.
    pub builtin: bool,
    /// The fault, in a few words.
    pub title: String,
    /// Why it matters.
    pub why: String,
    /// What it judges.
    pub judges: Judges,
    /// The subject of a pack's own that it judges, picked from those.
    pub picked: Option<Arc<Picked>>,
    /// How grave the fault is.
    pub grade: Grade,
    /// Where that is written.
    pub grade_span: Option<Span>,
    /// The stage from which it is judged.
    pub from: Stage,
    /// Where that is written.
    pub from_span: Option<Span>,
    /// Whether a shop may accept the fault.
    pub waivable: bool,
    /// Its own limits.
    pub limits: Vec<LimitFile>,
    /// What it rests on.
    pub citations: Vec<Citation>,
    /// What can be tried to put the fault right.
    pub mends: Vec<Mend>,
    /// Its trials.
    pub trials: Vec<Trial>,
    /// The data file.
    pub file: SourceId,
    /// The script's file.
    pub script: SourceId,
    /// The script.
    pub script_text: Arc<str>,
}

/// A limit as written.
#[derive(Debug, Clone)]
pub struct LimitFile {
    /// Its name.
    pub name: String,
    /// Its value.
    pub value: Spanned<Quantity>,
    /// Where the figure comes from.
    pub basis: Basis,
    /// Which side of it passes, where the rule says so: the script may not show.
    pub(crate) side: Option<Side>,
    /// What a reader should know of it.
    pub note: Option<String>,
}

pub use mend::{Mend, Move};

/// What a trial wants the rule to say.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wanted {
    /// Nothing wrong, and at least one reading that says so.
    Pass,
    /// At least one fault.
    Fault,
    /// That it does not bear on the spec.
    NotApplicable,
    /// That a value is missing.
    CannotJudge,
}

/// A change to a base spec, and what the rule must say of it.
#[derive(Debug, Clone)]
pub struct Trial {
    /// What is tried.
    pub name: Spanned<String>,
    /// The base spec's name.
    pub base: Spanned<String>,
    /// Values to put in: path, its place, the value.
    pub with: Vec<(Spanned<String>, Node)>,
    /// Paths to take away.
    pub without: Vec<Spanned<String>>,
    /// What the rule must say.
    pub expect: Wanted,
    /// Other rules that find a fault in it as well, by the nature of the change.
    pub also: Vec<Spanned<String>>,
    /// The path of what the finding must point at.
    pub marks: Option<Spanned<String>>,
}

/// Reads a rule from its two files. Gives nothing when anything is wrong with it.
pub(crate) fn read_rule(
    (id, builtin): (&str, bool),
    file: SourceId,
    script: SourceId,
    declared: &Declared,
    sources: &Sources,
    engine: &Engine,
    problems: &mut Vec<Problem>,
) -> Option<RuleFile> {
    let before = problems.len();
    let root = node::parse(sources, file, problems);
    let what = format!("rule `{id}`");
    let record = read(&root, &rule::SCHEMA, &what, problems);
    require(&record, &rule::SCHEMA, problems);
    for (field, help) in [
        (&rule::SOURCES, "say what it rests on, if only `basis = \"memory\"`"),
        (&rule::TRIALS, "try it on a sound spec with the fault put in"),
    ] {
        if let (Some(held), []) = (record.value(field.key), record.tables(field)) {
            problems.push(
                Problem::new("missing-value", format!("{what} has no `{}`", field.key))
                    .at(Label::new(held.span, Role::Missing, "nothing in here"))
                    .help(help),
            );
        }
    }
    let word = record.text(&rule::JUDGES);
    let picked = word.and_then(|word| declared.subjects.iter().find(|held| held.name.value == word.value));
    let judges = picked.map(|picked| picked.of).or_else(|| Judges::from_word(word?.value));
    if let (Some(word), None) = (word, judges) {
        let own: Vec<&str> = declared.subjects.iter().map(|held| held.name.value.as_str()).collect();
        problems.push(unknown_subject(&what, "judges", &word, &own));
    }
    let text = sources.text(script);
    if let Some(judges) = judges {
        let limits = record.named(&rule::LIMITS);
        let measures = |record: &Record| record.quantity(&limit::VALUE).map(|held| held.value.dimension());
        let known: Vec<(String, Option<Dimension>)> =
            limits.iter().map(|(name, limit)| (name.value.clone(), measures(limit))).collect();
        let own_fields: Vec<OwnField> = declared.fields.iter().map(|(field, _)| field.clone()).collect();
        let around = Around { limits: &known, own_fields: Some(&own_fields) };
        let (compiled, wrong) = engine.check(text, script, judges, &around);
        let said = if compiled.is_some() { "is wrong" } else { "cannot be read" };
        problems.extend(
            wrong
                .into_iter()
                .map(|error| bad_script(&format!("the script of {what} {said}"), error, script, sources)),
        );
        if let Some(compiled) = compiled {
            check_limits(&what, &compiled, limits, sources, problems);
        }
    }
    if problems.len() > before {
        return None;
    }
    let owned = |field| record.text(field).map(|text| text.value.to_owned());
    Some(RuleFile {
        id: id.to_owned(),
        was: record.texts(&rule::WAS).to_vec(),
        builtin,
        title: owned(&rule::TITLE)?,
        why: owned(&rule::WHY)?,
        judges: judges?,
        picked: picked.cloned(),
        grade: Grade::from_word(record.word(&rule::GRADE)?.value)?,
        grade_span: record.word(&rule::GRADE).map(|word| word.span),
        from: Stage::from_word(record.word(&rule::FROM)?.value)?,
        from_span: record.word(&rule::FROM).map(|word| word.span),
        waivable: record.flag(&rule::WAIVABLE).is_none_or(|flag| flag.value),
        limits: record.named(&rule::LIMITS).iter().filter_map(read_limit).collect(),
        citations: record.tables(&rule::SOURCES).iter().filter_map(read_citation).collect(),
        mends: mend::read_mends(record.tables(&rule::MENDS), judges?, problems),
        trials: record.tables(&rule::TRIALS).iter().filter_map(|trial| read_trial(trial, problems)).collect(),
        file,
        script,
        script_text: Arc::from(text),
    })
    .filter(|_| problems.len() == before)
}

/// What is wrong with a script, at its place and at those that have to do with it.
fn bad_script(said: &str, error: ScriptError, script: SourceId, sources: &Sources) -> Problem {
    let mut problem = Problem::new("bad-script", format!("{said}: {}", error.message));
    problem.help = error.help;
    let places = std::iter::once((error.position, error.label)).chain(error.beside);
    for (position, words) in places {
        if let Some(span) = place(sources, script, position) {
            problem = problem.at(Label::new(span, Role::Script, words));
        }
    }
    problem
}

/// A script asks for the limits its rule has, and a rule has no limit that its script does not ask for: whoever sets
/// that one in the rulebook would set nothing.
fn check_limits(
    what: &str,
    script: &Script,
    limits: &[(Spanned<String>, Record)],
    sources: &Sources,
    problems: &mut Vec<Problem>,
) {
    let known = || limits.iter().map(|(name, _)| name.value.as_str());
    for (asked, position) in script.limits().iter().filter(|(asked, _)| known().all(|name| name != asked)) {
        let mut problem = Problem::new("unknown-limit", format!("{what} has no limit `{asked}`")).help(
            match nearest(asked, known()) {
                Some(near) => format!("did you mean `{near}`?"),
                None => format!("state it as `[limit.{asked}]`, with its value and basis"),
            },
        );
        if let Some(span) = place(sources, script.source, *position) {
            problem = problem.at(Label::new(span, Role::Script, "no such limit"));
        }
        problems.push(problem);
    }
    if script.limits_otherwise() {
        return;
    }
    for (name, _) in limits {
        if script.limits().iter().all(|(asked, _)| *asked != name.value) {
            problems.push(
                Problem::new("unused-limit", format!("the script of {what} never asks for `{}`", name.value))
                    .at(Label::new(name.span, Role::Subject, "a limit that limits nothing"))
                    .help(format!(
                        "compare with `limit.{}` in the script, or leave the limit out",
                        name.value
                    )),
            );
        }
    }
}

fn read_limit((name, record): &(Spanned<String>, Record)) -> Option<LimitFile> {
    Some(LimitFile {
        name: name.value.clone(),
        value: record.quantity(&limit::VALUE)?,
        basis: Basis::from_word(record.word(&limit::BASIS)?.value)?,
        side: record.word(&limit::STRICTER).map(|word| match word.value {
            "lower" => Side::Most,
            _ => Side::Least,
        }),
        note: record.text(&limit::NOTE).map(|note| note.value.to_owned()),
    })
}

fn read_citation(record: &Record) -> Option<Citation> {
    let owned = |field| record.text(field).map(|text| text.value.to_owned());
    Some(Citation {
        basis: Basis::from_word(record.word(&source::BASIS)?.value)?,
        text: owned(&source::TEXT).unwrap_or_default(),
        says: owned(&source::SAYS)?,
        guideline: owned(&source::GUIDELINE),
    })
}

fn read_trial(record: &Record, problems: &mut Vec<Problem>) -> Option<Trial> {
    let owned = |field| record.text(field).map(|text| text.map(str::to_owned));
    let with = match record.value(trial::WITH.key).map(|held| &held.value) {
        Some(Value::Raw(node)) => {
            if node.entries().is_empty() {
                problems.push(
                    Problem::new("wrong-type", "`with` of a trial must be a table of paths and values")
                        .at(Label::new(node.span, Role::Subject, "no paths in here"))
                        .help("such as `with = { \"trailer.gvwr\" = \"2,000 lb\" }`"),
                );
            }
            node.entries()
                .iter()
                .map(|entry| (Spanned::new(entry.key.clone(), entry.key_span), entry.node.clone()))
                .collect()
        }
        _ => Vec::new(),
    };
    Some(Trial {
        name: owned(&trial::NAME)?,
        base: owned(&trial::BASE)?,
        with,
        without: record.texts(&trial::WITHOUT).to_vec(),
        expect: match record.word(&trial::EXPECT)?.value {
            "pass" => Wanted::Pass,
            "fault" => Wanted::Fault,
            "not applicable" => Wanted::NotApplicable,
            _ => Wanted::CannotJudge,
        },
        also: record.texts(&trial::ALSO).to_vec(),
        marks: owned(&trial::MARKS),
    })
}

/// The place of a rule's limit, for labels.
pub(crate) fn limit_span(rule: &RuleFile, name: &str) -> Option<Span> {
    rule.limits.iter().find(|limit| limit.name == name).map(|limit| limit.value.span)
}
