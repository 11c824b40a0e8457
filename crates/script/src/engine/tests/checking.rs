//! What is certainly wrong with a script is said before it runs; what may be sound is not.

use pintle_quantity::Dimension;
use pintle_spec::{OwnField, OwnKind};

use super::Bench;
use crate::check::Around;
use crate::judges::Judges;
use crate::place::place;

/// What is said of a script: the message, the help, and every text that is marked with its words.
type Said = (String, String, Vec<(String, String)>);

impl Bench {
    /// All that is said of a script before it runs.
    pub(super) fn checked(&mut self, word: &str, text: &str) -> Vec<Said> {
        let source = self.sources.add("rule.rhai", text);
        let limits = [
            ("least".to_owned(), Some(Dimension::NONE)),
            ("most".to_owned(), Some(Dimension::MASS)),
            ("unread".to_owned(), None),
        ];
        let own = [
            OwnField::new("hinge_rating", OwnKind::Quantity(Dimension::MASS), "what its hinges carry"),
            OwnField::new("painted", OwnKind::Flag, "whether it is painted"),
        ];
        let around = Around { limits: &limits, own_fields: Some(&own) };
        let (_, wrong) = self.engine.check(text, source, Judges::from_word(word).unwrap(), &around);
        let errors = wrong.into_iter().map(|error| {
            let marked = |position| {
                let span = place(&self.sources, source, position);
                span.map_or_else(String::new, |span| self.sources.slice(span).to_owned())
            };
            let mut marks = vec![(marked(error.position), error.label.clone())];
            marks.extend(error.beside.iter().map(|(position, words)| (marked(*position), words.clone())));
            (error.message, error.help.unwrap_or_default(), marks)
        });
        errors.collect()
    }

    /// The one thing that is said of a script that would else take a reading: message, help, text marked.
    #[track_caller]
    fn one(&mut self, word: &str, text: &str) -> (String, String, String) {
        let text = format!("require(true, \"fine\"); {text}");
        let said = self.checked(word, &text);
        assert_eq!(said.len(), 1, "{text}: {said:#?}");
        let (message, help, marks) = said.into_iter().next().unwrap();
        (message, help, marks[0].0.clone())
    }
}

#[track_caller]
fn says(rows: &[(&str, &str, &str, &str, &str)]) {
    let mut bench = Bench::new();
    for (word, text, message, help, marked) in rows {
        let (said, helped, at) = bench.one(word, text);
        assert_eq!(
            (said.as_str(), helped.as_str(), at.as_str()),
            (*message, *help, *marked),
            "{word}: {text}"
        );
    }
}

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
        ("build", "people.mas;", "the people has no `mas`", "did you mean `mass`?", "mas"),
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

#[test]
fn all_that_is_wrong_is_said_at_once_in_its_order() {
    let mut bench = Bench::new();
    let text = "let a = max(state.gros, trailer.length);\n\
                if trailer.brakes.kind == \"nome\" { state = a; }\n\
                reading(state.gross).at_most(limit.least);\n\
                state[\"gas/burn_tim\"];";
    let said: Vec<String> = bench.checked("road state", text).into_iter().map(|(said, ..)| said).collect();
    assert_eq!(
        said,
        [
            "there is no function `max`",
            "a state has no `gros`",
            "this can never be `nome`",
            "`state` is given to the rule and cannot be changed by it",
            "a mass and a share cannot be added or compared",
            "there is no figure `gas/burn_tim`",
        ]
    );
}

/// What may be one thing or another is left to the run.
#[test]
fn what_may_be_sound_is_not_refused() {
    let mut bench = Bench::new();
    let sound = [
        (
            "item",
            "if item.kind == \"tent\" { reading(item.ladder).at_least(item.height); } else { require(true, \"x\"); }",
        ),
        ("item", "let x = item.mass; x = item.length; reading(x).at_most(quantity(\"3 ft\"));"),
        ("item", "let x = 1; for n in 0..3 { if n == 2 { reading(x).at_most(limit.most); } x = item.mass; }"),
        (
            "item",
            "let x = if item.is_removable { item.mass } else { item.length }; reading(x).at_most(limit.most);",
        ),
        (
            "item",
            "let x = if item.is_removable { item.mass } else { quantity(\"1 lb\") }; reading(x).at_most(limit.most);",
        ),
        ("item", "let m = #{ a: item.mass }; m.a = item.length; m.b = 1; reading(m.a).at_most(m.a); m.c.d;"),
        (
            "item",
            "let l = [item.mass, item.length]; reading(l[0]).at_most(limit.most); l[0] = 3; l += 1; l[1] > 2;",
        ),
        (
            "item",
            "fn bigger(a, b) { if a > b { a } else { b } } reading(bigger(item.mass, limit.most)).at_most(limit.most); bigger(1, 2) == 2;",
        ),
        (
            "item",
            "fn add(x) { this.push(x); } let l = []; l.add(item); for p in l { require(p.kind != \"tent\", \"x\"); }",
        ),
        (
            "item",
            "fn down(n) { if n == 0 { return quantity(\"1 lb\"); } down(n - 1) } reading(down(3)).at_most(limit.most);",
        ),
        (
            "item",
            "let r = reading(item.mass); if item.is_removable { r.at_most(limit.most); } else { r.at_least(limit.most); }",
        ),
        ("item", "fn read(x) { reading(x) } read(item.mass).at_most(limit.most);"),
        ("item", "let read = reading(item.mass); read.at_most(limit.most); read"),
        ("item", "reading(item.mass).at_most(limit.unread); reading(item.length).at_most(limit.unread);"),
        ("item", "let name = \"mass\"; require(has(item, name), \"x\"); item[name]; limit[name];"),
        ("item", "let word = item.kind; word = \"mine\"; require(word == \"mine\", \"x\");"),
        ("item", "require(item.kind in [\"tent\", \"rack\"], \"x\");"),
        ("item", "reading(item.mass ?? item.length).at_most(limit.most);"),
        (
            "item",
            "if !item.is_removable { not_applicable(\"it stays\"); } require(true, `${item.called} ${item.mass}`);",
        ),
        ("item", "loop { if item.is_removable { break; } return; } require(true, \"x\");"),
        (
            "item",
            "item.shop; require(item.shop.painted, \"x\"); reading(item.shop.hinge_rating).at_least(limit.most);",
        ),
        ("build", "for t in record.ticket { reading(t.gross).at_most(trailer.gvwr); }"),
        (
            "build",
            "for (part, n) in build.items { require(n >= 0 && part.mass > quantity(\"0 lb\"), \"x\"); }",
        ),
        (
            "build",
            "let all = []; for p in build.cylinders { all.push(p); } for p in build.appliances { all.push(p); } for p in all { require(p.fuel == \"propane\", p.called); p.gas; p.input; }",
        ),
        ("build", "require(-count(build.items) < 0 && count(build.items) / 2 * 2 >= 0, \"x\");"),
        (
            "build",
            "reading(-trailer.gvwr * 2 / 3.5).at_most(limit.most); reading(2 * trailer.gvwr).at_least(limit.most);",
        ),
        (
            "space/headroom",
            "reading(figure.value).at_least(quantity(\"6 ft\")); if has(figure, \"state\") { figure.state.gross; }",
        ),
        (
            "space/smoke_alarms",
            "require(count(figure.value) > 0, listed(figure.value)); contains(figure.value, \"x\");",
        ),
        (
            "anchor/tips_ahead",
            "require(!figure.value, figure.of); figure[\"anchor/steady_ahead\"] > limit.least;",
        ),
        ("anchor/weakest_working", "require(figure.value != \"\", figure.value);"),
        (
            "tight reading",
            "reading(tight.margin).at_least(tight.uncertainty); reading(tight.margin).at_least(limit.most);",
        ),
        (
            "module",
            "require(item.kind == \"module\", \"x\"); for swing in item.swings { require(true, \"x\"); }",
        ),
        ("lamp", "require(has(lamp, \"name\"), \"x\");"),
    ];
    for (word, text) in sound {
        assert_eq!(bench.checked(word, text), [], "{word}: {text}");
    }
}

/// A variable that is handed round in circles is given up on, not walked after for ever.
#[test]
fn walks_come_to_an_end() {
    let mut bench = Bench::new();
    let names: Vec<String> = (0..40).map(|n| format!("v{n}")).collect();
    let declared = names.iter().map(|name| format!("let {name} = 1;"));
    let turns = names.windows(2).rev().map(|pair| format!("{} = [{}];", pair[1], pair[0]));
    let lines = declared.chain(["for n in 0..3 {".to_owned()]).chain(turns).chain([
        "v0 = state.gross; }".to_owned(),
        "reading(v39).at_most(limit.most); require(state.gros, \"x\");".to_owned(),
    ]);
    let text = lines.collect::<Vec<_>>().join("\n");
    let said = bench.checked("road state", &text);
    assert!(said.iter().any(|(message, ..)| message == "a state has no `gros`"), "{said:?}");
}

#[test]
fn a_condition_of_a_subject_is_a_yes_or_no() {
    let bench = Bench::new();
    let source = pintle_source::Sources::new().add("pack.toml", "");
    let tank = Judges::from_word("tank").unwrap();
    let said =
        |text: &str| bench.engine.compile_condition(text, source, tank).map_err(|error| error.message).err();
    assert_eq!(said("has(tank, \"needs\") && tank.mass > quantity(\"1 lb\")"), None);
    assert_eq!(said("tank.shop.anything"), None, "what another pack may declare");
    assert_eq!(said("tank.lenght > tank.width").unwrap(), "a tank has no `lenght`");
    assert_eq!(said("tank.length > tank.mass").unwrap(), "a length and a mass cannot be added or compared");
    assert_eq!(said("tank.length").unwrap(), "it comes to a length, which is neither true nor false");
    assert_eq!(said("require(true, \"x\");").unwrap(), "a condition takes no reading; it is true or false");
}
