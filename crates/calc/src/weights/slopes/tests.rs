//! Derivatives against central finite differences: every written value of a spec is changed in its text, the spec is
//! read and weighed again, and what each measure did is compared with what its gradient says.

use std::rc::Rc;

use pintle_quantity::Dimension;
use pintle_spec::{Footing, Term};
use proptest::prelude::*;

use super::*;
use crate::figure::Figure;
use crate::space::trial::read;

/// A spec with a body of every sort, placed from every surface, and a part that is measured from another.
const SPEC: &str = r#"
[build]
number = "T-1"
title = "an invented trailer for a test"
stage = "design"

[people]
mass = "<people> lb"

[trailer]
mass = "<mass> lb"
gvwr = "2990 lb"
ball_to_box = "<ball_to_box> in"
length = "<length> in"
width = "<width> in"
height = "<height> in"
wall = "1.5 in"
roof = "2 in"
floor_height = "20 in"
frame_height = "17 in"
nose = { shape = "round", depth = "18 in" }
axle = { ball = "<axle> in", count = 2, track = "<track> in", suspension = "equalised" }
<centre>

[[item]]
tag = "galley"
kind = "module"
mass = "<galley> lb"
length = "30 in"
width = "20 in"
height = "36 in"
at = { rear = "<rear> in", left = "2 in", ceiling = "3 in" }

[[item]]
tag = "box"
kind = "equipment"
mass = "40 lb"
length = "12 in"
width = "10 in"
height = "10 in"
zone = "tongue"
at = { box = "2 in", centre = "3 in" }
cg = { front = "4 in", left = "<off> in", floor = "2 in" }

[[item]]
tag = "rack"
kind = "rack"
mass = "80 lb"
length = "<rack> in"
width = "60 in"
height = "5 in"
zone = "roof"
at = { axle = "<aft> in", right = "1 in" }

[[item]]
tag = "tent"
kind = "tent"
mass = "<tent> lb"
bedding = "15 lb"
length = "56 in"
width = "48 in"
height = "12 in"
floor = "3 in"
zone = "rack"
at = { rear = "-<over> in" }

[[locker]]
tag = "chest"
mass = "25 lb"
length = "24 in"
width = "18 in"
height = "22 in"
at = { nose = "12 in", right = "1 in" }

[[tank]]
tag = "fresh"
mass = "12 lb"
capacity = "<capacity> gal"
holds = "fresh"
length = "20 in"
width = "16 in"
height = "12 in"
zone = "chest"
at = { front = "2 in", centre = "1 in", floor = "<above> in" }

[[berth]]
tag = "bed"
people = 2
mass = "20 lb"
length = "76 in"
width = "<bed> in"
height = "6 in"
at = { front = "9 in", centre = "-4 in", floor = "14 in" }

[[berth]]
tag = "loft"
people = 2
length = "70 in"
width = "44 in"
height = "3 in"
zone = "tent"

[[state]]
name = "all aboard"
use = "camp"
fill = { fresh = "<fill> %" }
load = [
  { what = "bags", mass = "<bags> lb", at = { ball = "<bags_at> in", left = "5 in", floor = "7 in" }, length = "16 in" },
  { what = "boat", mass = "60 lb", zone = "roof", at = { nose = "8 in", gap = "1 in" }, width = "30 in", height = "9 in" },
]
people = [{ berth = "bed", count = 2 }, { berth = "loft", count = 1 }]
"#;

/// The numbers that are drawn for it, between two limits: lengths in inches, masses in pounds.
const DRAWN: &[(&str, f64, f64)] = &[
    ("people", 120.0, 220.0),
    ("mass", 700.0, 1500.0),
    ("ball_to_box", 30.0, 50.0),
    ("length", 96.0, 160.0),
    ("width", 60.0, 80.0),
    ("height", 60.0, 80.0),
    ("axle", 90.0, 130.0),
    ("track", 64.0, 84.0),
    ("galley", 40.0, 300.0),
    ("rear", 0.0, 30.0),
    ("off", 1.0, 9.0),
    ("rack", 60.0, 90.0),
    ("aft", -10.0, 20.0),
    ("tent", 90.0, 180.0),
    ("over", 1.0, 12.0),
    ("capacity", 5.0, 30.0),
    ("above", 0.5, 4.0),
    ("bed", 30.0, 60.0),
    ("fill", 5.0, 95.0),
    ("bags", 20.0, 200.0),
    ("bags_at", 60.0, 140.0),
    ("tongue", 50.0, 200.0),
    ("ball", 70.0, 110.0),
];

/// The spec with numbers from none to one; the empty trailer's centre of gravity is stated, or follows from its tongue
/// weight.
fn spec(numbers: &[f64], by_tongue: bool) -> String {
    let centre = if by_tongue {
        "tongue = \"<tongue> lb\"\ncg = { centre = \"1 in\", ground = \"30 in\" }"
    } else {
        "cg = { ball = \"<ball> in\", centre = \"1 in\", ground = \"30 in\" }"
    };
    DRAWN.iter().zip(numbers).fold(SPEC.replace("<centre>", centre), |text, ((name, from, to), number)| {
        text.replace(&format!("<{name}>"), &(from + (to - from) * number).to_string())
    })
}

/// The spec with every number in the middle, and one line instead of another.
fn middling(line: &str, instead: &str) -> String {
    let text = spec(&[0.5; DRAWN.len()], false);
    assert!(text.contains(line), "{line} in {text}");
    text.replace(line, instead)
}

/// A figure that a state has, and what it is called.
type Weighed = (&'static str, fn(&Rc<Weights>) -> Known<Figure>);

/// Every figure of a state that is worked out from its weights.
const FIGURES: &[Weighed] = &[
    ("gross", Weights::gross),
    ("unloaded", Weights::unloaded),
    ("cargo", Weights::cargo),
    ("cargo capacity", Weights::cargo_capacity),
    ("cargo left", Weights::cargo_left),
    ("tongue", Weights::tongue),
    ("tongue share", Weights::tongue_share),
    ("axles", Weights::axles),
    ("each axle", Weights::each_axle),
    ("left", Weights::left),
    ("right", Weights::right),
    ("side difference", Weights::side_difference),
    ("side share", Weights::side_share),
    ("heaviest wheel", Weights::heaviest_wheel),
    ("centre x", Weights::centre_x),
    ("centre y", Weights::centre_y),
    ("centre z", Weights::centre_z),
    ("stability factor", Weights::stability_factor),
];

/// The SI values of every figure of the spec's state.
fn weighed(text: &str) -> Vec<f64> {
    let weights = Weights::of_state(&read(text), 0);
    FIGURES.iter().map(|(_, figure)| figure(&weights).unwrap().quantity.si()).collect()
}

/// The spec with one written value set to so much in SI.
fn with(text: &str, input: &Named, si: f64) -> String {
    let unit = match input.value.value.dimension() {
        Dimension::MASS => "kg",
        Dimension::LENGTH => "m",
        Dimension::VOLUME => "m³",
        dimension => {
            assert_eq!(dimension, Dimension::NONE);
            return replaced(text, input, &format!("\"{:.15} %\"", si * 100.0));
        }
    };
    replaced(text, input, &format!("\"{si:.15} {unit}\""))
}

fn replaced(text: &str, input: &Named, value: &str) -> String {
    let range = input.value.span.range();
    assert!(text.get(range.clone()).is_some_and(|written| written.starts_with('"')), "{}", input.name());
    let mut text = text.to_owned();
    text.replace_range(range, value);
    text
}

fn gradients_agree(text: &str) -> Result<(), TestCaseError> {
    let weights = Weights::of_state(&read(text), 0);
    let gradients: Vec<Vec<Term>> =
        FIGURES.iter().map(|(_, figure)| figure(&weights).unwrap().trace.gradient().unwrap()).collect();
    let variables = weights.variables();
    prop_assert!(variables.len() > 60, "only {} values", variables.len());
    for input in variables {
        let value = input.value.value.si();
        let step = 1e-4 * value.abs().max(0.1);
        let (more, less) =
            (weighed(&with(text, input, value + step)), weighed(&with(text, input, value - step)));
        for (at, (name, _)) in FIGURES.iter().enumerate() {
            let found = (more[at] - less[at]) / (2.0 * step);
            let of_input = gradients[at].iter().filter(|term| term.input.variable() == input.variable());
            let told: Vec<f64> = of_input.map(|term| term.times).collect();
            prop_assert!(told.len() <= 1, "{} stands twice in {}", input.name(), name);
            let told = told.first().copied().unwrap_or(0.0);
            let scale = 1e-5 * (1.0 + found.abs());
            prop_assert!((told - found).abs() < scale, "∂({name})/∂({}): {told}, not {found}", input.name());
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(6))]

    #[test]
    fn gradients_are_what_happens_when_a_value_changes(
        numbers in prop::collection::vec(0.0..1.0_f64, DRAWN.len()),
        by_tongue in any::<bool>(),
    ) {
        gradients_agree(&spec(&numbers, by_tongue))?;
    }
}

#[test]
fn a_value_written_once_is_one_value() {
    let weights = Weights::of_state(&read(&middling("", "")), 0);
    let written = weights.variables().iter().filter(|input| input.key == "ball_to_box").count();
    assert_eq!(written, 1, "used by the trailer's surfaces, and so by nearly every part");
    let gradient = weights.axles().unwrap().trace.gradient().unwrap();
    let told = gradient.iter().find(|term| term.input.key == "ball_to_box").unwrap().times;
    // Moving the box aft moves all that is measured from it: everything but the empty trailer, the rack with its tent,
    // bedding and sleeper, and the bags, which are measured from axle and ball.
    let others = ["trailer", "rack", "tent", "loft", "bags"];
    let from_box = weights.bodies.iter().filter(|body| others.iter().all(|name| !body.name.contains(name)));
    let mass: f64 = from_box.map(|body| body.kilograms).sum();
    let axle = weights.axle.as_ref().unwrap().metres;
    assert!((told - mass / axle).abs() < 1e-9, "{told} and {}", mass / axle);
}

/// x = L·(1 − T/W) puts exactly T on the ball, whatever L and W are.
#[test]
fn a_tongue_weight_that_was_weighed_depends_on_the_scale_alone() {
    let text = spec(&[0.5; DRAWN.len()], true);
    let (bare, _) = text.split_once("[[item]]").unwrap();
    let text = format!("{bare}[[state]]\nname = \"bare\"\nuse = \"road\"\n");
    let gradient = Weights::of_state(&read(&text), 0).tongue().unwrap().trace.gradient().unwrap();
    let strong: Vec<&Term> = gradient.iter().filter(|term| term.times.abs() > 1e-12).collect();
    assert_eq!(strong.len(), 1, "{strong:#?}");
    assert_eq!(strong[0].input.key, "tongue");
    assert!((strong[0].times - 1.0).abs() < 1e-12);
}

/// An empty tank with a ± may hold something: the derivative is not lost because the water weighs nothing.
#[test]
fn a_tank_that_may_not_be_quite_empty_counts() {
    let by_fill = |fill: &str| {
        let weights =
            Weights::of_state(&read(&middling("fresh = \"50 %\"", &format!("fresh = \"{fill}\""))), 0);
        let gradient = weights.gross().unwrap().trace.gradient().unwrap();
        gradient.into_iter().find(|term| term.input.footing == Footing::Fill).map(|term| term.times)
    };
    let full = by_fill("50 %").unwrap();
    assert!(full > 50.0, "kilograms of a full tank: {full}");
    assert!((by_fill("0 % ± 5 %").unwrap() - full).abs() < 1e-9);
    assert_eq!(by_fill("0 %"), None, "it is seen to be empty");
}

/// Without weight and without a height above the ground, what would it do to the centre of gravity if it weighed
/// something? Nobody knows.
#[test]
fn a_weightless_thing_without_a_place_leaves_its_measure_unsure() {
    let placed = "mass = \"60 lb\", zone = \"roof\", at = { nose = \"8 in\", gap = \"1 in\" }";
    let text = middling(placed, "mass = \"0 lb\", at = { nose = \"8 in\", left = \"1 in\" }");
    let weights = Weights::of_state(&read(&text), 0);
    assert!(weights.centre_z().unwrap().trace.gradient().is_none());
    assert!(weights.tongue().unwrap().trace.gradient().is_some());
}
