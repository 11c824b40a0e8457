//! The weights of a build: the moment table and what follows from it, for people and as JSON.

use std::fmt::Write as _;
use std::rc::Rc;

use pintle_calc::uncertainty::Tolerances;
use pintle_calc::weights::{Body, Weights};
use pintle_calc::{Figure, Known, air, roof, space, uncertainty};
use pintle_quantity::{Dimension, Quantity, Unit, Units};
use pintle_spec::{Build, Coordinate, Use};
use serde::Serialize;

use crate::table::table;
use crate::{Look, safe};

/// The name of the JSON format.
const FORMAT: &str = "pintle-weights";
/// Its version.
const VERSION: u32 = 1;

/// A figure: its SI value (kg, m, m², kg·m, or a plain share) and as shown; or what is missing to work it out.
#[derive(Debug, Serialize)]
#[serde(untagged)]
pub enum Shown {
    /// A figure.
    Known {
        /// The value in SI.
        si: f64,
        /// The value as a reader is shown it.
        shown: String,
        /// How sure it is; none where that was not asked, or cannot be said.
        #[serde(skip_serializing_if = "Option::is_none")]
        uncertainty: Option<Unsure>,
    },
    /// What is missing.
    Missing {
        /// What is missing.
        missing: String,
    },
}

/// How far a figure may be off to either side, in SI.
#[derive(Debug, Serialize)]
pub struct Unsure {
    /// Expanded uncertainty, with coverage factor 2.
    expanded: f64,
    /// If every value were off by the whole of its ± in the direction that hurts.
    worst: f64,
}

impl Shown {
    fn of(quantity: Quantity, units: Units) -> Self {
        Self::Known { si: quantity.si(), shown: quantity.show(units), uncertainty: None }
    }

    /// A figure with how sure it is.
    fn unsure(figure: Known<Figure>, units: Units, tolerances: &Tolerances) -> Self {
        let found = figure.as_ref().ok().and_then(|figure| uncertainty::of(&figure.trace, tolerances));
        let found = found.map(|found| Unsure { expanded: found.expanded, worst: found.worst });
        match Self::figure(figure, units) {
            Self::Known { si, shown, .. } => Self::Known { si, shown, uncertainty: found },
            missing @ Self::Missing { .. } => missing,
        }
    }

    fn figure(figure: Known<Figure>, units: Units) -> Self {
        match figure {
            Ok(figure) => Self::of(figure.quantity, units),
            Err(missing) => Self::Missing { missing: missing.what },
        }
    }

    fn optional(figure: Known<Option<Figure>>, what: &str, units: Units) -> Self {
        match figure {
            Ok(Some(figure)) => Self::of(figure.quantity, units),
            Ok(None) => Self::Missing { missing: what.to_owned() },
            Err(missing) => Self::Missing { missing: missing.what },
        }
    }

    fn coordinate(place: &Known<Coordinate>, units: Units) -> Self {
        match place {
            Ok(place) => Self::of(place.quantity(), units),
            Err(missing) => Self::Missing { missing: missing.what.clone() },
        }
    }

    fn cell(&self) -> String {
        match self {
            Self::Known { shown, .. } => shown.clone(),
            Self::Missing { .. } => "not known".to_owned(),
        }
    }
}

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

#[derive(Debug, Serialize)]
struct Geometry {
    plan_area: Shown,
    inside_length: Shown,
    overall_height: Shown,
    tents: Vec<Tent>,
    racks: Vec<Rack>,
    vents: Vents,
}

#[derive(Debug, Serialize)]
struct Tent {
    tag: String,
    overhang: Sides,
    beyond_roof: Beyond,
}

#[derive(Debug, Serialize)]
struct Sides {
    front: Shown,
    rear: Shown,
    left: Shown,
    right: Shown,
}

#[derive(Debug, Serialize)]
struct Beyond {
    ahead: Shown,
    aside: Shown,
    behind: Shown,
}

#[derive(Debug, Serialize)]
struct Rack {
    tag: String,
    air_gap: Shown,
    stands: Shown,
}

#[derive(Debug, Serialize)]
struct Vents {
    roof: Shown,
    high_wall: Shown,
    low: Shown,
}

#[derive(Debug, Serialize)]
struct State {
    name: String,
    #[serde(rename = "use")]
    used: &'static str,
    gross: Shown,
    unloaded: Shown,
    cargo_left: Shown,
    tongue: Shown,
    tongue_share: Shown,
    axles: Shown,
    left: Shown,
    right: Shown,
    cg: Centre,
    moments: Vec<Moment>,
}

#[derive(Debug, Serialize)]
struct Centre {
    x: Shown,
    y: Shown,
    z: Shown,
}

#[derive(Debug, Serialize)]
struct Moment {
    body: String,
    kind: &'static str,
    mass: Shown,
    x: Shown,
    y: Shown,
    z: Shown,
    #[serde(rename = "moment")]
    about_ball: Shown,
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
        geometry: geometry(build, units),
        states: (0..build.states.len()).filter_map(|at| state(build, at, units, tolerances)).collect(),
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

fn geometry(build: &Build, units: Units) -> Geometry {
    let shown = |figure: Known<Figure>| Shown::figure(figure, units);
    let tents = build.of_kind("tent").map(|(at, tent)| {
        let overhang = roof::overhang(build, at);
        let side = |pick: fn(&roof::Overhang) -> &Known<Figure>| {
            shown(overhang.as_ref().map_err(Clone::clone).and_then(|all| pick(all).clone()))
        };
        let beyond = roof::beyond_roof(build, at);
        let past = |pick: fn(&roof::BeyondRoof) -> &Known<Figure>| {
            shown(beyond.as_ref().map_err(Clone::clone).and_then(|all| pick(all).clone()))
        };
        Tent {
            tag: tent.tag.value.clone(),
            overhang: Sides {
                front: side(|all| &all.front),
                rear: side(|all| &all.rear),
                left: side(|all| &all.left),
                right: side(|all| &all.right),
            },
            beyond_roof: Beyond {
                ahead: past(|all| &all.ahead),
                aside: past(|all| &all.aside),
                behind: past(|all| &all.behind),
            },
        }
    });
    let racks = build.of_kind("rack").map(|(at, rack)| Rack {
        tag: rack.tag.value.clone(),
        air_gap: Shown::optional(roof::air_gap(build, at), "anything on the rack", units),
        stands: Shown::optional(roof::stand_height(build, at), "a roof under the rack", units),
    });
    let vents = air::vents(build);
    let of = |pick: fn(&air::Vents) -> &Figure| {
        shown(vents.as_ref().map(|vents| pick(vents).clone()).map_err(Clone::clone))
    };
    Geometry {
        plan_area: shown(space::plan_area(build)),
        inside_length: shown(space::inside_length(build)),
        overall_height: shown(roof::overall_height(build)),
        tents: tents.collect(),
        racks: racks.collect(),
        vents: Vents { roof: of(|v| &v.roof), high_wall: of(|v| &v.high_wall), low: of(|v| &v.low) },
    }
}

fn state(build: &Build, at: usize, units: Units, tolerances: &Tolerances) -> Option<State> {
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

/// The weights of a build as tables for people: a line a body, a line a state.
pub fn text(build: &Build, spec: &str, look: &Look, tolerances: &Tolerances) -> String {
    let document = document(build, spec, look, tolerances);
    let mut text = String::new();
    let mut line = |words: &str| {
        let _ = writeln!(text, "{}", safe::line(words));
    };
    line(&format!("{}: {}, {}", document.spec, document.number, document.title));
    line(&format!(
        "as built: unloaded {}, cargo capacity {}",
        document.as_built.unloaded.cell(),
        document.as_built.cargo_capacity.cell()
    ));
    for state in &document.states {
        line("");
        line(&format!("{} state `{}`", state.used, state.name));
        let rows: Vec<Vec<String>> = state
            .moments
            .iter()
            .map(|row| {
                vec![
                    row.body.clone(),
                    row.mass.cell(),
                    row.x.cell(),
                    row.y.cell(),
                    row.z.cell(),
                    row.about_ball.cell(),
                ]
            })
            .collect();
        let head = ["", "weight", "behind ball", "right of centre", "above ground", "moment"];
        for row in table(&head, &rows, &[0]) {
            line(&row);
        }
        line(&format!(
            "  gross {}, tongue {} ({}), axles {}, left {}, right {}, cargo left {}",
            state.gross.cell(),
            state.tongue.cell(),
            state.tongue_share.cell(),
            state.axles.cell(),
            state.left.cell(),
            state.right.cell(),
            state.cargo_left.cell(),
        ));
        line(&format!(
            "  centre of gravity {} behind the ball, {} right of the centreline, {} above the ground",
            state.cg.x.cell(),
            state.cg.y.cell(),
            state.cg.z.cell()
        ));
        for missing in state_missing(state) {
            line(&format!("  not known: {missing}"));
        }
    }
    line("");
    line("figures are computed, not measured: weigh the real trailer");
    text
}

/// What keeps a state's figures from being known, each once.
fn state_missing(state: &State) -> Vec<&str> {
    let figures =
        [&state.gross, &state.tongue, &state.axles, &state.left, &state.cargo_left, &state.cg.y, &state.cg.z];
    let mut missing: Vec<&str> = Vec::new();
    for figure in figures {
        if let Shown::Missing { missing: what } = figure
            && !missing.contains(&what.as_str())
        {
            missing.push(what);
        }
    }
    missing
}
