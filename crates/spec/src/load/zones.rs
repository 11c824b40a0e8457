//! What each part stands on or in, and so where it is.

use std::collections::BTreeMap;
use std::iter::successors;

use pintle_finding::{Label, Problem, Role};
use pintle_source::Spanned;

use super::items::UNREAD;
use crate::build::{Item, Table, Zone};
use crate::place::{Body, has_place, resolve};
use crate::read::list;
use crate::record::Record;
use crate::say::{PAST_HELP, a, full, near, past_help, shown};
use crate::schema::{item, kinds};
use crate::surfaces::Surfaces;

/// Words for zones that are not another part.
pub(super) const RESERVED: &[(&str, Zone)] = &[
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

/// The most parts that may stand on one another, as a lamp on a tent on a rack.
const HIGHEST_STACK: usize = 8;

/// The parts of a spec by tag. Indices count the parts.
pub(super) struct Hosts {
    by_tag: BTreeMap<String, usize>,
    racks: Vec<usize>,
    /// Whether the kind of any part could not be read: it may be the rack that a zone asks for.
    unread: bool,
}

impl Hosts {
    /// Notes the tags; of a tag used twice, the first.
    pub(super) fn of(items: &[Item]) -> Self {
        let mut hosts = Self { by_tag: BTreeMap::new(), racks: Vec::new(), unread: false };
        for (at, item) in items.iter().enumerate() {
            if !item.tag.value.is_empty() {
                hosts.by_tag.entry(item.tag.value.clone()).or_insert(at);
            }
            if item.kind == "rack" {
                hosts.racks.push(at);
            }
            hosts.unread |= item.kind == UNREAD;
        }
        hosts
    }

    /// The part with a tag.
    pub(super) fn find(&self, tag: &str) -> Option<usize> {
        self.by_tag.get(tag).copied()
    }
}

/// The zone of a part as an index of the part that makes it.
fn zone_at(at: usize, host: &Item) -> Option<Zone> {
    match host {
        Item { kind: "rack", .. } => Some(Zone::Rack(at)),
        Item { table: Table::Locker, .. } => Some(Zone::Locker(at)),
        Item { kind: "tent", .. } => Some(Zone::Tent(at)),
        _ => None,
    }
}

/// The part that a zone is on or in.
pub(super) fn host_of(zone: Zone) -> Option<usize> {
    match zone {
        Zone::Rack(host) | Zone::Locker(host) | Zone::Tent(host) => Some(host),
        _ => None,
    }
}

/// What a zone is on or in, what that stands on or in, and so on.
pub(super) fn hosts_below(zone: Zone, items: &[Item]) -> impl Iterator<Item = usize> {
    // A part stands on no more others than the stack is high; in a loop there would be no end.
    successors(host_of(zone), |host| host_of(items.get(*host)?.zone)).take(HIGHEST_STACK)
}

/// The zone that a record names; inside when it names none; nothing when what it names is not known.
pub(super) fn zone_of(
    record: &Record,
    items: &[Item],
    hosts: &Hosts,
    problems: &mut Vec<Problem>,
) -> Option<Zone> {
    if record.is_refused(item::ZONE.key) && record.text(&item::ZONE).is_none() {
        return None;
    }
    let Some(zone) = record.text(&item::ZONE) else { return Some(Zone::Inside) };
    if let Some((_, found)) = RESERVED.iter().find(|(name, _)| *name == zone.value) {
        return Some(*found);
    }
    let named = hosts.find(zone.value).and_then(|at| Some((at, items.get(at)?)));
    if let Some(found) = named.and_then(|(at, host)| zone_at(at, host)) {
        return Some(found);
    }
    if let ("rack", [only]) = (zone.value, hosts.racks.as_slice()) {
        return Some(Zone::Rack(*only));
    }
    if named.is_some_and(|(_, host)| host.kind == UNREAD) || (zone.value == "rack" && hosts.unread) {
        return None;
    }
    problems.push(match named {
        Some((_, host)) => no_host(record, zone, host),
        None => no_zone(zone, items, hosts, problems.len()),
    });
    None
}

fn no_host(record: &Record, zone: Spanned<&str>, host: &Item) -> Problem {
    Problem::new("unknown-zone", format!("{} cannot be in or on {}", record.what, host.called()))
        .at(Label::new(zone.span, Role::Subject, format!("this is {}", a(host.kind))))
        .help("a zone is a rack, a tent or a locker by its tag, or a part of the trailer")
}

fn no_zone(zone: Spanned<&str>, items: &[Item], hosts: &Hosts, said: usize) -> Problem {
    let can_host = |item: &&Item| zone_at(0, item).is_some();
    let tags = items.iter().filter(can_host).map(|item| item.tag.value.as_str());
    let known = || RESERVED.iter().map(|(name, _)| *name).chain(tags.clone());
    let help = match (zone.value, hosts.racks.len()) {
        ("rack", 0) => "this build has no rack; fit one with a part of kind `rack`".to_owned(),
        _ if past_help(said) => PAST_HELP.to_owned(),
        ("rack", _) => "there are several racks: name one by its tag".to_owned(),
        _ => near(zone.value, known(), said).map_or_else(
            || format!("the zones are {}", list(known())),
            |near| format!("did you mean `{}`?", shown(near)),
        ),
    };
    Problem::new("unknown-zone", format!("there is no zone `{}`", shown(zone.value)))
        .at(Label::new(zone.span, Role::Subject, "no such zone in this build"))
        .help(help)
}

/// How far the search for what a part stands on has come.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Search {
    /// Not looked at.
    Open,
    /// On the way that is being followed.
    Here,
    /// Found to stand on so many others.
    Stands(usize),
    /// Stands on nothing that is known: a loop, too many others, or a zone that is not known.
    Adrift,
}

/// Places every part, those that others stand on or in first.
pub(super) fn place_all(items: &mut [Item], hosts: &Hosts, surfaces: &Surfaces, problems: &mut Vec<Problem>) {
    let zones: Vec<Option<Zone>> =
        items.iter().map(|item| zone_of(&item.record, items, hosts, problems)).collect();
    for (item, zone) in items.iter_mut().zip(&zones) {
        item.zone = zone.unwrap_or(Zone::Inside);
    }
    for (at, stands) in order(items, &zones, problems) {
        let (Some(item), Some(Some(zone))) = (items.get(at), zones.get(at)) else { continue };
        if full(problems) {
            break;
        }
        let body = match item.table {
            Table::Load => Body::Load,
            Table::Opening => Body::Opening,
            _ => Body::Part,
        };
        let extent = resolve(&item.record, *zone, body, surfaces, items, problems);
        let folded = folded_away(&item.record)
            .map(|folds| resolve(&folds, *zone, Body::Part, surfaces, items, problems));
        refuse_nowhere(item, problems);
        // What is adrift is looked at only to check its gaps.
        if let (Some(item), true) = (items.get_mut(at), stands) {
            item.extent = extent;
            item.folded = folded;
        }
    }
}

/// A part's `folds`, with the sizes that do not change.
fn folded_away(record: &Record) -> Option<Record> {
    // Every kind that folds calls it the same.
    let mut folds = record.table(&kinds::berth::FOLDS)?.clone();
    for size in [&item::LENGTH, &item::WIDTH, &item::HEIGHT] {
        if let (None, Some(held)) = (folds.value(size.key), record.value(size.key)) {
            folds.set(size, held.clone());
        }
    }
    Some(folds)
}

/// All parts, each after the one that it stands on or in, with whether it stands on the trailer in the end.
fn order(items: &[Item], zones: &[Option<Zone>], problems: &mut Vec<Problem>) -> Vec<(usize, bool)> {
    let host = |at: usize| zones.get(at).copied().flatten().and_then(host_of);
    let mut search = vec![Search::Open; items.len()];
    let mut order = Vec::with_capacity(items.len());
    for start in 0..items.len() {
        let mut way = Vec::new();
        let mut at = start;
        // Follow the hosts down to one whose standing is known.
        let ground = loop {
            match search.get(at).copied() {
                Some(Search::Open) => {
                    if let Some(seen) = search.get_mut(at) {
                        *seen = Search::Here;
                    }
                    way.push(at);
                    match host(at) {
                        Some(next) => at = next,
                        None => break None,
                    }
                }
                Some(Search::Here) => {
                    let looped = way.iter().skip_while(|member| **member != at);
                    looped.for_each(|member| problems.extend(items.get(*member).map(zone_loop)));
                    break Some(Search::Adrift);
                }
                found => break found,
            }
        };
        let mut below = ground;
        for at in way.into_iter().rev() {
            let stands = match below {
                None => Search::Stands(0),
                Some(Search::Stands(others)) if others < HIGHEST_STACK => Search::Stands(others + 1),
                Some(Search::Stands(_)) => {
                    problems.extend(items.get(at).map(too_high));
                    Search::Adrift
                }
                Some(_) => Search::Adrift,
            };
            if let Some(seen) = search.get_mut(at) {
                *seen = stands;
            }
            below = Some(stands);
            order.push((at, stands != Search::Adrift));
        }
    }
    order
}

fn zone_place(item: &Item) -> pintle_source::Span {
    item.record.value(item::ZONE.key).map_or(item.tag.span, |zone| zone.span)
}

fn zone_loop(item: &Item) -> Problem {
    Problem::new("zone-loop", format!("{} stands, in the end, on itself", item.called()))
        .at(Label::new(zone_place(item), Role::Subject, "part of a loop of zones"))
        .help("one of the parts in the loop must stand on the trailer")
}

fn too_high(item: &Item) -> Problem {
    let message = format!("{} stands on more than {HIGHEST_STACK} others, one on another", item.called());
    Problem::new("zone-loop", message)
        .at(Label::new(zone_place(item), Role::Subject, "one too many"))
        .help("place it on the trailer, or on a part that stands on fewer others")
}

/// Things that must have a place to be anywhere at all.
fn refuse_nowhere(item: &Item, problems: &mut Vec<Problem>) {
    let heavy = matches!(item.table, Table::Item | Table::Tank | Table::Locker | Table::Bulkhead);
    let needs_gap = heavy && !matches!(item.zone, Zone::FrontWall | Zone::RearDoor | Zone::Tent(_));
    // A load lies against nothing by itself, wherever it is.
    if (needs_gap || item.table == Table::Load) && !has_place(&item.record) {
        problems.push(
            Problem::new("missing-value", format!("{} has no place", item.called()))
                .at(Label::new(item.tag.span, Role::Missing, "`at` is missing here"))
                .help("give the gaps that a tape measure shows, such as `at = { front = \"30 in\", left = \"0 in\" }`"),
        );
    }
}
