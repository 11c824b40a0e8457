//! Two versions of a record laid together.

use pintle_spec::schema::record;
use proptest::prelude::*;
use serde_json::{Value, json};

use super::{Merged, merge};
use crate::walk::lay::tests::tree;

fn of(begun: &Value, mine: &Value, theirs: &Value) -> Merged {
    merge(&record::SCHEMA, &tree(begun), &tree(mine), &tree(theirs))
}

/// Begun, mine, theirs, and what comes of them.
type Versions = [Value; 4];

#[track_caller]
fn check([begun, mine, theirs, merged]: &Versions, conflicts: &[(&str, Value, Value)]) {
    let came = of(begun, mine, theirs);
    assert_eq!(came.tree.to_json(), tree(merged).to_json());
    let told: Vec<Value> = came.conflicts.iter().map(super::Conflict::to_json).collect();
    let told: Vec<(&str, Value, Value)> = told
        .iter()
        .map(|held| (held["path"].as_str().unwrap(), held["mine"].clone(), held["theirs"].clone()))
        .collect();
    assert_eq!(told, conflicts);
}

#[test]
fn what_one_side_changed_is_taken_from_that_side() {
    check(
        &[
            json!({ "vin": "1", "note": "n", "lugs": { "torque": "90 lbf·ft" } }),
            json!({ "vin": "2", "note": "n", "lugs": { "torque": "90 lbf·ft", "again": ["10 mi"] } }),
            json!({ "vin": "1", "lugs": { "torque": "95 lbf·ft" } }),
            json!({ "vin": "2", "lugs": { "torque": "95 lbf·ft", "again": ["10 mi"] } }),
        ],
        &[],
    );
}

#[test]
fn what_both_changed_differently_is_asked_about() {
    check(
        &[
            json!({ "vin": "1", "lugs": { "torque": "90 lbf·ft" } }),
            json!({ "vin": "2", "lugs": { "torque": "91 lbf·ft" } }),
            json!({ "vin": "3", "lugs": {} }),
            json!({ "vin": "2", "lugs": { "torque": "91 lbf·ft" } }),
        ],
        &[("vin", json!("2"), json!("3")), ("lugs.torque", json!("91 lbf·ft"), json!(null))],
    );
}

#[test]
fn lamps_that_two_people_ticked_are_ticked() {
    check(
        &[
            json!({ "lamp_test": { "lit": ["tail", "stop"] } }),
            json!({ "lamp_test": { "lit": ["stop", "plate"] } }),
            json!({ "lamp_test": { "lit": ["tail", "stop", "fog"] } }),
            json!({ "lamp_test": { "lit": ["stop", "plate", "fog"] } }),
        ],
        &[],
    );
}

#[test]
fn entries_are_followed_through_additions_and_removals() {
    let row = |was: Option<usize>, item: &str, number: &str| match was {
        Some(was) => json!({ "@was": was, "item": item, "number": number }),
        None => json!({ "item": item, "number": number }),
    };
    let begun = json!({ "serial": [row(Some(0), "a", "1"), row(Some(1), "b", "2"), row(Some(2), "c", "3")] });
    // Here `a` was taken away, `b` corrected, `d` added; there `c` was taken away and `e` put first.
    check(
        &[
            begun.clone(),
            json!({ "serial": [row(Some(1), "b", "22"), row(Some(2), "c", "3"), row(None, "d", "4")] }),
            json!({ "serial": [row(Some(0), "e", "5"), row(Some(1), "a", "1"), row(Some(2), "b", "2")] }),
            json!({ "serial": [row(Some(0), "e", "5"), row(Some(2), "b", "22"), row(None, "d", "4")] }),
        ],
        &[],
    );
    // What was taken away on one side and changed on the other is nobody's to drop in silence.
    check(
        &[
            begun,
            json!({ "serial": [row(Some(0), "a", "9"), row(Some(2), "c", "3")] }),
            json!({ "serial": [row(Some(0), "b", "8"), row(Some(1), "c", "3")] }),
            json!({ "serial": [row(Some(0), "b", "8"), row(Some(1), "c", "3"), row(None, "a", "9")] }),
        ],
        &[
            ("serial.0", json!(null), json!({ "item": "b", "number": "8" })),
            ("serial.2", json!({ "item": "a", "number": "9" }), json!(null)),
        ],
    );
}

#[test]
fn one_entry_that_both_added_is_one_and_two_tickets_are_two() {
    let one = |number: &str| json!({ "serial": [{ "item": "a", "number": number }] });
    check(
        &[
            json!({}),
            one("1"),
            one("1"),
            json!({ "serial": [{ "@was": 0, "item": "a", "number": "1" }] }).clone(),
        ],
        &[],
    );
    let torque = |reached: &str| json!({ "torque": [{ "item": "rack", "reached": reached }] });
    let theirs = json!({ "torque": [{ "@was": 0, "item": "rack", "reached": "2 lbf·ft" }] });
    check(
        &[
            json!({}),
            torque("1 lbf·ft"),
            theirs,
            json!({ "torque": [{ "@was": 0, "item": "rack", "reached": "1 lbf·ft" }] }),
        ],
        &[("torque.0.reached", json!("1 lbf·ft"), json!("2 lbf·ft"))],
    );
    check(
        &[
            json!({}),
            json!({ "ticket": [{ "state": "a", "gross": "1 lb" }] }),
            json!({ "ticket": [{ "@was": 0, "state": "a", "gross": "2 lb" }] }),
            json!({ "ticket": [{ "@was": 0, "state": "a", "gross": "2 lb" }, { "state": "a", "gross": "1 lb" }] }),
        ],
        &[],
    );
}

fn any_record() -> impl Strategy<Value = Value> {
    let word = "[ab]{0,1}";
    let rows = prop::collection::vec(("[abc]", word), 0..4);
    (word, word, rows, prop::sample::subsequence(vec!["tail", "stop", "plate"], 0..=3)).prop_map(
        |(vin, torque, rows, lit)| {
            let rows: Vec<Value> =
                rows.into_iter().map(|(item, number)| json!({ "item": item, "number": number })).collect();
            json!({ "vin": vin, "lugs": { "torque": torque }, "serial": rows, "lamp_test": { "lit": lit } })
        },
    )
}

/// The same as the file's: each entry says which it is.
fn as_file(record: &Value) -> Value {
    let mut record = record.clone();
    for (at, row) in record["serial"].as_array_mut().unwrap().iter_mut().enumerate() {
        row["@was"] = json!(at);
    }
    record
}

proptest! {
    #[test]
    fn a_side_that_changed_nothing_leaves_the_other(begun in any_record(), other in any_record()) {
        let (begun, other) = (as_file(&begun), as_file(&other));
        let theirs = of(&begun, &begun, &other);
        prop_assert!(theirs.conflicts.is_empty(), "{:?}", theirs.conflicts);
        prop_assert!(theirs.tree.says_the_same(&tree(&other)), "{:?}", theirs.tree);
        // Mine keeps some of what was begun; what it says is what comes of it.
        let mine = of(&begun, &other, &begun);
        let as_begun = other["serial"].as_array().unwrap().len() <= begun["serial"].as_array().unwrap().len();
        if as_begun {
            prop_assert!(mine.conflicts.is_empty(), "{:?}", mine.conflicts);
            prop_assert!(mine.tree.says_the_same(&tree(&other)), "{:?}", mine.tree);
        }
    }

    #[test]
    fn who_changed_the_same_is_of_one_mind(begun in any_record(), both in any_record()) {
        let (begun, both) = (json!({ "vin": begun["vin"], "lugs": begun["lugs"] }), as_file(&both));
        let mut mine = both.clone();
        for row in mine["serial"].as_array_mut().unwrap() {
            row.as_object_mut().unwrap().remove("@was");
        }
        let merged = of(&begun, &mine, &both);
        prop_assert!(merged.conflicts.is_empty(), "{:?}", merged.conflicts);
    }

    /// Nothing that either side typed is gone without a word: a value that only one side has is there, or is a conflict.
    #[test]
    fn nothing_typed_is_lost_without_a_word(begun in any_record(), mine in any_record(), theirs in any_record()) {
        let (begun, theirs) = (as_file(&begun), as_file(&theirs));
        let merged = of(&begun, &mine, &theirs);
        for (path, of) in [("/vin", &mine), ("/vin", &theirs), ("/lugs/torque", &mine), ("/lugs/torque", &theirs)] {
            let typed = of.pointer(path).unwrap().as_str().unwrap();
            let was = begun.pointer(path).unwrap().as_str().unwrap();
            let there = merged.tree.to_json().pointer(path).and_then(Value::as_str).unwrap_or_default() == typed;
            let asked = merged.conflicts.iter().any(|conflict| format!("/{}", conflict.path.replace('.', "/")) == path);
            prop_assert!(typed == was || there || asked, "{path}: {typed}");
        }
    }
}
