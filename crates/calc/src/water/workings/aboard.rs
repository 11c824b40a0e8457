//! What the water of a state weighs, and where it runs to on the road.

use pintle_quantity::Dimension;
use pintle_spec::schema::assume;
use pintle_spec::schema::assume::water as assumed;
use pintle_spec::schema::trailer;
use pintle_spec::{Known, State, Use};

use super::{NO_WAVES, density};
use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::{alike, given, sum};
use crate::water::road::{Tank, filled, share_with, tanks_of, tongue_by_slosh, worst_change};
use crate::weights::Weights;
use crate::working::{Outcome, Work, Working};

pub(super) fn workings(case: &Case<'_>, state: &State) -> Vec<Working> {
    let tanks = tanks_of(case.build, state);
    let called = format!("state `{}`", state.name.value);
    let mut all =
        vec![Working::of("water", "water_aboard", called.clone(), "weight of all water aboard", |work| {
            let mut weights = Vec::new();
            for tank in &tanks {
                let tank = tank.as_ref().map_err(Clone::clone)?;
                let what = format!("water in {}", tank.body.called());
                weights.push(work.step("m", what, "V · fill · 8.34 lb/gal", tank.water(), density())?);
            }
            sum(Dimension::MASS, weights)
        })];
    if state.used == Use::Road {
        for tank in tanks.iter().flatten() {
            all.extend(of_tank(case, state, tank));
        }
        all.extend(running(case, state, &called, &tanks));
        all.extend(all_full(case, state, &called));
    }
    all
}

fn of_tank(case: &Case<'_>, state: &State, tank: &Tank<'_>) -> Vec<Working> {
    let of = format!("{} in state `{}`", tank.body.called(), state.name.value);
    let swing = Working::of(
        "water",
        "tank_swing",
        of.clone(),
        "tongue share with it full less with it empty",
        |work| {
            let share = |fill| share_with(case.build, state, tank.item, fill);
            let origin = || Origin::derived("statics, all else as in the state");
            let full = work.step("f", "tongue share, it full", "T / W", share(1.0), origin())?;
            let empty = work.step("e", "tongue share, it empty", "T / W", share(0.0), origin())?;
            let swing = alike(full.minus(&empty)).map(|swing| swing.as_share());
            work.step("d", "difference", "f − e", swing, origin())
        },
    );
    let mut all = vec![swing];
    if tank.is_part_full() {
        let shifted = |key, says, up: bool| {
            Working::of("water", key, of.clone(), says, move |work| {
                let s = work.assume("s", case, &assume::WATER, &assumed::SLOSH)?;
                work.take("f", "how full it is", Ok(tank.fill.clone()))?;
                let moved = tank.shift(&s).map(|(along, rise)| if up { rise } else { along });
                let formula = if up { "s² L² / (24 h)" } else { "s L² / (12 h)" };
                let origin = Origin::derived(
                    "centroid of the tilted water; the formula while floor and roof leave the surface free, else that of the polygon",
                );
                work.step("Δ", "shift of the water's centre", formula, moved, origin)
            })
            .warned(NO_WAVES)
        };
        all.push(shifted("slosh_shift", "how far its water runs fore or aft", false));
        all.push(shifted("slosh_rise", "how far its water's centre rises as it runs", true));
    }
    all
}

/// Tongue share with all part-full tanks run ahead, and aft, and by how much it changes.
fn running(case: &Case<'_>, state: &State, called: &str, tanks: &[Known<Tank<'_>>]) -> Vec<Working> {
    let none = || "every tank aboard is full or empty".to_owned();
    let still = tanks.iter().all(|tank| tank.as_ref().is_ok_and(|tank| !tank.is_part_full()));
    let change = |work: &mut Work| -> Known<(Figure, Figure)> {
        let tanks: Vec<Tank<'_>> = tanks.iter().cloned().collect::<Known<_>>()?;
        let s = work.assume("s", case, &assume::WATER, &assumed::SLOSH)?;
        let weights = Weights::of(case.build, state);
        let origin = || Origin::derived("statics: moments about the axle");
        let moved = tongue_by_slosh(case.build, &tanks, &s);
        let moved = work.step(
            "ΔT",
            "weight that the water's shift puts on the tongue",
            "Σ m Δx / L",
            moved,
            origin(),
        )?;
        let w = work.take("W", "gross weight", weights.gross())?;
        let share = work.step("t", "tongue share, water level", "T / W", weights.tongue_share(), origin())?;
        let change = Ok(moved.over(&w).as_share());
        Ok((share, work.step("Δt", "change of the tongue share", "ΔT / W", change, origin())?))
    };
    let run = |key, says, ahead: Option<bool>| {
        Working::of("water", key, called, says, |work| {
            if still {
                return Ok(Outcome::None(none()));
            }
            let (share, change) = change(work)?;
            let found = match ahead {
                Some(true) => alike(share.plus(&change))?,
                Some(false) => alike(share.minus(&change))?,
                None => return Ok(Outcome::Figure(change)),
            };
            Ok(Outcome::Figure(found.as_share()))
        })
        .warned(NO_WAVES)
    };
    let worst = Working::of(
        "water",
        "slosh_worst",
        called,
        "greatest change of the tongue share, every tank at its worst fill",
        |work| {
            let s = work.assume("s", case, &assume::WATER, &assumed::SLOSH)?;
            let change = worst_change(case.build, state, &s);
            let origin = Origin::derived(
                "statics; each tank at the fill nearest to one half that it may have on the road",
            );
            work.step("Δt", "change either way", "Σ m Δx / (L W)", change, origin)
        },
    );
    vec![
        worst.warned(NO_WAVES),
        run("slosh_change", "change of the tongue share when part-full tanks run ahead", None),
        run("share_ahead", "tongue share with part-full tanks run ahead, slowing down", Some(true)),
        run("share_aft", "tongue share with part-full tanks run aft, speeding up", Some(false)),
    ]
}

fn all_full(case: &Case<'_>, state: &State, called: &str) -> [Working; 2] {
    let gross = || filled(case.build, state, |_| Some(1.0)).gross();
    let full = |work: &mut Work| {
        work.step("W", "gross weight, every tank full", "Σ m", gross(), Origin::derived("sum"))
    };
    [
        Working::of("water", "gross_all_full", called, "gross weight with every tank full", full),
        Working::of("water", "left_all_full", called, "what GVWR leaves with every tank full", |work| {
            let w = full(work)?;
            let rating = work.take("R", "GVWR", given(&case.build.trailer, &trailer::GVWR))?;
            work.step("l", "left", "R − W", alike(rating.minus(&w)), Origin::derived("difference"))
        }),
    ]
}
