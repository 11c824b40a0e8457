//! Leaks: how much gas makes a room dangerous, and what a leak test must show.

/// Weight of gas in kg that, spread evenly, makes a share of a volume: m = share · limit · V · ρ, with `v` in m³, `limit` the lower
/// explosive limit, `share` the part of it, `rho` the vapour's density in kg/m³.
///
/// ```
/// use pintle_calc::gas::leak_weight;
///
/// // 300 ft³ to a quarter of 2.1 %, with 8.66 ft³ of vapour to the pound: 0.182 lb.
/// let (cubic_foot, pound) = (0.3048_f64.powi(3), 0.453_592_37);
/// let m = leak_weight(300.0 * cubic_foot, 0.021, 0.25, pound / (8.66 * cubic_foot));
/// assert!((m / pound - 0.182).abs() < 5e-4);
/// ```
pub fn leak_weight(v: f64, limit: f64, share: f64, rho: f64) -> f64 {
    share * limit * v * rho
}

/// One psi in Pa: one lb at 9.80665 m/s² on a square inch.
const PSI: f64 = 0.453_592_37 * 9.806_65 / (0.0254 * 0.0254);

/// What a leak test asks for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeakTest {
    /// The procedure, in the words of a spec.
    pub method: &'static str,
    /// Least pressure, in Pa.
    pub least: f64,
    /// Greatest pressure, in Pa; none where the text gives none.
    pub most: Option<f64>,
    /// How long it settles, in s.
    pub settle: f64,
    /// How long it is watched, in s.
    pub hold: f64,
    /// Greatest drop, in Pa.
    pub drop: f64,
    /// Where this was read.
    pub source: &'static str,
    /// Whether it is from memory.
    pub memory: bool,
}

/// The procedures.
pub const LEAK_TESTS: [LeakTest; 3] = [
    LeakTest {
        method: "EN 1949",
        least: 15_000.0,
        most: Some(15_000.0),
        settle: 300.0,
        hold: 300.0,
        drop: 1_000.0,
        source: "EN 1949:2011+A1 4.3, read in a summary (123doc.top 13748385)",
        memory: false,
    },
    LeakTest {
        method: "piping alone",
        least: 3.0 * PSI,
        most: None,
        settle: 0.0,
        hold: 600.0,
        drop: 0.0,
        source: "24 CFR 3280.705(k), NFPA 1192: 3 psi for 10 min",
        memory: true,
    },
    LeakTest {
        method: "with appliances",
        least: 6.0 / 16.0 * PSI,
        most: Some(8.0 / 16.0 * PSI),
        settle: 0.0,
        hold: 600.0,
        drop: 0.0,
        source: "WAC 296-150C-1460 (seen): 10 to 14 in of water, 6 to 8 oz/in², for 10 min without leakage, and soap solution at the connectors",
        memory: false,
    },
];

/// The procedure that a spec names.
pub fn leak_test(method: &str) -> Option<&'static LeakTest> {
    LEAK_TESTS.iter().find(|test| test.method == method)
}
