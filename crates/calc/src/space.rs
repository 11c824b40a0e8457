//! The room inside: its plan area and length, and which parts share its air.
//!
//! A part's zone says where it is mounted; [`whereabouts`] says by geometry where it is.

mod aisle;
mod berths;
mod bodies;
mod boxes;
mod budget;
mod exits;
mod fits;
mod given;
mod outline;
mod plan;
mod reach;
mod removal;
pub mod room;
mod swings;
#[cfg(test)]
pub(crate) mod trial;
mod whereabouts;
mod workings;

pub use aisle::route::{Night, Ring, Route, night};
pub use berths::{
    berth_length, berth_width, fall_height, gap_to_bedding, gap_to_burner, headroom_over, people_in,
};
pub use boxes::{Block, Hour, extent_at, wheel_boxes};
pub use exits::{clear_area, exits, least_side, sill, sleeping_area_asked};
pub use workings::workings;

use pintle_quantity::Dimension;
use pintle_spec::schema::trailer::{self, nose};
use pintle_spec::{Build, Item, Known, Table};

use crate::figure::{Figure, Trace};

pub(crate) use bodies::overlap_in_plan;
use bodies::reaches_inside;
pub(crate) use given::{
    alike, between, between_kin, constant, given, greatest, least, of_places, part, sum, worked,
};
pub use outline::Outline;
use outline::TOUCH;
pub use swings::{Along, Sweep, Swing, swings};
pub use whereabouts::{Where, Whereabouts, whereabouts};
pub(crate) use whereabouts::{berths_inside, elsewhere};

use whereabouts::{Closed, closed};

/// How far above the floor a locker may stand, in metres, and still leave no floor under it. One inch: ours, no source.
const ON_THE_FLOOR: f64 = 0.0254;

/// How far a part's centre of gravity lies behind the axle, or the middle of an axle group, in m; negative ahead of it.
///
/// # Errors
/// Its place or size, or the axle's place.
pub fn behind_axle(build: &Build, at: usize) -> Known<Figure> {
    Ok(between(&build.surfaces.axle.clone()?, &part(build, at)?.extent.x.cg.clone()?))
}

/// Plan area inside the walls, in m²: width × length, and the nose. A wedge adds (width + front width) / 2 × depth,
/// with a front width of zero when it is not given, as the schema says; a round nose adds half an ellipse,
/// π/4 × width × depth. Lockers that stand on the floor, open only to the outside and are sealed to the inside are
/// outside the living space: their footprint is taken off.
///
/// # Errors
/// The measure of the trailer, or the place, `opens` or `sealed` of a locker, that is not given.
pub fn plan_area(build: &Build) -> Known<Figure> {
    let width = given(&build.trailer, &trailer::WIDTH)?;
    let length = given(&build.trailer, &trailer::LENGTH)?;
    let square = width.times(&length);
    let shape = build.trailer.need_table(&trailer::NOSE)?;
    let whole = match shape.need_word(&nose::SHAPE)?.value {
        "flat" => square,
        "round" => {
            let depth = given(shape, &nose::DEPTH)?;
            alike(square.plus(&width.times(&depth).scaled(std::f64::consts::FRAC_PI_4)))?
        }
        _ => {
            let depth = given(shape, &nose::DEPTH)?;
            let widths = match shape.quantity(&nose::FRONT_WIDTH) {
                Some(_) => alike(width.plus(&given(shape, &nose::FRONT_WIDTH)?))?,
                None => width,
            };
            alike(square.plus(&widths.scaled(0.5).times(&depth)))?
        }
    };
    let lockers = sealed_floor_lockers(build)?;
    if lockers.is_empty() {
        return Ok(whole);
    }
    let footprint = footprint(&Outline::inside(build)?, &lockers)?;
    alike(whole.minus(&footprint))
}

/// Lockers that reach inside, stand on the floor and are no part of the living space.
fn sealed_floor_lockers(build: &Build) -> Known<Vec<&Item>> {
    let mut sealed = Vec::new();
    for (_, locker) in build.of_table(Table::Locker) {
        if reaches_inside(build, &locker.extent)? && matches!(closed(locker)?, Closed::Sealed(_)) {
            let above = locker.extent.z.near.clone()?.metres - build.surfaces.floor.clone()?.metres;
            if above <= ON_THE_FLOOR + TOUCH {
                sealed.push(locker);
            }
        }
    }
    Ok(sealed)
}

/// The area of an outline that lockers cover, what two of them cover counted once: strip by strip between all their
/// front and rear edges.
fn footprint(outline: &Outline, lockers: &[&Item]) -> Known<Figure> {
    let mut inputs = Vec::new();
    let mut plans = Vec::new();
    let mut edges = Vec::new();
    for locker in lockers {
        let (x, y) = (&locker.extent.x, &locker.extent.y);
        let ends = [x.near.clone()?, x.far.clone()?, y.near.clone()?, y.far.clone()?];
        let [front, rear, left, right] = ends.each_ref().map(|end| end.metres);
        edges.extend([front, rear]);
        plans.push((left, right, front, rear));
        let sizes = [
            given(&locker.record, &pintle_spec::schema::item::LENGTH)?,
            given(&locker.record, &pintle_spec::schema::item::WIDTH)?,
        ];
        inputs.extend(sizes.iter().flat_map(|size| size.trace.inputs()));
    }
    edges.sort_by(f64::total_cmp);
    plans.sort_by(|one, other| one.0.total_cmp(&other.0));
    let mut area = 0.0;
    for strip in edges.windows(2) {
        let &[front, rear] = strip else { continue };
        let mut covered = f64::NEG_INFINITY;
        for (left, right, _, _) in plans.iter().filter(|plan| plan.2 <= front && plan.3 >= rear) {
            area += outline.area_of(front, rear, left.max(covered), *right);
            covered = covered.max(*right);
        }
    }
    Ok(Figure::new(worked(area, Dimension::AREA, Vec::new()).quantity, Trace::given(inputs)))
}

/// Length inside on the centreline, from the inside of the nose to the rear door, in m. Against the nominal box a
/// wedge nose gives about 1 ft 6 in more (common practice, no source).
///
/// # Errors
/// The measure of the trailer that is not given.
pub fn inside_length(build: &Build) -> Known<Figure> {
    let length = given(&build.trailer, &trailer::LENGTH)?;
    let shape = build.trailer.need_table(&trailer::NOSE)?;
    match shape.need_word(&nose::SHAPE)?.value {
        "flat" => Ok(length),
        _ => alike(length.plus(&given(shape, &nose::DEPTH)?)),
    }
}

/// Where the outside of the front is at a distance from the centreline, in m behind the ball. `y` is to the right of the
/// centreline, negative to the left. Beyond the sides, the place where the sides begin: of a flat nose, its front.
///
/// # Errors
/// The measure of the trailer that is not given.
pub fn roof_front_at(build: &Build, y: &Figure) -> Known<Figure> {
    alike(y.quantity.compare(pintle_quantity::Quantity::from_si(0.0, Dimension::LENGTH)))?;
    let outline = Outline::outside(build)?;
    let front = worked(outline.front_at(y.quantity.si()), Dimension::LENGTH, outline.inputs);
    Ok(Figure::new(front.quantity, front.trace.and(&y.trace)))
}

#[cfg(test)]
mod tests;
