//! The worked steps of a reading that judges a figure: every value taken and every step, with the formula in the symbols
//! of its source.

use std::collections::{BTreeMap, BTreeSet};

use maud::{Markup, html};
use pintle_calc::{Case, Step, Working, topics};
use pintle_finding::Reading;
use pintle_report::figures::shown;

use crate::Sheet;
use crate::about::Findings;
use crate::markup::{name, sentence, text};

/// The figures of every topic that a finding judged, by their name and what they are of.
#[derive(Debug)]
pub(crate) struct Workings(BTreeMap<(String, String), Working>);

impl Workings {
    /// Works them out; the other topics are left alone.
    pub(crate) fn of(case: &Case<'_>, found: &Findings<'_>) -> Self {
        let judged = found.all().iter().map(|finding| finding.reading.rule.judges.as_str());
        let asked: BTreeSet<&str> = judged.filter_map(|judges| Some(judges.split_once('/')?.0)).collect();
        let topics = topics::ALL.iter().filter(|topic| asked.contains(topic.name));
        let all = topics.flat_map(|topic| topic.figures(case));
        Self(
            all.map(|working| ((format!("{}/{}", working.topic, working.key), working.of.clone()), working))
                .collect(),
        )
    }

    /// The one that a reading judged.
    pub(crate) fn judged(&self, reading: &Reading) -> Option<&Working> {
        let called = reading.subject.called();
        let of = if called.is_empty() { "the build".to_owned() } else { called };
        self.0.get(&(reading.rule.judges.clone(), of))
    }
}

/// The steps as a table; nothing where the figure was taken as it is written.
pub(crate) fn steps(sheet: &Sheet<'_>, working: &Working) -> Markup {
    html! {
        @if !working.caution.is_empty() { p .note { (sentence(working.caution)) } }
        @if !working.steps.is_empty() {
            table .steps {
                caption { "How the " (text(working.says)) " came about" }
                thead {
                    tr {
                        th scope="col" { "symbol" }
                        th scope="col" { "what" }
                        th scope="col" { "worked out as" }
                        th scope="col" .figure { "comes to" }
                        th scope="col" { "by" }
                    }
                }
                tbody { @for step in &working.steps { (row(sheet, step)) } }
            }
        }
    }
}

fn row(sheet: &Sheet<'_>, step: &Step) -> Markup {
    let by = match step.origin.text.as_ref() {
        "" => step.origin.standing.word().to_owned(),
        source => format!("{source} ({})", step.origin.standing.word()),
    };
    html! {
        tr {
            td { i { (step.symbol) } }
            td { (name(&step.what)) }
            td { (step.formula) }
            td .figure { (shown(step.value.quantity, sheet.terms.look)) }
            td { (name(&by)) }
        }
    }
}
