//! Ladders: how long, how steep, where the foot stands.
//!
//! By 29 CFR 1926.1053(b)(5)(i) the foot of a portable ladder stands out a quarter of its working length, measured along
//! it and not up the wall. The text binds employers; here it is a yardstick.

/// The cosine of the angle that a ladder stands at: a quarter.
const OUT: f64 = 0.25;

/// How far out the foot of a ladder of a working length stands.
pub fn foot_out(working: f64) -> f64 {
    OUT * working
}

/// How high a ladder of a working length reaches.
///
/// ```
/// use pintle_calc::roof::ladder::{foot_out, reach};
/// // 8 ft along the ladder: 2 ft out, 7.746 ft up.
/// assert_eq!(foot_out(8.0), 2.0);
/// assert!((reach(8.0) - 7.746).abs() < 5e-5);
/// ```
pub fn reach(working: f64) -> f64 {
    working * (1.0 - OUT * OUT).sqrt()
}

/// The working length that reaches a height.
pub fn needed(height: f64) -> f64 {
    height / (1.0 - OUT * OUT).sqrt()
}

/// The angle to the ground, in radians, at which a ladder of a working length reaches a height: arccos ¼ where it is long
/// enough, with its rails above the landing; steeper where it is not. None where it does not reach at all.
pub fn angle(height: f64, working: f64) -> Option<f64> {
    let steep = (height / working).asin();
    // Reckoned forth and back, a ladder just long enough is not steeper than the rule by a rounding.
    steep.is_finite().then(|| steep.max(OUT.acos()))
}

/// How far out the foot of such a ladder stands from what it leans on.
pub fn foot_from_edge(height: f64, working: f64) -> Option<f64> {
    angle(height, working).map(|angle| height / angle.tan())
}

/// What a ladder must bear: so many times the person on it, 4 by 29 CFR 1926.1053(a)(1).
pub fn strength(person: f64, times: f64) -> f64 {
    person * times
}

#[cfg(test)]
mod tests {
    use super::{angle, foot_from_edge, foot_out, needed, reach};

    /// A quarter of the height would be 75.96°: the rule goes by the ladder's length.
    #[test]
    fn trap_the_quarter_is_of_the_length_and_not_of_the_height() {
        let found = angle(reach(8.0), 8.0).unwrap().to_degrees();
        assert!((found - 75.5225).abs() < 5e-5, "{found}");
        assert!((found - 4.0_f64.atan().to_degrees()).abs() > 0.4);
    }

    #[test]
    fn a_short_ladder_stands_steeper_or_does_not_reach() {
        assert!(angle(7.0, 6.9).is_none());
        assert!(angle(7.0, 7.1).unwrap().to_degrees() > 80.0);
        let out = foot_from_edge(7.0, 7.1).unwrap();
        assert!((out.hypot(7.0) - 7.1).abs() < 1e-9);
        let long = foot_from_edge(7.0, 12.0).unwrap();
        assert!((long - foot_out(needed(7.0))).abs() < 1e-9, "a long one stands by the rule");
    }
}
