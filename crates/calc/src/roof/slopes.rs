//! Figures worked out from any number of others by plain numbers, with how they depend on each.

use pintle_quantity::{Dimension, Quantity};

use crate::figure::{Figure, Trace};

/// What a value is moved by to see what it does: a millionth of it, and never less than a millionth in SI. Beams are
/// reckoned to some twelve places, so that six are left of a slope.
fn step(value: f64) -> f64 {
    (value.abs() * 1e-6).max(1e-6)
}

/// A figure worked out from others by a formula of plain numbers in SI, in the order given, as [`Figure::by`] does for a
/// fixed number of them; shown in the unit of the first that measures the same.
pub(super) fn by(dimension: Dimension, inputs: &[Figure], formula: impl Fn(&[f64]) -> f64) -> Figure {
    let at: Vec<f64> = inputs.iter().map(|input| input.quantity.si()).collect();
    let mut trace = Trace::NONE;
    for (index, input) in inputs.iter().enumerate() {
        let moved = |by: f64| {
            let mut moved = at.clone();
            moved.iter_mut().skip(index).take(1).for_each(|value| *value += by);
            formula(&moved)
        };
        let step = step(input.quantity.si());
        let slope = (moved(step) - moved(-step)) / (2.0 * step);
        let known = if slope.is_finite() { slope } else { 1.0 };
        trace = Trace::sloping(&trace, 1.0, &input.trace, known, known >= 0.0);
        if !slope.is_finite() {
            trace = trace.somehow();
        }
    }
    let plain = Quantity::from_si(formula(&at), dimension);
    let alike = inputs.iter().find(|input| input.quantity.dimension() == dimension);
    let shown = alike.map_or(plain, |input| plain.with_unit_of(input.quantity));
    Figure::traced(shown, trace)
}
