use pintle_quantity::{Dimension, Quantity};

use crate::assumed::{Assumption, Assumptions, fields};
use crate::case::Case;
use crate::checks;
use crate::figure::Figure;
use crate::origin::Standing;
use crate::space::trial::{FLAT, ROUND, WEDGE, build, close, spec, value};
use crate::space::{clear_area, inside_length, plan, plan_area, sleeping_area_asked};
use crate::working::{Outcome, Working};
use pintle_spec::{Build, Missing};

/// The rulebook's own table.
const TABLE: &str = include_str!("../../../../../rules/assumptions/space.toml");

/// The rulebook's defaults of this topic.
pub(crate) fn defaults() -> Assumptions {
    let table: toml::Table = toml::from_str(TABLE).unwrap();
    let mut sources = pintle_source::Sources::new();
    let file = sources.add("space.toml", TABLE);
    let rows = table["assumption"].as_array().unwrap().clone();
    let held = rows.iter().map(|row| {
        let of = row["of"].as_str().unwrap();
        let (topic, field) = fields()
            .find(|(topic, field)| topic.key == "space" && field.key == of)
            .unwrap_or_else(|| panic!("no field is called `{of}`"));
        let value = Quantity::parse(row["value"].as_str().unwrap()).unwrap();
        let span = pintle_source::Span::new(file, 0, 0);
        (
            topic,
            field,
            Assumption::new(pintle_source::Spanned::new(value, span), Standing::Shop, String::new()),
        )
    });
    Assumptions::from_list(held.collect::<Vec<_>>())
}

fn assumed(key: &str) -> f64 {
    let (topic, field) = fields().find(|(topic, field)| topic.key == "space" && field.key == key).unwrap();
    defaults().get(topic, field).unwrap().value.value.si()
}

pub(crate) fn of(build: &Build) -> Vec<Working> {
    super::workings(&Case { build, assumptions: &defaults(), places: &crate::place::Places::default() })
}

#[track_caller]
pub(crate) fn one<'w>(all: &'w [Working], key: &str, of: &str) -> &'w Working {
    let found = all.iter().find(|working| working.key == key && working.of == of);
    found.unwrap_or_else(|| {
        let names: Vec<_> = all.iter().map(|w| format!("{} of {}", w.key, w.of)).collect();
        panic!("no `{key}` of {of}: {names:#?}")
    })
}

#[track_caller]
pub(crate) fn figure(all: &[Working], key: &str, of: &str) -> Figure {
    one(all, key, of).figure().unwrap().clone()
}

#[track_caller]
pub(crate) fn list(all: &[Working], key: &str, of: &str) -> Vec<String> {
    match &one(all, key, of).outcome {
        Ok(Outcome::Texts(texts)) => texts.clone(),
        other => panic!("`{key}` of {of}: {other:?}"),
    }
}

#[track_caller]
pub(crate) fn flag(all: &[Working], key: &str, of: &str) -> bool {
    match &one(all, key, of).outcome {
        Ok(Outcome::Flag(flag)) => *flag,
        other => panic!("`{key}` of {of}: {other:?}"),
    }
}

#[track_caller]
pub(crate) fn missing(all: &[Working], key: &str, of: &str) -> Missing {
    one(all, key, of).outcome.as_ref().unwrap_err().clone()
}

#[test]
fn checks_from_outside() {
    checks::run("space", |of, given| {
        let shaped = || {
            let inches = |name| given.si(name) / 0.0254;
            let nose = format!(
                r#"{{ shape = "wedge", depth = "{} in", front_width = "{} in" }}"#,
                inches("depth"),
                inches("front_width")
            );
            let text = spec(&nose, "")
                .replace("length = \"144 in\"", &format!("length = \"{} in\"", inches("length")))
                .replace("width = \"72 in\"", &format!("width = \"{} in\"", inches("width")));
            crate::space::trial::read(&text)
        };
        let size = |name| Figure::constant(Quantity::from_si(given.si(name), Dimension::LENGTH));
        match of {
            // By the closed form and by the polygon: neither knows the other.
            "plan" => {
                let outline = crate::space::Outline::inside(&shaped()).unwrap();
                let polygon = plan::area_and_middle(&plan::polygon(&outline)).unwrap().0;
                vec![plan_area(&shaped()).unwrap().quantity.si(), polygon]
            }
            "middle" => vec![plan::middle_ahead_of_rear(&shaped()).unwrap()],
            "inside_length" => vec![inside_length(&shaped()).unwrap().quantity.si()],
            "nose_area" => {
                let whole = plan_area(&shaped()).unwrap().quantity.si();
                vec![whole - given.si("length") * given.si("width")]
            }
            "clear_area" => {
                let ellipse = given.word("shape") == "ellipse";
                vec![clear_area(&size("width"), &size("height"), ellipse).quantity.si()]
            }
            "clear_least" => {
                let text = format!(
                    "[[opening]]\ntag = \"w\"\nclear_width = \"{} m\"\nclear_height = \"{} m\"\n",
                    given.si("width"),
                    given.si("height")
                );
                let trial = build(FLAT, &text);
                vec![crate::space::least_side(&trial.items[0]).unwrap().quantity.si()]
            }
            "area_asked" => {
                let people = given.si("people");
                let people =
                    [0_u32, 1, 2, 3].into_iter().find(|n| (f64::from(*n) - people).abs() < 0.5).unwrap();
                vec![sleeping_area_asked(people).quantity.si()]
            }
            "assumed" => vec![assumed(given.word("key"))],
            "lift_share" => vec![given.si("mass") / assumed("lift")],
            other => panic!("nothing is called `{other}`"),
        }
    });
}

#[test]
fn the_room_of_each_nose() {
    let flat = of(&build(FLAT, ""));
    close(&figure(&flat, "plan_area", "the build"), 72.0, "ft²");
    close(&figure(&flat, "plan_middle", "the build"), 72.0, "in");
    close(&figure(&flat, "headroom", "the build"), 75.0, "in");
    close(&figure(&flat, "standing_room", "the build"), 1.0, "in");
    let wedge = of(&build(WEDGE, ""));
    assert!((value(&figure(&wedge, "plan_middle", "the build"), "in") - 76.588_235).abs() < 1e-6);
    // Half an ellipse: its middle lies 4/(3π) of its depth ahead of the sides, its area is π/4 · width · depth.
    let round = of(&build(ROUND, ""));
    let (square, nose) = (144.0 * 72.0, std::f64::consts::FRAC_PI_4 * 72.0 * 18.0);
    let middle =
        (square * 72.0 + nose * (144.0 + 4.0 * 18.0 / (3.0 * std::f64::consts::PI))) / (square + nose);
    assert!((value(&figure(&round, "plan_middle", "the build"), "in") - middle).abs() < 1e-3);
}

/// IRC R310 as in University Heights code 1484.06 (seen): 20 in wide, 24 in high, and 5.7 ft²; a window that has just those
/// sides has 3.33 ft². HUD, 24 CFR 3280.106 (seen): no side under 22 in, and 5 ft².
#[test]
fn trap_a_window_whose_sides_pass_and_whose_area_fails() {
    let area = |width: f64, height: f64| {
        let size = |inches| Figure::constant(Quantity::inches(inches));
        value(&clear_area(&size(width), &size(height), false), "ft²")
    };
    assert!(area(20.0, 24.0) < 5.7 && (area(20.0, 24.0) - 10.0 / 3.0).abs() < 1e-9);
    assert!(area(22.0, 22.0) < 5.0);
}

/// An ellipse of 24 × 17 in is no rectangle of 24 × 17 in.
#[test]
fn trap_an_ellipse_is_smaller_than_its_sides_say() {
    let size = |inches| Figure::constant(Quantity::inches(inches));
    let (rectangle, ellipse) =
        (clear_area(&size(24.0), &size(17.0), false), clear_area(&size(24.0), &size(17.0), true));
    assert!(value(&ellipse, "in²") < 0.8 * value(&rectangle, "in²"));
}

/// Common practice, no source: in a box five feet wide and ten feet long one cannot stand, in a six by twelve one usually can.
#[test]
fn standing_in_a_low_box_and_in_a_high_one() {
    let low = build(FLAT, "").trailer;
    assert!(low.value("height").is_some());
    let of_height = |height: &str| {
        let text = spec(FLAT, "").replace("height = \"75 in\"", &format!("height = \"{height}\""));
        value(&figure(&of(&crate::space::trial::read(&text)), "standing_room", "the build"), "in")
    };
    assert!(of_height("60 in") < 0.0);
    assert!(of_height("75 in") > 0.0);
}

#[test]
fn nothing_is_guessed_about_a_room_without_measures() {
    let text = spec(FLAT, "").replace("height = \"75 in\"\n", "").replace("width = \"72 in\"\n", "");
    let all = of(&crate::space::trial::read(&text));
    assert_eq!(missing(&all, "headroom", "the build").what, "`height` of the trailer");
    assert_eq!(missing(&all, "plan_area", "the build").what, "`width` of the trailer");
    assert_eq!(missing(&all, "plan_middle", "the build").what, "`width` of the trailer");
}
