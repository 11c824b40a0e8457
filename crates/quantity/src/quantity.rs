//! The quantity itself: an SI value, what it measures, and how its author wrote it.

use crate::dimension::{Dimension, DimensionMismatch};
use crate::unit::{System, Unit};
use crate::vocabulary;

/// A number with a dimension, the unit its author wrote, and the tolerance he gave, if any.
///
/// ```
/// use pintle_quantity::{Dimension, Quantity, Units};
///
/// let length = Quantity::parse("7' 2-1/4\"")?;
/// assert_eq!(length.dimension(), Dimension::LENGTH);
/// assert_eq!(length.show(Units::AsWritten), "7 ft 2 1/4 in");
/// assert_eq!(length.show(Units::Metric), "2,191 mm");
/// # Ok::<(), pintle_quantity::ParseError>(())
/// ```
#[derive(Clone, Copy, Debug)]
pub struct Quantity {
    pub(crate) si: f64,
    pub(crate) dimension: Dimension,
    pub(crate) unit: Option<&'static Unit>,
    pub(crate) style: Style,
    /// Half-width of the tolerance, in SI.
    pub(crate) tolerance: Option<f64>,
    /// Whether the tolerance was worked out; else its author wrote it.
    pub(crate) reckoned: bool,
}

/// How an author wrote a number, kept so that it is printed back the same way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Style {
    /// `7.25 lb`, with so many decimal places at least.
    Decimal { places: u8 },
    /// `22 3/8 in`, with so much below the line.
    Fraction { below: u16 },
    /// `7 ft 2 1/4 in`: the unit of the quantity first, then these; the last part as
    /// finely as the author wrote it.
    Parts { middle: Option<&'static Unit>, last: &'static Unit, finest: Finest },
}

/// How finely the last of several parts is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Finest {
    /// With a fraction, with so much below the line.
    Fraction { below: u16 },
    /// With so many decimal places at least.
    Decimal { places: u8 },
}

/// What is below the line on a tape measure: marks of 1/16 in.
pub(crate) const TAPE: u16 = 16;

impl Style {
    pub(crate) const PLAIN: Self = Self::Decimal { places: 0 };
}

impl Quantity {
    /// A quantity from a value in SI (m, kg, s, A, K, rad, $ and their products), with no author's
    /// unit: it is printed in the usual unit of the system asked for.
    pub fn from_si(si: f64, d: Dimension) -> Self {
        Self { si, dimension: d, unit: None, style: Style::PLAIN, tolerance: None, reckoned: false }
    }

    /// A quantity of so many of a unit. With the wire gauge, `value` is the gauge number.
    ///
    /// ```
    /// use pintle_quantity::{Quantity, Unit, Units};
    ///
    /// let psi = Unit::find("psi").unwrap();
    /// assert_eq!(Quantity::of(65.0, psi).show(Units::AsWritten), "65 psi");
    /// ```
    pub fn of(value: f64, unit: &'static Unit) -> Self {
        Self { unit: Some(unit), ..Self::from_si(unit.to_si(value), unit.dimension()) }
    }

    /// A plain ratio, shown in per cent: `share(0.104)` is 10.4 %.
    pub fn share(v: f64) -> Self {
        Self { unit: Some(&vocabulary::PERCENT), ..Self::from_si(v, Dimension::NONE) }
    }

    /// A plain ratio, shown as the number it is, such as a factor of safety.
    ///
    /// ```
    /// use pintle_quantity::{Quantity, Units};
    ///
    /// assert_eq!(Quantity::number(0.951).show(Units::Metric), "0.951");
    /// assert!(Quantity::number(1.0).is_number() && !Quantity::share(1.0).is_number());
    /// ```
    pub fn number(v: f64) -> Self {
        Self { unit: Some(&vocabulary::NUMBER), ..Self::from_si(v, Dimension::NONE) }
    }

    /// Whether it is shown as a number without a unit.
    pub fn is_number(self) -> bool {
        self.unit.is_some_and(|unit| unit.name().is_empty())
    }

    /// So many pounds of mass.
    pub fn pounds(v: f64) -> Self {
        Self::of(v, &vocabulary::POUND)
    }

    /// So many inches.
    pub fn inches(v: f64) -> Self {
        Self::of(v, &vocabulary::INCH)
    }

    /// So many feet.
    pub fn feet(v: f64) -> Self {
        Self::of(v, &vocabulary::FOOT)
    }

    /// So many kilograms.
    pub fn kilograms(v: f64) -> Self {
        Self::of(v, &vocabulary::KILOGRAM)
    }

    /// So many metres.
    pub fn metres(v: f64) -> Self {
        Self::of(v, &vocabulary::METRE)
    }

    /// So many US gallons.
    pub fn gallons(v: f64) -> Self {
        Self::of(v, &vocabulary::GALLON)
    }

    /// The value in SI.
    pub fn si(self) -> f64 {
        self.si
    }

    /// What it measures.
    pub fn dimension(self) -> Dimension {
        self.dimension
    }

    /// The unit its author wrote, if an author did. Of `7 ft 2 in` this is the foot.
    pub fn unit(self) -> Option<&'static Unit> {
        self.unit
    }

    /// The value in the author's unit, or in SI where there is no author.
    pub fn value(self) -> f64 {
        self.unit.map_or(self.si, |unit| unit.from_si(self.si))
    }

    /// The value in a given unit; an error where the unit measures something else.
    ///
    /// ```
    /// use pintle_quantity::{Quantity, Unit};
    ///
    /// let inch = Unit::find("in").unwrap();
    /// assert!((Quantity::feet(7.0).value_in(inch)? - 84.0).abs() < 1e-9);
    /// # Ok::<(), pintle_quantity::DimensionMismatch>(())
    /// ```
    pub fn value_in(self, unit: &'static Unit) -> Result<f64, DimensionMismatch> {
        self.must_match(unit.dimension())?;
        Ok(unit.from_si(self.si))
    }

    /// The half-width of the tolerance its author gave, as a quantity of the same dimension.
    ///
    /// A tolerance on a temperature comes back in K, a difference, since 5 °F of tolerance is not
    /// the temperature 5 °F.
    pub fn tolerance(self) -> Option<Quantity> {
        let half_width = Self { si: self.tolerance?, tolerance: None, ..self };
        Some(half_width.without_scale())
    }

    /// The same quantity with a tolerance of ± `half_width_si`, in SI, that was worked out. It is printed to a
    /// place that suits both.
    ///
    /// ```
    /// use pintle_quantity::{Quantity, Units};
    ///
    /// let share = Quantity::share(0.10432).with_tolerance(0.00833);
    /// assert_eq!(share.show(Units::AsWritten), "10.4 % ± 0.8 %");
    /// ```
    #[must_use]
    pub fn with_tolerance(self, half_width_si: f64) -> Self {
        Self { tolerance: Some(half_width_si), reckoned: true, ..self }
    }

    /// The same quantity printed as `other` was written, if both measure the same thing and
    /// `other` has an author's unit; otherwise unchanged.
    ///
    /// ```
    /// use pintle_quantity::{Quantity, Units};
    ///
    /// let sum = Quantity::metres(1.0).with_unit_of(Quantity::parse("3 ft 1 in")?);
    /// assert_eq!(sum.show(Units::AsWritten), "3 ft 3 3/8 in");
    /// # Ok::<(), pintle_quantity::ParseError>(())
    /// ```
    #[must_use]
    pub fn with_unit_of(self, other: Quantity) -> Self {
        if self.dimension == other.dimension && other.unit.is_some() {
            Self { unit: other.unit, style: other.style, ..self }
        } else {
            self
        }
    }

    /// A difference must not be printed on a scale with an offset, nor as a wire gauge.
    pub(crate) fn without_scale(self) -> Self {
        match self.unit {
            Some(unit) if unit.is_affine() => {
                Self { unit: Some(&vocabulary::KELVIN), style: Style::PLAIN, ..self }
            }
            Some(unit) if unit.is_wire_gauge() => {
                Self { unit: Some(&vocabulary::SQUARE_MILLIMETRE), style: Style::PLAIN, ..self }
            }
            _ => self,
        }
    }

    pub(crate) fn must_match(self, right: Dimension) -> Result<(), DimensionMismatch> {
        let left = self.dimension;
        if left == right { Ok(()) } else { Err(DimensionMismatch { left, right }) }
    }

    pub(crate) fn system(self) -> System {
        self.unit.map_or(System::Us, Unit::system)
    }
}

#[cfg(test)]
mod tests;
