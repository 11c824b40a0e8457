//! The record as a form, made from its schema: every field by its kind, in the order of the walk round the trailer.

mod stations;

use maud::{Markup, html};
use pintle_quantity::Dimension;
use pintle_spec::field::{Field, Kind, Schema};
use pintle_spec::schema::record::{alarm_test, serial, ticket, torque};
use pintle_spec::{Build, Table};

use crate::Walk;
use crate::markup::{name, sentence};
use stations::{STATIONS, Station};

/// The form. What stands in the file is filled in by the script, as are the rows of lists.
pub(crate) fn form(build: &Build, walk: &Walk) -> Markup {
    html! {
        form #walk novalidate autocomplete="off"
            data-spec=(walk.spec) data-build=(build.number.value) data-hash=(walk.hash) data-record=(walk.record)
        {
            nav .stations aria-label="Stations" {
                @for station in STATIONS {
                    a href=(format!("#station-{}", station.id)) { (station.title) }
                }
            }
            @for station in STATIONS { (of_station(build, station)) }
            div .bar role="region" aria-label="Saving" {
                p { span #short aria-hidden="true" {} span #state role="status" { "Nothing typed yet" } }
                button #save type="submit" { "Save" }
            }
        }
    }
}

fn of_station(build: &Build, station: &Station) -> Markup {
    let id = format!("station-{}", station.id);
    html! {
        section .station id=(id) aria-labelledby=(format!("{id}-heading")) {
            h2 id=(format!("{id}-heading")) { (station.title) }
            @for line in station.says { p .soft { (line) } }
            @for field in station.fields { (of_field(build, field, "")) }
        }
    }
}

/// A field at a path. In the template of a list's entry, `#` stands for the entry's number.
fn of_field(build: &Build, field: &'static Field, path: &str) -> Markup {
    let path = if path.is_empty() { field.key.to_owned() } else { format!("{path}.{}", field.key) };
    match field.kind {
        Kind::Table(schema) => html! {
            fieldset .group data-key=(field.key) data-kind="table" {
                legend { (named(field)) }
                p .soft { (says(field)) }
                div .fields { @for field in schema.all() { (of_field(build, field, &path)) } }
            }
        },
        Kind::Tables(schema) => list(build, field, schema, &path),
        Kind::Flag => {
            choice(field, &path, "flag", "radio", &[("yes", "yes"), ("no", "no"), ("", "not done")])
        }
        Kind::Words(words) => {
            let words: Vec<(&str, &str)> = words.iter().map(|word| (*word, *word)).collect();
            choice(field, &path, "words", "checkbox", &words)
        }
        _ => single(build, field, &path),
    }
}

/// A field of one value: label, what goes in, what is wrong with it.
fn single(build: &Build, field: &'static Field, path: &str) -> Markup {
    let id = format!("f-{path}");
    let (hint, error) = (format!("{id}-hint"), format!("{id}-error"));
    let described = format!("{hint} {error}");
    let options = options(build, field);
    let lines = matches!(field.kind, Kind::Texts);
    let kind = if lines { "lines" } else { "text" };
    html! {
        div .field data-key=(field.key) data-kind=(kind) {
            label for=(id) {
                span .name { (named(field)) @if field.required { span .needed { " (needed)" } } }
            }
            p .soft id=(hint) {
                (says(field))
                @if let Some(example) = example(field) { " Such as " span .example { (example) } "." }
                @if lines { " One a line." }
            }
            @if let Some(options) = options {
                select id=(id) aria-describedby=(described) {
                    option value="" { "not stated" }
                    @for option in &options { option value=(option) { (name(option)) } }
                }
            } @else if lines || field.key == "note" {
                textarea id=(id) rows="2" aria-describedby=(described) {}
            } @else {
                div .typed {
                    input id=(id) type="text" autocomplete="off" autocapitalize="off" spellcheck="false"
                        inputmode=[matches!(field.kind, Kind::Count(_)).then_some("numeric")]
                        aria-describedby=(described);
                    @if is_day(field) {
                        button .today type="button" aria-label=(format!("{}: today", named(field))) { "today" }
                    }
                }
            }
            p .error id=(error) hidden {}
            p .note hidden {}
        }
    }
}

/// A field of one or several words, each to be touched.
fn choice(field: &'static Field, path: &str, kind: &str, sort: &str, words: &[(&str, &str)]) -> Markup {
    let id = format!("f-{path}");
    let (hint, error) = (format!("{id}-hint"), format!("{id}-error"));
    html! {
        fieldset .field data-key=(field.key) data-kind=(kind) aria-describedby=(format!("{hint} {error}")) {
            legend .name { (named(field)) }
            p .soft id=(hint) { (says(field)) }
            div .choices {
                @for (value, shown) in words {
                    label { input type=(sort) name=(id) value=(value) checked[kind == "flag" && value.is_empty()]; " " (shown) }
                }
            }
            p .error id=(error) hidden {}
            p .note hidden {}
        }
    }
}

/// A list of tables: entries, and a button that adds one.
fn list(build: &Build, field: &'static Field, schema: &'static Schema, path: &str) -> Markup {
    let inner = format!("{path}.#");
    html! {
        fieldset .list data-key=(field.key) data-kind="rows" {
            legend { (named(field)) }
            p .soft { (says(field)) }
            div .rows {}
            template {
                div .row role="group" {
                    p .row-head { span .row-name { (sort_of(schema)) } " " span .row-number {} }
                    div .fields { @for field in schema.all() { (of_field(build, field, &inner)) } }
                    p .error hidden {}
                    p .note hidden {}
                    button .remove type="button" { "Take away" }
                }
            }
            button .add type="button" { "Add " (schema.name) }
            p .error hidden {}
        }
    }
}

/// A key as it is read: `tongue_by` is "tongue by".
fn named(field: &Field) -> String {
    let spaced = field.key.replace('_', " ");
    match field.key {
        "vin" => "VIN".to_owned(),
        "gfci_tripped" => "GFCI tripped".to_owned(),
        _ => {
            let mut letters = spaced.chars();
            letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
        }
    }
}

/// What a table of a list is, without its article: "Scale ticket".
fn sort_of(schema: &Schema) -> String {
    let bare = ["a ", "an ", "the "].iter().find_map(|article| schema.name.strip_prefix(article));
    let mut letters = bare.unwrap_or(schema.name).chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}

/// What a field is, for who fills in a form: how its table is written in a file is nothing to them.
fn says(field: &Field) -> String {
    let (doc, _) = field.doc.split_once("; one ").unwrap_or((field.doc, ""));
    sentence(&doc.replace('`', ""))
}

/// What a quantity or a count is written like.
fn example(field: &Field) -> Option<&'static str> {
    match field.kind {
        // Torque has the dimension of energy, and is not written like it.
        Kind::Quantity(dimension, _) if dimension == Dimension::ENERGY => Some("90 lbf·ft"),
        Kind::Quantity(..) if field.key.ends_with("resolution") => Some("20 lb"),
        // What may be felt on a trailer's skin, not what a battery has.
        Kind::Quantity(dimension, _) if dimension == Dimension::VOLTAGE => Some("0.8 V"),
        Kind::Quantity(dimension, _) => Some(dimension.example()).filter(|example| !example.is_empty()),
        Kind::Count(_) => Some("4"),
        _ => None,
    }
}

/// Whether a text is a day: its words end on one, as in 2026-05-02.
fn is_day(field: &Field) -> bool {
    matches!(field.kind, Kind::Text) && field.doc.contains(", as in 20")
}

/// What may stand in a field, where that is a short list: a schema's words, or the spec's own names.
fn options(build: &Build, field: &'static Field) -> Option<Vec<String>> {
    let is = |other: &'static Field| std::ptr::eq(field, other);
    let tags = |fits: &dyn Fn(&pintle_spec::Item) -> bool| -> Vec<String> {
        build.items.iter().filter(|item| fits(item)).map(|item| item.tag.value.clone()).collect()
    };
    match field.kind {
        Kind::Word(words) => Some(words.iter().map(|word| (*word).to_owned()).collect()),
        _ if is(&ticket::STATE) => Some(build.states.iter().map(|state| state.name.value.clone()).collect()),
        _ if is(&alarm_test::ALARM) => Some(tags(&|item| item.kind == "alarm")),
        _ if is(&torque::ITEM) => Some(tags(&|item| item.table != Table::Load)),
        _ if is(&serial::ITEM) => Some(tags(&|_| true)),
        _ => None,
    }
}

#[cfg(test)]
mod tests;
