//! Zones that are not there, loops of zones, and gaps that mean nothing where they are given.

use pintle_spec::Zone;

use super::bench::{STOCK, load, part, says_of, sound, with};

const AT: &str = "at = { front = \"1 in\", left = \"2 in\" }\n";
const BOX_GAPS: &str = "`front`, `nose`, `rear`, `ball`, `axle`, `left`, `right`, `centre`";
const LOOP: &str = "one of the parts in the loop must stand on the trailer";

fn item(tag: &str, what: &str, zone: &str, at: &str) -> String {
    format!("[[item]]\ntag = \"{tag}\"\n{what}\nzone = \"{zone}\"\nat = {{ {at} }}\n")
}

fn locker(tag: &str, zone: &str) -> String {
    format!("[[locker]]\ntag = \"{tag}\"\nzone = \"{zone}\"\n{AT}")
}

#[test]
fn each_zone_by_its_word_or_its_part() {
    let spec = with(&format!(
        "{}{}{}{}{}",
        item("low", "part = \"rack-low\"", "roof", "front = \"1 in\""),
        item("tent", "part = \"tent-soft\"", "rack", "front = \"1 in\""),
        item("lamp", "kind = \"equipment\"", "tent", "front = \"1 in\""),
        locker("rack", "underside").replace("front", "ground = \"5 in\", front"),
        item("gas", "kind = \"cylinder\"", "rack", "front = \"1 in\", left = \"1 in\""),
    ));
    let build = sound(&spec, STOCK);
    let zones: Vec<Zone> = build.items.iter().map(|item| item.zone).collect();
    // A tag goes before the word for the only rack: `gas` and `tent` stand in the locker called `rack`.
    assert_eq!(
        zones,
        [Zone::Roof, Zone::Locker(4), Zone::Tent(1), Zone::Locker(4), Zone::Underside],
        "parts of one table after those of another"
    );
    let only = sound(
        &with(&format!(
            "{}{}",
            item("low", "part = \"rack-low\"", "roof", "front = \"1 in\""),
            item("tent", "part = \"tent-soft\"", "rack", "front = \"1 in\"")
        )),
        STOCK,
    );
    assert_eq!(part(&only, "tent").zone, Zone::Rack(0));
}

#[test]
fn zones_that_are_not_there() {
    let gaps = "front = \"1 in\", left = \"1 in\"";
    says_of(
        &format!(
            "{}{}{}{}",
            item("a", "part = \"galley\"", "rof", gaps),
            item("b", "part = \"galley\"", "a", gaps),
            item("c", "part = \"galley\"", "rack", gaps),
            item("d", "part = \"galley\"", "qqqqqq", gaps),
        ),
        &[
            ("unknown-zone", "there is no zone `rof`", "did you mean `roof`?", "\"rof\"", 4),
            (
                "unknown-zone",
                "item `b` cannot be in or on item `a`",
                "a zone is a rack, a tent or a locker by its tag, or a part of the trailer",
                "\"a\"",
                9,
            ),
            (
                "unknown-zone",
                "there is no zone `rack`",
                "this build has no rack; fit one with a part of kind `rack`",
                "\"rack\"",
                14,
            ),
            (
                "unknown-zone",
                "there is no zone `qqqqqq`",
                "the zones are `inside`, `tongue`, `roof`, `front wall`, `rear door`, `left wall`, `right wall`, \
                 `floor` and `underside`",
                "\"qqqqqq\"",
                19,
            ),
        ],
    );
    says_of(
        &format!(
            "{}{}{}[[state]]\nname = \"s\"\nuse = \"road\"\nload = [{{ what = \"x\", zone = \"rack\", at = {{}} }}]\n",
            item("r1", "part = \"rack-low\"", "roof", "front = \"1 in\""),
            item("r2", "part = \"rack-low\"", "roof", "front = \"70 in\""),
            item("t", "part = \"tent-soft\"", "rack", "front = \"1 in\""),
        ),
        &[
            (
                "unknown-zone",
                "there is no zone `rack`",
                "there are several racks: name one by its tag",
                "\"rack\"",
                14,
            ),
            (
                "missing-value",
                "`load` of state `s` has no `mass`",
                "give it, such as `mass = \"150 lb\"`: its weight",
                "{ what = \"x\", zone = \"rack\", at = {} }",
                19,
            ),
            (
                "unknown-zone",
                "there is no zone `rack`",
                "there are several racks: name one by its tag",
                "\"rack\"",
                19,
            ),
        ],
    );
}

#[test]
fn loops_of_zones_name_their_members_and_no_others() {
    says_of(
        &locker("a", "a"),
        &[("zone-loop", "locker `a` stands, in the end, on itself", LOOP, "\"a\"", 3)],
    );
    // `c` and `d` stand on the loop and are no part of it, wherever the search begins.
    let two =
        [locker("d", "c"), locker("c", "a"), locker("a", "b"), locker("b", "a"), locker("e", "b")].concat();
    says_of(
        &two,
        &[
            ("zone-loop", "locker `a` stands, in the end, on itself", LOOP, "\"b\"", 11),
            ("zone-loop", "locker `b` stands, in the end, on itself", LOOP, "\"a\"", 15),
        ],
    );
    let racks =
        ["r2", "r3", "r1"].iter().zip(["r1", "r2", "r3"]).fold(String::new(), |racks, (zone, tag)| {
            racks + &item(tag, "part = \"rack-low\"", zone, "front = \"1 in\", ball = \"1 in\"")
        });
    let help = "there, places take `front`, `rear`, `left`, `right`, `centre` and `gap`";
    let gap = "`ball` means nothing for a place on a rack";
    says_of(
        &racks,
        &[
            ("zone-loop", "item `r1` stands, in the end, on itself", LOOP, "\"r2\"", 4),
            ("wrong-gap", gap, help, "\"1 in\"", 5),
            ("zone-loop", "item `r2` stands, in the end, on itself", LOOP, "\"r3\"", 9),
            ("wrong-gap", gap, help, "\"1 in\"", 10),
            ("zone-loop", "item `r3` stands, in the end, on itself", LOOP, "\"r1\"", 14),
            ("wrong-gap", gap, help, "\"1 in\"", 15),
        ],
    );
}

#[test]
fn parts_may_stand_on_eight_others_and_not_on_nine() {
    let stack = |parts: usize| {
        let lowest = locker("l0", "inside");
        (1..parts).fold(lowest, |stack, at| stack + &locker(&format!("l{at}"), &format!("l{}", at - 1)))
    };
    sound(&with(&stack(9)), STOCK);
    let too_high = "locker `l9` stands on more than 8 others, one on another";
    let help = "place it on the trailer, or on a part that stands on fewer others";
    says_of(&stack(12), &[("zone-loop", too_high, help, "\"l8\"", 9 * 4 + 3)]);
}

#[test]
fn a_part_that_others_stand_in_cannot_be_called_as_a_zone_of_the_trailer() {
    says_of(
        &format!(
            "{}{}",
            locker("roof", "inside"),
            item("floor", "part = \"galley\"", "inside", "front = \"1 in\"")
        ),
        &[(
            "reserved-tag",
            "locker `roof` cannot be called so: `roof` is a zone of the trailer",
            "give it another tag, so that parts can be placed by it",
            "\"roof\"",
            2,
        )],
    );
}

#[test]
fn gaps_that_mean_nothing_in_their_zone() {
    // (zone, gap, in words, the gaps there)
    let rows = [
        ("inside", "frame", "inside", format!("{BOX_GAPS}, `floor`, `ceiling` and `ground`")),
        ("inside", "gap", "inside", format!("{BOX_GAPS}, `floor`, `ceiling` and `ground`")),
        ("tongue", "front", "on the tongue", "`ball`, `box`, `centre`, `frame` and `ground`".to_owned()),
        ("roof", "floor", "on the roof", format!("{BOX_GAPS} and `gap`")),
        (
            "front wall",
            "rear",
            "on the front wall",
            "`gap`, `left`, `right`, `centre`, `floor`, `ceiling` and `ground`".to_owned(),
        ),
        (
            "rear door",
            "ball",
            "on the rear door",
            "`gap`, `left`, `right`, `centre`, `floor`, `ceiling` and `ground`".to_owned(),
        ),
        (
            "left wall",
            "left",
            "in the left wall",
            "`front`, `nose`, `rear`, `ball`, `axle`, `floor`, `ceiling` and `ground`".to_owned(),
        ),
        (
            "right wall",
            "centre",
            "in the right wall",
            "`front`, `nose`, `rear`, `ball`, `axle`, `floor`, `ceiling` and `ground`".to_owned(),
        ),
        ("floor", "ceiling", "in the floor", format!("{BOX_GAPS} and `gap`")),
        ("underside", "floor", "under the floor", format!("{BOX_GAPS} and `ground`")),
        ("rack", "nose", "on a rack", "`front`, `rear`, `left`, `right`, `centre` and `gap`".to_owned()),
        (
            "locker",
            "gap",
            "in a locker",
            "`front`, `rear`, `left`, `right`, `centre`, `floor` and `ceiling`".to_owned(),
        ),
        ("tent", "rear", "in a tent", "`front`, `left` and `floor`".to_owned()),
    ];
    let hosts = format!(
        "{}{}{}",
        item("rack", "part = \"rack-low\"", "roof", "front = \"1 in\""),
        item("tent", "part = \"tent-soft\"", "rack", "front = \"1 in\""),
        locker("locker", "inside"),
    );
    for (zone, gap, words, gaps) in rows {
        says_of(
            &format!("{hosts}{}", item("x", "kind = \"equipment\"", zone, &format!("{gap} = \"3 in\""))),
            &[(
                "wrong-gap",
                &format!("`{gap}` means nothing for a place {words}"),
                &format!("there, places take {gaps}"),
                "\"3 in\"",
                19,
            )],
        );
    }
}

#[test]
fn more_than_one_gap_along_an_axis() {
    says_of(
        &item(
            "x",
            "part = \"galley\"",
            "inside",
            "rear = \"1 in\", front = \"2 in\", axle = \"3 in\", left = \"4 in\", right = \"5 in\", floor = \"0 in\"",
        ),
        &[
            (
                "two-places",
                "item `x` has more than one gap fore and aft: `front`, `rear` and `axle`",
                "keep the one that was measured",
                "\"1 in\"",
                5,
            ),
            (
                "two-places",
                "item `x` has more than one gap across: `left` and `right`",
                "keep the one that was measured",
                "\"4 in\"",
                5,
            ),
        ],
    );
    let spec =
        with(&item("x", "part = \"galley\"", "inside", "rear = \"1 in\", front = \"2 in\", axle = \"3 in\""));
    let read = load(&spec, STOCK);
    let marked: Vec<&str> =
        read.problems[0].labels.iter().map(|label| read.sources.slice(label.span)).collect();
    assert_eq!(marked, ["\"1 in\"", "\"2 in\"", "\"3 in\""], "all of them, in the order of the file");
}

#[test]
fn one_unknown_zone_does_not_hide_the_wrong_gaps_of_other_parts() {
    says_of(
        &format!(
            "{}{}",
            item("a", "part = \"galley\"", "rof", "frame = \"1 in\""),
            item("b", "part = \"galley\"", "inside", "frame = \"1 in\"")
        ),
        &[
            ("unknown-zone", "there is no zone `rof`", "did you mean `roof`?", "\"rof\"", 4),
            (
                "wrong-gap",
                "`frame` means nothing for a place inside",
                &format!("there, places take {BOX_GAPS}, `floor`, `ceiling` and `ground`"),
                "\"1 in\"",
                10,
            ),
        ],
    );
}

#[test]
fn what_stands_on_a_part_leaves_with_it() {
    let spec = with(&format!(
        "{}{}{}{}[[state]]\nname = \"s\"\nuse = \"road\"\nout = [\"low\"]\n",
        item("lamp", "kind = \"equipment\"", "tent", ""),
        item("tent", "part = \"tent-soft\"", "low", "front = \"1 in\""),
        item("low", "part = \"rack-low\"", "roof", "front = \"1 in\"")
            .replace("at =", "removable = true\nat ="),
        item("other", "part = \"rack-low\"", "roof", "front = \"70 in\""),
    ));
    let spec = spec.replace("at = {  }\n", "");
    let build = sound(&spec, STOCK);
    let tags: Vec<&str> = build.states[0].out.iter().map(|at| build.items[*at].tag.value.as_str()).collect();
    assert_eq!(tags, ["low", "lamp", "tent"], "the one named first, then those on it");
}
