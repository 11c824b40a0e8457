//! `[[state]]`.

use std::collections::BTreeMap;

use pintle_finding::{Label, Problem, Role, nearest};
use pintle_source::{Span, Spanned};

use super::items::zone_of;
use super::only_one;
use crate::build::{Item, Load, State, Table, Use};
use crate::node::{Node, NodeValue};
use crate::place::{Body, resolve};
use crate::read::{list, read, require};
use crate::record::Record;
use crate::schema::{build, state};
use crate::surfaces::Surfaces;

/// Reads every state and ties its tags to the parts they name.
pub(super) fn read_states(
    node: Option<&Node>,
    items: &[Item],
    surfaces: Option<&Surfaces>,
    problems: &mut Vec<Problem>,
) -> Vec<State> {
    let Some(node) = node else { return Vec::new() };
    let NodeValue::Array(nodes) = &node.value else {
        problems.push(
            Problem::new(
                "wrong-type",
                format!("`{}` must be a list of tables, not {}", build::STATES.key, node.kind()),
            )
            .at(Label::new(node.span, Role::Subject, "a single one"))
            .help("write [[state]] with two brackets on each side"),
        );
        return Vec::new();
    };
    let mut names = BTreeMap::new();
    nodes.iter().filter_map(|node| read_state(node, items, surfaces, &mut names, problems)).collect()
}

fn read_state(
    node: &Node,
    items: &[Item],
    surfaces: Option<&Surfaces>,
    names: &mut BTreeMap<String, Span>,
    problems: &mut Vec<Problem>,
) -> Option<State> {
    let named = node.child(state::NAME.key).and_then(Node::text);
    let what = named.map_or_else(|| "a state without a name".to_owned(), |name| format!("state `{name}`"));
    let mut record = read(node, &state::SCHEMA, &what, problems);
    require(&record, &state::SCHEMA, problems);
    if let Some(name) = record.text(&state::NAME) {
        record.span = name.span;
    }
    let by_tag = |tag: &str,
                  span: Span,
                  sort: &str,
                  fits: &dyn Fn(&Item) -> bool,
                  problems: &mut Vec<Problem>| {
        let found = items.iter().position(|item| item.tag.value == tag);
        match found.and_then(|at| items.get(at)) {
            Some(item) if fits(item) => found,
            Some(item) => {
                problems.push(
                    Problem::new("wrong-tag", format!("`{tag}` in {what} is not {sort}"))
                        .at(Label::new(span, Role::Subject, format!("not {sort}")))
                        .at(Label::new(item.tag.span, Role::Subject, "the part it names"))
                        .help(if sort == "removable" {
                            "mark the part `removable = true`, or leave it out of `out`".to_owned()
                        } else {
                            format!("name {sort}")
                        }),
                );
                None
            }
            None => {
                let known = || items.iter().filter(|item| fits(item)).map(|item| item.tag.value.as_str());
                let help = nearest(tag, known()).map_or_else(
                    || format!("the tags that fit are {}", list(known())),
                    |near| format!("did you mean `{near}`?"),
                );
                problems.push(
                    Problem::new("unknown-tag", format!("{what} names `{tag}`, and no part has that tag"))
                        .at(Label::new(span, Role::Subject, "no part has this tag"))
                        .help(help),
                );
                None
            }
        }
    };
    let mut fill = Vec::new();
    for (tag, share) in record.shares(&state::FILL) {
        if let Some(at) = by_tag(&tag.value, tag.span, "a tank", &|item| item.table == Table::Tank, problems)
        {
            fill.push((at, *share));
        }
    }
    let mut out = Vec::new();
    for tag in record.texts(&state::OUT) {
        if let Some(at) = by_tag(&tag.value, tag.span, "removable", &|item| item.removable, problems) {
            out.push(at);
        }
    }
    let mut people = Vec::new();
    for aboard in record.tables(&state::PEOPLE) {
        let (Some(berth), Some(count)) =
            (aboard.text(&state::people::BERTH), aboard.count(&state::people::COUNT))
        else {
            continue;
        };
        if let Some(at) =
            by_tag(berth.value, berth.span, "a berth", &|item| item.table == Table::Berth, problems)
        {
            people.push((at, count));
        }
    }
    let loads = record.tables(&state::LOAD).iter();
    let loads: Vec<Load> = loads.filter_map(|load| read_load(load, items, surfaces, problems)).collect();
    let name = record.text(&state::NAME)?.map(str::to_owned);
    only_one(&name, "state name", names, problems);
    let used = match record.word(&state::USE)?.value {
        "road" => Use::Road,
        _ => Use::Camp,
    };
    Some(State { name, used, fill, loads, out, people })
}

fn read_load(
    record: &Record,
    items: &[Item],
    surfaces: Option<&Surfaces>,
    problems: &mut Vec<Problem>,
) -> Option<Load> {
    let what: Spanned<String> = record.text(&state::load::WHAT)?.map(str::to_owned);
    let mut record = record.clone();
    record.rename(&format!("load `{}`", what.value));
    record.span = what.span;
    let mass = record.quantity(&state::load::MASS)?;
    let zone = zone_of(&record, items, problems)?;
    let extent = resolve(&record, zone, Body::Load, surfaces?, items, problems);
    Some(Load { span: what.span, what, mass, zone, extent })
}
