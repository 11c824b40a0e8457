//! What the road asks of the trailer: its size, lamps, brakes, labels and tires, by the places where it is registered
//! and towed.
//!
//! What each place asks is data with a date ([`crate::place`]); only lamps are a table here, since one federal text has
//! them. Part 393 of 49 CFR binds commercial motor vehicles: for a private camper it is a yardstick.

pub mod brakes;
pub mod ground;
pub mod labels;
mod lamps;
pub mod nose;
pub mod tires;
#[cfg(test)]
pub(crate) mod trial;
pub mod vin;
mod workings;

pub use lamps::{
    LampBand, RequiredLamp, hidden_lamps, lamps_misplaced, lamps_too_few, lamps_wrong_colour, missing_lamps,
    needs_tape, required_lamps,
};
pub use workings::workings;

use pintle_spec::schema::trailer;
use pintle_spec::{Build, Known, Missing, Table, Zone};

use crate::figure::Figure;
use crate::space::{between, given, greatest};

/// Outside width with rigid fenders, in m, as given. Lamps, mirrors, flexible fender extensions and mud flaps are no
/// part of it (NHTSA interpretation nht93-4.12).
///
/// # Errors
/// `overall_width` of the trailer, where it is not given: fenders cannot be guessed from the box.
pub fn overall_width(build: &Build) -> Known<Figure> {
    given(&build.trailer, &trailer::OVERALL_WIDTH)
}

/// Outside length with tongue, in m: as given, else from the ball to the rearmost of the box and of what hangs on its
/// rear door. The coupler ahead of the ball is then not counted.
///
/// # Errors
/// The measure of the box, or of a part on the rear door, that is not given.
pub fn overall_length(build: &Build) -> Known<Figure> {
    if build.trailer.quantity(&trailer::OVERALL_LENGTH).is_some() {
        return given(&build.trailer, &trailer::OVERALL_LENGTH);
    }
    let boxed = Figure::coordinate(&build.surfaces.rear_outside.clone()?);
    let mut ends = vec![boxed.clone()];
    // A load that hangs there is no part of the trailer.
    let parts = build.items.iter().filter(|body| body.table != Table::Load);
    for hung in parts.filter(|body| body.zone == Zone::RearDoor) {
        ends.push(Figure::coordinate(&hung.extent.x.far.clone()?));
    }
    Ok(greatest(ends).unwrap_or(boxed))
}

/// How far the trailer reaches behind its axle, or behind the middle of its axle group, in m: to the rearmost of the box
/// and of what hangs on its rear door. A load is no part of the trailer.
///
/// # Errors
/// The place of the axle, the measure of the box, or of a part on the rear door, that is not given.
pub fn rear_overhang(build: &Build) -> Known<Figure> {
    let axle = build.surfaces.axle.clone()?;
    let mut ends = vec![between(&axle, &build.surfaces.rear_outside.clone()?)];
    let parts = build.items.iter().filter(|body| body.table != Table::Load);
    for hung in parts.filter(|body| body.zone == Zone::RearDoor) {
        ends.push(between(&axle, &hung.extent.x.far.clone()?));
    }
    greatest(ends).ok_or_else(|| Missing::new("the rear of the trailer", None, "report this"))
}

#[cfg(test)]
mod tests;
