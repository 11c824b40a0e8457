//! Parts that could never be aboard, because two of one either-or group would come with them.

use std::collections::VecDeque;

use pintle_finding::{Label, Problem, Role};

use crate::build::{Either, Item, Table};
use crate::load::tags::always_aboard;
use crate::load::zones::host_of;
use crate::say::{full, shown};
use crate::schema::item;

/// Parts with which two of one group would come aboard: what they need or stand on, and what that does.
pub(super) fn refuse_never_aboard(items: &[Item], eithers: &[Either], problems: &mut Vec<Problem>) {
    if eithers.is_empty() {
        return;
    }
    let mut group = vec![None; items.len()];
    for (at, either) in eithers.iter().enumerate() {
        for member in &either.of {
            if let Some(held) = group.get_mut(*member) {
                *held = Some(at);
            }
        }
    }
    let mut ties = Ties::new(items, group, eithers.len());
    let mut clashes: Vec<Option<Clash>> = Vec::with_capacity(items.len());
    for at in 0..items.len() {
        clashes.push(ties.clash(&[at]));
    }
    let clashes_alone = |at: usize| clashes.get(at).is_some_and(Option::is_some);
    for (item, (at, clash)) in items.iter().zip(clashes.iter().enumerate()) {
        // Where what comes with a part is at fault by itself, that is said of it alone.
        if let Some(clash) = clash
            && !comes_with(item).any(clashes_alone)
            && !full(problems)
        {
            problems.push(never_aboard(item, at, clash, items, eithers));
        }
    }
    let always = |at: &usize| {
        let load = items.get(*at).is_some_and(|item| item.table == Table::Load);
        load && always_aboard(*at, items) && !clashes_alone(*at)
    };
    let always: Vec<usize> = (0..items.len()).filter(always).collect();
    if let (Some(clash), Some(first)) = (ties.clash(&always), always.first().and_then(|at| items.get(*at))) {
        problems.push(always_both(first, &clash, items, eithers));
    }
}

fn never_aboard(item: &Item, at: usize, clash: &Clash, items: &[Item], eithers: &[Either]) -> Problem {
    let tag = |at: usize| items.get(at).map_or_else(String::new, |item| shown(&item.tag.value));
    let group = eithers.get(clash.group);
    let name = group.map_or_else(String::new, |either| shown(&either.name.value));
    let message = if clash.one == at {
        let (item, other) = (item.called(), tag(clash.other));
        format!("{item} can never be aboard: `{other}` comes with it, and `{name}` takes only one of the two")
    } else {
        let (item, one, other) = (item.called(), tag(clash.one), tag(clash.other));
        format!(
            "{item} can never be aboard: `{one}` and `{other}` come with it, and `{name}` takes only one of them"
        )
    };
    let asked = item.record.value(item::NEEDS.key).or_else(|| item.record.value(item::ZONE.key));
    let mut problem = Problem::new("never-aboard", message).at(Label::new(
        asked.map_or(item.tag.span, |value| value.span),
        Role::Subject,
        "what it needs, or stands on or in, comes with it",
    ));
    if let Some(either) = group {
        problem = problem.at(Label::new(either.name.span, Role::Subject, "only one of these"));
    }
    problem.help("take one of the two out of the group, or out of what the part needs")
}

/// What must always ride along can ask for two of one group as well.
fn always_both(first: &Item, clash: &Clash, items: &[Item], eithers: &[Either]) -> Problem {
    let tag = |at: usize| items.get(at).map_or_else(String::new, |item| shown(&item.tag.value));
    let group = eithers.get(clash.group);
    let name = group.map_or_else(String::new, |either| shown(&either.name.value));
    let (one, other) = (tag(clash.one), tag(clash.other));
    let message = format!(
        "with the loads that always ride come `{one}` and `{other}`, and `{name}` takes only one of them"
    );
    let place = group.map_or(first.tag.span, |either| either.name.span);
    Problem::new("never-aboard", message)
        .at(Label::new(place, Role::Subject, "only one of these"))
        .at(Label::new(first.tag.span, Role::Subject, "a load that always rides"))
        .help("let one of the loads stay at home with `least = \"0 lb\"`, or change what it needs")
}

/// Two of one group that would be aboard at once.
struct Clash {
    group: usize,
    one: usize,
    other: usize,
}

/// What comes with a part: what it needs, and what it stands on or in.
fn comes_with(item: &Item) -> impl Iterator<Item = usize> {
    item.needs.iter().copied().chain(host_of(item.zone))
}

/// What comes aboard with what, and which of it is in which group.
struct Ties<'a> {
    items: &'a [Item],
    /// The group that each part is in.
    group: Vec<Option<usize>>,
    /// The search in which each part was last met. There is one for each part: clearing a set would cost more.
    met: Vec<usize>,
    /// The search in which each group was last met, and by which member.
    by: Vec<(usize, usize)>,
    searches: usize,
}

impl<'a> Ties<'a> {
    fn new(items: &'a [Item], group: Vec<Option<usize>>, groups: usize) -> Self {
        Self { items, group, met: vec![0; items.len()], by: vec![(0, 0); groups], searches: 0 }
    }

    /// The first two of one group that come with some parts, themselves included.
    fn clash(&mut self, of: &[usize]) -> Option<Clash> {
        self.searches += 1;
        let search = self.searches;
        let mut open: VecDeque<usize> = VecDeque::new();
        let mut meet = |at: usize, open: &mut VecDeque<usize>| {
            if let Some(met) = self.met.get_mut(at).filter(|met| **met != search) {
                *met = search;
                open.push_back(at);
            }
        };
        for at in of {
            meet(*at, &mut open);
        }
        while let Some(at) = open.pop_front() {
            let group = self.group.get(at).copied().flatten();
            if let Some((group, by)) = group.and_then(|group| Some((group, self.by.get_mut(group)?))) {
                if by.0 == search {
                    return Some(Clash { group, one: by.1, other: at });
                }
                *by = (search, at);
            }
            self.items.get(at).into_iter().flat_map(comes_with).for_each(|with| meet(with, &mut open));
        }
        None
    }
}
