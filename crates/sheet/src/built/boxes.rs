//! What the record holds, field by field; and where it holds nothing, a ruled box to fill in by hand.

use maud::{Markup, html};
use pintle_quantity::Dimension;
use pintle_spec::field::{Field, Kind, Schema};
use pintle_spec::record::{Record, Value};

use crate::Sheet;
use crate::markup::{name, text};
use crate::worked::{is_metric, quantity_words};

/// Fields that hold a day.
const DAYS: &[&str] = &["date", "due", "done", "reviewed", "delivered", "seen", "replace"];

/// A field's name as a reader is told it.
pub(super) fn called(field: &Field) -> String {
    match field.key {
        "vin" => "identification number (VIN)".to_owned(),
        "gfci_tripped" => "ground-fault interrupters tripped".to_owned(),
        "by" => "done by".to_owned(),
        key => key.replace('_', " "),
    }
}

/// What a field means, without the marks of code.
pub(super) fn meaning(field: &Field) -> String {
    field.doc.replace('`', "")
}

/// A value as it was written, in a reader's units.
pub(super) fn value(sheet: &Sheet<'_>, held: &Value) -> Markup {
    match held {
        Value::Quantity(quantity) => html! { (quantity_words(sheet, *quantity)) },
        Value::Text(written) => html! { (text(written)) },
        Value::Word(word) => html! { (*word) },
        Value::Words(words) => listed(words.iter().map(|word| word.value)),
        Value::Flag(flag) => html! { @if *flag { "yes" } @else { "no" } },
        Value::Count(count) => html! { (count) },
        Value::Texts(texts) => listed(texts.iter().map(|one| one.value.as_str())),
        Value::ByName(by_name) => html! {
            @for (at, (key, quantity)) in by_name.iter().enumerate() {
                @if at > 0 { ", " } (name(&key.value)) " " (quantity_words(sheet, quantity.value))
            }
        },
        Value::Table(table) => html! { (nested(sheet, table)) },
        Value::Tables(tables) => html! { @for table in tables { (nested(sheet, table)) } },
        Value::Named(named) => {
            html! { @for (key, table) in named { (name(&key.value)) ": " (nested(sheet, table)) } }
        }
        Value::Raw(_) => html! { "as written in the spec" },
    }
}

fn listed<'a>(words: impl Iterator<Item = &'a str>) -> Markup {
    html! { @for (at, word) in words.enumerate() { @if at > 0 { ", " } (name(word)) } }
}

/// A table of a kind that no station knows: all that it holds, each with its key.
fn nested(sheet: &Sheet<'_>, table: &Record) -> Markup {
    html! {
        @for (at, key) in table.keys().enumerate() {
            @if at > 0 { "; " }
            (key.replace('_', " ")) ": " @if let Some(held) = table.value(key) { (value(sheet, &held.value)) }
        }
    }
}

/// A box to fill in by hand, for what a field asks.
pub(super) fn empty(sheet: &Sheet<'_>, field: &Field) -> Markup {
    match field.kind {
        Kind::Flag => choices(&["yes", "no"]),
        Kind::Word(words) | Kind::Words(words) => choices(words),
        Kind::Quantity(dimension, _) => blank(unit(dimension, is_metric(sheet)), "short"),
        Kind::Count(_) => blank("", "short"),
        _ if DAYS.contains(&field.key) => blank("", "day"),
        _ => blank("", "long"),
    }
}

/// A ruled box, with the unit of what is written in it.
pub(super) fn blank(unit: &str, size: &str) -> Markup {
    html! {
        span class=(format!("blank {size}")) { span .away { "to fill in" } }
        @if !unit.is_empty() { " " span .unit { (unit) } }
    }
}

/// Small boxes, one of which is crossed by hand.
pub(super) fn choices(words: &[&str]) -> Markup {
    html! { span .choices { @for word in words { span .choice { span .tick aria-hidden="true" {} " " (*word) } " " } } }
}

/// The unit in which a shop writes such a value in a record.
fn unit(dimension: Dimension, metric: bool) -> &'static str {
    let pairs: [(Dimension, &str, &str); 7] = [
        (Dimension::MASS, "lb", "kg"),
        (Dimension::ENERGY, "lbf·ft", "N·m"),
        (Dimension::PRESSURE, "inH2O", "mbar"),
        (Dimension::LENGTH, "mi", "km"),
        (Dimension::TIME, "min", "min"),
        (Dimension::VOLTAGE, "V", "V"),
        (Dimension::SPEED, "mph", "km/h"),
    ];
    let found = pairs.iter().find(|(held, ..)| *held == dimension);
    found.map_or("", |(_, us, si)| if metric { si } else { us })
}

/// One test or list of facts: a row a field, with what is recorded or a box, and the limit where a rule has one.
pub(super) fn sheet_of(
    sheet: &Sheet<'_>,
    caption: &str,
    schema: &Schema,
    record: Option<&Record>,
    notes: &[(&'static Field, Markup)],
) -> Markup {
    let fields: Vec<&Field> = schema.all().collect();
    rows(sheet, caption, &fields, record, notes)
}

/// The same for some fields of a record.
pub(super) fn rows(
    sheet: &Sheet<'_>,
    caption: &str,
    fields: &[&Field],
    record: Option<&Record>,
    notes: &[(&'static Field, Markup)],
) -> Markup {
    rows_asking(sheet, caption, fields, record, notes, &[])
}

/// The same, with boxes of their own for some of what is not recorded.
pub(super) fn rows_asking(
    sheet: &Sheet<'_>,
    caption: &str,
    fields: &[&Field],
    record: Option<&Record>,
    notes: &[(&'static Field, Markup)],
    asked: &[(&'static Field, Markup)],
) -> Markup {
    let of = |list: &[(&'static Field, Markup)], field: &Field| {
        list.iter().find(|(of, _)| std::ptr::eq(*of, field)).map(|(_, markup)| markup.clone())
    };
    html! {
        table .record {
            caption { (caption) @if record.is_none() { " " span .unrecorded { "not recorded" } } }
            tbody {
                // A note is asked for where nothing is written at all.
                @for field in fields.iter().filter(|field| record.is_none_or(|held| field.key != "note" || held.value("note").is_some())) {
                    @let held = record.and_then(|record| record.value(field.key));
                    tr {
                        th scope="row" { (called(field)) @if held.is_none() { span .what { (meaning(field)) } } }
                        td {
                            @match held {
                                Some(held) => (value(sheet, &held.value)),
                                None => (of(asked, field).unwrap_or_else(|| empty(sheet, field))),
                            }
                        }
                        td .against { @if let Some(note) = of(notes, field) { (note) } }
                    }
                }
            }
        }
    }
}

/// One line of a grid: what stands in each column before anything is recorded, and what is.
#[derive(Debug)]
pub(super) struct Line<'r> {
    /// Its heading: that of the part or matter that it is of.
    pub(super) of: Markup,
    /// What is recorded of it.
    pub(super) record: Option<&'r Record>,
    /// What is asked of it, shown in the column of a field where nothing is recorded.
    pub(super) asked: Vec<(&'static Field, Markup)>,
}

/// A grid: a line a part, a column a field; `heading` is the field that the lines are headed by.
pub(super) fn grid(
    sheet: &Sheet<'_>,
    caption: &str,
    schema: &'static Schema,
    heading: &'static Field,
    lines: &[Line<'_>],
) -> Markup {
    let columns: Vec<&'static Field> = schema.all().filter(|field| !std::ptr::eq(*field, heading)).collect();
    // A note is long: it stands in a line of its own.
    let (notes, columns): (Vec<_>, Vec<_>) = columns.into_iter().partition(|field| field.key == "note");
    let all = 1 + columns.len();
    html! {
        table .record .grid {
            caption { (caption) }
            thead {
                tr {
                    th scope="col" { (called(heading)) }
                    @for field in &columns { th scope="col" title=(meaning(field)) { (called(field)) } }
                }
            }
            tbody {
                @for line in lines {
                    tr {
                        th scope="row" { (line.of) }
                        @for field in &columns { td { (cell(sheet, line, field)) } }
                    }
                    @for field in &notes {
                        @if let Some(held) = line.record.and_then(|record| record.value(field.key)) {
                            tr .note { td colspan=(all) { (called(field)) ": " (value(sheet, &held.value)) } }
                        }
                    }
                }
            }
        }
    }
}

fn cell(sheet: &Sheet<'_>, line: &Line<'_>, field: &'static Field) -> Markup {
    let asked = line.asked.iter().find(|(of, _)| std::ptr::eq(*of, field)).map(|(_, asked)| asked);
    match (line.record.and_then(|record| record.value(field.key)), asked) {
        (Some(held), _) => value(sheet, &held.value),
        (None, Some(asked)) => asked.clone(),
        (None, None) => empty(sheet, field),
    }
}
