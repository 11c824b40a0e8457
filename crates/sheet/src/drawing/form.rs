//! Forms on paper: plain geometry, in millimetres of the trailer, x to the right and y down as SVG has it.

use pintle_calc::space::{Along, Outline, Sweep};
use pintle_spec::{Extent, Known, Reach};

/// A place on paper, in mm.
pub(super) type Point = (f64, f64);

/// A rectangle on paper, in mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Bounds {
    pub(super) low: Point,
    pub(super) high: Point,
}

impl Bounds {
    /// Round two corners.
    pub(super) fn round(one: Point, other: Point) -> Self {
        Self { low: (one.0.min(other.0), one.1.min(other.1)), high: (one.0.max(other.0), one.1.max(other.1)) }
    }

    /// Of a size, about a middle.
    pub(super) fn about(middle: Point, width: f64, height: f64) -> Self {
        let (x, y) = (width / 2.0, height / 2.0);
        Self { low: (middle.0 - x, middle.1 - y), high: (middle.0 + x, middle.1 + y) }
    }

    pub(super) fn width(&self) -> f64 {
        self.high.0 - self.low.0
    }

    pub(super) fn height(&self) -> f64 {
        self.high.1 - self.low.1
    }

    pub(super) fn middle(&self) -> Point {
        (f64::midpoint(self.low.0, self.high.0), f64::midpoint(self.low.1, self.high.1))
    }

    /// Round both.
    pub(super) fn and(&self, other: &Self) -> Self {
        let (low, high) = (Self::round(self.low, other.low).low, Self::round(self.high, other.high).high);
        Self { low, high }
    }

    pub(super) fn grown(&self, by: f64) -> Self {
        Self { low: (self.low.0 - by, self.low.1 - by), high: (self.high.0 + by, self.high.1 + by) }
    }

    pub(super) fn meets(&self, other: &Self) -> bool {
        self.low.0 < other.high.0
            && other.low.0 < self.high.0
            && self.low.1 < other.high.1
            && other.low.1 < self.high.1
    }

    /// The place in it that is nearest to another.
    pub(super) fn nearest(&self, to: Point) -> Point {
        (to.0.max(self.low.0).min(self.high.0), to.1.max(self.low.1).min(self.high.1))
    }

    fn is_finite(&self) -> bool {
        [self.low.0, self.low.1, self.high.0, self.high.1].into_iter().all(f64::is_finite)
    }
}

/// What can be drawn.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Form {
    /// A rectangle.
    Rect(Bounds),
    /// A closed line of straight legs.
    Ring(Vec<Point>),
    /// Rings, of which inner ones are left out.
    Rings(Vec<Vec<Point>>),
    /// An open line.
    Line(Vec<Point>),
    /// A circle.
    Circle(Point, f64),
    /// A quarter of a circle, from one end of the arc to the other.
    Quarter { hinge: Point, from: Point, to: Point, radius: f64 },
    /// The plan of a box with a round nose: from one corner of the nose to the other by half an ellipse, then round the rear.
    Nose { from: Point, to: Point, depth: f64, half: f64, rear: [Point; 2] },
    /// A thing without a size.
    Spot(Point),
}

impl Form {
    /// The rectangle round it; none of what has no place on paper.
    pub(super) fn bounds(&self) -> Option<Bounds> {
        let corners: Vec<Point> = match self {
            Self::Rect(bounds) => vec![bounds.low, bounds.high],
            Self::Ring(corners) | Self::Line(corners) => corners.clone(),
            Self::Rings(rings) => rings.concat(),
            Self::Circle((x, y), radius) => vec![(x - radius, y - radius), (x + radius, y + radius)],
            Self::Quarter { hinge, from, to, .. } => vec![*hinge, *from, *to],
            Self::Nose { from, to, depth, rear: [one, other], .. } => {
                let ahead = if from.0 < one.0 { -depth } else { *depth };
                vec![*from, *to, *one, *other, (from.0 + ahead, f64::midpoint(from.1, to.1))]
            }
            Self::Spot(at) => vec![*at],
        };
        let all = corners.into_iter().map(|corner| Bounds { low: corner, high: corner });
        all.reduce(|one, other| one.and(&other)).filter(Bounds::is_finite)
    }
}

/// From which side a view is taken: which way of the trailer runs to the right on paper, and which up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum View {
    /// From the left: the front is on the left.
    FromLeft,
    /// From the right: the front is on the right.
    FromRight,
    /// From above: the front is on the left, the right side on top.
    Above,
    /// From behind: the right side is on the right.
    Behind,
}

/// Metres to millimetres.
const MM: f64 = 1000.0;

impl View {
    /// Where a place in the trailer is on paper; x aft from the ball, y right of the centreline, z up, in m.
    pub(super) fn at(self, x: f64, y: f64, z: f64) -> Point {
        match self {
            Self::FromLeft => (x * MM, -z * MM),
            Self::FromRight => (-x * MM, -z * MM),
            Self::Above => (x * MM, -y * MM),
            Self::Behind => (y * MM, -z * MM),
        }
    }

    /// A box, as its two ends along each axis.
    pub(super) fn boxed(self, x: (f64, f64), y: (f64, f64), z: (f64, f64)) -> Bounds {
        Bounds::round(self.at(x.0, y.0, z.0), self.at(x.1, y.1, z.1))
    }

    /// Where an extent is on paper; only the axes that lie in the paper are asked for. A thing without a size is a spot.
    pub(super) fn extent(self, extent: &Extent) -> Known<Form> {
        let none = (0.0, 0.0);
        let (x, y, z) = match self {
            Self::FromLeft | Self::FromRight => (ends(&extent.x)?, none, ends(&extent.z)?),
            Self::Above => (ends(&extent.x)?, ends(&extent.y)?, none),
            Self::Behind => (none, ends(&extent.y)?, ends(&extent.z)?),
        };
        let bounds = self.boxed(x, y, z);
        let has_size = bounds.width() > 0.0 || bounds.height() > 0.0;
        Ok(if has_size { Form::Rect(bounds) } else { Form::Spot(bounds.low) })
    }

    /// The axis that is looked along.
    pub(super) const fn along(self) -> Along {
        match self {
            Self::FromLeft | Self::FromRight => Along::Y,
            Self::Above => Along::Z,
            Self::Behind => Along::X,
        }
    }

    /// What swings, as it is seen: a quarter of a circle along its hinge, a rectangle from any other side.
    pub(super) fn sweep(self, sweep: &Sweep) -> Form {
        if let Sweep::Quarter { hinge, at, into, radius, .. } = *sweep
            && hinge == self.along()
        {
            let place = |one: f64, other: f64| match hinge {
                Along::X => self.at(0.0, one, other),
                Along::Y => self.at(one, 0.0, other),
                Along::Z => self.at(one, other, 0.0),
            };
            return Form::Quarter {
                hinge: place(at.0, at.1),
                from: place(at.0 + into.0 * radius, at.1),
                to: place(at.0, at.1 + into.1 * radius),
                radius: radius * MM,
            };
        }
        let block = sweep.bounds();
        Form::Rect(self.boxed(block.x, block.y, block.z))
    }
}

/// The plan of an outline, seen from above.
pub(super) fn plan(outline: &Outline) -> Form {
    let at = |x: f64, y: f64| View::Above.at(x, y, 0.0);
    let Outline { nose, square, rear, half, front, .. } = *outline;
    let behind = [at(rear, half), at(rear, -half)];
    if outline.round {
        return Form::Nose {
            from: at(square, -half),
            to: at(square, half),
            depth: (square - nose) * MM,
            half: half * MM,
            rear: behind,
        };
    }
    let mut corners = vec![at(square, -half)];
    if square > nose {
        corners.push(at(nose, -front));
        corners.push(at(nose, front));
    }
    corners.push(at(square, half));
    corners.extend(behind);
    corners.dedup();
    Form::Ring(corners)
}

/// The ends of a reach, in m.
pub(super) fn ends(reach: &Reach) -> Known<(f64, f64)> {
    Ok((reach.near.clone()?.metres, reach.far.clone()?.metres))
}
