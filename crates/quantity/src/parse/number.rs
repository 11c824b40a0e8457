//! Numbers: whole, decimal, with thousands grouped, and mixed with a fraction.

use std::ops::Range;

use super::cursor::{Cursor, is_dash};
use super::error::{ParseError, Problem, quoted};
use crate::quantity::TAPE;

/// A number without its sign.
#[derive(Clone, Debug)]
pub(super) struct Number {
    /// Infinite or not a number where a fraction has nothing below the line, as in the 2/0 of a
    /// wire gauge.
    pub(super) value: f64,
    pub(super) form: Form,
    pub(super) range: Range<usize>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Form {
    Whole,
    Decimal { places: u8 },
    Fraction { below: u16 },
}

pub(super) fn read(cursor: &mut Cursor<'_>) -> Result<Number, ParseError> {
    let start = cursor.at();
    let clump = cursor.take_while(|letter| letter.is_ascii_digit() || matches!(letter, ',' | '.'));
    let clump_range = start..cursor.at();
    if clump.is_empty() {
        return match take_fraction(cursor) {
            Some((fraction, below)) => {
                Ok(Number { value: fraction, form: Form::Fraction { below }, range: start..cursor.at() })
            }
            None => Err(no_number(cursor, start)),
        };
    }
    if let Some(text) = take_power_of_ten(cursor, start) {
        return Err(Problem::PowerOfTen { text: quoted(text) }.at(start..cursor.at()));
    }
    let (value, form) = plain(clump).map_err(|problem| problem.at(clump_range.clone()))?;
    if form == Form::Whole && slash_follows(cursor) {
        cursor.next();
        let below = cursor.take_while(|letter| letter.is_ascii_digit());
        return Ok(Number {
            value: value / below.parse().unwrap_or(f64::NAN),
            form: Form::Fraction { below: below.parse().unwrap_or(TAPE) },
            range: start..cursor.at(),
        });
    }
    let mut ahead = cursor.clone();
    let fraction_at = pass_gap(&mut ahead);
    let Some((fraction, below)) = take_fraction(&mut ahead) else {
        return Ok(Number { value, form, range: clump_range });
    };
    *cursor = ahead;
    let range = start..cursor.at();
    let text = quoted(cursor.slice(&range));
    if form != Form::Whole {
        return Err(Problem::DecimalAndFraction { text }.at(range));
    }
    if !fraction.is_finite() {
        let text = quoted(cursor.slice(&(fraction_at..range.end)));
        return Err(Problem::ZeroDenominator { text }.at(fraction_at..range.end));
    }
    if fraction >= 1.0 {
        let fraction = quoted(cursor.slice(&(fraction_at..range.end)));
        return Err(Problem::Improper { text, fraction }.at(fraction_at..range.end));
    }
    Ok(Number { value: value + fraction, form: Form::Fraction { below }, range })
}

fn no_number(cursor: &mut Cursor<'_>, start: usize) -> ParseError {
    let word = cursor.take_while(|letter| !letter.is_whitespace());
    if word.is_empty() {
        // Only a sign or a `$` is there.
        let before = cursor.slice(&(0..start));
        return Problem::NoNumber { text: quoted(before.trim()) }.at(0..start);
    }
    Problem::NoNumber { text: quoted(word) }.at(start..cursor.at())
}

/// Digits with their commas and point, to a value.
fn plain(clump: &str) -> Result<(f64, Form), Problem> {
    let text = || quoted(clump);
    let (whole, decimals) = match clump.split_once('.') {
        Some((whole, decimals)) => (whole, Some(decimals)),
        None => (clump, None),
    };
    if decimals.is_some_and(|decimals| decimals.is_empty() || decimals.contains(['.', ','])) {
        return Err(Problem::BadNumber { text: text() });
    }
    let mut groups = whole.split(',');
    let first = groups.next().unwrap_or_default();
    let mut rest = groups.clone();
    let grouped = (1..=3).contains(&first.len()) && rest.all(|group| group.len() == 3);
    if whole.contains(',') && !grouped {
        return Err(match (whole.split_once(','), decimals) {
            (Some((units, tenths)), None) if !tenths.contains(',') && !tenths.is_empty() => {
                Problem::DecimalComma {
                    text: text(),
                    point: format!("{}.{tenths}", if units.is_empty() { "0" } else { units }),
                }
            }
            _ => Problem::BadGroups { text: text() },
        });
    }
    let value = clump.replace(',', "").parse();
    let value = value.map_err(|_| Problem::BadNumber { text: text() })?;
    let form = match decimals {
        Some(decimals) => Form::Decimal { places: u8::try_from(decimals.len()).unwrap_or(u8::MAX) },
        None => Form::Whole,
    };
    Ok((value, form))
}

/// `e3` after a number: no shop writes it, and a missing unit could hide in it.
fn take_power_of_ten<'t>(cursor: &mut Cursor<'t>, start: usize) -> Option<&'t str> {
    let mut ahead = cursor.clone();
    if !matches!(ahead.next(), Some('e' | 'E')) {
        return None;
    }
    ahead.take_sign();
    if ahead.take_while(|letter| letter.is_ascii_digit()).is_empty() {
        return None;
    }
    *cursor = ahead;
    Some(cursor.slice(&(start..cursor.at())))
}

fn slash_follows(cursor: &Cursor<'_>) -> bool {
    let mut letters = cursor.rest().chars();
    letters.next().is_some_and(is_slash) && letters.next().is_some_and(|letter| letter.is_ascii_digit())
}

fn is_slash(letter: char) -> bool {
    matches!(letter, '/' | '⁄' | '∕')
}

/// Passes what may stand between a whole number and its fraction: spaces, or one hyphen.
fn pass_gap(cursor: &mut Cursor<'_>) -> usize {
    if cursor.peek().is_some_and(is_dash) {
        cursor.next();
    } else {
        cursor.skip_spaces();
    }
    cursor.at()
}

/// Passes `3/8` or `⅜` and gives it with what is below its line; `None`, unmoved, where neither stands.
fn take_fraction(cursor: &mut Cursor<'_>) -> Option<(f64, u16)> {
    let mut ahead = cursor.clone();
    if let Some((above, below)) = ahead.peek().and_then(vulgar) {
        cursor.next();
        return Some((f64::from(above) / f64::from(below), u16::from(below)));
    }
    let above: f64 = ahead.take_while(|letter| letter.is_ascii_digit()).parse().ok()?;
    if !slash_follows(&ahead) {
        return None;
    }
    ahead.next();
    let below = ahead.take_while(|letter| letter.is_ascii_digit());
    *cursor = ahead;
    Some((above / below.parse::<f64>().ok()?, below.parse().unwrap_or(TAPE)))
}

/// Fractions that are one character.
pub(super) fn vulgar(letter: char) -> Option<(u8, u8)> {
    Some(match letter {
        '½' => (1, 2),
        '⅓' => (1, 3),
        '⅔' => (2, 3),
        '¼' => (1, 4),
        '¾' => (3, 4),
        '⅕' => (1, 5),
        '⅖' => (2, 5),
        '⅗' => (3, 5),
        '⅘' => (4, 5),
        '⅙' => (1, 6),
        '⅚' => (5, 6),
        '⅛' => (1, 8),
        '⅜' => (3, 8),
        '⅝' => (5, 8),
        '⅞' => (7, 8),
        '⅒' => (1, 10),
        _ => return None,
    })
}

/// The gauge number of `10`, `0`, `2/0` or `00`: 40 to −3. `None` for any other text.
pub(super) fn gauge(text: &str) -> Option<f64> {
    let zeros = match text.split_once(is_slash) {
        Some((count, "0")) => count.parse::<u8>().ok()?,
        Some(_) => return None,
        None if text.bytes().all(|byte| byte == b'0') => u8::try_from(text.len()).ok()?,
        None => {
            let number: u8 = text.parse().ok()?;
            return (1..=40).contains(&number).then(|| f64::from(number));
        }
    };
    (1..=4).contains(&zeros).then(|| 1.0 - f64::from(zeros))
}
