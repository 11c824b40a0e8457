//! Every figure of the topic, with how it came about.

mod aboard;
mod lasting;
mod tank;

use pintle_spec::Table;

use crate::case::Case;
use crate::origin::Origin;
use crate::working::Working;

/// Said of what the road does to water.
const NO_WAVES: &str = "a level surface at a steady slope; waves go farther for moments";
/// Said of budgets.
const HABITS: &str = "people use what there is: measure a weekend";

/// Every figure of this topic for a build; none where it has no tanks.
pub fn workings(case: &Case<'_>) -> Vec<Working> {
    if case.build.of_table(Table::Tank).next().is_none() {
        return Vec::new();
    }
    let mut all = lasting::workings(case);
    for (at, body) in case.build.of_table(Table::Tank) {
        all.extend(tank::workings(case, at, body));
    }
    for state in &case.build.states {
        all.extend(aboard::workings(case, state));
    }
    all
}

/// The origin of what water weighs.
fn density() -> Origin {
    Origin::published("IAPWS-97 gives 8.345 lb/gal at 4 °C and 8.330 at 20 °C; 8.34 is reckoned with")
}

#[cfg(test)]
mod tests;
