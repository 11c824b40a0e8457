//! `[assume.gas]`.

use pintle_quantity::Dimension;

use crate::field::Kind::Quantity;
use crate::field::Range::Positive;

crate::schema! {
    /// `[assume.gas]`.
    "the assumptions about gas";
    HEATING_VALUE = "heating_value": Quantity(Dimension::ENERGY.over(Dimension::MASS), Positive); "heat that burning gives, per weight of gas"
}
