//! Readings that pass with less to spare than they could be off by.

use pintle_finding::{Reading, Role, Verdict};
use pintle_quantity::Quantity;

use crate::bench::{Bench, pack};

const RULE: &str = "spec/wide-tolerance";
/// A trailer of 2,500 lb with 300 lb on its tongue and nothing in it, that carries weights by its tongue's ±.
const BARE: &[(&str, &str)] = &[
    ("item", "[]"),
    ("gas", "{}"),
    ("electric", "{}"),
    ("tank", "[]"),
    ("berth", "[]"),
    ("vent", "[]"),
    ("load", "[]"),
    ("state", "[{ name = \"loaded\", use = \"road\" }]"),
    ("trailer.part", "\"box-6x12-flat\""),
    ("trailer.mass", "\"2500 lb ± 25 lb\""),
    ("trailer.cg", "{ centre = \"0 in ± 1/2 in\", ground = \"33 in ± 1 in\" }"),
];

fn with_tongue(tongue: &'static str) -> (Bench, Vec<Reading>) {
    let mut bench = Bench::builtin();
    let changes: Vec<(&str, &str)> = BARE.iter().copied().chain([("trailer.tongue", tongue)]).collect();
    let build = bench.build("sound-6x12-round", &changes);
    let readings = bench.readings(RULE, build);
    (bench, readings)
}

fn of<'r>(readings: &'r [Reading], rule: &str) -> &'r Reading {
    let found: Vec<&Reading> =
        readings.iter().filter(|reading| reading.subject.name.ends_with(rule)).collect();
    let [found] = found.as_slice() else { panic!("{rule}: {readings:#?}") };
    found
}

/// The share is tongue over mass, 12 %: its ± is 12 % · √((25/2500)² + (t/300)²) by the rule for a quotient
/// (JCGM 100:2008, 5.1.6), and the margin over 10 % has the same.
#[test]
fn the_margin_is_held_against_its_own_uncertainty() {
    for (tongue, half, verdict) in
        [("\"300 lb ± 49 lb\"", 49.0, Verdict::Pass), ("\"300 lb ± 51 lb\"", 51.0, Verdict::Fault)]
    {
        let (_, readings) = with_tongue(tongue);
        let light = of(&readings, "towing/light-tongue");
        let expected = 0.12 * ((25.0_f64 / 2500.0).powi(2) + (half / 300.0_f64).powi(2)).sqrt();
        let margin = light.value.unwrap();
        assert!((margin.si() - 0.02).abs() < 1e-12, "{margin:?}");
        let pintle_finding::Bound::AtLeast(uncertainty) = light.bound else { panic!("{light:#?}") };
        assert!((uncertainty.si() - expected).abs() < 1e-9, "{} against {expected}", uncertainty.si());
        assert_eq!(light.verdict, verdict, "{tongue}");
        assert!((margin.tolerance().map_or(0.0, Quantity::si) - expected).abs() < 1e-9);
    }
}

#[test]
fn the_masses_to_weigh_are_marked_and_named() {
    let (bench, readings) = with_tongue("\"300 lb ± 60 lb\"");
    let light = of(&readings, "towing/light-tongue");
    let remedy = light.remedy.as_deref().unwrap();
    assert!(remedy.starts_with("weigh `tongue` of the trailer (± 60 lb)"), "{remedy}");
    let marked: Vec<_> =
        light.labels.iter().filter(|label| label.text.contains("weigh this first")).collect();
    assert_eq!(bench.sources.slice(marked[0].span), "\"300 lb ± 60 lb\"", "{marked:#?}");
    assert_eq!(marked[0].role, Role::Subject);
}

/// Only the tightest of each rule's readings is a subject, and only of what passes.
#[test]
fn one_subject_a_figure_and_none_for_what_fails() {
    let mut bench = Bench::builtin();
    let build = bench.build("rear-galley-5x8", &[]);
    let all = bench.inspect(build);
    let names: Vec<&str> = all
        .readings
        .iter()
        .filter(|reading| reading.rule.id == RULE)
        .map(|reading| reading.subject.name.as_str())
        .collect();
    let once: std::collections::BTreeSet<&str> = names.iter().copied().collect();
    assert_eq!(once.len(), names.len(), "{names:#?}");
    // Of four states one is right: it is tight, and those that fail are no subject of this rule.
    let faults = |rule: &str| {
        all.readings
            .iter()
            .filter(|reading| reading.rule.id == rule && reading.verdict == Verdict::Fault)
            .count()
    };
    assert!(faults("towing/tongue-lift") > 0);
    assert!(names.len() > 5, "{names:#?}");
}

/// A figure of which nobody can say how sure it is, is not sure.
#[test]
fn what_nobody_can_be_sure_of_cannot_be_judged() {
    let data = crate::bench::DATA
        .replace("road state", "tight reading")
        .replace("[limit.most]\nvalue = \"2000 lb\"\nbasis = \"shop\"\n", "");
    let script = "reading(tight.margin).at_least(tight.uncertainty);";
    let other = crate::bench::DATA.replace("minor", "major").replace("2000 lb", "9000 lb");
    let mut packs = pack(&data, script);
    let read = "let battery = build.batteries[0];\nreading(state.gross * (battery.voltage / quantity(\"12 V\"))).at_most(limit.most * 100);";
    let second = pack(&other, read).remove(0).files.into_iter();
    packs[0].files.extend(second.map(|(name, text)| (name.replace("trial-rule", "read-rule"), text)));
    let mut bench = Bench::with(&packs, "");
    let build = bench.build("sound-6x12-round", &[]);
    let readings = bench.readings("own/trial-rule", build);
    let [reading] = readings.as_slice() else { panic!("{readings:#?}") };
    assert_eq!(reading.verdict, Verdict::CannotJudge, "{reading:#?}");
    assert!(reading.reason.as_deref().unwrap().starts_with("how sure the "), "{reading:#?}");
    let sure = bench.build("sound-6x12-round", &[("item.battery.voltage", "\"12.8 V ± 0.2 V\"")]);
    let readings = bench.readings("own/trial-rule", sure);
    assert!(readings.iter().all(|reading| reading.verdict == Verdict::Pass), "{readings:#?}");
}

#[test]
fn without_other_rules_there_is_nothing_to_judge() {
    let data = crate::bench::DATA
        .replace("road state", "tight reading")
        .replace("[limit.most]\nvalue = \"2000 lb\"\nbasis = \"shop\"\n", "");
    let mut bench = Bench::with(&pack(&data, "reading(tight.margin).at_least(tight.uncertainty);"), "");
    let build = bench.build("sound-6x12-round", &[]);
    let readings = bench.readings("own/trial-rule", build);
    let [reading] = readings.as_slice() else { panic!("{readings:#?}") };
    assert_eq!(reading.verdict, Verdict::NotApplicable);
}

/// The margin is that of the reading it is named for, at the nearer end of a band, and it is the one with least to spare.
#[test]
fn the_tightest_reading_is_the_subject() {
    let mut bench = Bench::builtin();
    let mut bands = (0, 0);
    for (spec, axle) in [("sound-6x12-round", ""), ("sound-6x12-round", "rear"), ("sound-5x8-round", "")] {
        let mut build = bench.build(spec, &[]);
        if axle == "rear" {
            // To the rear end of the window, by what the reading says of it.
            let window = bench.inspect(build.clone());
            let found =
                window.readings.iter().find(|reading| reading.what.starts_with("distance of the axle"));
            let Some(pintle_finding::Bound::Between(_, rear)) = found.map(|found| found.bound.clone()) else {
                panic!("no window: {found:#?}")
            };
            let text = format!("\"{} m\"", rear.si() - 0.002);
            build = bench.build(spec, &[("trailer.axle.ball", &text)]);
        }
        let all = bench.inspect(build).readings;
        for tight in all.iter().filter(|reading| reading.rule.id == RULE) {
            let Some(margin) = tight.value else { continue };
            let passing = all.iter().filter(|reading| {
                reading.verdict == Verdict::Pass
                    && tight.subject.name.ends_with(&format!(", by {}", reading.rule.id))
                    && tight.subject.name.starts_with(&reading.what)
            });
            let margins: Vec<f64> =
                passing.clone().map(|reading| reading.margin().unwrap().amount.si()).collect();
            let least = margins.iter().copied().fold(f64::INFINITY, f64::min);
            assert!(
                margins.iter().any(|held| (held - margin.si()).abs() < 1e-9 * held.abs().max(1.0)),
                "{spec}: {} has a margin of its own: {margin:?}, {margins:?}",
                tight.subject.name
            );
            if tight.subject.name.contains("tongue share") {
                assert!((margin.si() - least).abs() < 1e-9, "{spec}: {}: {margins:?}", tight.subject.name);
            }
            for reading in passing {
                if let (pintle_finding::Bound::Between(low, high), Some(value)) =
                    (&reading.bound, reading.value)
                {
                    let lower = value.si() - low.si() < high.si() - value.si();
                    bands = if lower { (bands.0 + 1, bands.1) } else { (bands.0, bands.1 + 1) };
                }
            }
        }
    }
    assert!(bands.0 > 0 && bands.1 > 0, "a band must be near its end on either side: {bands:?}");
}
