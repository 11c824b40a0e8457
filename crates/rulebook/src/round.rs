//! All specs of a run under one rulebook, and what they say together of the rulebook itself.

use std::collections::BTreeSet;

use jiff::civil::Date;
use pintle_finding::{Inspection, Label, Problem, Reading, Role, nearest};
use pintle_source::Sources;

use crate::kept::Which;
use crate::rulebook::Rulebook;
use crate::settle::{Why, allowed, expired, not_judged, of_waiver, stale_entry};
use crate::waiver::Waiver;
use crate::{loosened, settle};

/// What was seen of a shop's builds in a run.
#[derive(Debug, Clone, Default)]
pub struct Round {
    numbers: BTreeSet<String>,
    unreadable: bool,
    used: BTreeSet<usize>,
    waiting: BTreeSet<usize>,
}

impl Round {
    /// Takes note of one build.
    pub fn add(&mut self, inspection: &Inspection) {
        self.unreadable |= Problem::any_wrong(&inspection.problems);
        self.numbers.insert(inspection.number.clone());
        self.used.extend(&inspection.waivers_used);
        self.waiting.extend(&inspection.waivers_waiting);
    }

    /// What the tool's own rules say of a rulebook on a day. Whether a waiver accepts anything, and whether there is a build
    /// of a number, is only judged where `all` specs of the shop were looked at and could be read.
    pub fn close(&self, rulebook: &Rulebook, sources: &Sources, all: bool, day: Date) -> Inspection {
        let file = rulebook.layers.last().map(|file| sources.name(*file).to_owned());
        let mut inspection = Inspection {
            spec: file.unwrap_or_default(),
            title: rulebook.shop.clone().unwrap_or_default(),
            layers: rulebook.layers.iter().map(|file| sources.name(*file).to_owned()).collect(),
            of_rulebook: true,
            ..Inspection::default()
        };
        let all = all && !self.unreadable;
        for (at, waiver) in rulebook.waivers.all().filter(|(_, waiver)| !waiver.of_build) {
            if waiver.builds.is_empty() {
                inspection.readings.extend(expired(rulebook, waiver, day));
                inspection.readings.extend(allowed(rulebook, waiver, None));
                if all && waiver.allowed && !waiver.has_run_out(day) {
                    inspection.readings.extend(self.unused(rulebook, at, waiver));
                }
            } else if all {
                inspection.readings.extend(self.unknown_builds(rulebook, waiver));
            }
        }
        inspection.readings.extend(loosened::judge(rulebook, None));
        if let Some(backlog) = rulebook.backlog.as_ref().filter(|_| all) {
            for (entry, items) in &backlog.entries {
                if !self.numbers.contains(&entry.build) {
                    let each = items
                        .iter()
                        .filter_map(|(path, span)| stale_entry(rulebook, entry, path, *span, Why::NoBuild));
                    inspection.readings.extend(each);
                }
            }
        }
        inspection
    }

    fn unused(&self, rulebook: &Rulebook, at: usize, waiver: &Waiver) -> Option<Reading> {
        let used = self.used.contains(&at);
        if !used && self.waiting.contains(&at) {
            return not_judged(rulebook, Which::Unused, waiver);
        }
        let holds = "the rule finds a fault in one of the builds that it accepts".to_owned();
        let mut reading = of_waiver(rulebook, Which::Unused, waiver, used, holds)?;
        if !used {
            reading.labels.push(Label::new(
                waiver.rule.span,
                Role::Subject,
                "it accepts nothing in any build",
            ));
            reading.remedy = Some("take the waiver out".to_owned());
        }
        Some(reading)
    }

    fn unknown_builds(&self, rulebook: &Rulebook, waiver: &Waiver) -> Vec<Reading> {
        let unknown = waiver.builds.iter().filter(|build| !self.numbers.contains(&build.value));
        let one = |build: &pintle_source::Spanned<String>| {
            let holds = format!("there is a build `{}` in the shop", build.value);
            let mut reading = settle::of_waiver(rulebook, Which::Unused, waiver, false, holds)?;
            reading.labels.push(Label::new(build.span, Role::Subject, "no spec has this number"));
            reading.remedy = Some(match nearest(&build.value, self.numbers.iter().map(String::as_str)) {
                Some(near) => format!("did you mean `{near}`?"),
                None => "take the build out of the waiver".to_owned(),
            });
            Some(reading)
        };
        unknown.filter_map(one).collect()
    }
}
