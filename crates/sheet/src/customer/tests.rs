//! What the customer is told: by what the build has, and never more than is known.

use std::sync::Arc;

use pintle_finding::{Bound, Grade, Reading, Rule, Stage, Subject, Verdict};

use super::*;
use crate::bench::{Bench, SPEC};

fn html(bench: &Bench) -> String {
    bench.sheet(|sheet| section(sheet).into_string())
}

fn fault(kind: &'static str, name: &str, title: &str, grade: Grade) -> Reading {
    let rule = Rule {
        id: "towing/invented".to_owned(),
        title: title.to_owned(),
        why: String::new(),
        judges: "build".to_owned(),
        grade,
        grade_set_by: None,
        from: Stage::Quote,
        from_set_by: None,
        citations: Vec::new(),
        kept: false,
    };
    Reading {
        rule: Arc::new(rule),
        subject: Subject { kind, name: name.to_owned(), span: None },
        path: String::new(),
        what: String::new(),
        value: None,
        bound: Bound::None,
        limit_name: String::new(),
        limit_basis: None,
        limit_set_by: None,
        verdict: Verdict::Fault,
        accepted: None,
        reason: None,
        remedy: None,
        labels: Vec::new(),
        inputs: Vec::new(),
        contributions: Vec::new(),
        sum: None,
    }
}

#[test]
fn a_trailer_that_is_held_says_so_first() {
    let mut bench = Bench::of(SPEC);
    assert!(!html(&bench).contains("Not released"));
    bench.inspection.readings.push(fault("arrangement", "galley out", "too <b>heavy", Grade::Critical));
    let page = html(&bench);
    let at = |word: &str| page.find(word).unwrap_or_else(|| panic!("{word}: {page}"));
    assert!(at("Not released.") < at("What you may load"));
    assert!(page.contains("“galley out”. Too &lt;b&gt;heavy."), "{page}");
    assert!(page.contains("Not put right:"), "{page}");
}

#[test]
fn findings_that_are_not_listed_are_counted() {
    let mut bench = Bench::of(SPEC);
    for at in 0..6 {
        bench.inspection.readings.push(fault(
            "arrangement",
            &format!("way {at}"),
            &format!("fault {at}"),
            Grade::Critical,
        ));
    }
    let page = html(&bench);
    assert!(page.contains("And 3 more</strong>: the findings"), "{page}");
    assert!(page.contains("And 2 more grave findings"), "{page}");
}

#[test]
fn what_must_never_be_done_goes_by_what_the_build_has() {
    let page = html(&Bench::of(SPEC));
    for line in [
        "Never bar or lock the door",
        "If you smell gas",
        "If the metal tingles",
        "tap open",
        "take an alarm down",
    ] {
        assert!(page.contains(line), "{line}");
    }
    assert!(!page.contains("Never drive with the tent open"));
    assert!(page.contains("nobody has said what it carries"));
    let keyed = html(&Bench::with(&[("outside_lock = \"bar\"", "outside_lock = \"key\"")]));
    assert!(!keyed.contains("Never bar or lock"));
    let rated = html(&Bench::with(&[(
        "nose = { shape",
        "roof_rating = { moving = \"150 lb\", parked = \"600 lb\" }\nnose = { shape",
    )]));
    assert!(rated.contains("than 150 lb on the road and 600 lb when parked"), "{rated}");
}

#[test]
fn ways_out_are_named_and_doubtful_ones_are_not_praised() {
    assert!(html(&Bench::of(SPEC)).contains("<strong>rear doors</strong>"));
    let shut = html(&Bench::with(&[("inside_release = true", "inside_release = false")]));
    assert!(shut.contains("Not shown to open from inside"));
    let none = html(&Bench::with(&[("exit = true\n", "")]));
    assert!(none.contains("No way out is written down."));
}

/// The weights in one system of units, whatever system a part's author wrote.
#[test]
fn one_page_speaks_one_system_of_units() {
    let page = html(&Bench::with(&[
        ("mass = \"90 lb\"", "mass = \"41 kg\""),
        ("bags = \"90 lb\"", "bags = \"41 kg\""),
    ]));
    assert!(page.contains("bags 90.4 lb"), "{page}");
    assert!(!page.contains(" kg"), "{page}");
}

#[test]
fn what_is_not_known_is_said_not_to_be() {
    let page = html(&Bench::with(&[("gvwr = \"2990 lb\"\n", ""), ("mass = \"200 lb\"\n", "")]));
    assert!(page.contains("What you may load is not known: ask the shop."), "{page}");
    assert!(page.contains("not known"), "{page}");
    assert!(page.contains("Ask the shop how tight: it is not written down."));
}

#[test]
fn only_one_of_a_group_and_a_part_that_needs_another_are_told() {
    let more = r#"
[[load]]
tag = "lumber"
mass = "300 lb"
least = "0 lb"
at = { front = "30 in", centre = "0 in", floor = "4 in" }

[[load]]
tag = "pans"
mass = "9 lb"
least = "0 lb"
needs = ["galley"]
at = { front = "10 in", centre = "0 in", floor = "4 in" }

[[either]]
name = "floor"
of = ["galley", "lumber"]
none = true
"#;
    let page = html(&Bench::of(&format!("{SPEC}\n{more}")));
    assert!(page.contains("Galley or lumber: only one of them rides along."), "{page}");
    assert!(page.contains("Pans only together with galley."), "{page}");
}

#[test]
fn how_full_a_tank_may_be_on_the_road_is_told_in_words() {
    let of = |least: &str, most: &str| {
        let held = format!("holds = \"fresh\"\non_road = {{ least = \"{least}\", most = \"{most}\" }}");
        html(&Bench::with(&[("holds = \"fresh\"", &held), ("fill = { fresh = \"100 %\" }\n", "")]))
    };
    assert!(of("0 %", "0 %").contains("Fresh: empty on the road."));
    assert!(of("100 %", "100 %").contains("Fresh: full on the road."));
    assert!(of("0 %", "40 %").contains("Fresh: 0 % to 40 % full on the road."));
}

#[test]
fn the_record_says_how_tight_and_when_again() {
    let record = "[record]\nlugs = { torque = \"95 lbf·ft\", again = [\"10 mi\", \"25 mi\", \"50 mi\"] }\n\
                  [[record.recheck]]\nwhat = \"gas\"\ndue = \"2027-05-04\"\n\
                  [[record.recheck]]\nwhat = \"sealant\"\nafter = \"500 mi\"\ndone = \"2026-05-05\"\n";
    let page = html(&Bench::recorded(record));
    assert!(page.contains("to <strong>95 lbf·ft</strong>"), "{page}");
    assert!(page.contains("Gas: by 2027-05-04, by a qualified person."), "{page}");
    assert!(!page.contains("Sealant"), "what is done is not asked for again");
}

#[test]
fn hostile_names_are_only_shown() {
    let hostile = "</style><script>alert(1)</script>";
    let page = html(&Bench::with(&[
        ("an invented trailer", hostile),
        ("name = \"outward\"", &format!("name = \"{hostile}\"")),
        ("tag = \"galley\"", &format!("tag = \"{hostile}\"")),
    ]));
    assert!(!page.contains("<script") && !page.contains("</style"));
    assert!(page.matches("&lt;script&gt;").count() >= 2, "{page}");
}
