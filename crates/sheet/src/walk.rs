//! The page of the walk round the trailer: a form for the record, what it comes to as one types, and the sheet as it was
//! when the page was opened. It talks to the server that it came from; the sheet alone talks to nobody.

use maud::{DOCTYPE, Markup, PreEscaped, html};
use pintle_finding::{Grade, Inspection};
use pintle_report::outcome;

use crate::about::Findings;
use crate::markup::{name, sentence, text};
use crate::policy::policy_of_walk;
use crate::{Sheet, form, frame, head};

const STYLE: &str = include_str!("style/form.css");
/// One part after the other: what they share is `Walk`.
const SCRIPT: &str = concat!(
    include_str!("script/walk/form.js"),
    include_str!("script/walk/draft.js"),
    include_str!("script/walk/show.js"),
    include_str!("script/walk/merge.js"),
    include_str!("script/walk/walk.js"),
);

/// What the page has to know of the file.
#[derive(Debug, Clone)]
pub struct Walk {
    /// The one name of the spec, by which the browser keeps what was typed.
    pub spec: String,
    /// The hash of the file that the page is of.
    pub hash: String,
    /// Its record, as JSON by the keys of the schema.
    pub record: String,
}

/// A page with the content security policy that it is to be sent under.
#[derive(Debug, Clone)]
pub struct WalkPage {
    /// The document.
    pub html: String,
    /// The header's value. What a page cannot say of itself stands in it too.
    pub policy: String,
}

/// What an inspection comes to, in one line.
#[derive(Debug, Clone)]
pub struct Verdict {
    /// Its class, for style only.
    pub class: &'static str,
    /// Its sign.
    pub sign: &'static str,
    /// Its word.
    pub word: &'static str,
    /// By what a build is held, or what stands beside its release.
    pub by: String,
}

/// What an inspection comes to, as the head of a sheet says it.
pub fn verdict(inspection: &Inspection, hold: Grade) -> Verdict {
    let come_to = outcome(std::slice::from_ref(inspection), hold);
    Verdict {
        class: head::class(come_to),
        sign: head::sign(come_to),
        word: come_to.word(),
        by: head::by_what(inspection, hold, come_to),
    }
}

/// The page of a walk.
pub fn walk_page(sheet: &Sheet<'_>, walk: &Walk) -> WalkPage {
    let found = Findings::of(sheet.inspection, sheet.build);
    let build = sheet.build;
    let verdict = verdict(sheet.inspection, sheet.hold);
    let title = format!("{}: {}", build.number.value, build.title.value);
    document(
        &title,
        &html! {
            a .skip href="#walk" { "To the form" }
            header .walk-head {
                p .kind { "Walk round the trailer" @if let Some(shop) = sheet.shop { " · " (name(shop)) } }
                h1 { span .number { (name(&build.number.value)) } " " (name(&build.title.value)) }
                p { "What is saved here is written into " code { (text(&sheet.inspection.spec)) } "." }
            }
            div #notices {}
            noscript { p .notice { "This page needs its script: without it nothing can be typed in." } }
            main .walk-main {
                div .at-work {
                    (now(&verdict))
                    (form::form(build, walk))
                    section #told aria-labelledby="told-heading" {
                        h2 id="told-heading" { "What the rules say of it" }
                        div #tellings { p .soft { "Nothing was asked of them yet." } }
                    }
                }
                section #as-saved aria-labelledby="as-saved-heading" {
                    h2 id="as-saved-heading" { "The sheet as of when this page was opened" }
                    p #stale hidden {
                        strong { "The file has been written since." }
                        " " button #anew type="button" { "Load the page anew" }
                    }
                    details {
                        summary { "Show the sheet" }
                        (head::section(sheet, &found))
                        (frame::sections(sheet, &found))
                    }
                }
            }
        },
    )
}

/// What the record comes to, as one types.
fn now(verdict: &Verdict) -> Markup {
    html! {
        section #now aria-labelledby="now-heading" {
            h2 id="now-heading" { "As it stands in the form" }
            p #verdict class=(format!("verdict {}", verdict.class)) role="status" {
                span .sign aria-hidden="true" { (verdict.sign) }
                strong { (verdict.word) }
                " "
                span .by { (verdict.by) }
            }
            p .soft { "Figures are computed, not measured: what the scale says goes before what was worked out." }
        }
    }
}

/// The page of a spec that cannot be read as it stands now, with what is wrong: message and help.
pub fn unreadable_page(spec: &str, problems: &[(String, Option<String>)]) -> WalkPage {
    document(
        spec,
        &html! {
            main .walk-main {
                h1 { "The spec cannot be read as it stands" }
                p { code { (text(spec)) } " has been changed, or its shop's files have. Put right what is said here, then load \
                    this page again. What was typed and not saved is kept in this browser and will be offered." }
                ul {
                    @for (message, help) in problems {
                        li { (sentence(message)) @if let Some(help) = help { " " (sentence(help)) } }
                    }
                }
            }
        },
    )
}

fn document(title: &str, body: &Markup) -> WalkPage {
    let style = [frame::STYLE, STYLE].concat();
    let script = [frame::SCRIPT, SCRIPT].concat();
    let policy = policy_of_walk(&style, &script);
    let html = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta http-equiv="Content-Security-Policy" content=(policy);
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="referrer" content="no-referrer";
                link rel="icon" href="data:,";
                title { "Walk " (name(title)) }
                style { (PreEscaped(&style)) }
            }
            body .walk {
                (body)
                script { (PreEscaped(&script)) }
            }
        }
    };
    WalkPage { html: html.into_string(), policy: format!("{policy}; frame-ancestors 'none'") }
}

#[cfg(test)]
mod tests;
