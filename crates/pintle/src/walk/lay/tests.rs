//! Records laid into specs: what is written is what was typed, and the rest of the file stays as it was.

use pintle_source::Sources;
use pintle_spec::field::{Field, Kind, Schema};
use pintle_spec::node::{Node, parse};
use pintle_spec::schema::record;
use proptest::prelude::*;
use serde_json::{Value, json};

use super::{lay, same_but};
use crate::walk::tree::Tree;

pub(crate) fn read(text: &str) -> (Node, Tree) {
    let mut sources = Sources::new();
    let source = sources.add_bytes("a.toml", text.as_bytes()).unwrap();
    let mut problems = Vec::new();
    let root = parse(&sources, source, &mut problems);
    assert_eq!(problems, [], "{text}");
    let tree = root.child("record").map(|node| Tree::of(node, &record::SCHEMA)).unwrap_or_default();
    (root, tree)
}

pub(crate) fn tree(of: &Value) -> Tree {
    Tree::from_json(of, &record::SCHEMA).unwrap()
}

/// Lays it, and checks what must hold of every laying.
#[track_caller]
fn laid(text: &str, record: &Value) -> String {
    let (root, old) = read(text);
    let new = lay(text, &old, &tree(record)).unwrap_or_else(|why| panic!("{why}\n{text}"));
    let (after, now) = read(&new);
    assert!(now.says_the_same(&tree(record)), "{now:#?}\n{new}");
    assert!(same_but(&root, &after, "record"), "{new}");
    assert_eq!(lay(&new, &now, &now).unwrap(), new, "what is laid twice is laid once");
    new
}

/// A text, the record that is laid into it, and what the text is then.
#[track_caller]
fn check(text: &str, record: &Value, expected: &str) {
    assert_eq!(laid(text, record), expected);
}

#[test]
fn a_spec_without_a_record_gets_one_at_its_end() {
    check(
        "# a build\n[build]\nnumber = \"A\"  # its number\n",
        &json!({ "vin": "1ZZ", "lugs": { "torque": "90 lbf·ft", "again": ["50 mi", "10 mi"] }, "ticket": [{ "state": "a", "gross": "1 lb" }] }),
        "# a build\n[build]\nnumber = \"A\"  # its number\n\n[record]\nvin = \"1ZZ\"\n\n[[record.ticket]]\nstate = \"a\"\ngross = \"1 lb\"\n\n[record.lugs]\ntorque = \"90 lbf·ft\"\nagain  = [\"10 mi\", \"50 mi\"]\n",
    );
    // Tables that stand apart in the file do not draw the record in between.
    check(
        "[[item]]\ntag = \"a\"\n\n[[state]]\nname = \"s\"\n\n[[item]]\ntag = \"b\"\n",
        &json!({ "vin": "1ZZ" }),
        "[[item]]\ntag = \"a\"\n\n[[state]]\nname = \"s\"\n\n[[item]]\ntag = \"b\"\n\n[record]\nvin = \"1ZZ\"\n",
    );
}

#[test]
fn only_what_differs_is_written_and_comments_stay() {
    let text = "[build]\nnumber = \"A\"\n\n# What was measured.\n[record]  # all of it\n# from the plate\nvin       = \"1ZZ\"  # letter by letter\ndelivered = '2026-05-04'\n\n# by the yard's scale\n[[record.ticket]]\nstate = \"a\"  # wet\ngross = \"1,900 lb\"\n\n[[state]]\nname = \"a\"  # the last table\n";
    check(
        text,
        &json!({ "vin": "1ZY", "delivered": "2026-05-04", "ticket": [{ "@was": 0, "state": "a", "gross": "1,920 lb", "tongue": "210 lb" }] }),
        "[build]\nnumber = \"A\"\n\n# What was measured.\n[record]  # all of it\n# from the plate\nvin       = \"1ZY\"  # letter by letter\ndelivered = '2026-05-04'\n\n# by the yard's scale\n[[record.ticket]]\nstate = \"a\"  # wet\ngross = \"1,920 lb\"\ntongue = \"210 lb\"\n\n[[state]]\nname = \"a\"  # the last table\n",
    );
    // Nothing that differs: not a byte.
    check(
        text,
        &json!({ "vin": "1ZZ", "delivered": "2026-05-04", "ticket": [{ "@was": 0, "state": "a", "gross": "1,900 lb" }] }),
        text,
    );
}

#[test]
fn a_record_in_the_middle_keeps_its_place() {
    check(
        "[record]\nvin = \"1\"\n\n# states\n[[state]]\nname = \"a\"\n",
        &json!({ "vin": "1", "skin_test": { "voltage": "1 V" }, "serial": [{ "item": "x", "number": "2" }] }),
        "[record]\nvin = \"1\"\n\n[record.skin_test]\nvoltage = \"1 V\"\n\n[[record.serial]]\nitem   = \"x\"\nnumber = \"2\"\n\n# states\n[[state]]\nname = \"a\"\n",
    );
}

#[test]
fn only_tables_within_it_and_then_a_value_of_its_own() {
    check(
        "[build]\nnumber = \"A\"\n\n[record.lugs]\ntorque = \"90 lbf·ft\"\n\n[[state]]\nname = \"a\"\n",
        &json!({ "vin": "1", "lugs": { "torque": "95 lbf·ft" } }),
        "[build]\nnumber = \"A\"\n\n[record]\nvin = \"1\"\n\n[record.lugs]\ntorque = \"95 lbf·ft\"\n\n[[state]]\nname = \"a\"\n",
    );
}

#[test]
fn a_record_in_braces_and_one_of_dotted_keys_stay_so() {
    check(
        "record = { vin = \"1\", lugs = { torque = \"90 lbf·ft\" } }  # short\n",
        &json!({ "vin": "2", "lugs": { "torque": "90 lbf·ft", "again": ["25 mi"] }, "photo": [{ "shows": "gas", "file": "a.jpg" }] }),
        "record = { vin = \"2\", lugs = { torque = \"90 lbf·ft\", again = [\"25 mi\"] }, photo = [{ shows = \"gas\", file = \"a.jpg\" }] }  # short\n",
    );
    check(
        "record.vin = \"1\"  # dotted\nrecord.lugs.torque = \"90 lbf·ft\"\n\n[build]\nnumber = \"A\"\n",
        &json!({ "vin": "1", "note": "n", "lugs": { "torque": "95 lbf·ft" }, "serial": [{ "item": "x", "number": "2" }] }),
        "record.vin = \"1\"  # dotted\nrecord.lugs.torque = \"95 lbf·ft\"\nrecord.serial = [{ item = \"x\", number = \"2\" }]\nrecord.note   = \"n\"\n\n[build]\nnumber = \"A\"\n",
    );
    check(
        "[record]\nlugs.torque = \"90 lbf·ft\"\nvin = \"1\"\n",
        &json!({ "vin": "1", "lugs": { "torque": "90 lbf·ft", "again": ["25 mi"] } }),
        "[record]\nlugs.torque = \"90 lbf·ft\"\nlugs.again  = [\"25 mi\"]\nvin = \"1\"\n",
    );
}

#[test]
fn lists_of_tables_in_braces_gain_lose_and_change_entries() {
    let text = "[record]\nserial = [\n  { item = \"a\", number = \"1\" },  # the first\n  { item = \"b\", number = \"2\" },\n  { item = \"c\", number = \"3\" },\n]\n";
    check(
        text,
        &json!({ "serial": [{ "@was": 0, "item": "a", "number": "1" }, { "@was": 2, "item": "c", "number": "4" }] }),
        "[record]\nserial = [\n  { item = \"a\", number = \"1\" },  # the first\n  { item = \"c\", number = \"4\" },\n]\n",
    );
}

#[test]
fn entries_with_headers_go_and_come_and_the_others_keep_their_comments() {
    let text = "[[record.serial]]\nitem = \"a\"  # stays\nnumber = \"1\"\n\n[[record.serial]]\nitem = \"b\"\nnumber = \"2\"\n\n# the third\n[[record.serial]]\nitem = \"c\"\nnumber = \"3\"\n";
    check(
        text,
        &json!({ "serial": [{ "@was": 0, "item": "a", "number": "1" }, { "@was": 2, "item": "c", "number": "3", "note": "n" }, { "item": "d", "number": "4" }] }),
        "[[record.serial]]\nitem = \"a\"  # stays\nnumber = \"1\"\n\n# the third\n[[record.serial]]\nitem = \"c\"\nnumber = \"3\"\nnote   = \"n\"\n\n[[record.serial]]\nitem   = \"d\"\nnumber = \"4\"\n",
    );
}

#[test]
fn what_is_cleared_leaves_the_comment_lines_above_it() {
    check(
        "[record]\n# from the plate\nvin  = \"1\"\nnote = \"n\"\n",
        &json!({ "note": "n" }),
        "[record]\n# from the plate\nnote = \"n\"\n",
    );
    check(
        "[record]\nnote = \"n\"\n# from the plate\nvin = \"1\"\n",
        &json!({ "note": "n" }),
        "# from the plate\n[record]\nnote = \"n\"\n",
    );
    check(
        "[build]\nnumber = \"A\"\n\n[record]\nvin = \"1\"\n\n[record.lugs]\ntorque = \"9 lbf·ft\"\n",
        &json!({ "vin": "1" }),
        "[build]\nnumber = \"A\"\n\n[record]\nvin = \"1\"\n",
    );
}

#[test]
fn lists_of_words_keep_what_stays_and_its_comments() {
    check(
        "[record.lamp_test]\nlit = [\n  \"stop\",  # both\n  \"tail\",\n]\n",
        &json!({ "lamp_test": { "lit": ["stop", "plate"] } }),
        "[record.lamp_test]\nlit = [\n  \"stop\",  # both\n  \"plate\",\n]\n",
    );
}

#[test]
fn line_ends_and_marks_stay_as_they_were() {
    check(
        "\u{feff}[build]\r\nnumber = \"A\"  # x\r\n\r\n[record]\r\nvin = \"1\"\r\nnote = \"\"\"two\r\nlines\"\"\"\r\n",
        &json!({ "vin": "2", "note": "two\nlines", "lugs": { "torque": "9 lbf·ft" } }),
        "\u{feff}[build]\r\nnumber = \"A\"  # x\r\n\r\n[record]\r\nvin = \"2\"\r\nnote = \"\"\"two\r\nlines\"\"\"\r\n\r\n[record.lugs]\r\ntorque = \"9 lbf·ft\"\r\n",
    );
    check("[record]\nvin = \"1\"", &json!({ "vin": "2" }), "[record]\nvin = \"2\"");
    check(
        "[build]\nnumber = \"A\"\n# the end",
        &json!({ "vin": "2" }),
        "[build]\nnumber = \"A\"\n\n[record]\nvin = \"2\"\n# the end",
    );
    // Lines of both sorts are refused, as they could not be kept.
    let mixed = "[record]\r\nvin = \"1\"\n";
    let (_, old) = read(mixed);
    assert!(lay(mixed, &old, &tree(&json!({ "vin": "2" }))).is_err());
}

#[test]
fn whatever_is_typed_is_text() {
    for typed in [
        "\"",
        "'",
        "'''",
        "\"\"\"",
        "\\",
        "a\nb",
        "# no comment",
        "]\n[build]\nx = 1",
        "\u{7}",
        "½ \u{1f69a}",
        "= { }",
        "\t tab",
    ] {
        let new = laid(
            "[build]\nnumber = \"A\"\r\n".replace("\r\n", "\n").as_str(),
            &json!({ "note": typed, "outlet_test": { "outlets": [typed] } }),
        );
        assert!(new.starts_with("[build]\nnumber = \"A\"\n\n[record]\nnote = \""), "{new}");
    }
}

#[test]
fn entries_that_are_not_the_files_are_refused() {
    let text = "[[record.serial]]\nitem = \"a\"\nnumber = \"1\"\n";
    let (_, old) = read(text);
    for rows in [
        json!([{ "@was": 1, "item": "a", "number": "1" }]),
        json!([{ "item": "n", "number": "1" }, { "@was": 0, "item": "a", "number": "1" }]),
    ] {
        assert!(lay(text, &old, &tree(&json!({ "serial": rows }))).is_err(), "{rows}");
    }
}

/// Something that every field can hold.
fn sample(field: &Field) -> Value {
    match field.kind {
        Kind::Flag => json!("yes"),
        Kind::Count(_) => json!("4"),
        Kind::Word(words) => json!(words[0]),
        Kind::Words(words) => json!([words[0], words[words.len() - 1]]),
        Kind::Texts => json!(["one", "two"]),
        Kind::Quantity(dimension, _) => json!(dimension.example()),
        Kind::Table(schema) => full(schema),
        Kind::Tables(schema) => json!([full(schema)]),
        _ if field.doc.contains(", as in 20") => json!("2026-05-02"),
        _ => json!("text"),
    }
}

fn full(schema: &'static Schema) -> Value {
    Value::Object(schema.all().map(|field| (field.key.to_owned(), sample(field))).collect())
}

/// Every field of the schema, from what a browser sends to the file, and from the file to what a browser is sent.
#[test]
fn every_field_goes_round() {
    let whole = full(&record::SCHEMA);
    let new = laid("[build]\nnumber = \"A\"\n", &whole);
    let (_, back) = read(&new);
    assert!(back.says_the_same(&tree(&back.to_json())));
    for field in record::SCHEMA.all() {
        let one = json!({ field.key: sample(field) });
        laid("[build]\nnumber = \"A\"\n", &one);
        laid("record = {}\n[build]\nnumber = \"A\"\n", &one);
        // And each away again.
        let mut less = back.to_json();
        less.as_object_mut().unwrap().remove(field.key);
        let without = laid(&new, &less);
        assert!(without.starts_with("[build]\nnumber = \"A\"\n"));
    }
}

fn any_tree() -> impl Strategy<Value = Value> {
    let text = prop_oneof!["[a-z]{1,6}", "[ -~½°\n\"'\\\\#]{0,12}"];
    let row = (text.clone(), prop::option::of(text.clone()), prop::option::of(0..3_usize));
    let rows = prop::collection::vec(row, 0..4);
    (
        prop::option::of(text.clone()),
        prop::option::of(text.clone()),
        prop::option::of(text),
        rows,
        prop::sample::subsequence(vec!["10 mi", "25 mi", "50 mi"], 0..=3),
    )
        .prop_map(|(vin, note, torque, rows, again)| {
            let rows: Vec<Value> = rows
                .into_iter()
                .map(|(item, number, _)| json!({ "item": item, "number": number.unwrap_or_default() }))
                .collect();
            json!({
                "vin": vin.unwrap_or_default(),
                "note": note.unwrap_or_default(),
                "lugs": { "torque": torque.unwrap_or_default(), "again": again },
                "serial": rows,
            })
        })
}

proptest! {
    /// From any record to any other: the file says the second, and everything outside of the record stays, byte by byte.
    #[test]
    fn one_record_after_another(first in any_tree(), second in any_tree(), keep in prop::collection::vec(any::<bool>(), 4)) {
        let head = "# head\n[build]  # b\nnumber = 'A'\n";
        let one = laid(head, &first);
        // Some of the first one's entries stay, perhaps changed, and the rest are new.
        let (_, was) = read(&one);
        let entries = was.to_json()["serial"].as_array().cloned().unwrap_or_default();
        let kept = entries.into_iter().zip(keep).filter(|(_, keep)| *keep).map(|(row, _)| row);
        let mut second = second;
        let new = second["serial"].as_array().cloned().unwrap_or_default();
        second["serial"] = kept.chain(new).collect();
        let two = laid(&one, &second);
        prop_assert!(two.starts_with(head), "{}", two);
    }
}
