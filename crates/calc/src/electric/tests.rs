//! Checks from outside of the formulas, the traps that others have fallen into, and small builds worked by hand.

mod bench;
mod builds;
mod circuits;
mod courses;
mod formulas;
mod traps;

use super::ampacity::Table;

fn column(word: &str) -> Table {
    Table::of(word).unwrap_or_else(|| panic!("{word} is no column"))
}
