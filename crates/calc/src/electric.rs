//! Batteries, wires and the sun.
//!
//! Formulas of wires, fuses and the sun come first; what a build's bank, inverters, circuits, arrays and days come to is
//! worked out of them.

pub mod ampacity;
mod array;
pub mod bank;
mod charging;
mod circuit;
mod course;
mod day;
pub mod fuse;
pub mod inverter;
mod mains;
mod place;
pub mod sun;
mod system;
mod usage;
pub mod wire;

use crate::case::Case;
use crate::working::Working;
use system::System;

pub use course::{Course, Hour};
pub use day::{WITHOUT_SUN, courses};

/// Every figure of this topic for a build.
pub fn workings(case: &Case<'_>) -> Vec<Working> {
    let system = System::of(case);
    let parts: [fn(System<'_>) -> Vec<Working>; 8] = [
        bank::workings,
        place::workings,
        inverter::workings,
        usage::workings,
        circuit::workings,
        array::workings,
        day::workings,
        charging::workings,
    ];
    parts.iter().flat_map(|of| of(system)).chain(mains::workings(system)).collect()
}

#[cfg(test)]
mod tests;
