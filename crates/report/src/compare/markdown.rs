//! For a comment on a change under review: a headline, tables, and details that open at a click.
//!
//! Every word that comes from a spec, a rule, a file's name or a revision's goes through [`escaped`] or [`code`]: none
//! of it can open a tag, a link, a table cell or a mention.

use std::fmt::Write as _;

use pintle_finding::Problem;
use pintle_source::Sources;

use super::{Changes, Comparison, Fate, News, ReadingChange, say};
use crate::{Look, safe, words};

/// So many rows of one table are shown; the others are counted.
const MOST_ROWS: usize = 40;
/// Past so many bytes, specs are named and no longer told: the places that take comments take some 65,000 characters.
const MOST_BYTES: usize = 50_000;
/// So many specs that are no longer told are named; the others are counted.
const MOST_NAMED: usize = 100;

/// All that changed, and what it comes to.
pub fn text(changes: &Changes, look: &Look) -> String {
    let mut text = String::new();
    let _ = writeln!(text, "### {}: {}\n", changes.turn().word(), escaped(&changes.headline()));
    for (problems, sources) in &changes.loose {
        problem_list(&mut text, problems, sources);
    }
    for book in &changes.rulebooks {
        let name = say::rulebook(book.old.as_deref(), book.new.as_deref());
        let rows: Vec<_> =
            book.changes.iter().map(|change| vec![escaped(&say::rule(change, look.units))]).collect();
        details(&mut text, &format!("rulebook {}", escaped(&name)), &table(&["what changed"], &rows));
    }
    let mut untold = Vec::new();
    for spec in changes.specs.iter().filter(|spec| !spec.is_same()) {
        let room = MOST_BYTES.saturating_sub(text.len());
        let told = [true, false].into_iter().map(|details| one(spec, look, details));
        match told.into_iter().find(|told| told.len() <= room) {
            Some(told) => text.push_str(&told),
            None => untold.push(spec),
        }
    }
    if !untold.is_empty() {
        let _ = writeln!(
            text,
            "{} not told here, for want of room; headline and counts hold for all, and the plain form lists them:\n",
            words::counted(untold.len(), "changed spec")
        );
        for spec in untold.iter().take(MOST_NAMED) {
            let _ = writeln!(text, "- {}: {}", spec.turn().word(), code(spec.name()));
        }
        let more = untold.len().saturating_sub(MOST_NAMED);
        if more > 0 {
            let _ = writeln!(text, "- and {more} more");
        }
        text.push('\n');
    }
    let _ = writeln!(text, "{}. {}.", escaped(&say::looked_at(changes)), crate::summary::CAUTION);
    text
}

/// Foreign text within a sentence: what stands in backticks becomes code, and nothing in it is obeyed.
///
/// ```
/// use pintle_report::compare::markdown::escaped;
///
/// assert_eq!(escaped("item `a|b` <b>"), "item <code>a&#124;b</code> &lt;b&gt;");
/// ```
pub fn escaped(text: &str) -> String {
    let parts: Vec<&str> = text.split('`').collect();
    // An odd number of parts closes every backtick that it opens.
    let balanced = parts.len() % 2 == 1;
    let mut out = String::new();
    for (at, part) in parts.iter().enumerate() {
        if balanced && at % 2 == 1 {
            out.push_str(&code(part));
        } else {
            if !balanced && at > 0 {
                out.push_str("&#96;");
            }
            harmless(part, false, &mut out);
        }
    }
    out
}

/// Foreign text as code. Mentions and numbers of issues in code are not followed by the places that take comments.
pub fn code(text: &str) -> String {
    let mut out = String::from("<code>");
    harmless(text, true, &mut out);
    out.push_str("</code>");
    out
}

/// Writes text with every character that markdown or HTML could obey as a reference to it.
fn harmless(text: &str, in_code: bool, out: &mut String) {
    let text = safe::line(text);
    let mut letters = text.chars().peekable();
    while let Some(letter) = letters.next() {
        match letter {
            // Elsewhere a colon can make a link or a picture of a word.
            ':' if matches!(letters.peek(), None | Some(' ')) => out.push(':'),
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '@' | '#' if !in_code => {
                let _ = write!(out, "<code>&#{};</code>", u32::from(letter));
            }
            // A space, a comma, a point, a slash, per cent, brackets and a hyphen within a line mean nothing by
            // themselves.
            ' ' | ',' | '%' | '(' | ')' | '/' | '-' | '+' | ';' => out.push(letter),
            '.' if !text.contains("www") => out.push('.'),
            letter if letter.is_ascii_punctuation() => {
                let _ = write!(out, "&#{};", u32::from(letter));
            }
            letter => out.push(letter),
        }
    }
}

/// One spec; without details, its margins, weights and parts are only counted.
fn one(spec: &Comparison, look: &Look, with_details: bool) -> String {
    let mut text = String::new();
    let head = spec.new.as_ref().or(spec.old.as_ref());
    let build = head.filter(|head| !head.number.is_empty());
    let build = build.map_or(String::new(), |head| format!(" {}, {}", code(&head.number), code(&head.title)));
    let _ = writeln!(text, "#### {}{build}\n", code(spec.name()));
    let _ = writeln!(text, "{}\n", say::before(spec, code));
    for head in spec.old.iter().chain(&spec.new) {
        problem_list(&mut text, &head.problems, &head.sources);
    }
    for news in say::TOLD {
        let told: Vec<&ReadingChange> = spec.readings.iter().filter(|change| change.news == news).collect();
        if told.is_empty() {
            continue;
        }
        let _ = writeln!(text, "**{}**\n", say::heading(news));
        let rows = told.iter().filter_map(|change| {
            let reading = change.told()?;
            Some(vec![
                escaped(&words::grade_and_verdict(reading)),
                code(&reading.rule.id),
                escaped(&reading.sentence(look.units)),
                escaped(&spec.other_words(change, look.units)),
                code(&spec.place_of(change)),
            ])
        });
        let _ = writeln!(
            text,
            "{}",
            table(&["grade", "rule", "reading", "other version", "place"], &rows.collect::<Vec<_>>())
        );
    }
    let moved: Vec<_> = spec.readings.iter().filter(|change| change.news == News::Moved).collect();
    let margin_title = format!("{} of passes moved", words::counted(moved.len(), "margin"));
    let weight_title = format!("{} changed", words::counted(spec.figures.len(), "weight"));
    let part_title = format!("{} changed", words::counted(spec.parts.len(), "part"));
    if with_details {
        if !moved.is_empty() {
            details(&mut text, &format!("{margin_title}, the tightest first"), &margins(&moved, look));
        }
        if !spec.figures.is_empty() {
            details(&mut text, &weight_title, &weights(spec, look));
        }
        if !spec.parts.is_empty() {
            details(&mut text, &part_title, &parts(spec, look));
        }
    } else {
        let _ = writeln!(
            text,
            "{margin_title}, {weight_title}, {part_title}: not told here, for want of room; the plain form lists them\n"
        );
    }
    let closing = [say::come_and_gone(spec), Some(say::unchanged(spec)).filter(|words| !words.is_empty())];
    for words in closing.into_iter().flatten() {
        let _ = writeln!(text, "{}\n", escaped(&words));
    }
    text
}

fn margins(moved: &[&ReadingChange], look: &Look) -> String {
    let rows = moved.iter().filter_map(|change| {
        let new = change.new.as_ref()?;
        let [old_margin, new_margin, by] = say::margin_cells(change, look.units);
        Some(vec![
            escaped(&old_margin),
            escaped(&new_margin),
            escaped(&by),
            escaped(&say::share_left(new)),
            code(&new.rule.id),
            escaped(&new.sentence(look.units)),
        ])
    });
    table(&["was", "is", "by", "of limit", "rule", "reading"], &rows.collect::<Vec<_>>())
}

fn weights(spec: &Comparison, look: &Look) -> String {
    let rows = spec.figures.iter().map(|change| {
        let [old, new, by] = say::figure(change, look.units);
        let of = change.state.as_deref().unwrap_or("as built");
        vec![escaped(of), change.name.to_owned(), escaped(&old), escaped(&new), escaped(&by)]
    });
    table(&["state", "weight", "was", "is", "by"], &rows.collect::<Vec<_>>())
}

fn parts(spec: &Comparison, look: &Look) -> String {
    let mut rows = Vec::new();
    for change in &spec.parts {
        let place = spec.place(change.span, change.fate != Fate::Removed).unwrap_or_default();
        if change.fate != Fate::Changed || !change.moves.is_empty() {
            let fate = match change.fate {
                Fate::Changed => format!("moved {}", say::moved(&change.moves, look.units)),
                other => other.word().to_owned(),
            };
            rows.push(vec![
                escaped(&change.what),
                escaped(&fate),
                String::new(),
                String::new(),
                String::new(),
                code(&place),
            ]);
        }
        for field in &change.fields {
            let [old, new, by] = say::field(field, look.units);
            let place = spec.place(Some(field.span), field.new.is_some()).unwrap_or_default();
            rows.push(vec![
                escaped(&change.what),
                code(&field.path),
                escaped(&old),
                escaped(&new),
                escaped(&by),
                code(&place),
            ]);
        }
    }
    table(&["part", "what", "was", "is", "by", "place"], &rows)
}

/// A table; its cells are markdown already.
fn table(head: &[&str], rows: &[Vec<String>]) -> String {
    let mut text = format!("| {} |\n|{}\n", head.join(" | "), "---|".repeat(head.len()));
    for row in rows.iter().take(MOST_ROWS) {
        let _ = writeln!(text, "| {} |", row.join(" | "));
    }
    let more = rows.len().saturating_sub(MOST_ROWS);
    if more > 0 {
        let _ = writeln!(text, "\nand {more} more, which the plain form lists");
    }
    text
}

fn details(text: &mut String, title: &str, inside: &str) {
    let _ = writeln!(text, "<details><summary>{title}</summary>\n\n{inside}\n</details>\n");
}

fn problem_list(text: &mut String, problems: &[Problem], sources: &Sources) {
    if problems.is_empty() {
        return;
    }
    for problem in problems {
        let place = problem.labels.first().map(|label| words::place(label.span, sources));
        let place = place.map_or(String::new(), |place| format!("{}: ", code(&place)));
        let help = problem.help.as_ref().map_or(String::new(), |help| format!("; {}", escaped(help)));
        let sort = words::of_problem(problem);
        let _ = writeln!(text, "- {sort}: {place}{}{help}", escaped(&problem.message));
    }
    text.push('\n');
}
