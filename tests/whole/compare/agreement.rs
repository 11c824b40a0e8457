//! The comparison agrees with what `inspect` and `weigh` say of each version by itself.

use std::collections::{BTreeMap, BTreeSet};

use serde_json::Value;

use super::{AHEAD, BEHIND, Repository, SOUND};
use crate::tool::pintle_in;

type Key = (String, String, String, String);

fn key(reading: &Value, name: &Value) -> Key {
    let text = |value: &Value| value.as_str().unwrap().to_owned();
    (text(&reading["rule"]), text(&reading["subject"]["kind"]), text(name), text(&reading["what"]))
}

/// The readings of `pintle inspect`, by what they are of.
fn inspected(repository: &Repository, spec: &str) -> BTreeMap<Key, Value> {
    let ran = pintle_in(repository.path(), &["inspect", "--format", "json", spec]);
    let document: Value = serde_json::from_str(&ran.out).unwrap();
    let readings = document["specs"][0]["readings"].as_array().unwrap().clone();
    let count = readings.len();
    let keyed: BTreeMap<Key, Value> =
        readings.into_iter().map(|one| (key(&one, &one["subject"]["name"]), one)).collect();
    assert_eq!(keyed.len(), count, "no two readings of this spec are of the same thing");
    keyed
}

/// The weights of `pintle weigh`, by state and name; SI.
fn weighed(repository: &Repository, spec: &str) -> BTreeMap<(String, String), f64> {
    let ran = pintle_in(repository.path(), &["weigh", "--format", "json", spec]);
    let document: Value = serde_json::from_str(&ran.out).unwrap();
    let spec = &document["specs"][0];
    let mut found = BTreeMap::new();
    let mut put = |state: &str, name: &str, value: &Value| {
        found.insert((state.to_owned(), name.to_owned()), value["si"].as_f64().unwrap());
    };
    put("", "unloaded", &spec["as_built"]["unloaded"]);
    put("", "cargo capacity", &spec["as_built"]["cargo_capacity"]);
    for state in spec["states"].as_array().unwrap() {
        let called =
            format!("{} state `{}`", state["use"].as_str().unwrap(), state["name"].as_str().unwrap());
        for (name, value) in [
            ("gross", &state["gross"]),
            ("tongue", &state["tongue"]),
            ("tongue share", &state["tongue_share"]),
            ("axles", &state["axles"]),
            ("left", &state["left"]),
            ("right", &state["right"]),
            ("cg behind the ball", &state["cg"]["x"]),
            ("cg right of the centreline", &state["cg"]["y"]),
            ("cg above the ground", &state["cg"]["z"]),
        ] {
            put(&called, name, value);
        }
    }
    found
}

#[test]
fn readings_and_weights_are_those_of_each_version() {
    let repository = Repository::new();
    let (readings, weights) = (inspected(&repository, SOUND), weighed(&repository, SOUND));
    repository.edit(SOUND, AHEAD, BEHIND);
    repository.edit("specs/pintle.toml", "value  = \"14 %\"", "value  = \"13 %\"");
    let (now, weights_now) = (inspected(&repository, SOUND), weighed(&repository, SOUND));
    let (_, document) = repository.json(&["--since", "HEAD", SOUND]);
    let spec = &document["specs"][0];

    let faults = |all: &BTreeMap<Key, Value>| -> BTreeSet<Key> {
        all.iter().filter(|(_, one)| one["verdict"] == "fault").map(|(key, _)| key.clone()).collect()
    };
    let listed = |news: &str| -> BTreeSet<Key> {
        let all = spec["readings"].as_array().unwrap().iter().filter(|one| one["news"] == news);
        all.map(|one| key(one, &one["subject"]["name"])).collect()
    };
    let (before, after) = (faults(&readings), faults(&now));
    assert!(!after.is_empty());
    // The name of an arrangement changes with it: a fault on one is new where nothing of its sort was a fault.
    let only = |these: &BTreeSet<Key>, those: &BTreeSet<Key>| -> BTreeSet<Key> {
        let of_sort = |(rule, kind, _, what): &Key| {
            kind == "arrangement" && those.iter().any(|one| (&one.0, &one.3) == (rule, what))
        };
        these.difference(those).filter(|key| !of_sort(key)).cloned().collect()
    };
    assert_eq!(listed("new fault"), only(&after, &before));
    assert_eq!(listed("gone"), only(&before, &after));

    let told = spec["readings"].as_array().unwrap();
    let mut moved = 0;
    for one in told.iter().filter(|one| !one["margin_by"].is_null()) {
        let of = |side: &str, all: &BTreeMap<Key, Value>| {
            let subject = &one[side]["subject"];
            let text = |value: &Value| value.as_str().unwrap().to_owned();
            all[&(text(&one["rule"]), text(&subject["kind"]), text(&subject["name"]), text(&one["what"]))]
                .clone()
        };
        let (old, new) = (of("old", &readings), of("new", &now));
        let margin = |one: &Value| one["margin"]["amount"]["si"].as_f64().unwrap();
        let by = margin(&new) - margin(&old);
        assert!((one["margin_by"]["si"].as_f64().unwrap() - by).abs() < 1e-9, "{one}");
        assert_eq!((&one["old"]["sentence"], &one["new"]["sentence"]), (&old["sentence"], &new["sentence"]));
        moved += 1;
    }
    assert!(moved > 30, "only {moved} margins moved");
    // What is not told has not moved.
    for (key, new) in now.iter().filter(|(key, _)| readings.contains_key(key)) {
        let margin = |one: &Value| one["margin"]["amount"]["si"].as_f64();
        let (Some(old), Some(new)) = (margin(&readings[key]), margin(new)) else { continue };
        let is_told = told.iter().any(|one| super::agreement::key(one, &one["subject"]["name"]) == *key);
        assert!(is_told || (new - old).abs() <= 1e-9 * old.abs().max(1.0), "{key:?} moved");
    }
    let mut changed = 0;
    for ((state, name), new) in &weights_now {
        let old = weights[&(state.clone(), name.clone())];
        let told = spec["weights"]
            .as_array()
            .unwrap()
            .iter()
            .find(|one| one["state"].as_str().unwrap_or("") == state && one["name"] == name.as_str());
        match told {
            Some(told) => {
                changed += 1;
                assert!((told["by"]["si"].as_f64().unwrap() - (new - old)).abs() < 1e-9, "{state} {name}");
            }
            None => assert!((new - old).abs() < 1e-9 * old.abs().max(1.0), "{state} {name}"),
        }
    }
    assert_eq!(changed, spec["weights"].as_array().unwrap().len());
    assert!(changed > 15, "only {changed} weights changed");
}
