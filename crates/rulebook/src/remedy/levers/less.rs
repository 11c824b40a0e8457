//! Carrying less: loads of a state, loads that may ride along, and water.

use pintle_calc::balance::Sum;
use pintle_calc::weights::{Body, BodyKind, Measure};
use pintle_finding::{Change, Cost, Written};
use pintle_quantity::{Quantity, Units};
use pintle_spec::schema::{item, kinds};
use pintle_spec::{Build, Item, Spanned, State, Use};

use super::{Best, Draft, Ground, Lever, best};
use crate::remedy::aim::Aim;
use crate::remedy::group::load_steps;
use crate::remedy::measure::{self, Tape};

/// No more loads and tanks than this are tried.
const MOST_LOADS: usize = 5;
/// Water is filled to so much of the tank: a sight glass or a gauge shows no less.
const STEP_OF_FILL: f64 = 0.05;

/// Loads and water of which there can be less, those first that can do it alone, then the least to leave behind.
pub(super) fn levers<'a>(ground: Ground<'a>) -> Best<'a> {
    let Some(state) = &ground.aim.state else { return Best::default() };
    let mut found: Vec<((bool, f64), Lever<'a>)> = Vec::new();
    let mut add = |lever: Option<Lever<'a>>| {
        if let Some(lever) = lever {
            found.push(((!lever.reaches(), lever.guess), lever));
        }
    };
    for at in 0..state.loads.len() {
        add(own_load(ground, state, at));
    }
    for (at, mass) in &state.carry {
        add(ground.build.items.get(*at).and_then(|item| carried(ground, state, item, mass.value)));
    }
    for (at, fill) in &state.fill {
        add(ground.build.items.get(*at).and_then(|tank| water(ground, state, tank, *fill)));
    }
    found.sort_by(|(one, _), (other, _)| one.0.cmp(&other.0).then(one.1.total_cmp(&other.1)));
    best(found, MOST_LOADS)
}

/// How much of a body has to go; none where less of it makes things worse.
fn less(aim: &Aim, body: &Body) -> Option<f64> {
    let x = body.x.as_ref().ok();
    if aim.measure == Measure::Tongue && aim.is_share {
        return aim.along.weight_to_take(aim.centre()?, x?.metres).filter(|less| *less > super::DUST);
    }
    if aim.measure == Measure::CentreZ {
        let upright = |body: &Body| Some((body.kilograms, body.z.as_ref().ok()?.metres));
        let all: Option<Vec<(f64, f64)>> =
            aim.weights.bodies.iter().filter(|body| body.kilograms > 0.0).map(upright).collect();
        let sum = Sum::of(all?);
        return sum.weight_to_take(sum.centre()? + aim.change, body.z.as_ref().ok()?.metres);
    }
    // Of a mere weight it matters nothing where it is.
    let x = x.map_or(0.0, |place| place.metres);
    let y = body.y.as_ref().map_or(0.0, |place| place.metres);
    let less = -aim.change / aim.rise(x, y)?;
    (less.is_finite() && less > super::DUST).then_some(less)
}

/// A load that a state carries itself.
fn own_load<'a>(ground: Ground<'a>, state: &State, at: usize) -> Option<Lever<'a>> {
    let load = state.loads.get(at)?;
    let body = ground.aim.weights.bodies.iter().find(|body| body.span == Some(load.span))?;
    let (mass, what) = (load.mass.value, load.what.value.clone());
    // An arrangement has the loads of every road state that has the same.
    let carriers: Vec<(String, Vec<String>)> = states_to_change(ground, state)
        .filter_map(|other| {
            let same = |load: &pintle_spec::Load| {
                load.what.value == what && load.mass.value.equals(mass) == Ok(true)
            };
            let at = other.loads.iter().position(same)?;
            Some((other.name.value.clone(), load_steps(other, at)?))
        })
        .collect();
    let (first, _) = carriers.first()?;
    let whose = if ground.aim.arranged {
        "in every state on the road".to_owned()
    } else {
        format!("in state `{first}`")
    };
    let guess = less(ground.aim, body)?;
    Some(lever(ground, guess, mass, mass.si(), move |left| {
        let words = if left.si() <= super::DUST {
            format!("leave load `{what}` at home {whose}")
        } else {
            format!(
                "carry {} of load `{what}` {whose}, not {}",
                left.show(Units::AsWritten),
                mass.show(Units::AsWritten)
            )
        };
        let changes = carriers.iter().map(|(_, steps)| {
            if left.si() <= super::DUST {
                return Change { at: steps.clone(), to: None };
            }
            let at = steps.iter().cloned().chain(["mass".to_owned()]).collect();
            Change { at, to: Some(measure::written(left.si(), mass)) }
        });
        (words, changes.collect())
    }))
}

/// The states of which a load or a fill has to be changed: the one that was judged, or of an arrangement all on the road.
fn states_to_change<'a>(ground: Ground<'a>, state: &State) -> impl Iterator<Item = &'a State> {
    let (arranged, name) = (ground.aim.arranged, state.name.value.clone());
    ground
        .build
        .states
        .iter()
        .filter(move |other| if arranged { other.used == Use::Road } else { other.name.value == name })
}

/// A load that may ride along: what a state carries of it, or in an arrangement the most that is ever carried.
fn carried<'a>(ground: Ground<'a>, state: &State, item: &'a Item, mass: Quantity) -> Option<Lever<'a>> {
    let body = ground.aim.weights.bodies.iter().find(|body| body.name == item.called())?;
    let most = item.record.quantity(&item::MASS)?.value;
    let least = item.record.quantity(&kinds::load::LEAST).map_or(0.0, |least| least.value.si());
    let guess = less(ground.aim, body)?;
    let tag = item.tag.value.clone();
    if !ground.aim.arranged {
        let name = state.name.value.clone();
        return Some(lever(ground, guess, mass, mass.si(), move |left| {
            let words = format!(
                "carry {} of load `{tag}` in state `{name}`, not {}",
                left.show(Units::AsWritten),
                mass.show(Units::AsWritten)
            );
            let to = measure::written(left.si(), mass);
            (words, vec![Change::set(&["state", &name, "carry", &tag], to)])
        }));
    }
    // Only the most can be lowered, not the least, and where an arrangement has neither, nothing is gained by it.
    if most.equals(mass) != Ok(true) {
        return None;
    }
    let carriers: Vec<(String, Quantity)> = ground
        .build
        .states
        .iter()
        .filter_map(|state| {
            let (_, carried) = state.carry.iter().find(|(at, _)| {
                ground.build.items.get(*at).is_some_and(|carried| carried.tag.value == item.tag.value)
            })?;
            Some((state.name.value.clone(), carried.value))
        })
        .collect();
    Some(lever(ground, guess, most, most.si() - least, move |left| {
        let words = format!(
            "carry at most {} of load `{tag}`, not {}",
            left.show(Units::AsWritten),
            most.show(Units::AsWritten)
        );
        let mut changes =
            vec![Change::set(&[item.table.key(), &tag, "mass"], measure::written(left.si(), most))];
        for (state, carried) in carriers.iter().filter(|(_, carried)| carried.at_most(left) != Ok(true)) {
            changes
                .push(Change::set(&["state", state, "carry", &tag], measure::written(left.si(), *carried)));
        }
        (words, changes)
    }))
}

/// What is carried can be lowered by whole pounds or kilograms, to `most` less.
fn lever<'a>(
    ground: Ground<'a>,
    guess: f64,
    mass: Quantity,
    most: f64,
    say: impl Fn(Quantity) -> (String, Vec<Change>) + 'a,
) -> Lever<'a> {
    let scale = Tape::of(mass);
    let length = length_of(ground.build);
    // What is left is a whole number, not what is taken away; all of it can always be.
    let left = move |less: f64| {
        if less >= most - super::DUST { mass.si() - most } else { scale.less(mass.si() - less) }
    };
    Lever {
        range: vec![(0.0, most)],
        guess,
        up: Box::new(
            move |less| if less > most { less } else { mass.si() - left(less).max(mass.si() - most) },
        ),
        down: Box::new(|less| less),
        draft: Box::new(move |less| {
            let left = Quantity::from_si(mass.si() - less, mass.dimension()).with_unit_of(mass);
            let (words, changes) = say(left);
            Some(Draft { words, changes, cost: Cost { moved: less * length, changed: 0.0 } })
        }),
    }
}

/// Water in a tank of a state; of an arrangement, what the tank may hold on the road.
fn water<'a>(
    ground: Ground<'a>,
    state: &State,
    tank: &'a Item,
    fill: Spanned<Quantity>,
) -> Option<Lever<'a>> {
    let called = format!("water in {}", tank.called());
    let is_this = |body: &&Body| body.kind == BodyKind::Water && body.name == called;
    let body = ground.aim.weights.bodies.iter().find(is_this)?;
    let brimful = body.kilograms / fill.value.si();
    let guess = less(ground.aim, body)?;
    let (share, length) = (fill.value.si(), length_of(ground.build));
    let tag = tank.tag.value.clone();
    let state = state.name.value.clone();
    let arranged = ground.aim.arranged;
    let limits = tank.record.table(&kinds::tank::ON_ROAD);
    let least = limits.and_then(|limits| limits.quantity(&kinds::tank::on_road::LEAST));
    let least = if arranged { least.map_or(0.0, |least| least.value.si()) } else { 0.0 };
    Some(Lever {
        range: vec![(0.0, share - least)],
        guess: guess / brimful,
        up: Box::new(move |less| share - (((share - less) / STEP_OF_FILL + 1e-9).floor() * STEP_OF_FILL)),
        down: Box::new(|less| less),
        draft: Box::new(move |less| {
            let left = Quantity::share(((share - less) * 1e4).round() / 1e4);
            let shown = left.show(Units::AsWritten);
            let (words, change) = if arranged {
                let text = |share: f64| Written::Text(Quantity::share(share).show(Units::AsWritten));
                let to = Written::Table(vec![
                    ("least".to_owned(), text(least)),
                    ("most".to_owned(), Written::Text(shown.clone())),
                ]);
                let at = [tank.table.key(), &tag, "on_road"];
                (format!("keep tank `{tag}` at no more than {shown} on the road"), Change::set(&at, to))
            } else {
                let at = ["state", &state, "fill", &tag];
                let words = if left.si() <= super::DUST {
                    format!("leave tank `{tag}` empty in state `{state}`")
                } else {
                    format!(
                        "fill tank `{tag}` to {shown} in state `{state}`, not {}",
                        fill.value.show(Units::AsWritten)
                    )
                };
                (words, Change::set(&at, Written::Text(shown)))
            };
            let cost = Cost { moved: less * brimful * length, changed: 0.0 };
            Some(Draft { words, changes: vec![change], cost })
        }),
    })
}

/// What is put in or left behind counts as carried the length of the box.
pub(super) fn length_of(build: &Build) -> f64 {
    match (&build.surfaces.square_inside, &build.surfaces.rear_inside) {
        (Ok(front), Ok(rear)) => rear.metres - front.metres,
        _ => 1.0,
    }
}
