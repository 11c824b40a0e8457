//! Values that cannot be: the wrong type, dimension, size or unit, and which part of them is underlined.

use super::bench::{HEAD, STOCK, load, says, says_of, sound, with};

const QUOTES: &str = "write it with a unit, such as `\"150 lb\"`";
const SIZE: &str = "check the sign and the size of the number";
const CURLY: &str = "write its fields in curly brackets, `{ … }`, or under a header of its own";

#[test]
fn numbers_that_cannot_be() {
    says_of(
        "[[item]]\ntag = \"a\"\nkind = \"module\"\nat = { front = \"1 in\", left = \"1 in\" }\n\
         mass = \"-5 lb\"\nlength = \"0 in\"\nwidth = \"nan in\"\nheight = \"1e308 in\"\n",
        &[
            (
                "impossible-number",
                "`mass` of item `a` cannot be `-5 lb`: it must be zero or more",
                SIZE,
                "\"-5 lb\"",
                5,
            ),
            (
                "impossible-number",
                "`length` of item `a` cannot be `0 in`: it must be more than zero",
                SIZE,
                "\"0 in\"",
                6,
            ),
            (
                "bad-quantity",
                "`width` of item `a` cannot be read: `nan` is not a number",
                "write a number and its unit, such as `22 3/8 in` or `150 lb`",
                "nan",
                7,
            ),
            (
                "bad-quantity",
                "`height` of item `a` cannot be read: `1e308` is a number to a power of ten",
                "write the number out, such as `1,500`",
                "1e308",
                8,
            ),
        ],
    );
    says_of(
        "[tow]\nrating = nan\ntongue_rating = -inf\nmass = 1e308\ngcwr = 150\nball = \"5 lb\"\n",
        &[
            (
                "wrong-type",
                "`rating` of the tow vehicle must be a quantity in quotes, with its unit, not a bare number",
                QUOTES,
                "nan",
                2,
            ),
            (
                "wrong-type",
                "`tongue_rating` of the tow vehicle must be a quantity in quotes, with its unit, not a bare number",
                QUOTES,
                "-inf",
                3,
            ),
            (
                "wrong-type",
                "`mass` of the tow vehicle must be a quantity in quotes, with its unit, not a bare number",
                QUOTES,
                "1e308",
                4,
            ),
            (
                "wrong-type",
                "`gcwr` of the tow vehicle must be a quantity in quotes, with its unit, not a bare whole number",
                QUOTES,
                "150",
                5,
            ),
            (
                "wrong-dimension",
                "`ball` of the tow vehicle must be a length; `5 lb` is a mass",
                "write a length, such as `22 3/8 in`",
                "\"5 lb\"",
                6,
            ),
        ],
    );
}

#[test]
fn counts_that_cannot_be() {
    // (as written, what follows the range)
    let refused = |count: &str, told: &str| {
        let message = format!("`count` of `people` of the spec must be a count from 0 to 10,000{told}");
        says_of(&format!("[people]\ncount = {count}\n"), &[("impossible-number", &message, SIZE, count, 2)]);
    };
    refused("-1", ", not -1");
    refused("10_001", ", not 10001");
    refused("99999999999", ", not 99999999999");
    refused("99999999999999999999", "");
    refused("0xFFFFFFFFFFFFFFFFFF", "");
    for (written, count) in [("0", 0), ("10_000", 10_000), ("0x10", 16), ("+4", 4)] {
        let build = sound(&with(&format!("[people]\ncount = {written}\n")), STOCK);
        let people = build.people.unwrap();
        assert_eq!(people.count(&pintle_spec::schema::build::people::COUNT).unwrap().value, count);
    }
    for (table, field, what) in [
        ("[trailer.axle]", "count", "`axle` of the trailer"),
        ("[trailer.tire]", "count", "`tire` of the trailer"),
        ("[trailer.chains]", "count", "`chains` of the trailer"),
        ("[[item]]\ntag = \"a\"\nkind = \"rack\"\nat = { front = \"1 in\" }", "feet", "item `a`"),
        (
            "[[item]]\ntag = \"a\"\nkind = \"rack\"\nat = { front = \"1 in\" }\n[item.anchors]",
            "count",
            "`anchors` of item `a`",
        ),
    ] {
        let spec = |count: u32| format!("{table}\n{field} = {count}\n");
        let message = format!("`{field}` of {what} must be a count from 1 to 10,000, not 0");
        let line = u32::try_from(spec(0).lines().count()).unwrap();
        says_of(&spec(0), &[("impossible-number", &message, SIZE, "0", line)]);
        sound(&with(&spec(1)), STOCK);
    }
    // Nobody need sleep in a berth, and no axle need have brakes.
    let nobody = "[trailer.brakes]\nkind = \"none\"\naxles = 0\n[[berth]]\ntag = \"b\"\npeople = 0\n\
                       [[state]]\nname = \"s\"\nuse = \"camp\"\npeople = [{ berth = \"b\", count = 0 }]\n";
    sound(&with(nobody), STOCK);
    let help = "write a whole number without quotes, such as 2";
    for (written, kind) in [("2.0", "a bare number"), ("\"2\"", "text"), ("true", "true or false")] {
        let message = format!("`count` of `people` of the spec must be a count, not {kind}");
        says_of(&format!("[people]\ncount = {written}\n"), &[("wrong-type", &message, help, written, 2)]);
    }
}

#[test]
fn by_name_that_cannot_be() {
    says_of(
        "[[tank]]\ntag = \"a\"\npart = \"tank-20\"\nat = { front = \"1 in\", left = \"1 in\" }\n\
         [[tank]]\ntag = \"b\"\npart = \"tank-20\"\nat = { front = \"1 in\", left = \"1 in\" }\n\
         [[tank]]\ntag = \"c\"\npart = \"tank-20\"\nat = { front = \"1 in\", left = \"1 in\" }\n\
         [[state]]\nname = \"s\"\nuse = \"road\"\nfill = { a = \"101 %\", b = \"10 gal\", c = 50, d = \"-1 %\" }\n\
         [[state]]\nname = \"t\"\nuse = \"road\"\nfill = 5\n",
        &[
            (
                "impossible-number",
                "`a` in `fill` of state `s` cannot be `101 %`: it must be from 0 % to 100 %",
                SIZE,
                "\"101 %\"",
                16,
            ),
            (
                "wrong-dimension",
                "`b` in `fill` of state `s` must be a share; `10 gal` is a volume",
                "write a share, such as `10 %`",
                "\"10 gal\"",
                16,
            ),
            (
                "wrong-type",
                "`c` in `fill` of state `s` must be a quantity in quotes, with its unit, not a bare whole number",
                "write it with a unit, such as `\"10 %\"`",
                "50",
                16,
            ),
            (
                "unknown-tag",
                "state `s` names `d`, and no part has that tag",
                "the tags that fit are `a`, `b` and `c`",
                "d",
                16,
            ),
            (
                "impossible-number",
                "`d` in `fill` of state `s` cannot be `-1 %`: it must be from 0 % to 100 %",
                SIZE,
                "\"-1 %\"",
                16,
            ),
            (
                "wrong-type",
                "`fill` of state `t` must be a table, not a bare whole number",
                "such as `{ fresh = \"100 %\" }`",
                "5",
                20,
            ),
        ],
    );
}

#[test]
fn the_bad_part_of_a_quantity_is_underlined_where_its_text_stands_as_it_is() {
    // (as written, underlined, its line after `wall = ` on line 7)
    let rows = [
        (r#""7 lbz""#, "lbz", 7),
        ("'7 lbz'", "lbz", 7),
        ("'''7' 2-1/4z'''", "z", 7),
        ("'''\n7 lbz'''", "lbz", 8),
        ("'''\r\n7 lbz'''", "lbz", 8),
        ("\"\"\"\n7 ft 2 inz\"\"\"", "inz", 8),
        ("\"7½ lbz\"", "lbz", 7),
        // With an escape, an offset in the text is not one in the file: all of it is underlined.
        (r#""7\u0020lbz""#, r#""7\u0020lbz""#, 7),
        (r#""7 \"z""#, r#""7 \"z""#, 7),
        ("\"\"\"7 \\\n  lbz\"\"\"", "\"\"\"7 \\\n  lbz\"\"\"", 7),
    ];
    for (written, underlined, line) in rows {
        let spec = format!("{HEAD}[trailer]\nnose = {{ shape = \"flat\" }}\nwall = {written}\n");
        let read = load(&spec, "");
        let said: Vec<_> = read.said().into_iter().map(|said| (said.0, said.3, said.4)).collect();
        assert_eq!(said, [("bad-quantity", underlined, line)], "{written}");
    }
}

#[test]
fn texts_with_escapes_and_on_several_lines_are_read() {
    for written in [r#""7' 2\"""#, "'''7' 2\"'''", "'''\n7' 2\"'''", "\"\"\"7' 2\\\"\"\"\"", "\"7 ft 2 in\""]
    {
        let spec = format!("{HEAD}[trailer]\nnose = {{ shape = \"flat\" }}\nlength = {written}\n");
        let build = sound(&spec, "");
        let length = build.trailer.quantity(&pintle_spec::schema::trailer::LENGTH).unwrap();
        assert!((length.value.si() - 86.0 * 0.0254).abs() < 1e-12, "{written}");
    }
}

#[test]
fn each_type_in_the_wrong_place() {
    says(
        "build = 5\ntrailer = [1]\ntow = \"x\"\npeople = 1979-05-27\nitem = 5\ntank = [5]\nstate = [\"x\"]\nvent = true\n",
        STOCK,
        &[
            ("wrong-type", "`build` of the spec must be a table, not a bare whole number", CURLY, "5", 1),
            (
                "wrong-type",
                "the trailer must be one table, not a list",
                "write it with one bracket on each side",
                "[1]",
                2,
            ),
            ("wrong-type", "the tow vehicle must be a table, not text", CURLY, "\"x\"", 3),
            ("wrong-type", "`people` of the spec must be a table, not a date", CURLY, "1979-05-27", 4),
            (
                "wrong-type",
                "`item` must be a list of tables, not a bare whole number",
                "write [[item]] with two brackets on each side",
                "5",
                5,
            ),
            ("wrong-type", "a tank must be a table, not a bare whole number", CURLY, "5", 6),
            ("wrong-type", "a state must be a table, not text", CURLY, "\"x\"", 7),
            (
                "wrong-type",
                "`vent` must be a list of tables, not true or false",
                "write [[vent]] with two brackets on each side",
                "true",
                8,
            ),
        ],
    );
}

#[test]
fn each_type_in_the_wrong_place_of_a_part_and_a_state() {
    says_of(
        "[[item]]\ntag = \"a\"\nkind = \"alarm\"\nzone = 5\nat = \"x\"\nremovable = \"yes\"\nsenses = \"smoke\"\nnote = 5\n\
         [[item]]\ntag = 5\npart = 6\nat = { front = \"1 in\", left = 2 }\n\
         [[state]]\nname = \"s\"\nuse = \"road\"\nout = [\"a\", 7]\nload = [5]\npeople = {}\n",
        &[
            (
                "wrong-type",
                "`zone` of item `a` must be text, not a bare whole number",
                "put it in quotes",
                "5",
                4,
            ),
            ("wrong-type", "`at` of item `a` must be a table, not text", CURLY, "\"x\"", 5),
            (
                "wrong-type",
                "`removable` of item `a` must be true or false, not text",
                "write true or false, without quotes",
                "\"yes\"",
                6,
            ),
            (
                "wrong-type",
                "`senses` of item `a` must be a list, not text",
                "put it in square brackets",
                "\"smoke\"",
                7,
            ),
            (
                "wrong-type",
                "`note` of item `a` must be text, not a bare whole number",
                "put it in quotes",
                "5",
                8,
            ),
            (
                "wrong-type",
                "`tag` of an item must be text, not a bare whole number",
                "put it in quotes",
                "5",
                10,
            ),
            (
                "wrong-type",
                "`part` of an item must be text, not a bare whole number",
                "put it in quotes",
                "6",
                11,
            ),
            (
                "wrong-type",
                "`left` of `at` of an item must be a quantity in quotes, with its unit, not a bare whole number",
                "write it with a unit, such as `\"22 3/8 in\"`",
                "2",
                12,
            ),
            (
                "wrong-type",
                "`out` of state `s` must be text, not a bare whole number",
                "put it in quotes",
                "7",
                16,
            ),
            ("wrong-type", "`load` of state `s` must be a table, not a bare whole number", CURLY, "5", 17),
            (
                "wrong-type",
                "`people` of state `s` must be a list, not a table",
                "put it in square brackets",
                "{}",
                18,
            ),
        ],
    );
}

#[test]
fn texts_that_say_nothing_or_hide_something() {
    let long = "x".repeat(10_000);
    says(
        &format!(
            "[build]\nnumber = \"\"\ntitle = \"a\\u001bb\"\nstage = \" \"\nnote = \"a\u{202e}b\"\n\
             [trailer]\nnose = {{ shape = \"flat\" }}\n[[item]]\ntag = \"{long}\"\nkind = \"module\"\n\
             at = {{ front = \"1 in\", left = \"1 in\" }}\n[[item]]\ntag = \"a\\u001b[31mb\\n\"\nkind = \"module\"\n"
        ),
        "",
        &[
            (
                "empty-text",
                "`number` of `build` of the spec is empty",
                "write something, or leave the field out",
                "\"\"",
                2,
            ),
            (
                "hidden-character",
                "`title` of `build` of the spec holds the character `\\u{1b}`, which cannot be seen",
                "take it out",
                "\"a\\u001bb\"",
                3,
            ),
            (
                "empty-text",
                "`stage` of `build` of the spec is empty",
                "write something, or leave the field out",
                "\" \"",
                4,
            ),
            (
                "hidden-character",
                "`note` of `build` of the spec holds the character `\\u{202e}`, which cannot be seen",
                "take it out",
                "\u{202e}",
                5,
            ),
            (
                "too-long",
                &format!(
                    "`tag` of item `{}…` is 10000 characters long, and a text has at most 2000",
                    "x".repeat(80)
                ),
                "shorten it, or keep it in a file of its own",
                &format!("\"{long}\""),
                9,
            ),
            (
                "hidden-character",
                "`tag` of item `a\\u{1b}[31mb\\n` holds the character `\\u{1b}`, which cannot be seen",
                "take it out",
                "\"a\\u001b[31mb\\n\"",
                13,
            ),
            (
                "missing-value",
                "item `a\\u{1b}[31mb\\n` has no place",
                "give the gaps that a tape measure shows, such as `at = { front = \"30 in\", left = \"0 in\" }`",
                "\"a\\u001b[31mb\\n\"",
                13,
            ),
        ],
    );
    let note = "[[item]]\ntag = \"a\"\nkind = \"module\"\nat = { front = \"1 in\", left = \"1 in\" }\nnote = \"\"\"\none\ttwo\r\nthree\"\"\"\n";
    sound(&with(note), STOCK);
}
