//! What stands where at an hour: parts as plain boxes, what folds away in its place of that hour.

use pintle_spec::schema::kinds::berth;
use pintle_spec::schema::moves::folds;
use pintle_spec::schema::trailer::{self, wheel_box};
use pintle_spec::{Build, Coordinate, Extent, Item, Known, Missing, Reach, State, Table};

use super::outline::TOUCH;

/// More parts than these are not compared with each other: that would take longer than anybody waits.
pub(crate) const MOST_PARTS: usize = 1_000;

/// A box in metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Block {
    /// Fore and aft, from the ball.
    pub x: (f64, f64),
    /// Across, from the centreline.
    pub y: (f64, f64),
    /// Upright, from the ground.
    pub z: (f64, f64),
}

impl Block {
    /// The box of an extent.
    ///
    /// # Errors
    /// The first of its ends that is not known.
    pub fn of(extent: &Extent) -> Known<Self> {
        let ends = |reach: &Reach| Ok((reach.near.clone()?.metres, reach.far.clone()?.metres));
        Ok(Self { x: ends(&extent.x)?, y: ends(&extent.y)?, z: ends(&extent.z)? })
    }

    /// The box that an extent may take up at most: without end where its end is not known.
    pub(crate) fn at_most(extent: &Extent) -> Self {
        let ends = |reach: &Reach| {
            let end = |end: &Known<Coordinate>, unknown: f64| end.as_ref().map_or(unknown, |end| end.metres);
            (end(&reach.near, f64::NEG_INFINITY), end(&reach.far, f64::INFINITY))
        };
        Self { x: ends(&extent.x), y: ends(&extent.y), z: ends(&extent.z) }
    }

    /// Whether two boxes share room: more than [`TOUCH`] along each axis.
    pub(crate) fn meets(&self, other: &Self) -> bool {
        share(self.x, other.x) > TOUCH && share(self.y, other.y) > TOUCH && share(self.z, other.z) > TOUCH
    }

    /// Whether another box lies wholly in this one, to [`TOUCH`].
    pub(crate) fn encloses(&self, inner: &Self) -> bool {
        let within =
            |outer: (f64, f64), inner: (f64, f64)| inner.0 >= outer.0 - TOUCH && inner.1 <= outer.1 + TOUCH;
        within(self.x, inner.x) && within(self.y, inner.y) && within(self.z, inner.z)
    }
}

/// How much two stretches share; negative when they are apart.
pub(crate) fn share(one: (f64, f64), other: (f64, f64)) -> f64 {
    one.1.min(other.1) - one.0.max(other.0)
}

/// How what folds stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hour {
    /// All of it folded away.
    Road,
    /// Beds folded away, all else in use.
    Day,
    /// Beds in use and all else folded away, but for what says otherwise.
    Night,
}

impl Hour {
    /// All of them.
    pub(crate) const ALL: [Self; 3] = [Self::Road, Self::Day, Self::Night];

    /// What a reader calls it.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Road => "on the road",
            Self::Day => "by day",
            Self::Night => "at night",
        }
    }
}

/// Whether a part that folds is folded away at an hour.
fn is_folded(item: &Item, hour: Hour) -> bool {
    let bed = item.table == Table::Berth;
    match hour {
        Hour::Road => true,
        Hour::Day => bed,
        Hour::Night => {
            let says = item.record.table(&berth::FOLDS).and_then(|folds| folds.word(&folds::NIGHT));
            says.map_or(!bed, |night| night.value == "folded")
        }
    }
}

/// Where a part is at an hour.
pub fn extent_at(item: &Item, hour: Hour) -> &Extent {
    match &item.folded {
        Some(folded) if is_folded(item, hour) => folded,
        _ => &item.extent,
    }
}

/// Whether a part takes up room: openings and vents are in a wall, and loads are stowed where there is room.
pub(crate) fn is_solid(item: &Item) -> bool {
    !matches!(item.table, Table::Load | Table::Vent | Table::Opening)
}

/// Whether a build has so many parts that they are not compared with each other.
///
/// # Errors
/// That it has.
pub(crate) fn few_enough(build: &Build) -> Known<()> {
    if build.items.len() <= MOST_PARTS {
        return Ok(());
    }
    Err(Missing::new(
        format!("a spec of no more than {MOST_PARTS} parts, for which their boxes are compared"),
        None,
        "leave out parts that take up no room",
    ))
}

/// What is in the way in a state: parts aboard as they stand at night, and loads with a size. Each with the part's
/// index, where it is a part.
pub(crate) fn aboard_at_night<'b>(build: &'b Build, state: &'b State) -> Vec<(Option<usize>, &'b Extent)> {
    let parts = build.items.iter().enumerate().filter(|(at, item)| is_solid(item) && !state.out.contains(at));
    let parts = parts.map(|(at, item)| (Some(at), extent_at(item, Hour::Night)));
    let carried = state.carry.iter().filter_map(|(at, _)| build.items.get(*at)).map(|item| &item.extent);
    let loads = carried.chain(state.loads.iter().map(|load| &load.extent));
    parts.chain(loads.filter(|extent| !is_point(extent)).map(|extent| (None, extent))).collect()
}

/// Whether a load has no size in plan.
fn is_point(extent: &Extent) -> bool {
    let size = |reach: &Reach| match (&reach.near, &reach.far) {
        (Ok(near), Ok(far)) => far.metres - near.metres,
        _ => 1.0,
    };
    size(&extent.x) <= TOUCH || size(&extent.y) <= TOUCH
}

/// The boxes that the wheels stand in, left and right; none where the trailer has none.
///
/// # Errors
/// The measure of them or of the trailer that is not given.
pub fn wheel_boxes(build: &Build) -> Known<Option<[Block; 2]>> {
    let Some(record) = build.trailer.table(&trailer::WHEEL_BOX) else { return Ok(None) };
    let size = |field| record.need(field).map(|size| size.value.si());
    let (length, width, height) =
        (size(&wheel_box::LENGTH)?, size(&wheel_box::WIDTH)?, size(&wheel_box::HEIGHT)?);
    let behind = record.quantity(&wheel_box::AXLE).map_or(0.0, |behind| behind.value.si());
    let metres = |place: &Known<Coordinate>| place.clone().map(|place| place.metres);
    let s = &build.surfaces;
    let middle = metres(&s.axle)? + behind;
    let (wall, floor) = (metres(&s.wall_inside)?, metres(&s.floor)?);
    let x = (middle - length / 2.0, middle + length / 2.0);
    let z = (floor, floor + height);
    Ok(Some([Block { x, y: (-wall, width - wall), z }, Block { x, y: (wall - width, wall), z }]))
}
