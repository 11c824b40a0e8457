//! The check before the run and the run agree: what is refused would have failed, and what fails for its sorts is refused.

use super::Bench;
use crate::functions;
use crate::recorder::End;

/// One expression of each sort.
const SORTS: &[&str] = &[
    "state.gross",
    "trailer.length",
    "state.tongue_share",
    "3",
    "3.5",
    "\"inside\"",
    "true",
    "()",
    "[1]",
    "[\"a\"]",
    "#{ a: 1 }",
    "'a'",
    "trailer",
    "state",
    "limit",
    "reading(state.gross)",
    "require(true, \"x\")",
    "(1..3)",
];

/// Whether a use is refused before it runs, and the message with which it fails when it runs all the same.
fn tried(bench: &mut Bench, usage: &str) -> (bool, Option<String>) {
    let text = format!("require(true, \"fine\"); let asked = {usage};");
    let refused = !bench.checked("road state", &text).is_empty();
    let failed = match bench.judge_a("road state", &text) {
        Ok(judgement) => match judgement.end {
            End::Failed { message, .. } => Some(message),
            _ => None,
        },
        Err(error) => Some(error.message),
    };
    (refused, failed)
}

/// Holds a use against both. Where its sorts are such that the check must know, what fails is refused.
#[track_caller]
fn hold(bench: &mut Bench, usage: &str, must_know: impl Fn(&str) -> bool) {
    match tried(bench, usage) {
        (true, None) => panic!("`{usage}` runs, and is refused"),
        (false, Some(message)) if must_know(&message) => panic!("`{usage}` is not refused: {message}"),
        _ => {}
    }
}

#[test]
fn signs_between_any_two_sorts() {
    let mut bench = Bench::new();
    let told = |side: &str| !["#{ a: 1 }", "'a'", "limit", "(1..3)"].contains(&side);
    for left in SORTS {
        for right in SORTS {
            for sign in ["==", "!=", "<", "<=", ">", ">="] {
                hold(&mut bench, &format!("{left} {sign} {right}"), |_| told(left) && told(right));
            }
            let reckoned = |side: &str| {
                ["state.gross", "trailer.length", "state.tongue_share", "3", "3.5", "true", "trailer"]
                    .contains(&side)
            };
            for sign in ["+", "-", "*", "/", "%", "**"] {
                hold(&mut bench, &format!("{left} {sign} {right}"), |_| reckoned(left) && reckoned(right));
            }
            // What decides by itself leaves the other side unread.
            for sign in ["&&", "||"].into_iter().filter(|sign| *sign == "&&" || *left != "true") {
                hold(&mut bench, &format!("{left} {sign} {right}"), |_| told(left) && told(right));
            }
            hold(&mut bench, &format!("{left} ?? {right}"), |_| false);
            hold(&mut bench, &format!("{left}[{right}]"), |_| false);
            hold(&mut bench, &format!("{left} in {right}"), |_| false);
        }
    }
}

#[test]
fn every_function_of_any_sorts() {
    let mut bench = Bench::new();
    let unfit = |message: &str| message.contains("does not work on") || message.contains("needs something");
    for function in functions::ALL {
        let name = function.name;
        hold(&mut bench, &format!("{name}()"), unfit);
        for first in SORTS {
            hold(&mut bench, &format!("{name}({first})"), unfit);
            for second in SORTS {
                hold(&mut bench, &format!("{name}({first}, {second})"), unfit);
                hold(&mut bench, &format!("({first}).{name}({second})"), |_| false);
            }
        }
    }
    let few = [
        "state.gross",
        "trailer.length",
        "3",
        "3.5",
        "\"inside\"",
        "trailer",
        "reading(state.gross)",
        "require(true, \"x\")",
        "[1]",
    ];
    for name in ["between", "marks", "range", "count"] {
        for first in few {
            for second in few {
                for third in few {
                    hold(&mut bench, &format!("{name}({first}, {second}, {third})"), unfit);
                }
            }
        }
    }
}

#[test]
fn other_uses_of_any_sort() {
    let mut bench = Bench::new();
    for one in SORTS {
        for usage in [
            format!("!({one})"),
            format!("-({one})"),
            format!("({one}).zebra"),
            format!("({one})[\"zebra\"]"),
            format!("({one})[0]"),
            format!("`${{{one}}}`"),
            format!("[{one}, 1][0]"),
            format!("if {one} {{ 1 }} else {{ 2 }}"),
            format!("{{ let n = 0; for x in {one} {{ n += 1; break; }} n }}"),
            format!("{{ let x = {one}; x += 1; x }}"),
            format!("{{ let x = {one}; x += x; x }}"),
            format!("{{ let x = {one}; x.y = 1; x }}"),
            format!("{{ let x = {one}; x[0] = 1; x }}"),
        ] {
            hold(&mut bench, &usage, |_| false);
        }
    }
}

/// What a function of the script's own sees, and what it can change.
#[test]
fn functions_of_the_scripts_own() {
    let mut bench = Bench::new();
    for (before, usage) in [
        ("const K = 3; fn f() { K + 1 }", "f()"),
        ("let k = 3; fn f() { k + 1 }", "f()"),
        ("fn f() { state.gross }", "f()"),
        ("fn f(state) { state.gross }", "f(state)"),
        ("fn f(state) { state.gros }", "f(state)"),
        ("fn f(a) { a + 1 }", "f(state.gross)"),
        ("fn f(a) { a + 1 }", "f(1)"),
        ("fn f(a) { a.push(state); a } let l = [];", "f(l)"),
        ("fn f(x) { this.push(x); } let l = [1];", "{ l.f(state); l[1].gross }"),
        ("fn f() { this + 1 }", "state.gross.f()"),
        ("fn f(a, b) { a }", "f(1)"),
        ("fn f(a) { if a > limit.most { return a; } a }", "f(state.gross)"),
        ("fn f(a, m) { if a > m { return a; } 1 }", "f(state.gross, limit.most) > limit.most"),
    ] {
        let text = format!("require(true, \"fine\"); {before} let asked = {usage};");
        let refused = bench.checked("road state", &text);
        let judged = bench.judge_a("road state", &text);
        let failed = judged.map_or(true, |judgement| matches!(judgement.end, End::Failed { .. }));
        assert!(refused.is_empty() || failed, "{text} runs, and is refused: {refused:?}");
    }
}
