//! An id that a rule had before leads to it, with a warning, wherever somebody names one; no verdict hangs on it.

use std::path::Path;

use serde_json::Value;

use crate::tool::{Ran, demo_shop, edit, pintle_in};

const SPEC: &str = "builds/slid-axle-5x8.toml";
const OLD: &str = "gas/cylinder-near-battery";
const NEW: &str = "gas/cylinder-near-ignition";

fn add(folder: &Path, file: &str, more: &str) {
    let path = folder.join(file);
    let text = std::fs::read_to_string(&path).unwrap_or_default();
    std::fs::create_dir_all(path.parent().unwrap()).unwrap();
    std::fs::write(path, text + more).unwrap();
}

/// A stage for a rule, which changes no verdict of the demo shop.
fn stage(rule: &str) -> String {
    format!("\n[[stage]]\nrule   = \"{rule}\"\nfrom   = \"quote\"\nreason = \"we look early\"\n")
}

/// The demo shop with a setting of a rule, in the shop's rulebook or in that of one build.
fn shop(file: &str, rule: &str) -> tempfile::TempDir {
    let shop = demo_shop();
    add(shop.path(), file, &stage(rule));
    shop
}

fn json(text: &str) -> Value {
    serde_json::from_str(text).unwrap_or_else(|error| panic!("{error}: {text}"))
}

/// The line on which a file names the old id, and the place in it.
fn place(folder: &Path, file: &str) -> String {
    let text = std::fs::read_to_string(folder.join(file)).unwrap();
    let line = text.lines().position(|line| line.contains(OLD)).unwrap();
    let column = text.lines().nth(line).unwrap().find('"').unwrap();
    format!("{file}:{}:{}", line + 1, column + 1)
}

#[test]
fn an_inspection_warns_at_the_place_and_comes_to_the_same() {
    for file in ["pintle.toml", "builds/slid-axle-5x8.pintle.toml"] {
        let (old, new) = (shop(file, OLD), shop(file, NEW));
        let run = |shop: &Path, form: &str| pintle_in(shop, &["inspect", "--format", form, SPEC]);
        let (warned, plain) = (run(old.path(), "plain"), run(new.path(), "plain"));
        let said = format!(
            "{}: warning: renamed-rule: `{OLD}` is `{NEW}` now; an old id; write `{NEW}`; the old id is taken for it",
            place(old.path(), file)
        );
        let (first, rest) = warned.out.split_once('\n').unwrap();
        assert_eq!(first, said);
        assert_eq!(warned.code, plain.code);
        assert_eq!(
            rest,
            plain.out.replacen("readings\n", "readings; 1 warning\n", 1),
            "nothing else differs"
        );
        let human = run(old.path(), "human");
        assert!(human.out.contains(&format!("⚠ `{OLD}` is `{NEW}` now")), "{}", human.out);
        let document = json(&run(old.path(), "json").out);
        let problem = &document["problems"][0];
        assert_eq!((&problem["code"], &problem["warning"]), (&"renamed-rule".into(), &true.into()));
        let summary = &document["summary"];
        assert_eq!(
            (&summary["warnings"], &summary["problems"], &summary["unreadable"]),
            (&1.into(), &0.into(), &0.into())
        );
        assert_eq!(document["verdict"], json(&run(new.path(), "json").out)["verdict"]);
        // Each of what else prints says so aside.
        for arguments in [
            vec!["weigh", "--format", "json", SPEC],
            vec!["figures", "--format", "json", "--of", "gas", SPEC],
            vec!["explain", "--format", "json", NEW, "--at", SPEC],
            vec!["rules", "--format", "json", "gas", "--at", SPEC],
            vec!["mend", SPEC],
        ] {
            let (warned, plain) = (pintle_in(old.path(), &arguments), pintle_in(new.path(), &arguments));
            assert!(
                warned.err.contains(&format!("⚠ `{OLD}` is `{NEW}` now")),
                "{arguments:?}: {}",
                warned.err
            );
            assert_eq!(warned.err.matches("⚠").count(), 1, "{arguments:?}: {}", warned.err);
            assert_eq!((warned.code, &warned.out), (plain.code, &plain.out), "{arguments:?}");
        }
    }
}

#[test]
fn a_mistake_beside_a_warning_is_still_one() {
    let shop = shop("pintle.toml", OLD);
    add(shop.path(), "pintle.toml", &stage(NEW));
    let ran = pintle_in(shop.path(), &["inspect", "--format", "json", SPEC]);
    let document = json(&ran.out);
    let summary = &document["summary"];
    assert_eq!(
        (ran.code, &document["verdict"], &summary["warnings"], &summary["problems"]),
        (2, &"input wrong".into(), &1.into(), &1.into())
    );
    let ran = pintle_in(shop.path(), &["inspect", "--format", "plain", SPEC]);
    let said = format!("input wrong: set-twice: the stage of `{NEW}` is set twice");
    assert!(ran.out.contains(&said), "{}", ran.out);
    for arguments in [vec!["explain", NEW], vec!["rules"], vec!["trial", NEW], vec!["weigh", SPEC]] {
        assert_eq!(pintle_in(shop.path(), &arguments).code, 2, "{arguments:?}");
    }
}

#[test]
fn a_comparison_warns_and_comes_to_the_same() {
    let (old, new) = (shop("pintle.toml", OLD), shop("pintle.toml", NEW));
    let compare = |form: &str| {
        let sides = [new.path().join(SPEC), old.path().join(SPEC)];
        let [before, after] = sides.each_ref().map(|path| path.to_str().unwrap());
        pintle_in(new.path(), &["compare", before, after, "--format", form])
    };
    let plain = compare("plain");
    assert_eq!(plain.code, 0, "{}", plain.out);
    assert!(plain.out.contains(&format!(": warning: renamed-rule: `{OLD}` is `{NEW}` now")), "{}", plain.out);
    assert!(!plain.out.contains("input wrong"), "{}", plain.out);
    let markdown = compare("markdown");
    assert!(
        markdown.out.contains("- warning: ") && !markdown.out.contains("input wrong"),
        "{}",
        markdown.out
    );
    assert!(compare("human").out.contains("⚠ `gas/cylinder-near-battery`"));
    let document = json(&compare("json").out);
    assert_eq!(
        (&document["problems"][0]["warning"], document["problems"].as_array().unwrap().len()),
        (&true.into(), 1)
    );
}

#[test]
fn a_call_may_name_a_rule_by_its_old_id() {
    let shop = demo_shop();
    let run = |arguments: &[&str]| -> Ran { pintle_in(shop.path(), arguments) };
    let warns = |text: &str| text.matches(&format!("⚠ `{OLD}` is `{NEW}` now")).count() == 1;
    let explained = run(&["explain", OLD]);
    assert_eq!(explained.code, 0, "{}", explained.out);
    assert!(explained.out.starts_with(&format!("{NEW}: ")), "{}", explained.out);
    assert!(explained.out.contains(&format!("\nwas      {OLD}\n")), "{}", explained.out);
    assert!(warns(&explained.err), "{}", explained.err);
    let document = json(&run(&["explain", OLD, "--format", "json"]).out);
    assert_eq!((&document["rule"], &document["was"][0]), (&NEW.into(), &OLD.into()));
    let listed = run(&["rules", OLD, "--format", "json"]);
    let rules = json(&listed.out)["rules"].clone();
    assert_eq!(
        (rules.as_array().unwrap().len(), &rules[0]["rule"], &rules[0]["was"][0]),
        (1, &NEW.into(), &OLD.into())
    );
    assert!(listed.code == 0 && warns(&listed.err), "{}", listed.err);
    let tried = run(&["trial", OLD]);
    assert!(tried.code == 0 && warns(&tried.out), "{}", tried.out);
    assert!(tried.out.contains("1 rule, 6 trials: 6 as expected, 0 not"), "{}", tried.out);
    // Its old name alone is no id, and leads to it all the same.
    let by_name = run(&["explain", "cylinder-near-battery"]);
    assert!(by_name.code == 2 && by_name.out.contains(&format!("did you mean `{NEW}`?")), "{}", by_name.out);
}

/// A shop with one build and one pack, of its own, whose rule had another id before and finds faults.
fn own() -> tempfile::TempDir {
    let shop = demo_shop();
    for entry in std::fs::read_dir(shop.path().join("builds")).unwrap() {
        let path = entry.unwrap().path();
        if !path.ends_with("sound-6x12-round.toml") {
            std::fs::remove_file(path).unwrap();
        }
    }
    let text = "shop = \"Ours\"\nstock = [\"stock\"]\npacks = [\"record\"]\nbacklog = \"backlog.toml\"\n";
    std::fs::write(shop.path().join("pintle.toml"), text).unwrap();
    assert_eq!(pintle_in(shop.path(), &["new", "pack", "yard"]).code, 0);
    edit(shop.path(), "rules/yard/heavy-module.toml", "judges =", "was    = [\"yard/heavy-box\"]\njudges =");
    add(shop.path(), "pintle.toml", &most("60 lb"));
    shop
}

fn most(value: &str) -> String {
    format!(
        "\n[[limit]]\nrule = \"yard/heavy-module\"\nlimit = \"most\"\nvalue = \"{value}\"\nreason = \"one man\"\n"
    )
}

#[test]
fn a_backlog_under_an_old_id_is_kept_and_written_under_the_new_one() {
    let shop = own();
    let run = |arguments: &[&str]| pintle_in(shop.path(), arguments);
    let list = || std::fs::read_to_string(shop.path().join("backlog.toml")).unwrap();
    let recorded = run(&["backlog", "record"]);
    assert_eq!((recorded.code, recorded.err.as_str()), (0, ""), "{}", recorded.out);
    assert!(list().contains("rule  = \"yard/heavy-module\""), "{}", list());
    let items = list().matches("\"item.").count();
    assert!(items > 1, "{}", list());
    edit(shop.path(), "backlog.toml", "yard/heavy-module", "yard/heavy-box");
    let warning = "⚠ `yard/heavy-box` is `yard/heavy-module` now";
    let inspected = run(&["inspect", "--format", "plain", "."]);
    assert_eq!(inspected.code, 0, "{}", inspected.out);
    assert!(!inspected.out.contains("record/backlog-stale"), "{}", inspected.out);
    assert!(inspected.out.starts_with("backlog.toml:5:9: warning: renamed-rule: "), "{}", inspected.out);
    let shown = run(&["backlog", "show"]);
    assert!(shown.code == 0 && shown.out.ends_with("all of them still found\n"), "{}", shown.out);
    assert_eq!(shown.err.matches(warning).count(), 1, "{}", shown.err);
    // Something comes off: the list is written anew, by the id of now.
    edit(shop.path(), "pintle.toml", "60 lb", "119 lb");
    let shrunk = run(&["backlog", "shrink"]);
    assert!(shrunk.code == 0 && shrunk.err.contains(warning), "{} {}", shrunk.out, shrunk.err);
    assert!(shrunk.out.starts_with("off the list: OM-112: yard/heavy-module on item."), "{}", shrunk.out);
    assert!(list().contains("rule  = \"yard/heavy-module\"") && !list().contains("heavy-box"), "{}", list());
    assert_eq!(run(&["backlog", "show"]).err, "");
}

/// What was found under the old id is found under the new one: nothing is new.
#[test]
fn a_rule_that_is_renamed_between_two_versions_finds_what_it_found() {
    let (old, new) = (own(), own());
    for shop in [&old, &new] {
        edit(shop.path(), "pintle.toml", "backlog = \"backlog.toml\"\n", "hold = \"minor\"\n");
    }
    for ending in ["toml", "rhai"] {
        let file = |name: &str| new.path().join(format!("rules/yard/{name}.{ending}"));
        std::fs::rename(file("heavy-module"), file("heavy-chest")).unwrap();
    }
    edit(new.path(), "rules/yard/heavy-chest.toml", "yard/heavy-box", "yard/heavy-module");
    edit(new.path(), "pintle.toml", "yard/heavy-module", "yard/heavy-chest");
    let spec = |shop: &Path| shop.join("builds/sound-6x12-round.toml").to_str().unwrap().to_owned();
    let sides = [spec(old.path()), spec(new.path())];
    let ran = pintle_in(new.path(), &["compare", &sides[0], &sides[1], "--format", "json"]);
    let document = json(&ran.out);
    assert_eq!((ran.code, &document["verdict"]), (0, &"no new fault".into()), "{}", ran.out);
    let summary = &document["summary"];
    assert_eq!((&summary["gone"], &summary["gained"]["fault"]["at_or_above_hold"]), (&0.into(), &0.into()));
    assert_eq!(summary["standing"]["fault"]["at_or_above_hold"], 2);
    let changes = document["rulebooks"][0]["changes"].as_array().unwrap();
    let said: Vec<&str> = changes.iter().map(|change| change["sentence"].as_str().unwrap()).collect();
    assert_eq!(said, ["yard/heavy-chest: renamed, before yard/heavy-module"]);
    assert_eq!((&changes[0]["what"], &changes[0]["old"]), (&"renamed".into(), &"yard/heavy-module".into()));
}

#[test]
fn an_id_that_a_rule_had_is_not_given_to_a_new_one() {
    let shop = own();
    let refused = pintle_in(shop.path(), &["new", "rule", "yard/heavy-box"]);
    assert_eq!(refused.code, 2, "{}", refused.out);
    assert!(refused.out.contains("`yard/heavy-box` was the id of `yard/heavy-module`"), "{}", refused.out);
    assert!(!shop.path().join("rules/yard/heavy-box.toml").exists());
    edit(shop.path(), "rules/yard/heavy-module.toml", "yard/heavy-box", "yard/heavy-module");
    let wrong = pintle_in(shop.path(), &["inspect", "--format", "plain", "."]);
    assert_eq!(wrong.code, 2);
    let said = "rules/yard/heavy-module.toml:3:11: input wrong: taken-id: rule `yard/heavy-module` names itself as what it was before";
    assert!(wrong.out.contains(said), "{}", wrong.out);
}
