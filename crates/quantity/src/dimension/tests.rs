//! Dimensions multiply, divide, and have words.

use proptest::prelude::*;

use super::*;
use crate::{Quantity, Unit};

fn any_dimension() -> impl Strategy<Value = Dimension> {
    proptest::array::uniform7(-9_i8..=9).prop_map(
        |[length, mass, time, current, temperature, angle, money]| Dimension {
            length,
            mass,
            time,
            current,
            temperature,
            angle,
            money,
        },
    )
}

proptest! {
    #[test]
    fn over_undoes_times(a in any_dimension(), b in any_dimension()) {
        prop_assert_eq!(a.times(b).over(b), a);
        prop_assert_eq!(a.times(b), b.times(a));
        prop_assert_eq!(a.over(a), Dimension::NONE);
    }

    #[test]
    fn power_is_repeated_times(a in any_dimension()) {
        prop_assert_eq!(a.power(3), Some(a.times(a).times(a)));
        prop_assert_eq!(a.power(-1), Some(Dimension::NONE.over(a)));
        prop_assert_eq!(a.power(0), Some(Dimension::NONE));
    }
}

#[test]
fn named_dimensions_fit_together() {
    assert_eq!(Dimension::VOLTAGE.times(Dimension::CURRENT), Dimension::POWER);
    assert_eq!(Dimension::RESISTANCE.times(Dimension::CURRENT), Dimension::VOLTAGE);
    assert_eq!(Dimension::CHARGE.times(Dimension::VOLTAGE), Dimension::ENERGY);
    assert_eq!(Dimension::MOMENT.over(Dimension::MASS), Dimension::LENGTH);
    assert_eq!(Dimension::FLOW.times(Dimension::TIME), Dimension::VOLUME);
    assert_eq!(Dimension::PRESSURE.times(Dimension::AREA), Dimension::FORCE);
    assert_eq!(Dimension::DENSITY.times(Dimension::VOLUME), Dimension::MASS);
}

#[test]
fn powers_stop_at_the_end_of_their_range() {
    let many = Dimension::LENGTH.power(127).unwrap();
    assert_eq!(many.times(Dimension::LENGTH), many);
    assert_eq!(many.power(2), None);
}

#[test]
fn every_unit_has_a_word_and_an_example_that_parses_to_its_dimension() {
    for unit in Unit::all() {
        let dimension = unit.dimension();
        let noun = dimension.noun();
        assert!(!noun.contains(" in "), "{} has no word: {noun}", unit.name());
        let example = Quantity::parse(dimension.example()).map(Quantity::dimension);
        assert_eq!(example, Ok(dimension), "{}", dimension.example());
    }
}

#[test]
fn nouns_carry_the_right_article() {
    for usual in USUAL {
        let (article, word) = usual.noun.split_once(' ').unwrap();
        let vowel = word.starts_with(['a', 'e', 'i', 'o', 'u']);
        assert_eq!(article == "an", vowel, "{}", usual.noun);
    }
}

#[test]
fn dimensions_without_a_word_are_spelled_in_si() {
    assert_eq!(
        Dimension::FORCE.times(Dimension::LENGTH).times(Dimension::AREA).noun(),
        "a quantity in kg·m^4/s²"
    );
    assert_eq!(Dimension::NONE.over(Dimension::LENGTH).noun(), "a quantity in 1/m");
    assert_eq!(Dimension::MASS.times(Dimension::MASS).example(), "");
}
