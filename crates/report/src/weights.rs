//! The weights of a build: the moment table and what follows from it, for people and as JSON.

mod arranged;
mod band;
mod drawing;
mod envelope;
mod geometry;
mod sensitivity;
mod shown;
mod states;
mod table;
mod text;
mod way;

use pintle_calc::uncertainty::Tolerances;
use pintle_calc::weights::Weights;
use pintle_calc::{Figure, Known};
use pintle_quantity::{System, Units};
use pintle_spec::Build;
use pintle_spec::schema::trailer;
use serde::Serialize;

use crate::{Look, documents};
pub use arranged::{Arranged, Count, Extreme, Named, Place, Range, Stands, Window};
pub use band::{Band, Limit};
pub use drawing::drawing;
pub use envelope::name_of;
use geometry::Geometry;
use sensitivity::Sensitivity;
pub use sensitivity::steps;
pub use shown::{Maybe, Shown, Unsure};
use states::State;
pub use text::text;
pub use way::Way;

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
    arrangements: Maybe<Arranged>,
    sensitivity: Sensitivity,
}

#[derive(Debug, Serialize)]
struct AsBuilt {
    unloaded: Shown,
    cargo_capacity: Shown,
}

/// How the weights of a build are told.
#[derive(Debug, Clone, Copy)]
pub struct Terms<'t> {
    /// How they look.
    pub look: Look,
    /// How sure values are that do not say it themselves.
    pub tolerances: &'t Tolerances,
    /// The band of tongue shares in force, or why there is none.
    pub band: &'t Known<Band>,
}

impl Terms<'_> {
    /// A figure of a build, with how sure it is. One that no author wrote has the system of his other figures.
    pub fn shown(self, build: &Build, figure: Known<Figure>) -> Shown {
        let unwritten = figure.as_ref().is_ok_and(|figure| figure.quantity.unit().is_none());
        let units = if unwritten { units_of(self.look.units, is_metric(build)) } else { self.look.units };
        Shown::unsure(figure, units, self.tolerances)
    }
}

/// Whether a build's author writes weights in kilograms.
pub fn is_metric(build: &Build) -> bool {
    let mass = build.trailer.quantity(&trailer::MASS);
    mass.and_then(|mass| mass.value.unit()).is_some_and(|unit| unit.system() == System::Metric)
}

/// For figures that no author wrote, the system of the author's other figures.
fn units_of(units: Units, metric: bool) -> Units {
    match units {
        Units::AsWritten if metric => Units::Metric,
        other => other,
    }
}

/// Works the weights of a build out.
pub fn document(build: &Build, spec: &str, terms: Terms<'_>) -> Document {
    let units = terms.look.units;
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
        states: (0..build.states.len()).filter_map(|at| states::state(build, at, terms)).collect(),
        arrangements: Arranged::of(build, terms),
        sensitivity: Sensitivity::of(build, terms),
    }
}

/// Documents as one JSON text.
pub fn json(documents: &[Document]) -> String {
    documents::json(FORMAT, VERSION, documents)
}
