//! Lines over an axis of time, with what they are written beside them, and marks across them. What is meant never hangs
//! on a colour: lines differ by their dashes and carry their names.

mod letters;

use svg::Document;
use svg::node::element::{ClipPath, Description, Group, Polyline, Rectangle, Title};

use super::axis::Axis;
use super::lettering::SIZE;
use super::window::Frame;
use super::{INK, Point, grid, line};
use crate::safe;

/// Lines, and what they are drawn over.
#[derive(Debug, Clone, Default)]
pub struct Curves {
    /// What the ids of the drawing begin with.
    pub id: String,
    /// What it is of.
    pub title: String,
    /// The same in a sentence, for who cannot see it.
    pub told: String,
    /// The axis from left to right.
    pub across: Scale,
    /// The axis upwards.
    pub upright: Scale,
    /// The lines.
    pub lines: Vec<Line>,
    /// Levels to be told apart.
    pub marks: Vec<Mark>,
}

/// What an axis runs over.
#[derive(Debug, Clone, Default)]
pub struct Scale {
    /// What is measured, with its unit.
    pub words: String,
    /// Where it begins.
    pub least: f64,
    /// Where it ends.
    pub most: f64,
    /// From one mark to the next; round figures where none is given.
    pub step: Option<f64>,
}

/// A line.
#[derive(Debug, Clone)]
pub struct Line {
    /// By which it is known again; lower-case letters.
    pub key: &'static str,
    /// What is written beside it.
    pub words: String,
    /// Where it runs.
    pub points: Vec<Point>,
    /// How it is dashed, as SVG has it; nothing for a whole line.
    pub dashes: &'static str,
}

/// A level across the drawing.
#[derive(Debug, Clone)]
pub struct Mark {
    /// What it means.
    pub words: String,
    /// Where it lies.
    pub at: f64,
}

/// Width of the drawing; letters keep their size, so that they are large beside it.
const WIDTH: f64 = 400.0;
/// Height of it.
const HEIGHT: f64 = 304.0;
/// Place and size of the area of the axes.
const AREA: Frame = Frame { left: 76.0, top: 12.0, width: 310.0, height: 240.0 };

impl Curves {
    /// The drawing, to stand within a page.
    pub fn svg(&self) -> String {
        let [across, upright] = self.axes();
        let named = ["title", "told"].map(|part| format!("{}-{part}", self.id));
        let [title, told] = &named;
        Document::new()
            .set("viewBox", format!("0 0 {WIDTH:.0} {HEIGHT:.0}"))
            .set("role", "img")
            .set("aria-labelledby", named.join(" "))
            .set("class", "chart")
            .set("font-size", SIZE)
            .set("fill", INK)
            .add(Title::new(safe::line(&self.title)).set("id", title.as_str()))
            .add(
                Description::new()
                    .set("id", told.as_str())
                    .add(svg::node::Text::new(safe::line(&self.told).into_owned())),
            )
            .add(grid::ruled_with(
                (&across, &upright),
                &AREA,
                [&self.across.words, &self.upright.words],
                60.0,
            ))
            .add(self.drawn(&across, &upright))
            .add(letters::beside(self, &across, &upright, &AREA))
            .to_string()
    }

    fn axes(&self) -> [Axis; 2] {
        let axis = |scale: &Scale, ends, steps| match scale.step {
            Some(step) => Axis::stepped((scale.least, scale.most), step, ends),
            None => Axis::over([scale.least, scale.most].into_iter(), ends, steps),
        };
        [
            axis(&self.across, (AREA.left, AREA.right()), 6.0),
            axis(&self.upright, (AREA.bottom(), AREA.top), 6.0),
        ]
    }

    /// Marks and lines, cut off at the edges of the area.
    fn drawn(&self, across: &Axis, upright: &Axis) -> Group {
        let clip = format!("{}-area", self.id);
        let frame = || {
            Rectangle::new()
                .set("x", AREA.left)
                .set("y", AREA.top)
                .set("width", AREA.width)
                .set("height", AREA.height)
        };
        let mut cut = Group::new().set("clip-path", format!("url(#{clip})"));
        for mark in &self.marks {
            let y = upright.place(mark.at);
            let level = line((AREA.left, y), (AREA.right(), y)).set("class", "mark");
            cut = cut.add(level.set("stroke", INK).set("stroke-dasharray", "1.5 4"));
        }
        for curve in &self.lines {
            let points = curve.points.iter().map(|(x, y)| {
                // Finer than the page can show, so that the values can be read back.
                format!("{:.2},{:.2}", across.place(*x), upright.place(*y))
            });
            let mut drawn = Polyline::new()
                .set("class", "curve")
                .set("data-line", curve.key)
                .set("points", points.collect::<Vec<_>>().join(" "))
                .set("fill", "none")
                .set("stroke", INK)
                .set("stroke-width", 2);
            if !curve.dashes.is_empty() {
                drawn = drawn.set("stroke-dasharray", curve.dashes);
            }
            cut = cut.add(drawn);
        }
        Group::new()
            .add(ClipPath::new().set("id", clip).add(frame()))
            .add(cut)
            .add(frame().set("fill", "none").set("stroke", INK))
    }
}

#[cfg(test)]
mod tests;
