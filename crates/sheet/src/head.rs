//! The head of a sheet: what was inspected, against which rulebook, and what came of it in one line; and what
//! the sheet is not.

use maud::{Markup, html};
use pintle_finding::{Grade, Inspection, Tally, Verdict};
use pintle_report::{Outcome, outcome, words};

use crate::about::{Findings, listed};
use crate::markup::{name, text};
use crate::{Revision, Sheet};

/// The head.
pub(crate) fn section(sheet: &Sheet<'_>, found: &Findings<'_>) -> Markup {
    let build = sheet.build;
    let come_to = outcome(std::slice::from_ref(sheet.inspection), sheet.hold);
    let revision = Revision::of(sheet.sources);
    html! {
        header .head {
            p .kind { "Inspection sheet" @if let Some(shop) = sheet.shop { " · " (name(shop)) } }
            h1 { span .number { (name(&build.number.value)) } " " (name(&build.title.value)) }
            p class=(format!("verdict {}", class(come_to))) role="status" {
                span .sign aria-hidden="true" { (sign(come_to)) }
                strong { (come_to.word()) }
                " " (by_what(sheet.inspection, sheet.hold, come_to))
            }
            dl .facts {
                (fact("stage", build.stage.value.word()))
                (fact("judged on", &sheet.day.to_string()))
                (fact("revision", &revision.short()))
                (fact("spec", &sheet.inspection.spec))
                (fact("reckoned for", &places(sheet)))
                (fact("rulebook", &rulebook(sheet)))
                (fact("held at", &format!("{} and above", sheet.hold)))
                (fact("readings", &counts(sheet)))
            }
            (summary(found))
            div .caution role="note" {
                p {
                    strong { "Figures are computed, not measured. " }
                    "Weigh the real trailer, and read the tongue directly, before it is handed over. Work on gas and mains \
                     belongs to qualified people; local codes and licensed practice come before this sheet."
                }
                p {
                    "This sheet says what was checked against the rulebook named above, and what could not be. It is no warranty, \
                     no certification, and no advice on law. A rule that rests on common practice or on memory says so."
                }
            }
        }
    }
}

/// Every finding in a line, with the way to it.
fn summary(found: &Findings<'_>) -> Markup {
    html! {
        @if !found.all().is_empty() {
            h2 #summary-heading .small { "What was found" }
            ol .summary aria-labelledby="summary-heading" {
                @for finding in found.all() {
                    li data-parts=[(!finding.parts.is_empty()).then(|| listed(&finding.parts))] {
                        a href=(format!("#finding-{}", finding.number)) {
                            span .badge { (finding.number) }
                            " " span .grade { (words::grade_and_verdict(finding.reading)) }
                            " " (name(&finding.reading.rule.title))
                        }
                        @let called = finding.reading.subject.called();
                        @if !called.is_empty() { span .of { ": " (name(&called)) } }
                    }
                }
            }
        }
    }
}

fn fact(what: &str, value: &str) -> Markup {
    html! { div { dt { (what) } dd { (text(value)) } } }
}

/// The class of a verdict, for style only: its word and its sign say the same.
pub(crate) fn class(come_to: Outcome) -> &'static str {
    match come_to {
        Outcome::Released => "released",
        Outcome::Held | Outcome::InputWrong => "held",
        Outcome::CannotJudge => "unjudged",
    }
}

pub(crate) fn sign(come_to: Outcome) -> &'static str {
    match come_to {
        Outcome::Released => "✓",
        Outcome::Held | Outcome::InputWrong => "✕",
        Outcome::CannotJudge => "?",
    }
}

/// By what a build is held, or what stands beside its release.
pub(crate) fn by_what(inspection: &Inspection, hold: Grade, come_to: Outcome) -> String {
    let mut tally = Tally::default();
    tally.add(inspection);
    let holding = |verdict| tally.at_or_above(verdict, hold);
    let unjudged = holding(Verdict::CannotJudge) + holding(Verdict::Broken);
    let also = if unjudged > 0 {
        format!("; {} could not be judged", so_many(unjudged, "reading"))
    } else {
        String::new()
    };
    match come_to {
        Outcome::Released => format!("nothing at or above {hold} is open"),
        Outcome::Held => {
            format!("by {} at or above {}{also}", so_many(holding(Verdict::Fault), "fault"), hold)
        }
        Outcome::CannotJudge => {
            format!("{} at or above {} could not be judged", so_many(unjudged, "reading"), hold)
        }
        Outcome::InputWrong => "the spec cannot be read as it stands".to_owned(),
    }
}

/// `1 fault`, `2 faults`.
pub(crate) fn so_many(count: usize, what: &str) -> String {
    format!("{count} {what}{}", if count == 1 { "" } else { "s" })
}

fn counts(sheet: &Sheet<'_>) -> String {
    let mut tally = Tally::default();
    tally.add(sheet.inspection);
    let of = |verdict| tally.with(verdict);
    let faults = of(Verdict::Fault);
    let grades = Grade::ALL.iter().rev().filter_map(|grade| {
        let count = tally.readings.get(&(Verdict::Fault, *grade)).copied().unwrap_or(0);
        (count > 0).then(|| format!("{count} {grade}"))
    });
    let grades: Vec<String> = grades.collect();
    let by_grade = if grades.is_empty() { String::new() } else { format!(" ({})", grades.join(", ")) };
    let accepted: usize = tally.waived.values().chain(tally.backlog.values()).sum();
    let accepted = if accepted > 0 { format!(", {accepted} accepted") } else { String::new() };
    let broken = of(Verdict::Broken);
    let broken = if broken > 0 { format!(", {broken} rules failed") } else { String::new() };
    format!(
        "{} in all: {}, {}{by_grade}, {} not applicable, {} that could not be judged{broken}{accepted}",
        tally.all_readings(),
        so_many(of(Verdict::Pass), "pass").replace("passs", "passes"),
        so_many(faults, "fault"),
        of(Verdict::NotApplicable),
        of(Verdict::CannotJudge)
    )
}

fn places(sheet: &Sheet<'_>) -> String {
    match sheet.case.places.of(sheet.build) {
        Ok(places) => {
            let titles: Vec<String> =
                places.iter().map(|place| format!("{} ({})", place.title, place.name)).collect();
            titles.join(", ")
        }
        Err(missing) => format!("not known: {} is not given", missing.what),
    }
}

fn rulebook(sheet: &Sheet<'_>) -> String {
    let layers = &sheet.in_force.layers;
    let files = if layers.is_empty() { "built in".to_owned() } else { layers.join(" → ") };
    format!("{files}; {}", so_many(sheet.rules, "rule"))
}
