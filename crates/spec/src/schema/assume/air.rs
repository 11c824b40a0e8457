//! `[assume.air]`.

crate::schema! {
    /// `[assume.air]`.
    "the assumptions about air";
}
