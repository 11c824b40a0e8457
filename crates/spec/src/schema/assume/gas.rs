//! `[assume.gas]`.

use pintle_quantity::Dimension;

use crate::field::Kind::Quantity;
use crate::field::Range::{Positive, Share};

crate::schema! {
    /// `[assume.gas]`.
    "the assumptions about gas";
    HEATING_VALUE = "heating_value": Quantity(Dimension::ENERGY.over(Dimension::MASS), Positive); "heat that burning gives, per weight of gas"
    VAPOUR_DENSITY = "vapour_density": Quantity(Dimension::DENSITY, Positive); "weight of the vapour per volume, at 60 °F and one atmosphere"
    COLDEST_USE = "coldest_use": Quantity(Dimension::TEMPERATURE, Positive); "the coldest in which gas is drawn"
    LEAST_FILL = "least_fill": Quantity(Dimension::NONE, Share); "how empty a cylinder is when it still has to feed everything, as a share of its gas when full"
    LOWER_LIMIT = "lower_limit": Quantity(Dimension::NONE, Share); "the least share of gas in air that can burn (lower explosive limit)"
    ALARM_SHARE = "alarm_share": Quantity(Dimension::NONE, Share); "share of that limit at which an alarm must have sounded"
    DROP = "drop": Quantity(Dimension::PRESSURE, Positive); "pressure that may be lost between regulator and appliance, by which lines are sized"
}
