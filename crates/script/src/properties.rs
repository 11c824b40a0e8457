//! What a script can ask of each thing beyond the fields its author wrote: one table a sort of thing.
//!
//! The tables are the registration: what stands here can be asked, and the documentation is made from it.

mod build;
mod figure;
mod item;
mod reading;
mod state;
mod trailer;

use pintle_calc::{Figure, Known};
use pintle_quantity::Dimension;
use pintle_spec::Missing;
use pintle_spec::field::Field;

pub(crate) use state::extremes_of;

use crate::run::Run;
use crate::thing::What;

/// What a property gives.
#[derive(Debug)]
pub(crate) enum Found {
    /// A figure.
    Figure(Figure),
    /// A figure with what a reading of it is called.
    Named(Figure, &'static str),
    /// A word or text.
    Text(String),
    /// Yes or no.
    Flag(bool),
    /// A count.
    Count(usize),
    /// Another thing.
    Thing(What),
    /// Several things.
    Things(Vec<What>),
    /// Several texts.
    Texts(Vec<String>),
    /// There is none, and that is known: for `has`, a plain no. Asked for outright it is missing.
    None(Missing),
    /// There is none, and a rule that asks for it does not apply, for this reason.
    NotApplicable(String),
}

impl From<Figure> for Found {
    fn from(figure: Figure) -> Self {
        Self::Figure(figure)
    }
}

/// What a property is, before any build is seen: for the check of scripts and for documentation.
#[derive(Debug, Clone, Copy)]
pub enum Gives {
    /// A quantity of a dimension.
    Quantity(Dimension),
    /// A quantity of whichever dimension what it is of has.
    Any,
    /// Yes or no.
    Flag,
    /// A whole number.
    Count,
    /// Free text.
    Text,
    /// The name of a kind of part.
    Kind,
    /// One of a closed list of words.
    Word(fn() -> Vec<&'static str>),
    /// Several texts.
    Texts,
    /// Several of the words of a field.
    WordsOf(&'static Field),
    /// A part; of one kind, or of any.
    Part(Option<&'static str>),
    /// Several parts; of one kind, or of any.
    Parts(Option<&'static str>),
    /// A state.
    State,
    /// What the figure that is judged comes to.
    Value,
}

impl Gives {
    /// Whether what was worked out is of this sort.
    pub(crate) fn fits(self, found: &Found) -> bool {
        match found {
            Found::None(_) | Found::NotApplicable(_) => true,
            _ if matches!(self, Self::Value) => true,
            Found::Figure(figure) | Found::Named(figure, _) => match self {
                Self::Quantity(dimension) => figure.quantity.dimension() == dimension,
                Self::Any => true,
                _ => false,
            },
            Found::Text(text) => match self {
                Self::Text => true,
                Self::Kind => pintle_spec::item_kinds().any(|kind| kind == text),
                Self::Word(words) => words().contains(&text.as_str()),
                _ => false,
            },
            Found::Flag(_) => matches!(self, Self::Flag),
            Found::Count(_) => matches!(self, Self::Count),
            Found::Thing(What::State(_)) => matches!(self, Self::State),
            Found::Thing(_) => matches!(self, Self::Part(_)),
            Found::Things(_) => matches!(self, Self::Parts(_)),
            Found::Texts(_) => matches!(self, Self::Texts | Self::WordsOf(_)),
        }
    }
}

/// One property of a sort of thing.
#[derive(Debug)]
pub struct Property {
    /// Its name in scripts.
    pub name: &'static str,
    /// What a reading of it is called.
    pub says: &'static str,
    /// What it is.
    pub doc: &'static str,
    /// What sort of value it is.
    pub gives: Gives,
    /// How it is worked out.
    pub(crate) get: fn(&Run, usize) -> Known<Found>,
}

/// The properties of a thing.
pub(crate) fn of(what: What, run: &Run) -> &'static [Property] {
    match what {
        What::Build => build::PROPERTIES,
        What::Trailer => trailer::PROPERTIES,
        What::State(_) => state::PROPERTIES,
        What::Reading(_) => reading::PROPERTIES,
        What::Figure(_) => figure::PROPERTIES,
        What::Tow
        | What::People
        | What::Gas
        | What::Electric
        | What::Water
        | What::Quote
        | What::Record
        | What::Row(..) => &[],
        What::Item(at) => run.build.items.get(at).map_or(&[], |item| item::of_kind(item.kind)),
    }
}

/// The properties of a kind of part.
pub(crate) fn of_kind(kind: &str) -> &'static [Property] {
    item::of_kind(kind)
}

/// The properties of things that there is one of, or that are no parts.
pub(crate) const BUILD: &[Property] = build::PROPERTIES;
pub(crate) const TRAILER: &[Property] = trailer::PROPERTIES;
pub(crate) const STATE: &[Property] = state::PROPERTIES;
pub(crate) const TIGHT: &[Property] = reading::PROPERTIES;
pub(crate) const FIGURE: &[Property] = figure::PROPERTIES;

/// Every table, with the sort of thing it belongs to, for documentation.
pub fn all() -> Vec<(&'static str, &'static [Property])> {
    let mut tables = vec![
        ("build", build::PROPERTIES),
        ("trailer", trailer::PROPERTIES),
        ("state", state::PROPERTIES),
        ("tight reading", reading::PROPERTIES),
        ("figure", figure::PROPERTIES),
    ];
    tables.extend(pintle_spec::item_kinds().map(|kind| (kind, item::of_kind(kind))));
    tables
}
