//! Which part of the plane of gross and tongue weight is drawn: all arrangements, and what is allowed near them.

use super::axis::Axis;
use super::{Limit, Plot, Point};

/// A rectangle on the page.
#[derive(Debug, Clone, Copy)]
pub(super) struct Frame {
    pub(super) left: f64,
    pub(super) top: f64,
    pub(super) width: f64,
    pub(super) height: f64,
}

impl Frame {
    pub(super) fn right(&self) -> f64 {
        self.left + self.width
    }

    pub(super) fn bottom(&self) -> f64 {
        self.top + self.height
    }
}

/// The part of the plane that is drawn.
#[derive(Debug)]
pub(super) struct Window {
    pub(super) across: Axis,
    pub(super) upright: Axis,
}

/// A limit within the window.
#[derive(Debug)]
pub(super) struct Within<'p> {
    /// By which it is called in the drawing and in the key.
    pub(super) letter: char,
    /// The limit.
    pub(super) limit: &'p Limit,
    /// Where its line enters.
    pub(super) from: Point,
    /// Where it leaves: further right, or further up.
    pub(super) to: Point,
}

/// How far around the arrangements what is allowed is shown, in their own spans.
const AROUND: f64 = 1.2;

/// A width of the area below which its axes have fewer marks.
const NARROW: f64 = 500.0;

#[derive(Debug, Clone, Copy)]
struct Span {
    least: f64,
    most: f64,
}

impl Span {
    fn over(values: impl Iterator<Item = f64>) -> Option<Self> {
        let finite = values.filter(|value| value.is_finite());
        finite.fold(None, |span: Option<Self>, value| {
            let Self { least, most } = span.unwrap_or(Self { least: value, most: value });
            Some(Self { least: least.min(value), most: most.max(value) })
        })
    }

    fn length(self) -> f64 {
        self.most - self.least
    }

    fn widened(self, by: f64) -> Self {
        Self { least: self.least - by, most: self.most + by }
    }

    /// Both, as far as the other does not go beyond so much.
    fn with(self, other: Option<Self>, beyond: f64) -> Self {
        let bounds = self.widened(beyond);
        other.map_or(self, |other| Self {
            least: self.least.min(other.least.max(bounds.least)),
            most: self.most.max(other.most.min(bounds.most)),
        })
    }
}

impl Window {
    /// The part of the plane that shows a plot's arrangements and what is allowed near them.
    pub(super) fn over(plot: &Plot, area: &Frame) -> Self {
        let marked = plot.marked.iter().map(|(_, point)| point);
        let all: Vec<Point> = plot.points.iter().chain(&plot.reach).chain(marked).copied().collect();
        let of = |points: &[Point], pick: fn(&Point) -> f64| Span::over(points.iter().map(pick));
        let gross = |point: &Point| point.0;
        let tongue = |point: &Point| point.1;
        let shown = if let (Some(weights), Some(tongues)) = (of(&all, gross), of(&all, tongue)) {
            // What does not vary is shown with a tenth of its size around it.
            let (wide, high) = (weights.length().max(0.1 * weights.most.abs()), tongues.length());
            let high = high.max(0.03 * weights.most.abs());
            let near = near(&plot.allowed, weights.widened(0.1 * wide));
            let across = weights.with(of(&near, gross), AROUND * wide);
            let upright = tongues.with(of(&near, tongue), AROUND * high);
            (across.widened(0.05 * wide), upright.widened(0.08 * high))
        } else {
            let nothing = Span { least: 0.0, most: 1.0 };
            (of(&plot.allowed, gross).unwrap_or(nothing), of(&plot.allowed, tongue).unwrap_or(nothing))
        };
        // Figures along a narrow axis would run into each other.
        let steps = if area.width < NARROW { 4.0 } else { 8.0 };
        let axis = |span: Span, ends| Axis::over([span.least, span.most].into_iter(), ends, steps);
        Self {
            across: axis(shown.0, (area.left, area.right())),
            upright: axis(shown.1, (area.bottom(), area.top)),
        }
    }

    /// Where weights lie on the page.
    pub(super) fn place(&self, point: Point) -> Point {
        (self.across.place(point.0), self.upright.place(point.1))
    }

    /// The limits whose lines pass through the window, with letters in the order of the plot.
    pub(super) fn limits<'p>(&self, plot: &'p Plot) -> Vec<Within<'p>> {
        let corners = [
            (self.across.least, self.upright.least),
            (self.across.most, self.upright.least),
            (self.across.most, self.upright.most),
            (self.across.least, self.upright.most),
        ];
        let mut letters = 'A'..='Z';
        let cut = |limit: &'p Limit| {
            let off = |point: Point| limit.counts.0 * point.0 + limit.counts.1 * point.1 - limit.sum;
            let sides = corners.iter().zip(corners.iter().cycle().skip(1));
            let crossings = sides.filter_map(|(from, to)| {
                let (here, there) = (off(*from), off(*to));
                if (here < 0.0) == (there < 0.0) {
                    return None;
                }
                let part = here / (here - there);
                Some((from.0 + part * (to.0 - from.0), from.1 + part * (to.1 - from.1)))
            });
            // Further right or further up on the page comes last.
            let mut ends: Vec<Point> = crossings.collect();
            let far = |point: &Point| {
                let (x, y) = self.place(*point);
                x - y
            };
            ends.sort_by(|one, other| far(one).total_cmp(&far(other)));
            match ends.as_slice() {
                [from, .., to] => Some((limit, *from, *to)),
                _ => None,
            }
        };
        let cut = plot.limits.iter().filter_map(cut);
        cut.map_while(|(limit, from, to)| Some(Within { letter: letters.next()?, limit, from, to })).collect()
    }
}

/// Corners of the part of a region that lies between two gross weights; where there is none, of its nearest edge.
fn near(region: &[Point], between: Span) -> Vec<Point> {
    let right_of = |region: &[Point], least: f64| clipped(region, |point| point.0 - least);
    let left_of = |region: &[Point], most: f64| clipped(region, |point| most - point.0);
    let strip = left_of(&right_of(region, between.least), between.most);
    if !strip.is_empty() {
        return strip;
    }
    let Some(all) = Span::over(region.iter().map(|point| point.0)) else { return Vec::new() };
    let slice = between.length() / 2.0;
    if all.most < between.least {
        right_of(region, all.most - slice)
    } else {
        left_of(region, all.least + slice)
    }
}

/// What is left of a region that bulges everywhere where a linear measure of its points is not negative.
fn clipped(region: &[Point], measure: impl Fn(&Point) -> f64) -> Vec<Point> {
    let sides = region.iter().zip(region.iter().cycle().skip(1));
    let mut left = Vec::new();
    for (from, to) in sides {
        let (here, there) = (measure(from), measure(to));
        if here >= 0.0 {
            left.push(*from);
        }
        if (here < 0.0) != (there < 0.0) {
            let part = here / (here - there);
            left.push((from.0 + part * (to.0 - from.0), from.1 + part * (to.1 - from.1)));
        }
    }
    left
}
