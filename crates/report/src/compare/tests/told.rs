//! How a comparison is told: what comes first, what is counted, what a machine reads back.

use insta::assert_snapshot;
use pintle_finding::{Grade, Reading, Subject, Verdict};
use pintle_quantity::{Quantity, Units};
use serde_json::Value as Json;

use super::super::*;
use super::{SPEC, of_readings, side};
use crate::human::hostile::{EVIL, assert_harmless, hostile};
use crate::sample::Shop;
use crate::{Look, sample};

/// Two versions of the invented spec: a galley moved and a heavier box, a fault that is new and one that is gone.
fn changes() -> Changes {
    let new = SPEC
        .replace("front = \"3 in\", left", "front = \"40 in\", left")
        .replace("mass = \"20 lb\"", "mass = \"25 lb\"");
    let shop = Shop::new();
    let passes = Reading {
        verdict: Verdict::Pass,
        value: Some(Quantity::share(0.114)),
        labels: Vec::new(),
        subject: Subject { span: None, ..shop.light_tongue().subject },
        ..shop.light_tongue()
    };
    let faults = Reading { value: Some(Quantity::share(0.081)), verdict: Verdict::Fault, ..passes.clone() };
    let heavy = |pounds: f64| Reading {
        value: Some(Quantity::pounds(pounds)),
        subject: Subject { span: None, ..shop.over_gvwr().subject },
        ..shop.over_gvwr()
    };
    let was = Reading {
        reason: Some("a length and a mass cannot be added".to_owned()),
        ..sample::reading(Verdict::Broken, Grade::Minor)
    };
    let old = side(SPEC, vec![passes, heavy(2900.0), was]);
    let new = side(&new, vec![faults, heavy(2951.0)]);
    let comparison = compare(Some(old), Some(new), Matched::Call, Grade::Major);
    let facts = |most: f64| RulebookFacts {
        name: Some("pintle.toml".to_owned()),
        hold: Grade::Major,
        rules: vec![RuleFacts {
            id: "towing/heavy-tongue".to_owned(),
            called: None,
            grade: Grade::Major,
            from: Stage::Quote,
            judges: "road state",
            limits: vec![("most".to_owned(), Quantity::share(most))],
            script: "".into(),
        }],
        tolerances: vec![("guessed".to_owned(), Tolerance { value: Quantity::share(most), least: None })],
        waivers: vec![WaiverFacts {
            rule: "roof/tall-rack".to_owned(),
            item: Some("item.rack".to_owned()),
            waived_in: WaivedIn::Build("IN-1".to_owned()),
            terms: WaiverTerms {
                kind: "deviation",
                until: if most > 0.145 { "2026-12-31" } else { "2027-12-31" }.to_owned(),
                who: "the foreman".to_owned(),
                reason: "the customer's own rack".to_owned(),
            },
        }],
    };
    let rulebook = facts(0.15).to(&facts(0.14)).unwrap();
    Changes::new(Grade::Major, vec![comparison], vec![rulebook], Vec::new())
}

#[test]
fn for_people() {
    assert_snapshot!(human::text(&changes(), &Look::default()));
}

#[test]
fn in_plain_lines() {
    assert_snapshot!(plain::text(&changes(), &Look::default()));
}

#[test]
fn for_a_comment() {
    assert_snapshot!(markdown::text(&changes(), &Look::default()));
}

#[test]
fn for_machines() {
    let text = json::text(&changes(), &Look::default());
    let version = format!("\"version\": \"{}\"", env!("CARGO_PKG_VERSION"));
    assert_snapshot!(text.replace(&version, "\"version\": \"(of the tool)\""));
}

#[test]
fn the_units_asked_for_are_shown() {
    let look = Look { units: Units::Metric, ..Look::default() };
    for text in
        [human::text(&changes(), &look), plain::text(&changes(), &look), markdown::text(&changes(), &look)]
    {
        assert!(text.contains("moved 940 mm aft") && !text.contains(" lb"), "{text}");
    }
    let found: Json = serde_json::from_str(&json::text(&changes(), &look)).unwrap();
    assert_eq!(found["specs"][0]["parts"][0]["moves"][0]["by"]["shown"], "940 mm");
}

#[test]
fn the_worst_spec_comes_first_and_unchanged_ones_are_counted() {
    let named = |name: &str, old: Vec<Reading>, new: Vec<Reading>| {
        let mut found = of_readings(old, new);
        name.clone_into(&mut found.new.as_mut().unwrap().spec);
        found
    };
    let fault = || vec![sample::reading(Verdict::Fault, Grade::Major)];
    let cannot = || vec![sample::reading(Verdict::CannotJudge, Grade::Major)];
    let specs = vec![
        named("a-same.toml", fault(), fault()),
        named("b-gone.toml", fault(), Vec::new()),
        named("c-unjudged.toml", Vec::new(), cannot()),
        named("d-new.toml", Vec::new(), fault()),
    ];
    let changes = Changes::new(Grade::Major, specs, Vec::new(), Vec::new());
    let found: Json = serde_json::from_str(&json::text(&changes, &Look::default())).unwrap();
    let specs = found["specs"].as_array().unwrap();
    let order: Vec<_> = specs.iter().map(|spec| spec["spec"].as_str().unwrap()).collect();
    assert_eq!(order, ["d-new.toml", "c-unjudged.toml", "b-gone.toml"]);
    let verdicts: Vec<_> = specs.iter().map(|spec| spec["verdict"].as_str().unwrap()).collect();
    assert_eq!(verdicts, ["new fault", "cannot judge", "no new fault"]);
    assert_eq!((&found["summary"]["specs"], &found["summary"]["unchanged_specs"]), (&4.into(), &1.into()));
    assert!(human::text(&changes, &Look::default()).contains("looked at 4 specs: 3 changed, 1 as before"));
}

#[test]
fn hostile_text_reaches_no_terminal_and_reads_back_whole() {
    let (sources, inspection, problems) = hostile();
    let side = || Side { inspection: inspection.clone(), build: None, sources: sources.clone() };
    let come = compare(None, Some(side()), Matched::Path, Grade::Major);
    let mut sound = super::side(SPEC, inspection.readings.clone());
    sound.sources = sources.clone();
    EVIL.clone_into(&mut sound.inspection.spec);
    let gone = compare(Some(sound), None, Matched::Number, Grade::Major);
    let changes = Changes::new(Grade::Major, vec![come, gone], Vec::new(), vec![(problems, sources)]);
    let look = Look::default();
    for text in [human::text(&changes, &look), plain::text(&changes, &look), markdown::text(&changes, &look)]
    {
        assert!(text.contains("end"), "the hostile text is shown, made harmless");
        assert_harmless(&text);
    }
    let text = json::text(&changes, &look);
    assert_harmless(&text);
    let found: Json = serde_json::from_str(&text).unwrap();
    assert_eq!(found["problems"][0]["message"], EVIL);
    assert_eq!(found["specs"][1]["readings"][0]["rule"], EVIL);
}
