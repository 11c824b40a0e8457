//! Working load limits of tie-downs that are not marked (49 CFR 393.108, tables).

const INCH: f64 = 0.0254;

/// What a tie-down is and how it is marked; lengths in m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tiedown<'a> {
    /// `webbing`, `chain`, `rope`, `wire rope` or `steel strap`.
    pub sort: &'a str,
    /// Width, or nominal size.
    pub size: f64,
    /// Thickness of a steel strap.
    pub thickness: Option<f64>,
    /// Grade of a chain.
    pub grade: Option<&'a str>,
    /// What a rope is made of.
    pub made_of: Option<&'a str>,
}

/// Width in inches and pounds.
const WEBBING: &[(f64, f64)] = &[(1.75, 1750.0), (2.0, 2000.0), (3.0, 3000.0), (4.0, 4000.0)];

/// Size in inches, and pounds by grade 30, 43, 70, 80, 100; zero where the table has none.
const CHAIN: &[(f64, [f64; 5])] = &[
    (0.25, [1300.0, 2600.0, 3150.0, 3500.0, 4300.0]),
    (0.3125, [1900.0, 3900.0, 4700.0, 4500.0, 5700.0]),
    (0.375, [2650.0, 5400.0, 6600.0, 7100.0, 8800.0]),
    (0.4375, [3700.0, 7200.0, 8750.0, 0.0, 0.0]),
    (0.5, [4500.0, 9200.0, 11_300.0, 12_000.0, 15_000.0]),
    (0.625, [6900.0, 13_000.0, 15_800.0, 18_100.0, 22_600.0]),
];

/// Size in inches, and pounds of polyester, nylon and polypropylene.
const ROPE: &[(f64, [f64; 3])] = &[
    (0.375, [555.0, 278.0, 400.0]),
    (0.5, [960.0, 525.0, 625.0]),
    (0.625, [1500.0, 935.0, 925.0]),
    (1.0, [3300.0, 2520.0, 2100.0]),
];

/// Size in inches and pounds, 6 × 37 with a fibre core.
const WIRE_ROPE: &[(f64, f64)] = &[
    (0.25, 1400.0),
    (0.3125, 2100.0),
    (0.375, 3000.0),
    (0.4375, 4100.0),
    (0.5, 5300.0),
    (0.625, 8300.0),
    (0.75, 10_900.0),
];

/// Width, least thickness and most thickness in inches, and pounds.
const STEEL_STRAP: &[(f64, f64, f64, f64)] = &[
    (1.25, 0.029, 0.035, 1190.0),
    (1.25, 0.044, 0.05, 1690.0),
    (1.25, 0.057, 0.057, 1925.0),
    (2.0, 0.044, 0.05, 2650.0),
];

/// Working load limit in pounds of a tie-down that is not marked with one. None for a size the table does not have.
///
/// A chain of unknown grade counts as grade 30, a rope of unknown material as polypropylene (393.108(c), (d)), a steel strap of
/// unknown thickness as the thinnest of its width.
///
/// ```
/// use pintle_calc::anchor::tiedowns::{Tiedown, working_pounds};
/// let strap = Tiedown { sort: "webbing", size: 4.0 * 0.0254, thickness: None, grade: None, made_of: None };
/// assert_eq!(working_pounds(strap), Some(4000.0));
/// ```
pub fn working_pounds(tiedown: Tiedown<'_>) -> Option<f64> {
    let same = |inches: f64| (tiedown.size - inches * INCH).abs() < 0.01 * inches * INCH;
    let column = |names: &[&str], word: Option<&str>, otherwise: usize| match word {
        Some(word) => names.iter().position(|name| *name == word),
        None => Some(otherwise),
    };
    match tiedown.sort {
        "webbing" => WEBBING.iter().find(|row| same(row.0)).map(|row| row.1),
        "wire rope" => WIRE_ROPE.iter().find(|row| same(row.0)).map(|row| row.1),
        "chain" => {
            let at = column(&["30", "43", "70", "80", "100"], tiedown.grade, 0)?;
            let row = CHAIN.iter().find(|row| same(row.0))?;
            row.1.get(at).copied().filter(|pounds| *pounds > 0.0)
        }
        "rope" => {
            let at = column(&["polyester", "nylon", "polypropylene"], tiedown.made_of, 2)?;
            ROPE.iter().find(|row| same(row.0))?.1.get(at).copied()
        }
        "steel strap" => {
            let fits = |least: f64, most: f64| {
                let slack = 1e-3 * INCH;
                tiedown
                    .thickness
                    .is_none_or(|thick| thick >= least * INCH - slack && thick <= most * INCH + slack)
            };
            STEEL_STRAP.iter().find(|row| same(row.0) && fits(row.1, row.2)).map(|row| row.3)
        }
        _ => None,
    }
}
