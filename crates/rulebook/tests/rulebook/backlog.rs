//! Findings that were there when old specs were taken in: listed, seen, and only ever fewer.

use pintle_finding::{Accepted, Inspection, Tally, Verdict};
use pintle_rulebook::{Renamed, Round, day, read_backlog};

use crate::bench::{Bench, DATA, SCRIPT, pack};

const TODAY: &str = "2026-11-26";

fn known(build: &str, finds: &str, items: &str) -> String {
    format!(
        "[[known]]\nrule = \"own/trial-rule\"\nbuild = \"{build}\"\nfinds = \"{finds}\"\nitems = [{items}]\n"
    )
}

fn bench(data: &str, script: &str, list: &str) -> Bench {
    let (mut bench, problems) =
        Bench::layered(&pack(&data.replace("2000 lb", "1000 lb"), script), &[("pintle.toml", "")]);
    assert_eq!(problems, []);
    let mut problems = Vec::new();
    let file = bench.sources.add("backlog.toml", list);
    bench.rulebook.backlog = Some(read_backlog(&bench.sources, file, &bench.rulebook.renamed, &mut problems));
    assert_eq!(problems, []);
    bench
}

fn inspected(data: &str, script: &str, list: &str) -> Inspection {
    let mut bench = bench(data, script, list);
    let build = bench.build("sound-6x12-round", &[]);
    bench.inspect_on(TODAY, build)
}

fn listed(inspection: &Inspection) -> Vec<&str> {
    let listed = inspection.findings().filter(|one| matches!(one.accepted, Some(Accepted::Backlog(_))));
    listed.map(|reading| reading.path.as_str()).collect()
}

fn stale(inspection: &Inspection) -> Vec<&str> {
    let stale = inspection.findings().filter(|reading| reading.rule.id == "record/backlog-stale");
    stale.map(|reading| reading.labels[0].text.as_str()).collect()
}

#[test]
fn what_is_listed_is_seen_and_counted_and_what_is_not_counts_as_ever() {
    let list = known("OM-112", "fault", "\"arrangement\", \"state.homeward\"");
    let inspection = inspected(DATA, SCRIPT, &list);
    assert_eq!(listed(&inspection), ["state.homeward", "arrangement"]);
    assert!(stale(&inspection).is_empty());
    let mut tally = Tally::default();
    tally.add(&inspection);
    assert_eq!((tally.backlog.values().sum::<usize>(), tally.with(Verdict::Fault)), (2, 3));
    assert!(listed(&inspected(DATA, SCRIPT, &known("OM-113", "fault", "\"state.homeward\""))).is_empty());
}

#[test]
fn what_is_no_longer_found_is_said() {
    let list = known("OM-112", "fault", "\"state.homeward\", \"state.homeward\", \"item.galley\"");
    let inspection = inspected(DATA, SCRIPT, &list);
    assert_eq!(listed(&inspection), ["state.homeward"], "listed twice, and there once");
    assert_eq!(stale(&inspection), ["no longer found", "no longer found"]);
}

#[test]
fn a_fault_in_place_of_what_could_not_be_judged_is_new() {
    let list = known("OM-112", "cannot judge", "\"state.homeward\"");
    let inspection = inspected(DATA, SCRIPT, &list);
    assert!(listed(&inspection).is_empty());
    assert_eq!(stale(&inspection), ["no longer found"]);
    let cannot = "if state.name == \"homeward\" { cannot_judge(\"the tide\") }\n".to_owned() + SCRIPT;
    let inspection = inspected(DATA, &cannot, &list);
    assert_eq!(listed(&inspection), ["state.homeward"]);
    // A fault that was listed and cannot be judged today is not gone, nor is it accepted what cannot be judged.
    let inspection = inspected(DATA, &cannot, &known("OM-112", "fault", "\"state.homeward\""));
    assert!(listed(&inspection).is_empty() && stale(&inspection).is_empty());
}

#[test]
fn what_can_cost_a_life_cannot_be_listed() {
    let grave = DATA.replace("grade  = \"minor\"", "grade  = \"minor\"\nwaivable = false");
    let inspection = inspected(&grave, SCRIPT, &known("OM-112", "fault", "\"state.homeward\""));
    assert!(listed(&inspection).is_empty());
    assert_eq!(stale(&inspection), ["what can cost a life is mended, not listed"]);
}

#[test]
fn builds_that_are_gone_are_said_once_all_were_looked_at() {
    let mut bench = bench(DATA, SCRIPT, &known("OM-9", "fault", "\"state.homeward\", \"build\""));
    let build = bench.build("sound-6x12-round", &[]);
    let mut round = Round::default();
    round.add(&bench.inspect_on(TODAY, build));
    let closed = |all| round.close(&bench.rulebook, &bench.sources, all, day(TODAY).unwrap());
    assert!(stale(&closed(false)).is_empty());
    assert_eq!(stale(&closed(true)), ["of no build of the shop", "of no build of the shop"]);
}

#[test]
fn a_list_that_is_none_is_refused() {
    let mut sources = pintle_source::Sources::new();
    for (text, code) in [
        ("[[known]]\nrule = \"a/b\"\nbuild = \"1\"\nfinds = \"fault\"\n", "missing-value"),
        (
            "[[known]]\nrule = \"a/b\"\nbuild = \"1\"\nfinds = \"broken\"\nitems = [\"build\"]\n",
            "unknown-word",
        ),
        ("[[knwon]]\nrule = \"a/b\"\n", "unknown-key"),
    ] {
        let file = sources.add("backlog.toml", text);
        let mut problems = Vec::new();
        read_backlog(&sources, file, &Renamed::default(), &mut problems);
        assert_eq!(problems[0].code, code, "{problems:#?}");
    }
}
