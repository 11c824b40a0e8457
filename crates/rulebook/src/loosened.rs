//! What a shop sets looser than the rule, or than another layer below: limits, grades, stages.
//!
//! That is allowed, and shown. For a rule that cannot be waived it is shown with the rule's own grade.

use std::sync::Arc;

use pintle_finding::{Bound as Compared, Grade, Label, Reading, Role, SetBy, Stage, Subject, Verdict};
use pintle_quantity::{Quantity, Units};
use pintle_script::Limit;
use pintle_source::SourceId;

use crate::direction::{self, Side};
use crate::kept::Which;
use crate::rulebook::{Bound, Rulebook};
use crate::settle::kept_reading;

/// The kinds of what is judged here.
const LIMIT: &str = "limit";
const GRADE: &str = "grade";
const STAGE: &str = "stage";

/// What is set by a shop's layers, or by the layer of one build where `file` is that.
pub(crate) fn judge(rulebook: &Rulebook, file: Option<SourceId>) -> Vec<Reading> {
    let here = |set: &&SetBy| match file {
        Some(file) => set.span.is_some_and(|span| span.source == file),
        None => true,
    };
    let mut readings = Vec::new();
    for bound in &rulebook.rules {
        for limit in &bound.limits {
            if let Some(set) = limit.set_by.as_ref().filter(here) {
                readings.extend(of_limit(rulebook, bound, limit, set));
            }
        }
        if let Some(set) = bound.rule.grade_set_by.as_ref().filter(here) {
            let most = highest(set).unwrap_or(bound.file.grade);
            let passes = bound.rule.grade >= most;
            let holds = format!("it is {most} or graver");
            readings.extend(of_word(rulebook, Which::Lowered, Some(bound), set, passes, holds));
        }
        if let Some(set) = bound.rule.from_set_by.as_ref().filter(here) {
            let least = earliest(set).unwrap_or(bound.file.from);
            let passes = bound.rule.from <= least;
            let holds = format!("it is judged from stage {least} on");
            readings.extend(of_word(rulebook, Which::PutOff, Some(bound), set, passes, holds));
        }
    }
    for kept in &rulebook.kept {
        if let Some(set) = kept.rule.grade_set_by.as_ref().filter(here) {
            let most = highest(set).unwrap_or(kept.own_grade());
            let passes = kept.rule.grade >= most;
            let subject = subject(set, GRADE, kept.rule.id.clone());
            let reading = kept_reading(
                rulebook,
                Which::Lowered,
                None,
                subject,
                passes,
                format!("it is {most} or graver"),
            );
            readings.extend(reading.map(|reading| told(reading, set)));
        }
    }
    readings
}

fn highest(set: &SetBy) -> Option<Grade> {
    set.chain.iter().filter_map(|setting| Grade::from_word(&setting.value)).max()
}

fn earliest(set: &SetBy) -> Option<Stage> {
    set.chain.iter().filter_map(|setting| Stage::from_word(&setting.value)).min()
}

fn subject(set: &SetBy, kind: &'static str, name: String) -> Subject {
    Subject { kind, name, span: set.span }
}

/// The grade of a reading on a rule that cannot be waived: the rule's own.
fn grade(bound: &Bound) -> Option<Grade> {
    (!bound.file.waivable).then(|| bound.file.grade.max(bound.rule.grade))
}

fn of_word(
    rulebook: &Rulebook,
    which: Which,
    bound: Option<&Bound>,
    set: &SetBy,
    passes: bool,
    holds: String,
) -> Option<Reading> {
    let bound = bound?;
    let kind = if which == Which::Lowered { GRADE } else { STAGE };
    let subject = subject(set, kind, bound.file.id.clone());
    let grade = grade(bound).filter(|_| !passes);
    kept_reading(rulebook, which, grade, subject, passes, holds).map(|reading| told(reading, set))
}

/// The label and the words of a fault.
fn told(mut reading: Reading, set: &SetBy) -> Reading {
    if reading.verdict == Verdict::Fault {
        let span = reading.subject.span;
        reading.labels.extend(span.map(|span| Label::new(span, Role::Subject, set.reason.clone())));
        reading.remedy = Some("see that the reason given stands, or take it back".to_owned());
    }
    reading
}

fn of_limit(rulebook: &Rulebook, bound: &Bound, limit: &Limit, set: &SetBy) -> Option<Reading> {
    let subject = subject(set, LIMIT, format!("{} of {}", limit.name, bound.file.id));
    let written = bound.file.limits.iter().find(|written| written.name == limit.name);
    let side = written.and_then(|written| written.side);
    let side = side.or_else(|| direction::of(&bound.file.script_text, &limit.name));
    let under = tightest(bound, limit, side);
    let (Some(side), Some(under)) = (side, under) else {
        let mut reading = kept_reading(rulebook, Which::Loosened, None, subject, true, String::new())?;
        reading.verdict = Verdict::CannotJudge;
        reading.bound = Compared::None;
        reading.reason = Some(format!(
            "whether {} is looser than {} ({}): the rule's script does not simply compare with it",
            limit.value.show(Units::AsWritten),
            set.own(),
            "the rule's own"
        ));
        reading.remedy = Some("read the rule's script, and see that the reason given stands".to_owned());
        let span = reading.subject.span;
        reading.labels.extend(span.map(|span| Label::new(span, Role::Subject, set.reason.clone())));
        return Some(reading);
    };
    let (compared, passes) = match side {
        Side::Least => (Compared::AtLeast(under), limit.value.at_least(under) == Ok(true)),
        Side::Most => (Compared::AtMost(under), under.at_least(limit.value) == Ok(true)),
    };
    let grade = grade(bound).filter(|_| !passes);
    let mut reading = kept_reading(rulebook, Which::Loosened, grade, subject, passes, String::new())?;
    "the value".clone_into(&mut reading.what);
    reading.value = Some(limit.value);
    reading.bound = compared;
    "the tightest below".clone_into(&mut reading.limit_name);
    reading.limit_set_by = Some(set.clone());
    Some(told(reading, set))
}

/// The tightest value of all that were in force below the last.
fn tightest(bound: &Bound, limit: &Limit, side: Option<Side>) -> Option<Quantity> {
    let own = bound.file.limits.iter().find(|written| written.name == limit.name)?.value.value;
    let below = limit.set_by.as_ref().map(|set| Arc::clone(&set.chain))?;
    let below = below.iter().take(below.len().saturating_sub(1)).skip(1);
    let mut tightest = own;
    for setting in below {
        let value = setting.quantity?;
        let tighter = match side? {
            Side::Least => value.at_least(tightest) == Ok(true),
            Side::Most => tightest.at_least(value) == Ok(true),
        };
        if tighter {
            tightest = value;
        }
    }
    Some(tightest)
}
