//! Where the trailer's surfaces are, from its measures.

use crate::layout::{Coordinate, Known};
use crate::record::Record;
use crate::schema::trailer;

/// The surfaces that gaps are measured from. Metres: x from the ball, y from the centreline, z from the ground.
#[derive(Debug, Clone)]
pub struct Surfaces {
    /// x of the outside of the nose on the centreline.
    pub nose_outside: Known<Coordinate>,
    /// x of the inside of the nose on the centreline.
    pub nose_inside: Known<Coordinate>,
    /// x where the side walls begin, inside; the inside of the front wall of a flat nose.
    pub square_inside: Known<Coordinate>,
    /// x where the sides begin, outside; the outside of the front wall of a flat nose.
    pub square_outside: Known<Coordinate>,
    /// x of the inside of the rear door.
    pub rear_inside: Known<Coordinate>,
    /// x of the outside of the rear door.
    pub rear_outside: Known<Coordinate>,
    /// x of the axle, or of the middle of the axle group.
    pub axle: Known<Coordinate>,
    /// y of the right wall's inside; the left wall's is its negative.
    pub wall_inside: Known<Coordinate>,
    /// y of the right wall's outside.
    pub wall_outside: Known<Coordinate>,
    /// z of the floor's top.
    pub floor: Known<Coordinate>,
    /// z of the ceiling.
    pub ceiling: Known<Coordinate>,
    /// z of the roof skin.
    pub skin: Known<Coordinate>,
    /// z of the top of the tongue's frame.
    pub frame: Known<Coordinate>,
}

impl Surfaces {
    /// Reads them off a trailer.
    pub fn of(record: &Record) -> Self {
        let of = |field| Coordinate::of(record, field);
        let sum = |left: &Known<Coordinate>, times: f64, right: &Known<Coordinate>| -> Known<Coordinate> {
            Ok(left.clone()?.plus(times, &right.clone()?))
        };
        let origin = Ok(Coordinate::ORIGIN);
        let wall = of(&trailer::WALL);
        let half_width = sum(&origin, 0.5, &of(&trailer::WIDTH));
        let nose_outside = of(&trailer::BALL_TO_BOX);
        let nose_inside = sum(&nose_outside, 1.0, &wall);
        let depth = nose_depth(record);
        let square_inside = sum(&nose_inside, 1.0, &depth);
        // The outside of a pointed nose meets the sides where the inside does, to within the wall's thickness.
        let flat = depth.as_ref().is_ok_and(|depth| depth.terms.is_empty());
        let square_outside = if flat { nose_outside.clone() } else { square_inside.clone() };
        let rear_inside = sum(&square_inside, 1.0, &of(&trailer::LENGTH));
        let rear_outside = sum(&rear_inside, 1.0, &wall);
        let floor = of(&trailer::FLOOR_HEIGHT);
        let ceiling = sum(&floor, 1.0, &of(&trailer::HEIGHT));
        Self {
            wall_outside: sum(&half_width, 1.0, &wall),
            wall_inside: half_width,
            skin: sum(&ceiling, 1.0, &of(&trailer::ROOF)),
            frame: of(&trailer::FRAME_HEIGHT),
            axle: record
                .need_table(&trailer::AXLE)
                .and_then(|axle| Coordinate::of(axle, &trailer::axle::BALL)),
            nose_outside,
            nose_inside,
            square_inside,
            square_outside,
            rear_inside,
            rear_outside,
            floor,
            ceiling,
        }
    }
}

/// The nose's depth; nothing, from no inputs, for a flat one.
fn nose_depth(record: &Record) -> Known<Coordinate> {
    let nose = record.need_table(&trailer::NOSE)?;
    match nose.need_word(&trailer::nose::SHAPE)?.value {
        "flat" => Ok(Coordinate::ORIGIN),
        _ => Coordinate::of(nose, &trailer::nose::DEPTH),
    }
}
