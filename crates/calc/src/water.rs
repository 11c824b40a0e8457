//! Water: what tanks weigh on the road and where it runs to, how long it lasts, and what becomes of it.

mod budget;
mod near;
mod road;
pub mod slosh;
mod workings;

pub use budget::{Budget, use_per_day};
pub use road::{Tank, most_slosh, share_with, tanks_of, tongue_by_slosh, worst_change, worst_fill};
pub use workings::workings;

use pintle_quantity::{System, Unit};
use pintle_spec::Known;

use crate::figure::Figure;
use crate::space::constant;
use crate::weights::WATER_POUNDS_PER_GALLON;

/// What water weighs on a label of 49 CFR 571.110 S9.3.5(d) and 571.120 S10.4.5(d), in pounds a gallon; in kilograms a litre
/// it is 1.
pub const LABEL_POUNDS_PER_GALLON: f64 = 8.3;

/// Weight in kg of the water in a tank of a capacity, in m³, that is filled to a share of it, at 8.34 lb/gal.
///
/// ```
/// use pintle_calc::water::weight;
/// use pintle_quantity::Quantity;
///
/// let found = weight(Quantity::gallons(30.0).si(), 1.0);
/// assert!((found - Quantity::pounds(250.2).si()).abs() < 1e-9);
/// ```
pub fn weight(capacity: f64, fill: f64) -> f64 {
    capacity * fill * Unit::find("lb/gal").map_or(f64::NAN, |unit| unit.to_si(WATER_POUNDS_PER_GALLON))
}

/// Weight of water for a label: 8.3 lb/gal of a capacity that is written in US measure, 1 kg/L of one in metric. The label's
/// two figures differ by half a per cent, and the standard gives them as one.
///
/// # Errors
/// None that a capacity of a spec can give.
pub fn label_water(capacity: &Figure) -> Known<Figure> {
    let metric = capacity.quantity.unit().is_some_and(|unit| unit.system() == System::Metric);
    let density = if metric { constant(1.0, "kg/L")? } else { constant(LABEL_POUNDS_PER_GALLON, "lb/gal")? };
    Ok(capacity.times(&density).shown_in(if metric { "kg" } else { "lb" }))
}

/// How full a tank may be, as a share, for its water to freeze in it: 1 / (1 + growth).
///
/// ```
/// assert!((pintle_calc::water::fill_that_may_freeze(0.0905) - 0.917).abs() < 1e-4);
/// ```
pub fn fill_that_may_freeze(growth: f64) -> f64 {
    1.0 / (1.0 + growth)
}
