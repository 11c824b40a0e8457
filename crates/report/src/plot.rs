//! The envelope as a drawing: every arrangement by its gross and its tongue weight, over the region of weights that
//! ratings and limits allow. SVG, without script, style sheet or outside file. What is meant never hangs on a colour.

mod axis;
mod curves;
mod grid;
mod inset;
mod labels;
mod lettering;
mod lists;
mod window;

pub use axis::grouped;
pub use curves::{Curves, Line as Curve, Mark, Scale};
pub use inset::{Entry, Numbered, Sign};

use svg::Document;
use svg::node::element::{Circle, ClipPath, Description, Group, Line, Path, Polygon, Rectangle, Title};

use lettering::{Sheet, at_tenth};
use window::{Frame, Window};

use crate::safe;

/// A gross and a tongue weight, in the unit of the drawing.
pub type Point = (f64, f64);

/// What is drawn.
#[derive(Debug, Clone, Default)]
pub struct Plot {
    /// What the drawing is of.
    pub title: String,
    /// The unit of both weights, such as "lb".
    pub unit: String,
    /// The arrangements; none where they are too many to draw each.
    pub points: Vec<Point>,
    /// How many there are then, in words.
    pub too_many: Option<String>,
    /// What bounds all that can be reached, in order round it.
    pub reach: Vec<Point>,
    /// What bounds the weights allowed, in order round it; empty where nothing is allowed or nothing is known of it.
    pub allowed: Vec<Point>,
    /// The limits that bound them.
    pub limits: Vec<Limit>,
    /// Arrangements to be told apart, with what to say of each.
    pub marked: Vec<(String, Point)>,
    /// Remarks: what is not drawn, and why.
    pub notes: Vec<String>,
}

/// A limit: a line in the plane of gross and tongue weight.
#[derive(Debug, Clone)]
pub struct Limit {
    /// What it is, such as "gross weight at most 2,990 lb".
    pub words: String,
    /// What a gross weight counts for, and a tongue weight.
    pub counts: Point,
    /// What both come to on the line.
    pub sum: f64,
}

/// What the drawing's own element is called, by which it is known again.
pub const ID: &str = "pintle-envelope";

/// Width of the drawing.
const WIDTH: f64 = 1100.0;
/// Space at its edges.
const MARGIN: f64 = 40.0;
/// Place and size of the area of the axes, below the title.
const AREA: Frame = Frame { left: 96.0, top: 52.0, width: 604.0, height: 440.0 };
/// Where the key begins.
const KEY: f64 = 752.0;

const INK: &str = "#1c1c1c";
const RULED: &str = "#e3e3e3";
const INSIDE: &str = "#dbe6ee";
const OUTSIDE: &str = "#a8321e";

impl Plot {
    /// The drawing as an SVG document.
    pub fn svg(&self) -> String {
        let mut head = Sheet::new(MARGIN, 34.0);
        head.title(&self.title, WIDTH - 2.0 * MARGIN);
        let area = Frame { top: AREA.top + head.bottom() - 34.0, ..AREA };
        let window = Window::over(self, &area);
        let marks = lists::Marks::of(self);
        let key = self.key(&window, &area);
        let below = (area.bottom() + 66.0).max(key.bottom() + 16.0);
        let list = marks.list(self, below);
        let height = list.bottom().max(below) + 16.0;
        Document::new()
            .set("id", ID)
            .set("viewBox", format!("0 0 {WIDTH:.0} {height:.0}"))
            .set("width", WIDTH)
            .set("height", height.round())
            .set("role", "img")
            .set("font-family", "sans-serif")
            .set("font-size", lettering::SIZE)
            .set("fill", INK)
            .add(Title::new(safe::line(&self.title)))
            .add(Description::new().add(svg::node::Text::new(self.told())))
            .add(Rectangle::new().set("width", "100%").set("height", "100%").set("fill", "#ffffff"))
            .add(head.into_group())
            .add(self.grid(&window, &area))
            .add(self.regions(&window, &area, "pintle-area"))
            .add(self.dots(&window))
            .add(labels::rings(&marks, &window, &self.drawn(), &area))
            .add(key.into_group())
            .add(list.into_group())
            .to_string()
            + "\n"
    }

    /// What is drawn each by itself: all arrangements, or where they are too many, those to be told apart.
    fn drawn(&self) -> Vec<Point> {
        if self.too_many.is_some() {
            self.marked.iter().map(|(_, point)| *point).collect()
        } else {
            self.points.clone()
        }
    }

    /// The drawing in a sentence, for who cannot see it.
    fn told(&self) -> String {
        let (within, outside) = self.counted();
        match &self.too_many {
            Some(number) => format!("{number} arrangements by gross and tongue weight, as the bounds of all"),
            None => format!(
                "{} arrangements by gross and tongue weight, {outside} of them outside the allowed region",
                within + outside
            ),
        }
    }

    /// How many of those lie within the allowed region, and how many do not.
    pub fn counted(&self) -> (usize, usize) {
        let (within, outside): (Vec<Point>, Vec<Point>) =
            self.drawn().into_iter().partition(|point| holds(&self.allowed, *point));
        (within.len(), outside.len())
    }

    fn grid(&self, window: &Window, area: &Frame) -> Group {
        let gross = format!("gross weight, {}", self.unit);
        let tongue = format!("tongue weight, {}", self.unit);
        grid::ruled_with((&window.across, &window.upright), area, [&gross, &tongue], 58.0)
    }

    /// The allowed region, the limits, and the bounds of what can be reached, cut off at the edges of the area.
    fn regions(&self, window: &Window, area: &Frame, clip: &str) -> Group {
        let frame = || {
            Rectangle::new()
                .set("x", area.left)
                .set("y", area.top)
                .set("width", area.width)
                .set("height", area.height)
        };
        let mut cut = Group::new().set("clip-path", format!("url(#{clip})"));
        if self.allowed.len() > 2 {
            cut = cut.add(
                Polygon::new()
                    .set("points", path(self.allowed.iter().map(|point| window.place(*point))))
                    .set("fill", INSIDE)
                    .set("stroke", INK)
                    .set("stroke-width", 1.5),
            );
        }
        for limit in window.limits(self) {
            let (from, to) = (window.place(limit.from), window.place(limit.to));
            cut = cut.add(line(from, to).set("stroke", INK).set("stroke-dasharray", "1.5 4"));
        }
        if self.reach.len() > 1 {
            cut = cut.add(
                Polygon::new()
                    .set("points", path(self.reach.iter().map(|point| window.place(*point))))
                    .set("fill", "none")
                    .set("stroke", INK)
                    .set("stroke-dasharray", "6 4"),
            );
        }
        let letters = labels::letters(window, area, &window.limits(self));
        Group::new()
            .add(ClipPath::new().set("id", clip).add(frame()))
            .add(cut)
            .add(frame().set("fill", "none").set("stroke", INK))
            .add(letters)
    }

    /// A dot for what is allowed, a cross for what is not: the colour only repeats it.
    fn dots(&self, window: &Window) -> Group {
        let (mut dots, mut crosses) = (String::new(), String::new());
        for point in self.drawn() {
            let (x, y) = window.place(point);
            if holds(&self.allowed, point) {
                dots += &dot_at(x, y);
            } else {
                crosses += &cross_at(x, y);
            }
        }
        let mut drawn = Group::new();
        if !dots.is_empty() {
            drawn = drawn.add(dotted(dots));
        }
        if !crosses.is_empty() {
            drawn = drawn.add(crossed(crosses));
        }
        drawn
    }
}

fn line(from: Point, to: Point) -> Line {
    Line::new()
        .set("x1", at_tenth(from.0))
        .set("y1", at_tenth(from.1))
        .set("x2", at_tenth(to.0))
        .set("y2", at_tenth(to.1))
}

/// A stroke of next to no length: its round ends make a dot.
fn dot_at(x: f64, y: f64) -> String {
    format!("M{} {}h.01", at_tenth(x), at_tenth(y))
}

fn cross_at(x: f64, y: f64) -> String {
    format!("M{} {}l6 6m0 -6l-6 6", at_tenth(x - 3.0), at_tenth(y - 3.0))
}

fn dotted(dots: String) -> Path {
    let path = Path::new().set("class", "within").set("d", dots).set("fill", "none");
    path.set("stroke", INK).set("stroke-width", 4.4).set("stroke-linecap", "round")
}

fn crossed(crosses: String) -> Path {
    let path = Path::new().set("class", "outside").set("d", crosses).set("fill", "none");
    path.set("stroke", OUTSIDE).set("stroke-width", 1.6)
}

fn ring_at(x: f64, y: f64) -> Circle {
    let ring = Circle::new().set("cx", at_tenth(x)).set("cy", at_tenth(y)).set("r", labels::RING);
    ring.set("fill", "none").set("stroke", INK).set("stroke-width", 1.4)
}

/// Whether a region that bulges everywhere holds a point, its border included.
fn holds(region: &[Point], point: Point) -> bool {
    if region.len() < 3 {
        return false;
    }
    let next = region.iter().cycle().skip(1);
    let sides = region.iter().zip(next).map(|(from, to)| {
        let across = (to.0 - from.0) * (point.1 - from.1) - (to.1 - from.1) * (point.0 - from.0);
        let long = (to.0 - from.0).hypot(to.1 - from.1);
        if long > 0.0 { across / long } else { 0.0 }
    });
    // A hair's breadth on the drawing: what lies on a limit is allowed.
    let hair = 1e-6;
    let (mut left, mut right) = (true, true);
    for side in sides {
        left &= side >= -hair;
        right &= side <= hair;
    }
    left || right
}

fn path(points: impl Iterator<Item = Point>) -> String {
    let written: Vec<String> = points.map(|(x, y)| format!("{},{}", at_tenth(x), at_tenth(y))).collect();
    written.join(" ")
}

#[cfg(test)]
mod tests;
