//! Every figure of the topic, with how it came about.

mod bow;
mod rack;
mod tent;

use pintle_spec::{Known, Zone};

use super::{covered_vents, on_roof, opened, overall_height};
use crate::case::Case;
use crate::origin::Origin;
use crate::working::{Outcome, Working};

/// Said of what beams carry.
const STATICS: &str = "statics of bars as drawn; rust, welds and fixings are for an engineer, and a maker's statement goes before it";

/// Every figure of this topic for a build.
pub fn workings(case: &Case<'_>) -> Vec<Working> {
    let build = case.build;
    let mut all = whole(case);
    for (at, body) in build.of_kind("rack") {
        all.extend(rack::workings(case, at, body));
    }
    if build.of_kind("rack").any(|(_, body)| body.zone == Zone::Roof) {
        all.extend(bow::workings(case));
    }
    for (at, body) in build.of_kind("tent") {
        all.extend(tent::workings(case, at, body));
    }
    all
}

/// Figures of the roof as a whole.
fn whole(case: &Case<'_>) -> Vec<Working> {
    let build = case.build;
    let height = |key, says, found: Known<crate::Figure>| {
        Working::of("roof", key, "the build", says, |work| {
            let origin = Origin::derived("the greatest of all tops");
            work.step("z", "highest point above the ground", "max z", found, origin)
        })
    };
    let mut all = vec![height("height_closed", "overall height, tents closed", overall_height(build))];
    if build.of_kind("tent").next().is_some() {
        all.push(height("height_open", "overall height, tents open", opened::open_height(build)));
    }
    if build.items.iter().any(|body| body.zone == Zone::Roof) {
        let load = on_roof(build);
        let carried = |key, says, found: Known<crate::Figure>| {
            Working::of("roof", key, "the build", says, |work| {
                work.step(
                    "m",
                    "racks and all on them, and what stands on the skin",
                    "Σ m",
                    found,
                    Origin::derived("sum"),
                )
            })
        };
        all.push(carried("roof_moving", "what the roof carries on the road", load.moving));
        all.push(carried("roof_parked", "what the roof carries when parked", load.parked));
        all.push(Working::of(
            "roof",
            "covered_vents",
            "the build",
            "roof vents below a closed tent or a rack",
            |_| {
                let name =
                    |at: usize| build.items.get(at).map_or_else(String::new, pintle_spec::Item::called);
                let pairs = covered_vents(build)?;
                let told =
                    pairs.into_iter().map(|(vent, over)| format!("{} under {}", name(vent), name(over)));
                Ok(Outcome::Texts(told.collect()))
            },
        ));
    }
    all
}

#[cfg(test)]
mod tests;
