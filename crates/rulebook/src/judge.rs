//! Running the rules over a build: every rule over every one of its subjects, every judgement a reading.

use std::rc::Rc;

use pintle_calc::arrange::Extremum;
use pintle_finding::{Bound as Compared, Inspection, Label, Reading, Role, Subject, Verdict};
use pintle_script::{
    ARRANGEMENT, Comparison, Draft, End, Engine, Judgement, Limit, Measured, Position, Run, Script, What,
    place,
};
use pintle_source::Sources;
use pintle_spec::Build;

use crate::arranged;
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
    /// The figures whose extremes over all arrangements it is judged on; none for a rule that judges no road state.
    extremes: Vec<Extremum>,
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
        let ready = rules.map(|bound| {
            let judges = bound.file.judges;
            let script = engine.compile(&bound.file.script_text, bound.file.script, judges).ok();
            let on_road = script.as_ref().filter(|_| judges.takes_road_states());
            Ready {
                bound,
                extremes: on_road.map(Script::extremes).unwrap_or_default(),
                script,
                limits: bound.limits.iter().cloned().map(Rc::new).collect(),
            }
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
        let (now, later): (Vec<_>, Vec<_>) =
            self.rules.iter().partition(|ready| ready.bound.rule.from <= stage);
        let of_rule = |ready: &Ready<'_>| (ready.bound.file.id.clone(), ready.bound.rule.from);
        inspection.later.extend(later.into_iter().map(of_rule));
        let run = Run::new(build);
        for ready in now {
            let judging = Judging { judge: self, ready, run: &run, sources, detail };
            let mut readings = judging.stated();
            let arranged = judging.arranged(&readings);
            inspection.readings.append(&mut readings);
            inspection.readings.extend(arranged);
        }
        inspection
    }
}

/// One rule at work on one build.
struct Judging<'j> {
    judge: &'j Judge<'j>,
    ready: &'j Ready<'j>,
    run: &'j Rc<Run>,
    sources: &'j Sources,
    detail: Detail,
}

impl Judging<'_> {
    /// What the rule says of the subjects that the spec names.
    fn stated(&self) -> Vec<Reading> {
        let judges = self.ready.bound.file.judges;
        let subjects = judges.subjects(&self.run.build);
        if subjects.is_empty() {
            return vec![self.no_subject()];
        }
        subjects.into_iter().flat_map(|what| self.on(what)).collect()
    }

    /// What the rule says of the trailer's arrangements, beyond what it says of its states.
    fn arranged(&self, of_states: &[Reading]) -> Vec<Reading> {
        let (at, missing) = self.run.extremes.for_figures(&self.ready.extremes);
        if self.ready.bound.file.judges.subjects(&self.run.build).is_empty() {
            return Vec::new();
        }
        let states = self.run.build.states.len();
        let mut readings: Vec<Reading> =
            at.into_iter().flat_map(|at| self.on(What::State(states + at))).collect();
        for missing in missing {
            let name = "any".to_owned();
            let subject = Subject { kind: ARRANGEMENT, name, span: Some(self.run.build.number.span) };
            readings.extend(ending(self.ready.bound, subject, End::Missing(missing), true, self.sources));
        }
        arranged::worst(of_states, readings)
    }

    fn no_subject(&self) -> Reading {
        let (bound, build) = (self.ready.bound, &self.run.build);
        let judges = bound.file.judges;
        let subject = Subject { kind: judges.word(), name: String::new(), span: Some(build.number.span) };
        let (verdict, reason) = if judges.must_exist() {
            (Verdict::CannotJudge, format!("the spec has no {}", judges.word()))
        } else {
            (Verdict::NotApplicable, format!("the build has no {}", judges.word()))
        };
        let mut reading = blank(bound, subject, verdict, reason);
        if verdict == Verdict::CannotJudge {
            reading.remedy = Some(format!("describe at least one {} in the spec", judges.word()));
            let label = format!("no {} in this spec", judges.word());
            reading.labels.push(Label::new(build.number.span, Role::Missing, label));
        }
        reading
    }

    /// What the rule says of one subject.
    fn on(&self, what: What) -> Vec<Reading> {
        let (bound, sources) = (self.ready.bound, self.sources);
        let subject = bound.file.judges.subject(self.run, what);
        let judgement = match &self.ready.script {
            Some(script) => self.judge.engine.judge(script, self.run, what, &self.ready.limits),
            None => Judgement {
                drafts: Vec::new(),
                end: End::Failed {
                    message: "its script cannot be read".to_owned(),
                    position: Position::NONE,
                },
            },
        };
        let empty = judgement.drafts.is_empty();
        let drafts = judgement.drafts.into_iter();
        let mut readings: Vec<Reading> =
            drafts.map(|draft| from_draft(bound, &subject, draft, self.detail, sources)).collect();
        readings.extend(ending(bound, subject, judgement.end, empty, sources));
        readings
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
