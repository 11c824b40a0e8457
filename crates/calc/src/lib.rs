//! The engineering: pure functions from a checked build to figures that know where they came from.
//!
//! Nothing here judges, reads a file or knows a rule. A figure that needs a value which is not given is a
//! [`Missing`](pintle_spec::Missing), never a guess. Start from [`Figure`], [`weights`] and [`balance`].

pub mod air;
pub mod anchor;
pub mod arrange;
pub mod assumed;
pub mod balance;
pub mod case;
#[cfg(test)]
pub(crate) mod checks;
pub mod electric;
pub mod figure;
pub mod gas;
pub mod origin;
pub mod place;
pub mod quote;
pub mod ratings;
pub mod road;
pub mod roof;
pub mod scale;
pub mod sensitivity;
pub mod space;
pub mod sway;
pub mod topics;
pub mod tow;
pub mod uncertainty;
pub mod water;
pub mod weights;
pub mod working;
pub mod written;

pub use assumed::Assumptions;
pub use case::Case;
pub use figure::{Figure, Part, Parts, Trace};
pub use origin::{Origin, Standing};
pub use pintle_spec::Known;
pub use place::{Place, Places};
pub use working::{Outcome, Step, Work, Working};
