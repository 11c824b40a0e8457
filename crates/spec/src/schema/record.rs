//! `[record]`: what was measured and tested on the built trailer.

use crate::field::Kind::Text;

crate::schema! {
    /// `[record]`.
    "the record";
    NOTE = "note": Text; "anything a reader should know"
}
