//! The built-in packs: what every rule must have, and what all of them say of the demo shop.

use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::sync::OnceLock;

use pintle_finding::{Basis, Verdict};
use pintle_rulebook::{TrialResult, Wanted, builtin_packs};

use crate::bench::Bench;

#[test]
fn every_id_is_its_pack_and_the_stem_of_its_files() {
    let bench = Bench::builtin();
    let mut expected = Vec::new();
    for pack in builtin_packs() {
        for (name, _) in &pack.files {
            if let Some(path) = name.strip_suffix(".toml") {
                expected.push(path.strip_prefix("rules/").unwrap().to_owned());
                assert!(name.starts_with(&format!("rules/{}/", pack.name)), "{name}");
            }
        }
    }
    assert_eq!(bench.rulebook.ids().collect::<Vec<_>>(), expected);
    for bound in &bench.rulebook.rules {
        for (file, ending) in [(bound.file.file, "toml"), (bound.file.script, "rhai")] {
            assert_eq!(bench.sources.name(file), format!("rules/{}.{ending}", bound.file.id));
        }
        let (_, stem) = bound.file.id.split_once('/').unwrap();
        assert!(stem.chars().all(|letter| letter.is_ascii_lowercase() || letter == '-'), "{stem}");
    }
}

/// Ids are kept for good: a rule that goes, comes or is renamed shows here.
#[test]
fn the_list_of_ids() {
    let bench = Bench::builtin();
    let mut list = String::new();
    for bound in &bench.rulebook.rules {
        let waivable = if bound.file.waivable { "" } else { ", not waivable" };
        let rule = &bound.rule;
        let _ = writeln!(
            list,
            "{}: {} from {}, judges {}{waivable}",
            rule.id,
            rule.grade.word(),
            rule.from.word(),
            bound.file.judges.word()
        );
    }
    insta::assert_snapshot!(list);
}

/// Limits that no text gives change only on purpose.
#[test]
fn limits_and_what_they_rest_on() {
    let bench = Bench::builtin();
    let mut list = String::new();
    for bound in &bench.rulebook.rules {
        for limit in &bound.file.limits {
            let value = limit.value.value.show(pintle_quantity::Units::AsWritten);
            let _ = writeln!(list, "{} {}: {value}, {}", bound.file.id, limit.name, limit.basis.word());
        }
    }
    insta::assert_snapshot!(list);
}

/// What rests on memory alone, so that it is not quietly more.
#[test]
fn what_rests_on_memory() {
    let bench = Bench::builtin();
    let mut list = String::new();
    for bound in &bench.rulebook.rules {
        for citation in bound.file.citations.iter().filter(|citation| citation.basis == Basis::Memory) {
            let _ = writeln!(list, "{}: {}", bound.file.id, citation.text);
        }
    }
    insta::assert_snapshot!(list);
}

#[test]
fn every_rule_rests_on_something() {
    for bound in &Bench::builtin().rulebook.rules {
        let id = &bound.file.id;
        assert!(!bound.file.citations.is_empty(), "{id} has no source");
        for citation in &bound.file.citations {
            assert!(!citation.says.is_empty(), "{id}: a source that says nothing");
            assert!(!citation.says.ends_with('.'), "{id}: `{}` has a full stop", citation.says);
            let named = matches!(citation.basis, Basis::Published | Basis::Memory);
            assert_eq!(named, !citation.text.is_empty(), "{id}: a text is named when there is one");
        }
        for limit in &bound.file.limits {
            let grounds = bound.file.citations.iter().filter(|citation| citation.basis == limit.basis);
            assert!(grounds.count() > 0, "{id}: nothing cited is the ground of limit `{}`", limit.name);
            assert!(limit.note.as_deref().is_none_or(|note| !note.ends_with('.')), "{id} {}", limit.name);
        }
    }
}

#[test]
fn every_rule_has_a_failing_and_a_passing_trial() {
    for bound in &Bench::builtin().rulebook.rules {
        let has = |wanted: Wanted| bound.file.trials.iter().any(|trial| trial.expect == wanted);
        assert!(has(Wanted::Fault), "{} is never tried on what it is for", bound.file.id);
        assert!(has(Wanted::Pass), "{} is never tried on what is sound", bound.file.id);
        let names: BTreeSet<&str> = bound.file.trials.iter().map(|trial| trial.name.value.as_str()).collect();
        assert_eq!(names.len(), bound.file.trials.len(), "{}: two trials of one name", bound.file.id);
    }
}

/// Assembling refuses a script that asks for a limit it has not, and a limit that no script asks for; here once
/// more by the letter, so that the two cannot both be lost.
#[test]
fn limits_and_scripts_agree() {
    for bound in &Bench::builtin().rulebook.rules {
        let text = &bound.file.script_text;
        let asked: BTreeSet<&str> = text
            .split("limit.")
            .skip(1)
            .filter_map(|rest| rest.split(|letter: char| !letter.is_alphanumeric() && letter != '_').next())
            .collect();
        let stated: BTreeSet<&str> = bound.file.limits.iter().map(|limit| limit.name.as_str()).collect();
        assert_eq!(asked, stated, "{}", bound.file.id);
    }
}

/// What came of all trials. They take long, so they are run once for all that ask.
fn trials() -> &'static [TrialResult] {
    static RAN: OnceLock<Vec<TrialResult>> = OnceLock::new();
    RAN.get_or_init(|| Bench::builtin().trials())
}

#[test]
fn every_trial_comes_out_as_expected() {
    let bench = Bench::builtin();
    let results = trials();
    let failures: Vec<String> = results
        .iter()
        .filter_map(|result| {
            let failure = result.failure.as_ref()?;
            Some(format!("{}: {}: {failure} {:?}", result.rule, result.name, result.problems))
        })
        .collect();
    assert!(failures.is_empty(), "{failures:#?}");
    let trials: usize = bench.rulebook.rules.iter().map(|bound| bound.file.trials.len()).sum();
    assert_eq!(results.len(), trials);
}

/// Every fault that a trial or a demo build brings about comes with what would put it right.
#[test]
fn every_fault_has_a_remedy() {
    let mut bench = Bench::builtin();
    let mut readings: Vec<_> = trials().iter().flat_map(|result| result.readings.clone()).collect();
    let stems: Vec<String> = bench.specs.iter().map(|(stem, _)| stem.clone()).collect();
    for stem in stems {
        let build = bench.build(&stem, &[]);
        readings.extend(bench.inspect(build).readings);
    }
    let faults: Vec<_> = readings.iter().filter(|reading| reading.verdict == Verdict::Fault).collect();
    for fault in &faults {
        let remedy = fault.remedy.as_deref().unwrap_or_default();
        assert!(!remedy.is_empty() && !remedy.ends_with('.'), "{}: {remedy:?}", fault.rule.id);
        assert!(!fault.labels.is_empty(), "{}", fault.rule.id);
    }
    let ids: BTreeSet<&str> = faults.iter().map(|fault| fault.rule.id.as_str()).collect();
    assert_eq!(ids, bench.rulebook.ids().collect(), "every rule found a fault somewhere");
}

/// In the scripts too: each reading and each condition that can fail is followed by a remedy.
#[test]
fn every_reading_in_a_script_names_a_remedy() {
    for bound in &Bench::builtin().rulebook.rules {
        let code: String =
            bound.file.script_text.lines().filter(|line| !line.trim_start().starts_with("//")).collect();
        let begun = code.matches("reading(").count() + code.matches("require(").count();
        let certain = code.matches("require(true").count();
        assert_eq!(code.matches(".remedy(").count(), begun - certain, "{}", bound.file.id);
    }
}

#[test]
fn titles_and_reasons_are_written_alike() {
    for bound in &Bench::builtin().rulebook.rules {
        let (id, title, why) = (&bound.file.id, &bound.file.title, &bound.file.why);
        assert!(title.chars().next().unwrap().is_lowercase(), "{id}: {title}");
        assert!(!title.ends_with(['.', '!', '?']), "{id}: {title}");
        assert!(
            title.split(' ').all(|word| word.chars().skip(1).all(|l| !l.is_uppercase()) || word == "GVWR")
        );
        assert!(why.chars().next().unwrap().is_uppercase() && why.ends_with('.'), "{id}: {why}");
        for text in [title, why] {
            assert_eq!(text.trim(), text, "{id}");
            assert!(!text.contains("  "), "{id}: {text}");
        }
    }
}

/// A trial's expectation is worth something only when the sound builds give nothing at all.
#[test]
fn sound_builds_give_no_finding_and_no_rule_is_broken_on_any() {
    let mut bench = Bench::builtin();
    let stems: Vec<String> = bench.specs.iter().map(|(stem, _)| stem.clone()).collect();
    let mut sound = 0;
    for stem in &stems {
        let build = bench.build(stem, &[]);
        let inspection = bench.inspect(build);
        for reading in &inspection.readings {
            let said = || format!("{stem}: {}", reading.sentence(pintle_quantity::Units::AsWritten));
            assert_ne!(reading.verdict, Verdict::Broken, "{}", said());
            if stem.starts_with("sound-") {
                assert!(!reading.verdict.is_finding(), "{}", said());
            }
        }
        let judged: BTreeSet<&str> =
            inspection.readings.iter().map(|reading| reading.rule.id.as_str()).collect();
        let later = inspection.later.iter().map(|(id, _)| id.as_str());
        let all: BTreeSet<&str> = judged.into_iter().chain(later).collect();
        assert_eq!(all, bench.rulebook.ids().collect(), "{stem}: every rule is judged or said to come later");
        if stem.starts_with("sound-") {
            sound += 1;
        } else {
            assert!(inspection.findings().count() > 0, "{stem} is meant to show something");
        }
    }
    assert!(sound >= 3);
}
