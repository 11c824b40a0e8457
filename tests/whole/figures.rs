//! `pintle figures`: what was worked out, and how it came about.

use serde_json::Value;

use crate::tool::{demo_shop, pintle, pintle_in};

const REFERENCE: &str = "specs/builds/sound-6x12-round.toml";

#[test]
fn every_topic_and_figure_can_be_asked_for() {
    let all = pintle(&["figures", REFERENCE, "--format", "json"]);
    assert_eq!(all.code, 0, "{}", all.err);
    let json: Value = serde_json::from_str(&all.out).unwrap();
    assert_eq!((json["format"].as_str(), json["version"].as_u64()), (Some("pintle-figures"), Some(1)));
    let figures = json["specs"][0]["figures"].as_array().unwrap();
    let name = |entry: &Value| {
        let part = |key: &str| entry[key].as_str().unwrap().to_owned();
        (part("topic"), part("figure"))
    };
    let mut topics: Vec<String> = figures.iter().map(|entry| name(entry).0).collect();
    topics.dedup();
    assert!(topics.len() >= 10, "{topics:?}");
    for topic in &topics {
        // The topic by itself has what it has among all, and one of its figures can be asked for alone.
        let alone = pintle(&["figures", REFERENCE, "--of", topic, "--format", "json"]);
        let alone: Value = serde_json::from_str(&alone.out).unwrap();
        let of_topic: Vec<&Value> = figures.iter().filter(|entry| name(entry).0 == *topic).collect();
        assert_eq!(
            alone["specs"][0]["figures"].as_array().unwrap().iter().collect::<Vec<_>>(),
            of_topic,
            "{topic}"
        );
        let full = format!("{topic}/{}", name(of_topic[of_topic.len() / 2]).1);
        let one = pintle(&["figures", REFERENCE, "--of", &full, "--format", "plain"]);
        assert_eq!(one.code, 0, "{full}: {}", one.err);
        assert!(
            !one.out.is_empty() && one.out.lines().all(|line| line.contains(&format!(": {full}: "))),
            "{full}:\n{}",
            one.out
        );
    }
}

#[test]
fn what_is_not_there_is_said() {
    let ran = pintle(&["figures", REFERENCE, "--of", "gsa"]);
    assert_eq!(ran.code, 2);
    assert!(
        ran.err.contains("there is no topic `gsa`") && ran.err.contains("did you mean `gas`?"),
        "{}",
        ran.err
    );
    let ran = pintle(&["figures", REFERENCE, "--of", "gas/stored"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("none of these builds has a figure `gas/stored`"), "{}", ran.err);
}

/// The line of a figure and its assumption, for a shop and a spec with more at their ends.
fn heating_value(shop: &str, spec: &str) -> String {
    let folder = demo_shop();
    let append = |file: &str, more: &str| {
        let path = folder.path().join(file);
        std::fs::write(&path, std::fs::read_to_string(&path).unwrap() + more).unwrap();
    };
    append("pintle.toml", shop);
    append("builds/sound-6x12-round.toml", spec);
    let ran =
        pintle_in(folder.path(), &["figures", "builds/sound-6x12-round.toml", "--of", "gas/stored_energy"]);
    // Lines are broken where the terminal ends.
    (ran.out + ran.err.as_str()).split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn a_build_goes_before_its_shop_and_the_shop_before_the_tables() {
    let shop = "\n[[assumption]]\nof = \"gas.heating_value\"\nvalue = \"20,000 Btu/lb\"\nreason = \"our supplier\"\n";
    let spec = "\n[assume.gas]\nheating_value = \"19,000 Btu/lb\"\n";
    let told = heating_value("", "");
    assert!(told.contains("430,960 Btu") && told.contains("rules/assumptions/gas.toml:"), "{told}");
    let told = heating_value(shop, "");
    assert!(told.contains("400,000 Btu") && told.contains("shop, pintle.toml, our supplier"), "{told}");
    let told = heating_value(shop, spec);
    assert!(told.contains("380,000 Btu") && told.contains("[builds/sound-6x12-round.toml:"), "{told}");
}

#[test]
fn mistakes_in_assumptions_are_said_all_at_once() {
    let told = heating_value(
        "\n[[assumption]]\nof = \"gas.heating_valu\"\nvalue = \"1 Btu/lb\"\nreason = \"x\"\n\
         [[assumption]]\nof = \"gas.heating_value\"\nvalue = \"1 lb\"\nreason = \"x\"\n",
        "",
    );
    assert!(told.contains("there is no assumption `gas.heating_valu`"), "{told}");
    assert!(told.contains("did you mean `gas.heating_value`?"), "{told}");
    assert!(told.contains("is an energy per mass, and this is a mass"), "{told}");
    let once = "\n[[assumption]]\nof = \"gas.heating_value\"\nvalue = \"1 Btu/lb\"\nreason = \"x\"\n";
    assert!(heating_value(&once.repeat(2), "").contains("assumption `gas.heating_value` is set twice"));
    let told = heating_value(&once.replace("\"1 Btu", "\"-1 Btu"), "");
    assert!(told.contains("must be more than zero"), "{told}");
    let told = heating_value("", "\n[assume.gas]\nheating_valu = \"1 Btu/lb\"\n[assume.gass]\n");
    assert!(told.contains("did you mean `heating_value`?") && told.contains("did you mean `gas`?"), "{told}");
}

#[test]
fn counts_classes_and_ratios_are_shown_as_numbers() {
    let all = pintle(&[
        "figures", "specs", "--format", "json", "--of", "anchor", "--of", "scale", "--of", "tow", "--of",
        "sway",
    ]);
    let json: Value = serde_json::from_str(&all.out).unwrap();
    let specs = json["specs"].as_array().unwrap();
    let figures = || specs.iter().flat_map(|spec| spec["figures"].as_array().unwrap());
    let shown = |name: &str| -> Vec<&str> {
        figures()
            .filter(|entry| entry["figure"] == name)
            .filter_map(|entry| entry["shown"].as_str())
            .collect()
    };
    for name in
        ["count", "steady_aside", "coupler_class", "damping_at_100_km_h", "heavy_ends", "chi_square_before"]
    {
        let found = shown(name);
        assert!(!found.is_empty() && found.iter().all(|shown| !shown.contains('%')), "{name}: {found:?}");
    }
    assert!(shown("weighed_tongue_share").iter().all(|shown| shown.contains('%')));
}

#[test]
fn explain_takes_a_figure_too() {
    let ran = pintle(&["explain", "gas/stored_energy", "--at", REFERENCE]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert!(ran.out.contains("E = m · H = 430,960 Btu"), "{}", ran.out);
    // What is nearly a rule is taken for the rule.
    let ran = pintle(&["explain", "gas/cylinder-indors"]);
    assert_eq!(ran.code, 2);
    assert!(ran.out.contains("did you mean `gas/cylinder-indoors`?"), "{}", ran.out);
    let ran = pintle(&["explain", "gas/nothing_of_the_sort", "--at", REFERENCE]);
    assert_eq!(ran.code, 2, "{}", ran.out);
}
