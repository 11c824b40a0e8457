//! `[assume.space]`.

crate::schema! {
    /// `[assume.space]`.
    "the assumptions about space";
}
