//! Whether parts fit: what stands out of the box or into the nose, what meets what, and what stands in a wheel box.

use pintle_spec::{Build, Coordinate, Extent, Item, Known, Reach, Zone};

use super::bodies::{encloses, overlap};
use super::boxes::{Block, Hour, extent_at, few_enough, is_solid, wheel_boxes};
use super::outline::Outline;
use super::room::holds;
use crate::figure::Figure;
use crate::space::{alike, between, greatest, worked};
use pintle_quantity::Dimension;

/// How far a part inside stands beyond the inside of the box, in m: through the rear door, a side wall, the floor, the
/// ceiling, or ahead of the nose; negative for the least room it has to any of them.
///
/// # Errors
/// The place or size of it, or the measure of the trailer, that is not given.
pub(crate) fn beyond_box(build: &Build, extent: &Extent) -> Known<Figure> {
    let s = &build.surfaces;
    let end = |reach: &Reach, far: bool| if far { reach.far.clone() } else { reach.near.clone() };
    let wall = s.wall_inside.clone()?;
    let left = Coordinate::ORIGIN.plus(-1.0, &wall);
    let all = [
        between(&s.rear_inside.clone()?, &end(&extent.x, true)?),
        between(&end(&extent.x, false)?, &s.nose_inside.clone()?),
        between(&wall, &end(&extent.y, true)?),
        between(&end(&extent.y, false)?, &left),
        between(&s.ceiling.clone()?, &end(&extent.z, true)?),
        between(&end(&extent.z, false)?, &s.floor.clone()?),
    ];
    greatest(all).ok_or_else(|| pintle_spec::Missing::new("a side of the box", None, "report this"))
}

/// How far the front corners of a part inside stand into the slope of a wedge or round nose, fore and aft, in m;
/// negative for the room they have. None for a flat nose, and for what is wider than the box.
///
/// # Errors
/// The place or size of it, or the measure of the trailer, that is not given.
pub(crate) fn into_nose(build: &Build, extent: &Extent) -> Known<Option<Figure>> {
    let outline = Outline::inside(build)?;
    if outline.square - outline.nose <= 0.0 {
        return Ok(None);
    }
    let block = Block::of(extent)?;
    let widest = block.y.0.abs().max(block.y.1.abs()).min(outline.half);
    let near = extent.x.near.clone()?;
    let mut inputs = outline.inputs.clone();
    inputs.extend(near.inputs().filter(|input| !outline.inputs.contains(input)).cloned());
    Ok(Some(worked(outline.front_at(widest) - near.metres, Dimension::LENGTH, inputs)))
}

/// What one part was found to meet, and what could not be said for want of a place.
pub(crate) type Met = Known<Vec<String>>;

/// For every part that takes up room: the parts that its box meets, each as messages call it, with the hour where it
/// is not at every hour. A part that is in or on another by its zone, or wholly within it, is kept there and does not meet
/// it; two of an `[[either]]` group are never aboard together.
pub(crate) fn meetings(build: &Build) -> Vec<(usize, Met)> {
    let solid: Vec<(usize, &Item)> =
        build.items.iter().enumerate().filter(|(_, item)| is_solid(item)).collect();
    if let Err(many) = few_enough(build) {
        return solid.iter().map(|(at, _)| (*at, Err(many.clone()))).collect();
    }
    let mut met: Vec<(usize, Vec<String>, Known<()>)> =
        solid.iter().map(|(at, _)| (*at, Vec::new(), Ok(()))).collect();
    for (place, (at, item)) in solid.iter().enumerate() {
        for (further, (other_at, other)) in solid.iter().enumerate().skip(place + 1) {
            if holds(build, *at, other) || holds(build, *other_at, item) || are_apart(build, *at, *other_at) {
                continue;
            }
            match hours_of_meeting(item, other) {
                Ok(hours) if hours.is_empty() => {}
                Ok(hours) => {
                    let when = if hours.len() == Hour::ALL.len() {
                        String::new()
                    } else {
                        let words: Vec<&str> = hours.iter().map(|hour| hour.words()).collect();
                        format!(", {}", words.join(" and "))
                    };
                    for (place, other) in [(place, other), (further, item)] {
                        if let Some((_, texts, _)) = met.get_mut(place) {
                            texts.push(format!("{}{when}", other.called()));
                        }
                    }
                }
                Err(missing) => {
                    for place in [place, further] {
                        if let Some((_, _, sure)) = met.get_mut(place)
                            && sure.is_ok()
                        {
                            *sure = Err(missing.clone());
                        }
                    }
                }
            }
        }
    }
    // What was found is a fault whatever else may be: only of nothing found is it worth saying what is not known.
    let outcome =
        |texts: Vec<String>, sure: Known<()>| if texts.is_empty() { sure.map(|()| texts) } else { Ok(texts) };
    met.into_iter().map(|(at, texts, sure)| (at, outcome(texts, sure))).collect()
}

/// Whether two parts are never aboard together: of one `[[either]]` group.
pub(crate) fn are_apart(build: &Build, one: usize, other: usize) -> bool {
    build.eithers.iter().any(|either| either.of.contains(&one) && either.of.contains(&other))
}

/// The hours at which two parts meet.
fn hours_of_meeting(one: &Item, other: &Item) -> Known<Vec<Hour>> {
    if one.folded.is_none() && other.folded.is_none() {
        let meet = meet(&one.extent, &other.extent)?;
        return Ok(if meet { Hour::ALL.to_vec() } else { Vec::new() });
    }
    let mut hours = Vec::new();
    for hour in Hour::ALL {
        if meet(extent_at(one, hour), extent_at(other, hour))? {
            hours.push(hour);
        }
    }
    Ok(hours)
}

fn meet(one: &Extent, other: &Extent) -> Known<bool> {
    Ok(overlap(one, other)? && !encloses(one, other)? && !encloses(other, one)?)
}

/// The wheel boxes that a part stands in: `left wheel box`, `right wheel box`.
///
/// # Errors
/// The place or size of it, or the measure of the trailer, that is not given.
pub(crate) fn on_wheel_boxes(build: &Build, item: &Item) -> Known<Vec<String>> {
    let Some(boxes) = wheel_boxes(build)? else { return Ok(Vec::new()) };
    let mut found = Vec::new();
    for (wheel, name) in boxes.iter().zip(["left wheel box", "right wheel box"]) {
        for hour in Hour::ALL {
            if Block::of(extent_at(item, hour))?.meets(wheel) {
                found.push(name.to_owned());
                break;
            }
        }
    }
    Ok(found)
}

/// Whether a part is one that has to be within the inside of the box.
pub(crate) fn belongs_inside(item: &Item) -> bool {
    is_solid(item) && item.zone == Zone::Inside
}

/// The greater of two figures of what stands out, at any hour.
///
/// # Errors
/// What is missing of either.
pub(crate) fn at_worst(one: Known<Figure>, other: Option<Known<Figure>>) -> Known<Figure> {
    match other {
        None => one,
        Some(other) => alike(one?.greater(&other?)),
    }
}

#[cfg(test)]
mod tests;
