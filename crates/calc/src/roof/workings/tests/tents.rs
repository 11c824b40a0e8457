//! Tents closed and open, what is in their way, and ladders.

use super::{BOWS, TWO_ROWS, is, missing, of, rack, tent, texts};

/// The skin is 97 in up, the tent's underside 100 in, its floor 102 in.
const OPEN: &str = "opens = \"right\"\nopen_reach = \"40 in\"\nopen_height = \"50 in\"\nladder = \"10 ft\"";

fn opening(tag: &str, zone: &str, fields: &str) -> String {
    format!("[[opening]]\ntag = \"{tag}\"\nzone = \"{zone}\"\n{fields}\n")
}

#[test]
fn heights_with_tents_closed_and_open() {
    let all = of(&(rack(TWO_ROWS) + &tent(&format!("{OPEN}\nat = {{ front = \"8 in\" }}")) + BOWS));
    is(&all, "height_closed", "the build", 112.0, "in");
    is(&all, "height_open", "the build", 150.0, "in");
    let all = of(&(rack(TWO_ROWS) + &tent("at = { front = \"8 in\" }") + BOWS));
    assert_eq!(missing(&all, "height_open", "the build"), "`open_height` of item `tent`");
}

#[test]
fn what_the_open_tent_hangs_over() {
    // The tent: 74 to 158 in behind the ball, and from 28 in left to 28 + 40 in right of the centreline.
    let door = "sort = \"door\"\nswings = \"out\"\nhinge = \"front\"\nlength = \"30 in\"\nheight = \"60 in\"";
    let at = |front: &str| format!("{door}\nat = {{ front = \"{front}\", floor = \"0 in\" }}");
    let awning = "[[item]]\ntag = \"awning\"\nkind = \"equipment\"\nzone = \"right wall\"\nmass = \"20 lb\"\nlength = \"60 in\"\nwidth = \"4 in\"\nheight = \"5 in\"\nat = { front = \"100 in\", ceiling = \"1 in\" }\n";
    let all = of(&(rack(TWO_ROWS)
        + &tent(&format!("{OPEN}\nat = {{ front = \"8 in\" }}"))
        + BOWS
        + awning
        + &opening("kerb-door", "right wall", &at("60 in"))
        + &opening("ahead", "right wall", &at("6 in"))
        + &opening("far-side", "left wall", &at("60 in"))
        + &opening(
            "hatch",
            "roof",
            "sort = \"hatch\"\nswings = \"up\"\nhinge = \"front\"\nlength = \"14 in\"\nwidth = \"14 in\"\nat = { rear = \"20 in\" }",
        )));
    assert_eq!(
        texts(&all, "open_over", "item `tent`"),
        ["item `awning`", "opening `kerb-door`", "opening `hatch`"]
    );
    // Doors end 80 in up, below the tent; the hatch's lid rises to 111 in under it.
    assert_eq!(texts(&all, "open_blocks", "item `tent`"), ["opening `hatch`"]);
}

#[test]
fn what_swings_into_the_open_tent() {
    // Behind the rear door, a galley hatch 40 in high under the roof swings up 40 in out; the tent opens rearwards above it.
    let rear = "opens = \"rear\"\nopen_reach = \"44 in\"\nopen_height = \"50 in\"\nladder = \"10 ft\"";
    let hatch = |swings: &str| {
        opening(
            "galley-hatch",
            "rear door",
            &format!(
                "sort = \"hatch\"\nswings = \"{swings}\"\nhinge = \"left\"\nwidth = \"40 in\"\nheight = \"40 in\"\nat = {{ ceiling = \"-20 in\" }}"
            ),
        )
    };
    let with = |swings: &str| {
        of(&(rack(TWO_ROWS) + &tent(&format!("{rear}\nat = {{ front = \"8 in\" }}")) + BOWS + &hatch(swings)))
    };
    // Its top is 115 in up, above the tent's underside at 100 in: it cannot open.
    assert_eq!(texts(&with("up"), "open_blocks", "item `tent`"), ["opening `galley-hatch`"]);
    assert_eq!(texts(&with("out"), "open_blocks", "item `tent`"), ["opening `galley-hatch`"]);
    for stays in ["in", "slides", "lifts off"] {
        assert_eq!(texts(&with(stays), "open_blocks", "item `tent`"), Vec::<String>::new(), "{stays}");
    }
}

/// A ladder of 10 ft to 102 in: it is long enough, stands at 75.5°, and 102 / tan 75.52° = 26.3 in out.
#[test]
fn the_ladder() {
    let all = of(&(rack(TWO_ROWS) + &tent(&format!("{OPEN}\nat = {{ front = \"8 in\" }}")) + BOWS));
    let angle = 0.25_f64.acos();
    is(&all, "ladder_needed", "item `tent`", 102.0 / angle.sin(), "in");
    is(&all, "ladder_with_landing", "item `tent`", 102.0 / angle.sin() + 36.0, "in");
    is(&all, "ladder_angle", "item `tent`", angle.to_degrees(), "°");
    is(&all, "ladder_above_floor", "item `tent`", 120.0 - 102.0 / angle.sin(), "in");
    is(&all, "ladder_out", "item `tent`", 102.0 / angle.tan(), "in");
    is(&all, "ladder_foot_behind", "item `tent`", 74.0 + 42.0, "in");
    is(&all, "ladder_foot_right", "item `tent`", 68.0 + 102.0 / angle.tan(), "in");
    is(&all, "ladder_bears", "item `tent`", 720.0, "lb");
    let short = of(&(rack(TWO_ROWS)
        + &tent(&OPEN.replace("10 ft", "8 ft")).replace("floor =", "at = { front = \"8 in\" }\nfloor =")
        + BOWS));
    assert_eq!(
        missing(&short, "ladder_angle", "item `tent`"),
        "a ladder that reaches the floor of item `tent`"
    );
    let up = OPEN.replace("\"right\"", "\"up\"");
    let all = of(&(rack(TWO_ROWS) + &tent(&format!("{up}\nat = {{ front = \"8 in\" }}")) + BOWS));
    assert_eq!(
        missing(&all, "ladder_foot_right", "item `tent`"),
        "the side that the ladder of item `tent` stands on"
    );
}

/// Its foot is 94.3 in right of the centreline, 116 in behind the ball; the wall's outside is at 37.5 in.
#[test]
fn a_door_that_swings_over_the_ladders_foot() {
    let with = |fields: &str| {
        let door = opening("door", "right wall", fields);
        of(&(rack(TWO_ROWS)
            + &tent(&format!("{OPEN}\nat = {{ front = \"8 in\" }}")).replace("40 in", "0 in")
            + BOWS
            + &door))
    };
    // Foot at 28 + 26.3 = 54.3 in: 16.8 in out of the wall.
    let hung = |front: &str, hinge: &str| {
        with(&format!(
            "sort = \"door\"\nswings = \"out\"\nhinge = \"{hinge}\"\nlength = \"30 in\"\nheight = \"60 in\"\nat = {{ front = \"{front}\", floor = \"0 in\" }}"
        ))
    };
    // The door from 102.5 to 132.5 in: the foot is 13.5 in behind its front edge, 16.8 in out: 21.6 in from that hinge.
    assert_eq!(texts(&hung("65 in", "front"), "swings_over_ladder", "item `tent`"), ["opening `door`"]);
    // From 87.5 to 117.5 in: 28.5 in behind the front hinge and 16.8 in out, 33 in, is past the leaf of 30 in …
    assert_eq!(texts(&hung("50 in", "front"), "swings_over_ladder", "item `tent`"), Vec::<String>::new());
    // … but hung behind it is within: 1.5 in and 16.8 in.
    assert_eq!(texts(&hung("50 in", "rear"), "swings_over_ladder", "item `tent`"), ["opening `door`"]);
    let ramp = with(
        "sort = \"ramp\"\nlength = \"30 in\"\nheight = \"60 in\"\nat = { front = \"65 in\", floor = \"0 in\" }",
    );
    assert_eq!(texts(&ramp, "swings_over_ladder", "item `tent`"), ["opening `door`"]);
    let barn = with(
        "sort = \"barn doors\"\nlength = \"30 in\"\nheight = \"60 in\"\nat = { front = \"65 in\", floor = \"0 in\" }",
    );
    // Leaves of 15 in do not reach 16.8 in out.
    assert_eq!(texts(&barn, "swings_over_ladder", "item `tent`"), Vec::<String>::new());
    let unhung = with(
        "sort = \"door\"\nswings = \"out\"\nlength = \"30 in\"\nheight = \"60 in\"\nat = { front = \"65 in\", floor = \"0 in\" }",
    );
    assert_eq!(missing(&unhung, "swings_over_ladder", "item `tent`"), "`hinge` of opening `door`");
}

#[test]
fn a_stove_by_the_open_tent() {
    // Outside on the right wall, from 100 to 120 in behind the ball, its top 50 in up; the tent reaches 68 in right.
    let stove = |used: &str| {
        format!(
            "[[item]]\ntag = \"stove\"\nkind = \"appliance\"\nzone = \"right wall\"\nmass = \"9 lb\"\nlength = \"20 in\"\nwidth = \"12 in\"\nheight = \"8 in\"\n{used}\nat = {{ ball = \"100 in\", ground = \"42 in\" }}\n"
        )
    };
    let tent =
        |reach: &str| tent(&format!("{OPEN}\nat = {{ front = \"8 in\" }}")).replace("\"40 in\"", reach);
    let with = |reach: &str, used: &str| of(&(rack(TWO_ROWS) + &tent(reach) + BOWS + &stove(used)));
    let all = with("\"40 in\"", "used = \"outside\"");
    is(&all, "stove_aside", "item `stove` by item `tent`", 0.0, "in");
    is(&all, "stove_below", "item `stove` by item `tent`", 50.0, "in");
    // Closed up, the tent ends 28 in right; the stove, 12 in wide in the wall at 36 in, begins at 30 in.
    is(&with("\"0 in\"", "used = \"outside\""), "stove_aside", "item `stove` by item `tent`", 2.0, "in");
    assert!(!with("\"40 in\"", "used = \"inside\"").iter().any(|one| one.key == "stove_aside"));
    assert_eq!(
        missing(&with("\"40 in\"", ""), "stove_aside", "item `stove` by item `tent`"),
        "`used` of item `stove`"
    );
}
