//! `[record]`: what was measured and tested on the built trailer.

use pintle_quantity::Dimension;

use crate::field::Kind::{Quantity, Table, Tables, Text};
use crate::field::Range::NotNegative;

crate::schema! {
    /// `[record]`.
    "the record";
    BREAKAWAY_HOLD = "breakaway_hold": Quantity(Dimension::TIME, NotNegative); "how long the breakaway held the brakes when it was tried"
    TICKETS = "ticket": Tables(&ticket::SCHEMA); "what a scale said of one state; one `[[record.ticket]]` table each"
    DELIVERED = "delivered": Text; "the day the trailer is or was handed over, as in 2026-05-04"
    LEAK_TEST = "leak_test": Table(&super::gas::leak_test::SCHEMA); "the leak test of the gas system"
    NOTE = "note": Text; "anything a reader should know"
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
