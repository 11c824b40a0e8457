//! Running the rules over a build: every rule over every one of its subjects, every judgement a reading.

use std::cell::RefCell;
use std::collections::BTreeSet;
use std::rc::Rc;
use std::sync::Arc;

use jiff::civil::Date;
use pintle_calc::arrange::Extremum;
use pintle_calc::uncertainty::Tolerances;
use pintle_finding::{Inspection, Label, Reading, Role, Subject, Verdict};
use pintle_script::{ARRANGEMENT, End, Engine, Grounds, Judgement, Limit, Position, Run, Script, What};
use pintle_source::Sources;
use pintle_spec::Build;

use crate::arranged;
use crate::paths;
use crate::rulebook::{Bound, Rulebook};
use crate::settle::settle;
use crate::taken::{Taken, blank, ending, from_draft};
use crate::tight;
use crate::trial::Lines;

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
    rulebook: &'r Rulebook,
    tolerances: &'r Tolerances,
    grounds: Grounds,
    rules: Vec<Ready<'r>>,
    /// The rule of whose script the lines are noted that are run.
    noted: Option<&'r str>,
    lines_run: RefCell<BTreeSet<usize>>,
}

#[derive(Debug)]
struct Ready<'r> {
    bound: &'r Bound,
    script: Option<Script>,
    picks: Picks,
    limits: Rc<[Rc<Limit>]>,
    /// The figures whose extremes over all arrangements it is judged on; none for a rule that judges no road state.
    extremes: Vec<Extremum>,
}

/// Which of its subjects a rule judges.
#[derive(Debug)]
enum Picks {
    All,
    /// Those for which a condition is true.
    Where(Script),
    /// Nobody knows: the condition cannot be read.
    Unreadable,
}

impl<'r> Judge<'r> {
    /// Compiles the scripts of a rulebook for this thread.
    pub fn new(rulebook: &'r Rulebook) -> Self {
        Self::of(rulebook, rulebook.rules.iter())
    }

    /// Compiles one rule's script; of a rule that judges the readings of others, theirs too.
    pub fn of_rule(rulebook: &'r Rulebook, bound: &'r Bound) -> Self {
        if bound.file.judges.takes_readings() {
            return Self::new(rulebook);
        }
        Self::of(rulebook, std::iter::once(bound))
    }

    /// The same, noting which lines of one rule's script are run.
    pub fn noting_lines(rulebook: &'r Rulebook, bound: &'r Bound) -> Self {
        let noted = Some(bound.file.id.as_str());
        if bound.file.judges.takes_readings() {
            return Self { noted, ..Self::with(Engine::noting_lines(), rulebook, rulebook.rules.iter()) };
        }
        Self { noted, ..Self::with(Engine::noting_lines(), rulebook, std::iter::once(bound)) }
    }

    /// The lines of that script, and those that were run so far.
    pub fn lines(&self, bound: &Bound) -> Lines {
        let script = self.rules.iter().find(|ready| ready.bound.file.id == bound.file.id);
        let all = script.and_then(|ready| ready.script.as_ref()).map(Script::lines).unwrap_or_default();
        Lines { all, run: self.lines_run.borrow().clone() }
    }

    fn of(rulebook: &'r Rulebook, rules: impl Iterator<Item = &'r Bound>) -> Self {
        Self::with(Engine::timed(rulebook.clock), rulebook, rules)
    }

    fn with(engine: Engine, rulebook: &'r Rulebook, rules: impl Iterator<Item = &'r Bound>) -> Self {
        let ready = rules.map(|bound| {
            let judges = bound.file.judges;
            let script = engine.compile(&bound.file.script_text, bound.file.script, judges).ok();
            let on_road = script.as_ref().filter(|_| judges.takes_road_states());
            Ready {
                bound,
                extremes: on_road.map(Script::extremes).unwrap_or_default(),
                script,
                picks: match &bound.file.picked {
                    None => Picks::All,
                    Some(picked) => picked.compiled(&engine).map_or(Picks::Unreadable, Picks::Where),
                },
                limits: bound.limits.iter().cloned().map(Rc::new).collect(),
            }
        });
        let grounds = Grounds {
            assumptions: rulebook.assumptions.clone(),
            places: rulebook.places.clone(),
            own_fields: Arc::clone(&rulebook.own_fields),
        };
        Self {
            rules: ready.collect(),
            rulebook,
            tolerances: &rulebook.tolerances,
            grounds,
            engine,
            noted: None,
            lines_run: RefCell::default(),
        }
    }

    /// Judges a build on a day, as [`inspect`](Self::inspect) does: what is waived or in the backlog is marked, and what is
    /// wrong with waivers, loosened limits and the backlog is found as well.
    pub fn inspect_on(&self, day: Date, build: Build, sources: &Sources, detail: Detail) -> Inspection {
        let (mut inspection, run) = self.judged(build, sources, detail);
        let rulebook = self.rulebook;
        let known = if rulebook.waivers.is_empty() { Vec::new() } else { paths::all(&run.build) };
        settle(&mut inspection, rulebook, &known, day);
        inspection
    }

    /// Judges a build by the rules alone: nothing is waived. Rules whose stage has not come are listed, not judged.
    pub fn inspect(&self, build: Build, sources: &Sources, detail: Detail) -> Inspection {
        self.judged(build, sources, detail).0
    }

    fn judged(&self, build: Build, sources: &Sources, detail: Detail) -> (Inspection, Rc<Run>) {
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
        let run = Run::new(build, &self.grounds);
        let judging = |ready| Judging { judge: self, ready, run: &run, sources, detail };
        let mut taken: Vec<Vec<Taken>> = Vec::with_capacity(now.len());
        for ready in &now {
            let waits = ready.bound.file.judges.takes_readings();
            taken.push(if waits { Vec::new() } else { judging(ready).all() });
        }
        if now.iter().any(|ready| ready.bound.file.judges.takes_readings()) {
            run.note_tight(tight::of(taken.iter().flatten(), self.tolerances));
            for (ready, place) in now.iter().zip(&mut taken) {
                if ready.bound.file.judges.takes_readings() {
                    *place = judging(ready).all();
                }
            }
        }
        inspection.readings.extend(taken.into_iter().flatten().map(|taken| taken.reading));
        for reading in &mut inspection.readings {
            reading.path = paths::of(&reading.subject, &run.build);
        }
        (inspection, run)
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
    /// What the rule says of the subjects that the spec names, and of the trailer's arrangements.
    fn all(&self) -> Vec<Taken> {
        let judges = self.ready.bound.file.judges;
        let (subjects, mut taken) = self.picked(judges.subjects(self.run));
        if subjects.is_empty() && taken.is_empty() {
            return vec![self.no_subject().into()];
        }
        taken.extend(subjects.into_iter().flat_map(|what| self.on(what)));
        let arranged = arranged::worst(&taken, self.on_arrangements());
        taken.extend(arranged);
        taken
    }

    /// What the rule says of the arrangements at which what it reads is least and greatest.
    fn on_arrangements(&self) -> Vec<Taken> {
        let (at, missing) = self.run.extremes.for_figures(&self.ready.extremes);
        let states = self.run.build.states.len();
        let (at, mut taken) = self.picked(at.into_iter().map(|at| What::State(states + at)).collect());
        taken.extend(at.into_iter().flat_map(|what| self.on(what)));
        for missing in missing {
            let name = "any".to_owned();
            let subject = Subject { kind: ARRANGEMENT, name, span: Some(self.run.build.number.span) };
            let ending = ending(self.ready.bound, subject, End::Missing(missing), true, self.sources);
            taken.extend(ending.map(Taken::from));
        }
        taken
    }

    /// The subjects for which the condition of the rule's own subject holds, and what is said of those of which that
    /// cannot be told.
    fn picked(&self, subjects: Vec<What>) -> (Vec<What>, Vec<Taken>) {
        if let Picks::All = self.ready.picks {
            return (subjects, Vec::new());
        }
        let (mut kept, mut taken) = (Vec::new(), Vec::new());
        for what in subjects {
            let holds = match &self.ready.picks {
                Picks::All => Ok(true),
                Picks::Where(condition) => self.judge.engine.holds(condition, self.run, what),
                Picks::Unreadable => Err(unreadable()),
            };
            match holds {
                Ok(true) => kept.push(what),
                Ok(false) => {}
                Err(end) => {
                    let subject = self.ready.bound.file.judges.subject(self.run, what);
                    taken.extend(ending(self.ready.bound, subject, end, true, self.sources).map(Taken::from));
                }
            }
        }
        (kept, taken)
    }

    fn no_subject(&self) -> Reading {
        let (bound, build) = (self.ready.bound, &self.run.build);
        let judges = bound.file.judges;
        let kind = if judges.takes_figures() { "build" } else { judges.word() };
        let subject = Subject { kind, name: String::new(), span: Some(build.number.span) };
        let (verdict, reason) = if let Some(picked) = &bound.file.picked {
            (Verdict::NotApplicable, format!("the build has no {}", picked.name.value))
        } else if judges.takes_figures() {
            (
                Verdict::NotApplicable,
                format!("the build has nothing of which there is a figure for: {}", judges.noun()),
            )
        } else if judges.must_exist() {
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
    fn on(&self, what: What) -> Vec<Taken> {
        let (bound, sources) = (self.ready.bound, self.sources);
        let subject = bound.file.judges.subject(self.run, what);
        let judgement = match &self.ready.script {
            Some(script) => self.judge.engine.judge(script, self.run, what, &self.ready.limits),
            None => Judgement { drafts: Vec::new(), end: unreadable() },
        };
        if self.judge.noted.is_some() {
            let run = self.judge.engine.lines_run();
            if self.judge.noted == Some(bound.file.id.as_str()) {
                self.judge.lines_run.borrow_mut().extend(run);
            }
        }
        let empty = judgement.drafts.is_empty();
        let drafts = judgement.drafts.into_iter();
        let tolerances = self.judge.tolerances;
        let mut taken: Vec<Taken> = drafts
            .map(|draft| from_draft(bound, &subject, &draft, tolerances, self.detail, sources))
            .collect();
        taken.extend(ending(bound, subject, judgement.end, empty, sources).map(Taken::from));
        taken
    }
}

fn unreadable() -> End {
    End::Failed { message: "its script cannot be read".to_owned(), position: Position::NONE }
}
