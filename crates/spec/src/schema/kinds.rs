//! What each kind of part may state beyond what all parts may.

/// A module: galley, settee, dinette, cabinet, bed platform.
pub mod module {
    use crate::field::Kind::{Table, Tables};
    use crate::schema::moves;

    crate::schema! {
        /// A module.
        "a module" with crate::schema::item::SCHEMA;
        SWINGS = "swings": Tables(&moves::swing::SCHEMA); "its doors, drawers and lids"
        FOLDS = "folds": Table(&moves::folds::SCHEMA); "where it is when it is folded away"
    }
}

/// Equipment: whatever has no kind of its own.
pub mod equipment {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Flag, Quantity, Word};
    use crate::field::Range::NotNegative;

    crate::schema! {
        /// Equipment.
        "equipment" with crate::schema::item::SCHEMA;
        SPARKS = "sparks": Flag; "whether it can spark or set gas alight, as inverters, converters and switches can"
        ENGINE = "engine": Word(&["petrol", "diesel", "propane"]); "what its engine burns, of a generator and the like"
        RUN_AWAY = "run_away": Quantity(Dimension::LENGTH, NotNegative); "how far from the trailer its engine is run; zero where it runs in its place"
    }
}

/// A roof rack.
pub mod rack {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Count, Quantity, Tables, Word};
    use crate::field::Range::{NotNegative, Positive};

    crate::schema! {
        /// A roof rack. Its height is from the roof skin to what lies on it.
        "a rack" with crate::schema::item::SCHEMA;
        MOVING = "moving": Quantity(Dimension::MASS, Positive); "what it may carry on the road, beyond its own weight"
        PARKED = "parked": Quantity(Dimension::MASS, Positive); "what it may carry when parked, beyond its own weight"
        FEET = "feet": Count(1); "how many feet it stands on"
        FOOT_RATING = "foot_rating": Quantity(Dimension::MASS, Positive); "what each foot may carry"
        FEET_ON = "feet_on": Word(&["bows", "posts", "rails", "skin"]); "what the feet are fixed to"
        FEET_AT = "feet_at": Tables(&feet_at::SCHEMA); "where its feet stand, row by row, a left and a right foot in each"
        FOOT_FIRST = "foot_first": Quantity(Dimension::LENGTH, NotNegative); "for rows at even distances: from its front edge to the first row of feet"
        FOOT_SPACING = "foot_spacing": Quantity(Dimension::LENGTH, Positive); "for rows at even distances: from one row of feet to the next"
        FOOT_GAUGE = "foot_gauge": Quantity(Dimension::LENGTH, Positive); "between left and right feet; its width when not given"
    }

    /// One row of `feet_at`.
    pub mod feet_at {
        use pintle_quantity::Dimension;

        use crate::field::Kind::Quantity;
        use crate::field::Range::NotNegative;

        crate::schema! {
            /// One row of `feet_at`.
            "a row of feet";
            FRONT = "front": Quantity(Dimension::LENGTH, NotNegative), required; "from the rack's front edge to the middle of the feet"
        }
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
        LADDER_SIDE = "ladder_side": Word(&["left", "right", "front", "rear"]); "the side that its ladder stands on; the side to which it opens when not given"
        OPEN_HEIGHT = "open_height": Quantity(Dimension::LENGTH, Positive); "height of the opened tent above its underside"
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
    use crate::field::Range::{NotNegative, Positive};

    crate::schema! {
        /// A gas cylinder. Its mass is that of the full cylinder: full propane counts as part of the unloaded trailer.
        "a cylinder" with crate::schema::item::SCHEMA;
        FUEL = "fuel": Word(&["propane", "butane"]); "what is in it"
        GAS = "gas": Quantity(Dimension::MASS, Positive); "weight of the gas when full"
        UPRIGHT = "upright": Flag; "whether it stands upright as fitted"
        WATER_CAPACITY = "water_capacity": Quantity(Dimension::MASS, Positive); "weight of the water it would hold, stamped on its collar (WC)"
        RESTRAINT = "restraint": Quantity(Dimension::MASS, NotNegative); "load that its ring, bracket or strap holds in its weakest direction; zero for one that nothing holds"
        AGE = "age": Quantity(Dimension::TIME, NotNegative); "time since it was made or last requalified, by the date stamped on its collar, when the spec was last looked over"
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
        CLEARANCE_NEEDED = "clearance_needed": Quantity(Dimension::LENGTH, NotNegative); "room that its maker asks for between it and what can burn"
        DAILY = "daily": Quantity(Dimension::TIME, NotNegative); "time in a day for which it burns, reckoned at full flame"
    }
}

/// A battery.
pub mod battery {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Flag, Quantity, Word};
    use crate::field::Range::Positive;

    /// What a battery can be made of.
    pub const CHEMISTRIES: &[&str] = &["lithium iron phosphate", "flooded lead", "absorbed glass mat", "gel"];

    crate::schema! {
        /// A battery.
        "a battery" with crate::schema::item::SCHEMA;
        CAPACITY = "capacity": Quantity(Dimension::CHARGE, Positive); "charge at the twenty-hour rate"
        VOLTAGE = "voltage": Quantity(Dimension::VOLTAGE, Positive); "nominal voltage"
        CHEMISTRY = "chemistry": Word(CHEMISTRIES); "what it is made of"
        CONTINUOUS = "continuous": Quantity(Dimension::CURRENT, Positive); "current that it, or its own protection, allows without end"
        CHARGE_MOST = "charge_most": Quantity(Dimension::CURRENT, Positive); "greatest charging current that its maker allows"
        SHORT_CIRCUIT = "short_circuit": Quantity(Dimension::CURRENT, Positive); "current that it gives into a short circuit"
        RESISTANCE = "resistance": Quantity(Dimension::RESISTANCE, Positive); "its internal resistance; the short-circuit current is worked out from it when that is not given"
        COLD_CUT_OFF = "cold_cut_off": Flag; "whether it refuses by itself to be charged below freezing"
    }
}

/// An inverter.
pub mod inverter {
    use pintle_quantity::Dimension;

    use crate::field::Kind::Quantity;
    use crate::field::Range::{NotNegative, Positive, Share};

    crate::schema! {
        /// An inverter: mains voltage from the batteries.
        "an inverter" with crate::schema::item::SCHEMA;
        POWER = "power": Quantity(Dimension::POWER, Positive); "power that it gives without end"
        VOLTAGE = "voltage": Quantity(Dimension::VOLTAGE, Positive); "nominal voltage of the batteries it is made for"
        LOWEST = "lowest": Quantity(Dimension::VOLTAGE, Positive); "battery voltage below which it switches off"
        EFFICIENCY = "efficiency": Quantity(Dimension::NONE, Share); "share of what it takes that it gives"
        IDLE = "idle": Quantity(Dimension::POWER, NotNegative); "power that it takes when it is on and nothing is plugged in"
        CLEARANCE = "clearance": Quantity(Dimension::LENGTH, NotNegative); "free air left round it as fitted"
        CLEARANCE_NEEDED = "clearance_needed": Quantity(Dimension::LENGTH, NotNegative); "free air that its maker asks for"
    }
}

/// A charger.
pub mod charger {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Quantity, Word, Words};
    use crate::field::Range::{NotNegative, Positive, Share};

    crate::schema! {
        /// A charger: from the mains, from the tow vehicle, or from solar panels.
        "a charger" with crate::schema::item::SCHEMA;
        SORT = "sort": Word(&["mains", "DC to DC", "solar"]); "what it charges from"
        CURRENT = "current": Quantity(Dimension::CURRENT, Positive); "greatest current that it gives"
        VOLTAGE = "voltage": Quantity(Dimension::VOLTAGE, Positive); "voltage at which it gives that current"
        EFFICIENCY = "efficiency": Quantity(Dimension::NONE, Share); "share of what it takes that it gives"
        CHARGES = "charges": Words(super::battery::CHEMISTRIES); "what batteries it has a setting for"
        INPUT_MOST = "input_most": Quantity(Dimension::VOLTAGE, Positive); "greatest voltage that its input stands; of a solar controller, the panels' open-circuit voltage"
        CLEARANCE = "clearance": Quantity(Dimension::LENGTH, NotNegative); "free air left round it as fitted"
        CLEARANCE_NEEDED = "clearance_needed": Quantity(Dimension::LENGTH, NotNegative); "free air that its maker asks for"
    }
}

/// A solar panel.
pub mod solar {
    use pintle_quantity::Dimension;

    use crate::field::Kind::Quantity;
    use crate::field::Range::{Positive, Share};

    crate::schema! {
        /// A solar panel; its figures are those at 1,000 W/m² and 25 °C.
        "a solar panel" with crate::schema::item::SCHEMA;
        POWER = "power": Quantity(Dimension::POWER, Positive); "power at 1,000 W/m² and 25 °C"
        OPEN_VOLTAGE = "open_voltage": Quantity(Dimension::VOLTAGE, Positive); "open-circuit voltage at 25 °C"
        WORKING_VOLTAGE = "working_voltage": Quantity(Dimension::VOLTAGE, Positive); "voltage at its greatest power"
        SHORT_CURRENT = "short_current": Quantity(Dimension::CURRENT, Positive); "short-circuit current"
        POWER_FALL = "power_fall": Quantity(Dimension::NONE, Share); "share of its power that it loses for each kelvin above 25 °C"
        VOLTAGE_RISE = "voltage_rise": Quantity(Dimension::NONE, Share); "share of its open-circuit voltage that it gains for each kelvin below 25 °C"
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

    use crate::field::Kind::{Count, Flag, Quantity, Table, Text, Word};
    use crate::field::Range::Positive;

    crate::schema! {
        /// A water tank. Its mass is that of the empty tank.
        "a tank" with crate::schema::item::SCHEMA;
        CAPACITY = "capacity": Quantity(Dimension::VOLUME, Positive); "what it holds when full"
        HOLDS = "holds": Word(&["fresh", "grey", "black"]); "which water it holds"
        ON_ROAD = "on_road": Table(&on_road::SCHEMA); "how full it may be on the road; anything from empty to full when not given"
        BAFFLES = "baffles": Count(0); "walls across it that hold the water back fore and aft; none when not given"
        FROST = "frost": Word(&["drained", "heated", "insulated", "nothing"]); "what is done against frost"
        VENT = "vent": Quantity(Dimension::LENGTH, Positive); "bore of its vent"
        DRAIN = "drain": Flag; "whether it has a drain at its lowest point"
        MARK = "mark": Text; "the mark of a standard for what touches drinking water, as printed on it"
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

    use crate::field::Kind::{Flag, Quantity, Word, Words};
    use crate::field::Range::{Any, Positive};

    crate::schema! {
        /// A door, window or hatch. Its size is that of the frame's outside; the opening left free may be smaller.
        "an opening" with crate::schema::item::SCHEMA;
        SORT = "sort": Word(&["door", "barn doors", "ramp", "window", "hatch"]); "what it is"
        CLEAR_WIDTH = "clear_width": Quantity(Dimension::LENGTH, Positive); "width left free when it is open: along the wall, or across the roof"
        CLEAR_HEIGHT = "clear_height": Quantity(Dimension::LENGTH, Positive); "height left free when it is open, or length of a hatch in the roof"
        SWINGS = "swings": Word(&["out", "in", "up", "down", "slides", "lifts off"]); "which way it opens"
        HINGE = "hinge": Word(&["front", "rear", "left", "right", "top", "bottom"]); "the edge that it is hung on"
        EXIT = "exit": Flag; "whether it is reckoned as a way out for people"
        OUTLINE = "outline": Word(&["rectangle", "ellipse"]); "shape of the opening left free; a rectangle when not given"
        SILL = "sill": Quantity(Dimension::LENGTH, Any); "lower edge of the opening left free above the floor; that of the frame when not given"
        LATCH = "latch": Quantity(Dimension::LENGTH, Any); "height of its latch above the floor"
        INSIDE_RELEASE = "inside_release": Flag; "whether it can be opened from inside without tool or key"
        OUTSIDE_LOCK = "outside_lock": Word(&["none", "key", "hasp", "bar"]); "what can be locked or barred from outside"
        LOCKS_OPEN = "locks_open": Flag; "whether that lock can be locked so that it cannot be closed on people inside"
        CUTS = "cuts": Words(&["post", "bow"]); "which members of the frame were cut for it; an empty list for none"
        HEADER = "header": Flag; "whether a header carries past it what the cut members carried"
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
    use crate::field::Kind::{Flag, Tables, Word};

    crate::schema! {
        /// A locker: an enclosed box that other parts can stand in.
        "a locker" with crate::schema::item::SCHEMA;
        OPENS = "opens": Word(&["outside", "inside"]); "to which side its door opens"
        SEALED = "sealed": Flag; "whether it is vapour-tight to the inside of the trailer"
        SWINGS = "swings": Tables(&crate::schema::moves::swing::SCHEMA); "its doors, drawers and lids, but for the one that opens outside"
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
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Count, Flag, Quantity, Table};
    use crate::field::Range::{NotNegative, Positive};

    crate::schema! {
        /// A berth. Its height is that of the mattress's top above its underside.
        "a berth" with crate::schema::item::SCHEMA;
        PEOPLE = "people": Count(0); "how many it is for"
        FOLDS = "folds": Table(&crate::schema::moves::folds::SCHEMA); "where it is when it is folded away"
        TALLEST = "tallest": Quantity(Dimension::LENGTH, Positive); "height of the tallest who sleeps in it; that of the tallest of the people when not given"
        RATED = "rated": Quantity(Dimension::MASS, Positive); "weight of people that what carries it is made for"
        GUARD = "guard": Quantity(Dimension::LENGTH, NotNegative); "height of the guard on its open sides above the mattress; zero for none"
        FLAME_LABEL = "flame_label": Flag; "whether mattress and curtains carry a label of a flame test"
    }
}

/// A vent.
pub mod vent {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Flag, Quantity, Text, Word, Words};
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
        CUTS = "cuts": Words(&["post", "bow"]); "which members of the frame were cut for it; an empty list for none"
        HEADER = "header": Flag; "whether a header carries past it what the cut members carried"
    }
}

/// A fire extinguisher.
pub mod extinguisher {
    use crate::field::Kind::{Count, Flag};

    crate::schema! {
        /// A fire extinguisher.
        "an extinguisher" with crate::schema::item::SCHEMA;
        CLASS_A = "class_a": Count(0); "the number before A in its rating; 0 for none"
        CLASS_B = "class_b": Count(0); "the number before B in its rating; 0 for none"
        CLASS_C = "class_c": Flag; "whether its rating has a C: fit for electric fires"
    }
}
