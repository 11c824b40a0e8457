use geo::{Area, BooleanOps, ConvexHull, MultiPolygon, Rotate, Translate, coord};
use proptest::prelude::*;

use super::{Pose, TOUCH};
use crate::space::trial::{FLAT, ROUND, WEDGE, build, in_metric, mirrored, read, spec, value};
use crate::space::workings::tests::{figure, flag, list, missing, of, one};
use crate::working::Outcome;

fn door(zone: &str, clear: &str, at: &str) -> String {
    let [width, height] = clear.split(' ').collect::<Vec<_>>()[..] else { panic!() };
    let along = if zone == "rear door" { "width" } else { "length" };
    format!(
        "\n[[opening]]\ntag = \"{zone}\"\nzone = \"{zone}\"\nsort = \"door\"\n{along} = \"{width} in\"\nheight = \"{height} in\"\nclear_width = \"{width} in\"\nclear_height = \"{height} in\"\nat = {{ {at}, floor = \"0 in\" }}\n"
    )
}

fn module(tag: &str, size: &str, at: &str, more: &str) -> String {
    let [length, width, height] = size.split(' ').collect::<Vec<_>>()[..] else { panic!() };
    format!(
        "\n[[item]]\ntag = \"{tag}\"\nkind = \"module\"\nmass = \"102 lb\"\nlength = \"{length} in\"\nwidth = \"{width} in\"\nheight = \"{height} in\"\nat = {{ {at} }}\n{more}\n"
    )
}

const OUT: &str = "removable = true";

fn comes_out(nose: &str, more: &str) -> bool {
    flag(&of(&build(nose, more)), "comes_out", "item `galley`")
}

#[test]
fn straight_out_by_the_rear() {
    let galley = module("galley", "54 20 36", "front = \"20 in\", right = \"0 in\"", OUT);
    let rear = door("rear door", "60 66", "centre = \"0 in\"");
    for nose in [FLAT, WEDGE, ROUND] {
        assert!(comes_out(nose, &format!("{galley}{rear}")));
    }
    let all = of(&build(FLAT, &format!("{galley}{rear}")));
    assert!(
        (value(&figure(&all, "door_slack", "item `galley`"), "in") - 30.0).abs() < 1e-9,
        "66 − 36 in above it"
    );
    let Ok(Outcome::Text(by)) = &one(&all, "comes_out_by", "item `galley`").outcome else { panic!() };
    assert!(by.starts_with("opening `rear door`, in "), "{by}");
    // 102 lb against 51 lb.
    assert!((figure(&all, "lift_share", "item `galley`").quantity.si() - 2.0).abs() < 1e-12);
}

#[test]
fn the_door_it_comes_out_by_is_named() {
    let narrow =
        door("left wall", "19 66", "front = \"0 in\"").replace("tag = \"left wall\"", "tag = \"narrow\"");
    let wide =
        door("left wall", "56 66", "front = \"40 in\"").replace("tag = \"left wall\"", "tag = \"wide\"");
    let galley = module("galley", "54 20 36", "front = \"40 in\", right = \"0 in\"", OUT);
    let all = of(&build(FLAT, &format!("{galley}{narrow}{wide}")));
    let Ok(Outcome::Text(by)) = &one(&all, "comes_out_by", "item `galley`").outcome else { panic!() };
    assert!(by.starts_with("opening `wide`, in "), "{by}");
}

#[test]
fn what_is_wider_or_higher_than_the_door_stays_in() {
    let galley = |size: &str| module("galley", size, "front = \"20 in\", right = \"0 in\"", OUT);
    let rear = door("rear door", "30 60", "centre = \"0 in\"");
    assert!(!comes_out(FLAT, &format!("{}{rear}", galley("54 30.2 36"))));
    assert!(!comes_out(FLAT, &format!("{}{rear}", galley("54 20 60.2"))));
    assert!(comes_out(FLAT, &format!("{}{rear}", galley("54 29 59"))));
    let all = of(&build(FLAT, &format!("{}{rear}", galley("54 30.2 36"))));
    assert!((value(&figure(&all, "door_slack", "item `galley`"), "in") + 0.2).abs() < 1e-9);
}

/// A part that lies along the box has to be turned to go out by its side: 60 in long in a room 72 in wide it can be; a part
/// 80 in long cannot even be turned across.
#[test]
fn turned_and_out_by_the_side() {
    let side = door("left wall", "24 66", "front = \"60 in\"");
    let galley = |length: u32| {
        module("galley", &format!("{length} 20 36"), "front = \"10 in\", right = \"0 in\"", OUT)
    };
    let all = of(&build(FLAT, &format!("{}{side}", galley(60))));
    assert!(flag(&all, "comes_out", "item `galley`"));
    assert!(!comes_out(FLAT, &format!("{}{side}", galley(120))));
}

#[test]
fn past_what_stands_in_the_way() {
    let rear = door("rear door", "60 66", "centre = \"0 in\"");
    let galley = module("galley", "40 24 36", "front = \"10 in\", right = \"0 in\"", OUT);
    let wardrobe = |width: f64, more: &str| {
        module("wardrobe", &format!("24 {width} 66"), "front = \"80 in\", left = \"0 in\"", more)
    };
    assert!(comes_out(FLAT, &format!("{galley}{rear}{}", wardrobe(40.0, ""))), "32 in are left beside it");
    assert!(!comes_out(FLAT, &format!("{galley}{rear}{}", wardrobe(48.2, ""))), "23.8 in are left beside it");
    let all = of(&build(FLAT, &format!("{galley}{rear}{}", wardrobe(48.2, OUT))));
    assert!(!flag(&all, "comes_out", "item `galley`"));
    assert!(flag(&all, "comes_out_last", "item `galley`"), "once the wardrobe is out");
    assert_eq!(list(&all, "comes_out_after", "item `galley`"), ["item `wardrobe`"]);
    // What can be taken out and is not in the way may stay.
    let chest = module("chest", "10 10 10", "front = \"0 in\", left = \"0 in\"", OUT);
    let all = of(&build(FLAT, &format!("{galley}{rear}{chest}{}", wardrobe(48.2, OUT))));
    assert_eq!(list(&all, "comes_out_after", "item `galley`"), ["item `wardrobe`"]);
    assert!(
        !all.iter().any(|one| one.key == "comes_out_after" && one.of == "item `chest`"),
        "it comes out first"
    );
    // High above it hangs what it passes under; a shelf that it stands on is no obstacle.
    let shelf = module("shelf", "60 70 2", "front = \"70 in\", left = \"1 in\", floor = \"40 in\"", "");
    assert!(comes_out(FLAT, &format!("{galley}{rear}{shelf}")));
    let low = shelf.replace("floor = \"40 in\"", "floor = \"30 in\"");
    assert!(!comes_out(FLAT, &format!("{galley}{rear}{low}")));
}

/// Over a bed whose top is 20 in up: what one person lifts goes over it, what is heavier does not.
#[test]
fn lifted_over_a_bed() {
    let galley = |mass: &str| {
        module("galley", "20 40 30", "front = \"10 in\", centre = \"0 in\"", OUT).replace("102 lb", mass)
    };
    let deck = module("deck", "60 72 6", "rear = \"0 in\", centre = \"0 in\", floor = \"14 in\"", "");
    let rear = |clear: &str| door("rear door", clear, "centre = \"0 in\"");
    assert!(comes_out(FLAT, &format!("{}{deck}{}", galley("51 lb"), rear("60 66"))));
    assert!(
        !comes_out(FLAT, &format!("{}{deck}{}", galley("51.1 lb"), rear("60 66"))),
        "too heavy to lift over it"
    );
    // Its top is 50 in up then: as high as the door, or not.
    assert!(comes_out(FLAT, &format!("{}{deck}{}", galley("51 lb"), rear("60 50"))));
    assert!(!comes_out(FLAT, &format!("{}{deck}{}", galley("51 lb"), rear("60 49.9"))));
    // A shelf over the galley keeps it down, one behind it as well; one that hangs higher does neither.
    let shelf = |front: u32, floor: u32| {
        let at = format!("front = \"{front} in\", centre = \"0 in\", floor = \"{floor} in\"");
        module("shelf", "20 70 2", &at, "")
    };
    for (front, floor, out) in [(10, 40, false), (10, 50, true), (80, 40, false), (80, 50, true)] {
        let found =
            comes_out(FLAT, &format!("{}{deck}{}{}", galley("51 lb"), rear("60 66"), shelf(front, floor)));
        assert_eq!(found, out, "a shelf at {front} in, {floor} in up");
    }
    let unweighed = galley("51 lb").replace("mass = \"51 lb\"\n", "");
    let all = of(&build(FLAT, &format!("{unweighed}{deck}{}", rear("60 66"))));
    assert_eq!(missing(&all, "comes_out", "item `galley`").what, "`mass` of item `galley`");
}

#[test]
fn wheel_boxes_are_in_the_way() {
    let rear = door("rear door", "60 66", "centre = \"0 in\"");
    let galley = module("galley", "40 50 36", "front = \"10 in\", right = \"1 in\"", OUT);
    let wheels = |width: u32| {
        spec(FLAT, &format!("{galley}{rear}")).replace(
            "frame_height = \"17 in\"",
            &format!("frame_height = \"17 in\"\naxle = {{ ball = \"120 in\" }}\nwheel_box = {{ length = \"30 in\", width = \"{width} in\", height = \"9 in\" }}"),
        )
    };
    let out = |width: u32| flag(&of(&read(&wheels(width))), "comes_out", "item `galley`");
    assert!(out(8), "56 in are left between them");
    assert!(!out(17), "38 in are left between them, less than either side of it");
}

#[test]
fn what_is_not_known_is_said() {
    let galley = module("galley", "54 20 36", "front = \"20 in\", right = \"0 in\"", OUT);
    let all = of(&build(FLAT, &galley));
    assert_eq!(missing(&all, "comes_out", "item `galley`").what, "a door that parts are carried out by");
    let rear = door("rear door", "60 66", "centre = \"0 in\"");
    let unclear = rear.replace("clear_height = \"66 in\"\n", "");
    let all = of(&build(FLAT, &format!("{galley}{unclear}")));
    assert_eq!(missing(&all, "comes_out", "item `galley`").what, "`clear_height` of opening `rear door`");
    let other = module("box", "10 10 10", "left = \"0 in\"", "");
    let all = of(&build(FLAT, &format!("{galley}{rear}{other}")));
    assert_eq!(missing(&all, "comes_out", "item `galley`").what, "the place fore and aft of item `box`");
    let light = galley.replace("mass = \"102 lb\"\n", "");
    let all = of(&build(FLAT, &format!("{light}{rear}")));
    assert_eq!(missing(&all, "lift_share", "item `galley`").what, "`mass` of item `galley`");
}

#[test]
fn a_grid_that_is_too_fine_is_refused_in_words() {
    let galley = module("galley", "54 20 36", "front = \"20 in\", right = \"0 in\"", OUT);
    let rear = door("rear door", "60 66", "centre = \"0 in\"");
    for (stride, turn) in [("0.1 in", "5 °"), ("0.000001 in", "5 °"), ("2 in", "0.00001 °")] {
        let fine = format!("{galley}{rear}\n[assume.space]\nstride = \"{stride}\"\nturn = \"{turn}\"\n");
        let all = of(&build(FLAT, &fine));
        assert!(
            missing(&all, "comes_out", "item `galley`").what.contains("places to try"),
            "{stride} {turn}"
        );
    }
}

/// The polygon of a pose, by the library.
fn polygon(pose: &Pose) -> MultiPolygon<f64> {
    let (a, b) = pose.half;
    let turn = pose.turn.1.atan2(pose.turn.0).to_degrees();
    let flat = geo::Rect::new(coord! { x: -a, y: -b }, coord! { x: a, y: b }).to_polygon();
    let turned = flat.rotate_around_point(turn, geo::point! { x: 0.0, y: 0.0 });
    // What a convex shape sweeps as it slides straight on is the hull of its first and its last place.
    let places = [0.0, 1.0].map(|slid| {
        turned.translate(pose.middle.0 + slid * pose.slide.0, pose.middle.1 + slid * pose.slide.1)
    });
    MultiPolygon::new(vec![MultiPolygon::new(places.to_vec()).convex_hull()])
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(500))]
    /// A slide meets a box where, by the library's polygons, it shares room with it.
    #[test]
    fn slides_meet_as_polygons_do(
        x in -2.0..2.0_f64, y in -2.0..2.0_f64, a in 0.1..1.0_f64, b in 0.1..1.0_f64, turn in 0.0..3.1_f64,
        slide in -0.9..0.9_f64, across in prop::bool::ANY,
    ) {
        let slide = if across { (0.0, slide) } else { (slide, 0.0) };
        let pose = Pose { middle: (x, y), half: (a, b), turn: (turn.cos(), turn.sin()), slide };
        let (bx, by) = ((-0.5, 0.5), (-0.3, 0.7));
        let block = MultiPolygon::new(vec![geo::Rect::new(coord! { x: bx.0, y: by.0 }, coord! { x: bx.1, y: by.1 }).to_polygon()]);
        let shared = polygon(&pose).intersection(&block).unsigned_area();
        // Less than this is within what the millimetre of slack leaves open.
        if shared > 3e-3 {
            prop_assert!(pose.meets(bx, by), "{shared} m² are shared");
        } else if shared <= 0.0 {
            prop_assert!(!pose.meets(bx, by));
        }
        prop_assert!(TOUCH > 0.0);
    }

    /// Whatever a box sweeps as it turns lies in the box that is looked at instead.
    #[test]
    fn turns_are_held_by_what_is_looked_at(a in 0.1..1.0_f64, b in 0.1..1.0_f64, part in 0.0..1.0_f64) {
        let angle: f64 = 5.0_f64.to_radians();
        let more = a.hypot(b) * 2.0 * (angle / 4.0).sin();
        let held = Pose {
            middle: (0.0, 0.0),
            half: (a + more, b + more),
            turn: ((angle / 2.0).cos(), (angle / 2.0).sin()),
            slide: (0.0, 0.0),
        };
        let turned = part * angle;
        let own = Pose { middle: (0.0, 0.0), half: (a, b), turn: (turned.cos(), turned.sin()), slide: (0.0, 0.0) };
        for (x, y) in own.corners() {
            let (u, v) = (x * held.turn.0 + y * held.turn.1, y * held.turn.0 - x * held.turn.1);
            prop_assert!(u.abs() <= held.half.0 + 1e-12 && v.abs() <= held.half.1 + 1e-12);
        }
    }
}

/// Found or not found, it is the same in the mirror and in metric.
#[test]
fn ways_out_keep_in_mirror_and_metric() {
    let side = door("left wall", "24 66", "front = \"60 in\"");
    for width in [20, 23, 26] {
        let galley = module("galley", &format!("50 {width} 36"), "front = \"10 in\", right = \"0 in\"", OUT);
        let written = spec(ROUND, &format!("{galley}{side}"));
        let found = |text: &str| flag(&of(&read(text)), "comes_out", "item `galley`");
        let here = found(&written);
        assert_eq!(here, width < 24);
        assert_eq!(found(&mirrored(&written)), here);
        assert_eq!(found(&in_metric(&written)), here);
    }
}
