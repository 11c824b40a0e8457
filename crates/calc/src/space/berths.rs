//! Berths: their size, the room above them, and how people get from each to the ways out at night.

use pintle_quantity::Dimension;
use pintle_spec::schema::item;
use pintle_spec::schema::kinds::{appliance, berth};
use pintle_spec::{Build, Coordinate, Item, Known, Missing, State, Table, Use};

use super::aisle::{Floor, from_the_berth};
use super::bodies::overlap_in_plan;
use super::boxes::{Block, Hour, aboard_at_night, extent_at, is_solid};
use super::budget::Budget;
use super::exits::{Way, exits, way};
use super::outline::TOUCH;
use crate::figure::Figure;
use crate::space::{alike, berths_inside, between, given, least, of_places};

/// How far the underside of a mattress may be from the top of a part, in m, and still be said to lie on it. A quarter of
/// an inch: ours, no source.
const ON_TOP: f64 = 0.006_35;

/// Paths are worked out between no more pairs of a berth and a way out than these.
const MOST_PAIRS: usize = 400;

/// The longer side of a berth in plan, in m.
///
/// # Errors
/// Its length or width that is not given.
pub fn berth_length(body: &Item) -> Known<Figure> {
    alike(given(&body.record, &item::LENGTH)?.greater(&given(&body.record, &item::WIDTH)?))
}

/// The shorter side of a berth in plan, in m.
///
/// # Errors
/// Its length or width that is not given.
pub fn berth_width(body: &Item) -> Known<Figure> {
    alike(given(&body.record, &item::LENGTH)?.lesser(&given(&body.record, &item::WIDTH)?))
}

/// Room above a mattress, in m: up to the ceiling, or to the lowest part over it at night.
///
/// # Errors
/// The place or size of the berth, or of a part that may be over it, or the ceiling, that is not given.
pub fn headroom_over(build: &Build, berth: usize) -> Known<Figure> {
    let body = super::part(build, berth)?;
    let top = body.extent.z.far.clone()?;
    let mut rooms = vec![between(&top, &build.surfaces.ceiling.clone()?)];
    for (at, other) in build.items.iter().enumerate() {
        let extent = extent_at(other, Hour::Night);
        if at == berth || !is_solid(other) || other.zone == pintle_spec::Zone::Roof {
            continue;
        }
        if matches!(other.zone, pintle_spec::Zone::Rack(_) | pintle_spec::Zone::Tent(_)) {
            continue;
        }
        let under: Known<bool> = extent.z.near.clone().map(|near| near.metres >= top.metres - TOUCH);
        if under == Ok(false) || overlap_in_plan(extent, &body.extent) == Ok(false) {
            continue;
        }
        under?;
        overlap_in_plan(extent, &body.extent)?;
        rooms.push(between(&top, &extent.z.near.clone()?));
    }
    least(rooms).ok_or_else(|| Missing::new("a ceiling", None, "report this"))
}

/// The berth's box and those of the parts that its mattress lies on, each in its place at night.
pub(super) fn with_its_deck(build: &Build, body: &Item) -> Known<Vec<Block>> {
    let bed = Block::of(extent_at(body, Hour::Night))?;
    let mut blocks = vec![bed];
    for other in build.items.iter().filter(|other| is_solid(other) && other.table != Table::Berth) {
        let extent = extent_at(other, Hour::Night);
        let at_most = Block::at_most(extent);
        let shares = |one: (f64, f64), other: (f64, f64)| super::boxes::share(one, other) > TOUCH;
        if !shares(at_most.x, bed.x) || !shares(at_most.y, bed.y) {
            continue;
        }
        let Ok(under) = Block::of(extent) else { continue };
        if (under.z.1 - bed.z.0).abs() <= ON_TOP {
            blocks.push(under);
        }
    }
    Ok(blocks)
}

/// Least gap between a berth's box at night and something that burns fuel inside, in m; none where nothing does.
///
/// # Errors
/// The place or size of either, or where the appliance is used, that is not given.
pub fn gap_to_burner(build: &Build, berth: usize) -> Known<Option<Figure>> {
    let bed = super::part(build, berth)?;
    let mut gaps = Vec::new();
    for (_, burner) in build.of_kind("appliance") {
        if burner.record.need_word(&appliance::USED)?.value == "outside" {
            continue;
        }
        gaps.push(gap(build, bed, burner)?);
    }
    Ok(least(gaps))
}

/// Least gap between something that burns fuel inside and the box of a berth inside at night, in m; none where it is used
/// outside, or where nobody sleeps inside.
///
/// # Errors
/// The place or size of either, or where the appliance is used, that is not given.
pub fn gap_to_bedding(build: &Build, burner: usize) -> Known<Option<Figure>> {
    let body = super::part(build, burner)?;
    if body.record.need_word(&appliance::USED)?.value == "outside" {
        return Ok(None);
    }
    let mut gaps = Vec::new();
    for (_, bed) in berths_inside(build)? {
        gaps.push(gap(build, bed, body)?);
    }
    Ok(least(gaps))
}

/// The gap between a berth's box at night and that of an appliance, in m.
fn gap(build: &Build, bed: &Item, burner: &Item) -> Known<Figure> {
    let (bed_box, body) = (Block::of(extent_at(bed, Hour::Night))?, Block::of(&burner.extent)?);
    let apart = |one: (f64, f64), other: (f64, f64)| (-super::boxes::share(one, other)).max(0.0);
    let gap = apart(bed_box.x, body.x).hypot(apart(bed_box.y, body.y)).hypot(apart(bed_box.z, body.z));
    Ok(of_places(gap, Dimension::LENGTH, "in", build, &[bed, burner]))
}

/// How far a mattress's top is above the floor, in m.
///
/// # Errors
/// The place or size of the berth, or the floor's height, that is not given.
pub fn fall_height(build: &Build, berth: usize) -> Known<Figure> {
    let top: Coordinate = super::part(build, berth)?.extent.z.far.clone()?;
    Ok(between(&build.surfaces.floor.clone()?, &top))
}

/// Weight of the people that a berth is for, in kg.
///
/// # Errors
/// How many that is, or what each weighs, that is not given.
pub fn people_in(build: &Build, berth: usize) -> Known<Figure> {
    let count = super::part(build, berth)?.record.need_count(&berth::PEOPLE)?.value;
    let people = build.people.as_ref().ok_or_else(|| {
        Missing::new("the weight reckoned for each person", None, "give `mass` in [people]")
    })?;
    Ok(given(people, &pintle_spec::schema::build::people::MASS)?.scaled(f64::from(count)))
}

/// The states in which people sleep: those in camp.
pub(crate) fn nights(build: &Build) -> impl Iterator<Item = &State> {
    build.states.iter().filter(|state| state.used == Use::Camp)
}

/// How one berth is joined to one way out.
#[derive(Debug)]
pub(crate) struct Join {
    /// The way out, an index of [`Build::items`].
    pub(crate) exit: usize,
    /// How wide the path over the floor is, in m; nothing where there is none.
    pub(crate) over_floor: Known<f64>,
    /// How wide the berth lies along it, where it is reached from the berth itself, in m; else nothing.
    pub(crate) from_berth: Known<f64>,
}

impl Join {
    /// The wider of the two ways, in m.
    ///
    /// # Errors
    /// What is missing for either.
    pub(crate) fn width(&self) -> Known<f64> {
        Ok(self.over_floor.clone()?.max(self.from_berth.clone()?))
    }
}

/// A berth inside in a state, with its ways out.
#[derive(Debug)]
pub(crate) struct Sleeper {
    /// An index of [`Build::items`].
    pub(crate) berth: usize,
    /// In the order of the spec.
    pub(crate) joins: Vec<Join>,
    /// Whether two of them are wide enough, and neither path goes past the other way out.
    pub(crate) independent: Known<bool>,
}

/// The measures of a path that are declared.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Measures {
    /// From which height above the floor to which a box stands in the way, in m.
    pub(crate) band: (f64, f64),
    /// Least width of a path, in m.
    pub(crate) path: f64,
    /// From a berth to a way out that is reached from the berth itself, in m.
    pub(crate) direct: f64,
    /// A path that comes nearer to a way out than this goes past it, in m.
    pub(crate) passing: f64,
}

/// Every berth inside that is aboard in a state, with its paths to every way out.
///
/// # Errors
/// The place of a berth, or what is missing for the floor, that is not given.
pub(crate) fn sleepers(
    build: &Build,
    state: &State,
    measures: Measures,
    budget: &Budget,
) -> Known<Vec<Sleeper>> {
    let floor = Floor::at_night(build, state, measures.band, budget)?;
    let ways: Vec<(usize, Known<Way>)> =
        exits(build)?.into_iter().map(|(at, body)| (at, way(build, body))).collect();
    let mut found = Vec::new();
    let berths = berths_inside(build)?;
    if berths.len().saturating_mul(ways.len()) > MOST_PAIRS {
        return Err(Missing::new(
            format!("a spec with no more than {MOST_PAIRS} pairs of a berth and a way out"),
            Some(state.name.span),
            "paths are not worked out between so many",
        ));
    }
    for (berth, body) in berths {
        if state.out.contains(&berth) {
            continue;
        }
        let beside = with_its_deck(build, body)?;
        let Some(bed) = beside.first().copied() else { continue };
        let others: Vec<Block> = aboard_at_night(build, state)
            .into_iter()
            .filter(|(at, _)| *at != Some(berth))
            .filter_map(|(_, extent)| Block::of(extent).ok())
            .collect();
        let mut joins = Vec::new();
        for (exit, way) in &ways {
            let over_floor = way.clone().and_then(|way| floor.widest_path(&beside, &way));
            // Either way out is known only with the other; where there is too much to work out, neither is.
            let from_berth = over_floor.clone().and_then(|_| way.clone());
            let from_berth = from_berth.map(|way| from_the_berth(&bed, &way, measures.direct, &others));
            joins.push(Join { exit: *exit, over_floor, from_berth });
        }
        let independent = independent(&floor, &beside, &ways, &joins, measures);
        found.push(Sleeper { berth, joins, independent });
    }
    Ok(found)
}

/// Whether two ways out of a berth are wide enough and neither is reached only past the other.
fn independent(
    floor: &Floor<'_>,
    beside: &[Block],
    ways: &[(usize, Known<Way>)],
    joins: &[Join],
    measures: Measures,
) -> Known<bool> {
    let mut good: Vec<(Way, bool)> = Vec::new();
    let mut unsure = None;
    for ((_, way), join) in ways.iter().zip(joins) {
        let known = way.clone().and_then(|way| Ok((way, join.width()?, join.from_berth.clone()?)));
        match known {
            Ok((way, width, direct)) if width >= measures.path - TOUCH => {
                good.push((way, direct >= measures.path - TOUCH));
            }
            Ok(_) => {}
            Err(missing) => unsure = unsure.or(Some(missing)),
        }
    }
    for (place, (one, one_direct)) in good.iter().enumerate() {
        for (other, other_direct) in good.iter().skip(place + 1) {
            let clear_of = |shut: &Way, to: &Way, direct: bool| {
                if direct {
                    return Ok(true);
                }
                floor.shutting(shut, measures.passing).has_path(beside, to, measures.path - TOUCH)
            };
            if clear_of(one, other, *other_direct)? && clear_of(other, one, *one_direct)? {
                return Ok(true);
            }
        }
    }
    unsure.map_or(Ok(false), Err)
}

#[cfg(test)]
mod tests;
