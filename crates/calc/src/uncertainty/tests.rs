//! Propagation against a published example, by hand, and its laws.

use pintle_spec::{Build, Coordinate, Footing};
use proptest::prelude::*;

use super::*;
use crate::figure::{Figure, tests::written};
use crate::space::trial::read;
use crate::weights::Weights;

fn parsed(text: &str) -> Quantity {
    Quantity::parse(text).unwrap_or_else(|error| panic!("`{text}`: {error}"))
}

fn given(texts: &[&str]) -> Vec<Figure> {
    let values: Vec<Quantity> = texts.iter().map(|text| parsed(text)).collect();
    written(&values).into_iter().map(Figure::given).collect()
}

fn only_stated() -> Tolerances {
    Tolerances::default()
}

/// EURACHEM/CITAC guide CG 4, Quantifying Uncertainty in Analytical Measurement, example A1, table A1.1 (read on the
/// guide's own pages): a calibration standard of cadmium, c = 1000·m·P/V, with m = 100.28 mg (standard uncertainty
/// 0.05 mg), P = 0.9999 (0.000058) and V = 100.0 mL (0.07 mL), holds 1002.7 mg/L with a combined standard uncertainty of
/// 0.9 mg/L, 0.0009 of it. A ± is twice a standard uncertainty here.
#[test]
fn the_calibration_standard_of_the_eurachem_guide() {
    let figures = given(&["0.10028 g ± 0.0001 g", "99.99 % ± 0.0116 %", "100 mL ± 0.14 mL"]);
    let concentration = figures[0].times(&figures[1]).over(&figures[2]);
    // kg/m³ to mg/L is a thousand.
    let milligrams_a_litre = concentration.quantity.si() * 1000.0;
    assert!((milligrams_a_litre - 1002.7).abs() < 0.05, "{milligrams_a_litre}");
    let sure = of(&concentration.trace, &only_stated()).unwrap();
    let standard = sure.expanded / 2.0 * 1000.0;
    assert_eq!(format!("{standard:.1}"), "0.9", "{standard}");
    assert_eq!(format!("{:.4}", standard / milligrams_a_litre), "0.0009");
    // Table A1.1's last column: relative standard uncertainties of V, m and P.
    let relative = |source: &SourceOf| source.effect / 2.0 * 1000.0 / milligrams_a_litre;
    let shown: Vec<String> = sure.sources.iter().map(|source| format!("{:.6}", relative(source))).collect();
    assert_eq!(shown, ["0.000700", "0.000499", "0.000058"]);
    assert!((sure.worst - sure.sources.iter().map(|source| source.effect).sum::<f64>()).abs() < 1e-15);
}

/// The uncertainty alone is that of the list.
#[test]
fn the_expanded_uncertainty_alone() {
    let figures = given(&["100 lb ± 3 lb", "50 lb ± 4 lb", "7 ft"]);
    let sum = figures[0].plus(&figures[1]).unwrap();
    let alone = expanded(&sum.trace, &only_stated()).unwrap();
    assert!((alone - of(&sum.trace, &only_stated()).unwrap().expanded).abs() < 1e-12 && alone > 0.0);
    let unknown = figures[0].times(&figures[2]);
    assert_eq!(expanded(&unknown.trace, &only_stated()), None);
    assert_eq!(of(&unknown.trace, &only_stated()), None);
}

/// By hand: 3 lb and 4 lb make 5 lb by the root of the squares, and 7 lb at the worst.
#[test]
fn a_sum_of_two() {
    let figures = given(&["100 lb ± 3 lb", "50 lb ± 4 lb"]);
    let pound = Quantity::pounds(1.0).si();
    for figure in [figures[0].plus(&figures[1]).unwrap(), figures[0].minus(&figures[1]).unwrap()] {
        let sure = of(&figure.trace, &only_stated()).unwrap();
        assert!((sure.expanded / pound - 5.0).abs() < 1e-12);
        assert!((sure.worst / pound - 7.0).abs() < 1e-12);
        let names: Vec<String> = sure.sources.iter().map(SourceOf::name).collect();
        assert_eq!(names, ["`value` of number 1", "`value` of number 0"]);
        assert!((sure.sources[0].share(&sure) - 16.0 / 25.0).abs() < 1e-12);
    }
    // The same value twice is no two values: its ± counts twice in full.
    let twice = figures[0].plus(&figures[0]).unwrap();
    assert!((of(&twice.trace, &only_stated()).unwrap().expanded / pound - 6.0).abs() < 1e-12);
}

#[test]
fn what_nobody_knows_is_not_zero() {
    let figures = given(&["100 lb ± 3 lb", "50 lb"]);
    let sum = figures[0].plus(&figures[1]).unwrap();
    assert_eq!(of(&sum.trace, &only_stated()), None, "50 lb of which nobody knows how sure it is");
    let somehow = Figure::new(sum.quantity, figures[0].trace.clone());
    assert_eq!(of(&somehow.trace, &only_stated()), None);
    let constant = of(&Figure::constant(Quantity::pounds(1.0)).trace, &only_stated()).unwrap();
    assert_eq!((constant.expanded, constant.worst), (0.0, 0.0));
    assert!(of(&figures[0].over(&figures[0].minus(&figures[0]).unwrap()).trace, &only_stated()).is_none());
}

/// A default for each footing.
fn some() -> Tolerances {
    let mut tolerances = Tolerances::default();
    let pound = Quantity::pounds(1.0).si();
    let inch = Quantity::inches(1.0).si();
    for (footing, share, width) in [
        (Footing::Weighed, 0.01, 0.5 * pound),
        (Footing::Maker, 0.05, 0.5 * pound),
        (Footing::Computed, 0.1, 0.5 * pound),
        (Footing::Guessed, 0.25, pound),
        (Footing::Person, 0.15, 0.0),
        (Footing::Fill, 0.0, 0.05),
        (Footing::Capacity, 0.03, 0.0),
        (Footing::Place, 0.0, 0.5 * inch),
        (Footing::Centre, 0.0, 2.0 * inch),
        (Footing::Axle, 0.0, 0.25 * inch),
        (Footing::Trailer, 0.0, 0.25 * inch),
    ] {
        tolerances.set(footing, Tolerance { share, width });
    }
    tolerances
}

fn named(text: &str, footing: Footing) -> Named {
    Named { footing, ..written(&[parsed(text)]).remove(0) }
}

#[test]
fn a_stated_tolerance_wins_and_else_the_footing_decides() {
    let pounds = |text: &str, footing| {
        some().half_width(&named(text, footing)).map(|si| si / Quantity::pounds(1.0).si())
    };
    let close =
        |found: Option<f64>, wanted: f64| assert!((found.unwrap() - wanted).abs() < 1e-12, "{found:?}");
    close(pounds("100 lb", Footing::Guessed), 25.0);
    close(pounds("100 lb", Footing::Unstated), 25.0);
    close(pounds("100 lb ± 2 lb", Footing::Guessed), 2.0);
    close(pounds("100 lb ± 0 lb", Footing::Guessed), 0.0);
    close(pounds("2 lb", Footing::Guessed), 1.0);
    close(pounds("0 lb", Footing::Guessed), 0.0);
    close(pounds("0 lb ± 3 lb", Footing::Guessed), 3.0);
    close(pounds("3000 lb", Footing::Exact), 0.0);
    close(pounds("3000 lb ± 10 lb", Footing::Exact), 10.0);
    assert_eq!(pounds("3000 lb", Footing::Other), None);
    let share = |text: &str| some().half_width(&named(text, Footing::Fill)).unwrap();
    assert!((share("40 %") - 0.05).abs() < 1e-12);
    assert_eq!((share("0 %"), share("100 %")), (0.0, 0.0), "that is seen");
    assert!((share("100 % ± 2 %") - 0.02).abs() < 1e-12);
}

fn build(galley: &str, tongue: &str) -> Build {
    read(&format!(
        r#"
[build]
number = "T-1"
title = "an invented trailer for a test"
stage = "design"

[trailer]
mass = "1000 lb"
mass_basis = "weighed"
{tongue}
gvwr = "3000 lb"
ball_to_box = "30 in"
length = "96 in"
width = "60 in"
height = "70 in"
wall = "1 in"
roof = "1 in"
floor_height = "20 in"
frame_height = "17 in"
nose = {{ shape = "flat" }}
axle = {{ ball = "100 in", count = 1, track = "70 in" }}

[[item]]
tag = "galley"
kind = "module"
{galley}
length = "20 in"
width = "10 in"
height = "10 in"
at = {{ rear = "6 in", centre = "0 in" }}

[[item]]
tag = "bench"
kind = "module"
mass = "100 lb"
mass_basis = "maker"
length = "20 in"
width = "10 in"
height = "10 in"
at = {{ front = "9 in", centre = "0 in" }}

[[state]]
name = "road"
use = "road"
"#
    ))
}

const TONGUE: &str = "tongue = \"150 lb\"\ncg = { centre = \"0 in\", ground = \"30 in\" }";

/// By hand. Galley: 200 lb at 31 + 96 − 6 − 10 = 111 in, 11 in behind the axle: T falls by 0.11 lb a pound. Bench: 100 lb
/// at 31 + 9 + 10 = 50 in: T rises by 0.5 lb a pound. T = 150 − 22 + 50 = 178 lb.
#[test]
fn a_tongue_weight_by_hand() {
    let build = build("mass = \"200 lb\"", TONGUE);
    let weights = Weights::of_state(&build, 0);
    let tongue = weights.tongue().unwrap();
    let pound = Quantity::pounds(1.0).si();
    assert!((tongue.quantity.si() / pound - 178.0).abs() < 1e-9);
    let sure = of(&tongue.trace, &some()).unwrap();
    // L enters by the two parts alone: ∂T/∂L = (200·111 + 100·50)/100² = 2.72 lb/in. The box moves both of them: 3 lb/in.
    let wanted = [
        ("`mass` of item `galley`", 50.0 * 0.11),
        ("`mass` of item `bench`", 5.0 * 0.5),
        ("`tongue` of the trailer", 1.5),
        // rear door: box + 2 walls + length; 200 lb/100 in of each inch, and the bench's 100 lb/100 in.
        ("`rear` of `at` of item `galley`", 0.5 * 2.0),
        ("`ball_to_box` of the trailer", 0.25 * 3.0),
        ("`wall` of the trailer", 0.25 * 3.0),
        ("`ball` of `axle` of the trailer", 0.25 * 2.72),
        ("`length` of item `galley`", 0.5 * 1.0),
        ("`length` of the trailer", 0.25 * 2.0),
        ("`front` of `at` of item `bench`", 0.5 * 1.0),
        ("`length` of item `bench`", 0.5 * 0.5),
    ];
    let found: std::collections::BTreeMap<String, f64> =
        sure.sources.iter().map(|source| (source.name(), source.effect / pound)).collect();
    for (name, effect) in wanted {
        let found = found.get(name).unwrap_or_else(|| panic!("{name} is not in {found:#?}"));
        assert!((found - effect).abs() < 1e-9, "{name}: {found}, not {effect}");
    }
    // What the empty trailer's own mass and place do cancels: its tongue was weighed.
    assert_eq!(sure.sources.iter().filter(|source| source.effect / pound > 1e-9).count(), wanted.len());
    let squares: f64 = wanted.iter().map(|(_, effect)| effect * effect).sum();
    assert!((sure.expanded / pound - squares.sqrt()).abs() < 1e-9);
    let first = &sure.sources[0];
    assert_eq!(
        (first.name().as_str(), first.stated, first.input.footing),
        ("`mass` of item `galley`", false, Footing::Unstated)
    );
    assert!((first.half_width.si() / pound - 50.0).abs() < 1e-9);
}

#[test]
fn the_masses_to_weigh_are_those_that_a_scale_would_better_most() {
    let pound = Quantity::pounds(1.0).si();
    let asked = |galley: &str| {
        let weights = Weights::of_state(&build(galley, TONGUE), 0);
        of(&weights.tongue().unwrap().trace, &some()).unwrap()
    };
    let guessed = asked("mass = \"200 lb\"");
    let names = |sure: &Uncertainty, most| -> Vec<String> {
        sure.masses_to_weigh(most).iter().map(|source| source.name()).collect()
    };
    assert_eq!(names(&guessed, 5), ["`mass` of item `galley`", "`mass` of item `bench`"]);
    assert_eq!(names(&guessed, 1), ["`mass` of item `galley`"]);
    // On a scale the galley is known to 2 lb: 0.22 lb on the ball in place of 5.5.
    let left = (guessed.expanded / pound).powi(2) - 5.5_f64.powi(2) + 0.22_f64.powi(2);
    assert!((guessed.after_weighing(1) / pound - left.sqrt()).abs() < 1e-9);
    // What came from a scale, or is stated finer than a scale is, need not be weighed.
    for known in ["mass = \"200 lb\"\nmass_basis = \"weighed\"", "mass = \"200 lb ± 1 lb\""] {
        let sure = asked(known);
        assert_eq!(names(&sure, 5), ["`mass` of item `bench`"], "{known}");
        let galley = sure
            .sources
            .iter()
            .find(|source| source.name().contains("galley") && source.input.footing.is_mass());
        assert_eq!(galley.unwrap().if_weighed, None, "{known}: a scale could not give it better");
    }
    // And weighing it for real does what was foretold.
    let weighed = asked("mass = \"200 lb\"\nmass_basis = \"weighed\"");
    assert!((weighed.expanded - guessed.after_weighing(1)).abs() < 1e-9 * pound);
}

/// What two figures have in common cancels in their difference: a gap to the rear door is as sure as its own tape.
#[test]
fn what_is_common_cancels() {
    let build = build("mass = \"200 lb\"", TONGUE);
    let far: &Coordinate = build.items[0].extent.x.far.as_ref().unwrap();
    let door = Figure::coordinate(build.surfaces.rear_inside.as_ref().unwrap());
    let gap = door.minus(&Figure::coordinate(far)).unwrap();
    let sure = of(&gap.trace, &some()).unwrap();
    assert!((sure.expanded - Quantity::inches(0.5).si()).abs() < 1e-12);
    assert_eq!(sure.sources.len(), 1);
}

proptest! {
    #[test]
    fn laws(values in prop::collection::vec((1.0..500.0_f64, 0.01..20.0_f64), 1..8), times in -5.0..5.0_f64) {
        let quantities: Vec<Quantity> =
            values.iter().map(|(value, half)| Quantity::kilograms(*value).with_tolerance(*half)).collect();
        let figures: Vec<Figure> = written(&quantities).into_iter().map(Figure::given).collect();
        let sum = figures.iter().skip(1).fold(figures[0].clone(), |sum, figure| sum.plus(figure).unwrap());
        let sure = of(&sum.trace, &only_stated()).unwrap();
        let most = values.iter().map(|(_, half)| *half).fold(0.0, f64::max);
        prop_assert!(sure.expanded >= most * (1.0 - 1e-12) && sure.expanded <= sure.worst * (1.0 + 1e-12));
        let shares: f64 = sure.sources.iter().map(|source| source.share(&sure)).sum();
        prop_assert!((shares - 1.0).abs() < 1e-9);
        prop_assert!(sure.sources.is_sorted_by(|one, other| one.effect >= other.effect));
        // So many times the figure is so many times as unsure.
        let scaled = of(&sum.scaled(times).trace, &only_stated()).unwrap();
        prop_assert!((scaled.expanded - times.abs() * sure.expanded).abs() < 1e-9 * sure.expanded);
        prop_assert!((scaled.worst - times.abs() * sure.worst).abs() < 1e-9 * sure.worst);
    }
}
