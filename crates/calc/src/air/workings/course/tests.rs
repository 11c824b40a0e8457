//! The course of a night against a worked example, against stepping through it, and against the figures that rules ask for.

use super::*;
use crate::air::{WORK_LIMIT, workings};
use crate::gas::tests::builds::{defaults, one};
use crate::space::trial::{FLAT, build};

/// Two sleepers at 0.0036 L/s each, 4 L/s, 8.5 m³ and 420 ppm outside: the worked example of [`share_after`].
fn example() -> Night {
    Night {
        sleepers: 2.0,
        bedtime: 420e-6,
        outside: 420e-6,
        given_off: 0.0072e-3,
        drawn: 4e-3,
        volume: 8.5,
        length: Quantity::from_si(8.0 * 3600.0, Dimension::TIME),
    }
}

#[test]
fn the_worked_example() {
    let night = example();
    assert!((night.vented(3600.0) * 1e6 - 1889.2).abs() < 0.1);
    assert!((night.vented(360_000.0) * 1e6 - 2220.0).abs() < 0.1);
    assert!((night.shut_until(5000e-6).si() / 3600.0 - 1.502).abs() < 5e-4);
    // Shut, it rises by G/V all night.
    assert!((night.shut(28_800.0) - (420e-6 + 0.0072e-3 / 8.5 * 28_800.0)).abs() < 1e-12);
}

#[test]
fn small_steps_come_to_the_same() {
    let night = Night { bedtime: 6000e-6, ..example() };
    // Heun's steps of a second each, through V dC/dt = G − Q(C − Co).
    for (q, course) in [(night.drawn, Night::vented as fn(&Night, f64) -> f64), (0.0, Night::shut)] {
        let slope = |c: f64| (night.given_off - q * (c - night.outside)) / night.volume;
        let (mut c, mut sum) = (night.bedtime, 0.0);
        for second in 0..28_800_u32 {
            let there = c + slope(c);
            let next = c + f64::midpoint(slope(c), slope(there));
            sum += f64::midpoint(c, next);
            c = next;
            if second % 3600 == 3599 {
                let found = course(&night, f64::from(second + 1));
                assert!((found - c).abs() < 1e-10, "{found} after {second} s, not {c}");
            }
        }
        let mean = night.means()[usize::from(q == 0.0)];
        assert!((mean - sum / 28_800.0).abs() < 1e-9, "{mean}");
    }
}

const NIGHT: &str = "\n[[berth]]\ntag = \"bed\"\nlength = \"75 in\"\nwidth = \"30 in\"\nheight = \"20 in\"\n\
                     at = { front = \"0 in\", left = \"0 in\" }\n\
                     [[state]]\nname = \"night\"\nuse = \"camp\"\npeople = [{ berth = \"bed\", count = 2 }]\n\
                     [[state]]\nname = \"day\"\nuse = \"camp\"\n\
                     [[state]]\nname = \"road\"\nuse = \"road\"\n";
const VENTS: &str = "\n[[vent]]\ntag = \"low\"\nzone = \"floor\"\narea = \"10 in²\"\nclosable = false\nheight = \"1 in\"\n\
                     [[vent]]\ntag = \"top\"\nzone = \"roof\"\narea = \"20 in²\"\nclosable = false\nheight = \"4 in\"\n";

#[test]
fn courses_end_where_the_figures_say() {
    for vents in ["", VENTS] {
        let trial = build(FLAT, &format!("{NIGHT}{vents}"));
        let case = Case { build: &trial, assumptions: &defaults(), places: &crate::place::Places::default() };
        let all = nights(&case);
        let names: Vec<&str> = all.iter().map(|(name, _)| name.as_str()).collect();
        assert_eq!(names, ["night", "day"], "the road is no night");
        assert_eq!(all[1].1, Ok(None), "nobody sleeps there by day");
        let night = all[0].1.clone().unwrap().unwrap();
        let figures = workings(&case);
        let of = |key: &str| one(&figures, key, "state `night`").figure().unwrap().quantity.si();
        let end = night.length.si();
        assert!((night.vented(end) - of("co2_morning")).abs() < 1e-15);
        assert!((night.means()[0] - of("co2_mean")).abs() < 1e-15);
        assert!((night.shut_until(WORK_LIMIT).si() - of("shut_time")).abs() < 1e-9);
        assert_eq!(night.drawn > 0.0, !vents.is_empty());
    }
}

#[test]
fn what_is_missing_is_named() {
    let trial = build(FLAT, &format!("{NIGHT}{}", VENTS.replace("area = \"20 in²\"\n", "")));
    let case = Case { build: &trial, assumptions: &defaults(), places: &crate::place::Places::default() };
    assert_eq!(nights(&case)[0].1.as_ref().unwrap_err().what, "`area` of vent `top`");
}
