//! What is aboard in a state, against what the parts ask: nothing rides on what is left at home, every amount is within
//! its range, and what needs what, or takes the place of what, is kept.

mod within;

use std::collections::BTreeMap;

use pintle_finding::{Label, Problem, Role};
use pintle_quantity::Quantity;
use pintle_source::{Span, Spanned};

use super::amounts::Amounts;
use super::items::Fitted;
use super::tags::is_some;
use super::zones::hosts_below;
use crate::build::{Either, Item, Load, Table, Use, Zone};
use crate::say::{full, shown};
use crate::schema::item;

/// What all states of a spec are held against.
pub(super) struct Rules<'a> {
    fitted: &'a Fitted,
    eithers: &'a [Either],
    use_order: &'a [usize],
    /// Parts that need others.
    asking: Vec<usize>,
    /// Loads of which some always rides, with how much.
    always: Vec<(usize, Spanned<Quantity>)>,
}

/// One state, as far as it could be read.
pub(super) struct Stated<'a> {
    pub(super) what: &'a str,
    /// Its name, or where it begins.
    pub(super) span: Span,
    pub(super) used: Option<Use>,
    pub(super) fill: &'a [(usize, Spanned<Quantity>)],
    pub(super) carry: &'a [(usize, Spanned<Quantity>)],
    /// Whether all of `carry` could be read.
    pub(super) all_carry: bool,
    pub(super) loads: &'a [Load],
    /// Berths with people in them, each with the place where it is named.
    pub(super) people: &'a [(usize, Span, Spanned<u32>)],
    /// Parts that are left at home, each with the tag in `out` that it leaves by.
    pub(super) leaves: &'a BTreeMap<usize, Span>,
    /// Whether all of `out` could be read.
    pub(super) all_out: bool,
}

impl<'a> Rules<'a> {
    pub(super) fn of(fitted: &'a Fitted, eithers: &'a [Either], use_order: &'a [usize]) -> Self {
        let parts = || fitted.items.iter().enumerate();
        let asking = parts().filter(|(_, item)| !item.needs.is_empty()).map(|(at, _)| at).collect();
        let rides = |(at, item): (usize, &Item)| {
            let least = Amounts::of_load(item)?.least;
            // Of two with one tag only the first can be named.
            let named = fitted.hosts.find(&item.tag.value) == Some(at);
            (named && is_some(least.value)).then_some((at, least))
        };
        let always = parts().filter(|(_, item)| item.table == Table::Load).filter_map(rides).collect();
        Self { fitted, eithers, use_order, asking, always }
    }

    fn item(&self, at: usize) -> Option<&Item> {
        self.fitted.items.get(at)
    }

    /// Says what cannot be in a state.
    pub(super) fn check(&self, state: &Stated<'_>, problems: &mut Vec<Problem>) {
        self.refuse_on_what_is_out(state, problems);
        self.check_carry(state, problems);
        self.check_needs(state, problems);
        if state.used == Some(Use::Road) {
            self.check_eithers(state, problems);
            self.check_fill(state, problems);
            self.check_use_order(state, problems);
        }
    }

    /// The part that something stands on or in and that is left at home, with the tag it leaves by.
    fn host_out(&self, zone: Zone, state: &Stated<'_>) -> Option<(&Item, Span)> {
        let mut hosts = hosts_below(zone, &self.fitted.items);
        hosts.find_map(|host| Some((self.item(host)?, *state.leaves.get(&host)?)))
    }

    /// Loads, people and water stay behind with what they are on or in; a state that has them aboard all the same says
    /// two things at once.
    fn refuse_on_what_is_out(&self, state: &Stated<'_>, problems: &mut Vec<Problem>) {
        let what = state.what;
        let mut refuse = |message: String, place: Span, label: &str, out: Span, help: &str| {
            if !full(problems) {
                problems.push(
                    Problem::new("left-at-home", message)
                        .at(Label::new(place, Role::Subject, label.to_owned()))
                        .at(Label::new(out, Role::Subject, "left at home"))
                        .help(help.to_owned()),
                );
            }
        };
        let standing = "take it out of the state, or place it on what is aboard";
        for (at, mass) in state.carry.iter().filter(|(_, mass)| is_some(mass.value)) {
            let Some(load) = self.item(*at) else { continue };
            if let Some((host, out)) = self.host_out(load.zone, state) {
                let message = format!(
                    "{} of {what} cannot be aboard: {}, which carries it, is left at home",
                    load.called(),
                    host.called()
                );
                refuse(
                    message,
                    mass.span,
                    "aboard",
                    out,
                    "take it out of `carry`, or take along what carries it",
                );
            }
        }
        for load in state.loads {
            if let Some((host, out)) = self.host_out(load.zone, state) {
                let message = format!(
                    "load `{}` of {what} cannot be aboard: {}, which carries it, is left at home",
                    shown(&load.what.value),
                    host.called()
                );
                refuse(message, load.span, "aboard", out, standing);
            }
        }
        for (at, named, _) in state.people.iter().filter(|(.., count)| count.value > 0) {
            if let (Some(berth), Some(out)) = (self.item(*at), state.leaves.get(at)) {
                let message = format!("nobody can be in {} of {what}, which is left at home", berth.called());
                refuse(
                    message,
                    *named,
                    "people in it",
                    *out,
                    "take the people out of the state, or take the berth along",
                );
            }
        }
        for (at, share) in state.fill.iter().filter(|(_, share)| is_some(share.value)) {
            if let (Some(tank), Some(out)) = (self.item(*at), state.leaves.get(at)) {
                let message = format!("{} of {what} cannot be filled: it is left at home", tank.called());
                refuse(
                    message,
                    share.span,
                    "water in it",
                    *out,
                    "take the tank out of `fill`, or take it along",
                );
            }
        }
    }

    /// Whether a part is aboard; nothing where that could not be read.
    fn aboard(&self, at: usize, state: &Stated<'_>) -> Option<bool> {
        if self.item(at)?.table != Table::Load {
            let out = state.leaves.contains_key(&at);
            return (out || state.all_out).then_some(!out);
        }
        match state.carry.iter().find(|(carried, _)| *carried == at) {
            Some((_, mass)) => Some(is_some(mass.value)),
            None => state.all_carry.then_some(false),
        }
    }

    fn check_needs(&self, state: &Stated<'_>, problems: &mut Vec<Problem>) {
        for at in self.asking.iter().filter(|at| self.aboard(**at, state) == Some(true)) {
            let Some(asking) = self.item(*at) else { continue };
            for needed in asking.needs.iter().filter(|needed| self.aboard(**needed, state) == Some(false)) {
                if full(problems) {
                    return;
                }
                let Some(missed) = self.item(*needed) else { continue };
                let (place, label) = match state.leaves.get(needed) {
                    Some(out) => (*out, "left at home"),
                    None => (state.span, "not carried here"),
                };
                let needs = asking.record.value(item::NEEDS.key).map_or(asking.tag.span, |needs| needs.span);
                problems.push(
                    Problem::new(
                        "left-at-home",
                        format!(
                            "{} has {} aboard without {}, which it needs",
                            state.what,
                            asking.called(),
                            missed.called()
                        ),
                    )
                    .at(Label::new(place, Role::Subject, label))
                    .at(Label::new(needs, Role::Subject, "needed here"))
                    .help(format!(
                        "take `{}` along, or leave `{}` at home as well",
                        shown(&missed.tag.value),
                        shown(&asking.tag.value)
                    )),
                );
            }
        }
    }

    fn check_eithers(&self, state: &Stated<'_>, problems: &mut Vec<Problem>) {
        for group in self.eithers {
            if full(problems) {
                return;
            }
            let name = shown(&group.name.value);
            let known: Vec<Option<bool>> = group.of.iter().map(|at| self.aboard(*at, state)).collect();
            let mut aboard =
                group.of.iter().zip(&known).filter(|(_, aboard)| **aboard == Some(true)).map(|(at, _)| *at);
            let tag = |at: usize| self.item(at).map_or_else(String::new, |item| shown(&item.tag.value));
            let (message, help) = match (aboard.next(), aboard.next()) {
                (Some(one), Some(other)) => (
                    format!(
                        "{} has `{}` and `{}` aboard, and `{name}` takes only one of them",
                        state.what,
                        tag(one),
                        tag(other)
                    ),
                    "leave all but one of the group at home",
                ),
                (None, _) if !group.none && group.of.len() > 1 && known.iter().all(Option::is_some) => (
                    format!("{} has nothing of `{name}` aboard, and one of that group must be", state.what),
                    "take one of the group along, or give it `none = true`",
                ),
                _ => continue,
            };
            problems.push(
                Problem::new("either-or", message)
                    .at(Label::new(state.span, Role::Subject, "in this state"))
                    .at(Label::new(group.name.span, Role::Subject, "the group"))
                    .help(help),
            );
        }
    }
}
