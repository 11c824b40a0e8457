//! Lashings over the top, which hold by friction alone (EN 12195-1, and the German insurers' handbook of load securing).

/// What holds a part against sliding when lashings press it down, in N: μ·(W + legs·F), with weight W and pull F in each
/// upright leg.
///
/// ```
/// use pintle_calc::anchor::europe::pressed_down;
/// // tis-gdv.de, 4.3: three pallets of 1 t, two belts at 2 kN a leg, friction 0.38: 14.22 kN.
/// let held = pressed_down(0.38, 3.0 * 9.81, 4.0, 2.0);
/// assert!((held - 14.22).abs() < 0.01);
/// ```
pub fn pressed_down(mu: f64, weight: f64, legs: f64, pull: f64) -> f64 {
    mu * (weight + legs * pull)
}

/// How many lashings over the top keep a part from sliding, as a plain number to be rounded up:
/// n ≥ (c − μ·cz)·W·fs / (2·μ·F·sin α), with cz = 1 and at least zero (EN 12195-1:2010, from memory).
///
/// ```
/// use pintle_calc::anchor::europe::lashings;
/// let n = lashings(0.8, 0.3, 2000.0, 2500.0, std::f64::consts::FRAC_PI_2, 1.25);
/// assert!((n - 0.833_333_333).abs() < 1e-6);
/// ```
pub fn lashings(c: f64, mu: f64, weight: f64, f: f64, alpha: f64, fs: f64) -> f64 {
    ((c - mu) * weight * fs / (2.0 * mu * f * alpha.sin())).max(0.0)
}

/// The safety factor fs of [`lashings`] (EN 12195-1:2010, from memory).
pub const fn safety(ahead: bool) -> f64 {
    if ahead { 1.25 } else { 1.1 }
}
