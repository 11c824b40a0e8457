//! The key beside the drawing, and the list of marked arrangements below it.

use svg::node::element::{Group, Rectangle};

use super::axis::grouped;
use super::lettering::{LINE, Sheet, written_at};
use super::window::{Frame, Window};
use super::{INK, INSIDE, KEY, Limit, MARGIN, Plot, Point, WIDTH};
use super::{cross_at, crossed, dot_at, dotted, holds, line, ring_at};

/// Marked arrangements, with numbers from left to right.
#[derive(Debug)]
pub(super) struct Marks<'p> {
    /// What to say of each, and where it lies; number one first.
    pub(super) all: Vec<(&'p str, Point)>,
}

/// How far in words stand from their sign.
const INDENT: f64 = 30.0;
/// Space between the two columns of the list.
const GAP: f64 = 36.0;

impl<'p> Marks<'p> {
    /// The marked arrangements of a plot.
    pub(super) fn of(plot: &'p Plot) -> Self {
        let mut all: Vec<(&str, Point)> =
            plot.marked.iter().map(|(words, point)| (words.as_str(), *point)).collect();
        all.sort_by(|(_, one), (_, other)| one.0.total_cmp(&other.0).then(one.1.total_cmp(&other.1)));
        Self { all }
    }

    /// The list of them, in two columns below a place.
    pub(super) fn list(&self, plot: &Plot, top: f64) -> Sheet {
        let width = (WIDTH - 2.0 * MARGIN - GAP) / 2.0;
        let written = |left: f64, from: usize, to: usize| {
            let mut sheet = Sheet::new(left, top);
            for (at, (words, point)) in self.all.iter().enumerate().take(to).skip(from) {
                let outside = if holds(&plot.allowed, *point) { "" } else { ", outside" };
                let number = written_at(-10.0, 4.0, &(at + 1).to_string()).set("font-weight", "bold");
                sheet.sign(Group::new().add(number));
                sheet.bold(&format!("{}{outside}", weights(*point, &plot.unit)), INDENT, width);
                sheet.words(words, INDENT, width);
                sheet.space(4.0);
            }
            sheet
        };
        // The first column is no shorter than the second.
        let all = self.all.len();
        let bottom = |from, to| written(0.0, from, to).bottom();
        let half = (0..=all).find(|half| bottom(0, *half) >= bottom(*half, all)).unwrap_or(all);
        let (left, right) = (written(MARGIN, 0, half), written(MARGIN + width + GAP, half, all));
        left.beside(right)
    }
}

/// A gross and a tongue weight in words.
fn weights((gross, tongue): Point, unit: &str) -> String {
    let shown = |weight: f64| grouped(weight, usize::from(weight.abs() < 100.0));
    let share = if gross > 0.0 { format!(", {:.2} %", 100.0 * tongue / gross) } else { String::new() };
    format!("{} {unit} gross, {} {unit} on the ball{share}", shown(gross), shown(tongue))
}

impl Plot {
    /// What the dashed line bounds.
    pub(super) fn bounds_in_words(&self) -> String {
        match &self.too_many {
            Some(number) => format!("bounds of all {number} arrangements, which are too many to draw each"),
            None => "bounds of all that can be arranged".to_owned(),
        }
    }

    /// So many of what is drawn.
    pub(super) fn so_many(&self, number: usize, words: &str) -> String {
        let told_apart = if self.too_many.is_some() { "marked " } else { "" };
        let s = if number == 1 { "" } else { "s" };
        format!("{number} {told_apart}arrangement{s} {words}")
    }

    /// What signs and letters mean, and what is to be noted.
    pub(super) fn key(&self, window: &Window, area: &Frame) -> Sheet {
        let width = WIDTH - MARGIN - KEY;
        let mut key = Sheet::new(KEY, area.top + 10.0);
        let mut entry = |sign: Group, words: &str| {
            key.sign(sign);
            key.words(words, INDENT, width);
            key.space(3.0);
        };
        let (within, outside) = self.counted();
        let swatch = Rectangle::new().set("x", -10).set("y", -6).set("width", 20).set("height", 12);
        let swatch = swatch.set("fill", INSIDE).set("stroke", INK).set("stroke-width", 1.5);
        if self.allowed.len() > 2 {
            entry(Group::new().add(swatch), "weights that ratings and limits allow");
        }
        let along = |dashes: &str| {
            Group::new()
                .add(line((-10.0, 0.0), (10.0, 0.0)).set("stroke", INK).set("stroke-dasharray", dashes))
        };
        entry(along("6 4"), &self.bounds_in_words());
        let count = |number: usize, words: &str| self.so_many(number, words);
        entry(Group::new().add(dotted(dot_at(0.0, 0.0))), &count(within, "within what is allowed"));
        entry(Group::new().add(crossed(cross_at(0.0, 0.0))), &count(outside, "outside"));
        if !self.marked.is_empty() {
            entry(Group::new().add(ring_at(0.0, 0.0)), "told apart below by number");
        }
        key.space(LINE / 2.0);
        let lettered = window.limits(self);
        for within in &lettered {
            let dashes = line((-10.0, 0.0), (0.0, 0.0)).set("stroke", INK).set("stroke-dasharray", "1.5 4");
            let letter = written_at(3.0, 4.0, &within.letter.to_string()).set("font-weight", "bold");
            key.sign(Group::new().add(dashes).add(letter));
            key.words(&within.limit.words, INDENT, width);
            key.space(3.0);
        }
        let is_lettered = |limit: &Limit| lettered.iter().any(|within| std::ptr::eq(within.limit, limit));
        let beyond: Vec<&Limit> = self.limits.iter().filter(|limit| !is_lettered(limit)).collect();
        if !beyond.is_empty() {
            key.words("beyond the drawing:", 0.0, width);
            key.space(3.0);
        }
        for limit in beyond {
            key.words(&limit.words, INDENT, width);
            key.space(3.0);
        }
        key.space(LINE / 2.0);
        for note in &self.notes {
            key.words(note, 0.0, width);
            key.space(3.0);
        }
        key
    }
}
