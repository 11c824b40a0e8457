//! What a figure was worked out from, as a tree of shared pointers, and how it is unfolded.

use std::collections::BTreeMap;
use std::rc::Rc;

use pintle_quantity::Quantity;
use pintle_spec::{Named, Span, Term, Variable};

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
#[derive(Debug, Clone)]
pub struct Trace {
    source: Option<Rc<Source>>,
    /// The derivative of the figure with respect to what the source stands for, in SI; none where nobody knows it.
    slope: Option<f64>,
}

#[derive(Debug)]
enum Source {
    /// Values as written, from which the figure was worked out somehow.
    Listed(Vec<Named>),
    /// A sum of values as written, each so many times.
    Terms(Vec<Term>),
    /// A sum over the bodies of one state.
    Weights(Rc<Weights>, Measure),
    /// Two figures that were combined, each with its own slope, and whether the result rises with the second.
    Both(Trace, Trace, bool),
}

impl Default for Trace {
    fn default() -> Self {
        Self::NONE
    }
}

impl Trace {
    /// No inputs: a constant.
    pub const NONE: Self = Self { source: None, slope: Some(1.0) };

    fn from(source: Source) -> Self {
        Self { source: Some(Rc::new(source)), slope: Some(1.0) }
    }

    /// Values as written, from which something was worked out somehow: its derivatives are not known.
    pub fn given(inputs: Vec<Named>) -> Self {
        if inputs.is_empty() { Self::NONE } else { Self::from(Source::Listed(inputs)) }
    }

    /// A sum of values as written, each so many times.
    pub(crate) fn terms(terms: Vec<Term>) -> Self {
        if terms.is_empty() { Self::NONE } else { Self::from(Source::Terms(terms)) }
    }

    /// A sum over the bodies of a state.
    pub(crate) fn weights(weights: &Rc<Weights>, measure: Measure) -> Self {
        Self::from(Source::Weights(Rc::clone(weights), measure))
    }

    /// Both traces, of a figure that was worked out from both somehow: its derivatives are not known.
    #[must_use]
    pub fn and(&self, other: &Self) -> Self {
        Self::sloping(self, 1.0, other, 1.0, true).somehow()
    }

    /// Both traces, of a figure that falls when the second rises, one does not know by how much.
    #[must_use]
    pub fn against(&self, other: &Self) -> Self {
        Self::sloping(self, 1.0, other, -1.0, false).somehow()
    }

    /// The same trace, of a figure that depends on it one does not know how.
    pub(crate) fn somehow(self) -> Self {
        if self.source.is_none() { self } else { Self { slope: None, ..self } }
    }

    /// The same trace, of a figure that rises so many times as fast. One that does not rise at all need not be known.
    pub(crate) fn sloped(&self, times: f64) -> Self {
        let slope = if times == 0.0 { Some(0.0) } else { self.slope.map(|slope| slope * times) };
        Self { source: self.source.clone(), slope }
    }

    /// Both traces, of a figure with two partial derivatives, and whether it rises with the second.
    pub(crate) fn sloping(left: &Self, by_left: f64, right: &Self, by_right: f64, rises: bool) -> Self {
        match (&left.source, &right.source) {
            (_, None) => left.sloped(by_left),
            (None, Some(_)) if rises => right.sloped(by_right),
            _ => Self::from(Source::Both(left.sloped(by_left), right.sloped(by_right), rises)),
        }
    }

    /// Whether a sum over the bodies of a state is part of the figure.
    pub fn rests_on_weights(&self) -> bool {
        match self.source.as_deref() {
            Some(Source::Weights(..)) => true,
            Some(Source::Both(left, right, _)) => left.rests_on_weights() || right.rests_on_weights(),
            _ => false,
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
        match self.source.as_deref() {
            None => {}
            Some(Source::Listed(inputs)) => into.extend(inputs.iter().cloned()),
            Some(Source::Terms(terms)) => into.extend(terms.iter().map(|term| term.input.clone())),
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
            let given: Vec<&Named> = match trace.source.as_deref() {
                None | Some(Source::Weights(..)) => continue,
                Some(Source::Listed(given)) => given.iter().collect(),
                Some(Source::Terms(terms)) => terms.iter().map(|term| &term.input).collect(),
                Some(Source::Both(left, right, _)) => {
                    rest.extend([right, left]);
                    continue;
                }
            };
            for input in given {
                if !inputs.contains(input) {
                    inputs.push(input.clone());
                }
            }
        }
        inputs
    }

    /// The sum over bodies that the figure is made of. For a quotient or a difference, its first. None for a figure
    /// that has no such sum in it.
    pub fn parts(&self) -> Option<Parts> {
        match self.source.as_deref()? {
            Source::Listed(_) | Source::Terms(_) => None,
            Source::Weights(weights, measure) => {
                Some(Parts { measure: *measure, parts: weights.parts(*measure), rises: true })
            }
            Source::Both(left, right, rises) => left.parts().or_else(|| {
                let parts = right.parts()?;
                Some(Parts { rises: parts.rises == *rises, ..parts })
            }),
        }
    }

    /// The partial derivative of the figure with respect to each value as written, in SI, each value once, in the
    /// order used: `∂f/∂x` by the chain rule, at the values as written. A value that is used in several places, such as
    /// the distance from the ball to the box, is one value. None where a part of the figure was worked out somehow, so
    /// that nobody knows.
    pub fn gradient(&self) -> Option<Vec<Term>> {
        let slopes = self.slopes()?.into_iter();
        Some(slopes.map(|(input, times)| Term { input: input.clone(), times }).collect())
    }

    /// The same without copies.
    pub(crate) fn slopes(&self) -> Option<Vec<(&Named, f64)>> {
        let mut sums: Vec<(&Rc<Weights>, Vec<f64>)> = Vec::new();
        let mut plain: Vec<(&Named, f64)> = Vec::new();
        let mut rest = vec![(self, 1.0)];
        while let Some((trace, factor)) = rest.pop() {
            let Some(source) = trace.source.as_deref() else { continue };
            if factor == 0.0 {
                continue;
            }
            let factor = factor * trace.slope?;
            match source {
                _ if factor == 0.0 => {}
                Source::Listed(_) => return None,
                Source::Terms(terms) => {
                    plain.extend(terms.iter().map(|term| (&term.input, term.times * factor)));
                }
                Source::Weights(weights, measure) => {
                    let slopes = weights.slopes(*measure)?;
                    let held = sums.iter().position(|(held, _)| Rc::ptr_eq(held, weights));
                    let at = held.unwrap_or(sums.len());
                    if held.is_none() {
                        sums.push((weights, vec![0.0; slopes.len()]));
                    }
                    let sum = sums.get_mut(at).map(|(_, sum)| sum).into_iter().flatten();
                    sum.zip(slopes).for_each(|(sum, slope)| *sum += slope * factor);
                }
                Source::Both(left, right, _) => rest.extend([(right, factor), (left, factor)]),
            }
        }
        let mut sums = sums.into_iter().map(|(weights, slopes)| weights.variables().iter().zip(slopes));
        // A state has each of its values once; what comes after may be one of them.
        let first: Vec<(&Named, f64)> = sums.next().into_iter().flatten().collect();
        let more: Vec<(&Named, f64)> = sums.flatten().chain(plain).collect();
        Some(merged(first, more))
    }
}

/// So many values are looked for one by one: fewer comparisons than to sort all others.
const FEW: usize = 8;

/// Derivatives with respect to the same value, added up; those of `first` are all of different values.
fn merged<'a>(first: Vec<(&'a Named, f64)>, more: Vec<(&'a Named, f64)>) -> Vec<(&'a Named, f64)> {
    let mut terms = first;
    if more.len() <= FEW {
        for (input, times) in more {
            let variable = input.variable();
            match terms.iter_mut().find(|(held, _)| held.variable() == variable) {
                Some((_, sum)) => *sum += times,
                None => terms.push((input, times)),
            }
        }
        return terms;
    }
    let mut held: BTreeMap<Variable, usize> =
        terms.iter().enumerate().map(|(at, (input, _))| (input.variable(), at)).collect();
    for (input, times) in more {
        let at = *held.entry(input.variable()).or_insert(terms.len());
        match terms.get_mut(at) {
            Some((_, sum)) => *sum += times,
            None => terms.push((input, times)),
        }
    }
    terms
}
