//! What became of readings, parts and weights, and how it is told.

mod markdown;
mod parts;
mod readings;
mod told;
mod waivers;

use pintle_finding::{Grade, Inspection, Reading};
use pintle_source::Sources;
use pintle_spec::{Build, Stock, read_build, read_stock};

use super::*;

/// A trailer, a rack and a module, all invented.
const SPEC: &str = r#"
[build]
number = "IN-1"
title = "invented"
stage = "design"

[trailer]
mass = "1000 lb"
tongue = "130 lb"
gvwr = "2990 lb"
ball_to_box = "48 in"
length = "96 in"
width = "60 in"
height = "60 in"
wall = "1 in"
roof = "1 in"
floor_height = "20 in"
nose = { shape = "flat" }
axle = { count = 1, ball = "110 in", track = "70 in" }
cg = { centre = "0 in", ground = "30 in" }

[[item]]
tag = "galley"
kind = "module"
mass = "90 lb"
length = "20 in"
width = "40 in"
height = "30 in"
at = { front = "3 in", left = "0 in" }
removable = true

[[item]]
tag = "rack"
kind = "rack"
zone = "roof"
mass = "40 lb"
length = "60 in"
width = "50 in"
height = "5 in"
at = { front = "10 in" }

[[item]]
tag = "box"
kind = "module"
zone = "rack"
mass = "20 lb"
length = "20 in"
width = "20 in"
height = "10 in"
at = { front = "0 in" }

[[state]]
name = "outward"
use = "road"
load = [{ what = "bags", mass = "50 lb", at = { front = "40 in", centre = "0 in", floor = "5 in" } }]
"#;

/// A build read from a text and a stock list.
fn read(name: &str, text: &str, stock: &str) -> (Build, Sources) {
    let mut sources = Sources::new();
    let mut problems = Vec::new();
    let list = sources.add("stock.toml", stock);
    let stock: Stock = read_stock(&sources, &[list], &mut problems);
    let file = sources.add(name, text);
    let build = read_build(&sources, file, &stock, &mut problems);
    assert_eq!(problems, [], "the spec of the test is sound");
    (build.unwrap(), sources)
}

fn side(text: &str, readings: Vec<Reading>) -> Side {
    let (build, sources) = read("a.toml", text, "");
    let inspection = Inspection {
        spec: "a.toml".to_owned(),
        number: build.number.value.clone(),
        title: build.title.value.clone(),
        readings,
        ..Inspection::default()
    };
    Side { inspection, build: Some(build), sources }
}

/// Two versions of the invented spec, with readings of theirs.
fn of_readings(old: Vec<Reading>, new: Vec<Reading>) -> Comparison {
    compare(Some(side(SPEC, old)), Some(side(SPEC, new)), Matched::Call, Grade::Major)
}

/// Two texts of a spec without readings.
fn of_texts(old: &str, new: &str) -> Comparison {
    compare(Some(side(old, Vec::new())), Some(side(new, Vec::new())), Matched::Call, Grade::Major)
}
