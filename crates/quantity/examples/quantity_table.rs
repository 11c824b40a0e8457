//! Prints every unit and some 300 written quantities, one JSON object a line, for
//! `tests/oracles/quantity_pint.py` to work out again with an independent library.

use pintle_quantity::{Quantity, Unit};

fn main() {
    let gauges: Vec<String> =
        ["4/0", "3/0", "2/0", "1/0", "1", "2", "4", "6", "8", "10", "12", "14", "18", "40"]
            .map(|gauge| format!("{gauge} AWG"))
            .into();
    let texts = one_unit().into_iter().chain(fractions()).chain(several_units()).chain(gauges);
    for unit in Unit::all().iter().filter(|unit| unit.name() != "AWG") {
        for value in [1.0, 7.25, 1234.5] {
            let dimension = unit.dimension().noun();
            line("unit", unit.name(), Some(value), unit.to_si(value), &dimension);
        }
    }
    for text in texts {
        match Quantity::parse(&text) {
            Ok(quantity) => line("text", &text, None, quantity.si(), &quantity.dimension().noun()),
            Err(mistake) => line("refused", &text, None, f64::MAX, &mistake.to_string()),
        }
    }
}

#[expect(clippy::print_stdout, reason = "an example that prints is read by the oracle through a pipe")]
fn line(kind: &str, text: &str, value: Option<f64>, si: f64, dimension: &str) {
    let value = value.map_or("null".to_owned(), |value| format!("{value:e}"));
    println!(
        "{{\"kind\": {kind:?}, \"text\": {text:?}, \"value\": {value}, \"si\": {si:e}, \"dimension\": {dimension:?}}}"
    );
}

/// Decimals, thousands, signs, spaces or none, in units of every sort.
fn one_unit() -> Vec<String> {
    let units = ["lb", "kg", "mm", "gal", "in²", "W", "Btu/h", "psi", "Ah", "%", "lb·in", "mph", "cfm", "°"];
    let numbers = ["1", "0.125", "7.5", "68", "1,500", "30000", "12,345.678", "-4", "-1,000.5"];
    let mut texts = Vec::new();
    for (place, unit) in units.iter().enumerate() {
        for (turn, number) in numbers.iter().enumerate() {
            let space = if (place + turn) % 3 == 0 { "" } else { " " };
            texts.push(format!("{number}{space}{unit}"));
        }
    }
    texts
}

/// Mixed numbers, with a space, a hyphen, or one character for the fraction.
fn fractions() -> Vec<String> {
    let mut texts = Vec::new();
    for (whole, above, below) in
        [(0, 1, 2), (22, 3, 8), (86, 1, 4), (5, 15, 16), (11, 1, 32), (3, 2, 3), (100, 7, 64), (1, 5, 6)]
    {
        for unit in ["in", "ft", "gal", "lb"] {
            texts.push(format!("{whole} {above}/{below} {unit}"));
            texts.push(format!("{whole}-{above}/{below} {unit}"));
            texts.push(format!("-{above}/{below}{unit}"));
        }
    }
    for fraction in ["½", "¼", "¾", "⅛", "⅜", "⅝", "⅞", "⅓"] {
        texts.push(format!("{fraction} in"));
        texts.push(format!("7{fraction} in"));
    }
    texts
}

/// Feet and inches, pounds and ounces, hours and minutes.
fn several_units() -> Vec<String> {
    let mut texts = Vec::new();
    for feet in [0, 1, 7, 24] {
        for (inches, marks) in [(0, "0"), (2, "2"), (11, "11 15/16"), (5, "5.25")] {
            texts.push(format!("{feet} ft {marks} in"));
            texts.push(format!("{feet}' {marks}\""));
            texts.push(format!("-{feet} ft {inches} in"));
        }
        texts.push(format!("{feet} lb 8 oz"));
        texts.push(format!("{feet} h 30 min"));
        texts.push(format!("{feet} yd 1 ft 3 in"));
    }
    texts
}
