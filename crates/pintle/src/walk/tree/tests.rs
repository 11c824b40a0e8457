//! What a browser may send, and what it may not.

use pintle_spec::schema::record;
use serde_json::{Value, json};

use super::Tree;

fn from(value: &Value) -> Result<Tree, String> {
    Tree::from_json(value, &record::SCHEMA)
}

#[test]
fn nothing_typed_is_nothing() {
    let nothing = json!({ "vin": "  ", "lugs": { "torque": "" }, "ticket": [], "serial": [{ "item": " " }, { "@was": 1 }], "lamp_test": { "lit": [] }, "outlet_test": { "outlets": [" "] } });
    assert_eq!(from(&nothing), Ok(Tree::default()));
}

#[test]
fn words_stand_in_the_order_of_the_schema_whoever_ticked_them_first() {
    let ticked = from(&json!({ "lamp_test": { "lit": ["stop", "tail"] } })).unwrap();
    assert_eq!(ticked.to_json(), json!({ "lamp_test": { "lit": ["tail", "stop"] } }));
}

#[test]
fn what_is_no_record_is_refused() {
    for wrong in [
        json!(null),
        json!([]),
        json!({ "vin": 1 }),
        json!({ "vin": ["a"] }),
        json!({ "vin": { "x": "y" } }),
        json!({ "build": {} }),
        json!({ "__proto__": {} }),
        json!({ "lugs": "90" }),
        json!({ "lugs": { "again": ["60 mi"] } }),
        json!({ "lugs": { "again": "10 mi" } }),
        json!({ "ticket": {} }),
        json!({ "ticket": [{ "state": "a", "@was": -1 }] }),
        json!({ "ticket": [{ "state": "a", "@was": "0" }] }),
        json!({ "ticket": [{ "state": "a", "@was": 0 }, { "state": "b", "@was": 0 }] }),
        json!({ "ticket": [{ "build": "a" }] }),
    ] {
        assert!(from(&wrong).is_err(), "{wrong}");
    }
}
