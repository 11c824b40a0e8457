//! Subjects of a pack's own, and fields of the shop's own, as `pack.toml` declares them.

use pintle_finding::{Problem, Reading, Verdict};
use pintle_rulebook::PackFiles;

use crate::bench::{Bench, DATA, SCRIPT};

/// A pack with one rule that judges a subject of its own.
fn own(declared: &str, judges: &str, script: &str) -> Vec<PackFiles> {
    let data = DATA.replace("\"road state\"", &format!("\"{judges}\""));
    let data = data.replace("[limit.most]\nvalue = \"2000 lb\"\nbasis = \"shop\"\n", "");
    let file = |name: &str, text: &str| (format!("rules/own/{name}"), text.as_bytes().to_vec());
    let files =
        vec![file("pack.toml", declared), file("trial-rule.rhai", script), file("trial-rule.toml", &data)];
    vec![PackFiles { name: "own".to_owned(), builtin: false, files }]
}

const BURNER: &str = r#"
[subject.burner]
of    = "appliance"
where = 'has(appliance, "input") && appliance.fuel == "propane"'
doc   = "every appliance with a flame"
"#;

fn readings(declared: &str, judges: &str, script: &str, changes: &[(&str, &str)]) -> Vec<Reading> {
    let mut bench = Bench::with(&own(declared, judges, script), "");
    let build = bench.build("sound-6x12-round", changes);
    bench.readings("own/trial-rule", build)
}

fn problems(declared: &str, judges: &str) -> Vec<Problem> {
    Bench::tried(&own(declared, judges, "require(true, \"all is well\");"), "").1
}

#[test]
fn a_rule_judges_only_what_the_condition_picks() {
    let script = "require(item.kind == \"appliance\", `${item.called} is lit`).remedy(\"put it out\");";
    let all = readings(BURNER, "appliance", script, &[]);
    let picked = readings(BURNER, "burner", script, &[]);
    assert!(!picked.is_empty() && picked.len() <= all.len(), "{picked:#?}");
    assert!(picked.iter().all(|reading| reading.verdict == Verdict::Pass));
    let none = BURNER.replace("\"propane\"'", "\"diesel\"'");
    let none = readings(&none, "burner", script, &[]);
    assert_eq!(none.len(), 1);
    assert_eq!(none[0].verdict, Verdict::NotApplicable);
    assert_eq!(none[0].reason.as_deref(), Some("the build has no burner"));
}

#[test]
fn what_a_condition_cannot_tell_is_not_passed_over() {
    let asks = BURNER.replace(
        "has(appliance, \"input\") && appliance.fuel == \"propane\"",
        "appliance.input > quantity(\"1 W\")",
    );
    let fields = "{ tag = \"lamp\", kind = \"appliance\", fuel = \"propane\", used = \"outside\", mass = \"1 lb\", mass_basis = \"weighed\", \
                  length = \"4 in\", width = \"4 in\", height = \"4 in\", at = { front = \"60 in\", left = \"40 in\" } }";
    let script = "require(true, \"it is lit\");";
    let found = readings(&asks, "burner", script, &[("item.lamp", fields)]);
    let lamp: Vec<_> = found.iter().filter(|reading| reading.subject.name == "lamp").collect();
    assert_eq!(lamp.len(), 1, "{found:#?}");
    assert_eq!(lamp[0].verdict, Verdict::CannotJudge);
    assert!(lamp[0].reason.as_deref().unwrap().contains("`input` of item `lamp`"), "{:?}", lamp[0].reason);
    // A map hides from the check before the run what it holds.
    let broken = BURNER.replace(
        "has(appliance, \"input\") && appliance.fuel == \"propane\"",
        "let of = #{ fuel: appliance.fuel }; of.fuel",
    );
    let found = readings(&broken, "burner", script, &[]);
    assert!(found.iter().all(|reading| reading.verdict == Verdict::Broken), "{found:#?}");
    assert!(
        found[0].reason.as_deref().unwrap().contains("a text, which is neither true nor false"),
        "{found:#?}"
    );
}

#[test]
fn road_states_of_a_packs_own_are_judged_in_every_arrangement() {
    let loaded = "[subject.loaded]\nof = \"road state\"\nwhere = 'state.gross > quantity(\"1 lb\")'\ndoc = \"with anything aboard\"\n";
    let script = SCRIPT.replace("limit.most", "quantity(\"1 lb\")");
    let found = readings(loaded, "loaded", &script, &[]);
    assert!(found.iter().any(|reading| reading.subject.kind == "arrangement"), "{found:#?}");
}

#[test]
fn a_wrong_declaration_is_a_problem_where_it_stands() {
    let message = |declared: &str, judges: &str| -> (String, String) {
        let found = problems(declared, judges);
        assert!(!found.is_empty(), "{declared}");
        (found[0].message.clone(), found[0].help.clone().unwrap_or_default())
    };
    let (said, help) = message(BURNER, "burners");
    assert!(said.contains("judges `burners`, and there is no such thing"), "{said}");
    assert_eq!(help, "did you mean `burner`?");
    let (said, _) = message(&BURNER.replace("subject.burner", "subject.item"), "item");
    assert!(said.contains("`item` is a built-in subject already"), "{said}");
    let (said, help) = message(&BURNER.replace("of    = \"appliance\"", "of = \"aplliance\""), "appliance");
    assert!(said.contains("picks from `aplliance`"), "{said}");
    assert_eq!(help, "did you mean `appliance`?");
    let (said, help) = message(&BURNER.replace("has(", "hass("), "appliance");
    assert!(said.contains("the condition of subject `burner`: there is no function `hass`"), "{said}");
    assert_eq!(help, "did you mean `has`?");
    let (said, _) = message(&BURNER.replace("appliance.fuel == \"propane\"", "appliance.fuel"), "appliance");
    assert!(said.contains("a condition is a yes or no, and this is a text"), "{said}");
    let (said, _) =
        message(&BURNER.replace("has(appliance, \"input\") &&", "require(true, \"x\"); "), "appliance");
    assert!(said.contains("a condition takes no reading"), "{said}");
    let (said, help) =
        message("[field.hinge_rating]\nis = \"mas\"\ndoc = \"what a hinge carries\"\n", "appliance");
    assert!(said.contains("a field cannot be a `mas`"), "{said}");
    assert_eq!(help, "did you mean `mass`?");
    let (said, _) =
        message("[field.hinge-rating]\nis = \"mass\"\ndoc = \"what a hinge carries\"\n", "appliance");
    assert!(said.contains("a script cannot read a field called `hinge-rating`"), "{said}");
}

const FIELD: &str = "[field.hinge_rating]\nis = \"mass\"\ndoc = \"what each hinge of the lid carries\"\n";

#[test]
fn a_script_reads_a_field_of_the_shops_own_with_its_place() {
    let script =
        "reading(item.shop.hinge_rating).at_least(quantity(\"20 lb\")).remedy(\"fit stronger hinges\");";
    let found = readings(FIELD, "module", script, &[("item.galley.shop", "{ hinge_rating = \"12 lb\" }")]);
    let galley = found.iter().find(|reading| reading.subject.name == "galley").unwrap();
    assert_eq!(galley.verdict, Verdict::Fault);
    assert_eq!(galley.inputs.len(), 1, "{galley:#?}");
    assert_eq!(galley.inputs[0].name, "`hinge_rating` of item `galley`");
    assert!(galley.inputs[0].span.is_some());
    let other = found.iter().find(|reading| reading.subject.name == "settee").unwrap();
    assert_eq!(other.verdict, Verdict::CannotJudge, "what is not stated is not passed over");
    assert!(other.reason.as_deref().unwrap().contains("`shop.hinge_rating` of item `settee`"), "{other:#?}");
    let asks =
        "if !has(item.shop, \"hinge_rating\") { not_applicable(\"no hinges\"); }\nrequire(true, \"hung\");";
    let found = readings(FIELD, "module", asks, &[("item.galley.shop", "{ hinge_rating = \"12 lb\" }")]);
    let passes = found.iter().filter(|reading| reading.verdict == Verdict::Pass).count();
    assert_eq!(passes, 1, "{found:#?}");
    let wrong =
        "let of = #{ hinge: item.shop.hinge_rating }; reading(of.hinge).at_least(quantity(\"20 in\"));";
    let found = readings(FIELD, "module", wrong, &[("item.galley.shop", "{ hinge_rating = \"12 lb\" }")]);
    assert!(
        found.iter().any(|reading| reading.verdict == Verdict::Broken),
        "a mass is no length: {found:#?}"
    );
}
