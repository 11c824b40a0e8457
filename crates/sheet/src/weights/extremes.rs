//! The extremes of each figure over every arrangement, each with the arrangement that it lies in.

use maud::{Markup, html};
use pintle_report::weights::{Arranged, Extreme, Maybe, Range};

use super::lacking::Lacking;
use super::{arrangement, certain};

/// The table.
pub(super) fn section(arranged: &Maybe<Arranged>, lacking: &mut Lacking) -> Markup {
    let all = match arranged.as_result() {
        Ok(all) => all,
        Err(missing) => {
            lacking.note(missing, "the extremes over every arrangement");
            return html! {
                h3 { "Least and most over every arrangement" }
                p { "Not known: see below what is missing." }
            };
        }
    };
    let count = all.count.as_result().map(|count| count.in_words());
    if let Err(missing) = &count {
        lacking.note(missing, "how many arrangements there are");
    }
    if all.extremes.iter().all(|range| range.least.as_result().is_err() && range.most.as_result().is_err()) {
        for range in &all.extremes {
            note(range, &range.least, "least", lacking);
            note(range, &range.most, "most", lacking);
        }
        return html! {
            h3 { "Least and most over every arrangement" }
            p { "None of them is known: see below what is missing." }
        };
    }
    html! {
        h3 { "Least and most over every arrangement" }
        p {
            "Every way in which parts can be in or out on the road"
            @if let Ok(count) = &count { ", " (count) " in all," }
            " with each tank and each load at its least or its most."
        }
        table .extremes.stacked {
            thead { tr { th scope="col" { "figure" } th scope="col" { "end" } th scope="col" .figure { "computed" } th scope="col" { "in this arrangement" } } }
            @for range in &all.extremes {
                // A body of its own, so that both ends stay on one page.
                tbody .keep { (end(range, "least", &range.least, lacking)) (end(range, "most", &range.most, lacking)) }
            }
        }
    }
}

fn end(range: &Range, end: &'static str, extreme: &Maybe<Extreme>, lacking: &mut Lacking) -> Markup {
    let first = end == "least";
    note(range, extreme, end, lacking);
    html! {
        tr {
            @if first { th scope="rowgroup" rowspan="2" { (range.words) } }
            td .narrow { (end) }
            @match extreme.as_result() {
                Ok(extreme) => {
                    td .figure { (certain(&extreme.value)) }
                    td .wide { (arrangement(&extreme.way.words)) }
                }
                Err(_) => {
                    td .figure { "not known" }
                    td .wide { "see below what is missing" }
                }
            }
        }
    }
}

/// Notes what an end of a range lacks.
fn note(range: &Range, extreme: &Maybe<Extreme>, end: &str, lacking: &mut Lacking) {
    let waits = format!("{end} {}", range.words);
    match extreme.as_result() {
        Ok(extreme) => lacking.of(&extreme.value, &waits),
        Err(missing) => lacking.note(missing, &waits),
    }
}
