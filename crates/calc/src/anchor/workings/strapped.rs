//! Straps over the top, which hold by friction alone.

use std::f64::consts::FRAC_PI_2;

use pintle_quantity::{Dimension, Quantity};
use pintle_spec::schema::anchors::{self, strap};
use pintle_spec::schema::item;
use pintle_spec::{Known, Record};

use super::figure;
use super::pulled::{coefficient, friction};
use crate::anchor::chain::{force, number};
use crate::anchor::europe::{lashings, pressed_down, safety};
use crate::anchor::forces::{Against, Way};
use crate::anchor::held::Held;
use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::{given, sum};
use crate::working::{Work, Working};

const KEYS: [(Way, &str, &str); 3] = [
    (Way::Ahead, "lashings_ahead", "how many such straps keep it from sliding ahead by friction alone"),
    (Way::Aft, "lashings_aft", "how many such straps keep it from sliding aft by friction alone"),
    (Way::Aside, "lashings_aside", "how many such straps keep it from sliding aside by friction alone"),
];

/// Straps that run across and state how hard they are drawn.
fn drawn<'b>(held: &Held<'b>) -> Vec<&'b Record> {
    let anchors = held.body.record.table(&item::ANCHORS);
    let straps = anchors.map(|anchors| anchors.tables(&anchors::STRAPS)).unwrap_or_default();
    let across = |strap: &&Record| strap.word(&strap::RUNS).is_some_and(|word| word.value == "across");
    straps.iter().filter(across).filter(|strap| strap.value(strap::TENSION.key).is_some()).collect()
}

/// Notes the angle of a strap's legs to the floor: upright where none is given would be a guess, so it is asked for.
fn angle(work: &mut Work, strap: &Record) -> Known<Figure> {
    let angle = given(strap, &strap::ANGLE)?;
    let upright = Figure::constant(Quantity::from_si(FRAC_PI_2, Dimension::ANGLE));
    let angle = crate::anchor::held::lesser(&angle, &upright)?;
    work.take("α", "angle of its legs to the floor", Ok(angle))
}

pub(super) fn workings(case: &Case<'_>, held: &Held<'_>) -> Vec<Working> {
    let straps = drawn(held);
    let Some(first) = straps.first().copied() else { return Vec::new() };
    let mut all =
        vec![figure(held, "pressed_down", "what friction holds under straps drawn over the top", |work| {
            let w = held.weight(work)?;
            let mu = friction(work, case, held)?;
            let mut presses = Vec::new();
            for strap in &straps {
                let pull = work.take("F", "pull in each leg", Ok(force(&given(strap, &strap::TENSION)?)))?;
                let alpha = angle(work, strap)?;
                let legs = 2.0 * f64::from(strap.need_count(&strap::COUNT)?.value);
                let legs = work.know("n", "legs", number(legs), Origin::WRITTEN);
                presses.push(Figure::by(Dimension::FORCE, [&pull, &alpha, &legs], |[f, alpha, n]| {
                    n * f * alpha.sin()
                }));
            }
            let press = sum(Dimension::FORCE, presses)?;
            let held = Figure::by(Dimension::FORCE, [&mu, &w, &press], |[mu, w, press]| {
                pressed_down(mu, w, 1.0, press)
            });
            let origin = Origin::published("tis-gdv.de, load securing handbook, 4.3 (seen)");
            work.step(
                "R",
                "what friction holds",
                "μ · (W + Σ n · F · sin α)",
                Ok(held.shown_in("lbf")),
                origin,
            )
        })];
    all.extend(KEYS.into_iter().map(|(way, key, says)| {
        figure(held, key, says, |work| {
            let w = held.weight(work)?;
            let c = coefficient(work, way, Against::Breaking);
            let mu = friction(work, case, held)?;
            let f = work.take("F", "pull in each leg", Ok(force(&given(first, &strap::TENSION)?)))?;
            let alpha = angle(work, first)?;
            let fs = safety(way == Way::Ahead);
            let origin = Origin::memory("EN 12195-1:2010");
            let fs = work.know("fs", "safety factor", number(fs), origin.clone());
            let n =
                Figure::by(Dimension::NONE, [&c, &mu, &w, &f, &alpha, &fs], |[c, mu, w, f, alpha, fs]| {
                    lashings(c, mu, w, f, alpha, fs)
                });
            work.step(
                "n",
                "straps, to be rounded up",
                "(c − μ) · W · fs / (2 · μ · F · sin α)",
                Ok(n),
                origin,
            )
        })
    }));
    all
}
