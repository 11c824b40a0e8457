//! Tires: what they carry, and what is left of their rating.

use pintle_quantity::Dimension;
use pintle_spec::{Build, Known};

use crate::arrange::{Arrangements, End, Extremum};
use crate::figure::Figure;
use crate::ratings::{tire_rating, tires_a_side};
use crate::space::greatest;
use crate::weights::Weights;

/// What is left of a rating under a load: 1 − load / rating; negative when it is over.
///
/// ```
/// use pintle_calc::{Figure, road::tires::reserve};
/// use pintle_quantity::Quantity;
///
/// let of = |pounds| Figure::constant(Quantity::pounds(pounds));
/// assert!((reserve(&of(1760.0), &of(1540.0)).quantity.si() - 0.125).abs() < 1e-12);
/// ```
#[must_use]
pub fn reserve(rating: &Figure, load: &Figure) -> Figure {
    Figure::by(Dimension::NONE, [rating, load], |[rating, load]| 1.0 - load / rating).as_share()
}

/// Load of the heaviest tire over all road arrangements: of the side that is heaviest in any, shared by its tires.
///
/// # Errors
/// What the wheels' loads need; a road state; how axles of a group share their load; the number of tires.
pub fn heaviest_tire(build: &Build) -> Known<Figure> {
    let arrangements = Arrangements::of(build)?;
    let mut loads = Vec::new();
    for side in [Extremum::Left, Extremum::Right] {
        let state = arrangements.extreme(side, End::Most)?;
        loads.push(Weights::of(build, &state).heaviest_wheel()?);
    }
    let load =
        greatest(loads).ok_or_else(|| pintle_spec::Missing::new("a wheel's load", None, "report this"))?;
    Ok(load.scaled(1.0 / tires_a_side(build)?))
}

/// What the heaviest tire has left of its rating, over all road arrangements.
///
/// # Errors
/// What [`heaviest_tire`] and the tires' rating need.
pub fn least_reserve(build: &Build) -> Known<Figure> {
    Ok(reserve(&tire_rating(build)?, &heaviest_tire(build)?))
}
