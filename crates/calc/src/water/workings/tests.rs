//! Figures of builds, by hand.

use super::workings;
use crate::space::trial::{FLAT, build, in_metric, read, spec};
use crate::working::trial::{is, one};
use crate::{Assumptions, Case, Outcome, Working};
use proptest::prelude::*;

/// A trailer of 1,000 lb with its centre of gravity 90 in behind the ball, the axle at 100 in.
const TRAILER: &str = r#"
mass = "1,000 lb"
gvwr = "1,500 lb"
cg = { ball = "90 in", centre = "0 in", ground = "30 in" }
axle = { ball = "100 in", count = 1, track = "70 in", gawr = "2,000 lb" }

[assume.water]
drinking = "1 gal"
dishes = "1/2 gal"
washing = "1/4 gal"
shower = "3 gal"
return = "80 %"
slosh = "20 %"
ice = "9.05 %"
"#;

/// A fresh tank of 30 gal, 40 × 20 × 10 in, from 120 to 160 in behind the ball.
fn tank(more: &str) -> String {
    format!(
        r#"
[[tank]]
tag = "fresh"
holds = "fresh"
mass = "20 lb"
length = "40 in"
width = "20 in"
height = "10 in"
capacity = "30 gal"
at = {{ ball = "120 in", left = "0 in", floor = "0 in" }}
{more}
"#
    )
}

const GREY: &str = r#"
[[tank]]
tag = "grey"
holds = "grey"
mass = "10 lb"
length = "20 in"
width = "20 in"
height = "10 in"
capacity = "24 gal"
at = { ball = "60 in", left = "0 in", floor = "0 in" }
"#;

fn road(fill: &str) -> String {
    format!("[[state]]\nname = \"out\"\nuse = \"road\"\nfill = {{ {fill} }}\n")
}

fn found(spec: &str) -> Vec<Working> {
    let build = read(spec);
    workings(&Case {
        build: &build,
        assumptions: &Assumptions::default(),
        places: &crate::place::Places::default(),
    })
}

fn of(more: &str) -> Vec<Working> {
    found(&spec(FLAT, &(TRAILER.to_owned() + more)))
}

#[track_caller]
fn missing(all: &[Working], key: &str, of: &str) -> String {
    one(all, key, of).outcome.as_ref().unwrap_err().what.clone()
}

const HALF: &str = "fresh = \"50 %\"";

/// 15 gal, 125.1 lb, at 140 in; 0.2 g: 0.2 · 40² / (12 · 5) = 5 1/3 in.
#[test]
fn a_half_full_tank_runs() {
    let all = of(&(tank("") + &road(HALF)));
    let water = 15.0 * 8.34;
    let gross = 1_000.0 + 20.0 + water;
    let tongue = 1_000.0 * 0.1 - (20.0 + water) * 0.4;
    is(&all, "water_aboard", "state `out`", water, "lb");
    is(&all, "slosh_shift", "tank `fresh` in state `out`", 16.0 / 3.0, "in");
    is(&all, "slosh_rise", "tank `fresh` in state `out`", 8.0 / 15.0, "in");
    let change = water * (16.0 / 3.0) / 100.0 / gross;
    is(&all, "slosh_change", "state `out`", 100.0 * change, "%");
    is(&all, "share_ahead", "state `out`", 100.0 * (tongue / gross + change), "%");
    is(&all, "share_aft", "state `out`", 100.0 * (tongue / gross - change), "%");
    is(&all, "slosh_moment", "tank `fresh`", water * 16.0 / 3.0, "lb·in");
}

/// Two baffles make three tanks of 13 1/3 in: a ninth of the shift.
#[test]
fn baffles_hold_the_water_back() {
    let all = of(&(tank("baffles = 2") + &road(HALF)));
    is(&all, "slosh_shift", "tank `fresh` in state `out`", 16.0 / 27.0, "in");
    is(&all, "slosh_moment", "tank `fresh`", 15.0 * 8.34 * 16.0 / 27.0, "lb·in");
}

/// The shift is reckoned along the tank, which is what moves the tongue; what is full or empty stays.
#[test]
fn full_and_empty_tanks_do_not_run() {
    for fill in ["fresh = \"100 %\"", "fresh = \"0 %\""] {
        let all = of(&(tank("") + &road(fill)));
        for key in ["slosh_change", "share_ahead", "share_aft"] {
            let found = &one(&all, key, "state `out`").outcome;
            assert!(matches!(found, Ok(Outcome::None(_))), "{key}: {found:?}");
        }
        assert!(!all.iter().any(|one| one.key == "slosh_shift"));
    }
}

/// A tank that the road finds between empty and a quarter full sloshes most at a quarter.
#[test]
fn the_worst_fill_is_the_nearest_to_a_half_that_may_be() {
    let all = of(&tank("on_road = { least = \"0 %\", most = \"25 %\" }"));
    // A triangle of water: a quarter full, √(2 · 2.5 · 40 / 0.2) = 31.6 in long, a third of that from the deep end.
    let shift = 20.0 - (1_000.0_f64).sqrt() / 3.0;
    is(&all, "slosh_moment", "tank `fresh`", 7.5 * 8.34 * shift, "lb·in");
    let all = of(&(tank("on_road = { least = \"0 %\", most = \"25 %\" }") + &road("fresh = \"0 %\"")));
    let (change, gross) = (7.5 * 8.34 * shift / 100.0, 1_020.0 + 7.5 * 8.34);
    is(&all, "slosh_worst", "state `out`", 100.0 * change / gross, "%");
    let all = of(&tank("on_road = { least = \"100 %\", most = \"100 %\" }"));
    is(&all, "slosh_moment", "tank `fresh`", 0.0, "lb·in");
}

/// Full, 250.2 lb at 140 in with an axle at 100 in; empty, none of it.
#[test]
fn a_tank_swings_the_tongue() {
    let all = of(&(tank("") + GREY + &road("fresh = \"50 %\", grey = \"0 %\"")));
    let share = |fresh: f64, grey: f64| {
        let (gross, tongue) = (1_030.0 + fresh + grey, 100.0 - 0.4 * (20.0 + fresh) + 0.3 * (10.0 + grey));
        tongue / gross
    };
    let of_fresh = share(30.0 * 8.34, 0.0) - share(0.0, 0.0);
    is(&all, "tank_swing", "tank `fresh` in state `out`", 100.0 * of_fresh, "%");
    let of_grey = share(15.0 * 8.34, 24.0 * 8.34) - share(15.0 * 8.34, 0.0);
    is(&all, "tank_swing", "tank `grey` in state `out`", 100.0 * of_grey, "%");
    is(&all, "gross_all_full", "state `out`", 1_030.0 + 54.0 * 8.34, "lb");
    is(&all, "left_all_full", "state `out`", 470.0 - 54.0 * 8.34, "lb");
    is(&all, "behind_axle", "tank `fresh`", 40.0, "in");
    is(&all, "behind_axle", "tank `grey`", -30.0, "in");
}

const PEOPLE: &str = "[people]\ncount = 2\nmass = \"180 lb\"\n";

#[test]
fn how_long_it_lasts() {
    let water = "[water]\nshowers = 1\ndays = \"3 d\"\npump = { flow = \"3 gpm\" }\n";
    let all = of(&(tank("") + GREY + PEOPLE + water));
    is(&all, "use_per_day", "the build", 2.0 * 1.75 + 3.0, "gal");
    is(&all, "days_of_water", "the build", 30.0 / 6.5, "d");
    is(&all, "days_of_grey", "the build", 24.0 / (6.5 * 0.8), "d");
    is(&all, "water_for_stay", "the build", 19.5, "gal");
    is(&all, "pump_time", "the build", 10.0, "min");
    is(&all, "grey_to_fresh", "the build", 80.0, "%");
    is(&all, "fresh_capacity", "the build", 30.0, "gal");
    is(&all, "grey_capacity", "the build", 24.0, "gal");
    is(&all, "label_water", "the build", 249.0, "lb");
    // What is stated goes before what is assumed.
    let all = of(&(tank("") + PEOPLE + "[water]\nuse = \"10 gal\"\nshowers = 9\n"));
    is(&all, "days_of_water", "the build", 3.0, "d");
    is(&all, "days_of_grey", "the build", 0.0, "d");
    is(&all, "grey_to_fresh", "the build", 0.0, "%");
    assert!(!all.iter().any(|one| matches!(one.key, "pump_time" | "water_for_stay")));
    let all = of(&tank(""));
    assert_eq!(missing(&all, "use_per_day", "the build"), "how many use the water");
}

#[test]
fn cans_are_lifted() {
    let all = of(&tank("removable = true"));
    is(&all, "can_lift", "tank `fresh`", 270.2, "lb");
    is(&all, "lift_height", "tank `fresh`", 20.0, "in");
    is(&all, "water_full", "tank `fresh`", 250.2, "lb");
    assert!(!of(&tank("")).iter().any(|one| one.key == "can_lift"));
}

#[test]
fn frost() {
    let under = |more: &str, winter: &str| {
        let outside = tank(more).replace(
            "at = { ball = \"120 in\", left = \"0 in\", floor = \"0 in\" }",
            "zone = \"underside\"\nat = { ball = \"120 in\", ground = \"8 in\" }",
        );
        of(&(outside + winter))
    };
    let flag = |all: &[Working]| match &one(all, "could_freeze", "tank `fresh`").outcome {
        Ok(Outcome::Flag(flag)) => *flag,
        other => panic!("{other:?}"),
    };
    let winter = "[water]\nwinter = true\n";
    for (frost, expected) in [("nothing", true), ("insulated", true), ("heated", false), ("drained", false)] {
        assert_eq!(flag(&under(&format!("frost = \"{frost}\""), winter)), expected, "{frost}");
    }
    assert!(!flag(&under("frost = \"nothing\"", "[water]\nwinter = false\n")));
    assert!(!flag(&of(&(tank("frost = \"nothing\"") + winter))), "in the room that people sleep in");
    assert_eq!(missing(&under("", winter), "could_freeze", "tank `fresh`"), "`frost` of tank `fresh`");
    assert_eq!(missing(&under("", ""), "could_freeze", "tank `fresh`"), "how water is used");
    is(&of(&tank("")), "fill_before_frost", "tank `fresh`", 100.0 / 1.0905, "%");
}

#[test]
fn batteries_near_tanks() {
    let battery = |place: &str| {
        format!(
            "[[item]]\ntag = \"battery\"\nkind = \"battery\"\nmass = \"30 lb\"\nlength = \"10 in\"\nwidth = \"10 in\"\nheight = \"10 in\"\nat = {{ {place} }}\n"
        )
    };
    // The tank ends 160 in behind the ball, 16 in left of the centreline, 30 in up.
    let gap = |place: &str| of(&(tank("") + &battery(place)));
    is(
        &gap("ball = \"163 in\", left = \"24 in\", floor = \"0 in\""),
        "battery_gap",
        "tank `fresh`",
        5.0,
        "in",
    );
    is(
        &gap("ball = \"150 in\", left = \"24 in\", floor = \"0 in\""),
        "battery_gap",
        "tank `fresh`",
        4.0,
        "in",
    );
    is(
        &gap("ball = \"150 in\", left = \"0 in\", floor = \"10 in\""),
        "battery_gap",
        "tank `fresh`",
        0.0,
        "in",
    );
    let none = of(&tank(""));
    assert!(matches!(&one(&none, "battery_gap", "tank `fresh`").outcome, Ok(Outcome::None(_))));
}

#[test]
fn what_is_not_given_is_missing() {
    let all = of(&(tank("") + GREY + &road(HALF)));
    assert_eq!(missing(&all, "water_aboard", "state `out`"), "how full tank `grey` is in state `out`");
    assert_eq!(missing(&all, "slosh_change", "state `out`"), "how full tank `grey` is in state `out`");
    let dry = of(&(tank("").replace("capacity = \"30 gal\"\n", "") + &road(HALF)));
    assert_eq!(missing(&dry, "water_full", "tank `fresh`"), "`capacity` of tank `fresh`");
    assert_eq!(missing(&dry, "fresh_capacity", "the build"), "`capacity` of tank `fresh`");
    let flat = of(&(tank("").replace("height = \"10 in\"\n", "") + &road(HALF)));
    assert_eq!(missing(&flat, "slosh_shift", "tank `fresh` in state `out`"), "`height` of tank `fresh`");
    let calm = found(&spec(FLAT, &(TRAILER.replace("slosh = \"20 %\"\n", "") + &tank("") + &road(HALF))));
    assert_eq!(missing(&calm, "slosh_change", "state `out`"), "the assumption `water.slosh`");
    let which = of(&tank("").replace("holds = \"fresh\"\n", ""));
    assert_eq!(missing(&which, "grey_to_fresh", "the build"), "`holds` of tank `fresh`");
}

#[test]
fn no_tank_no_figures() {
    let build = build(FLAT, "");
    assert!(
        workings(&Case {
            build: &build,
            assumptions: &Assumptions::default(),
            places: &crate::place::Places::default()
        })
        .is_empty()
    );
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 32, ..ProptestConfig::default() })]

    /// What runs ahead comes onto the tongue as much as it goes off it running aft; units change nothing but the label.
    #[test]
    fn laws_of_running_water(fill in 1..100_u32, length in 8..60_u32, height in 5..20_u32, baffles in 0..3_u32) {
        let tank = tank(&format!("baffles = {baffles}"))
            .replace("length = \"40 in\"", &format!("length = \"{length} in\""))
            .replace("height = \"10 in\"", &format!("height = \"{height} in\""));
        let text = spec(FLAT, &(TRAILER.to_owned() + &tank + &road(&format!("fresh = \"{fill} %\""))));
        let share = |all: &[Working], key: &str| one(all, key, "state `out`").figure().unwrap().quantity.si();
        let all = found(&text);
        let (ahead, aft, change) = (share(&all, "share_ahead"), share(&all, "share_aft"), share(&all, "slosh_change"));
        prop_assert!(change > 0.0 && (ahead - aft - 2.0 * change).abs() < 1e-12);
        let metric = found(&in_metric(&text));
        prop_assert!((share(&metric, "share_ahead") - ahead).abs() < 1e-9);
        // No fill moves it more than the worst one is said to.
        let most = one(&all, "slosh_moment", "tank `fresh`").figure().unwrap().quantity.si();
        let shift = one(&all, "slosh_shift", "tank `fresh` in state `out`").figure().unwrap().quantity.si();
        let water = one(&all, "water_aboard", "state `out`").figure().unwrap().quantity.si();
        prop_assert!(water * shift <= most * (1.0 + 1e-9), "{} {}", water * shift, most);
    }
}
