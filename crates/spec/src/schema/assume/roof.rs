//! `[assume.roof]`.

crate::schema! {
    /// `[assume.roof]`.
    "the assumptions about roof";
}
