//! `[quote]`: what the customer was offered.

use pintle_quantity::Dimension;

use crate::field::Kind::{Quantity, Tables, Text};
use crate::field::Range::NotNegative;

crate::schema! {
    /// `[quote]`.
    "the quote";
    DATE = "date": Text; "the day of the quote, as in 2026-03-02"
    PROMISED = "promised": Text; "the day for which the trailer is promised, as in 2026-06-15"
    BUILD_TIME = "build_time": Quantity(Dimension::TIME, NotNegative); "what the shop needs once every part is there"
    TOTAL = "total": Quantity(Dimension::MONEY, NotNegative); "what the customer pays"
    LINES = "line": Tables(&line::SCHEMA); "one line of it; one `[[quote.line]]` table each"
    NOTE = "note": Text; "anything a reader should know"
}

/// `line`.
pub mod line {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Count, Quantity, Text};
    use crate::field::Range::Any;

    /// What `item` may name besides a tag.
    pub const TRAILER: &str = "trailer";

    crate::schema! {
        /// `[[quote.line]]`.
        "a line of the quote";
        WHAT = "what": Text, required; "what is offered"
        ITEM = "item": Text; "tag of the part that it is, or `trailer`"
        COUNT = "count": Count(1); "how many; one when not given"
        PRICE = "price": Quantity(Dimension::MONEY, Any); "price of each; negative for what is taken off"
        NOTE = "note": Text; "anything a reader should know"
    }
}
