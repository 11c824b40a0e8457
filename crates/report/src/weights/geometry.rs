//! Measures of a build in the documents: areas, heights, overhangs, vents.

use pintle_calc::{Figure, Known, air, roof, space};
use pintle_quantity::Units;
use pintle_spec::Build;
use serde::Serialize;

use super::shown::Shown;

/// Measures of a build.
#[derive(Debug, Serialize)]
pub(super) struct Geometry {
    plan_area: Shown,
    inside_length: Shown,
    overall_height: Shown,
    tents: Vec<Tent>,
    racks: Vec<Rack>,
    vents: Vents,
}

#[derive(Debug, Serialize)]
struct Tent {
    tag: String,
    overhang: Sides,
    beyond_roof: Beyond,
}

#[derive(Debug, Serialize)]
struct Sides {
    front: Shown,
    rear: Shown,
    left: Shown,
    right: Shown,
}

#[derive(Debug, Serialize)]
struct Beyond {
    ahead: Shown,
    aside: Shown,
    behind: Shown,
}

#[derive(Debug, Serialize)]
struct Rack {
    tag: String,
    air_gap: Shown,
    stands: Shown,
}

#[derive(Debug, Serialize)]
struct Vents {
    roof: Shown,
    high_wall: Shown,
    low: Shown,
}

/// The measures of a build.
pub(super) fn geometry(build: &Build, units: Units) -> Geometry {
    let shown = |figure: Known<Figure>| Shown::figure(figure, units);
    let tents = build.of_kind("tent").map(|(at, tent)| {
        let overhang = roof::overhang(build, at);
        let side = |pick: fn(&roof::Overhang) -> &Known<Figure>| {
            shown(overhang.as_ref().map_err(Clone::clone).and_then(|all| pick(all).clone()))
        };
        let beyond = roof::beyond_roof(build, at);
        let past = |pick: fn(&roof::BeyondRoof) -> &Known<Figure>| {
            shown(beyond.as_ref().map_err(Clone::clone).and_then(|all| pick(all).clone()))
        };
        Tent {
            tag: tent.tag.value.clone(),
            overhang: Sides {
                front: side(|all| &all.front),
                rear: side(|all| &all.rear),
                left: side(|all| &all.left),
                right: side(|all| &all.right),
            },
            beyond_roof: Beyond {
                ahead: past(|all| &all.ahead),
                aside: past(|all| &all.aside),
                behind: past(|all| &all.behind),
            },
        }
    });
    let racks = build.of_kind("rack").map(|(at, rack)| Rack {
        tag: rack.tag.value.clone(),
        air_gap: Shown::optional(roof::air_gap(build, at), "anything on the rack", units),
        stands: Shown::optional(roof::stand_height(build, at), "a roof under the rack", units),
    });
    let vents = air::vents(build);
    let of = |pick: fn(&air::Vents) -> &Figure| {
        shown(vents.as_ref().map(|vents| pick(vents).clone()).map_err(Clone::clone))
    };
    Geometry {
        plan_area: shown(space::plan_area(build)),
        inside_length: shown(space::inside_length(build)),
        overall_height: shown(roof::overall_height(build)),
        tents: tents.collect(),
        racks: racks.collect(),
        vents: Vents { roof: of(|v| &v.roof), high_wall: of(|v| &v.high_wall), low: of(|v| &v.low) },
    }
}
