//! `[electric]`: the bank, circuits, what is used, sun, and mains; and the tests of the mains side in `[record]`.

use pintle_quantity::Dimension;

use crate::field::Kind::{Count, Flag, Quantity, Table, Tables, Text, Words};
use crate::field::Range::Any;

/// The months of the year, in their order.
pub const MONTHS: &[&str] = &[
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
];

/// What a circuit may come from or lead to besides parts, uses and other circuits.
pub const ENDS: &[&str] = &["bank", "tow vehicle", "mains"];

/// Kinds of parts that feed a circuit: their tag goes before a circuit of the same name.
pub const FEEDERS: &[&str] = &["battery", "inverter", "charger", "solar"];

crate::schema! {
    /// `[electric]`.
    "the electric system";
    BANK = "bank": Table(&bank::SCHEMA); "the batteries that work as one"
    ARRAY = "array": Tables(&array::SCHEMA); "solar panels that work on one controller; one table each"
    CIRCUIT = "circuit": Tables(&circuit::SCHEMA); "a circuit; one table each"
    USE = "use": Tables(&usage::SCHEMA); "something that uses electricity; one table each"
    MAINS = "mains": Table(&mains::SCHEMA); "the mains side"
    CONNECTOR = "connector": Table(&connector::SCHEMA); "the plug to the tow vehicle"
    DISCONNECT = "disconnect": Flag; "whether a switch takes everything off the bank"
    LATITUDE = "latitude": Quantity(Dimension::ANGLE, Any); "where it is used: degrees north of the equator; negative south of it"
    MONTHS_USED = "months": Words(MONTHS); "the months in which it is used away from the mains"
    DAYS = "days": Count(1); "for how many days it is used without any charge but the sun's"
    NOTE = "note": Text; "anything a reader should know"
}

/// `bank`.
pub mod bank {
    use crate::field::Kind::{Count, Texts};

    crate::schema! {
        /// `bank`.
        "the bank";
        BATTERIES = "batteries": Texts, required; "tags of its batteries"
        SERIES = "series": Count(1); "how many of them are in series in each string; one, all side by side, when not given"
    }
}

/// One of `array`.
pub mod array {
    use crate::field::Kind::{Count, Text, Texts};

    crate::schema! {
        /// One of `array`.
        "an array";
        PANELS = "panels": Texts, required; "tags of its panels"
        CONTROLLER = "controller": Text; "tag of the charger that they work on; one of their own when not given"
        SERIES = "series": Count(1); "how many panels are in series in each string; one, all side by side, when not given"
    }
}

/// One of `circuit`.
pub mod circuit {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Count, Flag, Quantity, Text, Word};
    use crate::field::Range::{NotNegative, Positive};

    /// What insulation of wires can stand.
    pub const INSULATIONS: &[&str] = &["60 °C", "75 °C", "90 °C", "105 °C"];

    crate::schema! {
        /// One of `circuit`. Its length is one way: the return wire comes on top of it.
        "a circuit";
        NAME = "name": Text, required; "what it is called"
        FROM = "from": Text, required; "what it is fed from: `bank`, `tow vehicle`, `mains`, a part's tag, or another circuit's name"
        TO = "to": Text; "what it feeds: `bank`, a part's tag, or the name of a use; nothing of its own when other circuits come from it"
        VOLTAGE = "voltage": Quantity(Dimension::VOLTAGE, Positive); "nominal voltage; that of what it is fed from when not given"
        CURRENT = "current": Quantity(Dimension::CURRENT, NotNegative); "greatest current in it; worked out from what it feeds when not given"
        LENGTH = "length": Quantity(Dimension::LENGTH, Positive); "length of the run along the wire, one way"
        GAUGE = "gauge": Quantity(Dimension::AREA, Positive); "gauge or copper section of each wire"
        RETURN_GAUGE = "return_gauge": Quantity(Dimension::AREA, Positive); "that of the return wire, where it is another"
        MILS = "mils": Word(&["AWG", "SAE"]); "whose circular mils a gauge stands for: those of ASTM B258, AWG, when not given"
        INSULATION = "insulation": Word(INSULATIONS); "what its insulation stands"
        BUNDLED = "bundled": Count(2); "how many current-carrying wires lie in the bundle; its own two when not given"
        CRITICAL = "critical": Flag; "whether little voltage may be lost in it, as for fans, pumps, alarms and chargers; it counts as critical when not given"
        FUSE = "fuse": Quantity(Dimension::CURRENT, Positive); "rating of its fuse or breaker; it has none when not given"
        FUSE_AT = "fuse_at": Quantity(Dimension::LENGTH, NotNegative); "along the wire, from what it is fed from to the fuse"
        SHEATHED = "sheathed": Flag; "whether the wire up to the fuse lies in a sheath or conduit; it lies bare when not given"
        INTERRUPTS = "interrupts": Quantity(Dimension::CURRENT, Positive); "greatest current that the fuse can break"
        NOTE = "note": Text; "anything a reader should know"
    }
}

/// One of `use`.
pub mod usage {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Count, Quantity, Text};
    use crate::field::Range::{NotNegative, Positive, Share};

    crate::schema! {
        /// One of `use`.
        "a use";
        WHAT = "what": Text, required; "what it is called"
        ITEM = "item": Text; "tag of the part that it is, where it is one"
        POWER = "power": Quantity(Dimension::POWER, NotNegative); "power that each takes when it runs"
        CURRENT = "current": Quantity(Dimension::CURRENT, Positive); "current that each takes when it runs, instead of its power"
        COUNT = "count": Count(1); "how many of it run at once; one when not given"
        HOURS = "hours": Quantity(Dimension::TIME, NotNegative); "how long it is on in a day"
        FROM_HOUR = "from_hour": Count(0); "hour of the day at which it is switched on, 0 to 23; on all round the day alike when not given"
        DUTY = "duty": Quantity(Dimension::NONE, Share); "share of the time it is on that it runs, as a refrigerator does; all of it when not given"
        THROUGH = "through": Text; "tag of the inverter it runs on; straight from the bank when not given"
        NOTE = "note": Text; "anything a reader should know"
    }
}

/// `mains`.
pub mod mains {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Flag, Quantity, Tables, Text, Word};
    use crate::field::Range::{NotNegative, Positive};

    crate::schema! {
        /// `mains`.
        "the mains side";
        VOLTAGE = "voltage": Quantity(Dimension::VOLTAGE, Positive); "nominal voltage"
        INLET = "inlet": Quantity(Dimension::CURRENT, Positive); "rating of the inlet and its cord"
        BREAKER = "breaker": Quantity(Dimension::CURRENT, Positive); "rating of the main breaker"
        LOAD = "load": Quantity(Dimension::POWER, NotNegative); "what may be plugged in at once, besides chargers"
        BOND = "bond": Quantity(Dimension::AREA, Positive); "gauge of the wire that bonds the frame to the panel's earth; there is none when not given"
        NEUTRAL_BONDED = "neutral_bonded": Flag; "whether neutral and earth are joined in the trailer"
        CLEAR_WIDTH = "clear_width": Quantity(Dimension::LENGTH, NotNegative); "width left free before the panel"
        CLEAR_DEPTH = "clear_depth": Quantity(Dimension::LENGTH, NotNegative); "depth left free before the panel"
        INLET_FROM_REAR = "inlet_from_rear": Quantity(Dimension::LENGTH, NotNegative); "from the rear of the trailer forward to the inlet"
        INLET_SIDE = "inlet_side": Word(&["left", "right", "rear", "front"]); "the side that the inlet is on"
        OUTLETS = "outlet": Tables(&outlet::SCHEMA); "a mains outlet; one table each"
        NOTE = "note": Text; "anything a reader should know"
    }

    /// One of `outlet`.
    pub mod outlet {
        use crate::field::Kind::{Flag, Text};

        crate::schema! {
            /// One of `outlet`.
            "an outlet";
            NAME = "name": Text, required; "what it is called"
            GFCI = "gfci": Flag; "whether a ground-fault interrupter is before it or in it"
        }
    }
}

/// `connector`.
pub mod connector {
    use crate::field::Kind::{Text, Words};

    /// What a pin of the plug can be for.
    pub const FUNCTIONS: &[&str] =
        &["earth", "tail", "stop", "left turn", "right turn", "brake", "reverse", "fog", "supply", "charge"];

    crate::schema! {
        /// `connector`.
        "the plug";
        FUNCTIONS_WIRED = "functions": Words(FUNCTIONS); "what its pins are wired for"
        NOTE = "note": Text; "anything a reader should know"
    }
}

/// `outlet_test` of `[record]`.
pub mod outlet_test {
    use crate::field::Kind::{Flag, Text, Texts};

    crate::schema! {
        /// `outlet_test`.
        "the test of the mains outlets";
        OUTLETS = "outlets": Texts; "the outlets that were tested, by their names"
        POLARITY = "polarity": Flag; "whether live, neutral and earth were each at its place at all of them"
        GFCI_TRIPPED = "gfci_tripped": Flag; "whether every ground-fault interrupter tripped when it was tried, and the outlets after it went dead"
        NEUTRAL_APART = "neutral_apart": Flag; "whether a meter found neutral and earth apart, unplugged and every inverter off"
        DATE = "date": Text; "the day it was tested, as in 2026-05-02"
        INSTRUMENT = "instrument": Text; "what it was tested with"
        NOTE = "note": Text; "anything a reader should know"
    }
}

/// `skin_test` of `[record]`.
pub mod skin_test {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Quantity, Text};
    use crate::field::Range::NotNegative;

    crate::schema! {
        /// `skin_test`.
        "the test of the trailer's skin";
        VOLTAGE = "voltage": Quantity(Dimension::VOLTAGE, NotNegative); "the greatest voltage between bare metal of the trailer and the ground, plugged in and everything switched on"
        DATE = "date": Text; "the day it was tested, as in 2026-05-02"
        INSTRUMENT = "instrument": Text; "what it was measured with"
        NOTE = "note": Text; "anything a reader should know"
    }
}
