//! Ways out: the size of what an opening leaves free, where it is, and whether it can be opened.

use pintle_quantity::{Dimension, Quantity};
use pintle_spec::schema::item;
use pintle_spec::schema::kinds::opening;
use pintle_spec::{Build, Item, Known, Missing, Table, Zone};

use crate::figure::Figure;
use crate::space::{alike, between, given, of_places};

/// The openings that the spec reckons as ways out, with their indices.
///
/// # Errors
/// That the spec lists no opening at all, or does not say of one whether it is a way out.
pub fn exits(build: &Build) -> Known<Vec<(usize, &Item)>> {
    if build.of_table(Table::Opening).next().is_none() {
        return Err(Missing::new(
            "the doors, windows and hatches of the trailer",
            None,
            "add each as [[opening]], with `exit = true` where it is a way out",
        ));
    }
    let mut found = Vec::new();
    for (at, body) in build.of_table(Table::Opening) {
        if body.record.need_flag(&opening::EXIT)?.value {
            found.push((at, body));
        }
    }
    Ok(found)
}

/// Whether an opening is said to be a way out.
pub(crate) fn is_exit(body: &Item) -> bool {
    body.record.flag(&opening::EXIT).is_some_and(|exit| exit.value)
}

/// Whether a way out is a door that one walks through: not a window or hatch.
pub(crate) fn is_door(body: &Item) -> bool {
    body.record.word(&opening::SORT).is_some_and(|sort| matches!(sort.value, "door" | "barn doors" | "ramp"))
}

/// Area of what an opening leaves free, in m²: width × height, or π/4 of it for an ellipse.
///
/// ```
/// use pintle_calc::{Figure, space::clear_area};
/// use pintle_quantity::{Quantity, Unit};
///
/// let side = |inches| Figure::constant(Quantity::inches(inches));
/// let found = clear_area(&side(24.0), &side(17.0), true).quantity;
/// assert!((found.value_in(Unit::find("in²").unwrap())? - 320.44).abs() < 0.01);
/// # Ok::<(), pintle_quantity::DimensionMismatch>(())
/// ```
#[must_use]
pub fn clear_area(width: &Figure, height: &Figure, ellipse: bool) -> Figure {
    let whole = width.times(height);
    if ellipse { whole.scaled(std::f64::consts::FRAC_PI_4) } else { whole }
}

/// Whether an opening leaves an ellipse free; a rectangle when it does not say.
pub(crate) fn is_ellipse(body: &Item) -> bool {
    body.record.word(&opening::OUTLINE).is_some_and(|outline| outline.value == "ellipse")
}

/// Height of the lower edge of an opening above the floor, in m: its `sill`; that of its frame when not given, as the
/// schema says.
///
/// # Errors
/// Its place, or the height of the floor, that is not given.
pub fn sill(build: &Build, body: &Item) -> Known<Figure> {
    if body.record.value(opening::SILL.key).is_some() {
        return given(&body.record, &opening::SILL);
    }
    Ok(between(&build.surfaces.floor.clone()?, &body.extent.z.near.clone()?))
}

/// Room that 675 IAC 15-2-24 asks of a place to sleep, in m², for so many people: 50 ft² for one, 70 ft² for two, 50 ft²
/// for each more. It binds makers of mobile structures in one state; here it is a yardstick.
///
/// ```
/// use pintle_calc::space::sleeping_area_asked;
/// use pintle_quantity::Unit;
///
/// let two = sleeping_area_asked(2).quantity.value_in(Unit::find("ft²").unwrap())?;
/// assert!((two - 70.0).abs() < 1e-9);
/// # Ok::<(), pintle_quantity::DimensionMismatch>(())
/// ```
#[must_use]
pub fn sleeping_area_asked(people: u32) -> Figure {
    let feet = match people {
        0 => 0.0,
        1 => 50.0,
        more => 70.0 + 50.0 * f64::from(more - 2),
    };
    Figure::constant(Quantity::feet(1.0).times(Quantity::feet(1.0)).scaled(feet)).shown_in("ft²")
}

/// A way out as it lies in plan. Metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Way {
    /// Fore and aft.
    pub(crate) x: (f64, f64),
    /// Across.
    pub(crate) y: (f64, f64),
    /// Whether it is in the roof or the floor: one has to stand under or on it, not before it.
    pub(crate) flat: bool,
}

/// Where the opening left free lies in plan: on the inside of its wall, in the middle of its frame.
///
/// # Errors
/// The place, size or clear width of it, or the measure of the trailer, that is not given.
pub(crate) fn way(build: &Build, body: &Item) -> Known<Way> {
    let s = &build.surfaces;
    let middle =
        |reach: &pintle_spec::Reach| Ok(f64::midpoint(reach.near.clone()?.metres, reach.far.clone()?.metres));
    let width = body.record.need(&opening::CLEAR_WIDTH)?.value.si();
    let about = |middle: f64, size: f64| (middle - size / 2.0, middle + size / 2.0);
    let line = |place: f64| (place, place);
    let (x, y, flat) = match body.zone {
        Zone::LeftWall | Zone::RightWall => {
            let wall = s.wall_inside.clone()?.metres;
            let wall = if body.zone == Zone::LeftWall { -wall } else { wall };
            (about(middle(&body.extent.x)?, width), line(wall), false)
        }
        Zone::RearDoor => (line(s.rear_inside.clone()?.metres), about(middle(&body.extent.y)?, width), false),
        Zone::FrontWall => {
            (line(s.nose_inside.clone()?.metres), about(middle(&body.extent.y)?, width), false)
        }
        Zone::Roof | Zone::Floor => {
            let length = body.record.need(&opening::CLEAR_HEIGHT)?.value.si();
            (about(middle(&body.extent.x)?, length), about(middle(&body.extent.y)?, width), true)
        }
        _ => {
            return Err(Missing::new(
                format!("a wall, the roof or the floor that {} is in", body.called()),
                Some(body.record.value(item::ZONE.key).map_or(body.tag.span, |zone| zone.span)),
                "give its `zone`, such as \"rear door\"",
            ));
        }
    };
    Ok(Way { x, y, flat })
}

/// The frame of an opening in a wall: from where to where along the wall, and upright, in m.
///
/// # Errors
/// The place or size of it that is not given.
pub(crate) fn frame(body: &Item) -> Known<[(f64, f64); 2]> {
    let ends = |reach: &pintle_spec::Reach| Ok((reach.near.clone()?.metres, reach.far.clone()?.metres));
    let facing_x = matches!(body.zone, Zone::RearDoor | Zone::FrontWall);
    Ok([ends(if facing_x { &body.extent.y } else { &body.extent.x })?, ends(&body.extent.z)?])
}

/// From one way out to another, in m: between the middles of what they leave free.
///
/// # Errors
/// The place or size of one that is not given.
pub(crate) fn apart(build: &Build, one: &Item, other: &Item) -> Known<Figure> {
    let middle = |reach: (f64, f64)| f64::midpoint(reach.0, reach.1);
    let (from, to) = (way(build, one)?, way(build, other)?);
    let metres = (middle(from.x) - middle(to.x)).hypot(middle(from.y) - middle(to.y));
    Ok(of_places(metres, Dimension::LENGTH, "in", build, &[one, other]))
}

/// How far a latch is above the floor, in m.
///
/// # Errors
/// That it is not given.
pub(crate) fn latch(body: &Item) -> Known<Figure> {
    given(&body.record, &opening::LATCH)
}

/// The shorter side of what an opening leaves free, in m.
///
/// # Errors
/// The clear width or height that is not given.
pub fn least_side(body: &Item) -> Known<Figure> {
    let width = given(&body.record, &opening::CLEAR_WIDTH)?;
    alike(width.lesser(&given(&body.record, &opening::CLEAR_HEIGHT)?))
}
