//! The places of the built-in files, and what is said of files and names that are wrong.

use pintle_calc::origin::Standing;
use pintle_calc::place::{From, Sort, Weighed, figures};
use pintle_finding::Problem;
use pintle_quantity::Quantity;
use pintle_source::Sources;

use super::*;

fn builtin() -> Places {
    let (mut sources, mut problems) = (Sources::new(), Vec::new());
    let places = bind(&mut sources, &[], &mut problems);
    assert!(problems.is_empty(), "{problems:#?}");
    places
}

fn of_files(files: &[(&str, &str)]) -> (Places, Vec<Problem>) {
    let files: Vec<(String, Vec<u8>)> = files
        .iter()
        .map(|(name, text)| (format!("rules/places/{name}.toml"), text.as_bytes().to_vec()))
        .collect();
    let (mut sources, mut problems) = (Sources::new(), Vec::new());
    let places = bind_files(&files, &mut sources, &[], &mut problems);
    (places, problems)
}

#[test]
fn every_built_in_place_says_where_its_figures_come_from() {
    let places = builtin();
    assert!(places.all().count() >= 35);
    for place in places.all() {
        let grounds = place.figures.iter().map(|(_, figure)| &figure.ground);
        let grounds = grounds.chain(place.brakes.iter().map(|need| &need.ground)).chain(&place.lamps);
        for ground in grounds {
            assert!(ground.verify && !ground.seen.is_empty(), "{}: {ground:?}", place.name);
            assert!(ground.origin.text.contains("verify"), "{}: {ground:?}", place.name);
            assert!(places.get(&ground.stated_by).is_some(), "{}", place.name);
        }
        assert!(!place.brakes.is_empty(), "{} says nothing of brakes", place.name);
    }
}

#[test]
fn a_state_has_the_federal_figures_where_it_has_none_of_its_own() {
    let places = builtin();
    let (texas, federal) = (places.get("us-tx").unwrap(), places.get("us").unwrap());
    let (width, ground) = texas.figure(&figures::MOST_WIDTH).unwrap();
    assert_eq!(width.quantity, Quantity::inches(102.0));
    assert_eq!(ground.stated_by, "us");
    assert!(ground.guideline.as_ref().unwrap().contains("recreational"));
    assert_eq!(ground.origin.standing, Standing::Published);
    // Its own threshold stands in place of the federal one, not beside it.
    assert_eq!(texas.brakes.len(), 1);
    assert_eq!(texas.brakes[0].threshold.unwrap().value, Quantity::pounds(4500.0));
    assert_eq!(federal.brakes[0].threshold.unwrap().value, Quantity::pounds(3000.0));
    assert!(texas.lamps.is_some() && places.get("eu").unwrap().lamps.is_none());
    let missing = places.get("gb").unwrap().figure(&figures::MOST_HEIGHT).unwrap_err();
    assert_eq!(missing.what, "the greatest height in place `gb`");
}

#[test]
fn california_tells_two_sorts_apart() {
    let places = builtin();
    let california = places.get("us-ca").unwrap();
    let of = |sort| california.brakes.iter().find(|need| need.sort == Some(sort)).unwrap();
    for (sort, pounds) in [(Sort::Camp, 1500.0), (Sort::Other, 3000.0)] {
        assert_eq!(of(sort).threshold.unwrap().value, Quantity::pounds(pounds));
        assert_eq!((of(sort).from, of(sort).weighed), (From::AtLeast, Weighed::Gross));
    }
    let europe = places.get("eu").unwrap();
    assert_eq!((europe.brakes[0].from, europe.brakes[0].weighed), (From::MoreThan, Weighed::Rating));
    assert!(places.get("us-or").unwrap().brakes[0].threshold.is_none());
}

const GROUND: &str = "basis = \"memory\"\nsource = \"a text\"\nseen = \"1999\"\nverify = true\n";

#[test]
fn what_is_wrong_with_a_place_is_said() {
    let one = |text: &str| {
        let (_, problems) = of_files(&[("here", text)]);
        assert_eq!(problems.len(), 1, "{problems:#?}");
        (problems[0].message.clone(), problems[0].help.clone().unwrap_or_default())
    };
    let figure =
        |name: &str, value: &str| format!("title = \"Here\"\n[figure.{name}]\nvalue = \"{value}\"\n{GROUND}");
    let (message, help) = one(&figure("most_wide", "2 m"));
    assert_eq!(
        (message.as_str(), help.as_str()),
        ("a place has no figure `most_wide`", "did you mean `most_width`?")
    );
    assert_eq!(
        one(&figure("most_width", "2 kg")).0,
        "figure `most_width` of place `here` is a length, and this is a mass"
    );
    assert_eq!(
        one(&figure("most_width", "-2 m")).0,
        "figure `most_width` of place `here` must be more than zero"
    );
    let unsourced = figure("most_width", "2 m").replace("seen = \"1999\"\n", "");
    assert!(one(&unsourced).0.ends_with("has no `seen`"));
    let brakes = |of: &str| {
        format!(
            "title = \"Here\"\n[[brakes]]\nby = \"gross weight\"\n{of}wheels = \"all wheels\"\nbreakaway = true\n{GROUND}"
        )
    };
    assert_eq!(one(&brakes("")).0, "the brakes of place `here` need one threshold");
    assert_eq!(
        one(&brakes("more_than = \"1 t\"\nat_least = \"1 t\"\n")).0,
        "the brakes of place `here` need one threshold"
    );
    assert_eq!(one("title = \"Here\"\nwithin = \"there\"\n").0, "place `here` cannot lie within `there`");
}

#[test]
fn places_that_lie_within_each_other_end() {
    let (places, problems) = of_files(&[
        ("here", "title = \"Here\"\nwithin = \"there\"\n"),
        ("there", "title = \"There\"\nwithin = \"here\"\n"),
    ]);
    assert_eq!(problems.len(), 2, "{problems:#?}");
    assert_eq!(places.all().count(), 2);
}
