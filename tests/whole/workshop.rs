//! The workshop of those who write rules: new files, trials, the list of rules, and the cookbook.

use std::io::{BufRead as _, BufReader};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::sync::mpsc::{Receiver, channel};
use std::time::Duration;

use crate::tool::{demo_shop, edit, pintle, pintle_in, top};

fn shop() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("pintle.toml"), "# ours\nshop = \"Ours\"\n").unwrap();
    folder
}

#[test]
fn a_new_pack_and_a_new_rule_pass_at_once() {
    let shop = shop();
    let ran = pintle_in(shop.path(), &["new", "pack", "ours"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{}", ran.out);
    assert!(ran.out.contains("rules/ours/heavy-module.toml"), "{}", ran.out);
    let rulebook = std::fs::read_to_string(shop.path().join("pintle.toml")).unwrap();
    assert_eq!(rulebook, "# ours\nshop = \"Ours\"\npacks = [\"built-in\", \"./rules/ours\"]\n");
    let ran = pintle_in(shop.path(), &["trial", "ours"]);
    assert_eq!(ran.code, 0, "{}", ran.out);
    assert_eq!(ran.out, "1 rule, 2 trials: 2 as expected, 0 not\n");
    let ran = pintle_in(shop.path(), &["new", "rule", "ours/long-lid"]);
    assert_eq!(ran.code, 0, "{}", ran.out);
    let ran = pintle_in(shop.path(), &["trial", "ours", "--coverage"]);
    assert_eq!(ran.code, 0, "{}", ran.out);
    assert!(
        ran.out.contains("lines of scripts run: 3 of 3; rules with a pass and a fault: 2 of 2"),
        "{}",
        ran.out
    );
    assert!(ran.out.ends_with("2 rules, 4 trials: 4 as expected, 0 not\n"), "{}", ran.out);
}

#[test]
fn what_cannot_be_made_is_refused_and_nothing_is_changed() {
    let shop = shop();
    let refused = |arguments: &[&str], said: &str| {
        let ran = pintle_in(shop.path(), arguments);
        assert_eq!(ran.code, 2, "{arguments:?}: {}", ran.out);
        assert!(ran.out.contains(said), "{arguments:?}: {}", ran.out);
    };
    refused(&["new", "pack", "towing"], "`towing` is a built-in pack");
    refused(&["new", "pack", "../ours"], "cannot be a name here");
    refused(&["new", "pack", "Ours"], "cannot be a name here");
    refused(&["new", "rule", "long-lid"], "names no pack");
    refused(&["new", "rule", "ours/long-lid"], "make the pack first: `pintle new pack ours`");
    let rulebook = std::fs::read_to_string(shop.path().join("pintle.toml")).unwrap();
    assert_eq!(rulebook, "# ours\nshop = \"Ours\"\n");
    assert!(!shop.path().join("rules").exists());
    assert_eq!(pintle_in(shop.path(), &["new", "pack", "ours"]).code, 0);
    refused(&["new", "pack", "ours"], "is there already");
    refused(&["new", "rule", "ours/heavy-module"], "there is a rule `ours/heavy-module` already");
    refused(&["new", "rule", "our/long-lid"], "did you mean `ours/long-lid`?");
    let nowhere = tempfile::tempdir().unwrap();
    let ran = pintle_in(nowhere.path(), &["new", "pack", "ours"]);
    assert_eq!(ran.code, 2);
    assert!(ran.out.contains("no pintle.toml stands at or above this folder"), "{}", ran.out);
}

#[test]
fn a_trial_that_fails_shows_what_was_wanted_and_what_was_said() {
    let shop = shop();
    assert_eq!(pintle_in(shop.path(), &["new", "pack", "ours"]).code, 0);
    edit(shop.path(), "rules/ours/heavy-module.toml", "\"129 lb ± 1 lb\"", "\"127 lb ± 1 lb\"");
    let ran = pintle_in(shop.path(), &["trial", "ours"]);
    assert_eq!(ran.code, 1, "{}", ran.out);
    let heads = [
        "rules/ours/heavy-module.toml:23: ours/heavy-module: a tent that is one pound too heavy",
        "  wanted  fault",
    ];
    for head in heads {
        assert!(ran.out.lines().any(|line| line == head), "{head}: {}", ran.out);
    }
    assert!(ran.out.contains("  but     expected fault, found pass"), "{}", ran.out);
    assert!(
        ran.out.contains("  it said pass: mass of removable `tent` is 127 lb ± 1 lb, at most 128 lb (most)"),
        "{}",
        ran.out
    );
    // One fault too many is said as well.
    edit(
        shop.path(),
        "rules/ours/heavy-module.toml",
        "\"127 lb ± 1 lb\"",
        "\"129 lb ± 1 lb\", \"trailer.gvwr\" = \"1500 lb\"",
    );
    let ran = pintle_in(shop.path(), &["trial", "ours"]);
    assert_eq!(ran.code, 1, "{}", ran.out);
    assert!(
        ran.out.contains("it puts in more than its own fault: ") && ran.out.contains("towing/over-gvwr"),
        "{}",
        ran.out
    );
}

#[test]
fn every_rule_of_the_cookbook_comes_out_as_its_trials_say() {
    let ran = pintle(&["trial", "--coverage", "--at", "docs/examples/cookbook"]);
    assert_eq!(ran.code, 0, "{}", ran.out);
    assert!(ran.out.contains("10 rules, "), "{}", ran.out);
    assert!(ran.out.contains("rules with a pass and a fault: 10 of 10"), "{}", ran.out);
    let run = ran.out.split("lines of scripts run: ").nth(1).unwrap().split(';').next().unwrap();
    let (run, all) = run.split_once(" of ").unwrap();
    assert_eq!(run, all, "{}", ran.out);
    // The page shows every one of them.
    let page = std::fs::read_to_string(top().join("docs/src/cookbook.md")).unwrap();
    let rules = std::fs::read_dir(top().join("docs/examples/cookbook/rules/ours")).unwrap();
    for file in rules.map(|entry| entry.unwrap().file_name().into_string().unwrap()) {
        assert!(page.contains(&format!("rules/ours/{file}}}}}")), "{file} is not on the page");
    }
}

/// Trials that are watched, until this goes.
struct Watching {
    child: Child,
    lines: Receiver<String>,
}

impl Watching {
    fn start(folder: &Path) -> Self {
        let mut child = Command::new(env!("CARGO_BIN_EXE_pintle"))
            .args(["trial", "ours", "--watch"])
            .current_dir(folder)
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let said = BufReader::new(child.stdout.take().unwrap()).lines();
        let (tell, lines) = channel();
        std::thread::spawn(move || said.map_while(Result::ok).try_for_each(|line| tell.send(line)));
        Self { child, lines }
    }

    /// Waits until a line says something. What never comes must not wait for ever.
    fn says(&mut self, wanted: &str) {
        let mut heard = Vec::new();
        while let Ok(line) = self.lines.recv_timeout(Duration::from_secs(120)) {
            if line.contains(wanted) {
                return;
            }
            heard.push(line);
        }
        panic!("never said: {wanted}; but {heard:#?}");
    }
}

impl Drop for Watching {
    fn drop(&mut self) {
        self.child.kill().unwrap();
        self.child.wait().unwrap();
    }
}

#[test]
fn trials_run_again_when_a_file_changes() {
    let shop = shop();
    assert_eq!(pintle_in(shop.path(), &["new", "pack", "ours"]).code, 0);
    let mut child = Watching::start(shop.path());
    child.says("1 rule, 2 trials: 2 as expected, 0 not");
    child.says("watching");
    edit(shop.path(), "rules/ours/heavy-module.toml", "value = \"128 lb\"", "value = \"140 lb\"");
    child.says("1 rule, 2 trials: 1 as expected, 1 not");
    edit(shop.path(), "rules/ours/heavy-module.rhai", "item.mass", "item.mas");
    child.says("did you mean `mass`?");
    let nowhere = tempfile::tempdir().unwrap();
    let ran = pintle_in(nowhere.path(), &["trial", "spec/unused-part", "--watch"]);
    assert_eq!(ran.code, 2, "{}{}", ran.out, ran.err);
    assert!(ran.err.contains("there is nothing to watch"), "{}", ran.err);
}

fn listed(folder: &Path, arguments: &[&str]) -> Vec<String> {
    let ran = pintle_in(folder, &[&["rules", "--format", "plain"], arguments].concat());
    assert_eq!(ran.code, 0, "{}{}", ran.out, ran.err);
    ran.out.lines().map(|line| line.split('\t').next().unwrap().to_owned()).collect()
}

#[test]
fn rules_are_listed_by_what_is_asked() {
    let shop = demo_shop();
    let all = listed(shop.path(), &[]);
    assert!(all.len() >= 150, "{}", all.len());
    let some = |arguments: &[&str]| {
        let some = listed(shop.path(), arguments);
        assert!(!some.is_empty() && some.len() < all.len(), "{arguments:?}: {}", some.len());
        assert!(some.iter().all(|rule| all.contains(rule)));
        some
    };
    assert!(some(&["gas"]).iter().all(|rule| rule.starts_with("gas/")));
    assert!(some(&["--source", "49 cfr 393"]).contains(&"anchor/too-few-anchors".to_owned()));
    assert!(
        !some(&["--stage", "quote"]).contains(&"towing/light-tongue".to_owned()),
        "it is judged from the design on"
    );
    assert!(some(&["--stage", "design"]).contains(&"towing/light-tongue".to_owned()));
    assert!(some(&["--grade", "critical"]).contains(&"gas/cylinder-indoors".to_owned()));
    assert!(some(&["--basis", "memory"]).len() < some(&["--basis", "published"]).len());
    assert!(some(&["--place", "us-tx"]).contains(&"road/over-wide".to_owned()));
    let both = some(&["--grade", "critical", "gas", "--source", "675 IAC"]);
    assert!(both.contains(&"gas/unvented-locker".to_owned()), "{both:?}");
    // People see how many there are, and what a place asks.
    let ran = pintle_in(shop.path(), &["rules", "--place", "us-tx"]);
    assert!(
        ran.out.contains("Texas asks:") && ran.out.contains("by what they mostly rest on"),
        "{}",
        ran.out
    );
    let ran = pintle_in(shop.path(), &["rules", "--format", "json", "towing/light-tongue"]);
    let json: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
    assert_eq!(json["rules"][0]["limits"][0]["name"], "least");
    let ran = pintle_in(shop.path(), &["rules", "gass"]);
    assert_eq!(ran.code, 2);
    assert!(ran.out.contains("did you mean `gas`?"), "{}", ran.out);
    let ran = pintle_in(shop.path(), &["rules", "--place", "us-tz"]);
    assert_eq!(ran.code, 2);
    assert!(ran.out.contains("no place is called `us-tz`"), "{}", ran.out);
}

/// A trial puts its own fault into a base and no other is there to hide it: so the bases that are for trials alone are as
/// sound as the demo's sound builds.
#[test]
fn the_bases_that_are_for_trials_alone_have_no_fault() {
    let shop = demo_shop();
    let mut count = 0;
    for base in std::fs::read_dir(top().join("rules/bases")).unwrap() {
        let base = base.unwrap();
        let spec = shop.path().join("builds").join(base.file_name());
        std::fs::copy(base.path(), &spec).unwrap();
        let ran = pintle_in(shop.path(), &["inspect", spec.to_str().unwrap(), "--format", "json"]);
        let document: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
        let readings = document["specs"][0]["readings"].as_array().unwrap();
        let faults: Vec<_> = readings.iter().filter(|reading| reading["verdict"] == "fault").collect();
        assert!(faults.is_empty() && readings.len() > 100, "{:?}: {faults:?}", base.file_name());
        count += 1;
    }
    assert!(count > 0);
}
