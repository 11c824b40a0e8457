//! What the scale said: tickets of the built trailer against the sum of its parts, how sure each reading is, and what part
//! most likely explains the difference.

mod drift;
mod fit;
mod reading;
mod suspects;
mod weighed;
mod workings;

pub use drift::{Drift, drift};
pub use fit::{Fit, Observation, fit};
pub use reading::{Of, Reading, Ticket, rounding, tickets};
pub use suspects::{Suspect, suspects};
pub use workings::workings;

#[cfg(test)]
mod tests;
