//! Every figure of the topic, with how it came about.

mod build;
mod cylinder;
mod lines;
mod lockers;
mod tests_of_leaks;

pub use lockers::enclosure_vent;

use pintle_quantity::{Dimension, Quantity};

use crate::case::Case;
use crate::figure::Figure;
use crate::working::Working;

/// Every figure of this topic for a build.
pub fn workings(case: &Case<'_>) -> Vec<Working> {
    let mut all = Vec::new();
    for (at, body) in case.build.of_kind("cylinder") {
        all.extend(cylinder::workings(case, at, body));
    }
    all.extend(build::workings(case));
    all.extend(lines::workings(case));
    all.extend(lockers::workings(case));
    all.extend(tests_of_leaks::workings(case));
    all
}

/// The topic's name.
const GAS: &str = "gas";

/// A constant in SI, shown in a unit.
fn known(si: f64, dimension: Dimension, unit: &str) -> Figure {
    Figure::constant(Quantity::from_si(si, dimension)).shown_in(unit)
}

/// A constant temperature in K, shown in °F.
fn temperature(kelvin: f64) -> Figure {
    known(kelvin, Dimension::TEMPERATURE, "°F")
}

/// Heat in a weight of gas `m` with heating value `h`, in J: E = m · H.
///
/// ```
/// use pintle_calc::{Figure, gas::energy};
/// use pintle_quantity::{Quantity, Unit};
///
/// let m = Figure::constant(Quantity::pounds(20.0));
/// let h = Figure::constant(Quantity::parse("21,548 Btu/lb")?);
/// let found = energy(&m, &h).quantity.value_in(Unit::find("Btu").unwrap())?;
/// assert!((found - 430_960.0).abs() < 1e-6);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[must_use]
pub fn energy(m: &Figure, h: &Figure) -> Figure {
    m.times(h)
}

/// Time for which a weight of gas `m` with heating value `h` feeds a heat input `p`, in s: t = m · H / P.
///
/// ```
/// use pintle_calc::{Figure, gas::burn_time};
/// use pintle_quantity::{Quantity, Unit};
///
/// // A supplier's sheet: 131,742 Btu/h at 21,591 Btu/lb empties 20 lb in 3.28 h.
/// let m = Figure::constant(Quantity::pounds(20.0));
/// let h = Figure::constant(Quantity::parse("21,591 Btu/lb")?);
/// let p = Figure::constant(Quantity::parse("131742 Btu/h")?);
/// let hours = burn_time(&m, &h, &p).quantity.value_in(Unit::find("h").unwrap())?;
/// assert!((hours - 3.28).abs() < 0.005);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[must_use]
pub fn burn_time(m: &Figure, h: &Figure, p: &Figure) -> Figure {
    energy(m, h).over(p).shown_in("h")
}

/// Weight of gas burnt in a time by a heat input `p` with heating value `h`, in kg/s: ṁ = P / H.
///
/// ```
/// use pintle_calc::{Figure, gas::gas_rate};
/// use pintle_quantity::{Quantity, Unit};
///
/// let p = Figure::constant(Quantity::parse("10000 Btu/h")?);
/// let h = Figure::constant(Quantity::parse("21,548 Btu/lb")?);
/// let rate = gas_rate(&p, &h).quantity.value_in(Unit::find("lb/h").unwrap())?;
/// assert!((rate - 0.464).abs() < 5e-4);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[must_use]
pub fn gas_rate(p: &Figure, h: &Figure) -> Figure {
    p.over(h).shown_in("lb/h")
}

#[cfg(test)]
mod tests;
