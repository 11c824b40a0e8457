//! Remedies that were tried for one fault.

use pintle_quantity::Units;
use serde::Serialize;

use super::{Margin, Value};

/// A change of the spec that was tried and clears the fault.
#[derive(Debug, Serialize)]
pub struct Remedy<'a> {
    /// Its number in the spec: `pintle mend` takes it by that.
    pub number: usize,
    /// What to do, each step in words.
    pub steps: &'a [String],
    /// The same as changes of the spec.
    pub changes: Vec<Change<'a>>,
    /// What it takes.
    pub cost: Cost,
    /// The value before.
    pub before: Option<Value>,
    /// The value after.
    pub after: Option<Value>,
    /// How far inside the limit it then lies.
    pub margin: Option<Margin>,
    /// Whether it then passes by less than it could be off by.
    pub tight: bool,
    /// What then holds, or why the rule then does not apply, where nothing is measured.
    pub then: Option<&'a str>,
    /// The other faults that it clears.
    pub also_clears: Vec<Other<'a>>,
    /// Faults of arrangements that a state hid before and that remain, no worse: rule and reading in a sentence.
    pub leaves: &'a [String],
    /// What it makes less good, advice and readings that still pass: rule and reading in a sentence.
    pub worsens: &'a [String],
}

/// One change of the spec.
#[derive(Debug, Serialize)]
pub struct Change<'a> {
    /// Keys from the top of the spec; after the name of a list of tables its tag or name.
    pub path: &'a [String],
    /// The value to write, as TOML; `null` to take away what stands there.
    pub to: Option<String>,
}

/// What a remedy takes.
#[derive(Debug, Serialize)]
pub struct Cost {
    /// Mass times distance moved, in kg·m.
    pub moved: f64,
    /// By how much stated values change, as a share of themselves.
    pub changed: f64,
}

/// Another fault that a remedy clears.
#[derive(Debug, Serialize)]
pub struct Other<'a> {
    /// `pack/rule`.
    pub rule: &'a str,
    /// The kind of what was judged.
    pub kind: &'a str,
    /// Its name; empty for the build as a whole.
    pub name: &'a str,
}

/// What was tried for a fault, in counts.
#[derive(Debug, Serialize)]
pub struct Tried<'a> {
    /// Changes that were tried.
    pub tried: usize,
    /// Of those, how many are not enough.
    pub not_enough: usize,
    /// Of those, how many bring a finding or make one worse.
    pub new_fault: usize,
    /// Of those, how many have no room, or make a spec that cannot be read.
    pub no_room: usize,
    /// Changes that were thought of and not tried.
    pub untried: usize,
    /// What kept changes from being thought of.
    pub notes: &'a [String],
    /// Where there is no remedy, the least harmful change that clears the fault: what to do, the rule that then finds
    /// something new or worse, and what.
    pub but: Option<But<'a>>,
}

/// A change that clears a fault and is no remedy.
#[derive(Debug, Serialize)]
pub struct But<'a> {
    /// What to do.
    pub words: &'a str,
    /// The rule that then finds something new or worse.
    pub rule: &'a str,
    /// What it finds, in a sentence.
    pub finds: &'a str,
}

impl<'a> Remedy<'a> {
    /// The remedies for a reading, cheapest first; `null` where none were sought for it.
    pub(super) fn all(
        inspection: &'a pintle_finding::Inspection,
        reading: usize,
        units: Units,
    ) -> Option<Vec<Self>> {
        let remedies = inspection.remedies.as_ref()?;
        remedies.of(reading)?;
        let before = inspection.readings.get(reading)?.value;
        let found = remedies.clearing(reading).into_iter().map(|(number, remedy, cleared)| Self {
            number,
            steps: &remedy.steps,
            changes: remedy.changes.iter().map(Change::new).collect(),
            cost: Cost { moved: remedy.cost.moved, changed: remedy.cost.changed },
            before: before.map(|value| Value::new(value, units)),
            after: cleared.value.map(|value| Value::new(value, units)),
            margin: cleared.margin.map(|margin| Margin::new(margin, units)),
            tight: cleared.tight,
            then: cleared.holds.as_deref().or(cleared.not_applicable.as_deref()),
            also_clears: remedy
                .clears
                .iter()
                .filter(|other| other.reading != reading)
                .filter_map(|other| inspection.readings.get(other.reading))
                .map(Other::new)
                .collect(),
            leaves: &remedy.leaves,
            worsens: &remedy.worsens,
        });
        Some(found.collect())
    }
}

impl<'a> Tried<'a> {
    pub(super) fn new(sought: &'a pintle_finding::Sought) -> Self {
        Self {
            tried: sought.tried,
            not_enough: sought.not_enough,
            new_fault: sought.new_fault,
            no_room: sought.no_room,
            untried: sought.untried,
            notes: &sought.notes,
            but: sought.but.as_ref().map(|but| But { words: &but.words, rule: &but.rule, finds: &but.finds }),
        }
    }
}

impl<'a> Change<'a> {
    fn new(change: &'a pintle_finding::Change) -> Self {
        Self { path: &change.at, to: change.to.as_ref().map(pintle_finding::Written::toml) }
    }
}

impl<'a> Other<'a> {
    fn new(reading: &'a pintle_finding::Reading) -> Self {
        Self { rule: &reading.rule.id, kind: reading.subject.kind, name: &reading.subject.name }
    }
}
