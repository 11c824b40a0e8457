//! One rule as written: its data file, checked, and its script, compiled once to see that it can be.

use std::sync::Arc;

use pintle_finding::{Basis, Citation, Grade, Label, Problem, Role, Stage, nearest};
use pintle_quantity::Quantity;
use pintle_script::{Engine, Judges, place};
use pintle_source::{SourceId, Sources, Span, Spanned};
use pintle_spec::node::{self, Node};
use pintle_spec::read::{list, read, require};
use pintle_spec::record::{Record, Value};

use crate::schema::{limit, rule, source, trial};

/// One rule as written.
#[derive(Debug, Clone)]
pub struct RuleFile {
    /// `pack/rule`.
    pub id: String,
    /// The fault, in a few words.
    pub title: String,
    /// Why it matters.
    pub why: String,
    /// What it judges.
    pub judges: Judges,
    /// How grave the fault is.
    pub grade: Grade,
    /// The stage from which it is judged.
    pub from: Stage,
    /// Whether a shop may accept the fault.
    pub waivable: bool,
    /// Its own limits.
    pub limits: Vec<LimitFile>,
    /// What it rests on.
    pub citations: Vec<Citation>,
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
    /// What a reader should know of it.
    pub note: Option<String>,
}

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
    /// The path of what the finding must point at.
    pub marks: Option<Spanned<String>>,
}

/// Reads a rule from its two files. Gives nothing when anything is wrong with it.
pub(crate) fn read_rule(
    id: &str,
    file: SourceId,
    script: SourceId,
    sources: &Sources,
    engine: &Engine,
    problems: &mut Vec<Problem>,
) -> Option<RuleFile> {
    let before = problems.len();
    let root = node::parse(sources, file, problems);
    let what = format!("rule `{id}`");
    let record = read(&root, &rule::SCHEMA, &what, problems);
    require(&record, &rule::SCHEMA, problems);
    let judges = record.text(&rule::JUDGES).and_then(|word| {
        let found = Judges::from_word(word.value);
        if found.is_none() {
            let help = match nearest(word.value, Judges::words().iter().copied()) {
                Some(near) => format!("did you mean `{near}`?"),
                None => format!("a rule judges one of {}", list(Judges::words().iter().copied())),
            };
            problems.push(
                Problem::new("unknown-word", format!("{what} cannot judge `{}`", word.value))
                    .at(Label::new(word.span, Role::Subject, "not something that can be judged"))
                    .help(help),
            );
        }
        found
    });
    let text = sources.text(script);
    if let Some(judges) = judges {
        if let Err(error) = engine.compile(text, script, judges) {
            let mut problem =
                Problem::new("bad-script", format!("the script of {what} cannot be read: {}", error.message))
                    .help("correct the script; every name it uses must be one that the rule is given");
            if let Some(span) = place(sources, script, error.position) {
                problem = problem.at(Label::new(span, Role::Script, "here"));
            }
            problems.push(problem);
        }
    }
    if problems.len() > before {
        return None;
    }
    let owned = |field| record.text(field).map(|text| text.value.to_owned());
    Some(RuleFile {
        id: id.to_owned(),
        title: owned(&rule::TITLE)?,
        why: owned(&rule::WHY)?,
        judges: judges?,
        grade: Grade::from_word(record.word(&rule::GRADE)?.value)?,
        from: Stage::from_word(record.word(&rule::FROM)?.value)?,
        waivable: record.flag(&rule::WAIVABLE).is_none_or(|flag| flag.value),
        limits: record.named(&rule::LIMITS).iter().filter_map(read_limit).collect(),
        citations: record.tables(&rule::SOURCES).iter().filter_map(read_citation).collect(),
        trials: record.tables(&rule::TRIALS).iter().filter_map(|trial| read_trial(trial, problems)).collect(),
        file,
        script,
        script_text: Arc::from(text),
    })
    .filter(|_| problems.len() == before)
}

fn read_limit((name, record): &(Spanned<String>, Record)) -> Option<LimitFile> {
    Some(LimitFile {
        name: name.value.clone(),
        value: record.quantity(&limit::VALUE)?,
        basis: Basis::from_word(record.word(&limit::BASIS)?.value)?,
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
        marks: owned(&trial::MARKS),
    })
}

/// The place of a rule's limit, for labels.
pub(crate) fn limit_span(rule: &RuleFile, name: &str) -> Option<Span> {
    rule.limits.iter().find(|limit| limit.name == name).map(|limit| limit.value.span)
}
