//! Printing a value beside its limit, so that a fault can be seen in the figures.

use std::cmp::Ordering;

use super::{Layout, Precision, Units, body, digits, gauge, with_tolerance};
use crate::preferred::layout;
use crate::quantity::{Finest, Quantity, Style};
use crate::unit::Unit;
use crate::vocabulary::SQUARE_MILLIMETRE;

/// More places than a double has digits say no more.
const FINEST: usize = 17;

/// A value and its limit, both in the unit of the limit's author (else of the value's), with
/// digits enough that two which compare as different never print alike, and two which compare as
/// equal always do.
///
/// Without this, a tongue of 149.7 lb against a limit of 150 lb would be a fault printed as
/// "150 lb, must be at least 150 lb".
///
/// ```
/// use pintle_quantity::{Quantity, Units, show_apart};
///
/// let (value, limit) = (Quantity::pounds(149.7), Quantity::pounds(150.0));
/// assert_eq!(value.show(Units::AsWritten), "150 lb");
/// let (value, limit) = show_apart(value, limit, Units::AsWritten);
/// assert_eq!((value.as_str(), limit.as_str()), ("149.7 lb", "150 lb"));
/// ```
pub fn show_apart(value: Quantity, limit: Quantity, units: Units) -> (String, String) {
    let Ok(order) = value.compare(limit) else {
        return (value.show(units), limit.show(units));
    };
    let leading = if limit.unit.is_none() && value.unit.is_some() { value } else { limit };
    let layout = layout(leading, units);
    let wire = layout.filter(|(unit, _)| unit.is_wire_gauge());
    let (value_text, limit_text) = match wire {
        Some((unit, _)) => match (gauge(unit, value.si), gauge(unit, limit.si)) {
            (Some(value_gauge), Some(limit_gauge)) => (value_gauge, limit_gauge),
            // A gauge and an area cannot be compared by eye; two areas can.
            (value_gauge, limit_gauge) => {
                let area = Some((&SQUARE_MILLIMETRE, Style::PLAIN));
                let (value_area, limit_area) = bodies(value, limit, area, order);
                (also(value_area, value_gauge), also(limit_area, limit_gauge))
            }
        },
        None => bodies(value, limit, layout, order),
    };
    (with_tolerance(value, layout, value_text), with_tolerance(limit, layout, limit_text))
}

fn also(area: String, gauge: Option<String>) -> String {
    match gauge {
        Some(gauge) => format!("{area} ({gauge})"),
        None => area,
    }
}

fn bodies(value: Quantity, limit: Quantity, layout: Layout, order: Ordering) -> (String, String) {
    let both = |layout, precision| (body(value, layout, precision), body(limit, layout, precision));
    let usual = both(layout, Precision::Usual);
    if order == Ordering::Equal {
        return (usual.1.clone(), usual.1);
    }
    if usual.0 != usual.1 && layout.is_none_or(|layout| fractions_compare(value, limit, layout)) {
        return usual;
    }
    // Finer than the tape: decimals of the smallest unit written.
    let layout = layout.map(|(unit, style)| match style {
        Style::Parts { last, .. } => (last, Style::PLAIN),
        _ => (unit, Style::PLAIN),
    });
    let coarsest = layout.map_or(0, |(unit, _)| {
        let places = |quantity: Quantity| digits::usual_places(unit.name(), unit.from_si(quantity.si));
        places(value).min(places(limit))
    });
    (coarsest..=FINEST)
        .map(|places| both(layout, Precision::Places(places)))
        .find(|(value, limit)| value != limit)
        .unwrap_or_else(|| both(layout, Precision::Full))
}

/// Fractions off the marks of the tape do not compare with those rounded to them.
fn fractions_compare(value: Quantity, limit: Quantity, (unit, style): (&'static Unit, Style)) -> bool {
    let (unit, below) = match style {
        Style::Fraction { below } => (unit, below),
        Style::Parts { last, finest: Finest::Fraction { below }, .. } if last.name() == "in" => (last, below),
        _ => return true,
    };
    digits::fractions_compare(unit.from_si(value.si), unit.from_si(limit.si), below, unit.name() == "in")
}
