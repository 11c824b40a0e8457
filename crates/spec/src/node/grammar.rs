//! Faults of a file's grammar, as problems: in order, each once, without those that only follow from another.

use std::ops::Range;

use pintle_finding::{Label, Problem, Role};
use pintle_source::SourceId;

use super::span;
use crate::say::{NO_VALUE, NOT_QUOTED, shown};

/// The most faults of grammar that are said of one file.
const MOST: usize = 100;

/// A fault as the parser gives it: what is wrong, and where.
struct Fault<'e> {
    message: &'e str,
    range: Range<usize>,
}

/// What is wrong with the grammar of a text.
pub(super) fn problems(source: SourceId, text: &str, errors: &[toml::de::Error]) -> Vec<Problem> {
    let mut faults: Vec<Fault<'_>> = errors
        .iter()
        .map(|error| Fault {
            message: error.message().lines().next().unwrap_or("unreadable"),
            range: error.span().unwrap_or(0..0),
        })
        .collect();
    faults.sort_by_key(|fault| (fault.range.start, fault.range.end));
    drop_followers(&mut faults, text);
    let left_over = faults.len().saturating_sub(MOST);
    faults.truncate(MOST);
    let mut problems: Vec<Problem> = faults.iter().map(|fault| problem(source, text, fault)).collect();
    if left_over > 0 {
        let message = format!("{left_over} more lines of this file are not TOML");
        let mut more = Problem::new("not-toml", message).help("correct the first ones first");
        if let Some(label) = problems.last().and_then(|last| last.labels.first()) {
            more = more.at(Label::new(label.span, Role::Subject, "after this"));
        }
        problems.push(more);
    }
    problems
}

/// The text with every table whose header is not closed made blank, each byte in its place; nothing when all are
/// closed.
pub(super) fn without_broken_headers(text: &str, errors: &[toml::de::Error]) -> Option<String> {
    let unclosed = |error: &&toml::de::Error| {
        ["unclosed table", "unclosed array table"].iter().any(|told| error.message().starts_with(told))
    };
    let mut sections: Vec<Range<usize>> = Vec::new();
    for at in errors.iter().filter(unclosed).filter_map(|error| Some(error.span()?.start)) {
        if !sections.iter().rev().take(4).any(|section| section.contains(&at)) {
            sections.push(section(text, at));
        }
    }
    sections.sort_by_key(|section| section.start);
    let mut blank = String::with_capacity(text.len());
    let mut done = 0;
    for section in sections {
        blank.push_str(text.get(done..section.start.max(done))?);
        let bytes = text.get(section.start.max(done)..section.end)?.bytes();
        blank.extend(bytes.map(|byte| if byte == b'\n' { '\n' } else { ' ' }));
        done = section.end;
    }
    if done == 0 {
        return None;
    }
    blank.push_str(text.get(done..)?);
    Some(blank)
}

/// The bytes from the header of the table that a place stands in to the next header.
pub(crate) fn section(text: &str, at: usize) -> Range<usize> {
    let line = text.get(..at).and_then(|front| front.rfind('\n')).map_or(0, |end| end + 1);
    let start = if text.get(line..).is_some_and(|rest| rest.starts_with('[')) {
        line
    } else {
        text.get(..at).and_then(|front| front.rfind("\n[")).map_or(0, |end| end + 1)
    };
    let end = text.get(at..).and_then(|rest| rest.find("\n[")).map_or(text.len(), |end| at + end + 1);
    start..end
}

/// Takes out the faults that only follow from another: all but the first of a line, except keys given twice; and
/// what comes of reading on in a bracket that is never closed.
fn drop_followers(faults: &mut Vec<Fault<'_>>, text: &str) {
    let is_open = |fault: &Fault<'_>| {
        let rest = text.get(fault.range.start..).unwrap_or("");
        fault.message.starts_with("unclosed") && rest.trim().is_empty()
    };
    let is_follower = |fault: &Fault<'_>| {
        fault.message.starts_with("missing comma") || fault.message.starts_with("unexpected `=`")
    };
    let unclosed = faults.iter().any(is_open);
    let first = faults
        .iter()
        .find(|fault| is_follower(fault) || fault.message.starts_with("cannot recurse"))
        .map(|fault| fault.range.start);
    if let (true, Some(first)) = (unclosed, first) {
        faults.retain(|fault| fault.range.start <= first);
    }
    let mut line_end = None;
    faults.retain(|fault| {
        let same_line = line_end.is_some_and(|end| fault.range.start <= end);
        if fault.message == "duplicate key" {
            return !same_line;
        }
        let rest = text.get(fault.range.start..).unwrap_or("");
        line_end = Some(fault.range.start + rest.find('\n').unwrap_or(rest.len()));
        !same_line
    });
}

fn problem(source: SourceId, text: &str, fault: &Fault<'_>) -> Problem {
    let mut range = fault.range.clone();
    if range.is_empty() {
        // Point at something that can be seen: the character there, or the one before the line's end.
        let here = text.get(range.start..).and_then(|rest| rest.chars().next());
        match here {
            Some(seen) if seen != '\n' && seen != '\r' => range.end = range.start + seen.len_utf8(),
            _ => {
                let before = text.get(..range.start).map_or(0, |front| front.trim_end().len());
                let last = text.get(..before).and_then(|front| front.chars().next_back());
                range = before - last.map_or(0, char::len_utf8)..before;
            }
        }
    }
    let (code, message, help) = worded(fault.message, text.get(fault.range.clone()).unwrap_or(""));
    Problem::new(code, message).at(Label::new(span(source, &range), Role::Subject, "here")).help(help)
}

/// The parser's words in the trade's: a code, a message and a help.
fn worded(told: &str, at: &str) -> (&'static str, String, &'static str) {
    let mut code = "not-toml";
    let mut message = format!("this is not TOML: {told}");
    let help = match told {
        "duplicate key" => {
            code = "duplicate-key";
            message = format!("this is not TOML: the key `{}` is given twice", shown(at));
            "keep one of the two"
        }
        "recursion limit" => {
            "this is not TOML that can be read: a key has too many dots".clone_into(&mut message);
            "no table of a spec, a stock list or a rule lies deeper than a few others"
        }
        told if told.starts_with("cannot recurse") => {
            "this is not TOML that can be read: too many brackets within each other".clone_into(&mut message);
            "no table of a spec, a stock list or a rule lies deeper than a few others"
        }
        told if told.contains("must be quoted") && at.is_empty() => {
            message = format!("this is not TOML: {NO_VALUE}");
            "write a value after `=`, or take the line out"
        }
        told if told.contains("must be quoted") => {
            message = format!("this is not TOML: `{}` {NOT_QUOTED}", shown(at));
            "put the value in quotes"
        }
        told if told.starts_with("missing comma") => {
            "put a comma between the two, or close the bracket before them"
        }
        told if told.starts_with("unclosed") => "close the bracket that was opened",
        told if told.starts_with("key with no value") => "write a key, `=` and a value",
        told if told.contains("carriage return") => "save the file with line ends of one kind",
        _ => "correct the line; a value with an inch mark needs '''…''' or \\\" inside its quotes",
    };
    (code, message, help)
}
