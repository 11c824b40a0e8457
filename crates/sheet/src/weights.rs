//! The weight page: state by state against the limits in force, the extremes over every arrangement, where the axle may
//! stand, what the scale said, what moves the tongue most, and what could not be worked out.

mod extremes;
mod lacking;
mod movers;
mod states;
mod tickets;
mod window;

use maud::{Markup, html};
use pintle_report::weights::{Arranged, Shown};

use crate::markup::text;
use crate::{Sheet, frame};
use lacking::Lacking;

/// The section.
pub(crate) fn section(sheet: &Sheet<'_>) -> Markup {
    let arranged = Arranged::of(sheet.build, sheet.terms);
    let mut lacking = Lacking::default();
    let body = html! {
        p {
            "Computed from the spec, not weighed. Behind each ± stands how far the figure may be off for how sure its masses and \
             places are, with a coverage factor of 2. A margin smaller than its ± is no margin to rely on."
        }
        (states::section(sheet, &mut lacking))
        (extremes::section(&arranged, &mut lacking))
        (window::section(sheet, &arranged, &mut lacking))
        (tickets::section(sheet, &mut lacking))
        (movers::section(sheet, &mut lacking))
        (lacking.section())
    };
    frame::section("weights", "Weights", &body)
}

/// A figure with its ±, and that it has none where nobody can say how sure it is.
fn certain(shown: &Shown) -> String {
    match (shown, shown.expanded()) {
        (Shown::Missing { .. }, _) => "not known".to_owned(),
        (_, None) => format!("{} (± not known)", shown.cell()),
        (_, Some(_)) => shown.with_certainty(),
    }
}

/// The name of a value, such as "`tongue_rating` of `coupler` of the trailer", without the signs of the spec's format.
pub(crate) fn plain(name: &str) -> String {
    text(name).replace('`', "").replace('_', " ").replace("gvwr", "GVWR").replace("gawr", "GAWR")
}

/// Words with a capital at their head.
pub(crate) fn capital(from: &str) -> String {
    let shown = text(from);
    let mut letters = shown.chars();
    letters.next().map_or_else(String::new, |first| format!("{}{}", first.to_uppercase(), letters.as_str()))
}

/// What an arrangement is, in words, however long.
fn arrangement(words: &str) -> Markup {
    html! { span .way { (text(words)) } }
}

#[cfg(test)]
mod tests;
#[cfg(test)]
pub(crate) mod trial;
