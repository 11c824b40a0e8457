//! The index of a folder of sheets: every build with its verdict and its tightest margins, to be looked through and
//! narrowed down. The page reads without its script, which only hides rows.

use jiff::civil::Date;
use maud::{DOCTYPE, Markup, PreEscaped, html};
use pintle_finding::{Grade, Inspection, Problem, Reading, Tally, Verdict};
use pintle_quantity::Units;
use pintle_report::{Outcome, outcome};

use crate::head::{class, sign, so_many};
use crate::markup::{name, sentence, text};
use crate::policy::policy;

const STYLE: &str = concat!(
    include_str!("style/page.css"),
    include_str!("style/head.css"),
    include_str!("style/tables.css"),
    include_str!("style/index.css"),
    include_str!("style/print.css"),
);
const SCRIPT: &str = include_str!("script/index.js");

/// So many tight margins are shown of each build.
const TIGHTEST: usize = 3;

/// One build of an index.
#[derive(Debug, Clone)]
pub struct Entry {
    file: Option<String>,
    spec: String,
    number: String,
    title: String,
    stage: &'static str,
    come_to: Outcome,
    faults: Vec<(Grade, usize)>,
    unjudged: usize,
    tightest: Vec<Tight>,
    problems: Vec<String>,
}

/// A pass with little margin.
#[derive(Debug, Clone)]
struct Tight {
    rule: String,
    said: String,
    share: f64,
}

impl Entry {
    /// Of a build whose sheet is in a file, by its address from the index; none where the spec cannot be read.
    pub fn of(file: Option<&str>, inspection: &Inspection, hold: Grade, units: Units) -> Self {
        let mut tally = Tally::default();
        tally.add(inspection);
        let faults = Grade::ALL.iter().rev().filter_map(|grade| {
            let count = tally.readings.get(&(Verdict::Fault, *grade)).copied()?;
            Some((*grade, count))
        });
        Self {
            file: file.map(str::to_owned),
            spec: inspection.spec.clone(),
            number: inspection.number.clone(),
            title: inspection.title.clone(),
            stage: inspection.stage.map_or("", pintle_finding::Stage::word),
            come_to: outcome(std::slice::from_ref(inspection), hold),
            faults: faults.collect(),
            unjudged: tally.with(Verdict::CannotJudge) + tally.with(Verdict::Broken),
            tightest: tightest(inspection, units),
            problems: inspection.problems.iter().map(told).collect(),
        }
    }
}

fn told(problem: &Problem) -> String {
    match &problem.help {
        Some(help) => format!("{}; {help}", problem.message),
        None => problem.message.clone(),
    }
}

fn tightest(inspection: &Inspection, units: Units) -> Vec<Tight> {
    let mut all: Vec<_> = inspection.margins().collect();
    all.sort_by(|(_, one), (_, other)| one.total_cmp(other));
    let tight = |(reading, share): (&Reading, f64)| Tight {
        rule: reading.rule.id.clone(),
        said: reading.sentence(units),
        share,
    };
    all.into_iter().take(TIGHTEST).map(tight).collect()
}

/// The index as one HTML document.
pub fn index(shop: Option<&str>, entries: &[Entry], day: Date) -> String {
    let verdicts = [Outcome::Held, Outcome::CannotJudge, Outcome::InputWrong, Outcome::Released];
    let count = |come_to: Outcome| entries.iter().filter(|entry| entry.come_to == come_to).count();
    let mut stages: Vec<&str> =
        entries.iter().map(|entry| entry.stage).filter(|stage| !stage.is_empty()).collect();
    stages.sort_unstable();
    stages.dedup();
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta http-equiv="Content-Security-Policy" content=(policy(STYLE, SCRIPT));
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="referrer" content="no-referrer";
                title { "Inspection sheets" @if let Some(shop) = shop { " of " (name(shop)) } }
                style { (PreEscaped(STYLE)) }
            }
            body {
                header .head {
                    p .kind { "Inspection sheets" @if let Some(shop) = shop { " · " (name(shop)) } }
                    h1 { (so_many(entries.len(), "build")) }
                    p {
                        "Judged on " (day) ". "
                        @for (at, come_to) in verdicts.into_iter().filter(|verdict| count(*verdict) > 0).enumerate() {
                            @if at > 0 { ", " }
                            (count(come_to)) " " (come_to.word())
                        }
                        "."
                    }
                    div .caution role="note" {
                        p { strong { "Figures are computed, not measured. " } "Weigh the real trailer. Work on gas and mains belongs to qualified people." }
                    }
                }
                main {
                    form .filters.screen hidden {
                        label { "verdict " select name="verdict" {
                            option value="" { "all" }
                            @for come_to in verdicts { option value=(come_to.word()) { (come_to.word()) } }
                        } }
                        label { "stage " select name="stage" {
                            option value="" { "all" }
                            @for stage in &stages { option value=(stage) { (stage) } }
                        } }
                        label { "words " input type="search" name="words" placeholder="number, title, rule"; }
                        output name="shown" aria-live="polite" {}
                    }
                    table .builds {
                        caption { "Builds, with the readings that pass by least" }
                        thead {
                            tr {
                                th scope="col" { "build" }
                                th scope="col" { "stage" }
                                th scope="col" { "verdict" }
                                th scope="col" { "faults" }
                                th scope="col" .figure { "not judged" }
                                th scope="col" { "tightest margins" }
                            }
                        }
                        tbody { @for entry in entries { (row(entry)) } }
                    }
                }
                script { (PreEscaped(SCRIPT)) }
            }
        }
    };
    page.into_string()
}

fn row(entry: &Entry) -> Markup {
    let called = html! {
        strong { (name(&entry.number)) }
        " " (name(&entry.title))
    };
    html! {
        tr data-verdict=(entry.come_to.word()) data-stage=(entry.stage) {
            th scope="row" {
                @match &entry.file {
                    Some(file) => a href=(file) { @if entry.number.is_empty() { (name(&entry.spec)) } @else { (called) } },
                    None => (name(&entry.spec)),
                }
                div .spec { (text(&entry.spec)) }
            }
            td { (entry.stage) }
            td { span class=(format!("mark {}", class(entry.come_to))) { span aria-hidden="true" { (sign(entry.come_to)) } " " (entry.come_to.word()) } }
            td {
                @if !entry.problems.is_empty() { ul { @for problem in &entry.problems { li { (sentence(problem)) } } } }
                @for (grade, count) in &entry.faults { div { (count) " " (grade.word()) } }
                @if entry.faults.is_empty() && entry.problems.is_empty() { "none" }
            }
            td .figure { (entry.unjudged) }
            td {
                @if !entry.tightest.is_empty() {
                    ul {
                        @for tight in &entry.tightest {
                            li { span .share { (format!("{:.1} %", tight.share * 100.0)) } " " code { (tight.rule) } ": " (text(&tight.said)) }
                        }
                    }
                }
            }
        }
    }
}
