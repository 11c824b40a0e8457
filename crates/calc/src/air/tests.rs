mod builds;

use proptest::prelude::*;

use super::{ApplianceKind, Standing, combustion_area, needed, vents};
use crate::Figure;
use crate::space::plan_area;
use crate::space::trial::{FLAT, WEDGE, at, build, close, in_metric, inputs, mirrored, read, spec, value};
use pintle_quantity::Quantity;

/// A vent 4 in high.
fn vent(tag: &str, zone: &str, area: &str, more: &str) -> String {
    format!("\n[[vent]]\ntag = \"{tag}\"\nzone = \"{zone}\"\narea = \"{area}\"\nheight = \"4 in\"\n{more}\n")
}

fn wall(tag: &str, area: &str, floor: &str) -> String {
    vent(
        tag,
        "left wall",
        area,
        &format!("closable = false\nat = {{ front = \"40 in\", floor = \"{floor}\" }}"),
    )
}

/// A berth whose mattress tops out 20 in above the floor.
const BED: &str = "\n[[berth]]\ntag = \"bed\"\nlength = \"75 in\"\nwidth = \"30 in\"\nheight = \"20 in\"\n\
                   at = { front = \"0 in\", left = \"0 in\" }\n";

fn area(figure: &Figure) -> f64 {
    value(figure, "in²")
}

#[test]
fn vents_by_height() {
    // EN 721 as quoted in a German inspection leaflet: low vents at most 100 mm above the floor, high ones at least 300 mm
    // above the top mattress. The mattress tops out at 508 mm, so 808 mm.
    let rows = [
        ("100 mm", BED, [0.0, 10.0, 0.0]),
        ("100.1 mm", BED, [0.0, 0.0, 10.0]),
        ("807.9 mm", BED, [0.0, 0.0, 10.0]),
        ("808 mm", BED, [10.0, 0.0, 0.0]),
        // Nobody sleeps inside: the upper half of 75 in.
        ("37.4 in", "", [0.0, 0.0, 10.0]),
        ("37.5 in", "", [10.0, 0.0, 0.0]),
    ];
    for (floor, bed, expected) in rows {
        let found = vents(&build(FLAT, &(wall("vent", "10 in²", floor) + bed))).unwrap();
        for (figure, expected) in [&found.high_wall, &found.low, &found.between].into_iter().zip(expected) {
            assert!(
                (area(figure) - expected).abs() < 1e-9,
                "{} in², not {expected}: at {floor}",
                area(figure)
            );
        }
    }
}

#[test]
fn vents_by_place() {
    let fixed = "closable = false";
    let locker = "\n[[locker]]\ntag = \"box\"\nlength = \"24 in\"\nwidth = \"20 in\"\nheight = \"20 in\"\n\
                  at = { front = \"0 in\", left = \"0 in\" }\n";
    let all = [
        vent("roof", "roof", "14 in²", fixed),
        vent("hatch", "roof", "100 in²", "closable = true"),
        vent("sole", "floor", "3 in²", fixed),
        vent("duct", "left wall", "50 in²", "closable = false\nleads = \"inside\""),
        vent(
            "stated",
            "rear door",
            "2 in²",
            "closable = false\nleads = \"outside\"\nat = { floor = \"60 in\" }",
        ),
        vent("gas", "box", "9 in²", fixed),
        wall("low", "5 in²", "1 in"),
        wall("high", "7 in²", "50 in"),
        wall("middle", "11 in²", "20 in"),
        locker.to_owned(),
        BED.to_owned(),
    ]
    .concat();
    let found = vents(&build(FLAT, &all)).unwrap();
    // By addition.
    close(&found.roof, 14.0, "in²");
    close(&found.high_wall, 9.0, "in²");
    close(&found.high, 23.0, "in²");
    close(&found.low, 8.0, "in²");
    close(&found.between, 11.0, "in²");
    close(&found.closable, 100.0, "in²");
    assert_eq!(inputs(&found.low), ["`area` of vent `sole`", "`area` of vent `low`"]);
    let none = vents(&build(FLAT, "")).unwrap();
    close(&none.high, 0.0, "in²");
}

#[test]
fn what_vents_miss() {
    let what = |more: &str| vents(&build(FLAT, more)).unwrap_err().what;
    let one = wall("vent", "10 in²", "30 in");
    assert_eq!(what(&one.replace("closable = false\n", "")), "`closable` of vent `vent`");
    assert_eq!(what(&one.replace("area = \"10 in²\"\n", "")), "`area` of vent `vent`");
    assert_eq!(what(&one.replace(", floor = \"30 in\"", "")), "the place upright of vent `vent`");
    assert_eq!(what(&(one.clone() + &BED.replace("height = \"20 in\"\n", ""))), "`height` of berth `bed`");
    // In the roof it is high, wherever it is.
    let somewhere = vent("vent", "roof", "10 in²", "closable = false");
    close(&vents(&build(FLAT, &somewhere)).unwrap().roof, 10.0, "in²");
}

fn burner(tag: &str, more: &str) -> String {
    format!("\n[[item]]\ntag = \"{tag}\"\nkind = \"appliance\"\nat = {{ front = \"0 in\" }}\n{more}\n")
}

#[test]
fn kinds_of_appliance() {
    let sealed = burner("heater", "used = \"inside\"\nflue = \"room-sealed\"");
    let stove = burner("stove", "used = \"inside\"\nflue = \"flueless\"");
    let flued = burner("boiler", "used = \"inside\"\nflue = \"open-flued\"");
    let outside = burner("grill", "used = \"outside\"\nflue = \"flueless\"");
    let unsaid = burner("unsaid", "flue = \"flueless\"");
    let kind = |more: &str| super::appliance_kind(&build(FLAT, more));
    assert_eq!(kind(""), Ok(ApplianceKind::None));
    assert_eq!(kind(&outside), Ok(ApplianceKind::None));
    assert_eq!(kind(&format!("{outside}{sealed}")), Ok(ApplianceKind::RoomSealed(1)));
    assert_eq!(kind(&format!("{sealed}{stove}")), Ok(ApplianceKind::OpenToRoom(1)));
    assert_eq!(kind(&flued), Ok(ApplianceKind::OpenToRoom(0)));
    assert_eq!(kind(&format!("{unsaid}{stove}")), Ok(ApplianceKind::OpenToRoom(1)));
    assert_eq!(kind(&format!("{unsaid}{sealed}")).unwrap_err().what, "`used` of item `unsaid`");
    let no_flue = burner("stove", "used = \"inside\"");
    assert_eq!(kind(&no_flue).unwrap_err().what, "`flue` of item `stove`");
}

#[test]
fn the_vent_table() {
    use Standing::{Memory, Quoted};
    let (open, none) = (ApplianceKind::OpenToRoom(0), ApplianceKind::None);
    // Plan area m², cm² in the roof, high in the wall, low. EN 721: quoted rows as in a German inspection leaflet, the
    // others from memory.
    let rows = [
        (5.0, open, 75.0, None, 10.0, Quoted),
        (5.001, open, 100.0, None, 15.0, Quoted),
        (10.0, open, 100.0, None, 15.0, Quoted),
        (10.001, open, 125.0, None, 20.0, Memory),
        (15.001, open, 150.0, None, 30.0, Memory),
        (20.0, open, 150.0, None, 30.0, Memory),
        (20.001, open, 200.0, None, 50.0, Memory),
        (5.0, none, 15.0, Some(30.0), 5.0, Quoted),
        (10.0, none, 15.0, Some(30.0), 5.0, Quoted),
        (15.0, none, 20.0, Some(40.0), 5.0, Memory),
        (7.0, ApplianceKind::RoomSealed(0), 15.0, Some(30.0), 5.0, Quoted),
    ];
    for (plan, kind, roof, high_wall, low, standing) in rows {
        let plan = Figure::constant(Quantity::from_si(plan, pintle_quantity::Dimension::AREA));
        let row = needed(&plan, kind).unwrap().unwrap();
        close(&row.roof, roof, "cm²");
        close(&row.low, low, "cm²");
        assert_eq!(row.high_wall.as_ref().map(|area| value(area, "cm²").round()), high_wall);
        assert_eq!(row.standing, standing, "{}", row.source);
        assert_eq!(row.source.contains("memory"), standing == Memory, "{}", row.source);
    }
    let large = Figure::constant(Quantity::from_si(15.001, pintle_quantity::Dimension::AREA));
    assert!(needed(&large, none).unwrap().is_none(), "no row is known");
    assert!(needed(&Figure::constant(Quantity::pounds(1.0)), none).is_err(), "a mass is no area");
    // 76.5 ft² is 7.1 m²; the row's figures lead back to the measures of the box.
    let trial = build(WEDGE, "");
    let row = needed(&plan_area(&trial).unwrap(), none).unwrap().unwrap();
    close(&row.roof, 15.0, "cm²");
    assert!(inputs(&row.roof).contains(&"`width` of the trailer".to_owned()));
}

#[test]
fn combustion_air() {
    // Btu/h, in² at 1 in² per 4,000 Btu/h: the first three in a furnace manual's table of US fuel gas code areas, the others
    // by division.
    for (input, expected) in [(50_000, 12.5), (100_000, 25.0), (150_000, 37.5), (30_000, 7.5), (8_000, 2.0)] {
        let input = Figure::constant(Quantity::parse(&format!("{input} Btu/h")).unwrap());
        close(&combustion_area(&input).unwrap(), expected, "in²");
    }
    assert!(combustion_area(&Figure::constant(Quantity::pounds(1.0))).is_err());
    let stove = build(FLAT, &burner("stove", "input = \"30000 Btu/h\""));
    let input =
        crate::space::given(&stove.items[at(&stove, "stove")].record, &super::appliance::INPUT).unwrap();
    assert_eq!(inputs(&combustion_area(&input).unwrap()), ["`input` of item `stove`"]);
}

proptest! {
    #[test]
    fn vents_keep_in_mirror_and_metric(heights in prop::collection::vec(0_u32..70, 0..6)) {
        let vents_at = heights.iter().enumerate();
        let more: String = vents_at.map(|(n, height)| wall(&format!("v{n}"), "3.5 in²", &format!("{height}.3 in"))).collect();
        let written = spec(FLAT, &(more + BED));
        let found = vents(&read(&written)).unwrap();
        for same in [mirrored(&written), in_metric(&written)] {
            let other = vents(&read(&same)).unwrap();
            for (one, other) in [(&found.high, &other.high), (&found.low, &other.low), (&found.between, &other.between)] {
                prop_assert!((one.quantity.si() - other.quantity.si()).abs() < 1e-12);
            }
        }
        let all = area(&found.high) + area(&found.low) + area(&found.between);
        prop_assert!((all - 3.5 * f64::from(u32::try_from(heights.len()).unwrap())).abs() < 1e-9);
    }
}
