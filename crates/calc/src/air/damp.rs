//! Damp: how much water air can hold, and where it settles.

/// Pressure of saturated water vapour in Pa at `t` in K, over water, and over ice below 0.01 °C: ASHRAE Handbook, Fundamentals
/// (2017), chapter 1, equations 5 and 6 (Hyland and Wexler), as in `psychrolib` 2.5.0.
///
/// ```
/// use pintle_calc::air::saturation_pressure;
///
/// // psychrolib 2.5.0: 2,338.80 Pa at 20 °C.
/// assert!((saturation_pressure(293.15) - 2338.80).abs() < 0.01);
/// ```
pub fn saturation_pressure(t: f64) -> f64 {
    let ln = if t <= 273.16 {
        -5.674_535_9e3 / t + 6.392_524_7 - 9.677_843e-3 * t
            + 6.221_570_1e-7 * t * t
            + 2.074_782_5e-9 * t.powi(3)
            - 9.484_024e-13 * t.powi(4)
            + 4.163_501_9 * t.ln()
    } else {
        -5.800_220_6e3 / t + 1.391_499_3 - 4.864_023_9e-2 * t + 4.176_476_8e-5 * t * t
            - 1.445_209_3e-8 * t.powi(3)
            + 6.545_967_3 * t.ln()
    };
    ln.exp()
}

/// Weight of water against that of dry air: w = 0.621945 · p/(p₀ − p), with `p` the vapour's pressure and `total` the air's, in Pa
/// (ASHRAE Fundamentals 2017, chapter 1, equation 20).
pub fn humidity_ratio(p: f64, total: f64) -> f64 {
    0.621_945 * p / (total - p)
}

/// The vapour's pressure in Pa in air with a humidity ratio: the same solved for p.
pub fn vapour_pressure_of(w: f64, total: f64) -> f64 {
    total * w / (0.621_945 + w)
}

/// Temperature in K at which vapour of a pressure in Pa begins to settle; not a number outside -100 °C to 200 °C.
///
/// ```
/// use pintle_calc::air::{dew_point, saturation_pressure};
///
/// // psychrolib 2.5.0: air of 20 °C and 50 % has its dew point at 9.272 °C.
/// let found = dew_point(0.5 * saturation_pressure(293.15));
/// assert!((found - 273.15 - 9.272).abs() < 1e-3);
/// ```
pub fn dew_point(p: f64) -> f64 {
    let (mut low, mut high) = (173.15, 473.15);
    if !(p >= saturation_pressure(low) && p <= saturation_pressure(high)) {
        return f64::NAN;
    }
    // Sixty halvings leave nothing that a number of 64 bits could tell.
    for _ in 0..60 {
        let middle = f64::midpoint(low, high);
        if saturation_pressure(middle) < p { low = middle } else { high = middle }
    }
    f64::midpoint(low, high)
}
