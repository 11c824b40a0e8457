//! Derivatives of the operations on figures, against finite differences and by hand.

use std::sync::Arc;

use pintle_source::{Sources, Span, Spanned};
use pintle_spec::Footing;
use proptest::prelude::*;

use super::*;

/// Values as if written in a file, each at a place of its own.
pub(crate) fn written(values: &[Quantity]) -> Vec<Named> {
    let source = Sources::new().add("a.toml", "");
    let named = |(at, value): (u32, &Quantity)| Named {
        key: "value",
        owner: Arc::from(format!("number {at}")),
        value: Spanned::new(*value, Span::new(source, 10 * at, 10 * at + 5)),
        footing: Footing::Other,
    };
    (0..).zip(values).map(named).collect()
}

type Formula = fn(&Figure, &Figure, &Figure) -> Figure;

/// Operations on three lengths, in one formula each.
const FORMULAS: &[(&str, Formula)] = &[
    ("sum", |a, b, c| a.plus(b).unwrap().plus(c).unwrap()),
    ("difference", |a, b, c| a.minus(b).unwrap().minus(&c.scaled(0.25)).unwrap()),
    ("product", |a, b, c| a.times(b).times(c)),
    ("quotient", |a, b, c| a.over(b).over(c)),
    ("quotient of sums", |a, b, c| a.plus(b).unwrap().over(&b.plus(c).unwrap()).as_share()),
    ("own square over itself", |a, b, c| a.times(a).over(a).plus(&b.times(c).over(b)).unwrap()),
    ("greater", |a, b, c| a.greater(b).unwrap().times(c)),
    ("lesser", |a, b, c| a.lesser(b).unwrap().plus(&c.lesser(a).unwrap()).unwrap()),
    ("size", |a, b, c| a.minus(&b.scaled(3.0)).unwrap().abs().times(c)),
    ("cancelled", |a, b, c| a.plus(b).unwrap().minus(a).unwrap().minus(b).unwrap().plus(c).unwrap()),
    ("of a constant", |a, b, c| Figure::constant(Quantity::metres(2.0)).minus(a).unwrap().times(b).over(c)),
    ("by a constant", |a, b, c| {
        a.over(&Figure::constant(Quantity::metres(3.0))).times(b).plus(&c.scaled(0.0)).unwrap()
    }),
];

fn figures(values: &[f64]) -> (Vec<Named>, Vec<Figure>) {
    let quantities: Vec<Quantity> = values.iter().map(|value| Quantity::metres(*value)).collect();
    let inputs = written(&quantities);
    let figures = inputs.iter().cloned().map(Figure::given).collect();
    (inputs, figures)
}

fn worth(formula: Formula, values: &[f64]) -> f64 {
    let (_, figures) = figures(values);
    formula(&figures[0], &figures[1], &figures[2]).quantity.si()
}

proptest! {
    #[test]
    fn derivatives_are_what_happens_when_a_value_changes(values in prop::collection::vec(0.5..5.0_f64, 3)) {
        // At a kink there is no derivative.
        let close = |a: f64, b: f64| (a - b).abs() < 0.01;
        prop_assume!(!close(values[0], values[1]) && !close(values[2], values[0]) && !close(values[0], 3.0 * values[1]));
        let (inputs, figures) = figures(&values);
        for (name, formula) in FORMULAS {
            let figure = formula(&figures[0], &figures[1], &figures[2]);
            let gradient = figure.trace.gradient().unwrap();
            for (at, input) in inputs.iter().enumerate() {
                let step = 1e-5;
                let mut changed = values.clone();
                changed[at] += step;
                let more = worth(*formula, &changed);
                changed[at] -= 2.0 * step;
                let found = (more - worth(*formula, &changed)) / (2.0 * step);
                let told: f64 = gradient.iter().filter(|term| term.input == *input).map(|term| term.times).sum();
                prop_assert!((told - found).abs() < 1e-5 * (1.0 + found.abs()), "{name} by {at}: {told}, not {found}");
            }
        }
    }
}

#[test]
fn each_value_stands_once() {
    let (_, figures) = figures(&[2.0, 3.0, 5.0]);
    let square = figures[0].times(&figures[0]);
    let gradient = square.trace.gradient().unwrap();
    assert_eq!(gradient.len(), 1);
    assert!((gradient[0].times - 4.0).abs() < 1e-12);
}

#[test]
fn what_was_worked_out_somehow_has_no_derivative() {
    let (inputs, figures) = figures(&[2.0, 3.0, 5.0]);
    let (a, b) = (&figures[0], &figures[1]);
    let metre = Quantity::metres(1.0);
    for trace in [
        a.trace.and(&b.trace),
        a.trace.against(&b.trace),
        a.trace.and(&Trace::NONE),
        Trace::NONE.and(&a.trace),
        Trace::given(inputs),
        Figure::new(metre, a.trace.clone()).trace,
    ] {
        assert!(trace.gradient().is_none(), "{trace:?}");
        // Nor has anything made of it.
        let of_it = Figure::traced(metre, trace).plus(b).unwrap().scaled(2.0);
        assert!(of_it.trace.gradient().is_none());
    }
    assert_eq!(Figure::new(metre, Trace::NONE).trace.gradient(), Some(Vec::new()), "a constant is sure");
}

/// The loser of a comparison counts for nothing, and need not be known.
#[test]
fn the_greater_of_two_depends_on_one() {
    let (_, figures) = figures(&[2.0, 3.0, 5.0]);
    let unknown = Figure::new(Quantity::metres(1.0), figures[2].trace.clone());
    let greater = unknown.greater(&figures[0]).unwrap();
    let gradient = greater.trace.gradient().unwrap();
    assert_eq!(gradient.len(), 1);
    assert_eq!(gradient[0].input.name(), "`value` of number 0");
    assert!(unknown.lesser(&figures[0]).unwrap().trace.gradient().is_none());
    assert_eq!(greater.trace.inputs().len(), 2, "both are still what it came from");
}
