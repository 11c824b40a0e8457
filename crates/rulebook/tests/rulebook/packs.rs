//! The trial runner itself: a trial that comes out otherwise than expected is said to.

use pintle_rulebook::TrialResult;

use crate::bench::{Bench, DATA, SCRIPT, pack};

fn tried(data: &str) -> TrialResult {
    let mut bench = Bench::with(&pack(data, SCRIPT), "");
    let mut results = bench.trials();
    assert_eq!(results.len(), 1);
    results.remove(0)
}

#[test]
fn a_trial_that_comes_out_as_expected_has_no_failure() {
    assert_eq!(tried(DATA).failure, None);
}

#[test]
fn a_trial_that_comes_out_otherwise_says_how() {
    let failure = tried(&DATA.replace("expect = \"fault\"", "expect = \"pass\"")).failure.unwrap();
    assert!(failure.starts_with("expected pass, found fault: "), "{failure}");
    assert!(failure.contains("more than 2,000 lb"), "{failure}");
    let failure = tried(&DATA.replace("expect = \"fault\"", "expect = \"cannot judge\"")).failure.unwrap();
    assert!(failure.starts_with("expected cannot judge, found fault"), "{failure}");
    let failure = tried(&DATA.replace("expect = \"fault\"", "expect = \"not applicable\"")).failure.unwrap();
    assert!(failure.starts_with("expected not applicable, found"), "{failure}");
    let failure = tried(&DATA.replace("2000 lb", "9000 lb")).failure.unwrap();
    assert!(failure.starts_with("expected fault, found pass"), "{failure}");
}

#[test]
fn a_trial_without_its_base_or_its_mark_says_so() {
    let failure = tried(&DATA.replace("sound-6x12-round", "sound-6x12-rond")).failure.unwrap();
    assert_eq!(failure, "there is no base spec `sound-6x12-rond`; did you mean `sound-6x12-round`?");
    let failure = tried(&format!("{DATA}marks = \"item.nothing\"\n")).failure.unwrap();
    assert_eq!(failure, "`item.nothing`, which the finding must mark, is not in the spec");
    let failure = tried(&format!("{DATA}marks = \"vent.roof-vent\"\n")).failure.unwrap();
    assert_eq!(failure, "the finding does not point at `vent.roof-vent`");
}

#[test]
fn a_change_that_breaks_the_spec_is_a_failure_of_the_trial() {
    for with in [r#"{ "trailer.gvwr" = "heavy" }"#, r#"{ "trailer.zebra" = "2 lb" }"#] {
        let result = tried(&format!("{DATA}with = {with}\n"));
        assert_eq!(result.failure.as_deref(), Some("the changed spec cannot be read"), "{with}");
        assert!(!result.problems.is_empty(), "{with}");
    }
    let result = tried(&format!("{DATA}without = [\"item.nothing\"]\n"));
    assert_eq!(result.failure.as_deref(), Some("the changed spec cannot be read"));
}

#[test]
fn a_broken_rule_fails_its_trials_whatever_they_expect() {
    for expect in ["pass", "fault", "not applicable", "cannot judge"] {
        let data = DATA.replace("expect = \"fault\"", &format!("expect = \"{expect}\""));
        let mut bench = Bench::with(&pack(&data, &format!("{SCRIPT}throw \"x\";")), "");
        let results = bench.trials();
        assert!(results[0].failure.as_deref().unwrap().starts_with("the rule is broken: "), "{expect}");
    }
}
