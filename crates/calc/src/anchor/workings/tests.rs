//! The topic over whole builds: checks from outside, traps, and what is missing.

mod builds;
mod checked;
mod laws;
mod traps;
