//! A figure in the documents: its value and how a reader is shown it, or what is missing.

use pintle_calc::uncertainty::Tolerances;
use pintle_calc::{Figure, Known, uncertainty};
use pintle_quantity::{Quantity, Units};
use pintle_spec::Coordinate;
use serde::Serialize;

/// A figure: its SI value (kg, m, m², kg·m, or a plain share) and as shown; or what is missing to work it out.
#[derive(Debug, Serialize)]
#[serde(untagged)]
pub enum Shown {
    /// A figure.
    Known {
        /// The value in SI.
        si: f64,
        /// The value as a reader is shown it.
        shown: String,
        /// How sure it is; none where that was not asked, or cannot be said.
        #[serde(skip_serializing_if = "Option::is_none")]
        uncertainty: Option<Unsure>,
    },
    /// What is missing.
    Missing {
        /// What is missing.
        missing: String,
    },
}

/// How far a figure may be off to either side, in SI.
#[derive(Debug, Serialize)]
pub struct Unsure {
    /// Expanded uncertainty, with coverage factor 2.
    expanded: f64,
    /// If every value were off by the whole of its ± in the direction that hurts.
    worst: f64,
}

impl Shown {
    /// A quantity.
    pub(super) fn of(quantity: Quantity, units: Units) -> Self {
        Self::Known { si: quantity.si(), shown: quantity.show(units), uncertainty: None }
    }

    /// A figure with how sure it is.
    pub(super) fn unsure(figure: Known<Figure>, units: Units, tolerances: &Tolerances) -> Self {
        let found = figure.as_ref().ok().and_then(|figure| uncertainty::of(&figure.trace, tolerances));
        let found = found.map(|found| Unsure { expanded: found.expanded, worst: found.worst });
        match Self::figure(figure, units) {
            Self::Known { si, shown, .. } => Self::Known { si, shown, uncertainty: found },
            missing @ Self::Missing { .. } => missing,
        }
    }

    /// A figure, if it is known.
    pub(super) fn figure(figure: Known<Figure>, units: Units) -> Self {
        match figure {
            Ok(figure) => Self::of(figure.quantity, units),
            Err(missing) => Self::Missing { missing: missing.what },
        }
    }

    /// A figure that there may be none of; `what` there is then not.
    pub(super) fn optional(figure: Known<Option<Figure>>, what: &str, units: Units) -> Self {
        match figure {
            Ok(Some(figure)) => Self::of(figure.quantity, units),
            Ok(None) => Self::Missing { missing: what.to_owned() },
            Err(missing) => Self::Missing { missing: missing.what },
        }
    }

    /// A place, if it is known.
    pub(super) fn coordinate(place: &Known<Coordinate>, units: Units) -> Self {
        match place {
            Ok(place) => Self::of(place.quantity(), units),
            Err(missing) => Self::Missing { missing: missing.what.clone() },
        }
    }

    /// What stands in a table.
    pub(super) fn cell(&self) -> String {
        match self {
            Self::Known { shown, .. } => shown.clone(),
            Self::Missing { .. } => "not known".to_owned(),
        }
    }
}
