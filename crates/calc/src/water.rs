//! Tanks and how long they last.

use crate::case::Case;
use crate::working::Working;

/// Every figure of this topic for a build.
pub fn workings(_case: &Case<'_>) -> Vec<Working> {
    Vec::new()
}
