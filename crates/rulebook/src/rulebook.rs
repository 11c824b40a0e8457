//! The rules in force: packs as written, with a shop's limits and grades over them.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use pintle_calc::uncertainty::Tolerances;
use pintle_calc::{Assumptions, Places};
use pintle_finding::{Grade, Label, Problem, Role, Rule, SetBy, nearest};
use pintle_quantity::Units;
use pintle_script::{Clock, Engine, Limit};
use pintle_source::{SourceId, Sources, Span};
use pintle_spec::OwnField;
use pintle_spec::read::list;

use crate::assumed;
use crate::pack::PackFiles;
use crate::pack_file::Declared;
use crate::places;
use crate::rule_file::{RuleFile, limit_span, read_rule};
use crate::settings::Settings;
use crate::tolerances::{self, BoundTolerance};

/// A rule in force.
#[derive(Debug, Clone)]
pub struct Bound {
    /// The rule as written.
    pub file: RuleFile,
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
        let mut bound: Vec<Bound> = rules.into_iter().map(bind).collect();
        apply(&mut bound, settings, sources, problems);
        let bound_tolerances = tolerances::bind(sources, &settings.tolerances, problems);
        let tolerances = tolerances::plain(&bound_tolerances);
        let assumptions = assumed::bind(sources, &settings.assumptions, problems);
        let places = places::bind(sources, &settings.places, problems);
        Self {
            rules: bound,
            assumptions: assumptions.with_tolerances(tolerances.clone()),
            places,
            own_fields: declared.fields.into_iter().map(|(field, _)| field).collect(),
            hold: settings.hold.unwrap_or(Grade::Major),
            shop: settings.shop.clone(),
            tolerances,
            bound_tolerances,
            clock: None,
        }
    }

    /// The rule with an id.
    pub fn rule(&self, id: &str) -> Option<&Bound> {
        self.rules.iter().find(|bound| bound.file.id == id)
    }

    /// Every id.
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
        grade: file.grade,
        grade_set_by: None,
        from: file.from,
        citations: file.citations.clone(),
    };
    Bound { limits: limits.collect(), rule: Arc::new(rule), file }
}

fn apply(rules: &mut [Bound], settings: &Settings, sources: &Sources, problems: &mut Vec<Problem>) {
    let ids: Vec<String> = rules.iter().map(|bound| bound.file.id.clone()).collect();
    let unknown = |rule: &pintle_source::Spanned<String>| {
        let mut problem = Problem::new("unknown-rule", format!("no rule in use is called `{}`", rule.value))
            .at(Label::new(rule.span, Role::Subject, "no such rule in the packs in use"));
        problem.help = Some(match nearest(&rule.value, ids.iter().map(String::as_str)) {
            Some(near) => format!("did you mean `{near}`?"),
            None => "a rule is called `pack/rule`; its pack must be in `packs`".to_owned(),
        });
        problem
    };
    for given in &settings.limits {
        let Some(bound) = rules.iter_mut().find(|bound| bound.file.id == given.rule.value) else {
            problems.push(unknown(&given.rule));
            continue;
        };
        let names: Vec<String> = bound.limits.iter().map(|limit| limit.name.clone()).collect();
        let Some(limit) = bound.limits.iter_mut().find(|limit| limit.name == given.limit.value) else {
            let names = names.iter().map(String::as_str);
            let help = match nearest(&given.limit.value, names.clone()) {
                Some(near) => format!("did you mean `{near}`?"),
                None if names.clone().count() == 0 => "it is judged against ratings of the spec".to_owned(),
                None => format!("its limits are {}", list(names)),
            };
            problems.push(
                Problem::new(
                    "unknown-limit",
                    format!("rule `{}` has no limit `{}`", given.rule.value, given.limit.value),
                )
                .at(Label::new(given.limit.span, Role::Subject, "no such limit"))
                .help(help),
            );
            continue;
        };
        let (was, now) = (limit.value.dimension(), given.value.value.dimension());
        if was != now {
            problems.push(
                Problem::new(
                    "wrong-dimension",
                    format!(
                        "limit `{}` of `{}` is {}, and this is {}",
                        limit.name,
                        given.rule.value,
                        was.noun(),
                        now.noun()
                    ),
                )
                .at(Label::new(given.value.span, Role::Subject, format!("must be {}", was.noun())))
                .help(format!("write it such as `{}`", limit.value.show(Units::AsWritten))),
            );
            continue;
        }
        if let Some(twice) = &limit.set_by {
            problems.push(set_twice(
                &format!("limit `{}` of `{}`", limit.name, given.rule.value),
                given.value.span,
                twice.span,
            ));
            continue;
        }
        limit.set_by = Some(SetBy {
            file: sources.name(given.value.span.source).to_owned(),
            reason: given.reason.clone(),
            was: limit.value.show(Units::AsWritten),
            span: Some(given.value.span),
        });
        limit.value = given.value.value;
        limit.span = Some(given.value.span);
        limit.basis = pintle_finding::Basis::Shop;
    }
    for given in &settings.grades {
        let Some(bound) = rules.iter_mut().find(|bound| bound.file.id == given.rule.value) else {
            problems.push(unknown(&given.rule));
            continue;
        };
        if let Some(twice) = &bound.rule.grade_set_by {
            problems.push(set_twice(
                &format!("the grade of `{}`", given.rule.value),
                given.grade.span,
                twice.span,
            ));
            continue;
        }
        let mut rule = Rule::clone(&bound.rule);
        rule.grade_set_by = Some(SetBy {
            file: sources.name(given.grade.span.source).to_owned(),
            reason: given.reason.clone(),
            was: rule.grade.word().to_owned(),
            span: Some(given.grade.span),
        });
        rule.grade = given.grade.value;
        bound.rule = Arc::new(rule);
    }
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
