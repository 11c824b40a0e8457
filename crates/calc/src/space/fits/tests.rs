use proptest::prelude::*;

use crate::space::trial::{FLAT, ROUND, WEDGE, build, in_metric, mirrored, read, spec, spec_at, value};
use crate::space::workings::tests::{figure, list, missing, of};

fn module(tag: &str, size: &str, at: &str, more: &str) -> String {
    let [length, width, height] = size.split(' ').collect::<Vec<_>>()[..] else { panic!() };
    format!(
        "\n[[item]]\ntag = \"{tag}\"\nkind = \"module\"\nlength = \"{length} in\"\nwidth = \"{width} in\"\nheight = \"{height} in\"\nat = {{ {at} }}\n{more}\n"
    )
}

#[track_caller]
fn inches(nose: &str, key: &str, more: &str) -> f64 {
    value(&figure(&of(&build(nose, more)), key, "item `a`"), "in")
}

#[test]
fn what_stands_out_of_the_box() {
    // The box is 144 × 72 × 75 in. Each row: size, place, how far it stands out.
    for (size, at, out) in [
        ("20 20 30", "front = \"10 in\", left = \"5 in\"", 0.0),
        ("20 20 30", "front = \"10 in\", left = \"5 in\", floor = \"1 in\"", -1.0),
        ("20 20 30", "front = \"130 in\", left = \"5 in\", floor = \"9 in\"", 6.0),
        ("20 20 30", "front = \"-2 in\", left = \"5 in\", floor = \"9 in\"", 2.0),
        ("20 20 30", "front = \"10 in\", left = \"-3 in\", floor = \"9 in\"", 3.0),
        ("20 20 30", "front = \"10 in\", right = \"-4 in\", floor = \"9 in\"", 4.0),
        ("20 20 30", "front = \"10 in\", right = \"4 in\", ceiling = \"-1 in\"", 1.0),
        ("20 20 30", "front = \"10 in\", right = \"4 in\", floor = \"-0.5 in\"", 0.5),
    ] {
        assert!((inches(FLAT, "outside_box", &module("a", size, at, "")) - out).abs() < 1e-9, "{at}");
    }
}

#[test]
fn corners_in_a_nose() {
    // A wedge 18 in deep: 18 in from the centreline it stands half its depth back.
    let at = |front: &str| format!("front = \"{front} in\", centre = \"0 in\"");
    let into = |nose: &str, front: &str, width: &str| {
        inches(nose, "into_nose", &module("a", &format!("10 {width} 20"), &at(front), ""))
    };
    assert!((into(WEDGE, "-9", "36") - 0.0).abs() < 1e-9);
    assert!((into(WEDGE, "-12", "36") - 3.0).abs() < 1e-9);
    assert!((into(WEDGE, "-8", "36") + 1.0).abs() < 1e-9);
    assert!((into(WEDGE, "0", "72") - 0.0).abs() < 1e-9, "as wide as the box");
    // Half an ellipse, 36 × 18 in: at y = 18 in, 18·√(1 − ¼) in ahead of the sides.
    let depth = 18.0 * 0.75_f64.sqrt();
    assert!((into(ROUND, "-16", "36") - (16.0 - depth)).abs() < 1e-9);
    let flat = of(&build(FLAT, &module("a", "10 36 20", &at("0"), "")));
    assert!(!flat.iter().any(|working| working.key == "into_nose"));
}

#[test]
fn what_meets_what() {
    let a = module("a", "20 20 30", "front = \"10 in\", left = \"0 in\"", "");
    let met = |other: &str| list(&of(&build(FLAT, &format!("{a}{other}"))), "meets", "item `a`");
    let b = |size: &str, at: &str| module("b", size, at, "");
    assert_eq!(met(&b("20 20 30", "front = \"25 in\", left = \"10 in\"")), ["item `b`"]);
    assert!(met(&b("20 20 30", "front = \"30 in\", left = \"10 in\"")).is_empty(), "side by side");
    assert!(
        met(&b("20 20 30", "front = \"25 in\", left = \"10 in\", floor = \"30 in\"")).is_empty(),
        "on it"
    );
    assert!(
        met(&b("5 5 5", "front = \"15 in\", left = \"5 in\", floor = \"5 in\"")).is_empty(),
        "kept in it"
    );
    assert_eq!(met(&b("5 5 5", "front = \"28 in\", left = \"5 in\", floor = \"5 in\"")), ["item `b`"]);
    // Both are told.
    let both = of(&build(FLAT, &format!("{a}{}", b("20 20 30", "front = \"25 in\", left = \"10 in\""))));
    assert_eq!(list(&both, "meets", "item `b`"), ["item `a`"]);
}

#[test]
fn what_folds_meets_at_some_hours_only() {
    let shelf = module("shelf", "6 60 30", "rear = \"0 in\", centre = \"0 in\", floor = \"20 in\"", "");
    let bed = r#"
[[berth]]
tag = "bed"
length = "54 in"
width = "60 in"
height = "5 in"
at = { rear = "7 in", centre = "0 in", floor = "16 in" }
folds = { at = { rear = "2 in", centre = "0 in", floor = "16 in" }, length = "6 in", height = "50 in", hinge = "rear", way = "up" }
"#;
    let all = of(&build(FLAT, &format!("{shelf}{bed}")));
    assert_eq!(list(&all, "meets", "berth `bed`"), ["item `shelf`, on the road and by day"]);
}

#[test]
fn one_of_a_group_does_not_meet_the_other() {
    let a = module("a", "20 20 30", "front = \"10 in\", left = \"0 in\"", "removable = true");
    let b = module("b", "20 20 30", "front = \"10 in\", left = \"5 in\"", "removable = true");
    assert_eq!(list(&of(&build(FLAT, &format!("{a}{b}"))), "meets", "item `a`"), ["item `b`"]);
    let group = "\n[[either]]\nname = \"one\"\nof = [\"a\", \"b\"]\nnone = true\n";
    assert!(list(&of(&build(FLAT, &format!("{a}{b}{group}"))), "meets", "item `a`").is_empty());
}

#[test]
fn a_place_that_is_not_known_is_said_where_it_matters() {
    let a = module("a", "20 20 30", "front = \"10 in\", left = \"0 in\"", "");
    let b = module("b", "20 20 30", "left = \"0 in\"", "");
    let all = of(&build(FLAT, &format!("{a}{b}")));
    assert_eq!(missing(&all, "meets", "item `a`").what, "the place fore and aft of item `b`");
    assert_eq!(missing(&all, "outside_box", "item `b`").what, "the place fore and aft of item `b`");
    // Apart across, whatever its place fore and aft.
    let c = module("c", "20 20 30", "right = \"0 in\"", "");
    assert!(list(&of(&build(FLAT, &format!("{a}{c}"))), "meets", "item `a`").is_empty());
    // What is met is told although another place is not known.
    let d = module("d", "20 20 30", "front = \"15 in\", left = \"3 in\"", "");
    assert_eq!(list(&of(&build(FLAT, &format!("{a}{b}{d}"))), "meets", "item `a`"), ["item `d`"]);
}

#[test]
fn wheel_boxes() {
    let wheels = |at: &str| {
        let text = spec(FLAT, &module("a", "20 20 30", at, "")).replace(
            "frame_height = \"17 in\"",
            "frame_height = \"17 in\"\naxle = { ball = \"120 in\" }\nwheel_box = { length = \"30 in\", width = \"8 in\", height = \"9 in\" }",
        );
        list(&of(&read(&text)), "in_wheel_box", "item `a`")
    };
    // They reach from 105 to 135 in behind the ball; the front of the box is at 37.5 in.
    assert_eq!(wheels("front = \"80 in\", left = \"0 in\""), ["left wheel box"]);
    assert_eq!(wheels("front = \"80 in\", right = \"7 in\""), ["right wheel box"]);
    assert!(wheels("front = \"80 in\", left = \"8 in\"").is_empty());
    assert!(wheels("front = \"47 in\", left = \"0 in\"").is_empty());
    assert!(wheels("front = \"80 in\", left = \"0 in\", floor = \"9 in\"").is_empty());
}

#[test]
fn hostile_numbers_of_parts_end_in_words() {
    let many: String = (0..1_001)
        .map(|n| module(&format!("p{n}"), "20 20 30", "front = \"10 in\", left = \"0 in\"", ""))
        .collect();
    let all = of(&build(FLAT, &many));
    assert!(missing(&all, "meets", "item `p0`").what.contains("no more than 1000 parts"));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]
    #[test]
    fn fits_keep_in_mirror_metric_and_with_a_longer_tongue(
        front in -20_i32..140, left in -5_i32..70, size in 1_u32..30, tongue in 30_i32..80,
    ) {
        let more = module("a", &format!("{size} {size} 20"), &format!("front = \"{front}.3 in\", left = \"{left}.2 in\""), "")
            + &module("b", "30 30 30", "front = \"40 in\", left = \"20 in\"", "");
        let written = spec(ROUND, &more);
        let of = |text: &str| {
            let all = of(&read(text));
            let inches = |key| value(&figure(&all, key, "item `a`"), "in");
            (inches("outside_box"), inches("into_nose"), list(&all, "meets", "item `a`"))
        };
        let here = of(&written);
        for same in [mirrored(&written), in_metric(&written), spec_at(&format!("{tongue} in"), ROUND, &more)] {
            let there = of(&same);
            prop_assert!((there.0 - here.0).abs() < 1e-6 && (there.1 - here.1).abs() < 1e-6);
            prop_assert_eq!(&there.2, &here.2);
        }
    }
}
