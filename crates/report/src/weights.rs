//! The weights of a build: the moment table and what follows from it, for people and as JSON.

mod geometry;
mod shown;
mod states;
mod table;
mod text;

use pintle_calc::uncertainty::Tolerances;
use pintle_calc::weights::Weights;
use pintle_spec::Build;
use serde::Serialize;

use crate::{Look, safe};
use geometry::Geometry;
pub use shown::{Shown, Unsure};
use states::State;
pub use text::text;

/// The name of the JSON format.
const FORMAT: &str = "pintle-weights";
/// Its version.
const VERSION: u32 = 1;

/// The weights of one spec.
#[derive(Debug, Serialize)]
pub struct Document {
    spec: String,
    number: String,
    title: String,
    as_built: AsBuilt,
    geometry: Geometry,
    states: Vec<State>,
}

#[derive(Debug, Serialize)]
struct AsBuilt {
    unloaded: Shown,
    cargo_capacity: Shown,
}

/// Works the weights of a build out.
pub fn document(build: &Build, spec: &str, look: &Look, tolerances: &Tolerances) -> Document {
    let units = look.units;
    let as_built = Weights::as_built(build);
    Document {
        spec: spec.to_owned(),
        number: build.number.value.clone(),
        title: build.title.value.clone(),
        as_built: AsBuilt {
            unloaded: Shown::figure(as_built.unloaded(), units),
            cargo_capacity: Shown::figure(as_built.cargo_capacity(), units),
        },
        geometry: geometry::geometry(build, units),
        states: (0..build.states.len())
            .filter_map(|at| states::state(build, at, units, tolerances))
            .collect(),
    }
}

/// Documents as one JSON text.
pub fn json(documents: &[Document]) -> String {
    #[derive(Serialize)]
    struct Whole<'d> {
        format: &'static str,
        version: u32,
        specs: &'d [Document],
    }
    let whole = Whole { format: FORMAT, version: VERSION, specs: documents };
    let text = serde_json::to_string_pretty(&whole)
        .unwrap_or_else(|error| format!("the document could not be written: {error}"));
    safe::json(text + "\n")
}
