//! `[assume.anchor]`.

crate::schema! {
    /// `[assume.anchor]`.
    "the assumptions about anchor";
}
