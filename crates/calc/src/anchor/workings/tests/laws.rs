//! What holds for every part.

use proptest::prelude::*;

use super::builds::{Found, part};
use crate::anchor::bolts::used;
use crate::anchor::forces::tiedowns;
use crate::anchor::tipping::far_pull;
use crate::space::trial::{in_metric, mirrored};

fn anchors(rows: u32, across: f64) -> String {
    format!(
        "cg = {{ left = \"8 in\" }}\n[item.anchors]\ncount = {}\nfixed_to = \"frame\"\nbolt = {{ size = \"3/8-16\", grade = \"5\" }}\n\
         base = {{ long = \"40 in\", across = \"{across} in\", rows_across = {rows} }}\n",
        2 * rows
    )
}

const KEYS: &[&str] = &[
    "weight",
    "pull_ahead_breaking",
    "pull_aside_working",
    "slide_aft",
    "strength_working",
    "aggregate",
    "count_needed",
    "steady_aside",
    "tilt_pull_aside",
    "anchor_load_aside_breaking",
    "bolt_used_aside_breaking",
    "torque",
];

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Units make no difference, nor does a mirror, and what pulls grows as the weight does.
    #[test]
    fn metric_mirror_and_scale(mass in 20_u32..900, rows in 2_u32..5, across in 4.0..19.0_f64) {
        let written = part("module", &format!("{mass} lb"), &anchors(rows, across));
        let measure = |spec: &str| {
            let found = Found::of(spec);
            KEYS.iter().map(|key| found.si(key)).collect::<Vec<f64>>()
        };
        let found = measure(&written);
        let seen = mirrored(&written).replace("cg = { right", "cg = { left").replace("left = \"8 in\"", "left = \"12 in\"");
        for same in [measure(&in_metric(&written)), measure(&seen)] {
            for ((key, one), other) in KEYS.iter().zip(&found).zip(same) {
                prop_assert!((one - other).abs() <= 1e-9 * one.abs().max(1.0), "{key}: {one}, {other}");
            }
        }
        let twice = measure(&written.replace(&format!("\"{mass} lb\""), &format!("\"{} lb\"", 2 * mass)));
        for (key, times) in [("pull_ahead_breaking", 2.0), ("tilt_pull_aside", 2.0), ("bolt_used_aside_breaking", 4.0), ("strength_working", 1.0)] {
            let at = KEYS.iter().position(|known| *known == key).unwrap();
            prop_assert!((twice[at] - times * found[at]).abs() <= 1e-9 * twice[at].abs().max(1.0), "{key}");
        }
    }

    /// The pulls of all anchors hold the moment: Σ n · T · s / s₁ · s = M.
    #[test]
    fn pulls_of_the_rows_make_up_the_moment(m in 1.0..900.0_f64, size in 0.3..2.0_f64, share in 0.1..1.0_f64, rows in 2_u32..6, each in 1_u32..4) {
        let spread = share * size;
        let far = far_pull(m, size, spread, rows, f64::from(each));
        let first = (size - spread) / 2.0;
        let distance = |row: u32| first + spread * f64::from(row) / f64::from(rows - 1);
        let held: f64 = (0..rows).map(|row| f64::from(each) * far * distance(row) / distance(rows - 1) * distance(row)).sum();
        prop_assert!((held - m).abs() < 1e-9 * m);
        // No row nearer the edge holds so much with less.
        prop_assert!(far <= m / (f64::from(each) * distance(rows - 1)) + 1e-9);
    }

    #[test]
    fn more_length_and_mass_need_no_fewer(length in 0.1..20.0_f64, more in 0.0..5.0_f64, mass in 1.0..2000.0_f64) {
        for blocked in [false, true] {
            prop_assert!(tiedowns(length + more, mass, blocked) >= tiedowns(length, mass, blocked));
            prop_assert!(tiedowns(length, mass + 100.0 * more, blocked) >= tiedowns(length, mass, blocked));
        }
        prop_assert!(tiedowns(length, mass, true) <= tiedowns(length, mass, false));
    }

    #[test]
    fn a_bolt_is_used_up_by_either_alone(t in 0.0..9.0_f64, v in 0.0..9.0_f64) {
        prop_assert!(used(t, v, 5.0, 3.0) >= used(t, 0.0, 5.0, 3.0).max(used(0.0, v, 5.0, 3.0)));
        prop_assert!((used(5.0, 0.0, 5.0, 3.0) - 1.0).abs() < 1e-12 && (used(0.0, 3.0, 5.0, 3.0) - 1.0).abs() < 1e-12);
    }
}
