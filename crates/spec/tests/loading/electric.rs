//! The electric system: names of circuits and uses, and what they name.

use pintle_spec::schema::electric::{CIRCUIT, USE};

use super::bench::{STOCK, says_of, sound, with};

/// A battery, an inverter, a charger and a panel, on 20 lines.
const PARTS: &str = r#"[[item]]
tag = "bat"
kind = "battery"
mass = "20 lb"
at = { front = "3 in", left = "0 in" }
[[item]]
tag = "inv"
kind = "inverter"
mass = "5 lb"
at = { front = "3 in", left = "20 in" }
[[item]]
tag = "con"
kind = "charger"
mass = "5 lb"
at = { front = "3 in", left = "40 in" }
[[item]]
tag = "pan"
kind = "solar"
mass = "5 lb"
at = { front = "30 in", left = "0 in" }
"#;

fn said(more: &str, expected: &[(&str, &str, &str, &str, u32)]) {
    let moved: Vec<_> = expected.iter().map(|(c, m, h, at, line)| (*c, *m, *h, *at, line + 20)).collect();
    says_of(&format!("{PARTS}{more}"), &moved);
}

#[test]
fn names_reach_what_is_said_of_missing_values() {
    let more = "[[electric.circuit]]\nname = \"pump\"\nfrom = \"bank\"\nto = \"pump use\"\n[[electric.use]]\nwhat = \"pump use\"\n";
    let build = sound(&with(&format!("{PARTS}{more}")), STOCK);
    let electric = build.electric.as_ref().unwrap();
    assert_eq!(&*electric.tables(&CIRCUIT)[0].what, "circuit `pump`");
    assert_eq!(&*electric.tables(&USE)[0].what, "use `pump use`");
}

#[test]
fn tags_of_the_wrong_sort_and_of_none() {
    said(
        "[electric]\nbank = { batteries = [\"bat\", \"inv\", \"bar\"] }\narray = [{ panels = [\"pan\", \"pan\"], controller = \"inv\" }]\nuse = [{ what = \"kettle\", through = \"con\", item = \"kettel\" }]\n",
        &[
            ("wrong-tag", "`inv` in `batteries` of `bank` is not a battery", "name a battery", "\"inv\"", 2),
            (
                "unknown-tag",
                "`batteries` of `bank` names `bar`, and no part has that tag",
                "did you mean `bat`?",
                "\"bar\"",
                2,
            ),
            (
                "named-twice",
                "`panels` of the array on `inv` names `pan` twice in one list",
                "name it once",
                "\"pan\"",
                3,
            ),
            (
                "wrong-tag",
                "`inv` in `controller` of the array on `inv` is not a charger",
                "name a charger",
                "\"inv\"",
                3,
            ),
            (
                "wrong-tag",
                "`con` in `through` of use `kettle` is not an inverter",
                "name an inverter",
                "\"con\"",
                4,
            ),
            (
                "unknown-tag",
                "`item` of use `kettle` names `kettel`, and no part has that tag",
                "the tags that fit are `bat`, `inv`, `con` and `pan`",
                "\"kettel\"",
                4,
            ),
        ],
    );
}

#[test]
fn ends_of_circuits() {
    said(
        "[[electric.circuit]]\nname = \"pump\"\nfrom = \"bnak\"\nto = \"lamps\"\n[[electric.circuit]]\nname = \"pump\"\nfrom = \"tow vehicle\"\nto = \"bank\"\n[[electric.use]]\nwhat = \"lamp\"\npower = \"5 W\"\n",
        &[
            (
                "unknown-tag",
                "`from` of circuit `pump` names `bnak`, and nothing is called so",
                "did you mean `bank`?",
                "\"bnak\"",
                3,
            ),
            (
                "unknown-tag",
                "`to` of circuit `pump` names `lamps`, and nothing is called so",
                "did you mean `lamp`?",
                "\"lamps\"",
                4,
            ),
            (
                "duplicate-name",
                "the circuit name `pump` is used twice",
                "give one of them another circuit name",
                "\"pump\"",
                6,
            ),
        ],
    );
}

#[test]
fn circuits_that_feed_themselves() {
    let first = "say what the first of them is fed from: the bank, a part, the mains";
    said(
        "[[electric.circuit]]\nname = \"a\"\nfrom = \"b\"\n[[electric.circuit]]\nname = \"b\"\nfrom = \"a\"\n[[electric.circuit]]\nname = \"c\"\nfrom = \"b\"\n",
        &[
            ("circuit-loop", "circuit `a` is fed, in the end, by itself", first, "\"b\"", 3),
            ("circuit-loop", "circuit `b` is fed, in the end, by itself", first, "\"a\"", 6),
        ],
    );
    // A circuit may be called as the part that feeds it.
    sound(
        &with(&format!("{PARTS}[[electric.circuit]]\nname = \"con\"\nfrom = \"con\"\nto = \"bank\"\n")),
        STOCK,
    );
}

#[test]
fn a_use_by_power_and_by_current() {
    said(
        "[[electric.use]]\nwhat = \"fan\"\npower = \"20 W\"\ncurrent = \"2 A\"\n",
        &[(
            "two-powers",
            "use `fan` gives what it takes twice: by `power` and by `current`",
            "keep the one that was measured or that its plate states",
            "\"20 W\"",
            3,
        )],
    );
}

#[test]
fn words_and_numbers_that_cannot_be() {
    said(
        "[[electric.circuit]]\nname = \"a\"\nfrom = \"bank\"\ninsulation = \"105 C\"\nbundled = 1\nlength = \"0 ft\"\n",
        &[
            (
                "unknown-word",
                "`insulation` of `circuit` of `electric` of the spec cannot be `105 C`",
                "did you mean `105 °C`? the words are `60 °C`, `75 °C`, `90 °C` and `105 °C`",
                "\"105 C\"",
                4,
            ),
            (
                "impossible-number",
                "`bundled` of `circuit` of `electric` of the spec must be a count from 2 to 10,000, not 1",
                "check the sign and the size of the number",
                "1",
                5,
            ),
            (
                "impossible-number",
                "`length` of `circuit` of `electric` of the spec cannot be `0 ft`: it must be more than zero",
                "check the sign and the size of the number",
                "\"0 ft\"",
                6,
            ),
        ],
    );
}
