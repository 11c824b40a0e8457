//! Comparison is one order, with one tolerance, in which nothing unreal passes.

use proptest::prelude::*;

use super::*;
use crate::{Dimension, Unit};

fn pounds(v: f64) -> Quantity {
    Quantity::pounds(v)
}

proptest! {
    #[test]
    fn comparison_is_antisymmetric(a in prop::num::f64::ANY, b in prop::num::f64::ANY) {
        let (there, back) = (pounds(a).compare(pounds(b)).unwrap(), pounds(b).compare(pounds(a)).unwrap());
        prop_assert_eq!(there, back.reverse());
    }

    #[test]
    fn exactly_one_of_less_equal_greater(a in -1e9..1e9_f64, b in -1e9..1e9_f64) {
        let (a, b) = (pounds(a), pounds(b));
        let (least, most) = (a.at_least(b).unwrap(), a.at_most(b).unwrap());
        prop_assert!(least || most);
        prop_assert_eq!(a.equals(b).unwrap(), least && most);
    }

    #[test]
    fn comparison_does_not_depend_on_units(v in -1e6..1e6_f64, off in -1e-3..1e-3_f64) {
        for unit in Unit::all().iter().filter(|unit| unit.is_linear()) {
            let (here, there) = (Quantity::of(v, unit), Quantity::of(v + off, unit));
            let other = |quantity: Quantity| Quantity::from_si(quantity.si(), unit.dimension());
            prop_assert_eq!(here.compare(there), other(here).compare(other(there)));
        }
    }

    #[test]
    fn negation_turns_the_order_round(a in -1e9..1e9_f64, b in -1e9..1e9_f64) {
        let (a, b) = (pounds(a), pounds(b));
        prop_assert_eq!(a.compare(b).unwrap(), b.negated().compare(a.negated()).unwrap());
    }

    #[test]
    fn a_sum_in_any_order_is_at_its_limit(weights in proptest::collection::vec(0.1..5e3_f64, 1..60)) {
        let sum = |mut total: Quantity, weights: &mut dyn Iterator<Item = &f64>| {
            for weight in weights {
                total = total.try_add(pounds(*weight)).unwrap();
            }
            total
        };
        let there = sum(pounds(0.0), &mut weights.iter());
        let back = sum(pounds(0.0), &mut weights.iter().rev());
        prop_assert!(there.at_most(back).unwrap() && there.at_least(back).unwrap());
    }
}

#[test]
fn the_tolerance_is_a_billionth_and_no_more() {
    let limit = pounds(1000.0);
    assert!(pounds(1000.0 + 0.9e-6).at_most(limit).unwrap());
    assert!(!pounds(1000.0 + 1.1e-6).at_most(limit).unwrap());
    assert!(pounds(1000.0 - 0.9e-6).at_least(limit).unwrap());
    assert!(!pounds(1000.0 - 1.1e-6).at_least(limit).unwrap());
}

#[test]
fn moments_that_cancel_are_nothing() {
    let parts = [0.1, 0.2, -0.3];
    let sum: f64 = parts.iter().sum();
    assert!(sum.abs() > 0.0, "the sum must leave a remainder for the test to say anything");
    let moment = Quantity::from_si(sum, Dimension::MOMENT);
    assert!(moment.equals(Quantity::from_si(0.0, Dimension::MOMENT)).unwrap());
    let real = Quantity::from_si(2e-12, Dimension::MOMENT);
    assert!(!real.equals(Quantity::from_si(0.0, Dimension::MOMENT)).unwrap());
}

#[test]
fn neighbouring_gauges_are_never_equal() {
    let gauge = Unit::find("AWG").unwrap();
    for number in -3..40 {
        let (thick, thin) = (f64::from(number), f64::from(number + 1));
        let order = Quantity::of(thick, gauge).compare(Quantity::of(thin, gauge)).unwrap();
        assert_eq!(order, Ordering::Greater, "{number}");
    }
}

#[test]
fn not_a_number_passes_nothing() {
    let unreal = pounds(f64::NAN);
    for other in [pounds(0.0), pounds(f64::INFINITY), pounds(f64::NEG_INFINITY), unreal] {
        for (a, b) in [(unreal, other), (other, unreal)] {
            assert!(!a.at_least(b).unwrap() && !a.at_most(b).unwrap() && !a.equals(b).unwrap());
        }
    }
    assert_eq!(unreal.compare(pounds(f64::NEG_INFINITY)).unwrap(), Ordering::Less);
    assert_eq!(pounds(f64::NEG_INFINITY).compare(unreal).unwrap(), Ordering::Greater);
    assert_eq!(unreal.compare(unreal).unwrap(), Ordering::Equal);
}

#[test]
fn infinity_is_only_equal_to_itself() {
    let endless = pounds(f64::INFINITY);
    assert!(endless.equals(endless).unwrap());
    assert!(!endless.equals(pounds(1e300)).unwrap());
    assert!(endless.at_least(pounds(1e300)).unwrap());
    assert!(!endless.at_most(pounds(1e300)).unwrap());
    assert!(!endless.equals(endless.negated()).unwrap());
}

#[test]
fn different_dimensions_do_not_compare() {
    let inch = Quantity::inches(1.0);
    assert!(pounds(1.0).compare(inch).is_err());
    assert!(pounds(1.0).at_least(inch).is_err());
    assert!(pounds(1.0).at_most(inch).is_err());
    assert!(pounds(1.0).equals(inch).is_err());
}
