//! `[gas]`: which cylinders are connected, the regulator, and the lines to the appliances.

use crate::field::Kind::{Table, Tables, Text, Texts, Word};

crate::schema! {
    /// `[gas]`.
    "the gas system";
    CONNECTED = "connected": Texts; "tags of the cylinders that are connected; a cylinder that is the only one needs no naming"
    DRAWN = "drawn": Word(&["together", "in turn"]); "how several connected cylinders are drawn"
    REGULATOR = "regulator": Table(&regulator::SCHEMA); "the regulator"
    LINES = "line": Tables(&line::SCHEMA); "the hoses, pipes and tubes, each a section without a branch"
    NOTE = "note": Text; "anything a reader should know"
}

/// `regulator`.
pub mod regulator {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Count, Quantity};
    use crate::field::Range::Positive;

    crate::schema! {
        /// `regulator`.
        "the regulator";
        STAGES = "stages": Count(1); "how many stages it has"
        PRESSURE = "pressure": Quantity(Dimension::PRESSURE, Positive); "pressure it is set to, above the atmosphere's"
        CAPACITY = "capacity": Quantity(Dimension::POWER, Positive); "heat input it can feed"
    }
}

/// `line`.
pub mod line {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Flag, Quantity, Text, Texts, Word, Words};
    use crate::field::Range::{NotNegative, Positive};

    /// What a line may begin at beside another line.
    pub const SOURCES: &[&str] = &["cylinder", "regulator"];

    /// Trade sizes: steel pipe by nominal size, copper tube by its outside diameter.
    pub const SIZES: &[&str] = &[
        "3/8 in pipe",
        "1/2 in pipe",
        "3/4 in pipe",
        "1 in pipe",
        "3/8 in tube",
        "1/2 in tube",
        "5/8 in tube",
        "3/4 in tube",
    ];

    crate::schema! {
        /// `line`.
        "a gas line";
        NAME = "name": Text, required; "what it is called"
        FROM = "from": Text, required; "what it begins at: `cylinder`, `regulator`, or the name of another line"
        TO = "to": Texts; "tags of the appliances it ends at"
        KIND = "kind": Word(&["hose", "pipe", "tube"]); "what it is"
        LENGTH = "length": Quantity(Dimension::LENGTH, Positive); "its length"
        FITTINGS = "fittings": Quantity(Dimension::LENGTH, NotNegative); "the length of straight line that its elbows, tees and valves count for; none of a hose when not given"
        SIZE = "size": Word(SIZES); "its trade size"
        BORE = "bore": Quantity(Dimension::LENGTH, Positive); "its inside diameter, where it has no trade size"
        PRESSURE = "pressure": Quantity(Dimension::PRESSURE, Positive); "pressure in it, where that is not the regulator's"
        RUNS = "runs": Words(&["outside", "inside", "locker", "under floor"]); "where it runs"
        SLEEVED = "sleeved": Flag; "whether it is sleeved or grommeted wherever it passes a wall or the floor"
        CONCEALED = "concealed": Flag; "whether any of it cannot be seen without taking something apart"
        SHUTOFF = "shutoff": Flag; "whether a valve at its beginning shuts it off"
        AGE = "age": Quantity(Dimension::TIME, NotNegative); "of a hose, time since it was made, by its marking, when the spec was last looked over"
        NOTE = "note": Text; "anything a reader should know"
    }
}

/// `leak_test` of `[record]`.
pub mod leak_test {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Quantity, Text, Word};
    use crate::field::Range::{NotNegative, Positive};

    crate::schema! {
        /// `leak_test`.
        "the leak test";
        METHOD = "method": Word(&["EN 1949", "piping alone", "with appliances"]); "by which procedure: EN 1949, or in the US the piping before appliances are connected, or all of it connected"
        PRESSURE = "pressure": Quantity(Dimension::PRESSURE, Positive); "pressure of the test, above the atmosphere's"
        SETTLED = "settled": Quantity(Dimension::TIME, NotNegative); "how long it was left to settle"
        HELD = "held": Quantity(Dimension::TIME, Positive); "how long it was watched after that"
        DROP = "drop": Quantity(Dimension::PRESSURE, NotNegative); "how far the pressure fell"
        DATE = "date": Text; "the day it was done, as in 2026-05-02"
        BY = "by": Text; "who did it"
        NOTE = "note": Text; "anything a reader should know"
    }
}
