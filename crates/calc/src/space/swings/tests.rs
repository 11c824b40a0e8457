use geo::{Area, BooleanOps, coord};
use proptest::prelude::*;

use super::{Along, Sweep};
use crate::space::boxes::Block;
use crate::space::plan::ring;
use crate::space::trial::{FLAT, WEDGE, build, value};
use crate::space::workings::tests::{figure, list, missing, of};

fn module(tag: &str, size: &str, at: &str, more: &str) -> String {
    let [length, width, height] = size.split(' ').collect::<Vec<_>>()[..] else { panic!() };
    format!(
        "\n[[item]]\ntag = \"{tag}\"\nkind = \"module\"\nlength = \"{length} in\"\nwidth = \"{width} in\"\nheight = \"{height} in\"\nat = {{ {at} }}\n{more}\n"
    )
}

/// A galley on the right, from 30 to 80 in and 20 in deep, with something that swings; and a cabinet on the left.
fn galley(swing: &str, cabinet: &str) -> String {
    module(
        "galley",
        "50 20 36",
        "front = \"30 in\", right = \"0 in\"",
        &format!("swings = [{{ name = \"it\", {swing} }}]"),
    ) + &module("cabinet", "40 20 36", cabinet, "")
}

fn met(swing: &str, cabinet: &str) -> Vec<String> {
    let kind = if swing.contains("drawer") {
        "drawer"
    } else if swing.contains("lid") {
        "lid"
    } else {
        "door"
    };
    list(&of(&build(FLAT, &galley(swing, cabinet))), "swing_meets", &format!("{kind} `it` of item `galley`"))
}

/// The galley's left face is 16 in right of the centreline.
#[test]
fn drawers_come_straight_out() {
    let drawer = "kind = \"drawer\", side = \"left\", reach = \"20 in\", start = \"10 in\", width = \"15 in\", floor = \"20 in\", height = \"6 in\"";
    // Drawn out it reaches to 4 in left of the centreline, from 40 to 55 in.
    assert_eq!(met(drawer, "front = \"40 in\", left = \"13 in\""), ["item `cabinet`"]);
    assert!(met(drawer, "front = \"40 in\", left = \"12 in\"").is_empty());
    assert!(met(drawer, "front = \"55 in\", left = \"13 in\"").is_empty());
    assert!(met(drawer, "front = \"40 in\", left = \"13 in\", floor = \"26 in\"").is_empty());
}

#[test]
fn doors_turn_about_their_hinge() {
    // Hung on its front edge at 30 in, 20 in wide: a quarter of a circle about (30 in, 16 in right).
    let door = "kind = \"door\", side = \"left\", hinge = \"front\", width = \"20 in\"";
    assert_eq!(met(door, "front = \"30 in\", left = \"17 in\""), ["item `cabinet`"]);
    // A corner at (45, 2) in is √(15² + 14²) = 20.5 in from the hinge.
    assert!(met(door, "front = \"45 in\", left = \"18 in\"").is_empty());
    // One at (44, 2) in is √(14² + 14²) = 19.8 in from it.
    assert_eq!(met(door, "front = \"44 in\", left = \"18 in\""), ["item `cabinet`"]);
    // Hung on its rear edge, at 50 in, it turns the other way.
    let rear = door.replace("\"front\"", "\"rear\"");
    assert_eq!(met(&rear, "front = \"44 in\", left = \"18 in\""), ["item `cabinet`"]);
    assert!(met(&rear, "front = \"51 in\", left = \"28 in\"").is_empty());
}

#[test]
fn flaps_and_lids_turn_up_and_down() {
    let flap = "kind = \"door\", side = \"left\", hinge = \"bottom\", start = \"0 in\", width = \"40 in\", floor = \"10 in\", height = \"20 in\"";
    // About the line 10 in up on the face: a box 18 in up reaches in where √(8² + …) < 20.
    assert_eq!(met(flap, "front = \"30 in\", left = \"15 in\", floor = \"18 in\""), ["item `cabinet`"]);
    assert!(met(flap, "front = \"30 in\", left = \"15 in\", floor = \"31 in\"").is_empty());
    let lid = "kind = \"lid\", side = \"top\", hinge = \"right\"";
    // A lid 20 in across turns up to 56 in: what hangs at 50 in over its middle is met, at 56 in not.
    let over = |floor: u32| format!("front = \"40 in\", right = \"0 in\", floor = \"{floor} in\"");
    assert_eq!(met(lid, &over(50)), ["item `cabinet`"]);
    assert!(met(lid, &over(56)).is_empty());
}

#[test]
fn what_cannot_be_is_said() {
    let wrong = |swing: &str, kind: &str| {
        let all = of(&build(FLAT, &galley(swing, "front = \"0 in\", left = \"0 in\"")));
        missing(&all, "swing_meets", &format!("{kind} `it` of item `galley`")).what
    };
    assert_eq!(wrong("kind = \"door\", side = \"left\"", "door"), "`hinge` of `swings` of item `galley`");
    assert_eq!(
        wrong("kind = \"door\", side = \"left\", hinge = \"left\"", "door"),
        "a `hinge` on that side of `swings` of item `galley`"
    );
    assert_eq!(wrong("kind = \"drawer\", side = \"left\"", "drawer"), "`reach` of `swings` of item `galley`");
    assert_eq!(
        wrong("kind = \"lid\", side = \"left\", hinge = \"left\"", "lid"),
        "a `side` that fits its kind of `swings` of item `galley`"
    );
}

#[test]
fn a_door_against_the_wall_and_one_in_the_nose() {
    let beyond = |nose: &str, at: &str, swing: &str| {
        let part = module("galley", "20 20 36", at, &format!("swings = [{{ name = \"it\", {swing} }}]"));
        value(&figure(&of(&build(nose, &part)), "swings_beyond", "door `it` of item `galley`"), "in")
    };
    let left = "kind = \"door\", side = \"left\", hinge = \"front\", floor = \"1 in\", height = \"20 in\"";
    // 20 in of door, 12 in to the wall.
    assert!((beyond(FLAT, "front = \"40 in\", left = \"12 in\"", left) - 8.0).abs() < 1e-9);
    assert!(beyond(FLAT, "front = \"40 in\", left = \"22 in\"", left) < 0.0);
    // Ahead of a part on the centreline the tip of the wedge is 18 in away, and nearer beside it.
    let front = "kind = \"door\", side = \"front\", hinge = \"left\", width = \"10 in\", floor = \"1 in\", height = \"20 in\"";
    assert!(beyond(WEDGE, "front = \"6 in\", centre = \"0 in\"", front) < 0.0);
    assert!((beyond(WEDGE, "front = \"-4 in\", centre = \"0 in\"", front) - 1.0).abs() < 1e-9);
}

/// A kitchen at the rear door: its drawers go out by the doorway, and through the wall where the doorway is narrower.
#[test]
fn a_drawer_that_goes_out_by_a_door() {
    let swing = "kind = \"drawer\", side = \"rear\", reach = \"16 in\", start = \"2 in\", width = \"16 in\", floor = \"24 in\", height = \"6 in\"";
    let part = module(
        "galley",
        "20 20 36",
        "rear = \"0 in\", centre = \"0 in\"",
        &format!("swings = [{{ name = \"it\", {swing} }}]"),
    );
    let beyond = |width: u32| {
        let door = format!(
            "\n[[opening]]\ntag = \"rear\"\nzone = \"rear door\"\nsort = \"door\"\nwidth = \"{width} in\"\nheight = \"66 in\"\nat = {{ centre = \"0 in\", floor = \"0 in\" }}\n"
        );
        value(
            &figure(
                &of(&build(FLAT, &format!("{part}{door}"))),
                "swings_beyond",
                "drawer `it` of item `galley`",
            ),
            "in",
        )
    };
    // 20 in wide on the centreline, the drawer lies from 8 in left of it to 8 in right.
    assert!(beyond(16) < 0.0, "it goes out by the door");
    assert!((beyond(15) - 16.0).abs() < 1e-9, "it meets the wall");
}

#[test]
fn beds_that_fold() {
    let bed = |way: &str| {
        format!(
            r#"
[[berth]]
tag = "bed"
length = "50 in"
width = "60 in"
height = "4 in"
at = {{ rear = "0 in", centre = "0 in", floor = "20 in" }}
folds = {{ at = {{ rear = "0 in", centre = "0 in", floor = "20 in" }}, length = "4 in", height = "50 in", hinge = "rear", way = "{way}" }}
"#
        )
    };
    let shelf = |floor: u32, rear: u32| {
        module(
            "shelf",
            "10 60 6",
            &format!("rear = \"{rear} in\", centre = \"0 in\", floor = \"{floor} in\""),
            "",
        )
    };
    let met = |way: &str, shelf: &str| {
        list(&of(&build(FLAT, &format!("{}{shelf}", bed(way)))), "fold_meets", "berth `bed` as it folds")
    };
    // 40 in ahead of the hinge and 35 in above it is √(40² + 35²) = 53 in away; 40 and 25 is 47 in.
    assert!(met("up", &shelf(55, 40)).is_empty());
    assert_eq!(met("up", &shelf(45, 40)), ["item `shelf`"]);
    assert!(met("down", &shelf(45, 40)).is_empty());
    assert_eq!(met("down", &shelf(4, 20)), ["item `shelf`"]);
}

#[test]
fn doors_of_the_trailer() {
    let door = |swings: &str, hinge: &str| {
        format!(
            "\n[[opening]]\ntag = \"door\"\nzone = \"left wall\"\nsort = \"door\"\nlength = \"26 in\"\nheight = \"64 in\"\nswings = \"{swings}\"\n{hinge}\nat = {{ front = \"40 in\", floor = \"1 in\" }}\n"
        )
    };
    let cabinet = module("cabinet", "20 20 36", "front = \"30 in\", left = \"20 in\"", "");
    let met =
        |door: &str| list(&of(&build(FLAT, &format!("{door}{cabinet}"))), "swing_meets", "opening `door`");
    assert_eq!(
        met(&door("in", "hinge = \"front\"")),
        ["item `cabinet`"],
        "(40, 20) in is 20 in from its hinge"
    );
    // (50, 20) in is √(16² + 20²) = 25.6 in from the other edge, at 66 in; an inch farther it is 26.4 in.
    assert_eq!(met(&door("in", "hinge = \"rear\"")), ["item `cabinet`"]);
    let away = cabinet.replace("left = \"20 in\"", "left = \"21 in\"");
    let met = |door: &str| list(&of(&build(FLAT, &format!("{door}{away}"))), "swing_meets", "opening `door`");
    assert!(met(&door("in", "hinge = \"rear\"")).is_empty());
    assert!(met(&door("out", "hinge = \"front\"")).is_empty());
}

#[test]
fn barn_doors_are_two_leaves_and_swing_outside() {
    let doors = "\n[[opening]]\ntag = \"barn\"\nzone = \"rear door\"\nsort = \"barn doors\"\nwidth = \"60 in\"\nheight = \"64 in\"\nswings = \"out\"\nat = { centre = \"0 in\", floor = \"0 in\" }\n";
    let box_at = |gap: u32, centre: i32| {
        format!(
            "\n[[item]]\ntag = \"box\"\nkind = \"equipment\"\nzone = \"rear door\"\nlength = \"10 in\"\nwidth = \"8 in\"\nheight = \"20 in\"\nat = {{ gap = \"{gap} in\", centre = \"{centre} in\", floor = \"10 in\" }}\n"
        )
    };
    let met =
        |other: &str| list(&of(&build(FLAT, &format!("{doors}{other}"))), "swing_meets", "opening `barn`");
    // Between two leaves 30 in wide, 25 in behind the doors: 4 in off the middle, 26 in from each hinge.
    assert!(met(&box_at(25, 0)).is_empty());
    assert_eq!(met(&box_at(5, 0)), ["item `box`"]);
    assert_eq!(met(&box_at(22, 20)), ["item `box`"]);
}

proptest! {
    /// A quarter of a cylinder meets a box where the library's polygons share room.
    #[test]
    fn quarters_meet_as_polygons_do(
        x in -1.5..1.5_f64, y in -1.5..1.5_f64, a in 0.05..1.0_f64, b in 0.05..1.0_f64, radius in 0.2..1.2_f64,
        right in prop::bool::ANY, up in prop::bool::ANY,
    ) {
        let into = (if right { 1.0 } else { -1.0 }, if up { 1.0 } else { -1.0 });
        let sweep = Sweep::Quarter { hinge: Along::Z, at: (0.1, -0.2), into, radius, reach: (0.0, 1.0) };
        let block = Block { x: (x, x + a), y: (y, y + b), z: (0.2, 0.8) };
        let arc = (0..=200).map(|step| f64::from(step) / 200.0 * std::f64::consts::FRAC_PI_2).map(|turn| {
            (0.1 + into.0 * radius * turn.cos(), -0.2 + into.1 * radius * turn.sin())
        });
        let sector = ring(arc.chain([(0.1, -0.2)]));
        let rect = geo::Rect::new(coord! { x: x, y: y }, coord! { x: x + a, y: y + b }).to_polygon();
        let shared = sector.intersection(&rect).unsigned_area();
        if shared > 2e-3 {
            prop_assert!(sweep.meets(&block), "{shared} m² are shared");
        } else if shared <= 0.0 {
            prop_assert!(!sweep.meets(&block));
        }
        let above = Block { z: (1.0, 2.0), ..block };
        prop_assert!(!sweep.meets(&above));
    }
}
