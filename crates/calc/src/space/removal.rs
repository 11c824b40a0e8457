//! Whether a part can be carried out: a search over places and turns of its box in plan, upright as it is fitted, for a way
//! past all else that is aboard and through a door.
//!
//! Every move between two neighbouring places is looked at as a whole: what the box sweeps when it slides, and a box that
//! holds all it sweeps when it turns. So a way that is found is one; that none is found says only that there is none over
//! these places.

mod pose;

use std::cmp::Reverse;
use std::collections::{BTreeMap, BinaryHeap};

use pintle_spec::schema::kinds::opening;
use pintle_spec::{Build, Item, Known, Missing, Table, Zone};

use pose::Pose;

use super::boxes::{Block, Hour, extent_at, few_enough, is_solid, share, wheel_boxes};
use super::budget::Budget;
use super::exits::{is_door, sill, way};
use super::fits::are_apart;
use super::outline::{Outline, TOUCH};
use super::room::carried;

/// More places and turns than these are not tried for one part.
const MOST_PLACES: usize = 1 << 19;

/// So many boxes may be compared with moves of parts, for one build.
const MOST_WORK: usize = 1 << 25;

/// How far the underside of a part may be from the top of another, in m, and still be said to stand on it. A quarter of an
/// inch: ours, no source.
const ON_TOP: f64 = 0.006_35;

/// How high a part that one person lifts is lifted over what is in its way, in m. Three feet, the height of a table and a
/// half: ours, no source.
const MOST_RAISED: f64 = 0.914_4;

/// The work that may be done for one build.
pub(crate) const fn budget() -> Budget {
    Budget::of(
        MOST_WORK,
        "a spec with fewer removable parts, or a coarser `stride`, for which ways out are looked for",
        "state a longer `stride` in [assume.space]",
    )
}

/// How finely places are tried.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Grid {
    /// Between neighbouring places, in m.
    pub(crate) stride: f64,
    /// Between neighbouring turns, in rad.
    pub(crate) turn: f64,
}

/// A door that parts can be carried out by.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Door {
    /// An index of [`Build::items`].
    pub(crate) opening: usize,
    zone: Zone,
    /// From where to where along its wall, in m.
    along: (f64, f64),
    /// Clear height, in m.
    pub(crate) height: f64,
    /// Clear width, in m.
    pub(crate) width: f64,
    /// Its lower edge above the ground, in m.
    sill: f64,
}

/// The doors of a build that parts can be carried out by: doors and ramps in walls, not windows and hatches.
///
/// # Errors
/// The place, clear width, clear height or sill of one that is not given; that the spec lists no door.
pub(crate) fn doors(build: &Build) -> Known<Vec<Door>> {
    let floor = build.surfaces.floor.clone()?.metres;
    let mut found = Vec::new();
    for (opening, body) in build.of_table(Table::Opening).filter(|(_, body)| is_door(body)) {
        let walls = [Zone::LeftWall, Zone::RightWall, Zone::RearDoor, Zone::FrontWall];
        if !walls.contains(&body.zone) {
            continue;
        }
        let place = way(build, body)?;
        let along = if matches!(body.zone, Zone::LeftWall | Zone::RightWall) { place.x } else { place.y };
        found.push(Door {
            opening,
            zone: body.zone,
            along,
            height: body.record.need(&opening::CLEAR_HEIGHT)?.value.si(),
            width: along.1 - along.0,
            sill: floor + sill(build, body)?.quantity.si(),
        });
    }
    if found.is_empty() {
        return Err(Missing::new(
            "a door that parts are carried out by",
            None,
            "add it as [[opening]], with `sort`, `zone`, `clear_width` and `clear_height`",
        ));
    }
    Ok(found)
}

/// The most room that any door leaves beside and above a part, the lesser of the two, in m: negative where it fits through
/// none, whichever way it is turned about its upright axis.
pub(crate) fn door_slack(doors: &[Door], part: &Block) -> f64 {
    let (length, width) = (part.x.1 - part.x.0, part.y.1 - part.y.0);
    let slack = |door: &Door| (door.width - length.min(width)).min(door.height - (part.z.1 - part.z.0));
    doors.iter().map(slack).fold(f64::NEG_INFINITY, f64::max)
}

/// The room that a part is moved in.
struct Room<'a> {
    outline: &'a Outline,
    blocks: Vec<Block>,
    doors: Vec<Door>,
}

impl Room<'_> {
    /// How far a point is beyond a wall, in m.
    fn beyond(&self, zone: Zone, (x, y): (f64, f64)) -> f64 {
        match zone {
            Zone::LeftWall => -self.outline.half - y,
            Zone::RightWall => y - self.outline.half,
            Zone::RearDoor => x - self.outline.rear,
            _ => self.outline.nose - x,
        }
    }

    /// Whether a move keeps clear of everything and within the walls, but for a door it goes through.
    fn allows(&self, pose: &Pose) -> bool {
        if self.blocks.iter().any(|block| pose.meets(block.x, block.y)) {
            return false;
        }
        let corners = pose.corners();
        for zone in [Zone::LeftWall, Zone::RightWall, Zone::RearDoor, Zone::FrontWall] {
            if corners.iter().all(|corner| self.beyond(zone, *corner) <= TOUCH) {
                continue;
            }
            let Some(reach) = self.reach_beyond(zone, &corners) else { continue };
            let through = |door: &Door| {
                door.zone == zone && reach.0 >= door.along.0 - TOUCH && reach.1 <= door.along.1 + TOUCH
            };
            if !self.doors.iter().any(through) {
                return false;
            }
        }
        // The slope of the nose: the room is convex, so corners within it are enough.
        let outside = |corner: &(f64, f64)| {
            corner.1.abs() <= self.outline.half && self.outline.front_at(corner.1) - corner.0 > TOUCH
        };
        let ahead = self.doors.iter().any(|door| door.zone == Zone::FrontWall);
        ahead || !corners.iter().any(outside)
    }

    /// From where to where along a wall what lies beyond it reaches. Of a convex shape: its corners beyond the wall, and
    /// where lines between corners cross it.
    fn reach_beyond(&self, zone: Zone, corners: &[(f64, f64)]) -> Option<(f64, f64)> {
        let sideways = matches!(zone, Zone::LeftWall | Zone::RightWall);
        let along = |(x, y): (f64, f64)| if sideways { x } else { y };
        let mut reach: Option<(f64, f64)> = None;
        let mut add = |place: f64| {
            reach = Some(reach.map_or((place, place), |(low, high)| (low.min(place), high.max(place))));
        };
        for (at, one) in corners.iter().enumerate() {
            let beyond = self.beyond(zone, *one) - TOUCH;
            if beyond > 0.0 {
                add(along(*one));
            }
            for other in corners.iter().skip(at + 1) {
                let other_beyond = self.beyond(zone, *other) - TOUCH;
                if (beyond > 0.0) != (other_beyond > 0.0) {
                    let share = beyond / (beyond - other_beyond);
                    add(along(*one) + share * (along(*other) - along(*one)));
                }
            }
        }
        reach
    }

    /// The door through which a box has just come out: it lies wholly beyond the wall, and before that door.
    fn is_out(&self, pose: &Pose) -> Option<usize> {
        let corners = pose.corners();
        let through = |door: &&Door| {
            let sideways = matches!(door.zone, Zone::LeftWall | Zone::RightWall);
            corners.iter().all(|corner| {
                let along = if sideways { corner.0 } else { corner.1 };
                let before = (door.along.0 - TOUCH..=door.along.1 + TOUCH).contains(&along);
                before && self.beyond(door.zone, *corner) >= 0.0
            })
        };
        self.doors.iter().find(through).map(|door| door.opening)
    }
}

/// A way that was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Found {
    /// The door, an index of [`Build::items`].
    pub(crate) door: usize,
    /// Number of moves.
    pub(crate) moves: usize,
}

/// Looks for a way out for a part, past all else that is aboard, but for parts that were taken out before it. What stands on
/// it or lies in it is taken off first and is no obstacle.
///
/// # Errors
/// The place or size of the part, or of one that may be in the way, or the measure of a door or the trailer, that is not
/// given; that there is too much to try.
pub(crate) fn way_out(
    build: &Build,
    at: usize,
    grid: Grid,
    gone: &[usize],
    budget: &Budget,
) -> Known<Option<Found>> {
    let item = super::part(build, at)?;
    few_enough(build)?;
    // What goes along with it is looked for among all pairs.
    budget.spend(build.items.len() * build.items.len())?;
    let own = Block::of(extent_at(item, Hour::Road))?;
    let outline = Outline::inside(build)?;
    let height = own.z.1 - own.z.0;
    let mut doors = doors(build)?;
    let (length, width) = (own.x.1 - own.x.0, own.y.1 - own.y.0);
    doors.retain(|door| door.height >= height - TOUCH && door.width >= length.min(width) - TOUCH);
    if doors.is_empty() {
        return Ok(None);
    }
    let sills = doors.iter().map(|door| door.sill);
    let (lowest, highest) =
        sills.fold((own.z.0, own.z.1), |(low, high), sill| (low.min(sill), high.max(sill + height)));
    let blocks = in_the_way(build, at, item, (lowest, highest), &outline, gone)?;
    let room = Room { outline: &outline, blocks, doors };
    let places = Places::of(&own, &outline, &room.doors, grid)?;
    search(&room, &places, &own, budget)
}

/// The other removable parts, which can be taken out before one.
pub(crate) fn others(build: &Build, at: usize) -> Vec<usize> {
    let others = build.items.iter().enumerate().filter(|(other, item)| *other != at && item.removable);
    others.map(|(other, _)| other).collect()
}

/// Parts that have to be taken out before one, in the order of the spec: none of them can be left aboard. It is known that
/// it comes out once all `others` are; where there is too much to try, more are named than must be.
pub(crate) fn out_before(others: Vec<usize>, comes_out: impl Fn(&[usize]) -> bool) -> Vec<usize> {
    let mut gone = others.clone();
    for other in others {
        let fewer: Vec<usize> = gone.iter().copied().filter(|one| *one != other).collect();
        if comes_out(&fewer) {
            gone = fewer;
        }
    }
    gone
}

/// Looks for a way out for a part that is lifted over what stands on the floor, such as a bed: first straight up, then level,
/// just above one of the boxes in its way, by a door that is open from there to the part's top.
///
/// # Errors
/// As of [`way_out`], and the height of the ceiling that is not given.
pub(crate) fn way_over(
    build: &Build,
    at: usize,
    grid: Grid,
    gone: &[usize],
    budget: &Budget,
) -> Known<Option<Found>> {
    let item = super::part(build, at)?;
    let own = Block::of(extent_at(item, Hour::Road))?;
    let outline = Outline::inside(build)?;
    let ceiling = build.surfaces.ceiling.clone()?.metres;
    let height = own.z.1 - own.z.0;
    let most = (own.z.0 + MOST_RAISED).min(ceiling - height);
    let within = |z| in_the_way(build, at, item, z, &outline, gone);
    let mut levels: Vec<f64> = within(own.z)?.iter().map(|block| block.z.1).collect();
    levels.retain(|level| *level > own.z.0 + TOUCH && *level <= most);
    levels.sort_by(f64::total_cmp);
    levels.dedup_by(|one, other| (*one - *other).abs() <= TOUCH);
    for level in levels {
        budget.spend(build.items.len() * build.items.len())?;
        let mut doors = doors(build)?;
        doors.retain(|door| door.sill <= level + TOUCH && door.sill + door.height >= level + height - TOUCH);
        let over = |block: &Block| share(block.x, own.x) > TOUCH && share(block.y, own.y) > TOUCH;
        if doors.is_empty() || within((own.z.0, level + height))?.iter().any(over) {
            continue;
        }
        let room = Room { outline: &outline, blocks: within((level, level + height))?, doors };
        let places = Places::of(&own, &outline, &room.doors, grid)?;
        if let Some(found) = search(&room, &places, &own, budget)? {
            return Ok(Some(found));
        }
    }
    Ok(None)
}

/// The boxes that stand where a part is carried, in plan.
fn in_the_way(
    build: &Build,
    at: usize,
    item: &Item,
    carried_at: (f64, f64),
    outline: &Outline,
    gone: &[usize],
) -> Known<Vec<Block>> {
    let along = carried(build, at)?;
    let room = Block { x: (outline.nose, outline.rear), y: (-outline.half, outline.half), z: carried_at };
    let mut blocks = Vec::new();
    for (other_at, other) in build.items.iter().enumerate() {
        let left_out = along.contains(&other_at) || are_apart(build, at, other_at);
        if left_out || !is_solid(other) || gone.contains(&other_at) {
            continue;
        }
        let extent = extent_at(other, Hour::Road);
        if Block::at_most(extent).meets(&room) {
            let block = Block::of(extent)?;
            // What it stands on, such as a shelf: it is lifted off.
            let own = Block::of(extent_at(item, Hour::Road))?;
            let under = share(block.x, own.x) > TOUCH && share(block.y, own.y) > TOUCH;
            if under && (block.z.1 - own.z.0).abs() <= ON_TOP {
                continue;
            }
            blocks.push(block);
        }
    }
    blocks.extend(wheel_boxes(build)?.into_iter().flatten().filter(|wheel| wheel.meets(&room)));
    Ok(blocks)
}

/// The places that are tried: all of these, in all of these turns.
struct Places {
    x: Vec<f64>,
    y: Vec<f64>,
    /// Cosine and sine of each turn, half a turn in all.
    turns: Vec<(f64, f64)>,
    /// By how much a box is drawn out to hold all that it sweeps from one turn to the next, for each metre of half its
    /// diagonal; and cosine and sine of half the angle between.
    swing: f64,
    half_turn: (f64, f64),
    start: (usize, usize),
}

impl Places {
    fn of(own: &Block, outline: &Outline, doors: &[Door], grid: Grid) -> Known<Self> {
        let middle = (f64::midpoint(own.x.0, own.x.1), f64::midpoint(own.y.0, own.y.1));
        let beyond = (own.x.1 - own.x.0).hypot(own.y.1 - own.y.0) + grid.stride;
        let line = |from: f64, to: f64, through: f64, more: &[f64]| {
            let span = (to - from) / grid.stride;
            if !span.is_finite() || span > f64::from(1_u32 << 16) {
                return Err(too_fine());
            }
            let mut places: Vec<f64> = more.to_vec();
            let mut step = 0.0;
            while through + step * grid.stride <= to {
                places.push(through + step * grid.stride);
                step += 1.0;
            }
            step = 1.0;
            while through - step * grid.stride >= from {
                places.push(through - step * grid.stride);
                step += 1.0;
            }
            places.sort_by(f64::total_cmp);
            places.dedup_by(|one, other| (*one - *other).abs() < 1e-9);
            let start = places.iter().position(|place| (place - through).abs() < 1e-9).unwrap_or(0);
            Ok((places, start))
        };
        let has = |zone: Zone| doors.iter().any(|door| door.zone == zone);
        let out = |zone: Zone| if has(zone) { beyond } else { 0.0 };
        let middles = |sideways: bool| -> Vec<f64> {
            let of = |door: &&Door| matches!(door.zone, Zone::LeftWall | Zone::RightWall) == sideways;
            doors.iter().filter(of).map(|door| f64::midpoint(door.along.0, door.along.1)).collect()
        };
        let (x, start_x) = line(
            outline.nose - out(Zone::FrontWall),
            outline.rear + out(Zone::RearDoor),
            middle.0,
            &middles(true),
        )?;
        let (y, start_y) = line(
            -outline.half - out(Zone::LeftWall),
            outline.half + out(Zone::RightWall),
            middle.1,
            &middles(false),
        )?;
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to 1 to 720")]
        let count = (std::f64::consts::PI / grid.turn).ceil().clamp(1.0, 720.0) as u32;
        let angle = std::f64::consts::PI / f64::from(count);
        let turns: Vec<_> =
            (0..count).map(|step| f64::from(step) * angle).map(|turn| (turn.cos(), turn.sin())).collect();
        if x.len().saturating_mul(y.len()).saturating_mul(turns.len()) > MOST_PLACES {
            return Err(too_fine());
        }
        Ok(Self {
            x,
            y,
            turns,
            swing: 2.0 * (angle / 4.0).sin(),
            half_turn: ((angle / 2.0).cos(), (angle / 2.0).sin()),
            start: (start_x, start_y),
        })
    }
}

fn too_fine() -> Missing {
    Missing::new(
        format!("a `stride` and `turn` that give no more than {MOST_PLACES} places to try"),
        None,
        "state a longer `stride` in [assume.space]",
    )
}

/// A place by its numbers: along, across, turn.
type Node = (usize, usize, usize);

/// Looks for a way from where the part is to beyond a door: of the places reached, the one nearest to a door is gone on from.
fn search(room: &Room<'_>, places: &Places, own: &Block, budget: &Budget) -> Known<Option<Found>> {
    let half = ((own.x.1 - own.x.0) / 2.0, (own.y.1 - own.y.0) / 2.0);
    let pose = |node: Node| -> Option<Pose> {
        let middle = (*places.x.get(node.0)?, *places.y.get(node.1)?);
        Some(Pose { middle, half, turn: *places.turns.get(node.2)?, slide: (0.0, 0.0) })
    };
    let to_go = |pose: &Pose| -> u64 {
        let (x, y) = pose.middle;
        let far = |door: &Door| {
            let along = if matches!(door.zone, Zone::LeftWall | Zone::RightWall) { x } else { y };
            let aside = along - f64::midpoint(door.along.0, door.along.1);
            let short = half.0.max(half.1) - room.beyond(door.zone, (x, y));
            aside.hypot(short.max(0.0))
        };
        let metres = room.doors.iter().map(far).fold(f64::INFINITY, f64::min);
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "micrometres, not negative"
        )]
        let scaled = (metres.min(1e6) * 1e6) as u64;
        scaled
    };
    let start: Node = (places.start.0, places.start.1, 0);
    let Some(first) = pose(start) else { return Ok(None) };
    budget.spend(room.blocks.len() + 1)?;
    if !room.allows(&first) {
        return Ok(None);
    }
    let mut reached: BTreeMap<Node, Node> = BTreeMap::from([(start, start)]);
    let mut open = BinaryHeap::from([Reverse((to_go(&first), start))]);
    while let Some(Reverse((_, node))) = open.pop() {
        let Some(here) = pose(node) else { continue };
        if let Some(door) = room.is_out(&here) {
            return Ok(Some(Found { door, moves: count_moves(&reached, node) }));
        }
        for next in neighbours(node, places) {
            if reached.contains_key(&next) {
                continue;
            }
            let Some(there) = pose(next) else { continue };
            budget.spend(room.blocks.len() + 1)?;
            if room.allows(&between(&here, &there, node, next, places)) {
                reached.insert(next, node);
                open.push(Reverse((to_go(&there), next)));
            }
        }
    }
    Ok(None)
}

fn count_moves(reached: &BTreeMap<Node, Node>, end: Node) -> usize {
    let mut moves = 0;
    let mut node = end;
    while let Some(before) = reached.get(&node).filter(|before| **before != node) {
        node = *before;
        moves += 1;
    }
    moves
}

fn neighbours(node: Node, places: &Places) -> impl Iterator<Item = Node> {
    let turns = places.turns.len();
    let around = |by: usize| (node.0, node.1, (node.2 + by) % turns);
    let slid = [
        node.0.checked_sub(1).map(|x| (x, node.1, node.2)),
        Some((node.0 + 1, node.1, node.2)),
        node.1.checked_sub(1).map(|y| (node.0, y, node.2)),
        Some((node.0, node.1 + 1, node.2)),
    ];
    slid.into_iter().flatten().chain([around(1), around(turns - 1)])
}

/// A box that holds all that is swept between two neighbouring places.
fn between(here: &Pose, there: &Pose, from: Node, to: Node, places: &Places) -> Pose {
    if from.2 == to.2 {
        let slide = (there.middle.0 - here.middle.0, there.middle.1 - here.middle.1);
        return Pose { slide, ..*here };
    }
    // Half way between the two turns, drawn out by as far as a corner swings from there.
    let turns = places.turns.len();
    let forward = (from.2 + 1) % turns == to.2;
    let first = if forward { here } else { there };
    let (cos, sin) = places.half_turn;
    let turn = (first.turn.0 * cos - first.turn.1 * sin, first.turn.1 * cos + first.turn.0 * sin);
    let more = here.half.0.hypot(here.half.1) * places.swing;
    Pose { turn, half: (here.half.0 + more, here.half.1 + more), ..*here }
}

#[cfg(test)]
mod tests;
