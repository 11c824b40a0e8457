//! A layer's limits, grades and stages over the rules, and who set each of them.

use std::sync::Arc;

use pintle_finding::{Basis, Label, Problem, Role, Rule, SetBy, Setting, nearest};
use pintle_quantity::Units;
use pintle_source::{Sources, Span, Spanned};
use pintle_spec::read::list;

use crate::kept::Kept;
use crate::rulebook::{Bound, set_twice};
use crate::settings::{GradeOverride, Layer, LimitOverride, StageOverride};

/// What the tool's own rules are said to be written in.
pub(crate) const BUILT_IN: &str = "built in";

/// The rules that a layer is laid over.
pub(crate) struct Rules<'r> {
    pub(crate) bound: &'r mut [Bound],
    pub(crate) kept: &'r mut [Kept],
    pub(crate) sources: &'r Sources,
}

impl Rules<'_> {
    /// Lays a layer's limits, grades and stages over the rules.
    pub(crate) fn apply(&mut self, layer: &Layer, problems: &mut Vec<Problem>) {
        for given in &layer.limits {
            problems.extend(self.limit(given).err());
        }
        for given in &layer.grades {
            problems.extend(self.grade(given).err());
        }
        for given in &layer.stages {
            problems.extend(self.stage(given).err());
        }
    }

    fn find(&mut self, rule: &Spanned<String>) -> Result<&mut Bound, Problem> {
        match self.bound.iter().position(|bound| bound.file.id == rule.value) {
            Some(at) => self.bound.get_mut(at).ok_or_else(|| unknown_rule(rule, std::iter::empty())),
            None => Err(unknown_rule(rule, self.ids())),
        }
    }

    fn ids(&self) -> impl Iterator<Item = &str> {
        let kept = self.kept.iter().map(|kept| kept.rule.id.as_str());
        self.bound.iter().map(|bound| bound.file.id.as_str()).chain(kept)
    }

    fn limit(&mut self, given: &LimitOverride) -> Result<(), Problem> {
        let sources = self.sources;
        if self.kept.iter().any(|kept| kept.rule.id == given.rule.value) {
            return Err(unknown_limit(
                given,
                std::iter::empty(),
                "it is one of the tool's own, and has none",
            ));
        }
        let bound = self.find(&given.rule)?;
        let file = Arc::clone(&bound.file);
        let names = file.limits.iter().map(|limit| limit.name.as_str());
        let Some(limit) = bound.limits.iter_mut().find(|limit| limit.name == given.limit.value) else {
            return Err(unknown_limit(given, names, "it is judged against ratings of the spec"));
        };
        let (was, now) = (limit.value.dimension(), given.value.value.dimension());
        if was != now {
            let message = format!(
                "limit `{}` of `{}` is {}, and this is {}",
                limit.name,
                given.rule.value,
                was.noun(),
                now.noun()
            );
            return Err(Problem::new("wrong-dimension", message)
                .at(Label::new(given.value.span, Role::Subject, format!("must be {}", was.noun())))
                .help(format!("write it such as `{}`", limit.value.show(Units::AsWritten))));
        }
        let what = format!("limit `{}` of `{}`", limit.name, given.rule.value);
        once(&what, limit.set_by.as_ref(), given.value.span)?;
        let own = || {
            let written = file.limits.iter().find(|written| written.name == given.limit.value);
            Setting {
                file: sources.name(file.file).to_owned(),
                value: written.map_or(String::new(), |written| written.value.value.show(Units::AsWritten)),
                quantity: written.map(|written| written.value.value),
                reason: written.and_then(|written| written.note.clone()),
                span: written.map(|written| written.value.span),
            }
        };
        let value = given.value.value;
        let mut setting = setting(sources, given.value.span, value.show(Units::AsWritten), &given.reason);
        setting.quantity = Some(value);
        limit.set_by = Some(SetBy::over(limit.set_by.as_ref(), own, setting));
        limit.value = given.value.value;
        limit.span = Some(given.value.span);
        limit.basis = Basis::Shop;
        Ok(())
    }

    fn grade(&mut self, given: &GradeOverride) -> Result<(), Problem> {
        let sources = self.sources;
        let value = given.grade.value.word().to_owned();
        let setting = setting(sources, given.grade.span, value, &given.reason);
        let what = format!("the grade of `{}`", given.rule.value);
        let change = |rule: &Rule, own: Setting| {
            once(&what, rule.grade_set_by.as_ref(), given.grade.span)?;
            let mut rule = rule.clone();
            rule.grade_set_by = Some(SetBy::over(rule.grade_set_by.as_ref(), || own, setting));
            rule.grade = given.grade.value;
            Ok(Arc::new(rule))
        };
        if let Some(kept) = self.kept.iter_mut().find(|kept| kept.rule.id == given.rule.value) {
            let own = Setting {
                file: BUILT_IN.to_owned(),
                value: kept.own_grade().word().to_owned(),
                quantity: None,
                reason: None,
                span: None,
            };
            kept.rule = change(&kept.rule, own)?;
            return Ok(());
        }
        let bound = self.find(&given.rule)?;
        let own = Setting {
            file: sources.name(bound.file.file).to_owned(),
            value: bound.file.grade.word().to_owned(),
            quantity: None,
            reason: None,
            span: bound.file.grade_span,
        };
        bound.rule = change(&bound.rule, own)?;
        Ok(())
    }

    fn stage(&mut self, given: &StageOverride) -> Result<(), Problem> {
        let sources = self.sources;
        if self.kept.iter().any(|kept| kept.rule.id == given.rule.value) {
            let message = format!("`{}` is judged at every stage", given.rule.value);
            return Err(Problem::new("fixed-stage", message)
                .at(Label::new(given.from.span, Role::Subject, "cannot be set"))
                .help("it is one of the tool's own rules; its grade can be set"));
        }
        let bound = self.find(&given.rule)?;
        let what = format!("the stage of `{}`", given.rule.value);
        once(&what, bound.rule.from_set_by.as_ref(), given.from.span)?;
        let own = || Setting {
            file: sources.name(bound.file.file).to_owned(),
            value: bound.file.from.word().to_owned(),
            quantity: None,
            reason: None,
            span: bound.file.from_span,
        };
        let setting = setting(sources, given.from.span, given.from.value.word().to_owned(), &given.reason);
        let mut rule = Rule::clone(&bound.rule);
        rule.from_set_by = Some(SetBy::over(rule.from_set_by.as_ref(), own, setting));
        rule.from = given.from.value;
        bound.rule = Arc::new(rule);
        Ok(())
    }
}

pub(crate) fn setting(sources: &Sources, span: Span, value: String, reason: &str) -> Setting {
    let file = sources.name(span.source).to_owned();
    Setting { file, value, quantity: None, reason: Some(reason.to_owned()), span: Some(span) }
}

/// One file sets a value once.
pub(crate) fn once(what: &str, held: Option<&SetBy>, span: Span) -> Result<(), Problem> {
    match held.and_then(|held| held.span).filter(|first| first.source == span.source) {
        Some(first) => Err(set_twice(what, span, Some(first))),
        None => Ok(()),
    }
}

pub(crate) fn unknown_rule<'i>(rule: &Spanned<String>, ids: impl Iterator<Item = &'i str>) -> Problem {
    let help = match nearest(&rule.value, ids) {
        Some(near) => format!("did you mean `{near}`?"),
        None => "a rule is called `pack/rule`; its pack must be in `packs`".to_owned(),
    };
    Problem::new("unknown-rule", format!("no rule in use is called `{}`", rule.value))
        .at(Label::new(rule.span, Role::Subject, "no such rule in the packs in use"))
        .help(help)
}

fn unknown_limit<'n>(
    given: &LimitOverride,
    names: impl Iterator<Item = &'n str> + Clone,
    none: &str,
) -> Problem {
    let help = match nearest(&given.limit.value, names.clone()) {
        Some(near) => format!("did you mean `{near}`?"),
        None if names.clone().next().is_none() => none.to_owned(),
        None => format!("its limits are {}", list(names)),
    };
    let message = format!("rule `{}` has no limit `{}`", given.rule.value, given.limit.value);
    Problem::new("unknown-limit", message)
        .at(Label::new(given.limit.span, Role::Subject, "no such limit"))
        .help(help)
}
