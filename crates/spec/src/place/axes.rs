//! The gaps that each zone takes, and the surfaces they are measured from.

use super::Otherwise::{Against, Unknown};
use super::{Axis, End, Gap, Otherwise};
use crate::build::{Item, Zone};
use crate::field::Field;
use crate::layout::{Coordinate, Extent, Known};
use crate::schema::{kinds::tent, place};
use crate::surfaces::Surfaces;

fn gap(field: &'static Field, from: &Known<Coordinate>, end: End) -> Gap {
    Gap { field, from: from.clone(), end }
}

fn negative(coordinate: &Known<Coordinate>) -> Known<Coordinate> {
    coordinate.clone().map(|place| Coordinate::ORIGIN.plus(-1.0, &place))
}

/// The gaps each zone takes, fore and aft, across, and upright.
pub(super) fn axes(zone: Zone, s: &Surfaces, items: &[Item]) -> [Axis; 3] {
    let origin: Known<Coordinate> = Ok(Coordinate::ORIGIN);
    let inside_x = || along_box(s, [&s.square_inside, &s.nose_inside, &s.rear_inside]);
    let outside_x = || along_box(s, [&s.square_outside, &s.nose_outside, &s.rear_outside]);
    let inside_y = || across_box(&s.wall_inside);
    let outside_y = || across_box(&s.wall_outside);
    let inside_z = || {
        vec![
            gap(&place::FLOOR, &s.floor, End::Near),
            gap(&place::CEILING, &s.ceiling, End::Far),
            gap(&place::GROUND, &origin, End::Near),
        ]
    };
    let centred = || Against(origin.clone(), End::Middle);
    match zone {
        Zone::Inside => [
            along(inside_x(), Unknown),
            across(inside_y(), Unknown),
            upright(inside_z(), Against(s.floor.clone(), End::Near)),
        ],
        Zone::LeftWall | Zone::RightWall => {
            let wall = if zone == Zone::LeftWall { negative(&s.wall_inside) } else { s.wall_inside.clone() };
            [
                along(inside_x(), Unknown),
                across(Vec::new(), Against(wall, End::Middle)),
                upright(inside_z(), Unknown),
            ]
        }
        Zone::Floor => [
            along(inside_x(), Unknown),
            across(inside_y(), Unknown),
            upright(vec![gap(&place::GAP, &s.floor, End::Near)], Against(s.floor.clone(), End::Near)),
        ],
        Zone::Underside => [
            along(outside_x(), Unknown),
            across(outside_y(), centred()),
            upright(vec![gap(&place::GROUND, &origin, End::Near)], Unknown),
        ],
        Zone::Tongue => [
            along(
                vec![gap(&place::BALL, &origin, End::Near), gap(&place::BOX, &s.nose_outside, End::Far)],
                Unknown,
            ),
            across(vec![gap(&place::CENTRE, &origin, End::Middle)], centred()),
            upright(
                vec![gap(&place::FRAME, &s.frame, End::Near), gap(&place::GROUND, &origin, End::Near)],
                Against(s.frame.clone(), End::Near),
            ),
        ],
        Zone::Roof => [
            along(outside_x(), Unknown),
            across(outside_y(), centred()),
            upright(vec![gap(&place::GAP, &s.skin, End::Near)], Against(s.skin.clone(), End::Near)),
        ],
        Zone::FrontWall => [
            along(
                vec![gap(&place::GAP, &s.nose_outside, End::Far)],
                Against(s.nose_outside.clone(), End::Far),
            ),
            across(outside_y(), centred()),
            upright(inside_z(), Unknown),
        ],
        Zone::RearDoor => [
            along(
                vec![gap(&place::GAP, &s.rear_outside, End::Near)],
                Against(s.rear_outside.clone(), End::Near),
            ),
            across(outside_y(), centred()),
            upright(inside_z(), Unknown),
        ],
        Zone::Rack(host) => items.get(host).map_or_else(unplaced, |host| on_part(&host.extent, true)),
        Zone::Locker(host) => items.get(host).map_or_else(unplaced, |host| on_part(&host.extent, false)),
        Zone::Tent(host) => items.get(host).map_or_else(unplaced, in_tent),
    }
}

/// The gaps along the box, to where its sides begin, its nose and its rear.
fn along_box(s: &Surfaces, [square, nose, rear]: [&Known<Coordinate>; 3]) -> Vec<Gap> {
    vec![
        gap(&place::FRONT, square, End::Near),
        gap(&place::NOSE, nose, End::Near),
        gap(&place::REAR, rear, End::Far),
        gap(&place::BALL, &Ok(Coordinate::ORIGIN), End::Near),
        gap(&place::AXLE, &s.axle, End::Middle),
    ]
}

/// The gaps across the box, to the walls and the centreline.
fn across_box(wall: &Known<Coordinate>) -> Vec<Gap> {
    vec![
        gap(&place::LEFT, &negative(wall), End::Near),
        gap(&place::RIGHT, wall, End::Far),
        gap(&place::CENTRE, &Ok(Coordinate::ORIGIN), End::Middle),
    ]
}

fn along(gaps: Vec<Gap>, otherwise: Otherwise) -> Axis {
    Axis { name: "fore and aft", gaps, otherwise }
}

fn across(gaps: Vec<Gap>, otherwise: Otherwise) -> Axis {
    Axis { name: "across", gaps, otherwise }
}

fn upright(gaps: Vec<Gap>, otherwise: Otherwise) -> Axis {
    Axis { name: "upright", gaps, otherwise }
}

/// The gaps to the edges of a part: on top of it, or in it.
fn on_part(of: &Extent, on_top: bool) -> [Axis; 3] {
    let edge_x = vec![gap(&place::FRONT, &of.x.near, End::Near), gap(&place::REAR, &of.x.far, End::Far)];
    let middle = of.y.near.clone().and_then(|near| {
        let far = of.y.far.clone()?;
        Ok(near.mean(&far))
    });
    let edge_y = vec![
        gap(&place::LEFT, &of.y.near, End::Near),
        gap(&place::RIGHT, &of.y.far, End::Far),
        gap(&place::CENTRE, &middle, End::Middle),
    ];
    if on_top {
        [
            along(edge_x, Unknown),
            across(edge_y, Against(middle, End::Middle)),
            upright(vec![gap(&place::GAP, &of.z.far, End::Near)], Against(of.z.far.clone(), End::Near)),
        ]
    } else {
        let in_it =
            vec![gap(&place::FLOOR, &of.z.near, End::Near), gap(&place::CEILING, &of.z.far, End::Far)];
        [
            along(edge_x, Unknown),
            across(edge_y, Unknown),
            upright(in_it, Against(of.z.near.clone(), End::Near)),
        ]
    }
}

/// The gaps in a tent: to its front and left edges, and above its floor.
fn in_tent(host: &Item) -> [Axis; 3] {
    let of = &host.extent;
    let floor =
        Coordinate::of(&host.record, &tent::FLOOR).and_then(|floor| Ok(of.z.near.clone()?.plus(1.0, &floor)));
    [
        along(vec![gap(&place::FRONT, &of.x.near, End::Near)], Against(of.x.near.clone(), End::Near)),
        across(vec![gap(&place::LEFT, &of.y.near, End::Near)], Against(of.y.near.clone(), End::Near)),
        upright(vec![gap(&place::FLOOR, &floor, End::Near)], Against(floor, End::Near)),
    ]
}

fn unplaced() -> [Axis; 3] {
    let axis = |name| Axis { name, gaps: Vec::new(), otherwise: Otherwise::Unknown };
    [axis("fore and aft"), axis("across"), axis("upright")]
}
