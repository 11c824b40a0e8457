//! The envelope's drawing alone, small enough to be read on a phone, and what its key and its list say, for a page that
//! has both in its own letters.

use svg::Document;
use svg::node::element::{Description, Title};

use super::lists::Marks;
use super::window::{Frame, Window};
use super::{INK, Limit, Plot, Point, holds, labels, lettering};
use crate::safe;

/// Width of the drawing; letters keep their size, so that they are large beside it.
const WIDTH: f64 = 400.0;
/// Height of it.
const HEIGHT: f64 = 340.0;
/// Place and size of the area of the axes.
const AREA: Frame = Frame { left: 70.0, top: 22.0, width: 306.0, height: 266.0 };

/// A line of the key.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// What stands before it.
    pub sign: Sign,
    /// What it means.
    pub words: String,
}

/// What a line of the key explains.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sign {
    /// The shaded region.
    Region,
    /// The dashed line.
    Bounds,
    /// A dot.
    Dot,
    /// A cross.
    Cross,
    /// A ring with a number.
    Ring,
    /// A dotted line with a letter.
    Limit(char),
    /// A limit that lies beyond the drawing.
    Beyond,
}

/// An arrangement that is told apart.
#[derive(Debug, Clone, PartialEq)]
pub struct Numbered {
    /// Its number in the drawing.
    pub number: usize,
    /// What to say of it.
    pub words: String,
    /// Its gross and its tongue weight, in the drawing's unit.
    pub at: Point,
    /// Whether it lies outside what is allowed.
    pub outside: bool,
}

impl Plot {
    /// The drawing without its key and its list, to stand within a page: what its ids begin with is handed in.
    pub fn inset(&self, id: &str) -> String {
        let window = Window::over(self, &AREA);
        let marks = Marks::of(self);
        let named = [format!("{id}-title"), format!("{id}-told")];
        let [title, told] = &named;
        Document::new()
            .set("viewBox", format!("0 0 {WIDTH:.0} {HEIGHT:.0}"))
            .set("role", "img")
            .set("aria-labelledby", named.join(" "))
            .set("class", "chart")
            .set("font-size", lettering::SIZE)
            .set("fill", INK)
            .add(Title::new(safe::line(&self.title)).set("id", title.as_str()))
            .add(Description::new().set("id", told.as_str()).add(svg::node::Text::new(self.told())))
            .add(self.grid(&window, &AREA))
            .add(self.regions(&window, &AREA, &format!("{id}-area")))
            .add(self.dots(&window))
            .add(labels::rings(&marks, &window, &self.drawn(), &AREA))
            .to_string()
    }

    /// What the inset's signs and letters mean.
    pub fn entries(&self) -> Vec<Entry> {
        let window = Window::over(self, &AREA);
        let mut all = Vec::new();
        let mut entry = |sign, words: &str| all.push(Entry { sign, words: words.to_owned() });
        if self.allowed.len() > 2 {
            entry(Sign::Region, "weights that ratings and limits allow");
        }
        entry(Sign::Bounds, &self.bounds_in_words());
        let (within, outside) = self.counted();
        if within > 0 {
            entry(Sign::Dot, &self.so_many(within, "within what is allowed"));
        }
        if outside > 0 {
            entry(Sign::Cross, &self.so_many(outside, "outside"));
        }
        if !self.marked.is_empty() {
            entry(Sign::Ring, "told apart in the table by number");
        }
        let lettered = window.limits(self);
        for within in &lettered {
            entry(Sign::Limit(within.letter), &within.limit.words);
        }
        let is_lettered = |limit: &Limit| lettered.iter().any(|within| std::ptr::eq(within.limit, limit));
        for limit in self.limits.iter().filter(|limit| !is_lettered(limit)) {
            entry(Sign::Beyond, &limit.words);
        }
        all
    }

    /// The arrangements that are told apart, number one first.
    pub fn numbered(&self) -> Vec<Numbered> {
        let marks = Marks::of(self);
        let all = marks.all.iter().enumerate();
        all.map(|(at, (words, point))| Numbered {
            number: at + 1,
            words: (*words).to_owned(),
            at: *point,
            outside: !holds(&self.allowed, *point),
        })
        .collect()
    }
}
