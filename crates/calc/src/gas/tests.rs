pub(crate) mod builds;

use proptest::prelude::*;

use super::{cylinders, locker_floor_area, locker_vents, vent_area_needed};
use crate::space::trial::{FLAT, at, build, close, in_metric, inputs, mirrored, read, spec, spec_at, value};

/// A locker 24 × 14 × 30 in on the tongue, its floor 17 in up.
const LOCKER: &str = r#"
[[locker]]
tag = "box"
zone = "tongue"
length = "24 in"
width = "14 in"
height = "30 in"
at = { ball = "4 in" }
"#;

fn vent(tag: &str, place: &str, more: &str) -> String {
    format!(
        "\n[[vent]]\ntag = \"{tag}\"\nzone = \"box\"\narea = \"3.4 in²\"\nheight = \"2 in\"\nclosable = false\nat = {{ {place} }}\n{more}\n"
    )
}

#[test]
fn floors() {
    let trial = build(FLAT, LOCKER);
    let floor = locker_floor_area(&trial, at(&trial, "box")).unwrap();
    close(&floor, 336.0, "in²");
    assert_eq!(inputs(&floor), ["`length` of locker `box`", "`width` of locker `box`"]);
    // 675 IAC 15-2-74(c): 2 % of the locker's floor; 24 × 14 in.
    close(&vent_area_needed(&floor), 6.72, "in²");
    let narrow = build(FLAT, &LOCKER.replace("width = \"14 in\"\n", ""));
    assert_eq!(locker_floor_area(&narrow, at(&narrow, "box")).unwrap_err().what, "`width` of locker `box`");
}

#[test]
fn vents_of_a_locker() {
    let all = [
        LOCKER.to_owned(),
        vent("sole", "floor = \"0 in\"", ""),
        vent("low", "floor = \"1 in\"", "leads = \"outside\""),
        vent("top", "ceiling = \"1 in\"", ""),
        vent("middle", "floor = \"14 in\"", ""),
        vent("inward", "floor = \"20 in\"", "leads = \"inside\""),
        vent("shutter", "floor = \"20 in\"", "").replace("closable = false", "closable = true"),
        "\n[[vent]]\ntag = \"room\"\nzone = \"roof\"\narea = \"14 in²\"\nclosable = false\n".to_owned(),
    ]
    .concat();
    let trial = build(FLAT, &all);
    let found = locker_vents(&trial, at(&trial, "box")).unwrap();
    // By addition: two low, two high (the one from 14 to 16 in has its middle at half of 30 in).
    close(&found.low, 6.8, "in²");
    close(&found.high, 6.8, "in²");
    close(&found.total, 13.6, "in²");
    close(&found.closable, 3.4, "in²");
    close(found.low_gap.as_ref().unwrap(), 0.0, "in");
    close(found.high_gap.as_ref().unwrap(), 3.0, "in");
    assert_eq!(inputs(&found.low), ["`area` of vent `sole`", "`area` of vent `low`"]);
    assert_eq!(
        inputs(&found.high_gap.unwrap()),
        ["`ceiling` of `at` of vent `top`", "`height` of vent `top`"]
    );
}

#[test]
fn gaps_of_single_vents() {
    // 675 IAC 15-2-74(c): the lower vent flush with the floor, the underside of the upper at most 12 in below the ceiling.
    let trial = build(FLAT, &(LOCKER.to_owned() + &vent("low", "floor = \"1.5 in\"", "")));
    let found = locker_vents(&trial, at(&trial, "box")).unwrap();
    close(&found.low_gap.unwrap(), 1.5, "in");
    assert!(found.high_gap.is_none());
    let trial = build(FLAT, &(LOCKER.to_owned() + &vent("high", "floor = \"17 in\"", "")));
    let found = locker_vents(&trial, at(&trial, "box")).unwrap();
    close(&found.high_gap.unwrap(), 13.0, "in");
    assert!(found.low_gap.is_none());
    let bare = build(FLAT, LOCKER);
    close(&locker_vents(&bare, at(&bare, "box")).unwrap().total, 0.0, "in²");
}

#[test]
fn what_a_locker_misses() {
    let what = |locker: &str, vent: &str| {
        let trial = build(FLAT, &(locker.to_owned() + vent));
        locker_vents(&trial, at(&trial, "box")).unwrap_err().what
    };
    let low = vent("low", "floor = \"0 in\"", "");
    assert_eq!(what(LOCKER, &low.replace("area = \"3.4 in²\"\n", "")), "`area` of vent `low`");
    assert_eq!(what(LOCKER, &low.replace("closable = false\n", "")), "`closable` of vent `low`");
    assert_eq!(what(LOCKER, &low.replace("height = \"2 in\"\n", "")), "`height` of vent `low`");
    assert_eq!(what(&LOCKER.replace("height = \"30 in\"\n", ""), &low), "`height` of locker `box`");
    let trial = build(FLAT, &(LOCKER.to_owned() + &low));
    assert_eq!(
        locker_vents(&trial, at(&trial, "low")).unwrap_err().what,
        "a locker with the tag of vent `low`"
    );
}

#[test]
fn cylinders_and_their_gas() {
    let one = "\n[[item]]\ntag = \"one\"\nkind = \"cylinder\"\nzone = \"tongue\"\ngas = \"20 lb\"\nat = { ball = \"4 in\" }\n";
    let two = one.replace("\"one\"", "\"two\"").replace("gas = \"20 lb\"\n", "");
    let trial = build(FLAT, &format!("{one}{two}"));
    let found = cylinders(&trial);
    assert_eq!(found.iter().map(|cylinder| cylinder.item).collect::<Vec<_>>(), [0, 1]);
    close(found[0].gas.as_ref().unwrap(), 20.0, "lb");
    assert_eq!(found[1].gas.as_ref().unwrap_err().what, "`gas` of item `two`");
    assert!(cylinders(&build(FLAT, "")).is_empty());
}

proptest! {
    #[test]
    fn locker_vents_keep_in_mirror_metric_and_with_a_longer_tongue(
        floors in prop::collection::vec(0_u32..28, 1..5), tongue in 30_i32..80,
    ) {
        let vents = floors.iter().enumerate();
        let more: String = vents.map(|(n, floor)| vent(&format!("v{n}"), &format!("floor = \"{floor}.3 in\""), "")).collect();
        let more = LOCKER.to_owned() + &more;
        let written = spec(FLAT, &more);
        let measure = |spec: &str| {
            let trial = read(spec);
            let found = locker_vents(&trial, at(&trial, "box")).unwrap();
            let gap = |gap: Option<crate::Figure>| gap.map_or(-1.0, |gap| gap.quantity.si());
            [found.low.quantity.si(), found.high.quantity.si(), gap(found.low_gap), gap(found.high_gap)]
        };
        let found = measure(&written);
        for same in [mirrored(&written), in_metric(&written), spec_at(&format!("{tongue} in"), FLAT, &more)] {
            prop_assert!(measure(&same).iter().zip(found).all(|(one, other)| (one - other).abs() < 1e-9));
        }
        let trial = read(&written);
        let total = value(&locker_vents(&trial, at(&trial, "box")).unwrap().total, "in²");
        prop_assert!((total - 3.4 * f64::from(u32::try_from(floors.len()).unwrap())).abs() < 1e-9);
    }
}

/// A figure of a 20 lb cylinder on the tongue, with the assumptions of the rulebook that it needs.
pub(super) fn cylinder_figure(key: &str) -> crate::Working {
    let one = "\n[[item]]\ntag = \"one\"\nkind = \"cylinder\"\nzone = \"tongue\"\ngas = \"20 lb\"\nfuel = \"propane\"\n\
               at = { ball = \"4 in\" }\n[assume.gas]\ncoldest_use = \"20 °F\"\n";
    let trial = build(FLAT, one);
    let assumptions = crate::Assumptions::default();
    let all = super::workings(&crate::Case {
        build: &trial,
        assumptions: &assumptions,
        places: &crate::place::Places::default(),
    });
    all.into_iter().find(|working| working.key == key).unwrap()
}
