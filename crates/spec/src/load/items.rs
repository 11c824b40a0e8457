//! `[[item]]`, `[[tank]]`, `[[locker]]`, `[[bulkhead]]`, `[[berth]]` and `[[vent]]`.

use std::collections::BTreeMap;

use pintle_finding::{Label, Problem, Role, nearest};
use pintle_source::{Span, Spanned};

use super::{named_part, only_one};
use crate::build::{Item, Table, Zone};
use crate::field::Field;
use crate::layout::{Extent, Reach};
use crate::node::{Entry, Node, NodeValue};
use crate::place::{Body, has_place, resolve};
use crate::read::{list, read, require};
use crate::record::{Missing, Record, Value};
use crate::schema::{build, item};
use crate::stock::{KINDS, PartKind, Stock, kind_named};
use crate::surfaces::Surfaces;

/// Words for zones that are not another part.
const ZONES: &[(&str, Zone)] = &[
    ("inside", Zone::Inside),
    ("tongue", Zone::Tongue),
    ("roof", Zone::Roof),
    ("front wall", Zone::FrontWall),
    ("rear door", Zone::RearDoor),
    ("left wall", Zone::LeftWall),
    ("right wall", Zone::RightWall),
    ("floor", Zone::Floor),
    ("underside", Zone::Underside),
];

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
    surfaces: Option<&Surfaces>,
    stock: &Stock,
    tags: &mut BTreeMap<String, Span>,
    problems: &mut Vec<Problem>,
) -> Vec<Item> {
    let fields: [&'static Field; 6] =
        [&build::ITEMS, &build::TANKS, &build::LOCKERS, &build::BULKHEADS, &build::BERTHS, &build::VENTS];
    let mut items = Vec::new();
    for (table, field) in Table::ALL.iter().zip(fields) {
        let Some(Value::Raw(node)) = spec.value(field.key).map(|value| &value.value) else { continue };
        let NodeValue::Array(nodes) = &node.value else {
            problems.push(
                Problem::new(
                    "wrong-type",
                    format!("`{}` must be a list of tables, not {}", field.key, node.kind()),
                )
                .at(Label::new(node.span, Role::Subject, "a single one"))
                .help(format!("write [[{}]] with two brackets on each side", field.key)),
            );
            continue;
        };
        for node in nodes {
            if let Some(read) = read_item(node, *table, stock, problems) {
                only_one(&read.tag, "tag", tags, problems);
                items.push(read);
            }
        }
    }
    let zones: Vec<Option<Zone>> = items.iter().map(|item| zone_of(&item.record, &items, problems)).collect();
    for (item, zone) in items.iter_mut().zip(&zones) {
        if let Some(zone) = zone {
            item.zone = *zone;
        }
    }
    if let Some(surfaces) = surfaces {
        if zones.iter().all(Option::is_some) {
            place_all(&mut items, surfaces, problems);
        }
    }
    items
}

fn read_item(node: &Node, table: Table, stock: &Stock, problems: &mut Vec<Problem>) -> Option<Item> {
    let tag = node.child(item::TAG.key);
    let tag = tag.and_then(|tag| tag.text().map(|text| Spanned::new(text.to_owned(), tag.span)));
    let what = match &tag {
        Some(tag) => format!("{} `{}`", table.key(), tag.value),
        None => format!("a {} without a tag", table.key()),
    };
    let NodeValue::Table(entries) = &node.value else {
        problems.push(
            Problem::new("wrong-type", format!("{what} must be a table, not {}", node.kind()))
                .at(Label::new(node.span, Role::Subject, "must be a table")),
        );
        return None;
    };
    let part_node = node.child(item::PART.key);
    let part =
        part_node.and_then(|part| named_part(part, &what, |kind| allowed(table, kind), stock, problems));
    let kind = match (part, node.child(item::KIND.key)) {
        (Some(part), _) => KINDS.iter().find(|kind| kind.name == part.kind),
        (None, Some(kind)) => {
            kind.text().and_then(|name| kind_named(name, kind.span, |name| allowed(table, name), problems))
        }
        (None, None) if table != Table::Item => KINDS.iter().find(|kind| kind.name == table.key()),
        (None, None) if part_node.is_some() => None,
        (None, None) => {
            problems.push(
                Problem::new("missing-value", format!("{what} has neither `part` nor `kind`"))
                    .at(Label::new(
                        tag.as_ref().map_or(node.span, |tag| tag.span),
                        Role::Missing,
                        "what is it?",
                    ))
                    .help(format!(
                        "name a stock part, or state its kind: {}",
                        list(KINDS.iter().map(|kind| kind.name).filter(|name| item_kind(name)))
                    )),
            );
            None
        }
    };
    let mut record = match kind {
        Some(kind) => read(node, kind.schema, &what, problems),
        None => read(&what_any_kind_knows(node, entries), &item::SCHEMA, &what, problems),
    };
    if let Some(tag) = &tag {
        record.span = tag.span;
    }
    if let Some(part) = part {
        record.fill_from(&part.record);
        record.rename(&what);
    }
    require(&record, kind.map_or(&item::SCHEMA, |kind| kind.schema), problems);
    let removable = record.flag(&item::REMOVABLE).is_some_and(|flag| flag.value);
    let nowhere = || {
        let missing = Missing::new(format!("the place of {what}"), None, "give its `at`");
        Reach { near: Err(missing.clone()), far: Err(missing.clone()), cg: Err(missing) }
    };
    Some(Item {
        tag: tag?,
        table,
        kind: kind.map_or("module", |kind: &PartKind| kind.name),
        zone: Zone::Inside,
        extent: Extent { x: nowhere(), y: nowhere(), z: nowhere() },
        record,
        removable,
    })
}

/// Of a part whose kind is not known, what can still be checked: fields that every kind shares, and fields that
/// no kind has.
fn what_any_kind_knows(node: &Node, entries: &[Entry]) -> Node {
    let only_some_kinds = |key: &str| {
        item::SCHEMA.find(key).is_none() && KINDS.iter().any(|kind| kind.schema.find(key).is_some())
    };
    let kept = entries.iter().filter(|entry| !only_some_kinds(&entry.key)).cloned().collect();
    Node { span: node.span, value: NodeValue::Table(kept) }
}

/// The zone that a record names; inside when it names none.
pub(super) fn zone_of(record: &Record, items: &[Item], problems: &mut Vec<Problem>) -> Option<Zone> {
    let Some(zone) = record.text(&item::ZONE) else { return Some(Zone::Inside) };
    if let Some((_, found)) = ZONES.iter().find(|(name, _)| *name == zone.value) {
        return Some(*found);
    }
    let racks: Vec<usize> =
        (0..items.len()).filter(|at| items.get(*at).is_some_and(|item| item.kind == "rack")).collect();
    if let ("rack", [only]) = (zone.value, racks.as_slice()) {
        return Some(Zone::Rack(*only));
    }
    let host = items.iter().position(|item| item.tag.value == zone.value);
    match host.and_then(|at| Some((at, items.get(at)?))) {
        Some((at, host)) if host.kind == "rack" => Some(Zone::Rack(at)),
        Some((at, host)) if host.table == Table::Locker => Some(Zone::Locker(at)),
        Some((at, host)) if host.kind == "tent" => Some(Zone::Tent(at)),
        Some((_, host)) => {
            problems.push(
                Problem::new("unknown-zone", format!("{} cannot be in or on {}", record.what, host.called()))
                    .at(Label::new(zone.span, Role::Subject, format!("this is a {}", host.kind)))
                    .help("a zone is a rack, a tent or a locker by its tag, or a part of the trailer"),
            );
            None
        }
        None => {
            let hosts = items
                .iter()
                .filter(|item| item.table == Table::Locker || matches!(item.kind, "rack" | "tent"));
            let known = || {
                ZONES.iter().map(|(name, _)| *name).chain(hosts.clone().map(|item| item.tag.value.as_str()))
            };
            let help = match (nearest(zone.value, known()), zone.value) {
                (_, "rack") if racks.len() > 1 => "there are several racks: name one by its tag".to_owned(),
                (_, "rack") => "this build has no rack; fit one with a part of kind `rack`".to_owned(),
                (Some(near), _) => format!("did you mean `{near}`?"),
                (None, _) => format!("the zones are {}", list(known())),
            };
            problems.push(
                Problem::new("unknown-zone", format!("there is no zone `{}`", zone.value))
                    .at(Label::new(zone.span, Role::Subject, "no such zone in this build"))
                    .help(help),
            );
            None
        }
    }
}

/// Places every part, those that others stand on or in first.
fn place_all(items: &mut [Item], surfaces: &Surfaces, problems: &mut Vec<Problem>) {
    let mut placed = vec![false; items.len()];
    loop {
        let ready = (0..items.len()).find(|at| {
            let hosted = items.get(*at).map(|item| item.zone);
            let waits_for = match hosted {
                Some(Zone::Rack(host) | Zone::Locker(host) | Zone::Tent(host)) => Some(host),
                _ => None,
            };
            placed.get(*at) == Some(&false)
                && waits_for.is_none_or(|host| placed.get(host).copied().unwrap_or(true))
        });
        let Some(at) = ready else { break };
        let Some(item) = items.get(at) else { break };
        let extent = resolve(&item.record, item.zone, Body::Part, surfaces, items, problems);
        refuse_nowhere(item, problems);
        if let (Some(item), Some(done)) = (items.get_mut(at), placed.get_mut(at)) {
            item.extent = extent;
            *done = true;
        }
    }
    for (item, _) in items.iter().zip(&placed).filter(|(_, done)| !**done) {
        let span = item.record.value(item::ZONE.key).map_or(item.tag.span, |zone| zone.span);
        problems.push(
            Problem::new("zone-loop", format!("{} stands, in the end, on itself", item.called()))
                .at(Label::new(span, Role::Subject, "part of a loop of zones"))
                .help("one of the parts in the loop must stand on the trailer"),
        );
    }
}

/// Things that must have a place to be anywhere at all.
fn refuse_nowhere(item: &Item, problems: &mut Vec<Problem>) {
    let heavy = matches!(item.table, Table::Item | Table::Tank | Table::Locker | Table::Bulkhead);
    let needs_gap = !matches!(item.zone, Zone::FrontWall | Zone::RearDoor | Zone::Tent(_));
    if heavy && needs_gap && !has_place(&item.record) {
        problems.push(
            Problem::new("missing-value", format!("{} has no place", item.called()))
                .at(Label::new(item.tag.span, Role::Missing, "`at` is missing here"))
                .help("give the gaps that a tape measure shows, such as `at = { front = \"30 in\", left = \"0 in\" }`"),
        );
    }
}
