//! Figures worked out from any number of others by plain numbers, with how they depend on each.

use pintle_quantity::{Dimension, Quantity};

use crate::figure::{Figure, Trace};

/// What a value is moved by to see what it does: a millionth of it, and never less than a millionth in SI. Beams are
/// reckoned to some twelve places, so that six are left of a slope.
fn step(value: f64) -> f64 {
    (value.abs() * 1e-6).max(1e-6)
}

/// Figures worked out together from others by a formula of plain numbers in SI, in the order given, as [`Figure::by`] does
/// one from a fixed number; shown in the unit of the first that measures the same. None where the formula gives none.
pub(super) fn by(
    dimension: Dimension,
    inputs: &[Figure],
    formula: impl Fn(&[f64]) -> Option<Vec<f64>>,
) -> Option<Vec<Figure>> {
    let at: Vec<f64> = inputs.iter().map(|input| input.quantity.si()).collect();
    let values = formula(&at)?;
    let mut traces = vec![Trace::NONE; values.len()];
    for (index, input) in inputs.iter().enumerate() {
        let step = step(input.quantity.si());
        let moved = |by: f64| {
            let mut moved = at.clone();
            moved.iter_mut().skip(index).take(1).for_each(|value| *value += by);
            formula(&moved).unwrap_or_else(|| vec![f64::NAN; values.len()])
        };
        for (trace, (more, less)) in traces.iter_mut().zip(moved(step).into_iter().zip(moved(-step))) {
            let slope = (more - less) / (2.0 * step);
            let known = if slope.is_finite() { slope } else { 1.0 };
            *trace = Trace::sloping(trace, 1.0, &input.trace, known, known >= 0.0);
            if !slope.is_finite() {
                *trace = trace.clone().somehow();
            }
        }
    }
    let alike = inputs.iter().find(|input| input.quantity.dimension() == dimension);
    let shown = |value: f64| {
        let plain = Quantity::from_si(value, dimension);
        alike.map_or(plain, |input| plain.with_unit_of(input.quantity))
    };
    Some(values.into_iter().zip(traces).map(|(value, trace)| Figure::traced(shown(value), trace)).collect())
}
