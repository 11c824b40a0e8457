//! What a script calculates with: figures that keep their trace through arithmetic.

use std::rc::Rc;

use pintle_calc::Figure;
use pintle_finding::{Basis, SetBy};
use pintle_quantity::{Quantity, Units};
use pintle_source::Span;
use rhai::{EvalAltResult, FLOAT, INT};

use crate::desk::Desk;
use crate::stop::failed;

/// A limit of a rule, as it is in force.
#[derive(Debug, Clone, PartialEq)]
pub struct Limit {
    /// Its name in the rule, such as `least`.
    pub name: String,
    /// Its value.
    pub value: Quantity,
    /// Where it comes from.
    pub basis: Basis,
    /// Where the value in force is written.
    pub span: Option<Span>,
    /// Who set it, when that is not the rule.
    pub set_by: Option<SetBy>,
}

/// A figure, what it is called, and the limit it is, if it is one.
#[derive(Debug, Clone)]
pub struct Measured {
    /// The figure.
    pub figure: Figure,
    /// What it is called, such as "tongue share"; empty for a formula of the script's.
    pub name: &'static str,
    /// The rule's limit that this value is.
    pub limit: Option<Rc<Limit>>,
    /// The first of the rule's limits that went into this value, where it is a formula.
    pub within: Option<Rc<Limit>>,
    /// Figures that went into it, each as often as it was used.
    pub(crate) steps: u32,
}

/// Figures that may go into one formula. The trace of a formula is unfolded step by step when it is shown, so a
/// formula that doubles itself must stop.
pub(crate) const MOST_STEPS: u32 = 200;

type Outcome<T> = Result<T, Box<EvalAltResult>>;

impl Measured {
    /// A named figure.
    pub fn new(figure: Figure, name: &'static str) -> Self {
        Self { figure, name, limit: None, within: None, steps: 1 }
    }

    pub(crate) fn count(count: f64) -> Self {
        Self::new(Figure::constant(Quantity::from_si(count, pintle_quantity::Dimension::NONE)), "")
    }

    /// The limit that this value is, or that went into it.
    pub fn limit_used(&self) -> Option<&Rc<Limit>> {
        self.limit.as_ref().or(self.within.as_ref())
    }

    /// As shown to a reader.
    fn shown(&self) -> String {
        self.figure.quantity.show(Units::AsWritten)
    }

    /// The same figure otherwise sized, under the same name.
    fn resized(&self, figure: Figure) -> Outcome<Self> {
        must_be_finite(figure.quantity)?;
        Ok(Self {
            figure,
            name: self.name,
            limit: None,
            within: self.limit_used().cloned(),
            steps: self.steps,
        })
    }

    /// A formula of two.
    fn formula(left: &Self, right: &Self, figure: Figure) -> Outcome<Self> {
        must_be_finite(figure.quantity)?;
        let steps = left.steps + right.steps;
        if steps > MOST_STEPS {
            return Err(failed(format!("a formula of more than {MOST_STEPS} figures")));
        }
        let within = left.limit_used().or(right.limit_used()).cloned();
        Ok(Self { within, steps, ..Self::new(figure, "") })
    }
}

/// Infinite values and those that are no number pass no comparison, and so come to no verdict.
pub(crate) fn must_be_finite(quantity: Quantity) -> Outcome<()> {
    if quantity.si().is_finite() { Ok(()) } else { Err(failed("this comes to no finite number")) }
}

/// The outcome of what may be of different dimensions.
pub(crate) fn same<T, E: std::fmt::Display>(result: Result<T, E>) -> Outcome<T> {
    result.map_err(|mismatch| failed(mismatch.to_string()))
}

fn plus(left: &Measured, right: &Measured) -> Outcome<Measured> {
    Measured::formula(left, right, same(left.figure.plus(&right.figure))?)
}

fn minus(left: &Measured, right: &Measured) -> Outcome<Measured> {
    Measured::formula(left, right, same(left.figure.minus(&right.figure))?)
}

fn times(left: &Measured, right: &Measured) -> Outcome<Measured> {
    Measured::formula(left, right, left.figure.times(&right.figure))
}

fn scaled(value: &Measured, times: f64) -> Outcome<Measured> {
    value.resized(value.figure.scaled(times))
}

fn over(left: &Measured, right: &Measured) -> Outcome<Measured> {
    if right.figure.quantity.si() == 0.0 {
        return Err(failed(format!("division of {} by zero", left.shown())));
    }
    let figure = left.figure.over(&right.figure).as_share();
    Measured::formula(left, right, figure)
}

/// From one day of a record to another; negative where the second comes first.
fn days(from: &str, to: &str) -> Outcome<Measured> {
    let days = pintle_spec::days_between(from, to)
        .ok_or_else(|| failed(format!("`{from}` and `{to}` are not both days of the calendar")))?;
    let days = Quantity::parse(&format!("{days} d")).map_err(|error| failed(error.to_string()))?;
    Ok(Measured::new(Figure::constant(days), ""))
}

/// Teaches an engine to calculate with figures.
pub(crate) fn register(desk: &mut Desk<'_>) {
    desk.register_type_with_name::<Measured>("quantity");
    desk.register_fn("+", |left: Measured, right: Measured| plus(&left, &right));
    desk.register_fn("-", |left: Measured, right: Measured| minus(&left, &right));
    desk.register_fn("*", |left: Measured, right: Measured| times(&left, &right));
    desk.register_fn("/", |left: Measured, right: Measured| over(&left, &right));
    desk.register_fn("-", |value: Measured| scaled(&value, -1.0));
    #[expect(clippy::cast_precision_loss, reason = "counts in rules are small")]
    {
        desk.register_fn("*", |left: Measured, right: INT| scaled(&left, right as f64));
        desk.register_fn("*", |left: INT, right: Measured| scaled(&right, left as f64));
        desk.register_fn("/", |left: Measured, right: INT| over(&left, &Measured::count(right as f64)));
    }
    desk.register_fn("*", |left: Measured, right: FLOAT| scaled(&left, right));
    desk.register_fn("*", |left: FLOAT, right: Measured| scaled(&right, left));
    desk.register_fn("/", |left: Measured, right: FLOAT| over(&left, &Measured::count(right)));
    desk.register_fn("abs", |value: Measured| value.resized(value.figure.abs()));
    desk.register_fn("greater", |left: Measured, right: Measured| -> Outcome<Measured> {
        Measured::formula(&left, &right, same(left.figure.greater(&right.figure))?)
    });
    desk.register_fn("lesser", |left: Measured, right: Measured| -> Outcome<Measured> {
        Measured::formula(&left, &right, same(left.figure.lesser(&right.figure))?)
    });
    desk.register_fn("quantity", |text: &str| -> Outcome<Measured> {
        let quantity = Quantity::parse(text).map_err(|error| failed(format!("`{text}`: {error}")))?;
        Ok(Measured::new(Figure::constant(quantity), ""))
    });
    desk.register_fn("days", days);
    desk.register_fn("to_string", |value: &mut Measured| value.shown());
    desk.register_fn("to_debug", |value: &mut Measured| value.shown());
}
