//! What uses electricity: power at the bank, energy a day, and the hours in which it is used.

use pintle_quantity::{Dimension, Quantity};
use pintle_spec::schema::electric::{self as schema, usage};
use pintle_spec::schema::kinds::inverter as inverter_fields;
use pintle_spec::{Item, Known, Missing, Record};

use super::system::{System, TOPIC, one_or};
use super::{bank, inverter};
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::{alike, given, sum};
use crate::working::{Outcome, Work, Working};

const ENERGY: Origin = Origin::derived("power × time");
const HOUR: f64 = 3600.0;

/// The inverter that a use runs on.
fn through<'a>(system: System<'a>, record: &Record) -> Option<&'a Item> {
    system.part_of(record.text(&usage::THROUGH)?.value, "inverter")
}

/// Power that a use takes from the bank when it runs: what it takes itself, and what its inverter loses.
pub(crate) fn power(system: System<'_>, record: &Record, work: &mut Work) -> Known<Figure> {
    let through = through(system, record);
    let each = if record.value(usage::POWER.key).is_none() && record.value(usage::CURRENT.key).is_some() {
        let i = work.take("I", usage::CURRENT.doc, given(record, &usage::CURRENT))?;
        let v = match through {
            Some(_) => given(mains(system)?, &schema::mains::VOLTAGE),
            None => bank::voltage(&bank::need(system)?, &mut Work::default()),
        };
        let v = work.take("V", "voltage that it runs on", v)?;
        let power = Ok(i.times(&v).shown_in("W"));
        work.step("P", "power of each", "I · V", power, Origin::derived("definition of the volt"))?
    } else {
        work.take("P", usage::POWER.doc, given(record, &usage::POWER))?
    };
    let all = each.scaled(f64::from(one_or(record, &usage::COUNT)));
    let all = work.step("P_n", "power of all of it", "n · P", Ok(all), ENERGY)?;
    let Some(body) = through else { return Ok(all) };
    let share = inverter::efficiency(system, body, work)?;
    let taken = Ok(all.over(&share).shown_in("W"));
    work.step("P_b", "power from the bank", "P_n / η", taken, Origin::derived("definition of efficiency"))
}

fn mains(system: System<'_>) -> Known<&Record> {
    system.need()?.need_table(&schema::MAINS)
}

/// Hours that a use is on in a day, up to all of them.
fn hours(record: &Record, work: &mut Work) -> Known<Figure> {
    let hours = work.take("t", usage::HOURS.doc, given(record, &usage::HOURS))?;
    if hours.quantity.si() > 24.0 * HOUR * (1.0 + 1e-9) {
        return Err(Missing::new(
            format!("a day of {} that has no more than 24 h", record.what),
            record.quantity(&usage::HOURS).map(|hours| hours.span),
            "give the hours of one day",
        ));
    }
    Ok(hours)
}

/// Energy that a use takes from the bank in a day.
pub(crate) fn energy(system: System<'_>, record: &Record, work: &mut Work) -> Known<Figure> {
    let power = power(system, record, work)?;
    let hours = hours(record, work)?;
    let full = power.times(&hours).shown_in("Wh");
    if record.value(usage::DUTY.key).is_none() {
        return work.step("E", "energy a day", "P · t", Ok(full), ENERGY);
    }
    let duty = work.take("d", usage::DUTY.doc, given(record, &usage::DUTY))?;
    work.step("E", "energy a day", "P · t · d", Ok(full.times(&duty).shown_in("Wh")), ENERGY)
}

/// The share of each hour of the day in which a use is on.
///
/// # Errors
/// Its hours, where they are not given, or an hour of the day that there is not.
pub(crate) fn on(record: &Record) -> Known<[f64; 24]> {
    let hours = hours(record, &mut Work::default())?.quantity.si() / HOUR;
    let Some(from) = record.count(&usage::FROM_HOUR) else { return Ok([hours / 24.0; 24]) };
    if from.value > 23 {
        return Err(Missing::new(
            format!("an hour of the day of {}", record.what),
            Some(from.span),
            "give the hour at which it is switched on, from 0 to 23",
        ));
    }
    Ok(std::array::from_fn(|hour| {
        let hour = u32::try_from(hour).unwrap_or(0);
        let passed = f64::from((hour + 24 - from.value) % 24);
        (hours - passed).clamp(0.0, 1.0)
    }))
}

/// What an inverter takes for itself in each hour of the day: its idle power while anything runs on it.
fn idle(system: System<'_>, body: &Item) -> Known<Option<(Figure, [f64; 24])>> {
    let mut most = [0.0_f64; 24];
    let mut any = false;
    for record in system.uses() {
        if through(system, record).is_some_and(|held| held.tag.value == body.tag.value) {
            any = true;
            for (most, on) in most.iter_mut().zip(on(record)?) {
                *most = most.max(on);
            }
        }
    }
    if !any {
        return Ok(None);
    }
    Ok(Some((given(&body.record, &inverter_fields::IDLE)?, most)))
}

/// Energy taken from the bank in each hour of a day, by all uses and by inverters for themselves.
pub(crate) fn by_the_hour(system: System<'_>) -> Known<Vec<Figure>> {
    let mut hours = vec![bank::none_of(Dimension::ENERGY); 24];
    let mut add = |whole: &Figure, shares: [f64; 24]| -> Known<()> {
        for (held, share) in hours.iter_mut().zip(shares) {
            if share > 0.0 {
                *held = alike(held.plus(&whole.scaled(share)))?;
            }
        }
        Ok(())
    };
    for record in system.uses() {
        let whole = energy(system, record, &mut Work::default())?;
        let on = on(record)?;
        let total: f64 = on.iter().sum();
        add(&whole, on.map(|on| if total > 0.0 { on / total } else { 0.0 }))?;
    }
    for (_, body) in system.build.of_kind("inverter") {
        if let Some((power, on)) = idle(system, body)? {
            add(&power.times(&hour()), on)?;
        }
    }
    Ok(hours)
}

/// One hour.
pub(crate) fn hour() -> Figure {
    Figure::constant(Quantity::from_si(HOUR, Dimension::TIME))
}

/// Energy taken from the bank in a day.
pub(crate) fn daily(system: System<'_>, work: &mut Work) -> Known<Figure> {
    need_uses(system)?;
    let mut all = Vec::new();
    for record in system.uses() {
        let one = energy(system, record, &mut Work::default());
        all.push(work.step("E_i", format!("{}, a day", record.what), "P · t · d", one, ENERGY)?);
    }
    for (_, body) in system.build.of_kind("inverter") {
        if let Some((power, on)) = idle(system, body)? {
            let own = Ok(power.times(&hour()).scaled(on.iter().sum()).shown_in("Wh"));
            let what = format!("what {} takes for itself, a day", body.called());
            all.push(work.step("E_i", what, "P_0 · t", own, ENERGY)?);
        }
    }
    let total = sum(Dimension::ENERGY, all).map(|sum| sum.shown_in("Wh"));
    work.step("E", "energy a day", "Σ E_i", total, ENERGY)
}

fn need_uses(system: System<'_>) -> Known<()> {
    let electric = system.need()?;
    if system.uses().is_empty() { Err(electric.missing(&schema::USE)) } else { Ok(()) }
}

/// Current from the bank with every inverter at full load on a low battery, and everything else running at once.
pub(crate) fn bank_load(system: System<'_>, work: &mut Work) -> Known<Figure> {
    let held = bank::need(system)?;
    let mut all = Vec::new();
    for (_, body) in system.build.of_kind("inverter") {
        let own = inverter::at_lowest(system, body, &mut Work::default());
        all.push(work.step(
            "I_i",
            format!("{} at full load", body.called()),
            "P / (η · V_l)",
            own,
            ENERGY,
        )?);
    }
    let straight: Vec<&Record> =
        system.uses().iter().filter(|record| through(system, record).is_none()).collect();
    if all.is_empty() && straight.is_empty() {
        need_uses(system)?;
    }
    if !straight.is_empty() {
        let v = bank::voltage(&held, work)?;
        for record in straight {
            let own = power(system, record, &mut Work::default()).map(|power| power.over(&v).shown_in("A"));
            all.push(work.step("I_i", record.what.to_string(), "P / V", own, ENERGY)?);
        }
    }
    let total = sum(Dimension::CURRENT, all).map(|sum| sum.shown_in("A"));
    work.step("I", "current from the bank, all at once", "Σ I_i", total, ENERGY)
}

/// The figures of what is used.
pub(crate) fn workings(system: System<'_>) -> Vec<Working> {
    let mut all: Vec<Working> = Vec::new();
    for record in system.uses() {
        let of = record.what.to_string();
        all.push(Working::of(TOPIC, "use_energy", of, "energy from the bank a day", |work| {
            energy(system, record, work)
        }));
    }
    let has_battery = system.build.of_kind("battery").next().is_some();
    if !system.uses().is_empty() || has_battery {
        all.push(Working::of(TOPIC, "daily_use", "the build", "energy from the bank a day", |work| {
            daily(system, work)
        }));
    }
    if has_battery {
        all.push(Working::of(TOPIC, "bank_load", "the bank", "current with all running at once", |work| {
            bank_load(system, work)
        }));
        all.push(Working::of(TOPIC, "discharge_rate", "the bank", "that current for its charge", |work| {
            let i = bank_load(system, work)?;
            let c = bank::capacity(&bank::need(system)?, work)?;
            let rate = Ok(bank::rate(&i, &c).shown_in("/h"));
            work.step(
                "r",
                "C-rate",
                "I / C",
                rate,
                Origin::practice("currents told in multiples of the charge an hour"),
            )
        }));
        all.push(Working::of(TOPIC, "days_of_autonomy", "the bank", "days without any charge", |work| {
            let e = bank::usable_energy(system, &bank::need(system)?, work)?;
            let use_ = daily(system, work)?;
            if use_.quantity.si() <= 0.0 {
                return Ok(Outcome::None("nothing is used".to_owned()));
            }
            let days =
                Figure::by(Dimension::TIME, [&e, &use_], |[e, day]| e / day * 24.0 * HOUR).shown_in("d");
            Ok(work.step("d", "days without any charge", "E_u / E", Ok(days), ENERGY)?.into())
        }));
    }
    all
}
