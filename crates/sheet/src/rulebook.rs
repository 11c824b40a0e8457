//! The rulebook in force: who set what over what, what was loosened, which faults are accepted, and what the tool's own
//! rules say of it.

use maud::{Markup, html};
use pintle_finding::{Reading, SetBy, Verdict};
use pintle_report::words;

use crate::head::so_many;
use crate::in_force::{Set, Sort, Waiver};
use crate::markup::{name, sentence, text};
use crate::{Sheet, frame};

/// The section.
pub(crate) fn section(sheet: &Sheet<'_>) -> Markup {
    let body = html! {
        (layers(sheet))
        (waivers(sheet))
        (set(sheet))
        (backlog(sheet))
        (of_the_tool(sheet))
    };
    frame::section("rulebook", "Rulebook in force", &body)
}

fn layers(sheet: &Sheet<'_>) -> Markup {
    html! {
        @if sheet.in_force.layers.is_empty() {
            p { "Only the rules that are built in are in force; nobody set anything over them." }
        } @else {
            p {
                "Built-in rules, under "
                @for (at, file) in sheet.in_force.layers.iter().enumerate() { @if at > 0 { ", then " } code { (name(file)) } }
                "; each file over those before it."
            }
        }
    }
}

fn waivers(sheet: &Sheet<'_>) -> Markup {
    let all = &sheet.in_force.waivers;
    html! {
        h3 { "Waivers on this build" }
        @if all.is_empty() { p { "None: nobody accepts a fault of it." } } @else {
            table .wide {
                thead {
                    tr {
                        th scope="col" { "rule" } th scope="col" { "on" } th scope="col" { "kind" } th scope="col" { "until" }
                        th scope="col" { "who" } th scope="col" { "reason" } th scope="col" { "state" }
                    }
                }
                tbody { @for waiver in all { (waiver_row(sheet, waiver)) } }
            }
        }
    }
}

fn waiver_row(sheet: &Sheet<'_>, waiver: &Waiver) -> Markup {
    let over = sheet.day > waiver.until;
    html! {
        tr .over[over] {
            td { code { (name(&waiver.rule)) } }
            td { @match &waiver.item { Some(item) => code { (name(item)) }, None => "all of this build" } }
            td { (waiver.kind.word()) }
            td { (waiver.until) }
            td { (name(&waiver.who)) }
            td { (sentence(&waiver.reason)) " " code { (name(&waiver.at)) } }
            td {
                @if over { strong { "run out: " } "it accepts nothing any more" }
                @else if !waiver.allowed { strong { "not allowed: " } "this rule cannot be waived" }
                @else if waiver.accepts == 0 { "in force; it accepts nothing here" }
                @else { "in force; accepts " (so_many(waiver.accepts, "finding")) }
            }
        }
    }
}

fn set(sheet: &Sheet<'_>) -> Markup {
    let all = &sheet.in_force.set;
    html! {
        h3 { "Limits, grades and stages that were set" }
        @if all.is_empty() { p { "None: every limit, grade and stage is the rule's own." } } @else {
            table .wide {
                thead {
                    tr {
                        th scope="col" { "what" } th scope="col" { "in force" } th scope="col" { "over" } th scope="col" { "set by, and why" }
                        th scope="col" { "looser?" }
                    }
                }
                tbody { @for one in all { (set_row(sheet, one)) } }
            }
        }
    }
}

fn set_row(sheet: &Sheet<'_>, set: &Set) -> Markup {
    let sort = match set.sort {
        Sort::Limit => "limit",
        Sort::Grade => "grade",
        Sort::Stage => "stage",
    };
    let (verdict, why) = looser(sheet, set);
    html! {
        tr .over[verdict != Some(Verdict::Pass)] {
            td { (sort) " " code { (name(&set.called)) } }
            td { (set.by.chain.last().map_or("", |last| last.value.as_str())) }
            td { (over(&set.by)) }
            td { (sentence(&set.by.reason)) " " code { (place(sheet, &set.by)) } }
            td {
                @match verdict {
                    Some(Verdict::Pass) => "no",
                    Some(Verdict::Fault) => strong { "yes" },
                    Some(_) => { strong { "cannot be told: " } (text(&why)) },
                    None => { strong { "not judged" } },
                }
            }
        }
    }
}

/// What was in force below, the rule's own last.
fn over(by: &SetBy) -> Markup {
    let under: Vec<_> = by.chain.iter().rev().skip(1).collect();
    html! {
        @for (at, setting) in under.iter().enumerate() {
            @if at > 0 { ", over " }
            (text(&setting.value)) " (" @if at + 1 == under.len() { "the rule's own" } @else { code { (name(&setting.file)) } } ")"
        }
    }
}

fn place(sheet: &Sheet<'_>, by: &SetBy) -> String {
    match by.span {
        Some(span) => format!("{}:{}", name(&by.file), sheet.sources.locate(span).line),
        None => name(&by.file).into_owned(),
    }
}

/// What the tool's own rule says of a setting: whether it is looser than what it stands over.
fn looser(sheet: &Sheet<'_>, set: &Set) -> (Option<Verdict>, String) {
    let rule = match set.sort {
        Sort::Limit => "record/limit-loosened",
        Sort::Grade => "record/grade-lowered",
        Sort::Stage => "record/stage-put-off",
    };
    let found = own(sheet).find(|reading| reading.rule.id == rule && reading.subject.name == set.called);
    match found {
        Some(reading) => (Some(reading.verdict), reading.reason.clone().unwrap_or_default()),
        None => (None, String::new()),
    }
}

fn backlog(sheet: &Sheet<'_>) -> Markup {
    html! {
        @if let Some(backlog) = &sheet.in_force.backlog {
            h3 { "Backlog" }
            p {
                code { (name(&backlog.file)) } " lists " (so_many(backlog.of_build, "finding")) " of this build, of "
                (backlog.in_all) " in all, that were there when the specs were taken in. They stay visible among the findings and stop nothing."
            }
        }
    }
}

/// The readings of the tool's own rules: of this build's waivers, and of the rulebook as a whole.
fn own<'s>(sheet: &Sheet<'s>) -> impl Iterator<Item = &'s Reading> {
    let build = sheet.inspection.readings.iter();
    let rulebook = sheet.rulebook.into_iter().flat_map(|inspection| &inspection.readings);
    build.chain(rulebook).filter(|reading| reading.rule.kept)
}

fn of_the_tool(sheet: &Sheet<'_>) -> Markup {
    let units = sheet.terms.look.units;
    let found: Vec<&Reading> = own(sheet).filter(|reading| reading.verdict.is_finding()).collect();
    html! {
        h3 { "What the tool's own rules say of it" }
        @if sheet.rulebook.is_none() && !sheet.in_force.layers.is_empty() {
            p { "The rulebook as a whole was not judged." }
        }
        @if found.is_empty() { p { "Nothing." } } @else {
            ul {
                @for reading in found {
                    li {
                        span .grade { (words::grade_and_verdict(reading)) } ": "
                        (sentence(&reading.sentence(units)))
                        " " code { (reading.rule.id) }
                    }
                }
            }
        }
    }
}

#[cfg(test)]
mod tests;
