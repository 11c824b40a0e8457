//! Of each figure that a rule reads of the trailer's weights, the reading that passes with least to spare for what it
//! could be off by.

use pintle_calc::uncertainty::{self, Tolerances};
use pintle_finding::{Reading, Verdict};
use pintle_script::Tight;

use crate::arranged::same_sort;
use crate::taken::Taken;

/// The tightest reading of each sort, in the order of the rules. What fails is not among them: it needs no ± to be
/// wrong.
pub(crate) fn of<'t>(taken: impl Iterator<Item = &'t Taken>, tolerances: &Tolerances) -> Vec<Tight> {
    let mut kept: Vec<(&Reading, Tight)> = Vec::new();
    for Taken { reading, margin } in taken {
        let (Some(margin), Verdict::Pass) = (margin, reading.verdict) else { continue };
        let tight = Tight {
            rule: reading.rule.id.clone(),
            grade: reading.rule.grade,
            what: said(reading),
            span: reading.subject.span,
            margin: margin.clone(),
            uncertainty: uncertainty::of(&margin.trace, tolerances),
        };
        let alike = |held: &Reading| held.rule.id == reading.rule.id && same_sort(held, reading);
        match kept.iter_mut().find(|(held, _)| alike(held)) {
            Some(place) if tight.to_spare() < place.1.to_spare() => *place = (reading, tight),
            Some(_) => {}
            None => kept.push((reading, tight)),
        }
    }
    kept.into_iter().map(|(_, tight)| tight).collect()
}

/// What was read on what.
fn said(reading: &Reading) -> String {
    let subject = &reading.subject;
    if subject.name.is_empty() {
        return reading.what.clone();
    }
    format!("{} of {}", reading.what, subject.name)
}
