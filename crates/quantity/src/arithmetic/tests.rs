//! Laws of sums and products, and which unit a result keeps.

use proptest::prelude::*;

use super::*;
use crate::{Unit, Units};

fn read(text: &str) -> Quantity {
    Quantity::parse(text).unwrap()
}

fn written(quantity: Quantity) -> String {
    quantity.show(Units::AsWritten)
}

proptest! {
    #[test]
    fn addition_commutes(a in -1e6..1e6_f64, b in -1e6..1e6_f64) {
        let (a, b) = (Quantity::pounds(a), Quantity::kilograms(b));
        let (one, other) = (a.try_add(b).unwrap(), b.try_add(a).unwrap());
        prop_assert!(one.equals(other).unwrap());
    }

    #[test]
    fn subtraction_undoes_addition(a in -1e6..1e6_f64, b in -1e6..1e6_f64) {
        let (a, b) = (Quantity::inches(a), Quantity::metres(b));
        let back = a.try_add(b).unwrap().try_sub(b).unwrap();
        // Relative to the larger of the two, since what cancels leaves its own rounding behind.
        prop_assert!((back.si() - a.si()).abs() <= 1e-12 * (a.si().abs() + b.si().abs()));
    }

    #[test]
    fn negation_mirrors(a in -1e6..1e6_f64, b in -1e6..1e6_f64) {
        let (a, b) = (Quantity::feet(a), Quantity::feet(b));
        prop_assert!(a.negated().negated().equals(a).unwrap());
        let sum = a.try_add(b).unwrap().negated();
        prop_assert!(sum.equals(a.negated().try_add(b.negated()).unwrap()).unwrap());
        let least = a.try_min(b).unwrap().negated();
        prop_assert!(least.equals(a.negated().try_max(b.negated()).unwrap()).unwrap());
        prop_assert!(a.abs().equals(a.negated().abs()).unwrap());
        let (mirrored, there) = (written(a.negated()), written(a));
        if there == "0 ft" {
            prop_assert_eq!(mirrored, "0 ft");
        } else {
            let stripped = there.strip_prefix('-').map_or(format!("-{there}"), str::to_owned);
            prop_assert_eq!(mirrored, stripped);
        }
    }

    #[test]
    fn products_do_not_depend_on_units(m in 0.1..1e5_f64, x in 0.1..1e3_f64) {
        let us = Quantity::pounds(m).times(Quantity::inches(x));
        let kilogram = Unit::find("kg").unwrap();
        let metric = Quantity::of(Quantity::pounds(m).value_in(kilogram).unwrap(), kilogram);
        let moment = metric.times(Quantity::metres(x * 0.0254));
        prop_assert!(us.equals(moment).unwrap());
        prop_assert!(moment.over(metric).equals(Quantity::inches(x)).unwrap());
    }
}

#[test]
fn a_result_keeps_the_left_hand_unit() {
    assert_eq!(written(read("68 kg").try_add(read("150 lb")).unwrap()), "136 kg");
    assert_eq!(written(read("7 ft 2 in").try_sub(read("14 in")).unwrap()), "6 ft");
    assert_eq!(written(read("10 %").times(read("1,500 lb"))), "150 lb");
    assert_eq!(written(read("1,500 lb").over(read("50 %"))), "3,000 lb");
    assert_eq!(written(read("150 lb").over(read("1500 lb"))), "10 %");
    assert_eq!(written(read("12 V").times(read("5 A"))), "60 W");
    assert_eq!(written(read("22 3/8 in").scaled(2.0)), "44 3/4 in");
    let anonymous = Quantity::from_si(1.0, Dimension::MASS);
    assert_eq!(written(anonymous.try_add(read("1 kg")).unwrap()), "2 kg");
    assert_eq!(written(anonymous.try_sub(read("0.5 kg")).unwrap()), "0.5 kg");
}

#[test]
fn places_an_author_wrote_do_not_stick_to_sums() {
    assert_eq!(written(read("100.125 lb")), "100.125 lb");
    assert_eq!(written(read("100.125 lb").try_add(read("50 lb")).unwrap()), "150 lb");
}

#[test]
fn extremes_keep_the_writing_of_the_one_chosen() {
    let (light, heavy) = (read("100 lb"), read("68 kg"));
    assert_eq!(written(light.try_min(heavy).unwrap()), "100 lb");
    assert_eq!(written(light.try_max(heavy).unwrap()), "68 kg");
}

#[test]
fn not_a_number_is_never_lost_among_extremes() {
    let (real, unreal) = (Quantity::pounds(1.0), Quantity::pounds(f64::NAN));
    for extreme in [real.try_min(unreal), unreal.try_min(real), real.try_max(unreal), unreal.try_max(real)] {
        assert!(extreme.unwrap().si().is_nan());
    }
}

#[test]
fn tolerances_are_dropped() {
    let ticket = read("150 lb ± 5 lb");
    let results = [
        ticket.try_add(ticket).unwrap(),
        ticket.try_sub(ticket).unwrap(),
        ticket.try_min(ticket).unwrap(),
        ticket.try_max(ticket).unwrap(),
        ticket.times(read("2 %")),
        ticket.over(read("2 %")),
        ticket.scaled(2.0),
        ticket.negated(),
        ticket.abs(),
    ];
    for result in results {
        assert!(result.tolerance().is_none(), "{}", written(result));
    }
}

#[test]
fn differences_of_temperature_are_not_temperatures() {
    let difference = read("50 °F").try_sub(read("32 °F")).unwrap();
    assert_eq!(written(difference), "10 K");
    assert_eq!(written(read("32 °F").try_add(difference).unwrap()), "50 °F");
    assert_eq!(written(difference.try_add(read("32 °F")).unwrap()), "50 °F");
    assert_eq!(written(read("50 °F").try_sub(difference).unwrap()), "32 °F");
}

#[test]
fn different_dimensions_do_not_add() {
    let (mass, length) = (read("1 lb"), read("1 in"));
    for result in [mass.try_add(length), mass.try_sub(length), mass.try_min(length), mass.try_max(length)] {
        let mismatch = result.unwrap_err();
        assert_eq!((mismatch.left, mismatch.right), (Dimension::MASS, Dimension::LENGTH));
    }
}
