//! Weights of whole specs against worked examples, and laws that every spec must obey.

use std::fmt::Write as _;

use proptest::prelude::*;

use super::*;
use crate::space::trial::read;

/// A bare trailer and what is fitted to it, lengths in inches and weights in pounds. The axle stands 78 in behind the
/// ball, as in the FAA example.
fn spec(trailer: &str, more: &str) -> String {
    format!(
        r#"
[build]
number = "T-1"
title = "an invented trailer for a test"
stage = "design"

[people]
mass = "180 lb"

[trailer]
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
axle = {{ ball = "78 in", count = 1, gawr = "3500 lb", track = "70 in" }}
tire = {{ rating = "1760 lb", made_for = "trailers", count = 2 }}
{trailer}
{more}
"#
    )
}

const ROAD: &str = "[[state]]\nname = \"road\"\nuse = \"road\"\n";

fn pounds(figure: Known<Figure>) -> f64 {
    let pound = Unit::find("lb").unwrap();
    figure.unwrap().quantity.value_in(pound).unwrap()
}

fn inches(figure: Known<Figure>) -> f64 {
    let inch = Unit::find("in").unwrap();
    figure.unwrap().quantity.value_in(inch).unwrap()
}

fn close(found: f64, expected: f64) {
    assert!((found - expected).abs() < 1e-9 * expected.abs().max(1.0), "found {found}, expected {expected}");
}

/// FAA-H-8083-1's nose-wheel example read as a trailer (M10, M11), through the whole reading of a spec: a tongue weight
/// of 340 lb, 78 in from ball to axle, 2,006 lb.
#[test]
fn a_trailer_stated_by_its_tongue_weight() {
    let build = read(&spec(
        "mass = \"2006 lb\"\ntongue = \"340 lb\"\ncg = { centre = \"0 in\", ground = \"30 in\" }",
        ROAD,
    ));
    let weights = Weights::of_state(&build, 0);
    close(pounds(weights.tongue()), 340.0);
    close(pounds(weights.axles()), 1666.0);
    assert!((inches(weights.centre_x()) - 64.78).abs() < 0.005);
    assert!((weights.tongue_share().unwrap().quantity.si() - 0.1695).abs() < 5e-5);
    close(pounds(weights.left()), 833.0);
    close(pounds(weights.right()), 833.0);
    // NHTSA, rollover rating notice, chapter V: half track over height.
    close(weights.stability_factor().unwrap().quantity.si(), 70.0 / 60.0);
    close(pounds(weights.cargo_capacity()), 994.0);
}

const BARE: &str = "mass = \"1000 lb\"\ncg = { ball = \"70 in\", centre = \"0 in\", ground = \"30 in\" }";

/// Two feet right of the middle, 100 lb: R − L = 2·W·y/track (statics).
#[test]
fn sides_and_people_and_water() {
    let more = format!(
        r#"
[[item]]
tag = "box"
kind = "module"
mass = "100 lb"
length = "10 in"
width = "10 in"
height = "10 in"
at = {{ front = "42 in", centre = "24 in" }}

[[tank]]
tag = "fresh"
mass = "10 lb"
capacity = "20 gal"
holds = "fresh"
length = "20 in"
width = "20 in"
height = "12 in"
at = {{ front = "37 in", centre = "0 in", floor = "0 in" }}

[[berth]]
tag = "bed"
people = 2
length = "76 in"
width = "54 in"
height = "6 in"
at = {{ front = "9 in", centre = "0 in", floor = "14 in" }}

{ROAD}fill = {{ fresh = "50 %" }}

[[state]]
name = "night"
use = "camp"
fill = {{ fresh = "0 %" }}
people = [{{ berth = "bed", count = 2 }}]
"#
    );
    let build = read(&spec(BARE, &more));
    let road = Weights::of_state(&build, 0);
    let water = 20.0 * 0.5 * 8.34;
    close(pounds(road.gross()), 1000.0 + 100.0 + 10.0 + water);
    close(pounds(road.unloaded()), 1110.0);
    close(pounds(road.cargo()), water);
    close(pounds(road.cargo_left()), 3000.0 - 1110.0 - water);
    // Box, tank and water all lie over the axle: x = 31 + 42 + 5 = 78 = 31 + 37 + 10.
    close(pounds(road.tongue()), 1000.0 * 8.0 / 78.0);
    close(pounds(road.side_difference()), 2.0 * 100.0 * 24.0 / 70.0);
    close(pounds(road.right()) - pounds(road.left()), 2.0 * 100.0 * 24.0 / 70.0);
    // Half full: the water's middle stands at a quarter of the tank's height.
    let z = (1000.0 * 30.0 + 100.0 * 25.0 + 10.0 * 26.0 + water * 23.0) / (1110.0 + water);
    close(inches(road.centre_z()), z);
    let night = Weights::of_state(&build, 1);
    close(pounds(night.gross()), 1110.0 + 360.0);
}

#[test]
fn the_heavier_side_is_blamed_on_what_stands_there() {
    let item = |tag: &str, centre: &str| {
        format!(
            "[[item]]\ntag = \"{tag}\"\nkind = \"module\"\nmass = \"100 lb\"\nlength = \"10 in\"\nwidth = \"10 in\"\nheight = \"10 in\"\nat = {{ front = \"40 in\", centre = \"{centre}\" }}\n"
        )
    };
    let build =
        read(&spec(BARE, &[item("left", "-24 in"), item("right", "10 in"), ROAD.to_owned()].concat()));
    let share = Weights::of_state(&build, 0).side_share().unwrap();
    assert!(share.quantity.si() > 0.0);
    let sum = share.trace.parts().unwrap();
    assert_eq!(sum.measure, Measure::LeftSide);
    let most = sum.parts.iter().max_by(|a, b| a.amount.si().total_cmp(&b.amount.si())).unwrap();
    assert_eq!(most.name, "item `left`");
}

/// A rack that is left at home takes its tent along, and the tent's bedding.
#[test]
fn what_stands_on_a_part_leaves_with_it() {
    let more = r#"
[[item]]
tag = "rack"
kind = "rack"
mass = "50 lb"
length = "60 in"
width = "50 in"
height = "3 in"
zone = "roof"
at = { front = "10 in" }
removable = true

[[item]]
tag = "tent"
kind = "tent"
mass = "120 lb"
bedding = "15 lb"
length = "56 in"
width = "48 in"
height = "12 in"
zone = "rack"
at = { front = "2 in" }

[[state]]
name = "with"
use = "road"

[[state]]
name = "without"
use = "road"
out = ["rack"]
"#;
    let build = read(&spec(BARE, more));
    close(pounds(Weights::of_state(&build, 0).gross()), 1185.0);
    close(pounds(Weights::of_state(&build, 1).gross()), 1000.0);
}

#[test]
fn what_is_missing_is_named() {
    let crate_of = |fields: &str| {
        let more = format!(
            "[[item]]\ntag = \"crate\"\nkind = \"module\"\n{fields}\nat = {{ front = \"40 in\", left = \"0 in\" }}\n{ROAD}"
        );
        Weights::of_state(&read(&spec(BARE, &more)), 0)
    };
    let weightless = crate_of("length = \"10 in\"\nwidth = \"10 in\"\nheight = \"10 in\"");
    assert_eq!(weightless.gross().unwrap_err().what, "`mass` of item `crate`");
    assert_eq!(weightless.tongue().unwrap_err().what, "`mass` of item `crate`");
    let sizeless = crate_of("mass = \"10 lb\"\nwidth = \"10 in\"\nheight = \"10 in\"");
    close(pounds(sizeless.gross()), 1010.0);
    assert_eq!(sizeless.tongue().unwrap_err().what, "`length` of item `crate`");
    close(inches(sizeless.centre_z()), (1000.0 * 30.0 + 10.0 * 25.0) / 1010.0);
    let two = "\n[[tank]]\ntag = \"t\"\nmass = \"1 lb\"\ncapacity = \"1 gal\"\nlength = \"1 in\"\nwidth = \"1 in\"\nheight = \"1 in\"\nat = { front = \"1 in\", left = \"1 in\" }\n";
    let unfilled = Weights::of_state(&read(&spec(BARE, &[two, ROAD].concat())), 0);
    assert_eq!(unfilled.gross().unwrap_err().what, "how full tank `t` is in state `road`");
    // As built there is no water to ask about.
    close(pounds(Weights::as_built(&read(&spec(BARE, &[two, ROAD].concat()))).unloaded()), 1001.0);
}

#[test]
fn axles_of_a_group() {
    let group = |how: &str| {
        let text = spec(BARE, ROAD).replace("count = 1, gawr", &format!("count = 2, {how} gawr"));
        Weights::of_state(&read(&text), 0)
    };
    let even = group("suspension = \"equalised\",");
    close(pounds(even.each_axle()), 1000.0 * 70.0 / 78.0 / 2.0);
    assert!(group("suspension = \"independent\",").each_axle().unwrap_err().what.contains("how the axles"));
    assert_eq!(group("").each_axle().unwrap_err().what, "`suspension` of `axle` of the trailer");
    close(pounds(group("").axles()), 1000.0 * 70.0 / 78.0);
}

/// What a state carries of a load is as sure as the load, in proportion, unless it says so itself.
#[test]
fn a_carried_load_is_as_sure_as_the_load() {
    let more = format!(
        "[[load]]\ntag = \"bags\"\nmass = \"100 lb ± 8 lb\"\nleast = \"0 lb\"\nat = {{ front = \"40 in\", left = \"3 in\", floor = \"0 in\" }}\n{ROAD}carry = {{ bags = \"25 lb\" }}\n[[state]]\nname = \"weighed\"\nuse = \"road\"\ncarry = {{ bags = \"25 lb ± 1 lb\" }}\n"
    );
    let build = read(&spec(BARE, &more));
    let half_width = |state: usize| {
        let weights = Weights::of_state(&build, state);
        let bags = weights.bodies.iter().find(|body| body.name == "load `bags`").unwrap();
        bags.inputs[0].value.value.tolerance().unwrap().value_in(Unit::find("lb").unwrap()).unwrap()
    };
    close(half_width(0), 2.0);
    close(half_width(1), 1.0);
}

/// Items at random places, as (mass lb, front in, centre in, floor in).
fn fitted() -> impl Strategy<Value = Vec<(f64, f64, f64, f64)>> {
    prop::collection::vec((1.0..300.0_f64, 0.0..80.0_f64, -20.0..20.0_f64, 0.0..40.0_f64), 0..6)
}

fn with_items(items: &[(f64, f64, f64, f64)], scale: f64, unit: &str, sign: f64) -> Build {
    let mut more = String::new();
    for (at, (mass, front, centre, floor)) in items.iter().enumerate() {
        let _ = writeln!(
            more,
            "[[item]]\ntag = \"i{at}\"\nkind = \"module\"\nmass = \"{mass} lb\"\nlength = \"10 in\"\nwidth = \"10 in\"\nheight = \"10 in\"\nat = {{ front = \"{} {unit}\", centre = \"{} {unit}\", floor = \"{} {unit}\" }}",
            front * scale,
            centre * scale * sign,
            floor * scale
        );
    }
    read(&spec(BARE, &(more + ROAD)))
}

/// A load that may ride along weighs what the state carries of it, at its place, and is no part of the trailer as built.
#[test]
fn what_a_state_carries_is_cargo_at_its_place() {
    let bags = |carry: &str| {
        let more = "[[load]]\ntag = \"bags\"\nmass = \"200 lb\"\nleast = \"0 lb\"\nat = { ball = \"39 in\", centre = \"7 in\", ground = \"30 in\" }\n";
        read(&spec(BARE, &format!("{more}{ROAD}{carry}")))
    };
    let carried = bags("carry = { bags = \"100 lb\" }");
    let weights = Weights::of_state(&carried, 0);
    close(pounds(weights.gross()), 1100.0);
    close(pounds(weights.cargo()), 100.0);
    // Half way to the axle: half on the ball. 7 in of 70 in track: R − L = 2·W·y/track (statics).
    close(pounds(weights.tongue()), 1000.0 * 8.0 / 78.0 + 50.0);
    close(pounds(weights.side_difference()), 20.0);
    close(pounds(Weights::as_built(&carried).gross()), 1000.0);
    assert_eq!(
        weights.bodies.iter().map(|body| body.name.as_str()).collect::<Vec<_>>(),
        ["the empty trailer", "load `bags`"]
    );
    let at_home = bags("");
    close(pounds(Weights::of_state(&at_home, 0).gross()), 1000.0);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn parts_add_up_and_supports_carry_all(items in fitted()) {
        let build = with_items(&items, 1.0, "in", 1.0);
        let weights = Weights::of_state(&build, 0);
        let gross = pounds(weights.gross());
        close(pounds(weights.tongue()) + pounds(weights.axles()), gross);
        close(pounds(weights.left()) + pounds(weights.right()), pounds(weights.axles()));
        for figure in [weights.gross(), weights.tongue(), weights.axles(), weights.left(), weights.right(),
            weights.side_difference(), weights.centre_x(), weights.centre_y(), weights.centre_z()] {
            let figure = figure.unwrap();
            let sum: f64 = figure.trace.parts().unwrap().parts.iter().map(|part| part.amount.si()).sum();
            prop_assert!((sum - figure.quantity.si()).abs() < 1e-9 * gross);
        }
    }

    #[test]
    fn the_unit_of_a_place_changes_nothing(items in fitted()) {
        let (inch, millimetre) = (with_items(&items, 1.0, "in", 1.0), with_items(&items, 25.4, "mm", 1.0));
        let (a, b) = (Weights::of_state(&inch, 0), Weights::of_state(&millimetre, 0));
        prop_assert!((pounds(a.tongue()) - pounds(b.tongue())).abs() < 1e-9 * pounds(a.gross()));
        prop_assert!((inches(a.centre_z()) - inches(b.centre_z())).abs() < 1e-8);
    }

    #[test]
    fn a_mirrored_trailer_swaps_its_wheels(items in fitted()) {
        let (here, there) = (with_items(&items, 1.0, "in", 1.0), with_items(&items, 1.0, "in", -1.0));
        let (a, b) = (Weights::of_state(&here, 0), Weights::of_state(&there, 0));
        prop_assert!((pounds(a.left()) - pounds(b.right())).abs() < 1e-9 * pounds(a.gross()));
        prop_assert!((pounds(a.tongue()) - pounds(b.tongue())).abs() < 1e-9 * pounds(a.gross()));
    }
}
