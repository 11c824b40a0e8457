//! Printing a value with a ± that was worked out: both to the same place, the ± with two digits at most.

use super::{Layout, digits, in_style, with_unit};
use crate::quantity::{Quantity, Style, TAPE};
use crate::unit::Unit;

/// The value and its ±, where the ± was worked out and both can be rounded to one place. An author's own ± is left as
/// he wrote it. A ± of a width that is no number, or none at all, has no place to round to.
pub(super) fn together(quantity: Quantity, layout: Layout) -> Option<String> {
    let half = quantity.tolerance.filter(|half| quantity.reckoned && half.is_finite() && *half > 0.0)?;
    if !quantity.si.is_finite() {
        return None;
    }
    let Some((unit, style)) = layout else {
        let symbol = quantity.dimension.si_symbol();
        let (value, half) = decimals("", quantity.si, half, 0)?;
        return Some(format!("{value} {symbol} ± {half} {symbol}"));
    };
    let (small, written) = match style {
        Style::Parts { last, .. } => (last, 0),
        Style::Fraction { .. } => (unit, 0),
        Style::Decimal { places } => (unit, usize::from(places).min(digits::MOST_PLACES)),
    };
    let half = half / small.step()?;
    if !matches!(style, Style::Decimal { .. }) && small.name() == "in" {
        return on_tape(quantity, unit, style, small, half);
    }
    let (value, half) = decimals(small.name(), small.from_si(quantity.si), half, written)?;
    Some(format!("{} ± {}", with_unit(&value, small), with_unit(&half, small)))
}

/// A ± by itself, beside a value that is printed to a place of its own: two digits at most.
pub(super) fn half_alone(unit: &str, half: f64) -> String {
    let usual = digits::usual_places(unit, half);
    let two = first_digit(half).map(|first| 1 - first);
    let places = two.filter(|two| i32::try_from(usual).is_ok_and(|usual| usual > *two));
    places.map_or_else(|| digits::decimal(half, usual), |places| rounded(half, places))
}

/// The power of ten of the first digit of a width when it is rounded to two: of 0.0996, the tenths.
fn first_digit(half: f64) -> Option<i32> {
    format!("{half:.1e}").split_once('e')?.1.parse().ok()
}

/// As decimals, no finer than the value would be by itself, unless the ± would vanish.
fn decimals(unit: &str, value: f64, half: f64, written: usize) -> Option<(String, String)> {
    let first = first_digit(half)?;
    let usual = i32::try_from(digits::usual_places(unit, value).max(written)).ok()?;
    let places = usual.clamp(-first, 1 - first);
    let shown = rounded(value, places);
    // A value that is something never prints as nothing.
    let shown = if shown == "0" { digits::decimal(value, usize::try_from(usual).ok()?) } else { shown };
    Some((shown, rounded(half, places)))
}

/// To so many decimal places, or to tens, hundreds and so on.
fn rounded(value: f64, places: i32) -> String {
    if let Ok(places) = usize::try_from(places) {
        return digits::decimal(value, places);
    }
    let step = 10_f64.powi(-places);
    digits::decimal((value / step).round() * step, 0)
}

/// On the marks of a tape, the coarsest of which a ± of so many inches holds four; as decimals where the ± is finer than
/// the tape, or has three digits.
fn on_tape(
    quantity: Quantity,
    unit: &'static Unit,
    style: Style,
    inch: &'static Unit,
    half: f64,
) -> Option<String> {
    let below = [1.0, 2.0, 4.0, 8.0].into_iter().find(|below| half * below >= 4.0).unwrap_or(f64::from(TAPE));
    let on_mark = |inches: f64| (inches * below).round() / below;
    let (value, width) = (on_mark(inch.from_si(quantity.si)), on_mark(half));
    let vanishes = value.abs() <= 0.0 && quantity.si.abs() > 0.0;
    if vanishes || half < 1.0 / f64::from(TAPE) || width >= 100.0 {
        let (value, half) = decimals(inch.name(), inch.from_si(quantity.si), half, 0)?;
        return Some(format!("{} ± {}", with_unit(&value, inch), with_unit(&half, inch)));
    }
    let value = in_style(unit.from_si(inch.to_si(value)), unit, style)?;
    let width = in_style(width, inch, Style::Fraction { below: TAPE })?;
    Some(format!("{value} ± {width}"))
}
