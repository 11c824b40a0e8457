//! Names that nothing has, words that a field never holds, and what is given and may not be set.

use super::super::Bench;
use super::says;

const REFERENCE: &str = "the script reference lists what it can be asked for";

#[test]
fn names_that_nothing_has_are_said_with_the_nearest() {
    says(&[
        ("road state", "state.gros;", "a state has no `gros`", "did you mean `gross`?", "gros"),
        ("item", "item.lenght;", "a part has no `lenght`", "did you mean `length`?", "lenght"),
        ("tank", "item.lenght;", "a tank has no `lenght`", "did you mean `length`?", "lenght"),
        ("opening", "opening.zebra;", "an opening has no `zebra`", REFERENCE, "zebra"),
        ("build", "trailer.axle.gawrr;", "`axle` has no `gawrr`", "did you mean `gawr`?", "gawrr"),
        ("build", "trailer[\"axle\"].gawrr;", "`axle` has no `gawrr`", "did you mean `gawr`?", "gawrr"),
        ("build", "trailer[\"gvrw\"];", "the trailer has no `gvrw`", "did you mean `gvwr`?", "\"gvrw\""),
        ("build", "has(trailer, \"gvrw\");", "the trailer has no `gvrw`", "did you mean `gvwr`?", "\"gvrw\""),
        ("build", "trailer.has(\"gvrw\");", "the trailer has no `gvrw`", "did you mean `gvwr`?", "\"gvrw\""),
        (
            "build",
            "has(trailer.axle, \"trak\");",
            "`axle` has no `trak`",
            "did you mean `track`?",
            "\"trak\"",
        ),
        ("build", "people.mas;", "`people` has no `mas`", "did you mean `mass`?", "mas"),
        ("build", "if false { tow.bal; }", "the tow vehicle has no `bal`", "did you mean `ball`?", "bal"),
        ("build", "let t = `${tow.bal}`;", "the tow vehicle has no `bal`", "did you mean `ball`?", "bal"),
        ("build", "let t = trailer; t.gvrw;", "the trailer has no `gvrw`", "did you mean `gvwr`?", "gvrw"),
        (
            "build",
            "for line in gas.line { line.lenght; }",
            "`line` has no `lenght`",
            "did you mean `length`?",
            "lenght",
        ),
        (
            "build",
            "for (line, n) in gas.line { line.lenght; }",
            "`line` has no `lenght`",
            "did you mean `length`?",
            "lenght",
        ),
        ("build", "gas.line[0].lenght;", "`line` has no `lenght`", "did you mean `length`?", "lenght"),
        ("gas line", "line.lenght;", "a gas line has no `lenght`", "did you mean `length`?", "lenght"),
        (
            "build",
            "for part in build.cylinders { part.gass; }",
            "a cylinder has no `gass`",
            "did you mean `gas`?",
            "gass",
        ),
        (
            "build",
            "let all = []; for part in build.cylinders { all.push(part); } for part in all { part.gass; }",
            "a cylinder has no `gass`",
            "did you mean `gas`?",
            "gass",
        ),
        (
            "build",
            "fn weigh(part) { part.mas } for part in build.items { weigh(part); }",
            "a part has no `mas`",
            "did you mean `mass`?",
            "mas",
        ),
        (
            "battery",
            "battery.locker.holds_cilinder;",
            "a locker has no `holds_cilinder`",
            "did you mean `holds_cylinder`?",
            "holds_cilinder",
        ),
        ("space/headroom", "figure.item.mas;", "a part has no `mas`", "did you mean `mass`?", "mas"),
        ("space/headroom", "figure.valu;", "a figure has no `valu`", "did you mean `value`?", "valu"),
        ("tight reading", "tight.margn;", "a reading has no `margn`", "did you mean `margin`?", "margn"),
    ]);
}

#[test]
fn figures_that_there_are_not_are_said_with_the_nearest() {
    let said = "there is no figure `space/lift_shar`";
    let near = "did you mean `space/lift_share`?";
    says(&[
        ("item", "item[\"space/lift_shar\"];", said, near, "\"space/lift_shar\""),
        ("item", "has(item, \"space/lift_shar\");", said, near, "\"space/lift_shar\""),
        ("item", "item[`space/lift_shar`];", said, near, "`space/lift_shar`"),
        ("space/headroom", "figure[\"space/lift_shar\"];", said, near, "\"space/lift_shar\""),
        (
            "build",
            "build[\"zebra/stripes\"];",
            "there is no figure `zebra/stripes`",
            REFERENCE,
            "\"zebra/stripes\"",
        ),
        ("item", "item.cg.zebra;", "`cg` has no `zebra`", "there are: `floor`, `front`, `left`", "zebra"),
    ]);
}

#[test]
fn fields_of_the_shops_own_are_known() {
    says(&[
        (
            "item",
            "item.shop.hinge_ratin;",
            "no pack declares a field `hinge_ratin`",
            "did you mean `hinge_rating`?",
            "hinge_ratin",
        ),
        (
            "item",
            "has(item.shop, \"hinge_ratin\");",
            "no pack declares a field `hinge_ratin`",
            "did you mean `hinge_rating`?",
            "\"hinge_ratin\"",
        ),
        (
            "item",
            "item.shop.hinge_rating > item.length;",
            "a mass and a length cannot be added or compared",
            "",
            ">",
        ),
        (
            "item",
            "if item.shop.hinge_rating { }",
            "a condition is a yes or no, and this is a mass",
            "",
            "hinge_rating",
        ),
    ]);
}

#[test]
fn words_that_a_field_can_never_hold_are_said() {
    let mut bench = Bench::new();
    for (word, text, marked, near) in [
        ("cylinder", "cylinder.fuel == \"propan\";", "\"propan\"", "did you mean `propane`?"),
        ("cylinder", "\"propan\" != cylinder.fuel;", "\"propan\"", "did you mean `propane`?"),
        ("item", "item.kind == \"tnet\";", "\"tnet\"", "did you mean `tent`?"),
        ("build", "contains(build.senses, \"smok\");", "\"smok\"", "did you mean `smoke`?"),
        ("build", "build.senses.contains(\"smok\");", "\"smok\"", "did you mean `smoke`?"),
        ("build", "trailer.brakes.kind == \"drums of thunder\";", "\"drums of thunder\"", "it is one of "),
        ("tight reading", "tight.grade == \"miner\";", "\"miner\"", "did you mean `minor`?"),
        (
            "build",
            "for part in build.appliances { if part.fuel == \"propan\" { } }",
            "\"propan\"",
            "did you mean `propane`?",
        ),
    ] {
        let (message, help, at) = bench.one(word, text);
        assert_eq!(
            (message, at.as_str()),
            (format!("this can never be `{}`", marked.trim_matches('"')), marked)
        );
        assert!(help.starts_with(near), "{text}: {help}");
    }
}

#[test]
fn what_is_given_is_not_set() {
    says(&[
        ("road state", "state = 1;", "`state` is given to the rule and cannot be changed by it", "", "state"),
        (
            "road state",
            "limit += 1;",
            "`limit` is given to the rule and cannot be changed by it",
            "",
            "limit",
        ),
        (
            "road state",
            "state.gross = limit.most;",
            "what is given to a rule cannot be changed by it",
            "",
            "gross",
        ),
        (
            "road state",
            "trailer.axle.gawr = limit.most;",
            "what is given to a rule cannot be changed by it",
            "",
            "gawr",
        ),
        (
            "road state",
            "limit[\"most\"] = state.gross;",
            "what is given to a rule cannot be changed by it",
            "",
            "\"most\"",
        ),
        (
            "road state",
            "let s = state; s.gross = limit.most;",
            "what is given to a rule cannot be changed by it",
            "",
            "gross",
        ),
        (
            "road state",
            "let l = limit; l.msot;",
            "the rule has no limit `msot`",
            "did you mean `most`?",
            "msot",
        ),
        (
            "road state",
            "limit[\"zebra\"];",
            "the rule has no limit `zebra`",
            "state it as `[limit.zebra]`, with its value and basis",
            "\"zebra\"",
        ),
        (
            "road state",
            "fn f() { state.gross } f();",
            "there is no variable `state` here",
            "a function works with what it is handed: hand it over",
            "state",
        ),
    ]);
}
