//! The sun on a flat panel: what comes to the top of the air, what reaches the ground, and what a panel makes of it.

use std::f64::consts::PI;

use pintle_quantity::Dimension;

use crate::figure::Figure;

/// Solar constant of FAO-56, 0.0820 MJ/(m²·min), in W/m².
pub const SOLAR_CONSTANT: f64 = 0.0820e6 / 60.0;

/// The share of what comes to the top of the air that reaches the ground under a grey sky, and what full sunshine adds
/// (FAO-56, equation 35).
pub const GREY: f64 = 0.25;
/// See [`GREY`].
pub const SHINE: f64 = 0.50;

/// Day of the year in the middle of a month, 1 to 12: whole part of 30.4 · M − 15 (FAO-56, annex 2; from memory).
///
/// ```
/// assert_eq!(pintle_calc::electric::sun::middle_day(5), 137.0);
/// ```
#[must_use]
pub fn middle_day(month: u32) -> f64 {
    (30.4 * f64::from(month) - 15.0).floor()
}

/// Declination of the sun on day `j` of the year, in rad: 0.409 · sin(2π·J/365 − 1.39) (FAO-56, equation 24).
#[must_use]
pub fn declination(j: f64) -> f64 {
    0.409 * (2.0 * PI * j / 365.0 - 1.39).sin()
}

/// The inverse relative distance to the sun, squared: 1 + 0.033 · cos(2π·J/365) (FAO-56, equation 23).
///
/// ```
/// // 3 September is day 246: 0.985 in FAO-56, example 8.
/// assert!((pintle_calc::electric::sun::nearness(246.0) - 0.985).abs() < 5e-4);
/// ```
#[must_use]
pub fn nearness(j: f64) -> f64 {
    1.0 + 0.033 * (2.0 * PI * j / 365.0).cos()
}

/// Hour angle of sunset, in rad, at latitude `phi` in rad: arccos(−tan φ · tan δ) (FAO-56, equation 25); zero in the polar night, π where
/// the sun does not set.
#[must_use]
pub fn sunset(phi: f64, j: f64) -> f64 {
    (-phi.tan() * declination(j).tan()).clamp(-1.0, 1.0).acos()
}

/// What comes to the top of the air over a flat square metre between two hour angles, in J/m² (FAO-56, equation 28); outside of
/// daylight nothing.
#[must_use]
pub fn above_between(phi: f64, j: f64, from: f64, to: f64) -> f64 {
    let set = sunset(phi, j);
    let (from, to) = (from.clamp(-set, set), to.clamp(-set, set));
    let delta = declination(j);
    let upright = (to - from) * phi.sin() * delta.sin() + phi.cos() * delta.cos() * (to.sin() - from.sin());
    43_200.0 / PI * SOLAR_CONSTANT * nearness(j) * upright.max(0.0)
}

/// What comes to the top of the air over a flat square metre in a day, in J/m² (FAO-56, equation 21). Beyond 55° of latitude the formula
/// is less sure, and near the equinoxes its declination is up to a degree off: 4 % at 50°.
///
/// ```
/// use pintle_calc::electric::sun::above;
///
/// // Rio de Janeiro, 15 May: 25.1 MJ/m² (FAO-56, example 10).
/// assert!((above((-22.9_f64).to_radians(), 135.0) / 1e6 - 25.11).abs() < 0.01);
/// ```
#[must_use]
pub fn above(phi: f64, j: f64) -> f64 {
    above_between(phi, j, -PI, PI)
}

/// The share of a day's sun that falls in each hour after midnight, in solar time. All nothing in the polar night.
#[must_use]
pub fn by_the_hour(phi: f64, j: f64) -> [f64; 24] {
    let whole = above(phi, j);
    std::array::from_fn(|hour| {
        let at = |hour: usize| u32::try_from(hour).map_or(0.0, f64::from) * PI / 12.0 - PI;
        if whole > 0.0 { above_between(phi, j, at(hour), at(hour + 1)) / whole } else { 0.0 }
    })
}

/// Sun hours of a day on a flat panel, in s: what reaches the ground, (0.25 + 0.50·n/N)·Ra (FAO-56, equation 35), over 1,000 W/m². `phi`
/// in rad, `shine` the share n/N of daylight in which the sun shines.
#[must_use]
pub fn hours(phi: &Figure, shine: &Figure, j: f64) -> Figure {
    Figure::by(Dimension::TIME, [phi, shine], |[phi, shine]| (GREY + SHINE * shine) * above(phi, j) / 1000.0)
}

/// Losses that come one after the other, together: 1 − Π(1 − L) (`PVWatts`, as pvlib documents it), as shares.
///
/// ```
/// use pintle_calc::electric::sun::losses;
///
/// let all = losses(&[0.02, 0.03, 0.0, 0.02, 0.02, 0.005, 0.015, 0.01, 0.0, 0.03]);
/// assert!((all - 0.140757).abs() < 5e-7);
/// ```
#[must_use]
pub fn losses(each: &[f64]) -> f64 {
    1.0 - each.iter().map(|loss| 1.0 - loss).product::<f64>()
}

/// Power of a panel, in W: P · E/1000 · (1 − γ·(T − 25 °C)) (`PVWatts`, as pvlib documents it), with `e` in W/m², `t` in K and the share γ
/// that it loses for each kelvin.
///
/// ```
/// use pintle_calc::electric::sun::power;
///
/// assert!((power(200.0, 800.0, 318.15, 0.0047) - 144.96).abs() < 1e-9);
/// ```
#[must_use]
pub fn power(p: f64, e: f64, t: f64, fall: f64) -> f64 {
    p * e / 1000.0 * (1.0 - fall * (t - 298.15))
}

/// Open-circuit voltage of a string of `n` panels on a cold morning, in V: n · V · (1 + β·(25 °C − T)).
#[must_use]
pub fn cold_voltage(n: f64, v: &Figure, rise: &Figure, t: &Figure) -> Figure {
    Figure::by(Dimension::VOLTAGE, [v, rise, t], |[v, rise, t]| n * v * (1.0 + rise * (298.15 - t)))
}

/// What a panel of `p` W brings in a day of `h` s of sun, in J: P · h · (1 − L) · η, with losses `losses` and the share `eta` that its
/// controller passes on.
///
/// ```
/// use pintle_calc::electric::sun::daily;
///
/// assert!((daily(400.0, 5.0 * 3600.0, 0.140757, 1.0) / 3600.0 - 1718.5).abs() < 0.05);
/// ```
#[must_use]
pub fn daily(p: f64, h: f64, losses: f64, eta: f64) -> f64 {
    p * h * (1.0 - losses) * eta
}
