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

/// A sum over bodies within a figure.
#[derive(Debug, Clone)]
pub struct Parts {
    /// What is summed.
    pub measure: Measure,
    /// Each body's part; they add up to the measure.
    pub parts: Vec<Part>,
    /// Whether the figure rises when the measure does.
    pub rises: bool,
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
    /// Two figures that were combined, and whether the result rises with the second.
    Both(Trace, Trace, bool),
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
        self.combined(other, true)
    }

    /// Both traces, of a figure that falls when the second rises: a difference or a quotient.
    #[must_use]
    pub fn against(&self, other: &Self) -> Self {
        self.combined(other, false)
    }

    fn combined(&self, other: &Self, rises: bool) -> Self {
        match (&self.0, &other.0) {
            (_, None) => self.clone(),
            (None, Some(_)) if rises => other.clone(),
            _ => Self(Some(Rc::new(Source::Both(self.clone(), other.clone(), rises)))),
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
            Some(Source::Both(left, right, _)) => {
                left.gather(into);
                right.gather(into);
            }
        }
    }

    /// The values that stand in the figure by themselves, rather than within a sum over bodies; each once.
    pub fn plain_inputs(&self) -> Vec<Named> {
        let mut inputs: Vec<Named> = Vec::new();
        let mut rest = vec![self];
        while let Some(trace) = rest.pop() {
            match trace.0.as_deref() {
                None | Some(Source::Weights(..)) => {}
                Some(Source::Given(given)) => {
                    inputs.extend(
                        given.iter().filter(|input| !inputs.contains(input)).cloned().collect::<Vec<_>>(),
                    );
                }
                Some(Source::Both(left, right, _)) => rest.extend([right, left]),
            }
        }
        inputs
    }

    /// The sum over bodies that the figure is made of. For a quotient or a difference, its first. None for a figure
    /// that has no such sum in it.
    pub fn parts(&self) -> Option<Parts> {
        match self.0.as_deref()? {
            Source::Given(_) => None,
            Source::Weights(weights, measure) => {
                Some(Parts { measure: *measure, parts: weights.parts(*measure), rises: true })
            }
            Source::Both(left, right, rises) => left.parts().or_else(|| {
                let parts = right.parts()?;
                Some(Parts { rises: parts.rises == *rises, ..parts })
            }),
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
        Ok(Self::new(self.quantity.try_sub(other.quantity)?, self.trace.against(&other.trace)))
    }

    /// The product.
    #[must_use]
    pub fn times(&self, other: &Self) -> Self {
        Self::new(self.quantity.times(other.quantity), self.trace.and(&other.trace))
    }

    /// The quotient.
    #[must_use]
    pub fn over(&self, other: &Self) -> Self {
        Self::new(self.quantity.over(other.quantity), self.trace.against(&other.trace))
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
