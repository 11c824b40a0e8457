//! `pintle inspect` on the demo shop: verdicts, exit codes, and the typical mistakes.

use serde_json::Value;

use crate::tool::{demo_shop, edit, pintle, pintle_in};

/// Inspects and reads the JSON.
fn json(paths: &[&str]) -> (i32, Value) {
    let ran = pintle(&[&["inspect", "--format", "json"], paths].concat());
    assert_eq!(ran.err, "");
    (ran.code, serde_json::from_str(&ran.out).unwrap())
}

/// The rules of findings with a verdict, each once, in order.
fn rules(document: &Value, verdict: &str) -> Vec<String> {
    let readings =
        document["specs"].as_array().unwrap().iter().flat_map(|spec| spec["readings"].as_array().unwrap());
    let mut rules: Vec<String> = readings
        .filter(|reading| reading["verdict"] == verdict)
        .map(|reading| reading["rule"].as_str().unwrap().to_owned())
        .collect();
    rules.dedup();
    rules
}

#[test]
fn sound_builds_are_released() {
    for build in ["sound-5x8-round", "sound-6x10-wedge", "sound-6x12-round", "sound-7x14-tandem"] {
        let (code, document) = json(&[&format!("specs/builds/{build}.toml")]);
        assert_eq!(rules(&document, "fault"), Vec::<String>::new(), "{build}");
        assert_eq!(rules(&document, "cannot judge"), Vec::<String>::new(), "{build}");
        assert_eq!(rules(&document, "broken"), Vec::<String>::new(), "{build}");
        assert!(rules(&document, "pass").len() > 20, "{build} was hardly judged");
        assert_eq!((code, &document["verdict"]), (0, &Value::from("released")), "{build}");
    }
}

/// The typical mistakes, each in a build of its own: the rules that must find them, at the least.
#[test]
fn typical_mistakes_are_found() {
    let rows: [(&str, &[&str]); 7] = [
        ("rear-galley-5x8", &["towing/light-tongue", "towing/tongue-lift"]),
        ("closet-cylinder-6x12", &["gas/cylinder-indoors", "gas/unvented-locker", "gas/cylinder-lying"]),
        (
            "tall-rack-6x10",
            &[
                "roof/tall-rack",
                "roof/tent-overhang",
                "roof/tent-off-roof",
                "roof/ladder-short",
                "record/waiver-expired",
            ],
        ),
        ("overload-6x12", &["towing/over-gvwr", "towing/side-heavy", "road/no-brakes"]),
        ("no-brakes-7x14", &["road/no-brakes", "road/missing-lamps"]),
        ("stuffy-5x8", &["air/thin-vents", "air/no-co-alarm", "air/flueless-cooking"]),
        (
            "slid-axle-5x8",
            &["towing/heavy-tongue", "towing/module-swing", "towing/no-axle-window", "spec/wide-tolerance"],
        ),
    ];
    for (build, expected) in rows {
        let (code, document) = json(&[&format!("specs/builds/{build}.toml")]);
        let found = rules(&document, "fault");
        for rule in expected {
            assert!(found.iter().any(|found| found == rule), "{build}: {rule} is not among {found:?}");
        }
        assert_eq!(code, 1, "{build} must be held");
    }
}

#[test]
fn a_missing_mass_is_never_a_pass() {
    // What its quote leaves out is a major fault by itself; nothing critical is found, and much that is cannot be judged.
    let (code, document) = json(&["--hold", "critical", "specs/builds/quote-6x12.toml"]);
    assert_eq!(code, 3);
    assert_eq!(document["verdict"], "cannot judge");
    let readings = document["specs"][0]["readings"].as_array().unwrap();
    let weight_rules = ["towing/over-gvwr", "towing/over-tow-rating", "towing/coupler-class"];
    for rule in weight_rules {
        let verdicts: Vec<&str> = readings
            .iter()
            .filter(|reading| reading["rule"] == rule)
            .map(|reading| reading["verdict"].as_str().unwrap())
            .collect();
        assert!(
            !verdicts.is_empty() && verdicts.iter().all(|verdict| *verdict == "cannot judge"),
            "{rule}: {verdicts:?}"
        );
    }
}

#[test]
fn the_four_exit_codes() {
    let shop = demo_shop();
    let run = |arguments: &[&str]| pintle_in(shop.path(), arguments).code;
    assert_eq!(run(&["inspect", "builds/sound-5x8-round.toml"]), 0);
    assert_eq!(run(&["inspect", "builds/rear-galley-5x8.toml"]), 1);
    assert_eq!(run(&["inspect", "--hold", "critical", "builds/quote-6x12.toml"]), 3);
    assert_eq!(run(&["inspect", "builds/nothing.toml"]), 2);
    assert_eq!(run(&["inspect", "--hold", "grave", "builds"]), 2);
    assert_eq!(run(&["inspekt"]), 2);
    // Held goes before cannot judge; wrong input before both.
    let both = ["builds/quote-6x12.toml", "builds/rear-galley-5x8.toml"];
    assert_eq!(run(&[&["inspect", "--hold", "critical"], &both[..]].concat()), 1);
    edit(shop.path(), "builds/sound-5x8-round.toml", "[build]", "[bild]");
    assert_eq!(run(&["inspect", "builds"]), 2);
}

#[test]
fn the_hold_grade_decides() {
    let shop = demo_shop();
    // A rack that stands too high is minor in the demo shop; the build is otherwise sound.
    edit(
        shop.path(),
        "builds/sound-6x12-round.toml",
        "tag  = \"rack\"",
        "tag  = \"rack\"\nheight = \"7 in\"",
    );
    let run = |hold: &str| {
        pintle_in(shop.path(), &["inspect", "--hold", hold, "builds/sound-6x12-round.toml"]).code
    };
    assert_eq!((run("critical"), run("major"), run("minor"), run("advice")), (0, 0, 1, 1));
}

#[test]
fn one_thread_or_many_print_the_same_bytes() {
    let shop = demo_shop();
    for format in ["plain", "json", "human"] {
        let run = |threads: &str| {
            pintle_in(shop.path(), &["inspect", "--format", format, "--threads", threads, "."]).out
        };
        let one = run("1");
        assert!(one.len() > 1000);
        assert_eq!(one, run("4"), "{format}");
        assert_eq!(one, run("1"), "{format}");
    }
}

/// Figures that stand on counts of people, dates, ratings in words or other parts of the stock list, whose places the
/// calculation does not hand on. Their readings still say what they are of, and where that stands.
const WITHOUT_INPUTS: [&str; 3] = ["sleep/berth-crowded", "sleep/weak-extinguisher", "spec/unit-suspicious"];

#[test]
fn every_reading_says_where_its_inputs_stand() {
    let (_, document) = json(&["specs/builds/sound-6x12-round.toml"]);
    let readings = document["specs"][0]["readings"].as_array().unwrap();
    let measured: Vec<&Value> = readings.iter().filter(|reading| !reading["value"].is_null()).collect();
    assert!(measured.len() > 30);
    for reading in measured {
        let inputs = reading["inputs"].as_array().unwrap();
        let rule = &reading["rule"];
        let bare = WITHOUT_INPUTS.iter().any(|one| rule == one);
        assert_eq!(inputs.is_empty(), bare, "{rule}: {inputs:?}");
        assert!(!bare || reading["subject"]["place"].is_object(), "{rule} has no place either");
        for input in inputs {
            assert!(
                input["at"].is_object() || input["place"].is_object() || input["file"].is_string(),
                "{rule}: {input}"
            );
        }
    }
}
