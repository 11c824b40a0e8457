//! `[[state]]`.

use std::collections::{BTreeMap, BTreeSet};
use std::iter::successors;

use pintle_finding::{Label, Problem, Role};
use pintle_quantity::Quantity;
use pintle_source::{Span, Spanned};

use super::items::Fitted;
use super::zones::{HIGHEST_STACK, host_of, zone_of};
use super::{only_one, tables};
use crate::build::{Item, Load, State, Table, Use};
use crate::footing::Footing;
use crate::node::{Node, NodeValue};
use crate::place::{Body, resolve};
use crate::read::{list, not_a_table, read, require};
use crate::record::Record;
use crate::say::{PAST_HELP, full, near, past_help, shown};
use crate::schema::{build, item, state};
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
    let shares: BTreeMap<&str, &Spanned<Quantity>> =
        record.by_name(&state::FILL).iter().map(|(tag, share)| (tag.value.as_str(), share)).collect();
    let mut fill = Vec::new();
    for entry in node.child(state::FILL.key).map_or(&[][..], Node::entries) {
        if full(problems) {
            break;
        }
        let tank = by_tag.find(&entry.key, entry.key_span, Sort::Tank, problems);
        if let (Some(at), Some(share)) = (tank, shares.get(entry.key.as_str())) {
            fill.push((at, **share));
        }
    }
    let mut out = Vec::new();
    let mut seen = BTreeMap::new();
    for tag in record.texts(&state::OUT) {
        if full(problems) {
            break;
        }
        if only_once(tag.as_ref().map(String::as_str), &what, &mut seen, problems) {
            out.extend(by_tag.find(&tag.value, tag.span, Sort::Removable, problems));
        }
    }
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
    Some(State { name, used, fill, carry: Vec::new(), loads, out, people })
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

/// What a tag in a state must name.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Sort {
    Tank,
    Removable,
    Berth,
}

impl Sort {
    fn fits(self, item: &Item) -> bool {
        match self {
            Self::Tank => item.table == Table::Tank,
            Self::Berth => item.table == Table::Berth,
            // Where it could not be read whether a part is removable, that has been said.
            Self::Removable => item.removable || item.record.is_refused(item::REMOVABLE.key),
        }
    }

    fn words(self) -> &'static str {
        match self {
            Self::Tank => "a tank",
            Self::Removable => "removable",
            Self::Berth => "a berth",
        }
    }
}

/// Ties the tags of one state to the parts they name.
struct Tags<'a> {
    fitted: &'a Fitted,
    what: &'a str,
}

impl Tags<'_> {
    fn find(&self, tag: &str, span: Span, sort: Sort, problems: &mut Vec<Problem>) -> Option<usize> {
        let (items, what) = (&self.fitted.items, self.what);
        let found = self.fitted.hosts.find(tag).and_then(|at| Some((at, items.get(at)?)));
        let problem = match found {
            Some((at, item)) if sort.fits(item) => return Some(at),
            Some((_, item)) => {
                let words = sort.words();
                Problem::new("wrong-tag", format!("`{}` in {what} is not {words}", shown(tag)))
                    .at(Label::new(span, Role::Subject, format!("not {words}")))
                    .at(Label::new(item.tag.span, Role::Subject, "the part it names"))
                    .help(match sort {
                        Sort::Removable => {
                            "mark the part `removable = true`, or leave it out of `out`".to_owned()
                        }
                        _ => format!("name {words}"),
                    })
            }
            None => {
                let known =
                    || items.iter().filter(|item| sort.fits(item)).map(|item| item.tag.value.as_str());
                let said = problems.len();
                let help = match near(tag, known(), said) {
                    None if past_help(said) => PAST_HELP.to_owned(),
                    Some(near) => format!("did you mean `{}`?", shown(near)),
                    None if known().all(str::is_empty) => format!("no part with a tag is {}", sort.words()),
                    None => format!("the tags that fit are {}", list(known())),
                };
                Problem::new(
                    "unknown-tag",
                    format!("{what} names `{}`, and no part has that tag", shown(tag)),
                )
                .at(Label::new(span, Role::Subject, "no part has this tag"))
                .help(help)
            }
        };
        problems.push(problem);
        None
    }
}

/// Whether a list of a state names a tag for the first time; says when it does not.
fn only_once<'a>(
    tag: Spanned<&'a str>,
    what: &str,
    seen: &mut BTreeMap<&'a str, Span>,
    problems: &mut Vec<Problem>,
) -> bool {
    if let Some(first) = seen.get(tag.value) {
        problems.push(
            Problem::new("named-twice", format!("{what} names `{}` twice in one list", shown(tag.value)))
                .at(Label::new(tag.span, Role::Subject, "named again here"))
                .at(Label::new(*first, Role::Subject, "named here"))
                .help("name it once"),
        );
        return false;
    }
    seen.insert(tag.value, tag.span);
    true
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
