//! The figures of every circuit, with how they came about.

use pintle_quantity::Dimension;
use pintle_spec::schema::electric::{CIRCUIT, circuit as fields, usage};
use pintle_spec::schema::kinds::charger;
use pintle_spec::{Known, Missing, Record};

use super::{
    before, carries, drop, drop_allowed, drop_in_all, from, guard, is_critical, length, line, load,
    resistance,
};
use super::{sections, size, voltage};
use crate::electric::system::{System, TOPIC};
use crate::electric::wire;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::working::{Outcome, Work, Working};

type Sum = fn(System<'_>, &Record, &mut Work) -> Known<Outcome>;

const HOT: &str = "a wire that carries more than it may burns inside a wall; local codes and a licensed electrician go before this figure";
const GUIDE: &str =
    "a way of reckoning that others use, for comparison: the figure by resistance is the one to judge";

/// The figures of one circuit: name, what it is, how it is worked out, and what to know before it is relied on.
const FIGURES: &[(&str, &str, Sum, &str)] = &[
    ("circuit_voltage", "nominal voltage", |s, r, w| Ok(voltage(s, r, w)?.into()), ""),
    ("circuit_load", "greatest current in it", |s, r, w| Ok(load(s, r, w)?.into()), ""),
    ("ampacity", "what its wire may carry", |s, r, w| Ok(carries(s, r, w)?.into()), HOT),
    ("load_to_ampacity", "its current for what its wire may carry", load_to_ampacity, HOT),
    ("wire_resistance", "resistance of both its wires", |s, r, w| Ok(resistance(s, r, w)?.into()), ""),
    ("voltage_drop", "voltage lost in it", |s, r, w| Ok(drop(s, r, w)?.into()), ""),
    (
        "voltage_drop_total",
        "voltage lost on the whole way to it",
        |s, r, w| Ok(drop_in_all(s, r, w)?.into()),
        "",
    ),
    ("voltage_drop_share", "share of the voltage lost on the whole way", drop_share, ""),
    (
        "voltage_drop_allowed",
        "share of the voltage that may be lost",
        |s, r, w| Ok(drop_allowed(s, r, w)?.into()),
        "",
    ),
    ("critical_circuit", "whether little voltage may be lost in it", |_, r, _| Ok(is_critical(r).into()), ""),
    (
        "voltage_drop_round_trip",
        "voltage lost in it, by K = 10.75 and the length of both wires",
        by_round_trip,
        GUIDE,
    ),
    ("voltage_drop_one_way", "voltage lost in it, by K = 12.9 and the length one way", by_one_way, GUIDE),
    ("voltage_drop_metric", "voltage lost in it, by κ = 56 and the length one way", by_kappa, GUIDE),
    ("gauge_needed", "thinnest wire that is enough", size::needed, HOT),
    ("fused", "whether it has a fuse of its own", |_, r, _| Ok(guard::is_fused(r).into()), ""),
    ("guarded", "whether any fuse guards it", |s, r, _| Ok(guard::is_guarded(s, r).into()), ""),
    ("guarding_fuse", "rating of the fuse that guards it", guard::rating, ""),
    ("fuse_to_ampacity", "that fuse for what its wire may carry", guard::to_ampacity, HOT),
    ("fuse_to_load", "that fuse for its greatest current", guard::to_load, ""),
    ("fuse_most", "greatest fuse for its wire", guard::most, HOT),
    ("fuse_most_next_size", "greatest fuse for its wire, next size up", guard::stretched, HOT),
    (
        "low_voltage_most",
        "current that a recreational vehicle's low-voltage wire may carry",
        |_, r, _| guard::low_voltage(r),
        "from memory of an old code: look it up",
    ),
    ("fuse_distance", "from what feeds it to its fuse", |_, r, w| guard::distance(r, w), ""),
    ("fuse_distance_most", "how far its fuse may stand", |_, r, w| Ok(guard::farthest(r, w)), ""),
    ("fuse_interrupts", "greatest current that its fuse can break", |_, r, w| guard::interrupts(r, w), ""),
    (
        "wire_sizes_mixed",
        "whether wires of several gauges hang on one fuse",
        |s, r, _| Ok(guard::sizes_mixed(s, r)?.into()),
        "",
    ),
];

/// Its current as a share of what its wire may carry.
fn load_to_ampacity(system: System<'_>, record: &Record, work: &mut Work) -> Known<Outcome> {
    let share = load(system, record, work)?.over(&carries(system, record, work)?).as_share();
    Ok(work
        .step(
            "x",
            "its current for what its wire may carry",
            "I / I_z",
            Ok(share),
            Origin::derived("a ratio"),
        )?
        .into())
}

/// The share of the voltage that is lost on the whole way.
fn drop_share(system: System<'_>, record: &Record, work: &mut Work) -> Known<Outcome> {
    let lost = drop_in_all(system, record, work)?;
    let share = lost.over(&voltage(system, record, work)?).as_share();
    Ok(work.step("u", "share of the voltage lost", "U_t / V", Ok(share), Origin::derived("a ratio"))?.into())
}

/// A formula for the voltage lost, in words, and from A, m and m².
type Formula = (&'static str, fn(f64, f64, f64) -> f64);

/// Voltage lost by one of the formulas that others use; of two gauges the thinner counts for both wires.
fn by(
    system: System<'_>,
    record: &Record,
    work: &mut Work,
    trips: f64,
    formula: Formula,
    source: Origin,
) -> Known<Outcome> {
    let i = load(system, record, work)?;
    let one_way = length(record, work)?;
    let l = one_way.scaled(trips);
    let [out, back] = sections(record, work)?;
    let s = crate::space::alike(out.lesser(&back))?;
    let found = Figure::by(Dimension::VOLTAGE, [&i, &l, &s], |[i, l, s]| formula.1(i, l, s)).shown_in("V");
    Ok(work.step("E", "voltage lost in it", formula.0, Ok(found), source)?.into())
}

fn by_round_trip(system: System<'_>, record: &Record, work: &mut Work) -> Known<Outcome> {
    let source =
        Origin::published("a marine chandlery's wire chart, pages 52 and 53 (seen): length of both wires");
    by(system, record, work, 2.0, ("10.75 · I · (2 · l) / CM, l in ft", wire::drop_round_trip), source)
}

fn by_one_way(system: System<'_>, record: &Record, work: &mut Work) -> Known<Outcome> {
    let source = Origin::published("tradelicenseprep.com, voltage drop examples (seen): length one way");
    by(system, record, work, 1.0, ("2 · 12.9 · I · l / CM, l in ft", wire::drop_one_way), source)
}

fn by_kappa(system: System<'_>, record: &Record, work: &mut Work) -> Known<Outcome> {
    let source = Origin::published("svb-media.de, page on wires (seen): length one way");
    by(system, record, work, 1.0, ("2 · l · I / (κ · S), κ = 56 m/(Ω·mm²)", wire::drop_metric), source)
}

/// The figures of every circuit, and of what should have one.
pub(crate) fn workings(system: System<'_>) -> Vec<Working> {
    let mut all = wired(system);
    if system.circuits().is_empty() && system.build.of_kind("battery").next().is_some() {
        let none = |_: &mut Work| -> Known<bool> { Err(system.need()?.missing(&CIRCUIT)) };
        all.push(Working::of(TOPIC, "fused", "the circuits", "whether it has a fuse of its own", none));
    }
    for record in system.circuits() {
        for (key, says, sum, caution) in FIGURES {
            let found = |work: &mut Work| sum(system, record, work);
            all.push(Working::of(TOPIC, key, record.what.to_string(), says, found).warned(caution));
        }
        all.extend(from_the_bank(system, record));
        all.extend(line_end(system, record));
    }
    all
}

/// Whether circuits lead to every inverter, charger and use: what no circuit leads to is wired all the same, and nobody said
/// how.
fn wired(system: System<'_>) -> Vec<Working> {
    let says = "whether a circuit of the spec leads to it";
    let ends = |name: &str| {
        let at =
            |field| system.circuits().iter().any(|it| it.text(field).is_some_and(|end| end.value == name));
        at(&fields::TO) || at(&fields::FROM)
    };
    let mut all = Vec::new();
    let parts = system.build.items.iter().filter(|item| matches!(item.kind, "inverter" | "charger"));
    for body in parts {
        let has = ends(&body.tag.value);
        all.push(Working::of(TOPIC, "has_circuit", body.called(), says, |_| Ok(has)));
    }
    for record in system.uses().iter().filter(|record| record.value(usage::THROUGH.key).is_none()) {
        let named = |field| record.text(field).is_some_and(|name| ends(name.value));
        let has = named(&usage::WHAT) || named(&usage::ITEM);
        all.push(Working::of(TOPIC, "has_circuit", record.what.to_string(), says, |_| Ok(has)));
    }
    all
}

/// Of a circuit with a fuse that the bank feeds, straight or through others or from its far end, the current that its fuse has to break.
fn from_the_bank(system: System<'_>, record: &Record) -> Option<Working> {
    let to_the_bank = record.text(&fields::TO).is_some_and(|to| to.value == "bank");
    if !guard::is_fused(record) || !(to_the_bank || from(first(system, record)) == "bank") {
        return None;
    }
    let says = "current of the bank into a short circuit behind its fuse";
    let fault = |work: &mut Work| guard::fault(system, record, work);
    Some(Working::of(TOPIC, "fault_current", record.what.to_string(), says, fault))
}

/// The first circuit on the way to a circuit.
fn first<'a>(system: System<'a>, record: &'a Record) -> &'a Record {
    let mut at = record;
    while let Some(held) = before(system, at) {
        at = held;
    }
    at
}

/// Of a line from the tow vehicle, the voltage at its end.
fn line_end(system: System<'_>, record: &Record) -> Option<Working> {
    if from(record) != "tow vehicle" {
        return None;
    }
    let says = "voltage at its end, engine running";
    Some(Working::of(TOPIC, "line_voltage", record.what.to_string(), says, |work| {
        let to = record.text(&fields::TO).map_or("", |to| to.value);
        let charger = system
            .part_of(to, "charger")
            .filter(|body| body.record.word(&charger::SORT).is_some_and(|sort| sort.value != "mains"));
        if let Some(body) = charger.filter(|_| record.value(fields::CURRENT.key).is_none()) {
            return Ok(line(system, record, body, work)?.0);
        }
        let v = voltage(system, record, work)?;
        let lost = drop(system, record, work)?;
        let end = crate::space::alike(v.minus(&lost))?;
        if end.quantity.si() <= 0.0 {
            return Err(Missing::new(
                format!("a line of {} that carries its current", record.what),
                Some(record.span),
                "more voltage would be lost than there is: take a thicker wire, or less current",
            ));
        }
        work.step("V_e", "voltage at its end", "V − U", Ok(end), Origin::derived("Ohm's law"))
    }))
}
