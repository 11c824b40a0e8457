//! Who set what over what, and what is accepted until when.

use std::sync::Arc;

use jiff::civil::date;
use pintle_finding::{Bound, Grade, Inspection, Rule, Setting, Stage, Subject, WaiverKind};

use super::*;
use crate::bench::{Bench, SPEC};
use crate::in_force::{Backlog, InForce};

fn html(bench: &Bench) -> String {
    bench.sheet(|sheet| section(sheet).into_string())
}

fn setting(file: &str, value: &str) -> Setting {
    Setting {
        file: file.to_owned(),
        value: value.to_owned(),
        quantity: None,
        reason: Some("because <b>".to_owned()),
        span: None,
    }
}

fn loosened() -> Set {
    let own = setting("rules/towing/light-tongue.toml", "10 %");
    let by = SetBy::over(None, || own, setting("company/pintle.toml", "9.5 %"));
    let by = SetBy::over(Some(&by), || setting("", ""), setting("shop/pintle.toml", "9 %"));
    Set {
        sort: Sort::Limit,
        rule: "towing/light-tongue".to_owned(),
        called: "least of towing/light-tongue".to_owned(),
        by,
    }
}

fn reading(rule: &str, name: &str, verdict: Verdict) -> Reading {
    let rule = Rule {
        id: rule.to_owned(),
        title: "a limit is looser than it was".to_owned(),
        why: String::new(),
        judges: "build".to_owned(),
        grade: Grade::Advice,
        grade_set_by: None,
        from: Stage::Quote,
        from_set_by: None,
        citations: Vec::new(),
        kept: true,
    };
    Reading {
        rule: Arc::new(rule),
        subject: Subject { kind: "limit", name: name.to_owned(), span: None },
        path: String::new(),
        what: String::new(),
        value: None,
        bound: Bound::Holds("it is as tight".to_owned()),
        limit_name: String::new(),
        limit_basis: None,
        limit_set_by: None,
        verdict,
        accepted: None,
        reason: (verdict == Verdict::CannotJudge).then(|| "its script does not compare".to_owned()),
        remedy: None,
        labels: Vec::new(),
        inputs: Vec::new(),
        contributions: Vec::new(),
        sum: None,
    }
}

fn with(set: Set, readings: Vec<Reading>) -> String {
    let mut bench = Bench::of(SPEC);
    bench.in_force.set = vec![set];
    bench.rulebook = Some(Inspection { readings, of_rulebook: true, ..Inspection::default() });
    html(&bench)
}

#[test]
fn without_layers_only_what_is_built_in_is_in_force() {
    let mut bench = Bench::of(SPEC);
    let page = html(&bench);
    assert!(
        page.contains("Only the rules that are built in are in force")
            && page.contains("nobody accepts a fault")
    );
    bench.in_force.layers = vec!["company/pintle.toml".to_owned(), "shop/pintle.toml".to_owned()];
    let page = html(&bench);
    assert!(page.contains("<code>company/pintle.toml</code>, then <code>shop/pintle.toml</code>"), "{page}");
    assert!(page.contains("The rulebook as a whole was not judged."));
}

#[test]
fn who_set_what_over_what_is_told_down_to_the_rules_own() {
    let page = with(
        loosened(),
        vec![reading("record/limit-loosened", "least of towing/light-tongue", Verdict::Fault)],
    );
    assert!(page.contains("<td>9 %</td>"), "{page}");
    assert!(page.contains("9.5 % (<code>company/pintle.toml</code>), over 10 % (the rule's own)"), "{page}");
    assert!(page.contains("Because &lt;b&gt;.") && page.contains("<strong>yes</strong>"), "{page}");
}

#[test]
fn looser_is_said_only_by_the_rule_that_judges_it() {
    let name = "least of towing/light-tongue";
    let no = with(loosened(), vec![reading("record/limit-loosened", name, Verdict::Pass)]);
    assert!(no.contains("<td>no</td>"), "{no}");
    let unknown = with(loosened(), vec![reading("record/limit-loosened", name, Verdict::CannotJudge)]);
    assert!(unknown.contains("cannot be told: </strong>its script does not compare"), "{unknown}");
    let unjudged = with(loosened(), vec![reading("record/grade-lowered", name, Verdict::Pass)]);
    assert!(unjudged.contains("<strong>not judged</strong>"), "{unjudged}");
}

fn waiver(until: jiff::civil::Date, allowed: bool, accepts: usize) -> Waiver {
    Waiver {
        rule: "roof/tall-rack".to_owned(),
        item: Some("item.rack".to_owned()),
        kind: WaiverKind::Deviation,
        until,
        who: "the foreman <i>".to_owned(),
        reason: "the customer's own rack".to_owned(),
        at: "pintle.toml:3".to_owned(),
        allowed,
        accepts,
    }
}

/// The day of the bench is 2026-11-26.
#[test]
fn a_waiver_is_in_force_up_to_its_last_day_and_not_a_day_longer() {
    let of = |waiver| {
        let mut bench = Bench::of(SPEC);
        bench.in_force = InForce { waivers: vec![waiver], ..InForce::default() };
        html(&bench)
    };
    let last = of(waiver(date(2026, 11, 26), true, 2));
    assert!(
        last.contains("in force; accepts 2 findings")
            && last.contains("2026-11-26")
            && last.contains("deviation"),
        "{last}"
    );
    assert!(last.contains("the foreman &lt;i&gt;") && last.contains("pintle.toml:3"), "{last}");
    let over = of(waiver(date(2026, 11, 25), true, 0));
    assert!(over.contains("run out: ") && !over.contains("<td>in force"), "{over}");
    assert!(of(waiver(date(2027, 1, 1), false, 0)).contains("not allowed: "));
    assert!(of(waiver(date(2027, 1, 1), true, 0)).contains("it accepts nothing here"));
}

#[test]
fn the_backlog_is_counted_and_what_the_tool_finds_is_told() {
    let mut bench = Bench::of(SPEC);
    bench.in_force.backlog = Some(Backlog { file: "backlog.toml".to_owned(), of_build: 1, in_all: 7 });
    bench.inspection.readings.push(reading("record/waiver-expired", "roof/tall-rack", Verdict::Fault));
    let page = html(&bench);
    assert!(page.contains("lists 1 finding of this build, of 7 in all"), "{page}");
    assert!(page.contains("<code>record/waiver-expired</code>"), "{page}");
}
