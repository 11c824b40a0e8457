//! `[assume.water]`.

crate::schema! {
    /// `[assume.water]`.
    "the assumptions about water";
}
