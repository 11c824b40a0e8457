//! Printing a quantity with the digits a shop would give it, in the unit its author wrote.

mod apart;
mod digits;
mod together;

pub use apart::show_apart;

use std::cmp::Ordering;

use crate::compare::order;
use crate::preferred::layout;
use crate::quantity::{Finest, Quantity, Style};
use crate::unit::{System, Unit};
use crate::vocabulary::SQUARE_MILLIMETRE;

/// Which units to print in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Units {
    /// Each quantity as its author wrote it; in US units where it has no author.
    #[default]
    AsWritten,
    /// US customary units.
    Us,
    /// Metric units.
    Metric,
}

impl Quantity {
    /// The quantity in words a shop reads: `7 ft 2 1/4 in`, `1,500 lb ± 20 lb`, `10.4 %`.
    ///
    /// The author's unit and style are kept where they suit the system asked for. Weights are given
    /// to 1 from 100, to 0.1 from 10 and to 0.01 below, in pounds or kilograms; feet and inches, and
    /// inches written with a fraction, to 1/16 in; shares to 0.1 %; never fewer places than the
    /// author wrote, and never so few that a value that is not zero prints as zero. A ± that was worked
    /// out has two digits at most, and the value stops where its ± does.
    ///
    /// ```
    /// use pintle_quantity::{Quantity, Units};
    ///
    /// let gas = Quantity::parse("11 inH2O")?;
    /// assert_eq!(gas.show(Units::AsWritten), "11 inH2O");
    /// assert_eq!(gas.show(Units::Metric), "2.74 kPa");
    /// # Ok::<(), pintle_quantity::ParseError>(())
    /// ```
    pub fn show(self, units: Units) -> String {
        let layout = layout(self, units);
        together::together(self, layout)
            .unwrap_or_else(|| with_tolerance(self, layout, body(self, layout, Precision::Usual)))
    }

    /// In the author's units, then in the other system's: `150 lb (68 kg)`. Once only where both
    /// systems use the same unit.
    ///
    /// ```
    /// use pintle_quantity::Quantity;
    ///
    /// assert_eq!(Quantity::pounds(150.0).show_both(), "150 lb (68 kg)");
    /// assert_eq!(Quantity::share(0.104).show_both(), "10.4 %");
    /// ```
    pub fn show_both(self) -> String {
        let own = self.show(Units::AsWritten);
        let other = self.show(match self.system() {
            System::Us => Units::Metric,
            System::Metric => Units::Us,
            System::Both => Units::AsWritten,
        });
        if own == other { own } else { format!("{own} ({other})") }
    }
}

/// How finely to print.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Precision {
    /// As a shop would.
    Usual,
    /// So many decimal places, whatever the style.
    Places(usize),
    /// Every digit there is.
    Full,
}

type Layout = Option<(&'static Unit, Style)>;

/// The quantity without its tolerance.
fn body(quantity: Quantity, layout: Layout, precision: Precision) -> String {
    let si = quantity.si;
    if si.is_nan() {
        return "not a number".to_owned();
    }
    if si.is_infinite() {
        return if si > 0.0 { "infinite" } else { "-infinite" }.to_owned();
    }
    let Some((unit, style)) = layout else {
        let number = in_precision(si, digits::usual_places("", si), precision);
        return format!("{number} {}", quantity.dimension.si_symbol());
    };
    if unit.is_wire_gauge() {
        return match gauge(unit, si) {
            Some(gauge) => gauge,
            None => body(quantity, Some((&SQUARE_MILLIMETRE, Style::PLAIN)), precision),
        };
    }
    // What compares as zero prints as zero: sums that cancel and scales with an offset leave dust.
    let nothing = precision == Precision::Usual && order(si, unit.to_si(0.0)) == Ordering::Equal;
    let value = if nothing { 0.0 } else { unit.from_si(si) };
    if !value.is_finite() {
        return body(quantity, None, precision);
    }
    if precision == Precision::Usual
        && let Some(text) = in_style(value, unit, style)
    {
        return text;
    }
    // What is too small for its marks, or has units that do not go into each other.
    let (value, unit) = match style {
        Style::Parts { last, .. } if !nothing => (last.from_si(si), last),
        _ => (value, unit),
    };
    let written = match style {
        Style::Decimal { places } => usize::from(places).min(digits::MOST_PLACES),
        _ => 0,
    };
    let places = digits::usual_places(unit.name(), value).max(written);
    with_unit(&in_precision(value, places, precision), unit)
}

/// A fraction or several parts, where the style asks for them and they come out.
fn in_style(value: f64, unit: &'static Unit, style: Style) -> Option<String> {
    match style {
        Style::Decimal { .. } => None,
        Style::Fraction { below } => {
            let number = digits::fraction(value, below, unit.name() == "in")?;
            Some(with_unit(&number, unit))
        }
        Style::Parts { middle, last, finest } => {
            digits::parts(value, &[Some(unit), middle, Some(last)], finest)
        }
    }
}

fn in_precision(value: f64, usual: usize, precision: Precision) -> String {
    match precision {
        Precision::Usual => digits::decimal(value, usual),
        Precision::Places(places) => digits::decimal(value, places),
        Precision::Full => digits::grouped(&value.to_string()),
    }
}

fn with_unit(number: &str, unit: &Unit) -> String {
    if unit.name().is_empty() {
        return number.to_owned();
    }
    if unit.name() != "$" {
        return format!("{number} {}", unit.name());
    }
    let cents = match number.split_once('.') {
        Some((_, tenths)) if tenths.len() == 1 => "0",
        _ => "",
    };
    match number.strip_prefix('-') {
        Some(size) => format!("-${size}{cents}"),
        None => format!("${number}{cents}"),
    }
}

/// `10 AWG`, `2/0 AWG`; `None` for an area that is no whole gauge.
fn gauge(unit: &Unit, si: f64) -> Option<String> {
    let number = unit.from_si(si);
    let whole = number.round();
    if !number.is_finite() || (number - whole).abs() > 1e-6 || !(-3.0..=40.0).contains(&whole) {
        return None;
    }
    Some(if whole < 0.5 {
        format!("{:.0}/0 {}", 1.0 - whole, unit.name())
    } else {
        format!("{whole:.0} {}", unit.name())
    })
}

fn with_tolerance(quantity: Quantity, layout: Layout, body: String) -> String {
    let text = quantity.tolerance.and_then(|half_width| {
        if let Some((unit, style)) = layout {
            tolerance_in(half_width, unit, style, quantity.reckoned)
        } else {
            let number = digits::decimal(half_width, digits::usual_places("", half_width));
            Some(format!("{number} {}", quantity.dimension.si_symbol()))
        }
    });
    match text {
        Some(text) => format!("{body} ± {text}"),
        None => body,
    }
}

/// A tolerance is a difference: it goes by the step of the unit and ignores the scale's zero. Beside
/// a value in several units it stands in the last.
fn tolerance_in(half_width: f64, unit: &'static Unit, style: Style, reckoned: bool) -> Option<String> {
    let (unit, below) = match style {
        Style::Parts { last, finest: Finest::Fraction { below }, .. } => (last, Some(below)),
        Style::Parts { last, .. } => (last, None),
        Style::Fraction { below } => (unit, Some(below)),
        Style::Decimal { .. } => (unit, None),
    };
    let width = half_width / unit.step()?;
    let fraction = below.and_then(|below| digits::exact_fraction(width, below));
    let plain = || {
        let usual = || digits::decimal(width, digits::usual_places(unit.name(), width));
        if reckoned { together::half_alone(unit.name(), width) } else { usual() }
    };
    Some(with_unit(&fraction.unwrap_or_else(plain), unit))
}

#[cfg(test)]
mod laws;
#[cfg(test)]
mod tests;
