//! `[[item]]`, `[[tank]]`, `[[locker]]`, `[[bulkhead]]`, `[[berth]]`, `[[vent]]` and `[[load]]`.

use std::collections::BTreeMap;

use pintle_finding::{Label, Problem, Role};
use pintle_source::Spanned;

use super::amounts::check_amounts;
use super::zones::{Hosts, RESERVED, place_all};
use super::{named_part, only_one, tables};
use crate::build::{Item, Table, Zone, called};
use crate::layout::{Extent, Reach};
use crate::node::{Entry, Node, NodeValue};
use crate::read::{list, near_key, not_a_table, read, require};
use crate::record::{Missing, Record, Value};
use crate::say::{a, full, shown};
use crate::schema::{build, item};
use crate::stock::{KINDS, Part, PartKind, Stock, kind_named, what_any_kind_knows};
use crate::surfaces::Surfaces;

/// What the kind of a part is called when it could not be read.
pub(super) const UNREAD: &str = "part";

/// The parts of a spec, and how to find them by tag.
pub(super) struct Fitted {
    /// The parts, in the order of the spec, tables in the order of [`Table`].
    pub(super) items: Vec<Item>,
    /// Where to look for a zone's part, or a state's.
    pub(super) hosts: Hosts,
}

/// Kinds that `[[item]]` takes: all but the two vehicles and the kinds with a table of their own.
fn item_kind(name: &str) -> bool {
    !matches!(name, "trailer" | "tow vehicle") && Table::ALL.iter().all(|table| table.key() != name)
}

fn allowed(table: Table, kind: &str) -> bool {
    if table == Table::Item { item_kind(kind) } else { kind == table.key() }
}

/// Reads every part, places it, and gathers the tags.
pub(super) fn read_items(
    spec: &Record,
    surfaces: &Surfaces,
    stock: &Stock,
    problems: &mut Vec<Problem>,
) -> Fitted {
    let fields = [
        &build::ITEMS,
        &build::TANKS,
        &build::LOCKERS,
        &build::BULKHEADS,
        &build::BERTHS,
        &build::VENTS,
        &build::OPENINGS,
        &build::LOADS,
    ];
    let mut items = Vec::new();
    let mut tags = BTreeMap::new();
    for (table, field) in Table::ALL.iter().zip(fields) {
        let Some(Value::Raw(node)) = spec.value(field.key).map(|value| &value.value) else { continue };
        for node in tables(field.key, node, problems) {
            if full(problems) {
                break;
            }
            if let Some(read) = read_item(node, *table, stock, problems) {
                if !read.tag.value.is_empty() {
                    only_one(&read.tag, "tag", &mut tags, problems);
                }
                refuse_reserved(&read, problems);
                check_amounts(&read, problems);
                items.push(read);
            }
        }
    }
    let hosts = Hosts::of(&items);
    place_all(&mut items, &hosts, surfaces, problems);
    Fitted { items, hosts }
}

/// The tag of a part, also where its key is misspelt: what names it then finds it.
fn tag_of(node: &Node) -> Option<Spanned<String>> {
    let tag = node.child(item::TAG.key).or_else(|| {
        let misspelt = node.entries().iter().find(|entry| {
            entry.key.len() <= 2 * item::TAG.key.len()
                && near_key(&entry.key, &item::SCHEMA, 0).is_some_and(|field| field.key == item::TAG.key)
        });
        misspelt.map(|entry| &entry.node)
    })?;
    let text = tag.text().filter(|text| !text.trim().is_empty())?;
    Some(Spanned::new(text.to_owned(), tag.span))
}

fn read_item(node: &Node, table: Table, stock: &Stock, problems: &mut Vec<Problem>) -> Option<Item> {
    if !matches!(node.value, NodeValue::Table(_)) {
        problems.push(not_a_table(node, &a(table.key())));
        return None;
    }
    let tag = tag_of(node).unwrap_or_else(|| Spanned::new(String::new(), node.span));
    let what = called(table, &tag.value);
    let part_node = node.child(item::PART.key);
    let part =
        part_node.and_then(|part| named_part(part, &what, |kind| allowed(table, kind), stock, problems));
    let kind = kind_of(node, table, part, &what, tag.span, problems);
    let mut record = match kind {
        Some(kind) => read(node, kind.schema, &what, problems),
        None => read(&what_any_kind_knows(node), &item::SCHEMA, &what, problems),
    };
    record.span = tag.span;
    if let Some(part) = part {
        record.fill_from(&part.record);
        record.rename(&what);
    } else if part_node.is_some() {
        // What the part would have stated is not known.
        for field in [&item::ZONE, &item::AT, &item::REMOVABLE] {
            if record.value(field.key).is_none() {
                record.refuse(field.key);
            }
        }
    }
    require(&record, kind.map_or(&item::SCHEMA, |kind| kind.schema), problems);
    let removable = record.flag(&item::REMOVABLE).is_some_and(|flag| flag.value);
    let nowhere = || {
        let missing = Missing::new(format!("the place of {what}"), None, "give its `at`");
        Reach { near: Err(missing.clone()), far: Err(missing.clone()), cg: Err(missing) }
    };
    Some(Item {
        tag,
        table,
        kind: kind.map_or(UNREAD, |kind| kind.name),
        zone: Zone::Inside,
        extent: Extent { x: nowhere(), y: nowhere(), z: nowhere() },
        folded: None,
        record,
        removable,
        needs: Vec::new(),
    })
}

/// The kind of a part: its stock part's, the one it states, or its table's.
fn kind_of(
    node: &Node,
    table: Table,
    part: Option<&Part>,
    what: &str,
    tag: pintle_source::Span,
    problems: &mut Vec<Problem>,
) -> Option<&'static PartKind> {
    let stated = node.child(item::KIND.key);
    if let Some(part) = part {
        let kind = KINDS.iter().find(|kind| kind.name == part.kind);
        let differs = |stated: &'_ Node| stated.text().is_some_and(|name| name != part.kind);
        if let Some(stated) = stated.filter(|stated| differs(stated)) {
            {
                let name = stated.text().unwrap_or("");
                let message = format!("{what} is {} by its part, not a `{}`", a(part.kind), shown(name));
                problems.push(
                    Problem::new("wrong-kind", message)
                        .at(Label::new(stated.span, Role::Subject, "not the kind of its part"))
                        .at(Label::new(part.name.span, Role::Subject, a(part.kind)))
                        .help("leave `kind` out where `part` is given"),
                );
            }
        }
        return kind;
    }
    match stated {
        Some(kind) => {
            kind.text().and_then(|name| kind_named(name, kind.span, |name| allowed(table, name), problems))
        }
        None if table != Table::Item => KINDS.iter().find(|kind| kind.name == table.key()),
        None if node.child(item::PART.key).is_some() => None,
        None => {
            // A misspelt `part` or `kind` is said already, as an unknown key.
            let misspelt = |entry: &Entry| {
                near_key(&entry.key, &item::SCHEMA, 0)
                    .is_some_and(|field| matches!(field.key, "part" | "kind"))
            };
            if node.entries().iter().take(100).any(misspelt) {
                return None;
            }
            problems.push(
                Problem::new("missing-value", format!("{what} has neither `part` nor `kind`"))
                    .at(Label::new(tag, Role::Missing, "what is it?"))
                    .help(format!(
                        "name a stock part, or state its kind: {}",
                        list(KINDS.iter().map(|kind| kind.name).filter(|name| item_kind(name)))
                    )),
            );
            None
        }
    }
}

/// A part that others can stand on or in is called by its tag, which must not be a word for a zone.
fn refuse_reserved(item: &Item, problems: &mut Vec<Problem>) {
    let hosts = item.table == Table::Locker || matches!(item.kind, "rack" | "tent");
    if hosts && RESERVED.iter().any(|(word, _)| *word == item.tag.value) {
        let message =
            format!("{} cannot be called so: `{}` is a zone of the trailer", item.called(), item.tag.value);
        problems.push(
            Problem::new("reserved-tag", message)
                .at(Label::new(item.tag.span, Role::Subject, "the word for a zone"))
                .help("give it another tag, so that parts can be placed by it"),
        );
    }
}
