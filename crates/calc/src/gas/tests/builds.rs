//! Figures of whole builds: what they come to, what is missing, and what there is none of.

use super::super::workings;
use crate::assumed::{Assumption, fields};
use crate::space::trial::{FLAT, build, value};
use crate::{Assumptions, Case, Outcome, Standing, Working};
use pintle_quantity::Quantity;
use pintle_source::{Sources, Span, Spanned};

/// The defaults that stand in the rulebook's table, read by the test's own means.
pub(crate) fn defaults() -> Assumptions {
    let tables = [
        ("gas", include_str!("../../../../../rules/assumptions/gas.toml")),
        ("air", include_str!("../../../../../rules/assumptions/air.toml")),
    ];
    let mut sources = Sources::new();
    let source = sources.add("defaults.toml", "");
    let mut list = Vec::new();
    for (topic, text) in tables {
        let table: toml::Table = toml::from_str(text).unwrap();
        for row in table["assumption"].as_array().unwrap() {
            let word = |key: &str| row[key].as_str().unwrap();
            let (topic, field) =
                fields().find(|(held, field)| held.key == topic && field.key == word("of")).unwrap();
            let value = Spanned::new(Quantity::parse(word("value")).unwrap(), Span::new(source, 0, 0));
            list.push((topic, field, Assumption::new(value, Standing::Shop, String::new())));
        }
    }
    Assumptions::from_list(list)
}

/// Every figure of a build in the trial box.
pub(crate) fn figures(of: fn(&Case<'_>) -> Vec<Working>, more: &str) -> Vec<Working> {
    let trial = build(FLAT, more);
    of(&Case { build: &trial, assumptions: &defaults(), places: &crate::place::Places::default() })
}

/// One figure.
#[track_caller]
pub(crate) fn one<'w>(all: &'w [Working], key: &str, of: &str) -> &'w Working {
    let found = all.iter().find(|working| working.key == key && working.of == of);
    found.unwrap_or_else(|| panic!("no {key} of {of}"))
}

#[track_caller]
fn is(all: &[Working], key: &str, of: &str, expected: f64, unit: &str) {
    let found = value(one(all, key, of).figure().unwrap(), unit);
    assert!((found / expected - 1.0).abs() < 1e-3, "{key} of {of}: {found} {unit}, not {expected}");
}

#[track_caller]
fn misses(all: &[Working], key: &str, of: &str, what: &str) {
    let found = one(all, key, of).outcome.as_ref().map(|_| ()).map_err(|missing| missing.what.clone());
    assert_eq!(found, Err(what.to_owned()), "{key} of {of}");
}

#[track_caller]
fn texts(all: &[Working], key: &str, of: &str, expected: &[&str]) {
    let Ok(Outcome::Texts(found)) = &one(all, key, of).outcome else { panic!("{key} of {of} is no list") };
    assert_eq!(found, expected, "{key} of {of}");
}

fn cylinder(tag: &str, more: &str) -> String {
    format!(
        "\n[[item]]\ntag = \"{tag}\"\nkind = \"cylinder\"\nzone = \"tongue\"\nat = {{ ball = \"4 in\" }}\nfuel = \"propane\"\n\
         gas = \"20 lb\"\nmass = \"38 lb\"\nlength = \"12 1/4 in\"\nwidth = \"12 1/4 in\"\nheight = \"18 in\"\nupright = true\n{more}"
    )
}

fn burner(tag: &str, more: &str) -> String {
    format!(
        "\n[[item]]\ntag = \"{tag}\"\nkind = \"appliance\"\nat = {{ front = \"40 in\", left = \"0 in\" }}\nlength = \"10 in\"\n\
         width = \"9 in\"\nheight = \"10 in\"\nfuel = \"propane\"\ninput = \"10000 Btu/h\"\nused = \"inside\"\nflue = \"room-sealed\"\n{more}"
    )
}

#[test]
fn a_cylinder_and_a_burner_by_hand() {
    let all = figures(
        workings,
        &(cylinder("gas", "water_capacity = \"47.6 lb\"\nrestraint = \"200 lb\"\n")
            + &burner("stove", "daily = \"2 h\"\n")),
    );
    let gas = "item `gas`";
    is(&all, "stored_energy", gas, 430_960.0, "Btu");
    is(&all, "filling_density", gas, 42.02, "%");
    // 38 lb: four times that is 152 lbf (AS/NZS 5601.2 as quoted), 0.8 of it 30.4 lbf.
    is(&all, "restraint_needed", gas, 152.0, "lbf");
    is(&all, "restraint_stop", gas, 30.4, "lbf");
    is(&all, "restraint_held", gas, 200.0, "lbf");
    // 20 lb × 21,548 Btu/lb / 10,000 Btu/h; at two hours a day 21.5 days.
    is(&all, "burn_time", gas, 43.096, "h");
    is(&all, "burn_time", "the build", 43.096, "h");
    is(&all, "days", "the build", 21.548, "d");
    // By hand: 5 lb at 20 °F, 537.4 kg/m³ (CoolProp 8.0.0) or 0.019415 lb/in³. A = 117.86 + 84.09 = 201.95 in²;
    // A₁₀₀ = 165.13 + 1420.9 = 1586.0 in².
    is(&all, "draw_cold", gas, 167_000.0 * 201.95 / 1586.0, "Btu/h");
    is(&all, "draw_cold", "the build", 167_000.0 * 201.95 / 1586.0, "Btu/h");
    // 144 × 72 × 75 in is 450 ft³: 0.25 × 0.0215 × 450 / 8.66 lb.
    is(&all, "leak_to_alarm", "the build", 0.27930, "lb");
    is(&all, "leak_time", "the build", 0.27930 * 21_548.0 / 10_000.0 * 60.0, "min");
    // The top of the cylinder: 17 + 18 in. Nothing opens below it.
    assert!(matches!(one(&all, "opening_gap", gas).outcome, Ok(Outcome::None(_))));
    assert!(matches!(one(&all, "ignition_gap", gas).outcome, Ok(Outcome::None(_))), "the stove is inside");
}

#[test]
fn what_is_missing_is_said() {
    let all =
        figures(workings, &(cylinder("gas", "").replace("upright = true\n", "") + &burner("stove", "")));
    misses(&all, "filling_density", "item `gas`", "`water_capacity` of item `gas`");
    misses(&all, "draw_cold", "item `gas`", "`upright` of item `gas`");
    misses(&all, "restraint_held", "item `gas`", "`restraint` of item `gas`");
    misses(&all, "days", "the build", "`daily` of item `stove`");
    misses(&all, "pressure_drop", "item `stove`", "a gas line to item `stove`");
    misses(&all, "leak_test_fell", "the build", "the leak test");
    let butane = figures(workings, &cylinder("gas", "").replace("propane", "butane"));
    misses(&butane, "stored_energy", "item `gas`", "figures of butane in item `gas`");
    // -0.49 °C (CoolProp 8.0.0) is 31.1 °F: at 20 °F there is no vapour.
    assert!(one(&butane, "boiling_margin", "item `gas`").figure().unwrap().quantity.si() < 0.0);
    let lying = figures(workings, &cylinder("gas", "").replace("upright = true", "upright = false"));
    misses(&lying, "draw_cold", "item `gas`", "item `gas` standing upright");
    let cold = figures(workings, &(cylinder("gas", "") + "[assume.gas]\ncoldest_use = \"-5 °F\"\n"));
    misses(&cold, "draw_cold", "item `gas`", "the draw of a 100 lb cylinder with 100 lb in it at -5 °F");
    assert!(
        workings(&Case {
            build: &build(FLAT, ""),
            assumptions: &defaults(),
            places: &crate::place::Places::default()
        })
        .is_empty(),
        "no gas, no figures"
    );
}

#[test]
fn several_cylinders_are_named_before_they_count() {
    let two = cylinder("one", "") + &cylinder("two", "") + &burner("stove", "");
    misses(&figures(workings, &two), "burn_time", "the build", "`connected` of the gas system");
    let named = |drawn: &str| format!("{two}\n[gas]\nconnected = [\"one\", \"two\"]\n{drawn}");
    misses(&figures(workings, &named("")), "draw_cold", "the build", "`drawn` of `gas` of the spec");
    let each = figures(workings, &named("drawn = \"in turn\""));
    let both = figures(workings, &named("drawn = \"together\""));
    let draw = |all: &[Working], of: &str| value(one(all, "draw_cold", of).figure().unwrap(), "Btu/h");
    assert!((draw(&each, "the build") / draw(&each, "item `one`") - 1.0).abs() < 1e-9);
    assert!((draw(&both, "the build") / draw(&both, "item `one`") - 2.0).abs() < 1e-9);
    is(&both, "burn_time", "the build", 86.192, "h");
    let one_only = figures(workings, &format!("{two}\n[gas]\nconnected = [\"two\"]\n"));
    is(&one_only, "burn_time", "the build", 43.096, "h");
}

#[test]
fn the_wetted_surface_errs_on_the_safe_side() {
    // Reckoned by its wetted surface, the 100 lb cylinder itself gives less than the table at every fill of it.
    let kelvin = |fahrenheit: f64| (fahrenheit + 459.67) / 1.8;
    for lb in [10.0, 20.0, 50.0] {
        for fahrenheit in [0.0, 20.0, 40.0, 60.0, 70.0] {
            let table =
                super::super::hundred_pound_draw(lb, fahrenheit).unwrap() * super::super::BTU_PER_HOUR;
            let width = super::super::HUNDRED_POUND_DIAMETER;
            let surface = super::super::small_draw(lb * 0.453_592_37, width, kelvin(fahrenheit)).unwrap();
            assert!(
                surface < table && surface > 0.78 * table,
                "{lb} lb at {fahrenheit} °F: {surface} of {table}"
            );
        }
    }
    let hundred =
        cylinder("gas", "").replace("\"20 lb\"", "\"100 lb\"") + "[assume.gas]\nleast_fill = \"15 %\"\n";
    // Between the published rows: 15 lb at 20 °F.
    is(&figures(workings, &hundred), "draw_cold", "item `gas`", 44_500.0, "Btu/h");
}

/// A trunk of 10 ft and two branches.
fn piped(more: &str) -> String {
    cylinder("gas", "")
        + &burner("stove", "")
        + &burner("heater", "")
        + "\n[gas]\nregulator = { stages = 2, pressure = \"11 inH2O\" }\n\
           [[gas.line]]\nname = \"pigtail\"\nfrom = \"cylinder\"\nkind = \"hose\"\nlength = \"2 ft\"\nruns = [\"outside\"]\n\
           [[gas.line]]\nname = \"trunk\"\nfrom = \"regulator\"\nkind = \"pipe\"\nsize = \"1/2 in pipe\"\nlength = \"8 ft\"\n\
           fittings = \"2 ft\"\nruns = [\"outside\", \"inside\"]\nsleeved = false\n\
           [[gas.line]]\nname = \"left\"\nfrom = \"trunk\"\nkind = \"tube\"\nsize = \"3/8 in tube\"\nlength = \"10 ft\"\nfittings = \"0 ft\"\n\
           to = [\"stove\"]\nruns = [\"inside\"]\nshutoff = true\n\
           [[gas.line]]\nname = \"right\"\nfrom = \"trunk\"\nkind = \"hose\"\nbore = \"3/8 in\"\nlength = \"5 ft\"\nto = [\"heater\"]\n\
           runs = [\"inside\"]\n"
        + more
}

#[test]
fn lines_by_hand() {
    let all = figures(workings, &piped(""));
    is(&all, "load", "line `pigtail`", 20_000.0, "Btu/h");
    is(&all, "load", "line `trunk`", 20_000.0, "Btu/h");
    is(&all, "load", "line `left`", 10_000.0, "Btu/h");
    is(&all, "longest_run", "the build", 20.0, "ft");
    // NFPA 54 by hand, at 2,488 Btu/ft³: 8.04 ft³/h in 10 ft of 0.622 in lose 0.00351 in, 4.02 ft³/h in 10 ft of 0.305 in lose 0.0309.
    let cfh = |q: f64, l: f64, d: f64| 1.2462 * l * (q.powf(0.381) / (19.17 * d)).powf(1.0 / 0.206);
    let trunk = cfh(20_000.0 / 2488.15, 10.0, 0.622);
    let left = cfh(10_000.0 / 2488.15, 10.0, 0.305);
    is(&all, "pressure_drop", "item `stove`", trunk + left, "inH2O");
    is(&all, "pressure_left", "item `stove`", 11.0 - trunk - left, "inH2O");
    assert!((0.030..0.040).contains(&(trunk + left)), "{trunk} and {left}");
    // The published table: 104,000 Btu/h in 5/8 in tube over 30 ft; 20,000 over 20 ft pass 3/8 in pipe, the smallest there is.
    let word = |key: &str, of: &str| match &one(&all, key, of).outcome {
        Ok(Outcome::Text(text)) => text.clone(),
        other => panic!("{other:?}"),
    };
    assert_eq!(word("pipe_needed", "line `trunk`"), "3/8 in pipe");
    assert_eq!(word("tube_needed", "line `trunk`"), "3/8 in tube");
    assert!(
        matches!(one(&all, "pipe_needed", "line `pigtail`").outcome, Ok(Outcome::None(_))),
        "high pressure"
    );
    assert!(matches!(one(&all, "shutoff", "item `stove`").outcome, Ok(Outcome::Flag(true))));
    misses(&all, "shutoff", "item `heater`", "`shutoff` of line `right`");
    texts(&all, "hoses_inside", "the build", &["line `right`"]);
    texts(&all, "high_pressure_inside", "the build", &[]);
    texts(&all, "unsleeved", "the build", &["line `trunk`"]);
    misses(&all, "hoses_concealed", "the build", "`concealed` of line `pigtail`");
}

#[test]
fn high_pressure_that_comes_inside_is_named() {
    let inward = piped("")
        .replace("length = \"2 ft\"\nruns = [\"outside\"]", "length = \"2 ft\"\nruns = [\"inside\"]");
    texts(&figures(workings, &inward), "high_pressure_inside", "the build", &["line `pigtail`"]);
    // A line that goes on from one that begins at the cylinder still lies before the regulator.
    let further =
        "[[gas.line]]\nname = \"further\"\nfrom = \"pigtail\"\nkind = \"tube\"\nruns = [\"inside\"]\n";
    texts(&figures(workings, &piped(further)), "high_pressure_inside", "the build", &["line `further`"]);
    // Exactly 14 in of water is low pressure (24 CFR 3280.704(a)(2)), a little more is not.
    let at = |pressure: &str| piped("").replace("\"11 inH2O\"", &format!("\"{pressure}\""));
    texts(&figures(workings, &at("14 inH2O")), "high_pressure_inside", "the build", &[]);
    let over = figures(workings, &at("14.01 inH2O"));
    texts(&over, "high_pressure_inside", "the build", &["line `trunk`", "line `left`", "line `right`"]);
}

#[test]
fn regulators() {
    let all =
        figures(workings, &piped("").replace("stages = 2,", "stages = 2, capacity = \"160000 Btu/h\","));
    is(&all, "supply_pressure", "the build", 11.0, "inH2O");
    is(&all, "regulator_capacity", "the build", 160_000.0, "Btu/h");
    assert!(matches!(one(&all, "two_stage", "the build").outcome, Ok(Outcome::Flag(true))));
    let none = figures(workings, &cylinder("gas", ""));
    misses(&none, "two_stage", "the build", "the gas system");
    misses(&none, "supply_pressure", "the build", "the gas system");
    let single = figures(workings, &piped("").replace("stages = 2", "stages = 1"));
    assert!(matches!(one(&single, "two_stage", "the build").outcome, Ok(Outcome::Flag(false))));
}

#[test]
fn leak_tests_stand_beside_what_they_should_be() {
    let test = "\n[record.leak_test]\nmethod = \"EN 1949\"\npressure = \"150 mbar\"\nsettled = \"5 min\"\nheld = \"5 min\"\ndrop = \"4 mbar\"\n";
    let all = figures(workings, &(cylinder("gas", "") + test));
    is(&all, "leak_test_pressure", "the build", 150.0, "mbar");
    is(&all, "leak_test_least", "the build", 150.0, "mbar");
    is(&all, "leak_test_drop", "the build", 10.0, "mbar");
    is(&all, "leak_test_fell", "the build", 4.0, "mbar");
    is(&all, "leak_test_time", "the build", 5.0, "min");
}

#[test]
fn near_things() {
    let more = cylinder("gas", "")
        + "\n[[vent]]\ntag = \"low\"\nzone = \"left wall\"\narea = \"10 in²\"\nlength = \"10 in\"\nwidth = \"1.5 in\"\nheight = \"4 in\"\n\
           at = { front = \"2.5 in\", floor = \"1 in\" }\n\
           [[item]]\ntag = \"bank\"\nkind = \"battery\"\nzone = \"tongue\"\nlength = \"8 in\"\nwidth = \"7 in\"\nheight = \"7 in\"\n\
           at = { ball = \"20.25 in\" }\n\
           [[item]]\ntag = \"lamp\"\nkind = \"equipment\"\nzone = \"tongue\"\nlength = \"2 in\"\nwidth = \"2 in\"\nheight = \"2 in\"\n\
           at = { ball = \"17.25 in\" }\n";
    let all = figures(workings, &more);
    // The vent begins at 36 + 1.5 + 2.5 = 40 in, the cylinder ends at 16.25 in; aside it begins at 36 − 0.75 in, the cylinder ends at
    // 6.125 in: √(23.75² + 29.125²) = 37.58 in.
    is(&all, "opening_gap", "item `gas`", 37.580, "in");
    // The lamp is one inch off: whether it sparks decides, and nobody says.
    misses(&all, "ignition_gap", "item `gas`", "`sparks` of item `lamp`");
    let dark = figures(workings, &more.replace("tag = \"lamp\"\n", "tag = \"lamp\"\nsparks = false\n"));
    is(&dark, "ignition_gap", "item `gas`", 4.0, "in");
    let live = figures(workings, &more.replace("tag = \"lamp\"\n", "tag = \"lamp\"\nsparks = true\n"));
    is(&live, "ignition_gap", "item `gas`", 1.0, "in");
    // A generator has an engine, and needs no other word.
    let engine =
        figures(workings, &more.replace("tag = \"lamp\"\n", "tag = \"lamp\"\nengine = \"petrol\"\n"));
    is(&engine, "ignition_gap", "item `gas`", 1.0, "in");
}
