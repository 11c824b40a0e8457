//! What a script may not do at all, and what it may do wrong.

use super::{Bench, at};
use crate::recorder::End;

#[test]
fn what_reaches_outside_has_no_place_in_a_rule() {
    let mut bench = Bench::new();
    for (word, text) in [
        ("eval", "eval(\"1\");"),
        ("import", "import \"x\" as y;"),
        ("export", "let x = 1; export x;"),
        ("print", "print(\"x\");"),
        ("debug", "debug(state);"),
        ("try", "try { state.gross } catch { }"),
        ("switch", "switch state.gross { _ => 1 }"),
        ("Fn", "let f = Fn(\"reading\");"),
        ("call", "call(state);"),
        ("curry", "curry(state);"),
        ("type_of", "type_of(state);"),
        ("is_def_var", "is_def_var(\"state\");"),
    ] {
        let failure = bench.refused(&format!("\n{text}"));
        assert_eq!(failure.message, format!("`{word}` has no place in a rule"));
        assert_eq!(failure.line, Some(2), "{word}");
    }
}

#[test]
fn functions_cannot_be_kept_as_values() {
    let mut bench = Bench::new();
    for text in
        ["let f = |x| x;", "let f = || state.gross;", "let n = 1; n.call(2);", "let n = 1; n.curry(2);"]
    {
        let failure = bench.refused(text);
        assert_eq!(failure.line, Some(1), "{text}: {failure:?}");
    }
}

/// A missing value ends the script: no way back into it, and so no way to a pass.
#[test]
fn a_missing_value_cannot_be_caught() {
    let mut bench = Bench::new();
    let caught =
        "try { reading(trailer.tire_rating).at_most(limit.most); } catch { require(true, \"fine\"); }";
    assert_eq!(bench.refused(caught).message, "`try` has no place in a rule");
    for text in [
        "let weight = trailer.jack.rating ?? quantity(\"1 lb\"); reading(weight).at_most(limit.most);",
        "if trailer.jack.rating > limit.most || true { require(true, \"fine\"); }",
        "reading(trailer?.jack?.rating).at_most(limit.most);",
        "fn weigh(trailer) { trailer.jack.rating } reading(weigh(trailer)).at_most(limit.most);",
    ] {
        let judgement = bench.judge(text);
        assert!(matches!(judgement.end, End::Missing(_)), "{text}: {:?}", judgement.end);
        assert!(judgement.drafts.is_empty(), "{text}");
    }
}

#[test]
fn thrown_values_are_failures() {
    let mut bench = Bench::new();
    at(&bench.fails("\n  throw \"so there\";"), 2, 3, "the script threw `so there`");
    at(&bench.fails("throw 3;"), 1, 1, "the script threw a whole number");
    at(&bench.fails("throw;"), 1, 1, "the script threw nothing");
    at(&bench.fails("throw state;"), 1, 1, "the script threw a part of the build");
    at(&bench.fails("fn f() {\n throw \"deep\"\n}\nf();"), 2, 2, "the script threw `deep`");
}

#[test]
fn arithmetic_that_comes_to_nothing_is_a_failure() {
    let mut bench = Bench::new();
    at(
        &bench.fails("let a = state.gross / (state.gross - state.gross);"),
        1,
        21,
        "division of 2,000 lb by zero",
    );
    at(&bench.fails("let a = state.gross / 0;"), 1, 21, "division of 2,000 lb by zero");
    at(&bench.fails("let a = state.gross / 0.0;"), 1, 21, "division of 2,000 lb by zero");
    at(&bench.fails("let a = 1 / 0;"), 1, 11, "division by zero: 1 / 0");
    let whole = "9223372036854775807";
    at(&bench.fails(&format!("let a = {whole} + 1;")), 1, 29, &format!("addition overflow: {whole} + 1"));
    at(&bench.fails("let a = 2 ** 63;"), 1, 11, "exponential overflow: 2 ** 63");
    at(&bench.fails("let a = 7 % 0;"), 1, 11, "modulo division by zero or overflow: 7 % 0");
}

#[test]
fn infinite_values_and_those_that_are_no_number_pass_nothing() {
    let mut bench = Bench::new();
    let none = "this comes to no finite number";
    at(&bench.fails("reading(state.gross).at_most(limit.most * (1.0 / 0.0));"), 1, 41, none);
    at(&bench.fails("reading(state.gross * (0.0 / 0.0)).at_most(limit.most);"), 1, 21, none);
    at(&bench.fails("reading(state.gross).at_most(1e400 * limit.most);"), 1, 36, none);
    at(&bench.fails("reading(state.gross * 1e308 * 1e308).at_most(limit.most);"), 1, 21, none);
    at(&bench.fails("let a = state.gross / 1e-320;"), 1, 21, none);
    at(&bench.fails("if 0.0 / 0.0 < 1.0 { require(true, \"fine\"); }"), 1, 14, none);
    for text in ["inf lb", "nan lb", "infinity lb", "1e999 lb"] {
        assert!(bench.fails(&format!("quantity(\"{text}\");")).message.starts_with(&format!("`{text}`: ")));
    }
}

/// A fault inside the tool, here in a function of the host's, ends the run and not the engine.
#[test]
fn a_panic_of_the_host_is_a_failure() {
    let mut bench = Bench::new();
    bench.engine.rhai.register_fn("abs", |_: i64| -> i64 { panic!("meant to happen") });
    let failure = bench.fails("reading(state.gross).at_most(limit.most); abs(1);");
    assert_eq!(failure.message, "a fault inside the tool; please report it");
}

/// The same, while the list of readings is being written to.
#[test]
fn a_panic_while_a_reading_is_taken_leaves_the_list_usable() {
    let mut bench = Bench::new();
    let drafts = std::rc::Rc::clone(&bench.engine.drafts);
    bench.engine.rhai.register_fn("abs", move |_: i64| -> i64 {
        let _held = drafts.borrow_mut();
        panic!("meant to happen")
    });
    assert_eq!(bench.fails("abs(1);").message, "a fault inside the tool; please report it");
}
