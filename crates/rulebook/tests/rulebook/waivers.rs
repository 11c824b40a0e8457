//! Faults that somebody accepts until a day.

use std::fmt::Write as _;

use pintle_finding::{Accepted, Grade, Inspection, Problem, Reading, Tally, Verdict};
use pintle_rulebook::{Round, day};
use pintle_source::Sources;

use crate::bench::{Bench, DATA, SCRIPT, pack};

const RULE: &str = "own/trial-rule";
const TODAY: &str = "2026-11-26";

/// A waiver with some keys of its own.
fn waiver(keys: &str) -> String {
    let mut text = "[[waiver]]\n".to_owned();
    for (key, value) in [
        ("rule", RULE),
        ("kind", "deviation"),
        ("until", "2026-12-31"),
        ("who", "the foreman"),
        ("reason", "it goes by train"),
    ] {
        if !keys.lines().any(|line| line.starts_with(key)) {
            let _ = writeln!(text, "{key} = \"{value}\"");
        }
    }
    text + keys + "\n"
}

/// A limit that every state and arrangement of the build is beyond.
fn heavy(data: &str) -> String {
    data.replace("2000 lb", "1000 lb")
}

fn under(data: &str, text: &str) -> (Bench, Vec<Problem>) {
    Bench::layered(&pack(&heavy(data), SCRIPT), &[("pintle.toml", text)])
}

/// The demo's reference build, which has a fault of the rule in each road state.
fn inspected(text: &str, on: &str) -> Inspection {
    let (mut bench, problems) = under(DATA, text);
    assert_eq!(problems, []);
    let build = bench.build("sound-6x12-round", &[]);
    bench.inspect_on(on, build)
}

fn waived(inspection: &Inspection) -> Vec<&str> {
    let waived = inspection.readings.iter().filter(|reading| {
        matches!(reading.accepted, Some(Accepted::Waived(_))) && reading.verdict == Verdict::Fault
    });
    waived.map(|reading| reading.path.as_str()).collect()
}

/// The findings of the tool's own rules: id, condition, remedy.
fn kept(inspection: &Inspection) -> Vec<(String, String)> {
    let kept = inspection.findings().filter(|reading| reading.rule.kept);
    kept.map(|reading| (reading.rule.id.clone(), reading.remedy.clone().unwrap_or_default())).collect()
}

fn ids(inspection: &Inspection) -> Vec<String> {
    kept(inspection).into_iter().map(|(id, _)| id).collect()
}

/// The shop as a whole, after the reference build alone.
fn round(text: &str, all: bool) -> Inspection {
    let (mut bench, problems) = under(DATA, text);
    assert_eq!(problems, []);
    let build = bench.build("sound-6x12-round", &[]);
    let mut round = Round::default();
    round.add(&bench.inspect_on(TODAY, build));
    round.close(&bench.rulebook, &bench.sources, all, day(TODAY).unwrap())
}

#[test]
fn a_waived_fault_stays_a_fault_and_holds_nothing() {
    let inspection = inspected(&waiver("item = \"state.homeward\""), TODAY);
    assert_eq!(waived(&inspection), ["state.homeward"]);
    let fault = inspection.findings().find(|reading| reading.path == "state.homeward").unwrap();
    assert!(fault.verdict == Verdict::Fault && !fault.holds(Grade::Advice));
    let Some(Accepted::Waived(by)) = &fault.accepted else { panic!("{:?}", fault.accepted) };
    assert_eq!(
        (by.who.as_str(), by.until.as_str(), by.file.as_str()),
        ("the foreman", "2026-12-31", "pintle.toml")
    );
    let mut tally = Tally::default();
    tally.add(&inspection);
    assert_eq!(tally.waived.values().sum::<usize>(), 1);
    let others = inspection.findings().filter(|reading| reading.accepted.is_none()).count();
    assert_eq!((tally.with(Verdict::Fault), others), (4, 4), "three states and the worst arrangement");
    assert_eq!(tally.all_readings(), inspection.readings.len(), "none is lost from the counts");
}

#[test]
fn without_an_item_all_of_the_builds_faults_of_the_rule_are_waived() {
    let inspection = inspected(&waiver("builds = [\"OM-1\", \"OM-112\"]"), TODAY);
    assert_eq!(waived(&inspection).len(), 5);
    assert_eq!(inspection.findings().count(), 5, "nothing else is found: {:?}", kept(&inspection));
    let other = inspected(&waiver("builds = [\"OM-1\"]"), TODAY);
    assert!(waived(&other).is_empty() && kept(&other).is_empty());
}

#[test]
fn the_last_day_is_in_force_and_the_day_after_is_not() {
    let text = waiver("item = \"state.homeward\"\nbuilds = [\"OM-112\"]");
    assert_eq!(waived(&inspected(&text, "2026-12-31")).len(), 1);
    let after = inspected(&text, "2027-01-01");
    assert!(waived(&after).is_empty());
    assert_eq!(ids(&after), ["record/waiver-expired"]);
    let expired = after.findings().find(|reading| reading.rule.kept).unwrap();
    assert_eq!(expired.grade(), Grade::Minor);
    assert_eq!(expired.labels[0].text, "its last day is past");
}

#[test]
fn a_day_that_is_none_is_refused_at_its_place() {
    for bad in
        ["2026-02-30", "2026-13-01", "31.12.2026", "2026-1-1", "20261231", "tomorrow", "2026-12-31T00:00"]
    {
        let (bench, problems) =
            under(DATA, &waiver(&format!("item = \"state.homeward\"\nuntil = \"{bad}\"")));
        assert_eq!(problems.len(), 1, "{bad}: {problems:#?}");
        assert_eq!(problems[0].code, "bad-date");
        assert_eq!(bench.sources.slice(problems[0].labels[0].span), format!("\"{bad}\""));
        assert!(problems[0].help.as_ref().unwrap().contains("2026-12-31"));
    }
    let (_, problems) = under(DATA, &waiver("item = \"state.homeward\"\nuntil = 2026-12-31"));
    assert_eq!(problems[0].code, "wrong-type", "a date without quotes: {problems:#?}");
    let leap = waiver("item = \"state.homeward\"\nuntil = \"2028-02-29\"");
    assert_eq!(waived(&inspected(&leap, TODAY)).len(), 1);
}

#[test]
fn what_can_cost_a_life_is_not_waived() {
    let grave = DATA.replace("grade  = \"minor\"", "grade  = \"minor\"\nwaivable = false");
    let (mut bench, problems) = under(&grave, &waiver("builds = [\"OM-112\"]"));
    assert_eq!(problems, []);
    let build = bench.build("sound-6x12-round", &[]);
    let inspection = bench.inspect_on(TODAY, build);
    assert!(waived(&inspection).is_empty());
    let found: Vec<&Reading> = inspection.findings().filter(|reading| reading.rule.kept).collect();
    assert_eq!(found.len(), 1);
    assert_eq!((found[0].rule.id.as_str(), found[0].grade()), ("record/waiver-not-allowed", Grade::Major));
    let (mut bench, _) = under(DATA, &waiver("rule = \"record/waiver-expired\"\nbuilds = [\"OM-112\"]"));
    let build = bench.build("sound-6x12-round", &[]);
    assert_eq!(ids(&bench.inspect_on(TODAY, build)), ["record/waiver-not-allowed"]);
}

#[test]
fn nothing_is_conceded_of_what_is_not_built_yet() {
    for (stage, allowed) in [("design", false), ("build", true), ("service", true)] {
        for named in ["builds = [\"OM-112\"]", "item = \"state.homeward\""] {
            let text = waiver(&format!("kind = \"concession\"\n{named}"));
            let (mut bench, _) = under(DATA, &text);
            let build = bench.build("sound-6x12-round", &[("build.stage", &format!("\"{stage}\""))]);
            let inspection = bench.inspect_on(TODAY, build);
            assert_eq!(!waived(&inspection).is_empty(), allowed, "{stage}, {named}");
            let said = ids(&inspection);
            let wanted: &[&str] = if allowed { &[] } else { &["record/waiver-not-allowed"] };
            assert_eq!(said, wanted, "{stage}, {named}");
        }
    }
}

#[test]
fn a_waiver_that_accepts_nothing_is_found_and_a_near_name_offered() {
    let inspection = inspected(&waiver("item = \"state.homewards\"\nbuilds = [\"OM-112\"]"), TODAY);
    let said = kept(&inspection);
    assert_eq!(said, [("record/waiver-unused".to_owned(), "did you mean `state.homeward`?".to_owned())]);
    let none = inspected(&waiver("item = \"item.galley\"\nbuilds = [\"OM-112\"]"), TODAY);
    assert_eq!(ids(&none), ["record/waiver-unused"], "there is a galley, and no fault on it");
}

#[test]
fn whether_a_waiver_is_used_is_not_said_before_its_rule_is_judged() {
    let later = DATA.replace("from   = \"quote\"", "from   = \"delivery\"");
    let (mut bench, _) = under(&later, &waiver("builds = [\"OM-112\"]"));
    let build = bench.build("sound-6x12-round", &[]);
    let inspection = bench.inspect_on(TODAY, build);
    assert_eq!(kept(&inspection), []);
    let unused =
        inspection.readings.iter().find(|reading| reading.rule.id == "record/waiver-unused").unwrap();
    assert_eq!(unused.verdict, Verdict::NotApplicable);
}

#[test]
fn a_waiver_for_any_build_is_judged_once_all_were_looked_at() {
    let used = waiver("item = \"state.homeward\"");
    let unused = waiver("item = \"item.galley\"");
    assert_eq!(ids(&round(&used, true)), Vec::<String>::new());
    assert_eq!(ids(&round(&unused, false)), Vec::<String>::new(), "another build may need it");
    assert_eq!(ids(&round(&unused, true)), ["record/waiver-unused"]);
    let stranger = waiver("builds = [\"OM-112\", \"OM-211\"]");
    assert_eq!(ids(&round(&stranger, false)), Vec::<String>::new());
    let said = kept(&round(&stranger, true));
    assert_eq!(said, [("record/waiver-unused".to_owned(), "did you mean `OM-112`?".to_owned())]);
    let past = waiver("item = \"state.homeward\"\nuntil = \"2026-11-25\"");
    assert_eq!(ids(&round(&past, false)), ["record/waiver-expired"]);
}

#[test]
fn nothing_is_unused_where_a_spec_could_not_be_read() {
    let (bench, _) = under(DATA, &waiver("item = \"item.galley\""));
    let mut round = Round::default();
    let problems = vec![Problem::new("syntax", "no such key")];
    round.add(&Inspection { problems, ..Inspection::default() });
    let of = round.close(&bench.rulebook, &bench.sources, true, day(TODAY).unwrap());
    assert_eq!(ids(&of), Vec::<String>::new());
}

#[test]
fn the_same_is_waived_once_in_one_file_and_anew_in_a_later_one() {
    let first = waiver("builds = [\"OM-112\", \"OM-113\"]");
    let second = waiver("builds = [\"OM-112\"]\nuntil = \"2027-06-30\"");
    let (bench, problems) = under(DATA, &(first.clone() + second.as_str()));
    assert_eq!(problems.len(), 1);
    assert_eq!(problems[0].message, "the waiver of `own/trial-rule` in build `OM-112` is set twice");
    assert_eq!(bench.sources.slice(problems[0].labels[1].span), "\"OM-112\"");
    let files = [("company/pintle.toml", first.as_str()), ("pintle.toml", second.as_str())];
    let (mut bench, problems) = Bench::layered(&pack(&heavy(DATA), SCRIPT), &files);
    assert_eq!(problems, []);
    let build = bench.build("sound-6x12-round", &[]);
    assert_eq!(waived(&bench.inspect_on("2027-06-30", build.clone())).len(), 5, "the later one is in force");
    let last = bench.rulebook.waivers.all().last().unwrap().1;
    let chain: Vec<&str> = last.waived.chain.iter().map(|setting| setting.file.as_str()).collect();
    assert_eq!(chain, ["company/pintle.toml", "pintle.toml"]);
    // One that has run out takes the place of one in force as well.
    assert_eq!(bench.under(&waiver("until = \"2026-01-01\"")), []);
    let said = bench.inspect_on(TODAY, build);
    assert_eq!((waived(&said).len(), ids(&said)), (0, vec!["record/waiver-expired".to_owned()]));
}

#[test]
fn a_waiver_of_everything_or_of_an_unknown_rule_is_refused() {
    for (keys, code, at) in [
        ("", "wide-waiver", "\"own/trial-rule\""),
        ("builds = []", "wide-waiver", "[]"),
        ("rule = \"own/trail-rule\"\nitem = \"item.galley\"", "unknown-rule", "\"own/trail-rule\""),
        ("kind = \"favour\"\nitem = \"item.galley\"", "unknown-word", "\"favour\""),
    ] {
        let (bench, problems) = under(DATA, &waiver(keys));
        assert_eq!(problems.len(), 1, "{keys}: {problems:#?}");
        assert_eq!((problems[0].code, bench.sources.slice(problems[0].labels[0].span)), (code, at), "{keys}");
    }
    for key in ["who", "reason", "kind", "until", "rule"] {
        let all = waiver("item = \"state.homeward\"");
        let without: String = all
            .lines()
            .filter(|line| !line.starts_with(key))
            .fold(String::new(), |text, line| text + line + "\n");
        let (_, problems) = under(DATA, &without);
        assert!(problems[0].message.contains(&format!("`{key}`")), "{key}: {problems:#?}");
    }
    let (mut bench, _) = under(DATA, "");
    assert_eq!(bench.under(&waiver("builds = [\"OM-112\"]"))[0].code, "not-of-a-build");
}

#[test]
fn ten_thousand_waivers_are_taken_in_their_stride() {
    let many: String = (0..10_000).map(|at| waiver(&format!("builds = [\"A-{at}\", \"B-{at}\"]"))).collect();
    let mut sources = Sources::new();
    assert!(sources.add_bytes("pintle.toml", many.as_bytes()).is_err(), "a file is a megabyte at most");
    let fewer: String = (0..2_000).map(|at| waiver(&format!("builds = [\"A-{at}\"]"))).collect();
    let files: Vec<(String, String)> =
        (0..5).map(|at| (format!("{at}.toml"), fewer.replace("A-", &format!("A{at}-")))).collect();
    let files: Vec<(&str, &str)> = files.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
    let (mut bench, problems) = Bench::layered(&pack(&heavy(DATA), SCRIPT), &files);
    assert_eq!(problems, []);
    assert_eq!(bench.rulebook.waivers.all().count(), 10_000);
    let build = bench.build("sound-6x12-round", &[("build.number", "\"A3-77\"")]);
    let mut round = Round::default();
    let inspection = bench.inspect_on(TODAY, build);
    assert_eq!(waived(&inspection).len(), 5);
    round.add(&inspection);
    let of = round.close(&bench.rulebook, &bench.sources, true, day(TODAY).unwrap());
    assert_eq!(kept(&of).len(), 9_999, "all builds but one are unknown");
}
