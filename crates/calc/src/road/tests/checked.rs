//! The table of checks from outside, `figures/road.toml`.

use pintle_quantity::{Dimension, Quantity};
use pintle_spec::Build;

use crate::checks::{self, Given};
use crate::figure::Figure;
use crate::place::{Sort, figures};
use crate::road::brakes::{axle_share, breakaway_charge, is_due, lowered_by, may_go_unbraked, needs_of};
use crate::road::ground::departure;
use crate::road::labels::{
    added_threshold, axle_sum_margin, gvwr_floor_margin, is_recreational, printed, standard,
    water_in_kilograms, water_in_pounds,
};
use crate::road::tires::reserve;
use crate::road::trial::places;
use crate::road::{lamps_misplaced, lamps_wrong_colour, needs_tape, required_lamps};
use crate::space::trial::read;

fn figure(given: &Given<'_>, name: &str, dimension: Dimension) -> Figure {
    Figure::constant(Quantity::from_si(given.si(name), dimension))
}

fn mass(given: &Given<'_>, name: &str) -> Figure {
    figure(given, name, Dimension::MASS)
}

fn length(given: &Given<'_>, name: &str) -> Figure {
    figure(given, name, Dimension::LENGTH)
}

fn si(figure: &Figure) -> f64 {
    figure.quantity.si()
}

/// A whole number.
fn whole(number: f64) -> usize {
    (0..100_u8).find(|whole| (f64::from(*whole) - number).abs() < 1e-9).unwrap().into()
}

fn flag(holds: bool) -> f64 {
    f64::from(u8::from(holds))
}

fn built(head: &str, more: &str) -> Build {
    read(&format!(
        "[build]\nnumber = \"T-1\"\ntitle = \"a check\"\nstage = \"design\"\n{head}\n[trailer]\n{more}\n"
    ))
}

fn of_labels(of: &str, given: &Given<'_>) -> Option<Vec<f64>> {
    let tank = || {
        let litres = given.si("capacity") * 1000.0;
        built(
            "",
            &format!(
                "[[tank]]\ntag = \"fresh\"\nholds = \"fresh\"\ncapacity = \"{litres} L\"\nat = {{ front = \"1 in\", left = \"1 in\" }}"
            ),
        )
    };
    Some(match of {
        "axle_sum_margin" => {
            let gawr = mass(given, "gawr").scaled(given.si("axles"));
            vec![si(&axle_sum_margin(&gawr, &mass(given, "tongue"), &mass(given, "gvwr")).unwrap())]
        }
        "gvwr_floor_margin" => {
            let [g, u, c] = ["gvwr", "unloaded", "cargo"].map(|name| mass(given, name));
            vec![si(&gvwr_floor_margin(&g, &u, &c, given.si("seats")).unwrap())]
        }
        "standard" => {
            let name = standard(mass(given, "gvwr").quantity).unwrap();
            vec![name.strip_prefix("49 CFR 571.").unwrap().parse().unwrap()]
        }
        "label_water_kilograms" => vec![si(&water_in_kilograms(&tank()).unwrap())],
        "label_water_pounds" => vec![si(&water_in_pounds(&tank()).unwrap())],
        "printed" => {
            let (kilograms, pounds) = printed(&mass(given, "weight"));
            vec![si(&kilograms), si(&pounds)]
        }
        "added_threshold" => vec![si(&added_threshold(&mass(given, "gvwr")).unwrap())],
        "relabel_due" => {
            let threshold = added_threshold(&mass(given, "gvwr")).unwrap();
            vec![flag(!mass(given, "added").quantity.at_most(threshold.quantity).unwrap())]
        }
        "recreational" => {
            let names = pintle_spec::schema::build::head::FACILITY_NAMES.iter();
            let count = whole(given.si("facilities"));
            let held: Vec<String> = names.take(count).map(|name| format!("\"{name}\"")).collect();
            let fields =
                format!("facilities = [{}]\ncargo_first = {}", held.join(", "), given.word("cargo_first"));
            vec![flag(is_recreational(&built(&fields, "")).unwrap())]
        }
        _ => return None,
    })
}

fn of_lamps(of: &str, given: &Given<'_>) -> Option<Vec<f64>> {
    let lamps = || required_lamps(length(given, "width").quantity, length(given, "length").quantity).unwrap();
    let inches = |height: Option<f64>| height.map_or(0.0, |height| Quantity::inches(height).si());
    let fitted = |lamp: &str| {
        built("", &format!("overall_width = \"84 in\"\noverall_length = \"20 ft\"\nlamp = [{lamp}]"))
    };
    Some(match of {
        "lamp" => {
            let lamps = lamps();
            let lamp = lamps.iter().find(|lamp| lamp.name == given.word("name")).unwrap();
            vec![f64::from(lamp.count), inches(lamp.band.lowest), inches(lamp.band.highest)]
        }
        "lamp_count" => vec![f64::from(u8::try_from(lamps().len()).unwrap())],
        "lamp_named" => vec![flag(lamps().iter().any(|lamp| lamp.name == given.word("name")))],
        "tape" => {
            vec![flag(needs_tape(length(given, "width").quantity, mass(given, "gvwr").quantity).unwrap())]
        }
        "apart" => {
            let millimetres = given.si("apart") * 1000.0;
            let lamp =
                format!("{{ name = \"rear identification\", count = 3, apart = \"{millimetres} mm\" }}");
            vec![f64::from(u8::try_from(lamps_misplaced(&fitted(&lamp)).unwrap().len()).unwrap())]
        }
        "colour" => {
            let lamp =
                format!("{{ name = \"{}\", colour = \"{}\" }}", given.word("name"), given.word("colour"));
            vec![f64::from(u8::try_from(lamps_wrong_colour(&fitted(&lamp)).unwrap().len()).unwrap())]
        }
        _ => return None,
    })
}

fn of_places(of: &str, given: &Given<'_>) -> Option<Vec<f64>> {
    let places = places();
    let place = |name: &str| places.get(name).unwrap();
    let held = |name: &str, key: &str| place(name).figure(figures::SCHEMA.find(key).unwrap()).unwrap().0;
    Some(match of {
        "us_margin" => vec![si(&held("us", given.word("figure")).minus(&length(given, "size")).unwrap())],
        "place_figure" => vec![si(&held(given.word("place"), given.word("figure")))],
        "tongue_share_margin" => {
            let share = mass(given, "tongue").over(&mass(given, "gross"));
            vec![si(&share.minus(&held(given.word("place"), "least_tongue_share")).unwrap())]
        }
        "brakes_needed" => {
            let sort = Sort::from_word(given.word("sort")).unwrap();
            let needs = needs_of(place(given.word("place")), sort).unwrap();
            let due = |need: &&crate::place::BrakeNeed| {
                is_due(mass(given, "weight").quantity, need.threshold.unwrap().value, need.from).unwrap()
            };
            vec![flag(needs.iter().any(due))]
        }
        "lowered_by" => vec![si(&lowered_by(place(given.word("place"))).unwrap().unwrap())],
        "by_weight" => {
            vec![flag(place(given.word("place")).brakes.iter().any(|need| need.threshold.is_some()))]
        }
        "hold_margin" => {
            let held_for = figure(given, "held", Dimension::TIME);
            vec![si(&held_for.minus(&held("us", "breakaway_hold")).unwrap())]
        }
        "unbraked" => {
            let [gross, tongue, tow] = ["gross", "tongue", "tow_axles"].map(|name| mass(given, name));
            let share = axle_share(&gross.minus(&tongue).unwrap(), &tow);
            let most = held("us", "most_axle_share").quantity;
            vec![si(&share), flag(may_go_unbraked(gross.quantity, share.quantity, most).unwrap())]
        }
        _ => return None,
    })
}

fn of_others(of: &str, given: &Given<'_>) -> Vec<f64> {
    match of {
        "breakaway_charge" => {
            let (i, t) = (figure(given, "I", Dimension::CURRENT), figure(given, "t", Dimension::TIME));
            vec![si(&breakaway_charge(u32::try_from(whole(given.si("magnets"))).unwrap(), &i, &t))]
        }
        "reserve" => vec![si(&reserve(&mass(given, "rating"), &mass(given, "load")))],
        "departure" => {
            let [d, z, r] = ["d", "z", "r"].map(|name| length(given, name));
            vec![si(&departure(&d, &z, &r))]
        }
        other => panic!("nothing is called `{other}`"),
    }
}

#[test]
fn checks_from_outside() {
    checks::run("road", |of, given| {
        let found = of_labels(of, given).or_else(|| of_lamps(of, given)).or_else(|| of_places(of, given));
        found.unwrap_or_else(|| of_others(of, given))
    });
}
