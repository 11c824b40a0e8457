//! Rulebooks before and after: what is in force, and what it is judged against.

use std::sync::Arc;

use pintle_finding::{Grade, Stage};
use pintle_quantity::{Quantity, Units};

use super::waivers::{self, WaiverChange, WaiverFacts};

/// A rule in force, as far as its judgement hangs on it.
#[derive(Debug, Clone)]
pub struct RuleFacts {
    /// `pack/rule`; where the other version knows it by another id, that one.
    pub id: String,
    /// What this version calls it, where that is something else.
    pub called: Option<String>,
    /// The grade in force.
    pub grade: Grade,
    /// Judged from this stage on.
    pub from: Stage,
    /// What it judges, such as "road state".
    pub judges: &'static str,
    /// The limits in force, by name.
    pub limits: Vec<(String, Quantity)>,
    /// Its script.
    pub script: Arc<str>,
}

/// How sure values of one sort are that state no ± of their own.
#[derive(Debug, Clone, Copy)]
pub struct Tolerance {
    /// The ±: a width, or a share of the value.
    pub value: Quantity,
    /// The least ± beside a share.
    pub least: Option<Quantity>,
}

impl Tolerance {
    /// As a reader is shown it: `25 %, at least 1 lb`.
    pub fn show(&self, units: Units) -> String {
        let value = self.value.show(units);
        self.least.map_or_else(|| value.clone(), |least| format!("{value}, at least {}", least.show(units)))
    }

    fn is(&self, other: &Self) -> bool {
        let least = match (self.least, other.least) {
            (Some(left), Some(right)) => left.equals(right) == Ok(true),
            (None, None) => true,
            _ => false,
        };
        self.value.equals(other.value) == Ok(true) && least
    }
}

/// A rulebook in force.
#[derive(Debug, Clone)]
pub struct RulebookFacts {
    /// The file it is in; none where only the built-in packs are in force.
    pub name: Option<String>,
    /// The grade at or above which a build is stopped.
    pub hold: Grade,
    /// Its rules.
    pub rules: Vec<RuleFacts>,
    /// Its tolerances, by name.
    pub tolerances: Vec<(String, Tolerance)>,
    /// Its waivers, each once for every build.
    pub waivers: Vec<WaiverFacts>,
}

/// A rulebook that is not as it was.
#[derive(Debug, Clone)]
pub struct RulebookChange {
    /// The old one's file.
    pub old: Option<String>,
    /// The new one's file.
    pub new: Option<String>,
    /// What changed; never empty.
    pub changes: Vec<RuleChange>,
}

/// One thing about a rulebook that is not as it was.
#[derive(Debug, Clone)]
pub enum RuleChange {
    /// The hold grade.
    Hold(Grade, Grade),
    /// A rule that was not in force.
    Added(String),
    /// A rule that is no longer in force.
    Removed(String),
    /// A rule that has another id: before, now.
    Renamed(String, String),
    /// A rule's grade.
    Grade(String, Grade, Grade),
    /// The stage from which a rule is judged.
    From(String, Stage, Stage),
    /// A rule's limit: rule, name, before, now.
    Limit(String, String, Option<Quantity>, Option<Quantity>),
    /// How a rule judges: its script, or what it judges.
    Judgement(String),
    /// How sure values of one sort are: name, before, now.
    Tolerance(String, Option<Tolerance>, Option<Tolerance>),
    /// A waiver.
    Waiver(WaiverChange),
}

impl RulebookFacts {
    /// What changed from this to another; none when nothing did.
    pub fn to(&self, new: &Self) -> Option<RulebookChange> {
        let mut changes = Vec::new();
        if self.hold != new.hold {
            changes.push(RuleChange::Hold(self.hold, new.hold));
        }
        for rule in &new.rules {
            match self.rules.iter().find(|held| held.id == rule.id) {
                Some(held) => of_rule(held, rule, &mut changes),
                None => changes.push(RuleChange::Added(rule.id.clone())),
            }
        }
        let gone = self.rules.iter().filter(|rule| new.rules.iter().all(|held| held.id != rule.id));
        changes.extend(gone.map(|rule| RuleChange::Removed(rule.id.clone())));
        let find = |all: &[(String, Tolerance)], name: &str| {
            all.iter().find(|(held, _)| held == name).map(|(_, tolerance)| *tolerance)
        };
        for (name, tolerance) in &new.tolerances {
            let before = find(&self.tolerances, name);
            if before.is_none_or(|before| !before.is(tolerance)) {
                changes.push(RuleChange::Tolerance(name.clone(), before, Some(*tolerance)));
            }
        }
        for (name, tolerance) in
            self.tolerances.iter().filter(|(name, _)| find(&new.tolerances, name).is_none())
        {
            changes.push(RuleChange::Tolerance(name.clone(), Some(*tolerance), None));
        }
        changes.extend(waivers::changes(&self.waivers, &new.waivers).into_iter().map(RuleChange::Waiver));
        (!changes.is_empty()).then(|| RulebookChange {
            old: self.name.clone(),
            new: new.name.clone(),
            changes,
        })
    }
}

fn of_rule(old: &RuleFacts, new: &RuleFacts, changes: &mut Vec<RuleChange>) {
    let id = || new.id.clone();
    if let Some(was) = &old.called {
        changes.push(RuleChange::Renamed(was.clone(), id()));
    }
    if old.grade != new.grade {
        changes.push(RuleChange::Grade(id(), old.grade, new.grade));
    }
    if old.from != new.from {
        changes.push(RuleChange::From(id(), old.from, new.from));
    }
    let find = |limits: &[(String, Quantity)], name: &str| {
        limits.iter().find(|(held, _)| held == name).map(|(_, value)| *value)
    };
    for (name, value) in &new.limits {
        let before = find(&old.limits, name);
        if before.is_none_or(|before| before.equals(*value) != Ok(true)) {
            changes.push(RuleChange::Limit(id(), name.clone(), before, Some(*value)));
        }
    }
    for (name, value) in old.limits.iter().filter(|(name, _)| find(&new.limits, name).is_none()) {
        changes.push(RuleChange::Limit(id(), name.clone(), Some(*value), None));
    }
    if old.script != new.script || old.judges != new.judges {
        changes.push(RuleChange::Judgement(id()));
    }
}
