//! What racks and roof carry, on the road and when parked.

use std::collections::BTreeMap;

use pintle_quantity::{Dimension, Quantity};
use pintle_spec::schema::build::people;
use pintle_spec::schema::item;
use pintle_spec::schema::kinds::{berth, rack as rack_fields, tank, tent};
use pintle_spec::{Build, Extent, Footing, Item, Known, Missing, Named, Spanned, State, Table, Use, Zone};

use crate::figure::Figure;
use crate::space::{alike, constant, elsewhere, given, part, sum};
use crate::weights::WATER_POUNDS_PER_GALLON;

/// What the roof carries, in kg, racks and all that is on them included.
#[derive(Debug, Clone)]
pub struct RoofLoad {
    /// On the road.
    pub moving: Known<Figure>,
    /// When parked, with people in the tents.
    pub parked: Known<Figure>,
}

/// Whether a part rests on a zone, itself or by the racks and lockers it stands on and in, and if `tents`, by the tent
/// it is in.
pub(super) fn rests_on(build: &Build, index: usize, root: Zone, tents: bool) -> bool {
    build.items.get(index).is_some_and(|body| leads_to(build, body.zone, root, tents))
}

fn leads_to(build: &Build, mut zone: Zone, root: Zone, tents: bool) -> bool {
    // The loader refuses loops of zones; this bound would end one.
    for _ in 0..=build.items.len() {
        if zone == root {
            return true;
        }
        let host = match zone {
            Zone::Rack(host) | Zone::Locker(host) => host,
            Zone::Tent(host) if tents => host,
            _ => return false,
        };
        let Some(body) = build.items.get(host) else { return false };
        zone = body.zone;
    }
    false
}

/// What a part weighs at most: its mass, of a tent with its bedding, of a tank with the water it holds, of a load the most
/// of it. On the road a tank is no fuller than it says. A vent or a berth may go without a mass: it is then part of what
/// carries it.
fn weight(body: &Item, used: Use) -> Known<Option<Figure>> {
    let own = match given(&body.record, &item::MASS) {
        Err(_) if matches!(body.table, Table::Vent | Table::Berth | Table::Opening) => return Ok(None),
        own => own?,
    };
    if body.kind == "tent" {
        return alike(own.plus(&given(&body.record, &tent::BEDDING)?)).map(Some);
    }
    if body.table == Table::Tank {
        let density = constant(WATER_POUNDS_PER_GALLON, "lb/gal")?;
        let mut water = given(&body.record, &tank::CAPACITY)?.times(&density);
        if let (Use::Road, Some(limits)) = (used, body.record.table(&tank::ON_ROAD)) {
            water = water.times(&given(limits, &tank::on_road::MOST)?);
        }
        return alike(own.plus(&water)).map(Some);
    }
    Ok(Some(own))
}

/// The either-or group that each part is in, by index.
fn groups(build: &Build) -> BTreeMap<usize, usize> {
    let groups = build.eithers.iter().enumerate();
    groups.flat_map(|(group, either)| either.of.iter().map(move |at| (*at, group))).collect()
}

/// Something that rests on a zone, with its weight.
#[derive(Debug, Clone)]
pub(super) struct Laid<'b> {
    pub(super) mass: Figure,
    /// Where it reaches. Of people in a tent, where the closed tent does.
    pub(super) extent: &'b Extent,
}

fn total<'l, 'b: 'l>(laid: impl IntoIterator<Item = &'l Laid<'b>>) -> Known<Figure> {
    sum(Dimension::MASS, laid.into_iter().map(|laid| laid.mass.clone()))
}

/// The first of the heaviest.
fn heaviest<'b>(choices: Vec<Vec<Laid<'b>>>) -> Known<Vec<Laid<'b>>> {
    let mut best: Option<(f64, Vec<Laid<'b>>)> = None;
    for choice in choices {
        let weight = total(&choice)?.quantity.si();
        if best.as_ref().is_none_or(|(most, _)| weight > *most) {
            best = Some((weight, choice));
        }
    }
    Ok(best.map(|(_, choice)| choice).unwrap_or_default())
}

/// The parts that rest on a zone, tanks as full as they may be; on the road also the most of each load that may
/// ride there. Of an either-or group only the heaviest member that rests there, with all that rests on it in turn.
fn parts_on<'b>(
    build: &'b Build,
    groups: &BTreeMap<usize, usize>,
    root: Zone,
    used: Use,
) -> Known<Vec<Laid<'b>>> {
    let counted = |body: &Item| used == Use::Road || body.table != Table::Load;
    let mut all = Vec::new();
    let mut choices: BTreeMap<usize, Vec<Vec<Laid<'b>>>> = BTreeMap::new();
    for (at, body) in build.items.iter().enumerate() {
        if !counted(body) || !rests_on(build, at, root, true) {
            continue;
        }
        let own = |mass| Laid { mass, extent: &body.extent };
        match (groups.get(&at), below_choice(build, groups, at, root)) {
            // It comes and goes with what it rests on, and is reckoned there.
            (_, true) => {}
            (Some(group), false) => {
                let on_it = match surface_of(at, body) {
                    Some(zone) => parts_on(build, groups, zone, used)?,
                    None => Vec::new(),
                };
                let with_all = weight(body, used)?.map(own).into_iter().chain(on_it).collect();
                choices.entry(*group).or_default().push(with_all);
            }
            (None, false) => all.extend(weight(body, used)?.map(own)),
        }
    }
    for choice in choices.into_values() {
        all.extend(heaviest(choice)?);
    }
    Ok(all)
}

/// The zone that a part is to what rests on or in it.
fn surface_of(at: usize, body: &Item) -> Option<Zone> {
    match (body.kind, body.table) {
        ("rack", _) => Some(Zone::Rack(at)),
        ("tent", _) => Some(Zone::Tent(at)),
        (_, Table::Locker) => Some(Zone::Locker(at)),
        _ => None,
    }
}

/// Whether a part rests on a zone by way of a member of an either-or group.
fn below_choice(build: &Build, groups: &BTreeMap<usize, usize>, index: usize, root: Zone) -> bool {
    let mut next = index;
    // The loader refuses loops of zones; this bound would end one.
    for _ in 0..=build.items.len() {
        let zone = build.items.get(next).map(|body| body.zone).filter(|zone| *zone != root);
        let Some(Zone::Rack(host) | Zone::Locker(host) | Zone::Tent(host)) = zone else { return false };
        next = host;
        if groups.contains_key(&next) {
            return true;
        }
    }
    false
}

/// The heaviest of the states of one use, by the loads on a zone in each; nothing where no state of that use has any.
fn most_loads_on<'b>(
    build: &'b Build,
    used: Use,
    loads_on: impl Fn(&'b State) -> Vec<Laid<'b>>,
) -> Known<Vec<Laid<'b>>> {
    heaviest(build.states.iter().filter(|state| state.used == used).map(loads_on).collect())
}

fn load_mass(owner: &str, value: Spanned<Quantity>, footing: Footing) -> Figure {
    Figure::given(Named { key: "mass", owner: owner.into(), value, footing })
}

/// The loads of a state's own on a zone.
fn own_loads_on<'b>(build: &'b Build, state: &'b State, root: Zone) -> Vec<Laid<'b>> {
    let on_it = state.loads.iter().filter(|load| leads_to(build, load.zone, root, true));
    let laid = |load: &'b pintle_spec::Load| Laid {
        mass: load_mass(&format!("load `{}`", load.what.value), load.mass, load.footing),
        extent: &load.extent,
    };
    on_it.map(laid).collect()
}

/// What a state carries on a zone of the build's loads.
fn carried_on<'b>(build: &'b Build, state: &'b State, root: Zone) -> Vec<Laid<'b>> {
    let on_it = state.carry.iter().filter(|(at, _)| rests_on(build, *at, root, true));
    let laid = on_it.filter_map(|(at, mass)| {
        let item = build.items.get(*at)?;
        let mass = load_mass(&item.called(), *mass, Footing::of(&item.record, &item::MASS));
        Some(Laid { mass, extent: &item.extent })
    });
    laid.collect()
}

/// The people in the tents on a zone: those a berth is for, or more where a camp state puts more in it.
fn people_on(build: &Build, root: Zone) -> Known<Vec<Laid<'_>>> {
    let mut people_there = Vec::new();
    for (at, tent) in build.of_kind("tent").filter(|(at, _)| rests_on(build, *at, root, true)) {
        let mut berths =
            build.of_table(Table::Berth).filter(|(_, berth)| berth.zone == Zone::Tent(at)).peekable();
        if berths.peek().is_none() {
            return Err(Missing::new(
                format!("who sleeps in {}", tent.called()),
                Some(tent.tag.span),
                format!("add a [[berth]] with `zone = \"{}\"` and `people`", tent.tag.value),
            ));
        }
        for (index, body) in berths {
            let meant = body.record.need_count(&berth::PEOPLE)?.value;
            let put_there = |state: &State| {
                let counts =
                    state.people.iter().filter(|(berth, _)| *berth == index).map(|(_, count)| count.value);
                counts.fold(0, u32::saturating_add)
            };
            let camps = build.states.iter().filter(|state| state.used == Use::Camp);
            let most = camps.map(put_there).fold(meant, u32::max);
            if most > 0 {
                let mass = one_person(build)?.scaled(f64::from(most));
                people_there.push(Laid { mass, extent: &tent.extent });
            }
        }
    }
    Ok(people_there)
}

fn one_person(build: &Build) -> Known<Figure> {
    let missing = || Missing::new("the weight of a person", None, "add `[people]` with `mass`");
    given(build.people.as_ref().ok_or_else(missing)?, &people::MASS)
}

pub(super) fn the_rack(build: &Build, rack: usize) -> Known<&Item> {
    let body = part(build, rack)?;
    if body.kind == "rack" { Ok(body) } else { Err(elsewhere(body, "a rack with the tag of")) }
}

/// What a rack carries on the road beyond its own weight, in kg: all fitted parts on it with tanks as full as
/// they may be on the road, bedding in its tents, the most of each load that may ride on it, and the most that any road state puts on it besides. Of an
/// either-or group only the heaviest member counts. `rack` is an index of [`Build::items`].
///
/// # Errors
/// The mass, bedding or capacity that is not given.
pub fn moving_load(build: &Build, rack: usize) -> Known<Figure> {
    the_rack(build, rack)?;
    moving_on(build, Zone::Rack(rack))
}

fn moving_on(build: &Build, root: Zone) -> Known<Figure> {
    total(&laid_moving(build, root)?)
}

/// What rests on a zone on the road, piece by piece: what [`moving_load`] adds up.
pub(super) fn laid_moving(build: &Build, root: Zone) -> Known<Vec<Laid<'_>>> {
    let own = most_loads_on(build, Use::Road, |state| own_loads_on(build, state, root))?;
    let mut all = parts_on(build, &groups(build), root, Use::Road)?;
    all.extend(own);
    Ok(all)
}

/// What a rack carries when parked beyond its own weight, in kg: all fitted parts on it with tanks full, bedding, the
/// most that any camp state carries on it or puts on it besides, and the people its tents' berths are for (or more,
/// where a camp state puts more there) at the mass reckoned for each person.
///
/// # Errors
/// What [`moving_load`] needs of parts, the berths of a tent, their `people`, and `mass` of the people.
pub fn parked_load(build: &Build, rack: usize) -> Known<Figure> {
    the_rack(build, rack)?;
    parked_on(build, Zone::Rack(rack))
}

fn parked_on(build: &Build, root: Zone) -> Known<Figure> {
    total(&laid_parked(build, root)?)
}

/// What rests on a zone when parked, piece by piece: what [`parked_load`] adds up.
pub(super) fn laid_parked(build: &Build, root: Zone) -> Known<Vec<Laid<'_>>> {
    let loads = most_loads_on(build, Use::Camp, |state| {
        let mut loads = own_loads_on(build, state, root);
        loads.extend(carried_on(build, state, root));
        loads
    })?;
    let mut all = parts_on(build, &groups(build), root, Use::Camp)?;
    all.extend(loads);
    all.extend(people_on(build, root)?);
    Ok(all)
}

/// What the roof itself carries: racks on it and all that is on them, and what stands on the skin.
pub fn on_roof(build: &Build) -> RoofLoad {
    RoofLoad { moving: moving_on(build, Zone::Roof), parked: parked_on(build, Zone::Roof) }
}

/// What each foot of a rack carries if they share evenly, in kg: the rack's own mass and its load, moving or parked,
/// over the number of its feet.
///
/// # Errors
/// What the load needs, the rack's mass, and its `feet`.
pub fn load_per_foot(build: &Build, rack: usize, parked: bool) -> Known<Figure> {
    let body = the_rack(build, rack)?;
    let load = if parked { parked_load(build, rack)? } else { moving_load(build, rack)? };
    let feet = body.record.need_count(&rack_fields::FEET)?;
    let whole = alike(given(&body.record, &item::MASS)?.plus(&load))?;
    Ok(whole.scaled(1.0 / f64::from(feet.value)))
}
