//! Like is compared with like; anything else is an error, never "not equal".

use super::{Bench, at};
use crate::recorder::End;

const SIGNS: [&str; 6] = ["==", "!=", "<", "<=", ">", ">="];

/// One expression of each sort, and what the sort is called.
const SORTS: &[(&str, &str)] = &[
    ("state.gross", "a quantity"),
    ("3", "a whole number"),
    ("3.5", "a number"),
    ("\"inside\"", "a text"),
    ("true", "a yes or no"),
    ("()", "nothing"),
    ("[1]", "a list"),
    ("#{ a: 1 }", "a map"),
    ("'a'", "a letter"),
    ("trailer", "a part of the build"),
    ("limit", "the limits"),
    ("require(true, \"x\")", "a reading"),
    ("(1..3)", "a range"),
];

#[test]
fn unlike_sorts_are_never_compared() {
    let mut bench = Bench::new();
    for (one, called) in SORTS {
        for (other, also) in SORTS.iter().filter(|(other, _)| other != one) {
            for sign in SIGNS {
                let failure =
                    bench.fails(&format!("if {one} {sign} {other} {{ }}\nrequire(true, \"fine\");"));
                let said = format!("{called} and {also} cannot be compared");
                assert!(failure.message.starts_with(&said), "{one} {sign} {other}: {failure:?}");
                assert_eq!(
                    (failure.line, failure.column),
                    (Some(1), Some(5 + one.len())),
                    "{one} {sign} {other}"
                );
            }
        }
    }
}

#[test]
fn a_bare_number_beside_a_quantity_is_told_to_take_its_unit() {
    let mut bench = Bench::new();
    let said = "a quantity and a whole number cannot be compared; write the number with its unit, as in `quantity(\"3 lb\")`";
    at(&bench.fails("if state.gross == 3 { require(true, \"fine\"); }"), 1, 16, said);
    at(&bench.fails("let wrong = state.gross != 3;"), 1, 25, said);
}

#[test]
fn sorts_without_an_order_or_an_equal_are_not_compared_with_themselves() {
    let mut bench = Bench::new();
    for (one, signs) in [
        ("\"a\"", &SIGNS[2..]),
        ("true", &SIGNS[2..]),
        ("trailer", &SIGNS[2..]),
        ("[1]", &SIGNS[..]),
        ("#{ a: 1 }", &SIGNS[..]),
        ("()", &SIGNS[..]),
        ("'a'", &SIGNS[..]),
        ("limit", &SIGNS[..]),
    ] {
        for sign in signs {
            let failure = bench.fails(&format!("let x = {one} {sign} {one};"));
            assert!(
                failure.message.starts_with(&format!("`{sign}` does not compare ")),
                "{one} {sign}: {failure:?}"
            );
        }
    }
}

#[test]
fn like_sorts_are_compared() {
    let mut bench = Bench::new();
    for holds in [
        "1 == 1",
        "1 != 2",
        "1 < 2",
        "2 <= 2",
        "3 > 2",
        "3 >= 3",
        "0.1 + 0.2 == 0.3",
        "1.5 != 2.5",
        "1.5 < 2.5",
        "1.5 <= 1.5",
        "2.5 > 1.5",
        "2.5 >= 2.5",
        "\"a\" == \"a\"",
        "\"a\" != \"b\"",
        "true == true",
        "true != false",
        "state == state",
        "state != trailer",
        "trailer.axle == trailer.axle",
        "trailer != trailer.axle",
        "state.gross == quantity(\"2000 lb\")",
        "state.gross != quantity(\"2001 lb\")",
        "state.gross < limit.most",
        "state.tongue_share >= limit.least",
        "state.gross == quantity(\"907.18474 kg\")",
        "!(state.gross > state.gross)",
        "!(state.gross < state.gross)",
    ] {
        for (text, passes) in [(holds.to_owned(), true), (format!("!({holds})"), false)] {
            let judgement = bench.judge(&format!("require({text}, \"it holds\");"));
            assert!(matches!(judgement.end, End::Done), "{text}: {:?}", judgement.end);
            assert_eq!(judgement.drafts[0].passes, passes, "{text}");
        }
    }
}

#[test]
fn only_a_yes_or_no_decides() {
    let mut bench = Bench::new();
    let wanted = "expected a yes or no, found a quantity";
    at(&bench.fails("if state.gross { require(true, \"fine\"); }"), 1, 9, wanted);
    assert_eq!(bench.fails("if state.gross && true { }").message, wanted);
    assert_eq!(bench.fails("if false || state.gross { }").message, wanted);
    assert_eq!(bench.fails("while state.gross { }").message, wanted);
    at(
        &bench.fails("require(state.gross, \"x\");"),
        1,
        1,
        "`require` does not work on a quantity and a text",
    );
    assert_eq!(bench.fails("let x = !state.gross;").message, "`!` does not work on a quantity");
}

#[test]
fn pounds_and_inches_do_not_mix() {
    let mut bench = Bench::new();
    let mixed = bench.fails("let ok = true;\nlet sum = state.gross + trailer.axle.track;");
    assert_eq!((mixed.line, mixed.column), (Some(2), Some(23)));
    assert_eq!(mixed.message, "a mass and a length cannot be added or compared");
    for text in [
        "if state.gross > trailer.axle.track { }",
        "if state.gross == trailer.axle.track { }",
        "let d = state.gross - trailer.axle.track;",
        "greater(state.gross, trailer.axle.track);",
        "lesser(state.gross, trailer.axle.track);",
        "reading(state.gross).at_most(trailer.axle.track);",
        "reading(state.gross).at_least(limit.least);",
        "reading(state.gross).between(limit.most, trailer.axle.track);",
        "reading(state.gross).equals(trailer.axle.track);",
    ] {
        let failure = bench.fails(text);
        assert!(failure.message.contains("cannot be added or compared"), "{text}: {failure:?}");
    }
    assert_eq!(
        bench.fails("let a = state.gross + 3;").message,
        "`+` does not work on a quantity and a whole number"
    );
}
