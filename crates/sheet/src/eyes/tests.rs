//! Which checks are asked, and that no box of theirs is ever filled.

use pintle_finding::{ASKED_OF, Citation};

use super::*;
use crate::bench::{Bench, SPEC};

fn check(station: Station, from: Stage, look: &str, of: &[&str]) -> ByEye {
    ByEye {
        station,
        from,
        look: look.to_owned(),
        how: "by looking".to_owned(),
        of: of.iter().map(|word| (*word).to_owned()).collect(),
        ground: Citation {
            basis: Basis::CommonPractice,
            text: String::new(),
            says: String::new(),
            guideline: None,
        },
        set_by: None,
        span: None,
    }
}

fn html(bench: &Bench) -> String {
    bench.sheet(|sheet| section(sheet).into_string())
}

fn asked(stage: &str, checks: Vec<ByEye>) -> String {
    let mut bench = Bench::with(&[("\"delivery\"", &format!("\"{stage}\""))]);
    bench.in_force.by_eye = checks;
    html(&bench)
}

#[test]
fn every_word_that_a_check_is_asked_of_can_be_told_of_a_build() {
    let bench = Bench::of(SPEC);
    let aboard = Aboard::of(&bench.build);
    for word in ASKED_OF {
        assert!(aboard.has(word).is_some(), "{word}");
    }
    assert_eq!(aboard.has("sails"), None);
    for word in [
        "brakes",
        "breakaway",
        "gas",
        "cylinder",
        "mains",
        "tank",
        "berth",
        "alarm",
        "rack",
        "roof",
        "removable",
        "bar lock",
        "door",
        "load",
    ] {
        assert_eq!(aboard.has(word), Some(true), "{word}");
    }
    for word in [
        "spring bars",
        "tent",
        "ladder",
        "battery",
        "inverter",
        "solar",
        "ramp",
        "hatch",
        "change",
        "engine",
        "diesel",
    ] {
        assert_eq!(aboard.has(word), Some(false), "{word}");
    }
}

#[test]
fn a_check_is_asked_from_its_stage_and_of_builds_that_have_the_thing() {
    let checks = vec![
        check(Station::Body, Stage::Build, "no water comes in", &[]),
        check(Station::Gas, Stage::Build, "the cylinder is upright", &["cylinder"]),
        check(Station::Roof, Stage::Build, "the tent shuts", &["tent"]),
        check(Station::Papers, Stage::Delivery, "labels are on", &[]),
    ];
    let page = asked("build", checks.clone());
    assert!(page.contains("No water comes in.") && page.contains("The cylinder is upright."));
    assert!(!page.contains("tent shuts") && !page.contains("Labels are on"));
    assert!(page.contains("1 check from the stage delivery"), "{page}");
    let page = asked("delivery", checks.clone());
    assert!(page.contains("Labels are on.") && !page.contains("Asked only later"));
    let page = asked("quote", checks);
    assert!(page.contains("None is asked at the stage quote"));
}

#[test]
fn stations_stand_in_the_order_of_the_walk() {
    let page = asked(
        "delivery",
        vec![
            check(Station::Papers, Stage::Build, "last", &[]),
            check(Station::RoadGear, Stage::Build, "first", &[]),
            check(Station::Gas, Stage::Build, "between", &[]),
        ],
    );
    let at = |word: &str| page.find(word).unwrap();
    assert!(at("Road gear") < at("First.") && at("First.") < at("Between.") && at("Between.") < at("Last."));
}

#[test]
fn no_box_is_filled_in_and_an_empty_one_is_said_to_be_no_pass() {
    let page = asked("delivery", vec![check(Station::Body, Stage::Build, "no water comes in", &[])]);
    assert_eq!(page.matches("class=\"tick\"").count(), 2);
    assert!(page.contains("was not looked at, and is no pass"));
    for sign in ["✓", "✔", "☑", "<input"] {
        assert!(!page.contains(sign));
    }
}

#[test]
fn a_shop_and_a_text_are_named_and_hostile_words_are_only_shown() {
    let mut own = check(Station::Body, Stage::Build, "<script>x</script>", &[]);
    own.set_by = Some("shop/<b>.toml".to_owned());
    own.ground = Citation {
        basis: Basis::Published,
        text: "49 CFR 0".to_owned(),
        says: "so".to_owned(),
        guideline: None,
    };
    let page = asked("delivery", vec![own]);
    assert!(page.contains("Set by shop/&lt;b&gt;.toml") && page.contains("Published: 49 CFR 0, so."));
    assert!(!page.contains("<script>"));
}

#[test]
fn who_did_gas_and_mains_signs_only_where_there_are_any() {
    let lines = |bench: &Bench| {
        let page = html(bench);
        page.split_once("Signatures").unwrap().1.to_owned()
    };
    let both = lines(&Bench::of(SPEC));
    for word in
        ["who built it", "who looked it over", "who did the gas", "who did the mains", "who takes it over"]
    {
        assert!(both.contains(word), "{word}");
    }
    let (before, after) = SPEC.split_once("[[item]]\ntag = \"cylinder\"").unwrap();
    let (_, rest) = after.split_once("[[item]]\ntag = \"alarm\"").unwrap();
    let spec = format!("{before}[[item]]\ntag = \"alarm\"{rest}");
    let spec = spec.replace(
        "[electric.mains]\nvoltage = \"120 V\"\noutlet = [{ name = \"by the door\", gfci = true }]",
        "",
    );
    let none = lines(&Bench::of(&spec));
    assert!(!none.contains("who did the gas") && !none.contains("who did the mains"), "{none}");
}
