//! The sorts of figures of air.

use super::Gives::{Figure, Flag, Share, Texts};
use super::{Sort, sort};

/// In the order in which they are worked out.
pub(super) const SORTS: &[Sort] = &[
    sort("air/inside_volume", Figure("gal"), "air in the living space, modules taken off"),
    sort("air/vents_roof", Figure("in²"), "fixed free area in the roof"),
    sort("air/vents_high_wall", Figure("in²"), "fixed free area high in the walls"),
    sort("air/vents_low", Figure("in²"), "fixed free area low down"),
    sort("air/vents_between", Figure("in²"), "fixed free area neither high nor low"),
    sort("air/vents_closable", Figure("in²"), "free area of vents that can be shut"),
    sort("air/vents_needed_roof", Figure("in²"), "fixed free area that EN 721 asks for in the roof"),
    sort(
        "air/vents_needed_high_wall",
        Figure("in²"),
        "fixed free area that it asks for high in the walls instead",
    ),
    sort("air/vents_needed_low", Figure("in²"), "fixed free area that it asks for low down"),
    sort("air/draught_mild", Figure("cfm"), "air that the fixed vents draw on a mild, still night"),
    sort("air/draught_cold", Figure("cfm"), "air that the fixed vents draw on a cold, still night"),
    sort(
        "air/combustion_each",
        Figure("in²"),
        "area of each of two openings, low and high, for combustion air",
    ),
    sort("air/combustion_single", Figure("in²"), "area of a single opening for combustion air"),
    sort("air/combustion_ducts", Figure("in²"), "area of each of two level ducts for combustion air"),
    sort("air/combustion_room", Figure("gal"), "room that needs no opening for combustion air"),
    sort("air/fumes", Figure("cfm"), "carbon dioxide that flueless burners inside give off at full flame"),
    sort("air/carbon_dioxide", Figure("cfm"), "carbon dioxide that the sleepers inside give off"),
    sort("air/air_each", Figure("cfm"), "air that each sleeper inside gets on a mild, still night"),
    sort(
        "air/co2_steady",
        Share,
        "carbon dioxide in the end, on a mild, still night with the fixed vents open",
    ),
    sort("air/co2_morning", Share, "carbon dioxide in the morning"),
    sort("air/co2_mean", Share, "carbon dioxide through the night, on average"),
    sort("air/shut_time", Figure("h"), "how long all can be shut until there are 5,000 ppm"),
    sort("air/moisture", Figure("lb"), "water given off inside through the evening and the night"),
    sort("air/dew_point", Figure("°F"), "highest dew point inside on a cold, still night"),
    sort("air/humidity", Share, "relative humidity inside in the morning of a cold, still night"),
    sort("air/surface", Figure("°F"), "temperature of the coldest surface inside on a cold night"),
    sort("air/dew_margin", Figure("°F"), "coldest surface above the dew point; below it water settles"),
    sort("air/covered_vents", Texts, "vents that something aboard covers"),
    sort("air/gassing_inside", Texts, "batteries with open cells in the air that people sleep in"),
    sort("air/open_heaters", Texts, "heaters used inside that take their air from the room"),
    sort("air/bedding_gap", Figure("in"), "distance to the nearest berth inside"),
    sort("air/alarm_height", Figure("in"), "its middle above the floor"),
    sort("air/alarm_inside", Flag, "whether it hangs in the air that people sleep in"),
    sort("air/exhaust_gap", Figure("in"), "distance to the nearest opening into the box"),
    sort("air/battery_vents_low", Figure("in²"), "fixed free area low in the battery's box"),
    sort("air/battery_vents_high", Figure("in²"), "fixed free area high in the battery's box"),
    sort("air/battery_vents_needed", Figure("in²"), "free area that a battery box needs low and high, each"),
];
