//! Doors, drawers, lids and beds that fold: the room that each sweeps, and what stands in it.
//!
//! What turns about a hinge sweeps a quarter of a cylinder; what is drawn out sweeps a box.

use pintle_spec::field::Field;
use pintle_spec::schema::kinds::{berth, module, opening};
use pintle_spec::schema::moves::{folds, swing};
use pintle_spec::{Build, Item, Known, Missing, Record, Table, Zone};

use super::boxes::{Block, Hour, extent_at, few_enough, is_solid, share};
use super::exits::frame;
use super::fits::are_apart;
use super::outline::{Outline, TOUCH};
use super::room::holds;

/// The axis that a hinge lies along.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Along {
    /// Fore and aft.
    X,
    /// Across.
    Y,
    /// Upright.
    Z,
}

/// The room that something sweeps. Metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Sweep {
    /// A box.
    Straight(Block),
    /// A quarter of a cylinder.
    Quarter {
        /// The axis of the hinge.
        hinge: Along,
        /// Where the hinge is, in the two other axes in the order x, y, z.
        at: (f64, f64),
        /// Into which quarter it turns: 1 or −1 along each of the two.
        into: (f64, f64),
        /// From the hinge to the free edge.
        radius: f64,
        /// From where to where along the hinge.
        reach: (f64, f64),
    },
}

impl Sweep {
    /// Whether a box stands in the sweep by more than [`TOUCH`].
    ///
    /// Of the quarter of a cylinder: the corner of the box, as far as it lies in the quarter, that is nearest to the
    /// hinge lies within the radius.
    pub(crate) fn meets(&self, block: &Block) -> bool {
        match *self {
            Self::Straight(swept) => swept.meets(block),
            Self::Quarter { hinge, at, into, radius, reach } => {
                let (along, first, second) = match hinge {
                    Along::X => (block.x, block.y, block.z),
                    Along::Y => (block.y, block.x, block.z),
                    Along::Z => (block.z, block.x, block.y),
                };
                if share(along, reach) <= TOUCH {
                    return false;
                }
                let local = |reach: (f64, f64), at: f64, into: f64| {
                    let (one, other) = ((reach.0 - at) * into, (reach.1 - at) * into);
                    (one.min(other), one.max(other))
                };
                let (u, v) = (local(first, at.0, into.0), local(second, at.1, into.1));
                u.1 > TOUCH && v.1 > TOUCH && u.0.max(0.0).hypot(v.0.max(0.0)) < radius - TOUCH
            }
        }
    }

    /// The box round the sweep.
    pub fn bounds(&self) -> Block {
        match *self {
            Self::Straight(swept) => swept,
            Self::Quarter { hinge, at, into, radius, reach } => {
                let turned = |at: f64, into: f64| (at.min(at + into * radius), at.max(at + into * radius));
                let (u, v) = (turned(at.0, into.0), turned(at.1, into.1));
                match hinge {
                    Along::X => Block { x: reach, y: u, z: v },
                    Along::Y => Block { x: u, y: reach, z: v },
                    Along::Z => Block { x: u, y: v, z: reach },
                }
            }
        }
    }

    /// How far the sweep goes beyond the inside of the box, in metres: through a side wall, the rear, the ceiling, the
    /// floor or the nose; negative for the least room that it leaves. What goes out by an opening that is as wide and high
    /// as the sweep, such as the drawers of a kitchen at the rear door, goes through no wall there.
    fn beyond(&self, build: &Build, outline: &Outline) -> Known<f64> {
        let bounds = self.bounds();
        let (floor, ceiling) = (build.surfaces.floor.clone()?.metres, build.surfaces.ceiling.clone()?.metres);
        let mut points = vec![(bounds.x.0, bounds.y.0), (bounds.x.0, bounds.y.1)];
        if let Self::Quarter { hinge: Along::Z, at, into, radius, .. } = *self {
            points = (0..=16_u32)
                .map(|step| f64::from(step) * std::f64::consts::FRAC_PI_2 / 16.0)
                .map(|turn| (at.0 + into.0 * radius * turn.cos(), at.1 + into.1 * radius * turn.sin()))
                .chain([at])
                .collect();
        }
        let ahead = points.into_iter().map(|(x, y)| outline.front_at(y) - x);
        let walls = [
            (Zone::RearDoor, bounds.y, bounds.x.1 - outline.rear),
            (Zone::RightWall, bounds.x, bounds.y.1 - outline.half),
            (Zone::LeftWall, bounds.x, -outline.half - bounds.y.0),
        ];
        let walls = walls.into_iter().filter(|(wall, along, _)| !opens(build, *wall, *along, bounds.z));
        let sides = walls.map(|(_, _, beyond)| beyond).chain([bounds.z.1 - ceiling, floor - bounds.z.0]);
        Ok(ahead.chain(sides).fold(f64::NEG_INFINITY, f64::max))
    }
}

/// Whether an opening in a wall is as wide as a stretch along it, and as high as one upright.
fn opens(build: &Build, wall: Zone, along: (f64, f64), upright: (f64, f64)) -> bool {
    let within =
        |outer: (f64, f64), inner: (f64, f64)| outer.0 <= inner.0 + TOUCH && outer.1 >= inner.1 - TOUCH;
    build.of_table(Table::Opening).filter(|(_, opening)| opening.zone == wall).any(|(_, opening)| {
        frame(opening).is_ok_and(|[width, height]| within(width, along) && within(height, upright))
    })
}

/// Something that swings.
#[derive(Debug, Clone)]
pub struct Swing {
    /// The part it belongs to, an index of [`Build::items`].
    pub part: usize,
    /// How messages call it.
    pub called: String,
    /// Whether it is a bed or table that folds away.
    pub folds: bool,
    /// The room it sweeps, one for each leaf.
    pub sweeps: Known<Vec<Sweep>>,
}

/// Everything that swings: doors, drawers and lids of parts, what folds away, and openings. Openings that slide or lift
/// off, and hatches in the roof, sweep nothing here.
pub fn swings(build: &Build) -> Vec<Swing> {
    let mut found = Vec::new();
    for (part, item) in build.items.iter().enumerate() {
        // Modules and lockers call it the same.
        let of_part =
            if item.table == Table::Opening { &[][..] } else { item.record.tables(&module::SWINGS) };
        for record in of_part {
            let name = record.text(&swing::NAME).map_or("", |name| name.value);
            let kind = record.word(&swing::KIND).map_or("swing", |kind| kind.value);
            found.push(Swing {
                part,
                called: format!("{kind} `{name}` of {}", item.called()),
                folds: false,
                sweeps: of_a_part(item, record).map(|sweep| vec![sweep]),
            });
        }
        if item.record.table(&berth::FOLDS).is_some() {
            found.push(Swing {
                part,
                called: format!("{} as it folds", item.called()),
                folds: true,
                sweeps: of_folding(item).map(|sweep| vec![sweep]),
            });
        }
        if item.table == Table::Opening && item.record.word(&opening::SWINGS).is_some() {
            let sweeps = of_opening(build, item);
            if sweeps.as_ref().map_or(true, |sweeps| !sweeps.is_empty()) {
                found.push(Swing { part, called: item.called(), folds: false, sweeps });
            }
        }
    }
    found
}

fn length(record: &Record, field: &'static Field) -> Option<f64> {
    record.quantity(field).map(|quantity| quantity.value.si())
}

/// A word that cannot stand with another.
fn unfit(record: &Record, field: &'static Field, what: &str, help: &str) -> Missing {
    let span = record.value(field.key).map_or(record.span, |value| value.span);
    Missing::new(format!("a `{}` {what} of {}", field.key, record.what), Some(span), help)
}

/// The room that a door, drawer or lid of a part sweeps.
fn of_a_part(item: &Item, record: &Record) -> Known<Sweep> {
    let block = Block::of(&item.extent)?;
    let side = record.need_word(&swing::SIDE)?.value;
    let kind = record.need_word(&swing::KIND)?.value;
    if side == "top" || kind == "lid" {
        return of_lid(record, &block, side, kind);
    }
    let bottom = block.z.0 + length(record, &swing::FLOOR).unwrap_or(0.0);
    let top = length(record, &swing::HEIGHT).map_or(block.z.1, |height| bottom + height);
    let facing_x = matches!(side, "front" | "rear");
    let face = if facing_x { block.y } else { block.x };
    let near = face.0 + length(record, &swing::START).unwrap_or(0.0);
    let far = length(record, &swing::WIDTH).map_or(face.1, |width| near + width);
    let (plane, outward) = match side {
        "front" => (block.x.0, -1.0),
        "rear" => (block.x.1, 1.0),
        "left" => (block.y.0, -1.0),
        _ => (block.y.1, 1.0),
    };
    if kind == "drawer" {
        let reach = record.need(&swing::REACH)?.value.si();
        let out = (plane.min(plane + outward * reach), plane.max(plane + outward * reach));
        let z = (bottom, top);
        let (x, y) = if facing_x { (out, (near, far)) } else { ((near, far), out) };
        return Ok(Sweep::Straight(Block { x, y, z }));
    }
    let reach = length(record, &swing::REACH);
    let hinge = record.need_word(&swing::HINGE)?.value;
    let upright = |edge: f64, turned: f64| {
        let (at, into) =
            if facing_x { ((plane, edge), (outward, turned)) } else { ((edge, plane), (turned, outward)) };
        Sweep::Quarter {
            hinge: Along::Z,
            at,
            into,
            radius: reach.unwrap_or(far - near),
            reach: (bottom, top),
        }
    };
    let flap = |edge: f64, turned: f64| Sweep::Quarter {
        hinge: if facing_x { Along::Y } else { Along::X },
        at: (plane, edge),
        into: (outward, turned),
        radius: reach.unwrap_or(top - bottom),
        reach: (near, far),
    };
    match (hinge, facing_x) {
        ("left", true) | ("front", false) => Ok(upright(near, 1.0)),
        ("right", true) | ("rear", false) => Ok(upright(far, -1.0)),
        ("top", _) => Ok(flap(top, -1.0)),
        ("bottom", _) => Ok(flap(bottom, 1.0)),
        _ => Err(unfit(record, &swing::HINGE, "on that side", "name an edge of the side that it is on")),
    }
}

/// The room that a lid on top of a part sweeps.
fn of_lid(record: &Record, block: &Block, side: &str, kind: &str) -> Known<Sweep> {
    if side != "top" || kind != "lid" {
        return Err(unfit(
            record,
            &swing::SIDE,
            "that fits its kind",
            "a lid is on the top, a door or drawer on a side",
        ));
    }
    let hinge = record.need_word(&swing::HINGE)?.value;
    let reach = length(record, &swing::REACH);
    let top = block.z.1;
    let (axis, across, along) = match hinge {
        "front" | "rear" => (Along::Y, block.x, block.y),
        "left" | "right" => (Along::X, block.y, block.x),
        _ => {
            return Err(unfit(
                record,
                &swing::HINGE,
                "of the top",
                "a lid is hung on its front, rear, left or right edge",
            ));
        }
    };
    let near = along.0 + length(record, &swing::START).unwrap_or(0.0);
    let far = length(record, &swing::WIDTH).map_or(along.1, |width| near + width);
    let (edge, inward) = if matches!(hinge, "front" | "left") { (across.0, 1.0) } else { (across.1, -1.0) };
    let radius = reach.unwrap_or(across.1 - across.0);
    Ok(Sweep::Quarter { hinge: axis, at: (edge, top), into: (inward, 1.0), radius, reach: (near, far) })
}

/// The room that a bed or table sweeps as it is folded away: about one edge of it as it is in use.
fn of_folding(item: &Item) -> Known<Sweep> {
    let record = item.record.need_table(&berth::FOLDS)?;
    let block = Block::of(&item.extent)?;
    let hinge = record.need_word(&folds::HINGE)?.value;
    let up = record.need_word(&folds::WAY)?.value == "up";
    let (axis, across, along) = match hinge {
        "front" | "rear" => (Along::Y, block.x, block.y),
        _ => (Along::X, block.y, block.x),
    };
    let (edge, inward) = if matches!(hinge, "front" | "left") { (across.0, 1.0) } else { (across.1, -1.0) };
    let (height, turned) = if up { (block.z.0, 1.0) } else { (block.z.1, -1.0) };
    Ok(Sweep::Quarter {
        hinge: axis,
        at: (edge, height),
        into: (inward, turned),
        radius: across.1 - across.0,
        reach: along,
    })
}

/// The room that a door, window or hatch in a wall sweeps: each leaf of barn doors is half as wide.
fn of_opening(build: &Build, item: &Item) -> Known<Vec<Sweep>> {
    let way = item.record.need_word(&opening::SWINGS)?.value;
    if matches!(way, "slides" | "lifts off") || matches!(item.zone, Zone::Roof | Zone::Floor) {
        return Ok(Vec::new());
    }
    let s = &build.surfaces;
    let [(near, far), z] = frame(item)?;
    let facing_x = matches!(item.zone, Zone::RearDoor | Zone::FrontWall);
    let inward = way == "in";
    let (plane, out) = match (item.zone, inward) {
        (Zone::RearDoor, true) => (s.rear_inside.clone()?.metres, 1.0),
        (Zone::RearDoor, false) => (s.rear_outside.clone()?.metres, 1.0),
        (Zone::FrontWall, true) => (s.nose_inside.clone()?.metres, -1.0),
        (Zone::FrontWall, false) => (s.nose_outside.clone()?.metres, -1.0),
        (Zone::LeftWall, true) => (-s.wall_inside.clone()?.metres, -1.0),
        (Zone::LeftWall, false) => (-s.wall_outside.clone()?.metres, -1.0),
        (Zone::RightWall, true) => (s.wall_inside.clone()?.metres, 1.0),
        (Zone::RightWall, false) => (s.wall_outside.clone()?.metres, 1.0),
        _ => {
            return Err(unfit(
                &item.record,
                &pintle_spec::schema::item::ZONE,
                "in a wall",
                "give its `zone`, such as \"rear door\"",
            ));
        }
    };
    let outward = if inward { -out } else { out };
    let barn = item.record.word(&opening::SORT).is_some_and(|sort| sort.value == "barn doors");
    let upright = |edge: f64, turned: f64, radius: f64| {
        let (at, into) =
            if facing_x { ((plane, edge), (outward, turned)) } else { ((edge, plane), (turned, outward)) };
        Sweep::Quarter { hinge: Along::Z, at, into, radius, reach: z }
    };
    let flap = |edge: f64, turned: f64| Sweep::Quarter {
        hinge: if facing_x { Along::Y } else { Along::X },
        at: (plane, edge),
        into: (outward, turned),
        radius: z.1 - z.0,
        reach: (near, far),
    };
    if barn {
        let half = (far - near) / 2.0;
        return Ok(vec![upright(near, 1.0, half), upright(far, -1.0, half)]);
    }
    // What swings up is hung on its top edge, and what swings down on its lower one.
    let hinge = match way {
        "up" => "top",
        "down" => "bottom",
        _ => item.record.need_word(&opening::HINGE)?.value,
    };
    match (hinge, facing_x) {
        ("left", true) | ("front", false) => Ok(vec![upright(near, 1.0, far - near)]),
        ("right", true) | ("rear", false) => Ok(vec![upright(far, -1.0, far - near)]),
        ("top", _) => Ok(vec![flap(z.1, -1.0)]),
        ("bottom", _) => Ok(vec![flap(z.0, 1.0)]),
        _ => Err(unfit(&item.record, &opening::HINGE, "of that wall", "name an edge of the opening")),
    }
}

/// What stands in a sweep at some hours, each as messages call it. What belongs to the part that swings, or carries it,
/// is passed over.
///
/// # Errors
/// The place or size of a part that may stand in it; that there are too many parts.
pub(crate) fn in_the_way(build: &Build, swing: &Swing, hours: &[Hour]) -> Known<Vec<String>> {
    let sweeps = swing.sweeps.clone()?;
    few_enough(build)?;
    let owner = build
        .items
        .get(swing.part)
        .ok_or_else(|| Missing::new("the part that swings", None, "report this"))?;
    let own = Block::of(&owner.extent);
    let mut found = Vec::new();
    let mut unsure = None;
    for (at, item) in build.items.iter().enumerate() {
        let kin = at == swing.part || holds(build, at, owner) || holds(build, swing.part, item);
        if kin || !is_solid(item) || are_apart(build, at, swing.part) {
            continue;
        }
        let mut meets = false;
        for hour in hours {
            let extent = extent_at(item, *hour);
            let at_most = Block::at_most(extent);
            if !sweeps.iter().any(|sweep| sweep.meets(&at_most)) {
                continue;
            }
            match Block::of(extent) {
                Ok(block) => {
                    let kept = |own: &Block| own.encloses(&block) || block.encloses(own);
                    meets |= !own.as_ref().is_ok_and(kept);
                }
                Err(missing) => unsure = unsure.or(Some(missing)),
            }
        }
        if meets {
            found.push(item.called());
        }
    }
    match unsure {
        Some(missing) if found.is_empty() => Err(missing),
        _ => Ok(found),
    }
}

/// How far what swings inside goes beyond the inside of the box, in metres; negative for the least room it leaves.
///
/// # Errors
/// What is missing for its sweep, or the measure of the trailer.
pub(crate) fn beyond_box(build: &Build, swing: &Swing) -> Known<f64> {
    let outline = Outline::inside(build)?;
    let mut most = f64::NEG_INFINITY;
    for sweep in swing.sweeps.clone()? {
        most = most.max(sweep.beyond(build, &outline)?);
    }
    Ok(most)
}

#[cfg(test)]
mod tests;
