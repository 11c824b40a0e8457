//! Where the paths of a night run: for somebody to look at. No rule asks for it, and nothing is judged by it.
//!
//! The place of a disc's middle is sought on a grid, as the shortest way over it, and what can be cut short is. The
//! line is one way that is wide enough, not the only one.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use geo::{BoundingRect, Distance, Euclidean, Intersects, Point, Polygon};
use pintle_spec::schema::assume::{self, space};
use pintle_spec::{Known, Missing, State};

use super::{End, Floor, beside, budget, end_of};
use crate::case::Case;
use crate::space::berths::with_its_deck;
use crate::space::berths_inside;
use crate::space::exits::{Way, exits, way};

/// A ring of a plan, its corners in order: x aft from the ball, y to the right of the centreline, in m.
pub type Ring = Vec<(f64, f64)>;

/// Between two places of the grid, in m. A way that is drawn leaves [`SPARE`] to all sides, so that the grid finds it.
const STEP: f64 = 0.025;

/// How much narrower than the widest path the disc is that a way is drawn for, in m.
const SPARE: f64 = 0.06;

/// More places than these along one axis are not looked at: the grid is made wider.
const MOST_STEPS: f64 = 400.0;

/// No more ways than these are drawn: more are a tangle.
const MOST: usize = 24;

/// The floor at night in one state, and ways over it.
#[derive(Debug, Clone)]
pub struct Night {
    /// The floor on which nothing stands: rings, of which an inner one leaves out what it goes round.
    pub free: Vec<Ring>,
    /// A way from each berth inside to each way out; or what is missing to know which those are.
    pub routes: Known<Vec<Route>>,
}

/// A way from a berth to a way out. Indices count [`pintle_spec::Build::items`].
#[derive(Debug, Clone)]
pub struct Route {
    /// From where.
    pub berth: usize,
    /// To where.
    pub exit: usize,
    /// Where the middle of the disc goes; nothing where there is no way over the floor, or what is missing to know.
    pub line: Known<Option<Ring>>,
    /// The disc that it was drawn for, in m: as wide as a path has to be, or what there is room for.
    pub width: f64,
}

/// The floor of a state of [`pintle_spec::Build::states`] at night, and the ways over it.
///
/// # Errors
/// The state, where there is none; the measure of the trailer, or the place or size of what may stand in the way, that is
/// not given; that there is too much of it.
pub fn night(case: &Case<'_>, state: usize) -> Known<Night> {
    let build = case.build;
    let none = || Missing::new("the state that is looked at", None, "report this");
    let state: &State = build.states.get(state).ok_or_else(none)?;
    let assumed = |field| Ok(case.assumed(&assume::SPACE, field)?.0.quantity.si());
    let band = (assumed(&space::STEP_OVER)?, assumed(&space::BAND)?);
    let (least, budget) = (assumed(&space::PATH)?, budget());
    let floor = Floor::at_night(build, state, band, &budget)?;
    let rings = |polygon: &Polygon<f64>| -> Vec<Ring> {
        let all = std::iter::once(polygon.exterior()).chain(polygon.interiors());
        all.map(|ring| ring.coords().map(|corner| (corner.x, corner.y)).collect()).collect()
    };
    let free = floor.drawn_in(0)?.iter().flat_map(rings).collect();
    Ok(Night { free, routes: routes(case, state, &floor, least) })
}

/// A way from each berth inside to each way out, no wider than a path has to be.
fn routes(case: &Case<'_>, state: &State, floor: &Floor<'_>, least: f64) -> Known<Vec<Route>> {
    let build = case.build;
    let mut routes = Vec::new();
    for (berth, body) in berths_inside(build)?.into_iter().filter(|(berth, _)| !state.out.contains(berth)) {
        let bed = with_its_deck(build, body)?;
        for (exit, opening) in exits(build)? {
            if routes.len() == MOST {
                return Ok(routes);
            }
            let found = || -> Known<(f64, Option<Ring>)> {
                let way = way(build, opening)?;
                let width = (floor.widest_path(&bed, &way)? - SPARE).min(least);
                let line = if width > 0.0 { floor.line(width, &bed, &way)? } else { None };
                Ok((width.max(0.0), line))
            };
            let (width, line) = match found() {
                Ok((width, line)) => (width, Ok(line)),
                Err(missing) => (0.0, Err(missing)),
            };
            routes.push(Route { berth, exit, line, width });
        }
    }
    Ok(routes)
}

impl Floor<'_> {
    /// Where the middle of a disc of a width goes from a berth to a way out.
    fn line(&self, width: f64, berth: &[super::Block], way: &Way) -> Known<Option<Ring>> {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a width in mm, not negative, no wider than the floor"
        )]
        let pieces = self.drawn_in((width * 1000.0) as u32)?;
        let radius = width / 2.0;
        let (from, to) = (beside(berth, radius), end_of(way, radius));
        let line = pieces.iter().find_map(|piece| Grid::over(piece)?.shortest(&from, &to));
        Ok(line.map(|mut line| {
            line.push((f64::midpoint(way.x.0, way.x.1), f64::midpoint(way.y.0, way.y.1)));
            line
        }))
    }
}

/// Places that lie in one piece of the floor.
struct Grid<'p> {
    piece: &'p Polygon<f64>,
    low: (f64, f64),
    step: f64,
    columns: usize,
    free: Vec<bool>,
}

impl<'p> Grid<'p> {
    fn over(piece: &'p Polygon<f64>) -> Option<Self> {
        let bounds = piece.bounding_rect()?;
        let longest = bounds.width().max(bounds.height());
        let step = STEP.max(longest / MOST_STEPS);
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "no more than MOST_STEPS"
        )]
        let steps = |length: f64| (length / step).ceil() as usize + 1;
        let (columns, rows) = (steps(bounds.width()), steps(bounds.height()));
        let low = (bounds.min().x, bounds.min().y);
        let mut grid = Self { piece, low, step, columns, free: Vec::new() };
        grid.free = (0..columns * rows).map(|at| grid.holds(grid.place(at))).collect();
        Some(grid)
    }

    #[expect(clippy::cast_precision_loss, reason = "no more than MOST_STEPS either way")]
    fn place(&self, at: usize) -> (f64, f64) {
        let (row, column) = (at / self.columns, at % self.columns);
        (self.low.0 + column as f64 * self.step, self.low.1 + row as f64 * self.step)
    }

    fn holds(&self, (x, y): (f64, f64)) -> bool {
        self.piece.intersects(&Point::new(x, y))
    }

    /// Whether a place is as near to an end as one of the grid has to be.
    fn at_end(&self, at: usize, end: &End) -> bool {
        let (x, y) = self.place(at);
        let point = Point::new(x, y);
        end.places.iter().any(|place| Euclidean.distance(&point, place) <= end.within + self.step)
    }

    /// The places beside one, with how far it is to each in tenths of a step.
    fn beside(&self, at: usize) -> impl Iterator<Item = (usize, u32)> {
        let (row, column, columns) = (at / self.columns, at % self.columns, self.columns);
        let near = [(0, 1), (0, 2), (1, 0), (1, 2), (2, 1), (2, 0), (0, 0), (2, 2)];
        near.into_iter().filter_map(move |(down, across)| {
            let (row, column) = ((row + down).checked_sub(1)?, (column + across).checked_sub(1)?);
            let far = if down == 1 || across == 1 { 10 } else { 14 };
            (column < columns).then_some((row * columns + column, far))
        })
    }

    fn shortest(&self, from: &End, to: &End) -> Option<Ring> {
        let mut best: Vec<Option<(u32, usize)>> = vec![None; self.free.len()];
        let mut waiting = BinaryHeap::new();
        let is_free = |at: usize| self.free.get(at).copied().unwrap_or(false);
        for at in (0..self.free.len()).filter(|at| is_free(*at) && self.at_end(*at, from)) {
            *best.get_mut(at)? = Some((0, at));
            waiting.push(Reverse((0, at)));
        }
        while let Some(Reverse((far, at))) = waiting.pop() {
            if best.get(at).copied().flatten().is_some_and(|(known, _)| known < far) {
                continue;
            }
            if self.at_end(at, to) {
                return Some(self.cut_short(&self.back(at, &best)?));
            }
            for (next, step) in self.beside(at).filter(|(next, _)| is_free(*next)) {
                let held = best.get_mut(next)?;
                if held.is_none_or(|(known, _)| far + step < known) {
                    *held = Some((far + step, at));
                    waiting.push(Reverse((far + step, next)));
                }
            }
        }
        None
    }

    /// The places on the way to one, from the first.
    fn back(&self, mut at: usize, best: &[Option<(u32, usize)>]) -> Option<Ring> {
        let mut line = vec![self.place(at)];
        loop {
            let (_, before) = best.get(at).copied().flatten()?;
            if before == at {
                line.reverse();
                return Some(line);
            }
            at = before;
            line.push(self.place(at));
        }
    }

    /// The same way with as few corners as it can have where each leg stays on the floor.
    fn cut_short(&self, line: &Ring) -> Ring {
        let mut kept: Ring = Vec::new();
        let mut before: Option<(f64, f64)> = None;
        for place in line {
            let Some(corner) = kept.last().copied() else {
                kept.push(*place);
                continue;
            };
            if !self.straight(corner, *place) {
                kept.extend(before);
            }
            before = Some(*place);
        }
        kept.extend(before);
        kept
    }

    fn straight(&self, from: (f64, f64), to: (f64, f64)) -> bool {
        let length = (to.0 - from.0).hypot(to.1 - from.1);
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "no more than MOST_STEPS"
        )]
        let steps = (length / (self.step / 2.0)).ceil().max(1.0) as u32;
        (0..=steps).all(|step| {
            let share = f64::from(step) / f64::from(steps);
            self.holds((from.0 + share * (to.0 - from.0), from.1 + share * (to.1 - from.1)))
        })
    }
}

#[cfg(test)]
mod tests;
