//! How parts are held in a stop: forces, bolts, fittings, track, straps, tipping.
//!
//! The forces are those of 49 CFR 393.102 to 393.114, which bind commercial motor vehicles only. For a private camper they
//! are a guideline, and every figure says so.

pub mod bolts;
mod chain;
pub mod europe;
pub mod forces;
mod held;
pub mod tiedowns;
pub mod tipping;
mod workings;

pub use held::{Held, held_parts};
pub use workings::workings;

/// Standard gravity, in m/s².
pub const G: f64 = 9.806_65;
