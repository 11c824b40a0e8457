//! Ways through the room: how wide a path there is from a berth to a way out, beds in use and all aboard.
//!
//! The widest path is the widest disc that can be moved along it. The floor is the plan of the inside less what stands
//! in the way; drawn in from every edge by half a width it is where the middle of such a disc can be. A berth and a way
//! out are joined at that width where one piece of it touches both. Wider is never easier, so the greatest width is found
//! by halving, to the millimetre.

pub(super) mod route;

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::rc::Rc;

use geo::algorithm::buffer::{Buffer, BufferStyle, LineJoin};
use geo::{Area, BooleanOps, Distance, Euclidean, MultiPolygon, Polygon, Rect, coord, unary_union};
use pintle_spec::{Build, Known, Missing, State};

use super::boxes::{Block, aboard_at_night, few_enough, share, wheel_boxes};
use super::budget::Budget;
use super::exits::Way;
use super::outline::{Outline, TOUCH};
use super::plan::ring;

/// How far the chords of a rounded corner may lie within its circle, in m: a path between two corners is then stated too
/// wide by no more than twice this.
const SAGITTA: f64 = 0.000_2;

/// Chords that a round nose is cut into for paths: of one six feet wide they lie within 0.15 mm of it.
const NOSE_CHORDS: u32 = 96;

/// How near a disc must come to a bed or a way out to touch it, in m: what is lost in reckoning, and no more. A
/// millimetre here would let a disc stand two inches beside a door.
const NEAR: f64 = 1e-7;

/// More boxes in the way than these are too many to work out paths among.
const MOST_IN_THE_WAY: usize = 200;

/// So many boxes drawn out by some width may be joined in all, before paths are no longer looked for.
const MOST_WORK: usize = 1 << 15;

/// What stands so far above a mattress, in m, is in the way of one who climbs from it to a window. One foot: ours, no
/// source.
const CLIMB: f64 = 0.3048;

/// The work that may be done for one build.
pub(crate) const fn budget() -> Budget {
    Budget::of(
        MOST_WORK,
        "a spec with fewer berths, ways out, states or parts, for which paths are worked out",
        "ask for fewer at a time",
    )
}

/// From which height above the floor to which a box stands in the way, in m.
pub(crate) type Band = (f64, f64);

/// The floor at night in one state: the outline, and what stands on it.
pub(crate) struct Floor<'a> {
    outline: Polygon<f64>,
    widest: f64,
    blocks: Vec<Rect<f64>>,
    /// A way out that is kept clear of, and by how much, in m.
    shut: Option<(Rect<f64>, f64)>,
    budget: &'a Budget,
    /// Where the middle of a disc can be, by its width in millimetres.
    drawn_in: RefCell<BTreeMap<u32, Rc<MultiPolygon<f64>>>>,
}

/// A place that a path begins or ends at: the disc's middle must come as near to one of these as `within`.
#[derive(Debug, Clone)]
struct End {
    places: Vec<Polygon<f64>>,
    within: f64,
}

impl<'a> Floor<'a> {
    /// The floor of a build in a state, at night.
    ///
    /// # Errors
    /// The measure of the trailer, or the place or size of what may stand in the way, that is not given; that there is
    /// too much of it.
    pub(crate) fn at_night(build: &Build, state: &State, band: Band, budget: &'a Budget) -> Known<Self> {
        few_enough(build)?;
        let outline = Outline::inside(build)?;
        let floor = build.surfaces.floor.clone()?.metres;
        let room = Block {
            x: (outline.nose, outline.rear),
            y: (-outline.half, outline.half),
            z: (floor + band.0, floor + band.1),
        };
        let mut blocks = Vec::new();
        for (_, extent) in aboard_at_night(build, state) {
            if Block::at_most(extent).meets(&room) {
                blocks.push(rect(&Block::of(extent)?));
            }
        }
        let wheels = wheel_boxes(build)?.into_iter().flatten().filter(|wheel| wheel.meets(&room));
        blocks.extend(wheels.map(|wheel| rect(&wheel)));
        if blocks.len() > MOST_IN_THE_WAY {
            return Err(Missing::new(
                format!("a state in which no more than {MOST_IN_THE_WAY} boxes stand on the floor"),
                Some(state.name.span),
                "paths are not worked out among so many",
            ));
        }
        Ok(Self {
            widest: (2.0 * outline.half).min(outline.rear - outline.nose),
            outline: ring(outline.corners(NOSE_CHORDS)),
            blocks,
            shut: None,
            budget,
            drawn_in: RefCell::new(BTreeMap::new()),
        })
    }

    /// The same floor with all that is nearer to a way out than `passing` shut off.
    pub(crate) fn shutting(&self, way: &Way, passing: f64) -> Self {
        let place = Rect::new(coord! { x: way.x.0, y: way.y.0 }, coord! { x: way.x.1, y: way.y.1 });
        Self {
            outline: self.outline.clone(),
            widest: self.widest,
            blocks: self.blocks.clone(),
            shut: Some((place, passing)),
            budget: self.budget,
            drawn_in: RefCell::new(BTreeMap::new()),
        }
    }

    /// Area of the floor on which nothing stands, in m².
    ///
    /// # Errors
    /// That too much was asked for.
    pub(crate) fn free_area(&self) -> Known<f64> {
        Ok(self.drawn_in(0)?.unsigned_area())
    }

    /// Where the middle of a disc of a width in millimetres can be.
    fn drawn_in(&self, width: u32) -> Known<Rc<MultiPolygon<f64>>> {
        if let Some(found) = self.drawn_in.borrow().get(&width) {
            return Ok(Rc::clone(found));
        }
        self.budget.spend(self.blocks.len() + 4)?;
        let radius = f64::from(width) / 2000.0;
        let whole = if width == 0 {
            MultiPolygon::new(vec![self.outline.clone()])
        } else {
            self.outline.buffer_with_style(BufferStyle::new(-radius).line_join(LineJoin::Miter(0.1)))
        };
        let taken: Vec<Polygon<f64>> = self
            .blocks
            .iter()
            .filter_map(|block| rounded(block, radius))
            .chain(self.shut.iter().filter_map(|(place, passing)| rounded(place, passing + radius)))
            .collect();
        let left = if taken.is_empty() { whole } else { whole.difference(&unary_union(&taken)) };
        let left = Rc::new(left);
        self.drawn_in.borrow_mut().insert(width, Rc::clone(&left));
        Ok(left)
    }

    /// Whether a disc of a width in millimetres can be moved from one end to the other.
    fn joins(&self, width: u32, from: impl Fn(f64) -> End, to: impl Fn(f64) -> End) -> Known<bool> {
        self.budget.spend(1 + self.blocks.len() / 8)?;
        let radius = f64::from(width) / 2000.0;
        let (from, to) = (from(radius), to(radius));
        let touches = |piece: &Polygon<f64>, end: &End| {
            end.places.iter().any(|place| Euclidean.distance(piece, place) <= end.within + NEAR)
        };
        let pieces = self.drawn_in(width)?;
        Ok(pieces.iter().any(|piece| touches(piece, &from) && touches(piece, &to)))
    }

    /// The width of the widest path from a berth, or what carries it, to a way out, in m, to the millimetre below; nothing where there is none.
    ///
    /// # Errors
    /// That too much was asked for.
    pub(crate) fn widest_path(&self, berth: &[Block], way: &Way) -> Known<f64> {
        let from = |radius: f64| beside(berth, radius);
        let to = |radius: f64| end_of(way, radius);
        // The greatest width at which they are joined is at least `least` and less than `most`.
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a trailer's width in mm, not negative"
        )]
        let (mut least, mut most) = (0_u32, (self.widest.clamp(0.0, 100.0) * 1000.0) as u32 + 2);
        while most - least > 1 {
            let middle = least.midpoint(most);
            if self.joins(middle, from, to)? {
                least = middle;
            } else {
                most = middle;
            }
        }
        Ok(f64::from(least) / 1000.0)
    }

    /// Whether there is a path of at least a width, in m, from a berth to a way out.
    ///
    /// # Errors
    /// That too much was asked for.
    pub(crate) fn has_path(&self, berth: &[Block], way: &Way, width: f64) -> Known<bool> {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a width in mm, not negative"
        )]
        let width = (width.clamp(0.0, 100.0) * 1000.0).ceil() as u32;
        self.joins(width, |radius| beside(berth, radius), |radius| end_of(way, radius))
    }
}

/// Where a path to a way out ends. The disc stands before the opening with its whole width, or with its middle before the
/// middle of one that is narrower; of an opening in the roof or floor, under or on it.
fn end_of(way: &Way, radius: f64) -> End {
    let shrunk = |reach: (f64, f64)| {
        let middle = f64::midpoint(reach.0, reach.1);
        ((reach.0 + radius).min(middle), (reach.1 - radius).max(middle))
    };
    let (x, y) = (shrunk(way.x), shrunk(way.y));
    let place = Rect::new(coord! { x: x.0, y: y.0 }, coord! { x: x.1, y: y.1 });
    End { places: vec![place.to_polygon()], within: if way.flat { 0.0 } else { radius } }
}

/// Where a path from a berth begins: beside it, or beside what carries it.
fn beside(berth: &[Block], radius: f64) -> End {
    End { places: berth.iter().map(|block| rect(block).to_polygon()).collect(), within: radius }
}

fn rect(block: &Block) -> Rect<f64> {
    Rect::new(coord! { x: block.x.0, y: block.y.0 }, coord! { x: block.x.1, y: block.y.1 })
}

/// A rectangle, which may be a line or a point, drawn out all round by a radius.
fn rounded(rect: &Rect<f64>, radius: f64) -> Option<Polygon<f64>> {
    if radius <= 0.0 {
        return (rect.width() > 0.0 && rect.height() > 0.0).then(|| rect.to_polygon());
    }
    let (low, high) = (rect.min(), rect.max());
    let between = 2.0 * (1.0 - SAGITTA / radius.max(10.0 * SAGITTA)).acos();
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "no more than a few dozen")]
    let steps = (std::f64::consts::FRAC_PI_2 / between).ceil() as u32;
    let corners = [(high.x, high.y), (low.x, high.y), (low.x, low.y), (high.x, low.y)];
    let arcs = corners.into_iter().zip(0_u32..).flat_map(|((x, y), quarter)| {
        (0..=steps).map(move |step| {
            let turn =
                std::f64::consts::FRAC_PI_2 * (f64::from(quarter) + f64::from(step) / f64::from(steps));
            (x + radius * turn.cos(), y + radius * turn.sin())
        })
    });
    Some(ring(arcs))
}

/// How wide a berth lies along a way out that is reached from it, in m: what its side and the opening have in common.
/// Nothing where it is farther from it than `direct`, or where something as high as the berth's top stands between.
pub(crate) fn from_the_berth(berth: &Block, way: &Way, direct: f64, others: &[Block]) -> f64 {
    if way.flat {
        let (x, y) = (share(berth.x, way.x), share(berth.y, way.y));
        return x.min(y).max(0.0);
    }
    let across = (way.x.1 - way.x.0).abs() <= TOUCH;
    let (along, gap) = if across {
        (share(berth.y, way.y), -share(berth.x, way.x))
    } else {
        (share(berth.x, way.x), -share(berth.y, way.y))
    };
    if along <= 0.0 || gap > direct {
        return 0.0;
    }
    let between = |one: (f64, f64), other: (f64, f64)| (one.1.min(other.1), one.0.max(other.0));
    let common = |one: (f64, f64), other: (f64, f64)| (one.0.max(other.0), one.1.min(other.1));
    let top = berth.z.1;
    let (x, y) = if across {
        (between(berth.x, way.x), common(berth.y, way.y))
    } else {
        (common(berth.x, way.x), between(berth.y, way.y))
    };
    let strip =
        Block { x: (x.0.min(x.1), x.0.max(x.1)), y: (y.0.min(y.1), y.0.max(y.1)), z: (top, top + CLIMB) };
    if others.iter().any(|other| other.meets(&strip)) { 0.0 } else { along }
}

#[cfg(test)]
mod tests;
