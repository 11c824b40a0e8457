//! `[assume.tow]`.

crate::schema! {
    /// `[assume.tow]`.
    "the assumptions about tow";
}
