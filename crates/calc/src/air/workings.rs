//! Every figure of the topic, with how it came about.

mod burners;
mod course;
mod draught;
mod nights;
mod surroundings;
mod vents;

pub use course::{Night, nights};
pub use nights::WORK_LIMIT;

use pintle_quantity::{Dimension, Quantity};

use crate::case::Case;
use crate::figure::Figure;
use crate::working::Working;

/// The topic's name.
const AIR: &str = "air";
/// What figures of the whole are of.
const BUILD: &str = "the build";

/// Every figure of this topic for a build.
pub fn workings(case: &Case<'_>) -> Vec<Working> {
    let mut all = vents::workings(case);
    all.extend(draught::workings(case));
    all.extend(burners::workings(case));
    all.extend(nights::workings(case));
    all.extend(surroundings::workings(case));
    all
}

/// A constant in SI, shown in a unit.
fn known(si: f64, dimension: Dimension, unit: &str) -> Figure {
    Figure::constant(Quantity::from_si(si, dimension)).shown_in(unit)
}

#[cfg(test)]
mod tests;
