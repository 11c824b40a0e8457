//! Coupling values of UN R55 and Directive 94/20/EC, as public calculator pages give them; masses in kg, forces in N.

/// Gravity as these texts have it, in m/s².
pub const G: f64 = 9.81;

/// Trailers above this, in kg, have Dc and V on their plates; lighter ones have D and S only (from memory of UN R55).
pub const HEAVY: f64 = 3500.0;

/// D-value: g·T·R/(T + R), with the greatest masses T of the tow vehicle and R of the trailer. With the axle loads C of a
/// central-axle trailer in place of R it is Dc.
///
/// ```
/// use pintle_calc::tow::europe::d_value;
/// // T 3.5 t, R 2.0 t: printed 12.50 kN.
/// assert!((d_value(3500.0, 2000.0) / 1000.0 - 12.50).abs() < 0.02);
/// ```
pub fn d_value(t: f64, r: f64) -> f64 {
    G * t * r / (t + r)
}

/// D-value of a fifth wheel with a load `u` on it: 0.6·g·T·R/(T + R − U).
///
/// ```
/// use pintle_calc::tow::europe::fifth_wheel;
/// assert!((fifth_wheel(16_000.0, 16_000.0, 8_000.0) / 1000.0 - 62.78).abs() < 0.01);
/// ```
pub fn fifth_wheel(t: f64, r: f64, u: f64) -> f64 {
    0.6 * G * t * r / (t + r - u)
}

/// V-value of a heavy central-axle trailer: a·(x²/l²)·C, with body length x and drawbar length l, their ratio no less
/// than 1; a is 1.8 m/s² on air springs and 2.4 otherwise.
///
/// ```
/// use pintle_calc::tow::europe::v_value;
/// assert!((v_value(1.8, 6.0, 5.0, 5000.0) / 1000.0 - 12.96).abs() < 1e-9);
/// assert!((v_value(1.8, 4.0, 5.0, 5000.0) / 1000.0 - 9.0).abs() < 1e-9);
/// ```
pub fn v_value(a: f64, x: f64, l: f64, c: f64) -> f64 {
    a * (x / l).powi(2).max(1.0) * c
}

/// Least weight on the ball that vehicle and coupling must be made for, in kg: 4 % of the trailer's greatest mass, and no less than
/// 25 kg (Directive 92/21/EEC, as quoted in a forum and a magazine's glossary).
///
/// ```
/// use pintle_calc::tow::europe::least_on_ball;
/// assert_eq!(least_on_ball(500.0), 25.0);
/// assert_eq!(least_on_ball(1500.0), 60.0);
/// ```
pub fn least_on_ball(r: f64) -> f64 {
    (0.04 * r).max(25.0)
}

/// Most weight on the ball of a central-axle trailer, in kg: 10 % of its greatest mass, and no more than 1,000 kg (94/20/EC, as a
/// coupling maker's calculator page quotes it).
///
/// ```
/// use pintle_calc::tow::europe::most_on_ball;
/// assert_eq!(most_on_ball(1500.0), 150.0);
/// assert_eq!(most_on_ball(18_000.0), 1000.0);
/// ```
pub fn most_on_ball(r: f64) -> f64 {
    (0.1 * r).min(1000.0)
}
