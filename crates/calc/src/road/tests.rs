//! Sizes and lamps of small specs, and the table of checks from outside.

mod checked;
mod clearances;
mod figures;
mod hiding;
mod traps;

use proptest::prelude::*;

use super::{missing_lamps, overall_length, overall_width, rear_overhang, required_lamps};
use crate::space::trial::{FLAT, WEDGE, build, close, in_metric, inputs, read, spec};
use pintle_quantity::Quantity;
use pintle_spec::schema::trailer::LAMP_NAMES;

/// The trailer's own fields stand last in the trial spec before its items.
fn stated(more: &str) -> String {
    spec(FLAT, more)
}

#[test]
fn sizes() {
    let given = read(&stated("overall_width = \"96 in\"\noverall_length = \"16 ft\""));
    close(&overall_width(&given).unwrap(), 96.0, "in");
    close(&overall_length(&given).unwrap(), 16.0, "ft");
    let bare = build(FLAT, "");
    assert_eq!(overall_width(&bare).unwrap_err().what, "`overall_width` of the trailer");
    // 36 in to the nose, walls of 1.5 in, 144 in between, and a wedge of 18 in.
    close(&overall_length(&bare).unwrap(), 183.0, "in");
    close(&overall_length(&build(WEDGE, "")).unwrap(), 201.0, "in");
    let ladder = "\n[[item]]\ntag = \"ladder\"\nkind = \"ladder\"\nzone = \"rear door\"\nlength = \"5 in\"\n";
    let hung = overall_length(&build(FLAT, ladder)).unwrap();
    close(&hung, 188.0, "in");
    assert!(inputs(&hung).contains(&"`length` of item `ladder`".to_owned()));
    let bikes = "\n[[load]]\ntag = \"bikes\"\nmass = \"60 lb\"\nleast = \"0 lb\"\nzone = \"rear door\"\nlength = \"30 in\"\n\
                 at = { gap = \"6 in\" }\n";
    close(&overall_length(&build(FLAT, &(ladder.to_owned() + bikes))).unwrap(), 188.0, "in");
    let unknown = build(FLAT, &ladder.replace("length = \"5 in\"\n", ""));
    assert_eq!(overall_length(&unknown).unwrap_err().what, "`length` of item `ladder`");
    // The axle 125 in behind the ball: 183 − 125, and the ladder 5 in more.
    let axle = "axle = { ball = \"125 in\" }\n";
    close(&rear_overhang(&build(FLAT, axle)).unwrap(), 58.0, "in");
    close(&rear_overhang(&build(FLAT, &(axle.to_owned() + ladder + bikes))).unwrap(), 63.0, "in");
    assert_eq!(rear_overhang(&bare).unwrap_err().what, "`axle` of the trailer");
}

#[test]
fn lamps_by_size() {
    let always = ["tail", "stop", "turn", "plate", "rear reflex", "rear side marker", "rear side reflex"];
    let front = ["front side marker", "front side reflex"];
    let middle = ["middle side marker", "middle side reflex"];
    let wide = ["front clearance", "rear clearance", "rear identification"];
    // 49 CFR 571.108 Table I-b: width in inches, length in feet, lamps beyond those of every trailer.
    let rows: [(f64, f64, Vec<&str>); 8] = [
        (79.9, 5.99, vec![]),
        (79.9, 6.0, front.to_vec()),
        (79.9, 29.99, front.to_vec()),
        (79.9, 30.0, [front, middle].concat()),
        (80.0, 5.99, wide.to_vec()),
        (80.0, 16.0, [&front[..], &wide].concat()),
        (102.0, 30.0, [&front[..], &middle, &wide].concat()),
        (79.99, 6.0, front.to_vec()),
    ];
    for (width, length, beyond) in rows {
        let lamps = required_lamps(Quantity::inches(width), Quantity::feet(length)).unwrap();
        let mut names: Vec<&str> = lamps.iter().map(|lamp| lamp.name).collect();
        let mut expected = [&always[..], &beyond].concat();
        names.sort_unstable();
        expected.sort_unstable();
        assert_eq!(names, expected, "{width} in wide, {length} ft long");
        assert!(lamps.iter().all(|lamp| LAMP_NAMES.contains(&lamp.name) && !lamp.why.is_empty()));
    }
    // 2,032 mm are 80 in, to the digit.
    let metric = required_lamps(Quantity::parse("2032 mm").unwrap(), Quantity::feet(16.0)).unwrap();
    let clearance = metric.iter().find(|lamp| lamp.name == "rear clearance").unwrap();
    assert_eq!(clearance.why, "the trailer is 80 in wide or wider");
    assert!(required_lamps(Quantity::pounds(1.0), Quantity::feet(16.0)).is_err());
}

const FITTED: &str = r#"
overall_width = "79 in"
overall_length = "16 ft"
lamps = ["tail", "stop", "turn", "plate", "rear reflex", "front side marker", "front side reflex", "rear side marker", "rear side reflex"]
"#;

#[test]
fn lamps_that_are_missing() {
    assert_eq!(missing_lamps(&read(&stated(FITTED))).unwrap(), Vec::<&str>::new());
    let dark = FITTED.replace("\"plate\", ", "").replace("79 in", "80 in");
    assert_eq!(
        missing_lamps(&read(&stated(&dark))).unwrap(),
        ["plate", "front clearance", "rear clearance", "rear identification"]
    );
    // Where `lamps` says what is fitted, `lamp` adds nothing: a spec that restates `lamps` takes lamps off.
    let plate = "\nlamp = [{ name = \"plate\", count = 1 }]";
    assert_eq!(missing_lamps(&read(&stated(&(dark.clone() + plate)))).unwrap().len(), 4);
    let tables_only = dark.lines().filter(|line| !line.starts_with("lamps")).collect::<Vec<_>>().join("\n");
    assert!(!missing_lamps(&read(&stated(&(tables_only + plate)))).unwrap().contains(&"plate"));
    let none = FITTED.lines().filter(|line| !line.starts_with("lamps")).collect::<Vec<_>>().join("\n");
    assert_eq!(missing_lamps(&read(&stated(&none))).unwrap_err().what, "`lamps` of the trailer");
    let unsized_trailer = FITTED.replace("overall_width = \"79 in\"\n", "");
    assert_eq!(
        missing_lamps(&read(&stated(&unsized_trailer))).unwrap_err().what,
        "`overall_width` of the trailer"
    );
}

proptest! {
    #[test]
    fn lamps_keep_in_metric_and_only_grow(width in 20_u32..110, length in 3_u32..40, wider in 0_u32..30, longer in 0_u32..20) {
        let sized = |width: u32, length: u32| {
            let fields = format!("overall_width = \"{width} in\"\noverall_length = \"{length} ft\"\nlamps = []");
            spec(FLAT, &fields)
        };
        let small = missing_lamps(&read(&sized(width, length))).unwrap();
        let same = missing_lamps(&read(&in_metric(&sized(width, length)))).unwrap();
        prop_assert_eq!(&small, &same);
        let large = missing_lamps(&read(&sized(width + wider, length + longer))).unwrap();
        prop_assert!(small.iter().all(|lamp| large.contains(lamp)));
    }
}
