//! How much air vents draw by the warmth inside alone.

/// Gravity, in m/s².
const G: f64 = 9.806_65;

/// Air drawn through an opening by the stack effect, in m³/s: Q = Cd·A·√(2·g·H·(Ti − To)/Ti).
///
/// `cd` is the discharge coefficient, `a` the area in m², `h` the height between low and high openings in m, `ti` and `to` the
/// temperatures inside and outside in K. Nothing flows where it is no warmer inside than outside: wind is left out.
///
/// ```
/// use pintle_calc::air::stack_flow;
///
/// // 0.01 m², 1.8 m apart, 20 °C inside, 5 °C outside: 8.736 L/s.
/// assert!((stack_flow(0.65, 0.01, 1.8, 293.15, 278.15) * 1000.0 - 8.736).abs() < 5e-4);
/// ```
pub fn stack_flow(cd: f64, a: f64, h: f64, ti: f64, to: f64) -> f64 {
    cd * a * (2.0 * G * h.max(0.0) * (ti - to).max(0.0) / ti).sqrt()
}

/// The one opening that passes as much as two, one after the other, in m²: 1/√(1/a² + 1/b²). Nothing where one of them is nothing.
///
/// ```
/// use pintle_calc::air::in_series;
///
/// // 75 and 10 cm²: 9.912 cm².
/// assert!((in_series(75e-4, 10e-4) * 1e4 - 9.912).abs() < 5e-4);
/// ```
pub fn in_series(a: f64, b: f64) -> f64 {
    let both = a.hypot(b);
    if both > 0.0 { a * b / both } else { 0.0 }
}
