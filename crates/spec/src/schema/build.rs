//! A build spec's top level, `[build]` and `[people]`.

use crate::field::Kind::{Raw, Table};

crate::schema! {
    /// The tables of a build spec.
    "the spec";
    HEAD = "build": Table(&head::SCHEMA), required; "what this build is"
    TRAILER = "trailer": Raw, required; "the trailer, by a stock part's name or in full"
    TOW = "tow": Raw; "the tow vehicle it is made for"
    PEOPLE = "people": Table(&people::SCHEMA); "who uses it"
    ITEMS = "item": Raw; "a fitted part; one `[[item]]` table each"
    TANKS = "tank": Raw; "a water tank; one `[[tank]]` table each"
    LOCKERS = "locker": Raw; "an enclosed locker; one `[[locker]]` table each"
    BULKHEADS = "bulkhead": Raw; "a wall across the box; one `[[bulkhead]]` table each"
    BERTHS = "berth": Raw; "a place to sleep; one `[[berth]]` table each"
    VENTS = "vent": Raw; "an opening for air; one `[[vent]]` table each"
    OPENINGS = "opening": Raw; "a door, window or hatch; one `[[opening]]` table each"
    LOADS = "load": Raw; "something that may ride along; one `[[load]]` table each"
    EITHERS = "either": Raw; "parts or loads of which only one may be aboard; one `[[either]]` table each"
    GAS = "gas": Table(&super::gas::SCHEMA); "how gas is piped and used"
    ELECTRIC = "electric": Table(&super::electric::SCHEMA); "the electric system"
    WATER = "water": Table(&water::SCHEMA); "how water is used"
    QUOTE = "quote": Table(&super::quote::SCHEMA); "what the customer was offered"
    RECORD = "record": Table(&super::record::SCHEMA); "what was measured and tested on the built trailer"
    ASSUME = "assume": Table(&super::assume::SCHEMA); "what this build assumes otherwise than the rulebook"
    STATES = "state": Raw; "a way the trailer is used; one `[[state]]` table each"
}

/// `[build]`.
pub mod head {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Flag, Quantity, Text, Texts, Word, Words};
    use crate::field::Range::Positive;

    /// The facilities of which 49 CFR 571.3 asks four of a recreational vehicle trailer.
    pub const FACILITY_NAMES: &[&str] = &[
        "cooking",
        "refrigeration",
        "self-contained toilet",
        "heating or air conditioning",
        "potable water with faucet and sink",
        "separate power or propane",
    ];

    crate::schema! {
        /// `[build]`.
        "the build";
        NUMBER = "number": Text, required; "the shop's number for this build"
        TITLE = "title": Text, required; "what it is, in a line"
        STAGE = "stage": Word(&["quote", "design", "build", "delivery", "service"]), required; "how far the build has come"
        SALE = "sale": Word(&["new", "used"]); "whether the trailer was sold at retail before: decides who may label what"
        PLACES = "places": Texts; "where it will be registered and towed, by the names of the rulebook's places"
        REGISTERED = "registered": Word(&["camp trailer", "other trailer"]); "what it is or will be registered as; with a berth a camp trailer when not given, which is an inference"
        FACILITIES = "facilities": Words(FACILITY_NAMES); "which of the facilities it has that make a recreational vehicle trailer"
        CARGO_FIRST = "cargo_first": Flag; "whether it is designed primarily to carry cargo, which makes it no recreational vehicle trailer"
        STAND_UP = "stand_up": Flag; "whether those who use it shall be able to stand upright inside"
        PARKING_HEIGHT = "parking_height": Quantity(Dimension::LENGTH, Positive); "clear height of the garage, gate or ferry that it must pass, tents closed"
        CAMP_ONLY = "camp_only": Texts; "tags of what is for use when parked only and must not ride along"
        NOTE = "note": Text; "anything a reader should know"
    }
}

/// `[people]`.
pub mod people {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Count, Quantity};
    use crate::field::Range::Positive;

    crate::schema! {
        /// `[people]`.
        "the people";
        COUNT = "count": Count(0); "how many sleep in or on the trailer"
        MASS = "mass": Quantity(Dimension::MASS, Positive); "the weight reckoned for each person"
        TALLEST = "tallest": Quantity(Dimension::LENGTH, Positive); "height of the tallest of them"
    }
}

/// `[[either]]`.
pub mod either {
    use crate::field::Kind::{Flag, Text, Texts};

    crate::schema! {
        /// `[[either]]`.
        "an either-or group";
        NAME = "name": Text, required; "what the group is called"
        OF = "of": Texts, required; "tags of removable parts or loads of which only one may be aboard"
        NONE = "none": Flag, required; "whether all of them may stay at home"
    }
}

/// `[water]`.
pub mod water {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Count, Flag, Quantity, Table, Texts};
    use crate::field::Range::Positive;

    crate::schema! {
        /// `[water]`.
        "the use of water";
        USE_ORDER = "use_order": Texts; "tags of the tanks in the order in which they are emptied, each before the next is begun"
        USE = "use": Quantity(Dimension::VOLUME, Positive); "what all use in a day; worked out from people, showers and the assumptions about water when not given"
        SHOWERS = "showers": Count(0); "showers a day, of all together; none when not given"
        DAYS = "days": Quantity(Dimension::TIME, Positive); "how long the water shall last"
        WINTER = "winter": Flag; "whether it is used where water freezes"
        PUMP = "pump": Table(&pump::SCHEMA); "the pump"
    }

    /// `pump`.
    pub mod pump {
        use pintle_quantity::Dimension;

        use crate::field::Kind::{Flag, Quantity};
        use crate::field::Range::Positive;

        crate::schema! {
            /// `pump`.
            "the water pump";
            FLOW = "flow": Quantity(Dimension::FLOW, Positive); "what it delivers with a tap open"
            DRY_STOP = "dry_stop": Flag; "whether it stops by itself when the tank is empty"
        }
    }
}
