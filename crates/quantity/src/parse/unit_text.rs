//! Where a unit's text ends, which unit it is, and which one was perhaps meant.

use super::cursor::{Cursor, is_dash};
use super::error::{ParseError, Problem, quoted};
use super::number::{self, Number};
use crate::unit::Unit;

/// Reads the unit of a number just read.
pub(super) fn read(cursor: &mut Cursor<'_>, number: &Number) -> Result<&'static Unit, ParseError> {
    cursor.skip_spaces();
    let start = cursor.at();
    let text = take_run(cursor).trim_end();
    if text.is_empty() {
        return Err(no_unit(cursor, number));
    }
    let range = start..start + text.len();
    *cursor = cursor.back_to(range.end);
    if let Some(unit) = Unit::find(text) {
        return Ok(unit);
    }
    if let Some(after) = text_after_unit(text) {
        let from = range.end - after.len();
        return Err(Problem::trailing(after).at(from..range.end));
    }
    let problem = Problem::UnknownUnit { nearest: nearest(text), text: quoted(text) };
    Err(problem.at(range))
}

/// The unit of a number with `$` in front.
pub(super) fn dollar(at: usize) -> Result<&'static Unit, ParseError> {
    let unknown = || Problem::UnknownUnit { text: "$".to_owned(), nearest: None };
    Unit::find("$").ok_or_else(|| unknown().at(at..at + 1))
}

fn no_unit(cursor: &Cursor<'_>, number: &Number) -> ParseError {
    let first = quoted(cursor.slice(&number.range));
    let mut ahead = cursor.clone();
    if ahead.take_sign() != Some(false) && ahead.at_number() {
        let second = ahead.take_while(|letter| !letter.is_whitespace());
        let problem = Problem::TwoNumbers { first, second: quoted(second) };
        return problem.at(number.range.start..ahead.at());
    }
    Problem::NoUnit { number: first, unit: None }.at(number.range.clone())
}

/// A unit runs to the next number, sign or tolerance: `sq in`, `inH2O`, `ft-lb`, but not the 2 of
/// `7 ft 2 in`, `7'2"` or `7'-2"`.
fn take_run<'t>(cursor: &mut Cursor<'t>) -> &'t str {
    let start = cursor.at();
    let mut before = ' ';
    while let Some(letter) = cursor.peek() {
        let begins_number = cursor.at_number() && !matches!(letter, '.' | '$');
        let breaks_off = before.is_whitespace() || matches!(before, '\'' | '"' | '′' | '″' | '’' | '”');
        if matches!(letter, '+' | '±') || number::vulgar(letter).is_some() {
            break;
        }
        if begins_number && breaks_off {
            break;
        }
        if is_dash(letter) {
            let mut ahead = cursor.clone();
            ahead.next();
            ahead.skip_spaces();
            if ahead.at_number() {
                break;
            }
        }
        before = letter;
        cursor.next();
    }
    cursor.slice(&(start..cursor.at()))
}

/// What follows a known unit, as in `150 lb wet` or `150 lb, wet`.
fn text_after_unit(text: &str) -> Option<&str> {
    let places = text.char_indices().rev();
    let mut breaks =
        places.filter(|(_, letter)| letter.is_whitespace() || matches!(letter, ',' | ';' | ':' | '('));
    breaks.find_map(|(at, _)| {
        let (unit, after) = text.split_at_checked(at)?;
        Unit::find(unit).map(|_| after.trim_start())
    })
}

/// The spelling nearest to an unknown unit, where one is near enough to be worth offering.
fn nearest(text: &str) -> Option<String> {
    match text {
        "F" => return Some("°F".to_owned()),
        "C" => return Some("°C".to_owned()),
        _ => {}
    }
    let small = text.to_lowercase();
    let allowed = match text.chars().count() {
        0 | 1 => 0,
        2..=4 => 1,
        _ => 2,
    };
    let spellings = Unit::all().iter().flat_map(Unit::spellings);
    let near = spellings.filter_map(|spelling| {
        let steps = strsim::osa_distance(&small, &spelling.to_lowercase());
        let same_start = small.chars().next() == spelling.to_lowercase().chars().next();
        let worth =
            steps <= allowed && (steps < 2 || same_start) && (steps == 0 || spelling.chars().count() > 1);
        worth.then_some((steps, spelling))
    });
    near.min_by_key(|(steps, _)| *steps).map(|(_, spelling)| spelling.to_owned())
}
