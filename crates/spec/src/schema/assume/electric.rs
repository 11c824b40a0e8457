//! `[assume.electric]`.

crate::schema! {
    /// `[assume.electric]`.
    "the assumptions about electric";
}
