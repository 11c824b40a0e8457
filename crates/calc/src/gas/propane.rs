//! Propane at saturation: pressure over the liquid, weight of the liquid, heat to boil it, and how far it fills a cylinder.

use pintle_spec::{Known, Missing};

/// Standard atmosphere, in Pa: exact by definition (from memory; so in `scipy.constants`).
pub const ATMOSPHERE: f64 = 101_325.0;

/// Boiling point of propane at one atmosphere, in K: computed, `CoolProp` 8.0.0.
pub const PROPANE_BOILS: f64 = 231.036;

/// Boiling point of n-butane at one atmosphere, in K: computed, `CoolProp` 8.0.0.
pub const BUTANE_BOILS: f64 = 272.660;

/// Temperature at or below which liquid may not fill a cylinder, in K: 55 °C (131 °F), 49 CFR 173.304(b), read in a summary.
pub const NEVER_FULL_AT: f64 = 328.15;

/// Density of water at 60 °F, in kg/m³: computed, `CoolProp` 8.0.0. What a cylinder's water capacity is weighed with.
pub const WATER: f64 = 999.017;

/// Temperature at which "80 % full" holds, in K: 40 °F, to which a fixed dip tube is set (29 CFR 1910.110(b)(19)).
pub const DIP_TUBE: f64 = 277.594;

/// A row of the table: °C, kPa (absolute), kg/m³ of the liquid, kJ/kg to boil it.
struct Row(f64, f64, f64, f64);

/// Saturated propane, every 10 K: computed, `CoolProp` 8.0.0.
const TABLE: [Row; 13] = [
    Row(-50.0, 70.569, 589.897, 433.725),
    Row(-40.0, 111.121, 578.434, 423.355),
    Row(-30.0, 167.832, 566.639, 412.409),
    Row(-20.0, 244.518, 554.451, 400.769),
    Row(-10.0, 345.280, 541.798, 388.305),
    Row(0.0, 474.458, 528.594, 374.866),
    Row(10.0, 636.602, 514.727, 360.275),
    Row(20.0, 836.461, 500.057, 344.314),
    Row(30.0, 1078.995, 484.391, 326.704),
    Row(40.0, 1369.420, 467.461, 307.066),
    Row(50.0, 1713.304, 448.868, 284.859),
    Row(60.0, 2116.753, 427.973, 259.225),
    Row(70.0, 2586.762, 403.623, 228.620),
];

/// The two rows about a temperature in K.
fn rows(t: f64) -> Known<(&'static Row, &'static Row)> {
    let celsius = t - 273.15;
    let about = TABLE.windows(2).find_map(|pair| match pair {
        [low, high] if celsius >= low.0 - 1e-9 && celsius <= high.0 + 1e-9 => Some((low, high)),
        _ => None,
    });
    about.ok_or_else(|| {
        Missing::new(
            format!("properties of propane at {celsius:.0} °C"),
            None,
            "the table goes from -50 °C to 70 °C (-58 °F to 158 °F)",
        )
    })
}

/// Between two values at the temperatures of two rows, straight in T.
fn straight(t: f64, (low, high): (&Row, &Row), of: fn(&Row) -> f64) -> f64 {
    let share = (t - 273.15 - low.0) / (high.0 - low.0);
    of(low) + share * (of(high) - of(low))
}

/// Pressure of the vapour over liquid propane, absolute, in Pa, at `t` in K: between the rows log p is straight in 1/T
/// (Clausius and Clapeyron). Within 0.07 % of `CoolProp` 8.0.0; commercial propane may lie 20 % off pure propane.
///
/// ```
/// use pintle_calc::gas::vapour_pressure;
///
/// // CoolProp 8.0.0: 742.67 kPa at 60 °F.
/// let p = vapour_pressure((60.0 + 459.67) / 1.8).unwrap();
/// assert!((p / 742_670.0 - 1.0).abs() < 5e-4);
/// ```
///
/// # Errors
/// A temperature beyond the table, which goes from -50 to 70 °C.
pub fn vapour_pressure(t: f64) -> Known<f64> {
    let (low, high) = rows(t)?;
    let reciprocal = |celsius: f64| 1.0 / (celsius + 273.15);
    let share = (1.0 / t - reciprocal(low.0)) / (reciprocal(high.0) - reciprocal(low.0));
    Ok(1e3 * (low.1.ln() + share * (high.1 / low.1).ln()).exp())
}

/// The same above the pressure of the atmosphere, as a gauge shows it, in Pa.
///
/// # Errors
/// A temperature beyond the table.
pub fn gauge_pressure(t: f64) -> Known<f64> {
    Ok(vapour_pressure(t)? - ATMOSPHERE)
}

/// Density of saturated liquid propane in kg/m³, at `t` in K. Within 0.15 % of `CoolProp` 8.0.0.
///
/// ```
/// use pintle_calc::gas::liquid_density;
///
/// // CoolProp 8.0.0: 506.69 kg/m³ at 60 °F.
/// assert!((liquid_density((60.0 + 459.67) / 1.8).unwrap() / 506.69 - 1.0).abs() < 1.5e-3);
/// ```
///
/// # Errors
/// A temperature beyond the table.
pub fn liquid_density(t: f64) -> Known<f64> {
    Ok(straight(t, rows(t)?, |row| row.2))
}

/// Heat to boil propane, in J/kg, at `t` in K. Within 0.4 % of `CoolProp` 8.0.0.
///
/// # Errors
/// A temperature beyond the table.
pub fn latent_heat(t: f64) -> Known<f64> {
    Ok(straight(t, rows(t)?, |row| 1e3 * row.3))
}

/// Share of a cylinder's volume that the liquid takes up at `t` in K: s = (m/ρ(T)) / (W/ρw), with `m` the weight of the gas
/// and `w` the water capacity, both in kg. All of it is reckoned as liquid, which errs on the safe side.
///
/// A "20 lb" cylinder holds 20 lb at the legal fill of 42 % of its water capacity by weight. That is 80 % by volume only near
/// 40 °F.
///
/// ```
/// use pintle_calc::gas::liquid_share;
///
/// let at = |celsius: f64| liquid_share(0.42, 1.0, celsius + 273.15).unwrap();
/// assert!((at(0.0) - 0.794).abs() < 1e-3 && (at(50.0) - 0.935).abs() < 1e-3);
/// ```
///
/// # Errors
/// A temperature beyond the table.
pub fn liquid_share(m: f64, w: f64, t: f64) -> Known<f64> {
    Ok((m / liquid_density(t)?) / (w / WATER))
}

/// Filling density for a weight of the liquid against water at 60 °F: 41 % of the water capacity from 0.496, 42 % from 0.504, 43 % from
/// 0.511 to 0.519; above ground, up to 1,200 gal (WAC 296-307-41037, table U-4). None beyond: that is no commercial propane.
///
/// ```
/// use pintle_calc::gas::filling_density;
///
/// // The nominal 20 lb of a cylinder with 47.6 lb of water capacity is the legal fill itself.
/// assert!((filling_density(0.508).unwrap() * 47.6 - 19.99).abs() < 0.01);
/// ```
pub fn filling_density(s: f64) -> Option<f64> {
    let thousandths = (s * 1000.0).round();
    match thousandths {
        496.0..504.0 => Some(0.41),
        504.0..511.0 => Some(0.42),
        511.0..520.0 => Some(0.43),
        _ => None,
    }
}
