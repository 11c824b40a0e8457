//! From `at = { … }` in a zone to a box in the trailer's coordinates.

mod axes;

use pintle_finding::{Label, Problem, Role};

use axes::axes;

use crate::build::{Item, Zone};
use crate::field::Field;
use crate::layout::{Anchor, Coordinate, Extent, Known, Reach};
use crate::read::list;
use crate::record::{Missing, Record, Value};
use crate::schema::{item, place};
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
    /// A door, window or hatch: a part that is flush with its wall unless it says how thick it is.
    Opening,
}

/// The size of a part across the wall that it is in.
fn across_its_wall(zone: Zone) -> Option<&'static Field> {
    match zone {
        Zone::FrontWall | Zone::RearDoor => Some(&item::LENGTH),
        Zone::LeftWall | Zone::RightWall => Some(&item::WIDTH),
        Zone::Roof | Zone::Floor => Some(&item::HEIGHT),
        _ => None,
    }
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
        let flush =
            body == Body::Opening && across_its_wall(zone).is_some_and(|across| std::ptr::eq(across, size));
        let size = match Coordinate::of(record, size) {
            Err(_) if body == Body::Load || flush => Ok(Coordinate::ORIGIN),
            known => known,
        };
        let floats = upright && body == Body::Load;
        Reach::from(anchor(record, at, axis, floats, problems), &size, cg.as_ref())
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
    if let (Some(at), [_, _, ..]) = (at, given.as_slice()) {
        let mut problem = Problem::new(
            "two-places",
            format!(
                "{} has more than one gap {}: {}",
                record.what,
                axis.name,
                list(given.iter().map(|gap| gap.field.key))
            ),
        )
        .help("keep the one that was measured");
        let mut spans: Vec<_> = given.iter().filter_map(|gap| Some(at.value(gap.field.key)?.span)).collect();
        spans.sort();
        for span in spans {
            problem = problem.at(Label::new(span, Role::Subject, "one of them"));
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
        if known().any(|name| name == key) {
            continue;
        }
        let Some(value) = at.value(key) else { continue };
        problems.push(
            Problem::new("wrong-gap", format!("`{key}` means nothing for a place {}", zone_words(zone)))
                .at(Label::new(value.span, Role::Subject, "not measured from there"))
                .help(format!("there, places take {}", list(known()))),
        );
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

/// Whether a record states any value at all for its place, be it one that could not be read.
pub(crate) fn has_place(record: &Record) -> bool {
    match record.value(item::AT.key).map(|value| &value.value) {
        Some(Value::Table(at)) => at.keys().next().is_some() || at.has_refused(),
        _ => record.is_refused(item::AT.key),
    }
}
