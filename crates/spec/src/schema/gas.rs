//! `[gas]`: how gas is piped.

use crate::field::Kind::Text;

crate::schema! {
    /// `[gas]`.
    "the gas system";
    NOTE = "note": Text; "anything a reader should know"
}
