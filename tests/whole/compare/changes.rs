//! Where a change can come from, and what it comes to.

use std::collections::BTreeSet;

use super::{AHEAD, BEHIND, Repository, SOUND, of_news, texts};
use crate::tool::top;

#[test]
fn the_same_against_the_same_has_not_changed() {
    let repository = Repository::new();
    let head = format!("HEAD:{SOUND}");
    let rows: [&[&str]; 6] = [
        &[SOUND, SOUND],
        &["specs", "specs"],
        &["--since", "HEAD"],
        &["--since", "HEAD", SOUND],
        &[&head, SOUND],
        &["HEAD:specs", "main:specs"],
    ];
    for arguments in rows {
        for format in ["human", "plain", "markdown"] {
            let ran = repository.compare(&[arguments, &["--format", format]].concat());
            assert_eq!(ran.code, 0, "{arguments:?}: {}", ran.out);
            assert!(ran.out.contains("nothing changed"), "{arguments:?}: {}", ran.out);
        }
        let (code, document) = repository.json(arguments);
        assert_eq!((code, &document["verdict"]), (0, &"no new fault".into()));
        assert_eq!(document["specs"].as_array().unwrap().len(), 0);
        assert_eq!(document["summary"]["specs"], document["summary"]["unchanged_specs"]);
        assert!(document["summary"]["readings"]["as_before"].as_u64().unwrap() > 50);
    }
    // A remark is no change, wherever it pushes the lines.
    repository.edit(SOUND, "[build]", "# a remark\n\n[build]");
    assert_eq!(repository.json(&["--since", "HEAD"]).1["summary"]["unchanged_specs"], 4);
}

#[test]
fn a_moved_galley_is_a_new_fault_and_is_said_first() {
    let repository = Repository::new();
    repository.edit(SOUND, AHEAD, BEHIND);
    let (code, document) = repository.json(&["--since", "HEAD"]);
    assert_eq!((code, &document["verdict"]), (1, &"new fault".into()));
    assert_eq!(texts(&document["specs"], "spec"), [SOUND], "only the spec that changed is told");
    assert_eq!(document["summary"]["unchanged_specs"], 3);
    let new = of_news(&document, "new fault");
    assert!(new.iter().any(|reading| reading["rule"] == "towing/light-tongue"), "{new:?}");
    let faults = new.len();
    for reading in new {
        assert_eq!(
            (&reading["old"]["verdict"], &reading["new"]["verdict"]),
            (&"pass".into(), &"fault".into())
        );
        // What is judged without a figure has no margin.
        let measured = !reading["new"]["value"].is_null();
        assert_eq!(
            reading["margin_by"]["si"].as_f64().map(|by| by < 0.0),
            measured.then_some(true),
            "{reading}"
        );
        assert_eq!(reading["old"]["place"]["file"], format!("HEAD:{SOUND}"));
        assert_eq!(reading["new"]["place"]["file"], SOUND);
    }
    let part = &document["specs"][0]["parts"][0];
    assert_eq!((&part["part"], &part["fate"]), (&"item `galley`".into(), &"changed".into()));
    assert_eq!(part["moves"][0]["axis"], "x");
    let human = repository.compare(&["--since", "HEAD"]).out;
    let at = |words: &str| human.find(words).unwrap_or_else(|| panic!("`{words}` is not in\n{human}"));
    let plural = if faults == 1 { "" } else { "s" };
    assert!(human.starts_with(&format!("{faults} new fault{plural} at or above major; ")), "{human}");
    assert!(at("\nnew faults\n") < at("\nmargins of passes that moved"));
    assert!(at("\nmargins of passes") < at("\nweights\n") && at("\nweights\n") < at("\nparts\n"));
    assert!(
        human.contains("item `galley`: moved 4 ft 6 in aft")
            || human.contains("item `galley`: moved 54 in aft")
    );
}

#[test]
fn putting_it_right_is_a_fault_gone() {
    let repository = Repository::new();
    repository.edit(SOUND, AHEAD, BEHIND);
    repository.commit();
    repository.edit(SOUND, BEHIND, AHEAD);
    let (code, document) = repository.json(&["--since", "HEAD"]);
    assert_eq!(code, 0);
    let gone = of_news(&document, "gone");
    assert!(!gone.is_empty());
    assert!(gone.iter().all(|reading| reading["new"]["verdict"] == "pass"), "{gone:?}");
    assert!(repository.compare(&["HEAD~1:specs", "specs"]).out.contains("nothing changed"));
}

#[test]
fn a_change_in_the_stock_list_alone_is_seen_in_every_spec_that_uses_the_part() {
    let repository = Repository::new();
    let stock = "specs/stock/modules.toml";
    repository.edit(stock, "mass    = \"150 lb ± 5 lb\"", "mass    = \"170 lb ± 5 lb\"");
    let (code, document) = repository.json(&["--since", "HEAD", "specs"]);
    assert_eq!(code, 0, "{}", document["headline"]);
    let changed = document["specs"].as_array().unwrap();
    assert!(changed.len() >= 2, "several specs have the galley");
    for spec in changed {
        let part = &spec["parts"][0];
        let field = &part["fields"][0];
        assert_eq!((&part["part"], &field["field"]), (&"item `galley`".into(), &"mass".into()));
        assert_eq!((&field["by"]["shown"], &field["place"]["file"]), (&"20 lb".into(), &stock.into()));
        assert_eq!(spec["parts"].as_array().unwrap().len(), 1, "nothing else changed");
    }
    let plain = repository.compare(&["--since", "HEAD", "--format", "plain"]).out;
    assert!(
        plain.contains("specs/stock/modules.toml:17:11: field: item `galley`: `mass` from 150 lb ± 5 lb to 170 lb ± 5 lb (+20 lb)"),
        "{plain}"
    );
}

#[test]
fn a_change_in_the_rulebook_alone_moves_margins_and_makes_faults() {
    let repository = Repository::new();
    repository.edit("specs/pintle.toml", "value  = \"14 %\"", "value  = \"13 %\"");
    let (code, document) = repository.json(&["--since", "HEAD", SOUND]);
    assert_eq!(code, 1);
    let change = &document["rulebooks"][0]["changes"][0];
    assert_eq!((&change["rule"], &change["limit"]), (&"towing/heavy-tongue".into(), &"most".into()));
    assert_eq!(change["sentence"], "towing/heavy-tongue: limit `most` from 14 % to 13 % (-1 point)");
    assert_eq!(document["rulebooks"][0]["old"], "HEAD:specs/pintle.toml");
    let spec = &document["specs"][0];
    assert_eq!((&spec["parts"], &spec["weights"]), (&serde_json::json!([]), &serde_json::json!([])));
    let readings = spec["readings"].as_array().unwrap();
    assert!(readings.iter().all(|reading| reading["rule"] == "towing/heavy-tongue"));
    for reading in readings {
        assert!((reading["margin_by"]["si"].as_f64().unwrap() + 0.01).abs() < 1e-12, "{reading}");
    }
    assert!(!of_news(&document, "new fault").is_empty() && !of_news(&document, "margin").is_empty());
}

#[test]
fn grades_holds_packs_and_scripts_of_the_rulebook_are_compared() {
    let repository = Repository::new();
    let book = "specs/pintle.toml";
    let pack = repository.path().join("specs/rules/ours");
    std::fs::create_dir_all(&pack).unwrap();
    let rule = "title = \"long galley\"\nwhy = \"it does not turn round in the shop\"\njudges = \"module\"\ngrade = \"minor\"\nfrom = \"quote\"\n\n[limit.most]\nvalue = \"9 ft\"\nbasis = \"shop\"\n\n[[source]]\nbasis = \"shop\"\nsays = \"the bench is nine feet long\"\n\n[[trial]]\nname = \"a galley of 20 ft\"\nbase = \"sound-6x12-round\"\nwith = { \"item.galley.length\" = \"20 ft\" }\nexpect = \"fault\"\nmarks = \"item.galley\"\n";
    std::fs::write(pack.join("long.toml"), rule).unwrap();
    std::fs::write(pack.join("long.rhai"), "reading(item.length).at_most(limit.most);\n").unwrap();
    repository.edit(book, "\"road\"]", "\"road\", \"./rules/ours\"]");
    repository.commit();
    repository.edit(book, "hold  = \"major\"", "hold  = \"minor\"");
    repository.edit(book, "\"road\", ", "");
    repository.edit(
        "specs/rules/ours/long.toml",
        "grade = \"minor\"\nfrom = \"quote\"",
        "grade = \"major\"\nfrom = \"design\"",
    );
    std::fs::write(pack.join("long.rhai"), "reading(item.width).at_most(limit.most);\n").unwrap();
    let (code, document) = repository.json(&["--since", "HEAD", "specs"]);
    assert_eq!(code, 0, "{}", document["headline"]);
    assert_eq!(document["hold"], "minor", "the new rulebook's");
    let said = texts(&document["rulebooks"][0]["changes"], "sentence");
    for wanted in [
        "hold: from major to minor",
        "ours/long: grade from minor to major",
        "ours/long: judged from stage design on, before from quote on",
        "ours/long: judges in another way",
        "road/no-brakes: removed",
    ] {
        assert!(said.contains(&wanted), "`{wanted}` is not among {said:?}");
    }
    let files = std::fs::read_dir(top().join("rules/road")).unwrap().map(|entry| entry.unwrap().path());
    let rules = files.filter(|path| path.extension().is_some_and(|end| end == "rhai")).count();
    let removed = said.iter().filter(|one| one.starts_with("road/") && one.ends_with(": removed")).count();
    assert!(removed > 5, "{said:?}");
    assert_eq!((removed, said.len()), (rules, 4 + rules), "every rule of the pack is gone, and nothing else");
    // What the pack found is not put right by dropping the pack.
    let gone = of_news(&document, "gone");
    assert!(gone.iter().any(|reading| reading["rule"] == "road/no-brakes" && reading["new"].is_null()));
    assert!(gone[0]["words"].as_str().unwrap().contains("no longer there"));
    let (_, back) = repository.json(&["specs", "HEAD:specs"]);
    assert!(texts(&back["rulebooks"][0]["changes"], "sentence").contains(&"road/no-brakes: added"));
}

#[test]
fn tolerances_of_the_shop_are_compared_and_the_readings_that_hang_on_them() {
    let repository = Repository::new();
    let book = repository.path().join("specs/pintle.toml");
    let text = std::fs::read_to_string(&book).unwrap().replace("\"road\"]", "\"road\", \"spec\"]");
    std::fs::write(&book, &text).unwrap();
    repository.commit();
    let surer =
        "\n[[tolerance]]\nof = \"guessed\"\nvalue = \"2 %\"\nreason = \"we put everything on the scale\"\n";
    std::fs::write(&book, text + surer).unwrap();
    let (code, document) = repository.json(&["--since", "HEAD", SOUND]);
    assert_eq!(code, 0, "{}", document["headline"]);
    let said = texts(&document["rulebooks"][0]["changes"], "sentence");
    assert_eq!(said.len(), 1);
    assert!(said[0].starts_with("tolerance of `guessed`: from ") && said[0].ends_with(" to 2 %"), "{said:?}");
    // The weights are what they were, and only readings that judge how sure they are have changed.
    let spec = &document["specs"][0];
    assert_eq!((&spec["weights"], &spec["parts"]), (&serde_json::json!([]), &serde_json::json!([])));
    let rules: BTreeSet<&str> = texts(&spec["readings"], "rule").into_iter().collect();
    assert_eq!(rules, BTreeSet::from(["spec/wide-tolerance"]));
}

#[test]
fn a_fault_that_gets_worse_is_in_the_headline_and_does_not_hold() {
    let repository = Repository::new();
    let spec = "specs/builds/overload-6x12.toml";
    repository.edit(spec, "mass = \"230 lb\"", "mass = \"231 lb\"");
    let (code, document) = repository.json(&["--since", "HEAD", spec]);
    assert_eq!(code, 0);
    let headline = document["headline"].as_str().unwrap();
    assert!(
        headline.starts_with("no new fault at or above major; ") && headline.contains(" worse"),
        "{headline}"
    );
    let worse = of_news(&document, "worse");
    let gvwr = worse.iter().find(|reading| reading["rule"] == "towing/over-gvwr").unwrap();
    assert_eq!((gvwr["at_or_above_hold"].as_bool(), &gvwr["margin_by"]["unit"]), (Some(true), &"lb".into()));
    assert!((gvwr["margin_by"]["value"].as_f64().unwrap() + 1.0).abs() < 1e-9);
}

#[test]
fn what_cannot_be_judged_any_more_is_three_and_below_the_hold_nothing() {
    let repository = Repository::new();
    repository.edit(
        "specs/stock/modules.toml",
        "name    = \"settee-48\"\npart    = \"settee-72\"            # a variant: the same settee, two feet shorter\nmass    = \"46 lb ± 2 lb\"\n",
        "name    = \"settee-48\"\nkind    = \"module\"\nwidth   = \"22 in\"\nheight  = \"17 in\"\n",
    );
    let (code, document) = repository.json(&["--since", "HEAD", SOUND]);
    assert_eq!((code, &document["verdict"]), (3, &"cannot judge".into()));
    let unjudged = of_news(&document, "cannot judge now");
    assert!(unjudged.len() > 10);
    assert!(
        unjudged.iter().any(|one| one["new"]["reason"].as_str().unwrap().contains("`mass` of item `settee`"))
    );
    let gross = &document["specs"][0]["weights"][0];
    assert_eq!(gross["new"]["missing"], "`mass` of item `settee`");
    // A new fault goes before what cannot be judged; a broken spec before both.
    repository.edit(
        SOUND,
        "zone = \"tongue\"\nat   = { box = \"4 in\" }",
        "at   = { front = \"80 in\", left = \"20 in\" }",
    );
    assert_eq!(repository.json(&["--since", "HEAD", SOUND]).0, 1);
    repository.edit(SOUND, "[build]", "[bild]");
    assert_eq!(repository.json(&["--since", "HEAD", SOUND]).0, 2);
}

#[test]
fn the_hold_grade_decides() {
    let repository = Repository::new();
    // A rack that stands too high is minor in the demo shop.
    repository.edit(SOUND, "tag  = \"rack\"", "tag  = \"rack\"\nheight = \"7 in\"");
    let run = |hold: &str| repository.compare(&["--since", "HEAD", SOUND, "--hold", hold]).code;
    assert_eq!((run("critical"), run("major"), run("minor"), run("advice")), (0, 0, 1, 1));
    let (_, document) = repository.json(&["--since", "HEAD", SOUND]);
    assert!(
        document["headline"].as_str().unwrap().contains("1 new fault below major"),
        "{}",
        document["headline"]
    );
}

#[test]
fn a_changed_stage_says_which_rules_wait() {
    let repository = Repository::new();
    let spec = "specs/builds/rear-galley-5x8.toml";
    let (_, before) = repository.json(&[spec, spec]);
    assert!(before["summary"]["standing"]["fault"]["at_or_above_hold"].as_u64().unwrap() > 0);
    repository.edit(spec, "stage  = \"design\"", "stage  = \"quote\"");
    let ran = repository.compare(&["--since", "HEAD", spec, "--format", "plain"]);
    assert!(ran.out.contains("the build: `stage` from design to quote"), "{}", ran.out);
    assert!(ran.out.contains("now: the rule waits for a later stage"), "{}", ran.out);
}

#[test]
fn units_can_be_asked_for() {
    let repository = Repository::new();
    repository.edit(SOUND, AHEAD, BEHIND);
    let metric = repository.compare(&["--since", "HEAD", "--units", "metric"]).out;
    assert!(
        metric.contains("moved 1,372 mm aft") && !metric.contains(" lb") && !metric.contains(" in "),
        "{metric}"
    );
    let us = repository.compare(&["--since", "HEAD", "--units", "us"]).out;
    assert!(!us.contains(" kg") && !us.contains(" mm"), "{us}");
}

#[test]
fn one_thread_or_many_print_the_same_bytes() {
    let repository = Repository::new();
    repository.edit("specs/pintle.toml", "value  = \"14 %\"", "value  = \"12 %\"");
    repository.edit(SOUND, AHEAD, BEHIND);
    for format in ["human", "plain", "json", "markdown"] {
        let run = |threads: &str| {
            repository.compare(&["--since", "HEAD", "--format", format, "--threads", threads]).out
        };
        let one = run("1");
        assert!(one.len() > 1000);
        assert_eq!(one, run("4"), "{format}");
    }
}
