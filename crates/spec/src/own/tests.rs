//! Fields of a shop's own, read against what its packs declare.

use pintle_finding::Problem;
use pintle_quantity::{Dimension, Quantity};
use pintle_source::Sources;

use super::*;
use crate::{read_build, read_stock};

const STOCK: &str = r#"
[[part]]
name   = "galley"
kind   = "module"
mass   = "80 lb"
length = "54 in"
width  = "22 in"
height = "36 in"
shop   = { hinge_rating = "12 lb", hinges = 4, painted = true, wood = "birch" }

[[part]]
name = "galley-long"
part = "galley"
shop = { hinges = 6 }
"#;

const BUILD: &str = r#"
[build]
number = "T-1"
title  = "for trying own fields"
stage  = "design"

[trailer]
mass         = "2000 lb"
tongue       = "300 lb"
ball_to_box  = "44 in"
length       = "129 in"
width        = "69 in"
height       = "76 in"
wall         = "1 1/2 in"
roof         = "2 in"
floor_height = "21 in"
frame_height = "18 in"
nose         = { shape = "flat" }
axle         = { ball = "100 in", count = 1, gawr = "3500 lb", track = "70 in" }

[[item]]
tag  = "galley"
part = "galley-long"
at   = { front = "10 in", left = "10 in" }
SHOP

[[state]]
name = "empty"
use  = "road"
"#;

fn fields() -> Vec<OwnField> {
    let field = |key, word| OwnField::new(key, OwnKind::from_word(word).unwrap(), "as the pack says");
    vec![
        field("hinge_rating", "mass"),
        field("hinges", "count"),
        field("painted", "flag"),
        field("wood", "text"),
    ]
}

fn read(stock: &str, shop: &str) -> (Build, Vec<Problem>, Sources) {
    let (mut sources, mut problems) = (Sources::new(), Vec::new());
    let list = sources.add("stock.toml", stock);
    let stock = read_stock(&sources, &[list], &mut problems);
    let spec = sources.add("build.toml", &BUILD.replace("SHOP", shop));
    let build = read_build(&sources, spec, &stock, &mut problems);
    assert_eq!(problems, []);
    let build = build.unwrap();
    let mut problems = check_own_of_stock(&stock, &fields());
    problems.extend(check_own_of_build(&build, &fields()));
    (build, problems, sources)
}

#[test]
fn a_part_has_the_fields_of_its_stock_part_and_of_what_that_is_like() {
    let (build, problems, sources) = read(STOCK, "shop = { wood = \"oak\" }");
    assert_eq!(problems, []);
    let record = &build.items[0].record;
    let value = |key: &str| own_value(record, fields().iter().find(|field| field.key == key).unwrap());
    assert_eq!(value("hinges"), Some(OwnValue::Count(6)), "restated by the variant");
    assert_eq!(value("painted"), Some(OwnValue::Flag(true)));
    assert_eq!(value("wood"), Some(OwnValue::Text("oak".to_owned())), "restated by the spec");
    let Some(OwnValue::Quantity(rating)) = value("hinge_rating") else { panic!("no rating") };
    assert_eq!(rating.value.value, Quantity::parse("12 lb").unwrap());
    assert_eq!(rating.name(), "`hinge_rating` of item `galley`");
    assert_eq!(sources.slice(rating.value.span), "\"12 lb\"", "it stands in the stock list");
}

#[test]
fn what_is_not_declared_or_is_something_else_is_a_problem_where_it_stands() {
    for (shop, said, help) in [
        ("shop = { hinge = 4 }", "no pack in use declares a field `hinge`", "did you mean `hinges`?"),
        ("shop = { hinge_rating = \"12 in\" }", "must be a mass, such as", "as the pack says"),
        ("shop = { hinge_rating = 12 }", "must be a mass, such as", "as the pack says"),
        ("shop = { painted = \"yes\" }", "must be true or false", "as the pack says"),
        ("shop = { hinges = -1 }", "must be a whole number", "as the pack says"),
        ("shop = 3", "must be a table", "such as"),
    ] {
        let (_, problems, sources) = read(STOCK, shop);
        assert_eq!(problems.len(), 1, "{shop}: {problems:?}");
        let (problem, label) = (&problems[0], &problems[0].labels[0]);
        assert!(problem.message.contains(said), "{shop}: {}", problem.message);
        assert!(problem.help.as_deref().unwrap().contains(help), "{shop}: {:?}", problem.help);
        assert_eq!(sources.name(label.span.source), "build.toml", "{shop}");
    }
}

#[test]
fn a_wrong_field_of_the_stock_list_is_said_once_and_there() {
    let (_, problems, sources) = read(&STOCK.replace("\"birch\"", "7"), "");
    assert_eq!(problems.len(), 1, "the variant and the build have it too: {problems:?}");
    assert_eq!(sources.name(problems[0].labels[0].span.source), "stock.toml");
}

#[test]
fn every_word_that_declares_a_field_means_a_kind() {
    for word in OwnKind::words() {
        assert!(OwnKind::from_word(word).is_some(), "{word}");
    }
    assert_eq!(OwnKind::from_word("price"), Some(OwnKind::Quantity(Dimension::MONEY)));
    let one = OwnField::new("hinges", OwnKind::Count, "");
    assert!(std::ptr::eq(one.key, OwnField::new("hinges", OwnKind::Text, "").key), "each key is kept once");
}
