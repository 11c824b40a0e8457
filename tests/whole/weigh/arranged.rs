//! Every arrangement: in the text, and as JSON. The figures themselves are worked out again in `tests/oracles`.

use std::path::Path;
use std::process::Command;

use serde_json::Value;

use super::{SOUND, before_berths};
use crate::tool::{demo_shop, edit, pintle, pintle_in};

/// One spec's document.
fn document(folder: &Path, spec: &str) -> Value {
    let ran = pintle_in(folder, &["weigh", spec, "--format", "json"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    let mut whole: Value = serde_json::from_str(&ran.out).unwrap();
    whole["specs"][0].take()
}

/// What stands below a title, up to the next empty line.
fn part<'t>(text: &'t str, title: &str) -> &'t str {
    let (_, after) =
        text.split_once(&format!("\n{title}")).unwrap_or_else(|| panic!("no `{title}` in {text}"));
    after.split("\n\n").next().unwrap()
}

/// Words with their line ends and indents taken out.
fn unwrapped(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn si(value: &Value) -> f64 {
    value["si"].as_f64().unwrap_or_else(|| panic!("no figure: {value}"))
}

fn extreme<'d>(document: &'d Value, figure: &str, end: &str) -> &'d Value {
    let all = document["arrangements"]["extremes"].as_array().unwrap();
    &all.iter().find(|range| range["figure"] == figure).unwrap()[end]
}

#[test]
fn a_state_of_the_spec_lies_between_the_extremes() {
    let shop = demo_shop();
    let (mut compared, mut reached) = (0, 0);
    for spec in [SOUND, "builds/overload-6x12.toml", "builds/rear-galley-5x8.toml"] {
        let document = document(shop.path(), spec);
        for state in document["states"].as_array().unwrap().iter().filter(|state| state["use"] == "road") {
            for figure in ["gross", "unloaded", "tongue", "tongue_share", "axles", "left", "right"] {
                let [least, most] =
                    ["least", "most"].map(|end| si(&extreme(&document, figure, end)["value"]));
                let here = si(&state[figure]);
                assert!(least - 1e-9 <= here && here <= most + 1e-9, "{figure}: {here} in {least} to {most}");
                compared += 1;
                reached += usize::from((here - most).abs() < 1e-9);
            }
        }
    }
    assert!(compared > 40 && reached > 2, "{compared} compared, {reached} at an end");
}

/// An arrangement that is named, written into the spec as a state, weighs what the arrangement does.
#[test]
fn an_arrangement_written_down_as_a_state_weighs_the_same() {
    let shop = demo_shop();
    let before = document(shop.path(), SOUND);
    let lightest = extreme(&before, "tongue_share", "least");
    let list = |key: &str| lightest[key].as_array().unwrap().clone();
    let quoted = |value: &Value| format!("\"{}\"", value.as_str().unwrap());
    // What leaves with what it stands on is listed as well, and is not for a state to name.
    let out: Vec<String> = list("out").iter().filter(|tag| *tag != "tent-bed").map(quoted).collect();
    assert!(out.len() > 1 && out.len() < list("out").len(), "{out:?}");
    let fill: Vec<String> = list("fill")
        .iter()
        .map(|tank| format!("{} = \"{} %\"", tank["tag"].as_str().unwrap(), 100.0 * si(&tank["share"])))
        .collect();
    let carry: Vec<String> = list("load")
        .iter()
        .map(|load| format!("{} = \"{} kg\"", load["tag"].as_str().unwrap(), si(&load["mass"])))
        .collect();
    let name = lightest["arrangement"].as_str().unwrap();
    let state = format!(
        "[[state]]\nname = \"{name}\"\nuse = \"road\"\nout = [{}]\nfill = {{ {} }}\ncarry = {{ {} }}\n\n",
        out.join(", "),
        fill.join(", "),
        carry.join(", ")
    );
    before_berths(shop.path(), &state);
    let after = document(shop.path(), SOUND);
    let state = after["states"].as_array().unwrap().iter().find(|state| state["name"] == name).unwrap();
    assert!((si(&state["tongue_share"]) - si(&lightest["value"])).abs() < 1e-9);
    assert_eq!(state["tongue_share"]["uncertainty"].is_null(), lightest["value"]["uncertainty"].is_null());
}

#[test]
fn least_and_most_are_told_with_their_arrangements() {
    let shop = demo_shop();
    let document = document(shop.path(), SOUND);
    for columns in ["80", "110"] {
        let ran = Command::new(env!("CARGO_BIN_EXE_pintle"))
            .args(["weigh", SOUND])
            .current_dir(shop.path())
            .env("COLUMNS", columns)
            .env("LC_ALL", "C.UTF-8")
            .output()
            .unwrap();
        let text = String::from_utf8(ran.stdout).unwrap();
        let most: usize = columns.parse().unwrap();
        let table = part(&text, "every arrangement");
        for line in table.lines().chain(part(&text, "arrangements by name").lines()) {
            assert!(line.chars().count() <= most, "{line}");
        }
        assert!(table.starts_with(&format!(": {}, ", document["arrangements"]["count"])), "{table}");
        for (figure, label) in [("tongue_share", "tongue share"), ("gross", "gross weight")] {
            let (_, row) = table.split_once(&format!("\n  {label}  ")).unwrap();
            let least = extreme(&document, figure, "least");
            let line = row.lines().next().unwrap();
            let shown = least["value"]["shown"].as_str().unwrap().split(' ').next().unwrap();
            assert!(line.contains("least") && line.contains(shown), "{line} has no {shown}");
        }
        let words = unwrapped(part(&text, "arrangements by name"));
        for named in document["arrangements"]["named"].as_array().unwrap() {
            let figures =
                ["gross", "tongue", "tongue_share"].map(|key| named[key]["shown"].as_str().unwrap());
            let row = format!("{} {}", figures.join(" "), named["arrangement"].as_str().unwrap());
            assert!(words.contains(&row), "no {row} in {words}");
        }
    }
}

#[test]
fn the_axle_window_is_that_of_the_limits_in_force() {
    let shop = demo_shop();
    let before = document(shop.path(), SOUND);
    let window = &before["arrangements"]["axle_window"];
    assert_eq!(window["band"]["most"]["rule"], "towing/heavy-tongue");
    // 14 % is the demo shop's own limit.
    assert!((si(&window["band"]["most"]["share"]) - 0.14).abs() < 1e-12);
    assert_eq!(window["stands"], "within");
    let foremost_centre = si(&extreme(&before, "cg_x", "least")["value"]);
    assert!((si(&window["rearmost"]["behind_ball"]) - foremost_centre / 0.86).abs() < 1e-9);
    let ran = pintle_in(shop.path(), &["weigh", SOUND]);
    let text = unwrapped(part(&ran.out, "axle window"));
    assert!(
        text.starts_with("for a tongue share from 10 % (towing/light-tongue) to 14 % (towing/heavy-tongue)"),
        "{text}"
    );
    for said in
        ["axle 128 in within: ", "further ahead too light: everything out, ", "further back too heavy: "]
    {
        assert!(text.contains(said), "no `{said}` in {text}");
    }
    edit(shop.path(), "pintle.toml", "\"14 %\"", "\"12 %\"");
    let after = document(shop.path(), SOUND);
    let window = &after["arrangements"]["axle_window"];
    assert!((si(&window["rearmost"]["behind_ball"]) - foremost_centre / 0.88).abs() < 1e-9);
}

#[test]
fn an_axle_outside_its_window_and_a_window_that_is_none_are_said() {
    let ran = pintle(&["weigh", "specs/builds/slid-axle-5x8.toml"]);
    let text = unwrapped(part(&ran.out, "axle window"));
    assert!(text.contains("there is no window: these two arrangements exclude each other"), "{text}");
    assert!(text.contains("further ahead too light: everything aboard, fresh full, grey full"), "{text}");
    assert!(text.contains("further back too heavy: galley out, fresh empty"), "{text}");
    for (place, said) in [("112 in", "too far ahead"), ("140 in", "too far back")] {
        let shop = demo_shop();
        let moved = format!("[trailer]\naxle.ball = \"{place}\"\n");
        edit(shop.path(), SOUND, "[trailer]\n", &moved);
        let window = document(shop.path(), SOUND)["arrangements"]["axle_window"].clone();
        assert_eq!(window["stands"], said);
        let ran = pintle_in(shop.path(), &["weigh", SOUND]);
        assert!(unwrapped(&ran.out).contains(said), "{}", ran.out);
    }
}

#[test]
fn without_the_rules_that_set_it_there_is_no_band() {
    let shop = demo_shop();
    let book = std::fs::read_to_string(shop.path().join("pintle.toml")).unwrap();
    let (head, _) = book.split_once("[[").unwrap();
    let company = head.lines().find(|line| line.starts_with("from")).unwrap();
    std::fs::write(shop.path().join("pintle.toml"), head.replace(company, "packs = [\"roof\", \"air\"]"))
        .unwrap();
    let document = document(shop.path(), SOUND);
    assert_eq!(
        document["arrangements"]["axle_window"]["missing"],
        "limit `least` of rule `towing/light-tongue`"
    );
    assert!(si(&extreme(&document, "gross", "most")["value"]) > 0.0);
    let ran = pintle_in(shop.path(), &["weigh", SOUND]);
    let said =
        "there is no band for the tongue share: limit `least` of rule `towing/light-tongue` is not in force";
    assert!(unwrapped(&ran.out).contains(said), "{}", ran.out);
}

#[test]
fn what_is_not_known_is_missing_and_not_nought() {
    let shop = demo_shop();
    let document = document(shop.path(), "builds/quote-6x12.toml");
    let arrangements = &document["arrangements"];
    assert!(arrangements["count"].as_u64().unwrap() > 1, "what there is can be counted");
    for range in arrangements["extremes"].as_array().unwrap() {
        for end in ["least", "most"] {
            assert_eq!(range[end]["missing"], "`mass` of item `cabinet`", "{range}");
            assert!(range[end]["value"].is_null());
        }
    }
    assert_eq!(arrangements["axle_window"]["missing"], "`mass` of item `cabinet`");
    assert_eq!(arrangements["envelope"]["missing"], "`mass` of item `cabinet`");
    let named = arrangements["named"].as_array().unwrap();
    assert!(
        !named.is_empty() && named.iter().all(|one| one["tongue"]["missing"] == "`mass` of item `cabinet`")
    );
}

#[test]
fn a_spec_without_a_road_state_has_no_arrangements() {
    let shop = demo_shop();
    edit(shop.path(), "builds/stuffy-5x8.toml", "\"road\"", "\"camp\"");
    let document = document(shop.path(), "builds/stuffy-5x8.toml");
    assert_eq!(document["arrangements"]["missing"], "a state for the road");
    let ran = pintle_in(shop.path(), &["weigh", "builds/stuffy-5x8.toml"]);
    assert!(unwrapped(&ran.out).contains("every arrangement not known: a state for the road"), "{}", ran.out);
}

#[test]
fn small_changes_are_told_by_statics() {
    let shop = demo_shop();
    let document = document(shop.path(), SOUND);
    let steps = &document["sensitivity"];
    let axle = si(&document["arrangements"]["axle_window"]["axle"]);
    let departure = &document["arrangements"]["named"][0];
    // The ball carries W − W·x/L; W·x is what rests on the axle, times L.
    let moment = (si(&departure["gross"]) - si(&departure["tongue"])) * axle;
    let expected = moment / (axle * axle) * si(&steps["place_step"]);
    assert!((si(&steps["axle"]["tongue"]) - expected).abs() < 1e-9, "{}", steps["axle"]);
    let moments = document["states"][0]["moments"].as_array().unwrap();
    let mut compared = 0;
    for thing in steps["things"].as_array().unwrap() {
        let Some(body) = moments.iter().find(|body| body["body"] == thing["body"]) else { continue };
        let expected = si(&steps["mass_step"]) * (1.0 - si(&body["x"]) / axle);
        assert!((si(&thing["mass"]) - expected).abs() < 1e-9, "{thing}");
        compared += 1;
    }
    assert!(compared > 15, "{compared}");
    let ran = pintle_in(shop.path(), &["weigh", SOUND]);
    let table = part(&ran.out, "what small changes add to the tongue weight");
    let axle = table.lines().find(|line| line.trim_start().starts_with("the axle ")).unwrap();
    assert!(axle.ends_with(steps["axle"]["tongue"]["shown"].as_str().unwrap()), "{axle}");
}

#[test]
fn figures_carry_their_certainty() {
    let ran = pintle(&["weigh", "specs/builds/overload-6x12.toml"]);
    let table = part(&ran.out, "every arrangement");
    let row = table.lines().find(|line| line.starts_with("  gross weight ")).unwrap();
    assert!(row.contains(" ± "), "{row}");
    assert!(unwrapped(&ran.out).contains("± is twice the standard uncertainty"), "{}", ran.out);
}
