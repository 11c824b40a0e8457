//! What guards a circuit: its fuse, or the next one before it.

use pintle_quantity::{Dimension, Quantity};
use pintle_spec::schema::electric::circuit as fields;
use pintle_spec::{Known, Record};

use super::{before, carries, from, length, load, plain, sections, table};
use crate::electric::system::System;
use crate::electric::{ampacity, bank, fuse, wire};
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::{alike, given};
use crate::working::{Outcome, Work};

const PLACE: Origin = Origin::published(
    "the 7-40-72 rule of boat builders, shop.pkys.com b_12 and datroymarinesurveying.com (seen); a guideline here",
);
const OHM: Origin = Origin::derived("Ohm's law");
const SIZE: Origin =
    Origin::published("shop.pkys.com b_12: no more than the ampacity, the next size up to 150 % (seen)");

/// The circuit whose fuse guards a circuit: itself, or the nearest before it.
fn guarded_by<'a>(system: System<'a>, record: &'a Record) -> Option<&'a Record> {
    let mut at = Some(record);
    while let Some(held) = at.filter(|held| held.value(fields::FUSE.key).is_none()) {
        at = before(system, held);
    }
    at
}

/// Whether a circuit has a fuse of its own.
pub(super) fn is_fused(record: &Record) -> bool {
    record.value(fields::FUSE.key).is_some()
}

/// Whether any fuse guards it.
pub(super) fn is_guarded(system: System<'_>, record: &Record) -> bool {
    guarded_by(system, record).is_some()
}

fn unguarded() -> Outcome {
    Outcome::None("no fuse guards this circuit".to_owned())
}

/// The rating of the fuse that guards it.
pub(super) fn rating(system: System<'_>, record: &Record, work: &mut Work) -> Known<Outcome> {
    let Some(guard) = guarded_by(system, record) else { return Ok(unguarded()) };
    Ok(work.take("I_n", format!("rating of the fuse in {}", guard.what), given(guard, &fields::FUSE))?.into())
}

/// That rating as a share of what the wire may carry, or of what it has to.
fn share(
    system: System<'_>,
    record: &Record,
    work: &mut Work,
    of: fn(System<'_>, &Record, &mut Work) -> Known<Figure>,
    formula: &'static str,
) -> Known<Outcome> {
    let Some(guard) = guarded_by(system, record) else { return Ok(unguarded()) };
    let n = work.take("I_n", format!("rating of the fuse in {}", guard.what), given(guard, &fields::FUSE))?;
    let other = of(system, record, work)?;
    if other.quantity.si() <= 0.0 {
        return Ok(Outcome::None("it carries nothing".to_owned()));
    }
    Ok(work.step("x", "rating of the fuse for it", formula, Ok(n.over(&other).as_share()), SIZE)?.into())
}

/// The fuse's rating as a share of the wire's ampacity.
pub(super) fn to_ampacity(system: System<'_>, record: &Record, work: &mut Work) -> Known<Outcome> {
    share(system, record, work, carries, "I_n / I_z")
}

/// The rating of a circuit's own fuse as a share of its greatest current.
pub(super) fn to_load(system: System<'_>, record: &Record, work: &mut Work) -> Known<Outcome> {
    share(system, record, work, load, "I_n / I")
}

/// The greatest fuse for a circuit's wire: its ampacity, and for thin wire of house wiring no more than its own limit.
pub(super) fn most(system: System<'_>, record: &Record, work: &mut Work) -> Known<Outcome> {
    let carries = carries(system, record, work)?;
    let house = table(record)? != ampacity::Table::Boat105;
    let small = ampacity::small_wire_fuse(given(record, &fields::GAUGE)?.quantity.si()).filter(|_| house);
    let Some(small) = small else { return Ok(carries.into()) };
    let small = Figure::constant(Quantity::from_si(small, Dimension::CURRENT)).shown_in("A");
    let source = Origin::published("NEC 2023 240.4(D), as quoted on intrysys.com (seen)");
    let small = work.know("I_s", "greatest fuse for thin wire", small, source.clone());
    Ok(work
        .step("I_m", "greatest fuse", "the lesser of I_z and I_s", alike(carries.lesser(&small)), source)?
        .into())
}

/// The same where the next size up is taken.
pub(super) fn stretched(system: System<'_>, record: &Record, work: &mut Work) -> Known<Outcome> {
    let carries = carries(system, record, work)?;
    let found = Ok(carries.scaled(fuse::STRETCHED));
    Ok(work.step("I_m", "greatest fuse, next size up", "1.5 · I_z", found, SIZE)?.into())
}

/// What low-voltage wire of its gauge may carry in a recreational vehicle.
pub(super) fn low_voltage(record: &Record) -> Known<Outcome> {
    let Some(most) = ampacity::low_voltage(given(record, &fields::GAUGE)?.quantity.si()) else {
        return Ok(Outcome::None("that table has no such gauge".to_owned()));
    };
    Ok(Figure::constant(Quantity::from_si(most, Dimension::CURRENT)).shown_in("A").into())
}

/// How far along the wire its fuse stands.
pub(super) fn distance(record: &Record, work: &mut Work) -> Known<Outcome> {
    if !is_fused(record) {
        return Ok(Outcome::None("it has no fuse of its own".to_owned()));
    }
    Ok(work.take("a", fields::FUSE_AT.doc, given(record, &fields::FUSE_AT))?.into())
}

/// How far it may stand.
pub(super) fn farthest(record: &Record, work: &mut Work) -> Outcome {
    if !is_fused(record) {
        return Outcome::None("it has no fuse of its own".to_owned());
    }
    let sheathed = record.flag(&fields::SHEATHED).is_some_and(|flag| flag.value);
    let metres = fuse::farthest(sheathed, from(record) == "bank");
    let what = match (sheathed, from(record) == "bank") {
        (false, _) => "the wire up to it lies bare",
        (true, false) => "the wire up to it is sheathed",
        (true, true) => "the wire up to it is sheathed and comes from the battery",
    };
    let most = Figure::constant(Quantity::from_si(metres, Dimension::LENGTH)).shown_in("in");
    work.know("a_m", what, most, PLACE).into()
}

/// The greatest current that its fuse can break.
pub(super) fn interrupts(record: &Record, work: &mut Work) -> Known<Outcome> {
    if !is_fused(record) {
        return Ok(Outcome::None("it has no fuse of its own".to_owned()));
    }
    Ok(work.take("I_b", fields::INTERRUPTS.doc, given(record, &fields::INTERRUPTS))?.into())
}

/// Current of the bank into a short circuit right behind a circuit's fuse: that at its terminals, less for the wire of the circuits
/// before it. Their copper counts as solid and cold, which gives the greater current.
pub(super) fn fault(system: System<'_>, record: &Record, work: &mut Work) -> Known<Figure> {
    let held = bank::need(system)?;
    let i = bank::short_circuit(&held, work)?;
    let v = bank::voltage(&held, &mut Work::default())?;
    let mut all = v.over(&i);
    let cold = Figure::constant(Quantity::from_si(293.15, Dimension::TEMPERATURE));
    let mut at = before(system, record);
    while let Some(circuit) = at {
        let [out, back] = sections(circuit, &mut Work::default())?;
        let run = length(circuit, &mut Work::default())?;
        let own = wire::loop_resistance(&run, &out, &back, &plain(0.0), &cold).shown_in("mΩ");
        let what = format!("resistance of {} before it, cold", circuit.what);
        let own = work.step("R_b", what, "ρ · l · (1/S + 1/S_r)", Ok(own), OHM)?;
        all = alike(all.plus(&own))?;
        at = before(system, circuit);
    }
    let found = Ok(v.over(&all).shown_in("A"));
    work.step("I_f", "current into a short circuit behind its fuse", "V / (V/I_k + Σ R_b)", found, OHM)
}

/// Whether wires of more than one gauge hang on one fuse: its own two, or its own and those of what it is fed from without
/// a fuse between them.
pub(super) fn sizes_mixed(system: System<'_>, record: &Record) -> Known<bool> {
    let differ = |one: &Figure, other: &Figure| -> Known<bool> {
        Ok(alike(one.quantity.compare(other.quantity))? != std::cmp::Ordering::Equal)
    };
    let own = given(record, &fields::GAUGE)?;
    if record.value(fields::RETURN_GAUGE.key).is_some()
        && differ(&own, &given(record, &fields::RETURN_GAUGE)?)?
    {
        return Ok(true);
    }
    match before(system, record).filter(|_| !is_fused(record)) {
        Some(before) => differ(&own, &given(before, &fields::GAUGE)?),
        None => Ok(false),
    }
}
