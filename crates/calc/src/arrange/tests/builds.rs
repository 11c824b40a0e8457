//! Whole specs: every arrangement is written out as a state by the words of the spec and weighed as any state is.

use std::collections::BTreeSet;
use std::rc::Rc;

use pintle_quantity::{Dimension, Quantity};
use pintle_spec::schema::item;
use pintle_spec::schema::kinds::{load, tank};
use pintle_spec::{Build, Item, Known, Spanned, State, Table, Use, Zone};

use super::random::Random;
use super::specs::{random_spec, try_read};
use crate::arrange::{Arrangements, End, Extremum};
use crate::figure::Figure;
use crate::weights::Weights;

/// A figure of a state, as the ordinary code works it out, in SI.
pub(super) fn weighed(build: &Build, state: &State, what: Extremum) -> f64 {
    figure(&Weights::of(build, state), what)
}

fn figure(weights: &Rc<Weights>, what: Extremum) -> f64 {
    let plain = |figure: Known<Figure>| figure.unwrap().quantity.si();
    match what {
        Extremum::Gross => plain(weights.gross()),
        Extremum::Unloaded => plain(weights.unloaded()),
        Extremum::Tongue => plain(weights.tongue()),
        Extremum::TongueShare => plain(weights.tongue_share()),
        Extremum::Axles => plain(weights.axles()),
        Extremum::Left => plain(weights.left()),
        Extremum::Right => plain(weights.right()),
        Extremum::Side => plain(weights.side_difference()),
        Extremum::SideShare => plain(weights.side_difference()) / plain(weights.axles()),
        Extremum::CentreX => plain(weights.centre_x()),
        Extremum::CentreY => plain(weights.centre_y()),
        Extremum::CentreZ => plain(weights.centre_z()),
    }
}

fn host(item: &Item) -> Option<usize> {
    match item.zone {
        Zone::Rack(at) | Zone::Locker(at) | Zone::Tent(at) => Some(at),
        _ => None,
    }
}

/// The least and most of a tank's share or a load's mass; nothing for other parts.
fn range(item: &Item) -> Option<(f64, f64)> {
    match item.table {
        Table::Load => {
            let mass = |field| item.record.quantity(field).unwrap().value.si();
            Some((mass(&load::LEAST), mass(&item::MASS)))
        }
        Table::Tank => Some(item.record.table(&tank::ON_ROAD).map_or((0.0, 1.0), |road| {
            let share = |field| road.quantity(field).unwrap().value.si();
            (share(&tank::on_road::LEAST), share(&tank::on_road::MOST))
        })),
        _ => None,
    }
}

/// Whether so much may be aboard together on the road.
fn may_ride(build: &Build, own: &State, aboard: &[bool]) -> bool {
    let hosts = |zone: Zone| match zone {
        Zone::Rack(at) | Zone::Locker(at) | Zone::Tent(at) => aboard[at],
        _ => true,
    };
    own.loads.iter().all(|load| hosts(load.zone))
        && build.items.iter().zip(aboard).all(|(item, here)| {
            let carried = host(item).is_none_or(|host| aboard[host]);
            let optional = match item.table {
                Table::Load => range(item).unwrap().0 <= 0.0,
                _ => item.removable,
            };
            if *here { carried && item.needs.iter().all(|at| aboard[*at]) } else { optional || !carried }
        })
        && build.eithers.iter().all(|either| {
            let members = either.of.iter().filter(|at| aboard[**at]).count();
            members == 1 || (members == 0 && either.none)
        })
}

/// Every road arrangement with amounts at their ends.
fn every(build: &Build) -> Vec<State> {
    let mut states = Vec::new();
    let here = build.number.span;
    for own in build.states.iter().filter(|state| state.used == Use::Road) {
        for mask in 0..1_usize << build.items.len() {
            let aboard: Vec<bool> = (0..build.items.len()).map(|at| mask >> at & 1 == 1).collect();
            if !may_ride(build, own, &aboard) {
                continue;
            }
            let varied: Vec<(usize, (f64, f64))> = (0..build.items.len())
                .filter(|at| aboard[*at])
                .filter_map(|at| Some((at, range(&build.items[at])?)))
                .collect();
            for ends in 0..1_usize << varied.len() {
                let amounts: Vec<(usize, f64)> = varied
                    .iter()
                    .enumerate()
                    .map(|(number, (at, (least, most)))| {
                        (*at, if ends >> number & 1 == 1 { *least } else { *most })
                    })
                    .collect();
                let amount =
                    |at: usize| amounts.iter().find(|(other, _)| *other == at).map(|(_, amount)| *amount);
                let order: Vec<usize> = build.use_order.iter().copied().filter(|at| aboard[*at]).collect();
                let in_order = order.iter().enumerate().all(|(number, at)| {
                    let end = |at: usize| range(&build.items[at]).unwrap();
                    amount(*at).unwrap() >= end(*at).1
                        || order[..number].iter().all(|before| amount(*before).unwrap() <= end(*before).0)
                });
                if !in_order {
                    continue;
                }
                let of = |table: Table, dimension: Dimension| -> Vec<(usize, Spanned<Quantity>)> {
                    let ours = amounts.iter().filter(|(at, _)| build.items[*at].table == table);
                    ours.map(|(at, amount)| (*at, Spanned::new(Quantity::from_si(*amount, dimension), here)))
                        .collect()
                };
                states.push(State {
                    name: Spanned::new(String::new(), here),
                    used: Use::Road,
                    fill: of(Table::Tank, Dimension::NONE),
                    carry: of(Table::Load, Dimension::MASS),
                    loads: own.loads.clone(),
                    out: (0..aboard.len())
                        .filter(|at| !aboard[*at] && build.items[*at].table != Table::Load)
                        .collect(),
                    people: Vec::new(),
                });
            }
        }
    }
    states
}

/// What tells one arrangement from another, to the gram.
fn key(state: &State) -> String {
    let amounts = |list: &[(usize, Spanned<Quantity>)]| -> Vec<(usize, String)> {
        let mut list: Vec<_> =
            list.iter().map(|(at, amount)| (*at, format!("{:.6}", amount.value.si()))).collect();
        list.retain(|(_, amount)| amount != "0.000000");
        list
    };
    let loads: Vec<&str> = state.loads.iter().map(|load| load.what.value.as_str()).collect();
    let mass: f64 = state.loads.iter().map(|load| load.mass.value.si()).sum();
    format!("{:?} {:?} {:?} {loads:?} {mass:.6}", state.out, amounts(&state.fill), amounts(&state.carry))
}

#[track_caller]
fn close(found: f64, expected: f64, what: &str) {
    assert!(
        (found - expected).abs() <= 1e-9 * expected.abs().max(1.0),
        "{what}: found {found}, expected {expected}"
    );
}

#[test]
fn every_figure_is_as_least_and_as_most_as_in_any_arrangement() {
    let (mut read, mut refused, mut families, mut most) = (0, 0, 0, 0);
    for seed in 0..1200 {
        let text = random_spec(&mut Random::new(seed));
        let Some(build) = try_read(&text) else {
            refused += 1;
            continue;
        };
        let states = every(&build);
        let found = Arrangements::of(&build);
        let Ok(arrangements) = found else {
            let own = build.states.iter().filter(|state| state.used == Use::Road);
            let alone = |state: &State| {
                let mut alone = build.clone();
                alone.states = vec![state.clone()];
                every(&alone).is_empty()
            };
            assert!(own.into_iter().any(alone), "seed {seed}: {found:?}\n{text}");
            refused += 1;
            continue;
        };
        read += 1;
        families += usize::from(arrangements.families.len() > 1);
        most = most.max(states.len());
        let weights: Vec<Rc<Weights>> = states.iter().map(|state| Weights::of(&build, state)).collect();
        for what in Extremum::ALL {
            let figures: Vec<f64> = weights.iter().map(|weights| figure(weights, *what)).collect();
            for end in [End::Least, End::Most] {
                let best = arrangements.best(*what, end).unwrap();
                let state = arrangements.extreme(*what, end).unwrap();
                // Dinkelbach's figure is what the ordinary code makes of the state.
                close(
                    best.value,
                    weighed(&build, &state, *what),
                    &format!("seed {seed}, {what:?} {end:?}\n{text}"),
                );
                let expected = match end {
                    End::Least => figures.iter().copied().fold(f64::INFINITY, f64::min),
                    End::Most => figures.iter().copied().fold(f64::NEG_INFINITY, f64::max),
                };
                if (*what, end) == (Extremum::CentreZ, End::Least) {
                    assert!(best.value <= expected + 1e-12, "seed {seed}");
                } else {
                    close(best.value, expected, &format!("seed {seed}, {what:?} {end:?}\n{text}"));
                }
            }
        }
        let listed: Vec<State> = arrangements.corners().unwrap().unwrap().collect();
        let keys = |states: &[State]| states.iter().map(key).collect::<BTreeSet<String>>();
        assert_eq!(keys(&listed), keys(&states), "seed {seed}\n{text}");
        close(arrangements.count().unwrap(), f64::from(u32::try_from(listed.len()).unwrap()), "count");
        let named = arrangements.named().unwrap();
        assert!(keys(&named).is_subset(&keys(&states)), "seed {seed}\n{text}");
    }
    assert!(
        read > 700 && families > 80 && most > 200,
        "{read} read, {refused} refused, {families} with families, {most} at most"
    );
}

/// Just inside a window every arrangement has a share between the limits; just outside one has not.
#[test]
fn a_window_is_as_wide_as_every_arrangement_lets_it_be() {
    let (mut open, mut empty) = (0, 0);
    for seed in 0..300 {
        let mut random = Random::new(seed + 500_000);
        let Some(build) = try_read(&random_spec(&mut random)) else { continue };
        let Ok(arrangements) = Arrangements::of(&build) else { continue };
        let least = random.between(0.05, 0.15);
        let most = least + random.between(0.0, 0.1);
        let window = arrangements.axle_window(Quantity::share(least), Quantity::share(most)).unwrap();
        let centres: Vec<f64> =
            every(&build).iter().map(|state| weighed(&build, state, Extremum::CentreX)).collect();
        let keeps = |axle: f64| {
            let shares = || centres.iter().map(|centre| 1.0 - centre / axle);
            (shares().all(|share| least <= share), shares().all(|share| share <= most))
        };
        let (a, b) = (window.least.si(), window.most.si());
        assert_eq!([keeps(a + 1e-9).0, keeps(a - 1e-9).0], [true, false], "seed {seed}");
        assert_eq!([keeps(b - 1e-9).1, keeps(b + 1e-9).1], [true, false], "seed {seed}");
        assert_eq!(window.is_empty(), a > b, "seed {seed}");
        if window.is_empty() { empty += 1 } else { open += 1 }
    }
    assert!(open > 20 && empty > 20, "{open} open, {empty} empty");
}
