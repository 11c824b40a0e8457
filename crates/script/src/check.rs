//! What is certainly wrong with a script, said before it runs: a walk over its syntax tree that knows what each thing can
//! be asked for, what each figure measures and what each function takes.
//!
//! Only what is certain is said. Where a value may be this or that, nothing is said of it, and the run decides: no sound
//! script is refused. A variable is whatever it is ever given; a function's parameter is whatever it is ever handed.

mod calls;
mod expressions;
mod operators;
mod statements;
mod things;
mod types;

use std::collections::BTreeMap;

use pintle_quantity::Dimension;
use pintle_spec::OwnField;
use rhai::{AST, ASTNode, Position, Stmt};

use crate::engine::{GIVEN, ScriptError};
use crate::judges::Judges;

pub(crate) use things::{Sort, with_article};
pub(crate) use types::Type;

/// What stands around a script.
#[derive(Debug, Clone, Copy)]
pub struct Around<'a> {
    /// The limits of its rule, each with what it measures where its value can be read.
    pub limits: &'a [(String, Option<Dimension>)],
    /// The fields of the shop's own that parts may have, where they are known.
    pub own_fields: Option<&'a [OwnField]>,
}

/// What a script is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Wanted {
    /// Readings, or a word on why there are none.
    Verdict,
    /// One expression that is true or false.
    YesOrNo,
}

/// Walks over a script before what is known of its variables must be settled. Each walk learns what the one before it
/// could not know; scripts need two or three.
const MOST_WALKS: usize = 8;

/// A variable in sight: its name, and where it was declared; none for what is given to the rule.
#[derive(Debug, Clone)]
struct Held {
    name: String,
    declared: Declared,
}

/// What a variable is held under.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
enum Declared {
    /// A name that is given to the rule.
    Given(String),
    /// Declared at a line and column.
    At(usize, usize),
    /// The parameter of a function of so many.
    Parameter(String, usize, usize),
    /// What a function of so many parameters gives.
    Result(String, usize),
}

/// A function of the script's own.
#[derive(Debug)]
struct Own {
    name: String,
    parameters: Vec<String>,
    body: Vec<Stmt>,
}

/// A walk over one script.
#[derive(Debug)]
struct Check<'s> {
    around: &'s Around<'s>,
    /// The script's own functions.
    own: &'s [Own],
    /// What each variable, parameter and result may be.
    known: BTreeMap<Declared, Type>,
    /// The variables in sight, innermost last.
    sight: Vec<Held>,
    /// The function that is walked over, if one is.
    within: Option<(String, usize)>,
    wrong: Vec<ScriptError>,
    /// Whether this walk learnt something new of a variable.
    learnt: bool,
    /// Where the script first calls something that leads to a verdict.
    judges: Option<Position>,
    /// What the script as a whole comes to.
    answer: Type,
}

/// All that is certainly wrong with a script, in its order.
pub(crate) fn check(ast: &AST, judges: Judges, around: &Around<'_>, wanted: Wanted) -> Vec<ScriptError> {
    let own = own_functions(ast);
    let mut check = Check {
        around,
        own: &own,
        known: given(judges),
        sight: Vec::new(),
        within: None,
        wrong: Vec::new(),
        learnt: false,
        judges: None,
        answer: Type::Nothing,
    };
    for _ in 0..MOST_WALKS {
        check.walk(ast);
        if !check.learnt {
            return check.in_order(ast, wanted);
        }
    }
    // What is not settled by now may be anything.
    for (declared, known) in &mut check.known {
        if !matches!(declared, Declared::Given(_)) {
            *known = Type::Unknown;
        }
    }
    check.walk(ast);
    check.in_order(ast, wanted)
}

/// The language shows the body of a function to a walk only: the statements that stand in nothing else, and between the
/// braces of the function.
fn own_functions(ast: &AST) -> Vec<Own> {
    let mut statements: Vec<Stmt> = Vec::new();
    ast.walk(&mut |path: &[ASTNode]| {
        if let [ASTNode::Stmt(statement)] = path {
            statements.push(Stmt::clone(statement));
        }
        true
    });
    let functions = ast.iter_fn_def().map(|function| {
        let (from, to) = (function.body.start_position(), function.body.end_position());
        let within = |statement: &&Stmt| {
            let at = statement.position();
            !at.is_none() && from <= at && at <= to
        };
        Own {
            name: function.name.to_string(),
            parameters: function.params.iter().map(ToString::to_string).collect(),
            body: statements.iter().filter(within).cloned().collect(),
        }
    });
    functions.collect()
}

fn given(judges: Judges) -> BTreeMap<Declared, Type> {
    let whole = GIVEN.iter().map(|name| match *name {
        "limit" => ("limit", Type::Limits),
        name => (name, Type::Thing(Sort::Given(name))),
    });
    let subject = judges
        .variables()
        .into_iter()
        .map(|name| (name, Sort::of_variable(judges, name).map_or(Type::Unknown, Type::Thing)));
    whole.chain(subject).map(|(name, known)| (Declared::Given(name.to_owned()), known)).collect()
}

impl<'s> Check<'s> {
    fn walk(&mut self, ast: &'s AST) {
        self.wrong.clear();
        self.learnt = false;
        let given = self.known.keys().filter_map(|declared| match declared {
            Declared::Given(name) => Some(Held { name: name.clone(), declared: declared.clone() }),
            _ => None,
        });
        self.sight = given.collect();
        self.answer = self.block(ast.statements(), false);
        for function in self.own {
            self.function(function);
        }
    }

    fn in_order(mut self, ast: &AST, wanted: Wanted) -> Vec<ScriptError> {
        let first = ast.statements().first().map_or(Position::NONE, Stmt::position);
        match (wanted, self.judges) {
            (Wanted::Verdict, None) => self.wrong.push(
                ScriptError::new("it takes no reading and never says why not", first)
                    .label("nothing here comes to a verdict")
                    .help("end with a `reading(…)` or a `require(…)`, or say `not_applicable(…)`"),
            ),
            (Wanted::YesOrNo, Some(position)) => self
                .wrong
                .push(ScriptError::new("a condition takes no reading; it is true or false", position)),
            (Wanted::YesOrNo, None) if !self.answer.is_open() && self.answer != Type::Flag => {
                let said = format!("it comes to {}, which is neither true nor false", self.answer.detailed());
                self.wrong.push(ScriptError::new(said, first));
            }
            _ => {}
        }
        self.wrong.sort_by_key(|error| (error.position.line(), error.position.position()));
        self.wrong.dedup();
        self.wrong
    }

    /// Says that something is wrong.
    fn say(&mut self, error: ScriptError) {
        self.wrong.push(error);
    }

    /// A variable comes in sight.
    fn declare(&mut self, name: &str, position: Position, known: Type) {
        let declared =
            Declared::At(position.line().unwrap_or_default(), position.position().unwrap_or_default());
        self.learn(declared.clone(), known);
        self.sight.push(Held { name: name.to_owned(), declared });
    }

    /// A variable, parameter or result may be this too.
    fn learn(&mut self, declared: Declared, known: Type) {
        let before = self.known.get(&declared).cloned().unwrap_or(Type::Never);
        let now = before.clone().or(known);
        if now != before {
            self.learnt = true;
            self.known.insert(declared, now);
        }
    }

    /// The variable of a name that is in sight.
    fn find(&self, name: &str) -> Option<Declared> {
        self.sight.iter().rev().find(|held| held.name == name).map(|held| held.declared.clone())
    }

    fn known(&self, declared: &Declared) -> Type {
        self.known.get(declared).cloned().unwrap_or(Type::Never)
    }
}
