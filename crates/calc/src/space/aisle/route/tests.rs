use geo::{Distance, Euclidean, Point, coord};

use super::night;
use crate::Places;
use crate::case::Case;
use crate::space::trial::{FLAT, at, build};
use crate::space::workings::tests::defaults;

/// A bed across the rear, a door in the left wall at the front, and a cabinet between them that leaves 24 in at the right
/// wall: the box is 144 × 72 in, its sides begin 37.5 in behind the ball.
const ROOM: &str = r#"
[[berth]]
tag = "bed"
length = "54 in"
width = "72 in"
height = "5 in"
people = 2
at = { rear = "0 in", centre = "0 in", floor = "16 in" }
[[item]]
tag = "cabinet"
kind = "module"
length = "10 in"
width = "48 in"
height = "60 in"
at = { front = "50 in", left = "0 in" }
[[opening]]
tag = "door"
zone = "left wall"
sort = "door"
exit = true
length = "22 in"
height = "64 in"
clear_width = "20 in"
clear_height = "62 in"
at = { front = "2 in", floor = "1 in" }
[[state]]
name = "night"
use = "camp"
people = [{ berth = "bed", count = 2 }]
"#;

const INCH: f64 = 0.0254;

#[test]
fn a_way_leaves_its_room_on_all_sides_and_goes_through_the_gap() {
    let build = build(FLAT, ROOM);
    let (assumptions, places) = (defaults(), Places::default());
    let case = Case { build: &build, assumptions: &assumptions, places: &places };
    let night = night(&case, 0).unwrap();
    let routes = night.routes.unwrap();
    let [route] = routes.as_slice() else { panic!("{routes:?}") };
    assert_eq!((route.berth, route.exit), (at(&build, "bed"), at(&build, "door")));
    let line = route.line.clone().unwrap().unwrap();
    let cabinet =
        geo::Rect::new(coord! { x: 87.5 * INCH, y: -36.0 * INCH }, coord! { x: 97.5 * INCH, y: 12.0 * INCH })
            .to_polygon();
    let (last, way) = line.split_last().unwrap();
    assert!((last.0 - 50.5 * INCH).abs() < 1e-9 && (last.1 + 36.0 * INCH).abs() < 1e-9, "the door's middle");
    for leg in way.windows(2) {
        for share in (0..=50).map(|step| f64::from(step) / 50.0) {
            let place = (leg[0].0 + share * (leg[1].0 - leg[0].0), leg[0].1 + share * (leg[1].1 - leg[0].1));
            let off = Euclidean.distance(&Point::new(place.0, place.1), &cabinet);
            assert!(off > route.width / 2.0 - 0.013, "{place:?} is {off} m from the cabinet");
            assert!(place.1.abs() < 36.0 * INCH - route.width / 2.0 + 0.013, "{place:?} is in a wall");
        }
    }
    assert!(way.iter().any(|place| place.1 > 12.0 * INCH), "it goes by the gap: {way:?}");
    assert!(way[0].0 > 100.0 * INCH, "it begins at the bed: {way:?}");
}

#[test]
fn there_is_no_way_where_the_cabinet_fills_the_room() {
    let build = build(FLAT, &ROOM.replace("width = \"48 in\"", "width = \"72 in\""));
    let (assumptions, places) = (defaults(), Places::default());
    let case = Case { build: &build, assumptions: &assumptions, places: &places };
    assert_eq!(night(&case, 0).unwrap().routes.unwrap()[0].line, Ok(None));
}

#[test]
fn where_no_way_out_is_named_the_floor_is_known_and_the_ways_are_not() {
    let (before, rest) = ROOM.split_once("[[opening]]").unwrap();
    let (_, state) = rest.split_once("[[state]]").unwrap();
    let build = build(FLAT, &format!("{before}[[state]]{state}"));
    let (assumptions, places) = (defaults(), Places::default());
    let night = night(&Case { build: &build, assumptions: &assumptions, places: &places }, 0).unwrap();
    assert_eq!(night.free.len(), 1, "{:?}", night.free);
    assert!(night.routes.is_err());
}
