//! Comparisons in scripts. Nothing is compared but like with like.
//!
//! The script language's own answer for two things of different sorts is "not equal", whatever they are: a rule
//! that writes `state.gross == 3` or `appliance.used == true` would get a verdict out of a slip. Here it is an error.

use pintle_quantity::{DimensionMismatch, Quantity};
use rhai::{Dynamic, EvalAltResult, FLOAT, INT, ImmutableString};

use crate::desk::Desk;
use crate::measured::{Measured, must_be_finite, same};
use crate::stop::failed;
use crate::thing::Thing;
use crate::words::sort;

type Outcome<T> = Result<T, Box<EvalAltResult>>;

fn compared(
    left: &Measured,
    right: &Measured,
    judge: fn(Quantity, Quantity) -> Result<bool, DimensionMismatch>,
) -> Outcome<bool> {
    let (left, right) = (left.figure.quantity, right.figure.quantity);
    must_be_finite(left)?;
    must_be_finite(right)?;
    same(judge(left, right))
}

/// Teaches an engine to compare. Figures and numbers go through Pintle's one tolerance.
pub(crate) fn register(desk: &mut Desk<'_>) {
    figures(desk);
    numbers(desk);
    desk.register_fn("==", |left: ImmutableString, right: ImmutableString| left == right);
    desk.register_fn("!=", |left: ImmutableString, right: ImmutableString| left != right);
    desk.register_fn("==", |left: bool, right: bool| left == right);
    desk.register_fn("!=", |left: bool, right: bool| left != right);
    desk.register_fn("==", |left: Thing, right: Thing| left.is(&right));
    desk.register_fn("!=", |left: Thing, right: Thing| !left.is(&right));
    for sign in ["==", "!=", "<", "<=", ">", ">="] {
        desk.register_fn(sign, move |left: Dynamic, right: Dynamic| -> Outcome<bool> {
            Err(failed(unlike(sign, &left, &right)))
        });
    }
}

fn figures(desk: &mut Desk<'_>) {
    desk.register_fn(">=", |l: Measured, r: Measured| compared(&l, &r, Quantity::at_least));
    desk.register_fn("<=", |l: Measured, r: Measured| compared(&l, &r, Quantity::at_most));
    desk.register_fn("<", |l: Measured, r: Measured| compared(&l, &r, Quantity::at_least).map(|not| !not));
    desk.register_fn(">", |l: Measured, r: Measured| compared(&l, &r, Quantity::at_most).map(|not| !not));
    desk.register_fn("==", |l: Measured, r: Measured| compared(&l, &r, Quantity::equals));
    desk.register_fn("!=", |l: Measured, r: Measured| compared(&l, &r, Quantity::equals).map(|same| !same));
}

fn numbers(desk: &mut Desk<'_>) {
    desk.register_fn("==", |left: INT, right: INT| left == right);
    desk.register_fn("!=", |left: INT, right: INT| left != right);
    desk.register_fn("<", |left: INT, right: INT| left < right);
    desk.register_fn("<=", |left: INT, right: INT| left <= right);
    desk.register_fn(">", |left: INT, right: INT| left > right);
    desk.register_fn(">=", |left: INT, right: INT| left >= right);
    let at_least =
        |l: FLOAT, r: FLOAT| compared(&Measured::count(l), &Measured::count(r), Quantity::at_least);
    let at_most = |l: FLOAT, r: FLOAT| compared(&Measured::count(l), &Measured::count(r), Quantity::at_most);
    let equals = |l: FLOAT, r: FLOAT| compared(&Measured::count(l), &Measured::count(r), Quantity::equals);
    desk.register_fn(">=", move |l: FLOAT, r: FLOAT| at_least(l, r));
    desk.register_fn("<=", move |l: FLOAT, r: FLOAT| at_most(l, r));
    desk.register_fn("<", move |l: FLOAT, r: FLOAT| at_least(l, r).map(|not| !not));
    desk.register_fn(">", move |l: FLOAT, r: FLOAT| at_most(l, r).map(|not| !not));
    desk.register_fn("==", move |l: FLOAT, r: FLOAT| equals(l, r));
    desk.register_fn("!=", move |l: FLOAT, r: FLOAT| equals(l, r).map(|same| !same));
}

fn unlike(sign: &str, left: &Dynamic, right: &Dynamic) -> String {
    let (one, other) = (sort(left.type_name()), sort(right.type_name()));
    let number = |value: &Dynamic| value.is_int() || value.is_float();
    let figure = |value: &Dynamic| value.is::<Measured>();
    let said = if left.type_id() == right.type_id() {
        format!("`{sign}` does not compare {one} with {other}")
    } else {
        format!("{one} and {other} cannot be compared")
    };
    if (figure(left) && number(right)) || (number(left) && figure(right)) {
        format!("{said}; write the number with its unit, as in `quantity(\"3 lb\")`")
    } else {
        said
    }
}
