//! Figures of what stands near the vents: exhausts, parts that cover them, batteries that give off gas.

use pintle_quantity::Dimension;
use pintle_spec::schema::kinds::{appliance, battery};
use pintle_spec::{Build, Item, Known, State, Table, Use, Zone};

use super::{AIR, BUILD, known};
use crate::air::{free_area, in_the_box};
use crate::case::Case;
use crate::figure::Figure;
use crate::gas::{LockerVents, apart_in_space, is_exhaust, leads_outside, locker_of, locker_vents_with};
use crate::origin::Origin;
use crate::space::{alike, berths_inside, between, overlap_in_plan, whereabouts};
use crate::working::{Outcome, Working};

/// Free area that a battery box needs low and high, each, in m² (NEC 552.10(D), 2008).
pub(super) const BATTERY_BOX: f64 = 1100e-6;

/// How near a part may stand to a vent, in m, and still cover it: one inch, ours, no source.
const COVERS: f64 = 0.0254;

pub(super) fn workings(case: &Case<'_>) -> Vec<Working> {
    let build = case.build;
    let mut all: Vec<Working> = build
        .of_table(Table::Vent)
        .filter(|(_, vent)| is_exhaust(vent))
        .map(|(_, vent)| exhaust(build, vent))
        .collect();
    let camps = build.states.iter().filter(|state| state.used == Use::Camp);
    all.extend(camps.map(|state| covered(build, state)));
    all.extend(batteries(case));
    all.extend(burners(build));
    all.extend(build.of_kind("alarm").flat_map(|(at, alarm)| alarms(build, at, alarm)));
    all
}

/// What burners used inside are to those who sleep there.
fn burners(build: &Build) -> Vec<Working> {
    if build.of_kind("appliance").next().is_none() {
        return Vec::new();
    }
    let heaters = || -> Known<Vec<String>> {
        let mut found = Vec::new();
        for (_, burner) in build.of_kind("appliance") {
            let record = &burner.record;
            let open = record.need_word(&appliance::USED)?.value == "inside"
                && record.need_word(&appliance::FLUE)?.value != "room-sealed";
            if open && record.need_word(&appliance::PURPOSE)?.value == "heating" {
                found.push(burner.called());
            }
        }
        Ok(found)
    };
    let mut all = vec![
        Working::of(
            AIR,
            "open_heaters",
            BUILD,
            "heaters used inside that take their air from the room",
            |_| heaters(),
        )
        .warned("one that burns while people sleep can kill them, whatever the vents"),
    ];
    for (_, burner) in build.of_kind("appliance") {
        if burner.record.word(&appliance::USED).is_some_and(|used| used.value == "outside") {
            continue;
        }
        all.push(Working::of(
            AIR,
            "bedding_gap",
            burner.called(),
            "distance to the nearest berth inside",
            |work| {
                burner.record.need_word(&appliance::USED)?;
                let mut nearest: Option<(Figure, &Item)> = None;
                for (_, berth) in berths_inside(build)? {
                    let gap = apart_in_space(&burner.extent, &berth.extent)?;
                    if nearest.as_ref().is_none_or(|(least, _)| gap.quantity.si() < least.quantity.si()) {
                        nearest = Some((gap, berth));
                    }
                }
                match nearest {
                    None => Ok(Outcome::None("nobody sleeps inside".to_owned())),
                    Some((gap, berth)) => {
                        let origin = Origin::derived("from box to box, by the places of the spec");
                        work.step("d", format!("to {}", berth.called()), "boxes in space", Ok(gap), origin)
                            .map(Outcome::Figure)
                    }
                }
            },
        ));
    }
    all
}

/// Where an alarm hangs.
fn alarms(build: &Build, at: usize, alarm: &Item) -> [Working; 2] {
    [
        Working::of(AIR, "alarm_height", alarm.called(), "its middle above the floor", |work| {
            let floor = build.surfaces.floor.clone()?;
            let ends = [alarm.extent.z.near.clone()?, alarm.extent.z.far.clone()?];
            let up = ends.each_ref().map(|end| between(&floor, end));
            let [low, high] = up;
            let middle = alike(low.plus(&high)).map(|sum| sum.scaled(0.5));
            work.step("h", "its middle", "(z₁ + z₂)/2 − floor", middle, Origin::derived("places of the spec"))
        }),
        Working::of(
            AIR,
            "alarm_inside",
            alarm.called(),
            "whether it hangs in the air that people sleep in",
            |_| Ok(whereabouts(build, at)?.place.in_sleeping_space()),
        ),
    ]
}

fn exhaust(build: &Build, outlet: &Item) -> Working {
    Working::of(AIR, "exhaust_gap", outlet.called(), "distance to the nearest opening into the box", |work| {
        let mut nearest: Option<(Figure, &Item)> = None;
        for item in &build.items {
            let opens = match item.table {
                Table::Opening => true,
                Table::Vent => in_the_box(item.zone) && leads_outside(item) && !is_exhaust(item),
                _ => false,
            };
            if opens {
                let gap = apart_in_space(&outlet.extent, &item.extent)?;
                if nearest.as_ref().is_none_or(|(least, _)| gap.quantity.si() < least.quantity.si()) {
                    nearest = Some((gap, item));
                }
            }
        }
        match nearest {
            None => Ok(Outcome::None("there is no opening into the box".to_owned())),
            Some((gap, item)) => {
                let origin = Origin::derived("from box to box, by the places of the spec");
                work.step("d", format!("to {}", item.called()), "boxes in space", Ok(gap), origin)
                    .map(Outcome::Figure)
            }
        }
    })
}

/// Vents of the box that something aboard stands in front of: modules, berths and lockers within an inch of a vent in a wall, a tent
/// over one in the roof, a module or berth over one in the floor.
fn covered(build: &Build, state: &State) -> Working {
    Working::of(
        AIR,
        "covered_vents",
        format!("state `{}`", state.name.value),
        "vents that something aboard covers",
        |_| {
            let mut found = Vec::new();
            let vents = build.of_table(Table::Vent).map(|(_, vent)| vent);
            for vent in vents.filter(|vent| in_the_box(vent.zone) && leads_outside(vent) && !is_exhaust(vent))
            {
                for (at, item) in build.items.iter().enumerate() {
                    if !state.out.contains(&at) && covers(build, item, vent)? {
                        found.push(format!("{} by {}", vent.called(), item.called()));
                    }
                }
            }
            Ok(found)
        },
    )
}

fn covers(build: &Build, item: &Item, vent: &Item) -> Known<bool> {
    let bulky = item.kind == "module" || matches!(item.table, Table::Berth | Table::Locker);
    let (body, hole) = (&item.extent, &vent.extent);
    let meet = |one: &pintle_spec::Reach, other: &pintle_spec::Reach| -> Known<bool> {
        let (near, far) = (one.near.clone()?.metres, one.far.clone()?.metres);
        Ok(near < other.far.clone()?.metres - 1e-9 && far > other.near.clone()?.metres + 1e-9)
    };
    match vent.zone {
        Zone::Roof => Ok(item.kind == "tent" && overlap_in_plan(body, hole)?),
        Zone::LeftWall | Zone::RightWall if bulky && item.zone == Zone::Inside => {
            let wall = build.surfaces.wall_inside.clone()?.metres;
            let gap = if vent.zone == Zone::LeftWall {
                body.y.near.clone()?.metres + wall
            } else {
                wall - body.y.far.clone()?.metres
            };
            Ok(gap < COVERS && meet(&body.x, &hole.x)? && meet(&body.z, &hole.z)?)
        }
        Zone::Floor if bulky && item.zone == Zone::Inside => {
            let above = body.z.near.clone()?.metres - build.surfaces.floor.clone()?.metres;
            Ok(above < COVERS && overlap_in_plan(body, hole)?)
        }
        _ => Ok(false),
    }
}

fn batteries(case: &Case<'_>) -> Vec<Working> {
    let build = case.build;
    if build.of_kind("battery").next().is_none() {
        return Vec::new();
    }
    let flooded = || -> Known<Vec<(usize, &Item)>> {
        let mut found = Vec::new();
        for (at, body) in build.of_kind("battery") {
            if body.record.need_word(&battery::CHEMISTRY)?.value == "flooded lead" {
                found.push((at, body));
            }
        }
        Ok(found)
    };
    let mut all = vec![Working::of(
        AIR,
        "gassing_inside",
        BUILD,
        "batteries with open cells in the air that people sleep in",
        |_| {
            let mut inside = Vec::new();
            for (at, body) in flooded()? {
                if whereabouts(build, at)?.place.in_sleeping_space() {
                    inside.push(body.called());
                }
            }
            Ok(inside)
        },
    )];
    for (at, locker) in build.of_table(Table::Locker) {
        let holds = |battery: usize| locker_of(build, battery) == Ok(Some(at));
        if !flooded().is_ok_and(|found| found.into_iter().any(|(battery, _)| holds(battery))) {
            continue;
        }
        let vents = || locker_vents_with(build, at, |opening| free_area(case, opening));
        let area = |key: &'static str, says: &'static str, pick: fn(LockerVents) -> Figure| {
            Working::of(AIR, key, locker.called(), says, |work| work.take("A", says, vents().map(pick)))
        };
        all.push(area("battery_vents_low", "fixed free area low in the battery's box", |vents| vents.low));
        all.push(area("battery_vents_high", "fixed free area high in the battery's box", |vents| vents.high));
        all.push(Working::of(AIR, "battery_vents_needed", locker.called(), "free area that a battery box needs low and high, each", |work| {
            let source = "NEC 552.10(D), 2008, as quoted on a page (seen): 1,100 mm² top and bottom, vapour-tight to the inside";
            Ok(work.know("A", "area of each", known(BATTERY_BOX, Dimension::AREA, "mm²"), Origin::published(source)))
        }));
    }
    all
}
