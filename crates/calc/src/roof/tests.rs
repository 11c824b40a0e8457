use proptest::prelude::*;

use super::{
    air_gap, beyond_roof, covered_vents, ladder_needed, load_per_foot, moving_load, on_roof, overall_height,
    overhang, parked_load, stand_height, tent_floor_height,
};
use crate::Figure;
use crate::space::trial::{
    FLAT, ROUND, WEDGE, at, build, close, in_metric, inputs, mirrored, read, spec, spec_at, value,
};
use pintle_quantity::Quantity;
use pintle_spec::Build;

/// A rack 100 × 60 in, standing 3 in high, on four feet, 60 lb.
fn rack(place: &str) -> String {
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
feet = 4
at = {{ {place} }}
"#
    )
}

/// A tent 84 × 56 × 12 in, 140 lb with 10 lb of bedding, its floor 2 in up.
fn tent(place: &str) -> String {
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
at = {{ {place} }}
"#
    )
}

const SLEEPERS: &str = r#"
[people]
count = 2
mass = "190 lb"

[[berth]]
tag = "loft"
zone = "tent"
people = 2
"#;

fn in_inches(figure: &pintle_spec::Known<Figure>) -> f64 {
    value(figure.as_ref().unwrap(), "in")
}

#[test]
fn overhangs() {
    // Gaps as a tape gives them; sizes by subtraction.
    let rows = [
        ("front = \"-4 in\"", [4.0, -20.0, -2.0, -2.0]),
        ("rear = \"-6 in\", left = \"-5 in\"", [-22.0, 6.0, 5.0, -9.0]),
        ("front = \"0 in\", right = \"-3 in\"", [0.0, -16.0, -7.0, 3.0]),
    ];
    for (place, expected) in rows {
        let trial = build(FLAT, &(rack("front = \"30 in\"") + &tent(place)));
        let over = overhang(&trial, at(&trial, "tent")).unwrap();
        for (found, expected) in [over.front, over.rear, over.left, over.right].iter().zip(expected) {
            close(found.as_ref().unwrap(), expected, "in");
        }
    }
}

#[test]
fn an_overhang_knows_its_own_inputs_only() {
    let trial = build(FLAT, &(rack("front = \"30 in\"") + &tent("front = \"-4 in\"")));
    let over = overhang(&trial, at(&trial, "tent")).unwrap();
    assert_eq!(inputs(&over.front.unwrap()), ["`front` of `at` of item `tent`"]);
    assert_eq!(
        inputs(&over.rear.unwrap()),
        ["`front` of `at` of item `tent`", "`length` of item `tent`", "`length` of item `rack`"]
    );
    assert_eq!(inputs(&over.left.unwrap()), ["`width` of item `rack`", "`width` of item `tent`"]);
}

#[test]
fn an_overhang_needs_a_rack_and_sizes() {
    let bare = tent("front = \"9 in\"").replace("zone = \"rack\"", "zone = \"roof\"");
    let trial = build(FLAT, &bare);
    assert_eq!(overhang(&trial, at(&trial, "tent")).unwrap_err().what, "the rack under item `tent`");
    let short = rack("front = \"30 in\"") + &tent("front = \"-4 in\"").replace("length = \"84 in\"\n", "");
    let trial = build(FLAT, &short);
    let over = overhang(&trial, at(&trial, "tent")).unwrap();
    assert_eq!(over.rear.unwrap_err().what, "`length` of item `tent`");
    close(&over.front.unwrap(), 4.0, "in");
}

#[test]
fn beyond_the_roof() {
    // Outside of the box: 36 in to the nose; sides from 36 in (flat) or 55.5 in; half width 37.5 in; rear at 183 in flat.
    // The tent's front corners, 28 in aside of the middle, straight lines and an ellipse by hand.
    let wedge = 36.0 + 19.5 * 28.0 / 37.5;
    let round = 55.5 - 19.5 * (1.0_f64 - (28.0_f64 / 37.5).powi(2)).sqrt();
    let rows = [
        (FLAT, "ball = \"46 in\"", 36.0 - 46.0, -9.5, 130.0 - 183.0),
        (FLAT, "ball = \"30 in\", centre = \"15 in\"", 6.0, 5.5, 114.0 - 183.0),
        (FLAT, "ball = \"110 in\", centre = \"-12 in\"", 36.0 - 110.0, 2.5, 11.0),
        (WEDGE, "ball = \"46 in\"", wedge - 46.0, -9.5, 130.0 - 201.0),
        (ROUND, "ball = \"46 in\"", round - 46.0, -9.5, 130.0 - 201.0),
        // A corner beyond the side is judged where the sides begin.
        (WEDGE, "ball = \"46 in\", centre = \"-12 in\"", 55.5 - 46.0, 2.5, 130.0 - 201.0),
    ];
    for (nose, place, ahead, aside, behind) in rows {
        let trial = build(nose, &tent(place).replace("zone = \"rack\"", "zone = \"roof\""));
        let beyond = beyond_roof(&trial, at(&trial, "tent")).unwrap();
        for (figure, expected) in [(&beyond.ahead, ahead), (&beyond.aside, aside), (&beyond.behind, behind)] {
            let found = in_inches(figure);
            assert!((found - expected).abs() < 1e-9, "{found} in, not {expected} in: {nose}, {place}");
        }
    }
}

#[test]
fn air_gaps_and_racks() {
    // The trade's bands: 2 to 3 in of air; contractors' racks stand about 2 ft (common practice, no source).
    let gap_of = |more: &str| {
        let trial = build(FLAT, more);
        air_gap(&trial, at(&trial, "rack")).unwrap()
    };
    let on = |place: &str| rack("front = \"30 in\"") + &tent(place);
    close(&gap_of(&on("front = \"0 in\"")).unwrap(), 3.0, "in");
    close(&gap_of(&on("front = \"0 in\", gap = \"1 in\"")).unwrap(), 4.0, "in");
    let box_below = "\n[[item]]\ntag = \"box\"\nkind = \"module\"\nzone = \"rack\"\nlength = \"10 in\"\nwidth = \"10 in\"\n\
                     height = \"5 in\"\nat = { front = \"0 in\", gap = \"-0.5 in\" }\n";
    close(&gap_of(&(on("front = \"0 in\"") + box_below)).unwrap(), 2.5, "in");
    assert!(gap_of(&rack("front = \"30 in\"")).is_none(), "nothing lies on it");
    let rear = rack("floor = \"30 in\"").replace("zone = \"roof\"", "zone = \"rear door\"");
    assert!(gap_of(&rear).is_none(), "not on the roof");

    let stands = |more: &str| {
        let trial = build(FLAT, more);
        stand_height(&trial, at(&trial, "rack")).unwrap().unwrap()
    };
    close(&stands(&rack("front = \"30 in\"").replace("3 in", "24 in")), 24.0, "in");
    close(&stands(&rack("front = \"30 in\", gap = \"1 in\"")), 4.0, "in");
    let upper =
        rack("front = \"0 in\"").replace("\"rack\"\nkind", "\"upper\"\nkind").replace("\"roof\"", "\"rack\"");
    let trial = build(FLAT, &(rack("front = \"30 in\"") + &upper));
    close(&stand_height(&trial, at(&trial, "upper")).unwrap().unwrap(), 6.0, "in");
    let unsized_rack = build(FLAT, &rack("front = \"30 in\"").replace("height = \"3 in\"\n", ""));
    assert_eq!(stand_height(&unsized_rack, 0).unwrap_err().what, "`height` of item `rack`");
}

#[test]
fn loads_of_rack_and_roof() {
    let fitted = rack("front = \"30 in\"") + &tent("front = \"0 in\"");
    let pack = "\n[[item]]\ntag = \"pack\"\nkind = \"module\"\nzone = \"tent\"\nmass = \"5 lb\"\n";
    let boat = "\n[[state]]\nname = \"out\"\nuse = \"road\"\n[[state.load]]\nmass = \"50 lb\"\nwhat = \"boat\"\nzone = \"rack\"\n\
                at = { front = \"90 in\" }\n[[state]]\nname = \"home\"\nuse = \"road\"\n";
    let trial = build(FLAT, &format!("{SLEEPERS}{fitted}{pack}{boat}"));
    let on = at(&trial, "rack");
    // By addition: 140 + 10 + 5, and a boat on one of the roads; two people of 190 lb in camp.
    close(&moving_load(&trial, on).unwrap(), 205.0, "lb");
    close(&parked_load(&trial, on).unwrap(), 155.0 + 380.0, "lb");
    close(&load_per_foot(&trial, on, false).unwrap(), (60.0 + 205.0) / 4.0, "lb");
    close(&load_per_foot(&trial, on, true).unwrap(), (60.0 + 535.0) / 4.0, "lb");
    let roof = on_roof(&trial);
    close(&roof.moving.unwrap(), 265.0, "lb");
    close(&roof.parked.unwrap(), 595.0, "lb");
    assert_eq!(
        inputs(&parked_load(&trial, on).unwrap()),
        [
            "`mass` of item `tent`",
            "`bedding` of item `tent`",
            "`mass` of item `pack`",
            "`mass` of `people` of the spec"
        ]
    );

    let crowd =
        "\n[[state]]\nname = \"camp\"\nuse = \"camp\"\n[[state.people]]\nberth = \"loft\"\ncount = 3\n";
    let trial = build(FLAT, &format!("{SLEEPERS}{fitted}{crowd}"));
    close(&parked_load(&trial, on).unwrap(), 150.0 + 570.0, "lb");

    // Water at 8.34 lb/gal: 5 gal are 41.7 lb (common figure of the trade).
    let tank = "\n[[tank]]\ntag = \"can\"\nzone = \"rack\"\nmass = \"3 lb\"\ncapacity = \"5 gal\"\nat = { front = \"90 in\" }\n";
    let trial = build(FLAT, &(rack("front = \"30 in\"") + tank));
    close(&moving_load(&trial, on).unwrap(), 44.7, "lb");
    // Half full at most on the road: 3 + 20.85 lb; parked, it may be full.
    let half = tank.replace("at =", "on_road = { least = \"0 %\", most = \"50 %\" }\nat =");
    let trial = build(FLAT, &(rack("front = \"30 in\"") + &half));
    close(&moving_load(&trial, on).unwrap(), 23.85, "lb");
    close(&parked_load(&trial, on).unwrap(), 44.7, "lb");
    let empty = build(FLAT, &rack("front = \"30 in\""));
    close(&moving_load(&empty, on).unwrap(), 0.0, "lb");
    close(&parked_load(&empty, on).unwrap(), 0.0, "lb");
}

/// A load on the rack that may stay at home, 2 in above it.
fn rides(tag: &str, mass: &str, more: &str) -> String {
    format!(
        "\n[[load]]\ntag = \"{tag}\"\nmass = \"{mass}\"\nleast = \"0 lb\"\nzone = \"rack\"\n\
         at = {{ front = \"20 in\", gap = \"2 in\" }}\n{more}\n"
    )
}

#[test]
fn loads_that_may_ride_on_a_rack_count_at_their_most_on_the_road_and_as_states_say_in_camp() {
    let fitted = rack("front = \"30 in\"") + &tent("front = \"0 in\"");
    let loads = rides("bikes", "60 lb", "") + &rides("boat", "45 lb", "");
    let states = "\n[[state]]\nname = \"out\"\nuse = \"road\"\ncarry = { bikes = \"10 lb\" }\n\
                  load = [{ what = \"pole\", mass = \"7 lb\", zone = \"rack\", at = { front = \"0 in\" } }]\n\
                  [[state]]\nname = \"noon\"\nuse = \"camp\"\ncarry = { bikes = \"20 lb\", boat = \"5 lb\" }\n\
                  load = [{ what = \"awning\", mass = \"3 lb\", zone = \"rack\", at = { front = \"0 in\" } }]\n\
                  [[state]]\nname = \"night\"\nuse = \"camp\"\ncarry = { boat = \"27 lb\" }\n";
    let trial = build(FLAT, &format!("{SLEEPERS}{fitted}{loads}{states}"));
    let on = at(&trial, "rack");
    // By addition: tent and bedding 150, the most of both loads 105, and the pole of one of the roads.
    close(&moving_load(&trial, on).unwrap(), 150.0 + 60.0 + 45.0 + 7.0, "lb");
    // Tent and bedding, two people, and the greater of the camps: 20 + 5 + 3 against 27.
    close(&parked_load(&trial, on).unwrap(), 150.0 + 380.0 + 28.0, "lb");
    close(&on_roof(&trial).moving.unwrap(), 60.0 + 262.0, "lb");
    assert_eq!(
        inputs(&moving_load(&trial, on).unwrap()),
        [
            "`mass` of item `tent`",
            "`bedding` of item `tent`",
            "`mass` of load `bikes`",
            "`mass` of load `boat`",
            "`mass` of load `pole`"
        ]
    );
    // A load inside is none of the rack's.
    let inside =
        "\n[[load]]\ntag = \"bags\"\nmass = \"80 lb\"\nleast = \"80 lb\"\nat = { front = \"1 in\" }\n";
    let trial = build(FLAT, &format!("{SLEEPERS}{fitted}{inside}"));
    close(&moving_load(&trial, at(&trial, "rack")).unwrap(), 150.0, "lb");
}

#[test]
fn of_a_group_only_the_heaviest_is_on_the_rack() {
    let removable = |part: String| part.replace("zone = \"rack\"", "zone = \"rack\"\nremovable = true");
    let fitted = rack("front = \"30 in\"") + &removable(tent("front = \"0 in\""));
    let in_tent = "\n[[item]]\ntag = \"pack\"\nkind = \"module\"\nzone = \"tent\"\nmass = \"5 lb\"\n";
    let group = "\n[[either]]\nname = \"sleep or play\"\nof = [\"tent\", \"boat\"]\nnone = true\n";
    let moving = |boat: &str| {
        let loads = rides("boat", boat, "") + &rides("bikes", "60 lb", "");
        let trial = build(FLAT, &format!("{SLEEPERS}{fitted}{in_tent}{loads}{group}"));
        let on = at(&trial, "rack");
        let moving = moving_load(&trial, on).unwrap();
        close(&on_roof(&trial).moving.unwrap(), 60.0 + value(&moving, "lb"), "lb");
        (value(&moving, "lb").round(), inputs(&moving).contains(&"`mass` of load `boat`".to_owned()))
    };
    // The tent with its bedding and what is in it comes to 155 lb; bikes ride with either.
    assert_eq!(moving("154 lb"), (155.0 + 60.0, false));
    assert_eq!(moving("156 lb"), (156.0 + 60.0, true));
    // A group of which only one is on the roof, and a group on what is itself one of it.
    let trial = build(
        FLAT,
        &format!(
            "{}{}{}{}{}{}",
            rack("front = \"30 in\"").replace("feet", "removable = true\nfeet"),
            rides("bikes", "60 lb", ""),
            rides("boat", "45 lb", ""),
            "\n[[item]]\ntag = \"galley\"\nkind = \"module\"\nmass = \"900 lb\"\nremovable = true\nat = { front = \"1 in\" }\n",
            "\n[[either]]\nname = \"g\"\nof = [\"rack\", \"galley\"]\nnone = true\n",
            "\n[[either]]\nname = \"h\"\nof = [\"bikes\", \"boat\"]\nnone = true\n",
        ),
    );
    close(&moving_load(&trial, at(&trial, "rack")).unwrap(), 60.0, "lb");
    close(&on_roof(&trial).moving.unwrap(), 120.0, "lb");
    close(&on_roof(&trial).parked.unwrap(), 60.0, "lb");
}

#[test]
fn loads_on_a_rack_are_high_and_may_cover_a_vent_but_are_not_fitted() {
    let fitted = rack("front = \"30 in\"");
    let sized = "length = \"40 in\"\nwidth = \"20 in\"\nheight = \"30 in\"";
    let bikes = |more: &str| build(FLAT, &(fitted.clone() + &rides("bikes", "60 lb", more)));
    // Skin 97 in, rack 3 in, 2 in above it, 30 in high.
    close(&overall_height(&bikes(sized)).unwrap(), 132.0, "in");
    assert_eq!(overall_height(&bikes("")).unwrap_err().what, "`height` of load `bikes`");
    let trial = bikes(sized);
    assert!(air_gap(&trial, at(&trial, "rack")).unwrap().is_none(), "no part lies on the rack");
    // A vent ahead of the rack's rear edge, under the rack, and the same under the bikes in one of the camps.
    let under = vent("vent", "roof", "front = \"52 in\"");
    let camp = "\n[[state]]\nname = \"night\"\nuse = \"camp\"\ncarry = { bikes = \"9 lb\" }\n";
    let covered = |bikes: &str, camp: &str| {
        let trial = build(FLAT, &format!("{fitted}{}{under}{camp}", rides("bikes", "60 lb", bikes)));
        covered_vents(&trial).map(|_| covered_tags(&trial)).map_err(|missing| missing.what)
    };
    let pair = |over: &str| ("vent".to_owned(), over.to_owned());
    assert_eq!(covered(sized, ""), Ok(vec![pair("rack")]));
    assert_eq!(covered(sized, &camp.replace("\"camp\"", "\"road\"")), Ok(vec![pair("rack")]));
    assert_eq!(covered(sized, &camp.replace("9 lb", "0 lb")), Ok(vec![pair("rack")]));
    assert_eq!(covered(sized, camp), Ok(vec![pair("rack"), pair("bikes")]));
    assert_eq!(covered("width = \"20 in\"", camp), Err("`length` of load `bikes`".to_owned()));
    assert_eq!(covered("", ""), Ok(vec![pair("rack")]));
}

#[test]
fn what_loads_miss() {
    let fitted = rack("front = \"30 in\"") + &tent("front = \"0 in\"");
    let all = format!("{SLEEPERS}{fitted}");
    let what = |more: &str, parked: bool| {
        let trial = build(FLAT, more);
        let load = if parked { parked_load } else { moving_load };
        load(&trial, at(&trial, "rack")).unwrap_err().what
    };
    assert_eq!(what(&all.replace("mass = \"140 lb\"\n", ""), false), "`mass` of item `tent`");
    assert_eq!(what(&all.replace("bedding = \"10 lb\"\n", ""), false), "`bedding` of item `tent`");
    assert_eq!(what(&all.replace("people = 2\n", ""), true), "`people` of berth `loft`");
    assert_eq!(what(&all.replace("mass = \"190 lb\"\n", ""), true), "`mass` of `people` of the spec");
    assert_eq!(what(&fitted, true), "who sleeps in item `tent`");
    let per_foot = |more: &str| {
        let trial = build(FLAT, more);
        load_per_foot(&trial, at(&trial, "rack"), false).unwrap_err().what
    };
    assert_eq!(per_foot(&all.replace("feet = 4\n", "")), "`feet` of item `rack`");
    let trial = build(FLAT, &all);
    assert_eq!(
        moving_load(&trial, at(&trial, "tent")).unwrap_err().what,
        "a rack with the tag of item `tent`"
    );
}

#[test]
fn ladders() {
    let on = build(FLAT, &(rack("front = \"30 in\"") + &tent("front = \"0 in\"")));
    // Skin 97 in, rack 3 in, floor 2 in up in the tent.
    close(&tent_floor_height(&on, at(&on, "tent")).unwrap(), 102.0, "in");
    let rows = [
        (7.0, 7.23, "height 7 ft: 7 / sin 75.52°, 29 CFR 1926.1053(b)(5)(i)"),
        (7.746, 8.0, "working length 8 ft, foot 2 ft out: 7.746 ft high, the same"),
    ];
    for (height, expected, source) in rows {
        let needed = value(&ladder_needed(&Figure::constant(Quantity::feet(height))), "ft");
        assert!((needed - expected).abs() < 0.005, "{needed} ft, not {expected} ft: {source}");
    }
    let no_floor = build(
        FLAT,
        &(rack("front = \"30 in\"") + &tent("front = \"0 in\"").replace("floor = \"2 in\"\n", "")),
    );
    assert_eq!(
        tent_floor_height(&no_floor, at(&no_floor, "tent")).unwrap_err().what,
        "`floor` of item `tent`"
    );
}

#[test]
fn heights() {
    close(&overall_height(&build(FLAT, "")).unwrap(), 97.0, "in");
    let fitted = rack("front = \"30 in\"") + &tent("front = \"0 in\"");
    close(&overall_height(&build(FLAT, &fitted)).unwrap(), 112.0, "in");
    // What is in the closed tent stands no higher than the tent.
    let berth = "\n[[berth]]\ntag = \"loft\"\nzone = \"tent\"\nlength = \"80 in\"\nwidth = \"50 in\"\nheight = \"40 in\"\n";
    close(&overall_height(&build(FLAT, &(fitted.clone() + berth))).unwrap(), 112.0, "in");
    let locker = "\n[[locker]]\ntag = \"box\"\nzone = \"roof\"\nlength = \"20 in\"\nwidth = \"20 in\"\nheight = \"9 in\"\n\
                  at = { front = \"2 in\" }\n[[item]]\ntag = \"pole\"\nkind = \"module\"\nzone = \"box\"\nlength = \"2 in\"\n\
                  width = \"2 in\"\nheight = \"30 in\"\nat = { front = \"0 in\", left = \"0 in\" }\n";
    close(&overall_height(&build(FLAT, locker)).unwrap(), 127.0, "in");
    let unknown = fitted.replace("height = \"12 in\"\n", "");
    assert_eq!(overall_height(&build(FLAT, &unknown)).unwrap_err().what, "`height` of item `tent`");
}

fn vent(tag: &str, zone: &str, place: &str) -> String {
    format!(
        "\n[[vent]]\ntag = \"{tag}\"\nzone = \"{zone}\"\nlength = \"14 in\"\nwidth = \"14 in\"\nheight = \"3 in\"\nat = {{ {place} }}\n"
    )
}

fn covered_tags(trial: &Build) -> Vec<(String, String)> {
    let tag = |index: usize| trial.items[index].tag.value.clone();
    covered_vents(trial).unwrap().into_iter().map(|(vent, over)| (tag(vent), tag(over))).collect()
}

#[test]
fn vents_under_tents() {
    let fitted = rack("front = \"30 in\"") + &tent("front = \"0 in\"");
    let pair = |vent: &str, over: &str| (vent.to_owned(), over.to_owned());
    // Rack from 66 to 166 in behind the ball, tent from 66 to 150 in and 28 in aside; vents 14 in square.
    let clear = vent("vent", "roof", "front = \"2 in\"");
    assert_eq!(covered_tags(&build(FLAT, &(fitted.clone() + &clear))), []);
    let touching = vent("vent", "roof", "front = \"16 in\"");
    assert_eq!(covered_tags(&build(FLAT, &(fitted.clone() + &touching))), []);
    let under = vent("vent", "roof", "front = \"17 in\"");
    assert_eq!(
        covered_tags(&build(FLAT, &(fitted.clone() + &under))),
        [pair("vent", "rack"), pair("vent", "tent")]
    );
    let behind_tent = vent("vent", "roof", "ball = \"150 in\"");
    assert_eq!(covered_tags(&build(FLAT, &(fitted.clone() + &behind_tent))), [pair("vent", "rack")]);
    let beside = vent("vent", "roof", "front = \"60 in\", centre = \"36 in\"");
    assert_eq!(covered_tags(&build(FLAT, &(fitted.clone() + &beside))), [pair("vent", "rack")]);
    let in_wall = vent("vent", "left wall", "front = \"60 in\", floor = \"60 in\"");
    assert_eq!(covered_tags(&build(FLAT, &(fitted.clone() + &in_wall))), []);
    let on_skin = tent("front = \"0 in\"").replace("zone = \"rack\"", "zone = \"roof\"");
    assert_eq!(covered_tags(&build(FLAT, &(on_skin + &under))), [pair("vent", "tent")]);
    // Sizes are needed only where they could decide.
    let sizeless = |place: &str| {
        build(FLAT, &(fitted.clone() + &vent("vent", "roof", place).replace("length = \"14 in\"\n", "")))
    };
    assert_eq!(covered_vents(&sizeless("front = \"60 in\"")).unwrap_err().what, "`length` of vent `vent`");
    assert_eq!(covered_tags(&sizeless("ball = \"170 in\"")), []);
    let alone = vent("vent", "roof", "front = \"17 in\"").replace("length = \"14 in\"\n", "");
    assert_eq!(covered_tags(&build(FLAT, &alone)), []);
}

/// Overhang at front, rear, left and right, and reach ahead of, aside of and behind the roof, in metres.
fn measured(spec: &str) -> [f64; 7] {
    let trial = read(spec);
    let tent = at(&trial, "tent");
    let over = overhang(&trial, tent).unwrap();
    let beyond = beyond_roof(&trial, tent).unwrap();
    [over.front, over.rear, over.left, over.right, beyond.ahead, beyond.aside, beyond.behind]
        .map(|figure| figure.unwrap().quantity.si())
}

fn agree(one: [f64; 7], other: [f64; 7]) -> bool {
    one.iter().zip(other).all(|(one, other)| (one - other).abs() < 1e-9)
}

proptest! {
    #[test]
    fn overhangs_keep_in_mirror_metric_and_with_a_longer_tongue(
        nose in prop::sample::select(vec![FLAT, WEDGE, ROUND]),
        rack_front in -20_i32..60, rack_left in -10_i32..30,
        tent_front in -30_i32..40, tent_left in -20_i32..20, tongue in 30_i32..80,
    ) {
        let more = rack(&format!("front = \"{rack_front} in\", left = \"{rack_left} in\""))
            + &tent(&format!("front = \"{tent_front} in\", left = \"{tent_left}.125 in\""));
        let written = spec(nose, &more);
        let [front, rear, left, right, ahead, aside, behind] = measured(&written);
        prop_assert!(agree(measured(&mirrored(&written)), [front, rear, right, left, ahead, aside, behind]));
        prop_assert!(agree(measured(&in_metric(&written)), measured(&written)));
        let longer = spec_at(&format!("{tongue}.5 in"), nose, &more);
        prop_assert!(agree(measured(&longer), measured(&written)));
        // The tent's length is the rack's with both overhangs; so is its width.
        prop_assert!((front + rear - (84.0 - 100.0) * 0.0254).abs() < 1e-9);
        prop_assert!((left + right - (56.0 - 60.0) * 0.0254).abs() < 1e-9);
    }

    #[test]
    fn loads_keep_in_metric(people in 0_u32..5, bedding in 0_i32..40) {
        let more = format!("{SLEEPERS}{}{}", rack("front = \"30 in\""), tent("front = \"0 in\""))
            .replace("people = 2", &format!("people = {people}")).replace("10 lb", &format!("{bedding} lb"));
        let written = spec(FLAT, &more);
        let (us, metric) = (read(&written), read(&in_metric(&written)));
        let parked = parked_load(&us, at(&us, "rack")).unwrap();
        close(&parked, 140.0 + f64::from(bedding) + 190.0 * f64::from(people), "lb");
        let same = parked_load(&metric, at(&metric, "rack")).unwrap();
        prop_assert!((same.quantity.si() - parked.quantity.si()).abs() < 1e-9);
        let per_foot = load_per_foot(&metric, at(&metric, "rack"), true).unwrap();
        close(&per_foot, (60.0 + value(&parked, "lb")) / 4.0, "lb");
    }
}
