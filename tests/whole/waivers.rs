//! Waivers on a day, and the backlog of an old collection.

use std::path::Path;

use serde_json::Value;

use crate::tool::{copy, demo_shop, edit, pintle_in};

const SPEC: &str = "builds/sound-6x12-round.toml";

/// The demo shop with one build, whose tongue is heavier than the shop now likes; under those packs that the tests are about.
fn heavy() -> tempfile::TempDir {
    let shop = demo_shop();
    for entry in std::fs::read_dir(shop.path().join("builds")).unwrap() {
        let path = entry.unwrap().path();
        if !path.ends_with("sound-6x12-round.toml") {
            std::fs::remove_file(path).unwrap();
        }
    }
    let text = "shop  = \"Ours\"\nstock = [\"stock\"]\npacks = [\"towing\", \"gas\", \"record\"]\n\n[[limit]]\nrule = \"towing/heavy-tongue\"\nlimit = \"most\"\n\
                value = \"12 %\"\nreason = \"small wagons\"\n";
    std::fs::write(shop.path().join("pintle.toml"), text).unwrap();
    shop
}

fn add(folder: &Path, file: &str, more: &str) {
    let path = folder.join(file);
    let text = std::fs::read_to_string(&path).unwrap_or_default();
    std::fs::write(path, text + more).unwrap();
}

const WAIVER: &str = "\n[[waiver]]\nrule = \"towing/heavy-tongue\"\nbuilds = [\"OM-112\"]\nkind = \"deviation\"\n\
                      until = \"2026-12-31\"\nwho = \"the foreman\"\nreason = \"sold with a truck\"\n";

/// How many readings of a document are so.
fn count(document: &Value, is: impl Fn(&Value) -> bool) -> usize {
    document["specs"][0]["readings"].as_array().unwrap().iter().filter(|reading| is(reading)).count()
}

#[test]
fn a_waived_fault_is_shown_in_every_form_and_holds_nothing() {
    let shop = heavy();
    let inspect =
        |more: &[&str]| pintle_in(shop.path(), &[&["inspect", SPEC, "--date", "2026-12-31"], more].concat());
    assert_eq!(inspect(&[]).code, 1);
    add(shop.path(), "pintle.toml", WAIVER);
    let plain = inspect(&["--format", "plain"]);
    assert_eq!(plain.code, 0, "{}", plain.out);
    let line = plain.out.lines().find(|line| line.contains("towing/heavy-tongue")).unwrap();
    assert!(line.contains(": major, waived: towing/heavy-tongue: tongue share of road state"), "{line}");
    assert!(line.contains("; waived until 2026-12-31 by the foreman (deviation, pintle.toml:"), "{line}");
    assert!(plain.out.contains("0 faults, 3 waived (3 major),"), "{}", plain.out);
    assert!(plain.out.contains("\nreleased: no finding at or above major but what is accepted: 3 waived\n"));
    let human = inspect(&[]);
    assert!(human.out.contains("☞ major, waived: too much weight on the tongue"), "{}", human.out);
    assert!(human.out.contains("help: waived until 2026-12-31 by the foreman"), "{}", human.out);
    let document: Value = serde_json::from_str(&inspect(&["--format", "json"]).out).unwrap();
    let waived = |reading: &Value| {
        reading["waived"]["who"] == "the foreman"
            && reading["verdict"] == "fault"
            && reading["backlog"].is_null()
    };
    assert_eq!(count(&document, waived), 3);
    assert_eq!(
        (&document["summary"]["waived"]["major"], &document["summary"]["fault"]["major"]),
        (&3.into(), &0.into())
    );
    assert_eq!(document["verdict"], "released");
    // Nothing is waived by the rules' own trials.
    let tried = pintle_in(shop.path(), &["trial", "towing/heavy-tongue", "--date", "2026-12-31"]);
    assert!(tried.code == 1 && tried.out.contains("expected pass, found fault"), "{}", tried.out);
}

#[test]
fn the_day_after_its_last_a_waiver_holds_nothing_back() {
    let shop = heavy();
    add(shop.path(), "pintle.toml", WAIVER);
    let ran = pintle_in(shop.path(), &["--date", "2027-01-01", "inspect", "--format", "plain", SPEC]);
    assert_eq!(ran.code, 1, "{}", ran.out);
    let line = ran.out.lines().find(|line| line.contains("record/waiver-expired")).unwrap();
    assert!(line.starts_with("pintle.toml:") && line.contains(": minor: "), "{line}");
    for bad in ["2026-02-30", "yesterday", "2026-1-1", ""] {
        let ran = pintle_in(shop.path(), &["inspect", "--date", bad, SPEC]);
        assert_eq!(ran.code, 2, "{bad}");
        assert!(ran.err.contains("write year, month and day, such as 2026-12-31"), "{}", ran.err);
    }
    edit(shop.path(), "pintle.toml", "2026-12-31", "2026-02-30");
    let ran = pintle_in(shop.path(), &["inspect", "--format", "plain", SPEC]);
    assert_eq!(ran.code, 2);
    assert!(ran.out.contains("bad-date: `2026-02-30` is no day of the calendar"), "{}", ran.out);
}

#[test]
fn what_is_waived_now_is_less_bad_and_what_no_longer_is_is_new() {
    let (old, new) = (heavy(), heavy());
    add(new.path(), "pintle.toml", WAIVER);
    let compare = |one: &Path, other: &Path, form: &str| {
        let sides = [one.to_str().unwrap(), other.to_str().unwrap()];
        pintle_in(one, &["compare", sides[0], sides[1], "--date", "2026-11-26", "--format", form])
    };
    let waived = compare(old.path(), new.path(), "plain");
    assert_eq!(waived.code, 0, "{}", waived.out);
    assert!(waived.out.contains(": better: major, waived: towing/heavy-tongue: "), "{}", waived.out);
    for form in ["human", "markdown", "json"] {
        let ran = compare(old.path(), new.path(), form);
        assert!(ran.code == 0 && ran.out.contains("waived"), "{form}: {}", ran.out);
        let ran = compare(new.path(), old.path(), form);
        assert!(ran.code == 1 && ran.out.contains("waived"), "{form}: {}", ran.out);
    }
    // The rulebook's own change is told beside what it does.
    let said = "towing/heavy-tongue: waiver in build `OM-112` added, deviation by the foreman until 2026-12-31: sold with a truck";
    assert!(waived.out.contains(&format!(": rulebook: {said}\n")), "{}", waived.out);
    let back = compare(new.path(), old.path(), "plain");
    assert!(back.out.contains(&said.replace(" added,", " removed,")), "{}", back.out);
    let document = |one: &Path, other: &Path| -> Value {
        serde_json::from_str(&compare(one, other, "json").out).unwrap()
    };
    let changes = document(old.path(), new.path())["rulebooks"][0]["changes"].clone();
    assert_eq!(changes.as_array().unwrap().len(), 1, "{changes:#}");
    assert_eq!((&changes[0]["what"], &changes[0]["sentence"]), (&"waiver".into(), &said.into()));
    assert_eq!((&changes[0]["builds"][0], &changes[0]["item"]), (&"OM-112".into(), &Value::Null));
    add(old.path(), "pintle.toml", &WAIVER.replace("2026-12-31", "2027-01-31"));
    let shortened = compare(old.path(), new.path(), "markdown");
    assert!(
        shortened.out.contains("last day from <code>2027-01-31</code> to <code>2026-12-31</code>"),
        "{}",
        shortened.out
    );
    // A waiver in the rulebook of one build is one too.
    add(new.path(), "builds/sound-6x12-round.pintle.toml", &WAIVER.replace("builds = [\"OM-112\"]\n", ""));
    let own = compare(old.path(), new.path(), "plain");
    let said =
        "towing/heavy-tongue: waiver in one build, by its own rulebook added, deviation by the foreman";
    assert!(own.out.contains(said), "{}", own.out);
}

#[test]
fn an_old_collection_is_taken_in_and_its_backlog_only_shrinks() {
    let shop = heavy();
    let run = |arguments: &[&str]| pintle_in(shop.path(), arguments);
    let refused = run(&["backlog", "record"]);
    assert_eq!(refused.code, 2);
    assert!(refused.err.contains("names no backlog"), "{}", refused.err);
    edit(
        shop.path(),
        "pintle.toml",
        "stock = [\"stock\"]",
        "stock = [\"stock\"]\nbacklog = \"backlog.toml\"",
    );
    let missing = run(&["inspect", "--format", "plain", "."]);
    assert!(
        missing.code == 2 && missing.out.contains("there is no backlog `backlog.toml`"),
        "{}",
        missing.out
    );
    assert_eq!(run(&["backlog", "shrink"]).code, 2);
    let recorded = run(&["backlog", "record"]);
    assert_eq!(
        (recorded.code, recorded.out.as_str()),
        (0, "recorded 3 findings of 1 spec in backlog.toml\n")
    );
    let list = std::fs::read_to_string(shop.path().join("backlog.toml")).unwrap();
    let items = "items = [\"arrangement\", \"state.outward, all aboard\", \"state.tent left at home\"]\n";
    assert!(list.ends_with(items), "{list}");
    let ran = run(&["inspect", "."]);
    assert_eq!(ran.code, 0, "{}", ran.out);
    assert!(ran.out.contains("in the backlog, of builds/sound-6x12-round.toml:\n"), "{}", ran.out);
    assert!(ran.out.contains("0 faults, 3 in the backlog (3 major)"), "{}", ran.out);
    assert_eq!(run(&["backlog", "record"]).code, 0, "nothing new, nothing gone");
    // A new fault holds, and is not listed after the fact.
    let side =
        "\n[[limit]]\nrule = \"towing/side-heavy\"\nlimit = \"most\"\nvalue = \"0.01 %\"\nreason = \"a\"\n";
    add(shop.path(), "pintle.toml", side);
    let new = run(&["inspect", "--format", "plain", "."]);
    assert!(new.code == 1 && new.out.contains(": major: towing/side-heavy: "), "{}", new.out);
    let grown = run(&["backlog", "record"]);
    assert_eq!(grown.code, 2);
    assert!(
        grown.err.contains("it can only shrink") && grown.err.contains("towing/side-heavy on"),
        "{}",
        grown.err
    );
    assert_eq!(
        std::fs::read_to_string(shop.path().join("backlog.toml")).unwrap(),
        list,
        "nothing was written"
    );
    edit(shop.path(), "pintle.toml", side, "");
    // What is mended must come off the list.
    edit(shop.path(), "pintle.toml", "12 %", "12.5 %");
    let stale = run(&["inspect", "--format", "plain", "."]);
    assert_eq!(stale.code, 1, "{}", stale.out);
    assert!(stale.out.contains("backlog.toml:8:25: major: record/backlog-stale: "), "{}", stale.out);
    let shown = run(&["backlog", "show"]);
    assert!(
        shown.out.contains("OM-112: towing/heavy-tongue on arrangement, fault: still found\n"),
        "{}",
        shown.out
    );
    assert!(shown.out.contains("2 no longer found: `pintle backlog shrink` takes them off"), "{}", shown.out);
    let shrunk = run(&["backlog", "shrink"]);
    assert_eq!(shrunk.code, 0, "{}", shrunk.err);
    assert!(shrunk.out.ends_with("left 1 finding of 1 spec in backlog.toml\n"), "{}", shrunk.out);
    assert_eq!(run(&["inspect", "."]).code, 0);
    let left = std::fs::read_to_string(shop.path().join("backlog.toml")).unwrap();
    assert!(left.ends_with("items = [\"arrangement\"]\n"), "{left}");
}

#[test]
fn what_can_cost_a_life_is_never_listed_and_a_spec_that_cannot_be_read_stops_all() {
    let shop = heavy();
    copy(&crate::tool::top().join("specs/builds"), &shop.path().join("builds"));
    edit(
        shop.path(),
        "pintle.toml",
        "stock = [\"stock\"]",
        "stock = [\"stock\"]\nbacklog = \"backlog.toml\"",
    );
    let recorded = pintle_in(shop.path(), &["backlog", "record"]);
    assert_eq!(recorded.code, 0, "{}", recorded.err);
    assert!(recorded.out.contains("findings of rules that cannot be waived are not listed, and count"));
    let list = std::fs::read_to_string(shop.path().join("backlog.toml")).unwrap();
    assert!(!list.contains("gas/cylinder-indoors") && list.contains("finds = \"cannot judge\""), "{list}");
    assert!(!list.lines().any(|line| line.contains(":1")), "no line numbers");
    let ran = pintle_in(shop.path(), &["inspect", "--format", "plain", "."]);
    let open: Vec<&str> = ran.out.lines().filter(|line| line.contains(": critical: ")).collect();
    assert!(ran.code == 1 && !open.is_empty(), "{}", ran.out);
    assert!(!ran.out.contains(": major: "), "all else is listed: {}", ran.out);
    std::fs::write(shop.path().join("builds/broken.toml"), "[build]\nnumber = \n").unwrap();
    for what in ["record", "shrink", "show"] {
        let ran = pintle_in(shop.path(), &["backlog", what]);
        assert_eq!(ran.code, 2, "{what}");
        assert!(ran.err.contains("builds/broken.toml"), "{}", ran.err);
    }
    assert_eq!(std::fs::read_to_string(shop.path().join("backlog.toml")).unwrap(), list);
}
