//! `[assume.road]`.

use pintle_quantity::Dimension;

use crate::field::Kind::Quantity;
use crate::field::Range::{NotNegative, Positive};

crate::schema! {
    /// `[assume.road]`.
    "the assumptions about road";
    MAGNET_CURRENT = "magnet_current": Quantity(Dimension::CURRENT, Positive); "current that one electric brake draws at full force"
    HOLD = "hold": Quantity(Dimension::TIME, Positive); "how long a breakaway must hold, where the place has no figure"
    TIRE_SPEED = "tire_speed": Quantity(Dimension::SPEED, Positive); "speed of a tire made for trailers that is not marked with one"
    SPEED = "speed": Quantity(Dimension::SPEED, Positive); "speed at which it is towed, where the place has no limit for trailers"
    LOCK = "lock": Quantity(Dimension::ANGLE, NotNegative); "angle between tow vehicle and trailer at full lock"
}
