//! Where batteries stand and what they give off, what they do in the cold, and the free air round chargers and inverters.

use pintle_spec::schema::kinds::{battery, charger, inverter};
use pintle_spec::{Item, Known, Zone};

use super::system::{System, TOPIC};
use crate::figure::Figure;
use crate::gas::locker_vents;
use crate::origin::Origin;
use crate::space::{given, whereabouts};
use crate::working::{Work, Working};

const GAS: &str = "charging a flooded battery makes hydrogen, which burns at 4 % in air: no spark near it, and its box open to the \
    outside at top and bottom";

/// Whether a battery gives off gas when it is charged: those with free liquid do.
fn gives_off_gas(body: &Item) -> Known<bool> {
    Ok(body.record.need_word(&battery::CHEMISTRY)?.value == "flooded lead")
}

/// The figures of one battery.
fn of_battery(system: System<'_>, index: usize, body: &Item) -> Vec<Working> {
    let mut all = Vec::new();
    let says = "whether it gives off gas when charged";
    all.push(Working::of(TOPIC, "gives_off_gas", body.called(), says, |_| gives_off_gas(body)).warned(GAS));
    let says = "whether it stands in the air of those who sleep";
    all.push(Working::of(TOPIC, "in_sleeping_air", body.called(), says, |_| {
        Ok(whereabouts(system.build, index)?.place.in_sleeping_space())
    }));
    let says = "whether it stands in a locker";
    let boxed = matches!(body.zone, Zone::Locker(_));
    all.push(Working::of(TOPIC, "in_box", body.called(), says, |_| Ok(boxed)));
    if let Zone::Locker(locker) = body.zone
        && gives_off_gas(body).unwrap_or(true)
    {
        let area = |work: &mut Work, low: bool| -> Known<Figure> {
            let vents = locker_vents(system.build, locker)?;
            let area = if low { vents.low } else { vents.high };
            work.step("A", "free area of vents", "Σ A_i", Ok(area), Origin::derived("a sum"))
        };
        let says = "free vent area low in its box";
        all.push(
            Working::of(TOPIC, "box_vent_low", body.called(), says, |work| area(work, true)).warned(GAS),
        );
        let says = "free vent area high in its box";
        all.push(
            Working::of(TOPIC, "box_vent_high", body.called(), says, |work| area(work, false)).warned(GAS),
        );
    }
    if body.record.word(&battery::CHEMISTRY).is_none_or(|word| word.value == "lithium iron phosphate") {
        let says = "whether it refuses to be charged below freezing";
        all.push(Working::of(TOPIC, "cold_cut_off", body.called(), says, |_| {
            body.record.need_word(&battery::CHEMISTRY)?;
            Ok(body.record.need_flag(&battery::COLD_CUT_OFF)?.value)
        }));
    }
    all
}

/// The figures of batteries, and of the air round what gets warm.
pub(crate) fn workings(system: System<'_>) -> Vec<Working> {
    let mut all: Vec<Working> = Vec::new();
    for (index, body) in system.build.of_kind("battery") {
        all.extend(of_battery(system, index, body));
    }
    for body in &system.build.items {
        let (has, asked) = match body.kind {
            "inverter" => (&inverter::CLEARANCE, &inverter::CLEARANCE_NEEDED),
            "charger" => (&charger::CLEARANCE, &charger::CLEARANCE_NEEDED),
            _ => continue,
        };
        all.push(Working::of(TOPIC, "clearance", body.called(), "free air left round it", |work| {
            work.take("a", has.doc, given(&body.record, has))
        }));
        all.push(Working::of(
            TOPIC,
            "clearance_needed",
            body.called(),
            "free air that its maker asks for",
            |work| work.take("a_m", asked.doc, given(&body.record, asked)),
        ));
    }
    all
}
