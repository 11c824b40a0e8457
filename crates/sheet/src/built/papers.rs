//! Serial numbers and photographs, what is to be looked at again, changes, papers and signatures.

use maud::{Markup, html};
use pintle_finding::Stage;
use pintle_spec::field::{Field, Schema};
use pintle_spec::record::Record;
use pintle_spec::schema::record::{self, change, label, photo, recheck, serial, sign_off};

use super::Walk;
use super::boxes::{Line, blank, grid, rows, sheet_of};
use crate::markup::name;

/// The fields of the record that stand at each of these stations.
pub(super) const KEPT: &[&Field] = &[&record::SERIALS, &record::PHOTOS];
pub(super) const AGAIN: &[&Field] = &[&record::RECHECKS];
pub(super) const CHANGES: &[&Field] = &[&record::CHANGES];
pub(super) const FIELDS: &[&Field] = &[
    &record::VIN,
    &record::LABEL,
    &record::DELIVERED,
    &record::SEEN,
    &record::DRIVEN,
    &record::SIGN_OFF,
    &record::NOTE,
];

/// Kinds of parts that have a plate with a number.
const PLATED: &[&str] = &["appliance", "battery", "inverter", "charger", "solar", "alarm", "tent"];

/// The lines of a grid: what is recorded, then what is asked for and is not recorded.
fn lines<'w>(
    walk: &Walk<'w>,
    field: &'static Field,
    heading: &'static Field,
    asked: &[&str],
) -> Vec<Line<'w>> {
    let recorded = walk.record.map(|record| record.tables(field)).unwrap_or_default();
    let of = |table: &Record| {
        let text = table.text(heading).map(|text| text.value.to_owned());
        text.or_else(|| table.word(heading).map(|word| word.value.to_owned())).unwrap_or_default()
    };
    let mut lines: Vec<Line<'w>> = Vec::new();
    for table in recorded {
        lines.push(Line { of: html! { (name(&of(table))) }, record: Some(table), asked: Vec::new() });
    }
    for one in asked {
        if recorded.iter().all(|table| of(table) != *one) {
            lines.push(Line { of: html! { (name(one)) }, record: None, asked: Vec::new() });
        }
    }
    lines
}

pub(super) fn kept(walk: &Walk<'_>) -> Markup {
    let items = walk.sheet.build.items.iter().filter(|item| PLATED.contains(&item.kind));
    let plated: Vec<&str> = items.map(|item| item.tag.value.as_str()).collect();
    let mut views = vec!["label", "tires", "coupler", "scale"];
    for (view, word) in [
        ("gas", "cylinder"),
        ("wiring", "battery"),
        ("anchors", "removable"),
        ("roof", "rack"),
        ("roof", "tent"),
    ] {
        if walk.aboard.has(word) == Some(true) && !views.contains(&view) {
            views.push(view);
        }
    }
    let serials = lines(walk, &record::SERIALS, &serial::ITEM, &plated);
    let photos = lines(walk, &record::PHOTOS, &photo::SHOWS, &views);
    html! {
        @if !serials.is_empty() {
            (grid(walk.sheet, "Numbers on the plates", &serial::SCHEMA, &serial::ITEM, &serials))
        }
        (grid(walk.sheet, "Photographs", &photo::SCHEMA, &photo::SHOWS, &photos))
    }
}

pub(super) fn again(walk: &Walk<'_>) -> Markup {
    let mut matters = vec!["lug nuts", "sealant"];
    if walk.aboard.gas() {
        matters.push("gas");
    }
    for (matter, word) in [("alarms", "alarm"), ("anchors", "removable"), ("brakes", "brakes")] {
        if walk.aboard.has(word) == Some(true) {
            matters.push(matter);
        }
    }
    let mut lines = lines(walk, &record::RECHECKS, &recheck::WHAT, &matters);
    // A day or a distance is enough.
    for line in &mut lines {
        let given = |field: &Field| line.record.is_some_and(|record| record.value(field.key).is_some());
        let other = match (given(&recheck::DUE), given(&recheck::AFTER)) {
            (true, false) => Some(&recheck::AFTER),
            (false, true) => Some(&recheck::DUE),
            _ => None,
        };
        line.asked.extend(other.map(|field| (field, html! { "–" })));
    }
    grid(walk.sheet, "By which day, or after which distance", &recheck::SCHEMA, &recheck::WHAT, &lines)
}

pub(super) fn changes(walk: &Walk<'_>) -> Markup {
    if !walk.aboard.changed() {
        return html! {};
    }
    let mut lines = lines(walk, &record::CHANGES, &change::WHAT, &[]);
    let none = lines.is_empty();
    lines.push(Line { of: blank("", "long"), record: None, asked: Vec::new() });
    html! {
        @if none { p { "None is recorded, and this build came back. Ask the owner, and look." } }
        (grid(walk.sheet, "What was changed", &change::SCHEMA, &change::WHAT, &lines))
    }
}

pub(super) fn station(walk: &Walk<'_>) -> Markup {
    let found = walk.record.and_then(|record| record.table(&record::LABEL));
    let came_back = walk.sheet.build.stage.value >= Stage::Service;
    let mut days: Vec<&Field> = vec![&record::VIN, &record::DELIVERED];
    for field in [&record::SEEN, &record::DRIVEN, &record::NOTE] {
        if came_back || walk.record.is_some_and(|record| record.value(field.key).is_some()) {
            days.push(field);
        }
    }
    let signed: &'static Schema = &sign_off::SCHEMA;
    let roles = lines(walk, &record::SIGN_OFF, &sign_off::ROLE, &["builder", "inspector", "customer"]);
    html! {
        (rows(walk.sheet, "Numbers and days", &days, walk.record, &[]))
        (sheet_of(walk.sheet, "What the labels on the finished trailer say", &label::SCHEMA, found, &[
            (&label::CARGO, html! { "see " a href="#labels" { "the label texts" } }),
            (&label::WATER, html! { "see " a href="#labels" { "the label texts" } }),
        ]))
        (grid(walk.sheet, "Signed for", signed, &sign_off::ROLE, &roles))
        p { "Names here are those of the record. The lines to sign by hand stand at the end of " a href="#eyes" { "the checks by eye" } "." }
        @if roles.iter().all(|line| line.record.is_none()) {
            p { "No signature is recorded." }
        }
    }
}
