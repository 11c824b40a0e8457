//! Laws of moments and reactions. The worked examples of handbooks and textbooks are in `figures/weights.toml`, which
//! `weights/outside.rs` runs.

use proptest::prelude::*;

use super::Sum;

fn at(weight: f64, centre: f64) -> Sum {
    Sum::of([(weight, centre)])
}

fn centre(sum: Sum) -> f64 {
    sum.centre().unwrap()
}

#[test]
fn what_no_weight_can_do() {
    assert_eq!(at(100.0, 1.0).distance_to_move(0.0, 2.0), None, "no weight to move");
    assert_eq!(at(3200.0, 0.0).weight_to_move(-1.5, 142.0, 167.0), None, "the wrong way round");
    assert_eq!(at(3200.0, 0.0).weight_to_move(-1.5, 142.0, 142.0), None, "nowhere to go");
    assert_eq!(at(2900.0, 116.0).weight_to_take(115.0, 110.0), None, "taken ahead, the centre goes aft");
    assert_eq!(at(2900.0, 115.0).ballast(116.0, 110.0), None, "no ballast ahead moves the centre aft");
    assert_eq!(at(2900.0, 115.0).ballast(116.0, 116.0), None, "at the limit itself nothing moves it");
    assert_eq!(at(2006.0, 64.78).aft_support(1.0), None, "no axle leaves all the weight on the ball");
    assert_eq!(at(1.0, 1.0).reactions(2.0, 2.0), None, "two supports at one place carry nothing");
}

#[test]
fn nothing_has_no_centre() {
    assert_eq!(Sum::default().centre(), None);
    assert_eq!(at(10.0, 1.0).with(-10.0, 1.0).centre(), None);
}

fn loads() -> impl Strategy<Value = Vec<(f64, f64)>> {
    prop::collection::vec((0.1..5000.0_f64, -100.0..400.0_f64), 1..12)
}

proptest! {
    #[test]
    fn moments_add(left in loads(), right in loads()) {
        let together = Sum::of(left.iter().chain(&right).copied());
        let apart = (Sum::of(left), Sum::of(right));
        prop_assert!((together.weight - apart.0.weight - apart.1.weight).abs() < 1e-9 * together.weight);
        let scale = together.weight * 400.0;
        prop_assert!((together.moment - apart.0.moment - apart.1.moment).abs() < 1e-9 * scale);
    }

    #[test]
    fn the_supports_carry_the_whole_weight_and_moment(loads in loads(), fore in -50.0..0.0_f64, apart in 50.0..300.0_f64) {
        let sum = Sum::of(loads);
        let (on_fore, on_aft) = sum.reactions(fore, fore + apart).unwrap();
        prop_assert!((on_fore + on_aft - sum.weight).abs() < 1e-9 * sum.weight);
        let moment = on_fore * fore + on_aft * (fore + apart);
        prop_assert!((moment - sum.moment).abs() < 1e-7 * sum.weight);
    }

    // Solver contract: moving w by dx moves the centre by w·dx/W, and the fore reaction by −w·dx/L.
    #[test]
    fn a_move_shifts_centre_and_tongue_as_the_formula_says(loads in loads(), dx in -60.0..60.0_f64, axle in 80.0..200.0_f64) {
        let (weight, station) = loads[0];
        let sum = Sum::of(loads);
        let moved = sum.moved(weight, station, station + dx);
        prop_assert!((centre(moved) - centre(sum) - weight * dx / sum.weight).abs() < 1e-9 * 400.0);
        let (before, after) = (sum.reactions(0.0, axle).unwrap().0, moved.reactions(0.0, axle).unwrap().0);
        prop_assert!((after - before + weight * dx / axle).abs() < 1e-9 * sum.weight * 10.0);
    }

    // The guesses of remedies: put into effect, each brings about what was asked for.
    #[test]
    fn what_is_asked_for_comes_about(loads in loads(), wanted in -50.0..350.0_f64, station in -100.0..400.0_f64, share in -0.5..0.9_f64) {
        let (weight, from) = loads[0];
        let sum = Sum::of(loads);
        let distance = sum.distance_to_move(weight, wanted).unwrap();
        let scale = 1e-9 * (1.0 + sum.weight / weight);
        prop_assert!((centre(sum.moved(weight, from, from + distance)) - wanted).abs() < 400.0 * scale);
        if let Some(taken) = sum.weight_to_take(wanted, station).filter(|taken| *taken < 0.99 * sum.weight) {
            prop_assert!((centre(sum.with(-taken, station)) - wanted).abs() < 1e-6);
        }
        if let Some(axle) = sum.aft_support(share) {
            let (tongue, _) = sum.reactions(0.0, axle).unwrap();
            prop_assert!((tongue - share * sum.weight).abs() < 1e-7 * sum.weight);
        }
    }

    #[test]
    fn moving_the_datum_moves_nothing_else(loads in loads(), shift in -500.0..500.0_f64) {
        let here = Sum::of(loads.clone());
        let there = Sum::of(loads.into_iter().map(|(weight, station)| (weight, station + shift)));
        prop_assert!((centre(there) - centre(here) - shift).abs() < 1e-8);
        let (a, b) = (here.reactions(0.0, 100.0).unwrap(), there.reactions(shift, 100.0 + shift).unwrap());
        prop_assert!((a.0 - b.0).abs() < 1e-7 * here.weight.max(1.0) && (a.1 - b.1).abs() < 1e-7 * here.weight.max(1.0));
    }
}
