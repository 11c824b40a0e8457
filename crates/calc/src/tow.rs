//! Coupler, ball, hitch and tow vehicle: what each may carry, and what the trailer does to the vehicle's axles.

pub mod axles;
mod cases;
pub mod couplers;
pub mod europe;
mod workings;

pub use workings::workings;
