//! Everything else that was judged: what passed, the tightest first; what could not be judged, and what is missing; what
//! was not applicable, and why; what is judged only at a later stage.

use std::cmp::Ordering;
use std::collections::{BTreeMap, BTreeSet};

use maud::{Markup, html};
use pintle_finding::{Basis, Bound, Reading, Verdict};
use pintle_quantity::{Units, show_apart};

use crate::head::so_many;
use crate::markup::{name, sentence, text};
use crate::{Sheet, frame};

/// The section.
pub(crate) fn section(sheet: &Sheet<'_>) -> Markup {
    let body = html! {
        (not_judged(sheet))
        (passed(sheet))
        (not_applicable(sheet))
        (later(sheet))
    };
    frame::section("readings", "Readings", &body)
}

fn of<'s>(sheet: &Sheet<'s>, verdict: Verdict) -> Vec<&'s Reading> {
    sheet.inspection.readings.iter().filter(|reading| reading.verdict == verdict).collect()
}

fn not_judged(sheet: &Sheet<'_>) -> Markup {
    let mut missing: BTreeMap<String, Vec<&Reading>> = BTreeMap::new();
    for reading in &sheet.inspection.readings {
        if matches!(reading.verdict, Verdict::CannotJudge | Verdict::Broken) {
            let why = reading.reason.clone().unwrap_or_else(|| "no reason was given".to_owned());
            missing.entry(why).or_default().push(reading);
        }
    }
    html! {
        h3 { "What could not be judged" }
        @if missing.is_empty() {
            p { "Everything that is asked for at this stage could be judged." }
        } @else {
            p { "Each is missing something. None of them counts as a pass." }
            table {
                thead { tr { th scope="col" { "what is missing" } th scope="col" { "so these rules could not be judged" } } }
                tbody {
                    @for (why, readings) in &missing {
                        tr { td { (sentence(why)) } td { (rules(readings)) } }
                    }
                }
            }
        }
    }
}

/// The rules of some readings, each once.
fn rules(readings: &[&Reading]) -> Markup {
    let mut ids: Vec<&str> = readings.iter().map(|reading| reading.rule.id.as_str()).collect();
    ids.sort_unstable();
    ids.dedup();
    html! { @for (at, id) in ids.iter().enumerate() { @if at > 0 { ", " } code { (id) } } }
}

fn passed(sheet: &Sheet<'_>) -> Markup {
    let mut passes = of(sheet, Verdict::Pass);
    passes.sort_by(|one, other| tightness(one, other));
    let mut of_rules: BTreeMap<&str, usize> = BTreeMap::new();
    for reading in &passes {
        *of_rules.entry(&reading.rule.id).or_default() += 1;
    }
    let mut seen = BTreeSet::new();
    let tightest: Vec<&Reading> =
        passes.iter().copied().filter(|reading| seen.insert(reading.rule.id.as_str())).collect();
    let more = |reading: &Reading| of_rules.get(reading.rule.id.as_str()).map_or(0, |count| count - 1);
    html! {
        h3 { "What passed, the tightest first" }
        p {
            (so_many(passes.len(), "reading")) " of " (so_many(tightest.len(), "rule")) " passed. Each rule stands here once, with its \
             tightest reading and how many more it has. The margin is the distance to the limit, as a share of the limit where it \
             is not zero."
        }
        @if !tightest.is_empty() {
            details .long {
                summary { "Each rule at its tightest" }
                (table(sheet, tightest.iter().map(|reading| (*reading, more(reading)))))
            }
            details .worked {
                summary { "Every reading that passed" }
                (table(sheet, passes.iter().map(|reading| (*reading, 0))))
            }
        }
    }
}

/// Readings, each with how many more there are of its rule.
fn table<'r>(sheet: &Sheet<'_>, readings: impl Iterator<Item = (&'r Reading, usize)>) -> Markup {
    let units = sheet.terms.look.units;
    html! {
        table .readings {
            thead {
                tr {
                    th scope="col" { "rule" }
                    th scope="col" { "of" }
                    th scope="col" .figure { "value" }
                    th scope="col" { "limit" }
                    th scope="col" .figure { "margin" }
                    th scope="col" { "rests on" }
                }
            }
            tbody { @for (reading, more) in readings { (row(reading, more, units)) } }
        }
    }
}

/// The least share of its limit first; then what has none, by id.
fn tightness(one: &Reading, other: &Reading) -> Ordering {
    let share = |reading: &Reading| reading.margin().and_then(|margin| margin.share);
    match (share(one), share(other)) {
        (Some(one), Some(other)) => one.total_cmp(&other),
        (Some(_), None) => Ordering::Less,
        (None, Some(_)) => Ordering::Greater,
        (None, None) => Ordering::Equal,
    }
    .then_with(|| one.rule.id.cmp(&other.rule.id))
}

fn row(reading: &Reading, more: usize, units: Units) -> Markup {
    let (value, limit) = value_and_limit(reading, units);
    let margin = reading.margin().map(|margin| match margin.share {
        Some(share) => format!("{:.1} %", share * 100.0),
        None => margin.amount.show(units),
    });
    html! {
        tr {
            td { code { (reading.rule.id) } }
            td { (name(&reading.subject.called())) @if more > 0 { span .more { " and " (more) " more" } } }
            td .figure { (text(&value)) }
            td { (text(&limit)) }
            td .figure { (margin.unwrap_or_default()) }
            td { (grounds(reading)) }
        }
    }
}

/// What was measured, and against what; for a condition, what holds.
fn value_and_limit(reading: &Reading, units: Units) -> (String, String) {
    let apart = |limit: pintle_quantity::Quantity, words: &str| match reading.value {
        Some(value) => {
            let (value, limit) = show_apart(value, limit, units);
            (value, format!("{words} {limit}"))
        }
        None => (String::new(), format!("{words} {}", limit.show(units))),
    };
    let value = || reading.value.map(|value| value.show(units)).unwrap_or_default();
    match &reading.bound {
        Bound::AtLeast(limit) => apart(*limit, "at least"),
        Bound::AtMost(limit) => apart(*limit, "at most"),
        Bound::Equal(limit) => apart(*limit, "equal to"),
        Bound::Between(least, most) => (value(), format!("{} to {}", least.show(units), most.show(units))),
        Bound::Holds(condition) => (value(), condition.clone()),
        Bound::None => (value(), String::new()),
    }
}

/// The text that a published rule names; else the word for its basis.
fn grounds(reading: &Reading) -> String {
    let words: Vec<String> = reading
        .rule
        .citations
        .iter()
        .map(|citation| match citation.basis {
            Basis::Published => citation.text.clone(),
            basis => basis.word().to_owned(),
        })
        .collect();
    let mut seen = BTreeSet::new();
    words.into_iter().filter(|word| seen.insert(word.clone())).collect::<Vec<_>>().join("; ")
}

fn not_applicable(sheet: &Sheet<'_>) -> Markup {
    let mut why: BTreeMap<String, Vec<&Reading>> = BTreeMap::new();
    for reading in of(sheet, Verdict::NotApplicable) {
        why.entry(reading.reason.clone().unwrap_or_default()).or_default().push(reading);
    }
    html! {
        h3 { "What was not applicable, and why" }
        @if why.is_empty() { p { "Every rule applied." } } @else {
            details .long {
                summary { (so_many(why.len(), "reason")) }
                table {
                    thead { tr { th scope="col" { "why" } th scope="col" { "rules" } } }
                    tbody { @for (why, readings) in &why { tr { td { (sentence(why)) } td { (rules(readings)) } } } }
                }
            }
        }
    }
}

fn later(sheet: &Sheet<'_>) -> Markup {
    let mut stages: BTreeMap<_, Vec<&str>> = BTreeMap::new();
    for (id, stage) in &sheet.inspection.later {
        stages.entry(*stage).or_default().push(id);
    }
    html! {
        @if !stages.is_empty() {
            h3 { "What is judged only at a later stage" }
            dl .facts {
                @for (stage, ids) in &stages {
                    div { dt { "from " (stage.word()) } dd {
                        @for (at, id) in ids.iter().enumerate() { @if at > 0 { ", " } code { (id) } }
                    } }
                }
            }
        }
    }
}
