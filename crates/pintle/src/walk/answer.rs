//! What is told to the browser: a page, or what a record that was typed in would come to, as JSON.

use std::collections::BTreeMap;

use pintle_finding::{Grade, Inspection, Reading};
use pintle_quantity::Units;
use pintle_report::{safe, words};
use pintle_rulebook::Rulebook;
use pintle_spec::schema::record;
use serde_json::{Value, json};

use super::faults::Places;

/// What goes back over the wire.
#[derive(Debug)]
pub(super) struct Answer {
    pub(super) status: u16,
    pub(super) body: Body,
}

#[derive(Debug)]
pub(super) enum Body {
    /// A page, with the content security policy that it is sent under.
    Page(pintle_sheet::WalkPage),
    Json(Value),
}

impl Answer {
    pub(super) fn json(status: u16, value: Value) -> Self {
        Self { status, body: Body::Json(value) }
    }
}

/// What a reading says, by what it is of: its rule, its subject, what was measured, and which of several such it is.
pub(super) type Said = BTreeMap<(String, String, String, usize), String>;

/// What every reading of an inspection says.
pub(super) fn said(inspection: &Inspection, units: Units) -> Said {
    let mut said = Said::new();
    for reading in &inspection.readings {
        let (key, _) = key(reading, &said);
        said.insert(key, told(reading, units));
    }
    said
}

fn key(reading: &Reading, said: &Said) -> ((String, String, String, usize), bool) {
    let of = |at| (reading.rule.id.clone(), reading.path.clone(), reading.what.clone(), at);
    let mut at = 0;
    while said.contains_key(&of(at)) {
        at += 1;
    }
    (of(at), at > 0)
}

fn told(reading: &Reading, units: Units) -> String {
    format!("{}: {}", words::grade_and_verdict(reading), reading.sentence(units))
}

/// An inspection as the page shows it while one types: the verdict, and the readings that go by the record.
pub(super) fn judged(
    inspection: &Inspection,
    rulebook: &Rulebook,
    places: &Places,
    before: &Said,
    units: Units,
) -> (Value, Value) {
    let mut seen = Said::new();
    let mut readings = Vec::new();
    for reading in &inspection.readings {
        let (key, _) = key(reading, &seen);
        let now = told(reading, units);
        let was = before.get(&key);
        let changed = was != Some(&now);
        seen.insert(key, now);
        let script = rulebook.rule(&reading.rule.id).map_or("", |bound| &bound.file.script_text);
        let path = path(reading, places);
        if goes_by_the_record(script) || path.is_some() || changed {
            // What is missing has no place in the file: the field that the rule asks for first is where it would stand.
            let path = path.or_else(|| asked_for(script).filter(|_| reading.verdict.is_finding()));
            readings.push(json!({
                "grade": reading.grade().word(),
                "verdict": reading.verdict.to_string(),
                "finding": reading.verdict.is_finding(),
                "accepted": reading.accepted.is_some(),
                "words": words::grade_and_verdict(reading),
                "title": safe::line(&reading.rule.title),
                "says": sentence(&reading.sentence(units)),
                "remedy": reading.remedy.as_deref().map(sentence),
                "path": path,
                "changed": changed,
                "was": was.filter(|_| changed).map(|was| sentence(was)),
            }));
        }
    }
    let gone = before.keys().filter(|key| !seen.contains_key(*key)).count();
    (Value::Array(readings), json!(gone))
}

/// The verdict in one line, as the sheet's head has it.
pub(super) fn verdict(inspection: &Inspection, hold: Grade) -> Value {
    let verdict = pintle_sheet::verdict(inspection, hold);
    json!({ "word": verdict.word, "by": verdict.by, "class": verdict.class, "sign": verdict.sign })
}

/// The field of the record that a reading is about, where there is one; of an entry, the entry.
fn path(reading: &Reading, places: &Places) -> Option<String> {
    let of_subject = reading.subject.span.and_then(|span| places.path(span));
    places.of_labels(&reading.labels).or(of_subject).filter(|path| !path.is_empty()).map(str::to_owned)
}

/// A sentence, made harmless, with its full stop.
fn sentence(text: &str) -> String {
    let shown = safe::line(text);
    format!("{shown}{}", if shown.ends_with(['.', '!', '?']) { "" } else { "." })
}

/// Whether a rule asks for the record at all.
fn goes_by_the_record(script: &str) -> bool {
    words(script).any(|word| word == RECORD)
}

/// The first field of the record that a rule names, as `record.vin` or `has(record, "vin")`.
fn asked_for(script: &str) -> Option<String> {
    let mut words = words(script).skip_while(|word| *word != RECORD);
    words.find_map(|word| record::SCHEMA.find(word)).map(|field| field.key.to_owned())
}

/// What the record is called in scripts.
const RECORD: &str = "record";

fn words(script: &str) -> impl Iterator<Item = &str> {
    script.split(|letter: char| !letter.is_alphanumeric() && letter != '_')
}

#[cfg(test)]
mod tests {
    use super::{asked_for, goes_by_the_record};

    #[test]
    fn a_rule_says_which_field_it_asks_for() {
        for (script, field) in [
            ("require(has(record, \"vin\"), \"…\")", Some("vin")),
            ("for ticket in record.ticket { reading(ticket.gross) }", Some("ticket")),
            ("reading(trailer.lugs)", None),
            ("let recorded = 1;", None),
        ] {
            assert_eq!(asked_for(script).as_deref(), field, "{script}");
            assert_eq!(goes_by_the_record(script), field.is_some(), "{script}");
        }
    }
}
