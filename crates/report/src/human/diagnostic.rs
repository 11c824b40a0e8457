//! One finding or problem as miette takes it.

use std::fmt;

use miette::{Diagnostic, LabeledSpan, Severity, SourceCode};
use pintle_finding::{Grade, Problem, Reading, Verdict};
use pintle_source::Sources;

use super::excerpt::Excerpt;
use crate::marks::Marks;
use crate::{Look, safe, words};

/// One finding or problem, all its text made safe.
#[derive(Debug)]
pub(super) struct Shown {
    code: String,
    severity: Severity,
    message: String,
    help: String,
    excerpt: Excerpt,
}

impl Shown {
    /// A reading: what is wrong, then what would help, then why it matters and who says so.
    pub(super) fn reading(reading: &Reading, sources: &Sources, look: Look) -> Self {
        let marks = Marks::of_reading(reading);
        let title = words::small_first(&reading.rule.title);
        let message = format!("{}: {title}", words::grade_and_verdict(reading));
        let mut help: Vec<String> = words::accepted(reading, sources).into_iter().collect();
        help.extend(reading.remedy.iter().cloned());
        if !reading.rule.why.is_empty() {
            help.push(format!("why: {}", reading.rule.why));
        }
        help.extend(words::limit_basis(reading));
        help.extend(reading.rule.citations.iter().map(words::ground));
        help.extend(words::setters(reading, sources));
        Self {
            code: reading.rule.id.clone(),
            severity: severity(reading),
            message: lines(&[message, reading.sentence(look.units)]),
            help: String::new(),
            excerpt: Excerpt::new(&marks.shown, sources, look.columns()),
        }
        .finished(&help, &marks)
    }

    /// What is wrong with a file.
    pub(super) fn problem(problem: &Problem, sources: &Sources, look: Look) -> Self {
        let marks = Marks::of_problem(problem);
        let help: Vec<String> = problem.help.iter().cloned().collect();
        Self {
            code: problem.code.to_owned(),
            severity: if problem.is_warning { Severity::Warning } else { Severity::Error },
            message: safe::line(&problem.message).into_owned(),
            help: String::new(),
            excerpt: Excerpt::new(&marks.shown, sources, look.columns()),
        }
        .finished(&help, &marks)
    }

    fn finished(mut self, help: &[String], marks: &Marks) -> Self {
        let more = marks.more_words().into_iter().chain(self.excerpt.unplaced_words());
        let help: Vec<_> = help.iter().cloned().chain(more).collect();
        self.help = lines(&help);
        self.code = safe::line(&self.code).into_owned();
        self
    }
}

fn lines(texts: &[String]) -> String {
    let safe: Vec<_> = texts.iter().map(|text| safe::line(text)).collect();
    safe.join("\n")
}

/// What somebody has accepted stops nothing. A rule that failed is an error whatever its grade; what could not be judged is never less than a warning.
fn severity(reading: &Reading) -> Severity {
    if reading.accepted.is_some() {
        return Severity::Advice;
    }
    match (reading.verdict, reading.grade()) {
        (Verdict::Broken, _) | (_, Grade::Critical | Grade::Major) => Severity::Error,
        (Verdict::CannotJudge, _) | (_, Grade::Minor) => Severity::Warning,
        (_, Grade::Advice) => Severity::Advice,
    }
}

impl fmt::Display for Shown {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message)
    }
}

impl std::error::Error for Shown {}

impl Diagnostic for Shown {
    fn code<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        Some(Box::new(&self.code))
    }

    fn severity(&self) -> Option<Severity> {
        Some(self.severity)
    }

    fn help<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        (!self.help.is_empty()).then(|| Box::new(&self.help) as Box<dyn fmt::Display>)
    }

    fn source_code(&self) -> Option<&dyn SourceCode> {
        Some(&self.excerpt)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        let labels = self.excerpt.labels()?;
        Some(Box::new(labels))
    }
}
