//! A script works with the names it is given, and cannot put others in their place.

use super::{Bench, at};
use crate::measured::Limit;
use std::rc::Rc;

#[test]
fn given_names_cannot_be_made_anew() {
    let mut bench = Bench::new();
    for name in ["limit", "state", "build", "trailer", "tow", "people"] {
        let said = format!("`{name}` is given to the rule; call this one something else");
        at(&bench.refused(&format!("\nlet {name} = quantity(\"1 lb\");")), 2, 5, &said);
        at(&bench.refused(&format!("const {name} = 1;")), 1, 7, &said);
        at(&bench.refused(&format!("if true {{ let {name} = 1; }}")), 1, 15, &said);
        assert_eq!(bench.refused(&format!("for {name} in [1] {{ }}")).message, said);
        assert_eq!(bench.refused(&format!("for (n, {name}) in [1] {{ }}")).message, said);
        assert_eq!(bench.refused(&format!("fn f() {{ let {name} = 1; }}")).message, said);
    }
}

#[test]
fn given_names_cannot_be_set() {
    let mut bench = Bench::new();
    for name in ["limit", "state", "build", "trailer", "tow", "people"] {
        let said = format!("`{name}` is given to the rule and cannot be changed by it");
        at(&bench.fails(&format!("require(true, \"x\");\n{name} = 1;")), 2, 1, &said);
        assert_eq!(bench.fails(&format!("{name} += 1;")).message, said);
        let held = "what is given to a rule cannot be changed by it";
        assert_eq!(bench.fails(&format!("{name}.gross = quantity(\"1 lb\");")).message, held);
        assert_eq!(bench.fails(&format!("{name}[\"gross\"] = quantity(\"1 lb\");")).message, held);
    }
    let said = "what is given to a rule cannot be changed by it";
    at(&bench.fails("limit.most = quantity(\"9000 lb\");"), 1, 7, said);
}

/// A copy under another name cannot be set either, so what is read is always what the host gives.
#[test]
fn copies_of_given_things_cannot_be_set() {
    let mut bench = Bench::new();
    for text in
        ["let l = limit; l.most = quantity(\"9000 lb\");", "let s = state; s.gross = quantity(\"1 lb\");"]
    {
        assert_eq!(bench.fails(text).message, "what is given to a rule cannot be changed by it", "{text}");
    }
}

#[test]
fn the_tools_own_functions_cannot_be_made_anew() {
    let mut bench = Bench::new();
    for name in crate::functions::names() {
        let said = format!("`{name}` is the tool's own function; call this one something else");
        at(&bench.refused(&format!("let a = 1;\n  fn {name}(x) {{ x }}")), 2, 3, &said);
        assert_eq!(bench.refused(&format!("private fn {name}(a, b) {{ a }}")).message, said);
    }
}

/// The list of functions that a script may call is the list of those there are.
#[test]
fn every_function_in_the_list_is_there() {
    let mut bench = Bench::new();
    for name in crate::functions::names() {
        let message = bench.fails(&format!("{name}(#{{}}, #{{}}, #{{}}, #{{}}, #{{}});")).message;
        assert!(message.starts_with(&format!("`{name}` does not work on a map")), "{message}");
    }
}

#[test]
fn a_scripts_own_functions_are_its_own() {
    let mut bench = Bench::new();
    let text = "fn share(state, limit) { state.tongue / state.gross }\n\
                reading(share(state, 1)).named(\"tongue share\").at_least(limit.least);";
    let judgement = bench.judge(text);
    assert!(judgement.drafts[0].passes);
    assert_eq!(judgement.drafts[0].what, "tongue share");
}

#[test]
fn functions_do_not_see_what_is_given() {
    let mut bench = Bench::new();
    let said = "there is no variable `state` here; a function works with what it is handed";
    at(&bench.fails("fn f() {\n  state.gross\n}\nf();"), 2, 3, said);
}

/// What is handed to a script is the limit in force, whichever way it is asked for.
#[test]
fn the_limit_in_force_is_what_a_script_gets() {
    let mut bench = Bench::new();
    let judgement = bench.judge("reading(state.gross).at_most(limit[\"most\"]);");
    let held: Option<Rc<Limit>> = match &judgement.drafts[0].comparison {
        Some(crate::Comparison::AtMost(limit)) => limit.limit.clone(),
        other => panic!("{other:?}"),
    };
    assert_eq!(held.unwrap().name, "most");
}
