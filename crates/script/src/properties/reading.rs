//! What can be asked of a reading that passes with little to spare.

use std::rc::Rc;

use pintle_calc::uncertainty::Uncertainty;
use pintle_calc::{Figure, Known, Trace};
use pintle_finding::Grade;
use pintle_quantity::{Quantity, Units};
use pintle_spec::Missing;

use super::{Found, Gives, Property};
use crate::run::Run;
use crate::tight::Tight;

fn tight(run: &Run, at: usize) -> Known<Rc<Tight>> {
    run.tight(at).ok_or_else(|| Missing::new("the reading", None, ""))
}

/// One of the widths that its uncertainty has, in SI.
fn width(run: &Run, at: usize, of: fn(&Uncertainty) -> f64) -> Known<Found> {
    let tight = sure(run, at)?;
    let si = tight.uncertainty.as_ref().map_or(f64::NAN, of);
    Ok(constant(tight.like_the_margin(si)).into())
}

/// A reading of which it is known how sure it is.
fn sure(run: &Run, at: usize) -> Known<Rc<Tight>> {
    let tight = tight(run, at)?;
    if tight.uncertainty.is_some() {
        return Ok(tight);
    }
    Err(Missing::new(
        format!("how sure the {} is", tight.what),
        tight.span,
        "state a ± with the values that it comes from",
    ))
}

fn constant(quantity: Quantity) -> Figure {
    Figure::new(quantity, Trace::NONE)
}

/// What can be asked of a tight reading.
pub(super) const PROPERTIES: &[Property] = &[
    Property {
        name: "rule",
        says: "rule",
        doc: "the rule that took it, `pack/rule`",
        gives: Gives::Text,
        get: |run, at| Ok(Found::Text(tight(run, at)?.rule.clone())),
    },
    Property {
        name: "grade",
        says: "grade of the rule",
        doc: "the grade in force of that rule",
        gives: Gives::Word(Grade::all_words),
        get: |run, at| Ok(Found::Text(tight(run, at)?.grade.word().to_owned())),
    },
    Property {
        name: "what",
        says: "what was read",
        doc: "what was read on what, in words",
        gives: Gives::Text,
        get: |run, at| Ok(Found::Text(tight(run, at)?.what.clone())),
    },
    Property {
        name: "margin",
        says: "margin",
        doc: "how far inside its limit it lies",
        gives: Gives::Any,
        get: |run, at| Ok(tight(run, at)?.margin.clone().into()),
    },
    Property {
        name: "uncertainty",
        says: "its uncertainty",
        doc: "the ± of the margin: expanded, with coverage factor 2, from the ± of every value in it",
        gives: Gives::Any,
        get: |run, at| width(run, at, |sure| sure.expanded),
    },
    Property {
        name: "worst_case",
        says: "its worst case",
        doc: "what the margin would lose if every value were off by the whole of its ± in the direction that hurts",
        gives: Gives::Any,
        get: |run, at| width(run, at, |sure| sure.worst),
    },
    Property {
        name: "weigh_first",
        says: "masses to weigh first",
        doc: "the three masses that would make it surest if they were weighed, and the ± that would be left, in words",
        gives: Gives::Text,
        get: |run, at| {
            let tight = sure(run, at)?;
            let masses = tight.masses_to_weigh().into_iter();
            let masses: Vec<String> = masses
                .map(|(mass, _)| format!("{} (± {})", mass.name(), mass.half_width.show(Units::AsWritten)))
                .collect();
            let left = tight.after_weighing().map(|left| left.show(Units::AsWritten)).unwrap_or_default();
            Ok(Found::Text(if masses.is_empty() {
                "measure the places: every mass in it is from a scale".to_owned()
            } else {
                format!("weigh {}: that would leave ± {left}", masses.join(", "))
            }))
        },
    },
];
