//! Files that are not TOML, or not quite: every fault once, at its place, without what only follows from it.

use super::bench::{HEAD, STOCK, TRAILER, load, says, with, worded};

const NO_SPEC: &str = "this is not a build spec: it has neither [build] nor [trailer]";
const NO_SPEC_HELP: &str =
    "a build spec opens with [build]; keep stock lists in the folders that pintle.toml names as `stock`";
const LINE_HELP: &str = "correct the line; a value with an inch mark needs '''…''' or \\\" inside its quotes";

#[test]
fn several_faults_of_grammar_are_said_at_once() {
    let spec = "[build]\nnumber = LR-118\ntitle = \"x\nstage = \"design\"\nstage = \"quote\"\n\
        [trailer]\npart = \"box\"\ngvwr = 2990 lb\n[[item]\ntag = \"x\"\n\
        [[item]]\ntag = \"y\"\npart = \"galley\"\nmass = \n[trailer]\nwall = \"1 in\"\n";
    says(
        spec,
        STOCK,
        &[
            (
                "not-toml",
                "this is not TOML: `LR-118` must be in quotes",
                "put the value in quotes",
                "LR-118",
                2,
            ),
            ("not-toml", "this is not TOML: invalid basic string, expected `\"`", LINE_HELP, "x", 3),
            (
                "duplicate-key",
                "this is not TOML: the key `stage` is given twice",
                "keep one of the two",
                "stage",
                5,
            ),
            (
                "not-toml",
                "this is not TOML: `2990 lb` must be in quotes",
                "put the value in quotes",
                "2990 lb",
                8,
            ),
            (
                "not-toml",
                "this is not TOML: unclosed array table, expected `]`",
                "close the bracket that was opened",
                "]",
                9,
            ),
            (
                "not-toml",
                "this is not TOML: a value is missing",
                "write a value after `=`, or take the line out",
                "=",
                14,
            ),
            (
                "duplicate-key",
                "this is not TOML: the key `trailer` is given twice",
                "keep one of the two",
                "trailer",
                15,
            ),
        ],
    );
}

#[test]
fn a_fault_of_one_value_does_not_hide_the_problems_of_the_others() {
    let spec =
        with("[[item]]\ntag = \"g\"\nzone = \"rof\"\nmass = 150 lb\nlenght = \"3 in\"\npart = \"galey\"\n");
    says(
        &spec,
        STOCK,
        &[
            ("unknown-zone", "there is no zone `rof`", "did you mean `roof`?", "\"rof\"", 9),
            (
                "not-toml",
                "this is not TOML: `150 lb` must be in quotes",
                "put the value in quotes",
                "150 lb",
                10,
            ),
            ("unknown-key", "item `g` has no field `lenght`", "did you mean `length`?", "lenght", 11),
            ("unknown-part", "the stock list has no part `galey`", "did you mean `galley`?", "\"galey\"", 12),
        ],
    );
}

#[test]
fn a_broken_header_does_not_hide_the_problems_of_other_tables() {
    let spec = with("[[item]\ntag = \"g\"\n[people]\ncount = \"4\"\n");
    says(
        &spec,
        STOCK,
        &[
            (
                "not-toml",
                "this is not TOML: unclosed array table, expected `]`",
                "close the bracket that was opened",
                "]",
                7,
            ),
            (
                "wrong-type",
                "`count` of `people` of the spec must be a count, not text",
                "write a whole number without quotes, such as 2",
                "\"4\"",
                10,
            ),
        ],
    );
}

#[test]
fn a_bracket_that_is_never_closed_is_said_once() {
    let spec = format!("{HEAD}{TRAILER}[tow]\nrating = [1, 2\n[people]\ncount = 4\n[[item]]\ntag = \"x\"\n");
    says(
        &spec,
        STOCK,
        &[(
            "not-toml",
            "this is not TOML: missing comma between array elements, expected `,`",
            "put a comma between the two, or close the bracket before them",
            "[",
            9,
        )],
    );
}

#[test]
fn a_file_with_nothing_in_it_is_no_spec() {
    says("", STOCK, &[("not-a-spec", NO_SPEC, NO_SPEC_HELP, "", 1)]);
    says("\n\n", STOCK, &[("not-a-spec", NO_SPEC, NO_SPEC_HELP, "", 1)]);
    says("# nothing\n# here\n", STOCK, &[("not-a-spec", NO_SPEC, NO_SPEC_HELP, "# nothing", 1)]);
    says("\u{feff}# nothing\n", STOCK, &[("not-a-spec", NO_SPEC, NO_SPEC_HELP, "# nothing", 1)]);
    says("[[part]]\nname = \"x\"\n", STOCK, &[("not-a-spec", NO_SPEC, NO_SPEC_HELP, "[[part]]", 1)]);
}

#[test]
fn text_that_is_no_toml_is_said_once() {
    // (text, message, help, underlined)
    let rows = [
        (
            "hello world\n".to_owned(),
            "this is not TOML: key with no value, expected `=`",
            "write a key, `=` and a value",
            "w",
        ),
        (
            "[build]\rnumber".to_owned(),
            "this is not TOML: carriage return must be followed by newline, expected newline",
            "save the file with line ends of one kind",
            "n",
        ),
        (
            "\u{0}\u{1}".to_owned(),
            "this is not TOML: invalid unquoted key, expected letters, numbers, `-`, `_`",
            LINE_HELP,
            "\u{0}\u{1}",
        ),
        (
            "[".repeat(10_000),
            "this is not TOML: unquoted keys cannot be empty, expected letters, numbers, `-`, `_`",
            LINE_HELP,
            "[",
        ),
        (
            format!("a={}", "[".repeat(10_000)),
            "this is not TOML that can be read: too many brackets within each other",
            "no table of a spec, a stock list or a rule lies deeper than a few others",
            "[",
        ),
        (
            format!("a={}", "{a=".repeat(10_000)),
            "this is not TOML that can be read: too many brackets within each other",
            "no table of a spec, a stock list or a rule lies deeper than a few others",
            "{",
        ),
        (
            format!("{}=1", vec!["a"; 10_000].join(".")),
            "this is not TOML that can be read: a key has too many dots",
            "no table of a spec, a stock list or a rule lies deeper than a few others",
            "a",
        ),
        (
            format!("[{}]", vec!["a"; 10_000].join(".")),
            "this is not TOML that can be read: a key has too many dots",
            "no table of a spec, a stock list or a rule lies deeper than a few others",
            "[",
        ),
    ];
    for (text, message, help, at) in rows {
        says(&text, STOCK, &[("not-toml", message, help, at, 1)]);
    }
}

#[test]
fn so_many_faults_of_grammar_are_counted_and_not_all_said() {
    let read = load(&"=\n".repeat(300), STOCK);
    assert_eq!(read.problems.len(), 101);
    read.problems.iter().for_each(worded);
    let (code, message, help, _, line) = *read.said().last().unwrap();
    assert_eq!(
        (code, message, help),
        ("not-toml", "200 more lines of this file are not TOML", "correct the first ones first")
    );
    assert_eq!(line, 100);
}

#[test]
fn a_byte_order_mark_and_line_ends_of_two_characters_do_no_harm() {
    let plain = with("");
    assert!(load(&plain, STOCK).build.is_some());
    let marked = format!("\u{feff}{}", plain.replace('\n', "\r\n"));
    assert!(load(&marked, &STOCK.replace('\n', "\r\n")).build.is_some());
    let wrong = marked.replace("design", "desing").replace("[build]", "[build] # 'x");
    let expected = [(
        "unknown-word",
        "`stage` of `build` of the spec cannot be `desing`",
        "did you mean `design`? the words are `quote`, `design`, `build`, `delivery` and `service`",
        "\"desing\"",
        4,
    )];
    says(&wrong, STOCK, &expected);
    let misspelt = load(&marked.replace("[build]", "[biuld]"), STOCK);
    assert_eq!(misspelt.codes(), ["unknown-key"]);
    let place = misspelt.sources.locate(misspelt.problems[0].labels[0].span);
    assert_eq!((place.line, place.column), (1, 2), "the mark is no column");
}
