//! A number with a dimension and the unit its author wrote: parse it, reckon with it, compare it, print it.
//!
//! This crate must never guess what a unit means, never compare two numbers by any tolerance but
//! the one written in [`COMPARE_TOLERANCE`], never let a value that is not a number pass a limit,
//! and never print two different quantities alike where a verdict hangs on the difference.
//!
//! Start from [`Quantity`], [`Unit`] and [`Dimension`].
//!
//! ```
//! use pintle_quantity::{Quantity, Units};
//!
//! let tongue = Quantity::parse("150 lb")?;
//! let rating = Quantity::parse("68 kg")?;
//! assert!(tongue.at_least(rating)?);
//! assert_eq!(tongue.show(Units::Metric), "68 kg");
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod arithmetic;
mod compare;
mod dimension;
mod identity;
mod parse;
mod preferred;
mod quantity;
mod show;
mod unit;
mod vocabulary;

pub use compare::{COMPARE_FLOOR, COMPARE_TOLERANCE};
pub use dimension::{Dimension, DimensionMismatch};
pub use parse::ParseError;
pub use quantity::Quantity;
pub use show::{Units, show_apart};
pub use unit::{System, Unit};
