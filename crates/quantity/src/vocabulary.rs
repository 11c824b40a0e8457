//! The fixed vocabulary of units: one row a unit, with its spellings and where its factor comes from.
//!
//! Ambiguities are decided here, once. `lb` and `oz` are masses, `lbf` a force. `lb·ft` and `lb-ft`
//! are the moment of a weight, `ft-lb` and `lbf·ft` a torque. `g` is a gram. `ton` is the short ton,
//! `t` the metric one. `gal` and `qt` are US liquid measure. `'` and `"` are feet and inches.

use crate::dimension::Dimension;
use crate::unit::Kind::{Affine, Linear, WireGauge};
use crate::unit::System::{Both, Metric, Us};
use crate::unit::{Kind, System, Unit};

// Exact by definition (NIST SP 811 Appendix B, from memory); the same numbers come out of `pint`
// and of the constants of `scipy`: see tests/oracles/quantity_pint.py.
const IN: f64 = 0.0254; // 1 in = 25.4 mm
const FT: f64 = 12.0 * IN;
const YD: f64 = 3.0 * FT;
const MI: f64 = 5280.0 * FT;
const LB: f64 = 0.453_592_37; // 1 lb = 0.453 592 37 kg
const OZ: f64 = LB / 16.0;
const GAL: f64 = 231.0 * IN * IN * IN; // 1 gal = 231 in³
const G0: f64 = 9.806_65; // standard gravity, m/s²
const LBF: f64 = LB * G0;
const PSI: f64 = LBF / (IN * IN);
const MIN: f64 = 60.0;
const H: f64 = 3600.0;
const DEGREE: f64 = std::f64::consts::PI / 180.0;

// International Table Btu: 2326 J/kg per Btu/lb exactly (from memory). It gives the 1055.05585262 J
// of `scipy`; NIST SP 811 rounds it to 1.055 056 E+03 (seen in a reprint), and so does `pint`.
const BTU: f64 = 2326.0 * LB;

// Conventional columns at standard gravity: water of 1000 kg/m³, so 249.08891 Pa (`pint`);
// mercury of 13 595.1 kg/m³, so 133.322387415 Pa (`pint`).
const INCH_OF_WATER: f64 = 1000.0 * G0 * IN;
const MM_OF_MERCURY: f64 = 13_595.1 * G0 * 1e-3;

// Mechanical horsepower: 550 ft·lbf/s, exact by definition (from memory; 745.69987 W by `pint`).
const HP: f64 = 550.0 * FT * LBF;

// Circular mil: a circle of 1/1000 in; 1 cmil = 5.067075e-4 mm² (`pint`).
const CMIL: f64 = std::f64::consts::PI / 4.0 * (IN / 1000.0) * (IN / 1000.0);

const MASS_FLOW: Dimension = Dimension::MASS.over(Dimension::TIME);
const MASS_PER_AREA: Dimension = Dimension::MASS.over(Dimension::AREA);
const MASS_PER_LENGTH: Dimension = Dimension::MASS.over(Dimension::LENGTH);
const SPRING_RATE: Dimension = Dimension::FORCE.over(Dimension::LENGTH);
const OHMS_PER_LENGTH: Dimension = Dimension::RESISTANCE.over(Dimension::LENGTH);
const ENERGY_PER_MASS: Dimension = Dimension::ENERGY.over(Dimension::MASS);
/// Second moment of an area about a line.
const AREA_MOMENT: Dimension = Dimension::AREA.times(Dimension::AREA);
const INERTIA: Dimension = Dimension::MOMENT.times(Dimension::LENGTH);
const FORCE_PER_ANGLE: Dimension = Dimension::FORCE.over(Dimension::ANGLE);
const PER_ANGLE: Dimension = Dimension::NONE.over(Dimension::ANGLE);

/// A row: name, (spellings in which case counts, spellings in any case), dimension, kind, system.
const fn unit(
    name: &'static str,
    (symbols, words): (&'static [&'static str], &'static [&'static str]),
    dimension: Dimension,
    kind: Kind,
    system: System,
) -> Unit {
    Unit { name, symbols, words, dimension, kind, system }
}

#[rustfmt::skip]
pub(crate) const INCH: Unit = unit("in", (&["\"", "″", "”", "''", "’’", "′′"], &["inch", "inches"]), Dimension::LENGTH, Linear(IN), Us);
#[rustfmt::skip]
pub(crate) const FOOT: Unit = unit("ft", (&["'", "′", "’"], &["foot", "feet"]), Dimension::LENGTH, Linear(FT), Us);
#[rustfmt::skip]
pub(crate) const METRE: Unit = unit("m", (&[], &["metre", "metres", "meter", "meters"]), Dimension::LENGTH, Linear(1.0), Metric);
#[rustfmt::skip]
pub(crate) const SQUARE_MILLIMETRE: Unit = unit("mm²", (&["sq mm", "mmq"], &["square millimetres", "square millimeters"]), Dimension::AREA, Linear(1e-6), Metric);
#[rustfmt::skip]
pub(crate) const GALLON: Unit = unit("gal", (&[], &["gallon", "gallons"]), Dimension::VOLUME, Linear(GAL), Us);
#[rustfmt::skip]
pub(crate) const POUND: Unit = unit("lb", (&["#"], &["lbs", "pound", "pounds"]), Dimension::MASS, Linear(LB), Us);
#[rustfmt::skip]
pub(crate) const KILOGRAM: Unit = unit("kg", (&["Kg", "KG"], &["kilogram", "kilograms", "kilo", "kilos"]), Dimension::MASS, Linear(1.0), Metric);
#[rustfmt::skip]
pub(crate) const KELVIN: Unit = unit("K", (&[], &["kelvin", "kelvins"]), Dimension::TEMPERATURE, Linear(1.0), Both);
#[rustfmt::skip]
pub(crate) const PERCENT: Unit = unit("%", (&[], &["percent", "/cent", "pct"]), Dimension::NONE, Linear(0.01), Both);

/// A plain number, which is shown without a unit. It is no part of the vocabulary: a spec that leaves a unit out is refused.
#[rustfmt::skip]
pub(crate) static NUMBER: Unit = unit("", (&[], &[]), Dimension::NONE, Linear(1.0), Both);

#[rustfmt::skip]
pub(crate) static VOCABULARY: &[Unit] = &[
    // Length. Exact: 1 in = 25.4 mm, 12 in a foot, 3 ft a yard, 5280 ft a mile.
    INCH,
    FOOT,
    unit("yd", (&[], &["yard", "yards"]), Dimension::LENGTH, Linear(YD), Us),
    unit("mi", (&[], &["mile", "miles"]), Dimension::LENGTH, Linear(MI), Us),
    unit("mm", (&["MM"], &["millimetre", "millimetres", "millimeter", "millimeters"]), Dimension::LENGTH, Linear(1e-3), Metric),
    unit("cm", (&["CM"], &["centimetre", "centimetres", "centimeter", "centimeters"]), Dimension::LENGTH, Linear(1e-2), Metric),
    METRE,
    unit("km", (&[], &["kilometre", "kilometres", "kilometer", "kilometers"]), Dimension::LENGTH, Linear(1e3), Metric),
    // Area.
    unit("in²", (&[], &["sq in", "square inch", "square inches", "sq inch", "sq inches", "sq ins"]), Dimension::AREA, Linear(IN * IN), Us),
    unit("ft²", (&[], &["sq ft", "square foot", "square feet", "sq feet", "sq foot", "sqft"]), Dimension::AREA, Linear(FT * FT), Us),
    SQUARE_MILLIMETRE,
    unit("cm²", (&["sq cm"], &["square centimetres", "square centimeters"]), Dimension::AREA, Linear(1e-4), Metric),
    unit("m²", (&["sq m"], &["square metre", "square metres", "square meter", "square meters"]), Dimension::AREA, Linear(1.0), Metric),
    unit("cmil", (&[], &["circular mil", "circular mils"]), Dimension::AREA, Linear(CMIL), Us),
    unit("kcmil", (&[], &["MCM"]), Dimension::AREA, Linear(1000.0 * CMIL), Us),
    unit("AWG", (&[], &["ga", "gauge"]), Dimension::AREA, WireGauge, Us),
    // Volume. Exact: 1 gal = 231 in³; 4 qt, 8 pt and 128 fl oz in a gallon.
    unit("in³", (&[], &["cu in", "cubic inch", "cubic inches"]), Dimension::VOLUME, Linear(IN * IN * IN), Us),
    unit("ft³", (&[], &["cu ft", "cubic foot", "cubic feet", "cuft"]), Dimension::VOLUME, Linear(FT * FT * FT), Us),
    GALLON,
    unit("qt", (&[], &["qts", "quart", "quarts"]), Dimension::VOLUME, Linear(GAL / 4.0), Us),
    unit("pt", (&[], &["pint", "pints"]), Dimension::VOLUME, Linear(GAL / 8.0), Us),
    unit("fl oz", (&[], &["fluid ounce", "fluid ounces", "fl·oz"]), Dimension::VOLUME, Linear(GAL / 128.0), Us),
    unit("mL", (&["ml", "ML"], &["millilitre", "millilitres", "milliliter", "milliliters"]), Dimension::VOLUME, Linear(1e-6), Metric),
    unit("cm³", (&["cc", "cu cm"], &["cubic centimetres", "cubic centimeters"]), Dimension::VOLUME, Linear(1e-6), Metric),
    unit("L", (&["l"], &["litre", "litres", "liter", "liters", "ltr"]), Dimension::VOLUME, Linear(1e-3), Metric),
    unit("m³", (&["cu m"], &["cubic metre", "cubic metres", "cubic meter", "cubic meters"]), Dimension::VOLUME, Linear(1.0), Metric),
    // Mass. Exact: 1 lb = 0.453 592 37 kg, 16 oz a pound, 2000 lb a short ton.
    POUND,
    unit("oz", (&[], &["ounce", "ounces"]), Dimension::MASS, Linear(OZ), Us),
    unit("ton", (&[], &["tons", "short ton", "short tons"]), Dimension::MASS, Linear(2000.0 * LB), Us),
    unit("g", (&[], &["gram", "grams", "gramme", "grammes"]), Dimension::MASS, Linear(1e-3), Metric),
    KILOGRAM,
    unit("t", (&[], &["tonne", "tonnes", "metric ton", "metric tons"]), Dimension::MASS, Linear(1e3), Metric),
    // Weight spread over an area, along a length, or per time.
    unit("lb/ft²", (&[], &["lbs/ft²", "lb/sq ft", "lbs/sq ft"]), MASS_PER_AREA, Linear(LB / (FT * FT)), Us),
    unit("oz/yd²", (&[], &["oz/sq yd"]), MASS_PER_AREA, Linear(OZ / (YD * YD)), Us),
    unit("kg/m²", (&[], &[]), MASS_PER_AREA, Linear(1.0), Metric),
    unit("g/m²", (&["gsm"], &[]), MASS_PER_AREA, Linear(1e-3), Metric),
    unit("lb/ft", (&[], &["lbs/ft"]), MASS_PER_LENGTH, Linear(LB / FT), Us),
    unit("kg/m", (&[], &[]), MASS_PER_LENGTH, Linear(1.0), Metric),
    unit("lb/h", (&[], &["lb/hr", "lbs/h", "lbs/hr"]), MASS_FLOW, Linear(LB / H), Us),
    unit("kg/h", (&["kg/hr"], &[]), MASS_FLOW, Linear(1.0 / H), Metric),
    // Density.
    unit("lb/gal", (&[], &["lbs/gal"]), Dimension::DENSITY, Linear(LB / GAL), Us),
    unit("lb/ft³", (&[], &["lbs/ft³", "lb/cu ft", "lbs/cu ft", "pcf"]), Dimension::DENSITY, Linear(LB / (FT * FT * FT)), Us),
    unit("kg/L", (&["kg/l"], &[]), Dimension::DENSITY, Linear(1e3), Metric),
    unit("kg/m³", (&[], &[]), Dimension::DENSITY, Linear(1.0), Metric),
    // Force, and force along a length. 1 lbf = 1 lb at standard gravity.
    unit("lbf", (&[], &["pound·force", "pounds·force", "lb·force"]), Dimension::FORCE, Linear(LBF), Us),
    unit("N", (&[], &["newton", "newtons"]), Dimension::FORCE, Linear(1.0), Metric),
    unit("kN", (&["KN"], &["kilonewton", "kilonewtons"]), Dimension::FORCE, Linear(1e3), Metric),
    unit("lbf/in", (&[], &["lbf/inch"]), SPRING_RATE, Linear(LBF / IN), Us),
    unit("N/mm", (&[], &[]), SPRING_RATE, Linear(1e3), Metric),
    // Moment of a weight (mass x length), and torque (force x length).
    unit("lb·in", (&[], &["lbs·in", "in·lb", "inch·lb", "inch·pounds", "pound·inches", "pound·inch"]), Dimension::MOMENT, Linear(LB * IN), Us),
    unit("lb·ft", (&[], &["lbs·ft", "pound·feet", "pound·foot"]), Dimension::MOMENT, Linear(LB * FT), Us),
    unit("kg·m", (&[], &[]), Dimension::MOMENT, Linear(1.0), Metric),
    unit("in⁴", (&["in^4"], &[]), AREA_MOMENT, Linear(IN * IN * IN * IN), Us),
    unit("cm⁴", (&["cm^4"], &[]), AREA_MOMENT, Linear(1e-8), Metric),
    unit("lb·ft²", (&[], &["lbs·ft²"]), INERTIA, Linear(LB * FT * FT), Us),
    unit("kg·m²", (&[], &[]), INERTIA, Linear(1.0), Metric),
    unit("lbf/°", (&["lbf/deg"], &["lbf/degree"]), FORCE_PER_ANGLE, Linear(LBF / DEGREE), Us),
    unit("N/rad", (&[], &["newtons/radian"]), FORCE_PER_ANGLE, Linear(1.0), Metric),
    unit("/°", (&["/deg"], &["/degree"]), PER_ANGLE, Linear(1.0 / DEGREE), Both),
    unit("/rad", (&[], &["/radian"]), PER_ANGLE, Linear(1.0), Both),
    unit("lbf·ft", (&[], &["ft·lbf", "ft·lb", "ft·lbs", "ft lb", "ft lbs", "foot·pounds", "foot pounds", "foot·pound"]), Dimension::ENERGY, Linear(LBF * FT), Us),
    unit("lbf·in", (&[], &["in·lbf"]), Dimension::ENERGY, Linear(LBF * IN), Us),
    unit("N·m", (&["Nm"], &["newton·metres", "newton·meters", "newton metres", "newton meters"]), Dimension::ENERGY, Linear(1.0), Metric),
    // Pressure.
    unit("psi", (&[], &["lbf/in²", "pounds/square inch"]), Dimension::PRESSURE, Linear(PSI), Us),
    unit("psf", (&[], &["lbf/ft²"]), Dimension::PRESSURE, Linear(LBF / (FT * FT)), Us),
    unit("inH2O", (&["in H2O", "inH₂O", "in WC", "in w c ", "inWC", "inwc", "in wc", "in w c", "\" WC", "\" w c", "\"wc", "\"WC"], &["inches of water", "inch of water", "inch water column", "inches water column"]), Dimension::PRESSURE, Linear(INCH_OF_WATER), Us),
    unit("Pa", (&[], &["pascal", "pascals"]), Dimension::PRESSURE, Linear(1.0), Metric),
    unit("kPa", (&["KPa", "kpa", "KPA"], &["kilopascal", "kilopascals"]), Dimension::PRESSURE, Linear(1e3), Metric),
    unit("MPa", (&[], &["megapascal", "megapascals"]), Dimension::PRESSURE, Linear(1e6), Metric),
    unit("bar", (&[], &["bars"]), Dimension::PRESSURE, Linear(1e5), Metric),
    unit("mbar", (&[], &["millibar", "millibars"]), Dimension::PRESSURE, Linear(1e2), Metric),
    unit("mmHg", (&["mm Hg"], &[]), Dimension::PRESSURE, Linear(MM_OF_MERCURY), Metric),
    // Energy and power.
    unit("Wh", (&[], &["watt·hour", "watt·hours", "watt hour", "watt hours"]), Dimension::ENERGY, Linear(H), Both),
    unit("kWh", (&["KWh", "KWH", "kwh"], &["kilowatt·hour", "kilowatt·hours", "kilowatt hours"]), Dimension::ENERGY, Linear(1e3 * H), Both),
    unit("J", (&[], &["joule", "joules"]), Dimension::ENERGY, Linear(1.0), Metric),
    unit("kJ", (&["KJ"], &["kilojoule", "kilojoules"]), Dimension::ENERGY, Linear(1e3), Metric),
    unit("MJ", (&[], &["megajoule", "megajoules"]), Dimension::ENERGY, Linear(1e6), Metric),
    unit("Btu", (&[], &["btus"]), Dimension::ENERGY, Linear(BTU), Us),
    unit("Btu/lb", (&[], &[]), ENERGY_PER_MASS, Linear(BTU / LB), Us),
    unit("MJ/kg", (&[], &[]), ENERGY_PER_MASS, Linear(1e6), Metric),
    unit("W", (&["w"], &["watt", "watts"]), Dimension::POWER, Linear(1.0), Both),
    unit("kW", (&["KW", "kw"], &["kilowatt", "kilowatts"]), Dimension::POWER, Linear(1e3), Both),
    unit("Btu/h", (&[], &["btu/hr", "btuh", "btu/hour"]), Dimension::POWER, Linear(BTU / H), Us),
    unit("hp", (&[], &["horsepower"]), Dimension::POWER, Linear(HP), Us),
    // Electric.
    unit("mA", (&[], &["milliamp", "milliamps", "milliampere", "milliamperes"]), Dimension::CURRENT, Linear(1e-3), Both),
    unit("A", (&[], &["amp", "amps", "ampere", "amperes"]), Dimension::CURRENT, Linear(1.0), Both),
    unit("mAh", (&["MAH", "mah"], &["milliamp·hours", "milliamp hours"]), Dimension::CHARGE, Linear(1e-3 * H), Both),
    unit("Ah", (&["AH", "ah"], &["amp·hour", "amp·hours", "amp hour", "amp hours"]), Dimension::CHARGE, Linear(H), Both),
    unit("mV", (&[], &["millivolt", "millivolts"]), Dimension::VOLTAGE, Linear(1e-3), Both),
    unit("V", (&["v"], &["volt", "volts", "Vdc", "Vac"]), Dimension::VOLTAGE, Linear(1.0), Both),
    unit("kV", (&[], &["kilovolt", "kilovolts"]), Dimension::VOLTAGE, Linear(1e3), Both),
    unit("mΩ", (&["mohm"], &["milliohm", "milliohms"]), Dimension::RESISTANCE, Linear(1e-3), Both),
    unit("Ω", (&[], &["ohm", "ohms"]), Dimension::RESISTANCE, Linear(1.0), Both),
    unit("kΩ", (&["kohm"], &["kilohm", "kilohms"]), Dimension::RESISTANCE, Linear(1e3), Both),
    unit("mΩ/ft", (&["mohm/ft", "Ω/kft", "ohm/kft"], &["ohms/kft"]), OHMS_PER_LENGTH, Linear(1e-3 / FT), Us),
    unit("mΩ/m", (&["mohm/m", "Ω/km", "ohm/km"], &[]), OHMS_PER_LENGTH, Linear(1e-3), Metric),
    // Time, rate, speed, acceleration.
    unit("s", (&[], &["sec", "secs", "second", "seconds"]), Dimension::TIME, Linear(1.0), Both),
    unit("min", (&[], &["mins", "minute", "minutes"]), Dimension::TIME, Linear(MIN), Both),
    unit("h", (&[], &["hr", "hrs", "hour", "hours"]), Dimension::TIME, Linear(H), Both),
    unit("d", (&[], &["day", "days"]), Dimension::TIME, Linear(24.0 * H), Both),
    unit("wk", (&[], &["week", "weeks"]), Dimension::TIME, Linear(168.0 * H), Both),
    unit("Hz", (&["hz"], &["hertz"]), Dimension::FREQUENCY, Linear(1.0), Both),
    unit("/h", (&["/hr", "/hour"], &["ach"]), Dimension::FREQUENCY, Linear(1.0 / H), Both),
    unit("mph", (&[], &["mi/h", "miles/hour", "mi/hr"]), Dimension::SPEED, Linear(MI / H), Us),
    unit("ft/s", (&[], &["ft/sec", "fps"]), Dimension::SPEED, Linear(FT), Us),
    unit("fpm", (&[], &["ft/min"]), Dimension::SPEED, Linear(FT / MIN), Us),
    unit("km/h", (&["km/hr", "kph", "KPH"], &[]), Dimension::SPEED, Linear(1e3 / H), Metric),
    unit("m/s", (&[], &[]), Dimension::SPEED, Linear(1.0), Metric),
    unit("m/s²", (&[], &[]), Dimension::ACCELERATION, Linear(1.0), Metric),
    unit("ft/s²", (&[], &[]), Dimension::ACCELERATION, Linear(FT), Us),
    // Volume flow.
    unit("cfm", (&[], &["ft³/min", "cu ft/min"]), Dimension::FLOW, Linear(FT * FT * FT / MIN), Us),
    unit("gpm", (&[], &["gal/min"]), Dimension::FLOW, Linear(GAL / MIN), Us),
    unit("gal/h", (&[], &["gph", "gal/hr"]), Dimension::FLOW, Linear(GAL / H), Us),
    unit("L/s", (&["l/s"], &[]), Dimension::FLOW, Linear(1e-3), Metric),
    unit("L/min", (&["l/min", "lpm", "LPM"], &[]), Dimension::FLOW, Linear(1e-3 / MIN), Metric),
    unit("L/h", (&["l/h", "l/hr", "L/hr", "lph", "LPH"], &[]), Dimension::FLOW, Linear(1e-3 / H), Metric),
    unit("m³/h", (&["m³/hr"], &[]), Dimension::FLOW, Linear(1.0 / H), Metric),
    // Temperature. °F = °C · 9/5 + 32 and 0 °C = 273.15 K, exact by definition (from memory).
    unit("°F", (&["degF"], &["deg F", "degrees F", "degrees Fahrenheit", "fahrenheit"]), Dimension::TEMPERATURE, Affine { factor: 5.0 / 9.0, offset: 459.67 }, Us),
    unit("°C", (&["degC"], &["deg C", "degrees C", "degrees Celsius", "celsius"]), Dimension::TEMPERATURE, Affine { factor: 1.0, offset: 273.15 }, Metric),
    KELVIN,
    // Angle, share, money. Exact.
    unit("°", (&[], &["deg", "degree", "degrees"]), Dimension::ANGLE, Linear(DEGREE), Both),
    unit("rad", (&[], &["radian", "radians"]), Dimension::ANGLE, Linear(1.0), Both),
    PERCENT,
    unit("ppm", (&[], &["parts/million"]), Dimension::NONE, Linear(1e-6), Both),
    unit("$", (&[], &["dollar", "dollars", "USD"]), Dimension::MONEY, Linear(1.0), Both),
];
