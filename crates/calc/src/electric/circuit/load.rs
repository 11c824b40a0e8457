//! The greatest current in a circuit: stated, or from what it comes from and what it feeds.

use pintle_quantity::Dimension;
use pintle_spec::schema::assume::electric;
use pintle_spec::schema::electric::{circuit as fields, usage};
use pintle_spec::schema::kinds::charger;
use pintle_spec::{Item, Known, Missing, Record};

use super::{before, from, resistance, voltage};
use crate::electric::system::System;
use crate::electric::{array, inverter, usage as uses};
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::{given, sum};
use crate::working::Work;

const OHM: Origin = Origin::derived("definition of the volt");
const LINE: Origin = Origin::derived(
    "Ohm's law and a charger that takes the same power at any voltage: V_e = V − I·R, I = P/V_e",
);

/// The greatest current in a circuit.
///
/// # Errors
/// What would say how great it is.
pub(crate) fn load(system: System<'_>, record: &Record, work: &mut Work) -> Known<Figure> {
    if record.value(fields::CURRENT.key).is_some() {
        return work.take("I", fields::CURRENT.doc, given(record, &fields::CURRENT));
    }
    let source = from(record);
    if let Some(body) = system.part_of(source, "charger") {
        return work.take("I", "current that the charger gives", given(&body.record, &charger::CURRENT));
    }
    if system.part_of(source, "solar").is_some() {
        let Some(array) = array::around(system, source)? else {
            return Err(record.missing(&fields::CURRENT));
        };
        return array::short_current(&array, work);
    }
    let mut all: Vec<Figure> = Vec::new();
    if let Some(to) = record.text(&fields::TO) {
        all.extend(fed(system, record, to.value, work)?);
    }
    let named = record.text(&fields::NAME).map_or("", |name| name.value);
    for branch in system.circuits().iter().filter(|branch| is_branch(system, branch, record, named)) {
        let own = load(system, branch, &mut Work::default());
        all.push(work.step("I_b", format!("current of {}", branch.what), "", own, OHM)?);
    }
    if all.is_empty() {
        return Err(record.missing(&fields::CURRENT));
    }
    let whole = sum(Dimension::CURRENT, all).map(|sum| sum.shown_in("A"));
    work.step("I", "greatest current in it", "Σ of what it feeds", whole, OHM)
}

fn is_branch(system: System<'_>, branch: &Record, record: &Record, named: &str) -> bool {
    from(branch) == named && before(system, branch).is_some_and(|held| std::ptr::eq(held, record))
}

/// Currents of what a circuit leads to.
fn fed(system: System<'_>, record: &Record, to: &str, work: &mut Work) -> Known<Vec<Figure>> {
    if let Some(body) = system.part_of(to, "inverter") {
        return Ok(vec![inverter::at_lowest(system, body, work)?]);
    }
    if let Some(body) = system.part_of(to, "charger") {
        if from(record) == "bank" {
            // The lead between them, written from the side that feeds a short circuit in it.
            let own = given(&body.record, &charger::CURRENT);
            return Ok(vec![work.take("I", "current that the charger gives", own)?]);
        }
        return Ok(vec![into_charger(system, record, body, work)?]);
    }
    let is_fed = |use_: &&Record| {
        let named = use_.text(&usage::WHAT).is_some_and(|what| what.value == to);
        named || use_.text(&usage::ITEM).is_some_and(|item| item.value == to)
    };
    let fed: Vec<&Record> = system.uses().iter().filter(is_fed).collect();
    if fed.is_empty() {
        return Ok(Vec::new());
    }
    let v = voltage(system, record, work)?;
    let mut all = Vec::new();
    for use_ in fed {
        let own = own_power(system, use_).map(|power| power.over(&v).shown_in("A"));
        all.push(work.step("I_u", format!("current of {}", use_.what), "P / V", own, OHM)?);
    }
    Ok(all)
}

/// Power that a use takes where it is plugged in: what its inverter loses is lost before.
fn own_power(system: System<'_>, use_: &Record) -> Known<Figure> {
    let taken = uses::power(system, use_, &mut Work::default())?;
    match use_.text(&usage::THROUGH).and_then(|tag| system.part_of(tag.value, "inverter")) {
        Some(body) => {
            Ok(taken.times(&inverter::efficiency(system, body, &mut Work::default())?).shown_in("W"))
        }
        None => Ok(taken),
    }
}

/// Power that a charger takes.
fn power(system: System<'_>, body: &Item, work: &mut Work) -> Known<Figure> {
    let i = work.take("I_c", charger::CURRENT.doc, given(&body.record, &charger::CURRENT))?;
    let v = work.take("V_c", charger::VOLTAGE.doc, given(&body.record, &charger::VOLTAGE))?;
    let share =
        system.own_or(work, "η", &body.record, &charger::EFFICIENCY, &electric::CHARGER_EFFICIENCY)?;
    let taken = Ok(i.times(&v).over(&share).shown_in("W"));
    work.step("P", "power that it takes", "I_c · V_c / η", taken, Origin::derived("definition of efficiency"))
}

/// Current that a charger takes through a circuit: from the mains its power by the voltage, from a line that loses voltage
/// more.
fn into_charger(system: System<'_>, record: &Record, body: &Item, work: &mut Work) -> Known<Figure> {
    if body.record.need_word(&charger::SORT)?.value == "mains" {
        let p = power(system, body, work)?;
        let v = voltage(system, record, work)?;
        return work.step("I", "current that it takes", "P / V", Ok(p.over(&v).shown_in("A")), OHM);
    }
    Ok(line(system, record, body, work)?.1)
}

/// The voltage at the end of a line to a charger that takes the same power at any voltage, and the current in it:
/// `V_e` = (V + √(V² − 4·R·P)) / 2.
///
/// # Errors
/// What is missing, or that the line cannot carry that power at all.
pub(crate) fn line(
    system: System<'_>,
    record: &Record,
    body: &Item,
    work: &mut Work,
) -> Known<(Figure, Figure)> {
    let p = power(system, body, work)?;
    let v = voltage(system, record, work)?;
    let r = resistance(system, record, work)?;
    if end_voltage([v.quantity.si(), r.quantity.si(), p.quantity.si()]).is_none() {
        return Err(Missing::new(
            format!("a line of {} that carries what {} takes", record.what, body.called()),
            Some(record.span),
            "the wire loses more than it brings at any current: take a thicker one, or a smaller charger",
        ));
    }
    let found =
        Figure::by(Dimension::VOLTAGE, [&v, &r, &p], |inputs| end_voltage(inputs).unwrap_or_default());
    let end =
        work.step("V_e", "voltage at its end", "(V + √(V² − 4·R·P)) / 2", Ok(found.shown_in("V")), LINE)?;
    let i = work.step("I", "current in it", "P / V_e", Ok(p.over(&end).shown_in("A")), OHM)?;
    Ok((end, i))
}

/// Voltage at the end of a line from `v` volts over `r` ohms to a load of `p` watts; none where no current brings that power.
fn end_voltage([v, r, p]: [f64; 3]) -> Option<f64> {
    let under = v * v - 4.0 * r * p;
    (under >= 0.0).then(|| f64::midpoint(v, under.sqrt()))
}
