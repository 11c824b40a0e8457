//! What can be asked of a part, by its kind.

use pintle_calc::{Figure, gas, roof, space};
use pintle_quantity::Dimension;
use pintle_spec::{Build, Item, Known, Missing, Reach, Table, Zone};

use super::{Found, Gives, Property};
use crate::thing::What;

/// What can be asked of a part of a kind.
pub(super) fn of_kind(kind: &str) -> &'static [Property] {
    match kind {
        "rack" => RACK,
        "tent" => TENT,
        "locker" => LOCKER,
        "vent" => VENT,
        _ => ANY,
    }
}

fn part(build: &Build, at: usize) -> Known<&Item> {
    build.items.get(at).ok_or_else(|| Missing::new("the part", None, ""))
}

/// A figure that a thing may not have at all.
fn or_none(found: Option<Figure>, what: &str, build: &Build, at: usize) -> Found {
    let span = build.items.get(at).map(|item| item.tag.span);
    found.map_or_else(|| Found::None(Missing::new(what, span, "")), Found::Figure)
}

/// Where a part's centre of gravity lies along an axis.
fn middle(reach: &Reach) -> Known<Found> {
    Ok(Figure::coordinate(reach.cg.as_ref().map_err(Clone::clone)?).into())
}

const KIND: Property = Property {
    name: "kind",
    says: "kind",
    doc: "what it is",
    gives: Gives::Kind,
    get: |run, at| Ok(Found::Text(part(&run.build, at)?.kind.to_owned())),
};

const CALLED: Property = Property {
    name: "called",
    says: "called",
    doc: "how messages call it, such as \"item `galley`\"",
    gives: Gives::Text,
    get: |run, at| Ok(Found::Text(part(&run.build, at)?.called())),
};

const IS_REMOVABLE: Property = Property {
    name: "is_removable",
    says: "removable",
    doc: "whether the customer can take it out",
    gives: Gives::Flag,
    get: |run, at| Ok(Found::Flag(part(&run.build, at)?.removable)),
};

const IN_SLEEPING_SPACE: Property = Property {
    name: "in_sleeping_space",
    says: "in the sleeping space",
    doc: "whether it shares the air of those who sleep inside, by its measures: a locker is outside only when it opens outward and is sealed",
    gives: Gives::Flag,
    get: |run, at| Ok(Found::Flag(space::whereabouts(&run.build, at)?.place.in_sleeping_space())),
};

const WHEREABOUTS: Property = Property {
    name: "whereabouts",
    says: "whereabouts",
    doc: "where it is and what decides it, in words that follow its name",
    gives: Gives::Text,
    get: |run, at| Ok(Found::Text(space::whereabouts(&run.build, at)?.reason)),
};

const ON_RACK: Property = Property {
    name: "on_rack",
    says: "on a rack",
    doc: "whether it lies on a rack",
    gives: Gives::Flag,
    get: |run, at| Ok(Found::Flag(matches!(part(&run.build, at)?.zone, Zone::Rack(_)))),
};

const LOCKER_OF: Property = Property {
    name: "locker",
    says: "locker",
    doc: "the locker that it stands in, by its measures",
    gives: Gives::Part(Some("locker")),
    get: |run, at| match space::whereabouts(&run.build, at)?.place {
        space::Where::SealedLocker(locker) | space::Where::OpenLocker(locker) => {
            Ok(Found::Thing(What::Item(locker)))
        }
        _ => Ok(Found::None(Missing::new("a locker around it", None, ""))),
    },
};

const BEHIND_BALL: Property = Property {
    name: "behind_ball",
    says: "distance behind the ball",
    doc: "from the ball back to its centre of gravity",
    gives: Gives::Quantity(Dimension::LENGTH),
    get: |run, at| middle(&part(&run.build, at)?.extent.x),
};

const BEHIND_AXLE: Property = Property {
    name: "behind_axle",
    says: "distance behind the axle",
    doc: "from the axle, or the middle of an axle group, back to its centre of gravity; negative ahead of it",
    gives: Gives::Quantity(Dimension::LENGTH),
    get: |run, at| Ok(space::behind_axle(&run.build, at)?.into()),
};

const OFF_CENTRE: Property = Property {
    name: "off_centre",
    says: "distance right of the centreline",
    doc: "from the centreline to its centre of gravity; negative to the left",
    gives: Gives::Quantity(Dimension::LENGTH),
    get: |run, at| middle(&part(&run.build, at)?.extent.y),
};

const ABOVE_GROUND: Property = Property {
    name: "above_ground",
    says: "height above the ground",
    doc: "from the ground up to its centre of gravity, the trailer level",
    gives: Gives::Quantity(Dimension::LENGTH),
    get: |run, at| middle(&part(&run.build, at)?.extent.z),
};

const ANY: &[Property] = &[
    KIND,
    CALLED,
    IS_REMOVABLE,
    BEHIND_BALL,
    BEHIND_AXLE,
    OFF_CENTRE,
    ABOVE_GROUND,
    IN_SLEEPING_SPACE,
    WHEREABOUTS,
    ON_RACK,
    LOCKER_OF,
];

const RACK: &[Property] = &[
    KIND,
    CALLED,
    IS_REMOVABLE,
    BEHIND_BALL,
    BEHIND_AXLE,
    OFF_CENTRE,
    ABOVE_GROUND,
    Property {
        name: "loaded",
        says: "loaded",
        doc: "whether any fitted part lies on it",
        gives: Gives::Flag,
        get: |run, at| {
            let lies = |item: &Item| item.zone == Zone::Rack(at) && item.table != Table::Load;
            Ok(Found::Flag(run.build.items.iter().any(lies)))
        },
    },
    Property {
        name: "on_roof",
        says: "on the roof",
        doc: "whether it stands on the roof",
        gives: Gives::Flag,
        get: |run, at| Ok(Found::Flag(part(&run.build, at)?.zone == Zone::Roof)),
    },
    Property {
        name: "air_gap",
        says: "air gap under what lies on the rack",
        doc: "from the roof skin to the underside of the lowest part on the rack",
        gives: Gives::Quantity(Dimension::LENGTH),
        get: |run, at| Ok(or_none(roof::air_gap(&run.build, at)?, "anything on the rack", &run.build, at)),
    },
    Property {
        name: "stands",
        says: "height of the rack above the roof",
        doc: "from the roof skin to what lies on the rack",
        gives: Gives::Quantity(Dimension::LENGTH),
        get: |run, at| {
            Ok(or_none(roof::stand_height(&run.build, at)?, "a roof under the rack", &run.build, at))
        },
    },
    Property {
        name: "moving_load",
        says: "load on the rack on the road",
        doc: "mass of all that lies on the rack, with bedding kept in tents and the most of each load",
        gives: Gives::Quantity(Dimension::MASS),
        get: |run, at| Ok(roof::moving_load(&run.build, at)?.into()),
    },
    Property {
        name: "parked_load",
        says: "load on the rack when parked",
        doc: "mass of the parts on the rack, the most that a camp state loads on it, and the people of the berths in its tents",
        gives: Gives::Quantity(Dimension::MASS),
        get: |run, at| Ok(roof::parked_load(&run.build, at)?.into()),
    },
    Property {
        name: "moving_load_per_foot",
        says: "load of each rack foot on the road",
        doc: "rack and moving load over the number of feet",
        gives: Gives::Quantity(Dimension::MASS),
        get: |run, at| Ok(roof::load_per_foot(&run.build, at, false)?.into()),
    },
    Property {
        name: "parked_load_per_foot",
        says: "load of each rack foot when parked",
        doc: "rack and parked load over the number of feet",
        gives: Gives::Quantity(Dimension::MASS),
        get: |run, at| Ok(roof::load_per_foot(&run.build, at, true)?.into()),
    },
];

const TENT: &[Property] = &[
    KIND,
    CALLED,
    IS_REMOVABLE,
    BEHIND_BALL,
    BEHIND_AXLE,
    OFF_CENTRE,
    ABOVE_GROUND,
    ON_RACK,
    Property {
        name: "overhang_front",
        says: "overhang ahead of the rack",
        doc: "closed tent beyond its rack ahead; negative when it stops short",
        gives: Gives::Quantity(Dimension::LENGTH),
        get: |run, at| Ok(roof::overhang(&run.build, at)?.front?.into()),
    },
    Property {
        name: "overhang_rear",
        says: "overhang behind the rack",
        doc: "closed tent beyond its rack behind; negative when it stops short",
        gives: Gives::Quantity(Dimension::LENGTH),
        get: |run, at| Ok(roof::overhang(&run.build, at)?.rear?.into()),
    },
    Property {
        name: "overhang_left",
        says: "overhang left of the rack",
        doc: "closed tent beyond its rack to the left; negative when it stops short",
        gives: Gives::Quantity(Dimension::LENGTH),
        get: |run, at| Ok(roof::overhang(&run.build, at)?.left?.into()),
    },
    Property {
        name: "overhang_right",
        says: "overhang right of the rack",
        doc: "closed tent beyond its rack to the right; negative when it stops short",
        gives: Gives::Quantity(Dimension::LENGTH),
        get: |run, at| Ok(roof::overhang(&run.build, at)?.right?.into()),
    },
    Property {
        name: "ahead_of_roof",
        says: "tent ahead of the roof's outline",
        doc: "closed tent beyond the box ahead, at its front corners against the nose; negative when it stops short",
        gives: Gives::Quantity(Dimension::LENGTH),
        get: |run, at| Ok(roof::beyond_roof(&run.build, at)?.ahead?.into()),
    },
    Property {
        name: "aside_of_roof",
        says: "tent beyond the roof's side",
        doc: "closed tent beyond the box to the side where it is more; negative when it stops short",
        gives: Gives::Quantity(Dimension::LENGTH),
        get: |run, at| Ok(roof::beyond_roof(&run.build, at)?.aside?.into()),
    },
    Property {
        name: "floor_height",
        says: "height of the tent's floor",
        doc: "the tent's floor above the ground",
        gives: Gives::Quantity(Dimension::LENGTH),
        get: |run, at| Ok(roof::tent_floor_height(&run.build, at)?.into()),
    },
    Property {
        name: "ladder_needed",
        says: "ladder needed",
        doc: "working length of a ladder that reaches the tent's floor with its foot out a quarter of that length",
        gives: Gives::Quantity(Dimension::LENGTH),
        get: |run, at| Ok(roof::ladder_needed(&roof::tent_floor_height(&run.build, at)?).into()),
    },
];

const LOCKER: &[Property] = &[
    KIND,
    CALLED,
    IS_REMOVABLE,
    BEHIND_BALL,
    BEHIND_AXLE,
    OFF_CENTRE,
    ABOVE_GROUND,
    Property {
        name: "holds_cylinder",
        says: "holds a cylinder",
        doc: "whether a cylinder stands in it, by its measures",
        gives: Gives::Flag,
        get: |run, at| {
            for (cylinder, _) in run.build.of_kind("cylinder") {
                let place = space::whereabouts(&run.build, cylinder)?.place;
                if matches!(place, space::Where::SealedLocker(locker) | space::Where::OpenLocker(locker) if locker == at)
                {
                    return Ok(Found::Flag(true));
                }
            }
            Ok(Found::Flag(false))
        },
    },
    Property {
        name: "floor_area",
        says: "floor area of the locker",
        doc: "its length times its width",
        gives: Gives::Quantity(Dimension::AREA),
        get: |run, at| Ok(gas::locker_floor_area(&run.build, at)?.into()),
    },
    Property {
        name: "vent_area",
        says: "free area of the locker's vents",
        doc: "free area of its vents that lead outside and cannot be shut",
        gives: Gives::Quantity(Dimension::AREA),
        get: |run, at| Ok(gas::locker_vents(&run.build, at)?.total.into()),
    },
    Property {
        name: "low_vent_area",
        says: "free area of the locker's low vents",
        doc: "free area of those in the lower half of its height",
        gives: Gives::Quantity(Dimension::AREA),
        get: |run, at| Ok(gas::locker_vents(&run.build, at)?.low.into()),
    },
    Property {
        name: "high_vent_area",
        says: "free area of the locker's high vents",
        doc: "free area of those in the upper half of its height",
        gives: Gives::Quantity(Dimension::AREA),
        get: |run, at| Ok(gas::locker_vents(&run.build, at)?.high.into()),
    },
    Property {
        name: "low_vent_gap",
        says: "gap from the locker's floor to its low vent",
        doc: "from its floor to the lower edge of the lowest low vent",
        gives: Gives::Quantity(Dimension::LENGTH),
        get: |run, at| {
            Ok(or_none(
                gas::locker_vents(&run.build, at)?.low_gap,
                "a low vent of the locker",
                &run.build,
                at,
            ))
        },
    },
    Property {
        name: "high_vent_gap",
        says: "gap from the locker's high vent to its ceiling",
        doc: "from the underside of the highest high vent to its ceiling",
        gives: Gives::Quantity(Dimension::LENGTH),
        get: |run, at| {
            Ok(or_none(
                gas::locker_vents(&run.build, at)?.high_gap,
                "a high vent of the locker",
                &run.build,
                at,
            ))
        },
    },
];

const VENT: &[Property] = &[
    KIND,
    CALLED,
    BEHIND_BALL,
    BEHIND_AXLE,
    OFF_CENTRE,
    ABOVE_GROUND,
    Property {
        name: "in_roof",
        says: "in the roof",
        doc: "whether it is in the roof",
        gives: Gives::Flag,
        get: |run, at| Ok(Found::Flag(part(&run.build, at)?.zone == Zone::Roof)),
    },
    Property {
        name: "covered_by",
        says: "covered by",
        doc: "parts on the roof or on a rack whose outline covers it",
        gives: Gives::Parts(None),
        get: |run, at| {
            let covered = roof::covered_vents(&run.build)?;
            let over = covered.into_iter().filter(|(vent, _)| *vent == at).map(|(_, over)| What::Item(over));
            Ok(Found::Things(over.collect()))
        },
    },
];
