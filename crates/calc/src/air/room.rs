//! The room that is breathed in: its volume, its vents by free area, and who sleeps in it.

use pintle_quantity::Dimension;
use pintle_spec::schema::kinds::vent;
use pintle_spec::schema::{assume, item, trailer};
use pintle_spec::{Build, Item, Known, State, Zone};

use crate::case::Case;
use crate::figure::Figure;
use crate::space::{alike, berths_inside, given, plan_area, sum};

/// Volume of the air inside, in m³: plan area × inside height, less every module that stands inside, as a whole box and with all of
/// them aboard. What else is inside, and what is hollow about a module, is left: the air behind its doors is not what sleepers
/// breathe.
///
/// # Errors
/// A measure of the trailer; the size of a module inside; what decides of a locker whether it is part of the living space.
pub fn inside_volume(build: &Build) -> Known<Figure> {
    let whole = plan_area(build)?.times(&given(&build.trailer, &trailer::HEIGHT)?);
    let mut boxes = Vec::new();
    for (_, module) in build.of_kind("module").filter(|(_, module)| module.zone == Zone::Inside) {
        let side = |field| given(&module.record, field);
        boxes.push(side(&item::LENGTH)?.times(&side(&item::WIDTH)?).times(&side(&item::HEIGHT)?));
    }
    alike(whole.minus(&sum(Dimension::VOLUME, boxes)?))
}

/// Free area of a vent, in m²: as it states it; else what is assumed to be left of its bare opening by what stands in it.
///
/// # Errors
/// `area`; or `cover`, where the bare opening is stated.
pub fn free_area(case: &Case<'_>, opening: &Item) -> Known<Figure> {
    let record = &opening.record;
    if record.quantity(&vent::AREA).is_some() || record.quantity(&vent::GROSS).is_none() {
        return given(record, &vent::AREA);
    }
    let gross = given(record, &vent::GROSS)?;
    let assumed = |field| case.assumed(&assume::AIR, field).map(|(share, _)| share);
    Ok(match record.need_word(&vent::COVER)?.value {
        "none" => gross,
        "screen" => gross.times(&assumed(&assume::air::SCREEN)?),
        "louvre" => gross.times(&assumed(&assume::air::LOUVRE)?),
        _ => gross.times(&assumed(&assume::air::SCREEN)?).times(&assumed(&assume::air::LOUVRE)?),
    })
}

/// Who sleeps inside in a state.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Sleepers {
    /// In berths that reach into the box.
    pub inside: u32,
    /// In berths elsewhere, as in a tent.
    pub elsewhere: u32,
}

/// How many sleep inside in a state, and how many elsewhere.
///
/// # Errors
/// What decides of a berth whether it is inside.
pub fn sleepers(build: &Build, state: &State) -> Known<Sleepers> {
    if state.people.is_empty() {
        return Ok(Sleepers { inside: 0, elsewhere: 0 });
    }
    let berths: Vec<usize> = berths_inside(build)?.into_iter().map(|(at, _)| at).collect();
    let count = |inside: bool| {
        let wanted = state.people.iter().filter(|(at, _)| berths.contains(at) == inside);
        wanted.map(|(_, count)| count.value).sum()
    };
    Ok(Sleepers { inside: count(true), elsewhere: count(false) })
}
