//! A figure in the documents: its value, how sure it is, and how a reader is shown it; or what is missing.

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
    /// The figure with its expanded uncertainty, as a reader is shown both.
    #[serde(skip)]
    together: String,
}

impl Shown {
    /// A quantity.
    pub fn of(quantity: Quantity, units: Units) -> Self {
        Self::Known { si: quantity.si(), shown: quantity.show(units), uncertainty: None }
    }

    /// A figure with how sure it is.
    pub(super) fn unsure(figure: Known<Figure>, units: Units, tolerances: &Tolerances) -> Self {
        let found = figure.as_ref().ok().and_then(|figure| {
            let found = uncertainty::of(&figure.trace, tolerances)?;
            let together = figure.quantity.with_tolerance(found.expanded).show(units);
            Some(Unsure { expanded: found.expanded, worst: found.worst, together })
        });
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

    /// The value in SI.
    pub fn si(&self) -> Option<f64> {
        match self {
            Self::Known { si, .. } => Some(*si),
            Self::Missing { .. } => None,
        }
    }

    /// How far it may be off to either side, in SI; none where that is not known.
    pub fn expanded(&self) -> Option<f64> {
        match self {
            Self::Known { uncertainty, .. } => uncertainty.as_ref().map(|unsure| unsure.expanded),
            Self::Missing { .. } => None,
        }
    }

    /// What stands in a table.
    pub fn cell(&self) -> String {
        match self {
            Self::Known { shown, .. } => shown.clone(),
            Self::Missing { .. } => "not known".to_owned(),
        }
    }

    /// What stands in a text: with its ±, where there is one.
    pub fn with_certainty(&self) -> String {
        match self {
            Self::Known { uncertainty: Some(unsure), .. } if unsure.expanded > 0.0 => unsure.together.clone(),
            other => other.cell(),
        }
    }

    /// What is missing, if anything is.
    pub fn missing(&self) -> Option<&str> {
        match self {
            Self::Known { .. } => None,
            Self::Missing { missing } => Some(missing),
        }
    }
}

/// Something that is known, or what is missing to know it.
#[derive(Debug, Serialize)]
#[serde(untagged)]
pub enum Maybe<T> {
    /// What is known.
    Known(T),
    /// What is missing.
    Missing {
        /// What is missing.
        missing: String,
    },
}

impl<T> Maybe<T> {
    /// What is known, with something made of it.
    pub(super) fn of<U>(known: Known<U>, make: impl FnOnce(U) -> T) -> Self {
        match known {
            Ok(known) => Self::Known(make(known)),
            Err(missing) => Self::Missing { missing: missing.what },
        }
    }

    /// Both halves.
    pub fn as_result(&self) -> Result<&T, &str> {
        match self {
            Self::Known(known) => Ok(known),
            Self::Missing { missing } => Err(missing),
        }
    }
}
