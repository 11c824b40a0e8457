//! Running the rules over a build: every rule over every one of its subjects, every judgement a reading.

use std::rc::Rc;

use pintle_finding::{Bound as Compared, Inspection, Label, Reading, Role, Subject, Verdict};
use pintle_script::{
    Comparison, Draft, End, Engine, Judgement, Limit, Measured, Position, Run, Script, place,
};
use pintle_source::Sources;
use pintle_spec::Build;

use crate::labels;
use crate::rulebook::{Bound, Rulebook};

/// How much each passing reading carries. Findings always carry all.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Detail {
    /// Passing readings without their inputs and contributions.
    Findings,
    /// Every reading with its inputs and contributions.
    Everything,
}

/// A rulebook ready to judge on one thread: its own engine and compiled scripts.
#[derive(Debug)]
pub struct Judge<'r> {
    engine: Engine,
    rules: Vec<Ready<'r>>,
}

#[derive(Debug)]
struct Ready<'r> {
    bound: &'r Bound,
    script: Option<Script>,
    limits: Rc<[Rc<Limit>]>,
}

impl<'r> Judge<'r> {
    /// Compiles the scripts of a rulebook for this thread.
    pub fn new(rulebook: &'r Rulebook) -> Self {
        Self::of(rulebook.rules.iter())
    }

    /// Compiles one rule's script.
    pub fn of_rule(bound: &'r Bound) -> Self {
        Self::of(std::iter::once(bound))
    }

    fn of(rules: impl Iterator<Item = &'r Bound>) -> Self {
        let engine = Engine::new();
        let ready = rules.map(|bound| Ready {
            bound,
            script: engine.compile(&bound.file.script_text, bound.file.script, bound.file.judges).ok(),
            limits: bound.limits.iter().cloned().map(Rc::new).collect(),
        });
        Self { rules: ready.collect(), engine }
    }

    /// Judges a build. Rules whose stage has not come are listed, not judged.
    pub fn inspect(&self, build: Build, sources: &Sources, detail: Detail) -> Inspection {
        let mut inspection = Inspection {
            spec: sources.name(build.source).to_owned(),
            number: build.number.value.clone(),
            title: build.title.value.clone(),
            stage: Some(build.stage.value),
            ..Inspection::default()
        };
        let stage = build.stage.value;
        let run = Run::new(build, Vec::new());
        for ready in &self.rules {
            if ready.bound.rule.from > stage {
                inspection.later.push((ready.bound.file.id.clone(), ready.bound.rule.from));
            } else {
                self.judge(ready, &run, sources, detail, &mut inspection.readings);
            }
        }
        inspection
    }

    fn judge(
        &self,
        ready: &Ready<'_>,
        run: &Rc<Run>,
        sources: &Sources,
        detail: Detail,
        readings: &mut Vec<Reading>,
    ) {
        let judges = ready.bound.file.judges;
        let subjects = judges.subjects(&run.build);
        if subjects.is_empty() {
            let subject =
                Subject { kind: judges.word(), name: String::new(), span: Some(run.build.number.span) };
            let (verdict, reason) = if judges.must_exist() {
                (Verdict::CannotJudge, format!("the spec has no {}", judges.word()))
            } else {
                (Verdict::NotApplicable, format!("the build has no {}", judges.word()))
            };
            let mut reading = blank(ready.bound, subject, verdict, reason);
            if verdict == Verdict::CannotJudge {
                reading.remedy = Some(format!("describe at least one {} in the spec", judges.word()));
                let label = format!("no {} in this spec", judges.word());
                reading.labels.push(Label::new(run.build.number.span, Role::Missing, label));
            }
            readings.push(reading);
        }
        for what in subjects {
            let subject = judges.subject(run, what);
            let judgement = match &ready.script {
                Some(script) => self.engine.judge(script, run, what, &ready.limits),
                None => Judgement {
                    drafts: Vec::new(),
                    end: End::Failed {
                        message: "its script cannot be read".to_owned(),
                        position: Position::NONE,
                    },
                },
            };
            let empty = judgement.drafts.is_empty();
            readings.extend(
                judgement
                    .drafts
                    .into_iter()
                    .map(|draft| from_draft(ready.bound, &subject, draft, detail, sources)),
            );
            readings.extend(ending(ready.bound, subject, judgement.end, empty, sources));
        }
    }
}

fn blank(bound: &Bound, subject: Subject, verdict: Verdict, reason: impl Into<String>) -> Reading {
    Reading {
        rule: bound.rule.clone(),
        subject,
        what: String::new(),
        value: None,
        bound: Compared::None,
        limit_name: String::new(),
        limit_basis: None,
        limit_set_by: None,
        verdict,
        reason: Some(reason.into()),
        remedy: None,
        labels: Vec::new(),
        inputs: Vec::new(),
        contributions: Vec::new(),
    }
}

/// The reading that an ending adds, if any.
fn ending(bound: &Bound, subject: Subject, end: End, empty: bool, sources: &Sources) -> Option<Reading> {
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

fn from_draft(bound: &Bound, subject: &Subject, draft: Draft, detail: Detail, sources: &Sources) -> Reading {
    let Some(comparison) = &draft.comparison else {
        let message = "its script takes a reading and compares it with nothing";
        return failed(bound, subject.clone(), message, draft.position, sources);
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
        labels::explain(&mut reading, &draft, &limits);
    }
    if verdict == Verdict::Fault {
        labels::point(&mut reading, &draft, &limits);
        reading.remedy = draft.remedy;
    }
    reading
}
