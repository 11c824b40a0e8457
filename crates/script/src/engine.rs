//! The engine: strict, bounded, and unable to do anything but calculate and record.

use std::cell::RefCell;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::rc::Rc;

use pintle_finding::nearest;
use pintle_source::SourceId;
use rhai::packages::{ArithmeticPackage, BasicIteratorPackage, LogicPackage, Package};
use rhai::{AST, Array, Dynamic, EvalAltResult, INT, ImmutableString, Position, Scope};

use crate::judges::Judges;
use crate::measured::{Limit, Measured};
use crate::recorder::{Drafts, End, Judgement};
use crate::run::Run;
use crate::stop::{Stop, failed};
use crate::thing::{Thing, What};
use crate::{measured, recorder, thing};

/// Operations one run of a script may take. A built-in rule takes some thirty.
const MOST_OPERATIONS: u64 = 50_000;
/// Characters in a text, entries in a list or map.
const MOST_SIZE: usize = 1_000;

/// A script engine for one thread, with what its scripts record.
pub struct Engine {
    rhai: rhai::Engine,
    drafts: Drafts,
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
}

/// Why a script could not be compiled.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ScriptError {
    /// What is wrong.
    pub message: String,
    /// Where in the script.
    pub position: Position,
}

impl Default for Engine {
    fn default() -> Self {
        Self::new()
    }
}

/// A rule's limits, as a script sees them.
#[derive(Debug, Clone)]
struct Limits(Rc<[Rc<Limit>]>);

impl Engine {
    /// An engine with nothing in it but arithmetic, lists, and Pintle's own functions.
    pub fn new() -> Self {
        let mut rhai = rhai::Engine::new_raw();
        ArithmeticPackage::new().register_into_engine(&mut rhai);
        LogicPackage::new().register_into_engine(&mut rhai);
        BasicIteratorPackage::new().register_into_engine(&mut rhai);
        for symbol in ["eval", "import", "export", "print", "debug", "try", "catch", "sleep"] {
            rhai.disable_symbol(symbol);
        }
        rhai.on_print(|_| {}).on_debug(|_, _, _| {});
        rhai.set_strict_variables(true)
            .set_fail_on_invalid_map_property(true)
            .set_allow_shadowing(false)
            .set_max_operations(MOST_OPERATIONS)
            .set_max_call_levels(16)
            .set_max_expr_depths(64, 32)
            .set_max_string_size(MOST_SIZE)
            .set_max_array_size(MOST_SIZE)
            .set_max_map_size(MOST_SIZE)
            .set_max_functions(32)
            .set_max_variables(64)
            .set_optimization_level(rhai::OptimizationLevel::Simple);
        let drafts: Drafts = Rc::new(RefCell::new(Vec::new()));
        measured::register(&mut rhai);
        recorder::register(&mut rhai, &drafts);
        thing::register(&mut rhai);
        rhai.register_type_with_name::<Limits>("limits");
        rhai.register_indexer_get(|limits: &mut Limits, name: ImmutableString| limits.get(&name));
        rhai.register_fn("push", |list: &mut Array, thing: Thing| -> Result<(), Box<EvalAltResult>> {
            if list.len() >= MOST_SIZE {
                return Err(failed(format!("a list of more than {MOST_SIZE} entries")));
            }
            list.push(Dynamic::from(thing));
            Ok(())
        });
        rhai.register_fn("count", |list: Array| INT::try_from(list.len()).unwrap_or(INT::MAX));
        rhai.register_fn("contains", |list: Array, text: ImmutableString| {
            list.iter()
                .any(|held| held.clone().try_cast::<ImmutableString>().is_some_and(|held| held == text))
        });
        rhai.register_fn("listed", |list: Array| {
            let names = list.iter().filter_map(|held| held.clone().try_cast::<ImmutableString>());
            names.map(|name| format!("`{name}`")).collect::<Vec<_>>().join(", ")
        });
        Self { rhai, drafts }
    }

    /// Compiles a script for what it judges.
    pub fn compile(&self, text: &str, source: SourceId, judges: Judges) -> Result<Script, ScriptError> {
        let mut scope = Scope::new();
        for name in ["build", "trailer", "tow", "people", "limit"].into_iter().chain(judges.variables()) {
            scope.push(name, ());
        }
        let compiled = catch_unwind(AssertUnwindSafe(|| self.rhai.compile_with_scope(&scope, text)));
        match compiled {
            Ok(Ok(ast)) => Ok(Script { ast, source, judges }),
            Ok(Err(error)) => {
                let message = error.err_type().to_string();
                let first = message.chars().next().map(|c| c.to_lowercase().to_string()).unwrap_or_default();
                let rest: String = message.chars().skip(1).collect();
                Err(ScriptError { message: format!("{first}{rest}"), position: error.position() })
            }
            Err(_) => {
                Err(ScriptError { message: "the script cannot be read".to_owned(), position: Position::NONE })
            }
        }
    }

    /// Runs a script over one subject.
    pub fn judge(&self, script: &Script, run: &Rc<Run>, what: What, limits: &Rc<[Rc<Limit>]>) -> Judgement {
        self.drafts.borrow_mut().clear();
        let mut scope = Scope::new();
        scope.push("build", Thing::new(run, What::Build));
        scope.push("trailer", Thing::new(run, What::Trailer));
        scope.push("tow", Thing::new(run, What::Tow));
        scope.push("people", Thing::new(run, What::People));
        scope.push("limit", Limits(Rc::clone(limits)));
        for name in script.judges.variables() {
            scope.push(name, Thing::new(run, what));
        }
        let ran = catch_unwind(AssertUnwindSafe(|| self.rhai.run_ast_with_scope(&mut scope, &script.ast)));
        let end = match ran {
            Ok(Ok(())) => End::Done,
            Ok(Err(error)) => end_of(*error),
            Err(_) => End::Failed {
                message: "a fault inside the tool; please report it".to_owned(),
                position: Position::NONE,
            },
        };
        Judgement { drafts: std::mem::take(&mut *self.drafts.borrow_mut()), end }
    }
}

impl Limits {
    fn get(&self, name: &str) -> Result<Measured, Box<EvalAltResult>> {
        match self.0.iter().find(|limit| limit.name == name) {
            Some(limit) => {
                let figure = pintle_calc::Figure::constant(limit.value);
                Ok(Measured { figure, name: "", limit: Some(Rc::clone(limit)) })
            }
            None => Err(failed(match nearest(name, self.0.iter().map(|limit| limit.name.as_str())) {
                Some(near) => format!("the rule has no limit `{name}`; did you mean `{near}`?"),
                None => format!("the rule has no limit `{name}`"),
            })),
        }
    }
}

/// Unwraps the script language's error to its innermost cause.
fn end_of(error: EvalAltResult) -> End {
    match error {
        EvalAltResult::ErrorInFunctionCall(_, _, inner, outer) => match end_of(*inner) {
            End::Failed { message, position } if position.is_none() => {
                End::Failed { message, position: outer }
            }
            end => end,
        },
        EvalAltResult::ErrorRuntime(value, position) => {
            let thrown = value.clone();
            match value.try_cast::<Stop>() {
                Some(Stop::Missing(missing)) => End::Missing(missing),
                Some(Stop::NotApplicable(why)) => End::NotApplicable(why),
                Some(Stop::Failed(message)) => End::Failed { message, position },
                None => End::Failed { message: format!("the script threw `{}`", words(&thrown)), position },
            }
        }
        other => {
            let position = other.position();
            End::Failed { message: plain(&other), position }
        }
    }
}

fn words(value: &Dynamic) -> String {
    value
        .clone()
        .try_cast::<ImmutableString>()
        .map_or_else(|| value.type_name().to_owned(), |text| text.to_string())
}

/// An error of the script language in the words of the trade.
fn plain(error: &EvalAltResult) -> String {
    match error {
        EvalAltResult::ErrorTooManyOperations(_) => {
            format!("the script took more than {MOST_OPERATIONS} operations")
        }
        EvalAltResult::ErrorStackOverflow(_) => {
            "the script's functions call each other too deeply".to_owned()
        }
        EvalAltResult::ErrorDataTooLarge(sort, _) => {
            format!("the script made something too large: {}", sort.to_lowercase())
        }
        EvalAltResult::ErrorFunctionNotFound(signature, _) => {
            let tidy = signature.replace("&str | ImmutableString | String", "text");
            format!("there is no function {tidy}")
        }
        EvalAltResult::ErrorMismatchDataType(wanted, found, _) => {
            let found = if found.is_empty() { "something else" } else { found };
            format!("expected {wanted}, found {found}")
        }
        other => {
            let mut text = other.to_string();
            if let Some(at) = text.rfind(" (line") {
                text.truncate(at);
            }
            text
        }
    }
}
