//! Stock lists: `[[part]]` tables.

use crate::field::Kind::{Raw, Text};

crate::schema! {
    /// A stock list.
    "the stock list";
    PARTS = "part": Raw; "a part the shop keeps; one `[[part]]` table each"
}

/// Fields of `[[part]]` beside those of its kind.
pub mod part {
    use super::Text;

    crate::schema! {
        /// `[[part]]`.
        "the part";
        NAME = "name": Text, required; "the name specs call it by"
        KIND = "kind": Text; "what it is"
        PART = "part": Text; "another stock part that this one is a variant of"
    }
}
