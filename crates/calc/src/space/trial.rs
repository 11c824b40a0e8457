//! Builds for tests, from small specs.

use pintle_quantity::{Dimension, Quantity, Unit};
use pintle_source::Sources;
use pintle_spec::{Build, Stock, read_build};

use crate::Figure;

pub(crate) const FLAT: &str = r#"{ shape = "flat" }"#;
pub(crate) const WEDGE: &str = r#"{ shape = "wedge", depth = "18 in" }"#;
pub(crate) const ROUND: &str = r#"{ shape = "round", depth = "18 in" }"#;

/// A spec of a box 144 × 72 × 75 in inside with a nose, and more tables. Floor at 20 in, ceiling at 95 in, skin at 97 in;
/// inside of the nose 37.5 in behind the ball.
pub(crate) fn spec(nose: &str, more: &str) -> String {
    spec_at("36 in", nose, more)
}

/// The same with another distance from ball to box.
pub(crate) fn spec_at(ball_to_box: &str, nose: &str, more: &str) -> String {
    format!(
        r#"
[build]
number = "T-1"
title = "a trial"
stage = "design"

[trailer]
ball_to_box = "{ball_to_box}"
length = "144 in"
width = "72 in"
height = "75 in"
wall = "1.5 in"
roof = "2 in"
floor_height = "20 in"
frame_height = "17 in"
nose = {nose}
{more}
"#
    )
}

/// The build that a spec reads as.
pub(crate) fn read(spec: &str) -> Build {
    let mut sources = Sources::new();
    let source = sources.add("trial.toml", spec);
    let mut problems = Vec::new();
    let build = read_build(&sources, source, &Stock::default(), &mut problems);
    build.unwrap_or_else(|| panic!("{problems:#?}\n{spec}"))
}

/// A build of the box with a nose and more tables.
pub(crate) fn build(nose: &str, more: &str) -> Build {
    read(&spec(nose, more))
}

/// The index of the part with a tag.
pub(crate) fn at(build: &Build, tag: &str) -> usize {
    build.items.iter().position(|item| item.tag.value == tag).unwrap()
}

/// The same spec with every length in millimetres, mass in kilograms and area in square centimetres.
pub(crate) fn in_metric(spec: &str) -> String {
    let rewrite = |(index, piece): (usize, &str)| {
        let metric = Quantity::parse(piece).ok().filter(|_| index % 2 == 1).and_then(|quantity| {
            let unit = [("mm", Dimension::LENGTH), ("kg", Dimension::MASS), ("cm²", Dimension::AREA)];
            let (name, _) = unit.into_iter().find(|(_, dimension)| *dimension == quantity.dimension())?;
            Some(format!("{} {name}", quantity.value_in(Unit::find(name)?).ok()?))
        });
        metric.unwrap_or_else(|| piece.to_owned())
    };
    spec.split('"').enumerate().map(rewrite).collect::<Vec<_>>().join("\"")
}

/// The same spec seen in a mirror: left and right change places, and what is right of the centreline is left of it.
pub(crate) fn mirrored(spec: &str) -> String {
    spec.replace("left", "\u{1}")
        .replace("right", "left")
        .replace('\u{1}', "right")
        .replace("centre = \"", "centre = \"-")
}

/// A figure in a unit.
pub(crate) fn value(figure: &Figure, unit: &str) -> f64 {
    figure.quantity.value_in(Unit::find(unit).unwrap()).unwrap()
}

#[track_caller]
pub(crate) fn close(figure: &Figure, expected: f64, unit: &str) {
    let found = value(figure, unit);
    assert!(
        (found - expected).abs() <= 1e-9 * expected.abs().max(1.0),
        "{found} {unit}, not {expected} {unit}"
    );
}

/// Names of the values that a figure was worked out from.
pub(crate) fn inputs(figure: &Figure) -> Vec<String> {
    figure.trace.inputs().iter().map(pintle_spec::Named::name).collect()
}
