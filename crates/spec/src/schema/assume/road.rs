//! `[assume.road]`.

crate::schema! {
    /// `[assume.road]`.
    "the assumptions about road";
}
