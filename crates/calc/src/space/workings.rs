//! Every figure of the topic, with how it came about.

mod berths;
mod fits;
mod removal;
mod ways;

use pintle_quantity::Dimension;
use pintle_spec::schema::assume;
use pintle_spec::schema::trailer;

use super::boxes::Hour;
use super::{berths_inside, given, inside_length, of_places, plan, plan_area};
use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::alike;
use crate::working::{Outcome, Work, Working};

const TOPIC: &str = "space";
const BUILD: &str = "the build";
/// Of what follows from where things are and how large they are.
const GEOMETRY: Origin = Origin::derived("geometry");

/// Every figure of this topic for a build.
pub fn workings(case: &Case<'_>) -> Vec<Working> {
    let mut all = room(case);
    all.extend(fits::workings(case));
    all.extend(berths::workings(case));
    all.extend(ways::workings(case));
    all.extend(removal::workings(case));
    all
}

fn texts(found: Vec<String>) -> Outcome {
    Outcome::Texts(found)
}

fn room(case: &Case<'_>) -> Vec<Working> {
    let build = case.build;
    let mut all = vec![
        Working::of(TOPIC, "plan_area", BUILD, "plan area inside, sealed lockers off", |work| {
            let area = plan_area(build).map(|area| area.shown_in("ft²"));
            let origin = Origin::derived("rectangle, trapezium or half an ellipse");
            work.step("A", "plan area", "width · length + nose − sealed lockers", area, origin)
        }),
        Working::of(TOPIC, "plan_middle", BUILD, "middle of the plan ahead of the rear door", |work| {
            let middle = plan::middle_ahead_of_rear(build)
                .map(|ahead| of_places(ahead, Dimension::LENGTH, "in", build, &[]));
            work.step("x", "middle of the plan", "∫ x dA / A", middle, GEOMETRY)
        }),
        Working::of(TOPIC, "inside_length", BUILD, "length inside on the centreline", |work| {
            work.step("l", "length inside", "length + depth of the nose", inside_length(build), GEOMETRY)
        }),
        Working::of(TOPIC, "headroom", BUILD, "height inside", |work| {
            work.take("h", "floor to ceiling", given(&build.trailer, &trailer::HEIGHT))
        }),
        Working::of(TOPIC, "standing_room", BUILD, "height inside over what standing takes", |work| {
            let h = work.take("h", "floor to ceiling", given(&build.trailer, &trailer::HEIGHT))?;
            let s = work.assume("s", case, &assume::SPACE, &assume::space::STANDING)?;
            work.step("d", "room to spare", "h − s", alike(h.minus(&s)), GEOMETRY)
        }),
    ];
    all.extend(sleeping_areas(case));
    all
}

/// Plan area for each who sleeps inside, state by state, and what is asked of it.
fn sleeping_areas(case: &Case<'_>) -> Vec<Working> {
    let build = case.build;
    let mut all = Vec::new();
    for state in super::berths::nights(build) {
        let of = format!("state `{}`", state.name.value);
        let inside = berths_inside(build).map(|berths| {
            let aboard = state.people.iter().filter(|(at, _)| berths.iter().any(|(berth, _)| berth == at));
            aboard.map(|(_, count)| count.value).fold(0, u32::saturating_add)
        });
        if inside == Ok(0) {
            continue;
        }
        let share = |work: &mut Work| {
            let area =
                work.step("A", "plan area", "", plan_area(build).map(|area| area.shown_in("ft²")), GEOMETRY)?;
            let people = inside.clone()?;
            let n = Figure::constant(pintle_quantity::Quantity::from_si(f64::from(people), Dimension::NONE));
            let n = work.step("n", "people who sleep inside", "", Ok(n), Origin::WRITTEN)?;
            work.step("a", "plan area a person", "A / n", Ok(area.over(&n).shown_in("ft²")), GEOMETRY)
        };
        all.push(Working::of(
            TOPIC,
            "area_per_person",
            of.clone(),
            "plan area for each who sleeps inside",
            share,
        ));
        all.push(
            Working::of(
                TOPIC,
                "area_asked",
                of,
                "plan area that a sleeping room of that many has to have",
                |work| {
                    let asked = inside.clone().map(super::sleeping_area_asked);
                    let origin = Origin::published(
                        "675 IAC 15-2-24 (seen): 50 ft² for one, 70 ft² for two, 50 ft² for each more",
                    );
                    work.step("A", "plan area asked for", "50 ft², 70 ft², + 50 ft² each", asked, origin)
                },
            )
            .warned("binds makers of mobile structures in one state; a yardstick here"),
        );
    }
    all
}

/// The words for hours, for those in which a part is looked at.
const AWAKE: &[Hour] = &[Hour::Road, Hour::Day];
/// The hour in which people sleep.
const ASLEEP: &[Hour] = &[Hour::Night];

#[cfg(test)]
pub(crate) mod tests;
