use proptest::prelude::*;

use super::outline::Outline;
use super::trial::{
    FLAT, ROUND, WEDGE, at, build, close, in_metric, inputs, mirrored, read, spec, spec_at, value,
};
use super::{Where, inside_length, plan_area, roof_front_at, whereabouts};
use crate::Figure;
use pintle_quantity::Quantity;

const BLUNT: &str = r#"{ shape = "wedge", depth = "12 in", front_width = "36 in" }"#;

/// A cylinder 12 × 12 × 18 in, in a zone and at a place.
fn cylinder(zone: &str, place: &str) -> String {
    format!(
        r#"
[[item]]
tag = "gas"
kind = "cylinder"
zone = "{zone}"
length = "12 in"
width = "12 in"
height = "18 in"
at = {{ {place} }}
"#
    )
}

/// A locker 24 × 20 × 20 in with its foremost left corner on the floor at a place.
fn locker(tag: &str, place: &str, more: &str) -> String {
    format!(
        r#"
[[locker]]
tag = "{tag}"
length = "24 in"
width = "20 in"
height = "20 in"
at = {{ {place} }}
{more}
"#
    )
}

const SEALED: &str = "opens = \"outside\"\nsealed = true";

fn berth(tag: &str, front: &str) -> String {
    format!(
        r#"
[[berth]]
tag = "{tag}"
length = "75 in"
width = "30 in"
height = "20 in"
at = {{ front = "{front}", left = "0 in" }}
"#
    )
}

fn bulkhead(tag: &str, front: &str, more: &str) -> String {
    format!(
        r#"
[[bulkhead]]
tag = "{tag}"
length = "1 in"
at = {{ front = "{front}", left = "0 in" }}
{more}
"#
    )
}

#[test]
fn plan_areas() {
    // nose, ft², source
    let rows = [
        (FLAT, 72.0, "144 × 72 in"),
        (WEDGE, 76.5, "shapely 2.2.0, 144 × 72 in box with an 18 in triangular nose"),
        (BLUNT, 76.5, "shapely 2.2.0, the same with a trapezoid 12 in deep, 72 to 36 in"),
        (ROUND, 72.0 + std::f64::consts::PI / 4.0 * 6.0 * 1.5, "half an ellipse, π/4 × width × depth"),
    ];
    for (nose, expected, source) in rows {
        let trial = build(nose, "");
        let area = value(&plan_area(&trial).unwrap(), "ft²");
        assert!((area - expected).abs() < 1e-9, "{area} ft² for {nose}: {source}");
        // The outline, integrated, agrees with the formula.
        let square_metres = Outline::inside(&trial).unwrap().area_of(-100.0, 100.0, -100.0, 100.0);
        close(&plan_area(&trial).unwrap(), square_metres, "m²");
    }
}

#[test]
fn a_plan_area_knows_its_inputs() {
    let area = plan_area(&build(BLUNT, "")).unwrap();
    assert_eq!(
        inputs(&area),
        [
            "`width` of the trailer",
            "`length` of the trailer",
            "`front_width` of `nose` of the trailer",
            "`depth` of `nose` of the trailer"
        ]
    );
}

#[test]
fn sealed_lockers_on_the_floor_are_no_living_space() {
    let sealed = locker("box", "front = \"0 in\", left = \"0 in\"", SEALED);
    let beside = locker("other", "front = \"12 in\", left = \"10 in\"", SEALED);
    let open = locker("box", "front = \"0 in\", left = \"0 in\"", "opens = \"inside\"");
    let leaky = locker("box", "front = \"0 in\", left = \"0 in\"", "opens = \"outside\"\nsealed = false");
    let overhead = locker("box", "front = \"0 in\", left = \"0 in\", floor = \"40 in\"", SEALED);
    let tongue = locker("box", "ball = \"4 in\"", "zone = \"tongue\"");
    let whole = 144.0 * 72.0;
    // Arithmetic on rectangles; no published case.
    let rows = [
        (&sealed, 480.0, "24 × 20 in"),
        (&open, 0.0, "opens to the inside"),
        (&leaky, 0.0, "not sealed"),
        (&overhead, 0.0, "floor under it"),
        (&tongue, 0.0, "outside: it need not say how it opens"),
        (&format!("{sealed}{beside}"), 960.0 - 120.0, "what both cover is counted once: 12 × 10 in"),
        (&format!("{beside}{sealed}"), 960.0 - 120.0, "in either order"),
    ];
    for (lockers, off, what) in rows {
        let area = value(&plan_area(&build(FLAT, lockers)).unwrap(), "in²");
        assert!((area - (whole - off)).abs() < 1e-6, "{area} in²: {what}");
    }
    // A locker over the whole of a wedge takes off the wedge and no more: 18 × 72 / 2 in².
    let nose = "\n[[locker]]\ntag = \"box\"\nlength = \"18 in\"\nwidth = \"72 in\"\nheight = \"20 in\"\n\
                at = { nose = \"0 in\", left = \"0 in\" }\nopens = \"outside\"\nsealed = true\n";
    let area = value(&plan_area(&build(WEDGE, nose)).unwrap(), "in²");
    assert!((area - whole).abs() < 1e-6, "{area} in²");
}

#[test]
fn what_a_plan_area_misses() {
    let unsaid = build(FLAT, &locker("box", "front = \"0 in\", left = \"0 in\"", "sealed = true"));
    assert_eq!(plan_area(&unsaid).unwrap_err().what, "`opens` of locker `box`");
    let narrow = read(&spec(FLAT, "").replace("width = \"72 in\"\n", ""));
    assert_eq!(plan_area(&narrow).unwrap_err().what, "`width` of the trailer");
    let blunt = BLUNT.replace("36 in", "80 in");
    let too_wide = locker("box", "front = \"0 in\", left = \"0 in\"", SEALED);
    let missing = plan_area(&build(&blunt, &too_wide)).unwrap_err();
    assert_eq!(missing.what, "a `front_width` of `nose` of the trailer no wider than the trailer");
}

#[test]
fn inside_lengths() {
    // "a wedge nose gives about 1 ft 6 in more at the centreline; nominal 12 ft, about 13 ft 6 in": common practice.
    close(&inside_length(&build(WEDGE, "")).unwrap(), 13.5, "ft");
    close(&inside_length(&build(FLAT, "")).unwrap(), 12.0, "ft");
    assert_eq!(inputs(&inside_length(&build(FLAT, "")).unwrap()), ["`length` of the trailer"]);
}

#[test]
fn fronts_of_the_roof() {
    // Outside: 36 in to the nose, sides from 55.5 in, half width 37.5 in. Straight lines and ellipses by hand.
    let ellipse = 55.5 - 19.5 * (1.0_f64 - 0.8 * 0.8).sqrt();
    let rows = [
        (FLAT, 0.0, 36.0),
        (FLAT, 37.5, 36.0),
        (FLAT, -40.0, 36.0),
        (WEDGE, 0.0, 36.0),
        (WEDGE, -18.75, 36.0 + 19.5 / 2.0),
        (WEDGE, 37.5, 55.5),
        (WEDGE, 60.0, 55.5),
        (ROUND, 0.0, 36.0),
        (ROUND, 30.0, ellipse),
        (BLUNT, 18.75, 36.0),
        (BLUNT, 28.125, 36.0 + 13.5 / 2.0),
    ];
    for (nose, y, expected) in rows {
        let front = roof_front_at(&build(nose, ""), &Figure::constant(Quantity::inches(y))).unwrap();
        let found = value(&front, "in");
        assert!((found - expected).abs() < 1e-9, "{found} in at {y} in of {nose}, not {expected} in");
    }
}

#[track_caller]
fn expect(what: &str, nose: &str, more: &str, place: impl Fn(&pintle_spec::Build) -> Where, because: &str) {
    let trial = build(nose, more);
    let found =
        whereabouts(&trial, at(&trial, "gas")).unwrap_or_else(|missing| panic!("{what}: {missing:?}"));
    assert_eq!(found.place, place(&trial), "{what}: {}", found.reason);
    assert!(found.reason.contains(because), "{what}: {}", found.reason);
    assert!(!found.decided_by.is_empty(), "{what} points nowhere");
}

#[test]
fn geometry_decides_and_not_the_zone() {
    use Where::{Outside, SleepingSpace};
    let rows = [
        ("ahead of the box", FLAT, cylinder("tongue", "ball = \"12 in\""), Outside, "is ahead of"),
        ("touching the box's front", FLAT, cylinder("tongue", "ball = \"24 in\""), Outside, "is ahead of"),
        (
            "from the tongue into the box",
            FLAT,
            cylinder("tongue", "ball = \"26 in\""),
            SleepingSpace,
            "reaches into",
        ),
        (
            "inside",
            FLAT,
            cylinder("inside", "front = \"9 in\", left = \"0 in\""),
            SleepingSpace,
            "reaches into",
        ),
        ("behind the rear door", FLAT, cylinder("rear door", "floor = \"0 in\""), Outside, "is behind"),
        (
            "inside by name, behind the door",
            FLAT,
            cylinder("inside", "rear = \"-14 in\", left = \"0 in\""),
            Outside,
            "is behind",
        ),
        ("on the roof", FLAT, cylinder("roof", "front = \"9 in\""), Outside, "is above the ceiling"),
        (
            "under the floor",
            FLAT,
            cylinder("underside", "front = \"9 in\", ground = \"2 in\""),
            Outside,
            "is below the floor",
        ),
        (
            "through the floor",
            FLAT,
            cylinder("underside", "front = \"9 in\", ground = \"3 in\""),
            SleepingSpace,
            "reaches into",
        ),
        // A wedge's half width is 29 in at 52 in behind the ball: inside, 14.5 in behind an apex 18 in ahead of 36 in.
        (
            "beside a wedge",
            WEDGE,
            cylinder("tongue", "ball = \"40 in\", centre = \"35.1 in\""),
            Outside,
            "to the right of",
        ),
        (
            "into a wedge",
            WEDGE,
            cylinder("tongue", "ball = \"40 in\", centre = \"34.9 in\""),
            SleepingSpace,
            "reaches into",
        ),
        (
            "beside a wedge, left",
            WEDGE,
            cylinder("tongue", "ball = \"40 in\", centre = \"-35.1 in\""),
            Outside,
            "to the left of",
        ),
        // A round nose is 36·√(1 − (3.5/18)²) = 35.3 in wide there on each side.
        (
            "into a round nose",
            ROUND,
            cylinder("tongue", "ball = \"40 in\", centre = \"41.2 in\""),
            SleepingSpace,
            "reaches into",
        ),
        (
            "beside a round nose",
            ROUND,
            cylinder("tongue", "ball = \"40 in\", centre = \"41.4 in\""),
            Outside,
            "to the right of",
        ),
    ];
    for (what, nose, more, place, because) in rows {
        expect(what, nose, &more, |_| place, because);
    }
}

#[test]
fn a_place_that_is_apart_on_one_axis_needs_no_other() {
    let flat = cylinder("tongue", "ball = \"12 in\"")
        .replace("height = \"18 in\"\n", "")
        .replace("width = \"12 in\"\n", "");
    expect("size unknown, ahead of the box", FLAT, &flat, |_| Where::Outside, "is ahead of");
    let tall = cylinder("tongue", "ball = \"30 in\"").replace("height = \"18 in\"\n", "");
    let trial = build(FLAT, &tall);
    assert_eq!(whereabouts(&trial, at(&trial, "gas")).unwrap_err().what, "`height` of item `gas`");
    assert!(whereabouts(&trial, 99).is_err());
    let beside =
        cylinder("inside", "front = \"9 in\", left = \"-14 in\"").replace("length = \"12 in\"\n", "");
    expect("length unknown, beyond the left wall", WEDGE, &beside, |_| Where::Outside, "to the left of");
}

#[test]
fn lockers() {
    let gas = cylinder("inside", "front = \"4 in\", left = \"4 in\"");
    let in_front = "front = \"0 in\", left = \"0 in\"";
    let named = cylinder("box", "front = \"4 in\", left = \"4 in\"");
    let sealed = |trial: &pintle_spec::Build| Where::SealedLocker(at(trial, "box"));
    let open = |trial: &pintle_spec::Build| Where::OpenLocker(at(trial, "box"));
    let outside = |_: &pintle_spec::Build| Where::Outside;
    let sleeping = |_: &pintle_spec::Build| Where::SleepingSpace;

    let proper = locker("box", in_front, SEALED);
    expect("by coordinates", FLAT, &format!("{gas}{proper}"), sealed, "is sealed to the inside");
    expect("by zone", FLAT, &format!("{named}{proper}"), sealed, "is sealed to the inside");

    let inward = locker("box", in_front, "opens = \"inside\"\nsealed = true");
    expect("opens inside", FLAT, &format!("{gas}{inward}"), open, "its door opens to the inside");
    let leaky = locker("box", in_front, "opens = \"outside\"\nsealed = false");
    expect("leaks", FLAT, &format!("{gas}{leaky}"), open, "it is not sealed to the inside");
    expect(
        "leaks, door unknown",
        FLAT,
        &format!("{gas}{}", locker("box", in_front, "sealed = false")),
        open,
        "it is not sealed",
    );

    let tall = gas.replace("18 in", "22 in");
    expect(
        "too tall",
        FLAT,
        &format!("{tall}{proper}"),
        sleeping,
        "not wholly in locker `box` but stands out 2 in at the top",
    );
    let just = gas.replace("18 in", "20 in");
    expect("to the brim", FLAT, &format!("{just}{proper}"), sealed, "is sealed");
    let brimming = gas.replace("18 in", "20.05 in");
    expect("over the brim by more than 1 mm", FLAT, &format!("{brimming}{proper}"), sleeping, "stands out");

    // A sealed locker within an open one still keeps the gas out, and the other way round.
    let room =
        locker("room", in_front, "opens = \"inside\"").replace("24 in", "30 in").replace("20 in", "30 in");
    expect("sealed in open", FLAT, &format!("{gas}{room}{proper}"), sealed, "is sealed");

    let on_tongue = |ball: &str, more: &str| {
        locker("box", &format!("ball = \"{ball}\""), &format!("zone = \"tongue\"\n{more}"))
    };
    let there = cylinder("box", "front = \"2 in\", left = \"2 in\"");
    expect(
        "tongue box that does not say how it opens",
        FLAT,
        &format!("{there}{}", on_tongue("4 in", "")),
        outside,
        "is ahead of",
    );
    expect(
        "tongue box that stands clear",
        FLAT,
        &format!("{there}{}", on_tongue("4 in", "opens = \"inside\"")),
        outside,
        "is ahead of",
    );
    expect(
        "tongue box against the wall, opening into it",
        FLAT,
        &format!("{there}{}", on_tongue("12 in", "opens = \"inside\"")),
        open,
        "opens to the inside",
    );
    // Through the wall: the cylinder stands ahead of the inside, its locker does not.
    expect(
        "locker through the wall",
        FLAT,
        &format!("{there}{}", on_tongue("20 in", "opens = \"inside\"")),
        open,
        "opens to the inside",
    );

    for (more, missing) in [("sealed = true", "`opens`"), ("opens = \"outside\"", "`sealed`")] {
        let trial = build(FLAT, &format!("{gas}{}", locker("box", in_front, more)));
        let found = whereabouts(&trial, at(&trial, "gas")).unwrap_err();
        assert_eq!(found.what, format!("{missing} of locker `box`"));
    }
}

#[test]
fn bulkheads() {
    // Box from 0 to 144 in behind the front wall; the gas in its last foot.
    let gas = cylinder("inside", "front = \"132 in\", left = \"0 in\"");
    let divided = bulkhead("wall", "100 in", "sealed = true");
    let bed = berth("bed", "0 in");
    let behind = |trial: &pintle_spec::Build| Where::BehindBulkhead(at(trial, "wall"));
    let sleeping = |_: &pintle_spec::Build| Where::SleepingSpace;
    expect("sealed", FLAT, &format!("{gas}{divided}{bed}"), behind, "divided off from every berth");
    expect(
        "ahead of it",
        FLAT,
        &format!(
            "{}{}{}",
            cylinder("inside", "front = \"0 in\", left = \"0 in\""),
            bulkhead("wall", "20 in", "sealed = true"),
            berth("bed", "30 in")
        ),
        behind,
        "divided off",
    );
    expect(
        "not sealed",
        FLAT,
        &format!("{gas}{}{bed}", bulkhead("wall", "100 in", "sealed = false")),
        sleeping,
        "",
    );
    expect(
        "can be taken out",
        FLAT,
        &format!("{gas}{}{bed}", bulkhead("wall", "100 in", "sealed = true\nremovable = true")),
        sleeping,
        "",
    );
    expect(
        "half as high as the box",
        FLAT,
        &format!("{gas}{}{bed}", bulkhead("wall", "100 in", "sealed = true\nheight = \"40 in\"")),
        sleeping,
        "",
    );
    expect(
        "as high as the box, to an inch",
        FLAT,
        &format!(
            "{gas}{}{bed}",
            bulkhead("wall", "100 in", "sealed = true\nheight = \"74 in\"\nwidth = \"71.5 in\"")
        ),
        behind,
        "",
    );
    expect("nobody sleeps inside", FLAT, &format!("{gas}{divided}"), sleeping, "");
    expect(
        "same side",
        FLAT,
        &format!("{}{divided}{bed}", cylinder("inside", "front = \"80 in\", left = \"40 in\"")),
        sleeping,
        "",
    );
    expect(
        "across the wall",
        FLAT,
        &format!("{}{divided}{bed}", cylinder("inside", "front = \"95 in\", left = \"40 in\"")),
        sleeping,
        "",
    );
    let both =
        format!("{}{}", bed.replace("75 in", "60 in"), berth("bunk", "110 in").replace("75 in", "30 in"));
    let middle = cylinder("inside", "front = \"85 in\", left = \"40 in\"");
    expect("a berth on either side of one", FLAT, &format!("{gas}{divided}{both}"), sleeping, "");
    let two = format!("{}{divided}", bulkhead("fore", "70 in", "sealed = true"));
    expect(
        "between two",
        FLAT,
        &format!("{middle}{two}{both}"),
        |trial| Where::BehindBulkhead(at(trial, "fore")),
        "divided off",
    );
    let open = locker("box", "front = \"115 in\", left = \"0 in\"", "opens = \"inside\"");
    let in_it = cylinder("box", "front = \"0 in\", left = \"0 in\"");
    expect("in an open locker behind it", FLAT, &format!("{in_it}{open}{divided}{bed}"), behind, "");
    expect(
        "in an open locker through it",
        FLAT,
        &format!("{in_it}{}{divided}{bed}", open.replace("115 in", "90 in")),
        |trial| Where::OpenLocker(at(trial, "box")),
        "opens to the inside",
    );

    let unsaid = build(FLAT, &format!("{gas}{}{bed}", bulkhead("wall", "100 in", "")));
    assert_eq!(whereabouts(&unsaid, at(&unsaid, "gas")).unwrap_err().what, "`sealed` of bulkhead `wall`");
}

#[test]
fn a_tent_is_slept_in() {
    let tent = "\n[[item]]\ntag = \"tent\"\nkind = \"tent\"\nzone = \"roof\"\nlength = \"56 in\"\nwidth = \"48 in\"\nheight = \"12 in\"\nat = { front = \"9 in\" }\n";
    let gas = cylinder("tent", "front = \"0 in\", left = \"0 in\"")
        .replace("at = { front = \"0 in\", left = \"0 in\" }", "");
    expect("in a tent", FLAT, &format!("{tent}{gas}"), |_| Where::SleepingSpace, "tent");
    assert!(Where::SleepingSpace.in_sleeping_space() && Where::OpenLocker(0).in_sleeping_space());
    assert!(!Where::Outside.in_sleeping_space() && !Where::SealedLocker(0).in_sleeping_space());
}

/// A tag's whereabouts in a spec, without its words.
fn placed(spec: &str) -> Where {
    let trial = read(spec);
    whereabouts(&trial, at(&trial, "gas")).unwrap().place
}

proptest! {
    #[test]
    fn outlines_integrate(
        nose in prop::sample::select(vec![FLAT, WEDGE, ROUND, BLUNT]),
        front in 0.5_f64..6.0, long in 0.0_f64..3.0, left in -1.5_f64..1.5, wide in 0.0_f64..2.0,
    ) {
        let outline = Outline::inside(&build(nose, "")).unwrap();
        let exact = outline.area_of(front, front + long, left, left + wide);
        let strips = 4000;
        let step = long / f64::from(strips);
        let summed: f64 = (0..strips).map(|strip| {
            let half = outline.half_width(front + (f64::from(strip) + 0.5) * step);
            ((left + wide).clamp(-half, half) - left.clamp(-half, half)) * step
        }).sum();
        prop_assert!((exact - summed).abs() < 1e-3, "{} against {}", exact, summed);
    }

    #[test]
    fn fronts_and_widths_agree(nose in prop::sample::select(vec![WEDGE, ROUND, BLUNT]), y in 0.0_f64..0.91) {
        let outline = Outline::inside(&build(nose, "")).unwrap();
        let x = outline.front_at(y);
        prop_assert!(outline.half_width(x) >= y - 1e-6);
        prop_assert!(outline.half_width(x - 1e-4) <= y.max(0.4572 + 1e-9) || nose != BLUNT);
        prop_assert!(nose == BLUNT || outline.half_width(x - 1e-3) < y + 1e-9);
    }

    #[test]
    fn whereabouts_keep_in_mirror_metric_and_with_a_longer_tongue(
        nose in prop::sample::select(vec![FLAT, WEDGE, ROUND]),
        front in -24_i32..140, left in -20_i32..80, floor in -20_i32..60,
        box_front in -6_i32..100, box_left in 0_i32..52, tongue in 30_i32..80,
    ) {
        // A quarter inch off the whole inch: no two surfaces meet, where rounding would decide.
        let gas = cylinder("inside", &format!("front = \"{front}.25 in\", left = \"{left}.25 in\", floor = \"{floor}.25 in\""));
        let near = locker("box", &format!("front = \"{box_front} in\", left = \"{box_left} in\""), SEALED)
            .replace("24 in", "48 in").replace("\"20 in\"", "\"40 in\"");
        let more = format!("{gas}{near}{}{}", berth("bed", "0 in"), bulkhead("wall", "80 in", "sealed = true"));
        let written = spec(nose, &more);
        let place = placed(&written);
        prop_assert_eq!(placed(&mirrored(&written)), place);
        prop_assert_eq!(placed(&in_metric(&written)), place);
        prop_assert_eq!(placed(&spec_at(&format!("{tongue} in"), nose, &more)), place);
        let area = plan_area(&read(&written)).unwrap();
        for same in [mirrored(&written), in_metric(&written), spec_at(&format!("{tongue} in"), nose, &more)] {
            let other = plan_area(&read(&same)).unwrap();
            prop_assert!((other.quantity.si() - area.quantity.si()).abs() < 1e-9);
        }
    }
}
