//! What a machine reads.

use insta::assert_snapshot;
use pintle_finding::{Grade, Verdict};
use pintle_quantity::Quantity;
use serde_json::Value as Json;

use super::*;
use crate::human::hostile::{EVIL, assert_harmless, hostile};
use crate::sample::{self, Shop};

fn written(inspections: &[Inspection], sources: &Sources) -> String {
    shown(inspections, sources, &Look::default())
}

fn shown(inspections: &[Inspection], sources: &Sources, look: &Look) -> String {
    let mut summary = Summary::new(Grade::Major);
    for inspection in inspections {
        summary.add(inspection, look);
    }
    let inspected: Vec<_> = inspections.iter().map(|one| (one.clone(), sources.clone())).collect();
    text(&inspected, &[], &summary, look)
}

fn read(inspections: &[Inspection], sources: &Sources) -> Json {
    serde_json::from_str(&written(inspections, sources)).unwrap()
}

#[test]
fn document_of_the_sample_shop() {
    let shop = Shop::new();
    let unreadable =
        Inspection { spec: "b.toml".to_owned(), problems: shop.problems(), ..Inspection::default() };
    let version = format!("\"version\": \"{}\"", env!("CARGO_PKG_VERSION"));
    let text = written(&[shop.inspection, unreadable], &shop.sources);
    assert_snapshot!(text.replace(&version, "\"version\": \"(of the tool)\""));
}

#[test]
fn every_reading_and_every_label_is_there() {
    let mut shop = Shop::new();
    let labels = &mut shop.inspection.readings[0].labels;
    labels.extend_from_within(..);
    labels.extend_from_within(..);
    let found = read(std::slice::from_ref(&shop.inspection), &shop.sources);
    let readings = found["specs"][0]["readings"].as_array().unwrap();
    let verdicts: Vec<_> = readings.iter().map(|reading| reading["verdict"].as_str().unwrap()).collect();
    assert_eq!(verdicts, ["fault", "pass", "fault", "not applicable", "cannot judge", "broken"]);
    for (json, reading) in readings.iter().zip(&shop.inspection.readings) {
        let texts: Vec<_> = json["labels"].as_array().unwrap().iter().map(|label| &label["text"]).collect();
        let expected: Vec<_> = reading.labels.iter().map(|label| label.text.as_str()).collect();
        assert_eq!(texts, expected);
    }
}

#[test]
fn the_verdict_of_a_spec_is_its_own() {
    let shop = Shop::new();
    let of = |verdict, spec: &str| Inspection {
        spec: spec.to_owned(),
        readings: vec![sample::reading(verdict, Grade::Major)],
        ..Inspection::default()
    };
    let wrong = Inspection { problems: shop.problems(), ..Inspection::default() };
    let all = [of(Verdict::Pass, "a"), of(Verdict::Fault, "b"), of(Verdict::Broken, "c"), wrong];
    let found = read(&all, &shop.sources);
    let verdicts: Vec<_> = found["specs"].as_array().unwrap().iter().map(|spec| &spec["verdict"]).collect();
    assert_eq!(verdicts, ["released", "held", "cannot judge", "input wrong"]);
    assert_eq!(found["verdict"], "input wrong");
}

#[test]
fn figures_read_back_to_the_last_digit_and_what_is_no_number_is_null() {
    let mut reading = sample::reading(Verdict::Pass, Grade::Major);
    let third = Quantity::pounds(1.0 / 3.0);
    reading.value = Some(third);
    let of = |reading: pintle_finding::Reading| {
        let found = read(&[Inspection { readings: vec![reading], ..Inspection::default() }], &Sources::new());
        found["specs"][0]["readings"][0]["value"].clone()
    };
    let value = of(reading.clone());
    assert_eq!(value["si"].as_f64().map(f64::to_bits), Some(third.si().to_bits()));
    assert_eq!(value["dimension"], "mass");
    assert_eq!(value["unit"], "lb");
    reading.value = Some(Quantity::pounds(f64::NAN));
    assert_eq!(of(reading)["si"], Json::Null);
}

#[test]
fn the_units_asked_for_are_shown_beside_the_author_s() {
    let shop = Shop::new();
    let look = Look { units: pintle_quantity::Units::Metric, ..Look::default() };
    let text = shown(&[shop.inspection], &shop.sources, &look);
    let found: Json = serde_json::from_str(&text).unwrap();
    let value = &found["specs"][0]["readings"][1]["value"];
    assert_eq!((&value["shown"], &value["unit"]), (&Json::from("1,339 kg"), &Json::from("lb")));
    let sentence = found["specs"][0]["readings"][1]["sentence"].as_str().unwrap();
    assert!(sentence.contains("1,339 kg"), "{sentence}");
}

#[test]
fn hostile_text_is_escaped_and_reads_back_whole() {
    let (sources, inspection, _) = hostile();
    let text = written(&[inspection], &sources);
    assert_harmless(&text);
    let found: Json = serde_json::from_str(&text).unwrap();
    let reading = &found["specs"][0]["readings"][0];
    assert_eq!(reading["title"], EVIL);
    assert_eq!(reading["labels"][0]["text"], EVIL);
    assert_eq!(found["specs"][0]["problems"][0]["message"], EVIL);
}
