//! From `at = { … }` in a zone to a box in the trailer's coordinates.

use pintle_finding::{Label, Problem, Role};

use crate::build::{Item, Zone};
use crate::field::Field;
use crate::layout::{Anchor, Coordinate, Extent, Known, Reach};
use crate::read::list;
use crate::record::{Missing, Record, Value};
use crate::schema::{item, kinds::tent, place};
use crate::surfaces::Surfaces;

/// A field of a place, and which end of the part it locates from which surface.
struct Gap {
    field: &'static Field,
    from: Known<Coordinate>,
    end: End,
}

#[derive(Clone, Copy)]
enum End {
    Near,
    Far,
    Middle,
}

/// What is used along one axis when no gap is given.
enum Otherwise {
    /// Nothing: the place is not known.
    Unknown,
    /// The part lies against the surface, or on the centreline.
    Against(Known<Coordinate>, End),
}

/// The gaps that a zone takes along one axis.
struct Axis {
    name: &'static str,
    gaps: Vec<Gap>,
    otherwise: Otherwise,
}

/// Whether a thing without a size is a point, and whether it stands on the floor by itself.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Body {
    /// A part: its size must be known, and it stands on what is under it.
    Part,
    /// A load: a point without a size, and its height is not known unless stated.
    Load,
}

/// Works out where a thing is. `items` are those of the build as far as they have been placed.
pub(crate) fn resolve(
    record: &Record,
    zone: Zone,
    body: Body,
    surfaces: &Surfaces,
    items: &[Item],
    problems: &mut Vec<Problem>,
) -> Extent {
    let axes = axes(zone, surfaces, items);
    let at = record.table(&item::AT);
    if let Some(at) = at {
        refuse_strangers(at, zone, &axes, problems);
    }
    let [x, y, z] = axes;
    let within = |field| record.table(&item::CG).and_then(|cg| Coordinate::of(cg, field).ok());
    let mut reach = |axis: Axis, size: &'static Field, cg: Option<Coordinate>, upright: bool| {
        let size = match Coordinate::of(record, size) {
            Err(_) if body == Body::Load => Ok(Coordinate::ORIGIN),
            known => known,
        };
        let floats = upright && body == Body::Load;
        Reach::from(anchor(record, at, axis, floats, problems), size, cg)
    };
    Extent {
        x: reach(x, &item::LENGTH, within(&place::cg::FRONT), false),
        y: reach(y, &item::WIDTH, within(&place::cg::LEFT), false),
        z: reach(z, &item::HEIGHT, within(&place::cg::FLOOR), true),
    }
}

fn anchor(
    record: &Record,
    at: Option<&Record>,
    axis: Axis,
    floats: bool,
    problems: &mut Vec<Problem>,
) -> Known<Anchor> {
    let given: Vec<&Gap> =
        axis.gaps.iter().filter(|gap| at.is_some_and(|at| at.value(gap.field.key).is_some())).collect();
    if let (Some(at), [first, second, ..]) = (at, given.as_slice()) {
        let mut problem = Problem::new(
            "two-places",
            format!(
                "{} has two gaps {}: `{}` and `{}`",
                record.what, axis.name, first.field.key, second.field.key
            ),
        )
        .help("keep the one that was measured");
        for gap in [second, first] {
            if let Some(value) = at.value(gap.field.key) {
                problem = problem.at(Label::new(value.span, Role::Subject, "one of the two"));
            }
        }
        problems.push(problem);
    }
    let end_at = |end: End, place: Coordinate| match end {
        End::Near => Anchor::Near(place),
        End::Far => Anchor::Far(place),
        End::Middle => Anchor::Middle(place),
    };
    if let (Some(at), Some(gap)) = (at, given.first()) {
        let from = gap.from.clone()?;
        let measured = Coordinate::of(at, gap.field)?;
        let sign = if matches!(gap.end, End::Far) { -1.0 } else { 1.0 };
        return Ok(end_at(gap.end, from.plus(sign, &measured)));
    }
    match axis.otherwise {
        Otherwise::Against(surface, end) if !floats => Ok(end_at(end, surface?)),
        _ => {
            let keys = list(axis.gaps.iter().map(|gap| gap.field.key));
            Err(Missing::new(
                format!("the place {} of {}", axis.name, record.what),
                at.map(|at| at.span).or(Some(record.span)),
                format!("give one of {keys} in its `at`"),
            ))
        }
    }
}

/// Fields of a place that mean nothing in its zone.
fn refuse_strangers(at: &Record, zone: Zone, axes: &[Axis; 3], problems: &mut Vec<Problem>) {
    let known = || axes.iter().flat_map(|axis| axis.gaps.iter().map(|gap| gap.field.key));
    for key in at.keys() {
        if !known().any(|name| name == key) {
            if let Some(value) = at.value(key) {
                problems.push(
                    Problem::new(
                        "wrong-gap",
                        format!("`{key}` means nothing for a place {}", zone_words(zone)),
                    )
                    .at(Label::new(value.span, Role::Subject, "not measured from there"))
                    .help(format!("there, places take {}", list(known()))),
                );
            }
        }
    }
}

fn zone_words(zone: Zone) -> &'static str {
    match zone {
        Zone::Inside => "inside",
        Zone::Tongue => "on the tongue",
        Zone::Roof => "on the roof",
        Zone::FrontWall => "on the front wall",
        Zone::RearDoor => "on the rear door",
        Zone::LeftWall => "in the left wall",
        Zone::RightWall => "in the right wall",
        Zone::Floor => "in the floor",
        Zone::Underside => "under the floor",
        Zone::Rack(_) => "on a rack",
        Zone::Locker(_) => "in a locker",
        Zone::Tent(_) => "in a tent",
    }
}

fn gap(field: &'static Field, from: &Known<Coordinate>, end: End) -> Gap {
    Gap { field, from: from.clone(), end }
}

fn negative(coordinate: &Known<Coordinate>) -> Known<Coordinate> {
    coordinate.clone().map(|place| Coordinate::ORIGIN.plus(-1.0, &place))
}

/// The gaps each zone takes, fore and aft, across, and upright.
fn axes(zone: Zone, s: &Surfaces, items: &[Item]) -> [Axis; 3] {
    use Otherwise::{Against, Unknown};
    let origin: Known<Coordinate> = Ok(Coordinate::ORIGIN);
    let along = |gaps, otherwise| Axis { name: "fore and aft", gaps, otherwise };
    let across = |gaps, otherwise| Axis { name: "across", gaps, otherwise };
    let upright = |gaps, otherwise| Axis { name: "upright", gaps, otherwise };
    let along_box = |square: &Known<Coordinate>, nose: &Known<Coordinate>, rear: &Known<Coordinate>| {
        vec![
            gap(&place::FRONT, square, End::Near),
            gap(&place::NOSE, nose, End::Near),
            gap(&place::REAR, rear, End::Far),
            gap(&place::BALL, &origin, End::Near),
            gap(&place::AXLE, &s.axle, End::Middle),
        ]
    };
    let inside_x = || along_box(&s.square_inside, &s.nose_inside, &s.rear_inside);
    let outside_x = || along_box(&s.square_outside, &s.nose_outside, &s.rear_outside);
    let across_box = |wall: &Known<Coordinate>| {
        vec![
            gap(&place::LEFT, &negative(wall), End::Near),
            gap(&place::RIGHT, wall, End::Far),
            gap(&place::CENTRE, &origin, End::Middle),
        ]
    };
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
            along(inside_x(), Unknown),
            across(inside_y(), centred()),
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
        Zone::Rack(host) | Zone::Locker(host) => {
            let Some(host) = items.get(host) else { return unplaced() };
            let of = &host.extent;
            let edge_x =
                vec![gap(&place::FRONT, &of.x.near, End::Near), gap(&place::REAR, &of.x.far, End::Far)];
            let middle = of.y.near.clone().and_then(|near| {
                let far = of.y.far.clone()?;
                Ok(Coordinate { metres: (near.metres + far.metres) / 2.0, ..near.plus(0.0, &far) })
            });
            let edge_y = vec![
                gap(&place::LEFT, &of.y.near, End::Near),
                gap(&place::RIGHT, &of.y.far, End::Far),
                gap(&place::CENTRE, &middle, End::Middle),
            ];
            if matches!(zone, Zone::Rack(_)) {
                let on_top = vec![gap(&place::GAP, &of.z.far, End::Near)];
                [
                    along(edge_x, Unknown),
                    across(edge_y, Against(middle, End::Middle)),
                    upright(on_top, Against(of.z.far.clone(), End::Near)),
                ]
            } else {
                let in_it = vec![
                    gap(&place::FLOOR, &of.z.near, End::Near),
                    gap(&place::CEILING, &of.z.far, End::Far),
                ];
                [
                    along(edge_x, Unknown),
                    across(edge_y, Unknown),
                    upright(in_it, Against(of.z.near.clone(), End::Near)),
                ]
            }
        }
        Zone::Tent(host) => {
            let Some(host) = items.get(host) else { return unplaced() };
            let of = &host.extent;
            let floor = Coordinate::of(&host.record, &tent::FLOOR)
                .and_then(|floor| Ok(of.z.near.clone()?.plus(1.0, &floor)));
            [
                along(vec![gap(&place::FRONT, &of.x.near, End::Near)], Against(of.x.near.clone(), End::Near)),
                across(vec![gap(&place::LEFT, &of.y.near, End::Near)], Against(of.y.near.clone(), End::Near)),
                upright(vec![gap(&place::FLOOR, &floor, End::Near)], Against(floor, End::Near)),
            ]
        }
    }
}

fn unplaced() -> [Axis; 3] {
    let axis = |name| Axis { name, gaps: Vec::new(), otherwise: Otherwise::Unknown };
    [axis("fore and aft"), axis("across"), axis("upright")]
}

/// Whether a record states any value at all for its place.
pub(crate) fn has_place(record: &Record) -> bool {
    matches!(record.value(item::AT.key).map(|value| &value.value), Some(Value::Table(at)) if at.keys().next().is_some())
}
