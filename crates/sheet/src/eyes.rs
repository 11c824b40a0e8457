//! The checks that only eyes can make, in the order of the walk, each with an empty box; and the lines to sign on.
//!
//! No box is ever filled in here: a rule cannot see.

use std::collections::BTreeMap;

use maud::{Markup, html};
use pintle_finding::{Basis, ByEye, Stage, Station};

use crate::aboard::Aboard;
use crate::head::so_many;
use crate::markup::{capital, name, sentence};
use crate::{Sheet, frame};

/// The section.
pub(crate) fn section(sheet: &Sheet<'_>) -> Markup {
    let aboard = Aboard::of(sheet.build);
    let stage = sheet.build.stage.value;
    let asked: Vec<&ByEye> = sheet.in_force.by_eye.iter().filter(|check| aboard.any(&check.of)).collect();
    let later = asked.iter().filter(|check| check.from > stage).count();
    let mut stations: BTreeMap<Station, Vec<&ByEye>> = BTreeMap::new();
    for check in asked.into_iter().filter(|check| check.from <= stage) {
        stations.entry(check.station).or_default().push(check);
    }
    let body = html! {
        @if sheet.in_force.by_eye.is_empty() {
            p { "The rulebook in force holds no list of checks by eye." }
        } @else if stations.is_empty() {
            p { "None is asked at the stage " (stage) "." }
        } @else {
            p {
                "No rule can judge these. Look at each one, cross its box, and write initials and what you saw; a box left empty was \
                 not looked at, and is no pass. Where nothing else is said the check is common practice and has no source."
            }
            (table(&stations))
        }
        @if later > 0 { (to_come(sheet, aboard, stage)) }
        (signatures(aboard))
    };
    frame::section("eyes", "Checks that only eyes can make", &body)
}

/// One table, so that its head is printed once a page and not once a station.
fn table(stations: &BTreeMap<Station, Vec<&ByEye>>) -> Markup {
    html! {
        table .record .eyes {
            thead {
                tr {
                    th scope="col" { "so" } th scope="col" { "not so" } th scope="col" { "what is so when all is well, and how to look" }
                    th scope="col" { "initials" } th scope="col" { "what was seen" }
                }
            }
            @for (station, checks) in stations {
                tbody {
                    tr .head { th scope="rowgroup" colspan="5" { (capital(station.word())) } }
                    @for check in checks { (check_row(check)) }
                }
            }
        }
    }
}

fn check_row(check: &ByEye) -> Markup {
    html! {
        tr {
            td { span .tick { span .away { "so" } } }
            td { span .tick { span .away { "not so" } } }
            td {
                (sentence(&check.look))
                span .what { (sentence(&check.how)) " " (ground(check)) }
            }
            td { span .blank .short { span .away { "initials" } } }
            td { span .blank .long { span .away { "what was seen" } } }
        }
    }
}

/// What it rests on, where that is more than habit; and whose it is, where that is not the tool's.
fn ground(check: &ByEye) -> Markup {
    let cited = &check.ground;
    html! {
        @match cited.basis {
            Basis::CommonPractice => {},
            Basis::Published => { "Published: " (sentence(&rest(&cited.text, &cited.says))) },
            Basis::Memory => { "From memory, to be checked: " (sentence(&rest(&cited.text, &cited.says))) },
            Basis::Shop => "The shop's own. ",
        }
        @if let Some(file) = &check.set_by { " Set by " (name(file)) "." }
    }
}

fn rest(text: &str, says: &str) -> String {
    if says.is_empty() { text.to_owned() } else { format!("{text}, {says}") }
}

/// What is asked only at a later stage, so that nobody takes it for forgotten.
fn to_come(sheet: &Sheet<'_>, aboard: Aboard<'_>, stage: Stage) -> Markup {
    let mut stages: BTreeMap<Stage, usize> = BTreeMap::new();
    for check in sheet.in_force.by_eye.iter().filter(|check| check.from > stage && aboard.any(&check.of)) {
        *stages.entry(check.from).or_default() += 1;
    }
    html! {
        p {
            "Asked only later: "
            @for (at, (from, count)) in stages.iter().enumerate() {
                @if at > 0 { ", " }
                (so_many(*count, "check")) " from the stage " (from)
            }
            "."
        }
    }
}

/// The lines to sign on.
fn signatures(aboard: Aboard<'_>) -> Markup {
    let mut lines =
        vec![("built", "who built it"), ("inspected", "who looked it over, and did not build it")];
    if aboard.gas() {
        lines.push((
            "gas",
            "who did the gas; licensed where the law of the place asks for it: number of the licence",
        ));
    }
    if aboard.mains() {
        lines.push((
            "mains",
            "who did the mains; licensed where the law of the place asks for it: number of the licence",
        ));
    }
    lines.push(("customer", "who takes it over, and was shown all of it"));
    html! {
        h3 { "Signatures" }
        table .record .signatures {
            thead { tr { th scope="col" { "for" } th scope="col" { "name, in capitals" } th scope="col" { "signature" } th scope="col" { "date" } } }
            tbody {
                @for (what, who) in lines {
                    tr {
                        th scope="row" { (what) span .what { (who) } }
                        td { span .blank .long .tall { span .away { "name" } } }
                        td { span .blank .long .tall { span .away { "signature" } } }
                        td { span .blank .day .tall { span .away { "date" } } }
                    }
                }
            }
        }
        p { "Who signs says what he did and saw, and nothing more. A signature is no certificate, and no permission to leave out what the law asks." }
    }
}

#[cfg(test)]
mod tests;
