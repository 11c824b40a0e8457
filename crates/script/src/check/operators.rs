//! Signs: what can be added, compared and turned round.

use pintle_quantity::{Dimension, DimensionMismatch};
use rhai::{Expr, Position};

use super::Check;
use super::expressions::token;
use super::types::Type;
use crate::engine::ScriptError;

/// What stands on either side of a sign, or is handed to a function: what it is, and how it is written.
pub(super) type Sides<'s> = [(Type, &'s Expr)];

impl<'s> Check<'s> {
    /// What a sign between two values comes to.
    pub(super) fn binary(&mut self, sign: &str, sides: &Sides<'s>, position: Position) -> Type {
        let [left, right] = sides else { return Type::Unknown };
        match sign {
            "==" | "!=" | "<" | "<=" | ">" | ">=" => {
                self.compared(sign, left, right, position);
                Type::Flag
            }
            "+" | "-" | "*" | "/" | "%" | "**" => self.reckoned(sign, left, right, position),
            ".." | "..=" => Type::Range,
            _ => Type::Unknown,
        }
    }

    fn compared(
        &mut self,
        sign: &str,
        left: &(Type, &'s Expr),
        right: &(Type, &'s Expr),
        position: Position,
    ) {
        use Type::{Count, Flag, Number, Quantity, Text, Thing};
        let equal = matches!(sign, "==" | "!=");
        match (&left.0, &right.0) {
            (Quantity(one), Quantity(other)) => {
                self.alike((*one, left.1), (*other, right.1), position);
            }
            (Text(words), Text(_)) if equal => {
                self.known_word(words.as_deref(), right.1);
                if let Text(words) = &right.0 {
                    self.known_word(words.as_deref(), left.1);
                }
            }
            (Flag, Flag) | (Thing(_), Thing(_)) if equal => {}
            (Count, Count) | (Number, Number) => {}
            (one, other) if certain(one) && certain(other) => {
                let said = if std::mem::discriminant(one) == std::mem::discriminant(other) {
                    format!("`{sign}` does not compare {} with {}", one.noun(), other.noun())
                } else {
                    format!("{} and {} cannot be compared", one.noun(), other.noun())
                };
                let mut error = ScriptError::new(said, position).label("not like with like");
                if with_number(one, other) {
                    error = error.help("write the number with its unit, as in `quantity(\"3 lb\")`");
                }
                self.say(
                    error.beside(token(left.1), one.detailed()).beside(token(right.1), other.detailed()),
                );
            }
            _ => {}
        }
    }

    fn reckoned(
        &mut self,
        sign: &str,
        left: &(Type, &'s Expr),
        right: &(Type, &'s Expr),
        position: Position,
    ) -> Type {
        use Type::{Count, Flag, Limits, Number, Quantity, Reading, Thing};
        match (&left.0, sign, &right.0) {
            (Quantity(one), "+" | "-", Quantity(other)) => {
                Quantity(self.alike((*one, left.1), (*other, right.1), position))
            }
            (Quantity(one), "*", Quantity(other)) => {
                Quantity(one.zip(*other).map(|(one, other)| one.times(other)))
            }
            (Quantity(one), "/", Quantity(other)) => {
                Quantity(one.zip(*other).map(|(one, other)| one.over(other)))
            }
            (Quantity(one), "*" | "/", Count | Number) | (Count | Number, "*", Quantity(one)) => {
                Quantity(*one)
            }
            (Count, _, Count) => Type::Unknown,
            (Count | Number, _, Count | Number) => Number,
            (one, _, other)
                if [one, other].into_iter().all(|known| {
                    matches!(known, Quantity(_) | Count | Number | Flag | Thing(_) | Reading(_) | Limits)
                }) =>
            {
                let said = format!("`{sign}` does not work on {} and {}", one.noun(), other.noun());
                let mut error = ScriptError::new(said, position).label("cannot be reckoned");
                if with_number(one, other) {
                    error = error.help("write the number with its unit, as in `quantity(\"3 lb\")`");
                }
                self.say(
                    error.beside(token(left.1), one.detailed()).beside(token(right.1), other.detailed()),
                );
                one.clone()
            }
            _ => Type::Unknown,
        }
    }

    /// A sign before one value.
    pub(super) fn unary(&mut self, sign: &str, of: &(Type, &'s Expr), position: Position) -> Type {
        let fits = match sign {
            "!" => matches!(of.0, Type::Flag),
            "-" | "+" => matches!(of.0, Type::Quantity(_) | Type::Count | Type::Number),
            _ => return Type::Unknown,
        };
        if of.0.is_open() || matches!(of.0, Type::Letter | Type::Map | Type::Range | Type::Nothing) {
            return if sign == "!" { Type::Flag } else { Type::Unknown };
        }
        if fits && !(sign == "+" && matches!(of.0, Type::Quantity(_))) {
            return of.0.clone();
        }
        if !fits {
            let said = format!("`{sign}` does not work on {}", of.0.noun());
            self.say(ScriptError::new(said, position).label("here").beside(token(of.1), of.0.detailed()));
            return of.0.clone();
        }
        Type::Unknown
    }

    /// Two quantities that are added or compared measure the same.
    pub(super) fn alike(
        &mut self,
        (one, left): (Option<Dimension>, &'s Expr),
        (other, right): (Option<Dimension>, &'s Expr),
        position: Position,
    ) -> Option<Dimension> {
        let (Some(left_of), Some(right_of)) = (one, other) else { return one.or(other) };
        if left_of == right_of {
            return one;
        }
        let said = DimensionMismatch { left: left_of, right: right_of }.to_string();
        self.say(
            ScriptError::new(said, position)
                .label("not like with like")
                .beside(token(left), left_of.noun())
                .beside(token(right), right_of.noun()),
        );
        // As if it were alike: a variable that it is given to is not lost for that.
        one
    }

    /// A word that a closed list of words is held against is one of them.
    pub(super) fn known_word(&mut self, words: Option<&[&'static str]>, written: &'s Expr) {
        let (Some(words), Expr::StringConstant(word, position)) = (words, written) else { return };
        if words.contains(&word.as_str()) {
            return;
        }
        let help = match pintle_finding::nearest(word, words.iter().copied()) {
            Some(near) => format!("did you mean `{near}`?"),
            None => format!("it is one of {}", pintle_spec::read::list(words.iter().copied())),
        };
        self.say(
            ScriptError::new(format!("this can never be `{word}`"), *position)
                .label("not one of its words")
                .help(help),
        );
    }
}

fn with_number(one: &Type, other: &Type) -> bool {
    let number = |known: &Type| matches!(known, Type::Count | Type::Number);
    let quantity = |known: &Type| matches!(known, Type::Quantity(_));
    (quantity(one) && number(other)) || (number(one) && quantity(other))
}

/// Whether the sort of a value is such that comparing it with another sort is certainly an error.
fn certain(known: &Type) -> bool {
    use Type::{Count, Flag, List, Nothing, Number, Quantity, Reading, Text, Thing};
    matches!(known, Quantity(_) | Text(_) | Flag | Thing(_) | Count | Number | List(_) | Reading(_) | Nothing)
}
