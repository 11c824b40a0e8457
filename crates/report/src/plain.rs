//! One line a finding: no colour, no drawing, good to search and to be read aloud.

use std::fmt::Write as _;

use pintle_finding::{Inspection, Label, Problem, Reading};
use pintle_source::Sources;

use crate::marks::Marks;
use crate::{Look, remedies, safe, words};

/// Every finding of an inspection, one line each:
/// `place: grade: rule: sentence; by what it is accepted; marks; remedy; grounds; who set the limit`. Parts that are empty are left out.
/// Passes have no line. Where remedies were tried, each has a line below the finding that it is for. The problems of the file are for [`problems`].
pub fn findings(inspection: &Inspection, sources: &Sources, look: &Look) -> String {
    let mut text = String::new();
    for (number, reading) in inspection.readings.iter().enumerate() {
        if !reading.verdict.is_finding() {
            continue;
        }
        let line = finding(reading, &inspection.spec, sources, *look);
        let _ = writeln!(text, "{}", safe::line(&line));
        for line in remedies::lines(inspection, number, *look) {
            let opening = opening(&Marks::of_reading(reading), &inspection.spec, sources);
            let _ = writeln!(text, "{}", safe::line(&format!("{opening}{line}")));
        }
    }
    text
}

/// What is wrong with files that could not be read, one line each.
///
/// ```
/// use pintle_finding::Problem;
/// use pintle_report::{Look, plain};
/// use pintle_source::Sources;
///
/// let problem = Problem::new("unreadable", "`a.toml` is not there").help("check the name");
/// let text = plain::problems(&[problem], &Sources::new(), &Look::default());
/// assert_eq!(text, "input wrong: unreadable: `a.toml` is not there; check the name\n");
/// ```
pub fn problems(problems: &[Problem], sources: &Sources, _look: &Look) -> String {
    let mut text = String::new();
    for problem in problems {
        let marks = Marks::of_problem(problem);
        let mut parts =
            vec![format!("{}: {}: {}", words::of_problem(problem), problem.code, problem.message)];
        parts.extend(mark_words(&marks, sources));
        parts.extend(problem.help.clone());
        let line = format!("{}{}", opening(&marks, "", sources), parts.join("; "));
        let _ = writeln!(text, "{}", safe::line(&line));
    }
    text
}

fn finding(reading: &Reading, spec: &str, sources: &Sources, look: Look) -> String {
    let marks = Marks::of_reading(reading);
    let grade = words::grade_and_verdict(reading);
    let mut parts = vec![format!("{grade}: {}: {}", reading.rule.id, reading.sentence(look.units))];
    // A line that opens with the stock list or a rule must still say which spec it is about.
    let elsewhere = |label: &Label| !spec.is_empty() && sources.name(label.span.source) != spec;
    if marks.shown.first().is_some_and(elsewhere) {
        parts.push(format!("in {spec}"));
    }
    parts.extend(words::accepted(reading, sources));
    parts.extend(mark_words(&marks, sources));
    parts.extend(reading.remedy.clone());
    parts.extend(reading.rule.citations.iter().map(words::short_ground));
    parts.extend(words::setters(reading, sources));
    format!("{}{}", opening(&marks, spec, sources), parts.join("; "))
}

/// The chief label's place, or at least the spec.
fn opening(marks: &Marks, spec: &str, sources: &Sources) -> String {
    match marks.shown.first() {
        Some(label) => format!("{}: ", words::place(label.span, sources)),
        None if spec.is_empty() => String::new(),
        None => format!("{spec}: "),
    }
}

/// The labels in words: the chief one's text, and the others' with their places.
fn mark_words(marks: &Marks, sources: &Sources) -> Vec<String> {
    let mut parts = Vec::new();
    let chief = marks.shown.first();
    for (number, label) in marks.shown.iter().enumerate() {
        if label.text.is_empty() {
            continue;
        }
        if number == 0 {
            parts.push(label.text.clone());
            continue;
        }
        let line = sources.locate(label.span).line;
        let same = chief.is_some_and(|chief| chief.span.source == label.span.source);
        let file = if same { String::new() } else { format!("{} ", sources.name(label.span.source)) };
        parts.push(format!("{file}line {line}: {}", label.text));
    }
    parts.extend(marks.more_words());
    parts
}

#[cfg(test)]
mod tests;
