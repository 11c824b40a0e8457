//! Digits: how many, grouped in thousands, as a fraction, or split over several units.

use crate::quantity::{Finest, TAPE};
use crate::unit::Unit;

/// No more decimal places than this are printed because an author wrote them.
pub(super) const MOST_PLACES: usize = 12;
/// A value that is not nothing never prints as zero, unless it needs more places than this.
const SMALLEST_PLACES: usize = 24;

/// The decimal places a shop would give a value in a unit.
pub(super) fn usual_places(unit: &str, value: f64) -> usize {
    let size = value.abs();
    let (places, significant) = match unit {
        "mm" | "ppm" => (usize::from(size < 10.0), 2),
        "%" | "°" | "°F" | "°C" | "cm" => (1, 2),
        "in" | "ft" | "yd" | "mi" | "km" | "$" => (2, 2),
        "m" => (3, 2),
        "lb" | "kg" => (by_size(size), 2),
        _ => (by_size(size), 3),
    };
    places.max(needed(size, significant))
}

fn by_size(size: f64) -> usize {
    match size {
        100.0.. => 0,
        10.0.. => 1,
        _ => 2,
    }
}

/// Places for so many significant digits of a value below one; none for larger ones.
fn needed(size: f64, significant: usize) -> usize {
    let mut places = 0;
    let mut scaled = size;
    while size > 0.0 && scaled < 1.0 && places < SMALLEST_PLACES {
        scaled *= 10.0;
        places += 1;
    }
    if places == 0 { 0 } else { places + significant - 1 }
}

/// A decimal without trailing zeros, thousands grouped, never `-0`.
pub(super) fn decimal(value: f64, places: usize) -> String {
    let text = format!("{value:.places$}");
    let trimmed = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    grouped(if trimmed == "-0" { "0" } else { trimmed })
}

/// Commas before every third digit of the whole part.
pub(super) fn grouped(number: &str) -> String {
    let (sign, size) = match number.strip_prefix('-') {
        Some(size) => ("-", size),
        None => ("", number),
    };
    let (whole, decimals) = match size.split_once('.') {
        Some((whole, decimals)) => (whole, Some(decimals)),
        None => (size, None),
    };
    let mut text = sign.to_owned();
    for (place, digit) in whole.chars().enumerate() {
        if place > 0 && (whole.len() - place).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    if let Some(decimals) = decimals {
        text.push('.');
        text.push_str(decimals);
    }
    text
}

/// `22 3/8`: exactly where the value is such a fraction; else, on a tape, to the nearest mark.
/// `None` where neither will do.
pub(super) fn fraction(value: f64, below: u16, tape: bool) -> Option<String> {
    let below = match exactly(value, below) {
        Some(below) => below,
        None if tape => marks(below),
        None => return None,
    };
    let above = (value.abs() * below).round();
    // A value that rounds to nothing is not nothing.
    (above > 0.5 || value.abs() <= 0.0).then(|| signed(value, &mixed(above, below)))
}

/// The value as a fraction, only if it is one.
pub(super) fn exact_fraction(value: f64, below: u16) -> Option<String> {
    exactly(value, below).and_then(|_| fraction(value, below, false))
}

/// The marks of a tape to an inch: sixteenths, or finer where the author wrote finer ones.
fn marks(below: u16) -> f64 {
    f64::from(if below.is_power_of_two() { below.max(TAPE) } else { TAPE })
}

/// What is below the line, if the value is a whole number of marks or of the author's fractions.
fn exactly(value: f64, below: u16) -> Option<f64> {
    let comes_out = |below: &f64| {
        let above = value.abs() * below;
        (above - above.round()).abs() <= 1e-6 && (above.round() > 0.5 || above <= 0.0)
    };
    [marks(below), f64::from(below)].into_iter().find(comes_out)
}

/// Whether two values written as fractions can be told apart, and in the right order, by eye: both
/// exact, or both on the marks of one tape.
pub(super) fn fractions_compare(a: f64, b: f64, below: u16, tape: bool) -> bool {
    let on_tape = |exact: Option<f64>| exact.is_none_or(|exact| (exact - marks(below)).abs() < 0.5);
    match (exactly(a, below), exactly(b, below)) {
        (Some(_), Some(_)) => true,
        (a, b) => tape && on_tape(a) && on_tape(b),
    }
}

/// A whole number and a fraction in lowest terms, from so many parts of a whole.
fn mixed(above: f64, below: f64) -> String {
    let whole = (above / below).floor();
    let rest = above - whole * below;
    let (mut divisor, mut remainder) = (below, rest);
    while remainder > 0.5 {
        (divisor, remainder) = (remainder, divisor % remainder);
    }
    let fraction = || format!("{:.0}/{:.0}", rest / divisor, below / divisor);
    match (whole > 0.5, rest > 0.5) {
        (true, true) => format!("{} {}", decimal(whole, 0), fraction()),
        (false, true) => fraction(),
        (_, false) => decimal(whole, 0),
    }
}

fn signed(value: f64, size: &str) -> String {
    if value < 0.0 { format!("-{size}") } else { size.to_owned() }
}

/// A value of the first unit, over all of them: `7 ft 2 1/4 in`. Inches come as marks of a tape
/// unless decimals are asked for. `None` where the units do not go into each other.
pub(super) fn parts(value: f64, units: &[Option<&'static Unit>], finest: Finest) -> Option<String> {
    let units: Vec<&Unit> = units.iter().flatten().copied().collect();
    let (first, last) = (units.first()?.step()?, units.last()?);
    let size = value.abs() * first / last.step()?;
    let (finest, tape) = match finest {
        Finest::Fraction { below } if last.name() == "in" => {
            (exactly(size, below).unwrap_or_else(|| marks(below)), true)
        }
        Finest::Fraction { .. } => (10.0, false),
        Finest::Decimal { places } => (10_f64.powi(i32::from(places.clamp(1, 6))), false),
    };
    // Rounded once, as a whole, so that 11.99 in carries into the feet.
    let mut left = (size * finest).round();
    if left < 0.5 && size > 0.0 {
        return None;
    }
    let mut texts = Vec::new();
    for unit in &units {
        let each = unit.step()? / last.step()?;
        if (each - each.round()).abs() > 1e-6 {
            return None;
        }
        let each = each.round() * finest;
        if unit == last {
            if left > 0.5 || texts.is_empty() {
                let number = if tape { mixed(left, finest) } else { decimal(left / finest, 6) };
                texts.push(format!("{number} {}", unit.name()));
            }
        } else {
            let count = (left / each).floor();
            left -= count * each;
            if count > 0.5 {
                texts.push(format!("{} {}", decimal(count, 0), unit.name()));
            }
        }
    }
    let text = texts.join(" ");
    Some(if size > 0.0 { signed(value, &text) } else { text })
}
