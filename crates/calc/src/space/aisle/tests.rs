use proptest::prelude::*;

use crate::space::trial::{FLAT, ROUND, build, in_metric, mirrored, read, spec, spec_at, value};
use crate::space::workings::tests::{figure, flag, list, missing, of, one};
use crate::working::Outcome;

/// A bed across the rear, a door in the left wall at the front, barn doors behind the bed.
const NIGHT: &str = r#"
[[berth]]
tag = "bed"
length = "54 in"
width = "72 in"
height = "5 in"
people = 2
at = { rear = "0 in", centre = "0 in", floor = "16 in" }
[[opening]]
tag = "door"
zone = "left wall"
sort = "door"
exit = true
length = "22 in"
height = "64 in"
clear_width = "20 in"
clear_height = "62 in"
at = { front = "0 in", floor = "1 in" }
[[opening]]
tag = "rear"
zone = "rear door"
sort = "barn doors"
exit = true
width = "60 in"
height = "66 in"
clear_width = "58 in"
clear_height = "64 in"
at = { centre = "0 in", floor = "0 in" }
[[state]]
name = "night"
use = "camp"
people = [{ berth = "bed", count = 2 }]
"#;

fn cabinet(tag: &str, size: &str, at: &str) -> String {
    let [length, width, height] = size.split(' ').collect::<Vec<_>>()[..] else { panic!() };
    format!(
        "\n[[item]]\ntag = \"{tag}\"\nkind = \"module\"\nlength = \"{length} in\"\nwidth = \"{width} in\"\nheight = \"{height} in\"\nat = {{ {at} }}\n"
    )
}

/// Width of the widest disc before the middle of the door, in mm: the front wall is 11 in from there.
const OPEN: f64 = 22.0 * 25.4;
const TO_DOOR: &str = "berth `bed` to opening `door` in state `night`";
const TO_REAR: &str = "berth `bed` to opening `rear` in state `night`";
const BED: &str = "berth `bed` in state `night`";

/// Width of the path from the bed to the side door, in mm, with cabinets.
fn to_door(more: &str) -> f64 {
    value(&figure(&of(&build(FLAT, &format!("{NIGHT}{more}"))), "exit_path", TO_DOOR), "mm")
}

#[track_caller]
fn near(found: f64, expected: f64) {
    assert!((found - expected).abs() <= 1.0, "{found} mm, not {expected} mm");
}

#[test]
fn an_aisle_between_two_cabinets() {
    // 72 less 30 less 23 in, abreast of each other from 30 to 70 in: 19 in.
    let two = cabinet("a", "50 30 36", "front = \"24 in\", left = \"0 in\"")
        + &cabinet("b", "50 23 36", "front = \"30 in\", right = \"0 in\"");
    near(to_door(&two), 19.0 * 25.4);
    // Nothing in the way: as wide as can stand before the middle of the door, which is 11 in from the front wall.
    near(to_door(""), OPEN);
}

#[test]
fn a_diagonal_gap_is_measured_between_corners() {
    // Corners at (60, −6) and (70, −4) in: √(10² + 2²) in.
    let two = cabinet("a", "30 30 36", "front = \"30 in\", left = \"0 in\"")
        + &cabinet("b", "18 40 36", "front = \"70 in\", right = \"0 in\"");
    near(to_door(&two), 104.0_f64.sqrt() * 25.4);
}

#[test]
fn what_hangs_high_or_lies_low_is_no_obstacle() {
    let across = |height: f64, at: &str| {
        cabinet("a", &format!("10 72 {height}"), &format!("front = \"40 in\", left = \"0 in\", {at}"))
    };
    near(to_door(&across(36.0, "floor = \"0 in\"")), 0.0);
    assert!(to_door(&across(5.9, "floor = \"0 in\"")) > OPEN - 1.0, "stepped over");
    near(to_door(&across(6.1, "floor = \"0 in\"")), 0.0);
    assert!(to_door(&across(10.0, "floor = \"60.5 in\"")) > OPEN - 1.0, "passed under");
    near(to_door(&across(10.0, "floor = \"59 in\"")), 0.0);
}

#[test]
fn a_door_that_is_half_behind_a_cabinet_is_as_narrow_as_what_is_left() {
    // The clear width is from 1 to 21 in; a cabinet from 9 in on leaves 8 in of it, and nothing but the front wall.
    let half = cabinet("a", "20 30 36", "front = \"9 in\", left = \"0 in\"");
    near(to_door(&half), 8.0 * 25.4);
}

#[test]
fn from_the_bed_itself() {
    let all = of(&build(FLAT, NIGHT));
    // The bed lies along the whole of the rear opening.
    assert!((value(&figure(&all, "exit_path", TO_REAR), "in") - 58.0).abs() < 1e-9);
    assert_eq!(list(&all, "ways_out", BED), ["opening `door`", "opening `rear`"]);
    assert!(flag(&all, "ways_independent", BED));
    assert!(flag(&all, "own_door", BED));
    // The widest path is that to the rear door, the second that to the side door, 22 in.
    assert!((value(&figure(&all, "door_path", BED), "in") - 58.0).abs() < 1e-9);
    near(value(&figure(&all, "second_path", BED), "mm"), OPEN);
    // Two feet and an inch away it is no longer reached from the bed; and a headboard as high as the mattress shuts it.
    let away = NIGHT.replace("rear = \"0 in\"", "rear = \"25 in\"");
    let all = of(&build(FLAT, &away));
    assert!(!flag(&all, "own_door", BED));
    let board = away.replace("rear = \"25 in\"", "rear = \"2 in\"")
        + &cabinet("board", "1.5 72 40", "rear = \"0.2 in\", left = \"0 in\"");
    let all = of(&build(FLAT, &board));
    assert!(value(&figure(&all, "exit_path", TO_REAR), "in") < 1e-9);
    assert_eq!(list(&all, "ways_out", BED), ["opening `door`"]);
    assert!(!flag(&all, "ways_independent", BED));
}

#[test]
fn a_way_out_past_the_other_is_no_second_one() {
    // Bed at the rear with solid doors behind; one door beside the other at the front: whoever goes to the far one passes
    // the near one.
    let window = r#"
[[opening]]
tag = "window"
zone = "left wall"
sort = "window"
exit = true
length = "26 in"
height = "20 in"
clear_width = "24 in"
clear_height = "17 in"
at = { front = "PLACE", floor = "30 in" }
"#;
    let shut = NIGHT.replacen("exit = true\nwidth", "exit = false\nwidth", 1);
    let apart = |place: &str, more: &str| {
        let more = format!("{shut}{}{more}", window.replace("PLACE", place));
        let all = of(&build(FLAT, &more));
        assert_eq!(list(&all, "ways_out", BED), ["opening `door`", "opening `window`"]);
        flag(&all, "ways_independent", BED)
    };
    assert!(!apart("24 in", ""), "nearer than two feet to each other");
    assert!(apart("62 in", ""), "on the left near the bed: the aisle on the right leads past it");
    // With a cabinet on the right the aisle runs along the window.
    let aisle = cabinet("a", "50 40 36", "front = \"36 in\", right = \"0 in\"");
    assert!(!apart("55 in", &aisle));
}

#[test]
fn a_folded_bed_gives_its_floor_back_by_day_only() {
    let folds = NIGHT.replace(
        "people = 2\n",
        "people = 2\nfolds = { at = { rear = \"0 in\", centre = \"0 in\", floor = \"16 in\" }, length = \"6 in\", height = \"54 in\", hinge = \"rear\", way = \"up\" }\n",
    );
    let free = |more: &str| value(&figure(&of(&build(FLAT, more)), "free_floor", "state `night`"), "ft²");
    // 90 × 72 in are left in front of the bed.
    assert!((free(NIGHT) - 45.0).abs() < 1e-6);
    assert!((free(&folds) - 45.0).abs() < 1e-6, "at night it is in use");
    let table = cabinet("table", "30 40 2", "front = \"20 in\", left = \"0 in\", floor = \"28 in\"").replace(
        "kind = \"module\"\n",
        "kind = \"module\"\nfolds = { at = { front = \"20 in\", left = \"0 in\", floor = \"8 in\" }, width = \"2 in\", height = \"40 in\", hinge = \"left\", way = \"down\" }\n",
    );
    // Folded away at night it takes 30 × 2 in of the floor.
    assert!((free(&format!("{NIGHT}{table}")) - (45.0 - 60.0 / 144.0)).abs() < 1e-6);
    let left_up = table.replace("way = \"down\"", "way = \"down\", night = \"in use\"");
    assert!((free(&format!("{NIGHT}{left_up}")) - (45.0 - 1200.0 / 144.0)).abs() < 1e-6);
}

#[test]
fn a_deck_wider_than_its_mattress_is_got_out_of_over_its_edge() {
    let deck = NIGHT.replace("width = \"72 in\"\nheight = \"5 in\"", "width = \"60 in\"\nheight = \"5 in\"")
        + &cabinet("deck", "60 72 2", "rear = \"0 in\", left = \"0 in\", floor = \"14 in\"");
    near(to_door_of(&deck), OPEN);
}

fn to_door_of(more: &str) -> f64 {
    value(&figure(&of(&build(FLAT, more)), "exit_path", TO_DOOR), "mm")
}

#[test]
fn what_is_left_at_home_is_no_obstacle_and_a_load_with_a_size_is_one() {
    let across = cabinet("a", "10 72 36", "front = \"40 in\", left = \"0 in\"")
        .replace("at =", "removable = true\nat =");
    near(to_door(&across), 0.0);
    let out = format!("{}{across}", NIGHT.replace("use = \"camp\"", "use = \"camp\"\nout = [\"a\"]"));
    near(to_door_of(&out), OPEN);
    let bags = NIGHT.replace(
        "use = \"camp\"",
        "use = \"camp\"\nload = [{ what = \"bags\", mass = \"40 lb\", at = { front = \"30 in\", left = \"0 in\", floor = \"0 in\" }, length = \"20 in\", width = \"52 in\", height = \"20 in\" }]",
    );
    near(to_door_of(&bags), 20.0 * 25.4);
}

#[test]
fn missing_is_said_and_never_a_path() {
    let unplaced = cabinet("a", "10 20 36", "left = \"0 in\"");
    let all = of(&build(FLAT, &format!("{NIGHT}{unplaced}")));
    assert_eq!(missing(&all, "ways_out", BED).what, "the place fore and aft of item `a`");
    assert_eq!(missing(&all, "free_floor", "state `night`").what, "the place fore and aft of item `a`");
    // What surely hangs above the heads of people need not be placed.
    let above = cabinet("a", "10 20 3", "left = \"0 in\", floor = \"66 in\"");
    let all = of(&build(FLAT, &format!("{NIGHT}{above}")));
    assert_eq!(list(&all, "ways_out", BED).len(), 2);
    let unclear = NIGHT.replacen("clear_width = \"20 in\"\n", "", 1);
    let all = of(&build(FLAT, &unclear));
    assert_eq!(missing(&all, "exit_path", TO_DOOR).what, "`clear_width` of opening `door`");
    assert_eq!(missing(&all, "ways_out", BED).what, "`clear_width` of opening `door`");
    assert_eq!(missing(&all, "ways_independent", BED).what, "`clear_width` of opening `door`");
    assert_eq!(missing(&all, "second_path", BED).what, "`clear_width` of opening `door`");
}

/// A window is a way out, and no door.
#[test]
fn a_window_is_no_door() {
    let window = NIGHT.replacen("sort = \"door\"", "sort = \"window\"", 1);
    let all = of(&build(FLAT, &window));
    assert!((value(&figure(&all, "door_path", BED), "in") - 58.0).abs() < 1e-9);
    near(value(&figure(&all, "second_path", BED), "mm"), OPEN);
    let windows = window.replace("sort = \"barn doors\"", "sort = \"window\"");
    let all = of(&build(FLAT, &windows));
    assert!(matches!(one(&all, "door_path", BED).outcome, Ok(Outcome::None(_))));
    let single = window.replacen("exit = true", "exit = false", 1);
    let all = of(&build(FLAT, &single));
    assert!(matches!(one(&all, "second_path", BED).outcome, Ok(Outcome::None(_))));
}

#[test]
fn no_way_out_at_all_is_told() {
    let shut = NIGHT.replace("exit = true", "exit = false");
    let all = of(&build(FLAT, &shut));
    assert!(list(&all, "ways_out", BED).is_empty());
    assert!(list(&all, "exits", "the build").is_empty());
    assert!(!flag(&all, "ways_independent", BED));
}

#[test]
fn too_much_work_is_refused_in_words() {
    let many: String = (0..210)
        .map(|n| cabinet(&format!("c{n}"), "1 1 36", "front = \"20 in\", left = \"30 in\""))
        .collect();
    let all = of(&build(FLAT, &format!("{NIGHT}{many}")));
    assert_eq!(
        missing(&all, "ways_out", BED).what,
        "a state in which no more than 200 boxes stand on the floor"
    );
    let night = |n: u32| format!("\n[[state]]\nname = \"n{n}\"\nuse = \"camp\"\n");
    let nights = (0..98).map(night).collect::<Vec<_>>().concat();
    let crowd: String = (0..190)
        .map(|n| cabinet(&format!("c{n}"), "1 1 36", "front = \"20 in\", left = \"30 in\""))
        .collect();
    let all = of(&build(FLAT, &format!("{NIGHT}{nights}{crowd}")));
    assert!(
        all.iter()
            .any(|working| matches!(&working.outcome, Err(missing) if missing.what.contains("fewer berths")))
    );
}

/// Berths, ways out, nights, doors and removable parts by the hundred: an answer in seconds, in words where there is none.
#[test]
fn hostile_specs_end() {
    let berth = |n: u32| {
        format!(
            "\n[[berth]]\ntag = \"b{n}\"\nlength = \"30 in\"\nwidth = \"30 in\"\nheight = \"5 in\"\nat = {{ front = \"{n} in\", left = \"20 in\", floor = \"62 in\" }}\n"
        )
    };
    let window = |n: u32| {
        format!(
            "\n[[opening]]\ntag = \"w{n}\"\nzone = \"right wall\"\nsort = \"window\"\nexit = true\nlength = \"20 in\"\nheight = \"20 in\"\nclear_width = \"18 in\"\nclear_height = \"18 in\"\nat = {{ front = \"{n} in\", floor = \"30 in\" }}\n"
        )
    };
    let night = |n: u32| format!("\n[[state]]\nname = \"n{n}\"\nuse = \"camp\"\n");
    let each = |count: u32, one: &dyn Fn(u32) -> String| (0..count).map(one).collect::<Vec<_>>().concat();
    let swings = "{ name = \"d\", kind = \"drawer\", side = \"left\", reach = \"5 in\" },".repeat(5);
    let part = |n: u32| {
        cabinet(&format!("p{n}"), "20 20 61", "front = \"30 in\", left = \"5 in\", floor = \"61 in\"")
            .replace("at =", &format!("removable = true\nswings = [{swings}]\nat ="))
    };
    let more = each(100, &berth) + &each(100, &window) + &each(98, &night) + &each(150, &part);
    let all = of(&build(FLAT, &format!("{NIGHT}{more}")));
    let unknown = all.iter().filter(|working| working.outcome.is_err()).count();
    assert!(unknown > 100, "{unknown} of {}", all.len());
    let first = missing(&all, "ways_out", "berth `b0` in state `n0`").what;
    assert!(first.contains("no more than 400 pairs"), "{first}");
    assert!(missing(&all, "ways_out", "state `n97`").what.contains("no more than 64 states"));
    assert!(
        missing(&all, "swing_meets", "drawer `d` of item `p149`").what.contains("no more than 500 things")
    );
}

#[test]
fn steps_say_what_was_declared() {
    let all = of(&build(FLAT, NIGHT));
    let path = one(&all, "exit_path", TO_DOOR);
    let symbols: Vec<&str> = path.steps.iter().map(|step| step.symbol).collect();
    assert_eq!(symbols, ["z₁", "z₂", "b", "d", "p", "f", "o", "w"]);
    assert!(matches!(&path.outcome, Ok(Outcome::Figure(_))));
    assert!(!path.caution.is_empty());
}

/// A path is no sum: how sure it is, is not stated, and never nothing.
#[test]
fn how_sure_a_path_is_is_not_stated() {
    let all = of(&build(FLAT, NIGHT));
    for (key, of) in [
        ("exit_path", TO_DOOR),
        ("exit_path", TO_REAR),
        ("free_floor", "state `night`"),
        ("exits_apart", "the build"),
    ] {
        assert!(figure(&all, key, of).trace.gradient().is_none(), "{key} of {of}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]
    /// Two cabinets abreast leave what the walls have between them; mirrored, in metric and on a longer tongue it is the
    /// same.
    #[test]
    fn paths_keep_in_mirror_metric_and_with_a_longer_tongue(
        left in 20_u32..34, right in 20_u32..34, tongue in 30_i32..80,
    ) {
        let more = NIGHT.to_owned()
            + &cabinet("a", &format!("30 {left} 36"), "front = \"30 in\", left = \"0 in\"")
            + &cabinet("b", &format!("20 {right} 36"), "front = \"40 in\", right = \"0 in\"");
        let written = spec(ROUND, &more);
        for same in [written.clone(), mirrored(&written), in_metric(&written), spec_at(&format!("{tongue} in"), ROUND, &more)] {
            let found = value(&figure(&of(&read(&same)), "exit_path", TO_DOOR), "mm");
            let expected = f64::from(72 - left - right) * 25.4;
            prop_assert!((found - expected).abs() <= 1.0, "{found} {expected}");
        }
    }
}
