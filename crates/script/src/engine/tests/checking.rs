//! What is certainly wrong with a script is said before it runs; what may be sound is not.

mod dimensions;
mod names;

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
