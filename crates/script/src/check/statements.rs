//! Statements: what comes in sight, what is set, and what is never reached.

use rhai::{ASTFlags, Expr, FlowControl, Position, Stmt};

use super::types::{Of, Read, Type};
use super::{Check, Declared, Held, Own};
use crate::engine::ScriptError;

impl<'s> Check<'s> {
    /// A function of the script's own: it sees what it is handed, and nothing else.
    pub(super) fn function(&mut self, function: &'s Own) {
        let (name, count) = (function.name.clone(), function.parameters.len());
        let handed = function.parameters.iter().enumerate().map(|(at, parameter)| Held {
            name: parameter.clone(),
            declared: Declared::Parameter(name.clone(), count, at),
        });
        self.sight = handed.collect();
        self.within = Some((name.clone(), count));
        let given = self.block(&function.body, true);
        self.learn(Declared::Result(name, count), given);
        self.within = None;
    }

    /// Statements in a block of their own, and what the last one comes to. Whether that is of use to anybody decides
    /// whether a reading may be left there without a comparison.
    pub(super) fn block(&mut self, statements: &'s [Stmt], used: bool) -> Type {
        let outer = self.sight.len();
        let mut last = Type::Nothing;
        let mut ended = false;
        for (at, statement) in statements.iter().enumerate() {
            if ended && !statement.is_noop() {
                self.say(
                    ScriptError::new("this is never reached", begins(statement))
                        .label("what stands before it ends the script, the function or the loop"),
                );
                break;
            }
            last = self.statement(statement, used && at + 1 == statements.len());
            ended = ended || ends(statement);
        }
        self.sight.truncate(outer);
        last
    }

    fn statement(&mut self, statement: &'s Stmt, used: bool) -> Type {
        match statement {
            Stmt::If(flow, _) => return self.either(flow, used),
            Stmt::While(flow, _) | Stmt::Do(flow, ..) => {
                if !matches!(flow.expr, Expr::Unit(_)) {
                    self.condition(&flow.expr);
                }
                self.block(flow.body.statements(), false);
            }
            Stmt::For(held, _) => {
                let (name, counter, flow) = &**held;
                let list = self.expression(&flow.expr);
                let entry = self.entry(&list, &flow.expr);
                let outer = self.sight.len();
                self.declare(&name.name, name.pos, entry);
                if let Some(counter) = counter {
                    self.declare(&counter.name, counter.pos, Type::Count);
                }
                self.block(flow.body.statements(), false);
                self.sight.truncate(outer);
            }
            Stmt::Var(held, ..) => {
                let (name, value, _) = &**held;
                let value = self.expression(value);
                self.declare(&name.name, name.pos, value);
            }
            Stmt::Assignment(held) => {
                let (sign, pair) = &**held;
                self.assign(sign, &pair.lhs, &pair.rhs);
            }
            Stmt::FnCall(call, position) => {
                let given = self.call(call, *position);
                self.left(&given, used, *position);
                return given;
            }
            Stmt::Block(block) => return self.block(block.statements(), used),
            Stmt::Expr(expression) => {
                let given = self.expression(expression);
                self.left(
                    &given,
                    used || matches!(**expression, Expr::Variable(..)),
                    expression.start_position(),
                );
                return given;
            }
            Stmt::Return(value, flags, _) => {
                let given = value.as_ref().map_or(Type::Nothing, |value| self.expression(value));
                if let (false, Some((name, count))) = (flags.contains(ASTFlags::BREAK), self.within.clone()) {
                    self.learn(Declared::Result(name, count), given);
                }
                return Type::Never;
            }
            Stmt::BreakLoop(Some(value), ..) => {
                self.expression(value);
            }
            _ => return Type::Nothing,
        }
        Type::Unknown
    }

    fn either(&mut self, flow: &'s FlowControl, used: bool) -> Type {
        self.condition(&flow.expr);
        let one = self.block(flow.body.statements(), used);
        let other = self.block(flow.branch.statements(), used);
        if flow.branch.is_empty() { Type::Unknown } else { one.or(other) }
    }

    /// A condition must be a yes or no.
    pub(super) fn condition(&mut self, condition: &'s Expr) {
        let known = self.expression(condition);
        if !known.is_open() && known != Type::Flag {
            self.say(
                ScriptError::new(
                    format!("a condition is a yes or no, and this is {}", known.detailed()),
                    super::expressions::token(condition),
                )
                .label(known.detailed()),
            );
        }
    }

    /// What a `for` goes through, one by one.
    fn entry(&mut self, list: &Type, written: &'s Expr) -> Type {
        match list {
            Type::List(entry) => (**entry).clone(),
            Type::Flag | Type::Quantity(_) | Type::Thing(_) | Type::Reading(_) | Type::Limits => {
                self.say(
                    ScriptError::new(
                        format!("{} cannot be gone through one by one", list.detailed()),
                        super::expressions::token(written),
                    )
                    .label("not a list"),
                );
                Type::Unknown
            }
            _ => Type::Unknown,
        }
    }

    /// A reading that is left as a statement has been compared, or else comes to nothing.
    fn left(&mut self, given: &Type, used: bool, position: Position) {
        if let (false, Type::Reading(Some(Read { of: Of::Quantity(_), compared: false }))) = (used, given) {
            self.say(
                ScriptError::new("this reading is compared with nothing", position)
                    .label("a reading without a limit")
                    .help("compare it, as in `.at_most(limit.most)`"),
            );
        }
    }
}

/// The place that tells most of a statement.
fn begins(statement: &Stmt) -> Position {
    match statement {
        Stmt::Expr(expression) => super::expressions::token(expression),
        other => other.position(),
    }
}

/// Whether nothing after a statement is reached.
fn ends(statement: &Stmt) -> bool {
    let stops = |call: &rhai::FnCallExpr| matches!(call.name.as_str(), "not_applicable" | "cannot_judge");
    let all = |statements: &[Stmt]| statements.iter().any(ends);
    match statement {
        Stmt::Return(..) | Stmt::BreakLoop(..) => true,
        Stmt::FnCall(call, _) => stops(call),
        Stmt::Expr(expression) => matches!(&**expression, Expr::FnCall(call, _) if stops(call)),
        Stmt::Block(block) => all(block.statements()),
        Stmt::If(flow, _) => all(flow.body.statements()) && all(flow.branch.statements()),
        _ => false,
    }
}
