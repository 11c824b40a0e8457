//! What the law of the road asks of the trailer's size: its width, length, and the lamps that follow from them.

mod workings;

pub use workings::workings;

use pintle_quantity::Quantity;
use pintle_spec::schema::trailer;
use pintle_spec::{Build, Known, Table, Zone};

use crate::figure::Figure;
use crate::space::{alike, given, greatest};

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

/// Width from which a trailer needs clearance and identification lamps, in inches: 49 CFR 571.108 Table I-b.
const WIDE: f64 = 80.0;
/// Length from which a trailer needs front side markers, in feet: the same; the tongue is counted.
const NOT_SHORT: f64 = 6.0;
/// Length from which a trailer needs side markers at its middle, in feet: the same, "30 feet or longer". 49 CFR 393.11
/// says "more than"; the stricter is used.
const LONG: f64 = 30.0;

/// The lamps and reflectors that 49 CFR 571.108 Table I-b asks of a trailer by its overall width and length, in the
/// names of [`trailer::LAMP_NAMES`], each with why. How many of each, their colours and heights are not here. GVWR
/// decides none of them; see [`needs_tape`].
///
/// ```
/// use pintle_calc::road::required_lamps;
/// use pintle_quantity::Quantity;
///
/// let lamps = required_lamps(Quantity::inches(79.9), Quantity::feet(5.99)).unwrap();
/// let names: Vec<&str> = lamps.iter().map(|(name, _)| *name).collect();
/// assert_eq!(names, [
///     "tail", "stop", "turn", "plate", "rear reflex", "rear side marker", "rear side reflex",
/// ]);
/// ```
///
/// # Errors
/// A width or length that is no length.
pub fn required_lamps(width: Quantity, length: Quantity) -> Known<Vec<(&'static str, &'static str)>> {
    let wide = alike(width.at_least(Quantity::inches(WIDE)))?;
    let not_short = alike(length.at_least(Quantity::feet(NOT_SHORT)))?;
    let long = alike(length.at_least(Quantity::feet(LONG)))?;
    let table: [(&[&'static str], bool, &'static str); 5] = [
        (&["tail", "stop", "turn", "plate", "rear reflex"], true, "every trailer has it"),
        (&["front side marker", "front side reflex"], not_short, "the trailer is 6 ft long or longer"),
        (&["rear side marker", "rear side reflex"], true, "every trailer has it"),
        (&["middle side marker", "middle side reflex"], long, "the trailer is 30 ft long or longer"),
        (
            &["front clearance", "rear clearance", "rear identification"],
            wide,
            "the trailer is 80 in wide or wider",
        ),
    ];
    let asked = table.into_iter().filter(|(_, asked, _)| *asked);
    Ok(asked.flat_map(|(names, _, why)| names.iter().map(move |name| (*name, why))).collect())
}

/// Whether a trailer needs conspicuity tape: 80 in wide or wider and a GVWR of more than 10,000 lb (49 CFR 393.11(b),
/// 571.108; not one that is only lived or worked in).
///
/// # Errors
/// A width that is no length, or a GVWR that is no mass.
pub fn needs_tape(width: Quantity, gvwr: Quantity) -> Known<bool> {
    let heavy = !alike(gvwr.at_most(Quantity::pounds(10_000.0)))?;
    Ok(alike(width.at_least(Quantity::inches(WIDE)))? && heavy)
}

/// The lamps and reflectors that [`required_lamps`] asks for and `lamps` of the trailer does not list.
///
/// # Errors
/// `lamps`, `overall_width`, or what [`overall_length`] needs, where it is not given.
pub fn missing_lamps(build: &Build) -> Known<Vec<&'static str>> {
    let fitted =
        build.trailer.words(&trailer::LAMPS).ok_or_else(|| build.trailer.missing(&trailer::LAMPS))?;
    let (width, length) = (overall_width(build)?, overall_length(build)?);
    let asked = required_lamps(width.quantity, length.quantity)?;
    let lacking = asked.into_iter().map(|(name, _)| name);
    Ok(lacking.filter(|name| !fitted.iter().any(|lamp| lamp.value == *name)).collect())
}

#[cfg(test)]
mod tests;
