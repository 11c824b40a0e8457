//! The plan of the inside as a polygon, for what comparisons of boxes do not answer: areas, middles, and what is left of it.

use geo::{Area, Centroid, Coord, LineString, Polygon};
use pintle_spec::{Build, Known, Missing};

use super::outline::Outline;

/// Chords that a round nose is cut into. Of a nose six feet wide they lie within a fiftieth of a millimetre of it.
pub(crate) const CHORDS: u32 = 256;

/// The inside of the walls as a polygon. Metres: x aft from the ball, y to the right of the centreline.
pub(crate) fn polygon(outline: &Outline) -> Polygon<f64> {
    ring(outline.corners(CHORDS))
}

/// A polygon from its corners, in order.
pub(crate) fn ring(corners: impl IntoIterator<Item = (f64, f64)>) -> Polygon<f64> {
    let corners = corners.into_iter().map(|(x, y)| Coord { x, y });
    Polygon::new(LineString::new(corners.collect()), Vec::new())
}

/// Area of a plan polygon, in m², and the place of its middle fore and aft, in m.
pub(crate) fn area_and_middle(polygon: &Polygon<f64>) -> Option<(f64, f64)> {
    Some((polygon.unsigned_area(), polygon.centroid()?.x()))
}

/// How far the middle of the plan of the inside lies ahead of the inside of the rear door, in m.
///
/// # Errors
/// The measure of the trailer that is not given, or that leaves no room.
pub(crate) fn middle_ahead_of_rear(build: &Build) -> Known<f64> {
    let outline = Outline::inside(build)?;
    let (_, middle) = area_and_middle(&polygon(&outline))
        .ok_or_else(|| Missing::new("a room with an area", None, "correct the measures of the trailer"))?;
    Ok(outline.rear - middle)
}
