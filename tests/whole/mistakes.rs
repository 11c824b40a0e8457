//! A tired builder's mistakes, one at a time: what is said, where, and what is offered.

use std::path::Path;

use crate::tool::{demo_shop, edit, pintle_in};

const SPEC: &str = "builds/sound-5x8-round.toml";

/// What a mistake must give: code, a part of the message, a part of the help, and the text that is underlined.
struct Told {
    code: &'static str,
    message: &'static str,
    help: &'static str,
    marked: &'static str,
}

/// Makes one change to a copy of the demo shop and checks that exactly one problem is said, and said as wanted.
fn one(file: &str, from: &str, to: &str, told: &Told) {
    let shop = demo_shop();
    edit(shop.path(), file, from, to);
    let problems = problems(shop.path());
    assert_eq!(problems.len(), 1, "`{to}` must give one problem, and gives {problems:#?}");
    let (code, message, help, marked) = &problems[0];
    assert_eq!(code, told.code, "`{to}`: {message}");
    assert!(message.contains(told.message), "`{to}`: message `{message}`");
    assert!(help.contains(told.help), "`{to}`: help `{help}`");
    assert_eq!(marked, told.marked, "`{to}`: {message}");
}

/// Every problem said of the spec or its shop: code, message, help, underlined text.
fn problems(folder: &Path) -> Vec<(String, String, String, String)> {
    let ran = pintle_in(folder, &["inspect", "--format", "json", SPEC]);
    assert_eq!(ran.code, 2, "{}", ran.out);
    let document: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
    let loose = document["problems"].as_array().unwrap().iter();
    let of_spec = document["specs"][0]["problems"].as_array().unwrap().iter();
    loose
        .chain(of_spec)
        .map(|problem| {
            let word = |key: &str| problem[key].as_str().unwrap_or_default().to_owned();
            let label = &problem["labels"][0];
            (word("code"), word("message"), word("help"), marked(folder, label))
        })
        .collect()
}

/// The text that a label covers, read from the file by its lines and columns.
fn marked(folder: &Path, label: &serde_json::Value) -> String {
    let Some(file) = label["file"].as_str() else { return String::new() };
    let text = std::fs::read_to_string(folder.join(file)).unwrap();
    let number = |point: &str, key: &str| usize::try_from(label[point][key].as_u64().unwrap()).unwrap();
    let line = text.lines().nth(number("start", "line") - 1).unwrap();
    let (from, to) = (number("start", "column") - 1, number("end", "column") - 1);
    line.chars().skip(from).take(to.saturating_sub(from)).collect()
}

/// What is changed in the spec, what it becomes, and what must be said of it.
const MISTAKES: [(&str, &str, Told); 16] = [
    (
        "places = [\"us-sd\"]",
        "places = [\"us-txs\"]",
        Told {
            code: "unknown-place",
            message: "no place is called `us-txs`",
            help: "did you mean `us-tx`?",
            marked: "\"us-txs\"",
        },
    ),
    (
        "[[tank]]\ntag  = \"fresh\"",
        "[[tank]]\ncolour = \"blue\"\ntag  = \"fresh\"",
        Told {
            code: "unknown-key",
            message: "tank `fresh` has no field `colour`",
            help: "its fields are",
            marked: "colour",
        },
    ),
    (
        "part = \"box-5x8-round\"",
        "part = \"box-5x8-round\"\ngvwr = \"2000 lbz\"",
        Told {
            code: "bad-quantity",
            message: "`lbz` is not a known unit",
            help: "did you mean `lb",
            marked: "lbz",
        },
    ),
    (
        "part = \"box-5x8-round\"",
        "part = \"box-5x8-rond\"",
        Told {
            code: "unknown-part",
            message: "no part `box-5x8-rond`",
            help: "did you mean `box-5x8-round`?",
            marked: "\"box-5x8-rond\"",
        },
    ),
    (
        "part = \"box-5x8-round\"",
        "part = \"box-5x8-round\"\ngvwr = 2000",
        Told {
            code: "wrong-type",
            message: "must be a quantity in quotes",
            help: "such as `\"150 lb\"`",
            marked: "2000",
        },
    ),
    (
        "part = \"box-5x8-round\"",
        "part = \"box-5x8-round\"\ngvwr = \"20 in\"",
        Told {
            code: "wrong-dimension",
            message: "must be a mass; `20 in` is a length",
            help: "write a mass",
            marked: "\"20 in\"",
        },
    ),
    (
        "part = \"box-5x8-round\"",
        "part = \"box-5x8-round\"\nmass = \"-20 lb\"",
        Told {
            code: "impossible-number",
            message: "must be more than zero",
            help: "check the sign",
            marked: "\"-20 lb\"",
        },
    ),
    (
        "part = \"box-5x8-round\"",
        "part = \"box-5x8-round\"\nmass = \"NaN lb\"",
        Told { code: "bad-quantity", message: "cannot be read", help: "", marked: "NaN" },
    ),
    (
        "part = \"box-5x8-round\"",
        "part = \"box-5x8-round\"\nmass = \"1e308 lb\"",
        Told { code: "bad-quantity", message: "cannot be read", help: "", marked: "1e308" },
    ),
    (
        "fill  = { fresh = \"0 %\", grey = \"100 %\" }",
        "fill  = { fresh = \"0 %\", grey = \"101 %\" }",
        Told { code: "impossible-number", message: "from 0 % to 100 %", help: "", marked: "\"101 %\"" },
    ),
    (
        "fill  = { fresh = \"0 %\", grey = \"100 %\" }",
        "fill  = { frsh = \"0 %\", grey = \"100 %\" }",
        Told {
            code: "unknown-tag",
            message: "names `frsh`, and no part has that tag",
            help: "did you mean `fresh`?",
            marked: "frsh",
        },
    ),
    (
        "[[tank]]\ntag  = \"grey\"",
        "[[tank]]\ntag  = \"galley\"",
        Told {
            code: "duplicate-tag",
            message: "the tag `galley` is used twice",
            help: "give one of them another tag",
            marked: "\"galley\"",
        },
    ),
    (
        "title  = ",
        "note  = ",
        Told { code: "missing-value", message: "has no `title`", help: "give `title`", marked: "[build]" },
    ),
    (
        "part = \"box-5x8-round\"",
        "part = \"box-5x8-round\"\ncg = { ball = \"80 in\", centre = \"0 in\", ground = \"31 in\" }",
        Told {
            code: "two-places",
            message: "gives its centre of gravity twice",
            help: "keep the one that was measured",
            marked: "\"43 kg ± 1 kg\"",
        },
    ),
    (
        "zone = \"tongue\"",
        "zone = \"tounge\"",
        Told {
            code: "unknown-zone",
            message: "there is no zone `tounge`",
            help: "did you mean `tongue`?",
            marked: "\"tounge\"",
        },
    ),
    (
        "out   = [\"galley\"]",
        "out   = [\"cylinder\"]",
        Told {
            code: "wrong-tag",
            message: "is not removable",
            help: "removable = true",
            marked: "\"cylinder\"",
        },
    ),
];

#[test]
fn mistakes_in_a_spec() {
    for (from, to, told) in &MISTAKES {
        // A doubled tag leaves the fills that named the other without their tank: those problems follow from it.
        if told.code == "duplicate-tag" {
            let shop = demo_shop();
            edit(shop.path(), SPEC, from, to);
            let said = problems(shop.path());
            let found = said.iter().find(|(code, ..)| code == told.code).unwrap();
            assert!(
                found.1.contains(told.message) && found.2.contains(told.help) && found.3 == told.marked,
                "{found:?}"
            );
        } else {
            one(SPEC, from, to, told);
        }
    }
}

#[test]
fn a_stock_part_that_refers_to_itself() {
    let shop = demo_shop();
    edit(shop.path(), "stock/roof.toml", "part       = \"rack-low\"", "part       = \"rack-low-long\"");
    let said = problems(shop.path());
    let found = said.iter().find(|(code, ..)| code == "stock-loop").unwrap();
    assert!(found.1.contains("stock part `rack-low-long` refers to itself"), "{found:?}");
    assert_eq!(found.3, "\"rack-low-long\"");
}
