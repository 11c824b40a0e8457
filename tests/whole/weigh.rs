//! `pintle weigh`.

mod arranged;
mod plot;

use std::path::Path;

use crate::tool::{pintle, top};

const SOUND: &str = "builds/sound-6x12-round.toml";

/// Writes tables into the sound build of a shop, before its berths.
fn before_berths(shop: &Path, tables: &str) {
    let path = shop.join(SOUND);
    let text = std::fs::read_to_string(&path).unwrap();
    let (head, tail) = text.split_once("[[berth]]").unwrap();
    std::fs::write(&path, format!("{head}{tables}[[berth]]{tail}")).unwrap();
}

#[test]
fn the_moment_table_adds_up() {
    let ran = pintle(&["weigh", "--format", "json", "specs/builds"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    let document: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
    let mut states = 0;
    for spec in document["specs"].as_array().unwrap() {
        for state in spec["states"].as_array().unwrap() {
            let Some(gross) = state["gross"]["si"].as_f64() else { continue };
            let rows = state["moments"].as_array().unwrap();
            let mass: f64 = rows.iter().map(|row| row["mass"]["si"].as_f64().unwrap()).sum();
            let moment: f64 = rows.iter().map(|row| row["moment"]["si"].as_f64().unwrap()).sum();
            assert!((mass - gross).abs() < 1e-9 * gross);
            assert!((moment / mass - state["cg"]["x"]["si"].as_f64().unwrap()).abs() < 1e-9);
            states += 1;
        }
    }
    assert!(states > 25, "only {states} states were weighed");
}

#[test]
fn the_table_for_people_names_what_is_not_known() {
    let ran = pintle(&["weigh", "specs/builds/quote-6x12.toml"]);
    assert!(ran.out.contains("not known: `mass` of item `cabinet`"), "{}", ran.out);
    assert!(ran.out.contains("weigh the real trailer"));
    let sound = pintle(&["weigh", "specs/builds/sound-6x12-round.toml"]);
    assert!(!sound.out.contains("not known"), "{}", sound.out);
    assert!(sound.out.contains("water in tank `fresh`"), "{}", sound.out);
}

#[test]
fn a_file_that_is_no_spec_is_wrong_input() {
    assert!(top().join("specs/pintle.toml").is_file());
    let ran = pintle(&["weigh", "specs/pintle.toml"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("not a build spec"), "{}", ran.err);
}
