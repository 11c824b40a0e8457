//! Where a fuse stands and how large it may be.

/// Metres of an inch.
const INCH: f64 = 0.0254;

/// How far from what feeds a wire its fuse may stand, along the wire, in m: 7 in where the wire lies bare, 40 in where it is sheathed, 72
/// in where it is sheathed and comes straight from the battery (the 7-40-72 rule of boat builders, shop.pkys.com `b_12` and
/// datroymarinesurveying.com). Wires to a starter are exempt and are not reckoned here.
///
/// ```
/// use pintle_calc::electric::fuse::farthest;
///
/// assert!((farthest(false, true) / 0.0254 - 7.0).abs() < 1e-12);
/// assert!((farthest(true, false) / 0.0254 - 40.0).abs() < 1e-12);
/// assert!((farthest(true, true) / 0.0254 - 72.0).abs() < 1e-12);
/// ```
#[must_use]
pub const fn farthest(sheathed: bool, from_battery: bool) -> f64 {
    match (sheathed, from_battery) {
        (false, _) => 7.0 * INCH,
        (true, false) => 40.0 * INCH,
        (true, true) => 72.0 * INCH,
    }
}

/// How far over a wire's ampacity the next fuse size up may go (shop.pkys.com `b_12`).
pub const STRETCHED: f64 = 1.5;
