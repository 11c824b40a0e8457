//! What the parts of a spec ask of each other: `needs`, `[[either]]`, and the order in which tanks are emptied.

mod clashes;
mod keepers;

use std::collections::BTreeMap;

use pintle_finding::{Label, Problem, Role};
use pintle_source::Span;

use clashes::refuse_never_aboard;
pub(super) use keepers::check_keepers;

use super::items::Fitted;
use super::tags::{Sort, Tags, always_aboard};
use super::{only_one, tables};
use crate::build::{Either, Item, Table};
use crate::node::{Node, NodeValue};
use crate::read::{not_a_table, read, require};
use crate::record::Record;
use crate::say::{full, shown};
use crate::schema::build::{self, either, water};
use crate::schema::item;

/// A part that is needed, and the tag that asks for it.
type Need = (usize, Span);

/// Ties each part to those that it needs, and says what is wrong with its needs.
pub(super) fn read_needs(fitted: &mut Fitted, problems: &mut Vec<Problem>) {
    let mut needs: Vec<Vec<Need>> = Vec::with_capacity(fitted.items.len());
    for (at, item) in fitted.items.iter().enumerate() {
        if full(problems) {
            break;
        }
        let tags = item.record.texts(&item::NEEDS);
        if tags.is_empty() {
            needs.push(Vec::new());
            continue;
        }
        let rides_along = item.table == Table::Load || !always_aboard(at, &fitted.items);
        if let (false, Some(given)) = (rides_along, item.record.value(item::NEEDS.key)) {
            problems.push(
                Problem::new(
                    "wrong-field",
                    format!("`needs` means nothing on {}, which is always aboard", item.called()),
                )
                .at(Label::new(given.span, Role::Subject, "asked for by what is always aboard"))
                .at(Label::new(item.tag.span, Role::Subject, "neither removable nor a load"))
                .help("leave it out, or mark the part `removable = true` if it can be taken out"),
            );
        }
        let what = format!("`needs` of {}", item.called());
        needs.push(Tags { fitted, what: &what }.find_all(tags, Sort::NotAlwaysAboard, problems));
    }
    refuse_loops(&fitted.items, &needs, problems);
    for (item, needs) in fitted.items.iter_mut().zip(needs) {
        item.needs = needs.into_iter().map(|(at, _)| at).collect();
    }
}

/// How far the search for loops of needs has come.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Search {
    /// Not looked at.
    Open,
    /// On the way that is being followed.
    Here,
    /// All that it needs has been looked at.
    Done,
}

fn refuse_loops(items: &[Item], needs: &[Vec<Need>], problems: &mut Vec<Problem>) {
    let mut search = vec![Search::Open; items.len()];
    let mut mark = |at: usize, found: Search| {
        search.get_mut(at).map_or(Search::Done, |held| std::mem::replace(held, found))
    };
    for start in 0..items.len() {
        if mark(start, Search::Here) != Search::Open {
            mark(start, Search::Done);
            continue;
        }
        // Each part on the way, with how many of its needs have been followed.
        let mut way: Vec<(usize, usize)> = vec![(start, 0)];
        while let Some((at, followed)) = way.last_mut() {
            let Some((needed, _)) = needs.get(*at).and_then(|needs| needs.get(*followed)) else {
                mark(*at, Search::Done);
                way.pop();
                continue;
            };
            *followed += 1;
            match mark(*needed, Search::Here) {
                Search::Open => way.push((*needed, 0)),
                Search::Done => {
                    mark(*needed, Search::Done);
                }
                Search::Here => {
                    for (member, followed) in way.iter().skip_while(|(member, _)| member != needed) {
                        if full(problems) {
                            return;
                        }
                        let asked = needs.get(*member).and_then(|needs| needs.get(followed.checked_sub(1)?));
                        if let (Some(item), Some((_, span))) = (items.get(*member), asked) {
                            problems.push(needs_itself(item, *span));
                        }
                    }
                }
            }
        }
    }
}

fn needs_itself(item: &Item, span: Span) -> Problem {
    Problem::new("needs-loop", format!("{} needs, in the end, itself", item.called()))
        .at(Label::new(span, Role::Subject, "part of a loop of needs"))
        .help("leave one of them out; what only rides together is one part")
}

/// Reads the groups of which only one may be aboard.
pub(super) fn read_eithers(node: Option<&Node>, fitted: &Fitted, problems: &mut Vec<Problem>) -> Vec<Either> {
    let Some(node) = node else { return Vec::new() };
    let mut names = BTreeMap::new();
    let mut grouped = BTreeMap::new();
    let mut eithers = Vec::new();
    for node in tables(build::EITHERS.key, node, problems) {
        if full(problems) {
            break;
        }
        eithers.extend(read_either(node, fitted, &mut names, &mut grouped, problems));
    }
    refuse_never_aboard(&fitted.items, &eithers, problems);
    eithers
}

fn read_either(
    node: &Node,
    fitted: &Fitted,
    names: &mut BTreeMap<String, Span>,
    grouped: &mut BTreeMap<usize, Span>,
    problems: &mut Vec<Problem>,
) -> Option<Either> {
    if !matches!(node.value, NodeValue::Table(_)) {
        problems.push(not_a_table(node, "an either-or group"));
        return None;
    }
    let given = node.child(either::NAME.key).and_then(Node::text).filter(|name| !name.trim().is_empty());
    let what = given
        .map_or_else(|| "an either-or group".to_owned(), |name| format!("either-or group `{}`", shown(name)));
    let mut record = read(node, &either::SCHEMA, &what, problems);
    let name = record.text(&either::NAME).map(|name| name.map(str::to_owned));
    if let Some(name) = &name {
        record.span = name.span;
        only_one(name, "group name", names, problems);
    }
    require(&record, &either::SCHEMA, problems);
    let tags = record.texts(&either::OF);
    if let Some(Node { span, value: NodeValue::Array(members) }) = node.child(either::OF.key)
        && members.len() < 2
    {
        problems.push(
            Problem::new("too-few", format!("`of` of {what} names fewer than two parts or loads"))
                .at(Label::new(*span, Role::Subject, "nothing to choose from"))
                .help("name all of which only one may be aboard, or leave the group out"),
        );
    }
    let mut of = Vec::new();
    for (at, span) in (Tags { fitted, what: &what }).find_all(tags, Sort::Choice, problems) {
        if let Some(first) = grouped.get(&at) {
            problems.push(in_two_groups(fitted.items.get(at), span, *first));
        } else {
            grouped.insert(at, span);
            of.push(at);
        }
    }
    let may_all_stay = record.flag(&either::NONE).is_none_or(|none| none.value);
    Some(Either { name: name?, of, none: may_all_stay })
}

fn in_two_groups(item: Option<&Item>, span: Span, first: Span) -> Problem {
    let called = item.map_or_else(|| "a part".to_owned(), Item::called);
    Problem::new("named-twice", format!("{called} is in two either-or groups"))
        .at(Label::new(span, Role::Subject, "named again here"))
        .at(Label::new(first, Role::Subject, "named here"))
        .help("put all of which only one may be aboard in one group")
}

/// The tanks in the order in which they are emptied.
pub(super) fn read_use_order(
    water: Option<&Record>,
    fitted: &Fitted,
    problems: &mut Vec<Problem>,
) -> Vec<usize> {
    let Some(water) = water else { return Vec::new() };
    let tanks = Tags { fitted, what: "`use_order` of `water`" }.find_all(
        water.texts(&water::USE_ORDER),
        Sort::Tank,
        problems,
    );
    tanks.into_iter().map(|(at, _)| at).collect()
}
