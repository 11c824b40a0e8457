//! What a state has aboard: nothing on what is left at home, every amount within its range, needs and groups kept.

use pintle_quantity::Units;
use pintle_spec::{Build, Footing};

use super::bench::{STOCK, Said, load, says_of, sound, with};

/// A rack that can be taken off, a module and a power box that can be taken out, a tent on the rack, a berth in the
/// tent, two tanks, and three loads; 54 lines.
pub(super) const PARTS: &str = r#"[[item]]
tag = "rack"
part = "rack-low"
zone = "roof"
removable = true
at = { front = "9 in" }
[[item]]
tag = "tent"
part = "tent-soft"
zone = "rack"
removable = true
at = { front = "0 in" }
[[item]]
tag = "galley"
part = "galley"
needs = ["power"]
at = { front = "3 in", right = "0 in" }
[[item]]
tag = "power"
kind = "equipment"
removable = true
at = { front = "3 in", left = "0 in" }
[[tank]]
tag = "fresh"
part = "tank-20"
on_road = { least = "10 %", most = "90 %" }
at = { front = "50 in", left = "2 in" }
[[tank]]
tag = "can"
part = "tank-20"
removable = true
at = { front = "50 in", right = "2 in" }
[[berth]]
tag = "bed"
zone = "tent"
people = 2
[[load]]
tag = "food"
mass = "40 lb"
least = "5 lb"
at = { front = "60 in", left = "24 in", floor = "3 in" }
[[load]]
tag = "bikes"
mass = "60 lb"
least = "0 lb"
zone = "rack"
at = { front = "9 in", gap = "1 in" }
[[load]]
tag = "ice"
mass = "20 lb"
least = "0 lb"
needs = ["galley"]
at = { front = "60 in", left = "24 in", floor = "3 in" }
"#;
const LINES: u32 = 53;

/// A road state that carries food, and more of the author's, from line 55 on.
pub(super) fn state(more: &str) -> String {
    format!("{PARTS}[[state]]\nname = \"s\"\nuse = \"road\"\n{more}\n")
}

fn tags(build: &Build, of: impl IntoIterator<Item = usize>) -> Vec<&str> {
    of.into_iter().map(|at| build.items[at].tag.value.as_str()).collect()
}

/// Asserts what is said of a state; its header is line 1, its name 2, `more` begins on line 4.
#[track_caller]
fn says_of_state(more: &str, expected: &[Said<'_>]) {
    assert_eq!(PARTS.lines().count(), LINES as usize);
    let moved: Vec<Said<'_>> = expected
        .iter()
        .map(|(code, said, help, at, line)| (*code, *said, *help, *at, line + LINES))
        .collect();
    says_of(&state(more), &moved);
}

/// The texts that each problem of a state underlines.
fn marked(more: &str) -> Vec<Vec<String>> {
    let read = load(&with(&state(more)), STOCK);
    let texts = |problem: &pintle_finding::Problem| {
        problem.labels.iter().map(|label| read.sources.slice(label.span).to_owned()).collect()
    };
    read.problems.iter().map(texts).collect()
}

#[test]
fn a_state_that_keeps_to_everything() {
    let build = sound(
        &with(&state(
            "carry = { bikes = \"0 lb\", food = \"5 lb\", ice = \"1 kg\" }\nout = [\"rack\", \"can\"]\n\
             fill = { fresh = \"90 %\", can = \"0 %\" }\npeople = [{ berth = \"bed\", count = 0 }]\n\
             load = [{ what = \"boat\", mass = \"5 lb\", mass_basis = \"weighed\", at = { front = \"1 in\" } }]",
        )),
        STOCK,
    );
    let state = &build.states[0];
    let carried: Vec<(&str, String)> = state
        .carry
        .iter()
        .map(|(at, mass)| (tags(&build, [*at])[0], mass.value.show(Units::AsWritten)))
        .collect();
    let lb = |tag, mass: &str| (tag, mass.to_owned());
    assert_eq!(carried, [lb("bikes", "0 lb"), lb("food", "5 lb"), lb("ice", "1 kg")], "as written");
    assert_eq!(tags(&build, state.out.clone()), ["rack", "can", "tent", "bed"], "no load among them");
    assert_eq!(state.loads[0].footing, Footing::Weighed);
    let plain = sound(
        &with(
            "[[state]]\nname = \"s\"\nuse = \"camp\"\nload = [{ what = \"a\", mass = \"5 lb\", at = { front = \"1 in\" } }]\n",
        ),
        STOCK,
    );
    assert_eq!(plain.states[0].loads[0].footing, Footing::Unstated);
    assert!(plain.states[0].carry.is_empty());
    says_of_state(
        "carry = { food = \"5 lb\" }\nload = [{ what = \"a\", mass = \"5 lb\", mass_basis = \"known\", at = { front = \"1 in\" } }]",
        &[(
            "unknown-word",
            "`mass_basis` of `load` of state `s` cannot be `known`",
            "the words are `weighed`, `maker`, `computed` and `guessed`",
            "\"known\"",
            5,
        )],
    );
}

#[test]
fn nothing_rides_on_or_in_what_is_left_at_home() {
    let more = "carry = { food = \"5 lb\", bikes = \"1 lb\" }\nout = [\"rack\", \"can\"]\nfill = { can = \"1 %\" }\n\
                people = [{ berth = \"bed\", count = 2 }]\n\
                load = [{ what = \"boat\", mass = \"5 lb\", zone = \"tent\", at = { front = \"1 in\" } }]";
    says_of_state(
        more,
        &[
            (
                "left-at-home",
                "load `bikes` of state `s` cannot be aboard: item `rack`, which carries it, is left at home",
                "take it out of `carry`, or take along what carries it",
                "\"1 lb\"",
                4,
            ),
            (
                "left-at-home",
                "tank `can` of state `s` cannot be filled: it is left at home",
                "take the tank out of `fill`, or take it along",
                "\"1 %\"",
                6,
            ),
            (
                "left-at-home",
                "nobody can be in berth `bed` of state `s`, which is left at home",
                "take the people out of the state, or take the berth along",
                "\"bed\"",
                7,
            ),
            (
                "left-at-home",
                "load `boat` of state `s` cannot be aboard: item `tent`, which carries it, is left at home",
                "take it out of the state, or place it on what is aboard",
                "\"boat\"",
                8,
            ),
        ],
    );
    assert_eq!(
        marked(more),
        [["\"1 lb\"", "\"rack\""], ["\"1 %\"", "\"can\""], ["\"bed\"", "\"rack\""], ["\"boat\"", "\"rack\""]],
        "at both places"
    );
    // The tent alone takes its berth with it, and not what lies on the rack; in camp as on the road.
    for used in ["road", "camp"] {
        let more = more.replace("\"rack\"", "\"tent\"");
        let spec = state(&more).replace("\"road\"", &format!("\"{used}\""));
        let said: Vec<String> =
            load(&with(&spec), STOCK).problems.into_iter().map(|problem| problem.message).collect();
        assert_eq!(
            said,
            [
                "tank `can` of state `s` cannot be filled: it is left at home",
                "nobody can be in berth `bed` of state `s`, which is left at home",
                "load `boat` of state `s` cannot be aboard: item `tent`, which carries it, is left at home",
            ]
        );
    }
}

#[test]
fn loads_are_carried_within_their_range() {
    let help =
        |within: &str, which: &str| format!("give no {within}, or change the {which} where it is stated");
    says_of_state(
        "carry = { food = \"4.9 lb\", ice = \"20.1 lb\", bikes = \"heavy\", galley = \"1 lb\", fod = \"1 lb\" }",
        &[
            (
                "out-of-range",
                "`food` in `carry` of state `s` is `4.9 lb`, which is less than the least of load `food`, `5 lb`",
                &help("less than `5 lb`", "least"),
                "\"4.9 lb\"",
                4,
            ),
            (
                "out-of-range",
                "`ice` in `carry` of state `s` is `20.1 lb`, which is more than the most of load `ice`, `20 lb`",
                &help("more than `20 lb`", "most"),
                "\"20.1 lb\"",
                4,
            ),
            (
                "bad-quantity",
                "`bikes` in `carry` of state `s` cannot be read: `heavy` is not a number",
                "write a number and its unit, such as `22 3/8 in` or `150 lb`",
                "heavy",
                4,
            ),
            ("wrong-tag", "`galley` in state `s` is not a load", "name a load", "galley", 4),
            (
                "unknown-tag",
                "state `s` names `fod`, and no part has that tag",
                "did you mean `food`?",
                "fod",
                4,
            ),
        ],
    );
    assert_eq!(marked("carry = { food = \"50 lb\" }"), [["\"50 lb\"", "\"40 lb\""]], "at both places");
    assert_eq!(marked("carry = { food = \"1 lb\" }"), [["\"1 lb\"", "\"5 lb\""]]);
    // At the limits in another unit; in camp, anything up to the most.
    sound(&with(&state("carry = { food = \"2.26796185 kg\", ice = \"9.0718474 kg\" }")), STOCK);
    let camp = |carry: &str| with(&state(carry).replace("\"road\"", "\"camp\""));
    sound(&camp(""), STOCK);
    sound(&camp("carry = { food = \"1 lb\" }"), STOCK);
    let too_much = load(&camp("carry = { food = \"41 lb\" }"), STOCK);
    assert_eq!(too_much.codes(), ["out-of-range"]);
    // A load whose own range cannot be is said of the load alone.
    let spec = with(&state("carry = { food = \"1 lb\" }").replace("least = \"5 lb\"", "least = \"50 lb\""));
    assert_eq!(load(&spec, STOCK).codes(), ["wrong-range"]);
}

#[test]
fn a_load_that_always_rides_stays_behind_with_what_carries_it() {
    // All bikes on the rack, and the rack left at home.
    let always = |more: &str| {
        with(&state(more).replace("least = \"0 lb\"\nzone = \"rack\"", "least = \"20 lb\"\nzone = \"rack\""))
    };
    assert!(always("").contains("least = \"20 lb\""));
    let out = "carry = { food = \"5 lb\" }\nout = [\"rack\"]\nfill = { fresh = \"90 %\" }";
    assert_eq!(load(&always(out), STOCK).codes(), [""; 0]);
    assert_eq!(
        load(&always(&out.replace("\"rack\"", "\"tent\"")), STOCK).codes(),
        ["missing-value"],
        "the rack is aboard"
    );
}

#[test]
fn a_load_that_always_rides_is_carried_on_every_road() {
    let missing = "state `s` does not carry load `food`, of which at least `5 lb` always rides along";
    let help =
        "give it, such as `carry = { food = \"5 lb\" }`, or let it stay at home with `least = \"0 lb\"`";
    says_of_state("", &[("missing-value", missing, help, "\"s\"", 2)]);
    says_of_state("carry = { bikes = \"1 lb\" }", &[("missing-value", missing, help, "\"s\"", 2)]);
    assert_eq!(marked(""), [["\"s\"", "\"5 lb\""]], "at both places");
    // What could not be read may be the very load.
    says_of_state(
        "carry = { foood = \"9 lb\" }",
        &[(
            "unknown-tag",
            "state `s` names `foood`, and no part has that tag",
            "did you mean `food`?",
            "foood",
            4,
        )],
    );
    says_of_state(
        "cary = { food = \"9 lb\" }",
        &[("unknown-key", "state `s` has no field `cary`", "did you mean `carry`?", "cary", 4)],
    );
    says_of_state(
        "carry = [\"food\"]",
        &[(
            "wrong-type",
            "`carry` of state `s` must be a table, not a list",
            "such as `{ bags = \"40 lb\" }`",
            "[\"food\"]",
            4,
        )],
    );
}

#[test]
fn what_is_needed_is_aboard() {
    let takes = |one: &str, other: &str| format!("take `{one}` along, or leave `{other}` at home as well");
    let more = "out = [\"galley\"]\ncarry = { food = \"5 lb\", ice = \"1 lb\" }";
    says_of_state(
        more,
        &[(
            "left-at-home",
            "state `s` has load `ice` aboard without item `galley`, which it needs",
            &takes("galley", "ice"),
            "\"galley\"",
            4,
        )],
    );
    assert_eq!(marked(more), [["\"galley\"", "[\"galley\"]"]], "where it is left, and where it is needed");
    let more = "out = [\"power\"]\ncarry = { food = \"5 lb\" }";
    let told = "state `s` has item `galley` aboard without item `power`, which it needs";
    says_of_state(more, &[("left-at-home", told, &takes("power", "galley"), "\"power\"", 4)]);
    let camp = load(&with(&state(more).replace("\"road\"", "\"camp\"")), STOCK);
    assert_eq!(camp.codes(), ["left-at-home"], "in camp as well");
    // What asks is left at home too, or none of it is carried.
    sound(&with(&state("out = [\"power\", \"galley\"]\ncarry = { food = \"5 lb\" }")), STOCK);
    sound(&with(&state("out = [\"galley\"]\ncarry = { food = \"5 lb\", ice = \"0 lb\" }")), STOCK);
    // A load that is needed and not carried, or of which nothing is.
    let with_ice = |carry: &str| {
        with(
            &state(carry)
                .replace("needs = [\"power\"]", "needs = [\"bikes\"]")
                .replace("needs = [\"galley\"]", ""),
        )
    };
    let told = "state `s` has item `galley` aboard without load `bikes`, which it needs";
    for carry in ["carry = { food = \"5 lb\" }", "carry = { food = \"5 lb\", bikes = \"0 lb\" }"] {
        let read = load(&with_ice(carry), STOCK);
        let said: Vec<_> = read.said().into_iter().map(|said| (said.1, said.3)).collect();
        assert_eq!(said, [(told, "\"s\"")]);
    }
    sound(&with_ice("carry = { food = \"5 lb\", bikes = \"1 lb\" }"), STOCK);
    // Where it is not known what is left at home, nothing is said of it.
    says_of_state(
        "out = [\"power\", \"galey\"]\ncarry = { food = \"5 lb\" }",
        &[(
            "unknown-tag",
            "state `s` names `galey`, and no part has that tag",
            "did you mean `galley`?",
            "\"galey\"",
            4,
        )],
    );
}

#[test]
fn one_of_a_group_is_aboard_on_the_road() {
    let group = |none: bool| {
        format!("\n[[either]]\nname = \"g\"\nof = [\"galley\", \"can\", \"bikes\"]\nnone = {none}")
    };
    let food = "carry = { food = \"5 lb\" }";
    let both = |one: &str, other: &str| {
        format!("state `s` has `{one}` and `{other}` aboard, and `g` takes only one of them")
    };
    let all_but_one = "leave all but one of the group at home";
    says_of_state(
        &format!("{food}{}", group(true)),
        &[("either-or", &both("galley", "can"), all_but_one, "\"s\"", 2)],
    );
    assert_eq!(marked(&format!("{food}{}", group(true))), [["\"s\"", "\"g\""]], "at both places");
    says_of_state(
        &format!("carry = {{ food = \"5 lb\", bikes = \"1 lb\" }}\nout = [\"galley\"]{}", group(true)),
        &[("either-or", &both("can", "bikes"), all_but_one, "\"s\"", 2)],
    );
    let none = format!("{food}\nout = [\"galley\", \"can\"]");
    says_of_state(
        &format!("{none}{}", group(false)),
        &[(
            "either-or",
            "state `s` has nothing of `g` aboard, and one of that group must be",
            "take one of the group along, or give it `none = true`",
            "\"s\"",
            2,
        )],
    );
    sound(&with(&state(&format!("{none}{}", group(true)))), STOCK);
    sound(&with(&state(&format!("{food}\nout = [\"galley\"]{}", group(false)))), STOCK);
    // In camp the group does not bind.
    sound(&with(&state(&format!("{food}{}", group(true))).replace("\"road\"", "\"camp\"")), STOCK);
}

#[test]
fn tanks_are_filled_within_their_range_on_the_road() {
    let food = "carry = { food = \"5 lb\" }\n";
    says_of_state(
        &format!(
            "{food}fill = {{ fresh = \"91 %\", can = \"100 %\" }}\n[[state]]\nname = \"t\"\nuse = \"road\"\n{food}fill = {{ fresh = \"9 %\", can = \"0 %\" }}"
        ),
        &[
            (
                "out-of-range",
                "`fresh` in `fill` of state `s` is `91 %`, which is more than the most of tank `fresh` on the road, `90 %`",
                "give no more than `90 %`, or change the most where it is stated",
                "\"91 %\"",
                5,
            ),
            (
                "out-of-range",
                "`fresh` in `fill` of state `t` is `9 %`, which is less than the least of tank `fresh` on the road, `10 %`",
                "give no less than `10 %`, or change the least where it is stated",
                "\"9 %\"",
                10,
            ),
        ],
    );
    let full = with(&state(&format!("{food}fill = {{ fresh = \"100 %\", can = \"100 %\" }}")));
    sound(&full.replace("\"road\"", "\"camp\""), STOCK);
    // A tank that is left at home is empty there.
    let out = with(&state(&format!("{food}out = [\"can\"]\nfill = {{ can = \"0 %\" }}")));
    sound(&out.replace("removable = true\nat = { front = \"50 in\", right", "removable = true\non_road = { least = \"10 %\", most = \"90 %\" }\nat = { front = \"50 in\", right"), STOCK);
}

#[test]
fn tanks_are_emptied_in_their_order() {
    // (fill of the can, of the fresh water, whether it can be); `fresh` is kept from 10 % to 90 % on the road.
    let rows = [
        ("100 %", "90 %", true),
        ("50 %", "90 %", true),
        ("0 %", "90 %", true),
        ("0 %", "50 %", true),
        ("0 %", "10 %", true),
        ("1 %", "89 %", false),
        ("100 %", "10 %", false),
    ];
    let spec = |can: &str, fresh: &str| {
        state(&format!(
            "carry = {{ food = \"5 lb\" }}\nfill = {{ can = \"{can}\", fresh = \"{fresh}\" }}\n[water]\nuse_order = [\"can\", \"fresh\"]"
        ))
    };
    for (can, fresh, sound) in rows {
        let codes = if sound { vec![] } else { vec!["use-order"] };
        assert_eq!(load(&with(&spec(can, fresh)), STOCK).codes(), codes, "{can}, {fresh}");
        sound.then(|| super::bench::sound(&with(&spec(can, fresh)), STOCK));
    }
    says_of(
        &spec("40 %", "80 %"),
        &[(
            "use-order",
            "state `s` begins tank `fresh` while tank `can`, which is emptied before it, is at `40 %`",
            "fill `fresh` to `90 %`, or empty `can` to `0 %`, as `use_order` says",
            "\"80 %\"",
            LINES + 5,
        )],
    );
    let other_way = spec("40 %", "80 %").replace("[\"can\", \"fresh\"]", "[\"fresh\", \"can\"]");
    assert_eq!(
        load(&with(&other_way), STOCK).problems[0].message,
        "state `s` begins tank `can` while tank `fresh`, which is emptied before it, is at `80 %`"
    );
    // Not in camp, not of a tank whose fill is not stated, not of one that is left at home.
    sound(&with(&spec("40 %", "80 %").replace("\"road\"", "\"camp\"")), STOCK);
    sound(&with(&spec("40 %", "80 %").replace("can = \"40 %\", ", "")), STOCK);
    sound(&with(&spec("0 %", "80 %").replace("fill =", "out = [\"can\"]\nfill =")), STOCK);
}
