//! How fast a cylinder boils off gas: a published table of the 100 lb cylinder, and smaller ones by their wetted surface.

use std::f64::consts::PI;

use pintle_spec::{Known, Missing};

use super::propane::liquid_density;

/// Temperatures of the table's columns, in °F.
const FAHRENHEIT: [f64; 5] = [0.0, 20.0, 40.0, 60.0, 70.0];

/// Greatest lasting draw of a 100 lb cylinder: lb of propane in it, and Btu/h at each temperature. flameengineering.com, tank
/// vaporisation table (seen; the heading of the first column was lost in the text, 0 °F is inferred).
const TABLE: [(f64, [f64; 5]); 4] = [
    (10.0, [28_000.0, 38_000.0, 49_000.0, 60_000.0, 66_000.0]),
    (20.0, [36_000.0, 51_000.0, 68_000.0, 83_000.0, 92_000.0]),
    (50.0, [64_000.0, 94_000.0, 125_000.0, 154_000.0, 167_000.0]),
    (100.0, [113_000.0, 167_000.0, 214_000.0, 277_000.0, 300_000.0]),
];

/// Inside diameter of a 100 lb cylinder, in m: 14 1/2 in, from memory.
pub const HUNDRED_POUND_DIAMETER: f64 = 14.5 * 0.0254;

/// Between points, straight; none outside of them.
fn between(x: f64, points: impl Iterator<Item = (f64, f64)> + Clone) -> Option<f64> {
    let next = points.clone().skip(1);
    points.zip(next).find_map(|((x0, y0), (x1, y1))| {
        let slack = 1e-9 * x1.abs().max(1.0);
        let inside = x >= x0 - slack && x <= x1 + slack;
        inside.then(|| y0 + (x - x0) / (x1 - x0) * (y1 - y0))
    })
}

/// Greatest lasting draw of a 100 lb cylinder, in Btu/h, with `lb` pounds of propane in it at `fahrenheit`: straight between
/// the rows and columns of the published table.
///
/// ```
/// use pintle_calc::gas::hundred_pound_draw;
///
/// // Half way between 10 lb (38,000) and 20 lb (51,000).
/// assert!((hundred_pound_draw(15.0, 20.0).unwrap() - 44_500.0).abs() < 1e-6);
/// ```
///
/// # Errors
/// Less than 10 lb or more than 100 lb, colder than 0 °F or warmer than 70 °F: the table says nothing of it.
pub fn hundred_pound_draw(lb: f64, fahrenheit: f64) -> Known<f64> {
    let row =
        |(lb, draws): &(f64, [f64; 5])| Some((*lb, between(fahrenheit, FAHRENHEIT.into_iter().zip(*draws))?));
    let rows: Option<Vec<(f64, f64)>> = TABLE.iter().map(row).collect();
    rows.and_then(|rows| between(lb, rows.into_iter())).ok_or_else(|| {
        Missing::new(
            format!("the draw of a 100 lb cylinder with {lb:.0} lb in it at {fahrenheit:.0} °F"),
            None,
            "the published table goes from 10 to 100 lb and from 0 to 70 °F",
        )
    })
}

/// Surface that liquid wets in an upright round cylinder with a flat bottom, in m²: A = πd²/4 + 4m/(ρd), with `m` kg of propane
/// at `t` K in a cylinder `d` m wide (geometry).
///
/// # Errors
/// A temperature beyond the table of propane's properties.
pub fn wetted(m: f64, d: f64, t: f64) -> Known<f64> {
    Ok(PI * d * d / 4.0 + 4.0 * m / (liquid_density(t)? * d))
}

/// Greatest lasting draw of a smaller cylinder `d` m wide with `m` kg of propane in it at `t` K, in W: the heat that reaches each
/// square metre of wetted surface is taken from the full 100 lb cylinder, which has the least of the table.
///
/// Derived, not published: no table of smaller cylinders was found. It lies below the table at every fill of the 100 lb
/// cylinder itself.
///
/// ```
/// use pintle_calc::gas::small_draw;
///
/// // 20 lb at 40 °F in a cylinder 12 1/4 in wide: about 61,000 Btu/h (the same by hand, with the density of CoolProp).
/// let draw = small_draw(20.0 * 0.453_592_37, 12.25 * 0.0254, (40.0 + 459.67) / 1.8).unwrap();
/// assert!((draw / 0.293_071 / 61_025.0 - 1.0).abs() < 0.01);
/// ```
///
/// # Errors
/// Colder than 0 °F or warmer than 70 °F: the table says nothing of it.
pub fn small_draw(m: f64, d: f64, t: f64) -> Known<f64> {
    let full = hundred_pound_draw(100.0, t * 1.8 - 459.67)? * BTU_PER_HOUR;
    Ok(full * wetted(m, d, t)? / wetted(100.0 * POUND, HUNDRED_POUND_DIAMETER, t)?)
}

/// One Btu/h in W, International Table: 2326 J/kg per Btu/lb exactly (from memory).
pub(crate) const BTU_PER_HOUR: f64 = 2326.0 * POUND / 3600.0;

/// One pound in kg, exact by definition.
pub(crate) const POUND: f64 = 0.453_592_37;
