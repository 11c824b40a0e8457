//! Small changes by hand, and against weighing again.

use super::*;
use crate::space::trial::read;

fn spec(axle: &str, mass: &str, rear: &str) -> String {
    format!(
        r#"
[build]
number = "T-1"
title = "an invented trailer for a test"
stage = "design"

[trailer]
mass = "1000 lb"
cg = {{ ball = "90 in", centre = "0 in", ground = "30 in" }}
gvwr = "3000 lb"
ball_to_box = "30 in"
length = "96 in"
width = "60 in"
height = "70 in"
wall = "1 in"
roof = "1 in"
floor_height = "20 in"
frame_height = "17 in"
nose = {{ shape = "flat" }}
axle = {{ ball = "{axle}", count = 1, track = "70 in" }}

[[item]]
tag = "galley"
kind = "module"
mass = "{mass}"
length = "20 in"
width = "10 in"
height = "10 in"
at = {{ rear = "{rear}", centre = "0 in" }}

[[state]]
name = "road"
use = "road"
"#
    )
}

/// Tongue weight in pounds and its share.
fn tongue(text: &str) -> (f64, f64) {
    let weights = Weights::of_state(&read(text), 0);
    let pound = Quantity::pounds(1.0).si();
    (weights.tongue().unwrap().quantity.si() / pound, weights.tongue_share().unwrap().quantity.si())
}

#[track_caller]
fn close(row: &Row, (tongue, share): (f64, f64), within: f64) {
    let found = row.tongue.si() / Quantity::pounds(1.0).si();
    assert!((found - tongue).abs() < within * tongue.abs(), "{found} lb, not {tongue} lb");
    assert!((row.share.si() - share).abs() < within * share.abs(), "{}, not {share}", row.share.si());
}

/// W = 1,200 lb, X = (1000·90 + 200·111)/1200 = 93.5 in, L = 100 in.
#[test]
fn by_hand() {
    let weights = Weights::of_state(&read(&spec("100 in", "200 lb", "6 in")), 0);
    let axle = of_axle(&weights, Quantity::inches(1.0)).unwrap();
    close(&axle, (1200.0 * 93.5 / 1e4, 93.5 / 1e4), 1e-12);
    assert_eq!(axle.name, "the axle");
    let masses = of_masses(&weights, Quantity::pounds(10.0)).unwrap();
    let names: Vec<&str> = masses.iter().map(|row| row.name.as_str()).collect();
    assert_eq!(names, ["the empty trailer", "item `galley`"]);
    close(&masses[0], (10.0 * 0.1, 10.0 * 3.5 / 1.2e5), 1e-12);
    close(&masses[1], (10.0 * -0.11, 10.0 * -17.5 / 1.2e5), 1e-12);
    let places = of_places(&weights, Quantity::inches(1.0)).unwrap();
    close(&places[0], (-10.0, -10.0 / 1200.0), 1e-12);
    close(&places[1], (-2.0, -2.0 / 1200.0), 1e-12);
}

/// The same by weighing a changed spec; the share of an added mass, and the axle, to the first order.
#[test]
fn by_weighing_again() {
    let text = spec("100 in", "200 lb", "6 in");
    let weights = Weights::of_state(&read(&text), 0);
    let before = tongue(&text);
    let by = |after: (f64, f64)| (after.0 - before.0, after.1 - before.1);
    close(
        &of_axle(&weights, Quantity::inches(0.01)).unwrap(),
        by(tongue(&spec("100.01 in", "200 lb", "6 in"))),
        1e-3,
    );
    let added = by(tongue(&spec("100 in", "200.1 lb", "6 in")));
    close(&of_masses(&weights, Quantity::pounds(0.1)).unwrap()[1], added, 1e-3);
    // An inch aft is an inch less to the rear door.
    let moved = by(tongue(&spec("100 in", "200 lb", "5 in")));
    close(&of_places(&weights, Quantity::inches(1.0)).unwrap()[1], moved, 1e-9);
}

/// The empty trailer puts 1000·(1 − 90/100) = 100 lb on the ball and the galley 200·(1 − 111/100) = −22 lb; the shares follow
/// from 78/1200 with each, 100/1000 without the galley and −22/200 without the trailer.
#[test]
fn whole_masses_by_hand() {
    let wholes = of_wholes(&Weights::of_state(&read(&spec("100 in", "200 lb", "6 in")), 0)).unwrap();
    close(&wholes[0].row, (100.0, 0.065 + 0.11), 1e-12);
    close(&wholes[1].row, (-22.0, 0.065 - 0.1), 1e-12);
    let pounds: Vec<f64> = wholes.iter().map(|whole| whole.mass.si() / Quantity::pounds(1.0).si()).collect();
    assert!((pounds[0] - 1000.0).abs() < 1e-9 && (pounds[1] - 200.0).abs() < 1e-9, "{pounds:?}");
    // And by weighing again: with next to nothing in the galley's place, what it puts on the ball is gone.
    let light = tongue(&spec("100 in", "0.000001 lb", "6 in"));
    let heavy = tongue(&spec("100 in", "200 lb", "6 in"));
    close(&wholes[1].row, (heavy.0 - light.0, heavy.1 - light.1), 1e-6);
}

#[test]
fn what_is_missing_is_named() {
    let text = spec("100 in", "200 lb", "6 in").replace("mass = \"200 lb\"\n", "");
    let weights = Weights::of_state(&read(&text), 0);
    assert_eq!(of_axle(&weights, Quantity::inches(1.0)).unwrap_err().what, "`mass` of item `galley`");
    assert!(of_masses(&weights, Quantity::pounds(10.0)).is_err());
    assert!(of_places(&weights, Quantity::inches(1.0)).is_err());
    assert!(of_wholes(&weights).is_err());
}
