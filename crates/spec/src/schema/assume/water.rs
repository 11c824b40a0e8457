//! `[assume.water]`.

use pintle_quantity::Dimension;

use crate::field::Kind::Quantity;
use crate::field::Range::{NotNegative, Positive, Share};

crate::schema! {
    /// `[assume.water]`.
    "the assumptions about water";
    DRINKING = "drinking": Quantity(Dimension::VOLUME, NotNegative); "water to drink and cook with, per person and day"
    DISHES = "dishes": Quantity(Dimension::VOLUME, NotNegative); "water to wash up with, per person and day"
    WASHING = "washing": Quantity(Dimension::VOLUME, NotNegative); "water to wash hands and face with, per person and day"
    SHOWER = "shower": Quantity(Dimension::VOLUME, NotNegative); "water for one shower"
    RETURN = "return": Quantity(Dimension::NONE, Share); "how much of the water used comes back as grey water"
    SLOSH = "slosh": Quantity(Dimension::NONE, Positive); "hardest slowing down or speeding up on the road, as a share of gravity: the slope of the water in a tank"
    ICE = "ice": Quantity(Dimension::NONE, Positive); "by how much of its volume water grows when it freezes"
}
