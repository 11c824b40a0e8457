//! Ties the tags that other tables name to the parts that have them.

use std::collections::BTreeMap;

use pintle_finding::{Label, Problem, Role};
use pintle_quantity::Quantity;
use pintle_source::{Span, Spanned};

use super::items::{Fitted, UNREAD};
use super::zones::hosts_below;
use crate::build::{Item, Table, Zone};
use crate::read::list;
use crate::say::{PAST_HELP, full, near, past_help, shown};
use crate::schema::item;
use crate::schema::kinds::load;

/// What a tag must name.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Sort {
    /// A tank.
    Tank,
    /// A part that the customer can take out.
    Removable,
    /// A berth.
    Berth,
    /// A load of `[[load]]`.
    Load,
    /// Anything that is not always aboard.
    NotAlwaysAboard,
    /// A removable part, or a load that may stay at home.
    Choice,
    /// A battery.
    Battery,
    /// An inverter.
    Inverter,
    /// A charger.
    Charger,
    /// A solar panel.
    Panel,
    /// Any part at all.
    Part,
    /// Anything but a load.
    Fitted,
    /// A gas cylinder.
    Cylinder,
    /// Something that burns fuel.
    Appliance,
    /// An alarm.
    Alarm,
}

impl Sort {
    /// Whether a part is of this sort. Where that could not be read it has been said, and the part is taken as fit.
    fn fits(self, at: usize, items: &[Item]) -> bool {
        let Some(item) = items.get(at) else { return false };
        match self {
            Self::Tank => item.table == Table::Tank,
            Self::Berth => item.table == Table::Berth,
            Self::Load => item.table == Table::Load,
            Self::Removable => is_removable(item),
            Self::Choice => is_removable(item) || may_stay_at_home(item),
            Self::NotAlwaysAboard => !always_aboard(at, items),
            Self::Battery => is_of(item, "battery"),
            Self::Inverter => is_of(item, "inverter"),
            Self::Charger => is_of(item, "charger"),
            Self::Panel => is_of(item, "solar"),
            Self::Part => true,
            Self::Fitted => item.table != Table::Load,
            Self::Cylinder => is_of(item, "cylinder"),
            Self::Appliance => is_of(item, "appliance"),
            Self::Alarm => is_of(item, "alarm"),
        }
    }

    fn words(self) -> &'static str {
        match self {
            Self::Tank => "a tank",
            Self::Removable => "removable",
            Self::Berth => "a berth",
            Self::Load => "a load",
            Self::NotAlwaysAboard => "sometimes left at home",
            Self::Choice => "removable or a load that may stay at home",
            Self::Battery => "a battery",
            Self::Inverter => "an inverter",
            Self::Charger => "a charger",
            Self::Panel => "a solar panel",
            Self::Part => "a part",
            Self::Fitted => "a fitted part",
            Self::Cylinder => "a cylinder",
            Self::Appliance => "an appliance",
            Self::Alarm => "an alarm",
        }
    }

    /// What is said of a part that does not fit.
    fn refusal(self, item: &Item) -> String {
        match (self, item.table == Table::Load) {
            (Self::NotAlwaysAboard | Self::Choice, true) => "always rides along".to_owned(),
            (Self::NotAlwaysAboard, false) => "is always aboard".to_owned(),
            (Self::Choice, false) => format!("is not {}", Self::Removable.words()),
            _ => format!("is not {}", self.words()),
        }
    }

    fn help(self, item: &Item) -> String {
        let told = match (self, item.table == Table::Load) {
            (Self::Removable, true) => {
                "leave it out of `out`; a load that `carry` does not name stays at home"
            }
            (Self::Removable, false) => "mark the part `removable = true`, or leave it out of `out`",
            (Self::NotAlwaysAboard | Self::Choice, true) => {
                "leave it out, or give the load `least = \"0 lb\"` if it may stay at home"
            }
            (Self::NotAlwaysAboard | Self::Choice, false) => {
                "leave it out, or mark the part `removable = true` if it can be taken out"
            }
            _ => return format!("name {}", self.words()),
        };
        told.to_owned()
    }
}

/// Whether a part is of a kind. Of one whose kind could not be read, that has been said.
fn is_of(item: &Item, kind: &str) -> bool {
    item.kind == kind || item.kind == UNREAD
}

/// Whether the customer can take a part out.
pub(super) fn is_removable(item: &Item) -> bool {
    item.removable || item.record.is_refused(item::REMOVABLE.key)
}

/// Whether a part is a load of which nothing need ride along. Of one whose least is not known, that has been said.
pub(super) fn may_stay_at_home(item: &Item) -> bool {
    item.table == Table::Load && item.record.quantity(&load::LEAST).is_none_or(|least| !is_some(least.value))
}

/// Whether a mass or a share is more than nothing.
pub(super) fn is_some(amount: Quantity) -> bool {
    amount.at_most(amount.scaled(0.0)) != Ok(true)
}

/// Whether a part is never left at home, neither by itself nor with what it stands on or in. Of one whose zone is not
/// known, that has been said.
pub(super) fn always_aboard(at: usize, items: &[Item]) -> bool {
    let adrift = |item: &Item| {
        let zone = item.record.text(&item::ZONE);
        let unread = zone.is_none() && item.record.is_refused(item::ZONE.key);
        unread || (item.zone == Zone::Inside && zone.is_some_and(|zone| zone.value != "inside"))
    };
    let stays = |item: &Item| is_removable(item) || may_stay_at_home(item) || adrift(item);
    let Some(item) = items.get(at) else { return false };
    !stays(item) && !hosts_below(item.zone, items).any(|host| items.get(host).is_some_and(stays))
}

/// Ties the tags of one table to the parts they name.
pub(super) struct Tags<'a> {
    pub(super) fitted: &'a Fitted,
    /// What the tags stand in.
    pub(super) what: &'a str,
}

impl Tags<'_> {
    /// The part with a tag; says when there is none, or when it is of another sort.
    pub(super) fn find(
        &self,
        tag: &str,
        span: Span,
        sort: Sort,
        problems: &mut Vec<Problem>,
    ) -> Option<usize> {
        let (items, what) = (&self.fitted.items, self.what);
        let found = self.fitted.hosts.find(tag).and_then(|at| Some((at, items.get(at)?)));
        let problem = match found {
            Some((at, _)) if sort.fits(at, items) => return Some(at),
            Some((_, item)) => {
                let not = sort.refusal(item);
                Problem::new("wrong-tag", format!("`{}` in {what} {not}", shown(tag)))
                    .at(Label::new(span, Role::Subject, not.trim_start_matches("is ").to_owned()))
                    .at(Label::new(item.tag.span, Role::Subject, "the part it names"))
                    .help(sort.help(item))
            }
            None => {
                let known = || {
                    let fit = items.iter().enumerate().filter(|(at, _)| sort.fits(*at, items));
                    fit.map(|(_, item)| item.tag.value.as_str())
                };
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

    /// The parts of a list of tags, each with its place; says of a tag that is named twice.
    pub(super) fn find_all(
        &self,
        tags: &[Spanned<String>],
        sort: Sort,
        problems: &mut Vec<Problem>,
    ) -> Vec<(usize, Span)> {
        let mut seen = BTreeMap::new();
        let mut found = Vec::new();
        for tag in tags {
            if full(problems) {
                break;
            }
            if only_once(tag.as_ref().map(String::as_str), self.what, &mut seen, problems) {
                found.extend(self.find(&tag.value, tag.span, sort, problems).map(|at| (at, tag.span)));
            }
        }
        found
    }
}

/// Whether a list names a tag for the first time; says when it does not.
pub(super) fn only_once<'a>(
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
