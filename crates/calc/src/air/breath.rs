//! Carbon dioxide: what sleepers and burners give off, and what becomes of it in a room.

/// Carbon dioxide that a person gives off, in m³/s: V = 0.000484 · BMR · M in L/s with BMR in MJ/day, at 273.15 K and 101 kPa
/// (Persily and de Jonge 2017, Indoor Air 27:868, as quoted in public code), at the temperature `t` in K.
///
/// `bmr` is the basal metabolic rate in W, `m` the activity as a multiple of it.
///
/// ```
/// use pintle_calc::air::sleeper_carbon_dioxide;
///
/// // The worked example there: 7.73 MJ/day and 1.5 give 0.0056 L/s, at 0 °C.
/// let found = sleeper_carbon_dioxide(7.73e6 / 86_400.0, 1.5, 273.15);
/// assert!((found * 1000.0 - 0.0056).abs() < 5e-5);
/// ```
pub fn sleeper_carbon_dioxide(bmr: f64, m: f64, t: f64) -> f64 {
    let megajoules_a_day = bmr * 0.0864;
    0.000_484e-3 * megajoules_a_day * m * t / 273.15
}

/// Weight of carbon dioxide and of water from burning one weight of propane: C₃H₈ + 5 O₂ → 3 CO₂ + 4 H₂O.
pub(crate) const CARBON_DIOXIDE_OF_PROPANE: f64 = 2.994;
pub(crate) const WATER_OF_PROPANE: f64 = 1.634;

/// Molar weight of carbon dioxide in kg/mol, and the gas constant in J/(mol·K).
const MOLAR: f64 = 0.044_01;
const R: f64 = 8.314_463;

/// Carbon dioxide from burning propane, in m³/s at `t` K and one atmosphere, with a heat input `p` in W and a heating value `h` in
/// J/kg: 2.994 kg of it for each kg of propane (stoichiometry).
///
/// ```
/// use pintle_calc::air::burner_carbon_dioxide;
///
/// // 10,000 Btu/h at 21,643 Btu/lb: 0.0952 L/s at 20 °C.
/// let found = burner_carbon_dioxide(2930.71, 21_643.0 * 2326.0, 293.15);
/// assert!((found * 1000.0 - 0.0952).abs() < 2e-4);
/// ```
pub fn burner_carbon_dioxide(p: f64, h: f64, t: f64) -> f64 {
    p / h * CARBON_DIOXIDE_OF_PROPANE / MOLAR * R * t / 101_325.0
}

/// (1 − e^−x)/x.
fn once(x: f64) -> f64 {
    if x.abs() < 1e-12 { 1.0 } else { -(-x).exp_m1() / x }
}

/// (x − 1 + e^−x)/x².
fn twice(x: f64) -> f64 {
    if x.abs() < 1e-4 { 0.5 - x / 6.0 + x * x / 24.0 } else { (1.0 - once(x)) / x }
}

/// The share of something in the air of a room after a time, from V dC/dt = G − Q(C − Co): C = Co + (C₁ − Co)e^(−nt) +
/// (G/V)·(1 − e^(−nt))/n with n = Q/V. It holds with no flow as well.
///
/// `start` and `outside` are shares, `g` what is given off and `q` the flow in m³/s, `v` the volume in m³, `t` the time in s. The same
/// holds of kg of water in each kg of dry air with `g` in kg/s, and `q` and `v` in kg/s and kg of dry air.
///
/// ```
/// use pintle_calc::air::share_after;
///
/// // Two sleepers at 0.0036 L/s each, 4 L/s, 8.5 m³, 420 ppm outside: 1,889 ppm after 1 h, 2,220 ppm in the end.
/// let after = |hours: f64| share_after(420e-6, 420e-6, 0.0072e-3, 4e-3, 8.5, hours * 3600.0) * 1e6;
/// assert!((after(1.0) - 1889.2).abs() < 0.1 && (after(100.0) - 2220.0).abs() < 0.1);
/// ```
pub fn share_after(start: f64, outside: f64, g: f64, q: f64, v: f64, t: f64) -> f64 {
    let changes = q / v * t;
    outside + (start - outside) * (-changes).exp() + g / v * t * once(changes)
}

/// Its mean over that time.
pub fn mean_share(start: f64, outside: f64, g: f64, q: f64, v: f64, t: f64) -> f64 {
    let changes = q / v * t;
    outside + (start - outside) * once(changes) + g / v * t * twice(changes)
}

/// Time in s until a shut room, with no flow at all, reaches a share: t = (C − C₁)·V/G.
///
/// ```
/// use pintle_calc::air::seconds_to_share;
///
/// // Two sleepers in 8.5 m³: 5,000 ppm after 1.502 h.
/// assert!((seconds_to_share(420e-6, 5000e-6, 0.0072e-3, 8.5) / 3600.0 - 1.502).abs() < 5e-4);
/// ```
pub fn seconds_to_share(start: f64, limit: f64, g: f64, v: f64) -> f64 {
    ((limit - start) * v / g).max(0.0)
}
