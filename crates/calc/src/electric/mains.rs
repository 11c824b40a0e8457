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
    let is_mains = |body: &&Item| body.record.word(&charger::SORT).is_none_or(|sort| sort.value == "mains");
    for body in system.build.of_kind("charger").map(|(_, body)| body).filter(is_mains) {
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
    for record in mains.tables(&fields::OUTLETS) {
        if !record.need_flag(&outlet::GFCI)?.value {
            names.push(record.what.to_string());
        }
    }
    Ok(names)
}

/// The figures of the mains side.
pub(crate) fn workings(system: System<'_>) -> Vec<Working> {
    let mut all = others(system);
    let Some(mains) = system.written.and_then(|electric| electric.table(&MAINS)) else { return all };
    let of = "the mains side";
    let mut push = |working: Working| all.push(working.warned(SHOCK));
    push(Working::of(TOPIC, "mains_load", of, "current from the mains", |work| load(system, mains, work)));
    let stated: &[(&'static str, &'static str, &'static Field)] = &[
        ("inlet", "rating of the inlet", &fields::INLET),
        ("main_breaker", "rating of the main breaker", &fields::BREAKER),
        ("panel_clear_width", "width left free before the panel", &fields::CLEAR_WIDTH),
        ("panel_clear_depth", "depth left free before the panel", &fields::CLEAR_DEPTH),
        ("inlet_from_rear", "from the rear forward to the inlet", &fields::INLET_FROM_REAR),
    ];
    for &(key, says, field) in stated {
        push(Working::of(TOPIC, key, of, says, |work| work.take("x", field.doc, given(mains, field))));
    }
    push(Working::of(TOPIC, "inlet_side", of, "the side that the inlet is on", |_| {
        Ok(mains.need_word(&fields::INLET_SIDE)?.value.to_owned())
    }));
    push(Working::of(TOPIC, "mains_to_inlet", of, "current for the inlet's rating", |work| {
        let i = load(system, mains, work)?;
        let n = work.take("I_n", fields::INLET.doc, given(mains, &fields::INLET))?;
        work.step(
            "x",
            "current for the rating",
            "I / I_n",
            Ok(i.over(&n).as_share()),
            Origin::derived("a ratio"),
        )
    }));
    push(Working::of(
        TOPIC,
        "outlets_without_gfci",
        of,
        "outlets that no ground-fault interrupter guards",
        |_| unguarded(mains),
    ));
    push(Working::of(TOPIC, "frame_bond", of, "copper of the wire that bonds the frame", |work| {
        if mains.value(fields::BOND.key).is_none() {
            return Ok(Outcome::None("the frame is not bonded".to_owned()));
        }
        Ok(work.take("S", fields::BOND.doc, given(mains, &fields::BOND))?.into())
    }));
    push(Working::of(
        TOPIC,
        "neutral_bonded",
        of,
        "whether neutral and earth are joined in the trailer",
        |_| Ok(mains.need_flag(&fields::NEUTRAL_BONDED)?.value),
    ));
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
    if let Some(plug) = system.written.and_then(|electric| electric.table(&CONNECTOR)) {
        let says = "functions that lamps, brakes and charging need and that it is not wired for";
        all.push(Working::of(TOPIC, "plug_lacks", "the plug", says, |_| lacks(system, plug)));
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
