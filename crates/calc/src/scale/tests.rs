use pintle_quantity::Quantity;
use pintle_spec::Build;
use proptest::prelude::*;

use super::*;
use crate::assumed::Assumptions;
use crate::case::Case;
use crate::checks::{self, Given};
use crate::space::trial::{FLAT, in_metric, mirrored, read, spec};
use crate::uncertainty::{Tolerance, Tolerances};
use crate::weights::Weights;
use crate::working::Outcome;

/// A trailer with a galley, a chest and a rack that nobody weighed, a state on the road and more tables.
fn shop(galley: f64, chest: f64, more: &str) -> String {
    let item = |tag: &str, mass: f64, basis: &str, front: f64, centre: f64| {
        format!(
            "[[item]]\ntag = \"{tag}\"\nkind = \"module\"\nmass = \"{mass} lb\"\nmass_basis = \"{basis}\"\nlength = \"20 in\"\nwidth = \"20 in\"\nheight = \"30 in\"\nat = {{ front = \"{front} in\", centre = \"{centre} in\" }}\n"
        )
    };
    spec(
        FLAT,
        &format!(
            "mass = \"1000 lb\"\nmass_basis = \"weighed\"\ncg = {{ ball = \"100 in\", centre = \"0 in\", ground = \"30 in\" }}\naxle = {{ ball = \"115 in\", count = 1, track = \"80 in\" }}\n{}{}{}{more}",
            item("galley", galley, "guessed", 20.0, 20.0),
            item("chest", chest, "maker", 110.0, -18.0),
            item("bench", 90.0, "weighed", 60.0, 10.0),
        ),
    )
}

const ROAD: &str = "[[state]]\nname = \"road\"\nuse = \"road\"\n";

/// A ticket as a scale without any steps would print it of a build, in kg.
fn printed(of: &Build, steps: &str) -> String {
    let weights = Weights::of_state(of, 0);
    let kg = |figure: pintle_spec::Known<crate::Figure>| format!("\"{} kg\"", figure.unwrap().quantity.si());
    format!(
        "[[record.ticket]]\nstate = \"road\"\n{steps}\ngross = {}\ntongue = {}\naxles = {}\nleft = {}\nright = {}\n",
        kg(weights.gross()),
        kg(weights.tongue()),
        kg(weights.axles()),
        kg(weights.left()),
        kg(weights.right())
    )
}

fn tolerances() -> Tolerances {
    let mut tolerances = Tolerances::default();
    for (footing, share) in [
        (pintle_spec::Footing::Guessed, 0.25),
        (pintle_spec::Footing::Maker, 0.05),
        (pintle_spec::Footing::Weighed, 0.01),
    ] {
        tolerances.set(footing, Tolerance { share, width: 0.0 });
    }
    for footing in [pintle_spec::Footing::Axle, pintle_spec::Footing::Place, pintle_spec::Footing::Centre] {
        tolerances.set(footing, Tolerance { share: 0.0, width: 0.01 });
    }
    tolerances.set(pintle_spec::Footing::Trailer, Tolerance { share: 0.0, width: 0.01 });
    tolerances
}

/// The outcome of a figure of a spec, of whatever it is of first.
#[track_caller]
fn outcome(spec: &str, key: &str) -> Result<Outcome, pintle_spec::Missing> {
    let build = read(spec);
    let assumptions = Assumptions::default().with_tolerances(tolerances());
    let all = workings(&Case {
        build: &build,
        assumptions: &assumptions,
        places: &crate::place::Places::default(),
    });
    let found = all.into_iter().find(|working| working.key == key);
    found.unwrap_or_else(|| panic!("no figure is called `{key}`")).outcome
}

#[track_caller]
fn si(spec: &str, key: &str) -> f64 {
    match outcome(spec, key) {
        Ok(Outcome::Figure(figure)) => figure.quantity.si(),
        other => panic!("{key}: {other:?}"),
    }
}

#[track_caller]
fn flag(spec: &str, key: &str) -> bool {
    match outcome(spec, key) {
        Ok(Outcome::Flag(flag)) => flag,
        other => panic!("{key}: {other:?}"),
    }
}

/// A ticket of a row's readings on an ordinary trailer.
fn ticket(given: &Given<'_>) -> String {
    let keys = ["gross", "tongue", "axles", "resolution"].into_iter().filter(|key| given.has(key));
    let mut lines: Vec<String> = keys.map(|key| format!("{key} = \"{}\"", given.word(key))).collect();
    if given.has("by") {
        lines.push(format!("tongue_by = \"{}\"", given.word("by")));
    }
    let ticket = format!("[[record.ticket]]\nstate = \"road\"\n{}\n", lines.join("\n"));
    shop(200.0, 120.0, &format!("{ROAD}{ticket}"))
}

/// The observations of a row.
fn observations<const N: usize>(given: &Given<'_>) -> Vec<Observation<N>> {
    let of = |word: &str| Of::ALL.into_iter().find(|of| format!("{of:?}").to_lowercase() == word).unwrap();
    let (values, us) = (given.list("d"), given.list("u"));
    let rows = given.word("of").split(' ').map(|word| of(word).row());
    let rows = rows.zip(values.iter().zip(&us));
    rows.map(|(row, (value, u))| Observation { row: std::array::from_fn(|at| row[at]), value: *value, u: *u })
        .collect()
}

/// The unknowns of a row, what is left over, and the uncertainties.
fn solved(given: &Given<'_>) -> (Vec<f64>, f64, Vec<f64>) {
    fn of<const N: usize>(observations: &[Observation<N>]) -> (Vec<f64>, f64, Vec<f64>) {
        let found = fit(observations).unwrap();
        let u = |gains: &Vec<f64>| {
            gains.iter().zip(observations).map(|(gain, seen)| (gain * seen.u).powi(2)).sum::<f64>().sqrt()
        };
        (found.values.to_vec(), found.chi_square, found.gains.iter().map(u).collect())
    }
    if given.word("of").contains("left") {
        of::<3>(&observations(given))
    } else {
        of::<2>(&observations(given))
    }
}

#[test]
fn checks_from_outside() {
    checks::run("scale", |of, given| match of {
        "tongue spread" => vec![si(&ticket(given), "tongue_spread")],
        "tongue share spread" => vec![si(&ticket(given), "tongue_share_spread")],
        "tongue share" => vec![si(&ticket(given), "weighed_tongue_share")],
        "axles" => vec![si(&ticket(given), "weighed_axles")],
        "rounding" => vec![rounding(given.si("step"))],
        "line" => {
            let (x, y) = (given.list("x"), given.list("y"));
            let points = x.iter().zip(&y);
            let points = points.map(|(x, y)| Observation { row: [1.0, *x], value: *y, u: given.si("u") });
            fit(&points.collect::<Vec<_>>()).unwrap().values.to_vec()
        }
        "unknowns" => solved(given).0,
        "left over" => vec![solved(given).1],
        "uncertainties" => solved(given).2,
        other => panic!("nothing is called `{other}`"),
    });
}

#[test]
fn readings_that_do_not_tell_the_unknowns_apart_give_nothing() {
    let gross = Observation { row: [1.0, 0.0], value: 5.0, u: 1.0 };
    assert!(fit(&[gross.clone(), gross.clone()]).is_none());
    assert!(fit(&[gross]).is_none());
    assert!(fit::<1>(&[Observation { row: [1.0], value: 5.0, u: 0.0 }]).is_none());
}

#[test]
fn a_stated_tolerance_goes_before_the_step() {
    let of = |more: &str| {
        let build = read(&shop(200.0, 120.0, &format!("{ROAD}[[record.ticket]]\nstate = \"road\"\n{more}")));
        let readings = tickets(&build)[0].readings.clone();
        readings.map(|readings| readings.iter().map(|reading| (reading.u, reading.most)).collect::<Vec<_>>())
    };
    let lb = Quantity::pounds(1.0).si();
    let near = |found: (f64, f64), u: f64, most: f64| {
        assert!((found.0 - u * lb).abs() < 1e-9 && (found.1 - most * lb).abs() < 1e-9, "{found:?}");
    };
    let both = of("gross = \"1,400 lb ± 3 lb\"\naxles = \"1,200 lb\"\nresolution = \"20 lb\"\n").unwrap();
    near(both[0], 1.5, 3.0);
    near(both[1], 20.0 / 12.0_f64.sqrt(), 10.0);
    let tongue = of("tongue = \"200 lb\"\nresolution = \"20 lb\"\ntongue_resolution = \"2 lb\"\n").unwrap();
    near(tongue[0], 2.0 / 12.0_f64.sqrt(), 1.0);
    let apart = of("tongue = \"200 lb\"\nresolution = \"20 lb\"\ntongue_by = \"difference\"\n").unwrap();
    near(apart[0], 20.0 / 6.0_f64.sqrt(), 20.0);
    assert!(of("gross = \"1,400 lb\"\n").unwrap_err().what.starts_with("`resolution` of"));
    assert!(of("gross = \"1,400 lb ± 0 lb\"\n").unwrap_err().what.starts_with("how sure `gross`"));
}

#[test]
fn what_is_missing_is_said_and_nothing_is_made_up() {
    let with = |more: &str| shop(200.0, 120.0, &format!("{ROAD}[[record.ticket]]\nstate = \"road\"\n{more}"));
    let missing = |more: &str, key: &str| outcome(&with(more), key).unwrap_err().what;
    let gross = "gross = \"1,400 lb\"\nresolution = \"20 lb\"\n";
    assert_eq!(missing(gross, "weighed_tongue"), "the tongue weight of ticket 1, state `road`");
    assert_eq!(missing(gross, "unaccounted_behind_ball"), "tongue and axles on one ticket");
    assert!(missing("gross = \"1,400 lb\"\n", "gross_residual").contains("`resolution`"));
    assert!(missing("gross = \"1,400 lb\"\n", "unaccounted_mass").contains("`resolution`"));
    let tongue = "tongue = \"200 lb\"\nresolution = \"20 lb\"\n";
    assert_eq!(missing(tongue, "unaccounted_mass"), "enough readings to tell a weight from its place");
    let no_mass = with(gross).replace("mass = \"120 lb\"\n", "");
    assert_eq!(outcome(&no_mass, "gross_residual").unwrap_err().what, "`mass` of item `chest`");
    // Without a ticket there is nothing to say.
    let build = read(&shop(200.0, 120.0, ROAD));
    assert!(
        workings(&Case {
            build: &build,
            assumptions: &Assumptions::default(),
            places: &crate::place::Places::default()
        })
        .is_empty()
    );
}

#[test]
fn readings_that_agree_with_the_sum_accuse_nobody() {
    let spec = shop(200.0, 120.0, ROAD);
    let ticket = printed(&read(&spec), "resolution = \"20 lb\"");
    let spec = shop(200.0, 120.0, &format!("{ROAD}{ticket}"));
    assert!(matches!(outcome(&spec, "suspects"), Ok(Outcome::None(_))));
    assert!(matches!(outcome(&spec, "unaccounted_behind_ball"), Ok(Outcome::None(_))));
    assert!(si(&spec, "unaccounted_mass").abs() < 1e-9);
    assert!(flag(&spec, "in_balance") && flag(&spec, "sides_in_balance"));
}

#[test]
fn three_readings_that_do_not_add_up_are_out_of_balance() {
    let with = |gross: f64, step: f64| {
        let ticket = format!(
            "[[record.ticket]]\nstate = \"road\"\ngross = \"{gross} lb\"\ntongue = \"200 lb\"\naxles = \"1,200 lb\"\nresolution = \"{step} lb\"\n"
        );
        shop(200.0, 120.0, &format!("{ROAD}{ticket}"))
    };
    assert!((si(&with(1360.0, 20.0), "out_of_balance") - Quantity::pounds(40.0).si()).abs() < 1e-9);
    // Three readings of 20 lb steps may be 30 lb off together.
    assert!(!flag(&with(1360.0, 20.0), "in_balance"));
    assert!(flag(&with(1380.0, 20.0), "in_balance"));
    assert!(flag(&with(1370.0, 20.0), "in_balance"), "exactly at it");
    assert!(!flag(&with(1390.0, 2.0), "in_balance"));
    // A tongue that is the difference of the two others proves nothing.
    let by = with(1360.0, 20.0)
        .replace("axles = \"1,200 lb\"", "axles = \"1,200 lb\"\ntongue_by = \"difference\"");
    assert!(matches!(outcome(&by, "in_balance"), Ok(Outcome::None(_))));
}

/// A part that weighs other than the spec says is found, with what it weighs, among those that nobody weighed.
#[test]
fn the_part_that_is_wrong_is_the_first_suspect() {
    let ticket = printed(&read(&shop(263.0, 120.0, ROAD)), "resolution = \"5 lb\"");
    let build = read(&shop(200.0, 120.0, &format!("{ROAD}{ticket}")));
    let ranked = suspects(&build, &tolerances()).unwrap().unwrap();
    assert_eq!(ranked[0].name, "item `galley`");
    assert!((ranked[0].change.si() - Quantity::pounds(63.0).si()).abs() < 1e-6);
    assert!(ranked[0].chi_square < 1e-9);
    // 63 lb over a quarter of 200 lb.
    assert!((ranked[0].spreads.unwrap() - 63.0 / 50.0).abs() < 1e-6);
    assert!(ranked.iter().all(|suspect| suspect.name != "item `bench`"), "the bench was weighed");
    let chest = ranked.iter().find(|suspect| suspect.name == "item `chest`");
    assert!(chest.is_none_or(|chest| chest.score() > ranked[0].score()));
    let drift = drift(&build, &tolerances()).unwrap().unwrap();
    assert!((drift.mass.quantity.si() - Quantity::pounds(63.0).si()).abs() < 1e-6);
    let (x, y) = (drift.x.unwrap().unwrap(), drift.y.unwrap().unwrap());
    // 37.5 in to the inside of the front wall, 20 in gap, half of 20 in.
    assert!((x.quantity.si() - Quantity::inches(67.5).si()).abs() < 1e-6);
    assert!((y.quantity.si() - Quantity::inches(20.0).si()).abs() < 1e-6);
    assert!(drift.after < 1e-9 && drift.before > 100.0);
}

/// A load of which one state carries a third of another's is one unknown for both.
#[test]
fn a_load_changes_in_proportion_to_what_is_carried() {
    let bags = |mass: f64| {
        format!(
            "[[load]]\ntag = \"bags\"\nmass = \"{mass} lb\"\nmass_basis = \"guessed\"\nleast = \"0 lb\"\nat = {{ front = \"100 in\", centre = \"0 in\", floor = \"3 in\" }}\n"
        )
    };
    let states = |mass: f64| {
        format!(
            "[[state]]\nname = \"road\"\nuse = \"road\"\ncarry = {{ bags = \"{mass} lb\" }}\n[[state]]\nname = \"home\"\nuse = \"road\"\ncarry = {{ bags = \"{} lb\" }}\n",
            mass / 3.0
        )
    };
    let real = read(&shop(200.0, 120.0, &format!("{}{}", bags(150.0), states(150.0))));
    let ticket = |state: usize, name: &str| {
        let weights = Weights::of_state(&real, state);
        let kg = |figure: pintle_spec::Known<crate::Figure>| figure.unwrap().quantity.si();
        format!(
            "[[record.ticket]]\nstate = \"{name}\"\nresolution = \"2 lb\"\ntongue = \"{} kg\"\naxles = \"{} kg\"\n",
            kg(weights.tongue()),
            kg(weights.axles())
        )
    };
    let tickets = ticket(0, "road") + &ticket(1, "home");
    let build = read(&shop(200.0, 120.0, &format!("{}{}{tickets}", bags(120.0), states(120.0))));
    let ranked = suspects(&build, &tolerances()).unwrap().unwrap();
    assert_eq!(ranked[0].name, "load `bags`");
    assert!((ranked[0].change.si() - Quantity::pounds(30.0).si()).abs() < 1e-6);
    assert!(ranked[0].chi_square < 1e-9);
}

#[test]
fn states_without_a_ticket_are_told_of() {
    let two = format!("{ROAD}[[state]]\nname = \"night\"\nuse = \"camp\"\n");
    let none = shop(200.0, 120.0, &format!("{two}[record]\nnote = \"not weighed yet\"\n"));
    assert!(!flag(&none, "has_ticket"));
    let build = read(&none);
    let all = workings(&Case {
        build: &build,
        assumptions: &Assumptions::default(),
        places: &crate::place::Places::default(),
    });
    assert_eq!(all.len(), 1, "of the road state, and of nothing else");
    let gross = "[[record.ticket]]\nstate = \"road\"\ngross = \"1,400 lb\"\nresolution = \"20 lb\"\n";
    assert!(flag(&shop(200.0, 120.0, &format!("{two}{gross}")), "has_ticket"));
}

#[test]
fn a_ticket_is_as_old_as_its_days() {
    let with = |day: &str| {
        let record =
            format!("[record]\ndelivered = \"2026-05-04\"\n[[record.ticket]]\nstate = \"road\"\n{day}");
        shop(200.0, 120.0, &format!("{ROAD}{record}"))
    };
    assert!((si(&with("date = \"2026-04-03\"\n"), "ticket_age") - 31.0 * 86_400.0).abs() < 1e-6);
    assert!(outcome(&with(""), "ticket_age").unwrap_err().what.starts_with("the day of ticket 1"));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// A point of any mass at any place, that the spec does not have, is found where it is.
    #[test]
    fn a_hidden_weight_is_found_where_it_is(mass in 5.0_f64..300.0, front in 0.0_f64..140.0, centre in -34.0_f64..34.0) {
        let hidden = format!(
            "[[item]]\ntag = \"hidden\"\nkind = \"module\"\nmass = \"{mass} lb\"\nlength = \"1 in\"\nwidth = \"1 in\"\nheight = \"1 in\"\nat = {{ front = \"{front} in\", centre = \"{centre} in\" }}\n"
        );
        let ticket = printed(&read(&shop(200.0, 120.0, &format!("{hidden}{ROAD}"))), "resolution = \"1 lb\"");
        let found = drift(&read(&shop(200.0, 120.0, &format!("{ROAD}{ticket}"))), &tolerances()).unwrap().unwrap();
        prop_assert!((found.mass.quantity.si() - Quantity::pounds(mass).si()).abs() < 1e-7);
        let x = found.x.unwrap().unwrap().quantity.si();
        prop_assert!((x - Quantity::inches(37.5 + front + 0.5).si()).abs() < 1e-6);
        let y = found.y.unwrap().unwrap().quantity.si();
        prop_assert!((y - Quantity::inches(centre).si()).abs() < 1e-6);
    }

    /// Units make no difference, and a mirror changes the sign of what is to the right.
    #[test]
    fn mirrored_and_in_metric_alike(gross in 1350_u32..1500, tongue in 150_u32..260, left in 500_u32..700) {
        let ticket = format!(
            "[[record.ticket]]\nstate = \"road\"\nresolution = \"10 lb\"\ngross = \"{gross} lb\"\ntongue = \"{tongue} lb\"\nleft = \"{left} lb\"\nright = \"600 lb\"\n"
        );
        let written = shop(200.0, 120.0, &format!("{ROAD}{ticket}"));
        let of = |spec: &str| {
            let found = drift(&read(spec), &tolerances()).unwrap().unwrap();
            let place = |place: pintle_spec::Known<Option<crate::Figure>>| {
                place.unwrap().map_or(0.0, |figure| figure.quantity.si())
            };
            (found.mass.quantity.si(), place(found.x), place(found.y), found.after)
        };
        let (mass, x, y, after) = of(&written);
        let metric = of(&in_metric(&written));
        prop_assert!((metric.0 - mass).abs() < 1e-7 && (metric.1 - x).abs() < 1e-5);
        prop_assert!((metric.2 - y).abs() < 1e-5 && (metric.3 - after).abs() < 1e-6 * after.max(1.0));
        let mirror = of(&mirrored(&written).replace("centre = \"--", "centre = \""));
        prop_assert!((mirror.0 - mass).abs() < 1e-7 && (mirror.2 + y).abs() < 1e-5);
    }
}
