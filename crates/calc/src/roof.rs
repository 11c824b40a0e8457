//! Rack, tent and roof: what lies beyond what, how high it stands, and what it comes to in weight.
//!
//! Geometry of the tent, closed and open, on the parked or moving trailer, sums of stated masses, and statics of rack and
//! bows. What may be carried is for a rule to compare with the ratings.

pub mod beam;
pub mod bows;
pub mod feet;
pub mod ladder;
mod loads;
pub mod opened;
pub mod section;
mod slopes;
mod swings;
mod workings;

pub use workings::workings;

use std::borrow::Cow;

use pintle_quantity::Dimension;
use pintle_spec::schema::kinds::tent as tent_fields;
use pintle_spec::schema::{item, place};
use pintle_spec::{Build, Coordinate, Extent, Item, Known, Missing, Table, Use, Zone};

use crate::figure::Figure;
use crate::space::{
    alike, between, between_kin, elsewhere, given, greatest, least, overlap_in_plan, part, roof_front_at, sum,
};

pub use loads::{RoofLoad, load_per_foot, moving_load, on_roof, parked_load};

/// How far a closed tent reaches beyond the rack it lies on, in m; negative where it ends short of it.
#[derive(Debug, Clone)]
pub struct Overhang {
    /// Ahead of the rack's front edge.
    pub front: Known<Figure>,
    /// Behind the rack's rear edge.
    pub rear: Known<Figure>,
    /// To the left of its left edge.
    pub left: Known<Figure>,
    /// To the right of its right edge.
    pub right: Known<Figure>,
}

/// How far a closed tent reaches beyond the outside of the box, in m; negative where it ends short of it.
#[derive(Debug, Clone)]
pub struct BeyondRoof {
    /// Ahead of the front, judged at the tent's front corners: a wedge or round nose recedes towards the sides.
    pub ahead: Known<Figure>,
    /// Beyond the side walls, the greater of left and right.
    pub aside: Known<Figure>,
    /// Behind the rear door.
    pub behind: Known<Figure>,
}

/// How far a closed tent reaches beyond the rack that it lies on. `tent` is an index of [`Build::items`].
///
/// # Errors
/// The rack, where the part does not lie on one. A side whose places are not given is missing by itself.
pub fn overhang(build: &Build, tent: usize) -> Known<Overhang> {
    let tent = part(build, tent)?;
    let Zone::Rack(rack) = tent.zone else { return Err(elsewhere(tent, "the rack under")) };
    let rack = part(build, rack)?;
    let beyond = |from: &Known<Coordinate>, to: &Known<Coordinate>| {
        Ok(between_kin(
            from.as_ref().map_err(Clone::clone)?,
            to.as_ref().map_err(Clone::clone)?,
            &rack.record.what,
        ))
    };
    let (of, on) = (&tent.extent, &rack.extent);
    Ok(Overhang {
        front: beyond(&of.x.near, &on.x.near),
        rear: beyond(&on.x.far, &of.x.far),
        left: beyond(&of.y.near, &on.y.near),
        right: beyond(&on.y.far, &of.y.far),
    })
}

/// How far a closed tent, or anything else on the roof, reaches beyond the outside of the box. `tent` is an index of
/// [`Build::items`].
///
/// # Errors
/// The part, where there is none. A side whose places are not given is missing by itself.
pub fn beyond_roof(build: &Build, tent: usize) -> Known<BeyondRoof> {
    let extent = &part(build, tent)?.extent;
    let ahead = || {
        let front = extent.x.near.clone()?;
        let at_corner = |y: &Known<Coordinate>| -> Known<Figure> {
            let roof = roof_front_at(build, &Figure::coordinate(&y.clone()?))?;
            alike(roof.minus(&Figure::coordinate(&front)))
        };
        most([at_corner(&extent.y.near)?, at_corner(&extent.y.far)?])
    };
    let aside = || {
        let wall = build.surfaces.wall_outside.clone()?;
        let left_wall = Coordinate::ORIGIN.plus(-1.0, &wall);
        most([between(&extent.y.near.clone()?, &left_wall), between(&wall, &extent.y.far.clone()?)])
    };
    let behind = || Ok(between(&build.surfaces.rear_outside.clone()?, &extent.x.far.clone()?));
    Ok(BeyondRoof { ahead: ahead(), aside: aside(), behind: behind() })
}

fn most(figures: impl IntoIterator<Item = Figure>) -> Known<Figure> {
    greatest(figures).ok_or_else(|| Missing::new("a figure to compare", None, "report this"))
}

/// The fitted parts that lie on a rack itself, with indices: not what stands in the tents and lockers on it.
fn lying_on(build: &Build, rack: usize) -> impl Iterator<Item = (usize, &Item)> {
    let lies = move |body: &Item| body.zone == Zone::Rack(rack) && body.table != Table::Load;
    build.items.iter().enumerate().filter(move |(_, body)| lies(body))
}

/// How high a rack stands: from the roof skin to what lies on it, in m, its `height` and the `gap` below it (zero when
/// not given, as the schema says); on another rack, above the skin below that one. None of a rack that is not on the
/// roof.
///
/// # Errors
/// The height that is not given.
pub fn stand_height(build: &Build, rack: usize) -> Known<Option<Figure>> {
    let mut heights = Vec::new();
    let mut next = rack;
    // A rack can stand on a rack; the loader refuses loops, and this bound would end one.
    for _ in 0..=build.items.len() {
        let standing = part(build, next)?;
        heights.push(given(&standing.record, &item::HEIGHT)?);
        heights.extend(gap_below(standing)?);
        match standing.zone {
            Zone::Roof => return sum(Dimension::LENGTH, heights).map(Some),
            Zone::Rack(host) => next = host,
            _ => return Ok(None),
        }
    }
    Ok(None)
}

/// The gap that a part's place states to what is below it, if it states one.
fn gap_below(body: &Item) -> Known<Option<Figure>> {
    match body.record.table(&item::AT) {
        Some(at) if at.quantity(&place::GAP).is_some() => given(at, &place::GAP).map(Some),
        _ => Ok(None),
    }
}

/// The air gap between the roof skin and what lies on a rack: from the skin to the underside of the lowest part on
/// it, in m. None where no part lies on it, or the rack is not on the roof.
///
/// # Errors
/// The rack's height, where that is not given.
pub fn air_gap(build: &Build, rack: usize) -> Known<Option<Figure>> {
    let Some(top) = stand_height(build, rack)? else { return Ok(None) };
    let mut gaps = Vec::new();
    for (_, lying) in lying_on(build, rack) {
        gaps.push(match gap_below(lying)? {
            Some(gap) => alike(top.plus(&gap))?,
            None => top.clone(),
        });
    }
    Ok(least(gaps))
}

/// Height of a tent's floor above the ground, in m, trailer level.
///
/// # Errors
/// The tent's `floor` or place that is not given.
pub fn tent_floor_height(build: &Build, tent: usize) -> Known<Figure> {
    let tent = part(build, tent)?;
    let floor = Coordinate::of(&tent.record, &tent_fields::FLOOR)?;
    Ok(Figure::coordinate(&tent.extent.z.near.clone()?.plus(1.0, &floor)))
}

/// Working length of the ladder that reaches a height, in m, with its foot out by a quarter of its working length:
/// height / sin(arccos ¼), at 75.52° (29 CFR 1926.1053(b)(5)(i), which binds employers; a guideline here). Rails that
/// stand 3 ft above the landing, or a grab (the same, (b)(1)), are not part of it.
///
/// ```
/// use pintle_calc::{Figure, roof::ladder_needed};
/// use pintle_quantity::{Quantity, Unit};
///
/// let ladder = ladder_needed(&Figure::constant(Quantity::feet(7.0)));
/// let feet = ladder.quantity.value_in(Unit::find("ft").unwrap())?;
/// assert!((feet - 7.23).abs() < 0.005);
/// # Ok::<(), pintle_quantity::DimensionMismatch>(())
/// ```
#[must_use]
pub fn ladder_needed(height: &Figure) -> Figure {
    height.scaled(ladder::needed(1.0))
}

/// The greatest height above the ground with tents closed, in m: of the roof skin, and of all that is on the roof, on
/// a rack, or in a locker on either, loads included that may ride there. What is in a tent is not counted: the closed
/// tent holds it.
///
/// # Errors
/// The height or place that is not given, of the roof or of anything on it. A load without a height is a point to the
/// weights, but nothing is known of its top.
pub fn overall_height(build: &Build) -> Known<Figure> {
    let mut tops = vec![Figure::coordinate(&build.surfaces.skin.clone()?)];
    for (at, body) in build.items.iter().enumerate() {
        if loads::rests_on(build, at, Zone::Roof, false) || matches!(body.zone, Zone::Rack(_)) {
            tops.push(Figure::coordinate(&reach_of(body).z.far.clone()?));
        }
    }
    most(tops)
}

/// Where a body reaches. A load without a size is a point to the weights; here nothing is known of its ends.
fn reach_of(body: &Item) -> Cow<'_, Extent> {
    if body.table != Table::Load {
        return Cow::Borrowed(&body.extent);
    }
    let mut extent = body.extent.clone();
    let Extent { x, y, z } = &mut extent;
    for (reach, size) in [(x, &item::LENGTH), (y, &item::WIDTH), (z, &item::HEIGHT)] {
        if let Err(missing) = body.record.need(size) {
            (reach.near, reach.far) = (Err(missing.clone()), Err(missing));
        }
    }
    Cow::Owned(extent)
}

/// Vents in the roof, and the tents, racks and things on racks that cover any of them when seen from above, as pairs
/// of indices of [`Build::items`]: the vent first. A load counts where a camp state has it aboard: that is when people
/// breathe by the vent.
///
/// # Errors
/// The size or place that is not given and could decide it.
pub fn covered_vents(build: &Build) -> Known<Vec<(usize, usize)>> {
    let mut covered = Vec::new();
    for (vent, opening) in build.of_table(Table::Vent).filter(|(_, vent)| vent.zone == Zone::Roof) {
        for (over, cover) in build.items.iter().enumerate() {
            let covers = matches!(cover.kind, "tent" | "rack") || matches!(cover.zone, Zone::Rack(_));
            if !covers || (cover.table == Table::Load && !aboard_in_camp(build, over)) {
                continue;
            }
            if overlap_in_plan(&opening.extent, &reach_of(cover))? {
                covered.push((vent, over));
            }
        }
    }
    Ok(covered)
}

/// Whether any camp state has some of a load aboard.
fn aboard_in_camp(build: &Build, load: usize) -> bool {
    let mut camps = build.states.iter().filter(|state| state.used == Use::Camp);
    camps.any(|state| state.carry.iter().any(|(at, mass)| *at == load && mass.value.si() > 0.0))
}

#[cfg(test)]
mod tests;
