//! Digits: how many, grouped in thousands, as a fraction, or split over several units.

use crate::unit::Unit;

/// Beyond this many decimal places nothing is worth printing unasked.
pub(super) const MOST_PLACES: usize = 12;
/// The marks of a tape measure.
const TAPE: f64 = 16.0;
/// Fractions that authors write, the tape's first.
const DENOMINATORS: [f64; 9] = [TAPE, 32.0, 64.0, 3.0, 5.0, 6.0, 7.0, 10.0, 12.0];

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
    places.max(needed(size, significant)).min(MOST_PLACES)
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
    while size > 0.0 && scaled < 1.0 && places < MOST_PLACES {
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
pub(super) fn fraction(value: f64, tape: bool) -> Option<String> {
    let nearest = || {
        let marks = (value.abs() * TAPE).round();
        (tape && marks > 0.0).then(|| signed(value, &mixed(marks, TAPE)))
    };
    exact_fraction(value).or_else(nearest)
}

/// The value as a fraction that authors write, if it is one.
pub(super) fn exact_fraction(value: f64) -> Option<String> {
    let below = denominator(value)?;
    let above = (value.abs() * below).round();
    let text = mixed(above, below);
    Some(if above > 0.0 { signed(value, &text) } else { text })
}

fn denominator(value: f64) -> Option<f64> {
    let comes_out = |below: &&f64| {
        let above = value.abs() * **below;
        let whole = above.round();
        // A value that rounds to nothing is not nothing.
        (above - whole).abs() <= 1e-9 * above.max(1.0) && (whole > 0.0 || above <= 0.0)
    };
    DENOMINATORS.iter().find(comes_out).copied()
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
pub(super) fn parts(value: f64, units: &[Option<&'static Unit>], places: Option<u8>) -> Option<String> {
    let units: Vec<&Unit> = units.iter().flatten().copied().collect();
    let (first, last) = (units.first()?.step()?, units.last()?);
    let size = value.abs() * first / last.step()?;
    let tape = places.is_none() && last.name() == "in";
    let finest = if tape {
        denominator(size).unwrap_or(TAPE)
    } else {
        10_f64.powi(i32::from(places.unwrap_or(1).clamp(1, 6)))
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
