//! What each kind of part may state beyond what all parts may.

/// A module: galley, settee, dinette, cabinet, bed platform.
pub mod module {
    crate::schema! {
        /// A module.
        "a module" with crate::schema::item::SCHEMA;
    }
}

/// Equipment: whatever has no kind of its own.
pub mod equipment {
    use crate::field::Kind::Flag;

    crate::schema! {
        /// Equipment.
        "equipment" with crate::schema::item::SCHEMA;
        SPARKS = "sparks": Flag; "whether it can spark or set gas alight, as inverters, converters and switches can"
    }
}

/// A roof rack.
pub mod rack {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Count, Quantity, Word};
    use crate::field::Range::Positive;

    crate::schema! {
        /// A roof rack. Its height is from the roof skin to what lies on it.
        "a rack" with crate::schema::item::SCHEMA;
        MOVING = "moving": Quantity(Dimension::MASS, Positive); "what it may carry on the road, beyond its own weight"
        PARKED = "parked": Quantity(Dimension::MASS, Positive); "what it may carry when parked, beyond its own weight"
        FEET = "feet": Count(1); "how many feet it stands on"
        FOOT_RATING = "foot_rating": Quantity(Dimension::MASS, Positive); "what each foot may carry"
        FEET_ON = "feet_on": Word(&["bows", "posts", "rails", "skin"]); "what the feet are fixed to"
    }
}

/// A rooftop tent.
pub mod tent {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Quantity, Word};
    use crate::field::Range::{NotNegative, Positive};

    crate::schema! {
        /// A rooftop tent. Its length, width and height are those of the closed tent.
        "a tent" with crate::schema::item::SCHEMA;
        OPENS = "opens": Word(&["left", "right", "front", "rear", "up"]); "the side to which it opens"
        OPEN_REACH = "open_reach": Quantity(Dimension::LENGTH, NotNegative); "how far the opened tent reaches beyond the closed one on that side"
        BEDDING = "bedding": Quantity(Dimension::MASS, NotNegative); "weight of bedding kept in it"
        FLOOR = "floor": Quantity(Dimension::LENGTH, NotNegative); "height of its floor above its underside"
        LADDER = "ladder": Quantity(Dimension::LENGTH, Positive); "working length of its ladder"
    }
}

/// A ladder that is not a tent's own.
pub mod ladder {
    use pintle_quantity::Dimension;

    use crate::field::Kind::Quantity;
    use crate::field::Range::Positive;

    crate::schema! {
        /// A ladder.
        "a ladder" with crate::schema::item::SCHEMA;
        WORKING = "working": Quantity(Dimension::LENGTH, Positive); "working length, along the rails"
    }
}

/// A gas cylinder.
pub mod cylinder {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Flag, Quantity, Word};
    use crate::field::Range::Positive;

    crate::schema! {
        /// A gas cylinder. Its mass is that of the full cylinder: full propane counts as part of the unloaded trailer.
        "a cylinder" with crate::schema::item::SCHEMA;
        FUEL = "fuel": Word(&["propane", "butane"]); "what is in it"
        GAS = "gas": Quantity(Dimension::MASS, Positive); "weight of the gas when full"
        UPRIGHT = "upright": Flag; "whether it stands upright as fitted"
        WATER_CAPACITY = "water_capacity": Quantity(Dimension::MASS, Positive); "weight of the water it would hold, stamped on its collar (WC)"
        RESTRAINT = "restraint": Quantity(Dimension::MASS, Positive); "load that its ring, bracket or strap holds in its weakest direction"
    }
}

/// Something that burns fuel.
pub mod appliance {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Quantity, Word};
    use crate::field::Range::{NotNegative, Positive};

    crate::schema! {
        /// A stove, heater, water heater or refrigerator that burns fuel.
        "an appliance" with crate::schema::item::SCHEMA;
        FUEL = "fuel": Word(&["propane", "butane", "diesel", "petrol", "alcohol", "wood"]); "what it burns"
        INPUT = "input": Quantity(Dimension::POWER, Positive); "heat input at full flame"
        FLUE = "flue": Word(&["flueless", "open-flued", "room-sealed"]); "where its air comes from and its fumes go to"
        USED = "used": Word(&["inside", "outside"]); "where it is used"
        PURPOSE = "purpose": Word(&["cooking", "heating", "hot water", "cooling"]); "what it is for"
        DAILY = "daily": Quantity(Dimension::TIME, NotNegative); "time in a day for which it burns, reckoned at full flame"
    }
}

/// A battery.
pub mod battery {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Quantity, Word};
    use crate::field::Range::Positive;

    crate::schema! {
        /// A battery.
        "a battery" with crate::schema::item::SCHEMA;
        CAPACITY = "capacity": Quantity(Dimension::CHARGE, Positive); "charge at the twenty-hour rate"
        VOLTAGE = "voltage": Quantity(Dimension::VOLTAGE, Positive); "nominal voltage"
        CHEMISTRY = "chemistry": Word(&["lithium iron phosphate", "flooded lead", "absorbed glass mat", "gel"]); "what it is made of"
    }
}

/// An alarm.
pub mod alarm {
    use crate::field::Kind::Words;

    crate::schema! {
        /// An alarm.
        "an alarm" with crate::schema::item::SCHEMA;
        SENSES = "senses": Words(&["propane", "carbon monoxide", "smoke"]); "what sets it off"
        LISTED = "listed": Words(&["UL 217", "UL 1484", "UL 2034", "EN 14604", "EN 50194-2", "EN 50291-2"]); "the standards it is listed or marked to"
    }
}

/// A water tank.
pub mod tank {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Quantity, Table, Word};
    use crate::field::Range::Positive;

    crate::schema! {
        /// A water tank. Its mass is that of the empty tank.
        "a tank" with crate::schema::item::SCHEMA;
        CAPACITY = "capacity": Quantity(Dimension::VOLUME, Positive); "what it holds when full"
        HOLDS = "holds": Word(&["fresh", "grey", "black"]); "which water it holds"
        ON_ROAD = "on_road": Table(&on_road::SCHEMA); "how full it may be on the road; anything from empty to full when not given"
    }

    /// `on_road`.
    pub mod on_road {
        use pintle_quantity::Dimension;

        use crate::field::Kind::Quantity;
        use crate::field::Range::Share;

        crate::schema! {
            /// `on_road`.
            "how full the tank may be on the road";
            LEAST = "least": Quantity(Dimension::NONE, Share), required; "the least it holds on the road"
            MOST = "most": Quantity(Dimension::NONE, Share), required; "the most it holds on the road"
        }
    }
}

/// A door, window or hatch.
pub mod opening {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Quantity, Word};
    use crate::field::Range::Positive;

    crate::schema! {
        /// A door, window or hatch. Its size is that of the frame's outside; the opening left free may be smaller.
        "an opening" with crate::schema::item::SCHEMA;
        SORT = "sort": Word(&["door", "barn doors", "ramp", "window", "hatch"]); "what it is"
        CLEAR_WIDTH = "clear_width": Quantity(Dimension::LENGTH, Positive); "width left free when it is open: along the wall, or across the roof"
        CLEAR_HEIGHT = "clear_height": Quantity(Dimension::LENGTH, Positive); "height left free when it is open, or length of a hatch in the roof"
        SWINGS = "swings": Word(&["out", "in", "up", "down", "slides", "lifts off"]); "which way it opens"
        HINGE = "hinge": Word(&["front", "rear", "left", "right", "top", "bottom"]); "the edge that it is hung on"
    }
}

/// A load that may ride along: luggage, food, bicycles.
pub mod load {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Flag, Quantity};
    use crate::field::Range::NotNegative;

    crate::schema! {
        /// A load. Its mass is the most that rides along; without a size it is a point at its place.
        "a load" with crate::schema::item::SCHEMA;
        LEAST = "least": Quantity(Dimension::MASS, NotNegative), required; "the least of it that rides along; zero for what may stay at home"
        USED_UP = "used_up": Flag; "whether it is used up on the way, as food is"
    }
}

/// A locker.
pub mod locker {
    use crate::field::Kind::{Flag, Word};

    crate::schema! {
        /// A locker: an enclosed box that other parts can stand in.
        "a locker" with crate::schema::item::SCHEMA;
        OPENS = "opens": Word(&["outside", "inside"]); "to which side its door opens"
        SEALED = "sealed": Flag; "whether it is vapour-tight to the inside of the trailer"
    }
}

/// A bulkhead.
pub mod bulkhead {
    use crate::field::Kind::Flag;

    crate::schema! {
        /// A bulkhead: a wall across the whole box.
        "a bulkhead" with crate::schema::item::SCHEMA;
        SEALED = "sealed": Flag; "whether it is vapour-tight, without a door"
    }
}

/// A berth.
pub mod berth {
    use crate::field::Kind::Count;

    crate::schema! {
        /// A berth. Its height is that of the mattress's top above its underside.
        "a berth" with crate::schema::item::SCHEMA;
        PEOPLE = "people": Count(0); "how many it is for"
    }
}

/// A vent.
pub mod vent {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Flag, Quantity, Text, Word};
    use crate::field::Range::NotNegative;

    crate::schema! {
        /// A vent.
        "a vent" with crate::schema::item::SCHEMA;
        AREA = "area": Quantity(Dimension::AREA, NotNegative); "free area, with its screen on"
        CLOSABLE = "closable": Flag; "whether it can be shut"
        LEADS = "leads": Word(&["outside", "inside"]); "where its other end is; outside when not given"
        GROSS = "gross": Quantity(Dimension::AREA, NotNegative); "area of the bare opening, where its free area is not known"
        COVER = "cover": Word(&["none", "screen", "louvre", "screen and louvre"]); "what stands in the bare opening"
        EXHAUST_OF = "exhaust_of": Text; "tag of the appliance whose fumes leave by it: such a vent gives no air"
    }
}
