//! What is read aloud.

use insta::assert_snapshot;
use pintle_finding::{Grade, Verdict};

use super::*;
use crate::human::hostile::{assert_harmless, hostile};
use crate::sample::{Shop, reading};

#[test]
fn findings_of_the_sample_shop() {
    let shop = Shop::new();
    assert_snapshot!(findings(&shop.inspection, &shop.sources, &Look::default()));
}

#[test]
fn problems_of_files() {
    let shop = Shop::new();
    assert_snapshot!(problems(&shop.problems(), &shop.sources, &Look::default()));
}

#[test]
fn every_finding_has_one_line_with_the_text_of_every_label() {
    let shop = Shop::new();
    let text = findings(&shop.inspection, &shop.sources, &Look::default());
    let lines: Vec<_> = text.lines().collect();
    let found: Vec<_> = shop.inspection.findings().collect();
    assert_eq!(lines.len(), found.len());
    for (line, reading) in lines.iter().zip(found) {
        assert!(line.contains(&reading.rule.id), "{line}");
        for label in &reading.labels {
            assert!(line.contains(&label.text), "`{}` is missing in {line}", label.text);
        }
    }
}

#[test]
fn a_finding_that_is_marked_elsewhere_still_names_its_spec() {
    let shop = Shop::new();
    let mut reading = shop.light_tongue();
    reading.labels.retain(|label| label.span.source == shop.stock);
    let line = finding(&reading, "specs/lr-118.toml", &shop.sources, Look::default());
    assert!(line.starts_with("stock/parts.toml:8:8: critical: towing/light-tongue: "), "{line}");
    assert!(line.contains("; in specs/lr-118.toml; "), "{line}");
}

#[test]
fn a_finding_without_a_place_opens_with_its_spec() {
    let line = finding(&reading(Verdict::Broken, Grade::Major), "a.toml", &Sources::new(), Look::default());
    assert_eq!(line, "a.toml: major, broken: house/sample: the rule failed: no reason given");
}

#[test]
fn hostile_text_stays_on_its_line() {
    let (sources, inspection, wrong) = hostile();
    let text = findings(&inspection, &sources, &Look::default());
    assert_harmless(&text);
    // One line each, and one for the remedy of the fault.
    assert_eq!(text.lines().count(), inspection.findings().count() + 1);
    let text = problems(&wrong, &sources, &Look::default());
    assert_harmless(&text);
    assert_eq!(text.lines().count(), 1);
}
