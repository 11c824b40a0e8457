//! `[assume.scale]`.

crate::schema! {
    /// `[assume.scale]`.
    "the assumptions about scale";
}
