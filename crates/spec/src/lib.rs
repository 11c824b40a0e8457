//! From TOML and a stock list to a checked [`Build`], every value with its place in the files.
//!
//! Loading never stops at the first error and never guesses: an unknown key, unit, part, tag or word is a
//! problem with the nearest name offered, and a spec with any problem gives no build. This crate judges nothing
//! and weighs nothing. Start from [`read_stock`], [`read_build`] and [`Build`].

pub mod field;
pub mod node;
pub mod patch;
pub mod read;
pub mod record;
pub mod schema;

mod build;
mod date;
mod footing;
mod layout;
mod load;
mod own;
mod place;
mod say;
mod stock;
mod surfaces;

pub use build::{Build, Either, Item, Load, State, Table, Use, Zone};
pub use date::days_between;
pub use footing::Footing;
pub use layout::{Coordinate, Extent, Known, Named, Reach, Term, Variable};
pub use load::{read_build, read_build_node};
pub use own::{OwnField, OwnKind, OwnValue, check_own_of_build, check_own_of_stock, own_value};
pub use pintle_source::{SourceId, Span, Spanned};
pub use record::{Missing, Record, Value};
pub use stock::{Part, Stock, item_kinds, read_stock, schema_of_kind};
pub use surfaces::Surfaces;
