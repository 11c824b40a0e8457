//! Quotes, and records of tests: days that are none, and tags that name nothing.

use super::bench::{STOCK, says_of, sound, with};

#[test]
fn days_anywhere_in_the_record_are_days_of_the_calendar() {
    for (table, field) in [
        ("[record]", "seen"),
        ("[record.leak_test]", "date"),
        ("[record.brake_test]", "date"),
        ("[record.lamp_test]", "date"),
        ("[record.outlet_test]", "date"),
        ("[record.skin_test]", "date"),
        ("[quote]", "date"),
        ("[quote]", "promised"),
    ] {
        let read = super::bench::load(&with(&format!("{table}\n{field} = \"2026-13-01\"\n")), STOCK);
        assert_eq!(read.codes(), ["no-day"], "{table} {field}");
    }
    for (list, needed, field) in [
        ("photo", "shows = \"label\"\nfile = \"a.jpg\"\n", "date"),
        ("recheck", "what = \"gas\"\n", "due"),
        ("recheck", "what = \"gas\"\n", "done"),
        ("change", "what = \"a shelf\"\n", "date"),
        ("change", "what = \"a shelf\"\n", "reviewed"),
        ("sign_off", "role = \"builder\"\nname = \"A\"\n", "date"),
    ] {
        let text = format!("[[record.{list}]]\n{needed}{field} = \"04.05.2026\"\n");
        let read = super::bench::load(&with(&text), STOCK);
        assert_eq!(read.codes(), ["no-day"], "{list} {field}");
        sound(&with(&text.replace("04.05.2026", "2026-05-04")), STOCK);
    }
}

#[test]
fn a_serial_names_a_part() {
    says_of(
        "[[record.serial]]\nitem = \"nothing\"\nnumber = \"1\"\n",
        &[(
            "unknown-tag",
            "`serial` of the record names `nothing`, and no part has that tag",
            "no part with a tag is a part",
            "\"nothing\"",
            2,
        )],
    );
}

#[test]
fn an_alarm_test_names_an_alarm() {
    let alarm = "[[item]]\ntag = \"nose\"\nkind = \"alarm\"\n[[item]]\ntag = \"chest\"\nkind = \"module\"\n";
    let test = |tag: &str| format!("{alarm}[[record.alarm_test]]\nalarm = \"{tag}\"\n");
    let codes = |text: &str| {
        let read = super::bench::load(&with(text), STOCK);
        read.codes().into_iter().map(str::to_owned).collect::<Vec<_>>()
    };
    assert!(!codes(&test("nose")).contains(&"wrong-tag".to_owned()));
    assert!(codes(&test("chest")).contains(&"wrong-tag".to_owned()), "{:?}", codes(&test("chest")));
    let twice = format!("{}[[record.alarm_test]]\nalarm = \"nose\"\n", test("nose"));
    assert!(codes(&twice).contains(&"named-twice".to_owned()));
}

#[test]
fn a_line_of_a_quote_names_a_part_or_the_trailer() {
    sound(&with("[[quote.line]]\nwhat = \"the box\"\nitem = \"trailer\"\nprice = \"$5,400\"\n"), STOCK);
    let read = super::bench::load(&with("[[quote.line]]\nwhat = \"a bed\"\nitem = \"bet\"\n"), STOCK);
    assert_eq!(read.codes(), ["unknown-tag"]);
    let read = super::bench::load(&with("[[quote.line]]\nwhat = \"a bed\"\nprice = \"5,400 lb\"\n"), STOCK);
    assert_eq!(read.codes(), ["wrong-dimension"]);
}
