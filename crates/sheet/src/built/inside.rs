//! Body, openings, beds, modules with their anchors, and the roof.

use maud::{Markup, html};
use pintle_spec::field::Field;
use pintle_spec::record::Record;
use pintle_spec::schema::item;
use pintle_spec::schema::kinds::{berth, opening};
use pintle_spec::schema::record::{self, torque};
use pintle_spec::{Item, Table};

use super::Walk;
use super::boxes::{Line, blank, choices, grid};
use crate::aboard::is_on_roof;
use crate::markup::name;
use crate::worked::{is_metric, quantity_words, told};

/// The fields of the record that stand here; torques stand with what they hold: modules or roof.
pub(super) const FIELDS: &[&Field] = &[&record::TORQUES];

pub(super) fn body(_: &Walk<'_>) -> Markup {
    html! {
        table .record .grid {
            caption { "The spec's record has no field for these: by hand" }
            tbody {
                tr { th scope="row" { "spray test: no water inside" } td { (choices(&["yes", "no"])) } td { (blank("", "day")) } td { (blank("", "long")) } }
                tr { th scope="row" { "sealant: seams, vents, roof bolts" } td { (choices(&["whole", "mended"])) } td { (blank("", "day")) } td { (blank("", "long")) } }
            }
        }
    }
}

pub(super) fn openings(walk: &Walk<'_>) -> Markup {
    let all: Vec<&Item> = walk.sheet.build.of_table(Table::Opening).map(|(_, item)| item).collect();
    if all.is_empty() {
        return html! { p { "The spec lists no door, window or hatch: list what is there, and try each from inside." } };
    }
    let word = |item: &Item, field| item.record.word(field).map_or("not stated", |word| word.value);
    let flag = |item: &Item, field| match item.record.flag(field).map(|flag| flag.value) {
        Some(true) => "yes",
        Some(false) => "no",
        None => "not stated",
    };
    html! {
        table .record .grid {
            caption { "Doors, windows and hatches" }
            thead {
                tr {
                    th scope="col" { "opening" } th scope="col" { "sort" } th scope="col" { "way out" }
                    th scope="col" { "lock outside" } th scope="col" { "opened from inside, by the customer" } th scope="col" { "initials" }
                }
            }
            tbody {
                @for item in all {
                    tr {
                        th scope="row" { (name(&item.tag.value)) }
                        td { (word(item, &opening::SORT)) }
                        td { (flag(item, &opening::EXIT)) }
                        td { (word(item, &opening::OUTSIDE_LOCK)) }
                        td { (choices(&["yes", "no"])) }
                        td { (blank("", "short")) }
                    }
                }
            }
        }
    }
}

pub(super) fn beds(walk: &Walk<'_>) -> Markup {
    let all: Vec<&Item> = walk.sheet.build.of_table(Table::Berth).map(|(_, item)| item).collect();
    if all.is_empty() {
        return html! {};
    }
    let rated = |item: &Item| match item.record.quantity(&berth::RATED) {
        Some(rated) => quantity_words(walk.sheet, rated.value),
        None => "not stated".to_owned(),
    };
    html! {
        table .record .grid {
            caption { "Berths" }
            thead { tr { th scope="col" { "berth" } th scope="col" { "made for" } th scope="col" { "loaded with that, and holds" } th scope="col" { "latch and strap" } th scope="col" { "initials" } } }
            tbody {
                @for item in all {
                    tr {
                        th scope="row" { (name(&item.tag.value)) }
                        td { (rated(item)) }
                        td { (choices(&["yes", "no"])) }
                        td { (choices(&["yes", "no", "none"])) }
                        td { (blank("", "short")) }
                    }
                }
            }
        }
    }
}

pub(super) fn modules(walk: &Walk<'_>) -> Markup {
    let loose: Vec<&Item> =
        walk.sheet.build.items.iter().filter(|item| item.removable && item.table != Table::Load).collect();
    let mass = |item: &Item| match item.record.quantity(&item::MASS) {
        Some(mass) => quantity_words(walk.sheet, mass.value),
        None => "not stated".to_owned(),
    };
    let unit = if is_metric(walk.sheet) { "kg" } else { "lb" };
    let torques = torques(walk, false);
    if loose.is_empty() && torques.is_none() {
        return html! {};
    }
    html! {
        @if !loose.is_empty() {
            table .record .grid {
                caption { "What the customer can take out" }
                thead {
                    tr {
                        th scope="col" { "part" } th scope="col" { "weight, spec" } th scope="col" { "on the scale" }
                        th scope="col" { "tag on it" } th scope="col" { "taken out and refitted once by the customer" } th scope="col" { "initials" }
                    }
                }
                tbody {
                    @for item in loose {
                        tr {
                            th scope="row" { (name(&item.tag.value)) }
                            td { (mass(item)) }
                            td { (blank(unit, "short")) }
                            td { (choices(&["yes", "no"])) }
                            td { (choices(&["yes", "no"])) }
                            td { (blank("", "short")) }
                        }
                    }
                }
            }
        }
        @if let Some(torques) = torques { (torques) }
    }
}

pub(super) fn roof(walk: &Walk<'_>) -> Markup {
    let length = if is_metric(walk.sheet) { "mm" } else { "in" };
    let torques = torques(walk, true);
    let height = walk.road.told("overall_height").words();
    html! {
        @if let Some(torques) = torques { (torques) }
        table .record .grid {
            caption { "Height, and what stands on the roof" }
            tbody {
                tr {
                    th scope="row" { "overall height, measured, tents closed" span .what { "computed " (height) } }
                    td { (blank(length, "short")) } td { (blank("", "day")) }
                }
                tr { th scope="row" { "height placard where the driver sees it" } td { (choices(&["yes", "no"])) } td {} }
                @if walk.aboard.has("tent") == Some(true) {
                    tr { th scope="row" { "tent opened and shut; strap drawn for the road" } td { (choices(&["yes", "no"])) } td { (blank("", "short")) } }
                    tr { th scope="row" { "ladder at its angle, clear of the door" } td { (choices(&["yes", "no"])) } td { (blank("", "short")) } }
                }
            }
        }
    }
}

/// The torques of the bolts of what stands on the roof, or of all else: each part that has bolts to draw up, and each
/// that one is recorded of.
fn torques(walk: &Walk<'_>, on_roof: bool) -> Option<Markup> {
    let sheet = walk.sheet;
    let recorded = walk.record.map(|record| record.tables(&record::TORQUES)).unwrap_or_default();
    let of = |table: &Record| table.text(&torque::ITEM).map(|tag| tag.value.to_owned()).unwrap_or_default();
    let here = |tag: &str| sheet.build.item(tag).is_some_and(is_on_roof) == on_roof;
    let mut lines: Vec<Line<'_>> = Vec::new();
    for table in recorded {
        let tag = of(table);
        if here(&tag) {
            lines.push(Line { of: html! { (name(&tag)) }, record: Some(table), asked: asked(walk, &tag) });
        }
    }
    for working in walk.anchor.all("torque") {
        let item = sheet.build.items.iter().find(|item| item.called() == working.of);
        let Some(item) = item.filter(|item| is_on_roof(item) == on_roof) else { continue };
        let tag = &item.tag.value;
        if recorded.iter().all(|table| of(table) != *tag) {
            lines.push(Line { of: html! { (name(tag)) }, record: None, asked: asked(walk, tag) });
        }
    }
    if lines.is_empty() {
        return None;
    }
    let limit = |rule, name| sheet.in_force.limit(rule, name).map(|limit| quantity_words(sheet, limit.value));
    let within = match (limit("record/torque-low", "least"), limit("record/torque-high", "most")) {
        (Some(least), Some(most)) => {
            format!("Bolts, drawn up with a wrench to {least} to {most} of what is wanted")
        }
        _ => "Bolts, drawn up with a wrench".to_owned(),
    };
    Some(grid(sheet, &within, &torque::SCHEMA, &torque::ITEM, &lines))
}

/// What is wanted of a part's bolts, where the record does not say.
fn asked(walk: &Walk<'_>, tag: &str) -> Vec<(&'static Field, Markup)> {
    let item = walk.sheet.build.item(tag);
    let found = item.and_then(|item| walk.anchor.find("torque", &item.called()));
    found
        .map(|found| (&torque::WANTED, html! { (told(walk.sheet, found).words()) " (worked out, dry)" }))
        .into_iter()
        .collect()
}
