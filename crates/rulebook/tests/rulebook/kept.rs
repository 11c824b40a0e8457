//! What a shop sets looser than it was is shown to whoever reviews its builds.

use pintle_finding::{Bound, Grade, Reading, Verdict};
use pintle_quantity::Units;
use pintle_rulebook::{Round, day};

use crate::bench::{Bench, DATA, SCRIPT, pack};

const RULE: &str = "own/trial-rule";

fn limit(value: &str) -> String {
    format!("[[limit]]\nrule = \"{RULE}\"\nlimit = \"most\"\nvalue = \"{value}\"\nreason = \"we tried it\"\n")
}

/// What the tool's own rules say of rulebook files over one rule.
fn said(data: &str, script: &str, files: &[&str]) -> Vec<Reading> {
    let named: Vec<(String, &str)> =
        files.iter().enumerate().map(|(at, text)| (format!("{at}/pintle.toml"), *text)).collect();
    let named: Vec<(&str, &str)> = named.iter().map(|(name, text)| (name.as_str(), *text)).collect();
    let (bench, problems) = Bench::layered(&pack(data, script), &named);
    assert_eq!(problems, []);
    let of = Round::default().close(&bench.rulebook, &bench.sources, false, day("2026-11-26").unwrap());
    assert!(of.of_rulebook && of.readings.iter().all(|reading| reading.rule.kept));
    of.readings
}

fn one(data: &str, script: &str, files: &[&str]) -> Reading {
    let mut said = said(data, script, files);
    assert_eq!(said.len(), 1, "{said:#?}");
    said.remove(0)
}

#[test]
fn a_looser_limit_is_shown_and_a_tighter_one_passes() {
    let loose = one(DATA, SCRIPT, &[&limit("2,100 lb")]);
    assert_eq!((loose.rule.id.as_str(), loose.verdict), ("record/limit-loosened", Verdict::Fault));
    assert_eq!(loose.grade(), Grade::Advice);
    assert_eq!(
        loose.sentence(Units::AsWritten),
        "the value of limit `most of own/trial-rule` is 2,100 lb, more than 2,000 lb (the tightest below)"
    );
    assert_eq!(loose.labels[0].text, "we tried it");
    assert_eq!(one(DATA, SCRIPT, &[&limit("2,000 lb")]).verdict, Verdict::Pass, "the same is no looser");
    assert_eq!(one(DATA, SCRIPT, &[&limit("1,900 lb")]).verdict, Verdict::Pass);
    let least = SCRIPT.replace("at_most", "at_least");
    assert_eq!(one(DATA, &least, &[&limit("2,100 lb")]).verdict, Verdict::Pass);
    assert_eq!(one(DATA, &least, &[&limit("1,900 lb")]).verdict, Verdict::Fault);
}

#[test]
fn what_another_layer_tightened_is_not_silently_loosened() {
    let files = [&*limit("1,800 lb"), &*limit("1,900 lb")];
    let loose = one(DATA, SCRIPT, &files);
    assert_eq!(loose.verdict, Verdict::Fault);
    let Bound::AtMost(under) = loose.bound else { panic!("{:?}", loose.bound) };
    assert_eq!(under.show(Units::AsWritten), "1,800 lb");
    assert_eq!(one(DATA, SCRIPT, &[&limit("2,200 lb"), &limit("1,900 lb")]).verdict, Verdict::Pass);
}

#[test]
fn which_way_is_looser_is_said_not_to_be_known_where_the_script_reckons_with_the_limit() {
    let script = SCRIPT.replace("limit.most", "limit.most * 1.0");
    let unknown = one(DATA, &script, &[&limit("1,900 lb")]);
    assert_eq!(unknown.verdict, Verdict::CannotJudge);
    let reason = unknown.reason.unwrap();
    assert!(reason.contains("whether 1,900 lb is looser than 2,000 lb"), "{reason}");
}

#[test]
fn what_can_cost_a_life_is_shown_at_its_own_grade_where_it_is_loosened_only() {
    let grave = DATA.replace("grade  = \"minor\"", "grade  = \"critical\"\nwaivable = false");
    assert_eq!(one(&grave, SCRIPT, &[&limit("2,100 lb")]).grade(), Grade::Critical);
    let tighter = one(&grave, SCRIPT, &[&limit("1,900 lb")]);
    assert_eq!((tighter.verdict, tighter.grade()), (Verdict::Pass, Grade::Advice));
    let lowered = format!("[[grade]]\nrule = \"{RULE}\"\ngrade = \"advice\"\nreason = \"a\"\n");
    let lowered = one(&grave, SCRIPT, &[&lowered]);
    assert_eq!((lowered.rule.id.as_str(), lowered.grade()), ("record/grade-lowered", Grade::Critical));
}

#[test]
fn lower_grades_and_later_stages_are_shown_and_the_other_way_round_passes() {
    let grade = |grade: &str| format!("[[grade]]\nrule = \"{RULE}\"\ngrade = \"{grade}\"\nreason = \"a\"\n");
    let stage = |from: &str| format!("[[stage]]\nrule = \"{RULE}\"\nfrom = \"{from}\"\nreason = \"a\"\n");
    let later = DATA.replace("from   = \"quote\"", "from   = \"build\"");
    for (text, id, verdict) in [
        (grade("advice"), "record/grade-lowered", Verdict::Fault),
        (grade("major"), "record/grade-lowered", Verdict::Pass),
        (stage("service"), "record/stage-put-off", Verdict::Fault),
        (stage("design"), "record/stage-put-off", Verdict::Pass),
    ] {
        let found = one(&later, SCRIPT, &[&text]);
        assert_eq!((found.rule.id.as_str(), found.verdict), (id, verdict), "{text}");
    }
    let raised_and_lowered = one(&later, SCRIPT, &[&grade("critical"), &grade("major")]);
    assert_eq!(raised_and_lowered.verdict, Verdict::Fault, "lower than the company has it");
    let quieter = "[[grade]]\nrule = \"record/limit-loosened\"\ngrade = \"advice\"\nreason = \"a\"\n";
    assert_eq!(one(DATA, SCRIPT, &[quieter]).verdict, Verdict::Pass);
}

#[test]
fn one_builds_looser_limit_is_shown_with_the_build_and_not_with_the_shop() {
    let (mut bench, _) = Bench::layered(&pack(DATA, SCRIPT), &[("pintle.toml", "")]);
    assert_eq!(bench.under(&limit("2,100 lb")), []);
    let build = bench.build("sound-6x12-round", &[]);
    let of_build = bench.inspect_on("2026-11-26", build);
    let loose: Vec<&Reading> = of_build.readings.iter().filter(|reading| reading.rule.kept).collect();
    assert_eq!(loose.len(), 1);
    assert_eq!((loose[0].rule.id.as_str(), loose[0].verdict), ("record/limit-loosened", Verdict::Fault));
    assert_eq!(of_build.findings().filter(|reading| reading.holds(Grade::Major)).count(), 0);
}
