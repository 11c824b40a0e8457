//! The envelope as a drawing: every arrangement by its gross and its tongue weight, over the region of weights that
//! ratings and limits allow. SVG, without script, style sheet or outside file.

mod axis;

use svg::Document;
use svg::node::element::{Circle, Description, Group, Line, Path, Polygon, Rectangle, Text, Title};

use axis::Axis;

use crate::safe;
use crate::wrap::wrapped;

/// A gross and a tongue weight, in the unit of the drawing.
pub type Point = (f64, f64);

/// What is drawn.
#[derive(Debug, Clone, Default)]
pub struct Plot {
    /// What the drawing is of.
    pub title: String,
    /// The unit of both weights, such as "lb".
    pub unit: String,
    /// The arrangements.
    pub points: Vec<Point>,
    /// What bounds all that can be reached, in order round it.
    pub reach: Vec<Point>,
    /// What bounds the weights allowed, in order round it; empty where nothing is allowed or nothing is known of it.
    pub allowed: Vec<Point>,
    /// Arrangements to be told apart, with what to say of each.
    pub marked: Vec<(String, Point)>,
    /// Remarks set below: what is not drawn, and why.
    pub notes: Vec<String>,
}

/// Width and height of the area of the axes, and where it begins.
const AREA: Frame = Frame { left: 90.0, top: 64.0, width: 560.0, height: 420.0 };
/// Width of the column that names the marked arrangements.
const COLUMN: f64 = 400.0;
/// Letters that fit on one of its lines.
const LETTERS: usize = 58;

const INK: &str = "#1c1c1c";
const GREY: &str = "#5f5f5f";
const RULED: &str = "#dcdcdc";
const INSIDE: &str = "#dcebf7";
const OUTSIDE: &str = "#a8321e";

struct Frame {
    left: f64,
    top: f64,
    width: f64,
    height: f64,
}

impl Plot {
    /// The drawing as an SVG document.
    pub fn svg(&self) -> String {
        let all = || {
            let marked = self.marked.iter().map(|(_, point)| point);
            self.points.iter().chain(&self.reach).chain(&self.allowed).chain(marked)
        };
        let across = Axis::over(all().map(|point| point.0), AREA.left, AREA.left + AREA.width);
        let upright = Axis::over(all().map(|point| point.1), AREA.top + AREA.height, AREA.top);
        let place = |point: Point| (across.place(point.0), upright.place(point.1));
        let legend = self.legend();
        let notes = self.notes.iter().flat_map(|note| wrapped(note, 110)).collect::<Vec<_>>();
        let foot = AREA.top + AREA.height + 78.0;
        let written = legend.lines.max(1);
        let height = (foot + 18.0 * lines(notes.len())).max(AREA.top + 18.0 * lines(written)) + 24.0;
        let width = AREA.left + AREA.width + 30.0 + COLUMN;
        let outside = self.points.iter().filter(|point| !holds(&self.allowed, **point)).count();
        let mut document = Document::new()
            .set("viewBox", format!("0 0 {width:.0} {height:.0}"))
            .set("role", "img")
            .set("font-family", "sans-serif")
            .set("font-size", 13)
            .set("fill", INK)
            .add(Title::new(safe::line(&self.title)))
            .add(Description::new().add(svg::node::Text::new(format!(
                "{} arrangements by gross and tongue weight, {outside} of them outside the allowed region",
                self.points.len()
            ))))
            .add(Rectangle::new().set("width", "100%").set("height", "100%").set("fill", "#ffffff"))
            .add(written_at(AREA.left, 30.0, &self.title).set("font-size", 17).set("font-weight", "bold"))
            .add(self.grid(&across, &upright));
        if self.allowed.len() > 2 {
            document = document.add(
                Polygon::new()
                    .set("points", path(self.allowed.iter().map(|point| place(*point))))
                    .set("fill", INSIDE)
                    .set("stroke", INK)
                    .set("stroke-width", 1.5),
            );
        }
        if self.reach.len() > 1 {
            document = document.add(
                Polygon::new()
                    .set("points", path(self.reach.iter().map(|point| place(*point))))
                    .set("fill", "none")
                    .set("stroke", GREY)
                    .set("stroke-dasharray", "5 4"),
            );
        }
        let mut drawn = Group::new();
        for point in &self.points {
            drawn = drawn.add(self.dot(*point, place(*point)));
        }
        document = document.add(drawn);
        for (at, (_, point)) in self.marked.iter().enumerate() {
            let (x, y) = place(*point);
            let ring = Circle::new().set("cx", at_tenth(x)).set("cy", at_tenth(y)).set("r", 6);
            document = document
                .add(ring.set("fill", "none").set("stroke", INK).set("stroke-width", 1.5))
                .add(written_at(x + 8.0, y - 6.0, &(at + 1).to_string()).set("font-weight", "bold"));
        }
        document = document.add(legend.group);
        for (at, note) in notes.iter().enumerate() {
            document = document.add(written_at(AREA.left, foot + 18.0 * lines(at), note).set("fill", GREY));
        }
        document.to_string() + "\n"
    }

    fn grid(&self, across: &Axis, upright: &Axis) -> Group {
        let (bottom, right) = (AREA.top + AREA.height, AREA.left + AREA.width);
        let mut grid = Group::new();
        let ruled = |from: (f64, f64), to: (f64, f64)| {
            Line::new()
                .set("x1", at_tenth(from.0))
                .set("y1", at_tenth(from.1))
                .set("x2", at_tenth(to.0))
                .set("y2", at_tenth(to.1))
                .set("stroke", RULED)
        };
        for (value, shown) in across.marks() {
            let x = across.place(value);
            grid = grid
                .add(ruled((x, AREA.top), (x, bottom)))
                .add(written_at(x, bottom + 18.0, &shown).set("text-anchor", "middle"));
        }
        for (value, shown) in upright.marks() {
            let y = upright.place(value);
            grid = grid
                .add(ruled((AREA.left, y), (right, y)))
                .add(written_at(AREA.left - 8.0, y + 4.0, &shown).set("text-anchor", "end"));
        }
        let middle = AREA.left + AREA.width / 2.0;
        grid.add(
            written_at(middle, bottom + 40.0, &format!("gross weight, {}", self.unit))
                .set("text-anchor", "middle"),
        )
        .add(written_at(AREA.left - 60.0, AREA.top - 12.0, &format!("tongue weight, {}", self.unit)))
    }

    /// A dot for what is allowed, a cross for what is not: the colour only repeats it.
    fn dot(&self, point: Point, (x, y): Point) -> Group {
        if holds(&self.allowed, point) {
            let dot = Circle::new().set("cx", at_tenth(x)).set("cy", at_tenth(y)).set("r", 2.2);
            return Group::new().add(dot.set("fill", INK));
        }
        let arm = 3.0;
        let cross = format!(
            "M{} {}L{} {}M{} {}L{} {}",
            at_tenth(x - arm),
            at_tenth(y - arm),
            at_tenth(x + arm),
            at_tenth(y + arm),
            at_tenth(x - arm),
            at_tenth(y + arm),
            at_tenth(x + arm),
            at_tenth(y - arm)
        );
        Group::new().add(
            Path::new().set("d", cross).set("stroke", OUTSIDE).set("stroke-width", 1.6).set("fill", "none"),
        )
    }

    fn legend(&self) -> Legend {
        let left = AREA.left + AREA.width + 30.0;
        let mut lines_written = 0_usize;
        let mut group = Group::new();
        let mut write = |indent: f64, words: &str, bold: bool| {
            let text = written_at(left + indent, AREA.top + 18.0 * lines(lines_written), words);
            lines_written += 1;
            let weight = if bold { "bold" } else { "normal" };
            group = group.clone().add(text.set("font-weight", weight));
        };
        write(0.0, "shaded: weights that ratings and limits allow", false);
        write(0.0, "dashed: bounds of what can be arranged", false);
        write(0.0, "dot: an arrangement within; cross: one outside", false);
        write(0.0, "", false);
        for (at, (words, point)) in self.marked.iter().enumerate() {
            let outside = if holds(&self.allowed, *point) { "" } else { ", outside" };
            let share = if point.0 > 0.0 { 100.0 * point.1 / point.0 } else { 0.0 };
            write(
                0.0,
                &format!("{}  {:.0}, {:.0} {} ({share:.1} %){outside}", at + 1, point.0, point.1, self.unit),
                true,
            );
            for line in wrapped(words, LETTERS) {
                write(16.0, &line, false);
            }
        }
        Legend { group, lines: lines_written }
    }
}

struct Legend {
    group: Group,
    lines: usize,
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

fn written_at(x: f64, y: f64, words: &str) -> Text {
    Text::new(safe::line(words)).set("x", at_tenth(x)).set("y", at_tenth(y))
}

fn at_tenth(value: f64) -> f64 {
    (value * 10.0).round() / 10.0
}

fn path(points: impl Iterator<Item = Point>) -> String {
    let written: Vec<String> = points.map(|(x, y)| format!("{},{}", at_tenth(x), at_tenth(y))).collect();
    written.join(" ")
}

#[expect(clippy::cast_precision_loss, reason = "lines of a drawing are few")]
fn lines(count: usize) -> f64 {
    count as f64
}

#[cfg(test)]
mod tests;
