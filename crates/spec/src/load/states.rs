//! `[[state]]`.

use std::collections::{BTreeMap, BTreeSet};

use pintle_finding::{Label, Problem, Role};
use pintle_quantity::Quantity;
use pintle_source::{Span, Spanned};

use super::aboard::{Rules, Stated};
use super::items::Fitted;
use super::tags::{Sort, Tags, only_once};
use super::zones::{hosts_below, zone_of};
use super::{only_one, tables};
use crate::build::{Item, Load, State, Table, Use};
use crate::field::Field;
use crate::footing::Footing;
use crate::node::{Node, NodeValue};
use crate::place::{Body, resolve};
use crate::read::{not_a_table, read, require};
use crate::record::Record;
use crate::say::{full, shown};
use crate::schema::{build, state};
use crate::surfaces::Surfaces;

/// States that a spec may have. Every road rule judges each; a trailer has a dozen, and every arrangement is judged
/// besides.
const MOST_STATES: usize = 100;

/// Reads every state and ties its tags to the parts they name.
pub(super) fn read_states(
    node: Option<&Node>,
    fitted: &Fitted,
    rules: &Rules<'_>,
    surfaces: &Surfaces,
    problems: &mut Vec<Problem>,
) -> Vec<State> {
    let Some(node) = node else { return Vec::new() };
    let mut names = BTreeMap::new();
    let mut states = Vec::new();
    for (at, node) in tables(build::STATES.key, node, problems).iter().enumerate() {
        if full(problems) {
            break;
        }
        if at == MOST_STATES {
            let said = format!("a spec may have at most {MOST_STATES} states");
            problems.push(Problem::new("too-many", said).at(Label::new(node.span, Role::Subject, "one too many")).help(
                "keep those that differ in kind: every combination of parts, tanks and loads is judged besides",
            ));
            break;
        }
        states.extend(read_state(node, fitted, rules, surfaces, &mut names, problems));
    }
    states
}

fn read_state(
    node: &Node,
    fitted: &Fitted,
    rules: &Rules<'_>,
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
    let (named_out, all_out) = named_out(node, &record, &by_tag, problems);
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
            people.push((at, berth.span, count));
        }
    }
    let leaves = leaves(&named_out, &fitted.items);
    let loads = record.tables(&state::LOAD).iter();
    let loads: Vec<Load> = loads.filter_map(|load| read_load(load, fitted, surfaces, problems)).collect();
    let used = record.word(&state::USE).map(|used| if used.value == "road" { Use::Road } else { Use::Camp });
    let carry_entries = node.child(state::CARRY.key).map_or(0, |carry| carry.entries().len());
    let stated = Stated {
        what: &what,
        span: record.span,
        used,
        fill: &fill,
        carry: &carry,
        all_carry: !record.is_refused(state::CARRY.key) && carry.len() == carry_entries,
        loads: &loads,
        people: &people,
        leaves: &leaves,
        all_out,
    };
    rules.check(&stated, problems);
    // Those that are named first, as they are named; then those that leave with them. Loads are not fitted: what is not
    // carried stays at home.
    let mut out: Vec<usize> = named_out.iter().map(|(at, _)| *at).collect();
    let by_name: BTreeSet<usize> = out.iter().copied().collect();
    let fitted_part = |at: &usize| fitted.items.get(*at).is_some_and(|item| item.table != Table::Load);
    out.extend(leaves.keys().copied().filter(|at| !by_name.contains(at)).filter(fitted_part));
    let people = people.into_iter().map(|(at, _, count)| (at, count)).collect();
    Some(State { name: name?, used: used?, fill, carry, loads, out, people })
}

/// The parts that a state leaves at home, each with its tag there, and whether all of its tags could be read.
fn named_out(
    node: &Node,
    record: &Record,
    by_tag: &Tags<'_>,
    problems: &mut Vec<Problem>,
) -> (Vec<(usize, Span)>, bool) {
    let tags = record.texts(&state::OUT);
    let written = match node.child(state::OUT.key).map(|out| &out.value) {
        Some(NodeValue::Array(tags)) => tags.len(),
        _ => 0,
    };
    let before = problems.len();
    let named = by_tag.find_all(tags, Sort::Removable, problems);
    let all = !record.is_refused(state::OUT.key) && tags.len() == written && problems.len() == before;
    (named, all)
}

/// All that is left at home, each with the tag that it leaves by: what stands on a rack, or in a locker or a tent, leaves
/// with it.
fn leaves(named: &[(usize, Span)], items: &[Item]) -> BTreeMap<usize, Span> {
    let mut leaves: BTreeMap<usize, Span> = named.iter().copied().collect();
    if named.is_empty() {
        return leaves;
    }
    let named: BTreeMap<usize, Span> = leaves.clone();
    for (at, item) in items.iter().enumerate().filter(|(at, _)| !named.contains_key(at)) {
        if let Some(by) = hosts_below(item.zone, items).find_map(|host| named.get(&host)) {
            leaves.insert(at, *by);
        }
    }
    leaves
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
