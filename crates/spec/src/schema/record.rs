//! `[record]`: what was measured and tested on the built trailer.

use pintle_quantity::Dimension;

use crate::field::Kind::{Quantity, Text};
use crate::field::Range::NotNegative;

crate::schema! {
    /// `[record]`.
    "the record";
    BREAKAWAY_HOLD = "breakaway_hold": Quantity(Dimension::TIME, NotNegative); "how long the breakaway held the brakes when it was tried"
    NOTE = "note": Text; "anything a reader should know"
}
