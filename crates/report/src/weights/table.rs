//! Rows in columns.

use unicode_width::UnicodeWidthStr;

/// Rows in columns: the first flush left, the others flush right.
pub(super) fn table(head: &[&str], rows: &[Vec<String>]) -> Vec<String> {
    let head: Vec<String> = head.iter().map(|word| (*word).to_owned()).collect();
    let all: Vec<&Vec<String>> = std::iter::once(&head).chain(rows).collect();
    let widths: Vec<usize> = (0..head.len())
        .map(|column| all.iter().filter_map(|row| Some(row.get(column)?.width())).max().unwrap_or(0))
        .collect();
    let laid = |row: &Vec<String>| {
        let cells = row.iter().zip(&widths).enumerate().map(|(column, (cell, width))| {
            let pad = " ".repeat(width.saturating_sub(cell.width()));
            if column == 0 { format!("{cell}{pad}") } else { format!("{pad}{cell}") }
        });
        format!("  {}", cells.collect::<Vec<_>>().join("  ")).trim_end().to_owned()
    };
    all.into_iter().map(laid).collect()
}
