//! The weights of each state in the documents, with the moment table.

use std::rc::Rc;

use pintle_calc::weights::{Body, Weights};
use pintle_calc::{Figure, Known};
use pintle_quantity::{Dimension, Quantity, Unit, Units};
use pintle_spec::{Build, Coordinate, Use};
use serde::Serialize;

use super::shown::Shown;
use super::{Terms, is_metric, units_of};

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
pub(super) fn state(build: &Build, at: usize, terms: Terms<'_>) -> Option<State> {
    let named = build.states.get(at)?;
    let weights = Weights::of_state(build, at);
    let shown = |figure: Known<Figure>| terms.shown(build, figure);
    Some(State {
        name: named.name.value.clone(),
        used: if named.used == Use::Road { "road" } else { "camp" },
        gross: shown(weights.gross()),
        unloaded: shown(weights.unloaded()),
        cargo_left: shown(weights.cargo_left()),
        tongue: shown(weights.tongue()),
        tongue_share: shown(weights.tongue_share()),
        axles: shown(weights.axles()),
        left: shown(weights.left()),
        right: shown(weights.right()),
        cg: Centre {
            x: shown(weights.centre_x()),
            y: shown(weights.centre_y()),
            z: shown(weights.centre_z()),
        },
        moments: moments(&weights, is_metric(build), terms.look.units),
    })
}

fn moments(weights: &Rc<Weights>, metric_author: bool, units: Units) -> Vec<Moment> {
    let inch = Unit::find("in").map(|inch| Quantity::of(0.0, inch));
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
