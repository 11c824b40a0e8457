//! Rows in columns, and words that hang beside figures.

use unicode_width::UnicodeWidthStr;

use crate::wrap::wrapped;

/// Least columns that names in a table are given.
const LEAST_NAME: usize = 16;
/// Least columns that words beside a figure are given; where there are fewer, they stand below it.
const NARROW: usize = 28;
/// How far in they stand then.
const BELOW: usize = 8;

/// Rows in columns: the first flush left, the others flush right. Where they would be wider than so many columns, the
/// first is broken, and figures stand beside its last line.
pub(super) fn table(head: &[&str], rows: &[Vec<String>], most: usize) -> Vec<String> {
    let width = |column: usize| {
        let cells = rows.iter().filter_map(|row| row.get(column)).map(|cell| cell.width());
        cells.chain(head.get(column).map(|cell| cell.width())).max().unwrap_or(0)
    };
    let figures: usize = (1..head.len()).map(|column| width(column) + 2).sum();
    let names = most.saturating_sub(figures + 2).max(LEAST_NAME);
    let mut broken: Vec<Vec<String>> = Vec::new();
    for row in rows {
        let mut lines = wrapped(row.first().map_or("", String::as_str), names);
        let last = lines.pop().unwrap_or_default();
        broken.extend(lines.into_iter().map(|line| vec![line]));
        broken.push(std::iter::once(last).chain(row.iter().skip(1).cloned()).collect());
    }
    crate::table::table(head, &broken, &[0])
}

/// Words beside what stands before them, in lines of at most so many columns: further lines begin where the first
/// does. Where there is little room, the words stand below.
pub(super) fn hung(before: &str, words: &str, most: usize) -> Vec<String> {
    let indent = before.width();
    let room = most.saturating_sub(indent);
    if room < NARROW && words.width() > room {
        let below = wrapped(words, most.saturating_sub(BELOW)).into_iter();
        let below = below.map(|line| format!("{}{line}", " ".repeat(BELOW)));
        return std::iter::once(before.trim_end().to_owned()).chain(below).collect();
    }
    let lines = wrapped(words, room).into_iter().enumerate();
    let with = |(number, line): (usize, String)| match number {
        0 => format!("{before}{line}").trim_end().to_owned(),
        _ => format!("{}{line}", " ".repeat(indent)),
    };
    lines.map(with).collect()
}

/// A text filled up with spaces behind it.
pub(super) fn flush_left(text: &str, width: usize) -> String {
    format!("{text}{}", " ".repeat(width.saturating_sub(text.width())))
}

/// A text filled up with spaces before it.
pub(super) fn flush_right(text: &str, width: usize) -> String {
    format!("{}{text}", " ".repeat(width.saturating_sub(text.width())))
}

#[cfg(test)]
mod tests;
