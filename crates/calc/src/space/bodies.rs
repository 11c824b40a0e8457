//! Boxes against boxes, against lockers, and against the inside of the trailer.
//!
//! Each answer is drawn from whatever is known: one axis along which two bodies are apart decides, and only where
//! none does is a place that is not known a missing value.

use pintle_spec::{Build, Coordinate, Extent, Known, Reach};

use super::outline::{Outline, TOUCH};

/// True if any is; else what is missing to know, if anything is; else false.
pub(crate) fn any(answers: impl IntoIterator<Item = Known<bool>>) -> Known<bool> {
    let mut missing = None;
    for answer in answers {
        match answer {
            Ok(true) => return Ok(true),
            Ok(false) => {}
            Err(unknown) => missing = missing.or(Some(unknown)),
        }
    }
    missing.map_or(Ok(false), Err)
}

/// False if any is; else what is missing to know, if anything is; else true.
pub(crate) fn all(answers: impl IntoIterator<Item = Known<bool>>) -> Known<bool> {
    any(answers.into_iter().map(not)).map(|found| !found)
}

pub(crate) fn not(answer: Known<bool>) -> Known<bool> {
    answer.map(|answer| !answer)
}

fn metres(place: &Known<Coordinate>) -> Known<f64> {
    place.as_ref().map(|place| place.metres).map_err(Clone::clone)
}

/// How far a reach may go into another and still only touch it: [`TOUCH`], but never more than half of a thin part.
fn slack(reach: &Reach) -> f64 {
    match (&reach.near, &reach.far) {
        (Ok(near), Ok(far)) => TOUCH.min((far.metres - near.metres) / 2.0),
        _ => TOUCH,
    }
}

/// Whether a reach ends before a place.
pub(crate) fn ends_before(reach: &Reach, place: &Known<f64>) -> Known<bool> {
    Ok(metres(&reach.far)? <= place.clone()? + slack(reach))
}

/// Whether a reach begins after a place.
pub(crate) fn begins_after(reach: &Reach, place: &Known<f64>) -> Known<bool> {
    Ok(metres(&reach.near)? >= place.clone()? - slack(reach))
}

/// Whether two reaches are apart or only touch.
pub(crate) fn apart(one: &Reach, other: &Reach) -> Known<bool> {
    let slack = slack(one).min(slack(other));
    let before = |low: &Reach, high: &Reach| Ok(metres(&low.far)? <= metres(&high.near)? + slack);
    any([before(one, other), before(other, one)])
}

/// Whether two boxes overlap when seen from above.
pub(crate) fn overlap_in_plan(one: &Extent, other: &Extent) -> Known<bool> {
    not(any([apart(&one.x, &other.x), apart(&one.y, &other.y)]))
}

/// Whether two boxes overlap.
pub(crate) fn overlap(one: &Extent, other: &Extent) -> Known<bool> {
    not(any([apart(&one.x, &other.x), apart(&one.y, &other.y), apart(&one.z, &other.z)]))
}

/// Whether one box lies wholly within another, to [`TOUCH`].
pub(crate) fn encloses(outer: &Extent, inner: &Extent) -> Known<bool> {
    let ends = |outer: &Reach, inner: &Reach| {
        [
            metres(&inner.near).and_then(|inner| Ok(inner >= metres(&outer.near)? - TOUCH)),
            metres(&inner.far).and_then(|inner| Ok(inner <= metres(&outer.far)? + TOUCH)),
        ]
    };
    all(ends(&outer.x, &inner.x).into_iter().chain(ends(&outer.y, &inner.y)).chain(ends(&outer.z, &inner.z)))
}

/// On which side of the inside a body lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Side {
    Ahead,
    Behind,
    Left,
    Right,
    Above,
    Below,
}

impl Side {
    pub(crate) const fn words(self) -> &'static str {
        match self {
            Self::Ahead => "ahead of the inside of the box",
            Self::Behind => "behind the inside of the rear door",
            Self::Left => "to the left of the inside of the box",
            Self::Right => "to the right of the inside of the box",
            Self::Above => "above the ceiling",
            Self::Below => "below the floor",
        }
    }
}

/// On which side of the inside of the trailer a body lies; none if any of it reaches in. The inside may be taken
/// larger by a number of metres all round.
pub(crate) fn side_of_inside(build: &Build, body: &Extent, larger: f64) -> Known<Option<Side>> {
    let s = &build.surfaces;
    let grown = |place: &Known<Coordinate>, by: f64| metres(place).map(|metres| metres + by);
    let (nose, rear) = (grown(&s.nose_inside, -larger), grown(&s.rear_inside, larger));
    let half = half_width_beside(build, body, larger);
    let left = half.clone().map(|half| -half);
    let sides = [
        (Side::Ahead, ends_before(&body.x, &nose)),
        (Side::Behind, begins_after(&body.x, &rear)),
        (Side::Above, begins_after(&body.z, &grown(&s.ceiling, larger))),
        (Side::Below, ends_before(&body.z, &grown(&s.floor, -larger))),
        (Side::Left, ends_before(&body.y, &left)),
        (Side::Right, begins_after(&body.y, &half)),
    ];
    let found = sides.iter().find(|(_, there)| *there == Ok(true)).map(|(side, _)| *side);
    match found {
        Some(side) => Ok(Some(side)),
        None => any(sides.into_iter().map(|(_, there)| there)).map(|_| None),
    }
}

/// Whether any of a body reaches into the inside of the trailer.
pub(crate) fn reaches_inside(build: &Build, body: &Extent) -> Known<bool> {
    side_of_inside(build, body, 0.0).map(|side| side.is_none())
}

/// The widest half width of the inside beside a body: that at its rear end, since no nose narrows towards the rear.
/// The whole half width where that already leaves the body outside.
fn half_width_beside(build: &Build, body: &Extent, larger: f64) -> Known<f64> {
    let whole = metres(&build.surfaces.wall_inside)? + larger;
    let beyond = any([ends_before(&body.y, &Ok(-whole)), begins_after(&body.y, &Ok(whole))]);
    if beyond == Ok(true) {
        return Ok(whole);
    }
    let outline = Outline::inside(build)?;
    let widest = (metres(&body.x.far)? + larger).clamp(outline.nose, outline.rear);
    Ok(outline.half_width(widest) + larger)
}
