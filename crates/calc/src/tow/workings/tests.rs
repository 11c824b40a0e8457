//! The topic over whole builds: checks from outside, traps, laws, and what is missing.

use pintle_quantity::{Dimension, Quantity, Unit};
use pintle_source::{Sources, Span, Spanned};
use pintle_spec::schema::assume;
use proptest::prelude::*;

use super::workings;
use crate::assumed::{Assumption, Assumptions};
use crate::case::Case;
use crate::checks::{self, Given};
use crate::origin::Standing;
use crate::space::trial::{FLAT, in_metric, read, spec};
use crate::tow::axles::{added, restoring};
use crate::tow::couplers::{class_for, hitch_test, in_pounds};
use crate::tow::europe;
use crate::working::{Outcome, Working};

const LBF: f64 = 0.453_592_37 * 9.806_65;
const POUND: f64 = 0.453_592_37;
const ANY: &str = "any arrangement";

fn class(given: &Given<'_>) -> crate::tow::couplers::Class {
    class_for(in_pounds(given.si("W"))).unwrap()
}

#[test]
fn checks_from_outside() {
    checks::run("tow", |of, given| match of {
        "class" => vec![f64::from(class(given).number)],
        "ball" => vec![class(given).ball.unwrap()],
        "stands" => {
            let class = class(given);
            [class.long, class.across, class.lift, class.press].map(|pounds| pounds * LBF).to_vec()
        }
        "stands_times" => {
            let times = |kilograms: f64| class_for(in_pounds(kilograms)).unwrap().long / in_pounds(kilograms);
            given.list("W").into_iter().map(times).collect()
        }
        "chain" => vec![class(given).chain * POUND],
        "hitch_test" => {
            let test = hitch_test(in_pounds(given.si("R")));
            [test.first, test.long, test.press, test.across].map(|pounds| pounds * LBF).to_vec()
        }
        "d_value" => vec![europe::d_value(given.si("T"), given.si("R"))],
        "fifth_wheel" => vec![europe::fifth_wheel(given.si("T"), given.si("R"), given.si("U"))],
        "v_value" => vec![europe::v_value(given.si("a"), given.si("x"), given.si("l"), given.si("C"))],
        "s_least" => vec![europe::least_on_ball(given.si("R"))],
        "s_most" => vec![europe::most_on_ball(given.si("R"))],
        "heavy" => vec![europe::HEAVY],
        "trailer_gain" => {
            let m = given.si("n") * given.si("f") * given.si("e");
            vec![added(100.0, 1.0, 3.0, given.si("L"), m).trailer]
        }
        "rear_gain" | "rear_load" => {
            let gain = added(given.si("T"), given.si("o"), given.si("b"), 1.0, 0.0).rear;
            vec![if given.has("R") { given.si("R") + gain } else { gain }]
        }
        "tongue_for" => {
            // What one unit of tongue weight adds, turned round.
            vec![given.si("gain") / added(1.0, given.si("o"), given.si("b"), 1.0, 0.0).rear]
        }
        "combination" => {
            let found = Found::of(&built("", "").replace("\"1300 lb\"", &format!("\"{}\"", given.word("W"))));
            vec![found.si("combination", EMPTY)]
        }
        "restored" => {
            let [share, on_ball, overhang, wheelbase, length] =
                ["s", "T", "o", "b", "L"].map(|name| given.si(name));
            let moment = restoring(share, on_ball, overhang, length);
            let added = added(on_ball, overhang, wheelbase, length, moment);
            vec![added.front, added.rear, added.trailer]
        }
        "limit" => {
            let [coupler, jack, vehicle, mount] =
                ["coupler", "jack", "vehicle", "mount"].map(|name| given.word(name));
            let text = built("", &format!("hitch = {{ ball_mount = {{ tongue = \"{mount}\" }} }}"))
                .replace("tongue_rating = \"525 lb\"", &format!("tongue_rating = \"{coupler}\""))
                .replace("jack = { rating = \"1000 lb\" }", &format!("jack = {{ rating = \"{jack}\" }}"))
                .replace("tongue_rating = \"720 lb\"", &format!("tongue_rating = \"{vehicle}\""));
            vec![Found::of(&text).si("tongue_limit", "the build")]
        }
        "share" => {
            let tongue = format!("tongue = \"{}\"", given.word("T"));
            let mass = format!("mass = \"{}\"", given.word("W"));
            let text =
                built("", "").replace("tongue = \"150 lb\"", &tongue).replace("mass = \"1300 lb\"", &mass);
            let weights = crate::weights::Weights::of_state(&read(&text), 0);
            vec![weights.tongue_share().unwrap().quantity.si()]
        }
        other => panic!("nothing is called `{other}`"),
    });
}

/// A trailer of 1,300 lb with 150 lb on its ball, 100 lb of bags over the axle that may stay at home, and a tow vehicle.
fn built(trailer: &str, tow: &str) -> String {
    let more = format!(
        "mass = \"1300 lb\"\ntongue = \"150 lb\"\ngvwr = \"3500 lb\"\naxle = {{ ball = \"150 in\", count = 1, gawr = \"3500 lb\", track = \"70 in\" }}\n\
         cg = {{ centre = \"0 in\", ground = \"30 in\" }}\njack = {{ rating = \"1000 lb\" }}\n\
         coupler = {{ rating = \"3500 lb\", tongue_rating = \"525 lb\", ball = \"2 in\", height = \"17 in\"{trailer} }}\n\
         [tow]\nrating = \"7200 lb\"\ntongue_rating = \"720 lb\"\nball = \"2 in\"\nball_height = \"18 in\"\nmass = \"5900 lb\"\n\
         aboard = \"700 lb\"\ngvwr = \"7000 lb\"\nfront_axle = \"3100 lb\"\nrear_axle = \"2800 lb\"\nwheelbase = \"140 in\"\noverhang = \"49 in\"\n{tow}\n\
         [[load]]\ntag = \"bags\"\nmass = \"100 lb\"\nleast = \"0 lb\"\nat = {{ axle = \"0 in\", centre = \"0 in\", floor = \"0 in\" }}\n\
         [[state]]\nname = \"empty\"\nuse = \"road\"\n[[state]]\nname = \"camp\"\nuse = \"camp\"\n"
    );
    spec(FLAT, &more)
}

struct Found(Vec<Working>);

impl Found {
    fn of(spec: &str) -> Self {
        let build = read(spec);
        let source = Sources::new().add("assumed.toml", "");
        let value = Spanned::new(Quantity::share(0.5), Span::new(source, 0, 5));
        let restores = Assumption::new(value, Standing::Memory, "a test".to_owned());
        let assumptions = Assumptions::from_list([(&assume::TOW, &assume::tow::RESTORES, restores)]);
        Self(workings(&Case {
            build: &build,
            assumptions: &assumptions,
            places: &crate::place::Places::default(),
        }))
    }

    #[track_caller]
    fn working(&self, key: &str, of: &str) -> &Working {
        let found = self.0.iter().find(|working| working.key == key && working.of == of);
        found.unwrap_or_else(|| panic!("there is no {key} of {of}"))
    }

    fn has(&self, key: &str) -> bool {
        self.0.iter().any(|working| working.key == key)
    }

    #[track_caller]
    fn si(&self, key: &str, of: &str) -> f64 {
        let found = self.working(key, of).figure();
        found.unwrap_or_else(|missing| panic!("{key}: {} is missing", missing.what)).quantity.si()
    }

    #[track_caller]
    fn value(&self, key: &str, of: &str, unit: &str) -> f64 {
        self.working(key, of).figure().unwrap().quantity.value_in(Unit::find(unit).unwrap()).unwrap()
    }

    #[track_caller]
    fn missing(&self, key: &str, of: &str) -> &str {
        &self.working(key, of).outcome.as_ref().unwrap_err().what
    }

    #[track_caller]
    fn flag(&self, key: &str, of: &str) -> bool {
        matches!(self.working(key, of).outcome, Ok(Outcome::Flag(true)))
    }

    fn none(&self, key: &str, of: &str) -> bool {
        matches!(self.working(key, of).outcome, Ok(Outcome::None(_)))
    }
}

#[track_caller]
fn close(found: f64, expected: f64) {
    assert!((found - expected).abs() <= 1e-9 * expected.abs().max(1.0), "found {found}, expected {expected}");
}

const EMPTY: &str = "state `empty`";

/// 150 lb, 49 in behind the rear axle of a wheelbase of 140 in: 0.35 of it comes off the front axle.
#[test]
fn axles_by_hand() {
    let found = Found::of(&built("", ""));
    close(found.value("front_axle_relief", EMPTY, "lb"), 52.5);
    close(found.value("rear_axle_gain", EMPTY, "lb"), 202.5);
    close(found.value("front_axle_load", EMPTY, "lb"), 3047.5);
    close(found.value("rear_axle_load", EMPTY, "lb"), 3002.5);
    close(found.si("front_axle_share", EMPTY), 3047.5 / 3100.0);
    close(found.value("combination", EMPTY, "lb"), 7200.0);
    close(found.value("combination", ANY, "lb"), 7300.0);
    close(found.value("payload_used", EMPTY, "lb"), 850.0);
    close(found.value("vehicle_gross", EMPTY, "lb"), 6050.0);
}

/// Bags behind the axle make the trailer heavier and the tongue lighter: the two extremes are two arrangements.
#[test]
fn the_most_on_the_ball_is_not_where_the_most_is_aboard() {
    let aft = built("", "").replace("at = { axle = \"0 in\"", "at = { axle = \"30 in\"");
    let found = Found::of(&aft);
    close(found.value("combination", ANY, "lb"), 7300.0);
    close(found.value("payload_used", ANY, "lb"), 850.0);
    let ahead = Found::of(&built("", "").replace("at = { axle = \"0 in\"", "at = { axle = \"-30 in\""));
    close(ahead.value("payload_used", ANY, "lb"), 850.0 + 100.0 * 30.0 / 150.0);
}

#[test]
fn camp_states_are_not_towed() {
    let found = Found::of(&built("", ""));
    assert!(!found.0.iter().any(|working| working.of == "state `camp`"));
    assert!(found.0.iter().all(|working| working.caution.contains("weigh")));
}

/// The least of all ratings is the limit, whoever states it; a hitch's parts count where they are stated.
#[test]
fn trap_the_vehicles_rating_alone_is_not_the_limit() {
    let limit = |trailer: &str, tow: &str, key: &str| {
        let found = Found::of(&built(trailer, tow));
        let Ok(Outcome::Text(by)) = &found.working(&format!("{key}_by"), "the build").outcome else {
            panic!()
        };
        (found.value(key, "the build", "lb"), by.clone())
    };
    assert_eq!(limit("", "", "tongue_limit").1, "coupler");
    close(limit("", "", "tongue_limit").0, 525.0);
    let mount = "hitch = { ball_mount = { gross = \"3000 lb\", tongue = \"300 lb\" } }";
    let (found, whose) = limit("", mount, "tongue_limit");
    close(found, 300.0);
    assert_eq!(whose, "ball mount");
    assert_eq!(limit("", mount, "gross_limit").1, "ball mount");
    let ball = "hitch = { ball_rating = \"2000 lb\" }";
    assert_eq!(limit("", ball, "gross_limit").1, "ball");
    close(limit("", ball, "gross_limit").0, 2000.0);
    // Of a receiver the rating counts that goes with the hitch that is fitted.
    let receiver = |fitted: &str| {
        format!(
            "hitch = {{ fitted = \"{fitted}\", weight_carrying = {{ gross = \"2000 lb\", tongue = \"200 lb\" }}, \
             distributing = {{ gross = \"9000 lb\", tongue = \"900 lb\" }} }}"
        )
    };
    assert_eq!(limit("", &receiver("weight-carrying"), "tongue_limit").1, "receiver");
    assert_eq!(limit("", &receiver("distributing"), "tongue_limit").1, "coupler");
}

/// With spring bars the loads still add up to the weight on the ball, and the moment is either that of the bars or the one assumed.
#[test]
fn spring_bars_by_hand() {
    let hitch = |bars: &str| {
        format!(
            "hitch = {{ fitted = \"distributing\", weight_carrying = {{ gross = \"2000 lb\", tongue = \"120 lb\" }}{bars} }}"
        )
    };
    let found = Found::of(&built("", &hitch("")));
    // M = 0.5 · 150 · 49 / (1 + 49/150) in lb·in.
    let m = 0.5 * 150.0 * 49.0 / (1.0 + 49.0 / 150.0);
    close(found.value("bar_moment", EMPTY, "lb·in"), m);
    close(found.value("front_axle_change", EMPTY, "lb"), -26.25);
    close(found.value("front_axle_distributed", EMPTY, "lb"), 3073.75);
    close(found.value("trailer_axle_gain", EMPTY, "lb"), m / 150.0);
    let parts = ["front_axle_change", "rear_axle_change", "trailer_axle_gain"]
        .map(|key| found.value(key, EMPTY, "lb"));
    close(parts.iter().sum(), 150.0);
    assert!(found.flag("needs_distribution", EMPTY));
    let bars = ", bars = { count = 2, lift = \"100 lb\", lever = \"30 in\" }";
    let found = Found::of(&built("", &hitch(bars)));
    close(found.value("bar_moment", EMPTY, "lb·in"), 6000.0);
    close(found.value("trailer_axle_gain", EMPTY, "lb"), 40.0);
    close(found.value("ball_load_distributed", EMPTY, "lb"), 110.0);
    close(found.value("front_axle_change", EMPTY, "lb"), (6000.0 - 110.0 * 49.0) / 140.0);
    close(
        found.value("rear_axle_distributed", EMPTY, "lb"),
        2800.0 + 110.0 - (6000.0 - 110.0 * 49.0) / 140.0,
    );
    // Without bars there is nothing to spread; without a hitch stated it is not asked.
    let plain = Found::of(&built(
        "",
        "hitch = { fitted = \"weight-carrying\", weight_carrying = { gross = \"2000 lb\", tongue = \"200 lb\" } }",
    ));
    assert!(plain.none("front_axle_distributed", EMPTY) && plain.none("bar_moment", EMPTY));
    assert!(!plain.flag("needs_distribution", EMPTY));
    assert!(!Found::of(&built("", "")).has("bar_moment"));
}

/// 18 in of ball under a coupler of 17 in, 150 in ahead of the axle.
#[test]
fn nose_up_by_hand() {
    let found = Found::of(&built("", ""));
    close(found.si("pitch", "the build"), (1.0_f64 / 150.0).atan());
    let low = Found::of(&built("", "").replace("ball_height = \"18 in\"", "ball_height = \"16 in\""));
    close(low.si("pitch", "the build"), -(1.0_f64 / 150.0).atan());
}

/// Classes turn over at the pound; above 10,000 lb the table ends, and says so.
#[test]
fn classes_over_builds() {
    let of =
        |mass: &str| Found::of(&built("", "").replace("mass = \"1300 lb\"", &format!("mass = \"{mass}\"")));
    for (mass, class, chain) in [("2000 lb", 1.0, 2000.0), ("2001 lb", 2.0, 3500.0), ("5001 lb", 4.0, 5001.0)]
    {
        let found = of(mass);
        close(found.si("coupler_class", EMPTY), class);
        close(found.value("chain_needed", EMPTY, "lb"), chain);
        assert_eq!(found.none("ball_needed", EMPTY), class > 3.0);
    }
    assert_eq!(of("10001 lb").missing("coupler_class", EMPTY), "a class of coupler for more than 10,000 lb");
    // With the bags 100 lb more ride in any arrangement than in the state.
    close(of("2000 lb").si("coupler_class", ANY), 2.0);
    let found = of("1300 lb");
    let tests = [
        "coupler_pull_test",
        "coupler_side_test",
        "coupler_lift_test",
        "coupler_press_test",
        "hitch_first_test",
        "hitch_pull_test",
        "hitch_press_test",
        "hitch_side_test",
    ];
    let expected = [10_500.0, 3000.0, 4500.0, 4500.0, 2125.0, 2335.0, 525.0, 1200.0];
    for (key, expected) in tests.into_iter().zip(expected) {
        close(found.value(key, "the build", "lbf"), expected);
    }
}

/// Light trailers have D and S on the plate; V and Dc are for those above 3.5 t.
#[test]
fn trap_a_light_trailer_needs_no_v_value() {
    let plates = (", d_value = \"8 kN\"", "hitch = { d_value = \"9.5 kN\" }");
    let found = Found::of(&built(plates.0, plates.1));
    close(found.value("d_value", "the build", "kN"), 8.0);
    let [t, r] = [7000.0, 3500.0].map(|pounds| pounds * POUND);
    close(found.si("d_needed", "the build"), 9.81 * t * r / (t + r));
    assert!(found.none("v_needed", "the build") && found.none("dc_needed", "the build"));
    close(found.value("s_least", "the build", "kg"), 0.04 * r);
    close(found.value("s_most", "the build", "kg"), 0.1 * r);
    let heavy = Found::of(
        &built(plates.0, plates.1)
            .replace("gvwr = \"3500 lb\"\naxle", "gvwr = \"8000 lb\"\naxle")
            .replace("gawr = \"3500 lb\"", "gawr = \"7700 lb\""),
    );
    let c = 7700.0 * POUND;
    close(heavy.si("dc_needed", "the build"), 9.81 * t * c / (t + c));
    // A body of 147 in on a drawbar of 150 in: the ratio is no less than 1.
    close(heavy.si("v_needed", "the build"), 2.4 * c);
    assert!(!Found::of(&built("", "")).has("d_needed"));
}

#[test]
fn what_is_not_said_is_missing() {
    let found = Found::of(
        &built("", "").replace("aboard = \"700 lb\"\n", "").replace("wheelbase = \"140 in\"\n", ""),
    );
    assert_eq!(found.missing("payload_used", EMPTY), "`aboard` of the tow vehicle");
    assert_eq!(found.missing("rear_axle_gain", EMPTY), "`wheelbase` of the tow vehicle");
    assert_eq!(found.missing("rear_axle_load", ANY), "`wheelbase` of the tow vehicle");
    assert_eq!(found.missing("needs_distribution", EMPTY), "`hitch` of the tow vehicle");
    let text = built("", "");
    let (before, after) = (text.split_once("[tow]").unwrap().0, text.split_once("[[load]]").unwrap().1);
    let alone = Found::of(&format!("{before}[[load]]{after}"));
    for key in ["combination", "payload_used", "rear_axle_load", "front_axle_share"] {
        assert_eq!(alone.missing(key, EMPTY), "the tow vehicle");
    }
    assert_eq!(alone.missing("tongue_limit", "the build"), "the tow vehicle");
    let hitched = Found::of(&built("", "hitch = { ball_rating = \"5000 lb\" }"));
    assert_eq!(hitched.missing("bar_moment", EMPTY), "`fitted` of `hitch` of the tow vehicle");
    let no_state = built("", "").replace("use = \"road\"", "use = \"camp\"");
    assert_eq!(Found::of(&no_state).missing("combination", ANY), "a state for the road");
    let unweighed = Found::of(&built("", "").replace("tongue = \"150 lb\"\n", ""));
    assert_eq!(unweighed.missing("payload_used", EMPTY), "`tongue` of the trailer, or `ball` of its `cg`");
    close(unweighed.value("combination", EMPTY, "lb"), 7200.0);
}

fn pounds(figure: f64) -> f64 {
    figure / POUND
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Loads add up, moments balance, and full restoring leaves the front axle as it was.
    #[test]
    fn spring_bars_in_balance(t in 10.0..900.0_f64, o in 20.0..80.0_f64, wb in 90.0..170.0_f64, l in 90.0..260.0_f64, s in 0.0..1.0_f64) {
        let m = restoring(s, t, o, l);
        let with = added(t, o, wb, l, m);
        prop_assert!((with.front + with.rear + with.trailer - t).abs() < 1e-9 * t);
        // About the front axle of the vehicle: rear at wb, ball at wb + o, moment m nose down.
        prop_assert!((with.rear * wb - with.ball * (wb + o) + m).abs() < 1e-8 * t * wb);
        prop_assert!((with.front + (1.0 - s) * t * o / wb).abs() < 1e-9 * t);
        let none = added(t, o, wb, l, 0.0);
        prop_assert!((none.front + t * o / wb).abs() < 1e-9 * t && none.trailer == 0.0);
    }

    /// Units make no difference, and a heavier tongue takes more from the front axle.
    #[test]
    fn metric_and_heavier(tongue in 20_u32..200) {
        let written = built("", "").replace("tongue = \"150 lb\"", &format!("tongue = \"{tongue} lb\""));
        let keys = ["rear_axle_load", "front_axle_load", "payload_used", "combination", "chain_needed"];
        let measure = |spec: &str| keys.map(|key| Found::of(spec).si(key, EMPTY));
        for (one, other) in measure(&written).into_iter().zip(measure(&in_metric(&written))) {
            prop_assert!((one - other).abs() < 1e-9 * one.abs().max(1.0));
        }
        let relief = pounds(Found::of(&written).si("front_axle_relief", EMPTY));
        prop_assert!((relief - f64::from(tongue) * 0.35).abs() < 1e-9 * 100.0);
    }

    #[test]
    fn d_values_are_symmetrical_and_below_the_lesser(t in 500.0..9000.0_f64, r in 300.0..9000.0_f64) {
        let d = europe::d_value(t, r);
        prop_assert!((d - europe::d_value(r, t)).abs() < 1e-9 * d);
        prop_assert!(d < europe::G * t.min(r));
    }
}

#[test]
fn dimensions_are_what_they_say() {
    let found = Found::of(&built("", ""));
    for (key, dimension) in [
        ("pitch", Dimension::ANGLE),
        ("coupler_pull_test", Dimension::FORCE),
        ("tongue_limit", Dimension::MASS),
    ] {
        assert_eq!(found.working(key, "the build").figure().unwrap().quantity.dimension(), dimension);
    }
}
