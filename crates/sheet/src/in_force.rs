//! The rulebook in force, as plain data: who set what over what, which faults are accepted, and what only eyes can tell.

use jiff::civil::Date;
use pintle_finding::{Basis, ByEye, SetBy, WaiverKind};
use pintle_quantity::Quantity;

/// What a sheet says of the rulebook that a build was judged by.
#[derive(Debug, Clone, Default)]
pub struct InForce {
    /// The files that it is put together from, each over those before it; none where only the built-in rules are in force.
    pub layers: Vec<String>,
    /// Every limit in force.
    pub limits: Vec<Limit>,
    /// Limits, grades and stages that a layer sets, in the order of the rules.
    pub set: Vec<Set>,
    /// Waivers that bear on this build, by their numbers in the rulebook.
    pub waivers: Vec<Waiver>,
    /// The list of findings that were there when the specs were taken in, where there is one.
    pub backlog: Option<Backlog>,
    /// Checks that only eyes can make, in the order of the walk.
    pub by_eye: Vec<ByEye>,
}

/// A limit in force.
#[derive(Debug, Clone)]
pub struct Limit {
    /// The rule, `pack/rule`.
    pub rule: String,
    /// Its name.
    pub name: String,
    /// Its value.
    pub value: Quantity,
    /// Where the figure comes from.
    pub basis: Basis,
}

/// What a layer can set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sort {
    /// A limit.
    Limit,
    /// A grade.
    Grade,
    /// The stage from which a rule is judged.
    Stage,
}

/// Something that a layer sets.
#[derive(Debug, Clone)]
pub struct Set {
    /// What it is.
    pub sort: Sort,
    /// The rule, `pack/rule`.
    pub rule: String,
    /// As the tool's own rules call it: `least of towing/light-tongue`, or the rule.
    pub called: String,
    /// Who set it, over what.
    pub by: SetBy,
}

/// A waiver that bears on this build.
#[derive(Debug, Clone)]
pub struct Waiver {
    /// The rule, `pack/rule`.
    pub rule: String,
    /// What it is waived on; all of the build where there is none.
    pub item: Option<String>,
    /// Given before the build, or after.
    pub kind: WaiverKind,
    /// The last day on which it is in force.
    pub until: Date,
    /// Who accepts the fault.
    pub who: String,
    /// Why.
    pub reason: String,
    /// Where it stands: file and line.
    pub at: String,
    /// Whether the rule may be waived at all.
    pub allowed: bool,
    /// What it accepts in this build: how many findings.
    pub accepts: usize,
}

/// The list of known findings.
#[derive(Debug, Clone)]
pub struct Backlog {
    /// Its file.
    pub file: String,
    /// How many findings of this build it lists.
    pub of_build: usize,
    /// How many it lists in all.
    pub in_all: usize,
}

impl InForce {
    /// A limit in force; none where the rule is not in use.
    pub(crate) fn limit(&self, rule: &str, name: &str) -> Option<&Limit> {
        self.limits.iter().find(|limit| limit.rule == rule && limit.name == name)
    }
}
