//! Figures of parts that are taken out: whether each comes out by a door, and how much of a lift it is.

use pintle_quantity::Dimension;
use pintle_spec::schema::assume::{self, space};
use pintle_spec::schema::item;
use pintle_spec::{Build, Item, Known, Zone};

use super::{GEOMETRY, TOPIC};
use crate::case::Case;
use crate::origin::Origin;
use crate::space::boxes::{Block, Hour, extent_at};
use crate::space::budget::Budget;
use crate::space::removal::{Found, Grid, budget, door_slack, doors, others, out_before, way_out, way_over};
use crate::space::{given, of_places};
use crate::working::{Outcome, Work, Working};

const TRIED: &str = "carried upright as fitted, past boxes in plan; a way that is tighter than the places tried is not found: where none is, try it by hand";
const LIFTED: &str =
    "51 lb is for the best posture; less when reaching, stooping or turning: use two people or wheels";

pub(super) fn workings(case: &Case<'_>) -> Vec<Working> {
    let build = case.build;
    let budget = budget();
    let mut all = Vec::new();
    let removable = |item: &Item| item.removable && item.zone == Zone::Inside;
    for (at, item) in build.items.iter().enumerate().filter(|(_, item)| removable(item)) {
        all.extend(taken_out(case, at, item, &budget));
    }
    for item in build.items.iter().filter(|item| item.removable) {
        all.push(
            Working::of(TOPIC, "lift_share", item.called(), "its weight, of what one person lifts", |work| {
                let m = work.take("m", item::MASS.doc, given(&item.record, &item::MASS))?;
                let l = work.assume("L", case, &assume::SPACE, &space::LIFT)?;
                let share = Ok(m.over(&l).as_share());
                work.step("n", "of what one person lifts", "m / L", share, Origin::derived("definition"))
            })
            .warned(LIFTED),
        );
    }
    all
}

fn taken_out(case: &Case<'_>, at: usize, item: &Item, budget: &Budget) -> Vec<Working> {
    let build = case.build;
    let of = || item.called();
    let grid = |work: &mut Work| -> Known<Grid> {
        Ok(Grid {
            stride: work.assume("s", case, &assume::SPACE, &space::STRIDE)?.quantity.si(),
            turn: work.assume("φ", case, &assume::SPACE, &space::TURN)?.quantity.si(),
        })
    };
    let slack = Working::of(
        TOPIC,
        "door_slack",
        of(),
        "room that the door it fits best leaves beside or above it; negative where it fits through none",
        |work| {
            let slack =
                slack_of(build, item).map(|slack| of_places(slack, Dimension::LENGTH, "in", build, &[item]));
            work.step("d", "room left", "max over doors of min(beside, above)", slack, GEOMETRY)
        },
    );
    // What one person lifts is also lifted over a bed; of anything heavier nobody should be asked that.
    let leaves = |gone: &[usize], work: &mut Work| -> Known<Option<Found>> {
        let grid = grid(work)?;
        let found = way_out(build, at, grid, gone, budget)?;
        if found.is_some() {
            return Ok(found);
        }
        let lift = work.assume("L", case, &assume::SPACE, &space::LIFT)?.quantity.si();
        if given(&item.record, &item::MASS)?.quantity.si() > lift {
            return Ok(None);
        }
        way_over(build, at, grid, gone, budget)
    };
    let found = leaves(&[], &mut Work::default());
    let out = found.clone();
    let mut all = vec![
        slack,
        Working::of(
            TOPIC,
            "comes_out",
            of(),
            "whether a way out by a door was found, all else aboard",
            |work| {
                grid(work)?;
                Ok(out?.is_some())
            },
        )
        .warned(TRIED),
    ];
    match found {
        Ok(Some(way)) => {
            let door = build.items.get(way.door).map_or_else(String::new, Item::called);
            let told = format!("{door}, in {} moves", way.moves);
            all.push(Working::of(TOPIC, "comes_out_by", of(), "the door that it comes out by", |_| Ok(told)));
        }
        Ok(None) => {
            let before = others(build, at);
            let last = leaves(&before, &mut Work::default());
            let comes_out = last.as_ref().is_ok_and(Option::is_some);
            all.push(
                Working::of(
                    TOPIC,
                    "comes_out_last",
                    of(),
                    "whether a way out was found with the other removable parts taken out before it",
                    |work| {
                        grid(work)?;
                        Ok(Outcome::Flag(last?.is_some()))
                    },
                )
                .warned(TRIED),
            );
            if comes_out {
                all.push(Working::of(
                    TOPIC,
                    "comes_out_after",
                    of(),
                    "parts that are taken out before it",
                    |work| {
                        grid(work)?;
                        let gone = out_before(before, |gone| {
                            matches!(leaves(gone, &mut Work::default()), Ok(Some(_)))
                        });
                        let called = |at: usize| build.items.get(at).map(Item::called);
                        Ok(Outcome::Texts(gone.into_iter().filter_map(called).collect()))
                    },
                ));
            }
        }
        Err(_) => {}
    }
    all
}

fn slack_of(build: &Build, item: &Item) -> Known<f64> {
    Ok(door_slack(&doors(build)?, &Block::of(extent_at(item, Hour::Road))?))
}
