//! Stock lists: loops, doubles, parts that are refused, and what a spec hears of them.

use super::bench::{HEAD, STOCK, TRAILER, load, says, with};

const KINDS: &str = "the kinds are `trailer`, `tow vehicle`, `module`, `equipment`, `rack`, `tent`, `ladder`, \
    `cylinder`, `appliance`, `battery`, `inverter`, `charger`, `solar`, `alarm`, `tank`, `locker`, `bulkhead`, `berth`, `vent`, `opening`, \
    `extinguisher` and `load`";
const LOOP: &str = "name the part it is a variant of, or state its `kind` and all its fields";
const SPEC: &str =
    "[build]\nnumber = \"1\"\ntitle = \"1\"\nstage = \"design\"\n[trailer]\nnose = { shape = \"flat\" }\n";

#[test]
fn parts_that_refer_to_themselves() {
    says(
        SPEC,
        "[[part]]\nname = \"a\"\nkind = \"module\"\npart = \"a\"\n",
        &[("stock-loop", "stock part `a` refers to itself: `a` → `a`", LOOP, "\"a\"", 4)],
    );
    says(
        SPEC,
        "[[part]]\nname = \"a\"\npart = \"b\"\n[[part]]\nname = \"b\"\npart = \"c\"\n[[part]]\nname = \"c\"\npart = \"a\"\n\
         mass = \"5 in\"\n[[part]]\nname = \"d\"\npart = \"a\"\n",
        &[
            ("stock-loop", "stock part `a` refers to itself: `a` → `b` → `c` → `a`", LOOP, "\"a\"", 9),
            (
                "wrong-dimension",
                "`mass` of stock part `c` must be a mass; `5 in` is a length",
                "write a mass, such as `150 lb`",
                "\"5 in\"",
                10,
            ),
        ],
    );
    // The way into a loop is no part of it.
    says(
        SPEC,
        "[[part]]\nname = \"a\"\npart = \"b\"\n[[part]]\nname = \"b\"\npart = \"c\"\n[[part]]\nname = \"c\"\npart = \"b\"\n",
        &[("stock-loop", "stock part `b` refers to itself: `b` → `c` → `b`", LOOP, "\"b\"", 9)],
    );
}

#[test]
fn rows_of_variants_have_an_end() {
    let row = |parts: usize| {
        let first = "[[part]]\nname = \"p0\"\nkind = \"module\"\n".to_owned();
        (1..parts)
            .fold(first, |row, at| row + &format!("[[part]]\nname = \"p{at}\"\npart = \"p{}\"\n", at - 1))
    };
    says(SPEC, &row(16), &[]);
    let told = "stock part `p16` is a variant of more than 15 others in a row";
    says(
        SPEC,
        &row(20),
        &[("stock-loop", told, "state its `kind` and all its fields", "\"p15\"", 16 * 3 + 3)],
    );
    let item =
        |part: &str| format!("[[item]]\ntag = \"{part}\"\npart = \"{part}\"\nat = {{ front = \"1 in\" }}\n");
    let read = load(&format!("{SPEC}{}{}{}", item("p15"), item("p16"), item("p19")), &row(20));
    assert_eq!(read.codes(), ["stock-loop", "refused-part", "refused-part"], "and what builds on it");
}

#[test]
fn what_belongs_in_a_spec_and_what_is_given_twice() {
    says(
        SPEC,
        "[[part]]\nname = \"a\"\nkind = \"module\"\ntag = \"x\"\nat = { front = \"1 in\" }\n\
         [[part]]\nname = \"a\"\nkind = \"rack\"\nfeeet = 3\n",
        &[
            (
                "unknown-key",
                "stock part `a` cannot have `tag`",
                "tags and places are given where the part is fitted, in the spec",
                "tag",
                4,
            ),
            (
                "unknown-key",
                "stock part `a` cannot have `at`",
                "tags and places are given where the part is fitted, in the spec",
                "at",
                5,
            ),
            ("duplicate-part", "two stock parts are called `a`", "give one of them another name", "\"a\"", 7),
            ("unknown-key", "stock part `a` has no field `feeet`", "did you mean `feet`?", "feeet", 9),
        ],
    );
}

#[test]
fn variants_of_another_kind_and_of_nothing() {
    says(
        SPEC,
        "[[part]]\nname = \"a\"\nkind = \"alarm\"\n[[part]]\nname = \"b\"\nkind = \"rack\"\npart = \"a\"\n\
         [[part]]\nname = \"c\"\npart = \"qqq\"\ncapacity = \"1 gal\"\n\
         [[part]]\nname = \"d\"\nkind = \"modul\"\nmass = \"1 in\"\n",
        &[
            (
                "wrong-kind",
                "stock part `b` is a rack, its base `a` an alarm",
                "leave `kind` out of a variant",
                "\"rack\"",
                6,
            ),
            (
                "unknown-part",
                "the stock list has no part `qqq`",
                "add it to the stock list, or state its fields here instead",
                "\"qqq\"",
                10,
            ),
            (
                "unknown-kind",
                "no kind of part is called `modul` here",
                &format!("did you mean `module`? {KINDS}"),
                "\"modul\"",
                14,
            ),
            (
                "wrong-dimension",
                "`mass` of stock part `d` must be a mass; `1 in` is a length",
                "write a mass, such as `150 lb`",
                "\"1 in\"",
                15,
            ),
        ],
    );
}

#[test]
fn names_and_kinds_that_are_missing_or_misspelt() {
    says(
        SPEC,
        "[[part]]\nkind = \"module\"\n[[part]]\nname = 5\nkind = \"module\"\n[[part]]\nname = \"\"\nkind = 7\n\
         [[part]]\nname = \"x\"\n[[part]]\nnmae = \"y\"\nkind = \"module\"\n[[part]]\nname = \"z\"\nkidn = \"module\"\n",
        &[
            (
                "missing-value",
                "a stock part has no `name`",
                "give it the name that specs will call it by, such as `name = \"galley-72\"`",
                "[[part]]",
                1,
            ),
            (
                "wrong-type",
                "`name` of a stock part must be text, not a bare whole number",
                "put it in quotes",
                "5",
                4,
            ),
            (
                "empty-text",
                "`name` of a stock part is empty",
                "write something, or leave the field out",
                "\"\"",
                7,
            ),
            (
                "wrong-type",
                "`kind` of a stock part must be text, not a bare whole number",
                "put it in quotes",
                "7",
                8,
            ),
            ("missing-value", "stock part `x` has no `kind`", KINDS, "\"x\"", 10),
            ("unknown-key", "stock part `y` has no field `nmae`", "did you mean `name`?", "nmae", 12),
            ("unknown-key", "stock part `z` has no field `kidn`", "did you mean `kind`?", "kidn", 16),
        ],
    );
}

#[test]
fn a_stock_list_holds_only_parts() {
    says(
        SPEC,
        "[part]\nname = \"a\"\nmass = \"1 in\"\nkind = \"module\"\n[build]\nnumber = 1\n",
        &[
            (
                "wrong-type",
                "`part` of a stock list must be a list of tables, not a table",
                "write [[part]] with two brackets on each side",
                "[part]",
                1,
            ),
            (
                "wrong-dimension",
                "`mass` of stock part `a` must be a mass; `1 in` is a length",
                "write a mass, such as `150 lb`",
                "\"1 in\"",
                3,
            ),
            (
                "unknown-key",
                "a stock list has no table `build`",
                "a stock list holds only [[part]] tables",
                "build",
                5,
            ),
        ],
    );
    let help = "write its fields in curly brackets, `{ … }`, or under a header of its own";
    says(
        SPEC,
        "part = [1]\n",
        &[("wrong-type", "a stock part must be a table, not a bare whole number", help, "1", 1)],
    );
    says(SPEC, "", &[]);
    says(SPEC, "# none yet\n", &[]);
}

#[test]
fn a_spec_that_uses_a_refused_part_says_so_and_gives_no_build() {
    let stock =
        STOCK.replace("gvwr = \"2990 lb\"", "gvwr = \"2990 in\"").replace("mass = \"150 lb\"", "mas = 1");
    let item = "[[item]]\ntag = \"g\"\npart = \"galley\"\nat = { frame = \"1 in\" }\n\
        [[state]]\nname = \"s\"\nuse = \"road\"\nout = [\"g\"]\n";
    says(
        &with(item),
        &stock,
        &[
            (
                "wrong-dimension",
                "`gvwr` of stock part `box` must be a mass; `2990 in` is a length",
                "write a mass, such as `150 lb`",
                "\"2990 in\"",
                6,
            ),
            ("unknown-key", "stock part `galley` has no field `mas`", "did you mean `mass`?", "mas", 21),
            (
                "refused-part",
                "stock part `box` has problems of its own",
                "correct the stock list first",
                "\"box\"",
                6,
            ),
            (
                "refused-part",
                "stock part `galley` has problems of its own",
                "correct the stock list first",
                "\"galley\"",
                9,
            ),
        ],
    );
    let unread = "[[part]]\nname = \"box\"\nkind = \"trailer\"\npart = 5\nnose = { shape = \"flat\" }\n";
    let read = load(&format!("{HEAD}{TRAILER}"), unread);
    assert_eq!(read.codes(), ["wrong-type", "refused-part"]);
    assert!(read.build.is_none());
}

#[test]
fn a_value_missing_in_stock_is_marked_in_the_stock_list() {
    says(
        &with(""),
        &STOCK.replace("nose = { shape = \"flat\" }", "nose = { depth = \"1 in\" }"),
        &[(
            "missing-value",
            "`nose` of the trailer has no `shape`",
            "give `shape`: its shape seen from above: flat, a half ellipse, or a wedge",
            "{ depth = \"1 in\" }",
            15,
        )],
    );
}

#[test]
fn faults_of_grammar_in_stock_are_said_and_the_other_parts_read() {
    says(
        SPEC,
        "[[part]]\nname = \"a\"\nkind = \"module\"\nmass = 5 lb\nlength = \"5 lb\"\n[[part]\nname = \"b\"\n\
         [[part]]\nname = \"c\"\nkind = \"module\"\nwidth = \"5 lb\"\n",
        &[
            ("not-toml", "this is not TOML: `5 lb` must be in quotes", "put the value in quotes", "5 lb", 4),
            (
                "wrong-dimension",
                "`length` of stock part `a` must be a length; `5 lb` is a mass",
                "write a length, such as `22 3/8 in`",
                "\"5 lb\"",
                5,
            ),
            (
                "not-toml",
                "this is not TOML: unclosed array table, expected `]`",
                "close the bracket that was opened",
                "]",
                6,
            ),
            (
                "wrong-dimension",
                "`width` of stock part `c` must be a length; `5 lb` is a mass",
                "write a length, such as `22 3/8 in`",
                "\"5 lb\"",
                11,
            ),
        ],
    );
}
