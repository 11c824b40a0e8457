//! The thinnest wire that is enough for a circuit.

use pintle_quantity::Dimension;
use pintle_spec::schema::assume::{self, electric};
use pintle_spec::{Known, Record};

use super::{before, drop_allowed, drop_in_all, left, length, load, table, voltage};
use crate::electric::system::System;
use crate::electric::{ampacity, wire};
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::alike;
use crate::working::{Outcome, Work};

const ENOUGH: Origin = Origin::derived("the resistance formula solved for S, and the table of ampacities");

/// The thinnest gauge of the tables that carries a circuit's current and loses no more than may be lost.
pub(super) fn needed(system: System<'_>, record: &Record, work: &mut Work) -> Known<Outcome> {
    let table = table(record)?;
    let current = load(system, record, work)?;
    let run = length(record, work)?;
    let nominal = voltage(system, record, work)?;
    let share = drop_allowed(system, record, work)?;
    let mut room = Ok(share.times(&nominal).shown_in("V"));
    if let Some(before) = before(system, record) {
        let lost = drop_in_all(system, before, &mut Work::default());
        let lost = work.step(
            "U_b",
            format!("voltage lost in {} and before it", before.what),
            "I · R",
            lost,
            ENOUGH,
        )?;
        room = room.and_then(|room| alike(room.minus(&lost)));
    }
    let room = work.step("U_m", "voltage that may be lost in it", "u · V − U_b", room, ENOUGH)?;
    if room.quantity.si() <= 0.0 {
        return Ok(Outcome::None("none: as much as may be lost is lost before this circuit".to_owned()));
    }
    let lay = work.assume("k", &system.case, &assume::ELECTRIC, &electric::STRANDING)?;
    let t = work.assume("T", &system.case, &assume::ELECTRIC, &electric::WIRE_TEMPERATURE)?;
    let least = Figure::by(Dimension::AREA, [&current, &run, &room, &lay, &t], |[i, l, room, lay, t]| {
        2.0 * l * i * wire::resistance(1.0, lay, t) / room
    });
    let formula = "2 · l · I · ρ · (1 + k) · (1 + 0.00393 · (T − 20 °C)) / U_m";
    let least = work.step("S", "copper that loses no more", formula, Ok(least.shown_in("mm²")), ENOUGH)?;
    let kept = left(system, record, work)?;
    let inputs = [&current, &least, &kept];
    let [i, s, left] = inputs.map(|figure| figure.quantity.si());
    let Some(gauge) = ampacity::smallest(table, i, left, s) else {
        return Ok(Outcome::None("none: a single wire of 4/0 AWG is not enough".to_owned()));
    };
    // A gauge is a step: it does not move with small changes of what it is chosen by.
    let chosen = Figure::by(Dimension::AREA, inputs, |_| ampacity::section(gauge)).shown_in("AWG");
    Ok(work.step("n", "thinnest gauge that is enough", "least of the table", Ok(chosen), ENOUGH)?.into())
}
