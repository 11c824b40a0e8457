//! Expressions: names, chains of questions, lists, and what is set.

use rhai::{ASTFlags, Expr, FnCallExpr, OpAssignment, Position};

use super::things::{Sort, Unheard};
use super::types::Type;
use super::{Check, Declared};
use crate::engine::ScriptError;

/// How the next element of a chain is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Step {
    /// `.name` or `.call(…)`.
    Point,
    /// `[…]`.
    Index,
}

impl<'s> Check<'s> {
    /// What an expression comes to.
    pub(super) fn expression(&mut self, expression: &'s Expr) -> Type {
        match expression {
            Expr::BoolConstant(..) => Type::Flag,
            Expr::IntegerConstant(..) => Type::Count,
            Expr::FloatConstant(..) => Type::Number,
            Expr::CharConstant(..) => Type::Letter,
            Expr::StringConstant(..) => Type::text(),
            Expr::Unit(_) => Type::Nothing,
            Expr::InterpolatedString(parts, _) => {
                for part in parts {
                    self.expression(part);
                }
                Type::text()
            }
            Expr::Array(entries, _) => {
                let mut all = Type::Never;
                for entry in entries {
                    all = all.or(self.expression(entry));
                }
                all.list()
            }
            Expr::Map(held, _) => {
                for (_, value) in &held.0 {
                    self.expression(value);
                }
                Type::Map
            }
            Expr::Variable(held, _, position) => self.variable(&held.1, *position),
            Expr::Stmt(block) => self.block(block.statements(), true),
            Expr::FnCall(call, position) => self.call(call, *position),
            Expr::Dot(..) | Expr::Index(..) => self.whole_chain(expression, false),
            Expr::And(parts, _) | Expr::Or(parts, _) => {
                for part in &**parts {
                    self.condition(part);
                }
                Type::Flag
            }
            Expr::Coalesce(parts, _) => {
                let mut all = Type::Never;
                for part in &**parts {
                    all = all.or(self.expression(part));
                }
                all
            }
            _ => Type::Unknown,
        }
    }

    fn variable(&mut self, name: &str, position: Position) -> Type {
        match self.find(name) {
            Some(declared) => self.known(&declared),
            None if self.within.is_some() => {
                self.say(
                    ScriptError::new(format!("there is no variable `{name}` here"), position)
                        .label("not known in here")
                        .help("a function works with what it is handed: hand it over"),
                );
                Type::Unknown
            }
            None => Type::Unknown,
        }
    }

    /// A chain such as `trailer.axle.gawr` or `item["space/lift_share"]`. Where its last element is to be set, it comes
    /// to what holds that element.
    fn whole_chain(&mut self, chain: &'s Expr, set: bool) -> Type {
        let (pair, flags, step) = match chain {
            Expr::Dot(pair, flags, _) => (pair, *flags, Step::Point),
            Expr::Index(pair, flags, _) => (pair, *flags, Step::Index),
            _ => return Type::Unknown,
        };
        let root = self.expression(&pair.lhs);
        self.note_changes(&pair.lhs, &pair.rhs);
        self.rest((root, &pair.lhs), &pair.rhs, step, flags, set)
    }

    fn rest(
        &mut self,
        held: (Type, &'s Expr),
        rest: &'s Expr,
        step: Step,
        flags: ASTFlags,
        set: bool,
    ) -> Type {
        let goes_on = step == Step::Point || !flags.contains(ASTFlags::BREAK);
        let next = match rest {
            Expr::Dot(pair, flags, _) if goes_on => Some((pair, *flags, Step::Point)),
            Expr::Index(pair, flags, _) if goes_on => Some((pair, *flags, Step::Index)),
            _ => None,
        };
        let Some((pair, flags, next)) = next else {
            if set {
                if step == Step::Index {
                    self.expression(rest);
                }
                return held.0;
            }
            return self.element(held, rest, step);
        };
        let known = self.element(held, &pair.lhs, step);
        self.rest((known, &pair.lhs), &pair.rhs, next, flags, set)
    }

    /// One element of a chain.
    fn element(&mut self, (held, written): (Type, &'s Expr), element: &'s Expr, step: Step) -> Type {
        match (step, element) {
            (Step::Point, Expr::Property(property, position)) => {
                self.ask(&held, written, &property.2, *position)
            }
            (Step::Point, Expr::MethodCall(call, position)) => self.method((held, written), call, *position),
            (Step::Point, _) => Type::Unknown,
            (Step::Index, index) => {
                let by = self.expression(index);
                self.index(&held, written, index, &by)
            }
        }
    }

    fn index(&mut self, held: &Type, written: &'s Expr, index: &'s Expr, by: &Type) -> Type {
        match (held, index) {
            (Type::Thing(_) | Type::Limits, Expr::StringConstant(name, position)) => {
                if let (Type::Limits, None) = (held, self.limit(name)) {
                    self.no_limit(name, *position);
                    return Type::Unknown;
                }
                return self.ask(held, written, name, *position);
            }
            (Type::List(entry), _) if by.is_open() || matches!(by, Type::Count) => return (**entry).clone(),
            (Type::List(_), _) if matches!(by, Type::Range) => return Type::Unknown,
            (Type::Thing(_) | Type::Limits, _) if !by.is_open() && !matches!(by, Type::Text(_)) => {}
            (Type::Flag | Type::Quantity(_) | Type::Reading(_) | Type::List(_), _) => {}
            _ => return Type::Unknown,
        }
        self.say(
            ScriptError::new(
                format!("{} cannot be looked into by {}", held.detailed(), by.detailed()),
                token(index),
            )
            .label("not a way in"),
        );
        Type::Unknown
    }

    /// A question by name.
    fn ask(&mut self, held: &Type, written: &'s Expr, name: &str, position: Position) -> Type {
        match held {
            Type::Thing(sort) => self.ask_thing(sort, name, position),
            Type::Limits => self.limit(name).unwrap_or_else(|| {
                // `limit.name` itself is held against the rule's limits where those are read.
                if !is_variable(written, "limit") {
                    self.no_limit(name, position);
                }
                Type::Unknown
            }),
            Type::Flag | Type::Quantity(_) | Type::Reading(_) | Type::List(_) => {
                self.say(
                    ScriptError::new(
                        format!("{} has nothing that can be asked by name", held.detailed()),
                        position,
                    )
                    .label(format!("asked of {}", held.detailed())),
                );
                Type::Unknown
            }
            _ => Type::Unknown,
        }
    }

    /// A question to a thing of the build.
    pub(super) fn ask_thing(&mut self, sort: &Sort, name: &str, position: Position) -> Type {
        match sort.ask(name, self.around.own_fields) {
            Ok(known) => known,
            Err(unheard) => {
                self.unheard(unheard, position);
                Type::Unknown
            }
        }
    }

    /// Says that there is no such name.
    fn unheard(&mut self, unheard: Unheard, position: Position) {
        self.say(ScriptError::new(unheard.message, position).label("no such name").help(unheard.help));
    }

    /// The limit of a name, and what it measures, where its value can be read.
    fn limit(&self, name: &str) -> Option<Type> {
        let limit = self.around.limits.iter().find(|(known, _)| known == name);
        limit.map(|(_, dimension)| Type::Quantity(*dimension))
    }

    fn no_limit(&mut self, name: &str, position: Position) {
        let known = self.around.limits.iter().map(|(known, _)| known.as_str());
        let help = match pintle_finding::nearest(name, known) {
            Some(near) => format!("did you mean `{near}`?"),
            None => format!("state it as `[limit.{name}]`, with its value and basis"),
        };
        self.say(
            ScriptError::new(format!("the rule has no limit `{name}`"), position)
                .label("no such limit")
                .help(help),
        );
    }

    /// `left = right`, or `left += right` and its like.
    pub(super) fn assign(&mut self, sign: &'s OpAssignment, left: &'s Expr, right: &'s Expr) {
        let mut given = self.expression(right);
        let variable = match left {
            Expr::Variable(held, _, position) => Some((self.find(&held.1), held.1.as_str(), *position)),
            _ => None,
        };
        if let Some((Some(Declared::Given(name)), _, position)) = variable {
            let said = format!("`{name}` is given to the rule and cannot be changed by it");
            self.say(ScriptError::new(said, position).label("given to the rule"));
            return;
        }
        if let Some((.., operator)) = sign.get_op_assignment_info() {
            let before = self.expression(left);
            let both = [(before, left), (given, right)];
            given = self.binary(operator, &both, sign.position());
        }
        match variable {
            Some((Some(declared), ..)) => return self.learn(declared, given),
            Some((None, name, position)) => {
                self.variable(name, position);
                return;
            }
            None => {}
        }
        let held = self.whole_chain(left, true);
        if matches!(held, Type::Thing(_) | Type::Limits) {
            self.say(
                ScriptError::new("what is given to a rule cannot be changed by it", token(left))
                    .label("given to the rule"),
            );
        } else {
            self.open(root(left));
        }
    }

    /// What a chain may do to the variable that it begins with: add to it, or change it in a way that is not followed.
    fn note_changes(&mut self, variable: &'s Expr, rest: &'s Expr) {
        let own = |call: &FnCallExpr| self.is_own(&call.name);
        match rest {
            Expr::MethodCall(call, _) if call.name == "push" => {
                if let [entry] = call.args.as_slice() {
                    self.grow(variable, entry);
                }
            }
            _ if calls_in(rest).into_iter().any(|call| call.name == "push" || own(call)) => {
                self.open(Some(variable));
            }
            _ => {}
        }
    }

    /// A list gets one more entry.
    pub(super) fn grow(&mut self, list: &'s Expr, entry: &'s Expr) {
        let Expr::Variable(held, ..) = list else {
            self.open(root(list));
            return;
        };
        let entry = self.quietly(|check| check.expression(entry));
        if let Some(declared) = self.find(&held.1)
            && matches!(self.known(&declared), Type::List(_))
        {
            self.learn(declared, entry.list());
        }
    }

    /// Nothing more is known of a variable.
    pub(super) fn open(&mut self, variable: Option<&'s Expr>) {
        let Some(Expr::Variable(held, ..)) = variable else { return };
        match self.find(&held.1) {
            None | Some(Declared::Given(_)) => {}
            Some(declared) => self.learn(declared, Type::Unknown),
        }
    }

    /// What something comes to, without saying what is wrong with it: that is said elsewhere.
    fn quietly(&mut self, ask: impl FnOnce(&mut Self) -> Type) -> Type {
        let said = self.wrong.len();
        let known = ask(self);
        self.wrong.truncate(said);
        known
    }
}

/// The calls among the elements of a chain.
fn calls_in(chain: &Expr) -> Vec<&FnCallExpr> {
    match chain {
        Expr::MethodCall(call, _) => vec![call],
        Expr::Dot(pair, ..) | Expr::Index(pair, ..) => {
            let mut calls = calls_in(&pair.lhs);
            calls.extend(calls_in(&pair.rhs));
            calls
        }
        _ => Vec::new(),
    }
}

/// What a chain begins with.
fn root(chain: &Expr) -> Option<&Expr> {
    match chain {
        Expr::Dot(pair, ..) | Expr::Index(pair, ..) => root(&pair.lhs),
        other => Some(other),
    }
}

fn is_variable(expression: &Expr, name: &str) -> bool {
    matches!(expression, Expr::Variable(held, ..) if held.1.as_str() == name)
}

/// The place that tells most of an expression: of a chain its last name.
pub(super) fn token(expression: &Expr) -> Position {
    match expression {
        Expr::Dot(pair, ..) => token(&pair.rhs),
        Expr::Index(pair, ..) => match token(&pair.rhs) {
            position if position.is_none() => pair.lhs.start_position(),
            position => position,
        },
        Expr::Property(_, position) | Expr::MethodCall(_, position) | Expr::FnCall(_, position) => *position,
        other => other.start_position(),
    }
}
