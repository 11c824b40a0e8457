//! What rides along: loads, how full tanks are and in which order they are emptied, and what is kept in what.

use pintle_quantity::Units;
use pintle_spec::schema::{item, kinds};
use pintle_spec::{Build, Table, Zone};

use super::bench::{STOCK, part, says_of, sound, with};

/// A load on four lines.
pub(super) fn load(tag: &str, more: &str) -> String {
    format!(
        "[[load]]\ntag = \"{tag}\"\nat = {{ front = \"60 in\", left = \"24 in\", floor = \"3 in\" }}\n{more}\n"
    )
}

/// A load that may stay at home, on four lines.
pub(super) fn bags(tag: &str) -> String {
    load(tag, "mass = \"40 lb\"\nleast = \"0 lb\"")
}

/// A module on five lines.
pub(super) fn module(tag: &str, more: &str) -> String {
    format!(
        "[[item]]\ntag = \"{tag}\"\npart = \"galley\"\nat = {{ front = \"3 in\", right = \"0 in\" }}\n{more}\n"
    )
}

pub(super) fn tags(build: &Build, of: &[usize]) -> Vec<String> {
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
