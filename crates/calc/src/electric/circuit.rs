//! Circuits: what they carry, what their wire allows, what is lost in it, and what guards it.

mod guard;
mod load;
mod size;
mod workings;

use pintle_quantity::{Dimension, Quantity, Unit, Units};
use pintle_spec::field::Field;
use pintle_spec::schema::assume::{self, electric};
use pintle_spec::schema::electric::circuit as fields;
use pintle_spec::schema::electric::{ENDS, FEEDERS, MAINS, mains};
use pintle_spec::schema::kinds::{battery, charger, solar};
use pintle_spec::{Known, Missing, Record};

use super::system::System;
use super::{ampacity, array, bank, wire};
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::{alike, given};
use crate::working::Work;

pub(crate) use load::{line, load};
pub(crate) use workings::workings;

const OHM: Origin = Origin::derived("Ohm's law; both wires of the run");
const COPPER: Origin = Origin::published(
    "resistivity from hyperphysics.phy-astr.gsu.edu, wire gauge table (seen), and 0.393 % a kelvin",
);

/// The circuit that a circuit is fed from, where it is one.
pub(crate) fn before<'a>(system: System<'a>, record: &Record) -> Option<&'a Record> {
    let from = record.text(&fields::FROM)?.value;
    let feeds = system.build.item(from).is_some_and(|part| FEEDERS.contains(&part.kind));
    if ENDS.contains(&from) || feeds { None } else { system.circuit(from) }
}

/// What a circuit is fed from, as written.
pub(crate) fn from(record: &Record) -> &str {
    record.text(&fields::FROM).map_or("", |from| from.value)
}

/// Nominal voltage of a circuit: its own, else that of what it is fed from.
pub(crate) fn voltage(system: System<'_>, record: &Record, work: &mut Work) -> Known<Figure> {
    if record.value(fields::VOLTAGE.key).is_some() {
        return work.take("V", fields::VOLTAGE.doc, given(record, &fields::VOLTAGE));
    }
    let source = from(record);
    match source {
        "bank" => return bank::voltage(&bank::need(system)?, work),
        "tow vehicle" => {
            return work.assume("V", &system.case, &assume::ELECTRIC, &electric::ALTERNATOR_VOLTAGE);
        }
        "mains" => {
            let mains = system.need()?.need_table(&MAINS)?;
            return work.take("V", "nominal voltage of the mains", given(mains, &mains::VOLTAGE));
        }
        _ => {}
    }
    if let Some(before) = before(system, record) {
        return voltage(system, before, work);
    }
    let part = system.build.item(source);
    let stated = part.and_then(|part| match part.kind {
        "battery" => Some(given(&part.record, &battery::VOLTAGE)),
        "charger" => Some(given(&part.record, &charger::VOLTAGE)),
        "solar" => Some(given(&part.record, &solar::WORKING_VOLTAGE).and_then(|own| {
            let series = array::around(system, part.tag.value.as_str())?.map_or(1, |array| array.series);
            Ok(own.scaled(f64::from(series)))
        })),
        _ => None,
    });
    match stated {
        Some(voltage) => work.take("V", "voltage of what it is fed from", voltage),
        None => Err(record.missing(&fields::VOLTAGE)),
    }
}

/// Copper section of one of a circuit's wires, by the circular mils that its author chose.
pub(crate) fn section(record: &Record, field: &'static Field) -> Known<Figure> {
    let gauge = given(record, field)?;
    if record.word(&fields::MILS).is_none_or(|mils| mils.value == "AWG") {
        return Ok(gauge);
    }
    let number = Unit::find("AWG").and_then(|unit| gauge.quantity.value_in(unit).ok());
    let sae = number.filter(|_| gauge.quantity.unit().is_some_and(|unit| unit.name() == "AWG"));
    let Some(section) = sae.and_then(wire::sae_section) else {
        return Err(Missing::new(
            format!("a gauge of the SAE table for `{}` of {}", field.key, record.what),
            record.quantity(field).map(|gauge| gauge.span),
            "give an even gauge from 18 to 4/0 AWG, or leave `mils` out",
        ));
    };
    Ok(gauge.scaled(section / gauge.quantity.si()).shown_in("mm²"))
}

/// The sections of the wire out and of the wire back.
pub(crate) fn sections(record: &Record, work: &mut Work) -> Known<[Figure; 2]> {
    let sae = record.word(&fields::MILS).is_some_and(|mils| mils.value == "SAE");
    let origin = if sae {
        Origin::memory("SAE J1127 and J1128, least circular mils by gauge")
    } else {
        Origin::published("ASTM B258, as in a public gauge table (seen)")
    };
    let out = work.step("S", "copper of the wire", "", section(record, &fields::GAUGE), origin.clone())?;
    let back = if record.value(fields::RETURN_GAUGE.key).is_some() {
        work.step("S_r", "copper of the return wire", "", section(record, &fields::RETURN_GAUGE), origin)?
    } else {
        out.clone()
    };
    Ok([out, back])
}

/// Length of the run, one way.
pub(crate) fn length(record: &Record, work: &mut Work) -> Known<Figure> {
    work.take("l", fields::LENGTH.doc, given(record, &fields::LENGTH))
}

/// Resistance of both wires of the run.
pub(crate) fn resistance(system: System<'_>, record: &Record, work: &mut Work) -> Known<Figure> {
    let [out, back] = sections(record, work)?;
    let l = length(record, work)?;
    let lay = work.assume("k", &system.case, &assume::ELECTRIC, &electric::STRANDING)?;
    let t = work.assume("T", &system.case, &assume::ELECTRIC, &electric::WIRE_TEMPERATURE)?;
    let found = wire::loop_resistance(&l, &out, &back, &lay, &t).shown_in("mΩ");
    let formula = "ρ · l · (1/S + 1/S_r) · (1 + k) · (1 + 0.00393 · (T − 20 °C)), ρ = 1.7241e-8 Ω·m";
    work.step("R", "resistance of both wires", formula, Ok(found), COPPER)
}

/// Voltage lost in a circuit by itself.
pub(crate) fn drop(system: System<'_>, record: &Record, work: &mut Work) -> Known<Figure> {
    let r = resistance(system, record, work)?;
    let i = load(system, record, work)?;
    work.step("U", "voltage lost in it", "I · R", Ok(i.times(&r).shown_in("V")), OHM)
}

/// Voltage lost in a circuit and in those before it.
pub(crate) fn drop_in_all(system: System<'_>, record: &Record, work: &mut Work) -> Known<Figure> {
    let mut all = drop(system, record, work)?;
    let mut at = before(system, record);
    while let Some(held) = at {
        let own = drop(system, held, &mut Work::default());
        let own = work.step("U_b", format!("voltage lost in {} before it", held.what), "I · R", own, OHM)?;
        all = alike(all.plus(&own))?;
        at = before(system, held);
    }
    work.step("U_t", "voltage lost on the whole way", "U + Σ U_b", Ok(all.shown_in("V")), OHM)
}

/// Whether little voltage may be lost in a circuit; so when nothing is said, as the schema has it.
fn is_critical(record: &Record) -> bool {
    record.flag(&fields::CRITICAL).is_none_or(|flag| flag.value)
}

/// The share of the voltage that may be lost.
pub(crate) fn drop_allowed(system: System<'_>, record: &Record, work: &mut Work) -> Known<Figure> {
    let field = if is_critical(record) { &electric::DROP_CRITICAL } else { &electric::DROP_OTHER };
    work.assume("u", &system.case, &assume::ELECTRIC, field)
}

/// The column of ampacities for a circuit's insulation.
pub(crate) fn table(record: &Record) -> Known<ampacity::Table> {
    let insulation = record.need_word(&fields::INSULATION)?;
    ampacity::Table::of(insulation.value).ok_or_else(|| record.missing(&fields::INSULATION))
}

/// Current-carrying wires in its bundle: its own two when nothing is said, as the schema has it.
pub(crate) fn bundled(record: &Record) -> u32 {
    record.count(&fields::BUNDLED).map_or(2, |count| count.value)
}

/// A plain number.
pub(crate) fn plain(value: f64) -> Figure {
    Figure::constant(Quantity::from_si(value, Dimension::NONE))
}

/// What warmth and company leave of a table's ampacity.
pub(crate) fn left(system: System<'_>, record: &Record, work: &mut Work) -> Known<Figure> {
    let table = table(record)?;
    let ambient = work.assume("T_a", &system.case, &assume::ELECTRIC, &electric::AMBIENT)?;
    if ampacity::warmth(table.insulation(), ambient.quantity.si()).is_none() {
        return Err(Missing::new(
            format!("insulation of {} that stands the air round it", record.what),
            record.word(&fields::INSULATION).map(|word| word.span),
            "take wire whose insulation stands more",
        ));
    }
    let warmth = Figure::by(Dimension::NONE, [&ambient], |[t]| {
        ampacity::warmth(table.insulation(), t).unwrap_or_default()
    });
    let source = Origin::published("NEC 310.15(B), correction for warmth; the formula, from memory");
    let warmth =
        work.step("k_T", "what warmth leaves", "√((T_i − T_a) / (T_i − 30 °C))", Ok(warmth), source)?;
    let source = if table == ampacity::Table::Boat105 {
        Origin::memory("ABYC E-11, bundling factors")
    } else {
        Origin::published("NEC 2014 table 310.15(B)(3)(a), on buildmyowncabin.com (seen)")
    };
    let wires = bundled(record);
    let what = format!("what company leaves, {wires} current-carrying wires in the bundle");
    let company = work.know("k_n", what, plain(ampacity::company(table, wires)), source);
    Ok(warmth.times(&company))
}

/// What a circuit's wire may carry: of two gauges the thinner.
pub(crate) fn carries(system: System<'_>, record: &Record, work: &mut Work) -> Known<Figure> {
    let table = table(record)?;
    // A gauge of SAE has fewer circular mils, and is the same row of the table.
    let out = given(record, &fields::GAUGE)?;
    let back =
        record.value(fields::RETURN_GAUGE.key).map(|_| given(record, &fields::RETURN_GAUGE)).transpose()?;
    let thinner = match back {
        Some(back) => alike(out.lesser(&back))?,
        None => out,
    };
    let s = work.take("S", "gauge of its thinnest wire", Ok(thinner))?;
    if ampacity::allowed(table, s.quantity.si()).is_none() {
        let insulation = record.need_word(&fields::INSULATION)?.value;
        return Err(Missing::new(
            format!("an ampacity of {} in the {insulation} column", record.what),
            record.quantity(&fields::GAUGE).map(|gauge| gauge.span),
            "the table has no wire so thin: take a thicker one, or insulation that stands more",
        ));
    }
    let base = Figure::by(Dimension::CURRENT, [&s], |[s]| ampacity::allowed(table, s).unwrap_or_default());
    let base = base.shown_in("A");
    let row = ampacity::row_of(s.quantity.si()).zip(Unit::find("AWG"));
    let row = row.map(|(n, unit)| Quantity::of(f64::from(n), unit).show(Units::AsWritten));
    let what = format!("ampacity in the table, row {}", row.unwrap_or_default());
    let base = work.step("I_0", what, "", Ok(base), Origin::published(table.source()))?;
    let left = left(system, record, work)?;
    let found = Ok(base.times(&left));
    work.step("I_z", "what the wire may carry", "I_0 · k_T · k_n", found, Origin::published(table.source()))
}
