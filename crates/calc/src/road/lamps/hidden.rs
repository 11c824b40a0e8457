//! Lamps with something in front of them: what is fixed or carried outside, seen straight from the rear, the front or a
//! side. Whether a lamp can still be seen at an angle is not looked at.

use pintle_spec::record::Record;
use pintle_spec::schema::kinds::tent;
use pintle_spec::schema::trailer::{self, lamp};
use pintle_spec::{Build, Coordinate, Extent, Item, Known, Missing, Table, Use, Zone};

use super::{Fitted, RequiredLamp, fitted, required_of};

/// Overlaps smaller than this, in metres, are touches.
const TOUCH: f64 = 1e-9;

/// From where a lamp is seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Face {
    Rear,
    Front,
    Left,
    Right,
}

fn faces_of(name: &str) -> &'static [Face] {
    match name {
        "front clearance" => &[Face::Front],
        name if name.contains("side") => &[Face::Left, Face::Right],
        _ => &[Face::Rear],
    }
}

/// A reach along one axis, in metres.
type Range = (f64, f64);

/// Something outside, with its box.
struct Obstacle {
    called: String,
    x: Range,
    y: Range,
    z: Range,
}

fn range(near: &Known<Coordinate>, far: &Known<Coordinate>) -> Known<Range> {
    let at = |end: &Known<Coordinate>| end.as_ref().map(|place| place.metres).map_err(Clone::clone);
    Ok((at(near)?, at(far)?))
}

fn boxed(called: String, of: &Extent) -> Known<Obstacle> {
    let [x, y, z] = [&of.x, &of.y, &of.z];
    Ok(Obstacle {
        called,
        x: range(&x.near, &x.far)?,
        y: range(&y.near, &y.far)?,
        z: range(&z.near, &z.far)?,
    })
}

/// Whether a zone is outside the body. What is in or through a wall or floor is no obstacle.
fn is_outside(zone: Zone) -> bool {
    !matches!(zone, Zone::Inside | Zone::Floor | Zone::Tent(_) | Zone::Locker(_))
}

/// A tent's box when it is open: what it is shut, and what it reaches on the side to which it opens.
fn opened(tent_item: &Item, mut shut: Obstacle) -> Known<Obstacle> {
    let reach = tent_item.record.need(&tent::OPEN_REACH)?.value.si();
    match tent_item.record.need_word(&tent::OPENS)?.value {
        "rear" => shut.x.1 += reach,
        "front" => shut.x.0 -= reach,
        "left" => shut.y.0 -= reach,
        "right" => shut.y.1 += reach,
        _ => {}
    }
    shut.called = format!("the open {}", tent_item.called());
    Ok(shut)
}

/// All that is outside: on the road with tents shut, or parked with tents open.
fn obstacles(build: &Build, used: Use) -> Known<Vec<Obstacle>> {
    let mut found = Vec::new();
    let flush =
        |body: &Item| matches!(body.table, Table::Vent | Table::Opening | Table::Berth | Table::Bulkhead);
    for body in build.items.iter().filter(|body| is_outside(body.zone) && !flush(body)) {
        if used == Use::Camp && (body.kind == "tent" || body.table == Table::Load) {
            if body.kind == "tent" {
                found.push(opened(body, boxed(body.called(), &body.extent)?)?);
            }
            continue;
        }
        found.push(boxed(body.called(), &body.extent)?);
    }
    for state in build.states.iter().filter(|state| state.used == used) {
        for load in state.loads.iter().filter(|load| is_outside(load.zone)) {
            found.push(boxed(format!("load `{}`", load.what.value), &load.extent)?);
        }
    }
    Ok(found)
}

/// What stands before one face of the body.
fn before(face: Face, build: &Build, all: &[Obstacle]) -> Known<Vec<usize>> {
    let at = |place: &Known<Coordinate>| place.as_ref().map(|place| place.metres).map_err(Clone::clone);
    let edge = match face {
        Face::Rear => at(&build.surfaces.rear_outside)?,
        Face::Front => at(&build.surfaces.square_outside)?,
        Face::Left | Face::Right => at(&build.surfaces.wall_outside)?,
    };
    let reaches = |obstacle: &Obstacle| match face {
        Face::Rear => obstacle.x.1 > edge + TOUCH,
        Face::Front => obstacle.x.0 < edge - TOUCH,
        Face::Left => obstacle.y.0 < -edge - TOUCH,
        Face::Right => obstacle.y.1 > edge + TOUCH,
    };
    Ok(all.iter().enumerate().filter(|(_, one)| reaches(one)).map(|(index, _)| index).collect())
}

/// Where a lamp may be along an axis: at points, or anywhere in a range as nobody says.
enum Somewhere {
    At(Vec<f64>),
    Within(Range),
}

impl Somewhere {
    /// Whether it is behind a reach for sure; none where that depends on what is not given.
    fn behind(&self, reach: Range) -> Option<bool> {
        match self {
            Self::At(points) => Some(points.iter().any(|at| *at > reach.0 + TOUCH && *at < reach.1 - TOUCH)),
            Self::Within((least, most)) if reach.1 <= least + TOUCH || reach.0 >= most - TOUCH => Some(false),
            Self::Within((least, most)) if reach.0 <= least + TOUCH && reach.1 >= most - TOUCH => Some(true),
            Self::Within(_) => None,
        }
    }
}

/// A lamp's place: upright, and along its face.
fn place_of(
    required: &RequiredLamp,
    table: Option<&Record>,
    face: Face,
    build: &Build,
) -> Known<[Somewhere; 2]> {
    let skin = build.surfaces.skin.clone()?.metres;
    let inches = |inches: f64| pintle_quantity::Quantity::inches(inches).si();
    let lowest = required.band.lowest.map_or(0.0, inches);
    let highest = required.band.highest.map_or(skin, inches).min(skin);
    let at = |field| table.and_then(|table| table.quantity(field)).map(|held| held.value.si());
    let upright =
        at(&lamp::HEIGHT).map_or(Somewhere::Within((lowest, highest)), |at| Somewhere::At(vec![at]));
    let along = if matches!(face, Face::Left | Face::Right) {
        let sides = range(&build.surfaces.nose_outside, &build.surfaces.rear_outside)?;
        at(&lamp::BALL).map_or(Somewhere::Within(sides), |at| Somewhere::At(vec![at]))
    } else {
        let half = super::overall_width(build)?.quantity.si() / 2.0;
        let middle = required.count == 3;
        at(&lamp::CENTRE).map_or(Somewhere::Within((-half, half)), |at| {
            let pair = [at, -at].into_iter().chain(middle.then_some(0.0));
            Somewhere::At(pair.collect())
        })
    };
    Ok([upright, along])
}

fn unplaced(required: &RequiredLamp, by: &str, table: Option<&Record>, build: &Build) -> Missing {
    let span = table.map_or_else(
        || build.trailer.value(trailer::LAMPS.key).map(|held| held.span),
        |table| Some(table.span),
    );
    Missing::new(
        format!("where the {} lamps are, with {by} in front of where they may be", required.name),
        span,
        format!(
            "add `height` and `centre`, or `ball` of lamps at the sides, to their table in `lamp` of the trailer, \
             `{{ name = \"{}\", … }}`",
            required.name
        ),
    )
}

/// The lamps that something stands before, each with what it is: on the road, tents shut and every part and load that
/// may ride there aboard; or parked, tents open.
///
/// # Errors
/// The place or size of what is outside; the height and place of a lamp that something may stand before; and what
/// [`missing_lamps`](super::missing_lamps) needs.
pub fn hidden_lamps(build: &Build, used: Use) -> Known<Vec<String>> {
    let all = obstacles(build, used)?;
    let mut hidden = Vec::new();
    for required in required_of(build)? {
        let Fitted { there, tables } = fitted(build, required.name)?;
        let tables: Vec<Option<&Record>> = match (tables.is_empty(), there) {
            (true, true) => vec![None],
            _ => tables.into_iter().map(Some).collect(),
        };
        for (table, face) in
            tables.iter().flat_map(|table| faces_of(required.name).iter().map(move |face| (table, *face)))
        {
            let standing = before(face, build, &all)?;
            for obstacle in standing.into_iter().filter_map(|index| all.get(index)) {
                let [upright, along] = place_of(&required, *table, face, build)?;
                let across = if matches!(face, Face::Left | Face::Right) { obstacle.x } else { obstacle.y };
                match (upright.behind(obstacle.z), along.behind(across)) {
                    (Some(false), _) | (_, Some(false)) => {}
                    (Some(true), Some(true)) => {
                        let line = format!("{} behind {}", required.name, obstacle.called);
                        if !hidden.contains(&line) {
                            hidden.push(line);
                        }
                    }
                    _ => return Err(unplaced(&required, &obstacle.called, *table, build)),
                }
            }
        }
    }
    Ok(hidden)
}
