//! Changes in the text of a spec: what changes, what stays, and that both readers see the same.

use pintle_finding::{Change, Written};
use pintle_source::Sources;
use pintle_spec::node::{Node, NodeValue, parse};
use proptest::prelude::*;

use super::changed;

fn text(value: &str) -> Written {
    Written::Text(value.to_owned())
}

/// The lines that differ, old ones with `-`, new ones with `+`.
fn differences(old: &str, new: &str) -> Vec<String> {
    let diff = similar::TextDiff::from_lines(old, new);
    let changes = diff.iter_all_changes().filter(|change| change.tag() != similar::ChangeTag::Equal);
    changes.map(|change| format!("{}{}", change.tag(), change.value().trim_end())).collect()
}

const SPEC: &str = r#"# The head of the file.

[build]
number = "T-1"   # the number

[trailer]
part = "box"     # as it came

# The galley.
[[item]]
tag       = "galley"      # at the rear
part      = "galley-40"
at        = { rear = "0 in", centre = "0 in" }   # against the door
removable = true

[[item]]
tag = "table"
kind = "module"
at.front = "3 in"
at.left  = "0 in"

[[state]]
name = "out, full"
use  = "road"
fill = { fresh = "100 %" }
load = [
    # Packed last.
    { what = "bags", mass = "80 lb", at = { front = "4 in" } },
    { what = "pans", mass = "9 lb", at = { rear = "4 in" } },   # in the galley
]
# The end.
"#;

#[test]
fn a_value_is_replaced_and_all_else_stays() {
    let rows: [(&[&str], Written, &[&str]); 6] = [
        (
            &["item", "galley", "at", "rear"],
            text("14 in"),
            &[
                r#"-at        = { rear = "0 in", centre = "0 in" }   # against the door"#,
                r#"+at        = { rear = "14 in", centre = "0 in" }   # against the door"#,
            ],
        ),
        (
            &["item", "galley", "part"],
            text("galley-72"),
            &[r#"-part      = "galley-40""#, r#"+part      = "galley-72""#],
        ),
        (
            &["item", "table", "at", "front"],
            text("9 in"),
            &[r#"-at.front = "3 in""#, r#"+at.front = "9 in""#],
        ),
        (
            &["build", "number"],
            text("T-2"),
            &[r#"-number = "T-1"   # the number"#, r#"+number = "T-2"   # the number"#],
        ),
        (
            &["state", "out, full", "load", "pans", "mass"],
            text("5 lb"),
            &[
                r#"-    { what = "pans", mass = "9 lb", at = { rear = "4 in" } },   # in the galley"#,
                r#"+    { what = "pans", mass = "5 lb", at = { rear = "4 in" } },   # in the galley"#,
            ],
        ),
        (
            &["state", "out, full", "fill", "fresh"],
            text("60 %"),
            &[r#"-fill = { fresh = "100 %" }"#, r#"+fill = { fresh = "60 %" }"#],
        ),
    ];
    for (at, to, expected) in rows {
        let new = changed(SPEC, &[Change::set(at, to)]).unwrap();
        assert_eq!(differences(SPEC, &new), expected, "{at:?}");
    }
}

#[test]
fn a_key_that_stock_gave_so_far_is_added_where_it_belongs() {
    let rows: [(&[&str], Written, &[&str]); 5] = [
        (&["trailer", "axle", "ball"], text("8 ft 5 in"), &[r#"+axle = { ball = "8 ft 5 in" }"#]),
        (&["item", "galley", "mass"], text("60 lb"), &[r#"+mass      = "60 lb""#]),
        (&["item", "table", "at", "floor"], text("1 in"), &[r#"+at.floor = "1 in""#]),
        (
            &["state", "out, full", "fill", "grey"],
            text("0 %"),
            &[r#"-fill = { fresh = "100 %" }"#, r#"+fill = { fresh = "100 %", grey = "0 %" }"#],
        ),
        (
            &["water", "use_order"],
            Written::List(vec![text("fresh"), text("can")]),
            &["+water = { use_order = [\"fresh\", \"can\"] }"],
        ),
    ];
    for (at, to, expected) in rows {
        let new = changed(SPEC, &[Change::set(at, to)]).unwrap();
        let found = differences(SPEC, &new);
        assert_eq!(found, expected, "{at:?}");
    }
}

#[test]
fn what_goes_leaves_the_rest_as_it_was() {
    let sides = [
        Change::remove(&["item", "galley", "at", "centre"]),
        Change::set(&["item", "galley", "at", "left"], text("0 in")),
    ];
    let new = changed(SPEC, &sides).unwrap();
    let expected = [
        r#"-at        = { rear = "0 in", centre = "0 in" }   # against the door"#,
        r#"+at        = { rear = "0 in", left = "0 in" }   # against the door"#,
    ];
    assert_eq!(differences(SPEC, &new), expected);
    let new = changed(SPEC, &[Change::remove(&["state", "out, full", "load", "pans"])]).unwrap();
    assert_eq!(
        differences(SPEC, &new),
        [r#"-    { what = "pans", mass = "9 lb", at = { rear = "4 in" } },   # in the galley"#]
    );
}

#[test]
fn comments_in_a_list_stay_with_what_they_are_about() {
    let spec = "[[state]]\nname = \"s\"\nload = [ # all\n    { what = \"a\" }, # of a\n    # Of b.\n    { what = \"b\" }, # of b\n    { what = \"c\" }, # of c\n]\n";
    let without = |what: &str| changed(spec, &[Change::remove(&["state", "s", "load", what])]).unwrap();
    let left = |what: &str| differences(spec, &without(what));
    assert_eq!(left("a"), ["-    { what = \"a\" }, # of a"]);
    assert_eq!(left("b"), ["-    # Of b.", "-    { what = \"b\" }, # of b"]);
    assert_eq!(left("c"), ["-    { what = \"c\" }, # of c"]);
    let short = "[[state]]\nname = \"s\"\nload = [{ what = \"a\" }, { what = \"b\" }]\n";
    let without = |what: &str| changed(short, &[Change::remove(&["state", "s", "load", what])]).unwrap();
    assert!(without("a").ends_with("load = [{ what = \"b\" }]\n"), "{}", without("a"));
    assert!(without("b").ends_with("load = [{ what = \"a\" }]\n"), "{}", without("b"));
}

#[test]
fn a_new_part_gets_a_table_after_the_others() {
    let at = Written::Table(vec![("front".to_owned(), text("0 in"))]);
    let table = Written::Table(vec![
        ("kind".to_owned(), text("equipment")),
        ("mass".to_owned(), text("22 lb")),
        ("at".to_owned(), at),
    ]);
    let new = changed(SPEC, &[Change::set(&["item", "ballast"], table)]).unwrap();
    let expected = [
        "+[[item]]",
        "+tag  = \"ballast\"",
        "+kind = \"equipment\"",
        "+mass = \"22 lb\"",
        "+at   = { front = \"0 in\" }",
        "+",
    ];
    assert_eq!(differences(SPEC, &new), expected);
    let before = new.split("tag  = \"ballast\"").next().unwrap();
    assert!(before.contains("tag = \"table\"") && !before.contains("[[state]]"), "{new}");
}

#[test]
fn line_ends_marks_and_a_missing_last_line_end_stay() {
    let change = [Change::set(&["build", "number"], text("T-9"))];
    let windows = format!("\u{feff}{}", SPEC.replace('\n', "\r\n"));
    let new = changed(&windows, &change).unwrap();
    assert_eq!(new, windows.replace("T-1", "T-9"));
    let cut = SPEC.trim_end();
    assert_eq!(changed(cut, &change).unwrap(), cut.replace("T-1", "T-9"));
    let error = changed(&SPEC.replacen('\n', "\r\n", 1), &change).unwrap_err();
    assert_eq!(error, "some of its lines end in CR LF and some in LF; make them all alike first");
}

#[test]
fn keys_that_lead_nowhere_are_refused() {
    for at in
        [&["item", "stove", "at", "rear"][..], &["item", "galley", "tag", "x"], &["state", "in", "fill", "a"]]
    {
        let error = changed(SPEC, &[Change::set(at, text("1 in"))]).unwrap_err();
        assert_eq!(error, format!("`{}` cannot be found in it", at.join(".")));
    }
    assert!(changed("a = = 1\n", &[]).is_err());
}

/// A tree without places, its keys sorted, to compare.
fn bare(node: &Node) -> String {
    match &node.value {
        NodeValue::Table(entries) => {
            let mut entries: Vec<String> =
                entries.iter().map(|entry| format!("{:?}: {}", entry.key, bare(&entry.node))).collect();
            entries.sort();
            format!("{{{}}}", entries.join(", "))
        }
        NodeValue::Array(nodes) => format!("[{}]", nodes.iter().map(bare).collect::<Vec<_>>().join(", ")),
        NodeValue::Text { text, .. } => format!("{text:?}"),
        other => format!("{other:?}"),
    }
}

fn tree(text: &str) -> Node {
    let mut sources = Sources::new();
    let source = sources.add("spec.toml", text);
    let mut problems = Vec::new();
    let root = parse(&sources, source, &mut problems);
    assert_eq!(problems, [], "{text}");
    root
}

/// Any change that a remedy could be made of.
fn any_change() -> impl Strategy<Value = Change> {
    let place = prop::sample::select(vec![
        vec!["item", "galley", "at", "rear"],
        vec!["item", "galley", "at", "floor"],
        vec!["item", "galley", "mass"],
        vec!["item", "table", "at", "left"],
        vec!["item", "table", "at", "ceiling"],
        vec!["item", "table", "mass"],
        vec!["trailer", "axle", "ball"],
        vec!["trailer", "tongue"],
        vec!["trailer", "brakes"],
        vec!["water", "use_order"],
        vec!["state", "out, full", "fill", "grey"],
        vec!["state", "out, full", "load", "bags", "mass"],
        vec!["state", "out, full", "load", "pans", "at", "rear"],
        vec!["state", "out, full", "carry", "dog"],
    ]);
    let leaf = prop_oneof![
        "[a-z0-9 \"\\\\#=]{0,8}".prop_map(Written::Text),
        any::<i32>().prop_map(|count| Written::Count(count.into())),
        any::<bool>().prop_map(Written::Flag),
    ];
    let value = leaf.prop_recursive(2, 6, 3, |inner| {
        prop_oneof![
            prop::collection::vec(inner.clone(), 0..3).prop_map(Written::List),
            prop::collection::btree_map("[a-z]{1,4}( [a-z])?", inner, 0..3)
                .prop_map(|entries| Written::Table(entries.into_iter().collect())),
        ]
    });
    (place, value).prop_map(|(at, to)| Change::set(&at, to))
}

proptest! {
    /// What is written, read again, is what the same change makes of the tree: writer and patch agree. Comments stay.
    #[test]
    fn the_text_reads_as_the_changed_tree(changes in prop::collection::vec(any_change(), 1..4)) {
        // Two changes of one place, the second within the first, are none that a remedy makes.
        let mut kept: Vec<Change> = Vec::new();
        for change in changes {
            if kept.iter().all(|held| !change.at.starts_with(&held.at) && !held.at.starts_with(&change.at)) {
                kept.push(change);
            }
        }
        let new = changed(SPEC, &kept).unwrap();
        let mut expected = tree(SPEC);
        let mut sources = Sources::new();
        for change in &kept {
            let source = sources.add("value.toml", &format!("v = {}\n", change.to.as_ref().unwrap().toml()));
            let value = parse(&sources, source, &mut Vec::new());
            let steps: Vec<&str> = change.at.iter().map(String::as_str).collect();
            let span = expected.span;
            pintle_spec::patch::set_at(&mut expected, &steps, span, value.child("v").unwrap()).unwrap();
        }
        prop_assert_eq!(bare(&tree(&new)), bare(&expected), "{}", new);
        for comment in ["# The head of the file.", "# the number", "# as it came", "# The galley.", "# at the rear", "# against the door", "# Packed last.", "# in the galley", "# The end."] {
            prop_assert!(new.contains(comment), "{} is gone from\n{}", comment, new);
        }
    }
}
