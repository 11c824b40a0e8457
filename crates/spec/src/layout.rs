//! Coordinates that know what they were worked out from, and how much each value counts in them.
//!
//! x runs aft from the ball, y to the right of the centreline, z up from the ground, trailer level; metres.

use std::sync::Arc;

use pintle_quantity::Quantity;
use pintle_source::{Span, Spanned};

use crate::field::Field;
use crate::footing::Footing;
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
    /// What it stands on, which says how sure it is when its author gives no ±.
    pub footing: Footing,
}

/// Which written value it is. Parts of one stock part share its measures: whatever is wrong with a value is wrong
/// wherever the value is used.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Variable {
    span: Span,
    key: &'static str,
    bits: u64,
    footing: Footing,
}

impl Named {
    /// A value of a record, or what is missing.
    pub fn of(record: &Record, field: &'static Field) -> Known<Self> {
        let value = record.need(field)?;
        let footing = Footing::of(record, field);
        Ok(Self { key: field.key, owner: Arc::clone(&record.what), value, footing })
    }

    /// "`mass` of item `galley`".
    pub fn name(&self) -> String {
        format!("`{}` of {}", self.key, self.owner)
    }

    /// Which written value it is, whoever it belongs to.
    pub fn variable(&self) -> Variable {
        let bits = self.value.value.si().to_bits();
        Variable { span: self.value.span, key: self.key, bits, footing: self.footing }
    }
}

/// A value in a sum, and how much of it there is.
#[derive(Debug, Clone, PartialEq)]
pub struct Term {
    /// The value.
    pub input: Named,
    /// By how much the result rises when the value rises by one, both in SI: its partial derivative.
    pub times: f64,
}

/// A distance along one axis, with the values that it was worked out from.
#[derive(Debug, Clone, PartialEq)]
pub struct Coordinate {
    /// Metres along the axis.
    pub metres: f64,
    /// What it was worked out from, each once, with its partial derivative. One that cancels out stays, with none.
    pub terms: Vec<Term>,
}

impl Coordinate {
    /// The origin of an axis: nothing was measured.
    pub const ORIGIN: Self = Self { metres: 0.0, terms: Vec::new() };

    /// A length of a record as a coordinate.
    pub fn of(record: &Record, field: &'static Field) -> Known<Self> {
        let input = Named::of(record, field)?;
        Ok(Self { metres: input.value.value.si(), terms: vec![Term { input, times: 1.0 }] })
    }

    /// What it was worked out from.
    pub fn inputs(&self) -> impl Iterator<Item = &Named> + Clone {
        self.terms.iter().map(|term| &term.input)
    }

    /// This coordinate and another's, the other taken so many times.
    #[must_use]
    pub fn plus(&self, times: f64, other: &Self) -> Self {
        self.combined(1.0, times, other, self.metres + times * other.metres)
    }

    /// Half way between this coordinate and another.
    #[must_use]
    pub fn mean(&self, other: &Self) -> Self {
        self.combined(0.5, 0.5, other, f64::midpoint(self.metres, other.metres))
    }

    /// The same place, which also depends on a value: by so much for each one of it.
    #[must_use]
    pub fn depending(mut self, input: &Named, times: f64) -> Self {
        let held = self.terms.len();
        add(&mut self.terms, held, input, times);
        self
    }

    /// The terms of so many of this and so many of another.
    fn combined(&self, of_this: f64, of_other: f64, other: &Self, metres: f64) -> Self {
        let mut terms = Vec::with_capacity(self.terms.len() + other.terms.len());
        for Term { input, times } in &self.terms {
            terms.push(Term { input: input.clone(), times: times * of_this });
        }
        for Term { input, times } in &other.terms {
            add(&mut terms, self.terms.len(), input, times * of_other);
        }
        Self { metres, terms }
    }

    /// As a quantity, shown in the unit of the author's first value.
    pub fn quantity(&self) -> Quantity {
        let plain = Quantity::from_si(self.metres, pintle_quantity::Dimension::LENGTH);
        self.inputs().next().map_or(plain, |input| plain.with_unit_of(input.value.value))
    }
}

/// Adds so many of a value to a sum, of which only the first so many terms can hold the value already.
fn add(terms: &mut Vec<Term>, among: usize, input: &Named, times: f64) {
    match terms.iter_mut().take(among).find(|held| held.input == *input) {
        Some(held) => held.times += times,
        None => terms.push(Term { input: input.clone(), times }),
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
