//! What goes along when a part is moved: what is kept on or in it, by its zone or as its place shows.

use pintle_spec::{Build, Extent, Item, Known, Reach, State, Table, Zone};

use super::{ends, host_of};
use crate::space::bodies::encloses;
use crate::space::given::part;

/// How far the underside of a part may be from the top of another and still be said to stand on it, in metres. A
/// quarter of an inch, as a shop measures: ours, no source.
const ON_TOP: f64 = 0.00635;

/// The parts that go along when one is moved, itself first: what is on or in it by its zone, what stands on it, and
/// what lies wholly in it. Indices count [`Build::items`].
///
/// # Errors
/// The place or size that would show whether a part goes along, where it is not given.
pub fn carried(build: &Build, index: usize) -> Known<Vec<usize>> {
    let mut carried = vec![index];
    let mut next = 0;
    while let Some(holder) = carried.get(next).copied() {
        next += 1;
        let below = part(build, holder)?;
        for (at, item) in build.items.iter().enumerate() {
            if !carried.contains(&at) && (host_of(item.zone) == Some(holder) || is_kept(item, below)?) {
                carried.push(at);
            }
        }
    }
    Ok(carried)
}

/// Whether a part inside stands on another, or in one that it is not said to be in: it is then not moved by itself.
///
/// # Errors
/// The place or size that would show it, where that is not given.
pub fn stands_on_another(build: &Build, index: usize) -> Known<bool> {
    let item = part(build, index)?;
    for (at, other) in build.items.iter().enumerate() {
        if at != index && is_kept(item, other)? {
            return Ok(true);
        }
    }
    Ok(false)
}

/// The loads of a state that go along with parts: those in their zones, those that stand on them, and those in them.
/// The first of each pair counts [`State::loads`]; the second says whether its place follows by itself.
///
/// # Errors
/// The place or size that would show whether a load goes along, where it is not given.
pub fn loads_carried(build: &Build, state: &State, moving: &[usize]) -> Known<Vec<(usize, bool)>> {
    let mut carried = Vec::new();
    for (at, load) in state.loads.iter().enumerate() {
        if let Some(host) = host_of(load.zone) {
            if moving.contains(&host) {
                carried.push((at, true));
            }
            continue;
        }
        if load.zone != Zone::Inside {
            continue;
        }
        for index in moving {
            let below = part(build, *index)?;
            if below.zone == Zone::Inside
                && (in_plan(&load.extent, &below.extent)? && in_height(&load.extent, &below.extent)?)
            {
                carried.push((at, false));
                break;
            }
        }
    }
    Ok(carried)
}

/// Whether a part inside stands on another or lies wholly in it. Luggage that is listed as a part of its own is kept
/// like any other.
fn is_kept(item: &Item, below: &Item) -> Known<bool> {
    if item.zone != Zone::Inside || below.zone != Zone::Inside || below.table == Table::Load {
        return Ok(false);
    }
    if encloses(&below.extent, &item.extent)? {
        return Ok(true);
    }
    let underside = item.extent.z.near.clone()?.metres;
    let top = below.extent.z.far.clone()?.metres;
    Ok((underside - top).abs() <= ON_TOP && in_plan(&item.extent, &below.extent)?)
}

/// Whether the middle of a box lies over another when seen from above.
fn in_plan(body: &Extent, below: &Extent) -> Known<bool> {
    let over = |body: &Reach, below: &Reach| {
        let (near, far) = ends(body)?;
        let (from, to) = ends(below)?;
        let middle = f64::midpoint(near, far);
        Ok((from..=to).contains(&middle))
    };
    Ok(over(&body.x, &below.x)? && over(&body.y, &below.y)?)
}

/// Whether a load is as high up as a part or stands on it. One whose height is not given is taken to be in what it is
/// above or below of: it has to be somewhere.
fn in_height(load: &Extent, below: &Extent) -> Known<bool> {
    let Ok(underside) = &load.z.near else { return Ok(true) };
    let (bottom, top) = ends(&below.z)?;
    Ok(underside.metres >= bottom - ON_TOP && underside.metres <= top + ON_TOP)
}
