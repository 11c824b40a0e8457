//! What specs are worth, by hand.

use pintle_source::Sources;
use pintle_spec::{Build, read_build, read_stock};

use super::workings;
use crate::space::trial::{FLAT, spec};
use crate::working::trial::{is, one};
use crate::{Assumptions, Case, Outcome, Working};

/// Three batteries, of 30 to 60 lb, and two racks.
const STOCK: &str = r#"
[[part]]
name = "small"
kind = "battery"
mass = "30 lb"
length = "8 in"
[[part]]
name = "middle"
kind = "battery"
mass = "45 lb"
length = "10 in"
[[part]]
name = "large"
kind = "battery"
mass = "60 lb"
length = "12 in"
[[part]]
name = "low"
kind = "rack"
mass = "40 lb"
[[part]]
name = "high"
kind = "rack"
mass = "60 lb"
"#;

const TRAILER: &str = r#"
mass = "1,000 lb"
mass_basis = "weighed"
cg = { ball = "90 in", centre = "0 in", ground = "30 in" }
axle = { ball = "100 in", count = 1, track = "70 in" }
"#;

fn loaded(more: &str) -> Build {
    let mut sources = Sources::new();
    let stock = sources.add("stock.toml", STOCK);
    let text = sources.add("trial.toml", &spec(FLAT, &format!("{TRAILER}{more}")));
    let mut problems = Vec::new();
    let stock = read_stock(&sources, &[stock], &mut problems);
    read_build(&sources, text, &stock, &mut problems).unwrap_or_else(|| panic!("{problems:#?}"))
}

fn found(more: &str) -> Vec<Working> {
    let build = loaded(more);
    workings(&Case {
        build: &build,
        assumptions: &Assumptions::default(),
        places: &crate::place::Places::default(),
    })
}

fn texts(all: &[Working], key: &str, of: &str) -> Vec<String> {
    match &one(all, key, of).outcome {
        Ok(Outcome::Texts(texts)) => texts.clone(),
        other => panic!("{other:?}"),
    }
}

fn battery(more: &str) -> String {
    format!(
        "[[item]]\ntag = \"bank\"\npart = \"small\"\nat = {{ front = \"10 in\", left = \"10 in\" }}\n{more}\n"
    )
}

const ROAD: &str = "[[state]]\nname = \"out\"\nuse = \"road\"\n";

#[test]
fn what_is_guessed_is_a_share_of_all() {
    let chest = |basis: &str| {
        format!(
            "[[item]]\ntag = \"chest\"\nkind = \"module\"\nmass = \"250 lb\"\n{basis}\
             at = {{ front = \"10 in\", left = \"10 in\" }}\n{ROAD}"
        )
    };
    // 250 of 1,250 lb.
    for basis in ["mass_basis = \"guessed\"\n", ""] {
        let all = found(&chest(basis));
        is(&all, "guessed_share", "state `out`", 20.0, "%");
        assert_eq!(texts(&all, "guessed_parts", "state `out`"), ["item `chest` 250 lb"]);
    }
    for basis in ["weighed", "maker", "computed"] {
        let all = found(&chest(&format!("mass_basis = \"{basis}\"\n")));
        is(&all, "guessed_share", "state `out`", 0.0, "%");
    }
}

#[test]
fn states_on_the_road_are_listed() {
    assert_eq!(texts(&found(ROAD), "road_states", "the build"), ["out"]);
    let camp = "[[state]]\nname = \"night\"\nuse = \"camp\"\n";
    assert!(texts(&found(camp), "road_states", "the build").is_empty());
}

#[test]
fn a_part_is_used_when_some_state_says_so() {
    let parts = "[[tank]]\ntag = \"fresh\"\nholds = \"fresh\"\ncapacity = \"10 gal\"\nmass = \"5 lb\"\n\
                 length = \"10 in\"\nwidth = \"10 in\"\nheight = \"30 in\"\nat = { front = \"10 in\", left = \"10 in\" }\n\
                 [[load]]\ntag = \"bags\"\nmass = \"50 lb\"\nleast = \"0 lb\"\nat = { front = \"60 in\", left = \"10 in\" }\n";
    let used = |state: &str, of: &str| match one(&found(&format!("{parts}{ROAD}{state}")), "used", of).outcome
    {
        Ok(Outcome::Flag(flag)) => flag,
        ref other => panic!("{other:?}"),
    };
    for (state, tank, load) in [
        ("", false, false),
        ("fill = { fresh = \"0 %\" }\ncarry = { bags = \"0 lb\" }\n", false, false),
        ("fill = { fresh = \"1 %\" }\n", true, false),
        ("carry = { bags = \"10 lb\" }\n", false, true),
    ] {
        assert_eq!(used(state, "tank `fresh`"), tank, "{state}");
        assert_eq!(used(state, "load `bags`"), load, "{state}");
    }
    assert!(one(&found(parts), "used", "load `bags`").outcome.is_err(), "no state says anything");
}

#[test]
fn a_value_is_held_against_all_stock_parts_of_its_kind() {
    for (mass, times) in [("30 lb", 1.0), ("45 lb", 1.0), ("600 lb", 10.0), ("3 lb", 10.0), ("1200 lb", 20.0)]
    {
        let all = found(&battery(&format!("mass = \"{mass}\"")));
        is(&all, "off_range", "item `bank`", 100.0 * times, "%");
        let told = texts(&all, "off_range_of", "item `bank`");
        let expected =
            format!("mass {}: stock has 30 lb to 60 lb", if times > 19.0 { "1,200 lb" } else { mass });
        assert_eq!(told, if times > 1.0 { vec![expected] } else { Vec::new() }, "{mass}");
    }
    // A part of its own, not from stock, as well; but nothing of what stock gives.
    let own = "[[item]]\ntag = \"bank\"\nkind = \"battery\"\nmass = \"600 lb\"\nat = { front = \"10 in\", left = \"10 in\" }\n";
    is(&found(own), "off_range", "item `bank`", 1000.0, "%");
    assert!(found(&battery("")).iter().all(|one| one.key != "off_range"));
    // Two parts are no range.
    let rack = "[[item]]\ntag = \"r\"\nkind = \"rack\"\nmass = \"4000 lb\"\nzone = \"roof\"\nat = { front = \"10 in\" }\n";
    assert!(found(rack).iter().all(|one| one.key != "off_range"));
}

#[test]
fn a_slip_of_units_shows_by_its_factor() {
    for (restated, what) in [
        ("mass = \"30 kg\"", "mass 30 kg, and 30 lb of `small` in stock: pounds and kilograms?"),
        ("mass = \"13.608 lb\"", "mass 13.608 lb, and 30 lb of `small` in stock: pounds and kilograms?"),
        ("length = \"8 cm\"", "length 8 cm, and 8 in of `small` in stock: inches and centimetres?"),
        ("length = \"8 ft\"", "length 8 ft, and 8 in of `small` in stock: inches and feet?"),
    ] {
        assert_eq!(texts(&found(&battery(restated)), "unit_slips", "item `bank`"), [what], "{restated}");
    }
    for restated in ["mass = \"31 lb\"", "mass = \"65 lb\"", "length = \"9 in\""] {
        assert!(texts(&found(&battery(restated)), "unit_slips", "item `bank`").is_empty(), "{restated}");
    }
}
