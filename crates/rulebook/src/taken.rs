//! From what a script left to readings: the verdict, the limit, how sure the value is, and what a finding points at.

use pintle_calc::Figure;
use pintle_calc::uncertainty::{self, Tolerances};
use pintle_finding::{Bound as Compared, Label, Reading, Role, Subject, Verdict};
use pintle_script::{Comparison, Draft, End, Measured, Position, place};
use pintle_source::Sources;

use crate::judge::Detail;
use crate::labels;
use crate::rulebook::Bound;

/// A reading, and for one that passes on the trailer's weights its margin as a figure.
#[derive(Debug)]
pub(crate) struct Taken {
    pub(crate) reading: Reading,
    pub(crate) margin: Option<Figure>,
}

impl From<Reading> for Taken {
    fn from(reading: Reading) -> Self {
        Self { reading, margin: None }
    }
}

pub(crate) fn blank(bound: &Bound, subject: Subject, verdict: Verdict, reason: impl Into<String>) -> Reading {
    Reading {
        rule: bound.rule.clone(),
        subject,
        path: String::new(),
        what: String::new(),
        value: None,
        bound: Compared::None,
        limit_name: String::new(),
        limit_basis: None,
        limit_set_by: None,
        verdict,
        accepted: None,
        reason: Some(reason.into()),
        remedy: None,
        labels: Vec::new(),
        inputs: Vec::new(),
        contributions: Vec::new(),
        sum: None,
    }
}

/// The reading that an ending adds, if any.
pub(crate) fn ending(
    bound: &Bound,
    subject: Subject,
    end: End,
    empty: bool,
    sources: &Sources,
) -> Option<Reading> {
    match end {
        End::Done if empty => {
            let mut reading = blank(bound, subject, Verdict::Broken, "its script made no reading");
            let text = sources.text(bound.file.script);
            let first = u32::try_from(text.lines().next().map_or(0, str::len)).unwrap_or(0);
            let span = pintle_source::Span::new(bound.file.script, 0, first);
            reading.labels.push(Label::new(
                span,
                Role::Script,
                "every path through a rule must make a reading",
            ));
            Some(reading)
        }
        End::Done => None,
        End::NotApplicable(why) => Some(blank(bound, subject, Verdict::NotApplicable, why)),
        End::Missing(missing) => {
            let reason = format!("{} is not given", missing.what);
            let mut reading = blank(bound, subject, Verdict::CannotJudge, reason);
            if let Some(span) = missing.span {
                reading.labels.push(Label::new(
                    span,
                    Role::Missing,
                    format!("{} is not given", missing.what),
                ));
            } else if let Some(span) = reading.subject.span {
                reading.labels.push(Label::new(span, Role::Missing, "cannot be judged"));
            }
            if !missing.help.is_empty() {
                reading.remedy = Some(missing.help);
            }
            Some(reading)
        }
        End::Failed { message, position } => Some(failed(bound, subject, &message, position, sources)),
    }
}

/// The reading of a script that failed at a place.
fn failed(bound: &Bound, subject: Subject, message: &str, position: Position, sources: &Sources) -> Reading {
    let mut reading = blank(bound, subject, Verdict::Broken, message);
    if let Some(span) = place(sources, bound.file.script, position) {
        reading.labels.push(Label::new(span, Role::Script, message));
    }
    if let Some(span) = reading.subject.span {
        reading.labels.push(Label::new(span, Role::Subject, "while judging this"));
    }
    reading
}

pub(crate) fn from_draft(
    bound: &Bound,
    subject: &Subject,
    draft: &Draft,
    tolerances: &Tolerances,
    detail: Detail,
    sources: &Sources,
) -> Taken {
    let Some(comparison) = &draft.comparison else {
        let message = "its script takes a reading and compares it with nothing";
        return failed(bound, subject.clone(), message, draft.position, sources).into();
    };
    let verdict = if draft.passes { Verdict::Pass } else { Verdict::Fault };
    let mut reading = blank(bound, subject.clone(), verdict, "");
    reading.reason = None;
    reading.what.clone_from(&draft.what);
    if draft.what.is_empty() && draft.value.is_some() {
        "the figure read".clone_into(&mut reading.what);
    }
    reading.value = draft.value.as_ref().map(|value| value.figure.quantity);
    let limits: Vec<&Measured> = match comparison {
        Comparison::AtLeast(limit) | Comparison::AtMost(limit) | Comparison::Equal(limit) => vec![limit],
        Comparison::Between(least, most) => vec![least, most],
        Comparison::Holds(_) => Vec::new(),
    };
    reading.bound = match comparison {
        Comparison::AtLeast(limit) => Compared::AtLeast(limit.figure.quantity),
        Comparison::AtMost(limit) => Compared::AtMost(limit.figure.quantity),
        Comparison::Equal(limit) => Compared::Equal(limit.figure.quantity),
        Comparison::Between(least, most) => Compared::Between(least.figure.quantity, most.figure.quantity),
        Comparison::Holds(words) => Compared::Holds(words.clone()),
    };
    if let Some(limit) = limits.iter().find_map(|limit| limit.limit.as_deref()) {
        reading.limit_name.clone_from(&limit.name);
        reading.limit_basis = Some(limit.basis);
        reading.limit_set_by.clone_from(&limit.set_by);
    } else {
        if let [limit] = limits.as_slice() {
            limit.name.clone_into(&mut reading.limit_name);
        }
        if let Some(limit) = limits.iter().find_map(|limit| limit.limit_used()) {
            reading.limit_basis = Some(limit.basis);
            reading.limit_set_by.clone_from(&limit.set_by);
        }
    }
    if verdict == Verdict::Fault || detail == Detail::Everything {
        if let Some((value, sure)) = reading.value.zip(how_sure(draft, tolerances)) {
            reading.value = Some(value.with_tolerance(sure));
        }
        labels::explain(&mut reading, draft, &limits);
    }
    if verdict == Verdict::Fault {
        labels::point(&mut reading, draft, &limits);
        reading.remedy.clone_from(&draft.remedy);
    }
    let margin = if verdict == Verdict::Pass { margin(draft) } else { None };
    Taken { reading, margin }
}

/// The ± of the value read, in SI, where it can be said and is any.
fn how_sure(draft: &Draft, tolerances: &Tolerances) -> Option<f64> {
    let sure = uncertainty::of(&draft.value.as_ref()?.figure.trace, tolerances)?;
    (sure.expanded > 0.0).then_some(sure.expanded)
}

/// How far inside its limit a figure of the trailer's weights lies, as a figure: what both are made of is in it once.
fn margin(draft: &Draft) -> Option<Figure> {
    let value = &draft.value.as_ref()?.figure;
    let above = |limit: &Measured| value.minus(&limit.figure).ok();
    let below = |limit: &Measured| limit.figure.minus(value).ok();
    let margin = match draft.comparison.as_ref()? {
        Comparison::AtLeast(limit) => above(limit)?,
        Comparison::AtMost(limit) => below(limit)?,
        Comparison::Between(least, most) => {
            let (low, high) = (above(least)?, below(most)?);
            if low.quantity.si() <= high.quantity.si() { low } else { high }
        }
        Comparison::Equal(_) | Comparison::Holds(_) => return None,
    };
    margin.trace.rests_on_weights().then_some(margin)
}
