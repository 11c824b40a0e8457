//! Where the axle may stand, so that every arrangement keeps its share on the ball.

use maud::{Markup, html};
use pintle_report::weights::{Arranged, Maybe, Stands, Window};

use super::arrangement;
use super::lacking::Lacking;
use crate::Sheet;
use crate::markup::text;

/// The window in words and figures.
pub(super) fn section(sheet: &Sheet<'_>, arranged: &Maybe<Arranged>, lacking: &mut Lacking) -> Markup {
    html! {
        h3 { "Where the axle may stand" }
        (match (sheet.terms.band, arranged.as_result()) {
            (Err(missing), _) => {
                lacking.note(&missing.what, "where the axle may stand");
                html! { p { "Not known: no band for the tongue share is in force." } }
            }
            (Ok(_), Err(missing)) => {
                lacking.note(missing, "where the axle may stand");
                html! { p { "Not known: see below what is missing." } }
            }
            (Ok(band), Ok(arranged)) => match arranged.axle_window.as_result() {
                Ok(window) => {
                    let units = sheet.terms.look.units;
                    let kept = format!("{} to {}", band.least.share.show(units), band.most.share.show(units));
                    told(window, &kept, lacking)
                }
                Err(missing) => {
                    lacking.note(missing, "where the axle may stand");
                    html! { p { "Not known: see below what is missing." } }
                }
            },
        })
    }
}

fn told(window: &Window, kept: &str, lacking: &mut Lacking) -> Markup {
    let (fore, rear) = (&window.foremost, &window.rearmost);
    lacking.of(&window.axle, "where the axle stands in its window");
    lacking.of(&window.length, "how wide the axle's window is");
    let width = window.length.cell();
    let off = window.off.as_deref().unwrap_or_default();
    let lead = html! {
        "For a tongue share of " (kept) " in every arrangement "
    };
    // Where the axle's place is not given, an empty window is empty all the same.
    let empty = window.length.si().is_some_and(|length| length < 0.0);
    html! {
        @if empty {
            p .window {
                (lead) strong { "there is no place for the axle." }
                " The place farthest aft that keeps the heaviest tongue in the band lies "
                (width.trim_start_matches(['-', '−'])) " ahead of the place farthest forward that keeps the lightest in it: \
                 the centre of gravity moves too far from one arrangement to the other for any axle to serve both. Sliding the \
                 axle trades one fault for the other. What helps is another place for the part that comes and goes, \
                 a counterweight, or an arrangement that is not allowed on the road."
            }
        } @else {
            p .window {
                (lead) "the axle may stand from " (fore.behind_ball.cell()) " to " (rear.behind_ball.cell())
                " behind the ball: a window " strong { (width) " wide" } "."
                @match window.stands {
                    Some(Stands::Within) => { " It stands within: " (text(off)) "." }
                    Some(Stands::TooFarAhead) => { " " strong .over { "It stands " (text(off)) " too far ahead." } }
                    Some(Stands::TooFarBack) => { " " strong .over { "It stands " (text(off)) " too far back." } }
                    Some(Stands::NoWindow) | None => " Where it stands to that is not known.",
                }
            }
        }
        table .window {
            thead { tr { th scope="col" { "place" } th scope="col" .figure { "behind the ball" } th scope="col" { "set by" } } }
            tbody {
                tr { th scope="row" { "foremost" } td .figure { (fore.behind_ball.cell()) } td { "further ahead too light: " (arrangement(&fore.way.words)) } }
                tr { th scope="row" { "rearmost" } td .figure { (rear.behind_ball.cell()) } td { "further back too heavy: " (arrangement(&rear.way.words)) } }
                tr { th scope="row" { "the axle" } td .figure { (window.axle.cell()) } td { "as the spec has it" } }
            }
        }
        p .note { "Only the axle is moved; parts and the empty trailer's centre of gravity are held where they are." }
    }
}
