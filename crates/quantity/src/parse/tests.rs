//! What is read, and as what. What is refused is in `refusals`.

use crate::{Quantity, Unit, Units};

/// A text, its value, the unit that value is in, and how it is printed back.
const READ: &[(&str, f64, &str, &str)] = &[
    // Feet and inches.
    ("7 ft 2 1/4 in", 86.25, "in", "7 ft 2 1/4 in"),
    ("7' 2-1/4\"", 86.25, "in", "7 ft 2 1/4 in"),
    ("7′ 2¼″", 86.25, "in", "7 ft 2 1/4 in"),
    ("7’2”", 86.0, "in", "7 ft 2 in"),
    ("7'2\"", 86.0, "in", "7 ft 2 in"),
    ("7'2''", 86.0, "in", "7 ft 2 in"),
    ("7'-2\"", 86.0, "in", "7 ft 2 in"),
    ("7'-2 1/4\"", 86.25, "in", "7 ft 2 1/4 in"),
    ("7ft 2in", 86.0, "in", "7 ft 2 in"),
    ("7 feet 2 inches", 86.0, "in", "7 ft 2 in"),
    ("7 Foot 2 Inch", 86.0, "in", "7 ft 2 in"),
    ("7 ft. 2 in.", 86.0, "in", "7 ft 2 in"),
    ("7 ft 2.3 in", 86.3, "in", "7 ft 2.3 in"),
    ("2 yd 1 ft 3 in", 87.0, "in", "2 yd 1 ft 3 in"),
    ("7 ft 0 in", 84.0, "in", "7 ft"),
    ("0 ft 3 in", 3.0, "in", "3 in"),
    ("-1 ft 4 in", -16.0, "in", "-1 ft 4 in"),
    ("−1' 4\"", -16.0, "in", "-1 ft 4 in"),
    // Fractions.
    ("22 3/8 in", 22.375, "in", "22 3/8 in"),
    ("22-3/8\"", 22.375, "in", "22 3/8 in"),
    ("22–3/8 in", 22.375, "in", "22 3/8 in"),
    ("22 ⅜ in", 22.375, "in", "22 3/8 in"),
    ("22 3⁄8 in", 22.375, "in", "22 3/8 in"),
    ("½ in", 0.5, "in", "1/2 in"),
    ("½in", 0.5, "in", "1/2 in"),
    ("5/16 in", 0.3125, "in", "5/16 in"),
    ("22 1/32 in", 22.03125, "in", "22 1/32 in"),
    ("1/3 in", 1.0 / 3.0, "in", "1/3 in"),
    ("2/4 in", 0.5, "in", "1/2 in"),
    ("5/2 in", 2.5, "in", "2 1/2 in"),
    ("-22 3/8 in", -22.375, "in", "-22 3/8 in"),
    ("6 1/2 ft", 6.5, "ft", "6 1/2 ft"),
    ("2 1/2 gal", 2.5, "gal", "2 1/2 gal"),
    ("1,234 1/2 in", 1234.5, "in", "1,234 1/2 in"),
    // Decimals and thousands.
    ("1,500 lb", 1500.0, "lb", "1,500 lb"),
    ("1500 lb", 1500.0, "lb", "1,500 lb"),
    ("1,234,567.5 lb", 1_234_567.5, "lb", "1,234,567.5 lb"),
    ("123.4 lb", 123.4, "lb", "123.4 lb"),
    ("150.0 lb", 150.0, "lb", "150 lb"),
    (".5 in", 0.5, "in", "0.5 in"),
    ("0.001 lb", 0.001, "lb", "0.001 lb"),
    ("+4 in", 4.0, "in", "4 in"),
    ("-4 in", -4.0, "in", "-4 in"),
    ("- 4 in", -4.0, "in", "-4 in"),
    ("-0 lb", 0.0, "lb", "0 lb"),
    ("007 lb", 7.0, "lb", "7 lb"),
    // Every kind of unit, spaced or not.
    ("150lb", 150.0, "lb", "150 lb"),
    ("150 lbs", 150.0, "lb", "150 lb"),
    ("150 pounds", 150.0, "lb", "150 lb"),
    ("150#", 150.0, "lb", "150 lb"),
    ("  150 lb  ", 150.0, "lb", "150 lb"),
    ("150\u{a0}lb", 150.0, "lb", "150 lb"),
    ("37 lb 8 oz", 37.5, "lb", "37 lb 8 oz"),
    ("37 lb 8.5 oz", 37.531_25, "lb", "37 lb 8.5 oz"),
    ("68 kg", 68.0, "kg", "68 kg"),
    ("20 gal", 20.0, "gal", "20 gal"),
    ("1 gallon", 1.0, "gal", "1 gal"),
    ("3 quarts", 3.0, "qt", "3 qt"),
    ("20 liters", 20.0, "L", "20 L"),
    ("10 %", 10.0, "%", "10 %"),
    ("10%", 10.0, "%", "10 %"),
    ("12.5 %", 12.5, "%", "12.5 %"),
    ("400 ppm", 400.0, "ppm", "400 ppm"),
    ("56 Ah", 56.0, "Ah", "56 Ah"),
    ("1500 W", 1500.0, "W", "1,500 W"),
    ("30000 Btu/h", 30_000.0, "Btu/h", "30,000 Btu/h"),
    ("30,000 BTU/hr", 30_000.0, "Btu/h", "30,000 Btu/h"),
    ("11 inH2O", 11.0, "inH2O", "11 inH2O"),
    ("11 in. w.c.", 11.0, "inH2O", "11 inH2O"),
    ("11\" w.c.", 11.0, "inH2O", "11 inH2O"),
    ("7.5 in²", 7.5, "in²", "7.5 in²"),
    ("7.5 sq in", 7.5, "in²", "7.5 in²"),
    ("7.5 in2", 7.5, "in²", "7.5 in²"),
    ("7.5 in^2", 7.5, "in²", "7.5 in²"),
    ("40 cu ft", 40.0, "ft³", "40 ft³"),
    ("90 ft-lb", 90.0, "lbf·ft", "90 lbf·ft"),
    ("4200 lb-in", 4200.0, "lb·in", "4,200 lb·in"),
    ("5 /h", 5.0, "/h", "5 /h"),
    ("5/h", 5.0, "/h", "5 /h"),
    ("75.5 °", 75.5, "°", "75.5 °"),
    ("75.5°", 75.5, "°", "75.5 °"),
    ("40 °F", 40.0, "°F", "40 °F"),
    ("-40 °F", -40.0, "°F", "-40 °F"),
    ("40 degrees F", 40.0, "°F", "40 °F"),
    ("1 h 30 min", 1.5, "h", "1 h 30 min"),
    ("$1,500", 1500.0, "$", "$1,500"),
    ("-$12.50", -12.5, "$", "-$12.50"),
    ("$ 5", 5.0, "$", "$5"),
    ("99 dollars", 99.0, "$", "$99"),
    // Wire gauges, by their number.
    ("10 AWG", 10.0, "AWG", "10 AWG"),
    ("10AWG", 10.0, "AWG", "10 AWG"),
    ("2/0 AWG", -1.0, "AWG", "2/0 AWG"),
    ("4/0 awg", -3.0, "AWG", "4/0 AWG"),
    ("0 AWG", 0.0, "AWG", "1/0 AWG"),
    ("00 AWG", -1.0, "AWG", "2/0 AWG"),
    ("40 ga", 40.0, "AWG", "40 AWG"),
    // Tolerances.
    ("150 lb ± 5 lb", 150.0, "lb", "150 lb ± 5 lb"),
    ("150 lb +/- 5 lb", 150.0, "lb", "150 lb ± 5 lb"),
    ("150 lb +- 5 lb", 150.0, "lb", "150 lb ± 5 lb"),
    ("150lb±5lb", 150.0, "lb", "150 lb ± 5 lb"),
    ("200 lb ± 3 %", 200.0, "lb", "200 lb ± 6 lb"),
    ("-200 lb ± 3 %", -200.0, "lb", "-200 lb ± 6 lb"),
    ("7 ft 2 in ± 1/4 in", 86.0, "in", "7 ft 2 in ± 1/4 in"),
    ("7 ft 2 in ± 0.1 in", 86.0, "in", "7 ft 2 in ± 0.1 in"),
    ("68 kg ± 1 lb", 68.0, "kg", "68 kg ± 0.45 kg"),
    ("40 °F ± 5 °F", 40.0, "°F", "40 °F ± 5 °F"),
    ("40 °F ± 5 K", 40.0, "°F", "40 °F ± 9 °F"),
    ("10 % ± 2 %", 10.0, "%", "10 % ± 2 %"),
    ("150 lb ± 0 lb", 150.0, "lb", "150 lb ± 0 lb"),
];

#[test]
fn shop_writing_is_read() {
    for &(text, value, unit, written) in READ {
        let quantity = Quantity::parse(text).unwrap_or_else(|error| panic!("`{text}`: {error}"));
        let unit = Unit::find(unit).unwrap();
        let read = quantity.value_in(unit).unwrap_or_else(|error| panic!("`{text}`: {error}"));
        assert!((read - value).abs() <= 1e-9 * value.abs().max(1.0), "`{text}` is {read} {}", unit.name());
        assert_eq!(quantity.show(Units::AsWritten), written, "`{text}`");
        let again = Quantity::parse(written).unwrap_or_else(|error| panic!("`{written}`: {error}"));
        assert_eq!(again.show(Units::AsWritten), written, "printing `{text}` is not stable");
    }
}

#[test]
fn tolerances_have_the_width_written() {
    for (text, unit, width) in [
        ("150 lb ± 5 lb", "lb", Some(5.0)),
        ("200 lb ± 3 %", "lb", Some(6.0)),
        ("-200 lb ± 3 %", "lb", Some(6.0)),
        ("10 % ± 2 %", "%", Some(2.0)),
        ("40 °F ± 9 °F", "K", Some(5.0)),
        ("40 °F ± 5 °C", "K", Some(5.0)),
        ("7 ft ± 1/4 in", "in", Some(0.25)),
        ("6 ft ± 1 ft 2 in", "in", Some(14.0)),
        ("$20 ± $5", "$", Some(5.0)),
        ("150 lb", "lb", None),
    ] {
        let tolerance = Quantity::parse(text).unwrap().tolerance();
        let read = tolerance.map(|half| half.value_in(Unit::find(unit).unwrap()).unwrap());
        assert_eq!(read.is_some(), width.is_some(), "{text}");
        assert!((read.unwrap_or(0.0) - width.unwrap_or(0.0)).abs() < 1e-9, "{text}: {read:?}");
    }
}

#[test]
fn a_gauge_compares_with_an_area() {
    let gauge = Quantity::parse("10 AWG").unwrap();
    assert!(gauge.at_least(Quantity::parse("5.26 mm²").unwrap()).unwrap());
    assert!(!gauge.at_least(Quantity::parse("6 mm²").unwrap()).unwrap());
    assert!(Quantity::parse("2/0 AWG").unwrap().at_least(Quantity::parse("2 AWG").unwrap()).unwrap());
}

#[test]
fn the_longest_text_allowed_is_read() {
    let text = format!("{}150 lb", " ".repeat(super::LONGEST - 6));
    assert_eq!(text.len(), 200);
    assert!(Quantity::parse(&text).is_ok());
}
