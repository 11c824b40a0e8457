//! How sure a figure is, from how sure the values are that it was worked out from.
//!
//! First order and independent values (JCGM 100:2008, GUM, 5.1.2, equation (10)): u² = Σ (∂f/∂x)²·u(x)², with the
//! derivatives of [`Trace::gradient`]. A ±, be it stated or a default, is read as an expanded uncertainty with the
//! coverage factor 2 (GUM 6.2), t = 2·u(x); the result is given with the same factor, so that U = √Σ (∂f/∂x·t)². Beside
//! it stands the worst case, Σ |∂f/∂x|·t: every value off by the whole of its ± in the direction that hurts.
//!
//! Nothing here is a default of its own: [`Tolerances`] are handed in. A figure that was worked out somehow, or from a
//! value of which nobody knows how sure it is, has no uncertainty: none, and not zero.

mod tolerances;

use pintle_quantity::Quantity;
use pintle_spec::Named;

pub use tolerances::{Tolerance, Tolerances};

use crate::figure::Trace;

/// How sure a figure is.
#[derive(Debug, Clone, PartialEq)]
pub struct Uncertainty {
    /// The expanded uncertainty with coverage factor 2, in SI: the figure is worth ± this.
    pub expanded: f64,
    /// The worst case: what the figure could be off by if every value were off by the whole of its ±, in SI.
    pub worst: f64,
    /// What it comes from: every value with a ±, the one that matters most first.
    pub sources: Vec<SourceOf>,
}

/// One value that a figure's uncertainty comes from.
#[derive(Debug, Clone, PartialEq)]
pub struct SourceOf {
    /// The value.
    pub input: Named,
    /// Its ±, in its own dimension.
    pub half_width: Quantity,
    /// Whether its author gave the ±; else it is the default for its footing.
    pub stated: bool,
    /// What the ± comes to in the figure, in the figure's SI unit.
    pub effect: f64,
    /// What it would come to if the value were a mass from a scale; none for what no scale could give, or could not
    /// give better.
    pub if_weighed: Option<f64>,
}

/// How sure a figure with a trace is; none where it cannot be said.
pub fn of(trace: &Trace, tolerances: &Tolerances) -> Option<Uncertainty> {
    let mut sources = Vec::new();
    for (input, times) in trace.slopes()? {
        if times == 0.0 {
            continue;
        }
        let half_width = tolerances.half_width(input)?;
        let effect = times.abs() * half_width;
        if !effect.is_finite() {
            return None;
        }
        if effect > 0.0 {
            sources.push(source(input, half_width, effect, tolerances));
        }
    }
    // The order of the values decides between equals, so that the same spec gives the same list.
    sources.sort_by(|one, other| other.effect.total_cmp(&one.effect));
    Some(Uncertainty {
        expanded: combined(sources.iter().map(|source| source.effect)),
        worst: sources.iter().map(|source| source.effect).sum(),
        sources,
    })
}

/// The expanded uncertainty alone, in SI, for who has many figures to choose among: [`Uncertainty::expanded`] to rounding,
/// without the list of what it comes from.
pub fn expanded(trace: &Trace, tolerances: &Tolerances) -> Option<f64> {
    let mut squares = 0.0;
    for (input, times) in trace.slopes()? {
        if times != 0.0 {
            squares += (times * tolerances.half_width(input)?).powi(2);
        }
    }
    squares.is_finite().then(|| squares.sqrt())
}

fn source(input: &Named, half_width: f64, effect: f64, tolerances: &Tolerances) -> SourceOf {
    let value = input.value.value;
    let weighed = tolerances.if_weighed(input).map(|on_a_scale| effect / half_width * on_a_scale);
    let half = Quantity::from_si(half_width, value.dimension()).with_unit_of(value);
    SourceOf {
        input: input.clone(),
        half_width: half,
        stated: value.tolerance().is_some(),
        effect,
        if_weighed: weighed.filter(|weighed| *weighed < effect),
    }
}

/// The root of the sum of squares.
fn combined(effects: impl Iterator<Item = f64>) -> f64 {
    effects.map(|effect| effect * effect).sum::<f64>().sqrt()
}

impl SourceOf {
    /// The value's name, such as "`mass` of item `galley`".
    pub fn name(&self) -> String {
        self.input.name()
    }

    /// Its share of the figure's variance, from none to one.
    pub fn share(&self, of: &Uncertainty) -> f64 {
        if of.expanded > 0.0 { (self.effect / of.expanded).powi(2) } else { 0.0 }
    }

    fn gain(&self) -> f64 {
        self.if_weighed.map_or(0.0, |weighed| self.effect.powi(2) - weighed.powi(2))
    }
}

impl Uncertainty {
    /// The masses, at most so many, that would make the figure surer if they were weighed; the one that would most,
    /// first.
    pub fn masses_to_weigh(&self, most: usize) -> Vec<&SourceOf> {
        let mut masses: Vec<&SourceOf> = self.sources.iter().filter(|source| source.gain() > 0.0).collect();
        masses.sort_by(|one, other| other.gain().total_cmp(&one.gain()));
        masses.truncate(most);
        masses
    }

    /// The expanded uncertainty that would be left if those masses were weighed, in SI.
    pub fn after_weighing(&self, most: usize) -> f64 {
        let gain: f64 = self.masses_to_weigh(most).iter().map(|mass| mass.gain()).sum();
        (self.expanded.powi(2) - gain).max(0.0).sqrt()
    }
}

#[cfg(test)]
mod tests;
