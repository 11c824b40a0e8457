use super::{shift, surface_is_free};
use crate::checks;
use crate::water;
use pintle_quantity::{Dimension, Quantity};
use proptest::prelude::*;

#[test]
fn checks_from_outside() {
    let per_gallon = crate::weights::WATER_POUNDS_PER_GALLON;
    let density = Quantity::parse(&format!("{per_gallon} lb/gal")).unwrap().si();
    checks::run("water", |of, given| match of {
        "density" => vec![density],
        "water" => vec![water::weight(given.si("capacity"), given.si("fill"))],
        "label_water" => {
            let capacity = given.word("capacity");
            let capacity = crate::Figure::constant(Quantity::parse(capacity).unwrap());
            let label = water::label_water(&capacity).unwrap();
            assert_eq!(label.quantity.dimension(), Dimension::MASS);
            vec![label.quantity.si()]
        }
        "label_differs" => {
            let gallon = crate::Figure::constant(Quantity::gallons(1.0));
            vec![
                water::weight(gallon.quantity.si(), 1.0) / water::label_water(&gallon).unwrap().quantity.si()
                    - 1.0,
            ]
        }
        "ice" => vec![water::fill_that_may_freeze(given.si("growth"))],
        "slosh" => {
            let (l, h, fill) = (given.si("L"), given.si("H"), given.si("fill"));
            let moved = shift(l, h, fill * h, given.si("s"));
            vec![l / 2.0 + moved.along, fill * h / 2.0 + moved.up]
        }
        other => panic!("nothing is called `{other}`"),
    });
}

/// The label's 8.3 lb/gal is not what water weighs, nor is a litre of it the label's gallon.
#[test]
fn trap_label_water_is_not_what_water_weighs() {
    let gallons = crate::Figure::constant(Quantity::gallons(30.0));
    let label = water::label_water(&gallons).unwrap().quantity.si();
    let real = water::weight(gallons.quantity.si(), 1.0);
    assert!((label - Quantity::pounds(249.0).si()).abs() < 1e-9);
    assert!((real - Quantity::pounds(250.2).si()).abs() < 1e-9);
}

/// The closed form goes on past where it holds: at a quarter full and 0.2 g it would say 10.67 in of 9.46.
#[test]
fn trap_the_closed_form_stops_where_the_floor_is_dry() {
    assert!(!surface_is_free(40.0, 10.0, 2.5, 0.2));
    let closed: f64 = 0.2 * 40.0 * 40.0 / (12.0 * 2.5);
    let found = shift(40.0, 10.0, 2.5, 0.2).along;
    assert!((closed - 10.667).abs() < 1e-3 && (found - 9.459).abs() < 1e-3, "{found}");
}

/// The water's centre by cutting the tank into thin upright slices.
fn by_slices(length: f64, height: f64, filled: f64, slope: f64) -> (f64, f64) {
    const SLICES: u32 = 20_000;
    let sums = |at: f64| {
        let mut sum = (0.0, 0.0, 0.0);
        for slice in 0..SLICES {
            let along = (f64::from(slice) + 0.5) * length / f64::from(SLICES);
            let up = (at - slope * along).clamp(0.0, height);
            sum = (sum.0 + up, sum.1 + up * along, sum.2 + up * up / 2.0);
        }
        sum
    };
    let (mut low, mut high) = (0.0, height + slope * length);
    for _ in 0..60 {
        let middle = f64::midpoint(low, high);
        if sums(middle).0 < filled * f64::from(SLICES) { low = middle } else { high = middle }
    }
    let (area, first, up) = sums(low);
    (first / area, up / area)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    /// Any tank, fill and slope against slices.
    #[test]
    fn the_shift_is_that_of_thin_slices(l in 5.0..60.0_f64, height in 4.0..30.0_f64, fill in 0.02..0.98_f64, s in 0.01..3.0_f64) {
        let (h, moved) = (fill * height, shift(l, height, fill * height, s));
        let (x, z) = by_slices(l, height, h, s);
        prop_assert!((l / 2.0 - moved.along - x).abs() < 1e-4 * l, "{moved:?} {x}");
        prop_assert!((h / 2.0 + moved.up - z).abs() < 1e-4 * height, "{moved:?} {z}");
    }
}

proptest! {
    /// Where one formula takes over from another, nothing jumps; a steeper slope never brings the water back.
    #[test]
    fn the_shift_rises_evenly(l in 5.0..60.0_f64, height in 4.0..30.0_f64, fill in 0.02..0.98_f64, s in 0.01..3.0_f64) {
        let at = |s: f64| shift(l, height, fill * height, s);
        let (one, two) = (at(s), at(s * 1.000_001));
        prop_assert!(two.along >= one.along - 1e-9 * l && two.along - one.along < 1e-5 * l);
        prop_assert!(two.up >= one.up - 1e-9 * height && two.up - one.up < 1e-5 * height);
        prop_assert!(one.along <= l / 2.0 && one.up <= height / 2.0);
    }

    /// The air of a tank runs the other way as the water of a tank that holds as much water as this holds air.
    #[test]
    fn air_is_water_upside_down(l in 5.0..60.0_f64, height in 4.0..30.0_f64, fill in 0.02..0.98_f64, s in 0.01..3.0_f64) {
        let water = shift(l, height, fill * height, s);
        let air = shift(l, height, (1.0 - fill) * height, s);
        let (one, other) = (water.along * fill, air.along * (1.0 - fill));
        prop_assert!((one - other).abs() < 1e-9 * l, "{one} {other}");
    }
}
