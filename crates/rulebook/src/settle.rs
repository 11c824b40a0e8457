//! What a rulebook makes of the findings on one build: those that are accepted are marked, and what is wrong with waivers,
//! loosened limits and the backlog is found.

use std::collections::BTreeSet;
use std::sync::Arc;

use jiff::civil::Date;
use pintle_finding::{
    Accepted, Bound as Compared, Grade, Inspection, Label, Listed, Reading, Role, Rule, Stage, Subject,
    Verdict, nearest,
};
use pintle_source::Span;

use crate::backlog::{Entry, Finds};
use crate::kept::Which;
use crate::paths;
use crate::rulebook::Rulebook;
use crate::waiver::Waiver;

/// Marks what is accepted on a day and adds the readings of the tool's own rules. `known` are the paths of the build.
pub(crate) fn settle(inspection: &mut Inspection, rulebook: &Rulebook, known: &[String], day: Date) {
    let stage = inspection.stage.unwrap_or(Stage::Quote);
    let number = inspection.number.clone();
    for reading in &mut inspection.readings {
        if reading.verdict != Verdict::Fault {
            continue;
        }
        for (at, waiver) in rulebook.waivers.on(reading, &number) {
            if waiver.allowed && waiver.is_timely(stage) && !waiver.has_run_out(day) {
                inspection.waivers_used.insert(at);
                reading.accepted.get_or_insert_with(|| Accepted::Waived(Arc::clone(&waiver.waived)));
            }
        }
    }
    let mut own = Vec::new();
    for (at, waiver) in rulebook.waivers.of_build(&number) {
        let seen = Seen { used: inspection.waivers_used.contains(&at), known: Some(known), inspection };
        own.extend(on_waiver(rulebook, waiver, &seen, Some(stage), day));
    }
    let wide = rulebook.waivers.all().filter(|(_, waiver)| waiver.builds.is_empty() && !waiver.of_build);
    for (at, waiver) in wide {
        if is_waiting(inspection, &waiver.rule.value, waiver.item.as_ref().map(|item| item.value.as_str())) {
            inspection.waivers_waiting.insert(at);
        }
        // Whether it is timely hangs on the build.
        if waiver.allowed && !waiver.is_timely(stage) && bears_on_any(inspection, waiver, &number) {
            own.extend(allowed(rulebook, waiver, Some(stage)));
        }
    }
    own.extend(on_backlog(inspection, rulebook));
    if rulebook.of_build.is_some() {
        own.extend(crate::loosened::judge(rulebook, rulebook.of_build));
    }
    inspection.readings.extend(own);
}

fn bears_on_any(inspection: &Inspection, waiver: &Waiver, number: &str) -> bool {
    let faults = inspection.readings.iter().filter(|reading| reading.verdict == Verdict::Fault);
    faults.into_iter().any(|reading| waiver.bears_on(reading, number))
}

/// What is known of a waiver's use.
pub(crate) struct Seen<'s> {
    /// Whether a fault was accepted by it.
    pub(crate) used: bool,
    /// What the build has, by path.
    pub(crate) known: Option<&'s [String]>,
    /// What was found on the build.
    pub(crate) inspection: &'s Inspection,
}

/// What the tool's rules on waivers say of one that names its builds.
fn on_waiver(
    rulebook: &Rulebook,
    waiver: &Waiver,
    seen: &Seen<'_>,
    stage: Option<Stage>,
    day: Date,
) -> Vec<Reading> {
    let mut readings = vec![expired(rulebook, waiver, day), allowed(rulebook, waiver, stage)];
    let in_force = waiver.allowed && !waiver.has_run_out(day);
    if in_force && stage.is_none_or(|stage| waiver.is_timely(stage)) {
        readings.push(unused(rulebook, waiver, seen));
    }
    readings.into_iter().flatten().collect()
}

/// Whether a waiver has run out.
pub(crate) fn expired(rulebook: &Rulebook, waiver: &Waiver, day: Date) -> Option<Reading> {
    let holds = format!("it is in force on {day}, with {} as its last day", waiver.until.value);
    let mut reading = of_waiver(rulebook, Which::Expired, waiver, !waiver.has_run_out(day), holds)?;
    if reading.verdict == Verdict::Fault {
        reading.labels.push(Label::new(waiver.until.span, Role::Subject, "its last day is past"));
        reading.remedy = Some("mend the fault, or have it accepted anew, with another day".to_owned());
    }
    Some(reading)
}

/// Whether a waiver may be given.
pub(crate) fn allowed(rulebook: &Rulebook, waiver: &Waiver, stage: Option<Stage>) -> Option<Reading> {
    let untimely = stage.filter(|stage| !waiver.is_timely(*stage));
    let holds = match untimely {
        Some(stage) if waiver.allowed => {
            format!("what a concession is given for has been built; the build is at stage {stage}")
        }
        _ => "the rule may be waived".to_owned(),
    };
    let passes = waiver.allowed && untimely.is_none();
    let mut reading = of_waiver(rulebook, Which::NotAllowed, waiver, passes, holds)?;
    if !passes {
        let (words, remedy) = if waiver.allowed {
            ("a concession of what is not built yet", "make it a deviation, or wait until it is built")
        } else {
            ("this rule cannot be waived", "mend the fault, and take the waiver out")
        };
        reading.labels.push(Label::new(waiver.rule.span, Role::Subject, words));
        reading.remedy = Some(remedy.to_owned());
    }
    Some(reading)
}

/// Whether a waiver accepts anything.
fn unused(rulebook: &Rulebook, waiver: &Waiver, seen: &Seen<'_>) -> Option<Reading> {
    let item = waiver.item.as_ref();
    let path = item.map(|item| item.value.as_str());
    let in_build = format!("in build `{}`", seen.inspection.number);
    let unknown = item.zip(seen.known).filter(|(item, known)| {
        !known.contains(&item.value)
            && seen.inspection.readings.iter().all(|reading| reading.path != item.value)
    });
    if let Some((item, known)) = unknown {
        let holds = format!("`{}` is something {in_build}", item.value);
        let mut reading = of_waiver(rulebook, Which::Unused, waiver, false, holds)?;
        reading.labels.push(Label::new(item.span, Role::Subject, "there is no such thing in the build"));
        reading.remedy = Some(match nearest(&item.value, known.iter().map(String::as_str)) {
            Some(near) => format!("did you mean `{near}`?"),
            None => "name a part as `item.TAG`, a state as `state.NAME`, or leave `item` out".to_owned(),
        });
        return Some(reading);
    }
    let holds = format!("the rule finds a fault {in_build} that it accepts");
    if !seen.used && is_waiting(seen.inspection, &waiver.rule.value, path) {
        return not_judged(rulebook, Which::Unused, waiver);
    }
    let mut reading = of_waiver(rulebook, Which::Unused, waiver, seen.used, holds)?;
    if !seen.used {
        reading.labels.push(Label::new(waiver.rule.span, Role::Subject, "it accepts nothing"));
        reading.remedy = Some("take the waiver out, or this build out of it".to_owned());
    }
    Some(reading)
}

/// Whether a rule may yet find something: its stage has not come, or a value is missing.
pub(crate) fn is_waiting(inspection: &Inspection, rule: &str, path: Option<&str>) -> bool {
    let whole = |held: &str| held == paths::BUILD || held == pintle_script::ARRANGEMENT;
    let here = |reading: &Reading| path.is_none_or(|path| reading.path == path || whole(&reading.path));
    inspection.later.iter().any(|(later, _)| later == rule)
        || inspection.readings.iter().any(|reading| {
            reading.rule.id == rule
                && matches!(reading.verdict, Verdict::CannotJudge | Verdict::Broken)
                && here(reading)
        })
}

pub(crate) fn not_judged(rulebook: &Rulebook, which: Which, waiver: &Waiver) -> Option<Reading> {
    let mut reading = of_waiver(rulebook, which, waiver, true, String::new())?;
    reading.verdict = Verdict::NotApplicable;
    reading.bound = Compared::None;
    reading.reason =
        Some("its rule waits for a later stage, or could not be judged for want of a value".to_owned());
    Some(reading)
}

pub(crate) fn of_waiver(
    rulebook: &Rulebook,
    which: Which,
    waiver: &Waiver,
    passes: bool,
    holds: String,
) -> Option<Reading> {
    let subject = Subject { kind: "waiver", name: waiver.called(), span: Some(waiver.rule.span) };
    kept_reading(rulebook, which, None, subject, passes, holds)
}

/// A reading of one of the tool's own rules, at another grade where there is a reason for it.
pub(crate) fn kept_reading(
    rulebook: &Rulebook,
    which: Which,
    grade: Option<Grade>,
    subject: Subject,
    passes: bool,
    holds: String,
) -> Option<Reading> {
    let kept = rulebook.kept.iter().find(|kept| kept.is(which))?;
    let rule = match grade {
        Some(grade) if grade != kept.rule.grade => {
            Arc::new(Rule { grade, grade_set_by: None, ..Rule::clone(&kept.rule) })
        }
        _ => Arc::clone(&kept.rule),
    };
    let path = format!("{}.{}", subject.kind, subject.name);
    Some(Reading {
        rule,
        subject,
        path,
        what: String::new(),
        value: None,
        bound: Compared::Holds(holds),
        limit_name: String::new(),
        limit_basis: None,
        limit_set_by: None,
        verdict: if passes { Verdict::Pass } else { Verdict::Fault },
        accepted: None,
        reason: None,
        remedy: None,
        labels: Vec::new(),
        inputs: Vec::new(),
        contributions: Vec::new(),
        sum: None,
    })
}

/// Marks what the backlog lists of the build, and finds what it lists and nobody finds any more.
fn on_backlog(inspection: &mut Inspection, rulebook: &Rulebook) -> Vec<Reading> {
    let Some(backlog) = &rulebook.backlog else { return Vec::new() };
    let mut stale = Vec::new();
    for (entry, items) in backlog.of_build(&inspection.number.clone()) {
        let allowed = rulebook.waivable(&entry.rule) == Some(true);
        let mut taken: BTreeSet<usize> = BTreeSet::new();
        for (path, span) in items {
            let found = inspection.readings.iter().enumerate().position(|(at, reading)| {
                !taken.contains(&at)
                    && reading.rule.id == entry.rule
                    && reading.path == *path
                    && Finds::of(reading) == Some(entry.finds)
            });
            match found {
                Some(at) if allowed => {
                    taken.insert(at);
                    let listed = Listed { file: backlog.file.clone(), span: *span };
                    let reading = inspection.readings.get_mut(at);
                    if let Some(accepted) = reading.map(|reading| &mut reading.accepted) {
                        accepted.get_or_insert(Accepted::Backlog(listed));
                    }
                }
                Some(_) => stale.extend(stale_entry(rulebook, entry, path, *span, Why::NotAllowed)),
                None if is_waiting(inspection, &entry.rule, Some(path)) => {}
                None => stale.extend(stale_entry(rulebook, entry, path, *span, Why::Gone)),
            }
        }
    }
    stale
}

/// What is wrong with an entry of the backlog.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Why {
    /// What it lists is no longer found.
    Gone,
    /// Its rule cannot be waived.
    NotAllowed,
    /// No spec of the shop has its number.
    NoBuild,
}

pub(crate) fn stale_entry(
    rulebook: &Rulebook,
    entry: &Entry,
    path: &str,
    span: Option<Span>,
    why: Why,
) -> Option<Reading> {
    let name = format!("{} on {path} of {}", entry.rule, entry.build);
    let (holds, words, remedy) = match why {
        Why::Gone => (
            format!("the rule still finds it ({})", entry.finds.word()),
            "no longer found",
            "take it off the list: `pintle backlog shrink`",
        ),
        Why::NotAllowed => (
            "the rule may be waived".to_owned(),
            "what can cost a life is mended, not listed",
            "mend the fault; `pintle backlog shrink` takes it off the list",
        ),
        Why::NoBuild => (
            format!("there is a build `{}` in the shop", entry.build),
            "of no build of the shop",
            "take it off the list: `pintle backlog shrink`",
        ),
    };
    let subject = Subject { kind: "entry of the backlog", name, span };
    let mut reading = kept_reading(rulebook, Which::Stale, None, subject, false, holds)?;
    reading.labels.extend(span.map(|span| Label::new(span, Role::Subject, words)));
    reading.remedy = Some(remedy.to_owned());
    Some(reading)
}
