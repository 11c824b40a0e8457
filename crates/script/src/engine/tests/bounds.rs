//! Scripts that run on, grow or nest: each is stopped with a plain message, and the engine judges on.

use super::{Bench, at};

const TOO_LONG: &str = "the script took more than 50000 operations";
const LIST: &str = "the script made a list of more than 1000 entries or letters";
const TEXT: &str = "the script made a text of more than 1000 entries or letters";

#[test]
fn endless_loops_are_stopped_where_they_stand() {
    let mut bench = Bench::new();
    for text in ["loop { }", "while true { }", "do { } while true;", "for i in 0..9223372036854775807 { }"] {
        let failure = bench.fails(&format!("\n{text}"));
        assert_eq!(failure.message, TOO_LONG, "{text}");
        assert_eq!(failure.line, Some(2), "{text}");
    }
}

#[test]
fn endless_recursion_is_stopped_where_it_began() {
    let mut bench = Bench::new();
    let deep = "the script's functions call each other too deeply";
    at(&bench.fails("fn dig(n) { dig(n + 1) }\n  dig(0);"), 2, 3, deep);
    at(&bench.fails("fn there() { back() }\nfn back() {\n  there()\n}\nthere();"), 5, 1, deep);
}

#[test]
fn recursion_inside_deep_expressions_is_stopped_before_the_stack_ends() {
    let mut bench = Bench::new();
    let inner = format!("{}dig(n){}", "(".repeat(7), " + 1)".repeat(7));
    let failure = bench.fails(&format!("fn dig(n) {{ {inner} }} dig(0);"));
    assert_eq!(failure.message, "the script's functions call each other too deeply");
}

#[test]
fn doubled_texts_are_stopped() {
    let mut bench = Bench::new();
    at(&bench.fails("let s = \"ab\";\nloop {\n  s += s;\n}"), 3, 5, TEXT);
    assert_eq!(bench.fails("let s = \"ab\"; loop { s = `${s}${s}`; }").message, TEXT);
    assert_eq!(bench.fails("let s = \"ab\"; loop { s = s + s; }").message, TEXT);
    assert_eq!(bench.fails("let s = [\"ab\"]; loop { s[0] += s[0]; }").message, TEXT);
}

#[test]
fn growing_lists_are_stopped() {
    let mut bench = Bench::new();
    at(&bench.fails("let l = [1];\nloop {\n  l += l;\n}"), 3, 5, LIST);
    assert_eq!(bench.fails("let l = [1]; loop { l += 1; }").message, LIST);
    assert_eq!(bench.fails("let l = [1]; loop { l = [l, l]; }").message, LIST);
    assert_eq!(
        bench.fails("let l = []; loop { l.push(build); }").message,
        "a list of more than 1000 entries"
    );
}

#[test]
fn growing_maps_are_stopped() {
    let mut bench = Bench::new();
    let failure = bench.fails("let m = #{ a: 1 }; loop { m = #{ a: m, b: m }; }");
    assert_eq!(failure.message, "the script made a map of more than 1000 entries or letters");
    assert_eq!(bench.fails("let m = #{}; let i = 0; loop { m[`${i}`] = i; i += 1; }").message, TOO_LONG);
}

#[test]
fn many_variables_are_stopped() {
    let mut bench = Bench::new();
    let text = (0..100).map(|n| format!("let v{n} = {n};")).collect::<Vec<_>>().join("\n");
    assert_eq!(bench.fails(&text).message, "the script keeps too many variables");
}

/// A figure's trace is unfolded when it is shown: thirty doublings would unfold into a thousand million figures.
#[test]
fn formulas_that_double_themselves_are_stopped() {
    let mut bench = Bench::new();
    let long = "a formula of more than 200 figures";
    at(&bench.fails("let sum = state.gross;\nfor i in 0..30 {\n  sum = sum + sum;\n}"), 3, 13, long);
    for formula in ["sum - sum", "sum / sum * sum", "greater(sum, sum)", "lesser(sum, sum)"] {
        let text = format!("let sum = state.gross; for i in 0..30 {{ sum = {formula}; }}");
        assert_eq!(bench.fails(&text).message, long, "{formula}");
    }
    let failure = bench.fails("let sum = state.gross; loop { sum += state.tongue; }");
    assert_eq!(failure.message, long);
}

#[test]
fn many_long_formulas_are_stopped() {
    let mut bench = Bench::new();
    let text = "let sum = state.gross; for i in 0..150 { sum += state.tongue; }\n\
                loop { reading(sum).at_most(limit.most); }";
    let failure = bench.fails(text);
    assert_eq!(failure.message, "readings of more than 4000 figures on one subject");
    assert_eq!(failure.line, Some(2));
}

#[test]
fn readings_and_marks_are_counted() {
    let mut bench = Bench::new();
    let failure = bench.fails("loop {\n  require(true, \"all is well\");\n}");
    at(&failure, 2, 3, "more than 200 readings on one subject");
    assert_eq!(bench.judge("for i in 0..200 { require(true, \"all is well\"); }").drafts.len(), 200);
    let failure = bench.fails("let r = require(false, \"x\");\nloop {\n  r.marks(build, \"here\");\n}");
    at(&failure, 3, 5, "more than 100 marks on one reading");
}

#[test]
fn long_and_nested_scripts_are_refused() {
    let mut bench = Bench::new();
    assert_eq!(bench.refused(&"let a = 1;\n".repeat(100_000)).message, "the script is longer than 16 KB");
    assert_eq!(bench.refused(&" ".repeat(1 << 20)).message, "the script is longer than 16 KB");
    let nested = [
        format!("let a = {}1{};", "(".repeat(2_000), ")".repeat(2_000)),
        format!("let a = {}1{};", "[".repeat(2_000), "]".repeat(2_000)),
        format!("let a = {}1{};", "`${".repeat(2_000), "}`".repeat(2_000)),
        format!("let a = {}true;", "!".repeat(2_000)),
        format!("let a = 1{};", " + 1".repeat(2_000)),
        format!("let a = build{};", ".a".repeat(2_000)),
        format!("{}{}", "{".repeat(2_000), "}".repeat(2_000)),
        format!("if true {{}}{}", " else if true {}".repeat(900)),
    ];
    for text in nested {
        let failure = bench.refused(&text);
        assert_eq!(failure.message, "the expression is nested too deeply", "{:?}", text.get(..20));
        assert_eq!(failure.line, Some(1));
    }
    let functions = (0..100).map(|n| format!("fn f{n}() {{ {n} }}")).collect::<Vec<_>>().join("\n");
    assert_eq!(bench.refused(&functions).message, "the script defines too many functions");
}
