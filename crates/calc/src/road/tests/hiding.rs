//! Lamps with something in front of them, too few of them, and in the wrong place.

use pintle_spec::{Build, Use};

use crate::road::{hidden_lamps, lamps_misplaced, lamps_too_few, lamps_wrong_colour};
use crate::space::trial::{FLAT, build};

/// A trailer 92 in wide whose rear lamps sit 30 in up and 34 in off the centreline; its skin is 97 in up.
fn lit(more: &str, tail: &str) -> Build {
    let rear = |name: &str, count: u32| {
        format!(
            "{{ name = \"{name}\", count = {count}, colour = \"red\", height = \"30 in\", centre = \"34 in\" }}"
        )
    };
    let all = [
        tail.to_owned(),
        rear("stop", 2),
        rear("turn", 2),
        "{ name = \"plate\", count = 1, colour = \"white\", height = \"30 in\", centre = \"34 in\" }".to_owned(),
        rear("rear reflex", 2),
        "{ name = \"rear clearance\", count = 2, colour = \"red\", height = \"94 in\", centre = \"40 in\" }".to_owned(),
        "{ name = \"rear identification\", count = 3, colour = \"red\", height = \"94 in\", centre = \"8 in\", apart = \"8 in\" }".to_owned(),
        "{ name = \"front clearance\", count = 2, colour = \"amber\", height = \"94 in\", centre = \"40 in\" }".to_owned(),
        "{ name = \"rear side marker\", count = 2, colour = \"red\", height = \"24 in\", ball = \"170 in\" }".to_owned(),
        "{ name = \"rear side reflex\", count = 2, colour = \"red\", height = \"24 in\", ball = \"170 in\" }".to_owned(),
        "{ name = \"front side marker\", count = 2, colour = \"amber\", height = \"24 in\", ball = \"50 in\" }".to_owned(),
        "{ name = \"front side reflex\", count = 2, colour = \"amber\", height = \"24 in\", ball = \"50 in\" }".to_owned(),
    ];
    let fields =
        format!("overall_width = \"92 in\"\noverall_length = \"16 ft\"\nlamp = [{}]\n{more}", all.join(", "));
    build(FLAT, &fields)
}

const TAIL: &str = "{ name = \"tail\", count = 2, colour = \"red\", height = \"30 in\", centre = \"34 in\" }";

fn on_door(tag: &str, width: &str, floor: &str, height: &str) -> String {
    format!(
        "[[item]]\ntag = \"{tag}\"\nkind = \"equipment\"\nzone = \"rear door\"\nlength = \"6 in\"\nwidth = \"{width}\"\n\
         height = \"{height}\"\nat = {{ floor = \"{floor}\" }}\n"
    )
}

fn hidden(more: &str) -> Vec<String> {
    hidden_lamps(&lit(more, TAIL), Use::Road).unwrap()
}

#[test]
fn what_hangs_on_the_rear_door() {
    assert!(hidden("").is_empty());
    // From 20 in up to 60 in: before lamps 30 in up. 60 in wide: not before lamps 34 in off the centreline.
    assert!(hidden(&on_door("box", "60 in", "0 in", "40 in")).is_empty());
    let wide = hidden(&on_door("box", "70 in", "0 in", "40 in"));
    let names = ["tail", "stop", "turn", "plate", "rear reflex"];
    assert_eq!(wide, names.map(|name| format!("{name} behind item `box`")));
    // From 40 in up it hangs above them.
    assert!(hidden(&on_door("box", "70 in", "20 in", "20 in")).is_empty());
    // A ladder to the roof stands before the middle identification lamp.
    assert_eq!(
        hidden(&on_door("ladder", "12 in", "20 in", "60 in")),
        ["rear identification behind item `ladder`"]
    );
    // A load that may ride there counts as well.
    let bikes = on_door("bikes", "70 in", "0 in", "40 in")
        .replace("[[item]]", "[[load]]\nmass = \"60 lb\"\nleast = \"0 lb\"")
        .replace("kind = \"equipment\"\n", "");
    assert_eq!(hidden(&bikes).len(), 5);
    assert!(hidden(&bikes)[0].ends_with("behind load `bikes`"));
}

#[test]
fn sides_and_open_tents() {
    let shelf = |zone: &str| {
        format!(
            "[[item]]\ntag = \"tent\"\nkind = \"tent\"\nzone = \"{zone}\"\nlength = \"56 in\"\nwidth = \"48 in\"\nheight = \"12 in\"\n\
             opens = \"rear\"\nopen_reach = \"60 in\"\nat = {{ rear = \"0 in\", gap = \"-4 in\" }}\n"
        )
    };
    // Shut, it ends with the box; open, it hangs over the rear from 93 in up, before the lamps at 94 in.
    let trailer = lit(&shelf("roof"), TAIL);
    assert!(hidden_lamps(&trailer, Use::Road).unwrap().is_empty());
    let parked = hidden_lamps(&trailer, Use::Camp).unwrap();
    assert_eq!(
        parked,
        ["rear identification behind the open item `tent`"],
        "48 in wide: the clearance lamps are 40 in out"
    );
    let awning = "[[item]]\ntag = \"step\"\nkind = \"equipment\"\nzone = \"underside\"\nlength = \"30 in\"\nwidth = \"90 in\"\n\
                  height = \"10 in\"\nat = { ball = \"160 in\", ground = \"18 in\" }\n";
    let found = hidden(awning);
    assert_eq!(found, ["rear side marker behind item `step`", "rear side reflex behind item `step`"]);
}

#[test]
fn a_lamp_of_which_nobody_says_where_it_is() {
    let unplaced = "{ name = \"tail\", count = 2, colour = \"red\" }";
    assert!(
        hidden_lamps(&lit("", unplaced), Use::Road).unwrap().is_empty(),
        "nothing stands in front of anything"
    );
    let more = on_door("box", "60 in", "0 in", "40 in");
    let missing = hidden_lamps(&lit(&more, unplaced), Use::Road).unwrap_err();
    assert_eq!(missing.what, "where the tail lamps are, with item `box` in front of where they may be");
    // Above the highest place that a tail lamp may have, 72 in, it is in front of none.
    let high = on_door("box", "20 in", "53 in", "10 in");
    assert!(
        !hidden_lamps(&lit(&high, unplaced), Use::Road).unwrap().iter().any(|line| line.starts_with("tail"))
    );
    let sizeless = more.replace("width = \"60 in\"\n", "");
    assert_eq!(hidden_lamps(&lit(&sizeless, TAIL), Use::Road).unwrap_err().what, "`width` of item `box`");
}

#[test]
fn too_few_too_low_and_of_the_wrong_colour() {
    let sound = lit("", TAIL);
    assert!(lamps_too_few(&sound).unwrap().is_empty());
    assert!(lamps_misplaced(&sound).unwrap().is_empty());
    assert!(lamps_wrong_colour(&sound).unwrap().is_empty());
    let one = |tail: &str| lit("", tail);
    assert_eq!(lamps_too_few(&one(&TAIL.replace("count = 2", "count = 1"))).unwrap(), ["1 tail of 2"]);
    assert_eq!(lamps_misplaced(&one(&TAIL.replace("30 in", "14.9 in"))).unwrap(), ["tail below 15 in"]);
    assert_eq!(lamps_misplaced(&one(&TAIL.replace("30 in", "72.1 in"))).unwrap(), ["tail above 72 in"]);
    assert!(lamps_misplaced(&one(&TAIL.replace("30 in", "72 in"))).unwrap().is_empty());
    assert_eq!(lamps_wrong_colour(&one(&TAIL.replace("red", "amber"))).unwrap(), ["tail is amber, not red"]);
    let bare = "{ name = \"tail\" }";
    assert_eq!(lamps_too_few(&one(bare)).unwrap_err().what, "the number of the tail lamps");
    assert!(lamps_misplaced(&one(bare)).unwrap_err().what.starts_with("`height` of"));
    assert!(lamps_wrong_colour(&one(bare)).unwrap_err().what.starts_with("`colour` of"));
}
