//! Entries of the record as subjects, their figures, and the days between them.

use super::{Bench, at};
use crate::judges::Judges;
use crate::recorder::{End, Judgement};

/// Two tickets of one state, which their number alone tells apart.
const RECORD: &str = r#"
[record]
delivered = "2026-05-04"

[[record.ticket]]
state = "empty"
gross = "2,020 lb"
tongue = "300 lb"
resolution = "20 lb"
date = "2026-05-02"

[[record.ticket]]
state = "empty"
gross = "2,040 lb"
resolution = "20 lb"

[[record.recheck]]
what = "gas"
due = "2027-05-04"
"#;

/// What a script makes of each entry of a list.
fn judged(word: &str, text: &str) -> Vec<Judgement> {
    let mut bench = Bench::with(RECORD);
    let judges = Judges::from_word(word).unwrap();
    let source = bench.sources.add("rule.rhai", text);
    let script = bench.engine.compile(text, source, judges).unwrap();
    let subjects = judges.subjects(&bench.run);
    subjects.into_iter().map(|what| bench.engine.judge(&script, &bench.run, what, &bench.limits)).collect()
}

fn pounds(judgement: &Judgement) -> f64 {
    let value = judgement.drafts[0].value.as_ref().unwrap();
    value.figure.quantity.si() / 0.453_592_37
}

#[test]
fn each_ticket_has_its_own_figures() {
    let text = "reading(ticket[\"scale/weight_drift\"]).at_most(limit.most);";
    let drifts: Vec<f64> = judged("scale ticket", text).iter().map(pounds).collect();
    assert_eq!(drifts.len(), 2);
    assert!((drifts[0] - 20.0).abs() < 1e-6 && (drifts[1] - 40.0).abs() < 1e-6, "{drifts:?}");
}

#[test]
fn what_a_ticket_has_no_reading_for_is_known_to_be_none() {
    let text = "require(has(ticket, \"scale/tongue_residual\"), \"the tongue was read\");";
    let read: Vec<bool> = judged("scale ticket", text).iter().map(|one| one.drafts[0].passes).collect();
    assert_eq!(read, [true, false]);
}

#[test]
fn rechecks_are_judged_one_by_one() {
    let text = "require(recheck.what == \"gas\" && recheck.due == \"2027-05-04\", \"gas\");";
    let all = judged("recheck", text);
    assert!(all.len() == 1 && all[0].drafts[0].passes);
}

#[test]
fn days_are_counted_from_one_to_the_other() {
    let mut bench = Bench::with(RECORD);
    for (from, to, days) in [
        ("2026-05-02", "2026-05-04", "2 d"),
        ("2026-05-04", "2026-05-02", "-2 d"),
        ("2024-02-28", "2024-03-01", "2 d"),
        ("2026-05-04", "2026-05-04", "0 d"),
    ] {
        let text = format!("reading(days(\"{from}\", \"{to}\")).equals(quantity(\"{days}\"));");
        let judgement = bench.judge(&text);
        assert!(judgement.drafts[0].passes, "{text}: {:?}", judgement.end);
    }
    let text = "reading(days(record.delivered, record.seen)).at_least(quantity(\"0 d\"));";
    assert!(matches!(bench.judge(text).end, End::Missing(_)), "a day that is not given is not guessed");
    let failure = bench.fails("days(\"2026-02-30\", \"2026-05-04\");");
    at(&failure, 1, 1, "`2026-02-30` and `2026-05-04` are not both days of the calendar");
}
