//! A turned box in plan that slides, and what it comes into.

use crate::space::boxes::share;
use crate::space::outline::TOUCH;

/// A box in plan as it is moved: its middle, half of its sizes, its turn, and by how much it slides.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Pose {
    pub(crate) middle: (f64, f64),
    pub(crate) half: (f64, f64),
    /// Cosine and sine of the turn.
    pub(crate) turn: (f64, f64),
    pub(crate) slide: (f64, f64),
}

impl Pose {
    /// From where to where it reaches along a direction of length one, slide and all.
    fn along(&self, (x, y): (f64, f64)) -> (f64, f64) {
        let (cos, sin) = self.turn;
        let middle = self.middle.0 * x + self.middle.1 * y;
        let reach = self.half.0 * (cos * x + sin * y).abs() + self.half.1 * (cos * y - sin * x).abs();
        let slide = self.slide.0 * x + self.slide.1 * y;
        (middle - reach + slide.min(0.0), middle + reach + slide.max(0.0))
    }

    /// Whether it comes into a rectangle by more than [`TOUCH`], anywhere on its slide, which is along an axis.
    ///
    /// Two convex shapes are apart if they are along a normal of one of their sides. Those of what a turned rectangle
    /// sweeps as it slides along an axis are the axes, and its own.
    pub(crate) fn meets(&self, x: (f64, f64), y: (f64, f64)) -> bool {
        let (cos, sin) = self.turn;
        if share(self.along((1.0, 0.0)), x) <= TOUCH || share(self.along((0.0, 1.0)), y) <= TOUCH {
            return false;
        }
        let (mx, my) = (f64::midpoint(x.0, x.1), f64::midpoint(y.0, y.1));
        let (hx, hy) = ((x.1 - x.0) / 2.0, (y.1 - y.0) / 2.0);
        [(cos, sin), (-sin, cos)].into_iter().all(|(nx, ny)| {
            let middle = mx * nx + my * ny;
            let reach = hx * nx.abs() + hy * ny.abs();
            share(self.along((nx, ny)), (middle - reach, middle + reach)) > TOUCH
        })
    }

    /// Its corners, at both ends of its slide.
    pub(super) fn corners(&self) -> [(f64, f64); 8] {
        let (cos, sin) = self.turn;
        let corner = |u: f64, v: f64, slid: f64| {
            let (a, b) = (self.half.0 * u, self.half.1 * v);
            let x = self.middle.0 + a * cos - b * sin + slid * self.slide.0;
            (x, self.middle.1 + a * sin + b * cos + slid * self.slide.1)
        };
        [
            corner(1.0, 1.0, 0.0),
            corner(-1.0, 1.0, 0.0),
            corner(-1.0, -1.0, 0.0),
            corner(1.0, -1.0, 0.0),
            corner(1.0, 1.0, 1.0),
            corner(-1.0, 1.0, 1.0),
            corner(-1.0, -1.0, 1.0),
            corner(1.0, -1.0, 1.0),
        ]
    }
}
