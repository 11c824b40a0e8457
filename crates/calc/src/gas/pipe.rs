//! Low-pressure gas pipe: how much pressure is lost on the way, and which size is enough.

use pintle_spec::{Known, Missing};

/// One foot in m, one inch in m, exact by definition; one inch of water in Pa, and one ft³/h in m³/s.
pub(crate) const FOOT: f64 = 0.3048;
pub(crate) const INCH: f64 = 0.0254;
pub(crate) const INCH_OF_WATER: f64 = 9.806_65 * 25.4;
pub(crate) const CUBIC_FOOT_PER_HOUR: f64 = FOOT * FOOT * FOOT / 3600.0;

/// The factor Cr of the low-pressure equation for undiluted propane (NFPA 54, from memory).
pub const CR_PROPANE: f64 = 1.2462;

/// The same for natural gas (NFPA 54, from memory).
pub const CR_NATURAL_GAS: f64 = 0.6094;

/// Pressure lost in a pipe, in Pa, by the low-pressure equation of NFPA 54 (constants from memory; it gives the published tables
/// to 0.4 %): D = Q^0.381 / (19.17 (ΔH/(Cr·L))^0.206) solved for ΔH.
///
/// `q` is the flow of vapour in m³/s, `l` the length with its fittings in m, `d` the inside diameter in m. The equation itself
/// goes by ft³/h, ft, in and inches of water.
///
/// ```
/// use pintle_calc::gas::{CR_PROPANE, drop_nfpa};
///
/// // NFPA 54, propane: 200,000 Btu/h through 20 ft of 1/2 in pipe loses 0.5 in of water.
/// let q = 200_000.0 / 2474.0 * 0.3048_f64.powi(3) / 3600.0;
/// let lost = drop_nfpa(q, 20.0 * 0.3048, 0.622 * 0.0254, CR_PROPANE) / 249.0889;
/// assert!((lost - 0.5).abs() < 0.01);
/// ```
pub fn drop_nfpa(q: f64, l: f64, d: f64, cr: f64) -> f64 {
    let (q, l, d) = (q / CUBIC_FOOT_PER_HOUR, l / FOOT, d / INCH);
    cr * l * (q.powf(0.381) / (19.17 * d)).powf(1.0 / 0.206) * INCH_OF_WATER
}

/// The flow in m³/s that loses `dh` Pa: the same equation solved for Q.
pub fn flow_nfpa(dh: f64, l: f64, d: f64, cr: f64) -> f64 {
    let (dh, l, d) = (dh / INCH_OF_WATER, l / FOOT, d / INCH);
    (19.17 * d * (dh / (cr * l)).powf(0.206)).powf(1.0 / 0.381) * CUBIC_FOOT_PER_HOUR
}

/// Pressure lost in a pipe, in Pa, by Spitzglass for low pressure: Q = 3550 √(ΔH d⁵ / (S L (1 + 3.6/d + 0.03 d))) solved for ΔH;
/// Q in ft³/h, ΔH in inches of water, d in in, L in ft. `s` is the weight of the vapour against air.
///
/// The same pipe carries about a third less by it than by the tables of NFPA 54 in use today: a figure of one must not be held
/// against a table of the other.
pub fn drop_spitzglass(q: f64, l: f64, d: f64, s: f64) -> f64 {
    let (q, l, d) = (q / CUBIC_FOOT_PER_HOUR, l / FOOT, d / INCH);
    (q / 3550.0).powi(2) * s * l * (1.0 + 3.6 / d + 0.03 * d) / d.powi(5) * INCH_OF_WATER
}

/// The flow in m³/s that loses `dh` Pa, by Spitzglass.
///
/// ```
/// use pintle_calc::gas::flow_spitzglass;
///
/// // `fluids` 1.3.1, Spitzglass_low: 53.249 ft³/h through 20 ft of 1/2 in pipe at 0.5 in of water, S = 1.52.
/// let q = flow_spitzglass(0.5 * 249.08891, 20.0 * 0.3048, 0.622 * 0.0254, 1.52);
/// assert!((q * 3600.0 / 0.3048_f64.powi(3) - 53.2).abs() < 0.1);
/// ```
pub fn flow_spitzglass(dh: f64, l: f64, d: f64, s: f64) -> f64 {
    let (dh, l, d) = (dh / INCH_OF_WATER, l / FOOT, d / INCH);
    3550.0 * (dh * d.powi(5) / (s * l * (1.0 + 3.6 / d + 0.03 * d))).sqrt() * CUBIC_FOOT_PER_HOUR
}

/// A trade size of pipe or tube.
#[derive(Debug, Clone, Copy)]
pub struct Size {
    /// As a spec names it.
    pub name: &'static str,
    /// Inside diameter in inches.
    pub inside: f64,
    /// Whether the inside diameter was read in a published table; else it is from memory.
    pub seen: bool,
}

/// Steel pipe, schedule 40, by rising size: inside diameters as printed over tables of NFPA 54.
pub const PIPES: [Size; 4] = [
    Size { name: "3/8 in pipe", inside: 0.493, seen: true },
    Size { name: "1/2 in pipe", inside: 0.622, seen: true },
    Size { name: "3/4 in pipe", inside: 0.824, seen: true },
    Size { name: "1 in pipe", inside: 1.049, seen: true },
];

/// Copper tube, type K, by outside diameter; the two smaller ones from memory.
pub const TUBES: [Size; 4] = [
    Size { name: "3/8 in tube", inside: 0.305, seen: false },
    Size { name: "1/2 in tube", inside: 0.402, seen: false },
    Size { name: "5/8 in tube", inside: 0.527, seen: true },
    Size { name: "3/4 in tube", inside: 0.652, seen: true },
];

/// The trade size that a spec names.
pub fn size(name: &str) -> Option<&'static Size> {
    PIPES.iter().chain(&TUBES).find(|size| size.name == name)
}

/// The smallest size of a list that carries a flow over the longest run for a given loss ("longest length" method of NFPA 54: every
/// section is sized by the length to the farthest outlet). `q` in m³/s, `longest` in m, `dh` in Pa.
///
/// ```
/// use pintle_calc::gas::{CR_NATURAL_GAS, PIPES, smallest};
///
/// // NFPA 54, C.7.1 (natural gas, 60 ft): 245 ft³/h asks for 1 in.
/// let q = 245.0 * 0.3048_f64.powi(3) / 3600.0;
/// let found = smallest(&PIPES, q, 60.0 * 0.3048, 0.5 * 249.08891, CR_NATURAL_GAS).unwrap();
/// assert_eq!(found.name, "1 in pipe");
/// ```
///
/// # Errors
/// A flow that is too great for all of them.
pub fn smallest(sizes: &'static [Size], q: f64, longest: f64, dh: f64, cr: f64) -> Known<&'static Size> {
    let enough = |size: &&Size| flow_nfpa(dh, longest, size.inside * INCH, cr) >= q * (1.0 - 1e-9);
    sizes.iter().find(enough).ok_or_else(|| {
        Missing::new(
            "a trade size that carries this flow",
            None,
            "split the run, or raise no further than the list goes",
        )
    })
}
