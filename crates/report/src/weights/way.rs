//! An arrangement in the documents: in words, and by what is out, filled and loaded.

use pintle_quantity::Units;
use pintle_spec::{Build, State, Use};
use serde::Serialize;

use super::shown::Shown;

/// An arrangement.
#[derive(Debug, Serialize)]
pub struct Way {
    /// What it is, in words.
    #[serde(rename = "arrangement")]
    pub words: String,
    /// The first road state that has the same loads of its own.
    loads_of: Option<String>,
    /// Tags of parts left at home.
    out: Vec<String>,
    /// How full each tank aboard is.
    fill: Vec<Filled>,
    /// How much of each load rides along.
    load: Vec<Carried>,
}

#[derive(Debug, Serialize)]
struct Filled {
    tag: String,
    share: Shown,
}

#[derive(Debug, Serialize)]
struct Carried {
    tag: String,
    mass: Shown,
}

impl Way {
    /// An arrangement of a build.
    pub(super) fn of(build: &Build, state: &State, units: Units) -> Self {
        let tag = |at: usize| build.items.get(at).map(|item| item.tag.value.clone());
        let out = state.out.iter().filter_map(|at| tag(*at));
        let fill = state
            .fill
            .iter()
            .filter_map(|(at, share)| Some(Filled { tag: tag(*at)?, share: Shown::of(share.value, units) }));
        let load = state
            .carry
            .iter()
            .filter_map(|(at, mass)| Some(Carried { tag: tag(*at)?, mass: Shown::of(mass.value, units) }));
        let spans = |state: &State| state.loads.iter().map(|load| load.span).collect::<Vec<_>>();
        let mut road = build.states.iter().filter(|named| named.used == Use::Road);
        Self {
            words: state.name.value.clone(),
            loads_of: road.find(|named| spans(named) == spans(state)).map(|named| named.name.value.clone()),
            out: out.collect(),
            fill: fill.collect(),
            load: load.collect(),
        }
    }
}
