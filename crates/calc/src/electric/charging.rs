//! Chargers: what they give, whether they suit the bank, and how long they take.

use pintle_quantity::Dimension;
use pintle_spec::schema::kinds::charger;
use pintle_spec::{Item, Known};

use super::system::{System, TOPIC};
use super::{array, bank};
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::{alike, given, greatest, sum};
use crate::working::{Outcome, Work, Working};

const TOGETHER: Origin =
    Origin::derived("the mains and the tow vehicle never charge at once, the sun may with either");

fn chargers(system: System<'_>) -> impl Iterator<Item = &Item> {
    system.build.of_kind("charger").map(|(_, item)| item)
}

/// Greatest charging current: of mains chargers together and chargers from the tow vehicle together the greater, and with it all
/// solar controllers.
fn together(system: System<'_>, work: &mut Work) -> Known<Figure> {
    let (mut mains, mut road, mut solar) = (Vec::new(), Vec::new(), Vec::new());
    for body in chargers(system) {
        let sort = body.record.need_word(&charger::SORT)?.value;
        let current = given(&body.record, &charger::CURRENT);
        let current = work.take("I_i", format!("current that {} gives", body.called()), current)?;
        match sort {
            "mains" => mains.push(current),
            "DC to DC" => road.push(current),
            _ => solar.push(current),
        }
    }
    for array in array::arrays(system)?.iter().filter(|array| array.controls_itself()) {
        let current = array::charge(system, array, &mut Work::default());
        solar.push(work.step(
            "I_i",
            format!("what {} can give", array.called),
            "P / V",
            current,
            TOGETHER,
        )?);
    }
    let all = |list| sum(Dimension::CURRENT, list);
    let one = greatest([all(mains)?, all(road)?]);
    let both = all(one.into_iter().chain(solar).collect()).map(|sum| sum.shown_in("A"));
    work.step("I", "greatest charging current", "max(Σ mains, Σ DC to DC) + Σ solar", both, TOGETHER)
}

/// How long a charger takes to give back what may be taken.
fn time(system: System<'_>, body: &Item, work: &mut Work) -> Known<Figure> {
    let held = bank::need(system)?;
    let e = bank::usable_energy(system, &held, work)?;
    let eta = bank::charged_share(system, &held, work)?;
    let v = bank::voltage(&held, &mut Work::default())?;
    let own = work.take("I", charger::CURRENT.doc, given(&body.record, &charger::CURRENT))?;
    let most = bank::charge_most(&held, &mut Work::default())?;
    let most = work.know("I_m", "charging current that the bank allows", most, Origin::WRITTEN);
    let i =
        work.step("I_c", "charging current", "the lesser of I and I_m", alike(own.lesser(&most)), TOGETHER)?;
    let found = bank::charge_time(&e, &eta, &v, &i).shown_in("h");
    work.step(
        "t",
        "time to give it back",
        "E_u / (η_c · V · I_c)",
        Ok(found),
        Origin::derived("energy over power"),
    )
}

/// Whether a charger has a setting for what the bank is made of.
fn suits(system: System<'_>, body: &Item) -> Known<bool> {
    let chemistry = bank::chemistry(&bank::need(system)?)?;
    let settings =
        body.record.words(&charger::CHARGES).ok_or_else(|| body.record.missing(&charger::CHARGES))?;
    Ok(settings.iter().any(|setting| setting.value == chemistry))
}

const TAPER: &str = "the last fifth of a lead battery's charge takes hours more";
const MATCH: &str = "a charger set for another chemistry can overcharge a battery until it vents or burns";

/// The figures of chargers.
pub(crate) fn workings(system: System<'_>) -> Vec<Working> {
    let has_battery = system.build.of_kind("battery").next().is_some();
    let mut all = Vec::new();
    for body in chargers(system) {
        all.push(Working::of(
            TOPIC,
            "charger_current",
            body.called(),
            "greatest current that it gives",
            |work| work.take("I", charger::CURRENT.doc, given(&body.record, &charger::CURRENT)),
        ));
        if !has_battery {
            continue;
        }
        let says = "whether it has a setting for what the bank is made of";
        all.push(
            Working::of(TOPIC, "charger_suits", body.called(), says, |_| suits(system, body)).warned(MATCH),
        );
        let solar = body.record.word(&charger::SORT).is_some_and(|sort| sort.value == "solar");
        if !solar {
            let says = "to give back what may be taken from the bank";
            let found = |work: &mut Work| time(system, body, work);
            all.push(Working::of(TOPIC, "charge_time", body.called(), says, found).warned(TAPER));
        }
    }
    let charges =
        chargers(system).next().is_some() || array::arrays(system).map_or(true, |all| !all.is_empty());
    if has_battery && charges {
        let says = "greatest charging current";
        all.push(Working::of(TOPIC, "charge_current", "the bank", says, |work| together(system, work)));
        all.push(Working::of(TOPIC, "charge_rate", "the bank", "that current for its charge", |work| {
            let i = together(system, work)?;
            let c = bank::capacity(&bank::need(system)?, work)?;
            let rate = Ok(bank::rate(&i, &c).shown_in("/h"));
            Ok::<Outcome, _>(
                work.step(
                    "r",
                    "C-rate",
                    "I / C",
                    rate,
                    Origin::practice("currents told in multiples of the charge an hour"),
                )?
                .into(),
            )
        }));
    }
    all
}
