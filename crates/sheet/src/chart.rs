//! Charts: gross weight against tongue weight of every arrangement, the bank through a stay, and carbon dioxide through a
//! night. Each says in a sentence what it shows and what that means for this build, and has its figures in a table.

mod breath;
mod envelope;
mod power;

use maud::{Markup, PreEscaped, html};

use crate::markup::sentence;
use crate::{Sheet, frame};

/// The section.
pub(crate) fn section(sheet: &Sheet<'_>) -> Markup {
    let body = html! {
        (envelope::chart(sheet))
        (power::chart(sheet))
        (breath::charts(sheet))
    };
    frame::section("charts", "Charts", &body)
}

/// A drawing made by this program, whose texts are written out already.
fn drawn(svg: &str) -> Markup {
    // Without the name space, which a page of HTML does not need, and which reads like an address.
    PreEscaped(svg.replacen(" xmlns=\"http://www.w3.org/2000/svg\"", "", 1))
}

/// What stands in the place of a chart that cannot be drawn.
fn cannot(what: &str, missing: &str) -> Markup {
    html! { p .undrawn { (sentence(&format!("{what} cannot be drawn: {missing} is missing"))) } }
}

#[cfg(test)]
mod tests;
