//! Figures of openings that are ways out, of what the trailer carries against fire, and of parts that are carried out.

use pintle_spec::schema::kinds::{alarm, opening};
use pintle_spec::{Build, Item, Known, Missing, Table};

use super::{BUILD, GEOMETRY, TOPIC};
use crate::case::Case;
use crate::figure::Figure;
use crate::space::boxes::Block;
use crate::space::exits::{
    apart, clear_area, exits, is_door, is_ellipse, is_exit, latch, least_side, sill, way,
};
use crate::space::{berths_inside, given, greatest, least, of_places};
use crate::working::{Outcome, Working};

pub(super) fn workings(case: &Case<'_>) -> Vec<Working> {
    let build = case.build;
    let mut all = Vec::new();
    for (_, body) in build.of_table(Table::Opening) {
        if is_exit(body) {
            all.extend(way_out(build, body));
        } else if body.record.flag(&opening::EXIT).is_none() {
            all.extend(unknown(&body.called(), &body.record.missing(&opening::EXIT)));
        }
    }
    // A trailer has a door: where none is drawn, and people sleep inside, nothing is known of the ways out.
    let sleeps = berths_inside(build).map_or(true, |berths| !berths.is_empty());
    if let (true, None, Err(missing)) = (sleeps, build.of_table(Table::Opening).next(), exits(build)) {
        all.extend(unknown(BUILD, &missing));
    }
    all.extend(together(build));
    all
}

/// What is asked of every way out, where it is not known what the ways out are.
fn unknown(of: &str, missing: &Missing) -> [Working; 3] {
    [("clear_least", LEAST), ("opens_from_inside", OPENS), ("can_lock_in", LOCKS)].map(|(key, says)| {
        Working::of(TOPIC, key, of.to_owned(), says, |_| Err::<Figure, _>(missing.clone()))
    })
}

const LEAST: &str = "shorter side of what it leaves free";
const OPENS: &str = "whether it opens from inside without tool or key";
const LOCKS: &str = "whether it can be locked or barred from outside on people inside";

fn way_out(build: &Build, body: &Item) -> Vec<Working> {
    let of = || body.called();
    let mut all = vec![
        Working::of(TOPIC, "clear_width", of(), "width that it leaves free", |work| {
            work.take("w", opening::CLEAR_WIDTH.doc, given(&body.record, &opening::CLEAR_WIDTH))
        }),
        Working::of(TOPIC, "clear_height", of(), "height that it leaves free", |work| {
            work.take("h", opening::CLEAR_HEIGHT.doc, given(&body.record, &opening::CLEAR_HEIGHT))
        }),
        Working::of(TOPIC, "clear_least", of(), LEAST, |work| {
            work.step("s", "shorter side", "min(w, h)", least_side(body), GEOMETRY)
        }),
        Working::of(TOPIC, "clear_area", of(), "area that it leaves free", |work| {
            let w = work.take("w", opening::CLEAR_WIDTH.doc, given(&body.record, &opening::CLEAR_WIDTH))?;
            let h = work.take("h", opening::CLEAR_HEIGHT.doc, given(&body.record, &opening::CLEAR_HEIGHT))?;
            let ellipse = is_ellipse(body);
            let formula = if ellipse { "π / 4 · w · h" } else { "w · h" };
            let area = clear_area(&w, &h, ellipse).shown_in("ft²");
            work.step("A", "clear area", formula, Ok(area), GEOMETRY)
        }),
        Working::of(TOPIC, "latch_height", of(), "its latch above the floor", |work| {
            work.take("h", opening::LATCH.doc, latch(body))
        }),
        Working::of(TOPIC, "opens_from_inside", of(), OPENS, |_| {
            Ok(body.record.need_flag(&opening::INSIDE_RELEASE)?.value)
        }),
        Working::of(TOPIC, "can_lock_in", of(), LOCKS, |_| {
            let lock = body.record.need_word(&opening::OUTSIDE_LOCK)?.value;
            // A key lock is opened by the release inside; a hasp or bar is not.
            let shuts_in = match lock {
                "none" => false,
                "key" => !body.record.need_flag(&opening::INSIDE_RELEASE)?.value,
                _ => !body.record.need_flag(&opening::LOCKS_OPEN)?.value,
            };
            Ok(shuts_in)
        })
        .warned("a lock that can be closed on sleepers kills in a fire: try every lock from inside"),
    ];
    let upright = !matches!(body.zone, pintle_spec::Zone::Roof | pintle_spec::Zone::Floor);
    if upright {
        all.push(Working::of(TOPIC, "sill_height", of(), "lower edge of it above the floor", |work| {
            work.step("s", "sill", "", sill(build, body), GEOMETRY)
        }));
    }
    all
}

/// What is asked of the ways out together, and against fire.
fn together(build: &Build) -> Vec<Working> {
    let ways = || -> Known<Vec<_>> { exits(build)?.into_iter().map(|(_, body)| way(build, body)).collect() };
    let farthest = |doors_only: bool| -> Known<Option<Figure>> {
        let all: Vec<&Item> = exits(build)?
            .into_iter()
            .map(|(_, body)| body)
            .filter(|body| !doors_only || is_door(body))
            .collect();
        let pairs = all
            .iter()
            .enumerate()
            .flat_map(|(at, one)| all.iter().skip(at + 1).map(move |other| apart(build, one, other)));
        Ok(greatest(pairs.collect::<Known<Vec<_>>>()?))
    };
    let none = |what: &str| Outcome::None(format!("fewer than two {what}"));
    let mut all = vec![
        named("smoke_alarms", "alarms that sense smoke", smoke_alarms(build)),
        named("extinguishers", "fire extinguishers", Ok(build.of_kind("extinguisher").collect())),
        named("exits", "openings reckoned as ways out", exits(build)),
    ];
    if exits(build).is_ok_and(|exits| exits.is_empty()) {
        return all;
    }
    all.push(Working::of(TOPIC, "exits_apart", BUILD, "from one way out to the farthest other", |work| {
        match farthest(false)? {
            Some(apart) => work.step("d", "middle to middle", "", Ok(apart), GEOMETRY).map(Outcome::from),
            None => Ok(none("ways out")),
        }
    }));
    all.push(Working::of(TOPIC, "doors_apart", BUILD, "from one door to the farthest other", |work| {
        match farthest(true)? {
            Some(apart) => work.step("d", "middle to middle", "", Ok(apart), GEOMETRY).map(Outcome::from),
            None => Ok(none("doors")),
        }
    }));
    for (_, body) in build.of_kind("extinguisher") {
        all.push(Working::of(
            TOPIC,
            "extinguisher_to_exit",
            body.called(),
            "from it to the nearest way out",
            |work| {
                let place = Block::of(&body.extent)?;
                let apart =
                    |one: (f64, f64), other: (f64, f64)| (-crate::space::boxes::share(one, other)).max(0.0);
                let gaps = ways()?.into_iter().map(|way| {
                    let gap = apart(place.x, way.x).hypot(apart(place.y, way.y));
                    of_places(gap, pintle_quantity::Dimension::LENGTH, "in", build, &[body])
                });
                let gap = least(gaps)
                    .ok_or_else(|| Missing::new("a way out", None, "mark an opening `exit = true`"));
                work.step("d", "gap in plan", "", gap, GEOMETRY)
            },
        ));
    }
    all
}

/// The parts of a sort, by name.
fn named(key: &'static str, says: &'static str, found: Known<Vec<(usize, &Item)>>) -> Working {
    let named = |found: Vec<(usize, &Item)>| found.into_iter().map(|(_, body)| body.called()).collect();
    let found = found.map(named).map(Outcome::Texts);
    Working::of(TOPIC, key, BUILD, says, |_| found)
}

/// The alarms that sense smoke. One that does not say what it senses leaves it open whether there is any, where no other
/// does.
fn smoke_alarms(build: &Build) -> Known<Vec<(usize, &Item)>> {
    let mut unsure = None;
    let mut found = Vec::new();
    for (at, body) in build.of_kind("alarm") {
        match body.record.words(&alarm::SENSES) {
            Some(senses) if senses.iter().any(|sense| sense.value == "smoke") => found.push((at, body)),
            Some(_) => {}
            None => unsure = Some(body.record.missing(&alarm::SENSES)),
        }
    }
    match unsure {
        Some(missing) if found.is_empty() => Err(missing),
        _ => Ok(found),
    }
}
