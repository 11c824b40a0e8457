//! The findings, the gravest first: what, where, by how much, against which limit, on what ground, and what would put
//! it right; with the steps of the calculation for whoever asks.

use maud::{Markup, html};
use pintle_finding::{Bound, Citation, Label, Reading};
use pintle_quantity::{Units, show_apart};
use pintle_report::words;
use pintle_source::Span;

use crate::about::{Findings, Numbered, listed};
use crate::markup::{name, sentence, text};
use crate::steps::{Workings, steps};
use crate::{Sheet, frame};

/// The section.
pub(crate) fn section(sheet: &Sheet<'_>, found: &Findings<'_>) -> Markup {
    let workings = Workings::of(&sheet.case, found);
    let body = html! {
        @if found.all().is_empty() {
            p .none { "Nothing was found. What was judged, and by how much it passes, stands below." }
        }
        ol .findings {
            @for finding in found.all() { li { (card(sheet, finding, &workings)) } }
        }
    };
    frame::section("findings", "Findings", &body)
}

fn card(sheet: &Sheet<'_>, finding: &Numbered<'_>, workings: &Workings) -> Markup {
    let reading = finding.reading;
    let units = sheet.terms.look.units;
    let heading = format!("finding-{}-heading", finding.number);
    html! {
        article .finding.(reading.grade().word()) id=(format!("finding-{}", finding.number))
            data-parts=[(!finding.parts.is_empty()).then(|| listed(&finding.parts))]
            tabindex="0" aria-labelledby=(heading)
        {
            h3 id=(heading) {
                span .badge { (finding.number) }
                " " span .grade { (words::grade_and_verdict(reading)) }
                " " (name(&reading.rule.title))
            }
            p .said { (sentence(&reading.sentence(units))) }
            @if let Some(accepted) = words::accepted(reading, sheet.sources) {
                p .accepted { (sentence(&accepted)) }
            }
            (measured(reading, units))
            dl .facts {
                @if !reading.labels.is_empty() {
                    div { dt { "where" } dd { (places(sheet, &reading.labels)) } }
                }
                div { dt { "why" } dd { (sentence(&reading.rule.why)) } }
                div { dt { "ground" } dd { (grounds(reading)) } }
                @for setter in words::setters(reading, sheet.sources) {
                    div { dt { "set by" } dd { (text(&setter)) } }
                }
                @if let Some(remedy) = &reading.remedy {
                    div { dt { "remedy" } dd { (sentence(remedy)) } }
                }
                div { dt { "rule" } dd { code { (reading.rule.id) } } }
            }
            (worked_from(sheet, reading, workings))
        }
    }
}

/// Value, limit and margin, of what was measured.
fn measured(reading: &Reading, units: Units) -> Markup {
    let Some(value) = reading.value else { return html! {} };
    let (shown, limit) = match &reading.bound {
        Bound::AtLeast(limit) => {
            let (shown, limit) = show_apart(value, *limit, units);
            (shown, format!("at least {limit}"))
        }
        Bound::AtMost(limit) => {
            let (shown, limit) = show_apart(value, *limit, units);
            (shown, format!("at most {limit}"))
        }
        Bound::Between(least, most) => {
            (value.show(units), format!("{} to {}", least.show(units), most.show(units)))
        }
        Bound::Equal(to) => (value.show(units), format!("equal to {}", to.show(units))),
        Bound::Holds(_) | Bound::None => (value.show(units), String::new()),
    };
    let margin = reading.margin().map(|margin| match margin.share {
        Some(share) => format!("{} ({:+.1} % of the limit)", margin.amount.show(units), share * 100.0),
        None => margin.amount.show(units),
    });
    let basis = reading.limit_basis.map(|basis| format!(" ({})", basis.word())).unwrap_or_default();
    html! {
        dl .measured {
            div { dt { (text(if reading.what.is_empty() { "value" } else { &reading.what })) } dd { (shown) } }
            @if !limit.is_empty() { div { dt { "limit" (basis) } dd { (limit) } } }
            @if let Some(margin) = margin { div { dt { "margin" } dd { (margin) } } }
        }
    }
}

fn grounds(reading: &Reading) -> Markup {
    let ground = |citation: &Citation| html! { li { (sentence(&words::ground(citation))) } };
    html! { ul { @for citation in &reading.rule.citations { (ground(citation)) } } }
}

/// The places that a finding points at, each with its words.
fn places(sheet: &Sheet<'_>, labels: &[Label]) -> Markup {
    html! {
        ul {
            @for label in labels {
                li { code { (place(sheet, label.span)) } @if !label.text.is_empty() { " " (text(&label.text)) } }
            }
        }
    }
}

fn place(sheet: &Sheet<'_>, span: Span) -> String {
    format!("{}:{}", text(sheet.sources.name(span.source)), sheet.sources.locate(span).line)
}

/// What the value was worked out from, folded away.
fn worked_from(sheet: &Sheet<'_>, reading: &Reading, workings: &Workings) -> Markup {
    let units = sheet.terms.look.units;
    let working = workings.judged(reading);
    let no_steps = working.is_none_or(|working| working.steps.is_empty());
    if reading.inputs.is_empty() && reading.contributions.is_empty() && no_steps {
        return html! {};
    }
    html! {
        details .worked {
            summary { "How it was worked out" }
            @if let Some(working) = working { (steps(sheet, working)) }
            @if !reading.contributions.is_empty() {
                table {
                    caption { (sentence(&format!("what adds up to the {}", reading.sum.unwrap_or("figure")))) }
                    thead { tr { th scope="col" { "part" } th scope="col" .figure { "adds" } } }
                    tbody {
                        @for part in &reading.contributions {
                            tr { td { (name(&part.name)) } td .figure { (part.amount.show(units)) } }
                        }
                    }
                }
            }
            @if !reading.inputs.is_empty() {
                table {
                    caption { "Values taken" }
                    thead { tr { th scope="col" { "value" } th scope="col" .figure { "is" } th scope="col" { "written at" } } }
                    tbody {
                        @for input in &reading.inputs {
                            tr {
                                td { (name(&input.name)) }
                                td .figure { (input.value.show(units)) }
                                td { @match input.span {
                                    Some(span) => code { (place(sheet, span)) },
                                    None => "in the rulebook, or of nature",
                                } }
                            }
                        }
                    }
                }
            }
        }
    }
}
