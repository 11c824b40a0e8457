//! What no state of a spec names: the worst of every arrangement, as the tool says it of the demo shop.

use serde_json::Value;

use crate::tool::{Ran, demo_shop, edit, pintle, pintle_in};

/// The readings of the one spec that was inspected.
fn readings(ran: &Ran) -> Vec<Value> {
    let document: Value = serde_json::from_str(&ran.out).unwrap();
    document["specs"][0]["readings"].as_array().unwrap().clone()
}

fn of<'r>(readings: &'r [Value], verdict: &str) -> Vec<&'r Value> {
    readings.iter().filter(|reading| reading["verdict"] == verdict).collect()
}

fn of_pack<'r>(readings: Vec<&'r Value>, pack: &str) -> Vec<&'r Value> {
    readings.into_iter().filter(|reading| reading["rule"].as_str().unwrap().starts_with(pack)).collect()
}

/// Grade, rule, kind of subject and its name.
fn told(reading: &Value) -> [&str; 4] {
    let subject = &reading["subject"];
    [&reading["grade"], &reading["rule"], &subject["kind"], &subject["name"]]
        .map(|word| word.as_str().unwrap())
}

/// Rules on the tongue share judge the least and the greatest of all arrangements, so their readings hold both.
#[test]
fn sound_builds_keep_their_tongue_share_in_every_arrangement() {
    for build in ["sound-5x8-round", "sound-6x10-wedge", "sound-6x12-round", "sound-7x14-tandem"] {
        let ran = pintle(&["inspect", "--format", "json", &format!("specs/builds/{build}.toml")]);
        let readings = readings(&ran);
        for rule in ["towing/light-tongue", "towing/heavy-tongue"] {
            let of_rule = readings.iter().filter(|reading| reading["rule"] == rule);
            let arranged = of_rule.clone().filter(|reading| reading["subject"]["kind"] == "arrangement");
            assert_eq!(arranged.count(), 1, "{build}: {rule} is judged at one end of its figure");
            for reading in of_rule {
                let share = reading["value"]["si"].as_f64().unwrap();
                assert!((0.106..=0.134).contains(&share), "{build}: {}", reading["sentence"]);
            }
        }
        let window = readings.iter().filter(|reading| reading["rule"] == "towing/no-axle-window");
        assert_eq!(
            window.map(|reading| &reading["verdict"]).collect::<Vec<_>>(),
            ["pass", "pass"],
            "{build}"
        );
    }
}

/// Both states that its owner wrote down are right; the arrangement that nobody wrote down is not.
#[test]
fn a_slid_axle_shows_in_no_state() {
    let ran = pintle(&["inspect", "--format", "json", "specs/builds/slid-axle-5x8.toml"]);
    assert_eq!(ran.code, 1);
    let readings = readings(&ran);
    let heavy = "galley out, fresh empty, grey empty, no bags, no food, no pans";
    let of_towing = of_pack(of(&readings, "fault"), "towing/");
    let faults: Vec<[&str; 4]> = of_towing.iter().copied().map(told).collect();
    assert_eq!(
        faults,
        [
            ["major", "towing/heavy-tongue", "arrangement", heavy],
            ["advice", "towing/module-swing", "build", ""],
            ["major", "towing/no-axle-window", "build", ""],
        ]
    );
    let [heavy_tongue, swing, window] = of_towing[..] else { panic!("three faults") };
    let sentence = heavy_tongue["sentence"].as_str().unwrap();
    assert!(
        sentence.contains("` is 18.5 % ±") && sentence.ends_with(", more than 14 % (most)"),
        "{sentence}"
    );
    // Both builds' rules name the two arrangements that exclude each other.
    let full = "everything aboard, fresh full, grey full, bags 70 lb, food 20 lb, pans 15 lb";
    for reading in [swing, window] {
        let remedy = reading["remedy"].as_str().unwrap();
        assert!(remedy.contains(heavy) && remedy.contains(full), "{remedy}");
    }
    let of_states = readings.iter().filter(|reading| {
        let kind = &reading["subject"]["kind"];
        kind == "road state" || kind == "state"
    });
    let verdicts: Vec<&Value> = of_states.map(|reading| &reading["verdict"]).collect();
    assert!(verdicts.len() > 20, "only {} readings of states", verdicts.len());
    assert!(verdicts.iter().all(|verdict| *verdict == "pass"), "{verdicts:?}");
}

/// One change to a sound build, which no state of it shows: the rule that finds it, and in which arrangement.
#[test]
fn what_no_state_names_is_found() {
    let rows = [
        // Five times the chairs, though every state still carries one load of them.
        (
            "sound-6x12-round",
            "mass       = \"45 lb ± 2 lb\"",
            "mass       = \"225 lb ± 2 lb\"",
            "towing/light-tongue",
            "everything out, fresh empty, grey full, no bags, no food, no pans, chairs 225 lb",
        ),
        // The grey tank at the rear door, and no word of draining it.
        (
            "sound-7x14-tandem",
            "at      = { axle = \"0 in\", ground = \"11 in\" }\non_road = { least = \"0 %\", most = \"0 %\" }",
            "at      = { rear = \"2 in\", ground = \"11 in\" }",
            "towing/light-tongue",
            "galley out, right of the floor: none, fresh empty, reserve empty, grey full, bags 150 lb, no food, no bikes",
        ),
        // The cylinder on the tongue comes off, and with it what held the balance.
        (
            "sound-6x12-round",
            "zone = \"tongue\"",
            "zone = \"tongue\"\nremovable = true",
            "towing/light-tongue",
            "everything out, fresh empty, grey full, no bags, no food, no pans, chairs 45 lb",
        ),
    ];
    for (build, from, to, rule, name) in rows {
        let shop = demo_shop();
        let spec = format!("builds/{build}.toml");
        edit(shop.path(), &spec, from, to);
        let readings = readings(&pintle_in(shop.path(), &["inspect", "--format", "json", &spec]));
        let of_towing = of_pack(of(&readings, "fault"), "towing/");
        let faults: Vec<[&str; 4]> = of_towing.into_iter().map(told).collect();
        let found = faults.iter().any(|[_, one @ ..]| *one == [rule, "arrangement", name]);
        assert!(found, "{build}: {rule} of `{name}` is not among {faults:#?}");
        let on_a_state = faults.iter().any(|[.., kind, _]| *kind == "road state" || *kind == "state");
        assert!(!on_a_state, "{build}: {faults:#?}");
    }
}

/// Of an either-or group one rides: without the group the lumber rides beside the dinette.
#[test]
fn an_either_or_group_keeps_one_at_home() {
    let shop = demo_shop();
    let spec = "builds/sound-6x10-wedge.toml";
    let most = || {
        let readings = readings(&pintle_in(shop.path(), &["inspect", "--format", "json", spec]));
        let of_rule = readings.iter().filter(|reading| reading["rule"] == "towing/over-gvwr");
        let arranged = of_rule.filter(|reading| reading["subject"]["kind"] == "arrangement");
        let [most] = arranged.collect::<Vec<_>>()[..] else { panic!("one heaviest arrangement") };
        let name = most["subject"]["name"].as_str().unwrap().to_owned();
        (name, most["value"]["value"].as_f64().unwrap())
    };
    let (name, grouped) = most();
    assert!(name.contains("left of the floor: lumber 350 lb"), "{name}");
    let group = "[[either]]\nname = \"left of the floor\"\nof   = [\"dinette\", \"lumber\"]\nnone = true\n";
    edit(shop.path(), spec, group, "");
    let (name, free) = most();
    assert!(
        name.starts_with("departure: everything aboard, can full") && name.contains("lumber 350 lb"),
        "{name}"
    );
    assert!((free - grouped - 95.0).abs() < 1e-6, "the dinette's 95 lb on top: {grouped} lb, then {free} lb");
}
