//! The weights of each state in the documents, with the moment table.

use std::rc::Rc;

use pintle_calc::uncertainty::Tolerances;
use pintle_calc::weights::{Body, Weights};
use pintle_calc::{Figure, Known};
use pintle_quantity::{Dimension, Quantity, Unit, Units};
use pintle_spec::{Build, Coordinate, Use};
use serde::Serialize;

use super::shown::Shown;

/// A state.
#[derive(Debug, Serialize)]
pub(super) struct State {
    pub(super) name: String,
    #[serde(rename = "use")]
    pub(super) used: &'static str,
    pub(super) gross: Shown,
    pub(super) unloaded: Shown,
    pub(super) cargo_left: Shown,
    pub(super) tongue: Shown,
    pub(super) tongue_share: Shown,
    pub(super) axles: Shown,
    pub(super) left: Shown,
    pub(super) right: Shown,
    pub(super) cg: Centre,
    pub(super) moments: Vec<Moment>,
}

/// A centre of gravity.
#[derive(Debug, Serialize)]
pub(super) struct Centre {
    pub(super) x: Shown,
    pub(super) y: Shown,
    pub(super) z: Shown,
}

/// A body aboard.
#[derive(Debug, Serialize)]
pub(super) struct Moment {
    pub(super) body: String,
    pub(super) kind: &'static str,
    pub(super) mass: Shown,
    pub(super) x: Shown,
    pub(super) y: Shown,
    pub(super) z: Shown,
    #[serde(rename = "moment")]
    pub(super) about_ball: Shown,
}

/// The weights of one of a build's states.
pub(super) fn state(build: &Build, at: usize, units: Units, tolerances: &Tolerances) -> Option<State> {
    let named = build.states.get(at)?;
    let weights = Weights::of_state(build, at);
    let shown = |figure: Known<Figure>| Shown::figure(figure, units);
    let unsure = |figure: Known<Figure>| Shown::unsure(figure, units, tolerances);
    Some(State {
        name: named.name.value.clone(),
        used: if named.used == Use::Road { "road" } else { "camp" },
        gross: unsure(weights.gross()),
        unloaded: shown(weights.unloaded()),
        cargo_left: shown(weights.cargo_left()),
        tongue: unsure(weights.tongue()),
        tongue_share: unsure(weights.tongue_share()),
        axles: unsure(weights.axles()),
        left: shown(weights.left()),
        right: shown(weights.right()),
        cg: Centre {
            x: shown(weights.centre_x()),
            y: shown(weights.centre_y()),
            z: shown(weights.centre_z()),
        },
        moments: moments(&weights, units),
    })
}

fn moments(weights: &Rc<Weights>, units: Units) -> Vec<Moment> {
    let inch = Unit::find("in").map(|inch| Quantity::of(0.0, inch));
    let metric_author = weights
        .bodies
        .first()
        .and_then(|body| body.inputs.first()?.value.value.unit())
        .is_some_and(|unit| matches!(unit.system(), pintle_quantity::System::Metric));
    let place = |at: &Known<Coordinate>| match (at, inch) {
        (Ok(at), Some(inch)) if !metric_author => {
            Shown::of(Quantity::from_si(at.metres, Dimension::LENGTH).with_unit_of(inch), units)
        }
        (Ok(at), _) => {
            Shown::of(Quantity::from_si(at.metres, Dimension::LENGTH), units_of(units, metric_author))
        }
        _ => Shown::coordinate(at, units),
    };
    let row = |body: &Body| {
        let mass = Quantity::from_si(body.kilograms, Dimension::MASS);
        let author = weights.bodies.first().and_then(|body| body.inputs.first());
        let mass = author.map_or(mass, |input| mass.with_unit_of(input.value.value));
        let moment =
            body.x.as_ref().map(|at| Quantity::from_si(body.kilograms * at.metres, Dimension::MOMENT));
        Moment {
            body: body.name.clone(),
            kind: body.kind.word(),
            mass: Shown::of(mass, units),
            x: place(&body.x),
            y: place(&body.y),
            z: place(&body.z),
            about_ball: match moment {
                Ok(moment) => Shown::of(moment, units_of(units, metric_author)),
                Err(missing) => Shown::Missing { missing: missing.what.clone() },
            },
        }
    };
    weights.bodies.iter().map(row).collect()
}

/// For figures that no author wrote, the system of the author's other figures.
fn units_of(units: Units, metric: bool) -> Units {
    match units {
        Units::AsWritten if metric => Units::Metric,
        other => other,
    }
}
