//! `[assume.sway]`.

use pintle_quantity::Dimension;

use crate::field::Kind::Quantity;
use crate::field::Range::{Positive, Share};

crate::schema! {
    /// `[assume.sway]`.
    "the assumptions about sway";
    SPEED = "speed": Quantity(Dimension::SPEED, Positive); "speed at which the trailer is towed"
    FRONT_SHARE = "front_share": Quantity(Dimension::NONE, Share); "share of the tow vehicle's weight on its front axle, without the trailer"
    DYNAMIC_INDEX = "dynamic_index": Quantity(Dimension::NONE, Positive); "yaw inertia of the tow vehicle, over its mass times the distances of both axles from its centre of gravity"
    FRONT_COEFFICIENT = "front_coefficient": Quantity(Dimension::NONE.over(Dimension::ANGLE), Positive); "side force of the tow vehicle's front tires per angle of slip, over the weight on them"
    REAR_COEFFICIENT = "rear_coefficient": Quantity(Dimension::NONE.over(Dimension::ANGLE), Positive); "side force of the tow vehicle's rear tires per angle of slip, over the weight on them without the trailer"
    TRAILER_COEFFICIENT = "trailer_coefficient": Quantity(Dimension::NONE.over(Dimension::ANGLE), Positive); "side force of the trailer's tires per angle of slip, over the weight on them"
    EMPTY_INERTIA = "empty_inertia": Quantity(Dimension::NONE, Positive); "yaw inertia of the empty trailer, over that of a plate as long and wide as its box"
}
