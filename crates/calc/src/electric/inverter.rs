//! Inverters: what they take from the batteries.

use pintle_spec::schema::assume::electric;
use pintle_spec::schema::kinds::inverter as fields;
use pintle_spec::{Item, Known};

use super::system::{System, TOPIC};
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::given;
use crate::working::{Work, Working};

const SOURCE: Origin = Origin::published("forum.solar-electric.com, thread 17440, worked example (seen)");

/// Current that an inverter takes, in A: P/(η·V).
///
/// ```
/// use pintle_calc::{Figure, electric::inverter::current};
/// use pintle_quantity::Quantity;
///
/// let [p, eta, v] = ["2000 W", "85 %", "12.2 V"].map(|text| Figure::constant(Quantity::parse(text).unwrap()));
/// assert!((current(&p, &eta, &v).quantity.si() - 192.86).abs() < 0.005);
/// ```
#[must_use]
pub fn current(power: &Figure, efficiency: &Figure, voltage: &Figure) -> Figure {
    power.over(&efficiency.times(voltage)).shown_in("A")
}

/// The share of what it takes that it gives.
pub(crate) fn efficiency(system: System<'_>, body: &Item, work: &mut Work) -> Known<Figure> {
    system.own_or(work, "η", &body.record, &fields::EFFICIENCY, &electric::INVERTER_EFFICIENCY)
}

/// The lowest voltage at which it runs.
pub(crate) fn lowest(system: System<'_>, body: &Item, work: &mut Work) -> Known<Figure> {
    if body.record.value(fields::LOWEST.key).is_some() {
        return work.take("V_l", fields::LOWEST.doc, given(&body.record, &fields::LOWEST));
    }
    let nominal = work.take("V_n", fields::VOLTAGE.doc, given(&body.record, &fields::VOLTAGE))?;
    let share =
        work.assume("k_l", &system.case, &pintle_spec::schema::assume::ELECTRIC, &electric::LOWEST_VOLTAGE)?;
    work.step("V_l", "lowest voltage at which it runs", "k_l · V_n", Ok(nominal.times(&share)), SOURCE)
}

/// Current at full load and nominal voltage.
pub(crate) fn at_nominal(system: System<'_>, body: &Item, work: &mut Work) -> Known<Figure> {
    let power = work.take("P", fields::POWER.doc, given(&body.record, &fields::POWER))?;
    let share = efficiency(system, body, work)?;
    let voltage = work.take("V", fields::VOLTAGE.doc, given(&body.record, &fields::VOLTAGE))?;
    work.step("I", "current at nominal voltage", "P / (η · V)", Ok(current(&power, &share, &voltage)), SOURCE)
}

/// Current at full load and the lowest voltage: the greatest it takes without end.
pub(crate) fn at_lowest(system: System<'_>, body: &Item, work: &mut Work) -> Known<Figure> {
    let power = work.take("P", fields::POWER.doc, given(&body.record, &fields::POWER))?;
    let share = efficiency(system, body, work)?;
    let voltage = lowest(system, body, work)?;
    let found = Ok(current(&power, &share, &voltage));
    work.step("I_l", "current at the lowest voltage", "P / (η · V_l)", found, SOURCE)
}

/// The figures of every inverter.
pub(crate) fn workings(system: System<'_>) -> Vec<Working> {
    let of = |body: &Item| {
        let figure = |key, says, sum: fn(System<'_>, &Item, &mut Work) -> Known<Figure>| {
            Working::of(TOPIC, key, body.called(), says, |work| sum(system, body, work))
        };
        let sized = |system: System<'_>, body: &Item, work: &mut Work| {
            let most = at_lowest(system, body, work)?;
            let factor = work.assume(
                "k",
                &system.case,
                &pintle_spec::schema::assume::ELECTRIC,
                &electric::INVERTER_FUSE,
            )?;
            work.step(
                "I_f",
                "what its fuse and cable are made for",
                "k · I_l",
                Ok(most.times(&factor)),
                SOURCE,
            )
        };
        [
            figure("inverter_current", "current at full load", at_nominal),
            figure("inverter_current_low", "current at full load on a low battery", at_lowest),
            figure("inverter_fuse", "what its fuse and cable are made for", sized),
        ]
    };
    system.build.of_kind("inverter").flat_map(|(_, body)| of(body)).collect()
}
