//! Extremes against looking at every arrangement, on thousands of random plans and builds.

mod plans;
mod random;
