//! How problems are worded, and how much is said: names fit to print, near names within bounds, problems in order.

use pintle_finding::{Label, Problem, Role, nearest};
use pintle_source::{SourceId, Span};

use crate::node::section;

/// The most problems said of one file; a file with more is read no further.
pub(crate) const MOST_PROBLEMS: usize = 5_000;
/// The most characters of a user's text that a message repeats.
const MOST_SHOWN: usize = 80;
/// The longest name that near names are looked for, and the longest that is offered, in bytes.
const LONGEST_NAME: usize = 80;
/// After so many problems near names are no longer looked for.
const MOST_HELPED: usize = 100;
/// The most pairs of characters compared in search of one near name.
const MOST_PAIRS: usize = 100_000;
/// So many problems of one place are looked through for one that is said twice.
const MOST_AT_ONE_PLACE: usize = 100;
/// How much less it costs to see that two names share too few letters than to compare them.
const CHEAPER: usize = 16;

/// How the fault of grammar ends that a value is not in quotes, and the one that there is no value.
pub(crate) const NOT_QUOTED: &str = "must be in quotes";
pub(crate) const NO_VALUE: &str = "a value is missing";

/// A user's text as messages repeat it: on one line, what cannot be seen written out, not too long.
pub(crate) fn shown(text: &str) -> String {
    let mut shown = String::with_capacity(text.len().min(MOST_SHOWN * 4));
    for (count, letter) in text.chars().enumerate() {
        if count == MOST_SHOWN {
            shown.push('…');
            break;
        }
        if is_hidden(letter) {
            shown.extend(letter.escape_default());
        } else {
            shown.push(letter);
        }
    }
    shown
}

/// Whether a character commands a terminal, breaks the line or turns the direction of writing.
pub(crate) fn is_hidden(letter: char) -> bool {
    letter.is_control() || matches!(letter, '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{feff}')
}

/// A noun with its article: "a rack", "an alarm".
pub(crate) fn a(noun: &str) -> String {
    let article = if noun.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" };
    format!("{article} {noun}")
}

/// The known name nearest to `given`, within bounds of work; `said` counts the problems there are already.
pub(crate) fn near<'a>(given: &str, known: impl Iterator<Item = &'a str>, said: usize) -> Option<&'a str> {
    if past_help(said) || given.trim().is_empty() || given.len() > LONGEST_NAME {
        return None;
    }
    let letters: Vec<char> = given.to_lowercase().chars().collect();
    let mut cost = 0;
    let known = known.filter(|name| !name.is_empty() && name.len() <= LONGEST_NAME).filter(|name| {
        let pairs = name.len() * given.len();
        cost += pairs / CHEAPER;
        if cost > MOST_PAIRS || !may_be_near(&letters, given, name) {
            return false;
        }
        cost += pairs;
        true
    });
    nearest(given, known)
}

/// Whether so much is wrong that known names are no longer offered.
pub(crate) fn past_help(said: usize) -> bool {
    said >= MOST_HELPED
}

/// What is offered then.
pub(crate) const PAST_HELP: &str = "correct the first problems of this file first";

/// Whether a name can be near at all: it shares most of its letters with the one given, in whatever order, or one is
/// part of the other.
fn may_be_near(letters: &[char], given: &str, name: &str) -> bool {
    let name = name.to_lowercase();
    let longest = letters.len().max(name.chars().count());
    let mut left = letters.to_vec();
    let in_both = |letter: &char| {
        let found = left.iter().position(|other| other == letter);
        found.map(|at| left.swap_remove(at)).is_some()
    };
    let shared = name.chars().filter(in_both).count();
    // Each letter that is not shared is a change, and at most four in ten may be changed.
    10 * shared >= 6 * longest || name.contains(&given.to_lowercase()) || given.to_lowercase().contains(&name)
}

/// Whether so much is wrong that the rest is not read.
pub(crate) fn full(problems: &[Problem]) -> bool {
    problems.len() >= MOST_PROBLEMS
}

/// Puts problems in the order of the file, those that stand in other files last, and none of them twice.
pub(crate) fn in_order(problems: &mut Vec<Problem>, source: SourceId) {
    let too_many = full(problems);
    let place = |problem: &Problem| problem.labels.first().map(|label| label.span);
    let key = |problem: &Problem| place(problem).map(|span| (span.source != source, span));
    problems.sort_by_key(key);
    let mut kept: Vec<Problem> = Vec::with_capacity(problems.len());
    for problem in problems.drain(..) {
        let at = key(&problem);
        let mut same_place = kept.iter().rev().take(MOST_AT_ONE_PLACE).take_while(|other| key(other) == at);
        if !same_place.any(|other| *other == problem) {
            kept.push(problem);
        }
    }
    *problems = kept;
    if too_many {
        problems.truncate(MOST_PROBLEMS);
        let message =
            format!("more than {MOST_PROBLEMS} problems were found, and the rest of the file was not read");
        let mut problem = Problem::new("too-many-problems", message).help("correct these first");
        if let Some(last) = problems.last().and_then(place) {
            problem = problem.at(Label::new(last, Role::Subject, "read as far as here"));
        }
        problems.push(problem);
    }
}

/// Takes out what only echoes a fault of the file's grammar: a value that could not be read, a table whose header
/// is broken, a name that may stand in what could not be read.
pub(crate) fn hush_echoes(problems: &mut Vec<Problem>, grammar: &[Problem], text: &str) {
    if grammar.is_empty() {
        return;
    }
    let place = |problem: &Problem| problem.labels.first().map(|label| label.span);
    let structural: Vec<&Problem> = grammar.iter().filter(|problem| is_structural(problem)).collect();
    let mut broken: Vec<std::ops::Range<usize>> = Vec::new();
    for span in structural.iter().filter_map(|problem| place(problem)) {
        if broken.last().is_none_or(|last| !last.contains(&(span.start as usize))) {
            broken.push(section(text, span.start as usize));
        }
    }
    let mut grammar_places: Vec<Span> = grammar.iter().filter_map(|problem| reach(problem, text)).collect();
    grammar_places.sort();
    let touches = |span: Span| {
        let after = grammar_places.partition_point(|other| other.start <= span.end);
        // Faults of grammar do not lie within each other: only the last few before the end can reach in.
        grammar_places.iter().take(after).rev().take(4).any(|other| other.end >= span.start)
    };
    problems.retain(|problem| {
        let absent = matches!(
            problem.code,
            "missing-value" | "unknown-tag" | "unknown-zone" | "unknown-part" | "not-a-spec"
        );
        if !structural.is_empty() && absent {
            return false;
        }
        let Some(span) = place(problem) else { return true };
        let in_broken = broken.iter().any(|range| range.contains(&(span.start as usize)));
        !touches(span) && !in_broken
    });
}

/// The bytes that a fault of grammar spoils: a value that is missing, to the end of its line.
fn reach(problem: &Problem, text: &str) -> Option<Span> {
    let mut span = problem.labels.first()?.span;
    if problem.message.ends_with(NO_VALUE) {
        let rest = text.get(span.end as usize..).unwrap_or("");
        let line = rest.find('\n').unwrap_or(rest.len());
        span.end = span.end.saturating_add(u32::try_from(line).unwrap_or(u32::MAX));
    }
    Some(span)
}

/// Whether a fault of grammar may have put what follows it in the wrong place.
fn is_structural(problem: &Problem) -> bool {
    let of_one_value = [NOT_QUOTED, NO_VALUE];
    problem.code == "not-toml" && !of_one_value.iter().any(|told| problem.message.ends_with(told))
}

#[cfg(test)]
mod tests;
