//! Solar panels on their controllers: power, what a cold morning makes of their voltage, and what the sun brings in a day.

use pintle_quantity::Dimension;
use pintle_spec::field::Field;
use pintle_spec::schema::assume::{self, electric};
use pintle_spec::schema::electric::{ARRAY, array as fields};
use pintle_spec::schema::kinds::{charger, solar};
use pintle_spec::{Item, Known, Missing};

use super::system::{System, TOPIC, one_or};
use super::{bank, sun};
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::{given, greatest, sum};
use crate::working::{Outcome, Work, Working};

/// Panels that work on one controller.
#[derive(Debug, Clone)]
pub(crate) struct Array<'a> {
    pub(crate) called: String,
    panels: Vec<&'a Item>,
    /// The charger they work on; none where they have one of their own.
    controller: Option<&'a Item>,
    pub(crate) series: u32,
    strings: u32,
}

const PVWATTS: Origin = Origin::published("PVWatts, as pvlib documents it (seen)");
const STRINGS: Origin =
    Origin::derived("panels in series share one current, strings side by side one voltage");

/// The arrays of a build: as written, or a single panel on a single solar controller.
///
/// # Errors
/// How panels are connected, where the spec does not say; or that they do not make whole strings.
pub(crate) fn arrays(system: System<'_>) -> Known<Vec<Array<'_>>> {
    let written = system.written.map_or(&[][..], |electric| electric.tables(&ARRAY));
    if written.is_empty() {
        return implied(system);
    }
    let mut all = Vec::new();
    for record in written {
        let panels = system.parts(record.texts(&fields::PANELS));
        let series = one_or(record, &fields::SERIES);
        let count = u32::try_from(panels.len()).unwrap_or(u32::MAX);
        if count == 0 || count % series != 0 {
            return Err(Missing::new(
                format!("whole strings of {series} in series out of {count} panels of {}", record.what),
                Some(record.span),
                "name as many panels as make whole strings",
            ));
        }
        let controller = record.text(&fields::CONTROLLER).and_then(|tag| system.build.item(tag.value));
        all.push(Array {
            called: record.what.to_string(),
            panels,
            controller,
            series,
            strings: count / series,
        });
    }
    Ok(all)
}

fn implied(system: System<'_>) -> Known<Vec<Array<'_>>> {
    let panels: Vec<&Item> = system.build.of_kind("solar").map(|(_, item)| item).collect();
    let is_solar = |item: &&Item| item.record.word(&charger::SORT).is_some_and(|sort| sort.value == "solar");
    let controllers: Vec<&Item> =
        system.build.of_kind("charger").map(|(_, item)| item).filter(is_solar).collect();
    match (panels.as_slice(), controllers.as_slice()) {
        ([], _) => Ok(Vec::new()),
        ([_], [controller]) => Ok(vec![Array {
            called: format!("the array on `{}`", controller.tag.value),
            controller: Some(*controller),
            panels,
            series: 1,
            strings: 1,
        }]),
        ([first, ..], _) => Err(Missing::new(
            "how the solar panels are connected",
            Some(first.tag.span),
            "say which of them work on which controller, in [[electric.array]]",
        )),
    }
}

impl Array<'_> {
    /// Whether its panels have a controller of their own.
    pub(crate) const fn controls_itself(&self) -> bool {
        self.controller.is_none()
    }
}

/// The array that a panel belongs to.
pub(crate) fn around<'a>(system: System<'a>, panel: &str) -> Known<Option<Array<'a>>> {
    let holds = |array: &Array<'_>| array.panels.iter().any(|held| held.tag.value == panel);
    Ok(arrays(system)?.into_iter().find(holds))
}

fn each(array: &Array<'_>, field: &'static Field) -> Known<Vec<Figure>> {
    array.panels.iter().map(|panel| given(&panel.record, field)).collect()
}

fn no_panel() -> Missing {
    Missing::new("a solar panel", None, "add a part of the kind `solar`")
}

/// Power of all its panels at 1,000 W/m² and 25 °C.
pub(crate) fn power(array: &Array<'_>, work: &mut Work) -> Known<Figure> {
    let all = sum(Dimension::POWER, each(array, &solar::POWER)?).map(|sum| sum.shown_in("W"));
    work.step("P", "power of its panels at 1,000 W/m² and 25 °C", "Σ P_i", all, STRINGS)
}

/// Short-circuit current of its strings together: the strongest panel counts for all.
pub(crate) fn short_current(array: &Array<'_>, work: &mut Work) -> Known<Figure> {
    let own = greatest(each(array, &solar::SHORT_CURRENT)?).ok_or_else(no_panel);
    let own = work.take("I_sc", "short-circuit current of its strongest panel", own)?;
    let all = Ok(own.scaled(f64::from(array.strings)));
    work.step("I", "short-circuit current of its strings", "p · I_sc, p strings side by side", all, STRINGS)
}

/// Open-circuit voltage on the coldest morning: the panel with the highest counts for all.
pub(crate) fn cold_voltage(system: System<'_>, array: &Array<'_>, work: &mut Work) -> Known<Figure> {
    let t = work.assume("T", &system.case, &assume::ELECTRIC, &electric::COLDEST)?;
    let mut all = Vec::new();
    for panel in &array.panels {
        let mut own = Work::default();
        let v = given(&panel.record, &solar::OPEN_VOLTAGE)?;
        let rise =
            system.own_or(&mut own, "β", &panel.record, &solar::VOLTAGE_RISE, &electric::VOLTAGE_RISE)?;
        let cold = sun::cold_voltage(f64::from(array.series), &v, &rise, &t).shown_in("V");
        all.push((cold, v, rise));
    }
    let most = all
        .into_iter()
        .reduce(|most, next| if next.0.quantity.si() > most.0.quantity.si() { next } else { most });
    let (cold, v, rise) = most.ok_or_else(no_panel)?;
    work.take("V_oc", solar::OPEN_VOLTAGE.doc, Ok(v))?;
    work.know(
        "β",
        solar::VOLTAGE_RISE.doc,
        rise,
        Origin::derived("its maker's, else the assumption of that name"),
    );
    let formula = "s · V_oc · (1 + β · (25 °C − T)), s in series";
    work.step("V", "open-circuit voltage on the coldest morning", formula, Ok(cold), PVWATTS)
}

/// What all arrays bring into the bank's wires in a day of so many sun hours.
pub(crate) fn daily(system: System<'_>, hours: &Figure, work: &mut Work) -> Known<Figure> {
    let losses = work.assume("L", &system.case, &assume::ELECTRIC, &electric::SOLAR_LOSSES)?;
    let t = work.assume("T", &system.case, &assume::ELECTRIC, &electric::PANEL_TEMPERATURE)?;
    let mut all = Vec::new();
    for array in arrays(system)? {
        let mut inner = Work::default();
        let eta = match array.controller {
            Some(body) => {
                let (own, assumed) = (&charger::EFFICIENCY, &electric::CHARGER_EFFICIENCY);
                system.own_or(&mut inner, "η", &body.record, own, assumed)?
            }
            None => inner.assume("η", &system.case, &assume::ELECTRIC, &electric::CHARGER_EFFICIENCY)?,
        };
        for panel in &array.panels {
            let record = &panel.record;
            let p = given(record, &solar::POWER)?;
            let fall = system.own_or(&mut inner, "γ", record, &solar::POWER_FALL, &electric::POWER_FALL)?;
            let hot =
                Figure::by(Dimension::POWER, [&p, &t, &fall], |[p, t, fall]| sun::power(p, 1000.0, t, fall));
            let net = Figure::by(Dimension::ENERGY, [&hot, hours, &losses, &eta], |[p, h, losses, eta]| {
                sun::daily(p, h, losses, eta)
            });
            let what = format!("{}, a day", panel.called());
            let formula = "P · (1 − γ · (T − 25 °C)) · h · (1 − L) · η";
            all.push(work.step("E_i", what, formula, Ok(net.shown_in("Wh")), PVWATTS)?);
        }
    }
    let whole = sum(Dimension::ENERGY, all).map(|sum| sum.shown_in("Wh"));
    work.step("E_s", "from the sun a day", "Σ E_i", whole, PVWATTS)
}

/// Current that an array can give to the bank: its power by the bank's voltage.
pub(crate) fn charge(system: System<'_>, array: &Array<'_>, work: &mut Work) -> Known<Figure> {
    let p = power(array, work)?;
    let v = bank::voltage(&bank::need(system)?, work)?;
    let current = Ok(p.over(&v).shown_in("A"));
    let volt = Origin::derived("definition of the volt");
    work.step("I", "its power by the bank's voltage", "P / V", current, volt)
}

/// What its controller states of itself.
fn of_controller(array: &Array<'_>, field: &'static Field, work: &mut Work) -> Known<Outcome> {
    match array.controller {
        Some(body) => Ok(work.take("x", field.doc, given(&body.record, field))?.into()),
        None => Ok(Outcome::None("the panels have a controller of their own".to_owned())),
    }
}

/// How a figure of an array is worked out.
type Sum = fn(System<'_>, &Array<'_>, &mut Work) -> Known<Outcome>;

const COLD: &str = "a controller whose input voltage is passed even once is destroyed, and may burn: use the coldest morning of the place";

const FIGURES: &[(&str, &str, Sum, &str)] = &[
    ("array_power", POWER, |_, a, w| Ok(power(a, w)?.into()), ""),
    ("array_short_current", "short-circuit current", |_, a, w| Ok(short_current(a, w)?.into()), ""),
    (
        "array_cold_voltage",
        "open-circuit voltage on the coldest morning",
        |s, a, w| Ok(cold_voltage(s, a, w)?.into()),
        COLD,
    ),
    (
        "controller_voltage_most",
        "greatest voltage that its controller stands",
        |_, a, w| of_controller(a, &charger::INPUT_MOST, w),
        COLD,
    ),
    ("array_charge", "current that it can give to the bank", |s, a, w| Ok(charge(s, a, w)?.into()), ""),
    (
        "controller_current_most",
        "greatest current that its controller gives",
        |_, a, w| of_controller(a, &charger::CURRENT, w),
        "",
    ),
];

const POWER: &str = "power at 1,000 W/m² and 25 °C";

/// The figures of every array.
pub(crate) fn workings(system: System<'_>) -> Vec<Working> {
    let arrays = match arrays(system) {
        Ok(arrays) => arrays,
        Err(missing) => {
            let found = |_: &mut Work| Err::<Figure, _>(missing);
            return vec![Working::of(TOPIC, "array_power", "the solar panels", POWER, found)];
        }
    };
    let mut all = Vec::new();
    for array in &arrays {
        for (key, says, sum, caution) in FIGURES {
            let found = |work: &mut Work| sum(system, array, work);
            all.push(Working::of(TOPIC, key, array.called.clone(), says, found).warned(caution));
        }
    }
    all
}
