//! Drawings to scale.

use maud::{Markup, html};

use crate::Sheet;
use crate::about::Findings;

/// The section.
pub(crate) fn section(_sheet: &Sheet<'_>, _found: &Findings<'_>) -> Markup {
    html! {}
}
