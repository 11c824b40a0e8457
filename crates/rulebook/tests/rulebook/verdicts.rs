//! From what a script leaves to what is reported: a rule that fails is broken, and a missing value is said.

use pintle_finding::{Role, Verdict};

use crate::bench::{Bench, DATA, SCRIPT, of_states, pack, says};

/// The verdicts on the first of the four road states.
fn verdicts(script: &str) -> Vec<Verdict> {
    let readings = says(script);
    assert_eq!(readings.len() % 4, 0, "the same of every road state: {readings:#?}");
    readings[..readings.len() / 4].iter().map(|reading| reading.verdict).collect()
}

#[test]
fn a_script_without_a_reading_is_broken() {
    // That none is taken is not certain before the run: the reading is there, and never reached.
    let never = "if state.gross < quantity(\"1 lb\") { require(true, \"it weighs nothing\"); }";
    for script in [never.to_owned(), format!("{never}\nreturn;"), format!("let a = state.gross;\n{never}")] {
        assert_eq!(verdicts(&script), [Verdict::Broken], "{script}");
    }
    let reading = &says(never)[0];
    assert_eq!(reading.reason.as_deref(), Some("its script made no reading"));
    assert_eq!(reading.labels[0].role, Role::Script);
}

#[test]
fn a_reading_without_a_limit_is_broken_at_its_place() {
    let script = "let a = 1;\nlet kept = reading(state.gross);";
    assert_eq!(verdicts(script), [Verdict::Broken]);
    let bench = Bench::with(&pack(DATA, &format!("limit.most;\n{script}")), "");
    let mut bench = bench;
    let build = bench.build("sound-6x12-round", &[]);
    let readings = bench.readings("own/trial-rule", build);
    let labels = bench.labels(&readings[0]);
    let (file, at, words) = &labels[0];
    assert_eq!((file.as_str(), at.as_str()), ("rules/own/trial-rule.rhai", "reading"));
    assert_eq!(words, "its script takes a reading and compares it with nothing");
    let line = bench.sources.locate(readings[0].labels[0].span).line;
    assert_eq!(line, 3);
}

#[test]
fn a_second_limit_on_a_reading_is_broken() {
    // A map hides from the check before the run what it holds.
    let script = "let kept = #{ read: reading(state.gross) };\n\
                  kept.read.at_most(trailer.gvwr);\nkept.read.at_least(trailer.gvwr);";
    assert_eq!(verdicts(script), [Verdict::Pass, Verdict::Broken]);
}

#[test]
fn a_pass_before_a_missing_value_is_kept_beside_it() {
    let script = "reading(state.gross).at_most(trailer.gvwr);\n\
                  reading(state.gross).at_most(trailer.roof_rating.moving);\n\
                  reading(state.gross).at_most(trailer.added_label);";
    assert_eq!(verdicts(script), [Verdict::Pass, Verdict::Fault, Verdict::CannotJudge]);
}

#[test]
fn a_script_that_fails_is_broken_where_it_fails() {
    let script = "let of = #{ track: trailer.axle.track };\nlet sum = state.gross + of.track;\nrequire(true, \"fine\");";
    let mut bench = Bench::with(&pack(DATA, &format!("limit.most;\n{script}")), "");
    let build = bench.build("sound-6x12-round", &[]);
    let readings = bench.readings("own/trial-rule", build);
    assert_eq!(readings[0].verdict, Verdict::Broken);
    let place = bench.sources.locate(readings[0].labels[0].span);
    assert_eq!((place.line, place.column), (3, 23));
    let labels = bench.labels(&readings[0]);
    assert_eq!(labels[0].1, "+");
    assert_eq!(labels[1].2, "while judging this");
}

/// One rule that never ends does not keep the next from being judged.
#[test]
fn a_broken_rule_leaves_the_others_alone() {
    let mut packs = pack(DATA, "limit.most; loop { } require(true, \"never\");");
    let whole = pack(DATA, SCRIPT).remove(0).files.into_iter();
    packs[0].files.extend(whole.map(|(name, text)| (name.replace("trial-rule", "second-rule"), text)));
    let mut bench = Bench::with(&packs, "");
    let build = bench.build("sound-6x12-round", &[]);
    let inspection = bench.inspect(build);
    let of = |rule: &str| -> Vec<Verdict> {
        let readings = of_states(inspection.readings.clone()).into_iter();
        readings.filter(|reading| reading.rule.id == rule).map(|reading| reading.verdict).collect()
    };
    assert_eq!(of("own/trial-rule"), [Verdict::Broken; 4]);
    assert_eq!(of("own/second-rule").len(), 4);
    assert!(of("own/second-rule").iter().all(|verdict| *verdict != Verdict::Broken));
}

#[test]
fn rules_whose_stage_has_not_come_are_listed() {
    let mut bench = Bench::with(&pack(&DATA.replace("\"quote\"", "\"delivery\""), SCRIPT), "");
    let build = bench.build("sound-6x12-round", &[]);
    let inspection = bench.inspect(build);
    assert_eq!(inspection.readings, []);
    assert_eq!(inspection.later.len(), 1);
    assert_eq!(inspection.later[0].0, "own/trial-rule");
}

#[test]
fn a_build_without_road_states_cannot_be_judged_by_a_rule_of_road_states() {
    let mut bench = Bench::builtin();
    let build = bench.build("sound-6x12-round", &[("state", "[]")]);
    let readings = bench.readings("towing/light-tongue", build);
    assert_eq!(readings.len(), 1);
    assert_eq!(readings[0].verdict, Verdict::CannotJudge);
    assert_eq!(readings[0].reason.as_deref(), Some("the spec has no road state"));
    assert!(readings[0].remedy.is_some());
}

/// A rating that is not given must not hide another that is broken.
#[test]
fn a_missing_rating_hides_no_fault_of_the_others() {
    let mut bench = Bench::builtin();
    let tow = r#"{ rating = "7200 lb", tongue_rating = "50 lb" }"#;
    let trailer = r#"{ mass = "1300 lb", tongue = "150 lb", cg = { centre = "0 in", ground = "33 in" }, gvwr = "2990 lb", ball_to_box = "44 in", length = "129 in", width = "69 in", height = "76 in", wall = "1 1/2 in", roof = "2 in", floor_height = "21 in", frame_height = "18 in", nose = { shape = "round", depth = "12 in" }, axle = { ball = "128 in", count = 1, track = "82 in" }, coupler = { tongue_rating = "600 lb" } }"#;
    let build = bench.build("sound-6x12-round", &[("tow", tow), ("trailer", trailer)]);
    let readings = bench.readings("towing/tongue-over-rating", build);
    let state = readings[0].subject.clone();
    let of: Vec<Verdict> =
        readings.iter().filter(|reading| reading.subject == state).map(|reading| reading.verdict).collect();
    assert_eq!(of, [Verdict::Pass, Verdict::Fault, Verdict::CannotJudge]);

    let rack = r#"{ kind = "rack", mass = "40 lb", length = "60 in", width = "66 in", height = "3 in", zone = "roof", at = { front = "18 in" } }"#;
    let build =
        bench.build("sound-6x12-round", &[("item.rack", rack), ("trailer.roof_rating.parked", "\"300 lb\"")]);
    let readings = bench.readings("roof/roof-over-rating", build);
    let of: Vec<Verdict> = readings.iter().map(|reading| reading.verdict).collect();
    assert_eq!(of, [Verdict::Fault, Verdict::Pass, Verdict::CannotJudge]);
}

/// A battery whose size is not known may stand beside the cylinder.
#[test]
fn a_place_that_is_not_known_is_no_pass() {
    let mut bench = Bench::builtin();
    let battery = r#"{ kind = "battery", mass = "25 lb", at = { front = "4 in", left = "4 in" } }"#;
    let build = bench.build("closet-cylinder-6x12", &[("item.battery", battery)]);
    let readings = bench.readings("gas/cylinder-near-ignition", build);
    // Of the spare, which stands in no locker, there is nothing to judge.
    let of = |name: &str| readings.iter().find(|reading| reading.subject.name == name).unwrap().verdict;
    assert_eq!(of("cylinder"), Verdict::CannotJudge);
    assert_eq!(of("spare"), Verdict::NotApplicable);
}

/// Of a figure that the build has and each of two cylinders too, the build is asked for its own.
#[test]
fn a_build_is_asked_for_the_figure_of_the_whole() {
    let data = DATA.replace("road state", "build").replace("2000 lb", "1 h");
    let script = "reading(build[\"gas/burn_time\"]).at_most(limit.most);\n\
                  for one in build.cylinders { reading(one[\"gas/burn_time\"]).at_most(limit.most); }";
    let mut bench = Bench::with(&pack(&data, script), "");
    let build = bench.build("overload-6x12", &[]);
    let readings = bench.readings("own/trial-rule", build);
    let hours: Vec<f64> =
        readings.iter().filter_map(|reading| reading.value).map(pintle_quantity::Quantity::si).collect();
    assert_eq!(hours.len(), 3, "{readings:#?}");
    assert!((hours[0] - hours[1] - hours[2]).abs() < 1e-6 * hours[0], "{hours:?}");
}

/// A text that quotes names already is not quoted once more.
#[test]
fn what_is_listed_is_quoted_once() {
    let data = DATA.replace("[limit.most]\nvalue = \"2000 lb\"\nbasis = \"shop\"\n", "");
    let told = |script: &str| {
        let mut bench = Bench::with(&pack(&data.replace("road state", "camp state"), script), "");
        let build = bench.build("tall-rack-6x10", &[]);
        let reading = bench.fault("own/trial-rule", build);
        reading.sentence(pintle_quantity::Units::AsWritten)
    };
    let covered = told("require(false, listed(state[\"air/covered_vents\"]));");
    assert!(covered.ends_with("vent `low-right` by item `cabinet`"), "{covered}");
    let plain = told("require(false, listed([\"tail\", \"stop\"]));");
    assert!(plain.ends_with("`tail`, `stop`"), "{plain}");
}

/// A limit that enters through a formula still says where its figure comes from, and who set it.
#[test]
fn a_limit_within_a_formula_keeps_its_basis() {
    let reading = |settings: &str| {
        let mut bench = Bench::with(&pintle_rulebook::builtin_packs(), settings);
        let build = bench.build("sound-6x12-round", &[("item.tent.at", "{ front = \"-24 in\" }")]);
        bench.fault("roof/tent-overhang", build)
    };
    let plain = reading("");
    assert_eq!(plain.limit_basis, Some(pintle_finding::Basis::CommonPractice));
    assert_eq!(plain.limit_set_by, None);
    let own = reading(
        "[[limit]]\nrule = \"roof/tent-overhang\"\nlimit = \"most\"\nvalue = \"10 in\"\nreason = \"our racks are short\"\n",
    );
    assert_eq!(own.limit_basis, Some(pintle_finding::Basis::Shop));
    assert_eq!(own.limit_set_by.unwrap().reason, "our racks are short");
}
