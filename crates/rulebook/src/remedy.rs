//! Remedies that were tried: changes of a spec that clear a fault and make nothing worse.
//!
//! For each fault changes are thought of: by the lever rule, for sums over what is aboard, and by what the rule declares
//! as `[[mend]]`. Each is made in the parsed spec, the spec is read and judged again as a whole, and the change is kept only
//! when the fault is gone, no other finding is new or worse, and no part meets another that it did not meet before.
//! Nothing is promised that was not tried. Start from [`Workshop`].

mod aim;
mod compare;
mod declared;
mod group;
mod levers;
mod measure;
mod search;
mod world;

use std::collections::BTreeMap;

use pintle_finding::{Bound, Change, Cleared, Inspection, Reading, Remedies, Remedy, Verdict};
use pintle_quantity::Units;
use pintle_source::{SourceId, Sources};
use pintle_spec::node::Node;
use pintle_spec::{Stock, read_build_node};

use crate::judge::Judge;
use crate::rulebook::Rulebook;

use compare::{is_gone, successor};
use search::{Bench, Found};
use world::World;

/// What remedies are tried with: rules, stock, and the files that they were read from.
#[derive(Debug, Clone, Copy)]
pub struct Workshop<'a> {
    /// The rules, ready to judge.
    pub judge: &'a Judge<'a>,
    /// The same rules as written.
    pub rulebook: &'a Rulebook,
    /// The shop's parts.
    pub stock: &'a Stock,
    /// The files, the spec's among them.
    pub sources: &'a Sources,
}

impl Workshop<'_> {
    /// Tries changes for every fault of a spec: `root` is the spec as parsed, `inspection` what the rules say of it.
    /// Findings that are no faults get none: what is missing has to be given, and nothing here guesses it.
    pub fn remedies(&self, root: &Node, source: SourceId, inspection: &Inspection) -> Remedies {
        let Some(build) = read_build_node(root, source, self.stock, &mut Vec::new()) else {
            return Remedies::default();
        };
        let start = World::new(root.clone(), build, inspection.readings.clone());
        let mut bench = Bench {
            judge: self.judge,
            rulebook: self.rulebook,
            stock: self.stock,
            sources: self.sources,
            start: &start,
            tried: BTreeMap::new(),
        };
        let mut remedies = Remedies::default();
        let mut all: Vec<(Vec<usize>, Found)> = Vec::new();
        for (number, reading) in inspection.readings.iter().enumerate() {
            if reading.verdict == Verdict::Fault {
                let (sought, found) = bench.seek(number, reading);
                remedies.sought.push(sought);
                for found in found {
                    match all.iter_mut().find(|(_, held)| changes(held) == changes(&found)) {
                        Some((of, _)) => of.push(number),
                        None => all.push((vec![number], found)),
                    }
                }
            }
        }
        // Those that make something less sure come after those that do not.
        let told =
            |found: &Found| !compare::worse(&inspection.readings, &found.world.readings).told.is_empty();
        all.sort_by(|(_, one), (_, other)| {
            told(one).cmp(&told(other)).then_with(|| one.cost().compare(&other.cost()))
        });
        for (at, (of, found)) in all.iter().enumerate() {
            remedies.all.push(remedy(found, inspection, self.rulebook));
            for sought in remedies.sought.iter_mut().filter(|sought| of.contains(&sought.reading)) {
                sought.found.push(at + 1);
            }
        }
        remedies
    }
}

impl Workshop<'_> {
    /// Whether a remedy did, on the whole spec as it was judged afterwards, what was promised of it: every fault that it
    /// clears is gone, and nothing is new or worse.
    pub fn comes_true(remedy: &Remedy, before: &Inspection, after: &Inspection) -> bool {
        let faults = remedy.clears.iter().filter_map(|cleared| before.readings.get(cleared.reading));
        compare::worse(&before.readings, &after.readings).harm.is_empty()
            && faults.into_iter().all(|fault| is_gone(fault, &before.readings, &after.readings))
    }
}

fn changes(found: &Found) -> Vec<&Change> {
    found.steps.iter().flat_map(|step| &step.changes).collect()
}

/// Whether a fault is one of the build: what the tool's own rules find in the rulebook no change of a build mends, and a
/// trial of a change does not ask.
fn is_of_the_build(fault: &Reading, rulebook: &Rulebook) -> bool {
    rulebook.kept.iter().all(|kept| kept.rule.id != fault.rule.id)
}

fn remedy(found: &Found, inspection: &Inspection, rulebook: &Rulebook) -> Remedy {
    let after = &found.world.readings;
    let faults = inspection
        .readings
        .iter()
        .enumerate()
        .filter(|(_, reading)| reading.verdict == Verdict::Fault && is_of_the_build(reading, rulebook));
    let clears =
        faults.filter(|(_, fault)| is_gone(fault, &inspection.readings, after)).map(|(reading, fault)| {
            let then = successor(fault, after);
            Cleared {
                reading,
                value: then.and_then(|then| then.value),
                margin: then.and_then(Reading::margin),
                tight: compare::is_tight(&fault.rule.id, after),
                holds: then.and_then(|then| match &then.bound {
                    Bound::Holds(words) if then.verdict == Verdict::Pass => Some(words.clone()),
                    _ => None,
                }),
                not_applicable: then
                    .filter(|then| then.verdict == Verdict::NotApplicable)
                    .and_then(|then| then.reason.clone()),
            }
        });
    let worse = compare::worse(&inspection.readings, after);
    let told = |readings: &[&Reading]| {
        let told = readings
            .iter()
            .map(|reading| format!("{}: {}", reading.rule.id, reading.sentence(Units::AsWritten)));
        told.collect()
    };
    Remedy {
        steps: found.steps.iter().map(|step| step.words.clone()).collect(),
        changes: changes(found).into_iter().cloned().collect(),
        cost: found.cost(),
        leaves: told(&worse.uncovered),
        worsens: told(&worse.told),
        clears: clears.collect(),
    }
}
