//! Bolts: thread, stress area, grade, and what follows from them.

use std::f64::consts::FRAC_PI_4;

const INCH: f64 = 0.0254;
const KSI: f64 = 1000.0 * 0.453_592_37 * super::G / (INCH * INCH);
const MPA: f64 = 1e6;

/// A thread.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Thread {
    /// Nominal diameter, in m.
    pub d: f64,
    /// Pitch, in m.
    pub p: f64,
    /// Whether it is an inch thread, whose root is cut a little deeper.
    pub inch: bool,
}

/// Coarse pitches of metric threads, diameter and pitch in mm (ISO 261, from memory).
const COARSE: &[(f64, f64)] = &[
    (5.0, 0.8),
    (6.0, 1.0),
    (8.0, 1.25),
    (10.0, 1.5),
    (12.0, 1.75),
    (14.0, 2.0),
    (16.0, 2.0),
    (20.0, 2.5),
    (24.0, 3.0),
];

impl Thread {
    /// The thread of a size as it is written: `3/8-16`, `1/2-13`, `1-8`, `M10`, `M10x1.25`. None for what is no such size.
    ///
    /// ```
    /// use pintle_calc::anchor::bolts::Thread;
    /// let half = Thread::parse("1/2-13").unwrap();
    /// assert!((half.stress_area() / 0.0254_f64.powi(2) - 0.1419).abs() < 5e-5);
    /// assert_eq!(Thread::parse("M10"), Thread::parse("M10x1.5"));
    /// assert_eq!(Thread::parse("thick"), None);
    /// ```
    pub fn parse(size: &str) -> Option<Self> {
        let size = size.trim();
        if let Some(metric) = size.strip_prefix(['M', 'm']) {
            let (d, p) = metric.split_once(['x', 'X', '×']).map_or((metric, None), |(d, p)| (d, Some(p)));
            let d: f64 = d.trim().parse().ok()?;
            let p = match p {
                Some(p) => p.trim().parse().ok()?,
                None => COARSE.iter().find(|(coarse, _)| (coarse - d).abs() < 1e-9)?.1,
            };
            return sound(Self { d: d * 1e-3, p: p * 1e-3, inch: false });
        }
        let (d, n) = size.split_once('-')?;
        let d = match d.split_once('/') {
            Some((above, below)) => above.trim().parse::<f64>().ok()? / below.trim().parse::<f64>().ok()?,
            None => d.trim().parse().ok()?,
        };
        let n: f64 = n.trim().parse().ok()?;
        sound(Self { d: d * INCH, p: INCH / n, inch: true })
    }

    /// Tensile stress area, in m²: π/4 · (d − 0.9743/n)² for inch threads, π/4 · (d − 0.9382 p)² for metric ones.
    pub fn stress_area(self) -> f64 {
        let cut = if self.inch { 0.9743 } else { 0.9382 };
        FRAC_PI_4 * (self.d - cut * self.p).powi(2)
    }

    /// Area of the shank, in m²: π/4 · d².
    pub fn shank_area(self) -> f64 {
        FRAC_PI_4 * self.d * self.d
    }
}

fn sound(thread: Thread) -> Option<Thread> {
    let held = thread.d.is_finite() && thread.p.is_finite() && thread.p > 0.0 && thread.d > 2.0 * thread.p;
    (held && thread.d < 0.1).then_some(thread)
}

/// What the steel of a bolt stands, in Pa.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Steel {
    /// Proof stress: it springs back from that. None where the standard states none.
    pub proof: Option<f64>,
    /// Tensile strength: it breaks at that.
    pub tensile: f64,
}

/// Where the figures of a grade come from, and whether they were read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sourced {
    /// SAE J429, read on a page that quotes it.
    J429,
    /// ISO 898-1, read on a page that quotes it.
    Iso898,
    /// ASTM A307, from memory.
    A307,
}

/// The steel of a grade or class at a diameter in m. None for a grade that is not known, or not made so thick.
///
/// ```
/// use pintle_calc::anchor::bolts::steel;
/// let (five, _) = steel("5", 0.5 * 0.0254).unwrap();
/// assert!((five.proof.unwrap() - 586.054e6).abs() < 1e3);
/// ```
pub fn steel(grade: &str, d: f64) -> Option<(Steel, Sourced)> {
    let upto = |inches: f64| d <= inches * INCH + 1e-9;
    let ksi = |proof: f64, tensile: f64| {
        Some((Steel { proof: Some(proof * KSI), tensile: tensile * KSI }, Sourced::J429))
    };
    let mpa = |proof: f64, tensile: f64| {
        Some((Steel { proof: Some(proof * MPA), tensile: tensile * MPA }, Sourced::Iso898))
    };
    match grade {
        "2" if upto(0.75) => ksi(55.0, 74.0),
        "2" if upto(1.5) => ksi(33.0, 60.0),
        "5" if upto(1.0) => ksi(85.0, 120.0),
        "5" if upto(1.5) => ksi(74.0, 105.0),
        "8" if upto(1.5) => ksi(120.0, 150.0),
        "A307" => Some((Steel { proof: None, tensile: 60.0 * KSI }, Sourced::A307)),
        "8.8" if d <= 0.016 + 1e-9 => mpa(580.0, 800.0),
        "8.8" => mpa(600.0, 830.0),
        "10.9" => mpa(830.0, 1040.0),
        _ => None,
    }
}

/// Tightening torque, in N·m: T = K · d · F, with nut factor K, diameter d in m and clamp load F in N.
///
/// ```
/// use pintle_calc::anchor::bolts::torque;
/// // 1/2 in, 5,853 lbf, dry: 48.8 lbf·ft (coxhardware.com, T-bolt torque).
/// let found = torque(0.2, 0.5 * 0.0254, 5853.0 * 4.448_221_615_260_5) / 1.355_817_948_331_4;
/// assert!((found - 48.8).abs() < 0.05);
/// ```
pub fn torque(k: f64, d: f64, f: f64) -> f64 {
    k * d * f
}

/// How far a bolt under pull `t` and shear `v` is used up, with what it holds of each alone: (t/T)² + (v/V)²; 1 is all.
///
/// NSTS 08307, as quoted on eng-tips.com, thread 29968 (seen), has the shear term cubed; squared it is the harder.
///
/// ```
/// use pintle_calc::anchor::bolts::used;
/// assert!((used(3.0, 4.0, 5.0, 5.0) - 1.0).abs() < 1e-12);
/// ```
pub fn used(t: f64, v: f64, t_holds: f64, v_holds: f64) -> f64 {
    (t / t_holds).powi(2) + (v / v_holds).powi(2)
}
