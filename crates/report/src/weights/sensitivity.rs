//! What a small change does to the tongue weight, in the documents: a step of the axle, of each thing's weight and of
//! its place.

use pintle_calc::arrange::Arrangements;
use pintle_calc::sensitivity::{Row, of_axle, of_masses, of_places};
use pintle_calc::weights::Weights;
use pintle_quantity::Quantity;
use pintle_spec::{Build, State, Use};
use serde::Serialize;

use super::shown::{Maybe, Shown};
use super::{Terms, is_metric};

/// What a step of each thing adds to the tongue weight.
#[derive(Debug, Serialize)]
pub(super) struct Sensitivity {
    /// The step of a place, aft.
    pub(super) place_step: Shown,
    /// The step of a weight.
    pub(super) mass_step: Shown,
    /// What the axle does.
    pub(super) axle: Maybe<Axle>,
    /// What each thing does that is aboard in an arrangement that a builder thinks of, or in a road state.
    pub(super) things: Vec<Thing>,
    /// What is missing to know it of all arrangements and states.
    pub(super) not_known: Vec<String>,
}

/// What the axle does when it is set further aft.
#[derive(Debug, Serialize)]
pub(super) struct Axle {
    /// In which arrangement.
    pub(super) arrangement: String,
    /// What a step of its place adds to the tongue weight.
    pub(super) tongue: Shown,
    /// What it adds to the tongue's share.
    tongue_share: Shown,
}

/// What a thing aboard does.
#[derive(Debug, Serialize)]
pub(super) struct Thing {
    /// The thing.
    #[serde(rename = "body")]
    pub(super) name: String,
    /// What a step of its weight adds to the tongue weight.
    #[serde(rename = "mass")]
    pub(super) heavier: Shown,
    /// What a step of its place, aft, adds to it.
    #[serde(rename = "place")]
    pub(super) aft: Shown,
}

impl Sensitivity {
    /// What steps do in a build.
    pub(super) fn of(build: &Build, terms: Terms<'_>) -> Self {
        let units = terms.look.units;
        let (place, mass) = steps(build);
        let mut found = Self {
            place_step: Shown::of(place, units),
            mass_step: Shown::of(mass, units),
            axle: Maybe::Missing { missing: "a state for the road".to_owned() },
            things: Vec::new(),
            not_known: Vec::new(),
        };
        let named = Arrangements::of(build).and_then(|all| all.named()).unwrap_or_default();
        let road = build.states.iter().filter(|state| state.used == Use::Road);
        for (number, state) in named.iter().chain(road).enumerate() {
            found.add(build, state, (place, mass), number == 0, terms);
        }
        found
    }

    fn add(
        &mut self,
        build: &Build,
        state: &State,
        (place, mass): (Quantity, Quantity),
        first: bool,
        terms: Terms<'_>,
    ) {
        let weights = Weights::of(build, state);
        let shown = |quantity: Quantity| Shown::of(quantity, terms.look.units);
        if first {
            self.axle = Maybe::of(of_axle(&weights, place), |row| Axle {
                arrangement: state.name.value.clone(),
                tongue: shown(row.tongue),
                tongue_share: shown(row.share),
            });
        }
        let rows = of_masses(&weights, mass).and_then(|masses| Ok((masses, of_places(&weights, place)?)));
        let (masses, places) = match rows {
            Ok(rows) => rows,
            Err(missing) => {
                if !self.not_known.contains(&missing.what) {
                    self.not_known.push(missing.what);
                }
                return;
            }
        };
        for (heavier, aft) in masses.iter().zip(&places) {
            let Row { name, .. } = heavier;
            if !self.things.iter().any(|held| held.name == *name) {
                let (heavier, aft) = (shown(heavier.tongue), shown(aft.tongue));
                self.things.push(Thing { name: name.clone(), heavier, aft });
            }
        }
    }
}

/// The steps that a build's author thinks in: of a place, and of a weight.
pub fn steps(build: &Build) -> (Quantity, Quantity) {
    if is_metric(build) {
        (Quantity::metres(0.025).with_unit_of(millimetre()), Quantity::kilograms(5.0))
    } else {
        (Quantity::inches(1.0), Quantity::pounds(10.0))
    }
}

fn millimetre() -> Quantity {
    pintle_quantity::Unit::find("mm").map_or(Quantity::metres(0.0), |unit| Quantity::of(0.0, unit))
}
