//! Renders what an inspection found: for a terminal, for a screen reader, for a machine.
//!
//! This crate must never judge, never open a file, never print, never drop a finding or a label in silence, never
//! make a reading that could not be judged look like a pass, and never hand on a character that a terminal obeys:
//! see [`safe`]. It is the only crate that draws with miette.
//!
//! Start from [`Look`], [`human::findings`] and [`outcome()`].

pub mod compare;
pub mod explained;
pub mod figures;
pub mod human;
pub mod json;
pub mod plain;
pub mod plot;
pub mod remedies;
pub mod safe;
pub mod weights;
pub mod words;

mod documents;
mod look;
mod marks;
mod outcome;
mod summary;
mod table;
mod wrap;

#[cfg(test)]
mod sample;

pub use look::Look;
pub use outcome::{Outcome, outcome};
pub use summary::Summary;
