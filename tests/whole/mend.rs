//! `pintle inspect --remedies` and `pintle mend`: what is shown, what is written, and what is refused.

use serde_json::Value;

use crate::tool::{Ran, demo_shop, edit, pintle_in, top};

/// Faults that sums, moves and stock parts put right, and faults that nothing offers a change for.
const BUILD: &str = "builds/tall-rack-6x10.toml";

fn json(ran: &Ran) -> Value {
    assert_eq!(ran.err, "");
    serde_json::from_str(&ran.out).unwrap()
}

fn readings(document: &Value) -> Vec<&Value> {
    document["specs"][0]["readings"].as_array().unwrap().iter().collect()
}

/// Numbers of remedies that stand with readings.
fn numbers(document: &Value) -> Vec<usize> {
    let remedies = readings(document)
        .into_iter()
        .flat_map(|reading| reading["remedies"].as_array().into_iter().flatten());
    let mut numbers: Vec<usize> =
        remedies.map(|remedy| usize::try_from(remedy["number"].as_u64().unwrap()).unwrap()).collect();
    numbers.sort_unstable();
    numbers.dedup();
    numbers
}

/// The first and the last remedy of a build, taken with the built program on a fresh copy of the shop: the file then reads
/// as was promised, figure by figure, and only what the diff shows has changed. Every other remedy goes through the same
/// writer in the tests of `pintle` itself.
#[test]
fn what_is_taken_is_what_was_promised() {
    let file = "builds/tall-rack-6x10.toml";
    let shop = demo_shop();
    let before = json(&pintle_in(shop.path(), &["inspect", "--format", "json", file, "--remedies"]));
    let all = numbers(&before);
    let (mut judged, mut measured) = (0, 0);
    for number in [all[0], all[all.len() - 1]] {
        let shop = demo_shop();
        let old = std::fs::read_to_string(shop.path().join(file)).unwrap();
        let taken = number.to_string();
        let shown = pintle_in(shop.path(), &["mend", file, "--take", &taken, "--dry-run"]);
        assert_eq!((shown.code, shown.err.as_str()), (0, ""));
        assert!(shown.out.ends_with("nothing was written\n"));
        assert_eq!(std::fs::read_to_string(shop.path().join(file)).unwrap(), old, "a dry run writes nothing");
        let ran = pintle_in(shop.path(), &["mend", file, "--take", &taken]);
        assert!(ran.code == 0 || ran.code == 1, "{number}: {}", ran.err);
        let new = std::fs::read_to_string(shop.path().join(file)).unwrap();
        let marked = |mark: char| -> Vec<&str> {
            let lines = shown.out.lines().filter(|line| line.starts_with(mark));
            lines
                .filter(|line| !line.starts_with("+++") && !line.starts_with("---"))
                .filter_map(|line| line.get(1..))
                .collect()
        };
        assert!(
            marked('+').iter().all(|line| new.lines().any(|held| held == *line)),
            "{number}: {}",
            shown.out
        );
        let unchanged = old.lines().filter(|line| new.lines().any(|held| held == *line)).count();
        assert!(unchanged + marked('-').len() >= old.lines().count(), "{number}: more changed than shown");
        let after = json(&pintle_in(shop.path(), &["inspect", "--format", "json", file]));
        for reading in readings(&before) {
            let mut remedies = reading["remedies"].as_array().into_iter().flatten();
            let Some(remedy) = remedies.find(|remedy| remedy["number"] == number) else { continue };
            if reading["subject"]["kind"] == "tight reading" {
                continue;
            }
            let arranged = reading["subject"]["kind"] == "arrangement";
            let same = |held: &&Value| {
                held["rule"] == reading["rule"]
                    && (arranged || held["subject"]["name"] == reading["subject"]["name"])
            };
            let found: Vec<&Value> = readings(&after).into_iter().filter(same).collect();
            // What is judged without a figure is put right when nothing of it is a fault any more.
            if remedy["after"].is_null() {
                judged += 1;
                assert!(
                    found.iter().all(|held| held["verdict"] != "fault"),
                    "{number}: {} is still a fault",
                    reading["rule"]
                );
                continue;
            }
            measured += 1;
            let values: Vec<&Value> = found.iter().map(|held| &held["value"]["si"]).collect();
            assert!(
                values.contains(&&remedy["after"]["si"]),
                "{number}: {} of {values:?}",
                remedy["after"]["si"]
            );
        }
    }
    assert!(judged > 0 && measured > 2, "{judged} judged, {measured} measured");
}

#[test]
fn remedies_are_numbered_alike_everywhere() {
    let shop = demo_shop();
    let list = pintle_in(shop.path(), &["mend", BUILD]);
    assert_eq!((list.code, list.err.as_str()), (0, ""));
    let listed: Vec<usize> = list.out.lines().filter_map(|line| line.get(..3)?.trim().parse().ok()).collect();
    assert!(listed.len() >= 2, "{}", list.out);
    assert_eq!(listed, (1..=listed.len()).collect::<Vec<_>>());
    let document = json(&pintle_in(shop.path(), &["inspect", "--remedies", "--format", "json", BUILD]));
    let in_json = numbers(&document);
    assert!(in_json.iter().all(|number| listed.contains(number)), "{in_json:?}");
    let plain = pintle_in(shop.path(), &["inspect", "--remedies", "--format", "plain", BUILD]);
    for number in in_json {
        let told = format!(": remedy {number}: ");
        assert!(plain.out.lines().any(|line| line.contains(&told)), "plain output has no{told}");
    }
    // Every fault has a remedy's line or one that says why there is none.
    let faults = readings(&document).into_iter().filter(|reading| reading["verdict"] == "fault").count();
    let lines =
        plain.out.lines().filter(|line| line.contains(": remedy ") || line.contains(": no remedy: ")).count();
    assert!(lines >= faults, "{lines} lines for {faults} faults");
}

#[test]
fn without_being_asked_nothing_is_tried() {
    let shop = demo_shop();
    let plain = pintle_in(shop.path(), &["inspect", "--format", "plain", BUILD]);
    assert!(!plain.out.contains("remedy"), "{}", plain.out);
    let document = json(&pintle_in(shop.path(), &["inspect", "--format", "json", BUILD]));
    assert!(readings(&document).iter().all(|reading| reading["remedies"].is_null()));
}

#[test]
fn what_cannot_be_taken_is_said_and_nothing_is_written() {
    let shop = demo_shop();
    let old = std::fs::read_to_string(shop.path().join(BUILD)).unwrap();
    let rows: [(&[&str], &str, &str); 5] = [
        (&[BUILD, "--take", "99"], "has no remedy 99", "its remedies are 1 to"),
        (&[BUILD, "--take", "0"], "has no remedy 0", "its remedies are 1 to"),
        (&["builds"], "`builds` is a folder", "name one spec"),
        (&["stock/gas.toml", "--take", "1"], "belongs to the stock list", "restates in the spec"),
        (&["builds/nothing.toml", "--take", "1"], "there is no such file", ""),
    ];
    for (arguments, message, help) in rows {
        let ran = pintle_in(shop.path(), &[&["mend"], arguments].concat());
        assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{arguments:?}");
        assert!(ran.err.contains(message) && ran.err.contains(help), "{arguments:?}: {}", ran.err);
    }
    assert_eq!(std::fs::read_to_string(shop.path().join(BUILD)).unwrap(), old);
    edit(shop.path(), BUILD, "[build]", "[bild]");
    let ran = pintle_in(shop.path(), &["mend", BUILD, "--take", "1"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("`bild`"), "{}", ran.err);
    let ran = pintle_in(shop.path(), &["mend", BUILD, "--dry-run"]);
    assert_eq!(ran.code, 2, "--dry-run shows one remedy: {}", ran.err);
}

#[test]
fn a_mended_spec_is_inspected_anew() {
    let shop = demo_shop();
    let file = "builds/no-brakes-7x14.toml";
    // Its plug has no pin for brakes, and brakes that nothing feeds are no remedy.
    let wired = "functions = [\"earth\", \"tail\", \"stop\", \"left turn\", \"right turn\"";
    let without = pintle_in(shop.path(), &["mend", file]).out;
    assert!(
        !without
            .lines()
            .any(|line| line.get(..3).is_some_and(|number| number.trim().parse::<usize>().is_ok()))
    );
    edit(shop.path(), file, &format!("{wired}]"), &format!("{wired}, \"brake\"]"));
    let list = pintle_in(shop.path(), &["mend", file]);
    let brakes = list.out.lines().find(|line| line.contains("fit electric brakes")).unwrap();
    let number = brakes.get(..3).unwrap().trim();
    let ran = pintle_in(shop.path(), &["mend", file, "--take", number]);
    assert_eq!(ran.err, "");
    assert!(ran.out.contains("+brakes") && ran.out.contains("breakaway = true"), "{}", ran.out);
    assert!(ran.out.contains(&format!("written into {file}; it is now inspected anew")), "{}", ran.out);
    // The lamps are still missing: the build is held, and the exit code says so.
    assert!(ran.out.contains("road/missing-lamps") && !ran.out.contains("road/no-brakes"), "{}", ran.out);
    assert_eq!(ran.code, 1);
}

/// The page shows what is so: each transcript on it is the tool's own.
#[test]
fn the_transcripts_in_the_book_are_real() {
    let page = std::fs::read_to_string(top().join("docs/src/remedies.md")).unwrap();
    let mut shown = 0;
    for block in page.split("```text\n$ pintle ").skip(1) {
        let block = block.split_once("\n```").unwrap().0;
        let (command, expected) = block.split_once('\n').unwrap();
        let ran = pintle_in(&top(), &command.split(' ').collect::<Vec<_>>());
        assert_eq!(ran.out.trim_end(), expected, "`pintle {command}`");
        shown += 1;
    }
    assert_eq!(shown, 2);
}
