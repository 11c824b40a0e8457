//! Rows in columns, for people.

use unicode_width::UnicodeWidthStr;

/// Rows under a head, each column as wide as its widest cell. Figures stand flush right; columns of words, by their
/// number from nought, flush left. Without a head, rows alone.
pub(crate) fn table(head: &[&str], rows: &[Vec<String>], words: &[usize]) -> Vec<String> {
    let head: Vec<String> = head.iter().map(|word| (*word).to_owned()).collect();
    let head = (!head.is_empty()).then_some(head);
    let all: Vec<&Vec<String>> = head.iter().chain(rows).collect();
    let columns = all.iter().map(|row| row.len()).max().unwrap_or(0);
    let widths: Vec<usize> = (0..columns)
        .map(|column| all.iter().filter_map(|row| Some(row.get(column)?.width())).max().unwrap_or(0))
        .collect();
    let laid = |row: &Vec<String>| {
        let cells = row.iter().zip(&widths).enumerate().map(|(column, (cell, width))| {
            let pad = " ".repeat(width.saturating_sub(cell.width()));
            if words.contains(&column) { format!("{cell}{pad}") } else { format!("{pad}{cell}") }
        });
        format!("  {}", cells.collect::<Vec<_>>().join("  ")).trim_end().to_owned()
    };
    all.into_iter().map(laid).collect()
}
