//! What comes with what, and what never does: needs, and groups of which only one is aboard.

use super::bench::{STOCK, part, says_of, sound, with};
use super::together::{bags, load, module, tags};

const TAKE_OUT: &str = "leave it out, or mark the part `removable = true` if it can be taken out";
const LOOP: &str = "leave one of them out; what only rides together is one part";
const FEW: &str = "name all of which only one may be aboard, or leave the group out";
const NEVER: &str = "take one of the two out of the group, or out of what the part needs";
const LEAST_ZERO: &str = "leave it out, or give the load `least = \"0 lb\"` if it may stay at home";

#[test]
fn needs_are_ties_to_what_is_not_always_aboard() {
    let build = sound(
        &with(&format!(
            "{}{}{}{}{}",
            "[[item]]\ntag = \"rack\"\npart = \"rack-low\"\nzone = \"roof\"\nremovable = true\nat = { front = \"9 in\" }\n",
            "[[item]]\ntag = \"lamp\"\nkind = \"equipment\"\nzone = \"rack\"\nneeds = [\"power\"]\nat = { front = \"9 in\" }\n",
            module("power", ""),
            "[[tank]]\ntag = \"can\"\npart = \"tank-20\"\nremovable = true\nneeds = [\"lamp\", \"bags\"]\nat = { front = \"1 in\", left = \"1 in\" }\n",
            load("bags", "mass = \"40 lb\"\nleast = \"0 lb\"\nneeds = [\"power\"]"),
        )),
        STOCK,
    );
    let needs = |tag: &str| tags(&build, &part(&build, tag).needs);
    assert_eq!(needs("lamp"), ["power"], "a part that leaves with its rack");
    assert_eq!(needs("can"), ["lamp", "bags"]);
    assert_eq!(needs("bags"), ["power"]);
    assert_eq!(needs("rack"), [""; 0]);
}

#[test]
fn needs_that_cannot_be() {
    says_of(
        &format!(
            "{}{}{}{}",
            load("food", "mass = \"40 lb\"\nleast = \"5 lb\""),
            bags("bags"),
            module("m", "removable = false\nneeds = [\"bags\", \"bags\", \"n\", \"bgas\"]"),
            module("n", "needs = [\"m\", \"food\", \"zzzz\"]"),
        ),
        &[
            (
                "wrong-field",
                "`needs` means nothing on item `m`, which is always aboard",
                TAKE_OUT,
                "[\"bags\", \"bags\", \"n\", \"bgas\"]",
                16,
            ),
            (
                "named-twice",
                "`needs` of item `m` names `bags` twice in one list",
                "name it once",
                "\"bags\"",
                16,
            ),
            (
                "unknown-tag",
                "`needs` of item `m` names `bgas`, and no part has that tag",
                "did you mean `bags`?",
                "\"bgas\"",
                16,
            ),
            ("wrong-tag", "`m` in `needs` of item `n` is always aboard", TAKE_OUT, "\"m\"", 21),
            ("wrong-tag", "`food` in `needs` of item `n` always rides along", LEAST_ZERO, "\"food\"", 21),
            (
                "unknown-tag",
                "`needs` of item `n` names `zzzz`, and no part has that tag",
                "the tags that fit are `n` and `bags`",
                "\"zzzz\"",
                21,
            ),
        ],
    );
    // Whether a part can be taken out is not known while that cannot be read.
    says_of(
        &format!("{}{}", module("m", "removable = \"yes\""), module("n", "needs = [\"m\"]")),
        &[(
            "wrong-type",
            "`removable` of item `m` must be true or false, not text",
            "write true or false, without quotes",
            "\"yes\"",
            5,
        )],
    );
    says_of(
        &format!(
            "{}[[item]]\ntag = \"m\"\nkind = \"equipment\"\nzone = \"tnet\"\nat = {{ front = \"1 in\" }}\n[[item]]\ntag = \"tent\"\npart = \"tent-soft\"\nzone = \"roof\"\nat = {{ front = \"1 in\" }}\n",
            module("n", "needs = [\"m\"]")
        ),
        &[("unknown-zone", "there is no zone `tnet`", "did you mean `tent`?", "\"tnet\"", 9)],
    );
}

#[test]
fn loops_of_needs_name_their_members_and_no_others() {
    says_of(
        &module("m", "needs = [\"m\"]"),
        &[("needs-loop", "item `m` needs, in the end, itself", LOOP, "\"m\"", 5)],
    );
    says_of(
        &[
            module("d", "needs = [\"c\", \"a\"]"),
            module("c", "needs = [\"a\"]"),
            module("a", "needs = [\"e\", \"b\"]"),
            module("b", "needs = [\"a\"]"),
            module("e", ""),
        ]
        .concat(),
        &[
            ("needs-loop", "item `a` needs, in the end, itself", LOOP, "\"b\"", 15),
            ("needs-loop", "item `b` needs, in the end, itself", LOOP, "\"a\"", 20),
        ],
    );
}

#[test]
fn groups_of_which_only_one_is_aboard() {
    let build = sound(
        &with(&format!(
            "{}{}{}{}\
             [[either]]\nname = \"kitchen or bed\"\nof = [\"n\", \"m\"]\nnone = false\n\
             [[either]]\nname = \"sport\"\nof = [\"kayak\", \"bikes\"]\nnone = true\n",
            module("m", ""),
            module("n", ""),
            bags("bikes"),
            bags("kayak"),
        )),
        STOCK,
    );
    let groups: Vec<_> = build
        .eithers
        .iter()
        .map(|group| (group.name.value.as_str(), tags(&build, &group.of), group.none))
        .collect();
    let of = |tags: [&str; 2]| tags.map(str::to_owned).to_vec();
    assert_eq!(
        groups,
        [("kitchen or bed", of(["n", "m"]), false), ("sport", of(["kayak", "bikes"]), true)],
        "as written"
    );
}

#[test]
fn groups_that_cannot_be() {
    says_of(
        &format!(
            "{}{}{}{}\
             [[either]]\nname = \"g\"\nof = [\"m\", \"n\", \"m\"]\nnone = true\n\
             [[either]]\nname = \"g\"\nof = [\"m\", \"food\", \"o\", \"q\"]\n\
             [[either]]\nname = \"h\"\nof = [\"m\"]\nnone = 5\n\
             [[either]]\nof = []\nnone = true\nmembers = []\n",
            module("m", ""),
            module("n", ""),
            module("o", "removable = false"),
            load("food", "mass = \"40 lb\"\nleast = \"5 lb\""),
        ),
        &[
            ("named-twice", "either-or group `g` names `m` twice in one list", "name it once", "\"m\"", 23),
            (
                "duplicate-name",
                "the group name `g` is used twice",
                "give one of them another group name",
                "\"g\"",
                26,
            ),
            (
                "missing-value",
                "either-or group `g` has no `none`",
                "give `none`: whether all of them may stay at home",
                "\"g\"",
                26,
            ),
            (
                "named-twice",
                "item `m` is in two either-or groups",
                "put all of which only one may be aboard in one group",
                "\"m\"",
                27,
            ),
            ("wrong-tag", "`food` in either-or group `g` always rides along", LEAST_ZERO, "\"food\"", 27),
            ("wrong-tag", "`o` in either-or group `g` is not removable", TAKE_OUT, "\"o\"", 27),
            (
                "unknown-tag",
                "either-or group `g` names `q`, and no part has that tag",
                "the tags that fit are `m` and `n`",
                "\"q\"",
                27,
            ),
            (
                "too-few",
                "`of` of either-or group `h` names fewer than two parts or loads",
                FEW,
                "[\"m\"]",
                30,
            ),
            (
                "named-twice",
                "item `m` is in two either-or groups",
                "put all of which only one may be aboard in one group",
                "\"m\"",
                30,
            ),
            (
                "wrong-type",
                "`none` of either-or group `h` must be true or false, not a bare whole number",
                "write true or false, without quotes",
                "5",
                31,
            ),
            (
                "missing-value",
                "an either-or group has no `name`",
                "give `name`: what the group is called",
                "[[either]]",
                32,
            ),
            ("too-few", "`of` of an either-or group names fewer than two parts or loads", FEW, "[]", 33),
            (
                "unknown-key",
                "an either-or group has no field `members`",
                "its fields are `name`, `of` and `none`",
                "members",
                35,
            ),
        ],
    );
}

#[test]
fn a_group_with_one_bracket_too_few_is_read_all_the_same() {
    says_of(
        "[either]\nname = \"g\"\n",
        &[
            (
                "wrong-type",
                "`either` must be a list of tables, not a table",
                "write [[either]] with two brackets on each side",
                "[either]",
                1,
            ),
            (
                "missing-value",
                "either-or group `g` has no `of`",
                "give `of`: tags of removable parts or loads of which only one may be aboard",
                "\"g\"",
                2,
            ),
            (
                "missing-value",
                "either-or group `g` has no `none`",
                "give `none`: whether all of them may stay at home",
                "\"g\"",
                2,
            ),
        ],
    );
}

#[test]
fn parts_that_could_never_be_aboard() {
    let group = "[[either]]\nname = \"g\"\nof = [\"a\", \"b\"]\nnone = true\n";
    let told = |told: &str| format!("item {told}");
    // By a need, by what is needed in turn, and by what it stands in.
    says_of(
        &format!("{}{}{group}", module("a", "needs = [\"b\"]"), module("b", "")),
        &[(
            "never-aboard",
            &told("`a` can never be aboard: `b` comes with it, and `g` takes only one of the two"),
            NEVER,
            "[\"b\"]",
            5,
        )],
    );
    says_of(
        &format!(
            "{}{}{}{group}",
            module("a", "needs = [\"c\"]"),
            module("b", ""),
            module("c", "needs = [\"b\"]")
        ),
        &[(
            "never-aboard",
            &told("`a` can never be aboard: `b` comes with it, and `g` takes only one of the two"),
            NEVER,
            "[\"c\"]",
            5,
        )],
    );
    says_of(
        &format!(
            "[[locker]]\ntag = \"b\"\nremovable = true\nat = {{ front = \"1 in\", left = \"1 in\" }}\n\
             [[item]]\ntag = \"a\"\nkind = \"equipment\"\nremovable = true\nzone = \"b\"\nat = {{ front = \"1 in\", left = \"1 in\" }}\n{group}"
        ),
        &[(
            "never-aboard",
            &told("`a` can never be aboard: `b` comes with it, and `g` takes only one of the two"),
            NEVER,
            "\"b\"",
            9,
        )],
    );
    // One that is in no group; what needs that one in turn is not at fault by itself.
    says_of(
        &format!(
            "{}{}{}{}{group}",
            module("d", "needs = [\"c\"]"),
            module("c", "needs = [\"a\", \"b\"]"),
            module("a", ""),
            module("b", "")
        ),
        &[(
            "never-aboard",
            &told("`c` can never be aboard: `a` and `b` come with it, and `g` takes only one of them"),
            NEVER,
            "[\"a\", \"b\"]",
            10,
        )],
    );
    // Loads that always ride, each with one of the group.
    says_of(
        &format!(
            "{}{}{}{}{group}",
            load("x", "mass = \"40 lb\"\nleast = \"5 lb\"\nneeds = [\"a\"]"),
            load("y", "mass = \"40 lb\"\nleast = \"5 lb\"\nneeds = [\"b\"]"),
            module("a", ""),
            module("b", "")
        ),
        &[(
            "never-aboard",
            "with the loads that always ride come `a` and `b`, and `g` takes only one of them",
            "let one of the loads stay at home with `least = \"0 lb\"`, or change what it needs",
            "\"g\"",
            24,
        )],
    );
}
