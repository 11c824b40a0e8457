//! Figures, bounds and margins.

use pintle_quantity::{Quantity, Units};
use serde::Serialize;

/// A quantity.
#[derive(Debug, Serialize)]
pub struct Value {
    /// The value in SI units: m, kg, s, A, K, rad, dollars and their products.
    pub si: f64,
    /// What it measures, such as `mass`, `length` or `share`.
    pub dimension: String,
    /// As a shop reads it, in the units asked for, such as `7 ft 2 1/4 in`.
    pub shown: String,
    /// The unit its author wrote, such as `lb`; `null` for a figure that was worked out in SI.
    pub unit: Option<&'static str>,
    /// The value in that unit, or in SI where there is none.
    pub value: f64,
    /// The half-width of its tolerance in SI units, when it has one.
    pub tolerance: Option<f64>,
}

/// The comparison that was made.
#[derive(Debug, Serialize)]
#[serde(tag = "kind")]
pub enum Bound {
    /// The value must be at least the limit.
    #[serde(rename = "at least")]
    AtLeast {
        /// The limit.
        limit: Value,
    },
    /// The value must be at most the limit.
    #[serde(rename = "at most")]
    AtMost {
        /// The limit.
        limit: Value,
    },
    /// The value must lie between two limits, both included.
    #[serde(rename = "between")]
    Between {
        /// The lower limit.
        least: Value,
        /// The upper limit.
        most: Value,
    },
    /// The value must equal the limit.
    #[serde(rename = "equal")]
    Equal {
        /// The limit.
        limit: Value,
    },
    /// A condition without a number must hold.
    #[serde(rename = "holds")]
    Holds {
        /// What holds when all is well.
        condition: String,
    },
    /// Nothing was compared.
    #[serde(rename = "none")]
    None,
}

/// How far a value lies inside its limit; negative when it lies outside.
#[derive(Debug, Serialize)]
pub struct Margin {
    /// The distance, in the value's own dimension.
    pub amount: Value,
    /// The distance as a share of the limit; `null` when the limit is nought.
    pub share: Option<f64>,
}

impl Value {
    pub(crate) fn new(quantity: Quantity, units: Units) -> Self {
        let noun = quantity.dimension().noun();
        let dimension = noun.strip_prefix("a ").or_else(|| noun.strip_prefix("an ")).unwrap_or(&noun);
        Self {
            si: quantity.si(),
            dimension: dimension.to_owned(),
            shown: quantity.show(units),
            unit: quantity.unit().map(pintle_quantity::Unit::name).filter(|name| !name.is_empty()),
            value: quantity.value(),
            tolerance: quantity.tolerance().map(Quantity::si),
        }
    }
}

impl Bound {
    pub(crate) fn new(bound: &pintle_finding::Bound, units: Units) -> Self {
        use pintle_finding::Bound as Found;
        let value = |quantity: &Quantity| Value::new(*quantity, units);
        match bound {
            Found::AtLeast(limit) => Self::AtLeast { limit: value(limit) },
            Found::AtMost(limit) => Self::AtMost { limit: value(limit) },
            Found::Between(least, most) => Self::Between { least: value(least), most: value(most) },
            Found::Equal(limit) => Self::Equal { limit: value(limit) },
            Found::Holds(condition) => Self::Holds { condition: condition.clone() },
            Found::None => Self::None,
        }
    }
}

impl Margin {
    pub(crate) fn new(margin: pintle_finding::Margin, units: Units) -> Self {
        Self { amount: Value::new(margin.amount, units), share: margin.share }
    }
}
