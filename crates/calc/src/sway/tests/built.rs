//! Figures of whole builds.

use pintle_quantity::Quantity;
use pintle_source::{Sources, Spanned};
use pintle_spec::schema::assume;
use pintle_spec::schema::assume::sway::{
    DYNAMIC_INDEX, EMPTY_INERTIA, FRONT_COEFFICIENT, FRONT_SHARE, REAR_COEFFICIENT, SPEED,
    TRAILER_COEFFICIENT,
};
use pintle_spec::{Build, Missing};

use super::super::arranged::greatest_inertia;
use super::super::workings::{of_state, of_vehicle};
use super::*;
use crate::arrange::Arrangements;
use crate::assumed::{Assumption, Assumptions};
use crate::case::Case;
use crate::origin::Standing;
use crate::space::trial::{in_metric, mirrored, read, spec};
use crate::working::{Outcome, Working};

/// Everything that is assumed, as the rulebook does, with another value of the empty trailer's own inertia.
pub(super) fn assumptions() -> Assumptions {
    let span = pintle_spec::Span::new(Sources::new().add("trial", ""), 0, 0);
    let value = |field, text: &str| {
        let value = Spanned::new(Quantity::parse(text).unwrap(), span);
        (&assume::SWAY, field, Assumption::new(value, Standing::Memory, String::new()))
    };
    Assumptions::from_list([
        value(&SPEED, "65 mph"),
        value(&FRONT_SHARE, "55 %"),
        value(&DYNAMIC_INDEX, "100 %"),
        value(&FRONT_COEFFICIENT, "8.5 /rad"),
        value(&REAR_COEFFICIENT, "10.5 /rad"),
        value(&TRAILER_COEFFICIENT, "4.5 /rad"),
        value(&EMPTY_INERTIA, "100 %"),
    ])
}

const TOW: &str = "[tow]\nmass = \"5000 lb\"\nwheelbase = \"130 in\"\noverhang = \"45 in\"\n";

/// A trailer with a bench and a chest, a tank and a load, and a state; `more` comes last.
fn trailer(more: &str) -> String {
    spec(
        FLAT,
        &format!(
            r#"mass = "1000 lb"
cg = {{ ball = "100 in", centre = "0 in", ground = "30 in" }}
axle = {{ ball = "115 in", count = 1, track = "80 in" }}
{TOW}
[[item]]
tag = "bench"
kind = "module"
mass = "120 lb"
length = "48 in"
width = "24 in"
height = "20 in"
removable = true
at = {{ front = "20 in", left = "0 in" }}
[[tank]]
tag = "fresh"
mass = "10 lb"
capacity = "20 gal"
length = "30 in"
width = "16 in"
height = "10 in"
at = {{ front = "100 in", right = "0 in" }}
[[load]]
tag = "bikes"
mass = "90 lb"
least = "0 lb"
at = {{ front = "130 in", centre = "0 in", floor = "10 in" }}
[[state]]
name = "road"
use = "road"
fill = {{ fresh = "50 %" }}
carry = {{ bikes = "60 lb" }}
{more}"#
        ),
    )
}

fn all(spec: &str) -> Vec<Working> {
    let assumptions = assumptions();
    workings(&Case {
        build: &read(spec),
        assumptions: &assumptions,
        places: &crate::place::Places::default(),
    })
}

#[track_caller]
fn outcome(spec: &str, key: &str, of: &str) -> Result<Outcome, Missing> {
    let (build, assumptions) = (read(spec), assumptions());
    let case = Case { build: &build, assumptions: &assumptions, places: &crate::place::Places::default() };
    let found = if of == "the tow vehicle" {
        of_vehicle(&case)
    } else {
        of_state(&case, &build.states[0], of, &|wanted| wanted == key)
    };
    found
        .into_iter()
        .find(|working| working.key == key)
        .unwrap_or_else(|| panic!("no `{key}` of {of}"))
        .outcome
}

#[track_caller]
fn si(spec: &str, key: &str) -> f64 {
    match outcome(spec, key, "state `road`") {
        Ok(Outcome::Figure(figure)) => figure.quantity.si(),
        other => panic!("{key}: {other:?}"),
    }
}

/// By hand, in inches and pounds: weights, places of middles and sizes as the spec has them; inside of the front wall
/// 37.5 in behind the ball, half the inside width 36 in.
#[test]
fn yaw_inertia_by_hand() {
    let water: f64 = 20.0 * 0.5 * 8.34;
    // Mass, x, y, length, width.
    let bodies = [
        (1000.0, 100.0, 0.0, 147.0, 75.0),
        (120.0, 37.5 + 20.0 + 24.0, -24.0, 48.0, 24.0),
        (10.0, 37.5 + 100.0 + 15.0, 28.0, 30.0, 16.0),
        (water, 37.5 + 100.0 + 15.0, 28.0, 30.0, 16.0),
        (60.0, 37.5 + 130.0, 0.0, 0.0, 0.0),
    ];
    let sum = |of: fn(&(f64, f64, f64, f64, f64)) -> f64| bodies.iter().map(of).sum::<f64>();
    let mass = sum(|body| body.0);
    let (x, y) = (sum(|body| body.0 * body.1) / mass, sum(|body| body.0 * body.2) / mass);
    let about = |at: f64, moved: bool| -> f64 {
        let one = |(index, &(m, bx, by, l, b)): (usize, &(f64, f64, f64, f64, f64))| {
            let bx = if moved && index > 0 { 115.0 } else { bx };
            m / 12.0 * (l * l + b * b) + m * ((bx - at).powi(2) + (by - y).powi(2))
        };
        bodies.iter().enumerate().map(one).sum()
    };
    let unit = 0.453_592_37 * 0.0254 * 0.0254;
    let near =
        |found: f64, expected: f64| assert!((found / (expected * unit) - 1.0).abs() < 1e-12, "{found}");
    let spec = trailer("");
    near(si(&spec, "yaw_inertia"), about(x, false));
    near(si(&spec, "yaw_inertia_at_ball"), about(x, false) + mass * x * x);
    let together = (1000.0 * 100.0 + (mass - 1000.0) * 115.0) / mass;
    let ratio = about(x, false) / about(together, true);
    assert!((si(&spec, "heavy_ends") / ratio - 1.0).abs() < 1e-12);
    let radius = (about(x, false) / mass).sqrt() * 0.0254;
    assert!((si(&spec, "yaw_radius") / radius - 1.0).abs() < 1e-12);
}

/// What a figure says of how it depends on a written value, against the spec changed and worked out again.
#[test]
fn derivatives_are_those_of_a_changed_spec() {
    for key in ["yaw_inertia", "heavy_ends", "damping_at_100_km_h", "frequency_at_80_km_h"] {
        let Ok(Outcome::Figure(figure)) = outcome(&trailer(""), key, "state `road`") else { panic!("{key}") };
        let terms = figure.trace.gradient().unwrap();
        for (name, from, to, step) in [
            ("`mass` of item `bench`", "mass = \"120 lb\"", "mass = \"120.1 lb\"", 0.1 * 0.453_592_37),
            ("`front` of `at` of item `bench`", "front = \"20 in\"", "front = \"20.05 in\"", 0.05 * 0.0254),
            ("`length` of item `bench`", "length = \"48 in\"", "length = \"48.05 in\"", 0.05 * 0.0254),
        ] {
            let moved = si(&trailer("").replace(from, to), key);
            let slope = (moved - figure.quantity.si()) / step;
            let told = terms.iter().find(|term| term.input.name() == name).unwrap().times;
            assert!((told / slope - 1.0).abs() < 0.01, "{key}, {name}: {told}, not {slope}");
        }
    }
}

#[test]
fn a_speed_knows_what_it_depends_on() {
    // Bikes hang far behind, and the trailer snakes.
    let heavy = trailer("").replace("60 lb", "400 lb").replace("\"90 lb\"", "\"400 lb\"");
    let Ok(Outcome::Figure(figure)) = outcome(&heavy, "critical_speed", "state `road`") else {
        panic!("it does not snake")
    };
    let told = figure.trace.gradient().unwrap();
    let told = told.iter().find(|term| term.input.name() == "`mass` of item `bench`").unwrap().times;
    let moved = si(&heavy.replace("mass = \"120 lb\"", "mass = \"120.1 lb\""), "critical_speed");
    let slope = (moved - figure.quantity.si()) / (0.1 * 0.453_592_37);
    assert!((told / slope - 1.0).abs() < 0.01, "{told}, not {slope}");
    assert!(
        matches!(outcome(&heavy, "critical_kind", "state `road`"), Ok(Outcome::Text(kind)) if kind == "snaking")
    );
    let settles = |key| matches!(outcome(&heavy, key, "state `road`"), Ok(Outcome::Flag(true)));
    assert_eq!(settles("settles_at_100_km_h"), figure.quantity.si() > 100.0 / 3.6);
}

/// Trap T13 in a whole build: much on the nose, damping fine, and the tow vehicle turns in.
#[test]
fn trap_a_nose_heavy_build_diverges_and_says_so() {
    let stiff = "front_stiffness = \"120000 N/rad\"\nrear_stiffness = \"70000 N/rad\"\n";
    let heavy = trailer("").replace("overhang = \"45 in\"\n", &format!("overhang = \"45 in\"\n{stiff}"));
    let heavy = heavy.replace("ball = \"100 in\"", "ball = \"80 in\"").replace("60 lb", "0 lb");
    assert!(
        matches!(outcome(&heavy, "critical_kind", "state `road`"), Ok(Outcome::Text(kind)) if kind == "divergence")
    );
    let speed = si(&heavy, "divergence_speed");
    assert!((si(&heavy, "critical_speed") - speed).abs() < 1e-12 && speed < 100.0 / 3.6, "{speed}");
    assert!(matches!(outcome(&heavy, "settles_at_100_km_h", "state `road`"), Ok(Outcome::Flag(false))));
    if let Ok(Outcome::Figure(damping)) = outcome(&heavy, "damping_at_100_km_h", "state `road`") {
        assert!(damping.quantity.si() > 0.1, "damping alone sees nothing wrong");
    }
}

#[test]
fn what_is_not_given_is_missing() {
    let missing = |from: &str, to: &str, key: &str| {
        outcome(&trailer("").replace(from, to), key, "state `road`").unwrap_err().what
    };
    assert_eq!(missing(TOW, "", "damping_at_100_km_h"), "the tow vehicle");
    assert_eq!(missing("wheelbase = \"130 in\"\n", "", "critical_speed"), "`wheelbase` of the tow vehicle");
    assert_eq!(missing("overhang = \"45 in\"\n", "", "critical_kind"), "`overhang` of the tow vehicle");
    let weighed = "mass = \"5000 lb\"\nfront_axle = \"2800 lb\"\n";
    assert_eq!(
        missing("mass = \"5000 lb\"\n", weighed, "settles_at_80_km_h"),
        "`rear_axle` of the tow vehicle"
    );
    assert_eq!(missing("mass = \"120 lb\"\n", "", "yaw_inertia"), "`mass` of item `bench`");
    let tank = missing("width = \"16 in\"\n", "", "yaw_inertia");
    assert!(tank.starts_with("`width` of tank `fresh`"), "{tank}");
    let group = "count = 2, suspension = \"equalised\"";
    assert_eq!(missing("count = 1", group, "damping_at_100_km_h"), "`spread` of `axle` of the trailer");
    let apart = "count = 2, spread = \"33 in\", suspension = \"independent\"";
    assert_eq!(missing("count = 1", apart, "stiffness"), "how the axles of the group share the load");
    let bare = Assumptions::default();
    let build = read(&trailer(""));
    let all = workings(&Case { build: &build, assumptions: &bare, places: &crate::place::Places::default() });
    let of = |key: &str| {
        all.iter().find(|working| working.key == key).unwrap().outcome.as_ref().unwrap_err().what.clone()
    };
    assert_eq!(of("vehicle_front"), "the assumption `sway.front_share`");
    assert_eq!(of("yaw_inertia"), "the assumption `sway.empty_inertia`");
}

#[test]
fn what_the_spec_states_goes_before_what_is_assumed() {
    let stated = trailer("").replace("mass = \"1000 lb\"", "mass = \"1000 lb\"\nyaw_inertia = \"900 kg·m²\"");
    let plate = 1000.0 / 12.0 * (147.0_f64.powi(2) + 75.0_f64.powi(2)) * 0.453_592_37 * 0.0254 * 0.0254;
    let apart = si(&stated, "yaw_inertia") - si(&trailer(""), "yaw_inertia");
    assert!((apart - (900.0 - plate)).abs() < 1e-9);
    let axle = trailer("").replace("track = \"80 in\"", "track = \"80 in\", stiffness = \"60000 N/rad\"");
    assert!((si(&axle, "stiffness") - 60_000.0).abs() < 1e-9);
    let figure = |spec: &str, key: &str| match outcome(spec, key, "the tow vehicle") {
        Ok(Outcome::Figure(figure)) => figure.quantity.si(),
        other => panic!("{other:?}"),
    };
    let weighed = trailer("").replace(
        "mass = \"5000 lb\"\n",
        "mass = \"5000 lb\"\nfront_axle = \"3000 lb\"\nrear_axle = \"2000 lb\"\n",
    );
    assert!((figure(&weighed, "vehicle_front") - 0.4 * 130.0 * 0.0254).abs() < 1e-12);
    assert!((figure(&weighed, "vehicle_ball") - (0.6 * 130.0 + 45.0) * 0.0254).abs() < 1e-12);
    let front = 8.5 * 0.6 * 5000.0 * 0.453_592_37 * 9.806_65;
    assert!((figure(&weighed, "vehicle_front_stiffness") / front - 1.0).abs() < 1e-12);
    let rear = 10.5 * 0.4 * 5000.0 * 0.453_592_37 * 9.806_65;
    assert!((figure(&weighed, "vehicle_rear_stiffness") / rear - 1.0).abs() < 1e-12);
}

/// The greatest yaw inertia, found by adding everything, against every arrangement worked out.
#[test]
fn no_arrangement_has_more_inertia_than_that_which_is_shown() {
    let either = "[[either]]\nname = \"one\"\nof = [\"bench\", \"bikes\"]\nnone = true\n";
    let state = trailer(either).replace("carry = { bikes = \"60 lb\" }\n", "");
    for spec in [trailer(""), state] {
        let build: Build = read(&spec);
        let held = assumptions();
        let case = Case { build: &build, assumptions: &held, places: &crate::place::Places::default() };
        let arrangements = Arrangements::of(&build).unwrap();
        let shown = yaw(&case, &greatest_inertia(&case, &arrangements).unwrap()).unwrap();
        let mut number = 0;
        for state in arrangements.corners().unwrap().unwrap() {
            let found = yaw(&case, &state).unwrap().about_centre.quantity.si();
            assert!(found <= shown.about_centre.quantity.si() * (1.0 + 1e-12), "{}", state.name.value);
            number += 1;
        }
        assert!(number > 3);
    }
}

#[test]
fn arrangements_are_told_of_by_name() {
    let of: Vec<String> = all(&trailer("")).into_iter().map(|working| working.of).collect();
    let arranged = of.iter().filter(|of| of.starts_with("arrangement `")).count();
    assert!(arranged > 0, "{of:?}");
    let camp = trailer("")
        .replace("use = \"road\"", "use = \"camp\"")
        .replace("carry = { bikes = \"60 lb\" }\n", "");
    assert!(all(&camp).iter().all(|working| working.of == "the tow vehicle"), "nothing is towed in camp");
}

#[test]
fn every_figure_of_the_model_says_that_it_is_for_trends() {
    for working in all(&trailer("")) {
        assert!(working.caution.contains("trends"), "{}", working.key);
    }
}

#[test]
fn mirrored_and_in_metric_alike() {
    let written = trailer("");
    for other in [in_metric(&written), mirrored(&written)] {
        for key in
            ["yaw_inertia", "heavy_ends", "damping_at_100_km_h", "damping_heavy_vehicle", "stability_factor"]
        {
            let (one, other) = (si(&written, key), si(&other, key));
            assert!((one / other - 1.0).abs() < 1e-9, "{key}: {one}, {other}");
        }
    }
}
