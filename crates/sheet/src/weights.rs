//! Weights.

use maud::{Markup, html};

use crate::Sheet;

/// The section.
pub(crate) fn section(_sheet: &Sheet<'_>) -> Markup {
    html! {}
}
