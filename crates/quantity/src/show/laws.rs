//! Rounding never hides a fault, and never makes one.

use std::cmp::Ordering;

use proptest::prelude::*;

use super::*;
use crate::Dimension;

/// Authors' ways of writing, into which any value of their dimension may be cast.
const STYLES: &[&str] = &[
    "7 ft 2 1/4 in",
    "22 3/8 in",
    "2 yd 1 ft 3 in",
    "86.25 in",
    "7 ft",
    "2191 mm",
    "2.5 m",
    "6 1/2 ft",
    "150 lb",
    "37 lb 8 oz",
    "123.45 lb",
    "68 kg",
    "2 ton",
    "10 %",
    "400 ppm",
    "20 gal",
    "2 1/2 gal",
    "10 AWG",
    "6 mm²",
    "7.5 in²",
    "40 °F",
    "5 °C",
    "5 K",
    "1 h 30 min",
    "$12.50",
    "75.5 °",
    "11 inH2O",
    "65 psi",
    "1500 W",
    "56 Ah",
    "4200 lb·in",
    "55 mph",
    "20 mΩ",
];

fn styled(index: usize, si: f64) -> Quantity {
    let author = Quantity::parse(STYLES[index]).unwrap();
    Quantity::from_si(si, author.dimension()).with_unit_of(author)
}

/// Sizes from a thousandth to a million, near and far from each other.
fn neighbours() -> impl Strategy<Value = (f64, f64)> {
    (-3.0..6.0_f64, -12.0..0.5_f64, any::<bool>(), any::<bool>()).prop_map(|(size, gap, more, negative)| {
        let first = 10_f64.powf(size) * if negative { -1.0 } else { 1.0 };
        let second = first * (1.0 + 10_f64.powf(gap) * if more { 1.0 } else { -1.0 });
        (first, second)
    })
}

fn leading_number(text: &str) -> Option<f64> {
    let number = text.split(' ').next()?.replace([',', '$'], "");
    number.parse().ok()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(4000))]

    #[test]
    fn different_values_never_print_alike(
        (a, b) in neighbours(),
        value_style in 0..STYLES.len(),
        limit_style in 0..STYLES.len(),
    ) {
        let limit = styled(limit_style, b);
        let value = Quantity::from_si(a, limit.dimension()).with_unit_of(styled(value_style, 1.0));
        for units in [Units::AsWritten, Units::Us, Units::Metric] {
            let (value_text, limit_text) = show_apart(value, limit, units);
            let equal = value.equals(limit).unwrap();
            prop_assert_eq!(value_text == limit_text, equal, "{} and {}", value_text, limit_text);
        }
    }

    #[test]
    fn figures_stand_in_the_order_of_what_they_print((a, b) in neighbours(), style in 0..STYLES.len()) {
        let (value, limit) = (styled(style, a), styled(style, b));
        let (value_text, limit_text) = show_apart(value, limit, Units::AsWritten);
        let read = |text: &str| Quantity::parse(text).map(Quantity::si);
        // An area between gauges prints as an area; a very cold temperature or a huge value is not
        // read back, so their leading figures are compared instead.
        let (left, right) = match (read(&value_text), read(&limit_text)) {
            (Ok(left), Ok(right)) => (left, right),
            _ => (leading_number(&value_text).unwrap(), leading_number(&limit_text).unwrap()),
        };
        match value.compare(limit).unwrap() {
            Ordering::Less => prop_assert!(left < right, "{} < {}", value_text, limit_text),
            Ordering::Greater => prop_assert!(left > right, "{} > {}", value_text, limit_text),
            Ordering::Equal => prop_assert_eq!(value_text, limit_text),
        }
    }

    #[test]
    fn nothing_prints_as_minus_zero(si in -1e-3..1e-3_f64, style in 0..STYLES.len()) {
        for units in [Units::AsWritten, Units::Us, Units::Metric] {
            let text = styled(style, si).show(units);
            prop_assert!(leading_number(&text).is_none_or(|number| number != 0.0 || !text.starts_with('-')), "{}", text);
        }
    }

    #[test]
    fn a_tolerance_worked_out_has_two_digits_and_is_close_to_itself(
        size in -3.0..6.0_f64,
        half in -4.0..5.0_f64,
        style in 0..STYLES.len(),
    ) {
        let quantity = styled(style, 10_f64.powf(size));
        prop_assume!(quantity.unit().unwrap().step().is_some());
        let half = 10_f64.powf(half);
        let text = quantity.with_tolerance(half).show(Units::AsWritten);
        let (value, shown) = text.split_once(" ± ").unwrap();
        // What is off by rounding is small beside the ±.
        if let (Ok(value), Ok(width)) = (Quantity::parse(value), Quantity::parse(shown)) {
            let width = match width.unit().unwrap().step() {
                Some(step) => width.value() * step,
                None => width.si(),
            };
            prop_assert!((width / half - 1.0).abs() < 0.5, "{} of {}", text, half);
            if !shown.contains('/') {
                let digits = shown.trim_start_matches(|sign: char| !sign.is_ascii_digit() || sign == '0');
                let number = digits.split(' ').next().unwrap().replace([',', '.'], "");
                let significant = number.trim_matches('0').len();
                prop_assert!(significant <= 2, "{}", text);
            }
            prop_assert!((value.si() - quantity.si()).abs() <= half * 0.51, "{} of {:?}", text, quantity);
        }
    }

    #[test]
    fn a_value_that_is_something_prints_as_something(exponent in -9.0..9.0_f64, style in 0..STYLES.len()) {
        let quantity = styled(style, 10_f64.powf(exponent));
        for units in [Units::AsWritten, Units::Us, Units::Metric] {
            let text = quantity.show(units);
            prop_assert!(text.chars().any(|letter| ('1'..='9').contains(&letter)), "{:?}: {}", quantity, text);
        }
    }
}

#[test]
fn extremes_of_number_print_apart() {
    for (a, b) in [
        (0.0, 2e-12),
        (0.0, 1e-11),
        (f64::MAX, f64::MAX * 0.5),
        (1e300, 1e300 * (1.0 + 2e-9)),
        (f64::INFINITY, f64::MAX),
        (f64::INFINITY, f64::NEG_INFINITY),
        (f64::NAN, 1.0),
    ] {
        for dimension in
            [Dimension::MASS, Dimension::LENGTH, Dimension::NONE, Dimension::DENSITY.times(Dimension::MASS)]
        {
            let (a, b) = (Quantity::from_si(a, dimension), Quantity::from_si(b, dimension));
            let (left, right) = show_apart(a, b, Units::AsWritten);
            assert_ne!(left, right);
        }
    }
}
