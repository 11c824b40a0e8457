//! Small specs for the tests of areas and of where things are.

mod areas;
mod places;

pub(super) const BLUNT: &str = r#"{ shape = "wedge", depth = "12 in", front_width = "36 in" }"#;

/// A cylinder 12 × 12 × 18 in, in a zone and at a place.
pub(super) fn cylinder(zone: &str, place: &str) -> String {
    format!(
        r#"
[[item]]
tag = "gas"
kind = "cylinder"
zone = "{zone}"
length = "12 in"
width = "12 in"
height = "18 in"
at = {{ {place} }}
"#
    )
}

/// A locker 24 × 20 × 20 in with its foremost left corner on the floor at a place.
pub(super) fn locker(tag: &str, place: &str, more: &str) -> String {
    format!(
        r#"
[[locker]]
tag = "{tag}"
length = "24 in"
width = "20 in"
height = "20 in"
at = {{ {place} }}
{more}
"#
    )
}

pub(super) const SEALED: &str = "opens = \"outside\"\nsealed = true";

pub(super) fn berth(tag: &str, front: &str) -> String {
    format!(
        r#"
[[berth]]
tag = "{tag}"
length = "75 in"
width = "30 in"
height = "20 in"
at = {{ front = "{front}", left = "0 in" }}
"#
    )
}

pub(super) fn bulkhead(tag: &str, front: &str, more: &str) -> String {
    format!(
        r#"
[[bulkhead]]
tag = "{tag}"
length = "1 in"
at = {{ front = "{front}", left = "0 in" }}
{more}
"#
    )
}
