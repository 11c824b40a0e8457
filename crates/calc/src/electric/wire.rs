//! Copper: section, resistance, and the voltage that is lost on the way there and back.

use pintle_quantity::Dimension;

use crate::figure::Figure;

/// Resistivity of annealed copper at 20 °C, in Ω·m: 12 AWG comes to 1.588 Ω per 1,000 ft with it, as tables of solid
/// wire at 20 °C have it (hyperphysics.phy-astr.gsu.edu, wire gauge table).
pub const COPPER: f64 = 1.7241e-8;

/// Rise of copper's resistance for each kelvin, from 20 °C.
pub const COPPER_RISE: f64 = 0.003_93;

/// 20 °C in K.
const TWENTY: f64 = 293.15;

/// Square metres of a circular mil: a circle of a thousandth of an inch.
pub const CIRCULAR_MIL: f64 = std::f64::consts::PI / 4.0 * 25.4e-6 * 25.4e-6;

/// Metres of a foot.
pub const FOOT: f64 = 0.3048;

/// `K` of the boat builders' circular-mil formula, in Ω·cmil/ft; its length is that of both wires together.
pub const K_ROUND_TRIP: f64 = 10.75;

/// `K` of the house wiring formula for copper at 75 °C, in Ω·cmil/ft; its length is one way and its factor of 2 makes
/// the round trip.
pub const K_ONE_WAY: f64 = 12.9;

/// Conductivity κ of the metric formula, in m/(Ω·mm²).
pub const KAPPA: f64 = 56.0;

/// Circular mils that stranded automotive wire must have at least, by its SAE gauge; 1/0 to 4/0 are 0 to −3. From memory of SAE
/// J1127 and J1128: nobody looked them up.
pub const SAE_MILS: &[(i32, f64)] = &[
    (18, 1_537.0),
    (16, 2_336.0),
    (14, 3_702.0),
    (12, 5_833.0),
    (10, 9_343.0),
    (8, 14_810.0),
    (6, 24_538.0),
    (4, 37_360.0),
    (2, 62_450.0),
    (0, 98_980.0),
    (-1, 125_100.0),
    (-3, 205_500.0),
];

/// Circular mils of a gauge by ASTM B258: d = 0.005 · 92^((36 − n)/39) in, squared in mils. 1/0 to 4/0 are 0 to −3.
///
/// ```
/// use pintle_calc::electric::wire::awg_mils;
///
/// assert!((awg_mils(10.0) - 10_383.0).abs() < 1.0);
/// assert!((awg_mils(-3.0) - 211_600.0).abs() < 1e-6);
/// ```
#[must_use]
pub fn awg_mils(n: f64) -> f64 {
    let d = 5.0 * 92_f64.powf((36.0 - n) / 39.0);
    d * d
}

/// Resistance of copper per length, in Ω/m: R = ρ/S · (1 + lay) · (1 + 0.00393 · (T − 20 °C)), with section `s` in m², the share
/// `lay` that strands add, and temperature `t` in K.
///
/// ```
/// use pintle_calc::electric::wire::{CIRCULAR_MIL, awg_mils, resistance};
///
/// // Solid 12 AWG at 20 °C: 1.588 Ω per 1,000 ft, not the 1.93 of tables at 75 °C.
/// let twelve = awg_mils(12.0) * CIRCULAR_MIL;
/// assert!((resistance(twelve, 0.0, 293.15) * 304.8 - 1.588).abs() < 0.001);
/// assert!((resistance(twelve, 0.0, 348.15) * 304.8 - 1.931).abs() < 0.001);
/// ```
#[must_use]
pub fn resistance(s: f64, lay: f64, t: f64) -> f64 {
    COPPER / s * (1.0 + lay) * (1.0 + COPPER_RISE * (t - TWENTY))
}

/// Resistance of both wires of a run, in Ω: `l` the length one way in m, `out` and `back` the two sections in m².
#[must_use]
pub fn loop_resistance(l: &Figure, out: &Figure, back: &Figure, lay: &Figure, t: &Figure) -> Figure {
    Figure::by(Dimension::RESISTANCE, [l, out, back, lay, t], |[l, out, back, lay, t]| {
        l * (resistance(out, lay, t) + resistance(back, lay, t))
    })
}

/// Voltage lost by the boat builders' formula, E = K·I·L/CM with K = 10.75: `both` is the length of **both wires together**,
/// in m, `i` in A, `s` in m².
///
/// ```
/// use pintle_calc::electric::wire::{CIRCULAR_MIL, FOOT, awg_mils, drop_round_trip};
///
/// let lost = drop_round_trip(20.0, 30.0 * FOOT, awg_mils(10.0) * CIRCULAR_MIL);
/// assert!((lost - 0.621).abs() < 0.001);
/// ```
#[must_use]
pub fn drop_round_trip(i: f64, both: f64, s: f64) -> f64 {
    K_ROUND_TRIP * i * (both / FOOT) / (s / CIRCULAR_MIL)
}

/// Voltage lost by the house wiring formula, E = 2·K·I·D/CM with K = 12.9: `one_way` is the length **one way**, in m, `i` in
/// A, `s` in m².
///
/// ```
/// use pintle_calc::electric::wire::{CIRCULAR_MIL, FOOT, awg_mils, drop_one_way};
///
/// let lost = drop_one_way(20.0, 100.0 * FOOT, awg_mils(12.0) * CIRCULAR_MIL);
/// assert!((lost - 7.9).abs() < 0.01);
/// ```
#[must_use]
pub fn drop_one_way(i: f64, one_way: f64, s: f64) -> f64 {
    2.0 * K_ONE_WAY * i * (one_way / FOOT) / (s / CIRCULAR_MIL)
}

/// Voltage lost by the metric formula, U = 2·l·I/(κ·S) with κ = 56 m/(Ω·mm²): `one_way` in m, `i` in A, `s` in m².
#[must_use]
pub fn drop_metric(i: f64, one_way: f64, s: f64) -> f64 {
    2.0 * one_way * i / (KAPPA * s * 1e6)
}

/// Section that loses no more than `e` V by the metric formula, in m².
///
/// ```
/// use pintle_calc::electric::wire::section_metric;
///
/// // 2.1 A over 18 m one way, 5 % of 12 V: 2.25 mm².
/// assert!((section_metric(2.1, 18.0, 0.6) * 1e6 - 2.25).abs() < 1e-9);
/// ```
#[must_use]
pub fn section_metric(i: f64, one_way: f64, e: f64) -> f64 {
    2.0 * one_way * i / (KAPPA * e) * 1e-6
}

/// Voltage lost by the short metric formula, E = 0.0164·I·L/S: `both` is the length of both wires together, in m, `i` in A, `s` in
/// m².
#[must_use]
pub fn drop_short(i: f64, both: f64, s: f64) -> f64 {
    0.0164 * i * both / (s * 1e6)
}

/// Circular mils needed by the boat builders' formula, CM = K·I·L/E with K = 10.75: `both` is the length of both wires
/// together, in m, `i` in A, `e` in V.
#[must_use]
pub fn mils_needed(i: f64, both: f64, e: f64) -> f64 {
    K_ROUND_TRIP * i * (both / FOOT) / e
}

/// The section of a gauge by SAE, in m²; none for a gauge that the table lacks.
#[must_use]
pub fn sae_section(n: f64) -> Option<f64> {
    let found = SAE_MILS.iter().find(|(gauge, _)| (f64::from(*gauge) - n).abs() < 0.01);
    found.map(|(_, mils)| mils * CIRCULAR_MIL)
}
