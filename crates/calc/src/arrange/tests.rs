//! Extremes against looking at every arrangement, on thousands of random plans and builds.

mod builds;
mod envelopes;
mod plans;
mod random;
mod specs;
mod worked;
