//! All the mistakes of one file in one go: each said once, in the order of the file, none hidden behind another.

use super::bench::{STOCK, load, says};

/// Fifteen mistakes, each marked with its number where it is made.
const FIFTEEN: &str = r#"[build]
numbr = "T-1"                       # 1
title = "fifteen mistakes"
stage = "desing"                    # 2

[trailer]
part = "box"
gvwr = 2990                         # 3

[people]
count = -4                          # 4

[[item]]
tag = "galley"
part = "galey"                      # 5
at = { front = "3 in", right = "0 in" }
capacity = "3 gal"

[[item]]
tag = "rack"
part = "rack-low"
zone = "rof"                        # 6
at = { front = "18 in" }

[[item]]
tag = "tent"
part = "tent-soft"
zone = "rack"
at = { front = "2 in", rear = "4 in" } # 7
removable = "yes"                   # 8

[[item]]
tag = "stove"
kind = "appliance"
at = { front = "80 in", frame = "2 in" } # 9
fuel = "propan"                     # 10

[[tank]]
tag = "fresh"
part = "tank-20"
mass = "12 gal"                     # 11
at = { front = "52 in", left = "2 in" }

[[tank]]
tag = "fresh"                       # 12
part = "tank-20"
at = { front = "80 in", left = "2 inn" } # 13

[[state]]
name = "outward"
use = "road"
fill = { fresh = "110 %", gray = "0 %" } # 14, 15
out = ["galley", "tent"]
"#;

#[test]
fn fifteen_mistakes_are_fifteen_problems() {
    let size = "check the sign and the size of the number";
    says(
        FIFTEEN,
        STOCK,
        &[
            ("unknown-key", "`build` of the spec has no field `numbr`", "did you mean `number`?", "numbr", 2),
            (
                "unknown-word",
                "`stage` of `build` of the spec cannot be `desing`",
                "did you mean `design`? the words are `quote`, `design`, `build`, `delivery` and `service`",
                "\"desing\"",
                4,
            ),
            (
                "wrong-type",
                "`gvwr` of the trailer must be a quantity in quotes, with its unit, not a bare whole number",
                "write it with a unit, such as `\"150 lb\"`",
                "2990",
                8,
            ),
            (
                "impossible-number",
                "`count` of `people` of the spec must be a count from 0 to 10,000, not -4",
                size,
                "-4",
                11,
            ),
            ("unknown-part", "the stock list has no part `galey`", "did you mean `galley`?", "\"galey\"", 15),
            ("unknown-zone", "there is no zone `rof`", "did you mean `roof`?", "\"rof\"", 22),
            (
                "two-places",
                "item `tent` has more than one gap fore and aft: `front` and `rear`",
                "keep the one that was measured",
                "\"2 in\"",
                29,
            ),
            (
                "wrong-type",
                "`removable` of item `tent` must be true or false, not text",
                "write true or false, without quotes",
                "\"yes\"",
                30,
            ),
            (
                "wrong-gap",
                "`frame` means nothing for a place inside",
                "there, places take `front`, `nose`, `rear`, `ball`, `axle`, `left`, `right`, `centre`, `floor`, \
                 `ceiling` and `ground`",
                "\"2 in\"",
                35,
            ),
            (
                "unknown-word",
                "`fuel` of item `stove` cannot be `propan`",
                "did you mean `propane`? the words are `propane`, `butane`, `diesel`, `petrol`, `alcohol` and `wood`",
                "\"propan\"",
                36,
            ),
            (
                "wrong-dimension",
                "`mass` of tank `fresh` must be a mass; `12 gal` is a volume",
                "write a mass, such as `150 lb`",
                "\"12 gal\"",
                41,
            ),
            (
                "duplicate-tag",
                "the tag `fresh` is used twice",
                "give one of them another tag",
                "\"fresh\"",
                45,
            ),
            (
                "bad-quantity",
                "`left` of `at` of tank `fresh` cannot be read: `inn` is not a known unit",
                "did you mean `in`?",
                "inn",
                47,
            ),
            (
                "impossible-number",
                "`fresh` in `fill` of state `outward` cannot be `110 %`: it must be from 0 % to 100 %",
                size,
                "\"110 %\"",
                52,
            ),
            (
                "unknown-tag",
                "state `outward` names `gray`, and no part has that tag",
                "the tags that fit are `fresh`",
                "gray",
                52,
            ),
        ],
    );
}

#[test]
fn each_mistake_stands_on_the_line_that_is_marked() {
    let marked = FIFTEEN.lines().zip(1..).filter_map(|(line, at)| Some((line.split_once("# ")?.1, at)));
    let lines: Vec<u32> =
        marked.flat_map(|(marks, at)| marks.split(", ").map(move |_| at).collect::<Vec<_>>()).collect();
    let read = load(FIFTEEN, STOCK);
    let said: Vec<u32> = read.said().iter().map(|said| said.4).collect();
    assert_eq!(said, lines);
}

#[test]
fn an_earlier_file_with_problems_does_not_change_what_is_said_of_a_later_one() {
    let alone = load(FIFTEEN, STOCK);
    let mut sources = pintle_source::Sources::new();
    let stock = sources.add("stock.toml", STOCK);
    let (one, two) = (sources.add("one.toml", "x = 1"), sources.add("two.toml", FIFTEEN));
    let mut problems = Vec::new();
    let stock = pintle_spec::read_stock(&sources, &[stock], &mut problems);
    assert!(pintle_spec::read_build(&sources, one, &stock, &mut problems).is_none());
    let before = problems.len();
    assert!(before > 0 && pintle_spec::read_build(&sources, two, &stock, &mut problems).is_none());
    let messages = |problems: &[pintle_finding::Problem]| -> Vec<String> {
        problems.iter().map(|problem| problem.message.clone()).collect()
    };
    assert_eq!(messages(&problems[before..]), messages(&alone.problems));
    let sound = sources.add("sound.toml", &super::bench::with(""));
    assert!(pintle_spec::read_build(&sources, sound, &stock, &mut problems).is_some());
}
