//! `[assume.roof]`.

use pintle_quantity::Dimension;

use crate::field::Kind::Quantity;
use crate::field::Range::Positive;

crate::schema! {
    /// `[assume.roof]`.
    "the assumptions about the roof";
    BUMPS = "bumps": Quantity(Dimension::NONE, Positive); "how many times its weight a roof load presses down on a bump"
    STEEL_STIFFNESS = "steel_stiffness": Quantity(Dimension::PRESSURE, Positive); "modulus of elasticity of steel bows"
    STEEL_ALLOWABLE = "steel_allowable": Quantity(Dimension::PRESSURE, Positive); "allowable bending stress of steel bows"
    ALUMINIUM_STIFFNESS = "aluminium_stiffness": Quantity(Dimension::PRESSURE, Positive); "modulus of elasticity of aluminium bows"
    ALUMINIUM_ALLOWABLE = "aluminium_allowable": Quantity(Dimension::PRESSURE, Positive); "allowable bending stress of aluminium bows"
    LADDER_STRENGTH = "ladder_strength": Quantity(Dimension::NONE, Positive); "how many times the person on it a ladder must bear"
    LANDING = "landing": Quantity(Dimension::LENGTH, Positive); "how far a ladder's rails stand above the tent's floor where there is nothing else to hold on to"
}
