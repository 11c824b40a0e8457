//! What a rule itself declares as a way to put its fault right: values of one field, other parts of the stock list, or
//! a move of what it judges.

use pintle_calc::space::room::{self, Along};
use pintle_finding::{Change, Cost, Reading, Written};
use pintle_quantity::{Dimension, Quantity, Units};
use pintle_spec::node::{Node, NodeValue};
use pintle_spec::read::list;
use pintle_spec::schema::item;
use pintle_spec::schema::kinds::tank;
use pintle_spec::{Build, Item, Record, Stock, Table, Value, Zone, patch};

use super::aim::{Depth, target};
use super::group::Group;
use super::levers::{Draft, Lever, arranged, axle, note, shift_lever, towards, unplaced};
use super::search::Candidate;
use super::world::World;
use crate::rule_file::{Mend, Move};
use crate::rulebook::Rulebook;

/// Fields of a fitted part that belong to its place and not to the part.
const OF_THE_PLACE: &[&str] =
    &["tag", "part", "kind", "zone", "at", "removable", "needs", "note", "used", "upright"];
/// Of one kind, so many parts of a build are exchanged, and so many moved toward the axle.
const MOST_EXCHANGED: usize = 4;
/// What a cubic metre of water weighs, in kilograms, to tell which tank is heavier.
const WATER: f64 = 1000.0;

/// What a fault's rule declares, ready to be tried.
pub(super) fn candidates<'w>(
    rulebook: &Rulebook,
    stock: &Stock,
    world: &'w World,
    finding: &Reading,
    depth: Depth,
    notes: &mut Vec<String>,
) -> Vec<Candidate<'w>> {
    let Some(bound) = rulebook.rule(&finding.rule.id) else { return Vec::new() };
    let mut all = Vec::new();
    for mend in &bound.file.mends {
        match mend {
            Mend::Field { field, to, words } => {
                all.extend(field_row(world, finding, &field.value, to, words).map(Candidate::Row));
            }
            Mend::Exchange { kind, by } => {
                let rows = exchange_rows(stock, world, finding, kind, by, notes);
                all.extend(rows.into_iter().map(Candidate::Row));
            }
            Mend::Move(Move::Judged(along)) => {
                all.extend(moves(world, finding, depth, *along, notes).into_iter().map(Candidate::Lever));
            }
            Mend::Move(Move::TowardAxle) => {
                all.extend(toward_axle(world, notes).into_iter().map(Candidate::Lever));
                all.extend(arranged::fixed(&world.build).into_iter().map(Candidate::Lever));
            }
            Mend::Move(Move::Axle) => {
                let lacking = target(finding, depth).zip(finding.value);
                let shift = lacking.map(|(target, value)| target - value.si());
                let lever = shift.and_then(|shift| axle::lever_for(&world.build, &world.root, shift));
                all.extend(lever.map(Candidate::Lever));
            }
        }
    }
    all
}

/// The part that was judged; none where that was no part.
fn subject<'b>(build: &'b Build, finding: &Reading) -> Option<(usize, &'b Item)> {
    build.items.iter().enumerate().find(|(_, item)| Some(item.tag.span) == finding.subject.span)
}

/// Values of one field, in the order declared; what stands there already is left out.
fn field_row(world: &World, finding: &Reading, field: &str, to: &[Node], words: &str) -> Option<Vec<Draft>> {
    let steps: Vec<String> = match field.strip_prefix("{subject}.") {
        Some(rest) => {
            let (_, item) = subject(&world.build, finding)?;
            let of_subject = [item.table.key().to_owned(), item.tag.value.clone()];
            of_subject.into_iter().chain(rest.split('.').map(str::to_owned)).collect()
        }
        None => field.split('.').map(str::to_owned).collect(),
    };
    let present = stated(&world.build, &steps);
    let drafts = to.iter().filter_map(|value| {
        let written = as_written(value)?;
        let changed = change(present.as_ref(), &written)?;
        let shown = match &written {
            Written::Text(text) => text.clone(),
            other => other.toml(),
        };
        Some(Draft {
            words: words.replace("{to}", &shown),
            changes: vec![Change { at: steps.clone(), to: Some(written) }],
            cost: Cost { moved: 0.0, changed },
        })
    });
    Some(drafts.collect())
}

/// The value that a field has now, from the spec or from stock.
fn stated(build: &Build, steps: &[String]) -> Option<Value> {
    let (record, rest): (&Record, &[String]) = match steps {
        [first, rest @ ..] if first == "trailer" => (&build.trailer, rest),
        [first, rest @ ..] if first == "tow" => (build.tow.as_ref()?, rest),
        [table, tag, rest @ ..] => {
            let same = |item: &&Item| item.table.key() == table && item.tag.value == *tag;
            (&build.items.iter().find(same)?.record, rest)
        }
        _ => return None,
    };
    let (last, way) = rest.split_last()?;
    let mut at = record;
    for step in way {
        match &at.value(step)?.value {
            Value::Table(inner) => at = inner,
            _ => return None,
        }
    }
    at.value(last).map(|held| held.value.clone())
}

/// By how much of itself a value changes; one for what is no number or was not given; none where it stays.
fn change(present: Option<&Value>, written: &Written) -> Option<f64> {
    match (present, written) {
        (Some(Value::Quantity(now)), Written::Text(text)) => {
            let then = Quantity::parse(text).ok()?;
            let share = ((then.si() - now.si()) / now.si()).abs();
            (then.equals(*now) != Ok(true)).then_some(if share.is_finite() { share } else { 1.0 })
        }
        (Some(Value::Count(now)), Written::Count(then)) => {
            let now = f64::from(*now);
            let then = f64::from(u32::try_from(*then).ok()?);
            let share = (then - now).abs() / now.max(1.0);
            (share > 0.0).then_some(share)
        }
        (Some(Value::Flag(now)), Written::Flag(then)) => (now != then).then_some(1.0),
        (Some(Value::Word(now)), Written::Text(then)) => (now != then).then_some(1.0),
        _ => Some(1.0),
    }
}

fn as_written(node: &Node) -> Option<Written> {
    Some(match &node.value {
        NodeValue::Text { text, .. } => Written::Text(text.clone()),
        NodeValue::Integer(count) => Written::Count((*count)?),
        NodeValue::Flag(flag) => Written::Flag(*flag),
        NodeValue::Array(list) => Written::List(list.iter().map(as_written).collect::<Option<_>>()?),
        NodeValue::Table(entries) => {
            let entry =
                |entry: &pintle_spec::node::Entry| Some((entry.key.clone(), as_written(&entry.node)?));
            Written::Table(entries.iter().map(entry).collect::<Option<_>>()?)
        }
        NodeValue::Float | NodeValue::Date(_) => return None,
    })
}

/// Other parts of a kind, for what is judged or, where that is of another kind, for each such part of the build: a row
/// each, the nearest first.
fn exchange_rows(
    stock: &Stock,
    world: &World,
    finding: &Reading,
    kind: &str,
    by: &str,
    notes: &mut Vec<String>,
) -> Vec<Vec<Draft>> {
    let judged = subject(&world.build, finding).filter(|(_, item)| item.kind == kind);
    let fitted: Vec<&Item> = match judged {
        Some((_, item)) => vec![item],
        None => world.build.of_kind(kind).map(|(_, item)| item).collect(),
    };
    if fitted.len() > MOST_EXCHANGED {
        note(
            notes,
            format!("of {} parts of the kind {kind} only {MOST_EXCHANGED} were exchanged", fitted.len()),
        );
    }
    let rows = fitted.into_iter().take(MOST_EXCHANGED).filter_map(|item| {
        let steps = [item.table.key(), item.tag.value.as_str(), item::PART.key];
        let Some(now) = patch::find_at(&world.root, &steps).and_then(Node::text) else {
            note(
                notes,
                format!(
                    "{} is not from stock, so none of the stock list was tried in its place",
                    item.called()
                ),
            );
            return None;
        };
        let present = number(&item.record, by);
        let restated = restated(&world.root, item);
        let gone = if restated.is_empty() {
            String::new()
        } else {
            format!("; what the spec restates of the old one, {}, goes", list(restated.iter().copied()))
        };
        let mut drafts: Vec<Draft> = stock
            .parts()
            .filter(|part| part.kind == kind && part.name.value != now)
            .filter_map(|part| {
                let (size, shown) = number(&part.record, by)?;
                let changed = present.as_ref().map_or(1.0, |(now, _)| ((size - now) / now).abs());
                let was = present.as_ref().map_or_else(String::new, |(_, was)| format!(", not {was}"));
                Some(Draft {
                    words: format!(
                        "fit `{}` as {} in place of `{now}` (`{by}` {shown}{was}){gone}",
                        part.name.value,
                        item.called()
                    ),
                    changes: std::iter::once(Change::set(&steps, Written::Text(part.name.value.clone())))
                        .chain(
                            restated
                                .iter()
                                .map(|key| Change::remove(&[item.table.key(), &item.tag.value, key])),
                        )
                        .collect(),
                    cost: Cost { moved: 0.0, changed: if changed.is_finite() { changed } else { 1.0 } },
                })
            })
            .collect();
        drafts.sort_by(|one, other| one.cost.compare(&other.cost));
        Some(drafts)
    });
    rows.collect()
}

/// The fields that a spec restates of a part from stock. They were measured on that one, and say nothing of another.
fn restated<'r>(root: &'r Node, item: &Item) -> Vec<&'r str> {
    let table = patch::find_at(root, &[item.table.key(), &item.tag.value]);
    let keys = table.into_iter().flat_map(Node::entries).map(|entry| entry.key.as_str());
    keys.filter(|key| !OF_THE_PLACE.contains(key)).collect()
}

/// The number that a field holds, in SI, and as shown.
fn number(record: &Record, key: &str) -> Option<(f64, String)> {
    match &record.value(key)?.value {
        Value::Quantity(quantity) => Some((quantity.si(), quantity.show(Units::AsWritten))),
        Value::Count(count) => Some((f64::from(*count), count.to_string())),
        _ => None,
    }
}

/// What is judged, and what it stands on, moved either way by what is lacking.
fn moves<'w>(
    world: &'w World,
    finding: &Reading,
    depth: Depth,
    along: Along,
    notes: &mut Vec<String>,
) -> Vec<Lever<'w>> {
    let build = &world.build;
    let lacking = target(finding, depth).zip(finding.value);
    let Some((target, value)) = lacking.filter(|(_, value)| value.dimension() == Dimension::LENGTH) else {
        return Vec::new();
    };
    let by = (target - value.si()).abs();
    let mut levers = Vec::new();
    let mut next = subject(build, finding).map(|(at, _)| at);
    while let Some(at) = next {
        let host = match build.items.get(at).map(|item| item.zone) {
            Some(Zone::Rack(host) | Zone::Locker(host) | Zone::Tent(host)) => Some(host),
            _ => None,
        };
        next = host.filter(|host| *host != at && levers.len() < 8);
        let free = Group::of(build, at).and_then(|group| {
            let Some(group) = group else { return Ok(None) };
            let free = room::shifts(build, &group.items, along)?;
            Ok(Some((group, free)))
        });
        match free {
            Ok(Some((group, free))) => {
                for shift in [by, -by] {
                    let mass = group.mass(build);
                    levers.extend(shift_lever(
                        build,
                        &world.root,
                        &group,
                        along,
                        shift,
                        mass,
                        towards(&free, shift),
                    ));
                }
            }
            Ok(None) => {}
            Err(missing) => note(notes, unplaced(&missing)),
        }
    }
    levers
}

/// Parts that can be left at home, and tanks, moved toward the axle, the heaviest first: there their weight changes the
/// tongue least.
fn toward_axle<'w>(world: &'w World, notes: &mut Vec<String>) -> Vec<Lever<'w>> {
    let build = &world.build;
    let Ok(axle) = &build.surfaces.axle else { return Vec::new() };
    let mut found = Vec::new();
    for (index, item) in build.items.iter().enumerate() {
        if !item.removable && item.table != Table::Tank {
            continue;
        }
        let known = Group::of(build, index).and_then(|group| Ok((group, item.extent.x.cg.clone()?)));
        let (group, centre) = match known {
            Ok((Some(group), centre)) => (group, centre),
            Ok((None, _)) => continue,
            Err(missing) => {
                note(notes, unplaced(&missing));
                continue;
            }
        };
        let shift = axle.metres - centre.metres;
        let water = item.record.quantity(&tank::CAPACITY).map_or(0.0, |capacity| capacity.value.si() * WATER);
        let mass = group.mass(build) + water;
        match room::shifts(build, &group.items, Along::Length) {
            Ok(free) => {
                let mut range = towards(&free, shift);
                range.retain(|(from, _)| *from < shift.abs());
                for (_, to) in &mut range {
                    *to = to.min(shift.abs());
                }
                let lever = shift_lever(build, &world.root, &group, Along::Length, shift, mass, range);
                found.extend(lever.filter(|lever| !lever.first().is_empty()).map(|lever| (mass, lever)));
            }
            Err(missing) => note(notes, unplaced(&missing)),
        }
    }
    found.sort_by(|(one, _), (other, _)| other.total_cmp(one));
    found.into_iter().take(MOST_EXCHANGED).map(|(_, lever)| lever).collect()
}
