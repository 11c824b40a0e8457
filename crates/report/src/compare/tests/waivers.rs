//! Waivers that came, went or changed.

use pintle_quantity::Units;

use super::super::say;
use super::super::*;

fn waiver(item: Option<&str>, waived_in: WaivedIn, until: &str, reason: &str) -> WaiverFacts {
    WaiverFacts {
        rule: "roof/tall-rack".to_owned(),
        item: item.map(str::to_owned),
        waived_in,
        terms: WaiverTerms {
            kind: "deviation",
            until: until.to_owned(),
            who: "the foreman".to_owned(),
            reason: reason.to_owned(),
        },
    }
}

fn build(number: &str) -> WaivedIn {
    WaivedIn::Build(number.to_owned())
}

/// What is said of two rulebooks that differ in their waivers alone.
fn told(old: Vec<WaiverFacts>, new: Vec<WaiverFacts>) -> Vec<String> {
    let facts = |waivers| RulebookFacts {
        name: None,
        hold: Grade::Major,
        rules: Vec::new(),
        tolerances: Vec::new(),
        waivers,
    };
    let change = facts(old).to(&facts(new));
    let changes = change.map_or(Vec::new(), |change| change.changes);
    changes.iter().map(|change| say::rule(change, Units::AsWritten)).collect()
}

#[test]
fn one_that_comes_or_goes_is_told_whole() {
    let one = || waiver(Some("item.rack"), build("OM-1"), "2026-12-31", "his own rack");
    let said = "deviation by the foreman until 2026-12-31: his own rack";
    let head = "roof/tall-rack: waiver on `item.rack` in build `OM-1`";
    assert_eq!(told(Vec::new(), vec![one()]), [format!("{head} added, {said}")]);
    assert_eq!(told(vec![one()], Vec::new()), [format!("{head} removed, {said}")]);
    assert!(told(vec![one()], vec![one()]).is_empty());
}

#[test]
fn one_that_changed_is_told_by_what_did() {
    let old = waiver(None, WaivedIn::Any, "2026-12-31", "his own rack");
    let mut new = waiver(None, WaivedIn::Any, "2027-12-31", "he was told");
    let said = "roof/tall-rack: waiver in any build: last day from `2026-12-31` to `2027-12-31`; \
                reason from `his own rack` to `he was told`";
    assert_eq!(told(vec![old.clone()], vec![new.clone()]), [said]);
    new.terms = WaiverTerms { kind: "concession", who: "the owner".to_owned(), ..old.terms.clone() };
    let said = "roof/tall-rack: waiver in any build: kind from `deviation` to `concession`; \
                who accepts it from `the foreman` to `the owner`";
    assert_eq!(told(vec![old], vec![new]), [said]);
}

#[test]
fn builds_of_which_the_same_is_to_be_said_stand_together_and_others_apart() {
    let of = |waived_in, until| waiver(Some("item.rack"), waived_in, until, "his own rack");
    let old = vec![of(build("1"), "2026-12-31"), of(build("2"), "2026-12-31"), of(build("3"), "2026-12-31")];
    let new = vec![of(build("1"), "2026-12-31"), of(build("2"), "2027-12-31"), of(build("3"), "2027-12-31")];
    let said = "roof/tall-rack: waiver on `item.rack` in builds `2`, `3`: last day from `2026-12-31` to `2027-12-31`";
    assert_eq!(told(old, new), [said]);
    // A waiver for one build is not one for another, nor for any, nor one on something else.
    let (here, there) = (of(build("1"), "2026-12-31"), of(WaivedIn::Own, "2026-12-31"));
    let elsewhere = waiver(Some("item.box"), build("1"), "2026-12-31", "his own rack");
    let moved = told(vec![here], vec![there, elsewhere]);
    assert_eq!(moved.len(), 3, "{moved:#?}");
    let own = "roof/tall-rack: waiver on `item.rack` in one build, by its own rulebook added, ";
    assert!(moved.iter().any(|said| said.starts_with(own)), "{moved:#?}");
}
