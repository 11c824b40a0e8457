//! The sorts of figures of water.

use super::Gives::{Figure, Flag, Share};
use super::{Sort, sort};

/// In the order in which they are worked out.
pub(super) const SORTS: &[Sort] = &[
    sort("water/fresh_capacity", Figure("gal"), "what the fresh tanks hold"),
    sort("water/grey_capacity", Figure("gal"), "what the grey tanks hold"),
    sort("water/grey_to_fresh", Share, "room for grey water against fresh water carried"),
    sort("water/label_water", Figure("lb"), "weight of potable water for a label"),
    sort("water/use_per_day", Figure("gal"), "water used in a day"),
    sort("water/days_of_water", Figure("h"), "how long full fresh tanks last"),
    sort("water/days_of_grey", Figure("h"), "how long empty grey tanks take what is used"),
    sort("water/water_full", Figure("lb"), "weight of the water in it when full"),
    sort("water/behind_axle", Figure("in"), "how far the middle of its water is behind the axle"),
    sort(
        "water/slosh_moment",
        Figure("lb·in"),
        "greatest moment of its water's shift at any fill it may have on the road",
    ),
    sort("water/fill_before_frost", Share, "how full it may be for its water to freeze in it"),
    sort("water/could_freeze", Flag, "whether its water could freeze"),
    sort("water/battery_gap", Figure("in"), "distance to the nearest battery"),
    sort("water/water_aboard", Figure("lb"), "weight of all water aboard"),
    sort("water/tank_swing", Share, "tongue share with it full less with it empty"),
    sort("water/slosh_worst", Share, "greatest change of the tongue share, every tank at its worst fill"),
    sort("water/slosh_change", Share, "change of the tongue share when part-full tanks run ahead"),
    sort("water/share_ahead", Share, "tongue share with part-full tanks run ahead, slowing down"),
    sort("water/share_aft", Share, "tongue share with part-full tanks run aft, speeding up"),
    sort("water/gross_all_full", Figure("lb"), "gross weight with every tank full"),
    sort("water/left_all_full", Figure("lb"), "what GVWR leaves with every tank full"),
    sort("water/can_lift", Figure("lb"), "what has to be lifted when it is full"),
    sort("water/lift_height", Figure("in"), "height of its underside, to which it is lifted"),
    sort("water/slosh_shift", Figure("in"), "how far its water runs fore or aft"),
    sort("water/slosh_rise", Figure("in"), "how far its water's centre rises as it runs"),
    sort("water/water_for_stay", Figure("gal"), "water that the stated stay takes"),
    sort("water/pump_time", Figure("h"), "how long the pump takes to empty the fresh tanks"),
];
