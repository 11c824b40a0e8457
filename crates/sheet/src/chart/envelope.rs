//! Every arrangement by its gross and its tongue weight, over what ratings and limits allow.

use maud::{Markup, html};
use pintle_report::plot::{Entry, Numbered, Plot, Sign, grouped};
use pintle_report::weights::drawing;

use super::{cannot, drawn};
use crate::Sheet;
use crate::markup::text;
use crate::weights::plain;

/// What the ids of the drawing begin with.
const ID: &str = "envelope";

/// The chart, or what is missing for it.
pub(super) fn chart(sheet: &Sheet<'_>) -> Markup {
    html! {
        h3 { "Gross weight against tongue weight" }
        @match drawing(sheet.build, sheet.terms) {
            Ok(plot) => (figure(&plot)),
            Err(missing) => (cannot("the envelope of the arrangements", &missing.what)),
        }
    }
}

fn figure(plot: &Plot) -> Markup {
    html! {
        figure .envelope {
            figcaption { (says(plot)) }
            (drawn(&plot.inset(ID)))
            ul .key { @for entry in plot.entries() { (line(&entry)) } }
            @for note in &plot.notes { p .note { (crate::markup::sentence(note)) } }
        }
        (list(plot))
    }
}

/// What it shows, and what that means for this build.
fn says(plot: &Plot) -> Markup {
    let (within, outside) = plot.counted();
    let all = within + outside;
    html! {
        "Each arrangement by its gross weight, to the right, and its weight on the ball, upwards; the shaded region is what ratings \
         and limits allow. "
        strong {
            @match (&plot.too_many, outside) {
                (Some(number), 0) => { "There are " (number) " arrangements, too many to draw each: of those told apart all lie within, and the dashed line bounds the rest." }
                (Some(number), _) => { "There are " (number) " arrangements, too many to draw each: of the " (all) " told apart " (outside) " lie outside." }
                (None, 0) if all == 1 => "The only arrangement lies within.",
                (None, 0) => { "All " (all) " arrangements lie within." }
                (None, _) if within == 0 => { "None of the " (all) " arrangements lies within." }
                (None, _) => { (outside) " of " (all) " arrangements lie outside: none of these may go on the road." }
            }
        }
    }
}

fn line(entry: &Entry) -> Markup {
    let (class, sign) = match entry.sign {
        Sign::Region => ("region", String::new()),
        Sign::Bounds => ("bounds", "- -".to_owned()),
        Sign::Dot => ("dot", "•".to_owned()),
        Sign::Cross => ("cross", "×".to_owned()),
        Sign::Ring => ("ring", "○".to_owned()),
        Sign::Limit(letter) => ("limit", format!("···\u{a0}{letter}")),
        Sign::Beyond => ("beyond", "→".to_owned()),
    };
    let beyond = if entry.sign == Sign::Beyond { "beyond the drawing: " } else { "" };
    html! { li { span .sign.(class) aria-hidden="true" { (sign) } span { (beyond) (plain(&entry.words)) } } }
}

/// The arrangements that are told apart.
fn list(plot: &Plot) -> Markup {
    html! {
        table .told-apart.stacked {
            caption { "The arrangements told apart in the drawing, the lightest first" }
            thead {
                tr {
                    th scope="col" { "no." } th scope="col" { "arrangement" } th scope="col" .figure { "gross" }
                    th scope="col" .figure { "on the ball" } th scope="col" .figure { "share" } th scope="col" { "allowed" }
                }
            }
            tbody { @for one in plot.numbered() { (row(plot, &one)) } }
        }
    }
}

fn row(plot: &Plot, one: &Numbered) -> Markup {
    let weight = |value: f64| format!("{} {}", grouped(value, usize::from(value.abs() < 100.0)), plot.unit);
    let (gross, tongue) = one.at;
    let share =
        if gross > 0.0 { format!("{} %", grouped(100.0 * tongue / gross, 1)) } else { "–".to_owned() };
    html! {
        tr {
            th scope="row" { (one.number) }
            td .wide { (text(&one.words)) }
            td .figure data-label="gross" { (weight(gross)) }
            td .figure data-label="on the ball" { (weight(tongue)) }
            td .figure data-label="share" { (share) }
            td data-label="allowed" { @if one.outside { strong .over { "no" } } @else { "yes" } }
        }
    }
}
