//! What can be asked of a state.

use pintle_calc::arrange::Extremum;
use pintle_quantity::Dimension;
use pintle_spec::Use;

use super::{Found, Gives, Property};

/// What can be asked of a state.
pub(super) const PROPERTIES: &[Property] = &[
    Property {
        name: "name",
        says: "name",
        doc: "the state's name",
        gives: Gives::Text,
        get: |run, at| Ok(Found::Text(run.state(at).map_or(String::new(), |state| state.name.value.clone()))),
    },
    Property {
        name: "on_road",
        says: "on the road",
        doc: "whether it is a road state",
        gives: Gives::Flag,
        get: |run, at| Ok(Found::Flag(run.state(at).is_some_and(|state| state.used == Use::Road))),
    },
    Property {
        name: "gross",
        says: "gross weight",
        doc: "total weight of trailer, parts, water, loads and people",
        gives: Gives::Quantity(Dimension::MASS),
        get: |run, at| Ok(run.weights(at).gross()?.into()),
    },
    Property {
        name: "unloaded",
        says: "unloaded weight",
        doc: "weight without water, loads and people; full propane is part of it",
        gives: Gives::Quantity(Dimension::MASS),
        get: |run, at| Ok(run.weights(at).unloaded()?.into()),
    },
    Property {
        name: "cargo",
        says: "cargo",
        doc: "weight of water, loads and people",
        gives: Gives::Quantity(Dimension::MASS),
        get: |run, at| Ok(run.weights(at).cargo()?.into()),
    },
    Property {
        name: "cargo_left",
        says: "cargo capacity left",
        doc: "GVWR less gross weight; negative when over it",
        gives: Gives::Quantity(Dimension::MASS),
        get: |run, at| Ok(run.weights(at).cargo_left()?.into()),
    },
    Property {
        name: "tongue",
        says: "tongue weight",
        doc: "weight on the ball; negative when the tongue lifts",
        gives: Gives::Quantity(Dimension::MASS),
        get: |run, at| Ok(run.weights(at).tongue()?.into()),
    },
    Property {
        name: "tongue_share",
        says: "tongue share",
        doc: "tongue weight as a share of gross weight",
        gives: Gives::Quantity(Dimension::NONE),
        get: |run, at| Ok(run.weights(at).tongue_share()?.into()),
    },
    Property {
        name: "axle_load",
        says: "axle load",
        doc: "weight on all axles together",
        gives: Gives::Quantity(Dimension::MASS),
        get: |run, at| Ok(run.weights(at).axles()?.into()),
    },
    Property {
        name: "each_axle",
        says: "load of each axle",
        doc: "weight on each axle of a group that shares it evenly",
        gives: Gives::Quantity(Dimension::MASS),
        get: |run, at| Ok(run.weights(at).each_axle()?.into()),
    },
    Property {
        name: "left",
        says: "load of the left wheels",
        doc: "weight on all left wheels",
        gives: Gives::Quantity(Dimension::MASS),
        get: |run, at| Ok(run.weights(at).left()?.into()),
    },
    Property {
        name: "right",
        says: "load of the right wheels",
        doc: "weight on all right wheels",
        gives: Gives::Quantity(Dimension::MASS),
        get: |run, at| Ok(run.weights(at).right()?.into()),
    },
    Property {
        name: "side_share",
        says: "side imbalance",
        doc: "difference of right and left wheels as a share of the axle load",
        gives: Gives::Quantity(Dimension::NONE),
        get: |run, at| Ok(run.weights(at).side_share()?.into()),
    },
    Property {
        name: "heaviest_tire",
        says: "load of the heaviest tire",
        doc: "load of each tire on the heavier side",
        gives: Gives::Quantity(Dimension::MASS),
        get: |run, at| {
            let tires = pintle_calc::ratings::tires_a_side(&run.build)?;
            Ok(run.weights(at).heaviest_wheel()?.scaled(1.0 / tires).into())
        },
    },
    Property {
        name: "cg_behind_ball",
        says: "centre of gravity behind the ball",
        doc: "distance of the centre of gravity behind the ball",
        gives: Gives::Quantity(Dimension::LENGTH),
        get: |run, at| Ok(run.weights(at).centre_x()?.into()),
    },
    Property {
        name: "cg_right",
        says: "centre of gravity right of the centreline",
        doc: "distance of the centre of gravity right of the centreline; negative to the left",
        gives: Gives::Quantity(Dimension::LENGTH),
        get: |run, at| Ok(run.weights(at).centre_y()?.into()),
    },
    Property {
        name: "cg_height",
        says: "height of the centre of gravity",
        doc: "height of the centre of gravity above the ground",
        gives: Gives::Quantity(Dimension::LENGTH),
        get: |run, at| Ok(run.weights(at).centre_z()?.into()),
    },
    Property {
        name: "stability_factor",
        says: "static stability factor",
        doc: "half the track over the height of the centre of gravity",
        gives: Gives::Quantity(Dimension::NONE),
        get: |run, at| Ok(run.weights(at).stability_factor()?.into()),
    },
];

/// The figures that a property of a state is worked out from: where each of them is least or greatest, so is it.
pub(crate) fn extremes_of(property: &str) -> &'static [Extremum] {
    match property {
        "gross" | "cargo_left" => &[Extremum::Gross],
        "unloaded" => &[Extremum::Unloaded],
        "tongue" => &[Extremum::Tongue],
        "tongue_share" => &[Extremum::TongueShare],
        "axle_load" | "each_axle" => &[Extremum::Axles],
        "left" => &[Extremum::Left],
        "right" => &[Extremum::Right],
        "heaviest_tire" => &[Extremum::Left, Extremum::Right],
        "side_share" => &[Extremum::SideShare],
        "cg_behind_ball" => &[Extremum::CentreX],
        "cg_right" => &[Extremum::CentreY],
        "cg_height" | "stability_factor" => &[Extremum::CentreZ],
        "name" | "on_road" => &[],
        // Of the cargo no extreme is sought by itself: it is read on every one.
        _ => Extremum::ALL,
    }
}
