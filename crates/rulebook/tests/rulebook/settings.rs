//! A shop's own limits and grades: they take effect, show whose they are, and are refused when they fit nothing.

use pintle_finding::{Basis, Grade, Problem, Verdict};
use pintle_rulebook::builtin_packs;

use crate::bench::Bench;

fn problems(settings: &str) -> (Bench, Vec<Problem>) {
    Bench::tried(&builtin_packs(), settings)
}

/// The one problem of a rulebook file: code, message, help, and the text it stands at.
fn one(settings: &str) -> (String, String, String, String) {
    let (bench, problems) = problems(settings);
    let [problem] = problems.as_slice() else { panic!("{problems:#?}") };
    (
        problem.code.to_owned(),
        problem.message.clone(),
        problem.help.clone().unwrap_or_default(),
        bench.sources.slice(problem.labels[0].span).to_owned(),
    )
}

fn limit(rule: &str, limit: &str, value: &str) -> String {
    format!(
        "[[limit]]\nrule = \"{rule}\"\nlimit = \"{limit}\"\nvalue = \"{value}\"\nreason = \"we tried it\"\n"
    )
}

#[test]
fn an_unknown_rule_is_refused_and_the_nearest_offered() {
    let (code, message, help, at) = one(&limit("towing/light-tonge", "least", "9 %"));
    assert_eq!(code, "unknown-rule");
    assert_eq!(message, "no rule in use is called `towing/light-tonge`");
    assert_eq!(help, "did you mean `towing/light-tongue`?");
    assert_eq!(at, "\"towing/light-tonge\"");
    let (code, _, help, _) =
        one("[[grade]]\nrule = \"ours/elsewhere\"\ngrade = \"minor\"\nreason = \"we tried it\"\n");
    assert_eq!(code, "unknown-rule");
    assert_eq!(help, "a rule is called `pack/rule`; its pack must be in `packs`");
}

#[test]
fn an_unknown_limit_is_refused_and_the_nearest_offered() {
    let (code, message, help, at) = one(&limit("towing/light-tongue", "lest", "9 %"));
    assert_eq!(code, "unknown-limit");
    assert_eq!(message, "rule `towing/light-tongue` has no limit `lest`");
    assert_eq!(help, "did you mean `least`?");
    assert_eq!(at, "\"lest\"");
    let (_, _, help, _) = one(&limit("towing/over-gvwr", "most", "3000 lb"));
    assert_eq!(help, "it is judged against ratings of the spec");
    let (_, _, help, _) = one(&limit("roof/tent-off-roof", "zebra", "3 in"));
    assert!(help.starts_with("its limits are "), "{help}");
}

#[test]
fn a_limit_of_another_dimension_is_refused() {
    let (code, message, help, at) = one(&limit("towing/light-tongue", "least", "200 lb"));
    assert_eq!(code, "wrong-dimension");
    assert_eq!(message, "limit `least` of `towing/light-tongue` is a share, and this is a mass");
    assert_eq!(help, "write it such as `10 %`");
    assert_eq!(at, "\"200 lb\"");
}

#[test]
fn what_is_set_twice_is_refused_and_the_first_stands() {
    let twice = ["9 %", "8 %"].map(|value| limit("towing/light-tongue", "least", value)).concat();
    let (bench, problems) = problems(&twice);
    assert_eq!(problems.len(), 1);
    assert_eq!(problems[0].code, "set-twice");
    assert_eq!(problems[0].message, "limit `least` of `towing/light-tongue` is set twice");
    let at: Vec<&str> = problems[0].labels.iter().map(|label| bench.sources.slice(label.span)).collect();
    assert_eq!(at, ["\"8 %\"", "\"9 %\""]);
    let held = &bench.rulebook.rule("towing/light-tongue").unwrap().limits[0];
    assert!((held.value.si() - 0.09).abs() < 1e-12);
    let grade = "[[grade]]\nrule = \"roof/tall-rack\"\ngrade = \"minor\"\nreason = \"bent ones\"\n".repeat(2);
    assert_eq!(one(&grade).1, "the grade of `roof/tall-rack` is set twice");
}

#[test]
fn an_override_needs_its_reason() {
    let without = limit("towing/light-tongue", "least", "9 %").replace("reason = \"we tried it\"\n", "");
    let (_, message, _, _) = one(&without);
    assert!(message.contains("`reason`"), "{message}");
}

#[test]
fn an_unknown_key_or_grade_is_refused() {
    let (code, message, help, _) = one("hodl = \"major\"\n");
    assert_eq!(code, "unknown-key");
    assert!(message.contains("`hodl`") && help.contains("hold"), "{message}: {help}");
    let (_, message, _, at) = one("hold = \"grave\"\n");
    assert!(message.contains("grave"), "{message}");
    assert_eq!(at, "\"grave\"");
}

#[test]
fn a_limit_of_the_shops_is_the_one_judged_against_and_says_whose_it_is() {
    let mut bench = Bench::with(&builtin_packs(), &limit("towing/heavy-tongue", "most", "10 %"));
    let build = bench.build("sound-6x12-round", &[]);
    let fault = bench.fault("towing/heavy-tongue", build);
    assert_eq!(fault.limit_basis, Some(Basis::Shop));
    assert_eq!(fault.limit_name, "most");
    let set_by = fault.limit_set_by.clone().unwrap();
    assert_eq!(set_by.file, "pintle.toml");
    assert_eq!(set_by.reason, "we tried it");
    assert_eq!(set_by.was, "15 %");
    let labels = bench.labels(&fault);
    let said =
        ("pintle.toml".to_owned(), "\"10 %\"".to_owned(), "limit `most` set here: we tried it".to_owned());
    assert!(labels.contains(&said), "{labels:#?}");
}

#[test]
fn a_limit_that_nobody_set_is_the_rules_own() {
    let mut bench = Bench::builtin();
    let build = bench.build("sound-6x12-round", &[]);
    let readings = bench.readings("towing/heavy-tongue", build);
    assert_eq!(readings.len(), 5, "one a road state, one for the worst arrangement");
    for reading in readings {
        assert_eq!(reading.verdict, Verdict::Pass);
        assert_eq!(reading.limit_set_by, None);
        assert_eq!(reading.limit_basis, Some(Basis::CommonPractice));
    }
}

#[test]
fn a_grade_of_the_shops_is_the_one_that_counts() {
    let grade =
        "[[grade]]\nrule = \"roof/tall-rack\"\ngrade = \"critical\"\nreason = \"two came back bent\"\n";
    let mut bench = Bench::with(&builtin_packs(), grade);
    let build = bench.build("tall-rack-6x10", &[]);
    let fault = bench.fault("roof/tall-rack", build);
    assert_eq!(fault.grade(), Grade::Critical);
    let set_by = fault.rule.grade_set_by.clone().unwrap();
    assert_eq!((set_by.was.as_str(), set_by.reason.as_str()), ("advice", "two came back bent"));
}

#[test]
fn hold_and_shop_are_read() {
    let bench = Bench::with(&builtin_packs(), "shop = \"Ours\"\nhold = \"critical\"\n");
    assert_eq!(bench.rulebook.hold, Grade::Critical);
    assert_eq!(bench.rulebook.shop.as_deref(), Some("Ours"));
    assert_eq!(Bench::builtin().rulebook.hold, Grade::Major, "major when nobody says");
}

#[test]
fn a_place_that_nobody_holds_is_refused_and_the_nearest_offered() {
    let (code, message, help, at) = one("places = [\"us-txx\"]\n");
    assert_eq!(code, "unknown-place");
    assert_eq!(message, "no place is called `us-txx`");
    assert_eq!(help, "did you mean `us-tx`?");
    assert_eq!(at, "\"us-txx\"");
    let (_, _, help, _) = one("places = [\"somewhere\"]\n");
    assert!(help.starts_with("the places are `au`, `eu`, `gb`"), "{help}");
}

#[test]
fn a_build_that_names_no_place_has_those_of_the_shop() {
    let mut bench = Bench::with(&builtin_packs(), "places = [\"us-ca\", \"us-ca\"]\n");
    let names = |bench: &Bench, build: &pintle_spec::Build| -> Vec<String> {
        bench.rulebook.places.of(build).unwrap().iter().map(|place| place.name.clone()).collect()
    };
    let silent = bench.build("quote-6x12", &[]);
    assert_eq!(names(&bench, &silent), ["us-ca"], "named twice is named once");
    let stated = bench.build("sound-6x12-round", &[]);
    assert_eq!(names(&bench, &stated), ["us-tx"]);
    assert!(bench.rulebook.unknown_places(&stated).is_empty());
    let elsewhere = bench.build("sound-6x12-round", &[("build.places", "[\"us-tx\", \"eu-de\"]")]);
    let unknown = bench.rulebook.unknown_places(&elsewhere);
    assert_eq!(unknown.len(), 1);
    assert_eq!(unknown[0].message, "no place is called `eu-de`");
    assert_eq!(bench.sources.slice(unknown[0].labels[0].span), "\"eu-de\"");
    assert!(bench.rulebook.places.of(&elsewhere).is_err(), "what is not held is missing, not left out");
    let mut plain = Bench::builtin();
    let silent = plain.build("quote-6x12", &[]);
    assert!(plain.rulebook.places.of(&silent).unwrap_err().help.contains("pintle.toml"));
}
