//! What can be said of a script before it runs: the names it uses, and the names it must not take.

use std::collections::BTreeSet;

use rhai::{AST, ASTNode, Expr, FnCallExpr, Position, Stmt};

use crate::engine::ScriptError;
use crate::functions;
use crate::words::unknown_function;

/// What a script asks one of the things given to it for.
#[derive(Debug, Clone, Default)]
pub(crate) struct Asked {
    /// Each `thing.name`, at its place.
    pub(crate) named: Vec<(String, Position)>,
    /// Whether it handles the thing in some other way, so that the list may not be all.
    pub(crate) otherwise: bool,
    mentions: usize,
}

impl Asked {
    fn mention(&mut self, name: &str, thing: &str) {
        self.mentions += usize::from(name == thing);
    }

    fn close(&mut self) {
        self.otherwise = self.mentions != self.named.len();
    }
}

/// What a script asks for.
#[derive(Debug, Clone, Default)]
pub(crate) struct Used {
    /// Of `limit`.
    pub(crate) limit: Asked,
    /// Of `state`.
    pub(crate) state: Asked,
}

/// Looks a compiled script over: it must not take a name that is the host's, nor call what there is not.
///
/// Gives what it uses, and all that is wrong.
pub(crate) fn scan(ast: &AST, text: &str, given: &[&str]) -> (Used, Vec<ScriptError>) {
    let own: BTreeSet<String> = ast.iter_functions().map(|function| function.name.to_owned()).collect();
    let taken_names = own.iter().filter(|name| functions::find(name).is_some());
    let mut wrong: Vec<ScriptError> = taken_names
        .map(|taken| {
            let said = format!("`{taken}` is the tool's own function; call this one something else");
            ScriptError::new(said, definition(text, taken))
        })
        .collect();
    let mut used = Used::default();
    ast.walk(&mut |path: &[ASTNode]| {
        let found = match path.last() {
            Some(ASTNode::Stmt(statement)) => match statement {
                Stmt::Var(held, ..) => taken(&held.0.name, given, held.0.pos),
                Stmt::For(held, ..) => {
                    let second = held.1.as_ref().and_then(|ident| taken(&ident.name, given, ident.pos));
                    taken(&held.0.name, given, held.0.pos).or(second)
                }
                Stmt::FnCall(call, position) => unknown(call, &own, *position),
                _ => None,
            },
            Some(ASTNode::Expr(expression)) => match expression {
                Expr::FnCall(call, position) | Expr::MethodCall(call, position) => {
                    unknown(call, &own, *position)
                }
                Expr::Variable(held, _, _) => {
                    used.limit.mention(held.1.as_str(), "limit");
                    used.state.mention(held.1.as_str(), "state");
                    None
                }
                Expr::Dot(pair, _, _) => {
                    used.limit.named.extend(asked_of("limit", &pair.lhs, &pair.rhs));
                    used.state.named.extend(asked_of("state", &pair.lhs, &pair.rhs));
                    None
                }
                _ => None,
            },
            _ => None,
        };
        wrong.extend(found);
        true
    });
    used.limit.close();
    used.state.close();
    (used, wrong)
}

fn taken(name: &str, given: &[&str], position: Position) -> Option<ScriptError> {
    given.contains(&name).then(|| {
        ScriptError::new(format!("`{name}` is given to the rule; call this one something else"), position)
    })
}

fn unknown(call: &FnCallExpr, own: &BTreeSet<String>, position: Position) -> Option<ScriptError> {
    let name = call.name.as_str();
    let known = call.op_token.is_some()
        || !name.starts_with(|first: char| first.is_alphabetic() || first == '_')
        || functions::find(name).is_some()
        || own.contains(name);
    (!known).then(|| unknown_function(name, own.iter().map(String::as_str), position))
}

/// What `thing.name` asks for, alone or at the head of a chain such as `limit.name.to_string()`.
fn asked_of(thing: &str, lhs: &Expr, rhs: &Expr) -> Option<(String, Position)> {
    let Expr::Variable(held, _, _) = lhs else { return None };
    if held.1.as_str() != thing {
        return None;
    }
    match rhs {
        Expr::Property(property, position) => Some((property.2.to_string(), *position)),
        Expr::Dot(pair, _, _) | Expr::Index(pair, _, _) => match &pair.lhs {
            Expr::Property(property, position) => Some((property.2.to_string(), *position)),
            _ => None,
        },
        _ => None,
    }
}

/// Where a script defines a function.
fn definition(text: &str, name: &str) -> Position {
    for (line, written) in (1_u16..).zip(text.lines()) {
        let begins = written.trim_start();
        let rest = begins.strip_prefix("private ").unwrap_or(begins).trim_start();
        let defined = rest.strip_prefix("fn ").map(str::trim_start);
        if defined.is_some_and(|after| {
            after.strip_prefix(name).is_some_and(|after| after.trim_start().starts_with('('))
        }) {
            let column = written.chars().take_while(|letter| letter.is_whitespace()).count() + 1;
            return Position::new(line, u16::try_from(column).unwrap_or(u16::MAX));
        }
    }
    Position::NONE
}
