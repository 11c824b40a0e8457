//! What is refused: each message, its help, and the text it underlines.

use crate::Quantity;

/// A text, what is underlined, the message and the help.
const REFUSED: &[(&str, &str, &str, &str)] = &[
    // Nothing to read.
    ("", "", "a quantity is missing", "write a number and its unit, such as `22 3/8 in` or `150 lb`"),
    ("  ", "  ", "a quantity is missing", "write a number and its unit, such as `22 3/8 in` or `150 lb`"),
    (
        "heavy",
        "heavy",
        "`heavy` is not a number",
        "write a number and its unit, such as `22 3/8 in` or `150 lb`",
    ),
    ("lb 150", "lb", "`lb` is not a number", "write a number and its unit, such as `22 3/8 in` or `150 lb`"),
    (
        "NaN lb",
        "NaN",
        "`NaN` is not a number",
        "write a number and its unit, such as `22 3/8 in` or `150 lb`",
    ),
    (
        "inf lb",
        "inf",
        "`inf` is not a number",
        "write a number and its unit, such as `22 3/8 in` or `150 lb`",
    ),
    ("--4 in", "-4", "`-4` is not a number", "write a number and its unit, such as `22 3/8 in` or `150 lb`"),
    ("-", "-", "`-` is not a number", "write a number and its unit, such as `22 3/8 in` or `150 lb`"),
    // Numbers.
    ("7.2.1 in", "7.2.1", "`7.2.1` is not a number", "write a number such as `7`, `7.5` or `1,500`"),
    ("7. in", "7.", "`7.` is not a number", "write a number such as `7`, `7.5` or `1,500`"),
    ("1.500,5 kg", "1.500,5", "`1.500,5` is not a number", "write a number such as `7`, `7.5` or `1,500`"),
    ("1e3 W", "1e3", "`1e3` is a number to a power of ten", "write the number out, such as `1,500`"),
    (
        "1,5 kg",
        "1,5",
        "the comma in `1,5` does not group thousands",
        "write `1.5` for a decimal, or three digits after the comma, as in `1,500`",
    ),
    (
        ",5 kg",
        ",5",
        "the comma in `,5` does not group thousands",
        "write `0.5` for a decimal, or three digits after the comma, as in `1,500`",
    ),
    (
        "1500,000 lb",
        "1500,000",
        "the comma in `1500,000` does not group thousands",
        "write `1500.000` for a decimal, or three digits after the comma, as in `1,500`",
    ),
    (
        "1,50,000 lb",
        "1,50,000",
        "the commas in `1,50,000` do not group thousands",
        "put a comma before every third digit, as in `1,500`, or none",
    ),
    (
        "150, lb",
        "150,",
        "the commas in `150,` do not group thousands",
        "put a comma before every third digit, as in `1,500`, or none",
    ),
    // Fractions.
    (
        "3/0 in",
        "3/0",
        "`3/0` has nothing but zero below the line",
        "write a fraction such as `3/8`; a wire gauge is written `2/0 AWG`",
    ),
    (
        "22 3/0 in",
        "3/0",
        "`3/0` has nothing but zero below the line",
        "write a fraction such as `3/8`; a wire gauge is written `2/0 AWG`",
    ),
    (
        "22 8/3 in",
        "8/3",
        "`8/3` in `22 8/3` is one or more, where less than one is left to add",
        "write the whole number and a fraction less than one, such as `22 3/8`",
    ),
    (
        "7.5 1/2 in",
        "7.5 1/2",
        "`7.5 1/2` has both decimals and a fraction",
        "write a decimal such as `7.5` or a fraction such as `7 1/2`",
    ),
    // Units.
    ("150", "150", "`150` has no unit", "add the unit, such as `150 lb` for a mass or `150 in` for a length"),
    (
        " 22 3/8 ",
        "22 3/8",
        "`22 3/8` has no unit",
        "add the unit, such as `22 3/8 lb` for a mass or `22 3/8 in` for a length",
    ),
    ("7 ft 2", "2", "`2` has no unit", "add the unit, such as `2 lb` for a mass or `2 in` for a length"),
    ("150 lbz", "lbz", "`lbz` is not a known unit", "did you mean `lb`?"),
    ("20 galons", "galons", "`galons` is not a known unit", "did you mean `gallons`?"),
    ("40 F", "F", "`F` is not a known unit", "did you mean `°F`?"),
    ("5 MA", "MA", "`MA` is not a known unit", "did you mean `mA`?"),
    (
        "5 furlongs",
        "furlongs",
        "`furlongs` is not a known unit",
        "use a unit such as `in`, `lb`, `gal`, `kg`, `mm`, `W` or `%`",
    ),
    (
        "1/2/3 in",
        "/3 in",
        "`/3 in` is not a known unit",
        "use a unit such as `in`, `lb`, `gal`, `kg`, `mm`, `W` or `%`",
    ),
    (
        "10 20 lb",
        "10 20",
        "`10` and `20` are two numbers with no unit between them",
        "write one number and its unit, such as `7 ft 2 in`, or a range as a tolerance, `11 in ± 1 in`",
    ),
    (
        "10-12 in",
        "10-12",
        "`10` and `12` are two numbers with no unit between them",
        "write one number and its unit, such as `7 ft 2 in`, or a range as a tolerance, `11 in ± 1 in`",
    ),
    // Gauges.
    (
        "7/0 AWG",
        "7/0",
        "`7/0` is not a wire gauge, which runs from 4/0 AWG to 40 AWG",
        "write a gauge such as `10 AWG` or `2/0 AWG`, or an area such as `6 mm²`",
    ),
    (
        "10.5 AWG",
        "10.5",
        "`10.5` is not a wire gauge, which runs from 4/0 AWG to 40 AWG",
        "write a gauge such as `10 AWG` or `2/0 AWG`, or an area such as `6 mm²`",
    ),
    (
        "-2 AWG",
        "-2 AWG",
        "`-2` is not a wire gauge, which runs from 4/0 AWG to 40 AWG",
        "write a gauge such as `10 AWG` or `2/0 AWG`, or an area such as `6 mm²`",
    ),
    // Parts.
    (
        "7 ft 2 lb",
        "2 lb",
        "`7 ft` is a length, but `2 lb` is a mass",
        "keep `7 ft` or `2 lb`, and give the other a line of its own",
    ),
    (
        "2 in 7 ft",
        "7 ft",
        "`7 ft` comes after `2 in`, but is not in a smaller unit",
        "write the larger unit first: `7 ft 2 in`",
    ),
    (
        "7 ft 2 ft",
        "2 ft",
        "`2 ft` comes after `7 ft`, but is not in a smaller unit",
        "write the unit once, or add the two",
    ),
    (
        "7.5 ft 2 in",
        "7.5 ft",
        "`7.5 ft` is not a whole number, but `2 in` follows it",
        "keep decimals and fractions to the last part, as in `7 ft 2 1/4 in`",
    ),
    (
        "7 1/2 ft 2 in",
        "7 1/2 ft",
        "`7 1/2 ft` is not a whole number, but `2 in` follows it",
        "keep decimals and fractions to the last part, as in `7 ft 2 1/4 in`",
    ),
    (
        "2 d 3 h 4 min 5 s",
        "2 d 3 h 4 min 5 s",
        "a value of more than 3 parts is not read",
        "use fewer units, as in `7 ft 2 1/4 in`",
    ),
    ("40 °F 5 °C", "5 °C", "`5 °C` cannot be one of several parts of a value", "write the value in one unit"),
    ("1 m 3 in", "3 in", "`3 in` cannot be one of several parts of a value", "write the value in one unit"),
    (
        "7 ft -2 in",
        "-2 in",
        "`-2 in` has a sign inside a value",
        "put the sign in front of the whole value; a tolerance is written `± 5 lb`",
    ),
    (
        "7 ft - 2 in",
        "- 2 in",
        "`- 2 in` has a sign inside a value",
        "put the sign in front of the whole value; a tolerance is written `± 5 lb`",
    ),
    (
        "150 lb + 5 lb",
        "+ 5 lb",
        "`+ 5 lb` has a sign inside a value",
        "put the sign in front of the whole value; a tolerance is written `± 5 lb`",
    ),
    // What is left over.
    (
        "150 lb wet",
        "wet",
        "`wet` is left over after the quantity",
        "keep only the number and its unit; remarks belong in a comment",
    ),
    (
        "150 lb, wet",
        ", wet",
        "`, wet` is left over after the quantity",
        "keep only the number and its unit; remarks belong in a comment",
    ),
    (
        "150 lb (each)",
        "(each)",
        "`(each)` is left over after the quantity",
        "keep only the number and its unit; remarks belong in a comment",
    ),
    (
        "$5 each",
        "each",
        "`each` is left over after the quantity",
        "keep only the number and its unit; remarks belong in a comment",
    ),
    (
        "5 lb ± 1 lb ± 1 lb",
        "± 1 lb",
        "`± 1 lb` is left over after the quantity",
        "keep only the number and its unit; remarks belong in a comment",
    ),
    // Tolerances.
    ("150 lb ±", "±", "the tolerance is missing", "write how much after `±`, such as `± 5 lb` or `± 3 %`"),
    ("150 lb ± 5", "5", "`5` has no unit", "add the unit: `± 5 lb`"),
    (
        "150 lb ± -5 lb",
        "-5 lb",
        "`-5 lb` is a tolerance with a sign",
        "leave out the sign: `±` already means both ways",
    ),
    (
        "150 lb ± 5 in",
        "5 in",
        "`5 in` is not a tolerance for `150 lb`, which is a mass",
        "write the tolerance as a mass too",
    ),
    (
        "10 % ± 5 lb",
        "5 lb",
        "`5 lb` is not a tolerance for `10 %`, which is a share",
        "write the tolerance as a share too",
    ),
    (
        "40 °F ± 5 %",
        "5 %",
        "`5 %` is not a tolerance for `40 °F`, which is a temperature",
        "write the tolerance as a temperature too",
    ),
    (
        "10 AWG ± 1 AWG",
        "1 AWG",
        "`1 AWG` is not a tolerance for `10 AWG`, which is an area",
        "leave out the tolerance, or write the wire's area in `mm²`",
    ),
    (
        "6 mm² ± 10 AWG",
        "10 AWG",
        "`10 AWG` is not a tolerance for `6 mm²`, which is an area",
        "leave out the tolerance, or write the wire's area in `mm²`",
    ),
    // Out of range.
    (
        "9999999999999999 kg",
        "9999999999999999 kg",
        "`9999999999999999 kg` is too large to be real",
        "check the number and its unit",
    ),
    (
        "-500 °F",
        "-500 °F",
        "`-500 °F` is colder than absolute zero, -459.67 °F",
        "check the number and the sign",
    ),
];

#[test]
fn refusals_say_what_where_and_what_instead() {
    for &(text, underlined, message, help) in REFUSED {
        let Err(mistake) = Quantity::parse(text) else { panic!("`{text}` was read") };
        assert_eq!(mistake.to_string(), message, "`{text}`");
        assert_eq!(mistake.help().as_deref(), Some(help), "`{text}`");
        assert_eq!(text.get(mistake.range()), Some(underlined), "`{text}`");
    }
}

#[test]
fn what_a_refusal_offers_is_read() {
    for &(text, _, _, help) in REFUSED {
        let offers = help.split('`').skip(1).step_by(2).filter(|offer| offer.contains(' '));
        for offer in offers.filter(|offer| !offer.starts_with('±') && offer.ends_with(char::is_alphabetic)) {
            assert!(Quantity::parse(offer).is_ok(), "`{text}` offers `{offer}`");
        }
    }
}

#[test]
fn a_long_text_is_refused_whole() {
    let text = format!("{}150 lb", " ".repeat(super::LONGEST - 5));
    let mistake = Quantity::parse(&text).unwrap_err();
    let expected = "a text of 201 bytes is too long for a quantity, which has at most 200 bytes";
    assert_eq!(mistake.to_string(), expected);
    assert_eq!(mistake.range(), 0..201);
}

#[test]
fn messages_stay_on_one_line_and_in_style() {
    for text in ["150 l\nb", "\u{7}5", "5 \u{1b}[31m"] {
        let message = Quantity::parse(text).unwrap_err().to_string();
        assert!(!message.chars().any(char::is_control), "{message:?}");
    }
    for (_, _, message, help) in REFUSED {
        for sentence in [message, help] {
            assert!(!sentence.ends_with('.'), "{sentence}");
            assert!(!sentence.starts_with(char::is_uppercase), "{sentence}");
        }
    }
}
