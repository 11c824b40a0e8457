//! What a script calculates with: figures that keep their trace through arithmetic.

use std::rc::Rc;

use pintle_calc::Figure;
use pintle_finding::{Basis, SetBy};
use pintle_quantity::{Quantity, Units};
use pintle_source::Span;
use rhai::{Engine, EvalAltResult, FLOAT, INT};

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
}

type Outcome<T> = Result<T, Box<EvalAltResult>>;

impl Measured {
    /// A named figure.
    pub fn new(figure: Figure, name: &'static str) -> Self {
        Self { figure, name, limit: None }
    }

    fn unnamed(figure: Figure) -> Self {
        Self::new(figure, "")
    }

    fn count(count: f64) -> Self {
        Self::unnamed(Figure::constant(Quantity::from_si(count, pintle_quantity::Dimension::NONE)))
    }

    /// As shown to a reader.
    fn shown(&self) -> String {
        self.figure.quantity.show(Units::AsWritten)
    }

    fn keep(&self, figure: Figure) -> Self {
        Self { figure, name: self.name, limit: None }
    }
}

fn same<T, E: std::fmt::Display>(result: Result<T, E>) -> Outcome<T> {
    result.map_err(|mismatch| failed(mismatch.to_string()))
}

fn plus(left: Measured, right: Measured) -> Outcome<Measured> {
    same(left.figure.plus(&right.figure)).map(Measured::unnamed)
}

fn minus(left: Measured, right: Measured) -> Outcome<Measured> {
    same(left.figure.minus(&right.figure)).map(Measured::unnamed)
}

fn times(left: Measured, right: Measured) -> Measured {
    Measured::unnamed(left.figure.times(&right.figure))
}

fn over(left: Measured, right: Measured) -> Outcome<Measured> {
    if right.figure.quantity.si() == 0.0 {
        return Err(failed(format!("division of {} by zero", left.shown())));
    }
    let figure = left.figure.over(&right.figure);
    let share = figure.quantity.dimension() == pintle_quantity::Dimension::NONE;
    Ok(Measured::unnamed(match share {
        true => Figure::new(Quantity::share(figure.quantity.si()), figure.trace),
        false => figure,
    }))
}

fn compared(
    left: &Measured,
    right: &Measured,
    judge: fn(Quantity, Quantity) -> Result<bool, pintle_quantity::DimensionMismatch>,
) -> Outcome<bool> {
    same(judge(left.figure.quantity, right.figure.quantity))
}

/// Teaches an engine to calculate with figures. Comparisons go through Pintle's one tolerance.
pub(crate) fn register(engine: &mut Engine) {
    engine.register_type_with_name::<Measured>("quantity");
    engine.register_fn("+", plus).register_fn("-", minus).register_fn("*", times).register_fn("/", over);
    engine.register_fn("-", |value: Measured| value.keep(value.figure.scaled(-1.0)));
    #[expect(clippy::cast_precision_loss, reason = "counts in rules are small")]
    {
        engine.register_fn("*", |left: Measured, right: INT| left.keep(left.figure.scaled(right as f64)));
        engine.register_fn("*", |left: INT, right: Measured| right.keep(right.figure.scaled(left as f64)));
        engine.register_fn("/", |left: Measured, right: INT| over(left, Measured::count(right as f64)));
    }
    engine.register_fn("*", |left: Measured, right: FLOAT| left.keep(left.figure.scaled(right)));
    engine.register_fn("*", |left: FLOAT, right: Measured| right.keep(right.figure.scaled(left)));
    engine.register_fn("/", |left: Measured, right: FLOAT| over(left, Measured::count(right)));
    engine.register_fn(">=", |left: Measured, right: Measured| compared(&left, &right, Quantity::at_least));
    engine.register_fn("<=", |left: Measured, right: Measured| compared(&left, &right, Quantity::at_most));
    engine.register_fn("<", |l: Measured, r: Measured| compared(&l, &r, Quantity::at_least).map(|not| !not));
    engine.register_fn(">", |l: Measured, r: Measured| compared(&l, &r, Quantity::at_most).map(|not| !not));
    engine.register_fn("==", |left: Measured, right: Measured| compared(&left, &right, Quantity::equals));
    engine.register_fn("!=", |l: Measured, r: Measured| compared(&l, &r, Quantity::equals).map(|same| !same));
    engine.register_fn("abs", |value: Measured| {
        let figure = Figure::new(value.figure.quantity.abs(), value.figure.trace.clone());
        value.keep(figure)
    });
    engine.register_fn("greater", |left: Measured, right: Measured| -> Outcome<Measured> {
        same(left.figure.greater(&right.figure)).map(Measured::unnamed)
    });
    engine.register_fn("lesser", |left: Measured, right: Measured| -> Outcome<Measured> {
        same(left.figure.lesser(&right.figure)).map(Measured::unnamed)
    });
    engine.register_fn("quantity", |text: &str| -> Outcome<Measured> {
        let quantity = Quantity::parse(text).map_err(|error| failed(format!("`{text}`: {error}")))?;
        Ok(Measured::unnamed(Figure::constant(quantity)))
    });
    engine.register_fn("to_string", |value: &mut Measured| value.shown());
    engine.register_fn("to_debug", |value: &mut Measured| value.shown());
}
