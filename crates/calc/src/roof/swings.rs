//! What doors, ramps and hatches sweep when they are opened, outside of the box.
//!
//! A leaf that is hung on one edge sweeps a quarter of a circle seen from above; a ramp or a flap as much as it is high, straight
//! out. Each is taken as opened square to its wall, and as large as its frame.

use pintle_spec::schema::kinds::opening as fields;
use pintle_spec::{Build, Coordinate, Item, Known, Reach, Zone};

/// What bodies may share and still only touch, in m: one millimetre.
const TOUCH: f64 = 0.001;

/// From one place to another along an axis, in m.
pub(super) type Ends = (f64, f64);

/// A box in the trailer's coordinates, in m.
#[derive(Debug, Clone, Copy)]
pub(super) struct Room {
    pub(super) x: Ends,
    pub(super) y: Ends,
    pub(super) z: Ends,
}

/// A leaf's sweep: a box, and of it only what lies within the radius of the hinge, seen from above.
#[derive(Debug, Clone, Copy)]
pub(super) struct Sweep {
    room: Room,
    hinge: Option<(f64, f64, f64)>,
}

pub(super) fn ends(reach: &Reach) -> Known<Ends> {
    let metres = |place: &Known<Coordinate>| place.as_ref().map(|at| at.metres).map_err(Clone::clone);
    Ok((metres(&reach.near)?, metres(&reach.far)?))
}

fn shared(one: Ends, other: Ends) -> Ends {
    (one.0.max(other.0), one.1.min(other.1))
}

fn is_some((from, to): Ends) -> bool {
    to - from > TOUCH
}

/// Where two boxes overlap by more than a touch.
pub(super) fn overlap(one: &Room, other: &Room) -> bool {
    is_some(shared(one.x, other.x)) && is_some(shared(one.y, other.y)) && is_some(shared(one.z, other.z))
}

impl Sweep {
    fn of(x: Ends, y: Ends, z: Ends) -> Self {
        Self { room: Room { x, y, z }, hinge: None }
    }

    /// Whether it goes through a box.
    pub(super) fn hits(&self, room: &Room) -> bool {
        if !overlap(&self.room, room) {
            return false;
        }
        self.hinge.is_none_or(|(x, y, radius)| {
            let (along, across) = (shared(self.room.x, room.x), shared(self.room.y, room.y));
            let off = |at: f64, (from, to): Ends| (at.clamp(from, to) - at).abs();
            off(x, along).hypot(off(y, across)) < radius - TOUCH
        })
    }

    /// Whether it goes over a place on the ground.
    pub(super) fn over(&self, x: f64, y: f64) -> bool {
        let within = |at: f64, (from, to): Ends| at >= from && at <= to;
        within(x, self.room.x)
            && within(y, self.room.y)
            && self.hinge.is_none_or(|(of_x, of_y, radius)| (x - of_x).hypot(y - of_y) <= radius)
    }
}

/// The wall that an opening is in: along it, and which way is out.
#[derive(Clone, Copy)]
enum Wall {
    /// The left or right wall, at a y, out by this sign.
    Side(f64, f64),
    /// The front or the rear, at an x, out by this sign.
    End(f64, f64),
}

impl Wall {
    /// So much straight out from the wall.
    fn out(self, by: f64) -> Ends {
        let (Self::Side(at, sign) | Self::End(at, sign)) = self;
        if sign < 0.0 { (at - by, at) } else { (at, at + by) }
    }

    /// A straight sweep along the wall and out of it.
    fn straight(self, along: Ends, by: f64, z: Ends) -> Sweep {
        match self {
            Self::Side(..) => Sweep::of(along, self.out(by), z),
            Self::End(..) => Sweep::of(self.out(by), along, z),
        }
    }

    /// The sweep of a leaf as wide as `along`, hung on its first or last edge.
    fn leaf(self, along: Ends, on_first: bool, z: Ends) -> Sweep {
        let radius = along.1 - along.0;
        let edge = if on_first { along.0 } else { along.1 };
        let (Self::Side(at, _) | Self::End(at, _)) = self;
        let hinge = match self {
            Self::Side(..) => (edge, at, radius),
            Self::End(..) => (at, edge, radius),
        };
        Sweep { hinge: Some(hinge), ..self.straight(along, radius, z) }
    }
}

/// What an opening sweeps outside of the box; nothing for one that slides, swings in or lifts off.
///
/// # Errors
/// Which way it opens, where it is hung, its place or its size, where that is not given and needed.
pub(super) fn sweeps(build: &Build, opening: &Item) -> Known<Vec<Sweep>> {
    let record = &opening.record;
    let s = &build.surfaces;
    let metres = |place: &Known<Coordinate>| place.as_ref().map(|at| at.metres).map_err(Clone::clone);
    let sort = record.word(&fields::SORT).map(|sort| sort.value);
    let swings = match sort {
        Some("ramp") => "down",
        Some("barn doors") => "out",
        _ => record.need_word(&fields::SWINGS)?.value,
    };
    if matches!(swings, "in" | "slides" | "lifts off") {
        return Ok(Vec::new());
    }
    let wall = match opening.zone {
        Zone::LeftWall => Wall::Side(-metres(&s.wall_outside)?, -1.0),
        Zone::RightWall => Wall::Side(metres(&s.wall_outside)?, 1.0),
        Zone::FrontWall => Wall::End(metres(&s.nose_outside)?, -1.0),
        Zone::RearDoor => Wall::End(metres(&s.rear_outside)?, 1.0),
        Zone::Roof => {
            let (x, y, skin) = (ends(&opening.extent.x)?, ends(&opening.extent.y)?, metres(&s.skin)?);
            // A lid hung on any edge stands at most as high as it is long or wide.
            let high = (x.1 - x.0).max(y.1 - y.0);
            return Ok(vec![Sweep::of(x, y, (skin, skin + high))]);
        }
        _ => return Ok(Vec::new()),
    };
    let along = match wall {
        Wall::Side(..) => ends(&opening.extent.x)?,
        Wall::End(..) => ends(&opening.extent.y)?,
    };
    let z = ends(&opening.extent.z)?;
    let high = z.1 - z.0;
    if sort == Some("barn doors") {
        let middle = f64::midpoint(along.0, along.1);
        return Ok(vec![wall.leaf((along.0, middle), true, z), wall.leaf((middle, along.1), false, z)]);
    }
    if swings == "up" {
        return Ok(vec![wall.straight(along, high, z)]);
    }
    if swings == "down" {
        return Ok(vec![wall.straight(along, high, ((z.0 - high).max(0.0), z.1))]);
    }
    Ok(match record.need_word(&fields::HINGE)?.value {
        "top" => vec![wall.straight(along, high, z)],
        "bottom" => vec![wall.straight(along, high, ((z.0 - high).max(0.0), z.1))],
        hinge => vec![wall.leaf(along, matches!(hinge, "front" | "left"), z)],
    })
}
