//! One line a change: good to search and to be read aloud. Nothing that changed is left out.

use std::fmt::Write as _;

use super::{Changes, Comparison, Fate, News, say};
use crate::{Look, plain, safe, words};

/// Every change, one line each, then what it all comes to.
pub fn text(changes: &Changes, look: &Look) -> String {
    let mut text = String::new();
    for (problems, sources) in &changes.loose {
        text.push_str(&plain::problems(problems, sources, look));
    }
    for book in &changes.rulebooks {
        let name = say::rulebook(book.old.as_deref(), book.new.as_deref());
        for change in &book.changes {
            line(&mut text, &format!("{name}: rulebook: {}", say::rule(change, look.units)));
        }
    }
    for spec in changes.specs.iter().filter(|spec| !spec.is_same()) {
        one(&mut text, spec, look);
    }
    line(&mut text, &say::looked_at(changes));
    line(&mut text, &changes.headline());
    line(&mut text, crate::summary::CAUTION);
    text
}

fn line(text: &mut String, words: &str) {
    let _ = writeln!(text, "{}", safe::line(words));
}

fn one(text: &mut String, spec: &Comparison, look: &Look) {
    let (title, before) = say::title(spec);
    line(text, &format!("{title}; {before}"));
    for head in spec.old.iter().chain(&spec.new) {
        text.push_str(&plain::problems(&head.problems, &head.sources, look));
    }
    for change in &spec.readings {
        let Some(reading) = change.told() else { continue };
        let place = spec.place_of(change);
        let grade = words::grade_and_verdict(reading);
        let graded = if matches!(change.news, News::Moved | News::Otherwise) {
            reading.verdict.word()
        } else {
            &grade
        };
        let sentence = reading.sentence(look.units);
        let other = spec.other_words(change, look.units);
        line(
            text,
            &format!("{place}: {}: {graded}: {}: {sentence}; {other}", change.news.word(), reading.rule.id),
        );
    }
    let name = spec.name();
    for change in &spec.figures {
        let [old, new, by] = say::figure(change, look.units);
        let by = if by.is_empty() { by } else { format!(" ({by})") };
        let of = change.state.as_ref().map_or("as built".to_owned(), Clone::clone);
        let missing = [&change.old, &change.new].into_iter().find_map(|side| side.as_ref().err());
        let missing = missing.map_or(String::new(), |what| format!("; for want of {what}"));
        line(text, &format!("{name}: weight: {of}: {} from {old} to {new}{by}{missing}", change.name));
    }
    for change in &spec.parts {
        let place = spec.place(change.span, change.fate != Fate::Removed).unwrap_or_else(|| name.to_owned());
        if change.fate != Fate::Changed || !change.moves.is_empty() {
            line(text, &format!("{place}: part: {}", say::part(change, look.units)));
        }
        for field in &change.fields {
            let [old, new, by] = say::field(field, look.units);
            let by = if by.is_empty() { by } else { format!(" ({by})") };
            let place = spec.place(Some(field.span), field.new.is_some()).unwrap_or_else(|| name.to_owned());
            line(text, &format!("{place}: field: {}: `{}` from {old} to {new}{by}", change.what, field.path));
        }
    }
    let unchanged = say::unchanged(spec);
    if !unchanged.is_empty() {
        line(text, &format!("{name}: {unchanged}"));
    }
}
