//! Checks from outside of the formulas, and the traps that others have fallen into.

mod formulas;

use super::ampacity::Table;

fn column(word: &str) -> Table {
    Table::of(word).unwrap_or_else(|| panic!("{word} is no column"))
}
