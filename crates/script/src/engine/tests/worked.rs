//! Rules judge figures of topics, and ask things for them.

use pintle_finding::FIGURE;

use super::{Bench, at};
use crate::judges::Judges;
use crate::recorder::{End, Judgement};

/// A second part, so that a figure of parts is there twice.
const CHEST: &str = r#"
[[item]]
tag    = "chest"
kind   = "module"
mass   = "40 lb"
length = "30 in"
width  = "20 in"
height = "18 in"
at     = { front = "60 in", left = "0 in" }
"#;

/// The only way out.
const DOOR: &str = r#"
[[opening]]
tag            = "rear-door"
zone           = "rear door"
sort           = "barn doors"
width          = "50 in"
height         = "58 in"
clear_width    = "48 in"
clear_height   = "56 in"
sill           = "0 in"
swings         = "out"
exit           = true
inside_release = true
at             = { centre = "0 in" }
"#;

/// What a script makes of every figure of a name, with what messages call each.
fn judged(bench: &mut Bench, name: &str, text: &str) -> Vec<(String, String, Judgement)> {
    let judges = Judges::from_word(name).unwrap();
    assert!(judges.takes_figures());
    let source = bench.sources.add("rule.rhai", text);
    let script = bench.engine.compile(text, source, judges).unwrap();
    let subjects = judges.subjects(&bench.run);
    subjects
        .into_iter()
        .map(|what| {
            let subject = judges.subject(&bench.run, what);
            let judgement = bench.engine.judge(&script, &bench.run, what, &bench.limits);
            (subject.kind.to_owned(), subject.name, judgement)
        })
        .collect()
}

#[test]
fn a_figure_is_judged_for_each_part_that_has_it() {
    let mut bench = Bench::with(CHEST);
    let text =
        "reading(figure.value).at_most(quantity(\"0 in\")).named(`${figure.of}, ${figure.item.kind}`);";
    let found = judged(&mut bench, "space/outside_box", text);
    let named: Vec<(&str, &str, &str)> = found
        .iter()
        .map(|(kind, name, judgement)| (kind.as_str(), name.as_str(), judgement.drafts[0].what.as_str()))
        .collect();
    assert_eq!(named, [("item", "hob", "item `hob`, appliance"), ("item", "chest", "item `chest`, module"),]);
    assert!(found.iter().all(|(.., judgement)| judgement.drafts[0].passes), "both stand inside: {found:#?}");
}

#[test]
fn a_figure_of_the_build_names_the_build() {
    let mut bench = Bench::new();
    let text = "reading(figure.value).at_least(quantity(\"7 ft\"));\n\
                require(!has(figure, \"item\") && !has(figure, \"state\"), \"it is of the build\");";
    let found = judged(&mut bench, "space/headroom", text);
    assert_eq!(found.len(), 1);
    let (kind, _, judgement) = &found[0];
    assert_eq!(kind, "build");
    assert_eq!(judgement.drafts[0].what, "height inside");
    assert!(!judgement.drafts[0].passes, "76 in outside is under 7 ft inside");
    assert!(judgement.drafts[1].passes);
}

#[test]
fn a_figure_that_is_none_makes_the_rule_not_apply_and_one_that_is_missing_cannot_be_judged() {
    let mut bench = Bench::with(DOOR);
    let text = "reading(figure.value).at_least(quantity(\"3 ft\"));";
    let found = judged(&mut bench, "space/exits_apart", text);
    assert_eq!(found.len(), 1);
    match &found[0].2.end {
        End::NotApplicable(why) => assert!(why.contains("way"), "{why}"),
        end => panic!("{end:?}"),
    }
    let text = "require(count(figure.value) > 0, \"it is held\");";
    let found = judged(&mut bench, "anchor/how_held", text);
    assert_eq!(found.len(), 1);
    assert!(matches!(found[0].2.end, End::Missing(_)), "nothing is said of its anchors: {found:#?}");
    assert!(found[0].2.drafts.is_empty());
}

#[test]
fn lists_and_flags_are_figures_too() {
    let mut bench = Bench::new();
    let text = "require(count(figure.value) == 0, listed(figure.value));";
    let found = judged(&mut bench, "space/smoke_alarms", text);
    assert!(found[0].2.drafts[0].passes, "{found:#?}");
    let text = "require(!figure.value || figure.value, figure.of);";
    let found = judged(&mut bench, "anchor/tips_ahead", text);
    assert_eq!(found.len(), 1);
}

#[test]
fn things_are_asked_for_their_figures() {
    let mut bench = Bench::with(CHEST);
    let passes = |bench: &mut Bench, word: &str, text: &str| {
        let judgement = bench.judge_a(word, &format!("require({text}, \"x\");")).unwrap();
        assert!(matches!(judgement.end, End::Done), "{text}: {:?}", judgement.end);
        judgement.drafts[0].passes
    };
    assert!(passes(&mut bench, "appliance", "item[\"space/outside_box\"] <= quantity(\"0 in\")"));
    assert!(passes(&mut bench, "appliance", "has(item, \"space/outside_box\")"));
    assert!(passes(&mut bench, "appliance", "!has(item, \"space/headroom\")"));
    assert!(passes(&mut bench, "appliance", "build[\"space/headroom\"] > quantity(\"0 in\")"));
    assert!(passes(&mut bench, "appliance", "trailer[\"space/headroom\"] == build[\"space/headroom\"]"));
    let missing = bench.judge_a("appliance", "item[\"space/headroom\"];").unwrap();
    assert!(matches!(missing.end, End::Missing(_)), "{:?}", missing.end);
}

#[test]
fn another_figure_of_the_same_thing_is_at_hand() {
    let mut bench = Bench::with(CHEST);
    let text = "require(figure[\"space/outside_box\"] == figure.value && figure.item[\"space/outside_box\"] == figure.value, \"x\");";
    for (_, name, judgement) in judged(&mut bench, "space/outside_box", text) {
        assert!(judgement.drafts[0].passes, "{name}");
    }
}

#[test]
fn several_figures_of_a_name_are_not_taken_for_one() {
    let mut bench = Bench::with(CHEST);
    let said = "there are several `space/outside_box`: ask a part or a state for it, or judge each with `judges = \"space/outside_box\"`";
    at(&bench.fails("build[\"space/outside_box\"];"), 1, 6, said);
    at(
        &bench.fails("build[\"space/outside_bix\"];"),
        1,
        6,
        "there is no figure `space/outside_bix`; did you mean `space/outside_box`?",
    );
    assert_eq!(
        bench.fails("has(build, \"space/outside_bix\");").message,
        "there is no figure `space/outside_bix`; did you mean `space/outside_box`?"
    );
}

#[test]
fn what_no_part_has_is_no_subject() {
    let bench = Bench::new();
    let judges = Judges::from_word("space/berth_length").unwrap();
    assert_eq!(judges.subjects(&bench.run), []);
    assert!(!judges.must_exist());
    assert_ne!(judges.noun(), FIGURE);
}
