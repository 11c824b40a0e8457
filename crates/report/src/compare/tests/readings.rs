//! Which readings belong together, what became of them, and what it comes to.

use std::sync::Arc;

use pintle_finding::{Bound, Grade, Problem, Reading, Subject, Verdict};
use pintle_quantity::Quantity;

use super::super::*;
use super::{of_readings, side};
use crate::sample;

/// A reading of a state's tongue share, judged against at least 10 %.
fn share(verdict: Verdict, grade: Grade, percent: f64) -> Reading {
    Reading {
        subject: Subject { kind: "road state", name: "outward".to_owned(), span: None },
        what: "tongue share".to_owned(),
        value: Some(Quantity::share(percent / 100.0)),
        bound: Bound::AtLeast(Quantity::share(0.1)),
        limit_name: "least".to_owned(),
        ..sample::reading(verdict, grade)
    }
}

/// The rule stopped, or did not apply.
fn stopped(verdict: Verdict, grade: Grade, why: &str) -> Reading {
    Reading {
        subject: Subject { kind: "road state", name: "outward".to_owned(), span: None },
        reason: Some(why.to_owned()),
        ..sample::reading(verdict, grade)
    }
}

/// A condition of the build that holds or does not.
fn condition(verdict: Verdict, words: &str) -> Reading {
    Reading { bound: Bound::Holds(words.to_owned()), ..sample::reading(verdict, Grade::Major) }
}

fn news(comparison: &Comparison) -> Vec<News> {
    comparison.readings.iter().map(|change| change.news).collect()
}

fn one(old: Reading, new: Reading) -> (Vec<News>, Turn, Counts) {
    let comparison = of_readings(vec![old], vec![new]);
    (news(&comparison), comparison.turn(), comparison.counts)
}

const FAULT: Verdict = Verdict::Fault;
const PASS: Verdict = Verdict::Pass;

#[test]
fn every_turn_of_a_reading_has_its_news_and_its_outcome() {
    let major = Grade::Major;
    let cannot = || stopped(Verdict::CannotJudge, major, "`mass` is not given");
    let broken = || stopped(Verdict::Broken, major, "it failed");
    let apart = || stopped(Verdict::NotApplicable, major, "no tongue");
    let rows: Vec<(Reading, Reading, &[News], Turn)> = vec![
        (share(PASS, major, 12.0), share(PASS, major, 12.0), &[], Turn::NoNewFault),
        (share(PASS, major, 12.0), share(PASS, major, 11.0), &[News::Moved], Turn::NoNewFault),
        (share(PASS, major, 12.0), share(FAULT, major, 9.0), &[News::NewFault], Turn::NewFault),
        (
            share(PASS, Grade::Minor, 12.0),
            share(FAULT, Grade::Minor, 9.0),
            &[News::NewFault],
            Turn::NoNewFault,
        ),
        (share(FAULT, major, 9.0), share(PASS, major, 12.0), &[News::Gone], Turn::NoNewFault),
        (share(FAULT, major, 9.0), share(FAULT, major, 8.0), &[News::Worse], Turn::NoNewFault),
        (share(FAULT, major, 8.0), share(FAULT, major, 9.0), &[News::Better], Turn::NoNewFault),
        (share(FAULT, major, 9.0), share(FAULT, major, 9.0), &[], Turn::NoNewFault),
        (share(PASS, major, 12.0), cannot(), &[News::Unjudged], Turn::CannotJudge),
        (share(PASS, major, 12.0), broken(), &[News::Unjudged], Turn::CannotJudge),
        (share(FAULT, major, 9.0), cannot(), &[News::Unjudged], Turn::CannotJudge),
        (cannot(), share(FAULT, major, 9.0), &[News::NewFault], Turn::NewFault),
        (cannot(), share(PASS, major, 12.0), &[News::Gone], Turn::NoNewFault),
        (cannot(), broken(), &[News::Unjudged], Turn::CannotJudge),
        (
            cannot(),
            stopped(Verdict::CannotJudge, major, "`at` is not given"),
            &[News::Altered],
            Turn::NoNewFault,
        ),
        (share(PASS, major, 12.0), apart(), &[News::Otherwise], Turn::NoNewFault),
        (share(FAULT, major, 9.0), apart(), &[News::Gone], Turn::NoNewFault),
        (apart(), share(FAULT, major, 9.0), &[News::NewFault], Turn::NewFault),
    ];
    for (old, new, wanted, turn) in rows {
        let words = format!("{} to {}", old.verdict, new.verdict);
        let (found, came, _) = one(old, new);
        assert_eq!((found.as_slice(), came), (wanted, turn), "{words}");
    }
}

#[test]
fn a_grade_that_rises_over_the_hold_makes_a_fault_new_and_one_that_falls_makes_it_less_bad() {
    let (minor, major) = (share(FAULT, Grade::Minor, 9.0), share(FAULT, Grade::Critical, 9.0));
    let (found, turn, counts) = one(minor.clone(), major.clone());
    assert_eq!((found.as_slice(), turn), (&[News::NewFault][..], Turn::NewFault));
    assert_eq!((counts.gained.fault.holds, counts.lost.all()), (1, 0));
    let (found, turn, counts) = one(major, minor);
    assert_eq!((found.as_slice(), turn), (&[News::Better][..], Turn::NoNewFault));
    assert_eq!((counts.gained.all(), counts.lost.fault.holds), (0, 1));
    // Above the hold before and now: not new, but not what it was.
    let (found, turn, _) = one(share(FAULT, Grade::Major, 9.0), share(FAULT, Grade::Critical, 9.0));
    assert_eq!((found.as_slice(), turn), (&[News::Altered][..], Turn::NoNewFault));
}

#[test]
fn readings_belong_together_by_rule_subject_and_what() {
    let of_state = |name: &str, verdict| {
        let subject = Subject { kind: "road state", name: name.to_owned(), span: None };
        Reading { subject, ..share(verdict, Grade::Major, 9.0) }
    };
    let other = of_readings(vec![of_state("outward", FAULT)], vec![of_state("homeward", FAULT)]);
    assert_eq!(news(&other), [News::NewFault, News::Gone], "a fault of another state is another fault");
    let what = |what: &str| Reading { what: what.to_owned(), ..share(FAULT, Grade::Major, 9.0) };
    let other = of_readings(vec![what("left load")], vec![what("right load")]);
    assert_eq!(news(&other), [News::NewFault, News::Gone], "a fault of something else is another fault");
    // The order of readings does not matter.
    let mixed = of_readings(vec![what("a"), what("b")], vec![what("b"), what("a")]);
    assert_eq!(news(&mixed), []);
}

#[test]
fn two_conditions_are_two_faults() {
    let old = vec![condition(FAULT, "the left lamp is fitted"), condition(PASS, "the right lamp is fitted")];
    let new = vec![condition(PASS, "the left lamp is fitted"), condition(FAULT, "the right lamp is fitted")];
    let found = of_readings(old, new);
    assert_eq!(news(&found), [News::NewFault, News::Gone]);
    let reworded = of_readings(vec![condition(FAULT, "a")], vec![condition(FAULT, "b")]);
    assert_eq!(news(&reworded), [News::NewFault, News::Gone]);
}

#[test]
fn the_names_of_arrangements_do_not_keep_them_apart() {
    let arranged = |name: &str, percent| {
        let subject = Subject { kind: "arrangement", name: name.to_owned(), span: None };
        Reading { subject, ..share(FAULT, Grade::Major, percent) }
    };
    let found = of_readings(vec![arranged("galley out", 9.0)], vec![arranged("galley out, tent out", 8.0)]);
    assert_eq!(news(&found), [News::Worse]);
    let found = of_readings(vec![arranged("galley out", 9.0)], vec![arranged("tent out", 9.0)]);
    assert_eq!(news(&found), [], "another name alone is no news");
}

/// A reading on an arrangement is left out where a state of the spec's own shows as much.
#[test]
fn the_worst_state_stands_in_for_an_arrangement_that_showed_no_more() {
    let (major, of) = (Grade::Major, |kind: &'static str, name: &str, verdict, percent| {
        let subject = Subject { kind, name: name.to_owned(), span: None };
        Reading { subject, ..share(verdict, Grade::Major, percent) }
    });
    let states = || vec![of("road state", "a", FAULT, 8.0), of("road state", "b", FAULT, 9.0)];
    let with = |percent| [states(), vec![of("arrangement", "all out", FAULT, percent)]].concat();
    // It was a fault of 8 % before, on state `a`, and there was none worse.
    let found = of_readings(states(), with(7.5));
    assert_eq!((news(&found).as_slice(), found.turn()), (&[News::Worse][..], Turn::NoNewFault));
    assert!((found.readings[0].margin.unwrap().by.si() + 0.005).abs() < 1e-12);
    let told = found.other_words(&found.readings[0], pintle_quantity::Units::AsWritten);
    assert!(told.starts_with("before: fault with 8 %, of road state `a`; margin from"), "{told}");
    let found = of_readings(with(7.5), states());
    assert_eq!((news(&found).as_slice(), found.counts.lost.all()), (&[News::Better][..], 0));
    // Where every state passed, a fault of an arrangement is new.
    let sound = vec![of("road state", "a", PASS, 11.0)];
    let found = of_readings(sound.clone(), [sound, vec![of("arrangement", "all out", FAULT, 9.0)]].concat());
    assert_eq!((news(&found).as_slice(), found.turn()), (&[News::NewFault][..], Turn::NewFault));
    // Another figure of the same rule stands in for nothing.
    let other = Reading { what: "something else".to_owned(), ..of("arrangement", "all out", FAULT, 7.5) };
    let found = of_readings(states(), [states(), vec![other]].concat());
    assert_eq!(news(&found), [News::NewFault]);
    // What could not be judged for the same reason on a state is no news on an arrangement.
    let cannot = |kind| {
        let subject = Subject { kind, name: "any".to_owned(), span: None };
        Reading { subject, ..stopped(Verdict::CannotJudge, major, "`mass` is not given") }
    };
    let found = of_readings(vec![cannot("road state")], vec![cannot("road state"), cannot("arrangement")]);
    assert_eq!((news(&found).len(), found.turn()), (0, Turn::NoNewFault));
    let found = of_readings(Vec::new(), vec![cannot("arrangement")]);
    assert_eq!(found.turn(), Turn::CannotJudge);
}

/// Tight readings are named by what was read, on what and by which rule; which state is the tightest can change.
#[test]
fn tight_readings_belong_together_by_what_was_read_and_by_which_rule() {
    let read = |state: &str, what: &str| Reading {
        what: what.to_owned(),
        subject: Subject { kind: "road state", name: state.to_owned(), span: None },
        ..share(PASS, Grade::Major, 12.0)
    };
    let tight = |name: &str, verdict, percent| Reading {
        what: "margin".to_owned(),
        subject: Subject { kind: "tight reading", name: format!("{name}, by house/sample"), span: None },
        ..share(verdict, Grade::Minor, percent)
    };
    let states = || vec![read("a of b", "load"), read("c", "load"), read("c", "load of each axle")];
    let old = vec![tight("load of a of b", PASS, 12.0), tight("load of each axle of c", FAULT, 8.0)];
    let new = vec![tight("load of each axle of c", FAULT, 8.0), tight("load of c", PASS, 11.0)];
    let found = of_readings([states(), old].concat(), [states(), new].concat());
    assert_eq!(
        news(&found),
        [News::Moved],
        "the tightest load is another state's now, and no news by its name"
    );
    let gone = of_readings([states(), vec![tight("load of c", FAULT, 8.0)]].concat(), states());
    assert_eq!(news(&gone), [News::Gone]);
}

#[test]
fn a_limit_of_another_name_keeps_a_figure_and_a_stopped_rule_stands_for_one_reading() {
    let against = |name: &str| Reading { limit_name: name.to_owned(), ..share(FAULT, Grade::Major, 9.0) };
    assert_eq!(news(&of_readings(vec![against("hitch")], vec![against("coupler")])), [News::Altered]);
    let what = |what: &str| Reading { what: what.to_owned(), ..share(PASS, Grade::Major, 12.0) };
    let cannot = || stopped(Verdict::CannotJudge, Grade::Major, "`mass` is not given");
    let stops = of_readings(vec![what("a"), what("b"), what("c")], vec![what("a"), cannot()]);
    assert_eq!(news(&stops), [News::Unjudged, News::Otherwise]);
    assert_eq!(stops.counts.same_readings, 1, "what was read before the rule stopped is as it was");
    let resumes = of_readings(vec![what("a"), cannot()], vec![what("a"), what("b"), what("c")]);
    assert_eq!(news(&resumes), [News::Gone, News::Otherwise]);
}

#[test]
fn margins_move_by_their_difference_and_the_tightest_comes_first() {
    let of = |name: &str, percent| {
        let subject = Subject { kind: "road state", name: name.to_owned(), span: None };
        Reading { subject, ..share(PASS, Grade::Major, percent) }
    };
    let old = vec![of("a", 15.0), of("b", 20.0), of("c", 12.0)];
    let new = vec![of("a", 14.0), of("b", 11.0), of("c", 13.0)];
    let found = of_readings(old, new);
    let names: Vec<_> =
        found.readings.iter().map(|change| change.latest().unwrap().subject.name.as_str()).collect();
    assert_eq!(names, ["b", "c", "a"]);
    let by: Vec<f64> = found.readings.iter().map(|change| change.margin.unwrap().by.si()).collect();
    for (found, wanted) in by.iter().zip([-0.09, 0.01, -0.01]) {
        assert!((found - wanted).abs() < 1e-12, "{found} for {wanted}");
    }
}

#[test]
fn a_limit_that_moved_moves_the_margin() {
    let against = |least: f64| Reading {
        bound: Bound::AtLeast(Quantity::share(least)),
        ..share(PASS, Grade::Major, 14.0)
    };
    let found = of_readings(vec![against(0.10)], vec![against(0.12)]);
    assert_eq!(news(&found), [News::Moved]);
    assert!((found.readings[0].margin.unwrap().by.si() + 0.02).abs() < 1e-12);
}

#[test]
fn a_side_that_cannot_be_read_makes_nothing_new_and_nothing_gone() {
    let unreadable = || Side {
        inspection: Inspection {
            spec: "a.toml".to_owned(),
            problems: vec![Problem::new("syntax", "a key without a value")],
            ..Inspection::default()
        },
        build: None,
        sources: Sources::new(),
    };
    let readings = vec![share(FAULT, Grade::Major, 9.0), share(PASS, Grade::Major, 12.0)];
    let sound = || Some(side(super::SPEC, readings.clone()));
    for (old, new) in [(Some(unreadable()), sound()), (sound(), Some(unreadable()))] {
        let found = compare(old, new, Matched::Path, Grade::Major);
        assert_eq!(news(&found), [News::Uncompared]);
        assert_eq!(
            (found.turn(), found.counts.gained.all(), found.counts.lost.all()),
            (Turn::InputWrong, 0, 0)
        );
        assert_eq!((found.counts.uncompared.fault.holds, found.counts.problems), (1, 1));
    }
}

#[test]
fn a_spec_that_comes_brings_new_faults_and_one_that_goes_takes_them_along() {
    let with = |verdict| Some(side(super::SPEC, vec![share(verdict, Grade::Major, 9.0)]));
    let come = compare(None, with(FAULT), Matched::Path, Grade::Major);
    assert_eq!((news(&come).as_slice(), come.turn()), (&[News::NewFault][..], Turn::NewFault));
    let gone = compare(with(FAULT), None, Matched::Path, Grade::Major);
    assert_eq!((news(&gone).as_slice(), gone.turn()), (&[News::Gone][..], Turn::NoNewFault));
    assert!(!come.is_same() && !gone.is_same());
}

#[test]
fn a_rule_that_waits_for_a_later_stage_is_said_to_wait() {
    let mut new = side(super::SPEC, Vec::new());
    let fault = share(FAULT, Grade::Major, 9.0);
    let id = fault.rule.id.clone();
    let untaken = |new| {
        let found =
            compare(Some(side(super::SPEC, vec![fault.clone()])), Some(new), Matched::Call, Grade::Major);
        found.other_words(&found.readings[0], pintle_quantity::Units::AsWritten)
    };
    let plain = untaken(side(super::SPEC, Vec::new()));
    assert_eq!(plain, "now: not taken; the rule, or what it judges, is no longer there");
    new.inspection.later = vec![(id, pintle_finding::Stage::Delivery)];
    assert_eq!(untaken(new), "now: the rule waits for a later stage");
}

#[test]
fn the_headline_says_what_is_worse_and_what_stands() {
    let of = |name: &str, verdict, grade, percent| {
        let subject = Subject { kind: "road state", name: name.to_owned(), span: None };
        Reading { subject, ..share(verdict, grade, percent) }
    };
    let (major, minor) = (Grade::Major, Grade::Minor);
    let headline = |old: Vec<Reading>, new: Vec<Reading>| {
        Changes::new(major, vec![of_readings(old, new)], Vec::new(), Vec::new()).headline()
    };
    let standing = of("s", FAULT, major, 9.0);
    let with = |reading: Reading| vec![standing.clone(), reading];
    assert_eq!(
        headline(with(of("a", FAULT, major, 9.0)), with(of("a", FAULT, major, 8.0))),
        "no new fault at or above major; 1 fault that was there before is worse; 2 findings stand as before"
    );
    assert_eq!(
        headline(with(of("a", PASS, major, 12.0)), with(of("a", FAULT, major, 8.0))),
        "1 new fault at or above major; 1 finding stands as before"
    );
    assert_eq!(
        headline(with(of("a", PASS, minor, 12.0)), with(of("a", FAULT, minor, 8.0))),
        "no new fault at or above major; 1 new fault below major; 1 finding stands as before"
    );
    assert_eq!(
        headline(with(of("a", FAULT, minor, 8.0)), with(of("a", PASS, minor, 12.0))),
        "no new fault at or above major; 1 finding is no longer there; 1 finding stands as before"
    );
    assert_eq!(
        headline(with(of("a", PASS, minor, 8.0)), with(of("a", PASS, minor, 8.0))),
        "nothing changed that is weighed or judged; 1 finding stands as before"
    );
    let cannot = Reading { rule: Arc::clone(&standing.rule), ..stopped(Verdict::CannotJudge, major, "x") };
    assert_eq!(
        headline(vec![of("outward", PASS, major, 12.0)], vec![cannot]),
        "no new fault at or above major; 1 reading at or above major cannot be judged now, and could be or was not there"
    );
}
