//! A build as a plan of what may be aboard: one unit for each part, what it brings along, keeps out and weighs.

use pintle_quantity::Quantity;
use pintle_spec::schema::item;
use pintle_spec::schema::kinds::{load, tank};
use pintle_spec::{Build, Footing, Item, Known, Load, Missing, Spanned, Table, Zone};

use super::sums::{Amount, Sums};
use crate::weights::bodies::{self, Body};

/// What may be aboard, and how one part depends on another.
#[derive(Debug, Clone, Default)]
pub(super) struct Plan {
    /// One for each of [`Build::items`].
    pub(super) units: Vec<Unit>,
    /// Groups of which only one may be aboard.
    pub(super) groups: Vec<Group>,
    /// Tanks that are emptied one after another.
    pub(super) order: Vec<usize>,
}

/// A part or load, aboard or not.
#[derive(Debug, Clone, Default)]
pub(super) struct Unit {
    /// What it adds when aboard.
    pub(super) sums: Sums,
    /// What varies of it when aboard.
    pub(super) amount: Option<Amount>,
    /// Units that are aboard whenever it is.
    pub(super) brings: Vec<usize>,
    /// Units that are not aboard unless it is.
    pub(super) brought_by: Vec<usize>,
    /// Whether it is aboard whenever all that it brings is.
    pub(super) follows: bool,
    /// Units that follow it, perhaps with others.
    pub(super) followers: Vec<usize>,
    /// Groups that it is in.
    pub(super) groups: Vec<usize>,
    /// Whether it is one of the tanks in [`Plan::order`].
    pub(super) in_order: bool,
    /// Whether it can never be left at home.
    pub(super) always: bool,
    /// What is not known of it.
    pub(super) unknown: Unknown,
}

/// Units of which at most one is aboard.
#[derive(Debug, Clone)]
pub(super) struct Group {
    /// Its units.
    pub(super) of: Vec<usize>,
    /// Whether all may be at home.
    pub(super) none: bool,
}

/// What is not known of a unit.
#[derive(Debug, Clone, Default)]
pub(super) struct Unknown {
    /// Masses, and amounts that may ride along.
    pub(super) masses: Vec<Missing>,
    /// Places behind the ball.
    pub(super) x: Vec<Missing>,
    /// Places right of the centreline.
    pub(super) y: Vec<Missing>,
    /// Heights.
    pub(super) z: Vec<Missing>,
}

/// The part that another stands on or in.
pub(super) fn host_of(zone: Zone) -> Option<usize> {
    match zone {
        Zone::Rack(host) | Zone::Locker(host) | Zone::Tent(host) => Some(host),
        _ => None,
    }
}

impl Plan {
    /// The plan of a build.
    pub(super) fn of(build: &Build) -> Self {
        let groups: Vec<Group> = build
            .eithers
            .iter()
            .map(|either| {
                let mut of: Vec<usize> =
                    either.of.iter().copied().filter(|at| *at < build.items.len()).collect();
                of.sort_unstable();
                of.dedup();
                Group { of, none: either.none }
            })
            .collect();
        let among = |members: &mut dyn Iterator<Item = usize>| {
            let mut among = vec![false; build.items.len()];
            members.for_each(|at| among.get_mut(at).into_iter().for_each(|among| *among = true));
            among
        };
        let chosen = among(&mut groups.iter().flat_map(|group| group.of.iter().copied()));
        let needed = among(&mut build.items.iter().flat_map(|item| item.needs.iter().copied()));
        let is = |among: &[bool], at: usize| among.get(at).copied().unwrap_or_default();
        let mut plan = Self { units: build.items.iter().map(unit).collect(), groups, order: Vec::new() };
        for (at, item) in build.items.iter().enumerate() {
            let host = host_of(item.zone);
            let wanted = host.into_iter().chain(item.needs.iter().copied());
            let mut wanted: Vec<usize> = wanted.filter(|to| *to != at && *to < build.items.len()).collect();
            wanted.sort_unstable();
            wanted.dedup();
            let unit_at = |plan: &mut Self, at: usize, change: &dyn Fn(&mut Unit)| {
                plan.units.get_mut(at).into_iter().for_each(change);
            };
            let may_stay = match item.table {
                Table::Load => plan.units.get(at).is_some_and(Unit::may_be_nothing),
                _ => item.removable,
            };
            if !may_stay {
                // Aboard whenever that is on which it stands.
                match host.filter(|host| *host < build.items.len()) {
                    Some(host) => plan.link(host, at),
                    None => unit_at(&mut plan, at, &|unit| unit.always = true),
                }
            } else if item.table == Table::Load && !is(&chosen, at) && !is(&needed, at) {
                // At home or aboard with none of it is the same to all others.
                unit_at(&mut plan, at, &|unit| {
                    unit.follows = true;
                    unit.always = wanted.is_empty();
                });
            }
            for to in wanted {
                plan.link(at, to);
            }
        }
        plan.join();
        for at in &build.use_order {
            if let Some(unit) = plan.units.get_mut(*at).filter(|unit| unit.amount.is_some() && !unit.in_order)
            {
                unit.in_order = true;
                plan.order.push(*at);
            }
        }
        plan
    }

    /// Notes that one unit brings another.
    pub(super) fn link(&mut self, from: usize, to: usize) {
        if let Some(unit) = self.units.get_mut(from).filter(|unit| !unit.brings.contains(&to)) {
            unit.brings.push(to);
            if let Some(unit) = self.units.get_mut(to) {
                unit.brought_by.push(from);
            }
        }
    }

    /// Notes with each unit its followers and groups.
    pub(super) fn join(&mut self) {
        for at in 0..self.units.len() {
            let followed = self.units.get(at).filter(|unit| unit.follows).map(|unit| unit.brings.clone());
            for to in followed.into_iter().flatten() {
                self.units.get_mut(to).into_iter().for_each(|unit| unit.followers.push(at));
            }
        }
        for (at, group) in self.groups.iter().enumerate() {
            for member in &group.of {
                self.units.get_mut(*member).into_iter().for_each(|unit| unit.groups.push(at));
            }
        }
    }
}

impl Unit {
    /// The size of the terms that an aim may make of it, by which rounding goes.
    pub(super) fn size(&self, of: Sums) -> f64 {
        let ends = self.amount.map(|amount| [amount.from, amount.to].map(|end| amount.sums(end).size(of)));
        self.sums.size(of) + ends.map_or(0.0, |[from, to]| from.max(to))
    }

    fn may_be_nothing(&self) -> bool {
        self.amount.is_none_or(|amount| amount.from <= 0.0)
    }

    /// Adds what a body weighs and where.
    pub(super) fn add(&mut self, body: &Body) {
        let mass = body.kilograms;
        let mut at = |place: &Known<pintle_spec::Coordinate>,
                      unknown: fn(&mut Unknown) -> &mut Vec<Missing>| {
            match place {
                Ok(place) => place.metres,
                Err(missing) => {
                    if mass > 0.0 {
                        unknown(&mut self.unknown).push(missing.clone());
                    }
                    0.0
                }
            }
        };
        let (x, y) = (at(&body.x, |unknown| &mut unknown.x), at(&body.y, |unknown| &mut unknown.y));
        let z = at(&body.z, |unknown| &mut unknown.z);
        let fitted = if body.kind.is_fitted() { mass } else { 0.0 };
        self.sums = self.sums.plus(Sums { mass, x: mass * x, y: mass * y, z: mass * z, fitted });
    }

    /// Turns what has been added into what there is of one of an amount.
    fn as_amount(&mut self, from: f64, to: f64, one: f64) {
        let Sums { mass, x, y, z, .. } = std::mem::take(&mut self.sums);
        let place = |moment: f64| if mass > 0.0 { moment / mass } else { 0.0 };
        self.amount =
            Some(Amount { from, to, mass: mass / one, x: place(x), y: place(y), z: place(z), rise: 0.0 });
    }
}

/// One part by itself.
fn unit(item: &Item) -> Unit {
    match item.table {
        Table::Load => a_load(item),
        Table::Tank => a_tank(item),
        _ => a_part(item),
    }
}

fn a_part(item: &Item) -> Unit {
    let mut unit = Unit::default();
    for body in [bodies::fitted(item), bodies::bedding(item)] {
        match body {
            Ok(body) => body.iter().for_each(|body| unit.add(body)),
            Err(missing) => unit.unknown.masses.push(missing),
        }
    }
    unit
}

/// A load: anything from the least to all of it.
fn a_load(item: &Item) -> Unit {
    let mut unit = Unit::default();
    match item.record.need(&item::MASS) {
        Ok(mass) => {
            let most = mass.value.si();
            unit.add(&bodies::load(item.called(), mass, Footing::Other, item.tag.span, &item.extent));
            let from = match item.record.need(&load::LEAST) {
                Ok(least) if least.value.si() <= most => least.value.si(),
                Ok(least) => {
                    unit.unknown.masses.push(upside_down(item, load::LEAST.key, least.span));
                    0.0
                }
                Err(missing) => {
                    unit.unknown.masses.push(missing);
                    0.0
                }
            };
            if most > 0.0 {
                unit.as_amount(from, most, most);
            } else {
                unit.as_amount(0.0, 0.0, 1.0);
            }
        }
        Err(missing) => unit.unknown.masses.push(missing),
    }
    unit
}

/// A tank: the empty tank, and the water it may hold on the road.
fn a_tank(item: &Item) -> Unit {
    let mut unit = a_part(item);
    let limits = item.record.table(&tank::ON_ROAD);
    let limit = |field, otherwise: f64| match limits {
        Some(limits) => limits.need(field).map(|share| (share.value.si(), Some(share.span))),
        None => Ok((otherwise, None)),
    };
    let (from, to) = match (limit(&tank::on_road::LEAST, 0.0), limit(&tank::on_road::MOST, 1.0)) {
        (Ok((from, Some(span))), Ok((to, _))) if from > to => {
            unit.unknown.masses.push(upside_down(item, tank::ON_ROAD.key, span));
            (to, to)
        }
        (Ok((from, _)), Ok((to, _))) => (from, to),
        (least, most) => {
            unit.unknown.masses.extend([least.err(), most.err()].into_iter().flatten());
            (0.0, 0.0)
        }
    };
    let full = Spanned::new(Quantity::share(1.0), item.tag.span);
    let mut water = Unit::default();
    if to > 0.0 {
        match bodies::water(item, full, "full") {
            Ok(body) => body.iter().for_each(|body| water.add(body)),
            Err(missing) => unit.unknown.masses.push(missing),
        }
    }
    water.as_amount(from, to, 1.0);
    let ends = (&item.extent.z.near, &item.extent.z.far);
    if let (Some(amount), (Ok(bottom), Ok(top))) = (water.amount.as_mut(), ends) {
        amount.z = bottom.metres;
        amount.rise = top.metres - bottom.metres;
    }
    unit.amount = water.amount;
    unit.unknown.x.append(&mut water.unknown.x);
    unit.unknown.y.append(&mut water.unknown.y);
    unit.unknown.z.append(&mut water.unknown.z);
    unit
}

fn upside_down(item: &Item, key: &str, span: pintle_spec::Span) -> Missing {
    Missing::new(
        format!("a range of {} whose least is no more than its most", item.called()),
        Some(span),
        format!("correct `{key}` so that the least is no more than the most"),
    )
}

/// The trailer as it came and a state's own loads.
pub(super) fn always_aboard(build: &Build, loads: &[Load]) -> Unit {
    let mut unit = Unit { always: true, ..Unit::default() };
    match bodies::bare_trailer(build) {
        Ok(body) => unit.add(&body),
        Err(missing) => unit.unknown.masses.push(missing),
    }
    for load in loads {
        let name = format!("load `{}`", load.what.value);
        unit.add(&bodies::load(name, load.mass, load.footing, load.span, &load.extent));
    }
    unit
}
