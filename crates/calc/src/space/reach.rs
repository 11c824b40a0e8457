//! What people must get at: panels, valves, drains, hatches and ways out, and what stands before them.

use pintle_spec::schema::assume;
use pintle_spec::schema::item;
use pintle_spec::schema::moves::access;
use pintle_spec::{Build, Item, Known, Missing, Table, Zone};

use super::boxes::{Block, Hour, extent_at, few_enough, is_solid};
use super::exits::frame;
use super::fits::are_apart;
use super::room::holds;
use crate::case::Case;
use crate::working::Work;

/// Whether a part is one that people must get at: it says so, or it is a door, window or hatch.
pub(crate) fn covers(item: &Item) -> bool {
    item.table == Table::Opening || item.record.table(&item::ACCESS).is_some()
}

/// How deep the room before a part must be free, in m.
///
/// # Errors
/// The assumption, where nothing states it.
pub(crate) fn depth(case: &Case<'_>, item: &Item, work: &mut Work) -> Known<f64> {
    let own = item.record.table(&item::ACCESS).filter(|own| own.value(access::DEPTH.key).is_some());
    let depth = match own {
        Some(own) => work.take("d", access::DEPTH.doc, super::given(own, &access::DEPTH))?,
        None => work.assume("d", case, &assume::SPACE, &assume::space::ACCESS)?,
    };
    Ok(depth.quantity.si())
}

/// Height above the floor below which people step over a part, in m.
///
/// # Errors
/// The assumption, where nothing states it.
pub(crate) fn stepped_over(case: &Case<'_>, work: &mut Work) -> Known<f64> {
    Ok(work.assume("z", case, &assume::SPACE, &assume::space::STEP_OVER)?.quantity.si())
}

/// The room before what people must get at: before the side that it names, of an opening before its inside.
///
/// # Errors
/// The place or size of it, or the measure of the trailer, that is not given.
fn before(build: &Build, item: &Item, depth: f64, over: f64) -> Known<Block> {
    if item.table == Table::Opening && item.record.table(&item::ACCESS).is_none() {
        return inside_of(build, item, depth, over);
    }
    let block = Block::of(&item.extent)?;
    let side = item.record.need_table(&item::ACCESS)?.need_word(&access::SIDE)?.value;
    Ok(match side {
        "front" => Block { x: (block.x.0 - depth, block.x.0), ..block },
        "rear" => Block { x: (block.x.1, block.x.1 + depth), ..block },
        "left" => Block { y: (block.y.0 - depth, block.y.0), ..block },
        "right" => Block { y: (block.y.1, block.y.1 + depth), ..block },
        "top" => Block { z: (block.z.1, block.z.1 + depth), ..block },
        _ => Block { z: (block.z.0 - depth, block.z.0), ..block },
    })
}

/// The room inside before an opening in a wall, from where people step over things up, or below one in the roof.
fn inside_of(build: &Build, item: &Item, depth: f64, over: f64) -> Known<Block> {
    let s = &build.surfaces;
    let (floor, ceiling) = (s.floor.clone()?.metres, s.ceiling.clone()?.metres);
    if matches!(item.zone, Zone::Roof | Zone::Floor) {
        let ends = |reach: &pintle_spec::Reach| Ok((reach.near.clone()?.metres, reach.far.clone()?.metres));
        let z = if item.zone == Zone::Roof { (ceiling - depth, ceiling) } else { (floor, floor + depth) };
        return Ok(Block { x: ends(&item.extent.x)?, y: ends(&item.extent.y)?, z });
    }
    let [along, upright] = frame(item)?;
    let z = (upright.0.max(floor + over), upright.1);
    let wall = s.wall_inside.clone()?.metres;
    let (rear, nose) = (s.rear_inside.clone()?.metres, s.nose_inside.clone()?.metres);
    Ok(match item.zone {
        Zone::LeftWall => Block { x: along, y: (-wall, depth - wall), z },
        Zone::RightWall => Block { x: along, y: (wall - depth, wall), z },
        Zone::RearDoor => Block { x: (rear - depth, rear), y: along, z },
        Zone::FrontWall => Block { x: (nose, nose + depth), y: along, z },
        _ => {
            return Err(Missing::new(
                format!("a wall, the roof or the floor that {} is in", item.called()),
                Some(item.tag.span),
                "give its `zone`, such as \"rear door\"",
            ));
        }
    })
}

/// What stands in the room before what people must get at, each as messages call it with the hours where that
/// is not so at every one. Parts that can be taken out count: they are aboard. What it is in or on does not.
///
/// # Errors
/// What is missing for the room before it, or the place or size of a part that may stand in it.
pub(crate) fn covered(build: &Build, at: usize, depth: f64, over: f64) -> Known<Vec<String>> {
    let item = super::part(build, at)?;
    let room = before(build, item, depth, over)?;
    few_enough(build)?;
    let mut found = Vec::new();
    let mut unsure = None;
    for (other_at, other) in build.items.iter().enumerate() {
        let kin = other_at == at || holds(build, other_at, item) || holds(build, at, other);
        if kin || !is_solid(other) || are_apart(build, at, other_at) {
            continue;
        }
        let mut hours = Vec::new();
        for hour in Hour::ALL {
            let extent = extent_at(other, hour);
            if !Block::at_most(extent).meets(&room) {
                continue;
            }
            match Block::of(extent) {
                Ok(_) => hours.push(hour.words()),
                Err(missing) => unsure = unsure.or(Some(missing)),
            }
        }
        if hours.len() == Hour::ALL.len() {
            found.push(other.called());
        } else if !hours.is_empty() {
            found.push(format!("{}, {}", other.called(), hours.join(" and ")));
        }
    }
    match unsure {
        Some(missing) if found.is_empty() => Err(missing),
        _ => Ok(found),
    }
}

#[cfg(test)]
mod tests;
