//! Trying rules out: each rule's own changes to a sound base spec, and what it and the other rules said of them.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::atomic::AtomicUsize;
use std::sync::atomic::Ordering::Relaxed;

use pintle_finding::{Problem, Reading, Stage, Verdict};
use pintle_source::{SourceId, Sources, Span};
use pintle_spec::node::{Node, NodeValue, parse};
use pintle_spec::{Build, Stock, patch, read_build_node, read_stock};

use crate::judge::{Detail, Judge};
use crate::pack::trial_bases;
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

impl TrialResult {
    fn of(bound: &Bound, trial: &Trial) -> Self {
        Self {
            rule: bound.file.id.clone(),
            name: trial.name.value.clone(),
            span: trial.name.span,
            expect: trial.expect,
            failure: None,
            problems: Vec::new(),
            readings: Vec::new(),
        }
    }
}

/// The lines of a script on which statements begin, from 1, and which of them were run.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Lines {
    /// All of them.
    pub all: BTreeSet<usize>,
    /// Those that were run.
    pub run: BTreeSet<usize>,
}

/// The specs that trials start from, with the stock that they are built of.
#[derive(Debug, Default)]
pub struct Bases {
    stock: Stock,
    specs: Vec<(String, SourceId, Node)>,
}

impl Bases {
    /// The demo shop's, which came with the tool.
    pub fn builtin(sources: &mut Sources, problems: &mut Vec<Problem>) -> Self {
        let (mut stock, mut specs) = (Vec::new(), Vec::new());
        for (name, bytes) in trial_bases() {
            match sources.add_bytes(&name, &bytes) {
                Ok(id) if name.contains("/stock/") => stock.push(id),
                Ok(id) => specs.push(id),
                Err(error) => problems.push(Problem::new("unreadable", error.to_string()).help(error.help())),
            }
        }
        Self::of_shop(read_stock(sources, &stock, problems), &specs, sources)
    }

    /// A shop's own. What is wrong with one of them is said when a trial starts from it.
    pub fn of_shop(stock: Stock, specs: &[SourceId], sources: &Sources) -> Self {
        let specs = specs.iter().map(|id| {
            let name = sources.name(*id);
            let stem = name.rsplit('/').next().unwrap_or(name).trim_end_matches(".toml");
            (stem.to_owned(), *id, parse(sources, *id, &mut Vec::new()))
        });
        Self { stock, specs: specs.collect() }
    }
}

/// A base spec with what belongs to it.
#[derive(Debug, Clone, Copy)]
struct Base<'b> {
    stock: &'b Stock,
    id: SourceId,
    root: &'b Node,
}

/// Everything that runs trials.
#[derive(Debug)]
pub struct Trials<'b> {
    rulebook: &'b Rulebook,
    all: Judge<'b>,
    builtin: &'b Bases,
    own: &'b Bases,
    sources: &'b Sources,
    /// Rules that find a fault in a base as it stands, by the base.
    faults_before: RefCell<BTreeMap<SourceId, BTreeSet<String>>>,
}

/// Does something with each rule's trials, on as many threads as the machine has; what came of it in the order of the
/// rules. Rules of a shop's own start from its own specs, and from the built-in ones where it has none of the name.
pub fn each_rule<T: Send>(
    rulebook: &Rulebook,
    builtin: &Bases,
    own: &Bases,
    sources: &Sources,
    rules: &[&Bound],
    work: impl Fn(&Trials<'_>, &Bound) -> T + Sync,
) -> Vec<T> {
    let threads = std::thread::available_parallelism().map_or(1, usize::from).min(rules.len()).max(1);
    let next = AtomicUsize::new(0);
    let share = || {
        let trials = Trials::new(rulebook, builtin, own, sources);
        let mut done = Vec::new();
        loop {
            let at = next.fetch_add(1, Relaxed);
            let Some(bound) = rules.get(at) else { return done };
            done.push((at, work(&trials, bound)));
        }
    };
    let mut done: Vec<(usize, T)> = std::thread::scope(|scope| {
        let shares: Vec<_> = (0..threads).map(|_| scope.spawn(share)).collect();
        let ended = shares
            .into_iter()
            .map(|share| share.join().unwrap_or_else(|panic| std::panic::resume_unwind(panic)));
        ended.flatten().collect()
    });
    done.sort_by_key(|(at, _)| *at);
    done.into_iter().map(|(_, done)| done).collect()
}

impl<'b> Trials<'b> {
    /// Compiles all rules.
    pub fn new(rulebook: &'b Rulebook, builtin: &'b Bases, own: &'b Bases, sources: &'b Sources) -> Self {
        let faults_before = RefCell::default();
        Self { rulebook, all: Judge::new(rulebook), builtin, own, sources, faults_before }
    }

    /// Runs the trials of one rule.
    pub fn of(&self, bound: &Bound) -> Vec<TrialResult> {
        bound.file.trials.iter().map(|trial| self.run(bound, trial)).collect()
    }

    /// Runs one trial by its own rule alone: what other rules make of the change is not asked.
    pub fn alone(&self, bound: &Bound, trial: &Trial) -> TrialResult {
        let mut result = TrialResult::of(bound, trial);
        if let Some((root, build, _)) = self.changed(bound, trial, &mut result) {
            let judge = Judge::of_rule(self.rulebook, bound);
            let mut readings = judge.inspect(at_service(build), self.sources, Detail::Everything).readings;
            readings.retain(|reading| reading.rule.id == bound.file.id);
            result.failure = compare(trial, &root, &readings);
            result.readings = readings;
        }
        result
    }

    /// Which lines of a rule's script its trials run.
    pub fn lines(&self, bound: &Bound) -> Lines {
        let judge = Judge::noting_lines(self.rulebook, bound);
        let changed = |trial| self.changed(bound, trial, &mut TrialResult::of(bound, trial));
        for (_, build, _) in bound.file.trials.iter().filter_map(changed) {
            judge.inspect(at_service(build), self.sources, Detail::Findings);
        }
        judge.lines(bound)
    }

    /// The build that the first trial of a rule starts from, for those who want to know how long the rule takes.
    pub fn first_base(&self, bound: &Bound) -> Option<Build> {
        let base = self.base(bound, bound.file.trials.first()?).ok()?;
        read_build_node(base.root, base.id, base.stock, &mut Vec::new()).map(at_service)
    }

    fn run(&self, bound: &Bound, trial: &Trial) -> TrialResult {
        let mut result = TrialResult::of(bound, trial);
        let Some((root, build, base)) = self.changed(bound, trial, &mut result) else { return result };
        let mut readings = self.judged(build);
        let others = faulted(readings.iter().filter(|reading| reading.rule.id != bound.file.id));
        readings.retain(|reading| reading.rule.id == bound.file.id);
        result.readings = readings;
        result.failure =
            compare(trial, &root, &result.readings).or_else(|| self.beside(trial, base, &others));
        result
    }

    /// The base as a trial changes it, read; where it cannot be, the result says why.
    fn changed(
        &self,
        bound: &Bound,
        trial: &Trial,
        result: &mut TrialResult,
    ) -> Option<(Node, Build, Base<'_>)> {
        match self.base(bound, trial) {
            Ok(base) => {
                let mut root = base.root.clone();
                let build = change(trial, &mut root, base, result)?;
                Some((root, build, base))
            }
            Err(failure) => {
                result.failure = Some(failure);
                None
            }
        }
    }

    fn base(&self, bound: &Bound, trial: &Trial) -> Result<Base<'_>, String> {
        let sets: &[&Bases] = if bound.file.builtin { &[self.builtin] } else { &[self.own, self.builtin] };
        let all = || sets.iter().flat_map(|set| set.specs.iter().map(|spec| (&set.stock, spec)));
        if let Some((stock, (_, id, root))) = all().find(|(_, (name, ..))| *name == trial.base.value) {
            return Ok(Base { stock, id: *id, root });
        }
        let near = pintle_finding::nearest(&trial.base.value, all().map(|(_, (name, ..))| name.as_str()));
        let offer = near.map_or(String::new(), |near| format!("; did you mean `{near}`?"));
        Err(format!("there is no base spec `{}`{offer}", trial.base.value))
    }

    /// All that all rules say of a build that has come as far as any can.
    fn judged(&self, build: Build) -> Vec<Reading> {
        self.all.inspect(at_service(build), self.sources, Detail::Everything).readings
    }

    /// Which rules besides its own find a fault that the base has not: a trial puts in one fault, and says so where it
    /// cannot.
    fn beside(&self, trial: &Trial, base: Base<'_>, others: &BTreeSet<String>) -> Option<String> {
        let before = self.faults_before(base);
        let said: BTreeSet<&str> = trial.also.iter().map(|rule| rule.value.as_str()).collect();
        let new =
            others.iter().map(String::as_str).filter(|rule| !before.contains(*rule) && !said.contains(rule));
        let new: Vec<&str> = new.collect();
        let gone: Vec<&str> = said.into_iter().filter(|rule| !others.contains(*rule)).collect();
        match (new.as_slice(), gone.as_slice()) {
            ([], []) => None,
            ([], gone) => Some(format!("`also` names {}, and no fault of it is found", gone.join(", "))),
            (new, _) => Some(format!(
                "it puts in more than its own fault: {} too; change less, or name them in `also`",
                new.join(", ")
            )),
        }
    }

    fn faults_before(&self, base: Base<'_>) -> BTreeSet<String> {
        if let Some(known) = self.faults_before.borrow().get(&base.id) {
            return known.clone();
        }
        let build = read_build_node(base.root, base.id, base.stock, &mut Vec::new());
        let faults = build.map(|build| faulted(self.judged(build).iter())).unwrap_or_default();
        self.faults_before.borrow_mut().insert(base.id, faults.clone());
        faults
    }
}

/// A build that has come as far as any can, so that every rule is judged.
fn at_service(build: Build) -> Build {
    Build { stage: pintle_source::Spanned::new(Stage::Service, build.stage.span), ..build }
}

/// The rules that find a fault.
fn faulted<'r>(readings: impl Iterator<Item = &'r Reading>) -> BTreeSet<String> {
    let faults = readings.filter(|reading| reading.verdict == Verdict::Fault);
    faults.map(|reading| reading.rule.id.clone()).collect()
}

/// The base as a trial changes it.
fn change(trial: &Trial, root: &mut Node, base: Base<'_>, result: &mut TrialResult) -> Option<Build> {
    let removed = trial.without.iter().map(|path| patch::remove(root, &path.value, path.span));
    let mut failures: Vec<Problem> = removed.filter_map(Result::err).collect();
    for (path, value) in &trial.with {
        failures.extend(patch::set(root, &path.value, path.span, value).err());
    }
    let build = read_build_node(root, base.id, base.stock, &mut failures);
    if let (Some(build), true) = (build, failures.is_empty()) {
        return Some(build);
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
