//! `[assume.tow]`.

use pintle_quantity::Dimension;

use crate::field::Kind::Quantity;
use crate::field::Range::Share;

crate::schema! {
    /// `[assume.tow]`.
    "the assumptions about towing";
    RESTORES = "restores": Quantity(Dimension::NONE, Share); "share of the front axle's loss that spring bars give back to it"
}
