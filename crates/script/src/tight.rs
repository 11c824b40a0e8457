//! Readings that pass with less to spare than others, as a subject of rules: how far inside the limit they lie, and how
//! sure that is.

use pintle_calc::Figure;
use pintle_calc::uncertainty::{SourceOf, Uncertainty};
use pintle_finding::Grade;
use pintle_quantity::Quantity;
use pintle_source::Span;

/// Of one figure that a rule reads of the trailer's weights, the reading that passes with least to spare for what it
/// could be off by.
#[derive(Debug, Clone)]
pub struct Tight {
    /// The rule that took the reading, `pack/rule`.
    pub rule: String,
    /// The grade in force of that rule.
    pub grade: Grade,
    /// What was read on what, such as "tongue share of homeward".
    pub what: String,
    /// Where its subject stands.
    pub span: Option<Span>,
    /// How far inside its limit it lies.
    pub margin: Figure,
    /// How sure that is; none where it cannot be said.
    pub uncertainty: Option<Uncertainty>,
}

/// Masses that are named as those to weigh first.
const TO_WEIGH: usize = 3;

impl Tight {
    /// The three masses that would make the margin surest if they were weighed, and what the ± of each does to it.
    pub fn masses_to_weigh(&self) -> Vec<(&SourceOf, Quantity)> {
        let sure = self.uncertainty.iter();
        let masses = sure.flat_map(|sure| sure.masses_to_weigh(TO_WEIGH));
        masses.map(|mass| (mass, self.like_the_margin(mass.effect))).collect()
    }

    /// The ± that would be left of the margin if those masses were weighed.
    pub fn after_weighing(&self) -> Option<Quantity> {
        Some(self.like_the_margin(self.uncertainty.as_ref()?.after_weighing(TO_WEIGH)))
    }

    /// A value in the margin's dimension and unit, from SI.
    pub fn like_the_margin(&self, si: f64) -> Quantity {
        let margin = self.margin.quantity;
        Quantity::from_si(si, margin.dimension()).with_unit_of(margin)
    }
}
