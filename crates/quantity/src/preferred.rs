//! Which unit, and which way of writing, a quantity is printed in.

use crate::dimension::Dimension;
use crate::quantity::{Finest, Quantity, Style, TAPE};
use crate::show::Units;
use crate::unit::{System, Unit};
use crate::vocabulary::{FOOT, INCH};

/// From this length on, a length without an author's unit is printed in feet and inches.
const FEET_FROM: f64 = 24.0 * 0.0254;

/// The author's unit and style where they suit; else the unit the other system uses in its place;
/// else the usual one for such a quantity. `None` where the vocabulary has no unit for it.
pub(crate) fn layout(quantity: Quantity, units: Units) -> Option<(&'static Unit, Style)> {
    let asked = match units {
        Units::AsWritten => None,
        Units::Us => Some(System::Us),
        Units::Metric => Some(System::Metric),
    };
    let size = quantity.si.abs();
    let name = match (quantity.unit, asked) {
        (Some(unit), None) => return Some((unit, quantity.style)),
        (Some(unit), Some(system)) if unit.system() == system || unit.system() == System::Both => {
            return Some((unit, quantity.style));
        }
        (Some(unit), Some(system)) => {
            counterpart(unit.name(), size).or_else(|| usual(quantity.dimension, size, system))
        }
        (None, _) => usual(quantity.dimension, size, asked.unwrap_or(System::Us)),
    };
    match name {
        Some("ft in") if size >= FEET_FROM => {
            let last = &INCH;
            Some((&FOOT, Style::Parts { middle: None, last, finest: Finest::Fraction { below: TAPE } }))
        }
        Some("ft in") => Some((&INCH, Style::Fraction { below: TAPE })),
        Some(name) => Unit::find(name).map(|unit| (unit, Style::PLAIN)),
        None => None,
    }
}

/// The unit the other system has in this one's place. `ft in` stands for a tape measure.
fn counterpart(name: &str, size: f64) -> Option<&'static str> {
    Some(match name {
        "in" | "ft" => "mm",
        "yd" => "m",
        "mi" => "km",
        "in²" => "cm²",
        "ft²" => "m²",
        "cmil" | "kcmil" | "AWG" => "mm²",
        "in³" => "cm³",
        "ft³" => "m³",
        "gal" | "qt" | "pt" => "L",
        "fl oz" => "mL",
        "lb" | "ton" => "kg",
        "oz" => "g",
        "lb/ft²" => "kg/m²",
        "oz/yd²" => "g/m²",
        "lb/ft" => "kg/m",
        "lb/h" => "kg/h",
        "lb/gal" => "kg/L",
        "lb/ft³" => "kg/m³",
        "lbf" => "N",
        "lbf/in" => "N/mm",
        "lb·in" | "lb·ft" => "kg·m",
        "in⁴" => "cm⁴",
        "cm⁴" => "in⁴",
        "lb·ft²" => "kg·m²",
        "lbf/°" => "N/rad",
        "lbf·ft" | "lbf·in" => "N·m",
        "psi" | "psf" | "inH2O" => "kPa",
        "Btu" if size < 1e6 => "kJ",
        "Btu" => "MJ",
        "Btu/lb" => "MJ/kg",
        "Btu/h" | "hp" if size < 1e3 => "W",
        "Btu/h" | "hp" => "kW",
        "mΩ/ft" => "mΩ/m",
        "mph" => "km/h",
        "ft/s" | "fpm" => "m/s",
        "ft/s²" => "m/s²",
        "cfm" => "m³/h",
        "gpm" => "L/min",
        "gal/h" => "L/h",
        "°F" => "°C",
        "mm" | "cm" | "m" => "ft in",
        "km" => "mi",
        "mm²" | "cm²" => "in²",
        "m²" => "ft²",
        "mL" => "fl oz",
        "cm³" => "in³",
        "L" => "gal",
        "m³" => "ft³",
        "g" => "oz",
        "kg" | "t" => "lb",
        "kg/m²" => "lb/ft²",
        "g/m²" => "oz/yd²",
        "kg/m" => "lb/ft",
        "kg/h" => "lb/h",
        "kg/L" => "lb/gal",
        "kg/m³" => "lb/ft³",
        "N" | "kN" => "lbf",
        "N/mm" => "lbf/in",
        "kg·m" => "lb·in",
        "kg·m²" => "lb·ft²",
        "N/rad" => "lbf/°",
        "N·m" => "lbf·ft",
        "Pa" | "mbar" => "inH2O",
        "kPa" | "MPa" | "bar" | "mmHg" => "psi",
        "J" | "kJ" | "MJ" => "Btu",
        "MJ/kg" => "Btu/lb",
        "mΩ/m" => "mΩ/ft",
        "km/h" | "m/s" => "mph",
        "m/s²" => "ft/s²",
        "L/s" | "m³/h" => "cfm",
        "L/min" => "gpm",
        "L/h" => "gal/h",
        "°C" => "°F",
        _ => return None,
    })
}

/// The unit a shop would use for such a quantity of such a size.
fn usual(dimension: Dimension, size: f64, system: System) -> Option<&'static str> {
    let suits = |row: &&(Dimension, f64, &str, &str)| row.0 == dimension && size <= row.1;
    let us = system != System::Metric;
    match USUAL.iter().find(suits) {
        Some((_, _, ours, theirs)) => Some(if us { ours } else { theirs }),
        None => first_of(dimension, us),
    }
}

const ANY: f64 = f64::INFINITY;

/// Dimension, the largest size in SI, and the unit used up to it: US, metric.
#[rustfmt::skip]
static USUAL: &[(Dimension, f64, &str, &str)] = &[
    (Dimension::NONE, ANY, "%", "%"),
    (Dimension::LENGTH, 10.0, "ft in", "mm"),
    (Dimension::LENGTH, ANY, "ft in", "m"),
    (Dimension::AREA, 1e-4, "in²", "mm²"),
    (Dimension::AREA, 1.0, "in²", "cm²"),
    (Dimension::AREA, ANY, "ft²", "m²"),
    (Dimension::VOLUME, 0.4, "gal", "L"),
    (Dimension::VOLUME, 1.0, "ft³", "L"),
    (Dimension::VOLUME, ANY, "ft³", "m³"),
    (Dimension::MASS, ANY, "lb", "kg"),
    (Dimension::TIME, 120.0, "s", "s"),
    (Dimension::TIME, 7200.0, "min", "min"),
    (Dimension::TIME, ANY, "h", "h"),
    (Dimension::CURRENT, 0.1, "mA", "mA"),
    (Dimension::CURRENT, ANY, "A", "A"),
    (Dimension::CHARGE, ANY, "Ah", "Ah"),
    (Dimension::VOLTAGE, ANY, "V", "V"),
    (Dimension::RESISTANCE, 1.0, "mΩ", "mΩ"),
    (Dimension::RESISTANCE, ANY, "Ω", "Ω"),
    (Dimension::TEMPERATURE, ANY, "°F", "°C"),
    (Dimension::ANGLE, ANY, "°", "°"),
    (Dimension::MONEY, ANY, "$", "$"),
    (Dimension::FORCE, 1e4, "lbf", "N"),
    (Dimension::FORCE, ANY, "lbf", "kN"),
    (Dimension::ENERGY, 3.6e7, "Wh", "Wh"),
    (Dimension::ENERGY, ANY, "kWh", "kWh"),
    (Dimension::POWER, 1e4, "W", "W"),
    (Dimension::POWER, ANY, "kW", "kW"),
    (Dimension::PRESSURE, 6894.0, "inH2O", "kPa"),
    (Dimension::PRESSURE, ANY, "psi", "kPa"),
    (Dimension::SPEED, ANY, "mph", "km/h"),
    (Dimension::ACCELERATION, ANY, "ft/s²", "m/s²"),
    (Dimension::FLOW, ANY, "cfm", "m³/h"),
    (Dimension::DENSITY, ANY, "lb/ft³", "kg/m³"),
    (Dimension::MOMENT, ANY, "lb·in", "kg·m"),
    (Dimension::FREQUENCY, 0.1, "/h", "/h"),
    (Dimension::FREQUENCY, ANY, "Hz", "Hz"),
];

/// The first unit of the vocabulary for the remaining dimensions, such as mass per area.
fn first_of(dimension: Dimension, us: bool) -> Option<&'static str> {
    let suits = |unit: &&Unit| unit.dimension() == dimension && (unit.system() != System::Metric) == us;
    Unit::all().iter().find(suits).map(Unit::name)
}
