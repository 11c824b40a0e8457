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
use pintle_spec::Missing;

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

/// One property of a sort of thing.
#[derive(Debug)]
pub struct Property {
    /// Its name in scripts.
    pub name: &'static str,
    /// What a reading of it is called.
    pub says: &'static str,
    /// What it is.
    pub doc: &'static str,
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
