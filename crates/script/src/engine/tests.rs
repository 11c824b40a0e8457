//! A small build, and what scripts make of it.

mod agreement;
mod bounds;
mod checking;
mod comparing;
mod deadline;
mod failing;
mod faking;
mod handles;
mod judgements;
mod lookups;
mod records;
mod rows;
mod standing;
mod tables;
mod values;
mod worked;

use std::rc::Rc;

use pintle_finding::Basis;
use pintle_quantity::Quantity;
use pintle_source::Sources;
use pintle_spec::{Stock, read_build};

use super::{Engine, ScriptError};
use crate::judges::Judges;
use crate::measured::Limit;
use crate::recorder::{End, Judgement};
use crate::run::{Grounds, Run};
use crate::thing::What;

/// A trailer of 2,000 lb with 300 lb on its tongue, and one road state with nothing aboard.
const BUILD: &str = r#"
[build]
number = "T-1"
title  = "for trying scripts"
stage  = "design"

[trailer]
mass         = "2000 lb"
tongue       = "300 lb"
cg           = { centre = "0 in", ground = "30 in" }
gvwr         = "3000 lb"
ball_to_box  = "44 in"
length       = "129 in"
width        = "69 in"
height       = "76 in"
wall         = "1 1/2 in"
roof         = "2 in"
floor_height = "21 in"
frame_height = "18 in"
nose         = { shape = "flat" }
axle         = { ball = "100 in", count = 1, gawr = "3500 lb", track = "70 in" }
brakes       = { kind = "none" }

[tow]
rating = "5000 lb"

[[item]]
tag    = "hob"
kind   = "appliance"
used   = "inside"
fuel   = "propane"
mass   = "0 lb"
length = "10 in"
width  = "10 in"
height = "4 in"
at     = { front = "10 in", left = "10 in" }

[[state]]
name = "empty"
use  = "road"
fill = {}
"#;

/// A build, an engine, and two limits: `least` of 10 % and `most` of 3,000 lb.
struct Bench {
    engine: Engine,
    sources: Sources,
    run: Rc<Run>,
    limits: Rc<[Rc<Limit>]>,
}

/// How a script ended: its message, line and column.
#[derive(Debug, PartialEq, Eq)]
struct Failure {
    message: String,
    line: Option<usize>,
    column: Option<usize>,
}

impl Bench {
    fn new() -> Self {
        Self::with("")
    }

    /// The build with more tables after it.
    fn with(more: &str) -> Self {
        let mut sources = Sources::new();
        let mut problems = Vec::new();
        let id = sources.add("build.toml", &format!("{BUILD}{more}"));
        let build = read_build(&sources, id, &Stock::default(), &mut problems);
        assert_eq!(problems, []);
        let limit = |name: &str, value: &str| {
            Rc::new(Limit {
                name: name.to_owned(),
                value: Quantity::parse(value).unwrap(),
                basis: Basis::Shop,
                span: None,
                set_by: None,
            })
        };
        Self {
            engine: Engine::new(),
            run: Run::new(build.unwrap(), &Grounds::default()),
            limits: Rc::from([limit("least", "10 %"), limit("most", "3000 lb")]),
            sources,
        }
    }

    fn judges(word: &str) -> (Judges, What) {
        let judges = Judges::from_word(word).unwrap();
        (judges, if word == "road state" { What::State(0) } else { What::Item(0) })
    }

    fn judge_a(&mut self, word: &str, text: &str) -> Result<Judgement, ScriptError> {
        let (judges, what) = Self::judges(word);
        let source = self.sources.add("rule.rhai", text);
        let script = self.engine.compile(text, source, judges)?;
        Ok(self.engine.judge(&script, &self.run, what, &self.limits))
    }

    /// What a script makes of the road state.
    fn judge(&mut self, text: &str) -> Judgement {
        self.judge_a("road state", text).unwrap()
    }

    /// The message with which a script cannot even be loaded, its line and column.
    fn refused(&mut self, text: &str) -> Failure {
        let error = self.judge_a("road state", text).unwrap_err();
        self.still_judges();
        let message = [Some(error.message), error.help].into_iter().flatten().collect::<Vec<_>>().join("; ");
        Failure { message, line: error.position.line(), column: error.position.position() }
    }

    /// The message with which a script fails when it runs, its line and column. The engine judges on after it.
    fn fails(&mut self, text: &str) -> Failure {
        self.fails_as("road state", text)
    }

    /// The same of a rule that judges something else.
    fn fails_as(&mut self, word: &str, text: &str) -> Failure {
        let judgement = self.judge_a(word, text).unwrap();
        self.still_judges();
        match judgement.end {
            End::Failed { message, position } => {
                Failure { message, line: position.line(), column: position.position() }
            }
            end => panic!("the script ended with {end:?}"),
        }
    }

    /// A sound rule passes on the same engine, with its one reading and nothing of another run's.
    fn still_judges(&mut self) {
        let judgement = self.judge("reading(state.gross).at_most(limit.most);");
        assert!(matches!(judgement.end, End::Done), "{:?}", judgement.end);
        assert_eq!(judgement.drafts.len(), 1);
        assert!(judgement.drafts[0].passes);
    }
}

#[track_caller]
fn at(failure: &Failure, line: usize, column: usize, message: &str) {
    assert_eq!((failure.line, failure.column), (Some(line), Some(column)), "{failure:?}");
    assert_eq!(failure.message, message);
}
