//! How quantities are printed.

use super::*;
use crate::Dimension;

fn read(text: &str) -> Quantity {
    Quantity::parse(text).unwrap_or_else(|error| panic!("`{text}`: {error}"))
}

/// A quantity as written, in US units and in metric units. Conversions by the factors tabled in
/// `unit/tests.rs`, worked with `pint` and rounded by the rules of `show`.
const SHOWN: &[(&str, &str, &str)] = &[
    ("7 ft 2 1/4 in", "7 ft 2 1/4 in", "2,191 mm"),
    ("86.25 in", "86.25 in", "2,191 mm"),
    ("22 3/8 in", "22 3/8 in", "568 mm"),
    ("1/8 in", "1/8 in", "3.2 mm"),
    ("2191 mm", "7 ft 2 1/4 in", "2,191 mm"),
    ("1.5 mm", "1/16 in", "1.5 mm"),
    ("0.1 mm", "0.0039 in", "0.1 mm"),
    ("608 mm", "23 15/16 in", "608 mm"),
    ("610 mm", "2 ft", "610 mm"),
    ("12 mi", "12 mi", "19.31 km"),
    ("1,500 lb", "1,500 lb", "680 kg"),
    ("37 lb 8 oz", "37 lb 8 oz", "17 kg"),
    ("68 kg", "150 lb", "68 kg"),
    ("4.53 kg", "9.99 lb", "4.53 kg"),
    ("20 gal", "20 gal", "75.7 L"),
    ("40 L", "10.6 gal", "40 L"),
    ("300 ft³", "300 ft³", "8.5 m³"),
    ("7.5 in²", "7.5 in²", "48.4 cm²"),
    ("10 AWG", "10 AWG", "5.26 mm²"),
    ("6 mm²", "0.0093 in²", "6 mm²"),
    ("11 inH2O", "11 inH2O", "2.74 kPa"),
    ("65 psi", "65 psi", "448 kPa"),
    ("30 mbar", "12 inH2O", "30 mbar"),
    ("30000 Btu/h", "30,000 Btu/h", "8.79 kW"),
    ("2000 Btu/h", "2,000 Btu/h", "586 W"),
    ("1500 W", "1,500 W", "1,500 W"),
    ("56 Ah", "56 Ah", "56 Ah"),
    ("10 %", "10 %", "10 %"),
    ("75.5 °", "75.5 °", "75.5 °"),
    ("40 °F", "40 °F", "4.4 °C"),
    ("-20 °C", "-4 °F", "-20 °C"),
    ("5 K", "5 K", "5 K"),
    ("55 mph", "55 mph", "88.5 km/h"),
    ("30 cfm", "30 cfm", "51 m³/h"),
    ("8.34 lb/gal", "8.34 lb/gal", "0.999 kg/L"),
    ("500 lbf", "500 lbf", "2,224 N"),
    ("4200 lb·in", "4,200 lb·in", "48.4 kg·m"),
    ("90 ft-lb", "90 lbf·ft", "122 N·m"),
    ("$12.50", "$12.50", "$12.50"),
    ("150 lb ± 5 lb", "150 lb ± 5 lb", "68 kg ± 2.27 kg"),
    ("40 °F ± 9 °F", "40 °F ± 9 °F", "4.4 °C ± 5 °C"),
    ("7 ft 2 in ± 1/4 in", "7 ft 2 in ± 1/4 in", "2,184 mm ± 6.3 mm"),
    ("2000 mm ± 5 mm", "6 ft 6 3/4 in ± 0.2 in", "2,000 mm ± 5 mm"),
];

#[test]
fn units_asked_for_are_used() {
    for &(text, us, metric) in SHOWN {
        assert_eq!(read(text).show(Units::Us), us, "{text}");
        assert_eq!(read(text).show(Units::Metric), metric, "{text}");
    }
}

#[test]
fn both_systems_are_shown_once_each() {
    assert_eq!(read("68 kg").show_both(), "68 kg (150 lb)");
    assert_eq!(read("7 ft 2 1/4 in").show_both(), "7 ft 2 1/4 in (2,191 mm)");
    assert_eq!(read("56 Ah").show_both(), "56 Ah");
    assert_eq!(read("2/0 AWG").show_both(), "2/0 AWG (67.4 mm²)");
    assert_eq!(Quantity::from_si(68.0, Dimension::MASS).show_both(), "150 lb (68 kg)");
}

/// Quantities without an author, as `calc` makes them.
#[test]
fn without_an_author_the_usual_unit_is_chosen() {
    for (si, dimension, us, metric) in [
        (0.104, Dimension::NONE, "10.4 %", "10.4 %"),
        (0.568_325, Dimension::LENGTH, "22 3/8 in", "568 mm"),
        (2.190_75, Dimension::LENGTH, "7 ft 2 1/4 in", "2,191 mm"),
        (12.0, Dimension::LENGTH, "39 ft 4 7/16 in", "12 m"),
        (5.26e-6, Dimension::AREA, "0.00815 in²", "5.26 mm²"),
        (0.005, Dimension::AREA, "7.75 in²", "50 cm²"),
        (4.0, Dimension::AREA, "43.1 ft²", "4 m²"),
        (0.1, Dimension::VOLUME, "26.4 gal", "100 L"),
        (8.5, Dimension::VOLUME, "300 ft³", "8.5 m³"),
        (68.0, Dimension::MASS, "150 lb", "68 kg"),
        (90.0, Dimension::TIME, "90 s", "90 s"),
        (5400.0, Dimension::TIME, "90 min", "90 min"),
        (28_800.0, Dimension::TIME, "8 h", "8 h"),
        (15.0, Dimension::CURRENT, "15 A", "15 A"),
        (0.02, Dimension::RESISTANCE, "20 mΩ", "20 mΩ"),
        (277.594_444, Dimension::TEMPERATURE, "40 °F", "4.4 °C"),
        (1.0, Dimension::ANGLE, "57.3 °", "57.3 °"),
        (2740.0, Dimension::PRESSURE, "11 inH2O", "2.74 kPa"),
        (448_000.0, Dimension::PRESSURE, "65 psi", "448 kPa"),
        (20_000.0, Dimension::FORCE, "4,496 lbf", "20 kN"),
        (48.4, Dimension::MOMENT, "4,201 lb·in", "48.4 kg·m"),
        (5.0 / 3600.0, Dimension::FREQUENCY, "5 /h", "5 /h"),
        (12.2, Dimension::MASS.over(Dimension::AREA), "2.5 lb/ft²", "12.2 kg/m²"),
        (3.5, Dimension::MASS.times(Dimension::AREA), "83.1 lb·ft²", "3.5 kg·m²"),
        (3.5, Dimension::MASS.times(Dimension::VOLUME), "3.5 kg·m³", "3.5 kg·m³"),
    ] {
        let quantity = Quantity::from_si(si, dimension);
        assert_eq!(quantity.show(Units::AsWritten), us, "{si} {dimension:?}");
        assert_eq!(quantity.show(Units::Us), us, "{si} {dimension:?}");
        assert_eq!(quantity.show(Units::Metric), metric, "{si} {dimension:?}");
    }
}

#[test]
fn digits_are_sensible() {
    for (pounds, shown) in [
        (1_234_567.8, "1,234,568 lb"),
        (999.6, "1,000 lb"),
        (149.7, "150 lb"),
        (99.96, "100 lb"),
        (37.55, "37.5 lb"),
        (37.56, "37.6 lb"),
        (9.996, "10 lb"),
        (1.239, "1.24 lb"),
        (0.333_3, "0.33 lb"),
        (0.004_56, "0.0046 lb"),
        (0.0, "0 lb"),
        (-0.0, "0 lb"),
        (-0.000_000_000_000_1, "0 lb"),
        (-1500.0, "-1,500 lb"),
    ] {
        assert_eq!(Quantity::pounds(pounds).show(Units::AsWritten), shown, "{pounds}");
    }
}

#[test]
fn zero_has_no_sign_and_no_dust() {
    assert_eq!(digits::decimal(-0.001, 2), "0");
    assert_eq!(digits::decimal(-0.009, 2), "-0.01");
    for text in ["0 °F", "0 °C", "0 lb", "0 ft 0 in", "0 %", "$0"] {
        let minus = read(&format!("-{text}")).show(Units::AsWritten);
        assert_eq!(minus, read(text).show(Units::AsWritten));
        assert!(minus.len() <= text.len(), "{text} as {minus}");
    }
    assert_eq!(read("32 °F").show(Units::Metric), "0 °C");
    assert_eq!(Quantity::from_si(273.15 - 1e-12, Dimension::TEMPERATURE).show(Units::Metric), "0 °C");
}

#[test]
fn inches_carry_into_feet() {
    let style = read("7 ft 2 1/4 in");
    for (inches, shown) in [
        (95.99, "8 ft"),
        (12.0, "1 ft"),
        (11.99, "1 ft"),
        (11.95, "11 15/16 in"),
        (0.0, "0 in"),
        (0.01, "0.01 in"),
        (-0.2, "-3/16 in"),
        (-13.5, "-1 ft 1 1/2 in"),
        (14_400.5, "1,200 ft 1/2 in"),
    ] {
        let length = Quantity::inches(inches).with_unit_of(style);
        assert_eq!(length.show(Units::AsWritten), shown, "{inches}");
    }
}

#[test]
fn areas_between_gauges_are_shown_as_areas() {
    let gauge = read("10 AWG");
    assert_eq!(gauge.scaled(2.0).show(Units::AsWritten), "10.5 mm²");
    assert_eq!(gauge.scaled(0.0).show(Units::AsWritten), "0 mm²");
    assert_eq!(gauge.negated().show(Units::AsWritten), "-5.26 mm²");
}

#[test]
fn what_is_not_a_number_says_so() {
    assert_eq!(Quantity::pounds(f64::NAN).show(Units::AsWritten), "not a number");
    assert_eq!(Quantity::pounds(1.0).over(Quantity::share(0.0)).show(Units::AsWritten), "infinite");
    assert_eq!(Quantity::pounds(f64::NEG_INFINITY).show(Units::Metric), "-infinite");
}

/// A value, its limit, and both as printed beside each other.
const APART: &[(&str, &str, &str, &str)] = &[
    ("149.7 lb", "150 lb", "149.7 lb", "150 lb"),
    ("149.9996 lb", "150 lb", "149.9996 lb", "150 lb"),
    ("150 lb", "68 kg", "68.04 kg", "68 kg"),
    ("140 lb", "150 lb", "140 lb", "150 lb"),
    ("150 lb", "150 lb", "150 lb", "150 lb"),
    ("9.97 %", "10 %", "9.97 %", "10 %"),
    ("7 ft 2 in", "7 ft 2 1/64 in", "7 ft 2 in", "7 ft 2 1/64 in"),
    ("7 ft 2 1/64 in", "7 ft 2 in", "86.02 in", "86 in"),
    ("2.4999 gal", "2 1/2 gal", "2.4999 gal", "2.5 gal"),
    ("0.34 in", "1/3 in", "0.34 in", "0.33 in"),
    ("86.03 in", "7 ft 2 in", "86.03 in", "86 in"),
    ("22.38 in", "22 3/8 in", "22.38 in", "22.375 in"),
    ("1500.4 W", "1500 W", "1,500.4 W", "1,500 W"),
    ("10 AWG", "12 AWG", "10 AWG", "12 AWG"),
    ("5 mm²", "10 AWG", "5 mm²", "5.26 mm² (10 AWG)"),
    ("10 AWG", "6 mm²", "5.26 mm²", "6 mm²"),
    ("40.04 °F", "40 °F", "40.04 °F", "40 °F"),
    ("150 lb ± 5 lb", "150.2 lb", "150 lb ± 5 lb", "150.2 lb"),
];

#[test]
fn a_value_and_its_limit_print_apart() {
    for &(value, limit, value_shown, limit_shown) in APART {
        let shown = show_apart(read(value), read(limit), Units::AsWritten);
        assert_eq!(
            (shown.0.as_str(), shown.1.as_str()),
            (value_shown, limit_shown),
            "{value} against {limit}"
        );
    }
}

/// A value, how its author would write it, a ± that was worked out in the same unit, and what is printed. By the rule
/// that a ± has two digits at most and the value stops where it does (as JCGM 100:2008, 7.2.6, asks of both).
#[rustfmt::skip]
const TOGETHER: &[(f64, &str, f64, &str)] = &[
    (10.43, "10 %", 0.833, "10.4 % ± 0.8 %"),
    (10.43, "10 %", 0.031, "10.43 % ± 0.03 %"),
    (10.43, "10 %", 1.26, "10.4 % ± 1.3 %"),
    (10.43, "10 %", 12.6, "10 % ± 13 %"),
    (10.43, "10 %", 0.996, "10.4 % ± 1 %"),
    (2476.4, "1,500 lb", 34.2, "2,476 lb ± 34 lb"),
    (2476.4, "1,500 lb", 3.42, "2,476 lb ± 3 lb"),
    (2476.4, "1,500 lb", 0.342, "2,476.4 lb ± 0.3 lb"),
    (2476.4, "1,500 lb", 342.0, "2,480 lb ± 340 lb"),
    (2476.4, "1,500 lb", 99.6, "2,480 lb ± 100 lb"),
    (2476.4, "1,500 lb", 2476.0, "2,500 lb ± 2,500 lb"),
    (3.2, "1,500 lb", 340.0, "3.2 lb ± 340 lb"),
    (-178.3, "1 lb", 12.4, "-178 lb ± 12 lb"),
    (0.0, "1 lb", 12.4, "0 lb ± 12 lb"),
    (77.44, "68 kg", 3.736, "77.4 kg ± 3.7 kg"),
    (77.44, "68.25 kg", 3.736, "77.4 kg ± 3.7 kg"),
    (64.78, "1 in", 0.416, "64.78 in ± 0.42 in"),
    (2191.3, "2191 mm", 6.35, "2,191 mm ± 6 mm"),
    (86.3, "22 3/8 in", 0.83, "86 1/4 in ± 7/8 in"),
    (86.3, "22 3/8 in", 0.3, "86 5/16 in ± 5/16 in"),
    (86.3, "22 3/8 in", 2.3, "86 1/2 in ± 2 1/2 in"),
    (86.3, "22 3/8 in", 12.3, "86 in ± 12 in"),
    (86.3, "22 3/8 in", 0.01, "86.3 in ± 0.01 in"),
    (86.3, "22 3/8 in", 312.0, "90 in ± 310 in"),
    (37.3, "2 1/2 gal", 1.26, "37.3 gal ± 1.3 gal"),
    (5.0, "$12.50", 0.5, "$5 ± $0.50"),
];

#[test]
fn a_value_and_the_tolerance_worked_out_for_it_stop_at_one_place() {
    for &(value, author, half, shown) in TOGETHER {
        let author = read(author);
        let unit = author.unit().unwrap();
        let quantity =
            Quantity::of(value, unit).with_unit_of(author).with_tolerance(half * unit.step().unwrap());
        assert_eq!(quantity.show(Units::AsWritten), shown, "{value} ± {half}");
    }
    // Feet and inches, the ± in the last of them; another system; no author; a scale with a zero of its own.
    let inches = |inches: f64| Quantity::inches(inches).si();
    let length = Quantity::inches(86.3).with_unit_of(read("7 ft 2 1/4 in"));
    assert_eq!(length.with_tolerance(inches(0.83)).show(Units::AsWritten), "7 ft 2 1/4 in ± 7/8 in");
    assert_eq!(length.with_tolerance(inches(0.83)).show(Units::Metric), "2,192 mm ± 21 mm");
    let moment = Quantity::from_si(48.42, Dimension::MASS.times(Dimension::VOLUME)).with_tolerance(1.26);
    assert_eq!(moment.show(Units::AsWritten), "48.4 kg·m³ ± 1.3 kg·m³");
    assert_eq!(read("40 °F").with_tolerance(5.0).show(Units::AsWritten), "40 °F ± 9 °F");
    let weight = Quantity::pounds(178.3).with_tolerance(Quantity::pounds(12.4).si());
    assert_eq!(weight.show_both(), "178 lb ± 12 lb (80.9 kg ± 5.6 kg)");
}

#[test]
fn a_tolerance_of_nothing_or_no_number_is_printed_as_it_is() {
    assert_eq!(Quantity::pounds(178.3).with_tolerance(0.0).show(Units::AsWritten), "178 lb ± 0 lb");
    let shown = Quantity::pounds(178.3).with_tolerance(f64::INFINITY).show(Units::AsWritten);
    assert!(shown.starts_with("178 lb ± "), "{shown}");
}

/// What an author wrote is not rounded to suit his own ±.
#[test]
fn an_authors_tolerance_stays_as_written() {
    for text in ["2,476 lb ± 340 lb", "1,500 lb ± 2.25 lb", "10.43 % ± 1.3 %", "86 1/4 in ± 1 in"] {
        assert_eq!(read(text).show(Units::AsWritten), text);
    }
}

/// Beside a limit the value is as fine as it must be to tell them apart; its ± has two digits all the same.
#[test]
fn beside_a_limit_the_value_keeps_its_places() {
    let share = Quantity::share(0.0997).with_tolerance(0.008_33);
    let shown = show_apart(share, read("10 %"), Units::AsWritten);
    assert_eq!((shown.0.as_str(), shown.1.as_str()), ("9.97 % ± 0.83 %", "10 %"));
    let weight = Quantity::pounds(2476.4).with_tolerance(Quantity::pounds(34.23).si());
    let shown = show_apart(weight, read("2,500 lb"), Units::AsWritten);
    assert_eq!((shown.0.as_str(), shown.1.as_str()), ("2,476 lb ± 34 lb", "2,500 lb"));
}

#[test]
fn the_system_asked_for_holds_for_both() {
    let shown = show_apart(read("149.7 lb"), read("150 lb"), Units::Metric);
    assert_eq!((shown.0.as_str(), shown.1.as_str()), ("67.9 kg", "68 kg"));
}

#[test]
fn an_anonymous_limit_takes_the_unit_of_the_value() {
    let limit = Quantity::from_si(68.0, Dimension::MASS);
    let shown = show_apart(read("67.99 kg"), limit, Units::AsWritten);
    assert_eq!((shown.0.as_str(), shown.1.as_str()), ("67.99 kg", "68 kg"));
}

#[test]
fn different_dimensions_print_each_its_own_way() {
    let shown = show_apart(read("150 lb"), read("22 3/8 in"), Units::AsWritten);
    assert_eq!((shown.0.as_str(), shown.1.as_str()), ("150 lb", "22 3/8 in"));
}
