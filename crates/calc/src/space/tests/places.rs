//! What shares the air of those who sleep inside: lockers, bulkheads, tents, and what geometry decides.

use proptest::prelude::*;

use super::*;
use crate::space::trial::{FLAT, ROUND, WEDGE, at, build, in_metric, mirrored, read, spec, spec_at};
use crate::space::{Where, plan_area, whereabouts};

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
