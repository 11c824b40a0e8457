//! What stands near a cylinder: openings that gas could fall into, things that could set it alight, and the road behind.

use pintle_quantity::Dimension;
use pintle_spec::schema::kinds::equipment;
use pintle_spec::{Build, Extent, Item, Known, Reach, Table, Zone};

use crate::figure::Figure;
use crate::gas::{is_exhaust, leads_outside};
use crate::space::{Where, alike, between, part, whereabouts, worked};

/// A gap from a cylinder, and the part that it reaches to.
#[derive(Debug, Clone)]
pub struct Gap {
    /// The part, as an index of [`Build::items`].
    pub to: usize,
    /// The gap, in m.
    pub gap: Figure,
}

/// Gap between two reaches along one axis; none where they overlap.
fn along(one: &Reach, other: &Reach) -> Known<Option<Figure>> {
    let (near, far) = (one.near.clone()?, one.far.clone()?);
    let (other_near, other_far) = (other.near.clone()?, other.far.clone()?);
    Ok(if other_near.metres > far.metres {
        Some(between(&far, &other_near))
    } else if near.metres > other_far.metres {
        Some(between(&other_far, &near))
    } else {
        None
    })
}

/// The root of the sum of squares of gaps; nothing for none.
fn joined(gaps: Vec<Figure>) -> Figure {
    let mut gaps = gaps.into_iter();
    let Some(first) = gaps.next() else { return worked(0.0, Dimension::LENGTH, Vec::new()) };
    gaps.fold(first, |sum, next| Figure::by(Dimension::LENGTH, [&sum, &next], |[a, b]| a.hypot(b)))
}

/// Least distance between two boxes seen from above, in m.
///
/// # Errors
/// A place or a size.
pub fn apart_in_plan(one: &Extent, other: &Extent) -> Known<Figure> {
    let gaps = [along(&one.x, &other.x)?, along(&one.y, &other.y)?];
    Ok(joined(gaps.into_iter().flatten().collect()))
}

/// Least distance between two boxes, in m.
///
/// # Errors
/// A place or a size.
pub fn apart_in_space(one: &Extent, other: &Extent) -> Known<Figure> {
    let gaps = [along(&one.x, &other.x)?, along(&one.y, &other.y)?, along(&one.z, &other.z)?];
    Ok(joined(gaps.into_iter().flatten().collect()))
}

fn nearest(gaps: Vec<Gap>) -> Option<Gap> {
    gaps.into_iter().reduce(
        |best, next| {
            if next.gap.quantity.si() < best.gap.quantity.si() { next } else { best }
        },
    )
}

/// The opening into the box that lies nearest to a cylinder seen from above, of all that begin lower than the cylinder's top, where
/// its relief valve is: doors, windows, hatches and vents that lead outside. None where there is none.
///
/// # Errors
/// The place or size of the cylinder or of an opening.
pub fn nearest_opening(build: &Build, cylinder: usize) -> Known<Option<Gap>> {
    let body = part(build, cylinder)?;
    let top = body.extent.z.far.clone()?.quantity();
    let mut gaps = Vec::new();
    for (to, opening) in build.items.iter().enumerate() {
        let into_box = match opening.table {
            Table::Opening => true,
            Table::Vent => {
                leads_outside(opening)
                    && !is_exhaust(opening)
                    && !matches!(opening.zone, Zone::Locker(_) | Zone::Tent(_) | Zone::Rack(_))
            }
            _ => false,
        };
        let low = || -> Known<bool> {
            let under = match opening.zone {
                Zone::Roof => build.surfaces.ceiling.clone()?,
                Zone::Floor => build.surfaces.floor.clone()?,
                _ => opening.extent.z.near.clone()?,
            };
            alike(under.quantity().at_least(top)).map(|above| !above)
        };
        if into_box && low()? {
            gaps.push(Gap { to, gap: apart_in_plan(&body.extent, &opening.extent)? });
        }
    }
    Ok(nearest(gaps))
}

/// Kinds of part that have no flame and no spark of their own. Whatever a spec may hold besides can set gas alight.
const HARMLESS: &[&str] = &[
    "module",
    "rack",
    "tent",
    "ladder",
    "cylinder",
    "alarm",
    "tank",
    "locker",
    "bulkhead",
    "berth",
    "vent",
    "opening",
    "load",
    "solar",
    "extinguisher",
];

fn may_ignite(item: &Item) -> bool {
    !HARMLESS.contains(&item.kind)
}

/// Whether a part can set gas alight: batteries, appliances, whatever else has a flame or a current, and equipment that
/// has an engine or says so.
///
/// # Errors
/// `sparks` of equipment that does not say.
pub fn can_ignite(item: &Item) -> Known<bool> {
    if item.kind == "equipment" {
        if item.record.word(&equipment::ENGINE).is_some() {
            return Ok(true);
        }
        return Ok(item.record.need_flag(&equipment::SPARKS)?.value);
    }
    Ok(may_ignite(item))
}

/// What air a part stands in.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Air {
    Outdoors,
    Locker(usize),
    Within,
}

fn air(build: &Build, index: usize) -> Known<Air> {
    if let Zone::Locker(locker) = part(build, index)?.zone {
        return Ok(Air::Locker(locker));
    }
    Ok(match whereabouts(build, index)?.place {
        Where::Outside => Air::Outdoors,
        Where::SealedLocker(locker) | Where::OpenLocker(locker) => Air::Locker(locker),
        Where::BehindBulkhead(_) | Where::SleepingSpace => Air::Within,
    })
}

/// Parts that can set gas alight and stand in the same air as a cylinder: both outdoors, both in one locker, or both inside the box
/// (a bulkhead does not count).
///
/// # Errors
/// What decides where a part is; `sparks` of equipment that stands in the same air.
pub fn ignition_in_same_air(build: &Build, cylinder: usize) -> Known<Vec<usize>> {
    let here = air(build, cylinder)?;
    let mut found = Vec::new();
    for (at, item) in build.items.iter().enumerate().filter(|(at, _)| *at != cylinder) {
        if may_ignite(item) && air(build, at)? == here && can_ignite(item)? {
            found.push(at);
        }
    }
    Ok(found)
}

/// Whether a cylinder stands in a locker, and which.
///
/// # Errors
/// What decides where it is.
pub fn locker_of(build: &Build, cylinder: usize) -> Known<Option<usize>> {
    Ok(match air(build, cylinder)? {
        Air::Locker(locker) => Some(locker),
        _ => None,
    })
}

/// The part that can set gas alight nearest to a cylinder in the same air; none where there is none.
///
/// # Errors
/// As [`ignition_in_same_air`]; a place or a size.
pub fn nearest_ignition(build: &Build, cylinder: usize) -> Known<Option<Gap>> {
    let body = part(build, cylinder)?;
    let mut gaps = Vec::new();
    for to in ignition_in_same_air(build, cylinder)? {
        gaps.push(Gap { to, gap: apart_in_space(&body.extent, &part(build, to)?.extent)? });
    }
    Ok(nearest(gaps))
}

/// How far a cylinder's rear lies behind the axle, in m; negative ahead of it.
///
/// # Errors
/// A place or a size, or the axle's place.
pub fn behind_axle(build: &Build, cylinder: usize) -> Known<Figure> {
    Ok(between(&build.surfaces.axle.clone()?, &part(build, cylinder)?.extent.x.far.clone()?))
}

/// From a cylinder's rear to the outside of the rear door, in m; negative for one hung behind it.
///
/// # Errors
/// A place or a size, or the rear's place.
pub fn to_rear(build: &Build, cylinder: usize) -> Known<Figure> {
    Ok(between(&part(build, cylinder)?.extent.x.far.clone()?, &build.surfaces.rear_outside.clone()?))
}
