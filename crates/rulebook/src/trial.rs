//! Trying rules out: each rule's own changes to a sound base spec, and what it said of them.

use pintle_finding::{Problem, Reading, Stage, Verdict};
use pintle_source::{SourceId, Sources, Span};
use pintle_spec::node::{Node, NodeValue, parse};
use pintle_spec::{Build, Stock, patch, read_build_node, read_stock};

use crate::judge::{Detail, Judge};
use crate::rule_file::{Trial, Wanted};
use crate::rulebook::{Bound, Rulebook};

/// What came of one trial.
#[derive(Debug, Clone)]
pub struct TrialResult {
    /// The rule.
    pub rule: String,
    /// What was tried.
    pub name: String,
    /// Where the trial is written.
    pub span: Span,
    /// What the rule had to say.
    pub expect: Wanted,
    /// What went wrong, in words; none when the trial came out as expected.
    pub failure: Option<String>,
    /// Problems of the changed spec, when it could not be read.
    pub problems: Vec<Problem>,
    /// What the rule said.
    pub readings: Vec<Reading>,
}

/// The specs that trials start from.
struct Bases {
    stock: Stock,
    specs: Vec<(String, SourceId, Node)>,
}

/// Runs the trials of every rule that `wanted` picks. The files of base specs are added to `sources`.
pub fn run_trials(
    rulebook: &Rulebook,
    bases: &[(String, Vec<u8>)],
    sources: &mut Sources,
    wanted: impl Fn(&str) -> bool,
    problems: &mut Vec<Problem>,
) -> Vec<TrialResult> {
    let bases = read_bases(bases, sources, problems);
    let mut results = Vec::new();
    for bound in rulebook.rules.iter().filter(|bound| wanted(&bound.file.id)) {
        let judge = Judge::of_rule(rulebook, bound);
        for trial in &bound.file.trials {
            results.push(run_trial(bound, trial, &judge, &bases, sources));
        }
    }
    results
}

fn read_bases(files: &[(String, Vec<u8>)], sources: &mut Sources, problems: &mut Vec<Problem>) -> Bases {
    let mut stock = Vec::new();
    let mut specs = Vec::new();
    for (name, bytes) in files.iter().filter(|(name, _)| name.to_lowercase().ends_with(".toml")) {
        match sources.add_bytes(name, bytes) {
            Ok(id) => {
                let root = parse(sources, id, problems);
                if root.child("part").is_some() && root.child("build").is_none() {
                    stock.push(id);
                } else {
                    let stem = name.rsplit('/').next().unwrap_or(name).trim_end_matches(".toml");
                    specs.push((stem.to_owned(), id, root));
                }
            }
            Err(error) => problems.push(Problem::new("unreadable", error.to_string()).help(error.help())),
        }
    }
    Bases { stock: read_stock(sources, &stock, problems), specs }
}

fn run_trial(
    bound: &Bound,
    trial: &Trial,
    judge: &Judge<'_>,
    bases: &Bases,
    sources: &Sources,
) -> TrialResult {
    let mut result = TrialResult {
        rule: bound.file.id.clone(),
        name: trial.name.value.clone(),
        span: trial.name.span,
        expect: trial.expect,
        failure: None,
        problems: Vec::new(),
        readings: Vec::new(),
    };
    let Some((root, build)) = prepare(trial, bases, &mut result) else { return result };
    let build = Build { stage: pintle_source::Spanned::new(Stage::Service, build.stage.span), ..build };
    result.readings = judge.inspect(build, sources, Detail::Everything).readings;
    result.readings.retain(|reading| reading.rule.id == bound.file.id);
    result.failure = compare(trial, &root, &result.readings);
    result
}

fn prepare(trial: &Trial, bases: &Bases, result: &mut TrialResult) -> Option<(Node, Build)> {
    let Some((_, id, root)) = bases.specs.iter().find(|(name, _, _)| *name == trial.base.value) else {
        let known = bases.specs.iter().map(|(name, _, _)| name.as_str());
        let near = pintle_finding::nearest(&trial.base.value, known);
        let offer = near.map_or(String::new(), |near| format!("; did you mean `{near}`?"));
        result.failure = Some(format!("there is no base spec `{}`{offer}", trial.base.value));
        return None;
    };
    let mut root = root.clone();
    let removed = trial.without.iter().map(|path| patch::remove(&mut root, &path.value, path.span));
    let mut failures: Vec<Problem> = removed.filter_map(Result::err).collect();
    for (path, value) in &trial.with {
        failures.extend(patch::set(&mut root, &path.value, path.span, value).err());
    }
    let build = read_build_node(&root, *id, &bases.stock, &mut failures);
    if let (Some(build), true) = (build, failures.is_empty()) {
        return Some((root, build));
    }
    result.failure = Some("the changed spec cannot be read".to_owned());
    result.problems = failures;
    None
}

/// What differs from what was expected, in words.
fn compare(trial: &Trial, root: &Node, readings: &[Reading]) -> Option<String> {
    let any = |verdict: Verdict| readings.iter().any(|reading| reading.verdict == verdict);
    let told = |verdict: Verdict| {
        let found = readings.iter().find(|reading| reading.verdict == verdict);
        found.map(|reading| reading.sentence(pintle_quantity::Units::AsWritten)).unwrap_or_default()
    };
    if any(Verdict::Broken) {
        return Some(format!("the rule is broken: {}", told(Verdict::Broken)));
    }
    let (wanted, unwanted): (Verdict, &[Verdict]) = match trial.expect {
        Wanted::Pass => (Verdict::Pass, &[Verdict::Fault, Verdict::CannotJudge]),
        Wanted::Fault => (Verdict::Fault, &[Verdict::CannotJudge]),
        Wanted::NotApplicable => {
            (Verdict::NotApplicable, &[Verdict::Pass, Verdict::Fault, Verdict::CannotJudge])
        }
        Wanted::CannotJudge => (Verdict::CannotJudge, &[Verdict::Fault]),
    };
    for verdict in unwanted {
        if any(*verdict) {
            return Some(format!("expected {wanted}, found {verdict}: {}", told(*verdict)));
        }
    }
    if !any(wanted) {
        let found: Vec<&str> = readings.iter().map(|reading| reading.verdict.word()).collect();
        return Some(format!("expected {wanted}, found {}", found.join(", ")));
    }
    let path = trial.marks.as_ref()?;
    let Some(place) = patch::find(root, &path.value) else {
        return Some(format!("`{}`, which the finding must mark, is not in the spec", path.value));
    };
    let marked = readings
        .iter()
        .filter(|reading| reading.verdict == wanted)
        .flat_map(|reading| &reading.labels)
        .any(|label| stands_in(place, label.span));
    (!marked).then(|| format!("the finding does not point at `{}`", path.value))
}

/// Whether a place lies within a table or value.
fn stands_in(node: &Node, span: Span) -> bool {
    node.span.holds(span)
        || match &node.value {
            NodeValue::Table(entries) => {
                entries.iter().any(|entry| entry.key_span.holds(span) || stands_in(&entry.node, span))
            }
            NodeValue::Array(nodes) => nodes.iter().any(|node| stands_in(node, span)),
            _ => false,
        }
}
