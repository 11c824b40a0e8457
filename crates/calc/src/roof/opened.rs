//! The opened tent: how far it reaches, what it hangs over, what swings into it, and where its ladder stands.

use pintle_quantity::Dimension;
use pintle_spec::schema::item;
use pintle_spec::schema::kinds::tent as fields;
use pintle_spec::{Build, Coordinate, Extent, Item, Known, Missing, Reach, Table, Zone};

use super::swings::{Ends, Room, ends, overlap, sweeps};
use super::{ladder, overall_height, tent_floor_height};
use crate::figure::Figure;
use crate::space::{alike, part};

/// The box of an opened tent: that of the closed one, longer by `open_reach` on the side to which it opens, and `open_height`
/// high. `tent` is an index of [`Build::items`].
///
/// # Errors
/// The side to which it opens, or how far. A side whose place is not given, or a height that is not, is missing by itself.
pub fn opened(build: &Build, tent: usize) -> Known<Extent> {
    let body = part(build, tent)?;
    let side = body.record.need_word(&fields::OPENS)?;
    let reach = Coordinate::of(&body.record, &fields::OPEN_REACH)?;
    let mut extent = body.extent.clone();
    let moved = |place: &Known<Coordinate>, times: f64| {
        place.as_ref().map(|place| place.plus(times, &reach)).map_err(Clone::clone)
    };
    match side.value {
        "left" => extent.y.near = moved(&extent.y.near, -1.0),
        "right" => extent.y.far = moved(&extent.y.far, 1.0),
        "front" => extent.x.near = moved(&extent.x.near, -1.0),
        "rear" => extent.x.far = moved(&extent.x.far, 1.0),
        _ => {}
    }
    extent.z.far = Coordinate::of(&body.record, &fields::OPEN_HEIGHT)
        .and_then(|height| Ok(extent.z.near.clone()?.plus(1.0, &height)));
    Ok(extent)
}

/// The greatest height above the ground with every tent open, in m.
///
/// # Errors
/// What [`overall_height`] needs, and each tent's `open_height`.
pub fn open_height(build: &Build) -> Known<Figure> {
    let mut top = overall_height(build)?;
    for (_, tent) in build.of_kind("tent") {
        let height = Coordinate::of(&tent.record, &fields::OPEN_HEIGHT)?;
        let open = Figure::coordinate(&tent.extent.z.near.clone()?.plus(1.0, &height));
        if open.quantity.si() > top.quantity.si() {
            top = open;
        }
    }
    Ok(top)
}

/// Where something outside of the box is, seen from above: openings and vents in a wall lie in its outside.
fn plan(build: &Build, body: &Item) -> Known<(Ends, Ends)> {
    let s = &build.surfaces;
    let at = |place: &Known<Coordinate>| place.as_ref().map(|at| at.metres).map_err(Clone::clone);
    let flat = |at: f64| (at, at);
    let through = matches!(body.table, Table::Opening | Table::Vent);
    Ok(match (through, body.zone) {
        (true, Zone::LeftWall) => (ends(&body.extent.x)?, flat(-at(&s.wall_outside)?)),
        (true, Zone::RightWall) => (ends(&body.extent.x)?, flat(at(&s.wall_outside)?)),
        (true, Zone::FrontWall) => (flat(at(&s.nose_outside)?), ends(&body.extent.y)?),
        (true, Zone::RearDoor) => (flat(at(&s.rear_outside)?), ends(&body.extent.y)?),
        _ => (ends(&body.extent.x)?, ends(&body.extent.y)?),
    })
}

/// Doors, windows, hatches, vents, and parts on the outside such as an awning, that the opened tent hangs over: by index of
/// [`Build::items`]. Not what lies on the same rack.
///
/// # Errors
/// A place or a size that is not given.
pub fn covers(build: &Build, tent: usize) -> Known<Vec<usize>> {
    let over = opened(build, tent)?;
    let (x, y) = (ends(&over.x)?, ends(&over.y)?);
    let mut found = Vec::new();
    for (at, body) in build.items.iter().enumerate() {
        let outside = matches!(
            body.zone,
            Zone::LeftWall | Zone::RightWall | Zone::FrontWall | Zone::RearDoor | Zone::Tongue | Zone::Roof
        );
        if !outside || body.kind == "rack" || at == tent || body.table == Table::Load {
            continue;
        }
        let (along, across) = plan(build, body)?;
        let meets = |one: Ends, other: Ends| one.0.max(other.0) < one.1.min(other.1) || inside(other, one);
        if meets(x, along) && meets(y, across) {
            found.push(at);
        }
    }
    Ok(found)
}

/// Whether a place without a size lies within two ends.
fn inside((from, to): Ends, within: Ends) -> bool {
    to <= from && from > within.0 && from < within.1
}

/// The doors, ramps and hatches that swing into an opened tent: by index of [`Build::items`].
///
/// # Errors
/// The tent's place, `opens`, `open_reach` or `open_height`, or what an opening's swing needs.
pub fn swung_into(build: &Build, tent: usize) -> Known<Vec<usize>> {
    let open = opened(build, tent)?;
    let room = Room { x: ends(&open.x)?, y: ends(&open.y)?, z: ends(&open.z)? };
    let mut found = Vec::new();
    for (at, opening) in build.of_table(Table::Opening) {
        if sweeps(build, opening)?.iter().any(|sweep| sweep.hits(&room)) {
            found.push(at);
        }
    }
    // What stands on the roof by itself and rises into it, such as an open lid of a vent, is not known to move.
    for (at, body) in build.items.iter().enumerate() {
        if body.zone == Zone::Roof && body.kind != "rack" && body.table == Table::Item && at != tent {
            let box_of =
                Room { x: ends(&body.extent.x)?, y: ends(&body.extent.y)?, z: ends(&body.extent.z)? };
            if overlap(&room, &box_of) {
                found.push(at);
            }
        }
    }
    Ok(found)
}

/// The side that a tent's ladder stands on: `ladder_side`, or the one to which the tent opens.
///
/// # Errors
/// Either, where neither says a side.
pub fn ladder_side(body: &Item) -> Known<&'static str> {
    if let Some(side) = body.record.word(&fields::LADDER_SIDE) {
        return Ok(side.value);
    }
    match body.record.need_word(&fields::OPENS)?.value {
        "up" => Err(Missing::new(
            format!("the side that the ladder of {} stands on", body.called()),
            Some(body.tag.span),
            "give its `ladder_side`",
        )),
        side => Ok(side),
    }
}

/// Where the foot of a tent's ladder stands, in m: behind the ball and right of the centreline. It leans on the middle of the
/// opened tent's edge.
///
/// # Errors
/// The tent's place, floor, ladder or side, where that is not given; or a ladder that does not reach.
pub fn ladder_foot(build: &Build, tent: usize) -> Known<(Figure, Figure)> {
    let body = part(build, tent)?;
    let open = opened(build, tent)?;
    let out = ladder_out(build, tent)?;
    let end = |place: &Known<Coordinate>| place.as_ref().map(Figure::coordinate).map_err(Clone::clone);
    let middle = |reach: &Reach| -> Known<Figure> {
        Ok(Figure::coordinate(&reach.near.clone()?.mean(&reach.far.clone()?)))
    };
    Ok(match ladder_side(body)? {
        "left" => (middle(&open.x)?, alike(end(&open.y.near)?.minus(&out))?),
        "right" => (middle(&open.x)?, alike(end(&open.y.far)?.plus(&out))?),
        "front" => (alike(end(&open.x.near)?.minus(&out))?, middle(&open.y)?),
        _ => (alike(end(&open.x.far)?.plus(&out))?, middle(&open.y)?),
    })
}

/// How far out from the tent's edge the foot of its ladder stands, in m.
///
/// # Errors
/// The height of its floor or the length of its ladder, where that is not given; or a ladder that does not reach.
pub fn ladder_out(build: &Build, tent: usize) -> Known<Figure> {
    let body = part(build, tent)?;
    let (height, working) =
        (tent_floor_height(build, tent)?, crate::space::given(&body.record, &fields::LADDER)?);
    ladder::angle(height.quantity.si(), working.quantity.si()).ok_or_else(|| too_short(body))?;
    let out = |[height, working]: [f64; 2]| ladder::foot_from_edge(height, working).unwrap_or(f64::NAN);
    let unit = height.quantity.unit().map_or("in", pintle_quantity::Unit::name);
    Ok(Figure::by(Dimension::LENGTH, [&height, &working], out).shown_in(unit))
}

pub(super) fn too_short(body: &Item) -> Missing {
    let span = body.record.value(fields::LADDER.key).map(|value| value.span);
    Missing::new(
        format!("a ladder that reaches the floor of {}", body.called()),
        span,
        "its `ladder` is shorter than the floor is high",
    )
}

/// The doors, ramps and hatches that swing over the foot of a tent's ladder: by index of [`Build::items`].
///
/// # Errors
/// What [`ladder_foot`] and the swing of an opening need.
pub fn swung_over_foot(build: &Build, tent: usize) -> Known<Vec<usize>> {
    let (x, y) = ladder_foot(build, tent)?;
    let (x, y) = (x.quantity.si(), y.quantity.si());
    let mut found = Vec::new();
    for (at, opening) in build.of_table(Table::Opening) {
        if sweeps(build, opening)?.iter().any(|sweep| sweep.over(x, y)) {
            found.push(at);
        }
    }
    Ok(found)
}

/// How far aside of an opened tent and how far below it something is, in m: nought aside where the tent hangs over it;
/// negative below where it reaches above the tent's underside.
///
/// # Errors
/// A place or a size that is not given.
pub fn from_tent(build: &Build, tent: usize, other: usize) -> Known<(Figure, Figure)> {
    let (open, body) = (opened(build, tent)?, part(build, other)?);
    let apart = |one: &Reach, other: &Reach| -> Known<Figure> {
        let places = [one.near.clone()?, one.far.clone()?, other.near.clone()?, other.far.clone()?];
        let [a, b, c, d] = places.map(|place| Figure::coordinate(&place));
        Ok(Figure::by(Dimension::LENGTH, [&a, &b, &c, &d], |[a, b, c, d]| (c - b).max(a - d).max(0.0)))
    };
    let (along, across) = (apart(&open.x, &body.extent.x)?, apart(&open.y, &body.extent.y)?);
    let aside = Figure::by(Dimension::LENGTH, [&along, &across], |[x, y]| x.hypot(y));
    let below = crate::space::between(&body.extent.z.far.clone()?, &open.z.near.clone()?);
    let unit = body.record.quantity(&item::HEIGHT).and_then(|height| height.value.unit());
    Ok((aside.shown_in(unit.map_or("in", pintle_quantity::Unit::name)), below))
}
