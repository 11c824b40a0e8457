//! `[record]`: what was measured and tested on the built trailer.

use crate::field::Kind::{Table, Text};

crate::schema! {
    /// `[record]`.
    "the record";
    LEAK_TEST = "leak_test": Table(&super::gas::leak_test::SCHEMA); "the leak test of the gas system"
    NOTE = "note": Text; "anything a reader should know"
}
