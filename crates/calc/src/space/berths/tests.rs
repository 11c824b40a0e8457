use crate::space::trial::{FLAT, build, value};
use crate::space::workings::tests::{figure, flag, list, missing, of, one};
use crate::working::Outcome;

const BED: &str = r#"
[people]
count = 2
mass = "180 lb"
[[berth]]
tag = "bed"
length = "54 in"
width = "70 in"
height = "5 in"
people = 2
rated = "400 lb"
at = { rear = "0 in", centre = "0 in", floor = "16 in" }
"#;

fn inches(more: &str, key: &str) -> f64 {
    value(&figure(&of(&build(FLAT, &format!("{BED}{more}"))), key, "berth `bed`"), "in")
}

#[test]
fn measures_of_a_berth() {
    assert!((inches("", "berth_length") - 70.0).abs() < 1e-9, "slept in across");
    assert!((inches("", "berth_width") - 54.0).abs() < 1e-9);
    assert!((inches("", "berth_headroom") - 54.0).abs() < 1e-9, "75 − 21 in");
    assert!((inches("", "fall_height") - 21.0).abs() < 1e-9);
    let share = figure(&of(&build(FLAT, BED)), "berth_load", "berth `bed`");
    assert!((share.quantity.si() - 0.9).abs() < 1e-12, "360 lb of 400 lb");
}

#[test]
fn room_above_a_mattress_ends_at_what_is_over_it() {
    let bunk = |floor: u32, rear: u32| {
        format!(
            "\n[[berth]]\ntag = \"bunk\"\nlength = \"30 in\"\nwidth = \"70 in\"\nheight = \"4 in\"\nat = {{ rear = \"{rear} in\", centre = \"0 in\", floor = \"{floor} in\" }}\n"
        )
    };
    assert!((inches(&bunk(45, 0), "berth_headroom") - 24.0).abs() < 1e-9);
    assert!((inches(&bunk(45, 54), "berth_headroom") - 54.0).abs() < 1e-9, "not over it");
    assert!((inches(&bunk(0, 0), "berth_headroom") - 54.0).abs() < 1e-9, "under it");
}

#[test]
fn the_gap_to_a_burner() {
    let heater = |used: &str| {
        format!(
            "\n[[item]]\ntag = \"heater\"\nkind = \"appliance\"\nused = \"{used}\"\nlength = \"10 in\"\nwidth = \"9 in\"\nheight = \"12 in\"\nat = {{ front = \"77 in\", left = \"0 in\" }}\n"
        )
    };
    // It ends 3 in ahead of the bed and 4 in below it; across they lie abreast.
    assert!((inches(&heater("inside"), "burner_gap") - 5.0).abs() < 1e-9);
    let outside = of(&build(FLAT, &format!("{BED}{}", heater("outside"))));
    assert!(!outside.iter().any(|working| working.key == "burner_gap" || working.key == "bedding_gap"));
    // Seen from the heater it is the same gap, to the nearest of the berths.
    let all = of(&build(FLAT, &format!("{BED}{}", heater("inside"))));
    assert!((value(&figure(&all, "bedding_gap", "item `heater`"), "in") - 5.0).abs() < 1e-9);
    let bunk = "\n[[berth]]\ntag = \"bunk\"\nlength = \"20 in\"\nwidth = \"70 in\"\nheight = \"4 in\"\nat = { front = \"55 in\", centre = \"0 in\", floor = \"0 in\" }\n";
    let all = of(&build(FLAT, &format!("{BED}{bunk}{}", heater("inside"))));
    assert!((value(&figure(&all, "bedding_gap", "item `heater`"), "in") - 2.0).abs() < 1e-9);
    let unsaid = of(&build(FLAT, &format!("{BED}{}", heater("inside").replace("used = \"inside\"\n", ""))));
    assert_eq!(missing(&unsaid, "bedding_gap", "item `heater`").what, "`used` of item `heater`");
    let nobody = of(&build(FLAT, &heater("inside")));
    assert!(!nobody.iter().any(|working| working.key == "bedding_gap"));
}

#[test]
fn room_for_each_sleeper() {
    let night = "\n[[state]]\nname = \"night\"\nuse = \"camp\"\npeople = [{ berth = \"bed\", count = 2 }]\n";
    let all = of(&build(FLAT, &format!("{BED}{night}")));
    assert!((value(&figure(&all, "area_per_person", "state `night`"), "ft²") - 36.0).abs() < 1e-9);
    assert!((value(&figure(&all, "area_asked", "state `night`"), "ft²") - 70.0).abs() < 1e-9);
    let full = |count: u32| {
        let night = night.replace("count = 2", &format!("count = {count}"));
        figure(&of(&build(FLAT, &format!("{BED}{night}"))), "berth_taken", "berth `bed` in state `night`")
            .quantity
            .si()
    };
    assert!((full(2) - 1.0).abs() < 1e-12 && (full(3) - 1.5).abs() < 1e-12, "it is for two");
    let for_nobody = of(&build(FLAT, &format!("{}{night}", BED.replace("people = 2", "people = 0"))));
    let missing = missing(&for_nobody, "berth_taken", "berth `bed` in state `night`");
    assert_eq!(missing.what, "a berth for anybody: berth `bed` is for nobody");
    let empty = of(&build(FLAT, &format!("{BED}{}", night.replace("count = 2", "count = 0"))));
    assert!(!empty.iter().any(|working| working.key == "area_per_person"));
}

/// Nobody has said how it stands at night: whether there are ways out is then not known.
#[test]
fn a_bed_and_no_night() {
    let all = of(&build(FLAT, BED));
    for key in ["ways_out", "second_path", "door_path"] {
        assert_eq!(missing(&all, key, "berth `bed`").what, "a state in camp, in which people sleep");
    }
    let nobody = of(&build(FLAT, ""));
    assert!(!nobody.iter().any(|working| working.key == "ways_out"));
}

#[test]
fn what_a_berth_misses() {
    let all = of(&build(FLAT, &BED.replace("rated = \"400 lb\"\n", "").replace("length = \"54 in\"\n", "")));
    assert_eq!(missing(&all, "berth_length", "berth `bed`").what, "`length` of berth `bed`");
    assert_eq!(missing(&all, "berth_load", "berth `bed`").what, "`rated` of berth `bed`");
    // Of a berth whose place is not known, nothing is left out unsaid.
    let night = "\n[[state]]\nname = \"night\"\nuse = \"camp\"\n";
    let unplaced = BED.replace("rear = \"0 in\", ", "");
    let all = of(&build(FLAT, &format!("{unplaced}{night}")));
    let place = "the place fore and aft of berth `bed`";
    assert_eq!(missing(&all, "ways_out", "berth `bed` in state `night`").what, place);
    assert!(
        (value(&figure(&all, "fall_height", "berth `bed`"), "in") - 21.0).abs() < 1e-9,
        "its height is known"
    );
    let light = of(&build(FLAT, &BED.replace("mass = \"180 lb\"\n", "")));
    assert_eq!(missing(&light, "berth_load", "berth `bed`").what, "`mass` of `people` of the spec");
}

#[test]
fn ways_out_as_they_are_written() {
    let window = r#"
[[opening]]
tag = "w"
zone = "left wall"
sort = "window"
exit = true
length = "26 in"
height = "20 in"
clear_width = "24 in"
clear_height = "17 in"
outline = "ellipse"
latch = "40 in"
inside_release = true
outside_lock = "hasp"
at = { front = "40 in", floor = "30 in" }
"#;
    let all = of(&build(FLAT, window));
    assert!((value(&figure(&all, "clear_area", "opening `w`"), "in²") - 320.442).abs() < 1e-3);
    assert!((value(&figure(&all, "sill_height", "opening `w`"), "in") - 30.0).abs() < 1e-9);
    assert!((value(&figure(&all, "clear_least", "opening `w`"), "in") - 17.0).abs() < 1e-9);
    assert_eq!(missing(&all, "can_lock_in", "opening `w`").what, "`locks_open` of opening `w`");
    let locked = |more: &str| {
        let text = window.replace("outside_lock = \"hasp\"", more);
        flag(&of(&build(FLAT, &text)), "can_lock_in", "opening `w`")
    };
    assert!(locked("outside_lock = \"bar\"\nlocks_open = false"));
    assert!(!locked("outside_lock = \"bar\"\nlocks_open = true"));
    assert!(!locked("outside_lock = \"key\""), "the release inside opens it");
    assert!(!locked("outside_lock = \"none\""));
    let unreleased =
        window.replace("inside_release = true", "inside_release = false").replace("\"hasp\"", "\"key\"");
    assert!(flag(&of(&build(FLAT, &unreleased)), "can_lock_in", "opening `w`"));
    let silent = of(&build(FLAT, &window.replace("outside_lock = \"hasp\"\n", "")));
    assert_eq!(missing(&silent, "can_lock_in", "opening `w`").what, "`outside_lock` of opening `w`");
    let sill = of(&build(FLAT, &window.replace("latch =", "sill = \"31.5 in\"\nlatch =")));
    assert!((value(&figure(&sill, "sill_height", "opening `w`"), "in") - 31.5).abs() < 1e-9);
}

/// 24 CFR 3280.105 (seen): the two doors of a single section are twelve feet or more apart; here eleven feet and a half.
#[test]
fn doors_that_are_apart() {
    let door = |tag: &str, front: &str| {
        format!(
            "\n[[opening]]\ntag = \"{tag}\"\nzone = \"left wall\"\nsort = \"door\"\nexit = true\nlength = \"24 in\"\nheight = \"60 in\"\nclear_width = \"22 in\"\nclear_height = \"58 in\"\nat = {{ front = \"{front} in\", floor = \"1 in\" }}\n"
        )
    };
    let two = of(&build(FLAT, &format!("{}{}", door("a", "0"), door("b", "117"))));
    let apart = value(&figure(&two, "doors_apart", "the build"), "ft");
    assert!((apart - 117.0 / 12.0).abs() < 1e-9 && apart < 12.0);
    let single = of(&build(FLAT, &door("a", "0")));
    assert!(matches!(one(&single, "doors_apart", "the build").outcome, Ok(Outcome::None(_))));
    assert_eq!(list(&single, "exits", "the build"), ["opening `a`"]);
}

#[test]
fn what_there_is_against_fire() {
    let more = r#"
[[item]]
tag = "alarm"
kind = "alarm"
senses = ["carbon monoxide", "smoke"]
length = "2 in"
at = { front = "10 in" }
[[item]]
tag = "red"
kind = "extinguisher"
class_b = 10
length = "5 in"
width = "5 in"
height = "14 in"
at = { front = "40 in", left = "0 in", floor = "20 in" }
[[opening]]
tag = "door"
zone = "left wall"
sort = "door"
exit = true
length = "24 in"
height = "60 in"
clear_width = "22 in"
clear_height = "58 in"
at = { front = "10 in", floor = "1 in" }
"#;
    let all = of(&build(FLAT, more));
    assert_eq!(list(&all, "smoke_alarms", "the build"), ["item `alarm`"]);
    assert_eq!(list(&all, "extinguishers", "the build"), ["item `red`"]);
    // The door leaves free 11 to 33 in; the extinguisher begins at 40 in.
    assert!((value(&figure(&all, "extinguisher_to_exit", "item `red`"), "in") - 7.0).abs() < 1e-9);
    let bare = of(&build(FLAT, ""));
    assert!(list(&bare, "smoke_alarms", "the build").is_empty());
    assert_eq!(missing(&bare, "exits", "the build").what, "the doors, windows and hatches of the trailer");
    let mute = of(&build(FLAT, &more.replace("senses = [\"carbon monoxide\", \"smoke\"]\n", "")));
    assert_eq!(missing(&mute, "smoke_alarms", "the build").what, "`senses` of item `alarm`");
    let unsaid = of(&build(FLAT, &more.replace("exit = true\n", "")));
    assert_eq!(missing(&unsaid, "exits", "the build").what, "`exit` of opening `door`");
    for key in ["can_lock_in", "opens_from_inside", "clear_least"] {
        assert_eq!(missing(&unsaid, key, "opening `door`").what, "`exit` of opening `door`");
        // Without a bed there need be no door; with one, that none is drawn is no proof that there is none.
        assert!(!bare.iter().any(|working| working.key == key));
        let undrawn = of(&build(FLAT, BED));
        assert_eq!(missing(&undrawn, key, "the build").what, "the doors, windows and hatches of the trailer");
    }
}
