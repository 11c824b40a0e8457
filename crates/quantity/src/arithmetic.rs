//! Sums, products and extremes. A result keeps the author's unit of its left-hand side where that
//! still fits.
//!
//! Tolerances are dropped by all of it: how they add up is `calc`'s to say.

use crate::dimension::{Dimension, DimensionMismatch};
use crate::quantity::{Quantity, Style};

impl Quantity {
    /// The sum, in the left-hand unit. A temperature plus a difference in K stays on its scale.
    ///
    /// ```
    /// use pintle_quantity::{Quantity, Units};
    ///
    /// let sum = Quantity::pounds(100.0).try_add(Quantity::kilograms(10.0))?;
    /// assert_eq!(sum.show(Units::AsWritten), "122 lb");
    /// # Ok::<(), pintle_quantity::DimensionMismatch>(())
    /// ```
    pub fn try_add(self, o: Self) -> Result<Self, DimensionMismatch> {
        self.must_match(o.dimension)?;
        let written = match (self.unit, o.unit) {
            (None, _) => o,
            (Some(left), Some(right)) if right.is_affine() && !left.is_affine() => o,
            _ => self,
        };
        Ok(written.holding(self.si + o.si))
    }

    /// The difference, in the left-hand unit. The difference of two temperatures is in K.
    pub fn try_sub(self, o: Self) -> Result<Self, DimensionMismatch> {
        self.must_match(o.dimension)?;
        let written = if self.unit.is_none() { o } else { self };
        let difference = written.holding(self.si - o.si);
        let scale = |unit: Option<&crate::Unit>| unit.is_some_and(crate::Unit::is_affine);
        Ok(if scale(self.unit) && !scale(o.unit) && o.unit.is_some() {
            difference
        } else {
            difference.without_scale()
        })
    }

    /// The smaller of two, as it was written. Not a number if either is not.
    pub fn try_min(self, o: Self) -> Result<Self, DimensionMismatch> {
        self.must_match(o.dimension)?;
        Ok(if self.si.is_nan() || self.si <= o.si { self } else { o }.untolerated())
    }

    /// The larger of two, as it was written. Not a number if either is not.
    pub fn try_max(self, o: Self) -> Result<Self, DimensionMismatch> {
        self.must_match(o.dimension)?;
        Ok(if self.si.is_nan() || self.si >= o.si { self } else { o }.untolerated())
    }

    /// The product. A share of a quantity keeps the quantity's unit; any other product has no
    /// author's unit.
    ///
    /// ```
    /// use pintle_quantity::{Dimension, Quantity, Units};
    ///
    /// let least = Quantity::share(0.10).times(Quantity::pounds(1500.0));
    /// assert_eq!(least.show(Units::AsWritten), "150 lb");
    /// let moment = Quantity::pounds(150.0).times(Quantity::feet(2.0));
    /// assert_eq!(moment.dimension(), Dimension::MOMENT);
    /// ```
    #[must_use]
    pub fn times(self, o: Self) -> Self {
        let si = self.si * o.si;
        if o.dimension == Dimension::NONE {
            self.holding(si)
        } else if self.dimension == Dimension::NONE {
            o.holding(si)
        } else {
            Self::from_si(si, self.dimension.times(o.dimension))
        }
    }

    /// The quotient. Over a share it keeps its unit; any other quotient has no author's unit.
    /// Over nothing it is infinite or not a number, which passes no limit.
    #[must_use]
    pub fn over(self, o: Self) -> Self {
        let si = self.si / o.si;
        if o.dimension == Dimension::NONE {
            self.holding(si)
        } else {
            Self::from_si(si, self.dimension.over(o.dimension))
        }
    }

    /// So many times the quantity, in its unit.
    #[must_use]
    pub fn scaled(self, n: f64) -> Self {
        self.holding(self.si * n)
    }

    /// The opposite quantity, in its unit.
    #[must_use]
    pub fn negated(self) -> Self {
        self.holding(-self.si)
    }

    /// The size without its sign, in its unit.
    #[must_use]
    pub fn abs(self) -> Self {
        self.holding(self.si.abs())
    }

    /// The same way of writing, round another value.
    fn holding(self, si: f64) -> Self {
        let style = match self.style {
            // Places an author wrote say nothing about a reckoned value.
            Style::Decimal { .. } => Style::PLAIN,
            parts => parts,
        };
        Self { si, style, ..self.untolerated() }
    }

    fn untolerated(self) -> Self {
        Self { tolerance: None, reckoned: false, ..self }
    }
}

#[cfg(test)]
mod tests;
