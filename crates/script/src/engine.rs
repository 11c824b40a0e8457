//! The engine: strict, bounded, and unable to do anything but calculate and record.

use std::cell::RefCell;
use std::collections::BTreeSet;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::rc::Rc;

use pintle_calc::arrange::Extremum;
use pintle_source::SourceId;
use rhai::packages::{ArithmeticPackage, BasicIteratorPackage, LogicPackage, Package};
use rhai::{AST, Dynamic, Position, Scope};

use crate::check::{Around, Wanted, check};
use crate::coverage::Lines;
use crate::desk::Desk;
use crate::functions;
use crate::judges::Judges;
use crate::limits::Limits;
use crate::measured::Limit;
use crate::properties::extremes_of;
use crate::recorder::{Book, Draft, Drafts, End, Judgement};
use crate::run::Run;
use crate::scan::{Used, scan};
use crate::stop::Stop;
use crate::thing::{Thing, What};
use crate::watch::{Clock, LONGEST, Watch};
use crate::words::{end_of, sort, unreadable};
use crate::{compare, coverage, limits, lists, measured, recorder, thing};

/// Operations one run of a script may take. A built-in rule takes some thirty.
pub(crate) const MOST_OPERATIONS: u64 = 50_000;
/// Characters in a text, entries in a list or map.
pub(crate) const MOST_SIZE: usize = 1_000;
/// Bytes of a script. The longest built-in one has some seven hundred.
const MOST_TEXT: usize = 16_384;

/// Operations between two looks at the clock.
const LOOK_EVERY: u64 = 16;

fn too_late() -> String {
    format!("the script took longer than {} s", LONGEST.as_secs())
}

/// Words of the script language that a rule has no use for: what reaches outside, what would hide a failure or a
/// missing value, what compares unlike sorts without a word (`switch`), and functions as values.
const NO_PLACE: &[&str] = &[
    "eval",
    "import",
    "export",
    "print",
    "debug",
    "try",
    "catch",
    "switch",
    "Fn",
    "call",
    "curry",
    "is_def_var",
    "is_def_fn",
    "is_shared",
    "type_of",
];

/// The names under which every script finds what it judges; its subject's own names come on top.
pub(crate) const GIVEN: [&str; 10] =
    ["build", "trailer", "tow", "people", "gas", "electric", "water", "quote", "record", "limit"];

/// A script engine for one thread, with what its scripts record.
pub struct Engine {
    rhai: rhai::Engine,
    drafts: Drafts,
    watch: Rc<Watch>,
    lines: Option<Lines>,
    #[cfg(test)]
    handed: Vec<crate::desk::Handed>,
}

impl std::fmt::Debug for Engine {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Engine").finish_non_exhaustive()
    }
}

/// A compiled script.
#[derive(Debug, Clone)]
pub struct Script {
    ast: AST,
    /// The file it came from.
    pub source: SourceId,
    judges: Judges,
    used: Used,
}

impl Script {
    /// The limits it asks for by `limit.name`, each time at its place.
    pub fn limits(&self) -> &[(String, Position)] {
        &self.used.limit.named
    }

    /// Whether it handles `limit` in another way too, so that it may use limits that [`Script::limits`] leaves out.
    pub fn limits_otherwise(&self) -> bool {
        self.used.limit.otherwise
    }

    /// The lines on which its statements begin, from 1.
    pub fn lines(&self) -> BTreeSet<usize> {
        coverage::of(&self.ast)
    }

    /// The figures of a state that it asks for, whose extremes over all arrangements it must be judged on: all of them
    /// where it handles `state` in another way than `state.name`.
    pub fn extremes(&self) -> Vec<Extremum> {
        let asked = &self.used.state;
        if asked.otherwise {
            return Extremum::ALL.to_vec();
        }
        let mut all: Vec<Extremum> =
            asked.named.iter().flat_map(|(name, _)| extremes_of(name)).copied().collect();
        all.sort_unstable();
        all.dedup();
        all
    }
}

/// Something that is wrong with a script, known before it runs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ScriptError {
    /// What is wrong.
    pub message: String,
    /// Where in the script.
    pub position: Position,
    /// What is set against that place.
    pub label: String,
    /// What to change.
    pub help: Option<String>,
    /// Other places that have to do with it, each with its words.
    pub beside: Vec<(Position, String)>,
}

impl ScriptError {
    pub(crate) fn new(message: impl Into<String>, position: Position) -> Self {
        Self { message: message.into(), position, label: "here".to_owned(), help: None, beside: Vec::new() }
    }

    pub(crate) fn label(mut self, label: impl Into<String>) -> Self {
        self.label = label.into();
        self
    }

    pub(crate) fn help(mut self, help: impl Into<String>) -> Self {
        self.help = Some(help.into());
        self
    }

    pub(crate) fn beside(mut self, position: Position, words: impl Into<String>) -> Self {
        self.beside.push((position, words.into()));
        self
    }
}

impl Default for Engine {
    fn default() -> Self {
        Self::new()
    }
}

impl Engine {
    /// An engine with nothing in it but arithmetic, lists, and Pintle's own functions.
    pub fn new() -> Self {
        Self::timed(None)
    }

    /// The same, with a clock by which a script that takes too long is stopped.
    pub fn timed(clock: Option<Clock>) -> Self {
        let mut rhai = rhai::Engine::new_raw();
        ArithmeticPackage::new().register_into_engine(&mut rhai);
        LogicPackage::new().register_into_engine(&mut rhai);
        BasicIteratorPackage::new().register_into_engine(&mut rhai);
        for symbol in NO_PLACE {
            rhai.disable_symbol(*symbol);
        }
        rhai.on_print(|_| {}).on_debug(|_, _, _| {});
        rhai.set_strict_variables(true)
            .set_fail_on_invalid_map_property(true)
            .set_allow_shadowing(false)
            .set_allow_anonymous_fn(false)
            // The language's fast operators, and its folding of constants, answer before ours are asked.
            .set_fast_operators(false)
            .set_optimization_level(rhai::OptimizationLevel::None)
            .set_max_operations(MOST_OPERATIONS)
            .set_max_call_levels(16)
            .set_max_expr_depths(64, 32)
            .set_max_string_size(MOST_SIZE)
            .set_max_array_size(MOST_SIZE)
            .set_max_map_size(MOST_SIZE)
            .set_max_functions(32)
            .set_max_variables(64);
        let drafts: Drafts = Rc::new(RefCell::new(Book::default()));
        let watch = Rc::new(Watch::new(clock));
        if clock.is_some() {
            let on = Rc::clone(&watch);
            rhai.on_progress(move |operations| {
                let late = operations % LOOK_EVERY == 0 && on.is_late();
                late.then(|| Dynamic::from(Stop::Failed(too_late())))
            });
        }
        let mut desk = Desk::new(&mut rhai);
        measured::register(&mut desk);
        recorder::register(&mut desk, &drafts);
        thing::register(&mut desk, &watch);
        compare::register(&mut desk);
        limits::register(&mut desk);
        lists::register(&mut desk);
        let handed = desk.handed();
        debug_assert!(handed.iter().all(|(name, _)| functions::is_known(name)), "a function without a line");
        Self {
            rhai,
            drafts,
            watch,
            lines: None,
            #[cfg(test)]
            handed,
        }
    }

    /// An engine that notes which lines of its scripts it runs. It takes several times as long.
    pub fn noting_lines() -> Self {
        let mut engine = Self::timed(None);
        engine.lines = Some(coverage::note(&mut engine.rhai));
        engine
    }

    /// The lines that were run since they were last asked for, from 1; none where lines are not noted.
    pub fn lines_run(&self) -> BTreeSet<usize> {
        self.lines.as_ref().map(|lines| std::mem::take(&mut *lines.borrow_mut())).unwrap_or_default()
    }

    /// Compiles a script for what it judges. What can be known of it without its rule is held against it: see
    /// [`Engine::check`] for the rest.
    pub fn compile(&self, text: &str, source: SourceId, judges: Judges) -> Result<Script, ScriptError> {
        let (script, wrong) = self.read(text, source, judges)?;
        wrong.into_iter().next().map_or(Ok(script), Err)
    }

    /// Compiles the script of a rule, and says all that is certainly wrong with it. A script that is not even readable
    /// is not there.
    pub fn check(
        &self,
        text: &str,
        source: SourceId,
        judges: Judges,
        around: &Around<'_>,
    ) -> (Option<Script>, Vec<ScriptError>) {
        self.checked(text, source, judges, around, Wanted::Verdict)
    }

    fn checked(
        &self,
        text: &str,
        source: SourceId,
        judges: Judges,
        around: &Around<'_>,
        wanted: Wanted,
    ) -> (Option<Script>, Vec<ScriptError>) {
        let (script, mut wrong) = match self.read(text, source, judges) {
            Ok(read) => read,
            Err(error) => return (None, vec![error]),
        };
        for error in check(&script.ast, judges, around, wanted) {
            if wrong.iter().all(|said| said.position != error.position) {
                wrong.push(error);
            }
        }
        wrong.sort_by_key(|error| (error.position.line(), error.position.position()));
        (Some(script), wrong)
    }

    fn read(
        &self,
        text: &str,
        source: SourceId,
        judges: Judges,
    ) -> Result<(Script, Vec<ScriptError>), ScriptError> {
        if text.len() > MOST_TEXT {
            let said = format!("the script is longer than {} KB", MOST_TEXT / 1024);
            return Err(ScriptError::new(said, Position::NONE));
        }
        let given: Vec<&str> = GIVEN.into_iter().chain(judges.variables()).collect();
        let mut scope = Scope::new();
        for name in &given {
            scope.push_constant(*name, ());
        }
        let compiled = catch_unwind(AssertUnwindSafe(|| self.rhai.compile_with_scope(&scope, text)));
        match compiled {
            Ok(Ok(ast)) => {
                let (used, wrong) = scan(&ast, text, &given);
                Ok((Script { ast, source, judges, used }, wrong))
            }
            Ok(Err(error)) => Err(unreadable(&error, given.iter().copied())),
            Err(_) => Err(ScriptError::new("the script cannot be read", Position::NONE)),
        }
    }

    /// Compiles a condition, one expression that is true or false of a subject.
    pub fn compile_condition(
        &self,
        text: &str,
        source: SourceId,
        judges: Judges,
    ) -> Result<Script, ScriptError> {
        let around = Around { limits: &[], own_fields: None };
        let (script, wrong) = self.checked(text, source, judges, &around, Wanted::YesOrNo);
        match (script, wrong.into_iter().next()) {
            (Some(script), None) => Ok(script),
            (_, Some(error)) => Err(error),
            (None, None) => Err(ScriptError::new("the condition cannot be read", Position::NONE)),
        }
    }

    /// Whether a condition holds of a subject; how it ended where it gives no answer.
    pub fn holds(&self, condition: &Script, run: &Rc<Run>, what: What) -> Result<bool, End> {
        let (answer, _) = self.run(condition, run, what, &Rc::from([]));
        match answer?.as_bool() {
            Ok(answer) => Ok(answer),
            Err(found) => Err(End::Failed {
                message: format!("the condition comes to {}, which is neither true nor false", sort(found)),
                position: Position::NONE,
            }),
        }
    }

    /// Runs a script over one subject.
    pub fn judge(&self, script: &Script, run: &Rc<Run>, what: What, limits: &Rc<[Rc<Limit>]>) -> Judgement {
        let (answer, drafts) = self.run(script, run, what, limits);
        Judgement { drafts, end: answer.err().unwrap_or(End::Done) }
    }

    /// What a script comes to, and the readings that it leaves.
    fn run(
        &self,
        script: &Script,
        run: &Rc<Run>,
        what: What,
        limits: &Rc<[Rc<Limit>]>,
    ) -> (Result<Dynamic, End>, Vec<Draft>) {
        self.drafts.borrow_mut().begin();
        self.watch.begin();
        let mut scope = Scope::new();
        scope.push_constant("build", Thing::new(run, What::Build));
        scope.push_constant("trailer", Thing::new(run, What::Trailer));
        scope.push_constant("tow", Thing::new(run, What::Tow));
        scope.push_constant("people", Thing::new(run, What::People));
        scope.push_constant("gas", Thing::new(run, What::Gas));
        scope.push_constant("electric", Thing::new(run, What::Electric));
        scope.push_constant("water", Thing::new(run, What::Water));
        scope.push_constant("quote", Thing::new(run, What::Quote));
        scope.push_constant("record", Thing::new(run, What::Record));
        scope.push_constant("limit", Limits(Rc::clone(limits)));
        for name in script.judges.variables() {
            scope.push_constant(name, Thing::new(run, what));
        }
        let ran = catch_unwind(AssertUnwindSafe(|| {
            self.rhai.eval_ast_with_scope::<Dynamic>(&mut scope, &script.ast)
        }));
        let answer = match ran {
            Ok(Ok(answer)) => Ok(answer),
            Ok(Err(error)) => Err(end_of(*error)),
            Err(_) => Err(End::Failed {
                message: "a fault inside the tool; please report it".to_owned(),
                position: Position::NONE,
            }),
        };
        (answer, self.drafts.borrow_mut().take())
    }
}

#[cfg(test)]
mod tests;
