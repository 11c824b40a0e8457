//! Figures of the lockers that cylinders stand in.

use pintle_quantity::Dimension;
use pintle_spec::schema::kinds::locker;
use pintle_spec::{Item, Known, Table, Zone};

use super::{GAS, known};
use crate::air::free_area;
use crate::case::Case;
use crate::figure::Figure;
use crate::gas::burning::gas_in;
use crate::gas::near::locker_of;
use crate::gas::{LockerVents, leads_outside, locker_floor_area, locker_vents_with, vent_area_needed};
use crate::origin::Origin;
use crate::space::{alike, sum};
use crate::working::{Outcome, Work, Working};

pub(super) fn workings(case: &Case<'_>) -> Vec<Working> {
    let build = case.build;
    let mut all = Vec::new();
    for (at, body) in build.of_table(Table::Locker) {
        let holds = |cylinder: usize| locker_of(build, cylinder) == Ok(Some(at));
        let held: Vec<&Item> = build
            .of_kind("cylinder")
            .filter(|(cylinder, _)| holds(*cylinder))
            .map(|(_, body)| body)
            .collect();
        if !held.is_empty() {
            all.extend(of_locker(case, at, body, &held));
        }
    }
    all
}

fn of_locker(case: &Case<'_>, at: usize, body: &Item, held: &[&Item]) -> Vec<Working> {
    let of = || body.called();
    let vents = || locker_vents_with(case.build, at, |opening| free_area(case, opening));
    let area = |key: &'static str, says: &'static str, pick: fn(LockerVents) -> Figure| {
        Working::of(GAS, key, of(), says, |work| work.take("A", says, vents().map(pick)))
    };
    let gap = |key: &'static str,
               says: &'static str,
               pick: fn(LockerVents) -> Option<Figure>,
               none: &'static str| {
        Working::of(GAS, key, of(), says, |work| match pick(vents()?) {
            Some(gap) => work.take("d", says, Ok(gap)).map(Outcome::Figure),
            None => Ok(Outcome::None(none.to_owned())),
        })
    };
    let floor =
        |work: &mut Work| work.take("F", "floor area of the locker", locker_floor_area(case.build, at));
    let us = Origin::published(
        "675 IAC 15-2-74(c) (seen): two vents, top and bottom, at least 2 % of the floor together",
    );
    let eu = "EN 1949, from memory; three searches found no text of it";
    vec![
        area("vents_low", "fixed free area of its low vents", |vents| vents.low),
        area("vents_high", "fixed free area of its high vents", |vents| vents.high),
        area("vents_total", "fixed free area of its vents together", |vents| vents.total),
        gap("low_gap", "from its floor to the lowest vent", |vents| vents.low_gap, "it has no low vent"),
        gap(
            "high_gap",
            "from its ceiling to the highest vent",
            |vents| vents.high_gap,
            "it has no high vent",
        ),
        Working::of(GAS, "vents_needed", of(), "free area its vents must have together (US)", |work| {
            let f = floor(work)?;
            work.step("A", "area", "2 % · F", Ok(vent_area_needed(&f)), us)
        }),
        Working::of(
            GAS,
            "vents_needed_low_eu",
            of(),
            "free area of a low vent alone that is enough (EU)",
            |work| {
                let f = floor(work)?;
                work.step(
                    "A",
                    "area",
                    "2 % · F, at least 10,000 mm²",
                    at_least(&f, 0.02, 0.01),
                    Origin::memory(eu),
                )
            },
        ),
        Working::of(
            GAS,
            "vents_needed_each_eu",
            of(),
            "free area of each of a low and a high vent that is enough (EU)",
            |work| {
                let f = floor(work)?;
                work.step(
                    "A",
                    "area",
                    "1 % · F, at least 5,000 mm²",
                    at_least(&f, 0.01, 0.005),
                    Origin::memory(eu),
                )
            },
        ),
        Working::of(
            GAS,
            "vents_needed_enclosure",
            of(),
            "free area of each vent in an enclosure of an outdoor appliance",
            |work| {
                let gas = held.iter().map(|cylinder| gas_in(cylinder)).collect::<Known<Vec<_>>>();
                let m =
                    work.take("m", "gas in it when full", gas.and_then(|gas| sum(Dimension::MASS, gas)))?;
                let area = Figure::by(Dimension::AREA, [&m], |[m]| enclosure_vent(m)).shown_in("in²");
                let source = "ANSI Z21 family as in manuals of patio appliances (manualslib 2325525, seen)";
                work.step(
                    "A",
                    "area of each",
                    "1/2 in²/lb · m, at least 10 in²",
                    Ok(area),
                    Origin::published(source),
                )
            },
        ),
        Working::of(GAS, "leads_in", of(), "what of it is open to the inside", |_| leads_in(case, at, body)),
    ]
}

/// Free area in m² of each vent in an enclosure for `m` kg of gas: 1/2 in² for each pound, at least 10 in² (ANSI Z21 family, as
/// quoted in manuals of patio appliances).
///
/// ```
/// use pintle_calc::gas::enclosure_vent;
///
/// let square_inches = |lb: f64| enclosure_vent(lb * 0.453_592_37) / 0.0254_f64.powi(2);
/// assert!((square_inches(20.0) - 10.0).abs() < 1e-9 && (square_inches(30.0) - 15.0).abs() < 1e-9);
/// ```
pub fn enclosure_vent(m: f64) -> f64 {
    let square_inches = (0.5 * m / crate::gas::boil::POUND).max(10.0);
    square_inches * 0.0254 * 0.0254
}

pub(super) fn at_least(floor: &Figure, share: f64, square_metres: f64) -> Known<Figure> {
    let least = known(square_metres, Dimension::AREA, "mm²");
    alike(floor.scaled(share).greater(&least))
}

fn leads_in(case: &Case<'_>, at: usize, body: &Item) -> Known<Vec<String>> {
    let mut found = Vec::new();
    if body.record.need_word(&locker::OPENS)?.value == "inside" {
        found.push("its door".to_owned());
    }
    if !body.record.need_flag(&locker::SEALED)?.value {
        found.push("its walls, which are not sealed".to_owned());
    }
    let vents = case.build.of_table(Table::Vent).map(|(_, opening)| opening);
    let inward = |opening: &&Item| opening.zone == Zone::Locker(at) && !leads_outside(opening);
    for opening in vents.filter(inward) {
        found.push(opening.called());
    }
    Ok(found)
}
