//! Files in memory, places in them, and lines.
//!
//! This crate holds the text of every file a run has read and says where a byte stands in it. It never
//! opens a file: it is given bytes and a name. Start from [`Sources`], [`Span`] and [`Spanned`].

mod line;
mod sources;
mod span;

pub use line::{LineIndex, Location};
pub use sources::{MAX_BYTES, Source, SourceError, SourceId, Sources};
pub use span::{Span, Spanned};
