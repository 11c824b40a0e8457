//! `[assume.anchor]`.

use pintle_quantity::Dimension;

use crate::field::Kind::Quantity;
use crate::field::Range::{Positive, Share};

crate::schema! {
    /// `[assume.anchor]`.
    "the assumptions about anchors";
    FRICTION = "friction": Quantity(Dimension::NONE, Share); "friction under a part, as a share of what presses on it"
    TIPPING_ASIDE = "tipping_aside": Quantity(Dimension::NONE, Positive); "sideways pull that a part must stand against tipping, as a share of its weight"
    WORKING_SHARE = "working_share": Quantity(Dimension::NONE, Share); "working load limit as a share of the breaking load, where only that is known"
    SHEAR_SHARE = "shear_share": Quantity(Dimension::NONE, Share); "shear strength of a bolt as a share of its tensile strength"
    CLAMP_SHARE = "clamp_share": Quantity(Dimension::NONE, Share); "clamp load of a tightened bolt as a share of its proof load"
    NUT_FACTOR = "nut_factor": Quantity(Dimension::NONE, Positive); "nut factor of dry threads, torque over clamp load and diameter"
}
