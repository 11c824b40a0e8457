//! Figures of berths, and of the ways from each to each way out at night.

use pintle_quantity::{Dimension, Quantity};
use pintle_spec::field::Field;
use pintle_spec::schema::assume::{self, space};
use pintle_spec::schema::kinds::berth;
use pintle_spec::{Build, Item, Known, Missing, State, Table, Zone};

use super::{GEOMETRY, TOPIC, texts};
use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::aisle::{Floor, budget};
use crate::space::berths::{
    Measures, Sleeper, berth_length, berth_width, fall_height, gap_to_bedding, gap_to_burner, headroom_over,
    nights, people_in, sleepers,
};
use crate::space::budget::Budget;
use crate::space::{alike, berths_inside, given, of_places};
use crate::working::{Outcome, Work, Working};

/// So many states in camp have their paths worked out.
const MOST_NIGHTS: usize = 64;

const NIGHT: &str =
    "boxes in plan: what people, bags and bedding leave on the floor is not looked at; try it in the dark";

pub(super) fn workings(case: &Case<'_>) -> Vec<Working> {
    let build = case.build;
    let mut all = Vec::new();
    for (at, body) in build.of_table(pintle_spec::Table::Berth) {
        all.extend(measures(build, at, body));
    }
    all.extend(beside_burners(build));
    for state in nights(build) {
        all.extend(taken(build, state));
    }
    if nights(build).next().is_none() {
        all.extend(without_a_night(build));
    }
    let budget = budget();
    for (at, state) in nights(build).enumerate() {
        if at < MOST_NIGHTS {
            all.extend(night(case, state, &budget));
        } else {
            let of = format!("state `{}`", state.name.value);
            all.push(Working::of(TOPIC, "ways_out", of, WAYS, |_| {
                Err::<Figure, _>(Missing::new(
                    format!("a spec of no more than {MOST_NIGHTS} states in camp, for which ways out are worked out"),
                    Some(state.name.span),
                    "leave out states in which nothing stands otherwise",
                ))
            }));
        }
    }
    all
}

fn measures(build: &Build, at: usize, body: &Item) -> Vec<Working> {
    let of = || body.called();
    let taken = |key, says: &'static str, symbol, figure: Known<Figure>| {
        Working::of(TOPIC, key, of(), says, |work: &mut Work| work.take(symbol, says, figure))
    };
    let mut all = vec![
        taken("berth_length", "its longer side", "l", berth_length(body)),
        taken("berth_width", "its shorter side", "w", berth_width(body)),
    ];
    // Where it is not known which berths are inside, each says what it misses.
    let inside = !matches!(body.zone, Zone::Tent(_))
        && berths_inside(build).map_or(true, |berths| berths.iter().any(|(berth, _)| *berth == at));
    if inside {
        all.push(Working::of(TOPIC, "berth_headroom", of(), "room above its mattress", |work| {
            work.step("h", "up to what is over it", "", headroom_over(build, at), GEOMETRY)
        }));
        all.push(Working::of(TOPIC, "fall_height", of(), "its top above the floor", |work| {
            work.step("h", "top above the floor", "", fall_height(build, at), GEOMETRY)
        }));
        let burner = gap_to_burner(build, at).transpose();
        if let Some(gap) = burner {
            all.push(Working::of(TOPIC, "burner_gap", of(), "least gap to what burns fuel inside", |work| {
                work.step("d", "gap between the boxes", "", gap, GEOMETRY)
            }));
        }
    }
    all.push(Working::of(TOPIC, "berth_load", of(), "people in it, of what it is made for", |work| {
        let p = work.take("P", "weight of the people it is for", people_in(build, at))?;
        let r = work.take("R", berth::RATED.doc, given(&body.record, &berth::RATED))?;
        work.step("u", "share", "P / R", Ok(p.over(&r).as_share()), Origin::derived("definition"))
    }));
    all
}

/// Where no state is one in which people sleep, it is not known how they get out of the berths inside.
fn without_a_night(build: &Build) -> Vec<Working> {
    let inside =
        |at: usize| berths_inside(build).map_or(true, |berths| berths.iter().any(|(berth, _)| *berth == at));
    let berths =
        build.of_table(Table::Berth).filter(|(at, body)| !matches!(body.zone, Zone::Tent(_)) && inside(*at));
    let figures = |(_, body): (usize, &Item)| {
        let missing = Missing::new(
            "a state in camp, in which people sleep",
            Some(body.tag.span),
            "add it as [[state]] with `use = \"camp\"`",
        );
        [("ways_out", WAYS), ("second_path", SECOND), ("door_path", TO_DOOR)].map(|(key, says)| {
            Working::of(TOPIC, key, body.called(), says, |_| Err::<Figure, _>(missing.clone()))
        })
    };
    berths.flat_map(figures).collect()
}

/// How many lie in each berth in a state, of those it is for.
fn taken(build: &Build, state: &State) -> Vec<Working> {
    let lying = state.people.iter().filter_map(|(at, count)| {
        let body = build.items.get(*at)?;
        let of = format!("{} in state `{}`", body.called(), state.name.value);
        let count = f64::from(count.value);
        Some(Working::of(TOPIC, "berth_taken", of, "people who lie in it, of those it is for", |work| {
            let number = |n: f64| Figure::constant(Quantity::from_si(n, Dimension::NONE));
            let n = work.step("n", "people who lie in it", "", Ok(number(count)), Origin::WRITTEN)?;
            let places = match body.record.need_count(&berth::PEOPLE)?.value {
                0 => Err(Missing::new(
                    format!("a berth for anybody: {} is for nobody", body.called()),
                    Some(body.tag.span),
                    "give the number of people it is for",
                )),
                places => Ok(number(f64::from(places))),
            };
            let p = work.step("p", "people it is for", "", places, Origin::WRITTEN)?;
            work.step("u", "share", "n / p", Ok(n.over(&p).as_share()), Origin::derived("definition"))
        }))
    });
    lying.collect()
}

/// From each appliance that is used inside to the nearest berth inside, where anybody sleeps there.
fn beside_burners(build: &Build) -> Vec<Working> {
    if berths_inside(build).is_ok_and(|berths| berths.is_empty()) {
        return Vec::new();
    }
    let burners = build.of_kind("appliance").filter_map(|(at, burner)| {
        let gap = gap_to_bedding(build, at).transpose()?;
        Some(Working::of(TOPIC, "bedding_gap", burner.called(), "least gap to a place to sleep", |work| {
            work.step("d", "gap between the boxes", "", gap, GEOMETRY)
        }))
    });
    burners.collect()
}

fn assumed(case: &Case<'_>, field: &'static Field, symbol: &'static str, work: &mut Work) -> Known<f64> {
    Ok(work.assume(symbol, case, &assume::SPACE, field)?.quantity.si())
}

fn declared(case: &Case<'_>, work: &mut Work) -> Known<Measures> {
    Ok(Measures {
        band: (assumed(case, &space::STEP_OVER, "z₁", work)?, assumed(case, &space::BAND, "z₂", work)?),
        path: assumed(case, &space::PATH, "b", work)?,
        direct: assumed(case, &space::DIRECT, "d", work)?,
        passing: assumed(case, &space::PASSING, "p", work)?,
    })
}

fn night(case: &Case<'_>, state: &State, budget: &Budget) -> Vec<Working> {
    let build = case.build;
    let name = &state.name.value;
    let mut all = Vec::new();
    let floor = declared(case, &mut Work::default())
        .and_then(|measures| Floor::at_night(build, state, measures.band, budget)?.free_area());
    all.push(Working::of(
        TOPIC,
        "free_floor",
        format!("state `{name}`"),
        "floor on which nothing stands",
        |work| {
            declared(case, work)?;
            let area = floor.map(|area| of_places(area, Dimension::AREA, "ft²", build, &[]));
            work.step("A", "free floor", "outline − boxes between z₁ and z₂", area, GEOMETRY)
        },
    ));
    let found =
        declared(case, &mut Work::default()).and_then(|measures| sleepers(build, state, measures, budget));
    let sleepers = match found {
        Ok(sleepers) => sleepers,
        Err(missing) => {
            let inside = |at: usize| {
                berths_inside(build).map_or(true, |berths| berths.iter().any(|(berth, _)| *berth == at))
            };
            let berths = build.of_table(Table::Berth).filter(|(at, body)| {
                !matches!(body.zone, Zone::Tent(_)) && !state.out.contains(at) && inside(*at)
            });
            for (_, body) in berths {
                let of = format!("{} in state `{name}`", body.called());
                all.push(Working::of(TOPIC, "ways_out", of, WAYS, |_| Err::<Figure, _>(missing.clone())));
            }
            return all;
        }
    };
    for sleeper in &sleepers {
        all.extend(ways(case, name, sleeper));
    }
    all
}

const WAYS: &str = "ways out with a path that is wide enough";
const SECOND: &str = "widest path to a second way out";
const TO_DOOR: &str = "widest path to a door";

/// The widest path to a door, and that to the second of all ways out.
fn widest(case: &Case<'_>, of: &str, body: &Item, sleeper: &Sleeper) -> [Working; 2] {
    let build = case.build;
    let widths = |doors_only: bool| -> Known<Vec<f64>> {
        let is_door = |at: usize| build.items.get(at).is_some_and(crate::space::exits::is_door);
        let joins = sleeper.joins.iter().filter(|join| !doors_only || is_door(join.exit));
        let mut widths = joins.map(super::super::berths::Join::width).collect::<Known<Vec<_>>>()?;
        widths.sort_by(|one, other| other.total_cmp(one));
        Ok(widths)
    };
    let path = |key, says, doors_only: bool, place: usize, none: &str| {
        Working::of(TOPIC, key, of.to_owned(), says, |work: &mut Work| {
            declared(case, work)?;
            let Some(width) = widths(doors_only)?.get(place).copied() else {
                return Ok(Outcome::None(none.to_owned()));
            };
            let width = of_places(width, Dimension::LENGTH, "in", build, &[body]);
            work.step("w", "path", "", Ok(width), GEOMETRY).map(Outcome::from)
        })
        .warned(NIGHT)
    };
    [
        path("door_path", TO_DOOR, true, 0, "no door is reckoned as a way out"),
        path("second_path", SECOND, false, 1, "there are fewer than two ways out"),
    ]
}

fn ways(case: &Case<'_>, state: &str, sleeper: &Sleeper) -> Vec<Working> {
    let build = case.build;
    let Some(body) = build.items.get(sleeper.berth) else { return Vec::new() };
    let called = |at: usize| build.items.get(at).map_or_else(String::new, Item::called);
    let of = format!("{} in state `{state}`", body.called());
    let mut all = Vec::new();
    for join in &sleeper.joins {
        let of = format!("{} to {} in state `{state}`", body.called(), called(join.exit));
        all.push(
            Working::of(TOPIC, "exit_path", of, "narrowest place of the widest path to a way out", |work| {
                declared(case, work)?;
                let ends: Vec<&Item> =
                    [sleeper.berth, join.exit].iter().filter_map(|at| build.items.get(*at)).collect();
                let metres = |width: Known<f64>| {
                    width.map(|width| of_places(width, Dimension::LENGTH, "in", build, &ends))
                };
                let f = work.step(
                    "f",
                    "over the floor",
                    "widest disc that can be moved from the berth's side to it",
                    metres(join.over_floor.clone()),
                    Origin::derived("widest path by drawing the free floor in, halved to 1 mm"),
                )?;
                let o = work.step(
                    "o",
                    "from the berth itself",
                    "side of the berth along it, within d",
                    metres(join.from_berth.clone()),
                    GEOMETRY,
                )?;
                work.step("w", "path", "max(f, o)", alike(f.greater(&o)), GEOMETRY)
            })
            .warned(NIGHT),
        );
    }
    all.extend(widest(case, &of, body, sleeper));
    let wide_enough = |work: &mut Work| {
        let least = declared(case, work)?.path;
        let mut named = Vec::new();
        for join in &sleeper.joins {
            if join.width()? >= least - 1e-3 {
                named.push(called(join.exit));
            }
        }
        Ok(named)
    };
    all.push(
        Working::of(TOPIC, "ways_out", of.clone(), WAYS, |work| wide_enough(work).map(texts)).warned(NIGHT),
    );
    all.push(
        Working::of(
            TOPIC,
            "ways_independent",
            of.clone(),
            "whether two of them are there, neither reached only past the other",
            |work| {
                declared(case, work)?;
                sleeper.independent.clone()
            },
        )
        .warned(NIGHT),
    );
    all.push(Working::of(TOPIC, "own_door", of, "whether a door is reached from the berth itself", |work| {
        let least = declared(case, work)?.path;
        for join in &sleeper.joins {
            let is_door = build.items.get(join.exit).is_some_and(crate::space::exits::is_door);
            if is_door && join.from_berth.clone()? >= least - 1e-3 {
                return Ok(Outcome::Flag(true));
            }
        }
        Ok(Outcome::Flag(false))
    }));
    all
}
