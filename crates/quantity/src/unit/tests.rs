//! Conversion factors against published figures, and the vocabulary against itself.

use std::collections::BTreeMap;

use super::*;

/// One unit in SI, where the figure is from, and how closely it must agree (relative).
///
/// "exact" is exact by definition (NIST SP 811 Appendix B, from memory); `pint` and `scipy` are the
/// figures those libraries gave (pint 0.25.3, scipy 1.17.1), to the digits recorded.
const FIGURES: &[(&str, f64, &str, f64)] = &[
    ("in", 0.0254, "exact", 1e-15),
    ("ft", 0.3048, "exact", 1e-15),
    ("yd", 0.9144, "exact", 1e-15),
    ("mi", 1609.344, "exact", 1e-15),
    ("in²", 6.4516e-4, "exact", 1e-15),
    ("ft²", 9.290_304e-2, "exact", 1e-15),
    // ISO 80000-3: the second moment of a square of one inch is 1/12 in⁴; 0.0254⁴ m⁴.
    ("in⁴", 4.162_314_256e-7, "exact", 1e-15),
    ("cmil", 5.067_075e-10, "pint", 1e-7),
    ("in³", 1.638_706_4e-5, "exact", 1e-15),
    ("gal", 3.785_411_784e-3, "pint and scipy", 1e-15),
    ("qt", 9.463_529_46e-4, "exact", 1e-15),
    ("fl oz", 2.957_352_956_25e-5, "exact", 1e-15),
    ("lb", 0.453_592_37, "pint", 1e-15),
    ("oz", 0.028_349_523_125, "exact", 1e-15),
    ("ton", 907.184_74, "exact", 1e-15),
    ("t", 1000.0, "exact", 1e-15),
    ("lb/gal", 119.826_427, "pint", 1e-8),
    ("lbf", 4.448_221_615_260_5, "pint and scipy", 1e-15),
    ("lbf·ft", 1.355_817_948_331_400_6, "pint", 1e-14),
    ("psi", 6_894.757_293_168_4, "pint", 1e-14),
    ("inH2O", 249.088_91, "pint", 1e-14),
    ("mmHg", 133.322_387_415, "pint", 1e-14),
    ("bar", 1e5, "exact", 1e-15),
    ("Btu", 1_055.055_852_62, "scipy", 1e-14),
    ("Btu", 1055.056, "NIST SP 811, in a reprint; rounded to seven digits", 5e-7),
    ("Wh", 3600.0, "exact", 1e-15),
    ("kWh", 3.6e6, "exact", 1e-15),
    ("Btu/h", 1_055.055_852_62 / 3600.0, "scipy", 1e-14),
    ("hp", 745.699_871_582_270_1, "pint", 1e-14),
    ("Ah", 3600.0, "exact", 1e-15),
    ("mph", 0.447_04, "scipy", 1e-15),
    ("km/h", 1.0 / 3.6, "exact", 1e-15),
    ("gpm", 6.309_019_64e-5, "pint", 1e-14),
    ("°", 0.017_453_292_519_943_295, "exact", 1e-15),
    ("%", 0.01, "exact", 1e-15),
    ("ppm", 1e-6, "exact", 1e-15),
];

#[test]
fn factors_agree_with_their_sources() {
    for &(name, si, source, close) in FIGURES {
        let unit = Unit::find(name).unwrap();
        let off = (unit.to_si(1.0) / si - 1.0).abs();
        assert!(off <= close, "{name}: {} is not the {si} of {source} (off by {off:e})", unit.to_si(1.0));
    }
}

/// Fixed points of the scales of temperature, exact by definition (from memory).
#[test]
fn temperatures_agree_at_their_fixed_points() {
    let kelvin = |name: &str, degrees| Unit::find(name).unwrap().to_si(degrees);
    for (name, degrees, expected) in [
        ("°F", 32.0, 273.15),
        ("°F", 212.0, 373.15),
        ("°F", -40.0, 233.15),
        ("°F", -459.67, 0.0),
        ("°C", 0.0, 273.15),
        ("°C", -40.0, 233.15),
        ("K", 1.0, 1.0),
    ] {
        assert!((kelvin(name, degrees) - expected).abs() < 1e-10, "{degrees} {name}");
    }
}

/// Diameters in inches and areas in mm²: the figures of a public gauge table and of `fluids` 1.3.1,
/// to the digits they give. 4/0 is 0.46 in by definition of the gauge.
#[test]
fn wire_gauge_agrees_with_tables() {
    let gauge = Unit::find("AWG").unwrap();
    for (number, inches, close) in [
        (36.0, 0.005, 1e-12),
        (-3.0, 0.46, 1e-12),
        (10.0, 0.1019, 5e-5),
        (12.0, 0.0808, 5e-5),
        (18.0, 0.0403, 5e-5),
    ] {
        let diameter = (gauge.to_si(number) * 4.0 / PI).sqrt() / 0.0254;
        assert!((diameter - inches).abs() < close, "{number} AWG: {diameter} in");
    }
    let area = gauge.to_si(10.0);
    assert!((area * 1e6 - 5.261).abs() < 5e-4);
    assert!((area / Unit::find("cmil").unwrap().to_si(10_383.0) - 1.0).abs() < 1e-4);
    assert!((Unit::find("kcmil").unwrap().from_si(gauge.to_si(-3.0)) - 211.6).abs() < 1e-9);
}

#[test]
fn every_unit_comes_back_from_si() {
    for unit in Unit::all() {
        for value in [-3.0, 0.0, 0.25, 1.0, 7.0, 36.0] {
            let back = unit.from_si(unit.to_si(value));
            assert!((back - value).abs() < 1e-9, "{value} {} came back as {back}", unit.name());
        }
    }
}

#[test]
fn no_spelling_means_two_units() {
    let mut owners: BTreeMap<String, &str> = BTreeMap::new();
    let mut symbols: BTreeMap<&str, &str> = BTreeMap::new();
    for unit in Unit::all() {
        for spelling in std::iter::once(unit.name).chain(unit.symbols.iter().copied()) {
            let other = symbols.insert(spelling, unit.name);
            assert_eq!(other, None, "`{spelling}` of {} is taken", unit.name);
        }
        let own = (unit.system == System::Us).then_some(unit.name);
        for word in unit.words.iter().copied().chain(own) {
            let other = owners.insert(word.to_lowercase(), unit.name);
            assert_eq!(other, None, "`{word}` of {} is taken", unit.name);
        }
    }
    for (symbol, unit) in symbols {
        let word = owners.get(symbol);
        assert!(word.is_none() || word == Some(&unit), "`{symbol}` is {unit} and {word:?}");
    }
}

#[test]
fn every_spelling_finds_its_unit() {
    for unit in Unit::all() {
        for spelling in unit.spellings() {
            assert_eq!(Unit::find(spelling), Some(unit), "{spelling}");
            assert_eq!(Unit::find(&format!(" {spelling} ")), Some(unit), "spaces round {spelling}");
        }
        for word in unit.words {
            assert_eq!(Unit::find(&word.to_uppercase()), Some(unit), "{word} in capitals");
        }
    }
}

#[test]
fn shop_spellings_are_forgiven() {
    for (text, name) in [
        ("in.", "in"),
        ("Lbs.", "lb"),
        ("FT", "ft"),
        ("sq. in.", "in²"),
        ("in^2", "in²"),
        ("in2", "in²"),
        ("ft3", "ft³"),
        ("m3/h", "m³/h"),
        ("kg/m^3", "kg/m³"),
        ("cu. ft.", "ft³"),
        ("ft-lb", "lbf·ft"),
        ("ft. lbs.", "lbf·ft"),
        ("lb-ft", "lb·ft"),
        ("lb*in", "lb·in"),
        ("N-m", "N·m"),
        ("in. w.c.", "inH2O"),
        ("in H2O", "inH2O"),
        ("BTU/hr", "Btu/h"),
        ("Btu per hour", "Btu/h"),
        ("miles per hour", "mph"),
        ("per cent", "%"),
        ("parts per million", "ppm"),
        ("pounds per square inch", "psi"),
        ("km / h", "km/h"),
        ("° F", "°F"),
        ("º", "°"),
        ("\u{2126}", "Ω"),
        ("awg", "AWG"),
        ("'", "ft"),
        ("″", "in"),
        ("''", "in"),
        ("#", "lb"),
    ] {
        assert_eq!(Unit::find(text).map(Unit::name), Some(name), "{text}");
    }
}

/// Where capitals change the meaning, or a letter could mean two things, nothing is guessed.
#[test]
fn doubtful_spellings_are_refused() {
    for text in ["", " ", "MA", "mPa", "Mbar", "F", "C", "M", "mw", "nm", "x", "2", "²", "lb lb", "ft/"] {
        assert_eq!(Unit::find(text).map(Unit::name), None, "{text}");
    }
}
