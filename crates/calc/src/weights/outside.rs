//! The table of checks from outside, `figures/weights.toml`: worked examples of handbooks and textbooks, run through the
//! code that weighs trailers. Where an example can be read as a trailer, it goes through a whole spec.

use std::rc::Rc;

use pintle_spec::Build;

use super::{WATER_POUNDS_PER_GALLON, Weights};
use crate::balance::Sum;
use crate::checks::{self, Given};
use crate::ratings::tires_of_axle;
use crate::space::trial::read;

fn sum(given: &Given<'_>) -> Sum {
    Sum::of(given.list("weights").into_iter().zip(given.list("stations")))
}

/// With what is moved moved, and back again: the way back must come out as well.
fn moved(given: &Given<'_>) -> Sum {
    let before = sum(given);
    if !given.has("moved") {
        return before;
    }
    let (weight, from, to) = (given.si("moved"), given.si("from"), given.si("to"));
    let after = before.moved(weight, from, to);
    let distance = before.distance_to_move(weight, after.centre().unwrap()).unwrap();
    assert!((distance - (to - from)).abs() < 1e-9 * before.weight / weight, "the way back");
    assert!((after.weight - before.weight).abs() < 1e-12, "a move changes no weight");
    after
}

/// What was added takes the centre to where it should be, and taken out again brings it back.
fn ballast(given: &Given<'_>) -> f64 {
    let (before, centre, at) = (sum(given), given.si("centre"), given.si("at"));
    let added = before.ballast(centre, at).unwrap();
    assert!((before.with(added, at).centre().unwrap() - centre).abs() < 1e-9, "put in, the centre is there");
    let taken = before.with(added, at).weight_to_take(before.centre().unwrap(), at).unwrap();
    assert!((taken - added).abs() < 1e-9 * before.weight, "taken out, the centre is back");
    added
}

/// A spec of an empty trailer, in SI.
fn trailer(fields: &str) -> Build {
    read(&format!(
        "[build]\nnumber = \"T-1\"\ntitle = \"an example read as a trailer\"\nstage = \"design\"\n[trailer]\n{fields}\n"
    ))
}

/// A trailer of weight W whose tongue carries F, its axle L behind the ball.
fn stated_by_tongue(given: &Given<'_>) -> Rc<Weights> {
    let [f, l, w] = ["F", "L", "W"].map(|name| given.si(name));
    Weights::as_built(&trailer(&format!(
        "mass = \"{w} kg\"\ntongue = \"{f} kg\"\naxle = {{ ball = \"{l} m\" }}"
    )))
}

fn stability(track: f64, height: f64) -> f64 {
    let build = trailer(&format!(
        "mass = \"1000 kg\"\ncg = {{ ground = \"{height} m\" }}\naxle = {{ ball = \"3 m\", track = \"{track} m\" }}"
    ));
    Weights::as_built(&build).stability_factor().unwrap().quantity.si()
}

/// W · (1 − x/L), by the supports; and the weight that moves.
fn tongue(given: &Given<'_>) -> (Sum, f64, f64) {
    let sum = Sum::of([(given.si("W"), given.si("x"))]);
    (sum, given.si("L"), given.si("w"))
}

fn of_sums(of: &str, given: &Given<'_>) -> Option<Vec<f64>> {
    let centre = |sum: Sum| sum.centre().unwrap();
    Some(match of {
        "centre" => vec![centre(sum(given))],
        "moment" => vec![moved(given).moment],
        "moved" => vec![centre(moved(given))],
        "moved_beyond" => vec![centre(moved(given)) - given.si("limit")],
        "without" => vec![centre(sum(given).with(-given.si("taken"), given.si("at")))],
        "weight_to_move" => {
            let (from, to) = (given.si("from"), given.si("to"));
            // The wrong way round, no weight does it.
            assert_eq!(sum(given).weight_to_move(given.si("centre"), to, from), None);
            vec![sum(given).weight_to_move(given.si("centre"), from, to).unwrap()]
        }
        "distance_to_move" => {
            vec![sum(given).distance_to_move(given.si("moved"), given.si("centre")).unwrap()]
        }
        "ballast" => vec![ballast(given)],
        "ballast_formula" => {
            let (sum, limit) = (sum(given), given.si("centre"));
            vec![sum.weight * (limit - centre(sum)) / (given.si("at") - limit)]
        }
        "fulcrum" => vec![(sum(given).weight + ballast(given)) * 9.8],
        "shares" => {
            let (front, rear) = sum(given).reactions(0.0, given.si("aft")).unwrap();
            vec![front / sum(given).weight, rear / sum(given).weight]
        }
        "aft_support" => vec![sum(given).aft_support(given.si("share")).unwrap()],
        "nose_wheel" => {
            let [f, l, w] = ["F", "L", "W"].map(|name| given.si(name));
            vec![centre(Sum::of([(f, -l), (w - f, 0.0)]))]
        }
        "tongue_after_move" => {
            let (sum, l, w) = tongue(given);
            vec![sum.moved(w, 0.0, given.si("dx")).reactions(0.0, l).unwrap().0]
        }
        "move_for_tongue" => {
            let (sum, l, w) = tongue(given);
            let wanted = l * (1.0 - given.si("tongue") / sum.weight);
            vec![sum.distance_to_move(w, wanted).unwrap()]
        }
        _ => return None,
    })
}

fn of_trailers(of: &str, given: &Given<'_>) -> Vec<f64> {
    match of {
        "trailer_centre" => vec![stated_by_tongue(given).centre_x().unwrap().quantity.si()],
        "trailer_share" => vec![stated_by_tongue(given).tongue_share().unwrap().quantity.si()],
        "trailer_tongue" => {
            let weights = stated_by_tongue(given);
            [weights.tongue(), weights.axles()].map(|figure| figure.unwrap().quantity.si()).to_vec()
        }
        "tires_of_axle" => {
            let build = trailer(&format!(
                "axle = {{ count = {} }}\ntire = {{ rating = \"{} kg\", made_for = \"{}\", count = {} }}",
                given.si("axles"),
                given.si("rating"),
                given.word("made_for"),
                given.si("tires")
            ));
            vec![tires_of_axle(&build).unwrap().quantity.si()]
        }
        "cargo_capacity" => {
            let (unloaded, gvwr) = (given.si("unloaded"), given.si("gvwr"));
            let build = trailer(&format!("mass = \"{unloaded} kg\"\ngvwr = \"{gvwr} kg\""));
            vec![Weights::as_built(&build).cargo_capacity().unwrap().quantity.si()]
        }
        "water" => {
            let density =
                pintle_quantity::Quantity::parse(&format!("{WATER_POUNDS_PER_GALLON} lb/gal")).unwrap();
            vec![given.si("volume") * density.si()]
        }
        "stability" => vec![stability(given.si("track"), given.si("height"))],
        "stability_of" => {
            let sum = Sum::of(given.list("weights").into_iter().zip(given.list("heights")));
            vec![stability(given.si("track"), sum.centre().unwrap())]
        }
        other => panic!("nothing is called `{other}`"),
    }
}

#[test]
fn checks_from_outside() {
    checks::run("weights", |of, given| of_sums(of, given).unwrap_or_else(|| of_trailers(of, given)));
}
