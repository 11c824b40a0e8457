//! Gas, 12 volts, mains, water and alarms.

use maud::{Markup, html};
use pintle_calc::gas::{LEAK_TESTS, LeakTest};
use pintle_quantity::{Dimension, Quantity};
use pintle_spec::field::Field;
use pintle_spec::record::Record;
use pintle_spec::schema::electric::{circuit, mains, outlet_test, skin_test};
use pintle_spec::schema::gas::leak_test;
use pintle_spec::schema::kinds::tank;
use pintle_spec::schema::record::{self, alarm_test};
use pintle_spec::schema::{electric, gas};
use pintle_spec::{Item, Table};

use super::Walk;
use super::boxes::{Line, blank, choices, grid, sheet_of};
use crate::markup::{name, sentence, text};
use crate::worked::{is_metric, quantity_words};

/// The fields of the record that stand at the gas, at the mains and at the alarms.
pub(super) const GAS: &[&Field] = &[&record::LEAK_TEST];
pub(super) const MAINS: &[&Field] = &[&record::OUTLET_TEST, &record::SKIN_TEST];
pub(super) const ALARMS: &[&Field] = &[&record::ALARM_TESTS];

pub(super) fn gas(walk: &Walk<'_>) -> Markup {
    let test = walk.record.and_then(|record| record.table(&record::LEAK_TEST));
    if !walk.aboard.gas() && test.is_none() {
        return html! {};
    }
    let set = walk.sheet.build.gas.as_ref().and_then(|gas| gas.table(&gas::REGULATOR));
    let set = set.and_then(|regulator| regulator.quantity(&gas::regulator::PRESSURE));
    html! {
        p .caution-line { "By a qualified person, to the code of the place: the cylinder stays shut until it was tested." }
        (sheet_of(walk.sheet, "Leak test", &leak_test::SCHEMA, test, &limits(walk, test)))
        table .record .grid {
            caption { "Pressure at the appliances: the spec's record has no field for it: by hand" }
            tbody {
                tr {
                    th scope="row" { "operating, all burning" }
                    td { (blank("inH2O", "short")) }
                    td {
                        @match set {
                            Some(set) => { "regulator set to " (quantity_words(walk.sheet, set.value)) " (spec)" },
                            None => "what the appliances' plates ask for: the spec does not say",
                        }
                    }
                }
                tr { th scope="row" { "lock-up, all shut" } td { (blank("inH2O", "short")) } td { "at most 14 inH2O (from memory, to be checked)" } }
            }
        }
        @if walk.aboard.has("cylinder") == Some(true) {
            table .record .grid {
                caption { "Cylinders" }
                thead { tr { th scope="col" { "cylinder" } th scope="col" { "date on its collar" } th scope="col" { "strapped, upright" } th scope="col" { "initials" } } }
                tbody {
                    @for (_, item) in walk.sheet.build.of_kind("cylinder") {
                        tr { th scope="row" { (name(&item.tag.value)) } td { (blank("", "day")) } td { (choices(&["yes", "no"])) } td { (blank("", "short")) } }
                    }
                }
            }
        }
    }
}

/// What the procedure of the test asks for: of the one that is recorded, else of each.
fn limits(walk: &Walk<'_>, test: Option<&Record>) -> Vec<(&'static Field, Markup)> {
    let method = test.and_then(|test| test.word(&leak_test::METHOD));
    let asked: Vec<&LeakTest> =
        LEAK_TESTS.iter().filter(|one| method.is_none_or(|method| method.value == one.method)).collect();
    let each = |what: &dyn Fn(&LeakTest) -> String| {
        html! { @for one in &asked { div { @if asked.len() > 1 { (one.method) ": " } (what(one)) } } }
    };
    let pressure = |pascals: f64| {
        let shown = Quantity::from_si(pascals, Dimension::PRESSURE);
        // In the unit of what is recorded, so that the two can be compared.
        let recorded = test.and_then(|test| test.quantity(&leak_test::PRESSURE)).map(|held| held.value);
        let usual = || Quantity::parse(if is_metric(walk.sheet) { "1 mbar" } else { "1 inH2O" }).ok();
        quantity_words(walk.sheet, recorded.or_else(usual).map_or(shown, |unit| shown.with_unit_of(unit)))
    };
    let time = |seconds: f64| {
        let shown = Quantity::from_si(seconds, Dimension::TIME);
        let unit = Quantity::parse("1 min");
        quantity_words(walk.sheet, unit.map_or(shown, |unit| shown.with_unit_of(unit)))
    };
    vec![
        (
            &leak_test::METHOD,
            each(&|one| {
                if one.memory {
                    format!("{} (from memory, to be checked)", one.source)
                } else {
                    one.source.to_owned()
                }
            }),
        ),
        (
            &leak_test::PRESSURE,
            each(&|one| match one.most {
                Some(most) if most > one.least => format!("{} to {}", pressure(one.least), pressure(most)),
                Some(most) => pressure(most),
                None => format!("at least {}", pressure(one.least)),
            }),
        ),
        (
            &leak_test::SETTLED,
            each(&|one| {
                if one.settle > 0.0 {
                    format!("at least {}", time(one.settle))
                } else {
                    "no time is asked for".to_owned()
                }
            }),
        ),
        (&leak_test::HELD, each(&|one| format!("at least {}", time(one.hold)))),
        (
            &leak_test::DROP,
            each(&|one| {
                if one.drop > 0.0 { format!("at most {}", pressure(one.drop)) } else { "none".to_owned() }
            }),
        ),
    ]
}

pub(super) fn low_voltage(walk: &Walk<'_>) -> Markup {
    if !walk.aboard.low_voltage() {
        return html! {};
    }
    let circuits = walk.sheet.build.electric.as_ref().map(|electric| electric.tables(&electric::CIRCUIT));
    let circuits = circuits.unwrap_or_default();
    let told = |record: &Record, field| match record.quantity(field) {
        Some(held) => quantity_words(walk.sheet, held.value),
        None => "not stated".to_owned(),
    };
    html! {
        @if circuits.is_empty() {
            p { "The spec lists no circuits: draw the fuse map by hand, each fuse with its wire and what it feeds." }
        } @else {
            table .record .grid {
                caption { "Fuse map: what the spec says, and what is found at the panel" }
                thead {
                    tr {
                        th scope="col" { "circuit" } th scope="col" { "wire" } th scope="col" { "fuse" }
                        th scope="col" { "fuse found" } th scope="col" { "polarity" } th scope="col" { "initials" }
                    }
                }
                tbody {
                    @for record in circuits {
                        tr {
                            th scope="row" { (name(record.text(&circuit::NAME).map_or("", |name| name.value))) }
                            td { (told(record, &circuit::GAUGE)) }
                            td { (told(record, &circuit::FUSE)) }
                            td { (blank("A", "short")) }
                            td { (choices(&["right", "wrong"])) }
                            td { (blank("", "short")) }
                        }
                    }
                }
            }
        }
        table .record .grid {
            caption { "Tried" }
            tbody {
                tr { th scope="row" { "voltage at the battery, at rest" } td { (blank("V", "short")) } td { (blank("", "day")) } }
                @if walk.aboard.has("charger") == Some(true) || walk.aboard.has("solar") == Some(true) {
                    tr { th scope="row" { "charging current, from each source" } td { (blank("A", "short")) } td { (blank("", "long")) } }
                }
                tr { th scope="row" { "disconnect takes everything off" } td { (choices(&["yes", "no", "none fitted"])) } td { (blank("", "short")) } }
            }
        }
    }
}

pub(super) fn mains(walk: &Walk<'_>) -> Markup {
    let found = |field| walk.record.and_then(|record| record.table(field));
    let (outlets, skin) = (found(&record::OUTLET_TEST), found(&record::SKIN_TEST));
    if !walk.aboard.mains() && outlets.is_none() && skin.is_none() {
        return html! {};
    }
    let fitted = walk.sheet.build.electric.as_ref().and_then(|electric| electric.table(&electric::MAINS));
    let fitted = fitted.map(|mains| mains.tables(&mains::OUTLETS)).unwrap_or_default();
    let names: Vec<&str> =
        fitted.iter().filter_map(|outlet| outlet.text(&mains::outlet::NAME)).map(|name| name.value).collect();
    let limit = |name| walk.sheet.in_force.limit("electric/skin-voltage", name);
    let volts = |name| limit(name).map(|limit| quantity_words(walk.sheet, limit.value));
    html! {
        p .caution-line { "By a qualified person. Nobody touches the trailer's metal until the skin has been measured." }
        (sheet_of(walk.sheet, "Outlets", &outlet_test::SCHEMA, outlets, &[
            (&outlet_test::OUTLETS, html! {
                @if names.is_empty() { "the spec names no outlet" } @else {
                    "fitted: " @for (at, one) in names.iter().enumerate() { @if at > 0 { ", " } (name(one)) }
                }
            }),
            (&outlet_test::POLARITY, html! { "yes, at every outlet" }),
            (&outlet_test::GFCI_TRIPPED, html! { "yes, every one" }),
            (&outlet_test::NEUTRAL_APART, html! { "yes, unplugged" }),
        ]))
        (sheet_of(walk.sheet, "Voltage of the skin against the ground, plugged in", &skin_test::SCHEMA, skin, &[
            (&skin_test::VOLTAGE, html! {
                @match volts("most") {
                    Some(most) => { "at most " (most) " (electric/skin-voltage)" },
                    None => "no rule in use sets a limit",
                }
                @if let Some(stop) = volts("stop") { div { strong { "from " (stop) " stop: " } "pull the plug, let nobody touch it" } }
            }),
        ]))
    }
}

pub(super) fn water(walk: &Walk<'_>) -> Markup {
    let tanks: Vec<&Item> = walk.sheet.build.of_table(Table::Tank).map(|(_, item)| item).collect();
    if tanks.is_empty() {
        return html! {};
    }
    let capacity = |item: &Item| match item.record.quantity(&tank::CAPACITY) {
        Some(held) => quantity_words(walk.sheet, held.value),
        None => "not stated".to_owned(),
    };
    html! {
        table .record .grid {
            caption { "Tanks: the spec's record has no field for these: by hand" }
            thead {
                tr {
                    th scope="col" { "tank" } th scope="col" { "holds" } th scope="col" { "size" } th scope="col" { "filled, holds tight" }
                    th scope="col" { "drained to the last" } th scope="col" { "initials" }
                }
            }
            tbody {
                @for item in tanks {
                    tr {
                        th scope="row" { (name(&item.tag.value)) }
                        td { (item.record.word(&tank::HOLDS).map_or("not stated", |word| word.value)) }
                        td { (capacity(item)) }
                        td { (choices(&["yes", "no"])) }
                        td { (choices(&["yes", "no"])) }
                        td { (blank("", "short")) }
                    }
                }
                @if walk.sheet.build.water.as_ref().is_some_and(|water| water.table(&pintle_spec::schema::build::water::PUMP).is_some()) {
                    tr { th scope="row" { "pump and lines under pressure for ten minutes" } td {} td {} td { (choices(&["yes", "no"])) } td {} td { (blank("", "short")) } }
                }
            }
        }
    }
}

pub(super) fn alarms(walk: &Walk<'_>) -> Markup {
    let recorded = walk.record.map(|record| record.tables(&record::ALARM_TESTS)).unwrap_or_default();
    let of =
        |table: &Record| table.text(&alarm_test::ALARM).map(|tag| tag.value.to_owned()).unwrap_or_default();
    let mut lines: Vec<Line<'_>> = Vec::new();
    for table in recorded {
        lines.push(Line { of: html! { (name(&of(table))) }, record: Some(table), asked: Vec::new() });
    }
    for (_, item) in walk.sheet.build.of_kind("alarm") {
        if recorded.iter().all(|table| of(table) != item.tag.value) {
            lines.push(Line { of: html! { (name(&item.tag.value)) }, record: None, asked: Vec::new() });
        }
    }
    let dates = walk.sheet.build.of_kind("extinguisher").map(|(_, item)| item.tag.value.as_str());
    let extinguishers: Vec<&str> = dates.collect();
    if lines.is_empty() && extinguishers.is_empty() {
        return html! { p { (sentence("the spec has no alarm and no extinguisher: there is nothing to try")) } };
    }
    html! {
        @if lines.is_empty() { p { "The spec has no alarm: there is none to try." } } @else {
            (grid(walk.sheet, "Alarms, tried by their button, doors shut, heard from the bed", &alarm_test::SCHEMA, &alarm_test::ALARM, &lines))
        }
        @if !extinguishers.is_empty() {
            table .record .grid {
                caption { "Extinguishers" }
                tbody {
                    @for tag in extinguishers {
                        tr { th scope="row" { (text(tag)) } td { "charged " (choices(&["yes", "no"])) } td { "date on it " (blank("", "day")) } td { (blank("", "short")) } }
                    }
                }
            }
        }
    }
}
