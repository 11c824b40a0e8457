use super::{OnTwoPosts, Patch, centre_deflection, reactions, spread_deflection};
use crate::checks::{self, Given};
use crate::roof::ladder;
use crate::roof::section::{Section, angle, channel, hat, rectangular_tube, round_tube};
use proptest::prelude::*;

fn section(given: &Given<'_>) -> Section {
    let si = |name| given.si(name);
    assert_eq!(given.has("brim"), given.word("shape") == "hat", "only a hat has a brim");
    match given.word("shape") {
        "rectangular tube" => rectangular_tube(si("b"), si("h"), si("t")),
        "round tube" => round_tube(si("h"), si("t")),
        "angle" => angle(si("b"), si("h"), si("t")),
        "channel" => channel(si("b"), si("h"), si("t")),
        "hat" => hat(si("b"), si("h"), si("t"), si("brim")),
        other => panic!("{other} is no shape"),
    }
    .unwrap()
}

#[test]
fn checks_from_outside() {
    checks::run("roof", |of, given| {
        let si = |name| given.si(name);
        let tube = || rectangular_tube(si("b"), si("h"), si("t")).unwrap();
        match of {
            "centre_deflection" => vec![centre_deflection(si("P"), si("L"), si("E") * si("I"))],
            "tube_deflection" => vec![centre_deflection(si("P"), si("L"), si("E") * tube().inertia)],
            "tube_spread_deflection" => vec![spread_deflection(si("P"), si("L"), si("E") * tube().inertia)],
            "tube_stress" => {
                let beam = OnTwoPosts::new(si("L"), vec![(si("L") / 2.0, si("P"))]).unwrap();
                vec![beam.most_moment() / tube().modulus()]
            }
            "section" => {
                let found = section(given);
                vec![found.area, found.inertia, found.modulus()]
            }
            "reactions" => {
                let ends = given.list("from").into_iter().zip(given.list("to"));
                let patches = ends.zip(given.list("load"));
                let patches: Vec<Patch> =
                    patches.map(|((from, to), load)| Patch { from, to, load }).collect();
                reactions(&given.list("supports"), &patches).unwrap()
            }
            "two_posts" => {
                let loads = given.list("at").into_iter().zip(given.list("load")).collect();
                let beam = OnTwoPosts::new(si("L"), loads).unwrap();
                vec![beam.most_moment(), beam.most_deflection(si("E") * si("I"))]
            }
            "ladder" => vec![ladder::foot_out(si("working")), ladder::reach(si("working"))],
            "ladder_angle" => {
                let working = si("working");
                vec![ladder::angle(ladder::reach(working), working).unwrap()]
            }
            "ladder_needed" => vec![ladder::needed(si("height"))],
            "ladder_with_landing" => vec![ladder::needed(si("height")) + si("above")],
            "ladder_strength" => vec![ladder::strength(si("person"), si("times"))],
            other => panic!("nothing is called `{other}`"),
        }
    });
}

/// A public page prints 4.7 mm for 5 kN in the middle of 3 m, a third of what is true.
#[test]
fn trap_the_wrong_beam_example_is_not_copied() {
    let found = centre_deflection(5_000.0, 3.0, 200e9 * 1e-6);
    assert!((found - 0.014_062_5).abs() < 1e-12);
    assert!((found - 0.0047).abs() > 0.009);
}

#[test]
fn a_beam_needs_two_supports_in_a_row() {
    assert!(reactions(&[], &[]).is_none());
    assert!(reactions(&[1.0], &[Patch::point(1.0, 1.0)]).is_none());
    assert!(reactions(&[1.0, 1.0], &[]).is_none());
    assert!(reactions(&[2.0, 1.0], &[]).is_none());
    assert!(reactions(&[0.0, f64::NAN], &[]).is_none());
    assert!(OnTwoPosts::new(1.0, vec![(1.1, 1.0)]).is_none());
    assert!(OnTwoPosts::new(0.0, vec![]).is_none());
}

#[test]
fn a_load_on_a_support_goes_into_it_alone() {
    for (at, expected) in [(0.0, [8.0, 0.0, 0.0]), (1.0, [0.0, 8.0, 0.0]), (3.0, [0.0, 0.0, 8.0])] {
        let found = reactions(&[0.0, 1.0, 3.0], &[Patch::point(at, 8.0)]).unwrap();
        for (found, expected) in found.iter().zip(expected) {
            assert!((found - expected).abs() < 1e-12, "{at}: {found}");
        }
    }
}

fn supports() -> impl Strategy<Value = Vec<f64>> {
    prop::collection::vec(0.2..2.0_f64, 1..6).prop_map(|gaps| {
        let mut at = 0.3;
        let mut supports = vec![at];
        for gap in gaps {
            at += gap;
            supports.push(at);
        }
        supports
    })
}

fn patches() -> impl Strategy<Value = Vec<Patch>> {
    let patch = (0.0..8.0_f64, 0.0..3.0_f64, 1.0..100.0_f64);
    let patch = patch.prop_map(|(from, length, load)| Patch { from, to: from + length, load });
    prop::collection::vec(patch, 1..5)
}

proptest! {
    /// Statics: what presses down is carried, and turns nothing.
    #[test]
    fn reactions_balance_forces_and_moments(supports in supports(), patches in patches()) {
        let found = reactions(&supports, &patches).unwrap();
        let load: f64 = patches.iter().map(|patch| patch.load).sum();
        let moment: f64 = patches.iter().map(|patch| patch.load * (patch.from + patch.to) / 2.0).sum();
        prop_assert!((found.iter().sum::<f64>() - load).abs() < 1e-9 * load);
        let held: f64 = supports.iter().zip(&found).map(|(at, found)| at * found).sum();
        prop_assert!((held - moment).abs() < 1e-8 * (moment.abs() + load));
    }

    /// Seen from the other end, the same supports carry the same.
    #[test]
    fn reactions_are_the_same_from_the_other_end(supports in supports(), patches in patches()) {
        let found = reactions(&supports, &patches).unwrap();
        let turned: Vec<f64> = supports.iter().rev().map(|at| 20.0 - at).collect();
        let patches: Vec<Patch> = patches.iter().map(|patch| {
            Patch { from: 20.0 - patch.to, to: 20.0 - patch.from, load: patch.load }
        }).collect();
        let back = reactions(&turned, &patches).unwrap();
        let load: f64 = patches.iter().map(|patch| patch.load).sum();
        for (one, other) in found.iter().zip(back.iter().rev()) {
            prop_assert!((one - other).abs() < 1e-7 * load, "{found:?} {back:?}");
        }
    }

    /// A beam on two posts bends no more than with all of its load in the middle, and somewhere at least as much as there.
    #[test]
    fn two_posts_bend_least_under_loads_at_the_ends(a in 0.05..0.95_f64, b in 0.05..0.95_f64, p in 1.0..9.0_f64, r in 1.0..9.0_f64) {
        let beam = OnTwoPosts::new(1.0, vec![(a, p), (b, r)]).unwrap();
        let most = beam.most_deflection(1.0);
        prop_assert!(most <= centre_deflection(p + r, 1.0, 1.0) * (1.0 + 1e-12));
        for step in 0..=50 {
            prop_assert!(beam.deflection_at(f64::from(step) / 50.0, 1.0) <= most * (1.0 + 1e-9));
        }
        prop_assert!(beam.most_moment() <= (p + r) / 4.0 * (1.0 + 1e-12));
    }
}
