//! The one place where two quantities are compared.

use std::cmp::Ordering;

use crate::dimension::DimensionMismatch;
use crate::quantity::Quantity;

/// Two quantities are equal when they differ by no more than this share of the larger one.
///
/// A double carries about 16 digits. A sum of some hundred weights and places loses three or four
/// of them, unit conversion another, so what is meant to be equal agrees to 1e-11 or better. No
/// shop measures anything finer than 1e-6. A billionth lies between the two with room on either
/// side: at the limit is at the limit however the sum was reckoned, and no real fault hides in it.
pub const COMPARE_TOLERANCE: f64 = 1e-9;

/// Two quantities are also equal when they differ by no more than this much, in SI.
///
/// Moments that cancel leave a remainder near zero, where a share of the larger one is no help:
/// 1e3 kg·m less itself leaves some 1e-13 kg·m. The floor is a millionth of a micrometre or of a
/// milligram; the smallest area of wire in the vocabulary (40 AWG, 5e-9 m²) is 5,000 times larger.
pub const COMPARE_FLOOR: f64 = 1e-12;

impl Quantity {
    /// Which is larger; `Equal` within [`COMPARE_TOLERANCE`]. Tolerances play no part.
    ///
    /// For sorting, a value that is not a number comes before all others. A verdict must use
    /// [`Quantity::at_least`], [`Quantity::at_most`] or [`Quantity::equals`], in which such a value
    /// never passes.
    pub fn compare(self, o: Self) -> Result<Ordering, DimensionMismatch> {
        self.must_match(o.dimension)?;
        Ok(order(self.si, o.si))
    }

    /// Whether this is no less than `o`, within [`COMPARE_TOLERANCE`]; false for not a number.
    ///
    /// ```
    /// use pintle_quantity::Quantity;
    ///
    /// assert!(Quantity::feet(1.0).at_least(Quantity::inches(12.0))?);
    /// assert!(!Quantity::pounds(f64::NAN).at_least(Quantity::pounds(0.0))?);
    /// # Ok::<(), pintle_quantity::DimensionMismatch>(())
    /// ```
    pub fn at_least(self, o: Self) -> Result<bool, DimensionMismatch> {
        Ok(self.compare(o)? != Ordering::Less && self.comparable(o))
    }

    /// Whether this is no more than `o`, within [`COMPARE_TOLERANCE`]; false for not a number.
    pub fn at_most(self, o: Self) -> Result<bool, DimensionMismatch> {
        Ok(self.compare(o)? != Ordering::Greater && self.comparable(o))
    }

    /// Whether the two are equal within [`COMPARE_TOLERANCE`]; false for not a number.
    pub fn equals(self, o: Self) -> Result<bool, DimensionMismatch> {
        Ok(self.compare(o)? == Ordering::Equal && self.comparable(o))
    }

    fn comparable(self, o: Self) -> bool {
        !self.si.is_nan() && !o.si.is_nan()
    }
}

/// The order of two values in SI.
pub(crate) fn order(a: f64, b: f64) -> Ordering {
    match (a.is_nan(), b.is_nan()) {
        (true, true) => return Ordering::Equal,
        (true, false) => return Ordering::Less,
        (false, true) => return Ordering::Greater,
        (false, false) => {}
    }
    let slack = (COMPARE_TOLERANCE * a.abs().max(b.abs())).max(COMPARE_FLOOR);
    if slack.is_finite() && (a - b).abs() <= slack { Ordering::Equal } else { a.total_cmp(&b) }
}

#[cfg(test)]
mod tests;
