//! The engineering: pure functions from a checked build to figures that know where they came from.
//!
//! Nothing here judges, reads a file or knows a rule. A figure that needs a value which is not given is a
//! [`Missing`](pintle_spec::Missing), never a guess. Start from [`Figure`], [`weights`] and [`balance`].

pub mod air;
pub mod arrange;
pub mod balance;
pub mod figure;
pub mod gas;
pub mod ratings;
pub mod road;
pub mod roof;
pub mod sensitivity;
pub mod space;
pub mod uncertainty;
pub mod weights;

pub use figure::{Figure, Part, Parts, Trace};
pub use pintle_spec::Known;
