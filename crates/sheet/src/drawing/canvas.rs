//! One drawing as it is put together: forms on paper with what each stands for, before any label has its place.

use std::collections::BTreeMap;

use pintle_spec::{Coordinate, Item, Known, Missing};

use super::form::{Bounds, Form, Point, View};

/// A form with its look and with what it is of its owner.
#[derive(Debug, Clone)]
pub(super) struct Drawn {
    /// What it is, such as `body` or `swing`: told in the page, so that positions can be read back.
    pub(super) what: &'static str,
    /// How it looks.
    pub(super) class: &'static str,
    pub(super) form: Form,
    /// How wide its line is, in mm, where that is a measure of its own.
    pub(super) line: Option<f64>,
}

impl Drawn {
    pub(super) fn new(what: &'static str, class: &'static str, form: Form) -> Self {
        Self { what, class, form, line: None }
    }
}

/// The centre of gravity of a state.
#[derive(Debug, Clone)]
pub(super) struct Mark {
    /// An index of `Build::states`.
    pub(super) state: usize,
    pub(super) at: Point,
}

/// On which side of the drawing a dimension stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Edge {
    Above,
    Below,
    Left,
    Right,
}

/// A dimension.
#[derive(Debug, Clone)]
pub(super) struct Dimension {
    pub(super) from: Point,
    pub(super) to: Point,
    pub(super) edge: Edge,
    pub(super) text: String,
}

/// An arrow of a load, from the ground down.
#[derive(Debug, Clone)]
pub(super) struct Arrow {
    pub(super) what: &'static str,
    pub(super) at: Point,
    /// Whether it pulls up instead.
    pub(super) up: bool,
    pub(super) text: String,
}

/// A drawing.
#[derive(Debug)]
pub(super) struct Canvas {
    /// Its name in the page.
    pub(super) name: &'static str,
    pub(super) view: View,
    /// How many letters' heights fit across it.
    pub(super) letters: f64,
    /// The trailer itself, below its parts.
    pub(super) base: Vec<Drawn>,
    /// Parts, by their index.
    pub(super) parts: BTreeMap<usize, Vec<Drawn>>,
    /// What lies over the parts.
    pub(super) over: Vec<Drawn>,
    pub(super) marks: Vec<Mark>,
    pub(super) arrows: Vec<Arrow>,
    pub(super) dimensions: Vec<Dimension>,
    /// What could not be drawn, and what is missing for it.
    pub(super) missing: Vec<(Option<usize>, String)>,
}

impl Canvas {
    /// An empty one. `letters`: how many letters' heights fit across it.
    pub(super) fn new(name: &'static str, view: View, letters: f64) -> Self {
        Self {
            name,
            view,
            letters,
            base: Vec::new(),
            parts: BTreeMap::new(),
            over: Vec::new(),
            marks: Vec::new(),
            arrows: Vec::new(),
            dimensions: Vec::new(),
            missing: Vec::new(),
        }
    }

    /// Something of the trailer, or what is missing for it.
    pub(super) fn base(&mut self, what: &'static str, class: &'static str, form: Known<Form>) {
        match form {
            Ok(form) if form.bounds().is_some() => self.base.push(Drawn::new(what, class, form)),
            Ok(_) => {}
            Err(missing) => self.lacks(None, what, &missing),
        }
    }

    /// Something of a part, or what is missing for it.
    pub(super) fn part(&mut self, part: usize, what: &'static str, class: &'static str, form: Known<Form>) {
        match form {
            Ok(form) if form.bounds().is_some() => {
                self.parts.entry(part).or_default().push(Drawn::new(what, class, form));
            }
            Ok(_) => self.missing.push((Some(part), "a place on paper".to_owned())),
            Err(missing) => self.lacks(Some(part), what, &missing),
        }
    }

    /// A dimension between two places in the trailer, shown as the length between two coordinates.
    pub(super) fn dimension(&mut self, from: Point, to: Point, edge: Edge, text: String) {
        self.dimensions.push(Dimension { from, to, edge, text });
    }

    /// Notes what is missing, once.
    pub(super) fn lacks(&mut self, part: Option<usize>, what: &str, missing: &Missing) {
        let told = match part {
            Some(_) if what == "body" => missing.what.clone(),
            _ => format!("{what}: {}", missing.what),
        };
        if !self.missing.iter().any(|(of, held)| *of == part && *held == told) {
            self.missing.push((part, told));
        }
    }

    /// The rectangle round all that is drawn.
    pub(super) fn bounds(&self) -> Option<Bounds> {
        let parts = self.parts.values().flatten();
        let forms = self.base.iter().chain(parts).chain(&self.over).filter_map(|drawn| drawn.form.bounds());
        let marks = self.marks.iter().map(|mark| Bounds { low: mark.at, high: mark.at });
        forms.chain(marks).reduce(|one, other| one.and(&other))
    }
}

/// The metres of a place.
pub(super) fn metres(place: &Known<Coordinate>) -> Known<f64> {
    place.as_ref().map(|place| place.metres).map_err(Clone::clone)
}

/// How a part looks, by the table it stands in.
pub(super) const fn look(item: &Item) -> &'static str {
    use pintle_spec::Table;
    match item.table {
        Table::Item => "shape",
        Table::Tank => "shape tank",
        Table::Locker => "shape locker",
        Table::Bulkhead => "shape bulkhead",
        Table::Berth => "shape berth",
        Table::Vent => "shape vent",
        Table::Opening => "shape opening",
        Table::Load => "shape load",
    }
}
