//! The built-in checks, and what is said of ones that are wrong.

use std::collections::BTreeSet;

use pintle_finding::ASKED_OF;

use super::*;
use crate::schema::by_eye::STATIONS;
use crate::settings::read_layer;

fn of_shop(text: &str) -> (Vec<ByEye>, Vec<Problem>) {
    let (mut sources, mut problems) = (Sources::new(), Vec::new());
    let mut held = builtin(&mut sources, &mut problems);
    assert!(problems.is_empty(), "{problems:#?}");
    let file = sources.add("shop/pintle.toml", text);
    let layer = read_layer(&sources, file, &mut problems);
    lay(&mut held, &layer.by_eye, &sources, &mut problems);
    (held, problems)
}

const ONE: &str = r#"
[[by_eye]]
station = "body"
from    = "build"
of      = ["ramp"]
look    = "the shop's sticker is on"
how     = "look at the left of the tongue"
basis   = "shop"
"#;

#[test]
fn the_stations_of_files_are_those_of_the_walk_in_its_order() {
    assert_eq!(STATIONS, Station::all_words());
}

#[test]
fn the_built_in_checks_reach_every_station_and_stand_in_its_order() {
    let (held, problems) = of_shop("");
    assert!(problems.is_empty(), "{problems:#?}");
    let stations: BTreeSet<Station> = held.iter().map(|check| check.station).collect();
    assert_eq!(stations.len(), Station::ALL.len());
    assert!(held.is_sorted_by_key(|check| check.station));
    assert!(held.iter().all(|check| check.set_by.is_none()));
    let words: BTreeSet<&str> = held.iter().flat_map(|check| &check.of).map(String::as_str).collect();
    assert!(words.iter().all(|word| ASKED_OF.contains(word)));
}

#[test]
fn a_shop_adds_its_own_and_it_says_whose_it_is() {
    let (held, problems) = of_shop(ONE);
    assert!(problems.is_empty(), "{problems:#?}");
    let own: Vec<&ByEye> = held.iter().filter(|check| check.set_by.is_some()).collect();
    let [own] = own.as_slice() else { panic!("{own:?}") };
    assert_eq!(
        (own.station, own.from, own.set_by.as_deref()),
        (Station::Body, Stage::Build, Some("shop/pintle.toml"))
    );
    assert_eq!(own.of, ["ramp"]);
    assert!(held.is_sorted_by_key(|check| check.station));
}

#[test]
fn a_shop_sets_a_built_in_one_anew() {
    let text = ONE.replace("the shop's sticker is on", "no water comes in");
    let (held, problems) = of_shop(&text);
    assert!(problems.is_empty(), "{problems:#?}");
    let same: Vec<&ByEye> = held.iter().filter(|check| check.look == "no water comes in").collect();
    let [same] = same.as_slice() else { panic!("{same:?}") };
    assert_eq!(same.how, "look at the left of the tongue");
}

#[test]
fn what_is_wrong_is_said_at_its_line_with_the_nearest_name() {
    let wrong = [
        ("how     =", "hwo     =", "did you mean `how`?", "unknown-key"),
        ("\"body\"", "\"boddy\"", "did you mean `body`?", "unknown-word"),
        ("\"ramp\"", "\"ramps\"", "did you mean `ramp`?", "unknown-word"),
        ("\"build\"", "\"biuld\"", "did you mean `build`?", "unknown-word"),
        ("basis   = \"shop\"", "basis   = \"published\"", "name the text and its section", "no-source"),
        ("basis   = \"shop\"", "basis   = \"memory\"", "name the text and its section", "no-source"),
    ];
    for (right, written, help, code) in wrong {
        let text = ONE.replace(right, written);
        assert_ne!(text, ONE, "{right}");
        let (held, problems) = of_shop(&text);
        let problem = problems
            .iter()
            .find(|problem| problem.code == code)
            .unwrap_or_else(|| panic!("{written}: {problems:#?}"));
        assert!(problem.help.as_deref().unwrap_or_default().contains(help), "{written}: {problem:#?}");
        assert!(!problem.labels.is_empty(), "{written}");
        if code == "no-source" {
            assert!(held.iter().all(|check| check.set_by.is_none()), "{written}");
        }
    }
}

#[test]
fn one_file_asks_a_thing_once() {
    let (_, problems) = of_shop(&format!("{ONE}{ONE}"));
    let [problem] = problems.as_slice() else { panic!("{problems:#?}") };
    assert_eq!(problem.code, "set-twice");
    assert_eq!(problem.labels.len(), 2);
}
