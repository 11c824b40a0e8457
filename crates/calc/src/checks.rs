//! Tables of checks from outside, one file a topic: how they are read and run.
//!
//! A row names what is worked out, from what, what must come out and within what, where that comes from, and how well it
//! is vouched for. A file says how many rows it has and how many of them are memories, so that neither changes unseen.

use std::collections::BTreeMap;

use pintle_quantity::Quantity;
use toml::Value;

/// The files, by topic.
const FILES: &[(&str, &str)] = &[
    ("weights", include_str!("../figures/weights.toml")),
    ("space", include_str!("../figures/space.toml")),
    ("roof", include_str!("../figures/roof.toml")),
    ("anchor", include_str!("../figures/anchor.toml")),
    ("gas", include_str!("../figures/gas.toml")),
    ("air", include_str!("../figures/air.toml")),
    ("electric", include_str!("../figures/electric.toml")),
    ("water", include_str!("../figures/water.toml")),
    ("road", include_str!("../figures/road.toml")),
    ("tow", include_str!("../figures/tow.toml")),
    ("sway", include_str!("../figures/sway.toml")),
    ("scale", include_str!("../figures/scale.toml")),
];

/// What a row gives, by name.
pub(crate) struct Given<'t>(&'t BTreeMap<String, Value>, &'t str);

impl Given<'_> {
    fn value(&self, name: &str) -> &Value {
        self.0.get(name).unwrap_or_else(|| panic!("{}: no `{name}` is given", self.1))
    }

    /// A value in SI; a plain number as it is.
    #[track_caller]
    pub(crate) fn si(&self, name: &str) -> f64 {
        si(self.value(name), self.1)
    }

    /// Several values in SI.
    #[track_caller]
    pub(crate) fn list(&self, name: &str) -> Vec<f64> {
        match self.value(name) {
            Value::Array(list) => list.iter().map(|value| si(value, self.1)).collect(),
            one => vec![si(one, self.1)],
        }
    }

    /// A word.
    #[track_caller]
    pub(crate) fn word(&self, name: &str) -> &str {
        self.value(name).as_str().unwrap_or_else(|| panic!("{}: `{name}` is no word", self.1))
    }

    /// Whether a value is given.
    pub(crate) fn has(&self, name: &str) -> bool {
        self.0.contains_key(name)
    }
}

#[track_caller]
fn si(value: &Value, row: &str) -> f64 {
    match value {
        Value::Float(number) => *number,
        Value::Integer(number) => i32::try_from(*number).map(f64::from).unwrap(),
        Value::String(text) => Quantity::parse(text).unwrap_or_else(|error| panic!("{row}: {error}")).si(),
        other => panic!("{row}: {other:?} is no value"),
    }
}

struct Row {
    id: String,
    of: String,
    given: BTreeMap<String, Value>,
    expect: Vec<f64>,
    within: Within,
}

enum Within {
    Share(f64),
    Si(f64),
}

/// The bases that a row may have.
const BASES: &[&str] = &["published", "computed", "common practice", "memory"];

fn rows(topic: &str, text: &str) -> Vec<Row> {
    let file: BTreeMap<String, Value> =
        toml::from_str(text).unwrap_or_else(|error| panic!("{topic}: {error}"));
    let table = |value: &Value| -> BTreeMap<String, Value> {
        value.as_table().unwrap().iter().map(|(key, value)| (key.clone(), value.clone())).collect()
    };
    let checks = file.get("check").and_then(Value::as_array);
    let checks: Vec<_> = checks.into_iter().flatten().map(table).collect();
    let mut read = Vec::new();
    let mut memories = 0;
    for check in &checks {
        let text = |key: &str| check[key].as_str().unwrap().to_owned();
        let id = format!("{topic}: {}", text("id"));
        assert!(!text("source").is_empty(), "{id}: no source");
        let basis = text("basis");
        assert!(BASES.contains(&basis.as_str()), "{id}: `{basis}` is no basis");
        memories += usize::from(basis == "memory");
        let known = ["id", "of", "given", "expect", "within", "basis", "source", "note"];
        assert!(check.keys().all(|key| known.contains(&key.as_str())), "{id}: an unknown key");
        let expect = match &check["expect"] {
            Value::Array(list) => list.iter().map(|value| si(value, &id)).collect(),
            one => vec![si(one, &id)],
        };
        let shares = format!("{:?}", check["expect"]).contains('%');
        let within = match check["within"].as_str() {
            Some(share) if share.ends_with('%') && !shares => Within::Share(si(&check["within"], &id)),
            _ => Within::Si(si(&check["within"], &id)),
        };
        let given = check.get("given").map(&table).unwrap_or_default();
        assert!(!read.iter().any(|row: &Row| row.id == id), "{id} is there twice");
        read.push(Row { of: text("of"), given, expect, within, id });
    }
    assert_eq!(file["rows"].as_integer(), i64::try_from(read.len()).ok(), "{topic}: `rows` counts the rows");
    let counted = file["from_memory"].as_integer();
    assert_eq!(counted, i64::try_from(memories).ok(), "{topic}: `from_memory` counts the rows from memory");
    read
}

/// Runs every row of a topic's file. `work` is told what is worked out and what is given, and answers in SI.
#[track_caller]
pub(crate) fn run(topic: &str, work: impl Fn(&str, &Given<'_>) -> Vec<f64>) {
    let (_, text) = FILES.iter().find(|(name, _)| *name == topic).unwrap();
    for row in rows(topic, text) {
        let found = work(&row.of, &Given(&row.given, &row.id));
        assert_eq!(found.len(), row.expect.len(), "{}: {found:?}", row.id);
        for (found, expect) in found.iter().zip(&row.expect) {
            let allowed = match row.within {
                Within::Share(share) => share * expect.abs(),
                Within::Si(width) => width,
            };
            let off = (found - expect).abs();
            assert!(off <= allowed * (1.0 + 1e-9), "{}: found {found}, expected {expect} (SI)", row.id);
        }
    }
}

#[test]
fn there_are_enough_checks_from_outside() {
    let counts: Vec<(&str, usize)> =
        FILES.iter().map(|(topic, text)| (*topic, rows(topic, text).len())).collect();
    assert!(counts.iter().map(|(_, count)| count).sum::<usize>() >= MANY, "{counts:?}");
}

/// So many rows there must be in all.
const MANY: usize = 1;
