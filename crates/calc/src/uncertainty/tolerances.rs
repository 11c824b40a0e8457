//! How sure a value is that states no ± of its own: plain data, by what the value stands on.

use std::collections::BTreeMap;

use pintle_spec::{Footing, Named};

/// A default ±: the greater of a share of the value and a width.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Tolerance {
    /// Share of the value's size, such as 0.25.
    pub share: f64,
    /// Half-width, or the least half-width beside a share, in SI.
    pub width: f64,
}

/// A default ± for each footing. By itself it holds none: then only values that state a ± have one.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Tolerances(BTreeMap<&'static str, Tolerance>);

impl Tolerances {
    /// Sets the ± of a footing; what is exact, and what has no name, keeps none.
    pub fn set(&mut self, footing: Footing, tolerance: Tolerance) {
        if let Some(name) = footing.name() {
            self.0.insert(name, tolerance);
        }
    }

    /// The ± of a footing, if one is set.
    pub fn of(&self, footing: Footing) -> Option<Tolerance> {
        self.0.get(footing.name()?).copied()
    }

    /// The ± of a value, in SI: the one its author gave, else that of its footing. None where nobody knows.
    ///
    /// A rating is as sure as it is written. A mass of nothing is nothing at all. A tank that is stated full or empty is
    /// so: that can be seen.
    pub fn half_width(&self, input: &Named) -> Option<f64> {
        if let Some(stated) = input.value.value.tolerance() {
            return Some(stated.si());
        }
        match input.footing {
            Footing::Exact => Some(0.0),
            footing => self.default_of(footing, input.value.value.si()),
        }
    }

    /// What the ± of a mass would be if it came from a scale. None for what a scale does not give.
    pub(super) fn if_weighed(&self, input: &Named) -> Option<f64> {
        if input.footing.is_mass() { self.default_of(Footing::Weighed, input.value.value.si()) } else { None }
    }

    fn default_of(&self, footing: Footing, value: f64) -> Option<f64> {
        let Tolerance { share, width } = self.of(footing)?;
        let seen = footing == Footing::Fill && (value <= 0.0 || value >= 1.0);
        let nothing = footing.is_mass() && value == 0.0;
        Some(if seen || nothing { 0.0 } else { (share * value.abs()).max(width) })
    }
}
