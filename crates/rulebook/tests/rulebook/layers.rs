//! Rulebook files that stand on each other: the last wins, and everybody who set a value is kept.

use pintle_finding::{Grade, Problem, SetBy, Stage, Verdict};
use pintle_quantity::Units;
use pintle_rulebook::builtin_packs;
use pintle_spec::schema::assume;

use crate::bench::{Bench, DATA, SCRIPT, of_states, pack};

const RULE: &str = "own/trial-rule";

fn limit(value: &str, reason: &str) -> String {
    format!("[[limit]]\nrule = \"{RULE}\"\nlimit = \"most\"\nvalue = \"{value}\"\nreason = \"{reason}\"\n")
}

fn own(files: &[(&str, &str)]) -> (Bench, Vec<Problem>) {
    Bench::layered(&pack(DATA, SCRIPT), files)
}

/// Who set a value: file, value and reason of each.
fn chain(set: &SetBy) -> Vec<(&str, &str, &str)> {
    let each = set.chain.iter();
    each.map(|one| (one.file.as_str(), one.value.as_str(), one.reason.as_deref().unwrap_or("-"))).collect()
}

#[test]
fn the_last_layer_wins_and_all_are_kept_from_the_rule_on() {
    let company = limit("2,500 lb", "our hills are lower");
    let shop = limit("2,400 lb", "ours are not");
    let (mut bench, problems) = own(&[("company/pintle.toml", &company), ("pintle.toml", &shop)]);
    assert_eq!(problems, []);
    assert_eq!(bench.under(&limit("3,400 lb", "it goes by train")), []);
    let build = bench.build("sound-6x12-round", &[]);
    let reading = of_states(bench.readings(RULE, build)).remove(0);
    assert_eq!(reading.verdict, Verdict::Pass, "{}", reading.sentence(Units::AsWritten));
    let set = reading.limit_set_by.unwrap();
    assert_eq!(
        chain(&set),
        [
            ("rules/own/trial-rule.toml", "2,000 lb", "-"),
            ("company/pintle.toml", "2,500 lb", "our hills are lower"),
            ("pintle.toml", "2,400 lb", "ours are not"),
            ("builds/a.pintle.toml", "3,400 lb", "it goes by train"),
        ]
    );
    let at: Vec<&str> = set.chain.iter().map(|one| bench.sources.slice(one.span.unwrap())).collect();
    assert_eq!(at, ["\"2000 lb\"", "\"2,500 lb\"", "\"2,400 lb\"", "\"3,400 lb\""]);
    assert_eq!(
        (set.was.as_str(), set.own(), set.file.as_str()),
        ("2,400 lb", "2,000 lb", "builds/a.pintle.toml")
    );
}

#[test]
fn one_file_sets_a_value_once() {
    let twice = limit("2500 lb", "a") + limit("2400 lb", "b").as_str();
    let company = limit("2600 lb", "c");
    let (bench, problems) = own(&[("company/pintle.toml", &company), ("pintle.toml", &twice)]);
    assert_eq!(problems.len(), 1, "{problems:#?}");
    assert_eq!(problems[0].code, "set-twice");
    let at: Vec<&str> = problems[0].labels.iter().map(|label| bench.sources.slice(label.span)).collect();
    assert_eq!(at, ["\"2400 lb\"", "\"2500 lb\""]);
    for (twice, said) in [
        (
            format!("[[grade]]\nrule = \"{RULE}\"\ngrade = \"major\"\nreason = \"a\"\n").repeat(2),
            "the grade of",
        ),
        (
            format!("[[stage]]\nrule = \"{RULE}\"\nfrom = \"build\"\nreason = \"a\"\n").repeat(2),
            "the stage of",
        ),
        ("[[tolerance]]\nof = \"guessed\"\nvalue = \"20 %\"\nreason = \"a\"\n".repeat(2), "the tolerance of"),
        (
            "[[assumption]]\nof = \"gas.heating_value\"\nvalue = \"21,600 Btu/lb\"\nreason = \"a\"\n"
                .repeat(2),
            "assumption",
        ),
    ] {
        let (_, problems) = own(&[("pintle.toml", &twice)]);
        assert_eq!(problems.len(), 1, "{problems:#?}");
        assert!(problems[0].message.starts_with(said) && problems[0].code == "set-twice", "{problems:#?}");
    }
}

#[test]
fn grades_stages_tolerances_and_lists_are_layered() {
    let set = |grade: &str, from: &str, share: &str, more: &str| {
        format!(
            "{more}\n[[grade]]\nrule = \"{RULE}\"\ngrade = \"{grade}\"\nreason = \"a\"\n\
             [[stage]]\nrule = \"{RULE}\"\nfrom = \"{from}\"\nreason = \"b\"\n\
             [[tolerance]]\nof = \"guessed\"\nvalue = \"{share}\"\nreason = \"c\"\n"
        )
    };
    let company = set("major", "design", "20 %", "shop = \"Ours\"\nhold = \"minor\"\nplaces = [\"us-tx\"]");
    let shop = set("critical", "delivery", "15 %", "hold = \"critical\"");
    let (mut bench, problems) = own(&[("company.toml", &company), ("pintle.toml", &shop)]);
    assert_eq!(problems, []);
    let book = &bench.rulebook;
    assert_eq!((book.hold, book.shop.as_deref()), (Grade::Critical, Some("Ours")));
    let rule = &book.rule(RULE).unwrap().rule;
    assert_eq!((rule.grade, rule.from), (Grade::Critical, Stage::Delivery));
    let words = |set: &SetBy| chain(set).iter().map(|(_, value, _)| (*value).to_owned()).collect::<Vec<_>>();
    assert_eq!(words(rule.grade_set_by.as_ref().unwrap()), ["minor", "major", "critical"]);
    assert_eq!(words(rule.from_set_by.as_ref().unwrap()), ["quote", "design", "delivery"]);
    let guessed = book.bound_tolerances.iter().find(|held| held.footing.name() == Some("guessed")).unwrap();
    assert_eq!(words(guessed.set_by.as_ref().unwrap()), ["25 %, at least 1 lb", "20 %", "15 %"]);
    let build = bench.build("quote-6x12", &[]);
    let places = bench.rulebook.places.of(&build).unwrap();
    assert_eq!(places.iter().map(|place| place.name.as_str()).collect::<Vec<_>>(), ["us-tx"]);
    let later = bench.inspect(build).later;
    assert!(later.contains(&(RULE.to_owned(), Stage::Delivery)), "put off, and said so: {later:?}");
}

#[test]
fn an_assumption_names_all_that_it_takes_the_place_of() {
    let set = |value: &str, reason: &str| {
        format!("[[assumption]]\nof = \"gas.heating_value\"\nvalue = \"{value}\"\nreason = \"{reason}\"\n")
    };
    let files = [
        ("company.toml", set("21,000 Btu/lb", "our supplier")),
        ("yard.toml", String::new()),
        ("pintle.toml", set("20,500 Btu/lb", "a new one")),
    ];
    let (bench, problems) = own(&files.each_ref().map(|(name, text)| (*name, text.as_str())));
    assert_eq!(problems, []);
    let held = bench.rulebook.assumptions.get(&assume::GAS, &assume::gas::HEATING_VALUE).unwrap();
    let own = "21,548 Btu/lb, rules/assumptions/gas.toml";
    assert_eq!(
        held.origin.text,
        format!("pintle.toml, a new one; in place of 21,000 Btu/lb, company.toml; before that {own}")
    );
    let (bench, _) = Bench::tried(&pack(DATA, SCRIPT), &set("20,500 Btu/lb", "a new one"));
    let held = bench.rulebook.assumptions.get(&assume::GAS, &assume::gas::HEATING_VALUE).unwrap();
    assert_eq!(held.origin.text, format!("pintle.toml, a new one; in place of {own}"));
}

#[test]
fn the_rulebook_of_one_build_leaves_to_others_what_is_theirs() {
    let (mut bench, _) = own(&[("pintle.toml", "")]);
    for (key, help) in [
        ("from = [\"a.toml\"]", "shop's rulebook already"),
        ("shop = \"a\"", "pintle.toml"),
        ("hold = \"minor\"", "--hold"),
        ("stock = [\"a\"]", "pintle.toml"),
        ("packs = [\"gas\"]", "pintle.toml"),
        ("backlog = \"a.toml\"", "pintle.toml"),
        ("places = [\"us-tx\"]", "`[build]`"),
        ("[[assumption]]\nof = \"gas.heating_value\"\nvalue = \"9 Btu/lb\"\nreason = \"a\"", "`[assume]`"),
    ] {
        let problems = bench.under(key);
        assert_eq!(problems.len(), 1, "{key}: {problems:#?}");
        assert_eq!(problems[0].code, "not-of-a-build", "{key}");
        assert!(problems[0].help.as_ref().unwrap().contains(help), "{key}: {problems:#?}");
    }
}

#[test]
fn a_stage_of_an_unknown_rule_is_refused_and_the_tools_own_have_none() {
    let stage = |rule: &str| format!("[[stage]]\nrule = \"{rule}\"\nfrom = \"build\"\nreason = \"a\"\n");
    let (_, problems) = own(&[("pintle.toml", &stage("own/trail-rule"))]);
    assert_eq!(problems[0].help.as_deref(), Some("did you mean `own/trial-rule`?"));
    let (_, problems) = own(&[("pintle.toml", &stage("record/waiver-unused"))]);
    assert_eq!(problems[0].code, "fixed-stage");
    let grade = "[[grade]]\nrule = \"record/waiver-unusd\"\ngrade = \"major\"\nreason = \"a\"\n";
    let (_, problems) = own(&[("pintle.toml", grade)]);
    assert_eq!(problems[0].help.as_deref(), Some("did you mean `record/waiver-unused`?"));
    let (bench, problems) = own(&[("pintle.toml", &grade.replace("unusd", "unused"))]);
    assert_eq!(problems, []);
    let kept = bench.rulebook.kept.iter().find(|kept| kept.rule.id == "record/waiver-unused").unwrap();
    assert_eq!(kept.rule.grade, Grade::Major);
    assert_eq!(kept.rule.grade_set_by.as_ref().unwrap().own(), "minor");
}

#[test]
fn a_rule_of_a_pack_cannot_have_the_name_of_one_of_the_tools_own() {
    let mut packs = pack(DATA, SCRIPT);
    for (name, _) in &mut packs[0].files {
        *name = name.replace("trial-rule", "limit-loosened");
    }
    "record".clone_into(&mut packs[0].name);
    let (bench, problems) = Bench::layered(&packs, &[]);
    assert_eq!(problems[0].code, "duplicate-rule");
    assert!(bench.rulebook.rule("record/limit-loosened").is_none());
    let clash = builtin_packs();
    assert_eq!(Bench::tried(&clash, "").1, [], "no built-in pack has one");
}
