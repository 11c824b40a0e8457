//! Where parts come to be, zone by zone, against coordinates worked by hand.
//!
//! The trailer, in inches: ball to box 40, walls 1, inside 144 × 70 × 72, roof 2, floor at 20, frame at 18, axle at
//! 130. A flat nose: outside of the front 40, inside 41, rear inside 41 + 144 = 185, outside 186. A round nose 20
//! deep: inside of the nose 41, sides begin at 61, rear 205 and 206. A wedge 30 deep: 71, 215 and 216. Walls inside
//! at ±35, outside at ±36; ceiling 20 + 72 = 92, skin 94.

use pintle_spec::{Build, Coordinate, Extent, Known, Missing, Reach};

use super::bench::{HEAD, STOCK, part, sound};

const FLAT: &str = "{ shape = \"flat\" }";
const ROUND: &str = "{ shape = \"round\", depth = \"20 in\" }";
const WEDGE: &str = "{ shape = \"wedge\", depth = \"30 in\", front_width = \"10 in\" }";

/// What others stand on. On a flat nose: rack x 40 + 18 = 58 to 118, y ±25, z 94 to 99; tent x 58 − 4 = 54 to 110,
/// y ±24, z 99 to 111, its floor at 102; locker x 41 + 10 = 51 to 81, y −35 to −15, z 20 to 44.
const HOSTS: &str = "\
[[item]]
tag = \"rack\"
part = \"rack-low\"
zone = \"roof\"
at = { front = \"18 in\" }
[[item]]
tag = \"tent\"
part = \"tent-soft\"
zone = \"rack\"
at = { front = \"-4 in\" }
[[locker]]
tag = \"box\"
at = { front = \"10 in\", left = \"0 in\" }
length = \"30 in\"
width = \"20 in\"
height = \"24 in\"
";

/// A build with a part `x`, 10 × 6 × 4 in, in a zone.
fn placed(nose: &str, zone: &str, at: &str) -> Build {
    let spec = format!(
        "{HEAD}[trailer]\npart = \"box\"\n{HOSTS}[[item]]\ntag = \"x\"\nkind = \"equipment\"\nzone = \"{zone}\"\n\
         at = {{ {at} }}\nlength = \"10 in\"\nwidth = \"6 in\"\nheight = \"4 in\"\n"
    );
    sound(&spec, &STOCK.replace(FLAT, nose))
}

#[track_caller]
fn is(reach: &Reach, near: f64, size: f64, what: &str) {
    let inches = |place: &Known<Coordinate>| place.as_ref().unwrap().metres / 0.0254;
    for (end, found, expected) in [
        ("near", inches(&reach.near), near),
        ("middle", inches(&reach.cg), near + size / 2.0),
        ("far", inches(&reach.far), near + size),
    ] {
        assert!((found - expected).abs() < 1e-9, "{what}: {end} end at {found} in, by hand {expected} in");
    }
}

#[track_caller]
fn unknown(reach: &Reach) -> &Missing {
    reach.near.as_ref().unwrap_err()
}

#[test]
fn every_zone_and_gap_by_hand() {
    // (nose, zone, place, near end of x, y and z by hand)
    #[rustfmt::skip]
    let rows: &[(&str, &str, &str, f64, f64, f64)] = &[
        // Inside: 41 + 3; −35 + 2; on the floor.
        (FLAT, "inside", "front = '3 in', left = '2 in'", 44.0, -33.0, 20.0),
        // 185 − 5 − 10; 35 − 4 − 6; 20 + 8.
        (FLAT, "inside", "rear = '5 in', right = '4 in', floor = '8 in'", 170.0, 25.0, 28.0),
        // Its middle 7 behind the axle and 2 left of the centreline; its top 3 below the ceiling: 92 − 3 − 4.
        (FLAT, "inside", "axle = '7 in', centre = '-2 in', ceiling = '3 in'", 132.0, -5.0, 85.0),
        (FLAT, "inside", "axle = '-7 in', centre = '2 in', ground = '30 in'", 118.0, -1.0, 30.0),
        (FLAT, "inside", "ball = '90 in', left = '0 in'", 90.0, -35.0, 20.0),
        (FLAT, "inside", "nose = '3 in', right = '0 in'", 44.0, 29.0, 20.0),
        // Round: from where the sides begin, 61 + 3; from the nose, 41 + 3; from the rear, 205 − 5 − 10.
        (ROUND, "inside", "front = '3 in', left = '2 in'", 64.0, -33.0, 20.0),
        (ROUND, "inside", "nose = '3 in', left = '2 in'", 44.0, -33.0, 20.0),
        (ROUND, "inside", "rear = '5 in', left = '2 in'", 190.0, -33.0, 20.0),
        (ROUND, "inside", "front = '-15 in', left = '2 in'", 46.0, -33.0, 20.0),
        // Wedge: 71 + 3; 41 + 3; 215 − 5 − 10.
        (WEDGE, "inside", "front = '3 in', left = '2 in'", 74.0, -33.0, 20.0),
        (WEDGE, "inside", "nose = '3 in', left = '2 in'", 44.0, -33.0, 20.0),
        (WEDGE, "inside", "rear = '5 in', left = '2 in'", 200.0, -33.0, 20.0),
        // On the tongue: 40 − 4 − 10; centred; on the frame. The nose's shape does not matter.
        (FLAT, "tongue", "box = '4 in'", 26.0, -3.0, 18.0),
        (ROUND, "tongue", "box = '4 in', centre = '5 in', frame = '2 in'", 26.0, 2.0, 20.0),
        (WEDGE, "tongue", "ball = '22 in', ground = '9 in'", 22.0, -3.0, 9.0),
        // On the roof, from the outside: 40 + 3; 186 − 5 − 10; −36 + 2; 36 − 4 − 6; 94 + 1.
        (FLAT, "roof", "front = '3 in'", 43.0, -3.0, 94.0),
        (FLAT, "roof", "rear = '5 in', left = '2 in', gap = '1 in'", 171.0, -34.0, 95.0),
        (FLAT, "roof", "axle = '0 in', right = '4 in'", 125.0, 26.0, 94.0),
        (FLAT, "roof", "nose = '3 in', centre = '9 in'", 43.0, 6.0, 94.0),
        (ROUND, "roof", "front = '3 in'", 64.0, -3.0, 94.0),
        (ROUND, "roof", "nose = '3 in'", 43.0, -3.0, 94.0),
        (ROUND, "roof", "rear = '5 in'", 191.0, -3.0, 94.0),
        (WEDGE, "roof", "front = '3 in'", 74.0, -3.0, 94.0),
        (WEDGE, "roof", "ball = '3 in'", 3.0, -3.0, 94.0),
        // On the front wall: 40 − 10, or a gap of 2 more; outside of the rear door 186, 206 and 216.
        (FLAT, "front wall", "floor = '30 in'", 30.0, -3.0, 50.0),
        (ROUND, "front wall", "gap = '2 in', left = '3 in', ceiling = '1 in'", 28.0, -33.0, 87.0),
        (FLAT, "rear door", "ground = '30 in'", 186.0, -3.0, 30.0),
        (ROUND, "rear door", "gap = '2 in', right = '3 in', floor = '1 in'", 208.0, 27.0, 21.0),
        (WEDGE, "rear door", "floor = '1 in'", 216.0, -3.0, 21.0),
        // In a wall: its middle on the wall's inside.
        (FLAT, "left wall", "front = '3 in', floor = '1/2 in'", 44.0, -38.0, 20.5),
        (ROUND, "right wall", "rear = '5 in', ceiling = '6 in'", 190.0, 32.0, 82.0),
        // Through the floor, from the inside; below it, from the outside: 186 − 5 − 10, −36 + 2.
        (FLAT, "floor", "front = '3 in', left = '2 in'", 44.0, -33.0, 20.0),
        (FLAT, "floor", "front = '3 in', left = '2 in', gap = '-4 in'", 44.0, -33.0, 16.0),
        (FLAT, "underside", "rear = '5 in', ground = '11 in'", 171.0, -3.0, 11.0),
        (WEDGE, "underside", "front = '3 in', left = '2 in', ground = '11 in'", 74.0, -34.0, 11.0),
        // On the rack, 58 to 118, ±25, top 99; it moves with the outside of the sides: 79 and 89.
        (FLAT, "rack", "front = '-4 in'", 54.0, -3.0, 99.0),
        (FLAT, "rack", "rear = '1 in', left = '2 in', gap = '1/2 in'", 107.0, -23.0, 99.5),
        (FLAT, "rack", "front = '0 in', right = '2 in'", 58.0, 17.0, 99.0),
        (FLAT, "rack", "front = '0 in', centre = '2 in'", 58.0, -1.0, 99.0),
        (ROUND, "rack", "front = '-4 in'", 75.0, -3.0, 99.0),
        (WEDGE, "rack", "front = '-4 in'", 85.0, -3.0, 99.0),
        // In the locker, 51 to 81, −35 to −15, 20 to 44; its middle is at y −25.
        (FLAT, "box", "front = '1 in', left = '2 in'", 52.0, -33.0, 20.0),
        (FLAT, "box", "rear = '1 in', right = '2 in', floor = '3 in'", 70.0, -23.0, 23.0),
        (FLAT, "box", "rear = '1 in', centre = '1 in', ceiling = '3 in'", 70.0, -27.0, 37.0),
        (ROUND, "box", "front = '1 in', left = '2 in'", 72.0, -33.0, 20.0),
        // In the tent, from 54, −24, and its floor at 99 + 3.
        (FLAT, "tent", "", 54.0, -24.0, 102.0),
        (FLAT, "tent", "front = '1 in', left = '2 in', floor = '5 in'", 55.0, -22.0, 107.0),
        (WEDGE, "tent", "", 85.0, -24.0, 102.0),
    ];
    for (nose, zone, at, x, y, z) in rows {
        let build = placed(nose, zone, at);
        let Extent { x: found_x, y: found_y, z: found_z } = &part(&build, "x").extent;
        let what = |axis: &str| format!("{axis} of {zone} {at}, nose {nose}");
        is(found_x, *x, 10.0, &what("x"));
        is(found_y, *y, 6.0, &what("y"));
        is(found_z, *z, 4.0, &what("z"));
    }
}

#[test]
fn the_surfaces_of_a_trailer_by_hand() {
    // (nose, nose outside and inside, sides begin inside and outside, rear inside and outside)
    let rows = [
        (FLAT, [40.0, 41.0, 41.0, 40.0, 185.0, 186.0]),
        (ROUND, [40.0, 41.0, 61.0, 61.0, 205.0, 206.0]),
        (WEDGE, [40.0, 41.0, 71.0, 71.0, 215.0, 216.0]),
    ];
    for (nose, by_hand) in rows {
        let s = placed(nose, "tent", "").surfaces;
        let along = [
            &s.nose_outside,
            &s.nose_inside,
            &s.square_inside,
            &s.square_outside,
            &s.rear_inside,
            &s.rear_outside,
        ];
        let others = [&s.axle, &s.wall_inside, &s.wall_outside, &s.floor, &s.ceiling, &s.skin, &s.frame];
        let by_hand = by_hand.into_iter().chain([130.0, 35.0, 36.0, 20.0, 92.0, 94.0, 18.0]);
        for ((found, by_hand), at) in along.into_iter().chain(others).zip(by_hand).zip(0..) {
            let inches = found.as_ref().unwrap().metres / 0.0254;
            assert!(
                (inches - by_hand).abs() < 1e-9,
                "surface {at}, nose {nose}: {inches}, by hand {by_hand}"
            );
        }
    }
}

#[test]
fn a_stated_centre_of_gravity_is_measured_from_the_near_end() {
    let spec = format!(
        "{HEAD}[trailer]\npart = \"box\"\n[[item]]\ntag = \"x\"\npart = \"galley\"\n\
         at = {{ rear = \"0 in\", right = \"0 in\" }}\ncg = {{ front = \"10 in\", floor = \"30 in\" }}\n"
    );
    let build = sound(&spec, STOCK);
    let extent = &part(&build, "x").extent;
    let inches = |place: &Known<Coordinate>| place.as_ref().unwrap().metres / 0.0254;
    // 40 × 20 × 36 in: x from 145 to 185, y from 15 to 35, z from 20.
    assert!((inches(&extent.x.cg) - 155.0).abs() < 1e-9);
    assert!((inches(&extent.y.cg) - 25.0).abs() < 1e-9, "its middle, where none is stated");
    assert!((inches(&extent.z.cg) - 50.0).abs() < 1e-9);
}

#[test]
fn what_is_not_given_is_missing_and_never_nought() {
    let stock = STOCK.replace("wall = \"1 in\"\n", "").replace("height = \"36 in\"\n", "");
    let spec = format!(
        "{HEAD}[trailer]\npart = \"box\"\n[[item]]\ntag = \"x\"\npart = \"galley\"\nat = {{ front = \"1 in\" }}\n\
         [[item]]\ntag = \"y\"\npart = \"galley\"\nat = {{ ball = \"90 in\", left = \"1 in\" }}\n"
    );
    let build = sound(&spec, &stock);
    let x = &part(&build, "x").extent;
    assert_eq!(unknown(&x.x).what, "`wall` of the trailer");
    assert_eq!(unknown(&x.y).what, "the place across of item `x`");
    assert_eq!(unknown(&x.y).help, "give one of `left`, `right` and `centre` in its `at`");
    let y = &part(&build, "y").extent;
    assert!(y.x.near.is_ok() && y.x.far.is_ok(), "from the ball no wall is needed");
    assert!(y.z.near.is_ok(), "it stands on the floor");
    assert_eq!(y.z.far.as_ref().unwrap_err().what, "`height` of item `y`");
    assert_eq!(y.z.cg.as_ref().unwrap_err().what, "`height` of item `y`");
}

#[test]
fn a_load_without_a_size_is_a_point_and_one_without_a_height_is_nowhere_upright() {
    let spec = format!(
        "{HEAD}[trailer]\npart = \"box\"\n{HOSTS}[[state]]\nname = \"s\"\nuse = \"road\"\nload = [\n\
         {{ what = \"a\", mass = \"1 lb\", at = {{ rear = \"5 in\", left = \"2 in\", floor = \"3 in\" }} }},\n\
         {{ what = \"b\", mass = \"1 lb\", at = {{ axle = \"0 in\", centre = \"0 in\" }}, length = \"10 in\" }},\n\
         {{ what = \"c\", mass = \"1 lb\", zone = \"rack\", at = {{ front = \"1 in\", gap = \"0 in\" }} }},\n]\n"
    );
    let build = sound(&spec, STOCK);
    let [a, b, c] = &build.states[0].loads[..] else { panic!("three loads") };
    is(&a.extent.x, 180.0, 0.0, "a, x");
    is(&a.extent.y, -33.0, 0.0, "a, y");
    is(&a.extent.z, 23.0, 0.0, "a, z");
    is(&b.extent.x, 125.0, 10.0, "b, x");
    assert_eq!(unknown(&b.extent.z).what, "the place upright of load `b`");
    is(&c.extent.x, 59.0, 0.0, "c, x");
    is(&c.extent.z, 99.0, 0.0, "c, z");
}

#[test]
fn a_coordinate_knows_what_it_was_worked_out_from() {
    let build = placed(ROUND, "inside", "rear = '5 in', left = '2 in'");
    let near = part(&build, "x").extent.x.near.as_ref().unwrap();
    let names: Vec<String> = near.inputs().map(pintle_spec::Named::name).collect();
    assert_eq!(
        names,
        [
            "`ball_to_box` of the trailer",
            "`wall` of the trailer",
            "`depth` of `nose` of the trailer",
            "`length` of the trailer",
            "`rear` of `at` of item `x`",
            "`length` of item `x`",
        ]
    );
}

#[test]
fn an_opening_is_flush_with_its_wall_unless_it_says_how_thick_it_is() {
    let opening = |zone: &str, sizes: &str| {
        let spec = format!(
            "{HEAD}[trailer]\npart = \"box\"\n[[opening]]\ntag = \"x\"\nzone = \"{zone}\"\nat = {{}}\n{sizes}\n"
        );
        sound(&spec, STOCK).item("x").unwrap().extent.clone()
    };
    let (wide, high, long) = ("width = \"30 in\"\n", "height = \"40 in\"\n", "length = \"20 in\"\n");
    is(&opening("rear door", &[wide, high].concat()).x, 186.0, 0.0, "a door in the rear, behind 185 + 1");
    is(&opening("rear door", &[wide, high, long].concat()).x, 186.0, 20.0, "one that says how thick it is");
    is(&opening("roof", &[wide, long].concat()).z, 94.0, 0.0, "a hatch in the roof");
    assert!(opening("left wall", &[high, long].concat()).y.far.is_ok(), "a window in the wall");
    // Along its wall its size is needed.
    let wide = opening("rear door", high);
    assert_eq!(wide.y.far.unwrap_err().what, "`width` of opening `x`");
}
