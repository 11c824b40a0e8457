//! `[electric]`: circuits, charging and mains.

use crate::field::Kind::Text;

crate::schema! {
    /// `[electric]`.
    "the electric system";
    NOTE = "note": Text; "anything a reader should know"
}
