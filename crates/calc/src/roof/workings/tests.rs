//! Figures of builds, by hand: racks, feet and bows here, tents and ladders in [`tents`].

mod tents;

use super::workings;
use crate::space::trial::{FLAT, build, in_metric, mirrored, read, spec, value};
use crate::working::trial::{is, one};
use crate::{Assumptions, Case, Outcome, Working};
use pintle_quantity::Quantity;
use proptest::prelude::*;

/// A rack 100 × 60 in from 66 in behind the ball, 60 lb, 3 in high.
fn rack(feet: &str) -> String {
    format!(
        r#"
[[item]]
tag = "rack"
kind = "rack"
zone = "roof"
length = "100 in"
width = "60 in"
height = "3 in"
mass = "60 lb"
feet_on = "bows"
at = {{ front = "30 in" }}
{feet}
"#
    )
}

const TWO_ROWS: &str = "feet = 4\nfoot_first = \"0 in\"\nfoot_spacing = \"100 in\"";

/// A tent 84 × 56 × 12 in, 140 lb with 10 lb of bedding, opening to the right.
fn tent(more: &str) -> String {
    format!(
        r#"
[[item]]
tag = "tent"
kind = "tent"
zone = "rack"
length = "84 in"
width = "56 in"
height = "12 in"
mass = "140 lb"
bedding = "10 lb"
floor = "2 in"
{more}

[[berth]]
tag = "loft"
zone = "tent"
people = 2
"#
    )
}

const BOWS: &str = r#"
[trailer.bows]
first = "12 in"
spacing = "24 in"
span = "72 in"
material = "aluminium"
section = { shape = "rectangular tube", width = "1 in", height = "2 in", wall = "1/8 in" }

[assume.roof]
bumps = "200 %"
steel_stiffness = "29,000,000 psi"
steel_allowable = "21,600 psi"
aluminium_stiffness = "10,000,000 psi"
aluminium_allowable = "9,700 psi"
ladder_strength = "400 %"
landing = "3 ft"

[people]
mass = "180 lb"
count = 2
"#;

fn found(spec: &str) -> Vec<Working> {
    let build = read(spec);
    workings(&Case {
        build: &build,
        assumptions: &Assumptions::default(),
        places: &crate::place::Places::default(),
    })
}

fn of(more: &str) -> Vec<Working> {
    found(&spec(FLAT, more))
}

#[track_caller]
fn texts(all: &[Working], key: &str, of: &str) -> Vec<String> {
    match &one(all, key, of).outcome {
        Ok(Outcome::Texts(texts)) => texts.clone(),
        other => panic!("{key}: {other:?}"),
    }
}

#[track_caller]
fn missing(all: &[Working], key: &str, of: &str) -> String {
    one(all, key, of).outcome.as_ref().unwrap_err().what.clone()
}

/// Two rows are a lever: the tent's middle is 42 in of 100 in behind the front row.
#[test]
fn feet_of_two_rows_are_a_lever() {
    let all = of(&(rack(TWO_ROWS) + &tent("at = { front = \"0 in\" }") + BOWS));
    let (front, rear) = (15.0 + 75.0 * 0.58, 15.0 + 75.0 * 0.42);
    for side in ["left", "right"] {
        is(&all, "foot_moving", &format!("foot {side} of row 1 of item `rack`"), front, "lb");
        is(&all, "foot_moving", &format!("foot {side} of row 2 of item `rack`"), rear, "lb");
    }
    is(&all, "foot_moving_most", "item `rack`", front, "lb");
    is(&all, "foot_bumps_most", "item `rack`", 2.0 * front, "lb");
    // Parked, two people of 180 lb lie over the closed tent.
    let parked = 15.0 + 255.0 * 0.58;
    is(&all, "foot_parked_most", "item `rack`", parked, "lb");
    is(&all, "rack_bumps", "item `rack`", 420.0, "lb");
    is(&all, "foot_even_parked", "item `rack`", 570.0 / 4.0, "lb");
}

/// A tent 6 in right of the middle of a rack 60 in wide: 6/60 more of it on the right.
#[test]
fn feet_aside_take_the_lever_across() {
    let all = of(&(rack(TWO_ROWS) + &tent("at = { front = \"8 in\", centre = \"6 in\" }") + BOWS));
    is(&all, "foot_moving", "foot right of row 1 of item `rack`", 15.0 + 150.0 * 0.5 * 0.6, "lb");
    is(&all, "foot_moving", "foot left of row 1 of item `rack`", 15.0 + 150.0 * 0.5 * 0.4, "lb");
    let narrow = of(&(rack(&format!("{TWO_ROWS}\nfoot_gauge = \"40 in\""))
        + &tent("at = { front = \"8 in\", centre = \"6 in\" }")
        + BOWS));
    is(&narrow, "foot_moving", "foot right of row 1 of item `rack`", 15.0 + 150.0 * 0.5 * 0.65, "lb");
}

/// The middle one of three even rows under an even load takes 10/16 of it, as every handbook has it: not a third.
#[test]
fn trap_feet_do_not_share_evenly() {
    let three = "feet = 6\nfoot_first = \"0 in\"\nfoot_spacing = \"50 in\"";
    let all = of(&(rack(three) + BOWS));
    is(&all, "foot_moving", "foot left of row 2 of item `rack`", 60.0 * 10.0 / 16.0 / 2.0, "lb");
    is(&all, "foot_moving", "foot left of row 3 of item `rack`", 60.0 * 3.0 / 16.0 / 2.0, "lb");
    is(&all, "foot_even_moving", "item `rack`", 10.0, "lb");
    let listed = "feet_at = [{ front = \"100 in\" }, { front = \"0 in\" }, { front = \"50 in\" }]";
    let same = of(&(rack(listed) + BOWS));
    is(&same, "foot_moving", "foot right of row 2 of item `rack`", 60.0 * 10.0 / 16.0 / 2.0, "lb");
}

/// A tent whose centre of gravity is 25 in behind its front lies on 50 in of the rack: on the first of two even spans alone, which take
/// 7/16, 10/16 and −1/16 of it. A light rack is lifted at the rear, and a foot that pulls up bends no bow.
#[test]
fn a_tent_that_is_heavy_ahead_lifts_the_rear_feet() {
    let three = "feet = 6\nfoot_first = \"0 in\"\nfoot_spacing = \"50 in\"";
    let tent = tent("at = { front = \"0 in\" }\ncg = { front = \"25 in\" }");
    let all = of(&(rack(three).replace("60 lb", "16 lb") + &tent + BOWS));
    for (row, rack, tent) in [(1, 3.0, 7.0), (2, 10.0, 10.0), (3, 3.0, -1.0)] {
        let of = format!("foot left of row {row} of item `rack`");
        is(&all, "foot_parked", &of, (rack * 16.0 + tent * 510.0) / 32.0, "lb");
    }
    is(&all, "foot_parked_least", "item `rack`", (3.0 * 16.0 - 510.0) / 32.0, "lb");
    is(&all, "bow_load_parked", "roof bow 6", 0.0, "lb");
    is(&all, "bow_stress_parked", "roof bow 6", 0.0, "psi");
    is(&all, "bow_load_parked", "roof bow 2", (3.0 * 16.0 + 7.0 * 510.0) / 16.0, "lb");
}

/// What a tent may hold parked and what a roof may carry on the road are two figures, and neither is made from the other: people
/// count when parked only, bumps on the road only.
#[test]
fn trap_parked_and_moving_loads_are_two_figures() {
    let with = |people: u32| {
        let people = tent("at = { front = \"0 in\" }").replace("people = 2", &format!("people = {people}"));
        of(&(rack(TWO_ROWS) + &people + BOWS))
    };
    for (people, parked) in [(0, 150.0), (2, 510.0), (4, 870.0)] {
        let all = with(people);
        is(&all, "rack_moving", "item `rack`", 150.0, "lb");
        is(&all, "rack_bumps", "item `rack`", 420.0, "lb");
        is(&all, "rack_parked", "item `rack`", parked, "lb");
        is(&all, "roof_parked", "the build", parked + 60.0, "lb");
    }
}

/// Rows at 66 and 166 in behind the ball; bows at 37.5 + 12 + 24 n: 49.5, 73.5 … 169.5.
#[test]
fn feet_off_bows() {
    let all = of(&(rack(TWO_ROWS) + BOWS));
    is(&all, "foot_off_bow", "row 1 of item `rack`", 7.5, "in");
    is(&all, "foot_off_bow", "row 2 of item `rack`", 3.5, "in");
    is(&all, "foot_off_bow_most", "item `rack`", 7.5, "in");
    // With four bows the last is at 121.5 in.
    let few = of(&(rack(TWO_ROWS) + &BOWS.replace("spacing =", "count = 4\nspacing =")));
    is(&few, "foot_off_bow", "row 2 of item `rack`", 44.5, "in");
}

/// Two equal loads P at a from the posts: M = P a, δ = P a (3 L² − 4 a²) / (24 E I), of every handbook.
#[test]
fn bows_under_two_feet() {
    let all = of(&(rack(TWO_ROWS) + &tent("at = { front = \"8 in\" }") + BOWS));
    let inertia = (1.0 * 8.0 - 0.75 * 1.75_f64.powi(3)) / 12.0;
    // 60 lb of rack, 150 lb of tent, 360 lb of people, on four feet, each 6 in from its post.
    for (case, times, load) in [("parked", 1.0, 570.0 / 4.0), ("bumps", 2.0, 210.0 / 4.0)] {
        let p = times * load;
        let key = |what: &str| format!("bow_{what}_{case}");
        for bow in ["roof bow 2", "roof bow 6"] {
            is(&all, &key("load"), bow, 2.0 * p, "lb");
            is(&all, &key("moment"), bow, p * 6.0, "lbf·in");
            is(&all, &key("stress"), bow, p * 6.0 / inertia, "psi");
            let sag = p * 6.0 * (3.0 * 72.0 * 72.0 - 4.0 * 36.0) / (24.0 * 10e6 * inertia);
            is(&all, &key("sag"), bow, sag, "in");
            is(&all, &format!("bow_sag_{case}_share"), "the roof bows", sag / 72.0 * 100.0, "%");
        }
        let used = p * 6.0 / inertia / 9_700.0;
        is(&all, &format!("bow_stress_{case}_use"), "the roof bows", used * 100.0, "%");
        is(&all, &format!("bow_stress_{case}_most"), "the roof bows", used * 9_700.0, "psi");
    }
    let steel = of(&(rack(TWO_ROWS)
        + &tent("at = { front = \"8 in\" }")
        + &BOWS.replace("\"aluminium\"", "\"steel\"")));
    let sag = 570.0 / 4.0 * 6.0 * (3.0 * 72.0 * 72.0 - 4.0 * 36.0) / (24.0 * 29e6 * inertia);
    is(&steel, "bow_sag_parked", "roof bow 2", sag, "in");
}

/// Without a span a bow is as long as the box is wide outside: 75 in, and the feet 7.5 in from its ends.
#[test]
fn the_span_is_that_of_the_box_when_not_given() {
    let all = of(&(rack(TWO_ROWS) + &BOWS.replace("span = \"72 in\"\n", "")));
    is(&all, "bow_span", "the roof bows", 75.0, "in");
    is(&all, "bow_moment_bumps", "roof bow 2", 2.0 * 15.0 * 7.5, "lbf·in");
}

/// What a figure says of its slopes is what happens when the spec is changed and read again.
#[test]
fn feet_and_bows_know_how_they_depend_on_what_was_written() {
    let feet = "feet = 6\nfoot_first = \"5 in\"\nfoot_spacing = \"40 in\"\nfoot_gauge = \"50 in\"";
    let text = spec(
        FLAT,
        &(rack(feet)
            + &tent("at = { front = \"9 in\", centre = \"3 in\" }\ncg = { front = \"30 in\" }")
            + BOWS),
    );
    let rows = [
        ("`mass` of item `tent`", "mass = \"140 lb\"", "mass = \"141 lb\""),
        ("`mass` of item `rack`", "mass = \"60 lb\"", "mass = \"61 lb\""),
        ("`mass` of `people` of the spec", "mass = \"180 lb\"", "mass = \"181 lb\""),
        ("`front` of `at` of item `tent`", "front = \"9 in\"", "front = \"9.001 in\""),
        ("`front` of `cg` of item `tent`", "cg = { front = \"30 in\"", "cg = { front = \"30.001 in\""),
        ("`centre` of `at` of item `tent`", "centre = \"3 in\"", "centre = \"3.001 in\""),
        ("`foot_first` of item `rack`", "foot_first = \"5 in\"", "foot_first = \"5.001 in\""),
        ("`foot_spacing` of item `rack`", "foot_spacing = \"40 in\"", "foot_spacing = \"40.001 in\""),
        ("`foot_gauge` of item `rack`", "foot_gauge = \"50 in\"", "foot_gauge = \"50.001 in\""),
        ("`length` of item `rack`", "length = \"100 in\"", "length = \"100.001 in\""),
        ("`span` of `bows` of the trailer", "span = \"72 in\"", "span = \"72.001 in\""),
        ("`length` of item `tent`", "length = \"84 in\"", "length = \"84.001 in\""),
    ];
    let figures = [
        ("foot_parked", "foot right of row 2 of item `rack`"),
        ("foot_moving", "foot left of row 1 of item `rack`"),
        ("bow_moment_parked", "roof bow 2"),
        ("bow_stress_parked", "roof bow 2"),
    ];
    let before = found(&text);
    let mut told = 0;
    for (name, was, becomes) in rows {
        assert_eq!(text.matches(was).count(), 1, "{was}");
        let after = found(&text.replace(was, becomes));
        let written = |text: &str| Quantity::parse(text.split('"').nth(1).unwrap()).unwrap().si();
        let by = written(becomes) - written(was);
        for (key, of) in figures {
            let figure = one(&before, key, of).figure().unwrap();
            let moved = one(&after, key, of).figure().unwrap().quantity.si() - figure.quantity.si();
            let gradient = figure.trace.gradient().unwrap();
            let term = gradient.iter().find(|term| term.input.name() == name);
            let slope = term.map_or(0.0, |term| term.times);
            told += usize::from(slope.abs() > 0.0);
            let scale = figure.quantity.si().abs();
            assert!(
                (slope * by - moved).abs() < 1e-4 * moved.abs() + 1e-9 * scale,
                "{key} of {of}, {name}: {moved}, not {}: {:?}",
                slope * by,
                gradient.iter().map(|term| term.input.name()).collect::<Vec<_>>(),
            );
        }
    }
    assert!(told >= 38, "{told} of 48 slopes");
}

#[test]
fn feet_that_stand_on_no_bow_bend_none() {
    for (on, why) in [("posts", "its feet stand on the posts"), ("skin", "its feet stand on the skin")] {
        let all = of(&(rack(TWO_ROWS).replace("\"bows\"", &format!("\"{on}\"")) + BOWS));
        let found = &one(&all, "foot_off_bow_most", "item `rack`").outcome;
        assert!(matches!(found, Ok(Outcome::None(told)) if told == why), "{found:?}");
        let found = &one(&all, "bow_stress_parked_most", "the roof bows").outcome;
        assert!(matches!(found, Ok(Outcome::None(_))), "{found:?}");
        assert!(!all.iter().any(|one| one.key == "bow_stress_parked"));
    }
}

#[test]
fn what_is_not_given_is_missing() {
    let rows = [
        ("", "foot_moving_most", "item `rack`", "`foot_first` of item `rack`"),
        (
            "foot_first = \"0 in\"\nfoot_spacing = \"9 in\"",
            "foot_moving_most",
            "item `rack`",
            "`feet` of item `rack`",
        ),
        (
            "feet = 5\nfoot_first = \"0 in\"\nfoot_spacing = \"9 in\"",
            "foot_moving_most",
            "item `rack`",
            "the rows of the 5 feet of item `rack`",
        ),
        (
            "feet = 400\nfoot_first = \"0 in\"\nfoot_spacing = \"1/4 in\"",
            "foot_parked_most",
            "item `rack`",
            "no more than 50 rows of feet under item `rack`",
        ),
        (
            "feet = 6\nfeet_at = [{ front = \"0 in\" }, { front = \"9 in\" }]",
            "foot_parked_most",
            "item `rack`",
            "`feet` and `feet_at` of item `rack` that agree",
        ),
        (
            "foot_first = \"0 in\"\nfeet_at = [{ front = \"0 in\" }, { front = \"9 in\" }]",
            "foot_off_bow_most",
            "item `rack`",
            "one way to say where the feet of item `rack` stand",
        ),
        (
            "feet_at = [{ front = \"9 in\" }, { front = \"9 in\" }]",
            "foot_bumps_most",
            "item `rack`",
            "two rows of feet or more, one behind the other, under item `rack`",
        ),
    ];
    for (feet, key, of_what, expected) in rows {
        assert_eq!(missing(&of(&(rack(feet) + BOWS)), key, of_what), expected);
    }
    let no_bows = BOWS.split("[assume.roof]").last().unwrap();
    let no_bows = format!("[assume.roof]{no_bows}");
    let all = of(&(rack(TWO_ROWS) + &no_bows));
    assert_eq!(missing(&all, "foot_off_bow_most", "item `rack`"), "`bows` of the trailer");
    assert_eq!(missing(&all, "bow_stress_parked_use", "the roof bows"), "`bows` of the trailer");
    let thick = of(&(rack(TWO_ROWS) + &BOWS.replace("wall = \"1/8 in\"", "wall = \"1/2 in\"")));
    assert_eq!(
        missing(&thick, "bow_stress_parked_most", "the roof bows"),
        "a rectangular tube with room within its walls"
    );
    let wide = of(&(rack(&format!("{TWO_ROWS}\nfoot_gauge = \"80 in\"")) + BOWS));
    assert_eq!(
        missing(&wide, "bow_stress_parked_most", "the roof bows"),
        "rack feet that stand between the posts of the bows"
    );
    let unknown = of(&(rack(TWO_ROWS) + &BOWS.replace("aluminium_allowable = \"9,700 psi\"\n", "")));
    assert_eq!(
        missing(&unknown, "bow_stress_parked_use", "the roof bows"),
        "the assumption `roof.aluminium_allowable`"
    );
    is(&unknown, "bow_stress_bumps_most", "the roof bows", 2.0 * 15.0 * 6.0 / 0.331_705_729_166_666_7, "psi");
}

#[test]
fn a_bare_trailer_has_a_height_and_no_more() {
    let build = build(FLAT, "");
    let all = workings(&Case {
        build: &build,
        assumptions: &Assumptions::default(),
        places: &crate::place::Places::default(),
    });
    assert_eq!(all.iter().map(|one| one.key).collect::<Vec<_>>(), ["height_closed"]);
}

/// What every foot's figure comes to, in kilograms, row by row.
fn feet(all: &[Working]) -> Vec<(String, f64)> {
    let feet = all.iter().filter(|one| matches!(one.key, "foot_moving" | "foot_parked"));
    feet.map(|one| (format!("{} {}", one.key, one.of), one.figure().unwrap().quantity.si())).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    /// The feet carry all there is, whatever stands where; a mirror changes their sides; units change nothing.
    #[test]
    fn laws_of_feet(first in 0..20_u32, spacing in 10..40_u32, rows in 2..5_u32, front in -20..40_i32, aside in 0..20_i32) {
        let feet_text = format!("feet = {}\nfoot_first = \"{first} in\"\nfoot_spacing = \"{spacing} in\"", 2 * rows);
        let text = spec(FLAT, &(rack(&feet_text) + &tent(&format!("at = {{ front = \"{front} in\", centre = \"{aside} in\" }}")) + BOWS));
        let all = found(&text);
        let of = |key: &str| -> f64 {
            all.iter().filter(|one| one.key == key).map(|one| value(one.figure().unwrap(), "lb")).sum()
        };
        prop_assert!((of("foot_moving") - 210.0).abs() < 1e-7, "{}", of("foot_moving"));
        prop_assert!((of("foot_parked") - 570.0).abs() < 1e-7, "{}", of("foot_parked"));
        let metric = feet(&found(&in_metric(&text)));
        for ((name, one), (other_name, other)) in feet(&all).iter().zip(&metric) {
            prop_assert_eq!(name, other_name);
            prop_assert!((one - other).abs() < 1e-6 * 300.0, "{}: {} {}", name, one, other);
        }
        let mirror: Vec<(String, f64)> = feet(&found(&mirrored(&text))).into_iter().map(|(name, load)| {
            let name = name.replace("left", "\u{1}").replace("right", "left").replace('\u{1}', "right");
            (name, load)
        }).collect();
        for (name, one) in feet(&all) {
            let other = mirror.iter().find(|(named, _)| *named == name).unwrap().1;
            prop_assert!((one - other).abs() < 1e-9 * 300.0, "{}: {} {}", name, one, other);
        }
    }
}
