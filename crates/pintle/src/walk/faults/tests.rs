//! Each fault at its field.

use pintle_finding::{Label, Problem, Role};
use pintle_source::Sources;
use pintle_spec::node::parse;
use pintle_spec::schema::record;
use serde_json::json;

use super::{Places, of_file, of_form};
use crate::walk::lay::tests::tree;

#[test]
fn the_form_tells_what_cannot_be_written_and_what_is_needed() {
    let typed = json!({
        "brake_test": { "wheels": "four", "straight": "perhaps", "from_vehicle": "no" },
        "ticket": [{ "state": "a" }, { "gross": "1 lb" }],
        "photo": [{ "file": "a.jpg" }],
    });
    let (faults, kept) = of_form(&record::SCHEMA, &tree(&typed));
    let mut paths: Vec<&str> = faults.iter().map(|fault| fault.path.as_str()).collect();
    paths.sort_unstable();
    assert_eq!(paths, ["brake_test.straight", "brake_test.wheels", "photo.0.shows", "ticket.1.state"]);
    assert_eq!(
        kept.to_json(),
        json!({ "brake_test": { "from_vehicle": "no" }, "ticket": [{ "state": "a" }, { "gross": "1 lb" }], "photo": [{ "file": "a.jpg" }] })
    );
}

#[test]
fn a_place_in_the_file_is_a_field_of_the_form() {
    let text = "[record]\nvin = \"1\"\nlugs = { torque = \"9 lb\", again = [\"10 mi\", \"60 mi\"] }\n\n[[record.ticket]]\nstate = \"a\"\n\n[[state]]\nname = \"a\"\n\n[[record.ticket]]\nstate = \"b\"\ngross = \"x\"\n";
    let mut sources = Sources::new();
    let source = sources.add("a.toml", text);
    let root = parse(&sources, source, &mut Vec::new());
    let places = Places::of(root.child("record"));
    let at = |words: &str| {
        let start = u32::try_from(text.find(words).unwrap()).unwrap();
        pintle_source::Span::new(source, start, start + u32::try_from(words.len()).unwrap())
    };
    for (words, path) in [
        ("\"1\"", Some("vin")),
        ("vin", Some("vin")),
        ("\"9 lb\"", Some("lugs.torque")),
        ("9 lb", Some("lugs.torque")),
        ("\"60 mi\"", Some("lugs.again")),
        ("\"x\"", Some("ticket.1.gross")),
        ("[record]", Some("")),
        ("name", None),
        ("[[state]]", None),
    ] {
        assert_eq!(places.path(at(words)), path, "{words}");
    }
    let problem = |code, words| Problem::new(code, "m").at(Label::new(at(words), Role::Subject, ""));
    let told = of_file(
        &[
            problem("bad-quantity", "\"x\""),
            problem("missing-value", "\"x\""),
            problem("bad-quantity", "name"),
        ],
        &places,
        &[],
    );
    let paths: Vec<&str> = told.iter().map(|fault| fault.path.as_str()).collect();
    // What is missing in the record the form has told; what is wrong elsewhere has no field and is told all the same.
    assert_eq!(paths, ["ticket.1.gross", ""]);
}

#[test]
fn beside_its_field_a_message_does_not_say_which_field_it_is_about() {
    for (message, told) in [
        (
            "`torque` of `lugs` of `record` of the spec cannot be read: `95` has no unit",
            "cannot be read: `95` has no unit",
        ),
        ("`delivered` of `record` of the spec is no day: `a of the spec b`", "is no day: `a of the spec b`"),
        (
            "the `item` of `torque` of the record names no part",
            "the `item` of `torque` of the record names no part",
        ),
        ("`x` is used twice", "`x` is used twice"),
    ] {
        assert_eq!(super::beside(message), told);
    }
}
