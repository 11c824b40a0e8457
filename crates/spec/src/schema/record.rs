//! `[record]`: what was measured and tested on the built trailer.

use pintle_quantity::Dimension;

use crate::field::Kind::{Quantity, Table, Tables, Text};
use crate::field::Range::NotNegative;

crate::schema! {
    /// `[record]`.
    "the record";
    OUTLET_TEST = "outlet_test": Table(&super::electric::outlet_test::SCHEMA); "the test of the mains outlets"
    SKIN_TEST = "skin_test": Table(&super::electric::skin_test::SCHEMA); "the voltage of the trailer's skin against the ground, plugged in"
    BREAKAWAY_HOLD = "breakaway_hold": Quantity(Dimension::TIME, NotNegative); "how long the breakaway held the brakes when it was tried"
    TICKETS = "ticket": Tables(&ticket::SCHEMA); "what a scale said of one state; one `[[record.ticket]]` table each"
    DELIVERED = "delivered": Text; "the day the trailer is or was handed over, as in 2026-05-04"
    LEAK_TEST = "leak_test": Table(&super::gas::leak_test::SCHEMA); "the leak test of the gas system"
    VIN = "vin": Text; "the trailer's identification number, copied from its plate"
    LABEL = "label": Table(&label::SCHEMA); "what the labels on the finished trailer say"
    LUGS = "lugs": Table(&lugs::SCHEMA); "how the wheel nuts were drawn up"
    NOTE = "note": Text; "anything a reader should know"
}

/// `label`.
pub mod label {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Flag, Quantity};
    use crate::field::Range::NotNegative;

    crate::schema! {
        /// `[record.label]`.
        "the labels";
        CARGO = "cargo": Quantity(Dimension::MASS, NotNegative); "weight of cargo that the placard states, in the pounds or kilograms that it prints"
        WATER = "water": Quantity(Dimension::MASS, NotNegative); "weight of full fresh water that a label states, in the pounds or kilograms that it prints"
        ALTERER = "alterer": Flag; "whether the label of who altered it before its first retail sale is on it"
    }
}

/// `lugs`.
pub mod lugs {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Quantity, Words};
    use crate::field::Range::Positive;

    crate::schema! {
        /// `[record.lugs]`.
        "the wheel nuts as drawn up";
        TORQUE = "torque": Quantity(Dimension::ENERGY, Positive); "torque to which they were drawn up"
        AGAIN = "again": Words(&["10 mi", "25 mi", "50 mi"]); "the distances after which the owner is told in writing to draw them up again"
    }
}

/// `ticket`.
pub mod ticket {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Quantity, Text, Word};
    use crate::field::Range::{NotNegative, Positive};

    crate::schema! {
        /// `[[record.ticket]]`. A reading states how sure it is by a ± of its own, or by the step of the display.
        "a scale ticket";
        STATE = "state": Text, required; "the state in which the trailer stood on the scale, by its name"
        GROSS = "gross": Quantity(Dimension::MASS, Positive); "the whole trailer, by itself on the scale"
        TONGUE = "tongue": Quantity(Dimension::MASS, NotNegative); "weight on the ball or the jack"
        AXLES = "axles": Quantity(Dimension::MASS, Positive); "weight on all wheels, the tongue held up beside the scale"
        LEFT = "left": Quantity(Dimension::MASS, NotNegative); "weight on the left wheels"
        RIGHT = "right": Quantity(Dimension::MASS, NotNegative); "weight on the right wheels"
        TONGUE_BY = "tongue_by": Word(&["read", "difference"]); "whether `tongue` was read off a scale or is the difference of two other readings; read when not given"
        RESOLUTION = "resolution": Quantity(Dimension::MASS, Positive); "step of the scale's display"
        TONGUE_RESOLUTION = "tongue_resolution": Quantity(Dimension::MASS, Positive); "step of the display that `tongue` was read off; that of `resolution` when not given"
        DATE = "date": Text; "the day it was weighed, as in 2026-05-02"
        INSTRUMENT = "instrument": Text; "which scale"
        NOTE = "note": Text; "anything a reader should know"
    }
}
