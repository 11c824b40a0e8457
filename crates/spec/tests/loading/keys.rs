//! Keys, words, kinds, parts and tags that are not known, are missing, or are given twice.

use super::bench::{HEAD, STOCK, TRAILER, says, says_of};

const KINDS: &str = "`module`, `equipment`, `rack`, `tent`, `ladder`, `cylinder`, `appliance`, `battery`, `inverter`, `charger`, `solar`, `alarm` and `extinguisher`";
const AT: &str = "at = { front = \"1 in\", left = \"2 in\" }\n";

#[test]
fn unknown_keys_at_each_level() {
    says_of(
        &format!(
            "[frame]\na = 1\n[people]\ncuont = 2\n[tow]\nratng = \"5000 lb\"\n\
             [[item]]\ntag = \"g\"\npart = \"galley\"\nat = {{ frnt = \"1 in\", left = \"2 in\" }}\nzebra = 1\n\
             anchors = {{ kind = \"bolt\", cuont = 4 }}\ncg = {{ frontt = \"1 in\" }}\n\
             [[item]]\ntag = \"r\"\npart = \"rack-low\"\nzone = \"roof\"\n{AT}movign = \"50 lb\"\n\
             [[state]]\nname = \"s\"\nuse = \"road\"\nfil = {{}}\n\
             load = [{{ what = \"x\", mass = \"1 lb\", att = {{}} }}]\npeople = [{{ birth = \"b\", count = 1 }}]\n"
        ),
        &[
            (
                "unknown-key",
                "the spec has no field `frame`",
                "its fields are `build`, `trailer`, `tow`, `people`, `item`, `tank`, `locker`, `bulkhead`, `berth`, \
                 `vent`, `opening`, `load`, `either`, `gas`, `electric`, `water`, `quote`, `record`, \
                 `assume` and `state`",
                "frame",
                1,
            ),
            ("unknown-key", "`people` of the spec has no field `cuont`", "did you mean `count`?", "cuont", 4),
            ("unknown-key", "the tow vehicle has no field `ratng`", "did you mean `rating`?", "ratng", 6),
            ("unknown-key", "`at` of item `g` has no field `frnt`", "did you mean `front`?", "frnt", 10),
            (
                "unknown-key",
                "item `g` has no field `zebra`",
                "its fields are `swings`, `folds`, `tag`, `part`, `kind`, `zone`, `at`, `removable`, `mass`, `mass_basis`, `needs`, `length`, `width`, \
                 `height`, `cg`, `anchors`, `access`, `carriers`, `rolls`, `price`, `withdrawn`, `lead_time`, `asks_for`, `clashes`, `shop` \
                 and `note`",
                "zebra",
                11,
            ),
            (
                "unknown-key",
                "`anchors` of item `g` has no field `cuont`",
                "did you mean `count`?",
                "cuont",
                12,
            ),
            ("unknown-key", "`cg` of item `g` has no field `frontt`", "did you mean `front`?", "frontt", 13),
            ("unknown-key", "item `r` has no field `movign`", "did you mean `moving`?", "movign", 19),
            ("unknown-key", "state `s` has no field `fil`", "did you mean `fill`?", "fil", 23),
            ("unknown-key", "`load` of state `s` has no field `att`", "did you mean `at`?", "att", 24),
            (
                "unknown-key",
                "`people` of state `s` has no field `birth`",
                "did you mean `berth`?",
                "birth",
                25,
            ),
        ],
    );
    says(
        &format!("{HEAD}[trailer]\npart = \"box\"\ngvrw = \"2990 lb\"\nnose = {{ dept = \"1 in\" }}\n"),
        STOCK,
        &[
            ("unknown-key", "the trailer has no field `gvrw`", "did you mean `gvwr`?", "gvrw", 7),
            ("unknown-key", "`nose` of the trailer has no field `dept`", "did you mean `depth`?", "dept", 8),
        ],
    );
}

#[test]
fn a_key_of_another_kind_is_said_to_be_one() {
    says_of(
        &format!(
            "[[item]]\ntag = \"g\"\npart = \"galley\"\n{AT}capacity = \"3 gal\"\nfuel = \"wood\"\ngvwr = \"1 lb\"\n"
        ),
        &[
            (
                "unknown-key",
                "item `g` has no field `capacity`",
                "`capacity` belongs to parts of the kind `battery` or `tank`",
                "capacity",
                5,
            ),
            (
                "unknown-key",
                "item `g` has no field `fuel`",
                "`fuel` belongs to parts of the kind `cylinder` or `appliance`",
                "fuel",
                6,
            ),
            (
                "unknown-key",
                "item `g` has no field `gvwr`",
                "`gvwr` belongs to parts of the kind `trailer` or `tow vehicle`",
                "gvwr",
                7,
            ),
        ],
    );
}

#[test]
fn unknown_parts_and_kinds_bring_no_noise_about_their_fields() {
    says_of(
        &format!(
            "[[item]]\ntag = \"a\"\npart = \"galey\"\nat = {{ ball = \"1 in\" }}\ncapacity = \"3 gal\"\nzebra = 1\n\
             [[item]]\ntag = \"b\"\nkind = \"tnet\"\n{AT}opens = \"up\"\n\
             [[item]]\ntag = \"c\"\npart = \"box\"\n\
             [[tank]]\ntag = \"d\"\nkind = \"rack\"\n{AT}\
             [[item]]\ntag = \"e\"\npart = \"zzz\"\nzone = \"b\"\n{AT}\
             [[item]]\ntag = \"f\"\npart = \"galley\"\nzone = \"rack\"\n{AT}\
             [[state]]\nname = \"s\"\nuse = \"road\"\nout = [\"a\", \"e\"]\nfill = {{ d = \"10 %\" }}\n"
        ),
        &[
            ("unknown-part", "the stock list has no part `galey`", "did you mean `galley`?", "\"galey\"", 3),
            (
                "unknown-key",
                "item `a` has no field `zebra`",
                "its fields are `tag`, `part`, `kind`, `zone`, `at`, `removable`, `mass`, `mass_basis`, `needs`, `length`, `width`, \
                 `height`, `cg`, `anchors`, `access`, `carriers`, `rolls`, `price`, `withdrawn`, `lead_time`, `asks_for`, `clashes`, `shop` \
                 and `note`",
                "zebra",
                6,
            ),
            (
                "unknown-kind",
                "no kind of part is called `tnet` here",
                &format!("did you mean `tent`? the kinds are {KINDS}"),
                "\"tnet\"",
                9,
            ),
            (
                "wrong-kind",
                "item `c` cannot be `box`, which is a trailer",
                "name a part of the right kind",
                "\"box\"",
                14,
            ),
            ("unknown-kind", "no kind of part is called `rack` here", "the kinds are `tank`", "\"rack\"", 17),
            (
                "unknown-part",
                "the stock list has no part `zzz`",
                "add it to the stock list, or state its fields here instead",
                "\"zzz\"",
                21,
            ),
        ],
    );
    says(
        &format!("{HEAD}[trailer]\npart = \"bos\"\n[tow]\npart = \"galley\"\nrating = \"5 in\"\n"),
        STOCK,
        &[
            ("unknown-part", "the stock list has no part `bos`", "did you mean `box`?", "\"bos\"", 6),
            (
                "wrong-kind",
                "the tow vehicle cannot be `galley`, which is a module",
                "name a part of the right kind",
                "\"galley\"",
                8,
            ),
            (
                "wrong-dimension",
                "`rating` of the tow vehicle must be a mass; `5 in` is a length",
                "write a mass, such as `150 lb`",
                "\"5 in\"",
                9,
            ),
        ],
    );
    says(
        &format!("{HEAD}{TRAILER}"),
        "",
        &[(
            "unknown-part",
            "the stock list has no part `box`",
            "the stock list is empty; name its folder in pintle.toml, `stock = [\"stock\"]`",
            "\"box\"",
            6,
        )],
    );
}

#[test]
fn a_kind_beside_a_part_must_be_the_parts_own() {
    says_of(
        &format!(
            "[[item]]\ntag = \"g\"\nkind = \"tent\"\npart = \"galley\"\n{AT}\
             [[item]]\ntag = \"h\"\nkind = \"module\"\npart = \"galley\"\n{AT}"
        ),
        &[(
            "wrong-kind",
            "item `g` is a module by its part, not a `tent`",
            "leave `kind` out where `part` is given",
            "\"tent\"",
            3,
        )],
    );
}

#[test]
fn unknown_words_and_units() {
    says_of(
        &format!(
            "[[item]]\ntag = \"a\"\nkind = \"alarm\"\n{AT}senses = [\"smok\", \"propane\", \"zebra\"]\nmass = \"1 lbz\"\n\
             [[state]]\nname = \"s\"\nuse = \"raod\"\n"
        ),
        &[
            (
                "unknown-word",
                "`senses` of item `a` cannot be `smok`",
                "did you mean `smoke`? the words are `propane`, `carbon monoxide` and `smoke`",
                "\"smok\"",
                5,
            ),
            (
                "unknown-word",
                "`senses` of item `a` cannot be `zebra`",
                "the words are `propane`, `carbon monoxide` and `smoke`",
                "\"zebra\"",
                5,
            ),
            (
                "bad-quantity",
                "`mass` of item `a` cannot be read: `lbz` is not a known unit",
                "did you mean `lb`?",
                "lbz",
                6,
            ),
            (
                "unknown-word",
                "`use` of state `s` cannot be `raod`",
                "did you mean `road`? the words are `road` and `camp`",
                "\"raod\"",
                9,
            ),
        ],
    );
}

#[test]
fn what_is_missing_and_what_is_only_misspelt() {
    says(
        "[build]\nnmber = \"1\"\nstage = \"design\"\n[trailer]\nnose = {}\n[[item]]\nkind = \"module\"\n[[item]]\ntag = \"x\"\n\
         at = { front = \"1 in\" }\n[[state]]\nuse = \"road\"\nload = [{ mass = \"1 lb\" }]\n",
        STOCK,
        &[
            (
                "missing-value",
                "`build` of the spec has no `title`",
                "give `title`: what it is, in a line",
                "[build]",
                1,
            ),
            ("unknown-key", "`build` of the spec has no field `nmber`", "did you mean `number`?", "nmber", 2),
            (
                "missing-value",
                "`nose` of the trailer has no `shape`",
                "give `shape`: its shape seen from above: flat, a half ellipse, or a wedge",
                "{}",
                5,
            ),
            (
                "missing-value",
                "an item has no `tag`",
                "give `tag`: the name of this one in this spec",
                "[[item]]",
                6,
            ),
            (
                "missing-value",
                "an item has no place",
                "give the gaps that a tape measure shows, such as `at = { front = \"30 in\", left = \"0 in\" }`",
                "[[item]]",
                6,
            ),
            (
                "missing-value",
                "item `x` has neither `part` nor `kind`",
                &format!("name a stock part, or state its kind: {KINDS}"),
                "\"x\"",
                9,
            ),
            (
                "missing-value",
                "a state has no `name`",
                "give `name`: what the state is called",
                "[[state]]",
                11,
            ),
            (
                "missing-value",
                "`load` of a state has no `what`",
                "give `what`: what it is",
                "{ mass = \"1 lb\" }",
                13,
            ),
            (
                "missing-value",
                "`load` of a state has no `at`",
                "give `at`: its place",
                "{ mass = \"1 lb\" }",
                13,
            ),
        ],
    );
    says(
        "[biuld]\nnumber = 1\n[trailer]\npart = \"box\"\n",
        STOCK,
        &[("unknown-key", "the spec has no field `biuld`", "did you mean `build`?", "biuld", 1)],
    );
}

#[test]
fn a_misspelt_tag_still_names_its_part() {
    says_of(
        &format!(
            "[[item]]\ntga = \"g\"\npart = \"galley\"\n{AT}[[state]]\nname = \"s\"\nuse = \"road\"\nout = [\"g\"]\n"
        ),
        &[("unknown-key", "item `g` has no field `tga`", "did you mean `tag`?", "tga", 2)],
    );
}

#[test]
fn names_that_are_used_twice() {
    let tank = format!("[[tank]]\ntag = \"t\"\npart = \"tank-20\"\n{AT}");
    says_of(
        &format!(
            "[[item]]\ntag = \"t\"\npart = \"galley\"\n{AT}{tank}\
             [[berth]]\ntag = \"b\"\n{AT}\
             [[state]]\nname = \"s\"\nuse = \"camp\"\nout = [\"t\", \"t\"]\n\
             people = [{{ berth = \"b\", count = 1 }}, {{ berth = \"b\", count = 1 }}]\n\
             [[state]]\nname = \"s\"\nuse = \"road\"\n"
        ),
        &[
            ("duplicate-tag", "the tag `t` is used twice", "give one of them another tag", "\"t\"", 6),
            ("named-twice", "state `s` names `t` twice in one list", "name it once", "\"t\"", 15),
            ("named-twice", "state `s` names `b` twice in one list", "name it once", "\"b\"", 16),
            (
                "duplicate-name",
                "the state name `s` is used twice",
                "give one of them another state name",
                "\"s\"",
                18,
            ),
        ],
    );
}

#[test]
fn tags_in_states_must_name_the_right_sort_of_part() {
    says_of(
        &format!(
            "[[item]]\ntag = \"galley\"\npart = \"galley\"\n{AT}[[item]]\ntag = \"stove\"\nkind = \"appliance\"\n{AT}\
             [[tank]]\ntag = \"fresh\"\npart = \"tank-20\"\n{AT}\
             [[state]]\nname = \"s\"\nuse = \"road\"\nfill = {{ frsh = \"10 %\", galley = \"10 %\" }}\n\
             out = [\"stove\", \"galey\"]\npeople = [{{ berth = \"fresh\", count = 1 }}, {{ berth = \"zz\", count = 1 }}]\n"
        ),
        &[
            (
                "unknown-tag",
                "state `s` names `frsh`, and no part has that tag",
                "did you mean `fresh`?",
                "frsh",
                16,
            ),
            ("wrong-tag", "`galley` in state `s` is not a tank", "name a tank", "galley", 16),
            (
                "wrong-tag",
                "`stove` in state `s` is not removable",
                "mark the part `removable = true`, or leave it out of `out`",
                "\"stove\"",
                17,
            ),
            (
                "unknown-tag",
                "state `s` names `galey`, and no part has that tag",
                "did you mean `galley`?",
                "\"galey\"",
                17,
            ),
            ("wrong-tag", "`fresh` in state `s` is not a berth", "name a berth", "\"fresh\"", 18),
            (
                "unknown-tag",
                "state `s` names `zz`, and no part has that tag",
                "no part with a tag is a berth",
                "\"zz\"",
                18,
            ),
        ],
    );
}

#[test]
fn one_bracket_too_few_is_said_and_the_table_read_all_the_same() {
    says_of(
        &format!(
            "[item]\ntag = \"g\"\npart = \"galley\"\n{AT}zebar = 1\n[state]\nname = \"s\"\nuse = \"raod\"\nout = [\"g\"]\n"
        ),
        &[
            (
                "wrong-type",
                "`item` must be a list of tables, not a table",
                "write [[item]] with two brackets on each side",
                "[item]",
                1,
            ),
            (
                "unknown-key",
                "item `g` has no field `zebar`",
                "its fields are `swings`, `folds`, `tag`, `part`, `kind`, `zone`, `at`, `removable`, `mass`, `mass_basis`, `needs`, `length`, `width`, \
                 `height`, `cg`, `anchors`, `access`, `carriers`, `rolls`, `price`, `withdrawn`, `lead_time`, `asks_for`, `clashes`, `shop` \
                 and `note`",
                "zebar",
                5,
            ),
            (
                "wrong-type",
                "`state` must be a list of tables, not a table",
                "write [[state]] with two brackets on each side",
                "[state]",
                6,
            ),
            (
                "unknown-word",
                "`use` of state `s` cannot be `raod`",
                "did you mean `road`? the words are `road` and `camp`",
                "\"raod\"",
                8,
            ),
        ],
    );
}
