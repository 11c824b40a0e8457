//! A quantity with its trace: what it was worked out from, and which items weigh most in it.
//!
//! Traces are kept as shared pointers while a rule runs and are only unfolded into lists when a reading is shown,
//! so a figure that passes costs one pointer.

use std::rc::Rc;

use pintle_quantity::{DimensionMismatch, Quantity};
use pintle_spec::{Coordinate, Named, Span};

use crate::weights::{Measure, Weights};

/// How much of a figure one body is answerable for.
#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    /// The body, such as "item `galley`".
    pub name: String,
    /// Its signed part of the figure, in the figure's own dimension or, for a share, as a mass.
    pub amount: Quantity,
    /// Where the body stands in the files.
    pub span: Option<Span>,
    /// What its mass was worked out from.
    pub inputs: Vec<Named>,
}

/// What a figure was worked out from.
#[derive(Debug, Clone, Default)]
pub struct Trace(Option<Rc<Source>>);

#[derive(Debug)]
enum Source {
    /// Values as written.
    Given(Vec<Named>),
    /// A sum over the bodies of one state.
    Weights(Rc<Weights>, Measure),
    /// Two figures that were combined.
    Both(Trace, Trace),
}

impl Trace {
    /// No inputs: a constant.
    pub const NONE: Self = Self(None);

    /// Values as written.
    pub fn given(inputs: Vec<Named>) -> Self {
        if inputs.is_empty() { Self::NONE } else { Self(Some(Rc::new(Source::Given(inputs)))) }
    }

    /// A sum over the bodies of a state.
    pub(crate) fn weights(weights: &Rc<Weights>, measure: Measure) -> Self {
        Self(Some(Rc::new(Source::Weights(Rc::clone(weights), measure))))
    }

    /// Both traces.
    #[must_use]
    pub fn and(&self, other: &Self) -> Self {
        match (&self.0, &other.0) {
            (_, None) => self.clone(),
            (None, _) => other.clone(),
            (Some(left), Some(right)) if Rc::ptr_eq(left, right) => self.clone(),
            _ => Self(Some(Rc::new(Source::Both(self.clone(), other.clone())))),
        }
    }

    /// Every value the figure was worked out from, each once, in the order used.
    pub fn inputs(&self) -> Vec<Named> {
        let mut inputs = Vec::new();
        self.gather(&mut inputs);
        let mut unique: Vec<Named> = Vec::new();
        for input in inputs {
            if !unique.contains(&input) {
                unique.push(input);
            }
        }
        unique
    }

    fn gather(&self, into: &mut Vec<Named>) {
        match self.0.as_deref() {
            None => {}
            Some(Source::Given(inputs)) => into.extend(inputs.iter().cloned()),
            Some(Source::Weights(weights, measure)) => into.extend(weights.inputs(*measure)),
            Some(Source::Both(left, right)) => {
                left.gather(into);
                right.gather(into);
            }
        }
    }

    /// The measure of a state that the figure is made of, and the part that each body has in it. For a quotient or a
    /// difference, those of its first sum. None for a figure that is no such sum.
    pub fn parts(&self) -> Option<(Measure, Vec<Part>)> {
        match self.0.as_deref()? {
            Source::Given(_) => None,
            Source::Weights(weights, measure) => Some((*measure, weights.parts(*measure))),
            Source::Both(left, right) => left.parts().or_else(|| right.parts()),
        }
    }
}

/// A quantity with its trace.
#[derive(Debug, Clone)]
pub struct Figure {
    /// The value.
    pub quantity: Quantity,
    /// What it was worked out from.
    pub trace: Trace,
}

impl Figure {
    /// A figure from a value and its trace.
    pub fn new(quantity: Quantity, trace: Trace) -> Self {
        Self { quantity, trace }
    }

    /// A constant: no inputs.
    pub fn constant(quantity: Quantity) -> Self {
        Self::new(quantity, Trace::NONE)
    }

    /// A value as written.
    pub fn given(named: Named) -> Self {
        Self::new(named.value.value, Trace::given(vec![named]))
    }

    /// A coordinate as a figure.
    pub fn coordinate(coordinate: &Coordinate) -> Self {
        Self::new(coordinate.quantity(), Trace::given(coordinate.inputs.clone()))
    }

    /// The sum.
    pub fn plus(&self, other: &Self) -> Result<Self, DimensionMismatch> {
        Ok(Self::new(self.quantity.try_add(other.quantity)?, self.trace.and(&other.trace)))
    }

    /// The difference.
    pub fn minus(&self, other: &Self) -> Result<Self, DimensionMismatch> {
        Ok(Self::new(self.quantity.try_sub(other.quantity)?, self.trace.and(&other.trace)))
    }

    /// The product.
    #[must_use]
    pub fn times(&self, other: &Self) -> Self {
        Self::new(self.quantity.times(other.quantity), self.trace.and(&other.trace))
    }

    /// The quotient.
    #[must_use]
    pub fn over(&self, other: &Self) -> Self {
        Self::new(self.quantity.over(other.quantity), self.trace.and(&other.trace))
    }

    /// So many times this.
    #[must_use]
    pub fn scaled(&self, times: f64) -> Self {
        Self::new(self.quantity.scaled(times), self.trace.clone())
    }

    /// The greater of two, with both traces.
    pub fn greater(&self, other: &Self) -> Result<Self, DimensionMismatch> {
        Ok(Self::new(self.quantity.try_max(other.quantity)?, self.trace.and(&other.trace)))
    }

    /// The lesser of two, with both traces.
    pub fn lesser(&self, other: &Self) -> Result<Self, DimensionMismatch> {
        Ok(Self::new(self.quantity.try_min(other.quantity)?, self.trace.and(&other.trace)))
    }
}
