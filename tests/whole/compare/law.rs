//! The law: compared the other way round, what was gained is lost, and every difference has the other sign.

use std::collections::BTreeMap;

use serde_json::Value;

use crate::tool::{demo_shop, pintle_in};

/// Every signed difference of a document, by what it is of; and what came and went.
#[derive(Debug, Default, PartialEq)]
struct Differences {
    by: BTreeMap<String, f64>,
    fates: BTreeMap<String, String>,
    news: BTreeMap<String, usize>,
}

fn differences(spec: &Value, turned: bool) -> Differences {
    let mut found = Differences::default();
    let sign = if turned { -1.0 } else { 1.0 };
    let mut note = |what: String, by: &Value| {
        if let Some(by) = by["si"].as_f64() {
            assert!(found.by.insert(what.clone(), sign * by).is_none(), "{what} is said twice");
        }
    };
    for figure in spec["weights"].as_array().unwrap() {
        note(format!("weight {} {}", figure["state"], figure["name"]), &figure["by"]);
    }
    for part in spec["parts"].as_array().unwrap() {
        let what = part["part"].as_str().unwrap();
        for step in part["moves"].as_array().unwrap() {
            note(format!("move {what} {}", step["axis"]), &step["by"]);
        }
        for field in part["fields"].as_array().unwrap() {
            note(format!("field {what} {}", field["field"]), &field["by"]);
        }
    }
    for reading in spec["readings"].as_array().unwrap() {
        // An arrangement is called by what is in it, and the worst one of another build is another.
        let subject = &reading["subject"];
        let name = if subject["kind"] == "arrangement" { &Value::Null } else { &subject["name"] };
        let what = format!("{} {} {name} {}", reading["rule"], subject["kind"], reading["what"]);
        note(format!("margin {what}"), &reading["margin_by"]);
    }
    for part in spec["parts"].as_array().unwrap() {
        let fate = match (part["fate"].as_str().unwrap(), turned) {
            ("added", true) => "removed",
            ("removed", true) => "added",
            (fate, _) => fate,
        };
        found.fates.insert(part["part"].as_str().unwrap().to_owned(), fate.to_owned());
    }
    for reading in spec["readings"].as_array().unwrap() {
        let news = match (reading["news"].as_str().unwrap(), turned) {
            ("worse", true) => "better",
            ("better", true) => "worse",
            (same @ ("worse" | "better" | "altered" | "margin" | "otherwise"), _) => same,
            // New and gone turn into each other, and into what cannot be judged.
            _ => "come or gone",
        };
        *found.news.entry(news.to_owned()).or_default() += 1;
    }
    found
}

/// Every two builds of the demo shop, both ways: they differ in everything. In one folder each stands under its own name,
/// in the other under the name of the one so many places before it.
#[test]
fn compared_the_other_way_round_gains_are_losses_and_signs_turn() {
    let shop = demo_shop();
    let mut builds: Vec<String> = std::fs::read_dir(shop.path().join("builds"))
        .unwrap()
        .map(|entry| entry.unwrap().file_name().to_str().unwrap().to_owned())
        .collect();
    builds.sort();
    let json = |old: &str, new: &str| -> Value {
        let ran = pintle_in(shop.path(), &["compare", old, new, "--format", "json"]);
        assert_eq!(ran.err, "");
        serde_json::from_str(&ran.out).unwrap()
    };
    let (mut gained, mut compared, mut pairs) = (0, 0, 0);
    for places in 1..=builds.len() / 2 {
        let other = format!("other-{places}");
        std::fs::create_dir(shop.path().join(&other)).unwrap();
        for (at, name) in builds.iter().enumerate() {
            let from = shop.path().join("builds").join(&builds[(at + places) % builds.len()]);
            std::fs::copy(from, shop.path().join(&other).join(name)).unwrap();
        }
        let (forth, back) = (json("builds", &other), json(&other, "builds"));
        for name in &builds {
            let find = |document: &Value| -> Value {
                let specs = document["specs"].as_array().unwrap();
                let spec =
                    specs.iter().find(|spec| spec["spec"].as_str().unwrap().ends_with(&format!("/{name}")));
                spec.unwrap_or_else(|| panic!("{name} is not told")).clone()
            };
            let (forth, back) = (find(&forth), find(&back));
            let (told, mut turned) = (differences(&forth, false), differences(&back, true));
            for (what, by) in &told.by {
                let other =
                    turned.by.remove(what).unwrap_or_else(|| panic!("{name}: {what} is said one way"));
                assert!((by - other).abs() < 1e-9 * by.abs().max(1.0), "{name}: {what}: {by} and {other}");
                compared += 1;
            }
            assert_eq!(turned.by, BTreeMap::new(), "{name}");
            assert_eq!(told.fates, turned.fates, "{name}");
            assert_eq!(told.news, turned.news, "{name}");
            let (forth, back) = (&forth["summary"], &back["summary"]);
            assert_eq!((&forth["gained"], &forth["lost"]), (&back["lost"], &back["gained"]), "{name}");
            for same in ["standing", "readings", "weights", "parts"] {
                assert_eq!(forth[same], back[same], "{name}: {same}");
            }
            gained += forth["gained"]["fault"]["at_or_above_hold"].as_u64().unwrap();
            pairs += 1;
        }
        let (forth, back) = (&forth["summary"], &back["summary"]);
        assert_eq!((&forth["gained"], &forth["lost"]), (&back["lost"], &back["gained"]), "{places} places");
    }
    assert!(pairs >= 45, "{pairs} pairs");
    assert!(gained > 30 && compared > 1000, "{gained} faults gained, {compared} differences compared");
}
