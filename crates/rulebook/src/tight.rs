//! Of each figure that a rule reads of the trailer's weights, the reading that passes with least to spare for what it
//! could be off by.

use pintle_calc::Figure;
use pintle_calc::uncertainty::{self, Tolerances};
use pintle_finding::{Reading, Verdict};
use pintle_script::Tight;

use crate::arranged::same_sort;
use crate::taken::Taken;

/// The tightest reading of each sort, in the order of the rules. What fails is not among them: it needs no ± to be
/// wrong.
pub(crate) fn of<'t>(taken: impl Iterator<Item = &'t Taken>, tolerances: &Tolerances) -> Vec<Tight> {
    let mut kept: Vec<(&Reading, &Figure, f64)> = Vec::new();
    for Taken { reading, margin } in taken {
        let (Some(margin), Verdict::Pass) = (margin, reading.verdict) else { continue };
        let spare = to_spare(margin, tolerances);
        let alike = |held: &Reading| held.rule.id == reading.rule.id && same_sort(held, reading);
        match kept.iter_mut().find(|(held, ..)| alike(held)) {
            Some(place) if spare < place.2 => *place = (reading, margin, spare),
            Some(_) => {}
            None => kept.push((reading, margin, spare)),
        }
    }
    let tight = kept.into_iter().map(|(reading, margin, _)| Tight {
        rule: reading.rule.id.clone(),
        grade: reading.rule.grade,
        what: said(reading),
        span: reading.subject.span,
        margin: margin.clone(),
        uncertainty: uncertainty::of(&margin.trace, tolerances),
    });
    tight.collect()
}

/// A margin over its ±; what nobody can be sure of comes first.
fn to_spare(margin: &Figure, tolerances: &Tolerances) -> f64 {
    match uncertainty::expanded(&margin.trace, tolerances) {
        None => f64::NEG_INFINITY,
        Some(expanded) if expanded > 0.0 => margin.quantity.si() / expanded,
        Some(_) => f64::INFINITY,
    }
}

/// What was read on what.
fn said(reading: &Reading) -> String {
    let subject = &reading.subject;
    if subject.name.is_empty() {
        return reading.what.clone();
    }
    format!("{} of {}", reading.what, subject.name)
}
