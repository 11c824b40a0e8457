//! Reading a quantity as a shop writes it: a sign, parts in falling units, and a tolerance.

mod cursor;
mod error;
mod number;
mod unit_text;

use std::ops::Range;

use cursor::Cursor;
pub use error::ParseError;
use error::Problem;
use number::{Form, Number};

use crate::dimension::Dimension;
use crate::quantity::{Finest, Quantity, Style, TAPE};
use crate::unit::Unit;

/// The longest text that is read as a quantity.
const LONGEST: usize = 200;
/// The largest size of a quantity, in SI, that can be real.
const LARGEST: f64 = 1e15;
/// No author's chain of units is longer than this: yards, feet, inches.
const MOST_PARTS: usize = 3;

impl Quantity {
    /// A quantity as a shop writes it.
    ///
    /// Feet and inches, mixed fractions, thousands in groups, a gauge of wire, a price, a tolerance
    /// with `±` or `+/-`; every unit in [`Unit::all`], with or without a space before it. A bare
    /// number is an error, since the unit would be a guess. `2 %` of tolerance is two hundredths
    /// of the value, except on a share, where it is two points: `10 % ± 2 %` is 8 % to 12 %.
    ///
    /// ```
    /// use pintle_quantity::{Quantity, Units};
    ///
    /// for text in ["7 ft 2 1/4 in", "7' 2-1/4\"", "86 ¼ inches", "86.25in"] {
    ///     assert_eq!(Quantity::parse(text)?.show(Units::Metric), "2,191 mm");
    /// }
    /// let ticket = Quantity::parse("1,500 lb ± 20 lb")?;
    /// assert_eq!(ticket.tolerance().map(|half| half.show(Units::AsWritten)).as_deref(), Some("20 lb"));
    ///
    /// let mistake = Quantity::parse("1,5 kg").unwrap_err();
    /// assert_eq!(mistake.to_string(), "the comma in `1,5` does not group thousands");
    /// assert_eq!(mistake.range(), 0..3);
    /// # Ok::<(), pintle_quantity::ParseError>(())
    /// ```
    pub fn parse(text: &str) -> Result<Quantity, ParseError> {
        if text.len() > LONGEST {
            let problem = Problem::TooLong { bytes: text.len() };
            return Err(problem.at(0..text.len()));
        }
        if text.trim().is_empty() {
            return Err(Problem::Empty.at(0..text.len()));
        }
        let mut cursor = Cursor::new(text);
        cursor.skip_spaces();
        let value = read_value(&mut cursor)?;
        let tolerance = read_tolerance(&mut cursor, &value)?;
        let rest = cursor.rest();
        if !rest.is_empty() {
            let start = cursor.at();
            return Err(Problem::trailing(rest).at(start..start + rest.trim_end().len()));
        }
        Ok(Quantity { tolerance, ..value.quantity })
    }
}

/// One number and its unit.
struct Part {
    number: Number,
    unit: &'static Unit,
    si: f64,
    range: Range<usize>,
}

/// A value read whole, and where it stands in the text.
struct Value {
    quantity: Quantity,
    unit: &'static Unit,
    range: Range<usize>,
}

fn read_value(cursor: &mut Cursor<'_>) -> Result<Value, ParseError> {
    let start = cursor.at();
    let negative = cursor.take_sign() == Some(true);
    cursor.skip_spaces();
    let first = read_part(cursor)?;
    let mut si = first.si;
    let mut end = first.range.end;
    let unit = first.unit;
    let mut style = match first.number.form {
        Form::Decimal { places } => Style::Decimal { places },
        Form::Fraction { below } => Style::Fraction { below },
        Form::Whole => Style::PLAIN,
    };
    let mut before = first;
    let mut middle = None;
    let mut count = 1;
    while next_part_follows(cursor)? {
        let part = read_part(cursor)?;
        count += 1;
        if count > MOST_PARTS {
            return Err(Problem::TooManyParts { most: MOST_PARTS }.at(start..part.range.end));
        }
        must_continue(cursor, &before, &part)?;
        si += part.si;
        end = part.range.end;
        style = Style::Parts {
            middle,
            last: part.unit,
            finest: match part.number.form {
                Form::Decimal { places } => Finest::Decimal { places },
                Form::Fraction { below } => Finest::Fraction { below },
                Form::Whole => Finest::Fraction { below: TAPE },
            },
        };
        middle = Some(part.unit);
        before = part;
    }
    let range = start..end;
    // A sign stands in front of all the parts: -1 ft 4 in is sixteen inches the other way.
    let si = match (negative, count) {
        (false, _) => si,
        (true, 1) if unit.is_wire_gauge() => {
            let text = cursor.slice(&before.number.range);
            return Err(Problem::NotAGauge { text: format!("-{text}") }.at(range));
        }
        (true, 1) => unit.to_si(-before.number.value),
        (true, _) => -si,
    };
    must_be_real(si, unit, cursor, &range)?;
    let quantity = Quantity {
        si,
        dimension: unit.dimension(),
        unit: Some(unit),
        style,
        tolerance: None,
        reckoned: false,
    };
    Ok(Value { quantity, unit, range })
}

fn must_be_real(
    si: f64,
    unit: &'static Unit,
    cursor: &Cursor<'_>,
    range: &Range<usize>,
) -> Result<(), ParseError> {
    let text = || error::quoted(cursor.slice(range));
    if !si.is_finite() || si.abs() > LARGEST {
        return Err(Problem::TooLarge { text: text() }.at(range.clone()));
    }
    if unit.is_affine() && si < -1e-9 {
        return Err(Problem::TooCold { text: text() }.at(range.clone()));
    }
    Ok(())
}

/// Whether another part follows, as in `7 ft 2 in`, `7'2"` and `7'-2"`.
fn next_part_follows(cursor: &mut Cursor<'_>) -> Result<bool, ParseError> {
    let end = cursor.at();
    cursor.skip_spaces();
    let start = cursor.at();
    let attached = start == end;
    if cursor.at_number() {
        return Ok(true);
    }
    if cursor.at_tolerance() {
        return Ok(false);
    }
    let mut ahead = cursor.clone();
    if ahead.take_sign() == Some(true) && ahead.at_number() && attached {
        *cursor = ahead;
        return Ok(true);
    }
    let mut ahead = cursor.clone();
    if ahead.take_sign().is_some() {
        ahead.skip_spaces();
        if ahead.at_number() {
            let rest = cursor.rest().trim_end();
            return Err(Problem::SignInside { text: error::quoted(rest) }.at(start..start + rest.len()));
        }
    }
    Ok(false)
}

/// Parts of one value measure the same thing and fall in size; only the last has a fraction.
fn must_continue(cursor: &Cursor<'_>, before: &Part, part: &Part) -> Result<(), ParseError> {
    let before_text = error::quoted(cursor.slice(&before.range));
    let text = error::quoted(cursor.slice(&part.range));
    if before.unit.dimension() != part.unit.dimension() {
        let problem = Problem::MixedDimensions {
            before: before_text,
            before_noun: before.unit.dimension().noun(),
            text,
            noun: part.unit.dimension().noun(),
        };
        return Err(problem.at(part.range.clone()));
    }
    let (Some(large), Some(small), true, true) =
        (before.unit.step(), part.unit.step(), before.unit.is_linear(), part.unit.is_linear())
    else {
        return Err(Problem::NotInParts { text }.at(part.range.clone()));
    };
    let times = large / small;
    if times > 1.0 && (times - times.round()).abs() > 1e-6 {
        return Err(Problem::NotInParts { text }.at(part.range.clone()));
    }
    if small >= large {
        let problem = Problem::NotFalling { before: before_text, text, same: before.unit == part.unit };
        return Err(problem.at(part.range.clone()));
    }
    if before.number.form != Form::Whole {
        let problem = Problem::FractionNotLast { before: before_text, text };
        return Err(problem.at(before.range.clone()));
    }
    Ok(())
}

fn read_part(cursor: &mut Cursor<'_>) -> Result<Part, ParseError> {
    let start = cursor.at();
    let price = cursor.take('$');
    if price {
        cursor.skip_spaces();
    }
    let mut number = number::read(cursor)?;
    let unit = if price { unit_text::dollar(start)? } else { unit_text::read(cursor, &number)? };
    let text = cursor.slice(&number.range);
    if unit.is_wire_gauge() {
        let range = number.range.clone();
        let problem = || Problem::NotAGauge { text: error::quoted(text) };
        number.value = number::gauge(text).ok_or_else(|| problem().at(range))?;
    } else if !number.value.is_finite() && matches!(number.form, Form::Fraction { .. }) {
        let text = error::quoted(text);
        return Err(Problem::ZeroDenominator { text }.at(number.range));
    }
    Ok(Part { si: unit.to_si(number.value), unit, number, range: start..cursor.at() })
}

fn read_tolerance(cursor: &mut Cursor<'_>, value: &Value) -> Result<Option<f64>, ParseError> {
    cursor.skip_spaces();
    let mark = cursor.at();
    if !cursor.take_tolerance() {
        return Ok(None);
    }
    cursor.skip_spaces();
    if cursor.rest().is_empty() {
        return Err(Problem::NoTolerance.at(mark..cursor.at()));
    }
    let sign_at = cursor.at();
    if cursor.take_sign().is_some() {
        let rest = cursor.rest().trim_end();
        let end = cursor.at() + rest.len();
        let text = error::quoted(cursor.slice(&(sign_at..end)));
        return Err(Problem::SignedTolerance { text }.at(sign_at..end));
    }
    let half = read_value(cursor).map_err(|error| error.in_tolerance(value.unit))?;
    cursor.skip_spaces();
    let (what, takes) = (half.quantity.dimension(), value.quantity.dimension());
    let half_width = if value.unit.is_wire_gauge() || half.unit.is_wire_gauge() {
        None
    } else if what == takes {
        // Five degrees of tolerance are five steps of the scale, not the temperature of 5 °F.
        match (half.unit.step(), half.unit.is_affine()) {
            (Some(step), true) => Some(half.quantity.value() * step),
            _ => Some(half.quantity.si()),
        }
    } else if what == Dimension::NONE && !value.unit.is_affine() {
        Some(value.quantity.si().abs() * half.quantity.si())
    } else {
        None
    };
    match half_width {
        Some(width) => Ok(Some(width)),
        None => Err(Problem::OtherTolerance {
            text: error::quoted(cursor.slice(&half.range)),
            value: error::quoted(cursor.slice(&value.range)),
            noun: takes.noun(),
            gauge: value.unit.is_wire_gauge() || half.unit.is_wire_gauge(),
        }
        .at(half.range)),
    }
}

#[cfg(test)]
mod laws;
#[cfg(test)]
mod refusals;
#[cfg(test)]
mod tests;
