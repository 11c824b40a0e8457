//! What measures something else, functions held against what they take, and readings that come to nothing.

use super::super::Bench;
use super::says;

#[test]
fn what_measures_something_else_is_not_compared_or_added() {
    let mixed = "a mass and a length cannot be added or compared";
    says(&[
        ("road state", "state.gross > trailer.length;", mixed, "", ">"),
        ("road state", "state.gross >= trailer.length;", mixed, "", ">="),
        ("road state", "state.gross + trailer.length;", mixed, "", "+"),
        ("road state", "let sum = state.gross; sum += trailer.length;", mixed, "", "+="),
        ("road state", "greater(state.gross, trailer.length);", mixed, "", "greater"),
        ("road state", "reading(state.gross).at_most(trailer.length);", mixed, "", "at_most"),
        ("road state", "reading(state.gross).between(limit.most, trailer.length);", mixed, "", "between"),
        ("road state", "reading(state.gross).named(\"x\").at_most(trailer.length);", mixed, "", "at_most"),
        ("road state", "let r = reading(state.gross); r.at_most(trailer.length);", mixed, "", "at_most"),
        (
            "road state",
            "reading(state.gross).at_most(limit.least);",
            "a mass and a share cannot be added or compared",
            "",
            "at_most",
        ),
        (
            "road state",
            "reading(state.gross / trailer.length).at_most(limit.most);",
            "a mass per length and a mass cannot be added or compared",
            "",
            "at_most",
        ),
        (
            "road state",
            "reading(limit.least * state.gross).at_most(quantity(\"3 in\"));",
            mixed,
            "",
            "at_most",
        ),
        (
            "space/headroom",
            "reading(figure.value).at_least(quantity(\"3 lb\"));",
            "a length and a mass cannot be added or compared",
            "",
            "at_least",
        ),
        (
            "item",
            "reading(item[\"space/lift_share\"]).at_most(limit.most);",
            "a share and a mass cannot be added or compared",
            "",
            "at_most",
        ),
        ("build", "fn over(a, b) { a - b } over(trailer.gvwr, trailer.length);", mixed, "", "-"),
        (
            "build",
            "fn wall() { return trailer_wall(); } fn trailer_wall() { quantity(\"2 in\") } wall() > limit.most;",
            "a length and a mass cannot be added or compared",
            "",
            ">",
        ),
    ]);
    let mut bench = Bench::new();
    let said = bench.checked("road state", "reading(state.gross).at_most(trailer.axle.track);");
    assert_eq!(
        said[0].2,
        [
            ("at_most".to_owned(), "not like with like".to_owned()),
            ("gross".to_owned(), "a mass".to_owned()),
            ("track".to_owned(), "a length".to_owned()),
        ]
    );
}

#[test]
fn quantities_that_cannot_be_read_are_said() {
    let mut bench = Bench::new();
    for (text, said) in
        [("3 lbz", "`lbz` is not a known unit"), ("3", "no unit"), ("", "missing"), ("3 lb lb", "")]
    {
        let (message, _, marked) = bench.one("build", &format!("quantity(\"{text}\");"));
        assert!(message.contains(said), "{text}: {message}");
        assert_eq!(marked, format!("\"{text}\""), "{message}");
    }
}

#[test]
fn functions_are_held_against_what_they_take() {
    let unit = "write the number with its unit, as in `quantity(\"3 lb\")`";
    says(&[
        (
            "road state",
            "reading(3).at_most(limit.most);",
            "`reading` does not work on a whole number",
            unit,
            "reading",
        ),
        (
            "road state",
            "reading(state.gross).at_most(110);",
            "`at_most` does not work on a reading and a whole number",
            unit,
            "at_most",
        ),
        (
            "road state",
            "count(state);",
            "`count` does not work on a part of the build",
            "it works on a list",
            "count",
        ),
        (
            "road state",
            "has(\"state\", \"gross\");",
            "`has` does not work on a text and a text",
            "it works on a thing and a text",
            "has",
        ),
        (
            "road state",
            "require(state.gross, \"x\");",
            "`require` does not work on a quantity and a text",
            "it works on a yes or no and a text",
            "require",
        ),
        (
            "road state",
            "abs();",
            "`abs` needs something to work on",
            "it works on a quantity, or a whole number, or a number",
            "abs",
        ),
        (
            "road state",
            "if state.gross == 3 { }",
            "a quantity and a whole number cannot be compared",
            unit,
            "==",
        ),
        (
            "road state",
            "state.gross * \"2\" == 1; state.gross + 1;",
            "`+` does not work on a quantity and a whole number",
            unit,
            "+",
        ),
        ("road state", "if !state.gross { }", "`!` does not work on a quantity", "", "!"),
        ("road state", "let a = state.name < \"b\";", "`<` does not compare a text with a text", "", "<"),
        (
            "road state",
            "if state.on_road && state.gross { }",
            "a condition is a yes or no, and this is a mass",
            "",
            "gross",
        ),
        ("road state", "while state { }", "a condition is a yes or no, and this is a state", "", "state"),
        ("road state", "for x in state.gross { }", "a mass cannot be gone through one by one", "", "gross"),
        ("road state", "state.gross.weight;", "a mass has nothing that can be asked by name", "", "weight"),
        ("road state", "state[3];", "a state cannot be looked into by a whole number", "", "3"),
    ]);
}

#[test]
fn readings_that_come_to_nothing_are_said() {
    says(&[
        (
            "road state",
            "reading(state.gross);",
            "this reading is compared with nothing",
            "compare it, as in `.at_most(limit.most)`",
            "reading",
        ),
        (
            "road state",
            "reading(state.gross).remedy(\"carry less\");",
            "this reading is compared with nothing",
            "compare it, as in `.at_most(limit.most)`",
            "reading",
        ),
        (
            "road state",
            "if state.on_road { reading(state.gross) }",
            "this reading is compared with nothing",
            "compare it, as in `.at_most(limit.most)`",
            "reading",
        ),
        (
            "road state",
            "reading(state.gross).at_most(limit.most).at_least(limit.most);",
            "a reading takes one limit",
            "begin another reading for the second",
            "at_least",
        ),
        (
            "road state",
            "require(true, \"x\").at_most(limit.most);",
            "a condition takes no limit",
            "",
            "at_most",
        ),
        ("road state", "return; let a = 1;", "this is never reached", "", "let"),
        (
            "road state",
            "if true { throw \"x\"; } else { return; } let a = 1;",
            "this is never reached",
            "",
            "let",
        ),
        ("road state", "not_applicable(\"x\"); state.gross;", "this is never reached", "", "gross"),
        ("road state", "for n in 0..3 { break; state.gross; }", "this is never reached", "", "gross"),
    ]);
    let mut bench = Bench::new();
    for text in ["", "// nothing", "let a = state.gross;", "fn f() { 1 } f();"] {
        let said = bench.checked("road state", text);
        assert_eq!(said.len(), 1, "{text}: {said:?}");
        assert_eq!(said[0].0, "it takes no reading and never says why not");
    }
}
