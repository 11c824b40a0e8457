//! The table of functions is what there is: nothing is handed in without a line, and every example runs.

use std::any::TypeId;

use rhai::{Array, FLOAT, INT, ImmutableString};

use super::Bench;
use crate::functions::{self, Kind};
use crate::measured::Measured;
use crate::recorder::{End, Handle};
use crate::thing::Thing;

/// Of the language itself, and not handed in.
const OF_THE_LANGUAGE: &[(&str, &[Kind])] = &[
    ("abs", &[Kind::Count]),
    ("abs", &[Kind::Number]),
    ("contains", &[Kind::Range, Kind::Count]),
    ("range", &[Kind::Count, Kind::Count]),
    ("range", &[Kind::Count, Kind::Count, Kind::Count]),
    ("range", &[Kind::Range, Kind::Count]),
    ("range", &[Kind::Number, Kind::Number, Kind::Number]),
];

fn kind(held: TypeId) -> Option<Kind> {
    let kinds = [
        (TypeId::of::<Measured>(), Kind::Quantity),
        (TypeId::of::<bool>(), Kind::Flag),
        (TypeId::of::<INT>(), Kind::Count),
        (TypeId::of::<FLOAT>(), Kind::Number),
        (TypeId::of::<ImmutableString>(), Kind::Text),
        (TypeId::of::<&str>(), Kind::Text),
        (TypeId::of::<Array>(), Kind::List),
        (TypeId::of::<Thing>(), Kind::Thing),
        (TypeId::of::<Handle>(), Kind::Reading),
    ];
    kinds.into_iter().find(|(id, _)| *id == held).map(|(_, kind)| kind)
}

#[test]
fn nothing_is_handed_in_without_a_line_and_no_line_is_without_a_function() {
    let bench = Bench::new();
    let named = bench.engine.handed.iter().filter(|(name, _)| name.starts_with(char::is_alphabetic));
    let mut handed: Vec<(&str, Vec<Kind>)> = named
        .filter(|(name, _)| *name != "to_debug")
        .map(|(name, types)| (*name, types.iter().map(|held| kind(*held).unwrap()).collect()))
        .collect();
    handed.extend(OF_THE_LANGUAGE.iter().map(|(name, takes)| (*name, takes.to_vec())));
    let lines = functions::ALL.iter();
    let mut lines: Vec<(&str, Vec<Kind>)> =
        lines.flat_map(|line| line.forms.iter().map(|form| (line.name, form.takes.to_vec()))).collect();
    let order = |(name, takes): &(&'static str, Vec<Kind>)| (*name, format!("{takes:?}"));
    handed.sort_by_key(order);
    lines.sort_by_key(order);
    assert_eq!(lines, handed);
    assert!(functions::ALL.windows(2).all(|pair| pair[0].name < pair[1].name), "by name, each once");
}

#[test]
fn every_example_is_sound_and_runs() {
    let mut bench = Bench::with("[record]\n");
    for function in functions::ALL {
        assert!(function.example.contains(function.name), "{}", function.name);
        assert!(!function.doc.ends_with('.'), "{}: no full stop", function.name);
        // Examples of what is asked on the way to a reading take none themselves.
        let text = match function.name {
            "push" | "cannot_judge" | "not_applicable" => {
                format!("{}\nrequire(true, \"x\");", function.example)
            }
            _ => function.example.to_owned(),
        };
        assert_eq!(bench.checked("road state", &text), [], "{}", function.name);
        let judgement = bench.judge(&text);
        assert!(!matches!(judgement.end, End::Failed { .. }), "{}: {:?}", function.name, judgement.end);
    }
}

/// What a script is given answers before the run as it does in it: the same names, and values of the same sorts.
#[test]
fn what_is_given_is_known_to_the_check() {
    let mut bench = Bench::new();
    for name in crate::engine::GIVEN.into_iter().filter(|name| *name != "limit") {
        let text = format!("require(true, \"x\"); {name}.zebra;");
        let said = bench.checked("build", &text);
        let failure = bench.fails_as("build", &text);
        assert_eq!(said.len(), 1, "{name}: {said:?}");
        assert_eq!(said[0].0, failure.message, "{name}");
    }
}
