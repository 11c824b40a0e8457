//! Coordinates that know what they were worked out from.
//!
//! x runs aft from the ball, y to the right of the centreline, z up from the ground, trailer level; metres.

use std::sync::Arc;

use pintle_quantity::Quantity;
use pintle_source::Spanned;

use crate::record::{Missing, Record};

/// A value, or what is missing to work it out.
pub type Known<T> = Result<T, Missing>;

/// A value with its name and owner.
#[derive(Debug, Clone, PartialEq)]
pub struct Named {
    /// The field's key.
    pub key: &'static str,
    /// What it belongs to, such as "item `galley`".
    pub owner: Arc<str>,
    /// The value and its place.
    pub value: Spanned<Quantity>,
}

impl Named {
    /// "`mass` of item `galley`".
    pub fn name(&self) -> String {
        format!("`{}` of {}", self.key, self.owner)
    }
}

/// A distance along one axis, with the values that it was worked out from.
#[derive(Debug, Clone, PartialEq)]
pub struct Coordinate {
    /// Metres along the axis.
    pub metres: f64,
    /// What it was worked out from.
    pub inputs: Vec<Named>,
}

impl Coordinate {
    /// The origin of an axis: nothing was measured.
    pub const ORIGIN: Self = Self { metres: 0.0, inputs: Vec::new() };

    /// A length of a record as a coordinate.
    pub fn of(record: &Record, field: &'static crate::field::Field) -> Known<Self> {
        let value = record.need(field)?;
        let named = Named { key: field.key, owner: Arc::clone(&record.what), value };
        Ok(Self { metres: value.value.si(), inputs: vec![named] })
    }

    /// This coordinate and another's, the other taken so many times.
    #[must_use]
    pub fn plus(&self, times: f64, other: &Self) -> Self {
        let mut inputs = self.inputs.clone();
        inputs.extend(other.inputs.iter().filter(|input| !self.inputs.contains(input)).cloned());
        Self { metres: self.metres + times * other.metres, inputs }
    }

    /// As a quantity, shown in the unit of the author's first value.
    pub fn quantity(&self) -> Quantity {
        let plain = Quantity::from_si(self.metres, pintle_quantity::Dimension::LENGTH);
        self.inputs.first().map_or(plain, |input| plain.with_unit_of(input.value.value))
    }
}

/// A part's reach along one axis.
#[derive(Debug, Clone, PartialEq)]
pub struct Reach {
    /// The near end: front, left or bottom.
    pub near: Known<Coordinate>,
    /// The far end: rear, right or top.
    pub far: Known<Coordinate>,
    /// The centre of gravity.
    pub cg: Known<Coordinate>,
}

/// A part's box in the trailer's coordinates.
#[derive(Debug, Clone, PartialEq)]
pub struct Extent {
    /// Fore and aft, from the ball.
    pub x: Reach,
    /// Across, from the centreline.
    pub y: Reach,
    /// Upright, from the ground.
    pub z: Reach,
}

/// One measured place along an axis.
#[derive(Debug, Clone)]
pub(crate) enum Anchor {
    /// Where the near end is.
    Near(Coordinate),
    /// Where the far end is.
    Far(Coordinate),
    /// Where the middle is.
    Middle(Coordinate),
}

impl Reach {
    /// Works out a reach from one measured place, the size, and the centre of gravity within the part.
    pub(crate) fn from(anchor: Known<Anchor>, size: &Known<Coordinate>, within: Option<&Coordinate>) -> Self {
        let anchor = match anchor {
            Ok(anchor) => anchor,
            Err(missing) => {
                return Self { near: Err(missing.clone()), far: Err(missing.clone()), cg: Err(missing) };
            }
        };
        let away = |from: &Coordinate, times: f64| {
            size.as_ref().map(|size| from.plus(times, size)).map_err(Clone::clone)
        };
        let (near, middle, far) = match &anchor {
            Anchor::Near(near) => (Ok(near.clone()), away(near, 0.5), away(near, 1.0)),
            Anchor::Far(far) => (away(far, -1.0), away(far, -0.5), Ok(far.clone())),
            Anchor::Middle(middle) => (away(middle, -0.5), Ok(middle.clone()), away(middle, 0.5)),
        };
        let cg = match within {
            None => middle,
            Some(within) => near.as_ref().map(|near| near.plus(1.0, within)).map_err(Clone::clone),
        };
        Self { near, far, cg }
    }
}
