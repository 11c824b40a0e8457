//! The mains side: what the inlet has to carry, and what was recorded of earth, outlets and the panel.

use pintle_quantity::Dimension;
use pintle_spec::field::Field;
use pintle_spec::schema::assume::electric;
use pintle_spec::schema::electric::mains::{self as fields, outlet};
use pintle_spec::schema::electric::{CONNECTOR, DISCONNECT, MAINS, connector};
use pintle_spec::schema::kinds::charger;
use pintle_spec::schema::trailer::{self, brakes};
use pintle_spec::{Item, Known, Record};

use super::circuit;
use super::system::{System, TOPIC};
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::{given, sum};
use crate::working::{Outcome, Work, Working};

const SHOCK: &str = "mains voltage kills: this is a record, not a test; a licensed electrician works on it, and local codes go before \
    this figure";

/// Current from the mains with every charger at full output and all else plugged in.
fn load(system: System<'_>, mains: &Record, work: &mut Work) -> Known<Figure> {
    let v = work.take("V", fields::VOLTAGE.doc, given(mains, &fields::VOLTAGE))?;
    let mut all = vec![work.take("P_0", fields::LOAD.doc, given(mains, &fields::LOAD))?];
    let chargers = system.build.of_kind("charger").map(|(_, body)| body);
    for body in chargers.filter(|body| is_plugged_in(body)) {
        body.record.need_word(&charger::SORT)?;
        let i = given(&body.record, &charger::CURRENT)?;
        let output = i.times(&given(&body.record, &charger::VOLTAGE)?);
        let share =
            system.own_or(work, "η", &body.record, &charger::EFFICIENCY, &electric::CHARGER_EFFICIENCY)?;
        let taken = Ok(output.over(&share).shown_in("W"));
        let efficiency = Origin::derived("definition of efficiency");
        all.push(work.step(
            "P_i",
            format!("what {} takes", body.called()),
            "I · V / η",
            taken,
            efficiency,
        )?);
    }
    let whole = sum(Dimension::POWER, all)?;
    let current = Ok(whole.over(&v).shown_in("A"));
    work.step("I", "current from the mains", "Σ P / V", current, Origin::derived("definition of the volt"))
}

fn unguarded(mains: &Record) -> Known<Vec<String>> {
    let mut names = Vec::new();
    if mains.tables(&fields::OUTLETS).is_empty() {
        return Err(mains.missing(&fields::OUTLETS));
    }
    for record in mains.tables(&fields::OUTLETS) {
        if !record.need_flag(&outlet::GFCI)?.value {
            names.push(record.what.to_string());
        }
    }
    Ok(names)
}

/// How a figure of the mains side is worked out.
type Sum = fn(System<'_>, &Record, &mut Work) -> Known<Outcome>;

/// What is taken as it is stated.
fn stated(mains: &Record, field: &'static Field, work: &mut Work) -> Known<Outcome> {
    Ok(work.take("x", field.doc, given(mains, field))?.into())
}

fn share(system: System<'_>, mains: &Record, work: &mut Work) -> Known<Outcome> {
    let i = load(system, mains, work)?;
    let n = work.take("I_n", fields::INLET.doc, given(mains, &fields::INLET))?;
    let share = Ok(i.over(&n).as_share());
    Ok(work.step("x", "current for the rating", "I / I_n", share, Origin::derived("a ratio"))?.into())
}

fn bond(mains: &Record, work: &mut Work) -> Known<Outcome> {
    if mains.value(fields::BOND.key).is_none() {
        return Ok(Outcome::None("the frame is not bonded".to_owned()));
    }
    stated(mains, &fields::BOND, work)
}

const FIGURES: &[(&str, &str, Sum)] = &[
    ("mains_load", "current from the mains", |s, m, w| Ok(load(s, m, w)?.into())),
    ("inlet", "rating of the inlet", |_, m, w| stated(m, &fields::INLET, w)),
    ("mains_to_inlet", "current for the inlet's rating", share),
    ("main_breaker", "rating of the main breaker", |_, m, w| stated(m, &fields::BREAKER, w)),
    ("outlets_without_gfci", "outlets that no ground-fault interrupter guards", |_, m, _| {
        Ok(unguarded(m)?.into())
    }),
    ("frame_bond", "copper of the wire that bonds the frame", |_, m, w| bond(m, w)),
    ("neutral_bonded", "whether neutral and earth are joined in the trailer", |_, m, _| {
        Ok(m.need_flag(&fields::NEUTRAL_BONDED)?.value.into())
    }),
    ("panel_clear_width", "width left free before the panel", |_, m, w| stated(m, &fields::CLEAR_WIDTH, w)),
    ("panel_clear_depth", "depth left free before the panel", |_, m, w| stated(m, &fields::CLEAR_DEPTH, w)),
    ("inlet_from_rear", "from the rear forward to the inlet", |_, m, w| {
        stated(m, &fields::INLET_FROM_REAR, w)
    }),
    ("inlet_side", "the side that the inlet is on", |_, m, _| {
        Ok(m.need_word(&fields::INLET_SIDE)?.value.to_owned().into())
    }),
];

/// Whether a charger draws on the mains; one of which that is not said may.
fn is_plugged_in(body: &Item) -> bool {
    body.record.word(&charger::SORT).is_none_or(|sort| sort.value == "mains")
}

/// The figures of the mains side: of a build that describes one, or has a charger for it.
pub(crate) fn workings(system: System<'_>) -> Vec<Working> {
    let mut all = others(system);
    let written = system.written.and_then(|electric| electric.table(&MAINS));
    let plugs_in = system.build.of_kind("charger").any(|(_, body)| is_plugged_in(body));
    if written.is_none() && !plugs_in {
        return all;
    }
    let mains = system.need().and_then(|electric| electric.need_table(&MAINS));
    for (key, says, sum) in FIGURES {
        let found = |work: &mut Work| sum(system, mains.clone()?, work);
        all.push(Working::of(TOPIC, key, "the mains side", says, found).warned(SHOCK));
    }
    all
}

/// Whether a switch takes everything off the bank, and what the plug to the tow vehicle lacks.
fn others(system: System<'_>) -> Vec<Working> {
    let mut all = Vec::new();
    if system.build.of_kind("battery").next().is_some() {
        let says = "whether a switch takes everything off it";
        all.push(Working::of(TOPIC, "disconnect", "the bank", says, |_| {
            Ok(system.need()?.need_flag(&DISCONNECT)?.value)
        }));
    }
    if let Some(electric) = system.written {
        let says = "functions that lamps, brakes and charging need and that it is not wired for";
        let found = |_: &mut Work| lacks(system, electric.need_table(&CONNECTOR)?);
        all.push(Working::of(TOPIC, "plug_lacks", "the plug", says, found));
    }
    all
}

fn lacks(system: System<'_>, plug: &Record) -> Known<Vec<String>> {
    let wired =
        plug.words(&connector::FUNCTIONS_WIRED).ok_or_else(|| plug.missing(&connector::FUNCTIONS_WIRED))?;
    let trailer = &system.build.trailer;
    let lamps = trailer.words(&trailer::LAMPS).ok_or_else(|| trailer.missing(&trailer::LAMPS))?;
    let mut needed = vec!["earth"];
    let has = |lamp: &str| lamps.iter().any(|held| held.value == lamp);
    for (lamp, functions) in
        [("tail", &["tail"][..]), ("stop", &["stop"]), ("turn", &["left turn", "right turn"])]
    {
        if has(lamp) {
            needed.extend(functions);
        }
    }
    let brakes = trailer.need_table(&trailer::BRAKES)?.need_word(&brakes::KIND)?;
    if brakes.value == "electric" {
        needed.push("brake");
    }
    if system.circuits().iter().any(|record| circuit::from(record) == "tow vehicle") {
        needed.push("charge");
    }
    let missing = needed.into_iter().filter(|function| !wired.iter().any(|held| held.value == *function));
    Ok(missing.map(str::to_owned).collect())
}
