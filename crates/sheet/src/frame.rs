//! The page as a whole: its head, its style and script, and its sections in the order in which a reader needs them.

use maud::{DOCTYPE, Markup, PreEscaped, html};

use crate::about::Findings;
use crate::markup::name;
use crate::policy::policy;
use crate::{
    Sheet, built, chart, customer, drawing, eyes, findings, head, labels, readings, rulebook, weights,
};

/// The style of every section, in the order of the page.
pub(crate) const STYLE: &str = concat!(
    include_str!("style/page.css"),
    include_str!("style/head.css"),
    include_str!("style/drawing.css"),
    include_str!("style/findings.css"),
    include_str!("style/tables.css"),
    include_str!("style/chart.css"),
    include_str!("style/built.css"),
    include_str!("style/customer.css"),
    include_str!("style/print.css"),
);

/// What the page does when it is touched: nothing that it needs to be read.
pub(crate) const SCRIPT: &str = concat!(include_str!("script/light.js"), include_str!("script/print.js"));

/// The document.
pub(crate) fn document(sheet: &Sheet<'_>) -> Markup {
    let found = Findings::of(sheet.inspection, sheet.build);
    let title = format!("{}: {}", sheet.build.number.value, sheet.build.title.value);
    html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta http-equiv="Content-Security-Policy" content=(policy(STYLE, SCRIPT));
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="referrer" content="no-referrer";
                title { "Inspection sheet " (name(&title)) }
                style { (PreEscaped(STYLE)) }
            }
            body {
                a .skip href="#findings" { "To the findings" }
                (head::section(sheet, &found))
                main {
                    (sections(sheet, &found))
                }
                script { (PreEscaped(SCRIPT)) }
            }
        }
    }
}

/// The sections below the head.
pub(crate) fn sections(sheet: &Sheet<'_>, found: &Findings<'_>) -> Markup {
    html! {
        (drawing::section(sheet, found))
        (weights::section(sheet))
        (chart::section(sheet))
        (findings::section(sheet, found))
        (readings::section(sheet))
        (rulebook::section(sheet))
        (built::section(sheet))
        (labels::section(sheet))
        (eyes::section(sheet))
        (customer::section(sheet))
    }
}

/// A section of the page under its heading.
pub(crate) fn section(id: &str, heading: &str, body: &Markup) -> Markup {
    html! {
        section id=(id) aria-labelledby=(format!("{id}-heading")) {
            h2 id=(format!("{id}-heading")) { (heading) }
            (body)
        }
    }
}
