//! Calls: what each function takes, and what it gives.

use pintle_quantity::{Dimension, Quantity};
use rhai::{Expr, FnCallExpr, Position};

use super::expressions::token;
use super::operators::Sides;
use super::types::{Of, Read, Type};
use super::{Check, Declared};
use crate::engine::ScriptError;
use crate::functions::{self, Function, Kind};

impl<'s> Check<'s> {
    /// A call, or a sign, which the language holds for one.
    pub(super) fn call(&mut self, call: &'s FnCallExpr, position: Position) -> Type {
        let sides: Vec<(Type, &'s Expr)> =
            call.args.iter().map(|side| (self.expression(side), side)).collect();
        let name = call.name.as_str();
        if let ("push", [list, entry]) = (name, call.args.as_slice()) {
            self.grow(list, entry);
        }
        if self.is_own(name) {
            return self.own_call(name, &sides);
        }
        if let Some(function) = functions::find(name) {
            return self.function_call(function, &sides, position);
        }
        match sides.as_slice() {
            [one] => self.unary(name, one, position),
            sides => self.binary(name, sides, position),
        }
    }

    /// A call after a point: what stands before the point is handed over first.
    pub(super) fn method(
        &mut self,
        held: (Type, &'s Expr),
        call: &'s FnCallExpr,
        position: Position,
    ) -> Type {
        let rest: Vec<(Type, &'s Expr)> =
            call.args.iter().map(|side| (self.expression(side), side)).collect();
        let name = call.name.as_str();
        if self.is_own(name) {
            // It is handed what stands after the name; what stands before the point is its `this`.
            self.own_call(name, &rest);
            return Type::Unknown;
        }
        let Some(function) = functions::find(name) else { return Type::Unknown };
        if matches!(held.0, Type::Map) {
            return Type::Unknown;
        }
        let sides: Vec<(Type, &'s Expr)> = std::iter::once(held).chain(rest).collect();
        self.function_call(function, &sides, position)
    }

    /// Whether a function of this name is the script's own.
    pub(super) fn is_own(&self, name: &str) -> bool {
        self.own.iter().any(|own| own.name == name)
    }

    fn own_call(&mut self, name: &str, sides: &Sides<'s>) -> Type {
        if !self.own.iter().any(|own| own.name == name && own.parameters.len() == sides.len()) {
            return Type::Unknown;
        }
        for (at, (known, _)) in sides.iter().enumerate() {
            let handed = if known.is_open() { Type::Unknown } else { known.clone() };
            self.learn(Declared::Parameter(name.to_owned(), sides.len(), at), handed);
        }
        self.known(&Declared::Result(name.to_owned(), sides.len()))
    }

    fn function_call(&mut self, function: &'static Function, sides: &Sides<'s>, position: Position) -> Type {
        if matches!(function.name, "reading" | "require" | "not_applicable" | "cannot_judge") {
            self.judges.get_or_insert(position);
        }
        let form = function.forms.iter().find(|form| {
            form.takes.len() == sides.len()
                && form.takes.iter().zip(sides).all(|(kind, (known, _))| takes(*kind, known))
        });
        let Some(form) = form else {
            self.unfit(function, sides, position);
            return Type::Unknown;
        };
        match (function.name, sides) {
            ("reading", [(Type::Quantity(dimension), _)]) => {
                Type::Reading(Some(Read { of: Of::Quantity(*dimension), compared: false }))
            }
            ("reading", _) => Type::Reading(Some(Read { of: Of::Quantity(None), compared: false })),
            ("require", _) => Type::Reading(Some(Read { of: Of::Condition, compared: true })),
            ("at_least" | "at_most" | "equals" | "between", [reading, limits @ ..]) => {
                self.compare(reading, limits, position)
            }
            ("named" | "remedy" | "marks", [reading, ..]) => match &reading.0 {
                Type::Reading(read) => Type::Reading(*read),
                _ => Type::Reading(None),
            },
            ("greater" | "lesser", [left, right]) => {
                let (one, other) = (dimension(&left.0), dimension(&right.0));
                Type::Quantity(self.alike((one, left.1), (other, right.1), position))
            }
            ("abs", [one]) => one.0.clone(),
            ("quantity", [(_, Expr::StringConstant(text, at))]) => self.quantity(text, *at),
            ("days", _) => Type::Quantity(Some(Dimension::TIME)),
            ("has", [(Type::Thing(sort), _), (_, Expr::StringConstant(name, at))]) => {
                self.ask_thing(sort, name, *at);
                Type::Flag
            }
            ("contains", [(Type::List(entry), _), (_, word)]) => {
                if let Type::Text(words) = &**entry {
                    self.known_word(words.as_deref(), word);
                }
                Type::Flag
            }
            _ => gives(form.gives),
        }
    }

    fn compare(&mut self, reading: &(Type, &'s Expr), limits: &Sides<'s>, position: Position) -> Type {
        let Type::Reading(Some(read)) = reading.0 else { return Type::Reading(None) };
        match read {
            Read { of: Of::Condition, .. } => {
                self.say(ScriptError::new("a condition takes no limit", position).label("of a `require`"));
            }
            Read { compared: true, .. } => self.say(
                ScriptError::new("a reading takes one limit", position)
                    .label("the second")
                    .help("begin another reading for the second"),
            ),
            Read { of: Of::Quantity(value), .. } => {
                for (limit, written) in limits {
                    self.alike((value, reading_of(reading.1)), (dimension(limit), written), position);
                }
            }
        }
        Type::Reading(Some(Read { compared: true, ..read }))
    }

    fn quantity(&mut self, text: &str, position: Position) -> Type {
        match Quantity::parse(text) {
            Ok(quantity) => Type::Quantity(Some(quantity.dimension())),
            Err(error) => {
                self.say(ScriptError::new(error.to_string(), position).label("not a quantity"));
                Type::Quantity(None)
            }
        }
    }

    /// Says that a function does not work on what it is handed.
    fn unfit(&mut self, function: &'static Function, sides: &Sides<'s>, position: Position) {
        let nouns: Vec<&str> = sides.iter().map(|(known, _)| known.noun()).collect();
        let name = function.name;
        let said = match nouns.as_slice() {
            [] => format!("`{name}` needs something to work on"),
            [one] => format!("`{name}` does not work on {one}"),
            [first @ .., last] => format!("`{name}` does not work on {} and {last}", first.join(", ")),
        };
        let wants_quantity = function.forms.iter().any(|form| {
            form.takes.len() == sides.len()
                && form.takes.iter().zip(sides).all(|(kind, (known, _))| {
                    takes(*kind, known)
                        || (*kind == Kind::Quantity && matches!(known, Type::Count | Type::Number))
                })
        });
        let help = if wants_quantity {
            "write the number with its unit, as in `quantity(\"3 lb\")`".to_owned()
        } else {
            format!("it works on {}", function.taken())
        };
        let mut error = ScriptError::new(said, position).label("not with these").help(help);
        for (known, written) in sides.iter().filter(|(known, _)| !known.is_open()) {
            error = error.beside(token(written), known.detailed());
        }
        self.say(error);
    }
}

/// What a reading is of, for the place to point at: of `reading(state.gross)` the gross weight.
fn reading_of(written: &Expr) -> &Expr {
    match written {
        Expr::FnCall(call, _) if call.name == "reading" => call.args.first().unwrap_or(written),
        _ => written,
    }
}

fn dimension(known: &Type) -> Option<Dimension> {
    match known {
        Type::Quantity(dimension) => *dimension,
        _ => None,
    }
}

fn takes(kind: Kind, known: &Type) -> bool {
    known.is_open()
        || match kind {
            Kind::Quantity => matches!(known, Type::Quantity(_)),
            Kind::Flag => matches!(known, Type::Flag),
            Kind::Count => matches!(known, Type::Count),
            Kind::Number => matches!(known, Type::Number),
            Kind::Text => matches!(known, Type::Text(_)),
            Kind::List => matches!(known, Type::List(_)),
            Kind::Thing => matches!(known, Type::Thing(_)),
            Kind::Reading => matches!(known, Type::Reading(_)),
            Kind::Range => matches!(known, Type::Range),
            Kind::Nothing => matches!(known, Type::Nothing),
        }
}

fn gives(kind: Kind) -> Type {
    match kind {
        Kind::Quantity => Type::Quantity(None),
        Kind::Flag => Type::Flag,
        Kind::Count => Type::Count,
        Kind::Number => Type::Number,
        Kind::Text => Type::text(),
        Kind::Range => Type::Range,
        Kind::Reading => Type::Reading(None),
        Kind::Nothing => Type::Nothing,
        Kind::List | Kind::Thing => Type::Unknown,
    }
}
