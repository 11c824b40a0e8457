//! For a person at a terminal: each finding with the lines it stands on, what would put it right, and who says so.

mod diagnostic;
mod excerpt;
mod row;

use std::collections::BTreeSet;
use std::fmt::Write as _;

use miette::{GraphicalReportHandler, GraphicalTheme, ThemeCharacters, ThemeStyles};
use pintle_finding::{Accepted, Inspection, Problem, Reading};
use pintle_source::Sources;

use crate::marks::Marks;
use crate::{Look, remedies, safe, words};
use diagnostic::Shown;

/// Every finding of an inspection, in the rulebook's order, drawn one after another. Passes are not drawn, nor are
/// the problems of the file: those are for [`problems`]. Empty when there is nothing to report.
///
/// Where remedies were tried, they stand below the finding that they are for. What is in the backlog has one line each,
/// after all others: it was there before, and there may be much of it.
pub fn findings(inspection: &Inspection, sources: &Sources, look: &Look) -> String {
    let mut text = String::new();
    let mut described = BTreeSet::new();
    for (number, reading) in inspection.readings.iter().enumerate() {
        if reading.verdict.is_finding() && !is_listed(reading) {
            if !text.is_empty() {
                text.push('\n');
            }
            text.push_str(&drawn(std::iter::once(Shown::reading(reading, sources, *look)), *look));
            text.push_str(&remedies::below(inspection, number, &mut described, *look));
        }
    }
    let listed: Vec<&Reading> = inspection
        .readings
        .iter()
        .filter(|reading| reading.verdict.is_finding() && is_listed(reading))
        .collect();
    if !listed.is_empty() {
        let gap = if text.is_empty() { "" } else { "\n" };
        let _ = writeln!(text, "{gap}in the backlog, of {}:", safe::line(&inspection.spec));
    }
    for reading in listed {
        let place = Marks::of_reading(reading).shown.first().map(|label| words::place(label.span, sources));
        let place = place.map_or(String::new(), |place| format!("{place}: "));
        let words = words::grade_and_verdict(reading);
        let line = format!("  {place}{words}: {}: {}", reading.rule.id, reading.sentence(look.units));
        let _ = writeln!(text, "{}", safe::line(&line));
    }
    text
}

fn is_listed(reading: &Reading) -> bool {
    matches!(reading.accepted, Some(Accepted::Backlog(_)))
}

/// What is wrong with files that could not be read, drawn one after another.
///
/// ```
/// use pintle_finding::{Label, Problem, Role};
/// use pintle_report::{Look, human};
/// use pintle_source::{Sources, Span};
///
/// let mut sources = Sources::new();
/// let spec = sources.add("a.toml", "gvrw = \"2990 lb\"\n");
/// let place = Label::new(Span::new(spec, 0, 4), Role::Subject, "no such key");
/// let problem = Problem::new("unknown-key", "`gvrw` is no key of a trailer").at(place);
/// let text = human::problems(&[problem], &sources, &Look::default());
/// assert!(text.contains("× `gvrw` is no key of a trailer"));
/// assert!(text.contains("[a.toml:1:1]"));
/// ```
pub fn problems(problems: &[Problem], sources: &Sources, look: &Look) -> String {
    drawn(problems.iter().map(|problem| Shown::problem(problem, sources, *look)), *look)
}

fn drawn(all: impl Iterator<Item = Shown>, look: Look) -> String {
    let handler = handler(look);
    let mut text = String::new();
    for shown in all {
        let mut report = String::new();
        // Writing to a string does not fail, and an excerpt always holds its own labels; should drawing fail all
        // the same, the message still goes out.
        if handler.render_report(&mut report, &shown).is_err() {
            report = format!("{shown}\n");
        }
        if !text.is_empty() {
            text.push('\n');
        }
        for line in report.lines() {
            text.push_str(line.trim_end());
            text.push('\n');
        }
    }
    text
}

fn handler(look: Look) -> GraphicalReportHandler {
    let characters = if look.unicode { ThemeCharacters::unicode() } else { ThemeCharacters::ascii() };
    let styles = if look.colour { ThemeStyles::ansi() } else { ThemeStyles::none() };
    GraphicalReportHandler::new_themed(GraphicalTheme { characters, styles })
        .with_width(look.columns())
        .with_context_lines(1)
        .with_urls(false)
        .without_syntax_highlighting()
}

#[cfg(test)]
pub(crate) mod hostile;
#[cfg(test)]
mod tests;
