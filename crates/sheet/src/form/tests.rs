//! The form is made from the schema: nothing of the record is left out of it.

use std::collections::BTreeMap;

use pintle_source::Sources;
use pintle_spec::field::{Field, Kind, Schema};
use pintle_spec::schema::record;
use pintle_spec::{Build, read_build, read_stock};

use super::stations::STATIONS;
use super::{form, is_day, named, says};
use crate::Walk;

/// A spec without a record, some names of which are no good company for a page.
pub(crate) fn hostile_build() -> Build {
    let mut sources = Sources::new();
    let text = r#"
[build]
number = "<script>alert(1)</script>"
title  = "\" onload='x' </style><img src=x>"
stage  = "delivery"
sale   = "new"
[trailer]
nose  = { shape = "flat" }
length = "12 ft"
width  = "6 ft"
height = "76 in"
[[item]]
tag  = "a\" autofocus onfocus=\"alert(1)"
kind = "alarm"
mass = "1 lb"
at   = { front = "30 in", left = "0 in" }
length = "4 in"
width  = "2 in"
height = "4 in"
[[state]]
name = "</option></select><script>alert(2)</script>"
use  = "road"
"#;
    let mut problems = Vec::new();
    let stock = read_stock(&sources, &[], &mut problems);
    let source = sources.add("hostile.toml", text);
    read_build(&sources, source, &stock, &mut problems).unwrap_or_else(|| panic!("{problems:#?}"))
}

fn made() -> String {
    let walk = Walk {
        spec: "/x/\"><script>.toml".to_owned(),
        hash: "00".to_owned(),
        record: r#"{"note":"</form><script>alert(3)</script>\"' x"}"#.to_owned(),
    };
    form(&hostile_build(), &walk).into_string()
}

#[test]
fn every_field_of_the_record_stands_at_one_station() {
    let mut seen: BTreeMap<&str, usize> = BTreeMap::new();
    for field in STATIONS.iter().flat_map(|station| station.fields) {
        *seen.entry(field.key).or_default() += 1;
    }
    let all: BTreeMap<&str, usize> = record::SCHEMA.all().map(|field| (field.key, 1)).collect();
    assert_eq!(seen, all);
}

fn fields(schema: &'static Schema, path: &str, found: &mut Vec<(String, &'static Field)>) {
    for field in schema.all() {
        let path = if path.is_empty() { field.key.to_owned() } else { format!("{path}.{}", field.key) };
        match field.kind {
            Kind::Table(schema) => fields(schema, &path, found),
            Kind::Tables(schema) => fields(schema, &format!("{path}.#"), found),
            _ => found.push((path, field)),
        }
    }
}

#[test]
fn every_field_has_what_it_is_filled_in_with_its_words_and_a_place_for_what_is_wrong() {
    let (page, mut all) = (made(), Vec::new());
    fields(&record::SCHEMA, "", &mut all);
    assert!(all.len() > 80, "{}", all.len());
    for (path, field) in all {
        let id = format!("f-{path}");
        let many = matches!(field.kind, Kind::Flag | Kind::Words(_));
        let control = if many { format!("name=\"{id}\"") } else { format!("id=\"{id}\"") };
        assert!(page.contains(&control), "{path} has no control");
        assert!(page.contains(&format!("id=\"{id}-error\"")), "{path} has no place for what is wrong");
        assert!(
            page.contains(&format!("aria-describedby=\"{id}-hint {id}-error\"")),
            "{path} is not described"
        );
        assert!(many || page.contains(&format!("<label for=\"{id}\">")), "{path} has no label");
        let words = says(field).replace('\'', "&#39;");
        assert!(page.contains(&words) || page.contains(&says(field)), "{path} lacks its words: {words}");
        if let Kind::Word(words) | Kind::Words(words) = field.kind {
            assert!(
                words.iter().all(|word| page.contains(&format!("value=\"{word}\""))),
                "{path} lacks a word"
            );
        }
        // A kind that the form has no control for would come out as a text that nobody can type.
        assert!(
            !matches!(
                field.kind,
                Kind::AnyQuantity | Kind::Named(_) | Kind::Shares | Kind::Masses | Kind::Raw
            ),
            "{path} is of a kind that the form does not know"
        );
    }
}

#[test]
fn what_a_spec_says_is_text_and_nothing_else() {
    let page = made();
    for raw in ["<script>", "</style>", "<img", "onfocus=\"alert", "</form><script"] {
        assert!(!page.contains(raw), "{raw} stands in the page as it is");
    }
    assert!(page.contains("&lt;script&gt;alert(1)"), "the build's number stands in the page, as text");
}

#[test]
fn days_and_names_are_told_by_the_schema() {
    assert!(is_day(&record::DELIVERED) && is_day(&record::ticket::DATE) && !is_day(&record::VIN));
    assert_eq!(named(&record::ticket::TONGUE_BY), "Tongue by");
    assert_eq!(says(&record::TICKETS), "What a scale said of one state.");
}
