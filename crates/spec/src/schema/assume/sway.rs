//! `[assume.sway]`.

crate::schema! {
    /// `[assume.sway]`.
    "the assumptions about sway";
}
