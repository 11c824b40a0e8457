//! How remedies read: below findings, in lines, and as a list.

use pintle_finding::{But, Change, Cleared, Cost, Remedies, Remedy, Sought, Written};
use pintle_quantity::Quantity;

use super::*;
use crate::sample::Shop;

/// The sample shop, with two remedies for its light tongue and none for its next fault.
fn shop() -> Shop {
    let mut shop = Shop::new();
    let cleared = |reading, share| Cleared {
        reading,
        value: Some(Quantity::share(share)),
        margin: None,
        tight: share < 0.115,
        holds: None,
        not_applicable: None,
    };
    let remedy = |steps: &[&str], clears, worsens: &[&str]| Remedy {
        steps: steps.iter().map(|step| (*step).to_owned()).collect(),
        changes: vec![Change::set(&["item", "galley", "at", "rear"], Written::Text("14 in".to_owned()))],
        cost: Cost::default(),
        clears,
        leaves: Vec::new(),
        worsens: worsens.iter().map(|told| (*told).to_owned()).collect(),
    };
    let tried = |reading, found: &[usize]| Sought {
        reading,
        found: found.to_vec(),
        tried: 5,
        not_enough: 2,
        new_fault: 1,
        ..Sought::default()
    };
    let but = But {
        words: "throw it all out".to_owned(),
        rule: "own/empty".to_owned(),
        finds: "nothing is left".to_owned(),
    };
    shop.inspection.remedies = Some(Remedies {
        all: vec![
            remedy(&["move item `galley` 14 in forward"], vec![cleared(0, 0.12)], &[]),
            remedy(
                &["move the axle 2 in aft", "carry less"],
                vec![cleared(0, 0.111), cleared(1, 0.2)],
                &["own/sway: more"],
            ),
        ],
        sought: vec![
            tried(0, &[1, 2]),
            Sought { untried: 3, notes: vec!["a note".to_owned()], ..tried(1, &[]) },
            Sought { reading: 2, tried: 1, new_fault: 1, but: Some(but), ..Sought::default() },
        ],
    });
    shop
}

#[test]
fn below_a_finding_stand_its_remedies_and_what_was_tried() {
    let shop = shop();
    let mut described = BTreeSet::new();
    let text = below(&shop.inspection, 0, &mut described, Look::default());
    let expected = "  remedies, each tried on the whole spec:\n  1  move item `galley` 14 in forward\n     tongue share of road state `homeward` 8.1 %, then 12 % (at least 11 %)\n  2  move the axle 2 in aft\nand  carry less\n     tongue share of road state `homeward` 8.1 %, then 11.1 % (at least 11 %), less inside than it\n       could be off by\n     also clears towing/over-gvwr of road state `homeward`\n     less good: own/sway: more\n  5 changes tried: 2 cleared it, 2 not enough, 1 would bring or worsen another finding\n";
    assert_eq!(text, expected);
    // What was described above is not described again: its number and what it does here.
    let text = below(&shop.inspection, 1, &mut described, Look::default());
    assert!(text.contains("\n  2  (above) "), "{text}");
    let text = text.replace("\n  ", " ");
    assert!(text.contains("3 more changes not tried: trials are bounded; a note"), "{text}");
}

#[test]
fn where_there_is_none_it_is_said_why() {
    let shop = shop();
    let text = below(&shop.inspection, 2, &mut BTreeSet::new(), Look::default());
    assert!(
        text.starts_with(
            "  no remedy found\n  1 change tried: 1 would bring or worsen another finding; the least harmful"
        ),
        "{text}"
    );
    assert!(text.contains("throw it all out; then own/empty: nothing is left"), "{text}");
    // A finding that nothing was sought for says nothing.
    assert_eq!(below(&shop.inspection, 5, &mut BTreeSet::new(), Look::default()), "");
    let unasked = Shop::new();
    assert_eq!(below(&unasked.inspection, 0, &mut BTreeSet::new(), Look::default()), "");
    assert_eq!(lines(&unasked.inspection, 0, Look::default()), [""; 0]);
}

#[test]
fn lines_are_whole_and_one_each() {
    let shop = shop();
    let found = lines(&shop.inspection, 0, Look::default());
    assert_eq!(
        found,
        [
            "remedy 1: towing/light-tongue: move item `galley` 14 in forward; tongue share of road state `homeward` 8.1 %, then 12 % (at least 11 %)",
            "remedy 2: towing/light-tongue: move the axle 2 in aft; and carry less; tongue share of road state `homeward` 8.1 %, then 11.1 % (at least 11 %), less inside than it could be off by; also clears towing/over-gvwr of road state `homeward`; less good: own/sway: more",
        ]
    );
    let none = lines(&shop.inspection, 2, Look::default());
    assert_eq!(none.len(), 1);
    assert!(none[0].starts_with("no remedy: towing/thin-margin: 1 change tried"), "{none:?}");
}

#[test]
fn a_list_has_every_remedy_once_and_every_fault_without() {
    let shop = shop();
    let text = list(&shop.inspection, &Look::default());
    assert_eq!(text.matches("\n     clears ").count(), 3, "{text}");
    assert_eq!(text.matches("move item `galley`").count(), 1, "{text}");
    assert_eq!(text.matches("no remedy for ").count(), 1, "{text}");
    assert!(text.contains("no remedy for towing/thin-margin"), "{text}");
}

#[test]
fn no_line_is_wider_than_the_terminal_nor_breaks_a_quantity() {
    let shop = shop();
    for width in [40, 60, 100] {
        let look = Look { width, ..Look::default() };
        let text = below(&shop.inspection, 0, &mut BTreeSet::new(), look);
        assert!(text.lines().all(|line| line.width() <= width), "{width}: {text}");
        assert!(text.lines().all(|line| !line.trim_start().starts_with('%')), "{width}: {text}");
        assert!(!text.contains('\u{a0}'));
    }
}
