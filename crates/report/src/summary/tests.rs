//! The closing words.

use insta::assert_snapshot;
use pintle_quantity::Quantity;

use pintle_finding::Reading;

use super::*;
use crate::human::hostile::{assert_harmless, hostile};
use crate::sample::{Shop, reading};

fn words(inspections: &[Inspection], hold: Grade) -> String {
    let mut summary = Summary::new(hold);
    for inspection in inspections {
        summary.add(inspection, &Look::default());
    }
    summary.text()
}

fn only(readings: Vec<Reading>) -> Inspection {
    Inspection { spec: "a.toml".to_owned(), readings, ..Inspection::default() }
}

fn outcome_line(inspections: &[Inspection], hold: Grade) -> String {
    let text = words(inspections, hold);
    let lines: Vec<_> = text.lines().collect();
    assert_eq!(lines.last(), Some(&CAUTION));
    lines[lines.len() - 2].to_owned()
}

#[test]
fn summary_of_the_sample_shop_and_an_unreadable_spec() {
    let shop = Shop::new();
    let unreadable = Inspection { problems: shop.problems(), ..Inspection::default() };
    assert_snapshot!(words(std::slice::from_ref(&shop.inspection), Grade::Major));
    assert_snapshot!(words(&[shop.inspection, unreadable], Grade::Major));
}

#[test]
fn the_outcome_is_said_in_one_line() {
    let pass = only(vec![reading(Verdict::Pass, Grade::Critical)]);
    let fault = only(vec![reading(Verdict::Fault, Grade::Critical), reading(Verdict::Fault, Grade::Major)]);
    let unsure =
        only(vec![reading(Verdict::CannotJudge, Grade::Major), reading(Verdict::Broken, Grade::Minor)]);
    let wrong = Inspection { problems: vec![Problem::new("syntax", "a")], ..Inspection::default() };
    let major = |inspections: &[Inspection]| outcome_line(inspections, Grade::Major);
    assert_eq!(major(&[pass]), "released: no finding at or above major");
    assert_eq!(major(std::slice::from_ref(&fault)), "held by 2 faults at or above major");
    assert_eq!(
        outcome_line(std::slice::from_ref(&fault), Grade::Critical),
        "held by 1 fault at or above critical"
    );
    assert_eq!(
        major(std::slice::from_ref(&unsure)),
        "cannot judge: 1 reading at or above major could not be judged"
    );
    assert_eq!(
        outcome_line(&[unsure, fault], Grade::Minor),
        "held by 2 faults at or above minor; 2 readings there could not be judged"
    );
    assert_eq!(major(&[wrong]), "input wrong: 1 file with problems");
    assert_eq!(major(&[]), "released: there was nothing to judge");
}

#[test]
fn the_five_tightest_passes_are_named_tightest_first() {
    let shop = Shop::new();
    let weighing = |pounds: f64| Reading { value: Some(Quantity::pounds(pounds)), ..shop.over_gvwr() };
    let weights = [2000.0, 2989.9, 2700.0, 2800.0, 2990.0, 2900.0, 2950.0];
    let text = words(&[only(weights.map(weighing).to_vec())], Grade::Major);
    let named: Vec<_> =
        text.lines().filter(|line| line.starts_with("  a.toml: towing/over-gvwr: ")).collect();
    let left: Vec<_> = named.iter().map(|line| line.split("; ").last().unwrap()).collect();
    assert_eq!(
        left,
        [
            "0.0 % of the limit left",
            "less than 0.1 % of the limit left",
            "1.3 % of the limit left",
            "3.0 % of the limit left",
            "6.4 % of the limit left"
        ]
    );
}

#[test]
fn a_fault_is_no_tight_margin() {
    let shop = Shop::new();
    let text = words(&[only(vec![shop.light_tongue()])], Grade::Major);
    assert!(!text.contains("tightest"), "{text}");
}

#[test]
fn hostile_names_are_made_harmless() {
    let (_, mut inspection, _) = hostile();
    let value = Some(Quantity::pounds(10.0));
    let bound = pintle_finding::Bound::AtMost(Quantity::pounds(20.0));
    let pass = inspection.readings[0].clone();
    inspection.readings.push(Reading { verdict: Verdict::Pass, value, bound, ..pass });
    let text = words(&[inspection], Grade::Major);
    assert_harmless(&text);
    assert!(text.contains("50.0 % of the limit left"), "{text}");
}
