//! A quantity with its trace: what it was worked out from, and which items weigh most in it.
//!
//! Traces are kept as shared pointers while a rule runs and are only unfolded into lists, or into derivatives, when
//! somebody asks, so a figure that passes costs one pointer and one number.

mod trace;

use pintle_quantity::{DimensionMismatch, Quantity};
use pintle_spec::{Coordinate, Named, Term};

pub use trace::{Part, Parts, Trace};

/// A quantity with its trace.
#[derive(Debug, Clone)]
pub struct Figure {
    /// The value.
    pub quantity: Quantity,
    /// What it was worked out from.
    pub trace: Trace,
}

impl Figure {
    /// A figure from a value and its trace, worked out by means of its maker's own: how it depends on what it was
    /// worked out from is not known, and so its uncertainty is not.
    pub fn new(quantity: Quantity, trace: Trace) -> Self {
        Self { quantity, trace: trace.somehow() }
    }

    /// A figure that is what its trace says.
    pub(crate) const fn traced(quantity: Quantity, trace: Trace) -> Self {
        Self { quantity, trace }
    }

    /// A constant: no inputs.
    pub fn constant(quantity: Quantity) -> Self {
        Self::traced(quantity, Trace::NONE)
    }

    /// A value as written.
    pub fn given(named: Named) -> Self {
        let value = named.value.value;
        Self::traced(value, Trace::terms(vec![Term { input: named, times: 1.0 }]))
    }

    /// A coordinate as a figure.
    pub fn coordinate(coordinate: &Coordinate) -> Self {
        Self::traced(coordinate.quantity(), Trace::terms(coordinate.terms.clone()))
    }

    /// The sum.
    pub fn plus(&self, other: &Self) -> Result<Self, DimensionMismatch> {
        let trace = Trace::sloping(&self.trace, 1.0, &other.trace, 1.0, true);
        Ok(Self::traced(self.quantity.try_add(other.quantity)?, trace))
    }

    /// The difference.
    pub fn minus(&self, other: &Self) -> Result<Self, DimensionMismatch> {
        let trace = Trace::sloping(&self.trace, 1.0, &other.trace, -1.0, false);
        Ok(Self::traced(self.quantity.try_sub(other.quantity)?, trace))
    }

    /// The product.
    #[must_use]
    pub fn times(&self, other: &Self) -> Self {
        let (left, right) = (self.quantity.si(), other.quantity.si());
        let trace = Trace::sloping(&self.trace, right, &other.trace, left, true);
        Self::traced(self.quantity.times(other.quantity), trace)
    }

    /// The quotient.
    #[must_use]
    pub fn over(&self, other: &Self) -> Self {
        let (left, right) = (self.quantity.si(), other.quantity.si());
        let trace = Trace::sloping(&self.trace, 1.0 / right, &other.trace, -left / (right * right), false);
        Self::traced(self.quantity.over(other.quantity), trace)
    }

    /// A figure worked out from others by a formula of plain numbers in SI, in the order given. How it depends on each is
    /// found by trying: the middle difference quotient over a millionth of the value. Where that is no number, how
    /// sure the figure is, is not known.
    ///
    /// ```
    /// use pintle_calc::Figure;
    /// use pintle_quantity::{Dimension, Quantity};
    ///
    /// let side = Figure::constant(Quantity::metres(9.0));
    /// let root = Figure::by(Dimension::LENGTH, [&side], |[side]| 3.0 * side.sqrt());
    /// assert!((root.quantity.si() - 9.0).abs() < 1e-12);
    /// ```
    pub fn by<const N: usize>(
        dimension: pintle_quantity::Dimension,
        inputs: [&Self; N],
        formula: impl Fn([f64; N]) -> f64,
    ) -> Self {
        let at = inputs.map(|input| input.quantity.si());
        let mut trace = Trace::NONE;
        for (index, input) in inputs.into_iter().enumerate() {
            let moved = |by: f64| {
                let mut moved = at;
                moved.iter_mut().skip(index).take(1).for_each(|value| *value += by);
                formula(moved)
            };
            let step = (input.quantity.si().abs() * 1e-6).max(1e-12);
            let slope = (moved(step) - moved(-step)) / (2.0 * step);
            let known = if slope.is_finite() { slope } else { 1.0 };
            trace = Trace::sloping(&trace, 1.0, &input.trace, known, known >= 0.0);
            if !slope.is_finite() {
                trace = trace.somehow();
            }
        }
        Self::traced(Quantity::from_si(formula(at), dimension), trace)
    }

    /// The same figure shown in a unit of the vocabulary; as it is where there is no such unit, or it measures something
    /// else.
    #[must_use]
    pub fn shown_in(&self, unit: &str) -> Self {
        let unit =
            pintle_quantity::Unit::find(unit).filter(|unit| unit.dimension() == self.quantity.dimension());
        let shown = unit.map_or(self.quantity, |unit| self.quantity.with_unit_of(Quantity::of(1.0, unit)));
        Self::traced(shown, self.trace.clone())
    }

    /// So many times this.
    #[must_use]
    pub fn scaled(&self, times: f64) -> Self {
        Self::traced(self.quantity.scaled(times), self.trace.sloped(times))
    }

    /// The size without its sign.
    #[must_use]
    pub fn abs(&self) -> Self {
        let sign = if self.quantity.si() < 0.0 { -1.0 } else { 1.0 };
        Self::traced(self.quantity.abs(), self.trace.sloped(sign))
    }

    /// The same as a share, shown in per cent, if it is a plain number; else as it is.
    #[must_use]
    pub fn as_share(&self) -> Self {
        let quantity = self.quantity;
        let plain = quantity.dimension() == pintle_quantity::Dimension::NONE;
        let quantity = if plain { Quantity::share(quantity.si()) } else { quantity };
        Self::traced(quantity, self.trace.clone())
    }

    /// The same as a number without a unit, if it is a plain number; else as it is.
    #[must_use]
    pub fn as_number(&self) -> Self {
        self.shown_as(Quantity::number(1.0))
    }

    /// The same in another's unit and style, if both measure the same thing.
    #[must_use]
    pub fn shown_as(&self, other: Quantity) -> Self {
        Self::traced(self.quantity.with_unit_of(other), self.trace.clone())
    }

    /// The greater of two, with both traces. Its derivatives are those of the greater one; the first of two equals.
    pub fn greater(&self, other: &Self) -> Result<Self, DimensionMismatch> {
        let quantity = self.quantity.try_max(other.quantity)?;
        Ok(Self::traced(quantity, self.one_of(other, self.quantity.si() >= other.quantity.si())))
    }

    /// The lesser of two, with both traces. Its derivatives are those of the lesser one; the first of two equals.
    pub fn lesser(&self, other: &Self) -> Result<Self, DimensionMismatch> {
        let quantity = self.quantity.try_min(other.quantity)?;
        Ok(Self::traced(quantity, self.one_of(other, self.quantity.si() <= other.quantity.si())))
    }

    fn one_of(&self, other: &Self, this: bool) -> Trace {
        let (left, right) = if this { (1.0, 0.0) } else { (0.0, 1.0) };
        Trace::sloping(&self.trace, left, &other.trace, right, true)
    }
}

#[cfg(test)]
pub(crate) mod tests;
