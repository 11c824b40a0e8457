//! What `[gas]` and exhausts name: cylinders, appliances, lines.

use pintle_spec::schema::gas::{self, line};

use super::bench::{STOCK, says_of, sound, with};

/// A cylinder and two burners, on thirteen lines.
const PARTS: &str = "[[item]]\ntag = \"bottle\"\nkind = \"cylinder\"\nzone = \"tongue\"\nat = { ball = \"4 in\" }\n\
                     [[item]]\ntag = \"stove\"\nkind = \"appliance\"\nat = { front = \"1 in\" }\n\
                     [[item]]\ntag = \"heater\"\nkind = \"appliance\"\nat = { front = \"1 in\" }\n";

fn lines(lines: &[(&str, &str, &str)]) -> String {
    let line = |(name, from, to): &(&str, &str, &str)| {
        format!("[[gas.line]]\nname = \"{name}\"\nfrom = \"{from}\"\nto = [{to}]\n")
    };
    format!("{PARTS}[gas]\nconnected = [\"bottle\"]\n{}", lines.iter().map(line).collect::<String>())
}

#[test]
fn lines_lead_from_the_regulator_to_appliances() {
    let tree = lines(&[
        ("trunk", "regulator", ""),
        ("left", "trunk", "\"stove\""),
        ("right", "trunk", "\"heater\""),
    ]);
    let build = sound(&with(&tree), STOCK);
    let held = build.gas.as_ref().unwrap().tables(&gas::LINES);
    let from: Vec<&str> = held.iter().map(|record| record.text(&line::FROM).unwrap().value).collect();
    assert_eq!(from, ["regulator", "trunk", "trunk"]);
}

#[test]
fn what_lines_name_must_be_there() {
    let stove = "\"stove\"";
    says_of(
        &lines(&[("trunk", "regulatr", stove)]),
        &[(
            "unknown-line",
            "line `trunk` begins at `regulatr`, and nothing is called so",
            "did you mean `regulator`?",
            "\"regulatr\"",
            18,
        )],
    );
    says_of(
        &lines(&[("trunk", "regulator", "\"stov\"")]),
        &[(
            "unknown-tag",
            "line `trunk` names `stov`, and no part has that tag",
            "did you mean `stove`?",
            "\"stov\"",
            19,
        )],
    );
    says_of(
        &lines(&[("trunk", "regulator", "\"bottle\"")]),
        &[(
            "wrong-tag",
            "`bottle` in line `trunk` is not an appliance",
            "name an appliance",
            "\"bottle\"",
            19,
        )],
    );
    says_of(
        &lines(&[("trunk", "regulator", stove)]).replace("[\"bottle\"]", "[\"heater\"]"),
        &[(
            "wrong-tag",
            "`heater` in `connected` of the gas system is not a cylinder",
            "name a cylinder",
            "\"heater\"",
            15,
        )],
    );
}

#[test]
fn lines_have_names_of_their_own_and_do_not_go_round() {
    let round = lines(&[("one", "two", "\"stove\""), ("two", "one", "")]);
    let said = |name: &'static str, from: &'static str, line: u32| {
        let message = if name == "one" {
            "line `one` leads back to no cylinder and no regulator"
        } else {
            "line `two` leads back to no cylinder and no regulator"
        };
        ("line-loop", message, "let one of the lines begin at `regulator` or `cylinder`", from, line)
    };
    says_of(&round, &[said("one", "\"two\"", 18), said("two", "\"one\"", 22)]);
    says_of(
        &lines(&[("cylinder", "regulator", "")]),
        &[("wrong-name", "a line cannot be called `cylinder`", "give it another name", "\"cylinder\"", 17)],
    );
    says_of(
        &lines(&[("one", "regulator", "\"stove\""), ("one", "regulator", "\"stove\"")]),
        &[
            (
                "duplicate-name",
                "the line name `one` is used twice",
                "give one of them another line name",
                "\"one\"",
                21,
            ),
            (
                "named-twice",
                "`stove` is at the end of two gas lines",
                "leave it out of one of them; an appliance hangs on one line",
                "\"stove\"",
                23,
            ),
        ],
    );
}

#[test]
fn an_exhaust_is_that_of_an_appliance() {
    let vent = |tag: &str| {
        format!("{PARTS}[[vent]]\ntag = \"flue\"\nzone = \"left wall\"\nexhaust_of = \"{tag}\"\n")
    };
    sound(&with(&vent("heater")), STOCK);
    says_of(
        &vent("bottle"),
        &[(
            "wrong-tag",
            "`bottle` in `exhaust_of` of vent `flue` is not an appliance",
            "name an appliance",
            "\"bottle\"",
            17,
        )],
    );
}
