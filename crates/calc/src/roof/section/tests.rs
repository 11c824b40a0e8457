use super::{angle, channel, hat, rectangular_tube, round_tube};
use proptest::prelude::*;

#[test]
fn sections_that_cannot_be_are_none() {
    assert!(rectangular_tube(1.0, 2.0, 0.5).is_none());
    assert!(rectangular_tube(2.0, 1.0, 0.5).is_none());
    assert!(rectangular_tube(1.0, 2.0, 0.0).is_none());
    assert!(round_tube(1.0, 0.5).is_none());
    assert!(round_tube(1.0, 0.0).is_none());
    assert!(angle(0.1, 1.0, 0.1).is_none());
    assert!(angle(1.0, 0.1, 0.1).is_none());
    assert!(channel(1.0, 0.2, 0.1).is_none());
    assert!(hat(1.0, 2.0, 0.5, 1.0).is_none());
    assert!(hat(1.0, 2.0, 0.1, 0.0).is_none());
    assert!(hat(1.0, 2.0, 0.1, 1.0).is_some());
}

#[test]
fn a_solid_rectangle_is_what_a_thick_tube_comes_to() {
    // b h³ / 12 of 2 × 3 is 4.5; a tube whose hollow is next to nothing comes near it.
    let nearly = rectangular_tube(2.0, 3.0, 0.999).unwrap();
    assert!((nearly.inertia - 4.5).abs() < 0.002, "{nearly:?}");
    assert!((nearly.modulus() - 3.0).abs() < 0.002);
}

proptest! {
    /// Twice the size is sixteen times the second moment and eight times the modulus.
    #[test]
    fn sections_grow_with_the_fourth_power(b in 1.0..4.0_f64, h in 1.0..6.0_f64, t in 0.05..0.4_f64, brim in 0.2..2.0_f64) {
        let of = |k: f64| [
            rectangular_tube(k * b, k * h, k * t), round_tube(k * h, k * t), angle(k * b, k * h, k * t),
            channel(k * b, k * h, k * t), hat(k * b, k * h, k * t, k * brim),
        ];
        for (one, two) in of(1.0).into_iter().zip(of(2.0)) {
            let (one, two) = (one.unwrap(), two.unwrap());
            prop_assert!((two.inertia / one.inertia - 16.0).abs() < 1e-9);
            prop_assert!((two.modulus() / one.modulus() - 8.0).abs() < 1e-9);
            prop_assert!((two.area / one.area - 4.0).abs() < 1e-9);
        }
    }

    /// A hat's brims and an angle's foot only add.
    #[test]
    fn a_channel_with_two_webs_is_the_tube(b in 1.0..4.0_f64, h in 1.0..6.0_f64, t in 0.05..0.4_f64) {
        // A tube is two channels back to back, each half as wide, less nothing.
        let tube = rectangular_tube(b, h, t).unwrap();
        let half = channel(b / 2.0, h, t).unwrap();
        prop_assert!((2.0 * half.inertia - tube.inertia).abs() < 1e-9 * tube.inertia);
    }
}
