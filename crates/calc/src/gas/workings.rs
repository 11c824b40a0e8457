//! Every figure of the topic, with how it came about.

use pintle_spec::schema::assume;
use pintle_spec::schema::kinds::cylinder;

use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::given;
use crate::working::Working;

/// Every figure of this topic for a build.
pub fn workings(case: &Case<'_>) -> Vec<Working> {
    case.build.of_kind("cylinder").map(|(_, body)| stored_energy(case, body)).collect()
}

fn stored_energy(case: &Case<'_>, body: &pintle_spec::Item) -> Working {
    Working::of("gas", "stored_energy", body.called(), "heat in it when full", |work| {
        let m = work.take("m", "gas when full", given(&body.record, &cylinder::GAS))?;
        let h = work.assume("H", case, &assume::GAS, &assume::gas::HEATING_VALUE)?;
        let energy = Ok(energy(&m, &h).shown_in("Btu"));
        work.step("E", "heat in it", "m · H", energy, Origin::derived("definition of the heating value"))
    })
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

#[cfg(test)]
mod tests;
