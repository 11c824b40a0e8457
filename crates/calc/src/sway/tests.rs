use nalgebra::Matrix6;
use proptest::prelude::*;

use super::model::Sign;
use super::*;
use crate::checks::{self, Given};
use crate::space::trial::{FLAT, build};
use crate::weights::Weights;

mod built;

fn train(given: &Given<'_>) -> Train {
    let of = |name: &str| given.si(name);
    Train {
        m: of("m"),
        i: of("I"),
        a: of("a"),
        b: of("b"),
        d: of("d"),
        cf: of("cf"),
        cr: of("cr"),
        mt: of("mt"),
        it: of("It"),
        e: of("e"),
        axles: vec![TrailerAxle { l: of("e") + of("h"), c: of("ct") }],
    }
}

/// The fastest swing: behind a vehicle of no end of mass the trailer's; the vehicle's own takes days.
fn fastest(given: &Given<'_>) -> Root {
    let roots = train(given).roots(given.si("u")).unwrap().0.into_iter().filter(|root| root.im > 0.0);
    roots.max_by(|one, other| one.frequency().total_cmp(&other.frequency())).unwrap()
}

/// The sample of the checks.
fn sample() -> Train {
    Train {
        m: 16975.0 / 9.81,
        i: 3508.0,
        a: 1.289,
        b: 1.596,
        d: 2.7,
        cf: 80_000.0,
        cr: 80_000.0,
        mt: 2000.0,
        it: 3000.0,
        e: 2.7,
        axles: vec![TrailerAxle { l: 3.0, c: 80_000.0 }],
    }
}

#[test]
fn checks_from_outside() {
    checks::run("sway", |of, given| {
        let yaw = || train(given).roots(given.si("u")).unwrap().yaw_mode().unwrap();
        let closed = || {
            let (e, l) = (given.si("e"), given.si("e") + given.si("h"));
            let inertia = given.si("It") + given.si("mt") * e * e;
            heavy_vehicle(inertia, &[TrailerAxle { l, c: given.si("ct") }], given.si("u"))
        };
        match of {
            "roots" => {
                let mut roots = train(given).roots(given.si("u")).unwrap().0;
                roots.sort_by(|one, other| one.re.total_cmp(&other.re));
                assert_eq!((roots[0].im, roots[1].im), (0.0, 0.0));
                vec![roots[0].re, roots[1].re, roots[2].re, roots[2].im.abs()]
            }
            "damping" => vec![yaw().damping()],
            "frequency" => vec![yaw().frequency()],
            "damping of the trailer" => vec![fastest(given).damping()],
            "angular frequency of the trailer" => vec![fastest(given).frequency() * std::f64::consts::TAU],
            "closed damping" => vec![closed().0],
            "closed frequency" => vec![closed().1],
            "critical speed" => vec![train(given).critical().unwrap().speed],
            "kind" => vec![match train(given).critical().map(|crossing| crossing.kind) {
                None => 0.0,
                Some(Kind::Snaking) => 1.0,
                Some(Kind::Divergence) => 2.0,
            }],
            "snaking frequency" => vec![train(given).critical().unwrap().root.frequency()],
            "tongue share" => vec![train(given).tongue_share().unwrap()],
            "vehicle roots" => {
                // The trailer's own two are faster by far, or slower by far.
                let roots = train(given).roots(given.si("u")).unwrap();
                let mut re: Vec<f64> = roots.0.iter().map(|root| root.re).collect();
                re.sort_by(|one, other| (one + 1.5).abs().total_cmp(&(other + 1.5).abs()));
                re.truncate(2);
                re.sort_by(f64::total_cmp);
                re
            }
            "stability factor" | "height" => {
                let weights = Weights::as_built(&build(FLAT, &stance(given)));
                let figure = if of == "height" { weights.centre_z() } else { weights.stability_factor() };
                vec![figure.unwrap().quantity.si()]
            }
            other => panic!("nothing is called `{other}`"),
        }
    });
}

/// A trailer of a mass with its centre of gravity so high, and perhaps a tent above it.
fn stance(given: &Given<'_>) -> String {
    let metres = |name: &str| format!("{} m", given.si(name));
    let mass = if given.has("mass") { given.si("mass") } else { 1000.0 };
    let tent = if given.has("tent") {
        format!(
            "[[item]]\ntag = \"tent\"\nkind = \"module\"\nmass = \"{} kg\"\nheight = \"0.2 m\"\nwidth = \"1 m\"\nlength = \"1 m\"\nat = {{ front = \"1 m\", centre = \"0 m\", ground = \"{} m\" }}\n",
            given.si("tent"),
            given.si("up") - 0.1
        )
    } else {
        String::new()
    };
    format!(
        "mass = \"{mass} kg\"\ncg = {{ ball = \"2 m\", centre = \"0 m\", ground = \"{}\" }}\naxle = {{ ball = \"2.3 m\", track = \"{}\" }}\n{tent}",
        metres("height"),
        metres("track")
    )
}

/// The state matrix of the source, six by six with its two zero roots, against the four by four that is solved.
#[test]
fn the_two_roots_that_are_left_out_are_zero() {
    let train = sample();
    for u in [7.0, 20.0, 36.0, 60.0] {
        let j = [[1.0, train.a, 0.0], [1.0, -train.b, 0.0], [1.0, -train.d, -3.0]];
        let heading = [[0.0, 1.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]];
        let centre = [1.0, -train.d, -train.e];
        let (mut mass, mut c, mut k) =
            (nalgebra::Matrix3::zeros(), nalgebra::Matrix3::zeros(), nalgebra::Matrix3::zeros());
        for row in 0..3 {
            for column in 0..3 {
                mass[(row, column)] = train.mt * centre[row] * centre[column];
                for (axle, turn) in j.iter().zip(heading) {
                    c[(row, column)] += 80_000.0 / u * axle[row] * axle[column];
                    k[(row, column)] -= 80_000.0 * axle[row] * turn[column];
                }
            }
        }
        mass += nalgebra::Matrix3::from_diagonal(&nalgebra::Vector3::new(train.m, train.i, train.it));
        let inverse = mass.try_inverse().unwrap();
        let mut state = Matrix6::zeros();
        state.fixed_view_mut::<3, 3>(0, 3).copy_from(&nalgebra::Matrix3::identity());
        state.fixed_view_mut::<3, 3>(3, 0).copy_from(&(-inverse * k));
        state.fixed_view_mut::<3, 3>(3, 3).copy_from(&(-inverse * c));
        let mut whole: Vec<_> = state.complex_eigenvalues().iter().copied().collect();
        whole.sort_by(|one, other| one.norm().total_cmp(&other.norm()));
        // A double root of zero comes out to the square root of rounding.
        assert!(whole[1].norm() < 1e-5, "{whole:?}");
        let mut solved = train.roots(u).unwrap().0;
        solved.sort_by(|one, other| one.re.hypot(one.im).total_cmp(&other.re.hypot(other.im)));
        for (one, other) in whole[2..].iter().zip(solved) {
            assert!((one.re - other.re).abs() < 1e-6, "{one} {other:?}");
            assert!((one.im.abs() - other.im.abs()).abs() < 1e-6, "{one} {other:?}");
        }
    }
}

/// Trap T13 of the trade's figures: too much on the nose makes the tow vehicle turn in and stay, without any swing. What
/// looks at damping alone finds that train better than one that is sound.
#[test]
fn trap_divergence_is_found_where_damping_is_good() {
    let nose_heavy = Train { e: 2.5, ..sample() };
    let u = 26.0;
    let roots = nose_heavy.roots(u).unwrap();
    let sound = sample().roots(u).unwrap();
    assert!(roots.yaw_mode().unwrap().damping() > sound.yaw_mode().unwrap().damping());
    assert!(sound.settles());
    assert!(!roots.settles(), "it diverges, and settles says so");
    let found = nose_heavy.critical().unwrap();
    assert_eq!(found.kind, Kind::Divergence);
    assert!(found.root.im == 0.0 && found.speed < u);
    assert!(nose_heavy.crossing(Kind::Snaking).is_none_or(|snaking| snaking.speed > found.speed));
}

/// The other half of it: with too little on the nose there is no real root that grows.
#[test]
fn trap_snaking_is_found_where_nothing_diverges() {
    let nose_light = Train { e: 2.9, ..sample() };
    assert_eq!(nose_light.critical().unwrap().kind, Kind::Snaking);
    assert!(nose_light.crossing(Kind::Divergence).is_none_or(|other| other.speed > 18.4));
}

#[test]
fn damping_is_what_it_is_asked_to_be_where_the_speed_says_so() {
    let train = Train { e: 2.8, ..sample() };
    let speed = train.damped_less(0.05).unwrap();
    assert!((train.roots(speed).unwrap().yaw_mode().unwrap().damping() - 0.05).abs() < 1e-9);
    assert!(speed < train.crossing(Kind::Snaking).unwrap().speed);
    let near = train.near(Sign::DampedLess(0.05), speed * 1.0003);
    assert!((near - speed).abs() < 1e-11);
    assert!(train.near(Sign::Grows(Kind::Snaking), 5.0).is_nan(), "nothing turns there");
}

#[test]
fn two_axles_at_one_place_are_one() {
    let one = sample();
    let two = Train { axles: vec![TrailerAxle { l: 3.0, c: 40_000.0 }; 2], ..sample() };
    let (one, two) = (one.roots(22.0).unwrap().yaw_mode(), two.roots(22.0).unwrap().yaw_mode());
    assert!((one.unwrap().damping() - two.unwrap().damping()).abs() < 1e-12);
    let apart = [TrailerAxle { l: 2.6, c: 40_000.0 }, TrailerAxle { l: 3.4, c: 40_000.0 }];
    let apart = Train { axles: apart.to_vec(), ..sample() }.roots(22.0).unwrap().yaw_mode().unwrap();
    assert!(apart.damping() > one.unwrap().damping(), "a spread group resists turning");
}

#[test]
fn what_cannot_be_solved_gives_nothing() {
    assert!(Train { m: 0.0, mt: 0.0, ..sample() }.roots(20.0).is_none());
    assert!(Train { it: f64::NAN, ..sample() }.roots(20.0).is_none());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    /// J. Appl. Mech. 24 (1957) 515, abstract: a trailer's damping falls as one over the speed. Exactly so behind a vehicle
    /// that nothing moves.
    #[test]
    fn damping_falls_as_one_over_speed(u in 5.0_f64..40.0, i in 3000.0_f64..30_000.0, l in 2.0_f64..4.0) {
        let axle = [TrailerAxle { l, c: 80_000.0 }];
        let ((slow, at), (fast, same)) = (heavy_vehicle(i, &axle, u), heavy_vehicle(i, &axle, 2.0 * u));
        prop_assert!((slow - 2.0 * fast).abs() < 1e-12 * slow);
        prop_assert!((at - same).abs() < 1e-12);
    }

    /// More yaw inertia never raises the speed at which it snakes.
    #[test]
    fn inertia_brings_snaking_sooner(it in 2500.0_f64..6000.0, more in 100.0_f64..3000.0) {
        let speed = |it: f64| {
            let found = Train { it, ..sample() }.crossing(Kind::Snaking);
            found.map_or(f64::INFINITY, |crossing| crossing.speed)
        };
        prop_assert!(speed(it + more) <= speed(it));
    }

    /// Root and crossing scale with mass, inertia and stiffness together.
    #[test]
    fn twice_of_everything_rolls_alike(u in 5.0_f64..60.0, times in 0.2_f64..5.0) {
        let one = sample();
        let other = Train {
            m: one.m * times, i: one.i * times, cf: one.cf * times, cr: one.cr * times, mt: one.mt * times,
            it: one.it * times, axles: vec![TrailerAxle { l: 3.0, c: 80_000.0 * times }], ..one.clone()
        };
        let mode = |train: &Train| train.roots(u).unwrap().yaw_mode().unwrap().damping();
        prop_assert!((mode(&one) - mode(&other)).abs() < 1e-9);
    }
}
