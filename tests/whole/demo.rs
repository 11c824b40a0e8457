//! Every rule over every demo spec: what each says of each, in one table.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

use crate::tool::pintle;

/// Worst first; a rule's letter for a spec is that of the worst of its readings.
const VERDICTS: [(&str, char); 5] =
    [("broken", '!'), ("fault", 'F'), ("cannot judge", '?'), ("pass", '.'), ("not applicable", '-')];

#[test]
fn every_rule_over_every_spec() {
    let ran = pintle(&["inspect", "specs", "--format", "json", "--date", "2026-11-26"]);
    assert_eq!(ran.code, 1, "{}", ran.err);
    let document: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
    let specs = document["specs"].as_array().unwrap();
    let mut table: BTreeMap<&str, Vec<char>> = BTreeMap::new();
    let mut packs: BTreeMap<&str, BTreeSet<usize>> = BTreeMap::new();
    for (at, spec) in specs.iter().enumerate() {
        for reading in spec["readings"].as_array().unwrap() {
            let (rule, verdict) = (reading["rule"].as_str().unwrap(), reading["verdict"].as_str().unwrap());
            let letter = |wanted: &str| VERDICTS.iter().position(|(verdict, _)| *verdict == wanted).unwrap();
            let row = table.entry(rule).or_insert_with(|| vec![' '; specs.len()]);
            let held = VERDICTS.iter().position(|(_, held)| *held == row[at]).unwrap_or(usize::MAX);
            if letter(verdict) < held {
                row[at] = VERDICTS[letter(verdict)].1;
            }
            if verdict == "fault" {
                packs.entry(rule.split('/').next().unwrap()).or_default().insert(at);
            }
        }
    }
    let mut text =
        String::from("F fault, ? cannot judge, . pass, - not applicable, blank: not judged at its stage\n");
    for (at, spec) in specs.iter().enumerate() {
        let name = spec["spec"].as_str().unwrap().rsplit('/').next().unwrap();
        writeln!(text, "{}{name}", " ".repeat(at)).unwrap();
    }
    for (rule, row) in &table {
        writeln!(text, "{}  {rule}", row.iter().collect::<String>()).unwrap();
    }
    insta::assert_snapshot!(text);
    assert!(!text.contains('!'), "a rule is broken");
    // Every pack has a real fault somewhere, and four builds have none of a built-in rule.
    let names = [
        "air", "anchor", "electric", "gas", "quote", "record", "road", "roof", "sleep", "space", "spec",
        "towing", "water",
    ];
    for pack in names {
        assert!(packs.contains_key(pack), "no demo build has a fault of {pack}");
    }
    let sound: Vec<&str> = specs
        .iter()
        .enumerate()
        .filter(|(at, _)| table.values().all(|row| !matches!(row[*at], 'F' | '?')))
        .map(|(_, spec)| spec["spec"].as_str().unwrap())
        .collect();
    assert_eq!(sound.len(), 4, "{sound:?}");
    assert!(sound.iter().all(|spec| spec.contains("/sound-")), "{sound:?}");
}
