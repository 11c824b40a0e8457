//! Laws of reading: it never fails badly, and undoes printing.

use proptest::prelude::*;

use crate::{Quantity, Unit, Units};

/// Scraps of the grammar in any order: far likelier to get deep into the parser than any text.
fn scraps() -> impl Strategy<Value = String> {
    let scrap = prop::sample::select(vec![
        "7",
        "2",
        "1/4",
        "0",
        "1,500",
        "1,5",
        "3/0",
        "½",
        ".",
        ",",
        "/",
        "-",
        "−",
        "+",
        "±",
        "+/-",
        " ",
        " ",
        " ",
        "ft",
        "in",
        "'",
        "\"",
        "′",
        "″",
        "lb",
        "kg",
        "%",
        "°F",
        "°",
        "AWG",
        "$",
        "e9",
        "sq",
        "²",
        "H2O",
        "·",
        "Ω",
        "\u{a0}",
        "\n",
        "é",
        "🚐",
        "999999999999",
        "^2",
        "per",
    ]);
    prop::collection::vec(scrap, 0..14).prop_map(|scraps| scraps.concat())
}

fn must_not_fail_badly(text: &str) -> Result<(), TestCaseError> {
    match Quantity::parse(text) {
        Ok(quantity) => {
            prop_assert!(quantity.si().is_finite());
            prop_assert!(quantity.tolerance().is_none_or(|half| half.si() >= 0.0));
            for units in [Units::AsWritten, Units::Us, Units::Metric] {
                let shown = quantity.show(units);
                prop_assert!(Quantity::parse(&shown).is_ok(), "`{}` printed as `{}`", text, shown);
            }
        }
        Err(mistake) => {
            prop_assert!(text.get(mistake.range()).is_some(), "`{}`: {:?}", text, mistake.range());
            prop_assert!(!mistake.to_string().is_empty() && mistake.help().is_some());
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn no_text_is_too_strange(text in any::<String>()) {
        must_not_fail_badly(&text)?;
    }

    #[test]
    fn no_heap_of_scraps_is_too_strange(text in scraps()) {
        must_not_fail_badly(&text)?;
    }

    #[test]
    fn a_number_before_anything_is_not_too_strange(number in 0_u32..2000, text in any::<String>()) {
        must_not_fail_badly(&format!("{number} {text}"))?;
    }
}

proptest! {
    #[test]
    fn every_unit_is_read_as_written(value in 0_u32..5000, index in 0..Unit::all().len()) {
        let unit = &Unit::all()[index];
        prop_assume!(!unit.is_wire_gauge());
        for spelling in unit.spellings() {
            for text in [format!("{value} {spelling}"), format!("{value}{spelling}")] {
                let read = Quantity::parse(&text);
                prop_assert!(read.is_ok(), "`{}`: {:?}", text, read);
                let read = read.unwrap();
                prop_assert_eq!(read.unit(), Some(unit));
                prop_assert!((read.value() - f64::from(value)).abs() < 1e-6, "`{}`", text);
            }
        }
    }

    #[test]
    fn reading_undoes_printing_to_the_last_place(value in -5000.0..5000.0_f64, index in 0..Unit::all().len()) {
        let unit = &Unit::all()[index];
        prop_assume!(unit.is_linear());
        let there = Quantity::of(value, unit);
        let text = there.show(Units::AsWritten);
        let back = Quantity::parse(&text).unwrap();
        prop_assert_eq!(back.unit(), Some(unit));
        let places = text.split_once('.').map_or(0, |(_, rest)| rest.chars().take_while(char::is_ascii_digit).count());
        // Trailing zeros are not printed, so the last place printed may be coarser than the last kept.
        let half_step = 0.5 * 10_f64.powi(-i32::try_from(places).unwrap());
        prop_assert!((back.value() - value).abs() <= half_step * (1.0 + 1e-9), "{} as `{}`", value, text);
        prop_assert_eq!(back.show(Units::AsWritten), text);
    }

    #[test]
    fn feet_and_inches_come_back_to_half_a_mark(inches in -2000.0..2000.0_f64) {
        let style = Quantity::parse("7 ft 2 1/4 in").unwrap();
        let text = Quantity::inches(inches).with_unit_of(style).show(Units::AsWritten);
        let back = Quantity::parse(&text).unwrap();
        prop_assert!((back.si() / 0.0254 - inches).abs() <= 1.0 / 32.0 + 1e-9, "{} in as `{}`", inches, text);
    }

    #[test]
    fn a_tape_reading_comes_back_exactly(feet in 0_u32..60, marks in 0_u32..192, negative in any::<bool>()) {
        let sign = if negative { "-" } else { "" };
        let text = format!("{sign}{feet} ft {} {}/16 in", marks / 16, marks % 16);
        let there = Quantity::parse(&text).unwrap();
        let inches = f64::from(feet * 12) + f64::from(marks) / 16.0;
        let signed = if negative { -inches } else { inches };
        prop_assert!((there.si() / 0.0254 - signed).abs() < 1e-9);
        let back = Quantity::parse(&there.show(Units::AsWritten)).unwrap();
        prop_assert!(there.equals(back).unwrap(), "`{}` as `{}`", text, there.show(Units::AsWritten));
    }

    #[test]
    fn units_do_not_change_what_is_meant(pounds in 1_u32..100_000) {
        let lb = Quantity::parse(&format!("{pounds} lb")).unwrap();
        let kg = Quantity::parse(&format!("{:.9} kg", f64::from(pounds) * 0.453_592_37)).unwrap();
        prop_assert!(lb.equals(kg).unwrap());
    }

    #[test]
    fn a_minus_mirrors(feet in 0_u32..50, inches in 0_u32..12) {
        let there = Quantity::parse(&format!("{feet} ft {inches} in")).unwrap();
        let mirrored = Quantity::parse(&format!("-{feet} ft {inches} in")).unwrap();
        prop_assert!(there.negated().equals(mirrored).unwrap());
    }
}
