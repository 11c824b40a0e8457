//! Free floor space: how far parts can be moved before they meet another part, a wall, or the edge of what they stand on.
//!
//! Parts are their boxes, as everywhere in this module. The swing of doors, the room that people need to pass, and what
//! holds a part down are not looked at.

mod company;

use pintle_spec::schema::trailer::{self, axle};
use pintle_spec::{Build, Coordinate, Extent, Item, Known, Reach, Table, Zone};

pub use company::{carried, loads_carried, stands_on_another};

use super::bodies::{apart, overlap};
use super::given::part;
use super::outline::{Outline, TOUCH};

/// How much clear of the axle's line, fore and aft, what hangs below the floor is kept, in metres. Six inches: ours, no
/// source; an axle tube with its hangers is about so thick.
const AXLE_CLEAR: f64 = 0.1524;

/// Dust of reckoning: two boxes that share less than this do not meet.
const DUST: f64 = 1e-6;

/// A direction in which parts are moved.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Along {
    /// Along the trailer; positive aft.
    Length,
    /// Across it; positive to the right.
    Width,
}

/// Stretches, each from and to, in metres, rising and apart.
pub type Stretches = Vec<(f64, f64)>;

/// How far some parts can be moved together: every shift, in metres, at which none of them meets another part, a wall,
/// or the edge of what it stands on. Indices count [`Build::items`]. Empty where they fit nowhere.
///
/// # Errors
/// The place or size of a part, or the measure of the trailer, that is not given.
pub fn shifts(build: &Build, moving: &[usize], along: Along) -> Known<Stretches> {
    let mut free = vec![(f64::NEG_INFINITY, f64::INFINITY)];
    for index in moving {
        let item = part(build, *index)?;
        // What stands on something that moves as well keeps its place on it.
        if host_of(item.zone).is_none_or(|host| !moving.contains(&host)) {
            let (least, most) = bounds(build, item, along)?;
            for (from, to) in &mut free {
                (*from, *to) = (from.max(least), to.min(most));
            }
        }
        clear_of_others(build, &item.extent, along, &mut free, |at| {
            moving.contains(&at) || holds(build, at, item)
        })?;
        if item.zone == Zone::Underside && along == Along::Length {
            let line = axle_line(build)?;
            let (near, far) = ends(&item.extent.x)?;
            take(&mut free, line.0 - far, line.1 - near);
        }
    }
    free.retain(|(from, to)| from <= to);
    Ok(free)
}

/// Where a box that is not there yet can stand on the floor: every place of its front end, in metres behind the ball.
///
/// `left` is the place of its left side, in metres right of the centreline; `size` its length, width and height.
///
/// # Errors
/// The place or size of a part, or the measure of the trailer, that is not given.
pub fn floor_spots(build: &Build, size: [f64; 3], left: f64) -> Known<Stretches> {
    let outline = Outline::inside(build)?;
    let floor = build.surfaces.floor.clone()?.metres;
    let [length, width, height] = size;
    let reach = |near: f64, size: f64| Reach {
        near: Ok(at(near)),
        far: Ok(at(near + size)),
        cg: Ok(at(near + size / 2.0)),
    };
    let extent = Extent { x: reach(0.0, length), y: reach(left, width), z: reach(floor, height) };
    let widest = left.abs().max((left + width).abs());
    let fits = widest <= outline.half + TOUCH && height <= build.surfaces.ceiling.clone()?.metres - floor;
    if !fits {
        return Ok(Vec::new());
    }
    let mut free = vec![(outline.front_at(widest), outline.rear - length)];
    clear_of_others(build, &extent, Along::Length, &mut free, |_| false)?;
    free.retain(|(from, to)| from <= to);
    Ok(free)
}

/// Parts that meet: pairs whose boxes overlap, or one of which lies in the other; and parts that reach beyond a wall, the
/// ceiling or the edge of what they stand on, or across the axle, paired with nothing. A battery kept in a galley meets
/// it: whether that is well is for whoever compares what met before with what meets after. Indices count
/// [`Build::items`]; those of places that are not known are left out, as are a part and what it is on or in by its zone.
pub fn meetings(build: &Build) -> Vec<(usize, Option<usize>)> {
    let mut found = Vec::new();
    for (index, item) in build.items.iter().enumerate().filter(|(_, item)| is_solid(item)) {
        let beyond =
            |along| bounds(build, item, along).is_ok_and(|(least, most)| least > TOUCH || most < -TOUCH);
        let across_axle = || {
            let reach = (axle_line(build), ends(&item.extent.x));
            item.zone == Zone::Underside
                && matches!(reach, (Ok(line), Ok((near, far))) if near < line.1 - TOUCH && far > line.0 + TOUCH)
        };
        if beyond(Along::Length) || beyond(Along::Width) || through_ceiling(build, item) || across_axle() {
            found.push((index, None));
        }
        let others = build.items.iter().enumerate().skip(index + 1);
        for (at, other) in others.filter(|(_, other)| is_solid(other)) {
            let housed = holds(build, at, item) || holds(build, index, other);
            if !housed && overlap(&item.extent, &other.extent) == Ok(true) {
                found.push((index, Some(at)));
            }
        }
    }
    found
}

fn at(metres: f64) -> Coordinate {
    Coordinate { metres, ..Coordinate::ORIGIN }
}

/// Luggage and food are no obstacle: they are stowed where there is room.
fn is_solid(item: &Item) -> bool {
    item.table != Table::Load
}

fn through_ceiling(build: &Build, item: &Item) -> bool {
    let ends = (&item.extent.z.far, &build.surfaces.ceiling);
    item.zone == Zone::Inside && matches!(ends, (Ok(top), Ok(ceiling)) if top.metres > ceiling.metres + TOUCH)
}

/// The part that a zone is on or in.
fn host_of(zone: Zone) -> Option<usize> {
    match zone {
        Zone::Rack(host) | Zone::Locker(host) | Zone::Tent(host) => Some(host),
        _ => None,
    }
}

/// Whether a part is what another stands on or in, by its zone.
pub(super) fn holds(build: &Build, index: usize, held: &Item) -> bool {
    let mut zone = held.zone;
    for _ in 0..=build.items.len() {
        match host_of(zone) {
            Some(host) if host == index => return true,
            Some(host) => match build.items.get(host) {
                Some(host) => zone = host.zone,
                None => break,
            },
            None => break,
        }
    }
    false
}

/// Takes away every shift at which a box meets a part that is not passed over.
fn clear_of_others(
    build: &Build,
    moved: &Extent,
    along: Along,
    free: &mut Stretches,
    pass_over: impl Fn(usize) -> bool,
) -> Known<()> {
    let (this, across) = match along {
        Along::Length => (&moved.x, &moved.y),
        Along::Width => (&moved.y, &moved.x),
    };
    let (near, far) = ends(this)?;
    for (at, other) in build.items.iter().enumerate() {
        if !is_solid(other) || pass_over(at) {
            continue;
        }
        let (beside, abreast) = match along {
            Along::Length => (&other.extent.x, &other.extent.y),
            Along::Width => (&other.extent.y, &other.extent.x),
        };
        let upright = apart(&moved.z, &other.extent.z);
        if upright == Ok(true) || apart(across, abreast) == Ok(true) {
            continue;
        }
        upright?;
        apart(across, abreast)?;
        let (other_near, other_far) = ends(beside)?;
        take(free, other_near - far + DUST, other_far - near - DUST);
    }
    Ok(())
}

fn ends(reach: &Reach) -> Known<(f64, f64)> {
    Ok((reach.near.clone()?.metres, reach.far.clone()?.metres))
}

/// Takes an open stretch out of others.
fn take(free: &mut Stretches, from: f64, to: f64) {
    if from >= to {
        return;
    }
    let parts = free.iter().flat_map(|(low, high)| {
        let before = (*low, high.min(from));
        let after = (low.max(to), *high);
        let whole = (*low, *high);
        if *high <= from || *low >= to { [Some(whole), None] } else { [Some(before), Some(after)] }
    });
    *free = parts.flatten().filter(|(low, high)| low <= high).collect();
}

/// How far one part can be moved within the walls, or on what it stands on; both ends nought for a part that cannot
/// be moved so.
fn bounds(build: &Build, item: &Item, along: Along) -> Known<(f64, f64)> {
    let stays = Ok((0.0, 0.0));
    let reach = match along {
        Along::Length => &item.extent.x,
        Along::Width => &item.extent.y,
    };
    let (near, far) = match (item.zone, along) {
        (Zone::FrontWall | Zone::RearDoor | Zone::Tent(_), _)
        | (Zone::LeftWall | Zone::RightWall, Along::Width) => return stays,
        _ => ends(reach)?,
    };
    let (from, to) = match item.zone {
        Zone::Inside | Zone::Floor => within(&Outline::inside(build)?, item, along)?,
        Zone::Roof | Zone::Underside => within(&Outline::outside(build)?, item, along)?,
        Zone::LeftWall | Zone::RightWall => {
            (build.surfaces.square_inside.clone()?.metres, build.surfaces.rear_inside.clone()?.metres)
        }
        Zone::Tongue => match along {
            Along::Length => (0.0, build.surfaces.nose_outside.clone()?.metres),
            Along::Width => {
                let half = build.surfaces.wall_outside.clone()?.metres;
                (-half, half)
            }
        },
        Zone::Rack(host) | Zone::Locker(host) => {
            let host = &part(build, host)?.extent;
            let (from, to) = ends(match along {
                Along::Length => &host.x,
                Along::Width => &host.y,
            })?;
            // What overhangs a rack may go on doing so, but no further.
            if matches!(item.zone, Zone::Rack(_)) { (from.min(near), to.max(far)) } else { (from, to) }
        }
        Zone::FrontWall | Zone::RearDoor | Zone::Tent(_) => return stays,
    };
    Ok((from - near, to - far))
}

/// From where to where an outline leaves room for a part.
fn within(outline: &Outline, item: &Item, along: Along) -> Known<(f64, f64)> {
    match along {
        Along::Length => {
            let (left, right) = ends(&item.extent.y)?;
            Ok((outline.front_at(left.abs().max(right.abs())), outline.rear))
        }
        Along::Width => {
            // No nose narrows towards the rear, so the front end decides.
            let half = outline.half_width(item.extent.x.near.clone()?.metres);
            Ok((-half, half))
        }
    }
}

/// The stretch behind the ball that axle, tubes and hangers take up below the floor.
fn axle_line(build: &Build) -> Known<(f64, f64)> {
    let middle = build.surfaces.axle.clone()?.metres;
    let group = build.trailer.need_table(&trailer::AXLE)?;
    let spread = match group.need_count(&axle::COUNT)?.value {
        0 | 1 => 0.0,
        _ => group.need(&axle::SPREAD)?.value.si(),
    };
    let half = spread / 2.0 + AXLE_CLEAR;
    Ok((middle - half, middle + half))
}

#[cfg(test)]
mod tests;
