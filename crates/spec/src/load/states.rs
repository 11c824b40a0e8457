//! `[[state]]`.

use std::collections::{BTreeMap, BTreeSet};
use std::iter::successors;

use pintle_finding::Problem;
use pintle_quantity::Quantity;
use pintle_source::{Span, Spanned};

use super::items::Fitted;
use super::tags::{Sort, Tags, only_once};
use super::zones::{HIGHEST_STACK, host_of, zone_of};
use super::{only_one, tables};
use crate::build::{Item, Load, State, Use};
use crate::field::Field;
use crate::footing::Footing;
use crate::node::{Node, NodeValue};
use crate::place::{Body, resolve};
use crate::read::{not_a_table, read, require};
use crate::record::Record;
use crate::say::{full, shown};
use crate::schema::{build, state};
use crate::surfaces::Surfaces;

/// Reads every state and ties its tags to the parts they name.
pub(super) fn read_states(
    node: Option<&Node>,
    fitted: &Fitted,
    surfaces: &Surfaces,
    problems: &mut Vec<Problem>,
) -> Vec<State> {
    let Some(node) = node else { return Vec::new() };
    let mut names = BTreeMap::new();
    let mut states = Vec::new();
    for node in tables(build::STATES.key, node, problems) {
        if full(problems) {
            break;
        }
        states.extend(read_state(node, fitted, surfaces, &mut names, problems));
    }
    states
}

fn read_state(
    node: &Node,
    fitted: &Fitted,
    surfaces: &Surfaces,
    names: &mut BTreeMap<String, Span>,
    problems: &mut Vec<Problem>,
) -> Option<State> {
    if !matches!(node.value, NodeValue::Table(_)) {
        problems.push(not_a_table(node, "a state"));
        return None;
    }
    let given = node.child(state::NAME.key).and_then(Node::text).filter(|name| !name.trim().is_empty());
    let what = given.map_or_else(|| "a state".to_owned(), |name| format!("state `{}`", shown(name)));
    let mut record = read(node, &state::SCHEMA, &what, problems);
    require(&record, &state::SCHEMA, problems);
    let name = record.text(&state::NAME).map(|name| name.map(str::to_owned));
    if let Some(name) = &name {
        record.span = name.span;
        only_one(name, "state name", names, problems);
    }
    let by_tag = Tags { fitted, what: &what };
    let fill = amounts(node, &record, &state::FILL, &by_tag, Sort::Tank, problems);
    let carry = amounts(node, &record, &state::CARRY, &by_tag, Sort::Load, problems);
    let named_out = by_tag.find_all(record.texts(&state::OUT), Sort::Removable, problems);
    let mut out: Vec<usize> = named_out.into_iter().map(|(at, _)| at).collect();
    let mut people = Vec::new();
    let mut seen = BTreeMap::new();
    for aboard in record.tables(&state::PEOPLE) {
        let Some(berth) = aboard.text(&state::people::BERTH) else { continue };
        if full(problems) {
            break;
        }
        if !only_once(berth, &what, &mut seen, problems) {
            continue;
        }
        let at = by_tag.find(berth.value, berth.span, Sort::Berth, problems);
        if let (Some(at), Some(count)) = (at, aboard.count(&state::people::COUNT)) {
            people.push((at, count));
        }
    }
    take_along(&mut out, &fitted.items);
    let loads = record.tables(&state::LOAD).iter();
    let loads: Vec<Load> = loads.filter_map(|load| read_load(load, fitted, surfaces, problems)).collect();
    let name = name?;
    let used = match record.word(&state::USE)?.value {
        "road" => Use::Road,
        _ => Use::Camp,
    };
    Some(State { name, used, fill, carry, loads, out, people })
}

/// The amounts of a table under tags, each with the part that its tag names.
fn amounts(
    node: &Node,
    record: &Record,
    field: &'static Field,
    by_tag: &Tags<'_>,
    sort: Sort,
    problems: &mut Vec<Problem>,
) -> Vec<(usize, Spanned<Quantity>)> {
    let read: BTreeMap<&str, &Spanned<Quantity>> =
        record.by_name(field).iter().map(|(tag, amount)| (tag.value.as_str(), amount)).collect();
    let mut found = Vec::new();
    for entry in node.child(field.key).map_or(&[][..], Node::entries) {
        if full(problems) {
            break;
        }
        let named = by_tag.find(&entry.key, entry.key_span, sort, problems);
        if let (Some(at), Some(amount)) = (named, read.get(entry.key.as_str())) {
            found.push((at, **amount));
        }
    }
    found
}

/// What stands on a rack, or in a locker or a tent, leaves with it.
fn take_along(out: &mut Vec<usize>, items: &[Item]) {
    if out.is_empty() {
        return;
    }
    let named: BTreeSet<usize> = out.iter().copied().collect();
    for (at, item) in items.iter().enumerate() {
        // A part stands on no more others than the stack is high; in a loop there would be no end.
        let below = successors(host_of(item.zone), |host| host_of(items.get(*host)?.zone));
        if !named.contains(&at) && below.take(HIGHEST_STACK).any(|host| named.contains(&host)) {
            out.push(at);
        }
    }
}

fn read_load(
    record: &Record,
    fitted: &Fitted,
    surfaces: &Surfaces,
    problems: &mut Vec<Problem>,
) -> Option<Load> {
    let what = record.text(&state::load::WHAT).map(|what| what.map(str::to_owned));
    let mut record = record.clone();
    if let Some(what) = &what {
        record.rename(&format!("load `{}`", shown(&what.value)));
        record.span = what.span;
    }
    let zone = zone_of(&record, &fitted.items, &fitted.hosts, problems)?;
    let extent = resolve(&record, zone, Body::Load, surfaces, &fitted.items, problems);
    let what = what?;
    let footing = Footing::of(&record, &state::load::MASS);
    Some(Load { span: what.span, what, mass: record.quantity(&state::load::MASS)?, footing, zone, extent })
}
