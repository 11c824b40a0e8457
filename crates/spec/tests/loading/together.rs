//! What rides along and what comes with what: loads, needs, either-or groups, the order of tanks.

use pintle_quantity::Units;
use pintle_spec::schema::{item, kinds};
use pintle_spec::{Build, Table, Zone};

use super::bench::{STOCK, part, says_of, sound, with};

const TAKE_OUT: &str = "leave it out, or mark the part `removable = true` if it can be taken out";
const LOOP: &str = "leave one of them out; what only rides together is one part";
const FEW: &str = "name all of which only one may be aboard, or leave the group out";
const NEVER: &str = "take one of the two out of the group, or out of what the part needs";
const LEAST_ZERO: &str = "leave it out, or give the load `least = \"0 lb\"` if it may stay at home";

/// A load on four lines.
fn load(tag: &str, more: &str) -> String {
    format!(
        "[[load]]\ntag = \"{tag}\"\nat = {{ front = \"60 in\", left = \"24 in\", floor = \"3 in\" }}\n{more}\n"
    )
}

/// A load that may stay at home, on four lines.
fn bags(tag: &str) -> String {
    load(tag, "mass = \"40 lb\"\nleast = \"0 lb\"")
}

/// A module on five lines.
fn module(tag: &str, more: &str) -> String {
    format!(
        "[[item]]\ntag = \"{tag}\"\npart = \"galley\"\nat = {{ front = \"3 in\", right = \"0 in\" }}\n{more}\n"
    )
}

fn tags(build: &Build, of: &[usize]) -> Vec<String> {
    of.iter().map(|at| build.items[*at].tag.value.clone()).collect()
}

/// The example of the spec format's page, with the parts that it names.
#[test]
fn the_example_of_the_spec_format_is_sound() {
    let page = include_str!("../../../../docs/src/spec-format.md");
    let (_, after) = page.split_once("## What rides together\n\n```toml\n").unwrap();
    let (example, _) = after.split_once("```").unwrap();
    let build = sound(
        &with(&format!(
            "{}{}{}{example}",
            "[[item]]\ntag = \"rack\"\npart = \"rack-low\"\nzone = \"roof\"\nat = { front = \"9 in\" }\n",
            "[[item]]\ntag = \"tent\"\npart = \"tent-soft\"\nremovable = true\nzone = \"rack\"\nat = { front = \"0 in\" }\n",
            ["can", "fresh"].map(|tag| format!(
                "[[tank]]\ntag = \"{tag}\"\npart = \"tank-20\"\nat = {{ front = \"1 in\", left = \"1 in\" }}\n"
            )).concat(),
        )),
        STOCK,
    );
    assert_eq!(tags(&build, &build.eithers[0].of), ["tent", "kayak"]);
    assert_eq!(tags(&build, &build.use_order), ["can", "fresh"]);
    assert_eq!(build.of_table(Table::Load).count(), 2);
}

#[test]
fn a_load_is_read_as_a_part_is_and_is_a_point_without_a_size() {
    let build = sound(
        &with(&format!(
            "{}{}[[load]]\ntag = \"bikes\"\npart = \"bike\"\nleast = \"0 lb\"\nzone = \"rack\"\n\
             at = {{ front = \"2 in\", gap = \"1 in\" }}\nneeds = [\"rack\"]\nmass_basis = \"guessed\"\n",
            load("food", "mass = \"40 lb\"\nleast = \"10 lb\"\nused_up = true"),
            "[[item]]\ntag = \"rack\"\npart = \"rack-low\"\nzone = \"roof\"\nremovable = true\nat = { front = \"9 in\" }\n",
        )),
        &format!(
            "{STOCK}[[part]]\nname = \"bike\"\nkind = \"load\"\nmass = \"30 lb\"\nleast = \"5 lb\"\nlength = \"60 in\"\nheight = \"40 in\"\n"
        ),
    );
    let (food, bikes) = (part(&build, "food"), part(&build, "bikes"));
    assert_eq!((food.table, food.kind, food.removable), (Table::Load, "load", false));
    assert_eq!((bikes.table, bikes.kind, bikes.zone), (Table::Load, "load", Zone::Rack(0)));
    let pounds = |part: &pintle_spec::Item, field| {
        let mass: pintle_spec::Spanned<_> = part.record.quantity(field).unwrap();
        mass.value.show(Units::AsWritten)
    };
    assert_eq!([pounds(food, &item::MASS), pounds(food, &kinds::load::LEAST)], ["40 lb", "10 lb"]);
    assert_eq!(
        [pounds(bikes, &item::MASS), pounds(bikes, &kinds::load::LEAST)],
        ["30 lb", "0 lb"],
        "over its stock part"
    );
    assert!(food.record.flag(&kinds::load::USED_UP).unwrap().value);
    assert_eq!(bikes.record.word(&item::MASS_BASIS).unwrap().value, "guessed");
    assert_eq!((tags(&build, &bikes.needs), tags(&build, &food.needs)), (vec!["rack".to_owned()], vec![]));
    let inches = |place: &pintle_spec::Known<pintle_spec::Coordinate>| {
        format!("{:.3}", place.as_ref().unwrap().metres / 0.0254)
    };
    let x = &food.extent.x;
    assert_eq!(
        [&x.near, &x.cg, &x.far].map(inches),
        ["101.000"; 3],
        "40 + 1 + 60 in behind the ball, a point"
    );
    assert_eq!([&food.extent.z.near, &food.extent.z.far].map(inches), ["23.000"; 2]);
    let x = &bikes.extent.x;
    assert_eq!([&x.near, &x.cg, &x.far].map(inches), ["51.000", "81.000", "111.000"], "its length is given");
    assert_eq!(
        [&bikes.extent.z.near, &bikes.extent.z.far].map(inches),
        ["100.000", "140.000"],
        "20 + 72 + 2 + 5 + 1 in"
    );
}

#[test]
fn a_load_does_not_stand_on_anything_by_itself() {
    let on_floor = "[[load]]\ntag = \"a\"\nmass = \"9 lb\"\nleast = \"0 lb\"\nat = { front = \"1 in\", left = \"1 in\" }\n";
    let build = sound(&with(on_floor), STOCK);
    let missing = part(&build, "a").extent.z.cg.clone().unwrap_err();
    assert_eq!(missing.what, "the place upright of load `a`");
    let place =
        "give the gaps that a tape measure shows, such as `at = { front = \"30 in\", left = \"0 in\" }`";
    says_of(
        "[[item]]\ntag = \"tent\"\npart = \"tent-soft\"\nzone = \"roof\"\nat = { front = \"1 in\" }\n\
         [[load]]\ntag = \"pillows\"\nmass = \"9 lb\"\nleast = \"0 lb\"\nzone = \"tent\"\n",
        &[("missing-value", "load `pillows` has no place", place, "\"pillows\"", 7)],
    );
}

#[test]
fn what_a_load_must_state_and_what_it_cannot() {
    says_of(
        &format!(
            "{}{}{}",
            load("a", "mass = \"40 lb\"\nleast = \"50 lb\"\nremovable = true"),
            load("b", "used_up = 5\nremovable = false\ncapacity = \"5 gal\""),
            load("c", "mass = \"heavy\"\nleast = \"-1 lb\""),
        ),
        &[
            (
                "wrong-range",
                "`least` of load `a` is `50 lb`, which is more than its `mass`, `40 lb`",
                "give a `least` that is no more than `mass`",
                "\"50 lb\"",
                5,
            ),
            (
                "wrong-field",
                "`removable` means nothing on load `a`",
                "leave it out; `least = \"0 lb\"` says that the load may stay at home",
                "true",
                6,
            ),
            (
                "missing-value",
                "load `b` has no `least`",
                "give it, such as `least = \"150 lb\"`: the least of it that rides along; zero for what may stay at home",
                "\"b\"",
                8,
            ),
            (
                "missing-value",
                "load `b` has no `mass`",
                "give the most of it that rides along, such as `mass = \"150 lb\"`",
                "\"b\"",
                8,
            ),
            (
                "wrong-type",
                "`used_up` of load `b` must be true or false, not a bare whole number",
                "write true or false, without quotes",
                "5",
                10,
            ),
            (
                "wrong-field",
                "`removable` means nothing on load `b`",
                "leave it out; `least = \"0 lb\"` says that the load may stay at home",
                "false",
                11,
            ),
            (
                "unknown-key",
                "load `b` has no field `capacity`",
                "`capacity` belongs to parts of the kind `battery` or `tank`",
                "capacity",
                12,
            ),
            (
                "bad-quantity",
                "`mass` of load `c` cannot be read: `heavy` is not a number",
                "write a number and its unit, such as `22 3/8 in` or `150 lb`",
                "heavy",
                16,
            ),
            (
                "impossible-number",
                "`least` of load `c` cannot be `-1 lb`: it must be zero or more",
                "check the sign and the size of the number",
                "\"-1 lb\"",
                17,
            ),
        ],
    );
    // Both may be the same, and in different units.
    sound(&with(&load("a", "mass = \"1 kg\"\nleast = \"1000 g\"")), STOCK);
}

#[test]
fn how_full_a_tank_may_be_on_the_road() {
    let tank = |road: &str| {
        format!(
            "[[tank]]\ntag = \"t\"\npart = \"tank-20\"\nat = {{ front = \"1 in\", left = \"1 in\" }}\non_road = {road}\n"
        )
    };
    sound(&with(&tank("{ least = \"10 %\", most = \"10 %\" }")), STOCK);
    says_of(
        &tank("{ least = \"50 %\", most = \"40 %\" }"),
        &[(
            "wrong-range",
            "`least` of `on_road` of tank `t` is `50 %`, which is more than its `most`, `40 %`",
            "give a `least` that is no more than `most`",
            "\"50 %\"",
            5,
        )],
    );
    says_of(
        &tank("{ least = \"50 %\" }"),
        &[(
            "missing-value",
            "`on_road` of tank `t` has no `most`",
            "give it, such as `most = \"10 %\"`: the most it holds on the road",
            "{ least = \"50 %\" }",
            5,
        )],
    );
}

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

#[test]
fn the_order_in_which_tanks_are_emptied() {
    let tank = |tag: &str| {
        format!(
            "[[tank]]\ntag = \"{tag}\"\npart = \"tank-20\"\nat = {{ front = \"1 in\", left = \"1 in\" }}\n"
        )
    };
    let tanks = ["a", "b", "c"].map(tank).concat();
    let build = sound(&with(&format!("{tanks}[water]\nuse_order = [\"c\", \"a\"]\n")), STOCK);
    assert_eq!(tags(&build, &build.use_order), ["c", "a"]);
    assert_eq!(sound(&with(&tanks), STOCK).use_order, []);
    says_of(
        &format!("{tanks}{}[water]\nuse_order = [\"c\", \"m\", \"c\", \"d\"]\norder = []\n", module("m", "")),
        &[
            ("wrong-tag", "`m` in `use_order` of `water` is not a tank", "name a tank", "\"m\"", 19),
            (
                "named-twice",
                "`use_order` of `water` names `c` twice in one list",
                "name it once",
                "\"c\"",
                19,
            ),
            (
                "unknown-tag",
                "`use_order` of `water` names `d`, and no part has that tag",
                "the tags that fit are `a`, `b` and `c`",
                "\"d\"",
                19,
            ),
            (
                "unknown-key",
                "`water` of the spec has no field `order`",
                "did you mean `use_order`?",
                "order",
                20,
            ),
        ],
    );
}

/// `held_by` names a fitted part, and in the end one with anchors of its own.
#[test]
fn what_is_kept_in_what() {
    let held = |tag: &str, keeper: &str| module(tag, &format!("anchors = {{ held_by = \"{keeper}\" }}"));
    let kept = load("pans", "mass = \"20 lb\"\nleast = \"0 lb\"\nanchors = { held_by = \"g\" }");
    sound(&with(&(module("g", "") + &held("drawer", "g") + &kept)), STOCK);
    let apart = "let one of them have anchors of its own";
    says_of(
        &(held("a", "b") + &held("b", "a") + &held("c", "c") + &held("d", "a")),
        &[
            ("held-loop", "item `a` is held, in the end, by itself", apart, "\"b\"", 5),
            ("held-loop", "item `b` is held, in the end, by itself", apart, "\"a\"", 10),
            ("held-loop", "item `c` is held, in the end, by itself", apart, "\"c\"", 15),
        ],
    );
    says_of(
        &(module("galley", "") + &bags("bags") + &held("a", "gally") + &held("b", "bags")),
        &[
            (
                "unknown-tag",
                "`held_by` of item `a` names `gally`, and no part has that tag",
                "did you mean `galley`?",
                "\"gally\"",
                15,
            ),
            (
                "wrong-tag",
                "`bags` in `held_by` of item `b` is not a fitted part",
                "name a fitted part",
                "\"bags\"",
                20,
            ),
        ],
    );
}
