//! Free floor space in small boxes, worked out by hand.

use pintle_spec::Build;
use proptest::prelude::*;

use super::*;
use crate::space::trial::{FLAT, ROUND, WEDGE, at, build};

const INCH: f64 = 0.0254;

/// A part 20 in long, 20 in wide and 30 in high on the floor.
fn block(tag: &str, at: &str) -> String {
    format!(
        "[[item]]\ntag = \"{tag}\"\nkind = \"module\"\nmass = \"50 lb\"\nlength = \"20 in\"\nwidth = \"20 in\"\n\
         height = \"30 in\"\nat = {{ {at} }}\n"
    )
}

fn inches(found: &Stretches) -> Vec<(f64, f64)> {
    let round = |metres: f64| (metres / INCH * 1e3).round() / 1e3;
    found.iter().map(|(from, to)| (round(*from), round(*to))).collect()
}

fn free(build: &Build, tags: &[&str], along: Along) -> Vec<(f64, f64)> {
    let moving: Vec<usize> = tags.iter().map(|tag| at(build, tag)).collect();
    inches(&shifts(build, &moving, along).unwrap())
}

#[test]
fn a_part_alone_can_go_from_wall_to_wall() {
    let build = build(FLAT, &block("a", r#"front = "30 in", left = "10 in""#));
    assert_eq!(free(&build, &["a"], Along::Length), [(-30.0, 94.0)]);
    assert_eq!(free(&build, &["a"], Along::Width), [(-10.0, 42.0)]);
}

#[test]
fn another_part_in_the_way_leaves_room_before_and_behind_it() {
    let more = [
        block("a", r#"front = "0 in", left = "0 in""#),
        block("b", r#"front = "50 in", left = "10 in""#),
        block("c", r#"front = "90 in", right = "0 in""#),
    ];
    let build = build(FLAT, &more.concat());
    // Up to b's front at 50, and again from b's rear at 70; c is on the other side and in nobody's way.
    assert_eq!(free(&build, &["a"], Along::Length), [(0.0, 30.0), (70.0, 124.0)]);
    assert_eq!(free(&build, &["a"], Along::Width), [(0.0, 52.0)]);
    // b can slide past a only where it is clear of it.
    assert_eq!(free(&build, &["b"], Along::Width), [(-10.0, 42.0)]);
    // Both together: neither is in the other's way.
    assert_eq!(free(&build, &["a", "b"], Along::Length), [(0.0, 74.0)]);
}

#[test]
fn what_hangs_above_or_stands_below_is_not_in_the_way() {
    let shelf = "[[item]]\ntag = \"shelf\"\nkind = \"module\"\nmass = \"5 lb\"\nlength = \"20 in\"\nwidth = \"20 in\"\n\
                 height = \"5 in\"\nat = { front = \"60 in\", left = \"0 in\", floor = \"30 in\" }\n";
    let clear = build(FLAT, &[block("a", r#"front = "0 in", left = "0 in""#), shelf.to_owned()].concat());
    assert_eq!(free(&clear, &["a"], Along::Length), [(0.0, 124.0)]);
    let low = shelf.replace("30 in", "29 in");
    let low = build(FLAT, &[block("a", r#"front = "0 in", left = "0 in""#), low].concat());
    assert_eq!(free(&low, &["a"], Along::Length), [(0.0, 40.0), (80.0, 124.0)]);
}

#[test]
fn a_nose_leaves_room_as_its_outline_does() {
    // Flush with the wall a wedge or a round nose gives no room ahead of where the sides begin; on the centreline it does.
    for nose in [WEDGE, ROUND] {
        let build = build(nose, &block("a", r#"front = "10 in", left = "0 in""#));
        assert_eq!(free(&build, &["a"], Along::Length), [(-10.0, 114.0)]);
    }
    let wedge = build(WEDGE, &block("a", r#"front = "10 in", centre = "0 in""#));
    // A wedge 18 in deep with its tip on the centreline: 10 in aside it stands 18 × 10 / 36 = 5 in behind the tip.
    assert_eq!(free(&wedge, &["a"], Along::Length), [(-23.0, 114.0)]);
    // 9 in into the nose half the width is left, 18 in each way, for a part 20 in wide.
    let ahead = build(WEDGE, &block("a", r#"front = "-9 in", centre = "0 in""#));
    assert_eq!(free(&ahead, &["a"], Along::Width), [(-8.0, 8.0)]);
}

#[test]
fn zones_have_edges_of_their_own() {
    let rack = "[[item]]\ntag = \"rack\"\nkind = \"rack\"\nzone = \"roof\"\nmass = \"40 lb\"\nlength = \"60 in\"\nwidth = \"60 in\"\n\
                height = \"3 in\"\nat = { front = \"20 in\" }\n";
    let tent = "[[item]]\ntag = \"tent\"\nkind = \"tent\"\nzone = \"rack\"\nmass = \"100 lb\"\nlength = \"50 in\"\nwidth = \"40 in\"\n\
                height = \"10 in\"\nat = { front = \"-2 in\" }\n";
    let bottle = "[[item]]\ntag = \"bottle\"\nkind = \"equipment\"\nzone = \"tongue\"\nmass = \"20 lb\"\nlength = \"12 in\"\nwidth = \"12 in\"\n\
                  height = \"18 in\"\nat = { ball = \"20 in\" }\n";
    let build = build(FLAT, &[rack, tent, bottle].concat());
    // Outside, the box is 147 in long from 36 to 183.
    assert_eq!(free(&build, &["rack", "tent"], Along::Length), [(-20.0, 67.0)]);
    // The tent overhangs by two inches and may go on doing so, but no further.
    assert_eq!(free(&build, &["tent"], Along::Length), [(0.0, 12.0)]);
    assert_eq!(free(&build, &["tent"], Along::Width), [(-10.0, 10.0)]);
    assert_eq!(free(&build, &["bottle"], Along::Length), [(-20.0, 4.0)]);
}

#[test]
fn below_the_floor_the_axle_is_in_the_way() {
    let axle = "axle = { ball = \"120 in\", count = 1 }\n";
    let tank = "[[tank]]\ntag = \"t\"\nzone = \"underside\"\nmass = \"10 lb\"\nlength = \"20 in\"\nwidth = \"20 in\"\nheight = \"8 in\"\n\
                capacity = \"10 gal\"\nat = { rear = \"0 in\", ground = \"9 in\" }\n";
    let axle_and_tank = [axle, tank].concat();
    let build_of_tank = |more: &str| build(FLAT, more);
    let build = build_of_tank(&axle_and_tank);
    // Outside from 36 to 183; six inches on either side of the axle stay clear.
    assert_eq!(free(&build, &["t"], Along::Length), [(-127.0, -69.0), (-37.0, 0.0)]);
    assert_eq!(meetings(&build), []);
    let under = build_of_tank(&axle_and_tank.replace("rear = \"0 in\"", "axle = \"5 in\""));
    assert_eq!(meetings(&under), [(0, None)]);
}

#[test]
fn what_is_on_or_in_a_part_goes_along() {
    let more = [
        block("a", r#"front = "50 in", left = "10 in""#),
        // On top of a, within it, beside it, and above it without touching.
        block("on", r#"front = "55 in", left = "12 in", floor = "30 in""#).replace("20 in", "10 in"),
        block("in", r#"front = "52 in", left = "12 in", floor = "1 in""#).replace("20 in", "10 in").replace("30 in", "8 in"),
        block("beside", r#"front = "70 in", left = "10 in""#),
        block("above", r#"front = "55 in", left = "12 in", floor = "61 in""#).replace("20 in", "10 in").replace("30 in", "5 in"),
        "[[state]]\nname = \"s\"\nuse = \"road\"\nload = [\n\
         { what = \"pans\", mass = \"10 lb\", at = { front = \"60 in\", left = \"20 in\", floor = \"20 in\" } },\n\
         { what = \"bags\", mass = \"10 lb\", at = { front = \"80 in\", left = \"20 in\", floor = \"20 in\" } },\n\
         { what = \"lid\", mass = \"1 lb\", at = { front = \"60 in\", left = \"20 in\", floor = \"30 in\" } },\n\
         { what = \"lamp\", mass = \"1 lb\", at = { front = \"60 in\", left = \"20 in\", floor = \"61 in\" } },\n\
         { what = \"something\", mass = \"1 lb\", at = { front = \"60 in\", left = \"20 in\" } }]\n"
            .to_owned(),
    ];
    let build = build(FLAT, &more.concat());
    let tags = |moving: &[usize]| -> Vec<&str> {
        moving.iter().map(|at| build.items[*at].tag.value.as_str()).collect()
    };
    let group = carried(&build, at(&build, "a")).unwrap();
    assert_eq!(tags(&group), ["a", "on", "in"]);
    let stands: Vec<bool> = ["a", "on", "in", "beside", "above"]
        .iter()
        .map(|tag| stands_on_another(&build, at(&build, tag)).unwrap())
        .collect();
    assert_eq!(stands, [false, true, true, false, false]);
    let loads = loads_carried(&build, &build.states[0], &group).unwrap();
    let along: Vec<&str> =
        loads.iter().map(|(load, _)| build.states[0].loads[*load].what.value.as_str()).collect();
    assert_eq!(along, ["pans", "lid", "something"]);
}

#[test]
fn what_meets_is_found() {
    let beside =
        [block("a", r#"front = "50 in", left = "10 in""#), block("b", r#"front = "70 in", left = "10 in""#)];
    assert_eq!(meetings(&build(FLAT, &beside.concat())), []);
    let into =
        [block("a", r#"front = "50 in", left = "10 in""#), block("b", r#"front = "69 in", left = "10 in""#)];
    assert_eq!(meetings(&build(FLAT, &into.concat())), [(0, Some(1))]);
    let beyond = [
        "front = \"125 in\", left = \"10 in\"",
        "front = \"50 in\", left = \"-1 in\"",
        "front = \"50 in\", left = \"10 in\", ceiling = \"-1 in\"",
    ];
    for place in beyond {
        assert_eq!(meetings(&build(FLAT, &block("a", place))), [(0, None)], "{place}");
    }
    // A battery kept in a galley meets it too, and so do two parts in one and the same place.
    let a = block("a", r#"front = "50 in", left = "10 in""#);
    let kept =
        block("b", r#"front = "52 in", left = "12 in""#).replace("20 in", "10 in").replace("30 in", "10 in");
    assert_eq!(meetings(&build(FLAT, &[a.clone(), kept].concat())), [(0, Some(1))]);
    let same = a.replace("\"a\"", "\"b\"");
    assert_eq!(meetings(&build(FLAT, &[a, same].concat())), [(0, Some(1))]);
    // A cylinder in a locker by its zone does not.
    let locker = "[[locker]]\ntag = \"l\"\nlength = \"30 in\"\nwidth = \"30 in\"\nheight = \"40 in\"\nat = { front = \"0 in\", left = \"0 in\" }\n";
    let within = block("b", r#"front = "2 in", left = "2 in""#).replace("kind", "zone = \"l\"\nkind");
    assert_eq!(meetings(&build(FLAT, &[within, locker.to_owned()].concat())), []);
}

#[test]
fn spots_on_the_floor_for_something_new() {
    let build = build(FLAT, &block("a", r#"front = "50 in", left = "0 in""#));
    let size = [12.0 * INCH, 12.0 * INCH, 3.0 * INCH];
    let spots = |left: f64| inches(&floor_spots(&build, size, left * INCH).unwrap());
    // The box reaches from 37.5 to 181.5 in behind the ball, a from 87.5 to 107.5.
    assert_eq!(spots(-36.0), [(37.5, 75.5), (107.5, 169.5)]);
    assert_eq!(spots(0.0), [(37.5, 169.5)]);
    assert_eq!(spots(25.0), [], "it would stick out of the wall");
}

#[test]
fn a_place_that_is_not_known_is_no_room() {
    let unknown = block("b", r#"front = "50 in""#);
    let build = build(FLAT, &[block("a", r#"front = "0 in", left = "0 in""#), unknown].concat());
    let missing = shifts(&build, &[at(&build, "a")], Along::Length).unwrap_err();
    assert_eq!(missing.what, "the place across of item `b`");
    assert!(floor_spots(&build, [0.3, 0.3, 0.1], 0.0).is_err());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Moved by any shift that is free, a part meets nothing; moved by any other, it does. Tried inch by inch against
    /// the boxes themselves.
    #[test]
    fn free_is_what_meets_nothing(
        nose in prop::sample::select(vec![FLAT, WEDGE, ROUND]),
        a in (0..120_i32, 0..50_i32),
        b in (0..120_i32, 0..45_i32, 0..40_i32),
        c in (0..120_i32, 0..45_i32, 0..40_i32),
    ) {
        let other = |tag: &str, (front, left, floor): (i32, i32, i32)| {
            block(tag, &format!("front = \"{front} in\", left = \"{left} in\", floor = \"{floor} in\""))
                .replacen("20 in", "14 in", 1)
                .replacen("20 in", "26 in", 1)
        };
        let others = [other("b", b), other("c", c)].concat();
        let with = |front: i32, left: i32| {
            let moved = block("a", &format!("front = \"{front} in\", left = \"{left} in\""));
            build(nose, &[moved, others.clone()].concat())
        };
        let still = with(a.0, a.1);
        for along in [Along::Length, Along::Width] {
            let stretches = shifts(&still, &[0], along).unwrap();
            for inches in (-160..160).step_by(3) {
                let metres = f64::from(inches) * INCH;
                let free = stretches.iter().any(|(from, to)| *from <= metres + 1e-6 && metres <= *to + 1e-6);
                let moved = if along == Along::Length { with(a.0 + inches, a.1) } else { with(a.0, a.1 + inches) };
                let meets = meetings(&moved).iter().any(|(one, other)| *one == 0 || *other == Some(0));
                prop_assert_eq!(free, !meets, "{:?} by {} in: {:?}", along, inches, stretches);
            }
        }
    }
}
