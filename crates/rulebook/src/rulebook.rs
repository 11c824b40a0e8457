//! The rules in force: packs as written, with the layers of a rulebook over them.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use pintle_calc::uncertainty::Tolerances;
use pintle_calc::{Assumptions, Places};
use pintle_finding::{ByEye, Grade, Label, Problem, Role, Rule};
use pintle_script::{Clock, Engine, Limit};
use pintle_source::{SourceId, Sources, Span};
use pintle_spec::OwnField;

use crate::assumed;
use crate::backlog::Backlog;
use crate::by_eye;
use crate::kept::{self, Kept};
use crate::overrides::Rules;
use crate::pack::PackFiles;
use crate::pack_file::Declared;
use crate::places;
use crate::renamed::Renamed;
use crate::rule_file::{RuleFile, limit_span, read_rule};
use crate::settings::{Layer, Settings};
use crate::tolerances::{self, BoundTolerance};
use crate::waiver::Waivers;

/// A rule in force.
#[derive(Debug, Clone)]
pub struct Bound {
    /// The rule as written.
    pub file: Arc<RuleFile>,
    /// What its readings share.
    pub rule: Arc<Rule>,
    /// Its limits in force.
    pub limits: Vec<Limit>,
}

/// All rules in force. Cheap to share between threads.
#[derive(Debug, Clone)]
pub struct Rulebook {
    /// The rules, by pack in the order of the rulebook, then by name.
    pub rules: Vec<Bound>,
    /// Ids that they had before.
    pub renamed: Renamed,
    /// The tool's own rules, on the rulebook itself.
    pub kept: Vec<Kept>,
    /// The files it was put together from, each over those before it, by their numbers.
    pub layers: Vec<SourceId>,
    /// The last of them, where it is of one build.
    pub of_build: Option<SourceId>,
    /// Faults that are accepted.
    pub waivers: Waivers,
    /// Findings that were there when the specs were taken in.
    pub backlog: Option<Backlog>,
    /// The grade at or above which a build is stopped.
    pub hold: Grade,
    /// The shop's name.
    pub shop: Option<String>,
    /// How sure a value is that states no ± of its own, as it is written, in the order of the built-in table.
    pub bound_tolerances: Vec<BoundTolerance>,
    /// The same as plain data, for reckoning.
    pub tolerances: Tolerances,
    /// What is assumed where a build does not say.
    pub assumptions: Assumptions,
    /// The places there are, and those that the shop reckons with.
    pub places: Places,
    /// Checks that only eyes can make, in the order of the walk.
    pub by_eye: Vec<ByEye>,
    /// Fields of the shop's own that its packs declare.
    pub own_fields: Arc<[OwnField]>,
    /// The clock by which a script that takes too long is stopped; none stops none.
    pub clock: Option<Clock>,
}

impl Rulebook {
    /// Puts packs under a shop's settings. What is wrong is in `problems`; a rule with a problem is left out.
    pub fn assemble(
        sources: &mut Sources,
        settings: &Settings,
        packs: &[PackFiles],
        problems: &mut Vec<Problem>,
    ) -> Self {
        let engine = Engine::new();
        let mut rules = Vec::new();
        let mut declared = Declared::default();
        for pack in packs {
            if let Some((name, bytes)) = pack.files.iter().find(|(name, _)| is_pack_file(name))
                && let Some(file) = take(name, bytes, sources, problems)
            {
                declared.add(file, &engine, sources, problems);
            }
        }
        for pack in packs {
            for (id, file, script) in pairs(pack, sources, problems) {
                rules.extend(read_rule(
                    (&id, pack.builtin),
                    file,
                    script,
                    &declared,
                    sources,
                    &engine,
                    problems,
                ));
            }
        }
        let kept = kept::all();
        for rule in &kept {
            if let Some(taken) = rules.iter().find(|file: &&RuleFile| file.id == rule.rule.id) {
                problems.push(
                    Problem::new("duplicate-rule", format!("`{}` is one of the tool's own rules", taken.id))
                        .help("a rule is called by its file: rename it"),
                );
            }
        }
        rules.retain(|file| kept.iter().all(|rule| rule.rule.id != file.id));
        let renamed = Renamed::of(&rules, &kept, problems);
        for also in rules.iter_mut().flat_map(|file| &mut file.trials).flat_map(|trial| &mut trial.also) {
            renamed.settle(also, problems);
        }
        let bound_tolerances = tolerances::builtin(sources, problems);
        let assumptions = assumed::bind(sources, &settings.layers, problems);
        let places = places::bind(sources, settings.places(), problems);
        let by_eye = by_eye::builtin(sources, problems);
        let mut rulebook = Self {
            rules: rules.into_iter().map(bind).collect(),
            renamed,
            kept,
            layers: Vec::new(),
            of_build: None,
            waivers: Waivers::default(),
            backlog: None,
            assumptions,
            places,
            by_eye,
            own_fields: declared.fields.into_iter().map(|(field, _)| field).collect(),
            hold: settings.hold().unwrap_or(Grade::Major),
            shop: settings.shop().map(str::to_owned),
            tolerances: Tolerances::default(),
            bound_tolerances,
            clock: None,
        };
        for layer in &settings.layers {
            rulebook.lay(layer, sources, problems);
        }
        rulebook.reckon();
        rulebook
    }

    /// The same with the layer of one build above all.
    #[must_use]
    pub fn under(&self, layer: &Layer, sources: &Sources, problems: &mut Vec<Problem>) -> Self {
        let mut rulebook = Self { of_build: Some(layer.file), ..self.clone() };
        rulebook.lay(layer, sources, problems);
        rulebook.reckon();
        rulebook
    }

    fn lay(&mut self, layer: &Layer, sources: &Sources, problems: &mut Vec<Problem>) {
        let layer = &self.renamed.in_layer(layer, problems);
        self.layers.push(layer.file);
        let mut rules = Rules { bound: &mut self.rules, kept: &mut self.kept, sources };
        rules.apply(layer, problems);
        tolerances::apply(&mut self.bound_tolerances, &layer.tolerances, sources, problems);
        by_eye::lay(&mut self.by_eye, &layer.by_eye, sources, problems);
        self.waivers.lay(layer, self.of_build.is_some(), &self.rules, &self.kept, sources, problems);
    }

    /// What is reckoned with once all layers are laid.
    fn reckon(&mut self) {
        self.tolerances = tolerances::plain(&self.bound_tolerances);
        self.assumptions = self.assumptions.clone().with_tolerances(self.tolerances.clone());
    }

    /// Whether a shop may accept a rule's faults; none for a rule that is not in use.
    pub fn waivable(&self, id: &str) -> Option<bool> {
        let kept = || self.kept.iter().any(|kept| kept.rule.id == id).then_some(false);
        self.rule(id).map(|bound| bound.file.waivable).or_else(kept)
    }

    /// The rule with an id.
    pub fn rule(&self, id: &str) -> Option<&Bound> {
        self.rules.iter().find(|bound| bound.file.id == id)
    }

    /// Every id but those of the tool's own.
    pub fn ids(&self) -> impl Iterator<Item = &str> + Clone {
        self.rules.iter().map(|bound| bound.file.id.as_str())
    }
}

/// The rules of a pack: id, data file and script; a file without its other half is a problem.
fn pairs(
    pack: &PackFiles,
    sources: &mut Sources,
    problems: &mut Vec<Problem>,
) -> Vec<(String, SourceId, SourceId)> {
    let mut pairs: Vec<(String, SourceId, SourceId)> = Vec::new();
    let mut ids: BTreeSet<String> = BTreeSet::new();
    let by_name: BTreeMap<&str, &Vec<u8>> =
        pack.files.iter().map(|(name, bytes)| (name.as_str(), bytes)).collect();
    let stem = |name: &str, ending: &str| {
        name.strip_suffix(ending).map(|path| path.rsplit('/').next().unwrap_or(path).to_owned())
    };
    for (name, bytes) in pack.files.iter().filter(|(name, _)| !is_pack_file(name)) {
        let other = |ending: &str, with: &str| {
            let other = format!("{}{with}", name.strip_suffix(ending)?);
            by_name.get(other.as_str()).map(|bytes| (other.clone(), *bytes))
        };
        if let Some(rule) = stem(name, ".toml") {
            match other(".toml", ".rhai") {
                Some((script_name, script_bytes)) => {
                    let file = take(name, bytes, sources, problems);
                    let script = take(&script_name, script_bytes, sources, problems);
                    let id = format!("{}/{rule}", pack.name);
                    if ids.contains(&id) {
                        problems.push(
                            Problem::new("duplicate-rule", format!("two rules are called `{id}`; the second is `{name}`"))
                                .help("a rule is called by its file, whatever folder of the pack it is in: rename one"),
                        );
                    } else if let (Some(file), Some(script)) = (file, script) {
                        ids.insert(id.clone());
                        pairs.push((id, file, script));
                    }
                }
                None => problems.push(
                    Problem::new("half-a-rule", format!("`{name}` has no script beside it"))
                        .help(format!("write its judgement in `{rule}.rhai`")),
                ),
            }
        } else if let Some(rule) = stem(name, ".rhai") {
            if other(".rhai", ".toml").is_none() {
                problems.push(
                    Problem::new("half-a-rule", format!("`{name}` has no data file beside it"))
                        .help(format!("describe the rule in `{rule}.toml`")),
                );
            }
        } else if !name.to_lowercase().ends_with(".md") {
            problems.push(
                Problem::new("stray-file", format!("`{name}` is not part of a rule"))
                    .help("a pack holds rules (.toml and .rhai) and notes (.md)"),
            );
        }
    }
    pairs
}

/// Whether a file says what a pack declares, rather than a rule.
fn is_pack_file(name: &str) -> bool {
    name.rsplit('/').next() == Some("pack.toml")
}

fn take(name: &str, bytes: &[u8], sources: &mut Sources, problems: &mut Vec<Problem>) -> Option<SourceId> {
    match sources.add_bytes(name, bytes) {
        Ok(id) => Some(id),
        Err(error) => {
            problems.push(Problem::new("unreadable", error.to_string()).help(error.help()));
            None
        }
    }
}

fn bind(file: RuleFile) -> Bound {
    let limits = file.limits.iter().map(|limit| Limit {
        name: limit.name.clone(),
        value: limit.value.value,
        basis: limit.basis,
        span: limit_span(&file, &limit.name),
        set_by: None,
    });
    let rule = Rule {
        id: file.id.clone(),
        title: file.title.clone(),
        why: file.why.clone(),
        judges: file.judges.word().to_owned(),
        grade: file.grade,
        grade_set_by: None,
        from: file.from,
        from_set_by: None,
        citations: file.citations.clone(),
        kept: false,
    };
    Bound { limits: limits.collect(), rule: Arc::new(rule), file: Arc::new(file) }
}

pub(crate) fn set_twice(what: &str, span: Span, first: Option<Span>) -> Problem {
    let mut problem = Problem::new("set-twice", format!("{what} is set twice"))
        .at(Label::new(span, Role::Subject, "set again here"))
        .help("keep one of the two");
    if let Some(first) = first {
        problem = problem.at(Label::new(first, Role::Subject, "set here"));
    }
    problem
}
