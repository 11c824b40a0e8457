//! Rules that had another id before: an old id is taken for the new one, and whoever wrote it is told.

use pintle_finding::{Accepted, Basis, Grade, Problem, Stage};
use pintle_rulebook::{PackFiles, builtin_packs, read_backlog};

use crate::bench::{Bench, DATA, SCRIPT, pack};

const OLD: &str = "rule = \"own/heavy\"\n";
const NEW: &str = "rule = \"own/trial-rule\"\n";
const WAIVER: &str = "[[waiver]]\nitem = \"state.homeward\"\nkind = \"deviation\"\nuntil = \"2026-12-31\"\nwho = \"the foreman\"\nreason = \"it goes by train\"\n";

/// Settings of every sort, none of which says yet of which rule.
const SORTS: [(&str, &str); 4] = [
    (
        "[[limit]]\nlimit = \"most\"\nvalue = \"900 lb\"\nreason = \"a steeper hill\"\n",
        "limit `most` of `own/trial-rule`",
    ),
    ("[[grade]]\ngrade = \"major\"\nreason = \"it slid back\"\n", "the grade of `own/trial-rule`"),
    ("[[stage]]\nfrom = \"design\"\nreason = \"no sooner\"\n", "the stage of `own/trial-rule`"),
    (WAIVER, "the waiver of `own/trial-rule` on `state.homeward`"),
];

/// The rule of the tests, which had other ids before.
fn renamed() -> Vec<PackFiles> {
    let data = DATA.replace("2000 lb", "1000 lb");
    pack(&format!("was = [\"own/heavy\", \"company/uphill\"]\n{data}"), SCRIPT)
}

/// A second rule in the pack of the tests, with what it says of its old ids.
fn with_another(first: &str, second: &str) -> Vec<PackFiles> {
    let mut packs = pack(&format!("{first}\n{DATA}"), SCRIPT);
    for (ending, text) in [("rhai", SCRIPT.to_owned()), ("toml", format!("{second}\n{DATA}"))] {
        packs[0].files.push((format!("rules/own/other-rule.{ending}"), text.into_bytes()));
    }
    packs
}

/// That one thing is said of an old id: that it is one, at its place.
fn warned(bench: &Bench, problems: &[Problem], was: &str, now: &str) {
    let [warning] = problems else { panic!("{problems:#?}") };
    assert!(warning.is_warning && warning.code == "renamed-rule", "{warning:#?}");
    assert_eq!(warning.message, format!("`{was}` is `{now}` now"));
    assert_eq!(warning.help, Some(format!("write `{now}`; the old id is taken for it")));
    assert_eq!(bench.sources.slice(warning.labels[0].span), format!("\"{was}\""));
}

/// What is wrong with packs: code, message, and the texts that are marked.
fn wrong(packs: &[PackFiles]) -> (&'static str, String, Vec<String>) {
    let (bench, problems) = Bench::tried(packs, "");
    let [problem] = problems.as_slice() else { panic!("{problems:#?}") };
    assert!(!problem.is_warning, "{problem:#?}");
    let marked = problem.labels.iter().map(|label| {
        let place = bench.sources.locate(label.span);
        format!("{}:{}", bench.sources.name(label.span.source), place.line)
    });
    (problem.code, problem.message.clone(), marked.collect())
}

#[test]
fn a_setting_under_an_old_id_is_one_of_the_rule_and_said() {
    for ((setting, _), was) in
        SORTS.iter().zip(["own/heavy", "company/uphill", "own/heavy", "company/uphill"])
    {
        let text = format!("{setting}rule = \"{was}\"\n");
        let (mut bench, problems) = Bench::layered(&renamed(), &[("pintle.toml", &text)]);
        warned(&bench, &problems, was, "own/trial-rule");
        let build = bench.build("sound-6x12-round", &[]);
        let bound = bench.rulebook.rule("own/trial-rule").unwrap();
        let readings = bench.inspect_on("2026-11-26", build).readings;
        let waived = readings.iter().any(|reading| matches!(reading.accepted, Some(Accepted::Waived(_))));
        let took = match setting.split_whitespace().next().unwrap() {
            "[[limit]]" => bound.limits[0].basis == Basis::Shop && bound.limits[0].set_by.is_some(),
            "[[grade]]" => bound.rule.grade == Grade::Major,
            "[[stage]]" => bound.rule.from == Stage::Design,
            _ => waived,
        };
        assert!(took, "{setting}");
        // The rulebook of one build is read in the same way.
        let (mut bench, problems) = Bench::tried(&renamed(), "");
        assert_eq!(problems, []);
        let problems = bench.under(&text);
        warned(&bench, &problems, was, "own/trial-rule");
    }
}

#[test]
fn one_file_that_sets_a_rule_under_both_its_ids_sets_it_twice() {
    for (setting, what) in SORTS {
        let both = format!("{setting}{OLD}{setting}{NEW}");
        let (_, problems) = Bench::layered(&renamed(), &[("pintle.toml", &both)]);
        let wrong: Vec<&Problem> = problems.iter().filter(|problem| !problem.is_warning).collect();
        let [wrong] = wrong.as_slice() else { panic!("{problems:#?}") };
        assert_eq!((wrong.code, &wrong.message), ("set-twice", &format!("{what} is set twice")));
        assert_eq!(wrong.labels.len(), 2, "both places are marked");
        assert_eq!(Problem::count_wrong(&problems), 1);
        // A later file may do so: it takes the place of the earlier one.
        let (old, new) = (format!("{setting}{OLD}"), format!("{setting}{NEW}"));
        let files = [("company.toml", old.as_str()), ("pintle.toml", new.as_str())];
        let (bench, problems) = Bench::layered(&renamed(), &files);
        warned(&bench, &problems, "own/heavy", "own/trial-rule");
    }
}

#[test]
fn the_backlog_may_list_an_old_id() {
    let (mut bench, problems) = Bench::layered(&renamed(), &[("pintle.toml", "")]);
    assert_eq!(problems, []);
    let text =
        format!("[[known]]\n{OLD}build = \"OM-112\"\nfinds = \"fault\"\nitems = [\"state.homeward\"]\n");
    let file = bench.sources.add("backlog.toml", &text);
    let mut problems = Vec::new();
    let backlog = read_backlog(&bench.sources, file, &bench.rulebook.renamed, &mut problems);
    warned(&bench, &problems, "own/heavy", "own/trial-rule");
    bench.rulebook.backlog = Some(backlog);
    let build = bench.build("sound-6x12-round", &[]);
    let readings = bench.inspect_on("2026-11-26", build).readings;
    let listed = readings.iter().filter(|reading| matches!(reading.accepted, Some(Accepted::Backlog(_))));
    assert_eq!(listed.map(|reading| reading.path.as_str()).collect::<Vec<_>>(), ["state.homeward"]);
    assert!(readings.iter().all(|reading| reading.rule.id != "record/backlog-stale"));
}

#[test]
fn a_trial_may_name_an_old_id_beside_its_own() {
    let data = format!("{DATA}also = [\"own/heavy\"]\n");
    let mut packs = with_another("was = [\"own/heavy\"]", "");
    packs[0].files.pop();
    packs[0].files.push(("rules/own/other-rule.toml".to_owned(), data.into_bytes()));
    let (bench, problems) = Bench::tried(&packs, "");
    warned(&bench, &problems, "own/heavy", "own/trial-rule");
    let other = bench.rulebook.rule("own/other-rule").unwrap();
    assert_eq!(other.file.trials[0].also[0].value, "own/trial-rule");
}

#[test]
fn an_old_id_that_is_a_rules_or_two_rules_or_none_is_refused() {
    let (first, second) =
        ("rules/own/trial-rule.toml:1".to_owned(), "rules/own/other-rule.toml:1".to_owned());
    let own = |said: &str| pack(&format!("{said}\n{DATA}"), SCRIPT);
    assert_eq!(
        wrong(&own("was = [\"own/trial-rule\"]")),
        (
            "taken-id",
            "rule `own/trial-rule` names itself as what it was before".to_owned(),
            vec![first.clone()]
        )
    );
    assert_eq!(
        wrong(&with_another("was = [\"own/other-rule\"]", "")),
        (
            "taken-id",
            "`own/trial-rule` is said to have been `own/other-rule`, and there is such a rule".to_owned(),
            vec![first.clone()]
        )
    );
    let kept = wrong(&own("was = [\"record/backlog-stale\"]"));
    assert_eq!((kept.0, kept.2), ("taken-id", vec![first.clone()]), "{}", kept.1);
    assert_eq!(
        wrong(&with_another("was = [\"own/heavy\"]", "was = [\"own/heavy\"]")),
        (
            "taken-id",
            "both `own/trial-rule` and `own/other-rule` are said to have been `own/heavy`".to_owned(),
            vec![second, first.clone()]
        )
    );
    let twice = wrong(&own("was = [\"own/heavy\", \"own/heavy\"]"));
    assert_eq!(
        twice,
        ("set-twice", "the old id `own/heavy` is set twice".to_owned(), vec![first.clone(), first.clone()])
    );
    for bad in ["heavy", "own/", "/heavy", "own/heavy/er"] {
        let said = ("bad-id", format!("`{bad}` is no id of a rule"), vec![first.clone()]);
        assert_eq!(wrong(&own(&format!("was = [\"{bad}\"]"))), said);
    }
}

/// Ids are never used again, so every id that a built-in rule ever had stays here.
#[test]
fn the_built_in_rules_that_had_another_id() {
    let bench = Bench::with(&builtin_packs(), "");
    let all: Vec<(&str, &str)> = bench.rulebook.renamed.all().collect();
    assert_eq!(all, [("gas/cylinder-near-battery", "gas/cylinder-near-ignition")]);
}
