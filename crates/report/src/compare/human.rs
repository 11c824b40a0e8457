//! For a person at a terminal: short tables, the worst news first.

use std::fmt::Write as _;

use super::{Changes, Comparison, Fate, News, PartChange, ReadingChange, say};
use crate::table::table;
use crate::{Look, human, safe, words};

/// So many margins are shown; the others are counted.
const MOST_MARGINS: usize = 10;
/// So many parts that moved along together are told one by one.
const FEW: usize = 2;

/// All that changed, and what it comes to.
pub fn text(changes: &Changes, look: &Look) -> String {
    let mut text = String::new();
    line(&mut text, &changes.headline());
    for (problems, sources) in &changes.loose {
        text.push('\n');
        text.push_str(&human::problems(problems, sources, look));
    }
    for book in &changes.rulebooks {
        text.push('\n');
        line(&mut text, &format!("rulebook {}", say::rulebook(book.old.as_deref(), book.new.as_deref())));
        for change in &book.changes {
            line(&mut text, &format!("  {}", say::rule(change, look.units)));
        }
    }
    for spec in changes.specs.iter().filter(|spec| !spec.is_same()) {
        text.push('\n');
        one(&mut text, spec, look);
    }
    text.push('\n');
    line(&mut text, &say::looked_at(changes));
    line(&mut text, &changes.headline());
    line(&mut text, crate::summary::CAUTION);
    text
}

fn line(text: &mut String, words: &str) {
    let _ = writeln!(text, "{}", safe::line(words).trim_end());
}

fn one(text: &mut String, spec: &Comparison, look: &Look) {
    let (title, before) = say::title(spec);
    line(text, &title);
    line(text, &format!("  {before}"));
    for head in spec.old.iter().chain(&spec.new).filter(|head| !head.problems.is_empty()) {
        text.push('\n');
        text.push_str(&human::problems(&head.problems, &head.sources, look));
    }
    for news in say::TOLD {
        let told: Vec<&ReadingChange> = spec.readings.iter().filter(|change| change.news == news).collect();
        if !told.is_empty() {
            text.push('\n');
            line(text, say::heading(news));
        }
        for change in told {
            finding(text, spec, change, look);
        }
    }
    margins(text, spec, look);
    weights(text, spec, look);
    parts(text, spec, look);
    let closing = [say::come_and_gone(spec), Some(say::unchanged(spec)).filter(|words| !words.is_empty())];
    if closing.iter().any(Option::is_some) {
        text.push('\n');
    }
    for words in closing.into_iter().flatten() {
        line(text, &words);
    }
}

fn finding(text: &mut String, spec: &Comparison, change: &ReadingChange, look: &Look) {
    let Some(reading) = change.told() else { return };
    let grade = words::grade_and_verdict(reading);
    line(text, &format!("  {grade}: {}, {}", reading.rule.id, spec.place_of(change)));
    line(text, &format!("    {}", reading.sentence(look.units)));
    line(text, &format!("    {}", spec.other_words(change, look.units)));
}

fn margins(text: &mut String, spec: &Comparison, look: &Look) {
    let moved = || spec.readings.iter().filter(|change| change.news == News::Moved);
    if moved().next().is_none() {
        return;
    }
    text.push('\n');
    line(text, "margins of passes that moved, the tightest first");
    let mut rows = Vec::new();
    for change in moved().take(MOST_MARGINS) {
        let Some(new) = &change.new else { continue };
        let [old_margin, new_margin, by] = say::margin_cells(change, look.units);
        let share = say::share_left(new);
        rows.push(vec![old_margin, new_margin, by, share, say::measured(new)]);
    }
    for row in table(&["was", "is", "by", "of limit", ""], &rows, &[4]) {
        line(text, &row);
    }
    let more = moved().count().saturating_sub(MOST_MARGINS);
    if more > 0 {
        line(
            text,
            &format!("  and {} with more left; `--format plain` lists all", words::counted(more, "margin")),
        );
    }
}

fn weights(text: &mut String, spec: &Comparison, look: &Look) {
    if spec.figures.is_empty() {
        return;
    }
    text.push('\n');
    line(text, "weights");
    let mut rows: Vec<Vec<String>> = Vec::new();
    let mut missing: Vec<&String> = Vec::new();
    let mut held = None;
    for change in &spec.figures {
        let of = change.state.as_deref().unwrap_or("as built");
        if held.replace(of) != Some(of) {
            rows.push(vec![of.to_owned()]);
        }
        let [old, new, by] = say::figure(change, look.units);
        rows.push(vec![format!("  {}", change.name), old, new, by]);
        for what in [&change.old, &change.new].into_iter().filter_map(|side| side.as_ref().err()) {
            if !missing.contains(&what) {
                missing.push(what);
            }
        }
    }
    for row in table(&["", "was", "is", "by"], &rows, &[0]) {
        line(text, &row);
    }
    for what in missing {
        line(text, &format!("  not known for want of {what}"));
    }
}

fn parts(text: &mut String, spec: &Comparison, look: &Look) {
    if spec.parts.is_empty() {
        return;
    }
    text.push('\n');
    line(text, "parts");
    let many: Vec<_> =
        say::carried(&spec.parts, look.units).into_iter().filter(|(_, parts)| parts.len() > FEW).collect();
    let in_group =
        |part: &PartChange| many.iter().any(|(_, parts)| parts.iter().any(|held| std::ptr::eq(*held, part)));
    for change in spec.parts.iter().filter(|part| !in_group(part)) {
        let place = spec.place(change.span, change.fate != Fate::Removed);
        let place = place.map_or(String::new(), |place| format!(", {place}"));
        line(text, &format!("  {}{place}", say::part(change, look.units)));
        let rows: Vec<Vec<String>> = change
            .fields
            .iter()
            .map(|field| {
                let [old, new, by] = say::field(field, look.units);
                let place = spec.place(Some(field.span), field.new.is_some()).unwrap_or_default();
                vec![field.path.clone(), old, new, by, place]
            })
            .collect();
        for row in table(&[], &rows, &[0, 4]) {
            line(text, &format!("  {row}"));
        }
    }
    for (moved, parts) in many {
        let names: Vec<&str> = parts.iter().map(|part| part.what.as_str()).collect();
        line(
            text,
            &format!(
                "  {} moved {moved} with what they are measured from: {}",
                words::counted(parts.len(), "part"),
                names.join(", ")
            ),
        );
    }
}
