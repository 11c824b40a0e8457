//! All arrangements in which nothing is partly full: how many there are, and where they are few, each of them.

use super::held::{Held, Spent};
use super::search::Choice;
use super::sums::{Amount, corners_in_order};

/// How many corner arrangements there are. Exact as long as a double holds the number.
pub(super) fn count(root: &Held<'_>, pieces: &[Vec<usize>]) -> Result<f64, Spent> {
    let mut held = root.clone();
    let mut number = ways(&mut held, 0, false);
    for piece in pieces {
        number *= count_piece(&mut held, piece, 0)?;
    }
    Ok(number)
}

fn count_piece(held: &mut Held<'_>, piece: &[usize], depth: usize) -> Result<f64, Spent> {
    held.spend(piece.len(), depth)?;
    let Some(pivot) = held.pivot(piece) else { return Ok(1.0) };
    let ordered = held.is_ordered();
    let mut number = 0.0;
    for aboard in [true, false] {
        let mark = held.mark();
        if held.decide(pivot, aboard) {
            let mut here = ways(held, mark, ordered);
            let rest = held.undecided(piece.iter().copied());
            for piece in held.pieces(&rest) {
                here *= count_piece(held, &piece, depth + 1)?;
            }
            number += here;
        }
        held.undo(mark);
    }
    Ok(number)
}

/// In how many ways the amounts of units just decided can be at their ends.
fn ways(held: &mut Held<'_>, mark: usize, ordered: bool) -> f64 {
    let mut ways = 1.0;
    for (at, aboard) in held.since(mark) {
        let unit = held.plan().units.get(at).filter(|unit| aboard && !unit.in_order);
        if unit.and_then(|unit| unit.amount).is_some_and(Amount::varies) {
            ways *= 2.0;
        }
    }
    if !ordered && held.is_ordered() {
        ways *= held.tanks_in_order().iter().fold(1.0, |ways, (_, tank)| ways + f64::from(tank.varies()));
    }
    ways
}

/// Every corner arrangement, those with more aboard and fuller first.
pub(super) fn all(root: &Held<'_>) -> Result<Vec<Choice>, Spent> {
    let mut held = root.clone();
    let mut found = Vec::new();
    list(&mut held, 0, &mut found)?;
    Ok(found)
}

fn list(held: &mut Held<'_>, from: usize, found: &mut Vec<Choice>) -> Result<(), Spent> {
    let units = held.plan().units.len();
    held.spend(1, 0)?;
    let Some(next) = (from..units).find(|at| held.of(*at).is_none()) else {
        found.extend(ends(held));
        return Ok(());
    };
    for aboard in [true, false] {
        let mark = held.mark();
        if held.decide(next, aboard) {
            list(held, next + 1, found)?;
        }
        held.undo(mark);
    }
    Ok(())
}

/// All ends of the amounts aboard.
fn ends(held: &mut Held<'_>) -> Vec<Choice> {
    let units = held.plan().units.iter().enumerate();
    let aboard: Vec<bool> = units.clone().map(|(at, _)| held.of(at).unwrap_or_default()).collect();
    let mut choices = vec![Choice { amounts: vec![0.0; aboard.len()], aboard }];
    let tanks = held.tanks_in_order();
    let fills: Vec<Amount> = tanks.iter().map(|(_, tank)| *tank).collect();
    if !fills.is_empty() {
        let corners = corners_in_order(&fills).into_iter();
        choices = corners
            .flat_map(|fills| {
                with(&choices, |choice| {
                    tanks.iter().zip(&fills).for_each(|((at, _), fill)| choice.set(*at, *fill));
                })
            })
            .collect();
    }
    for (at, unit) in units.filter(|(at, unit)| !unit.in_order && held.of(*at) == Some(true)) {
        if let Some(amount) = unit.amount {
            let mut both = with(&choices, |choice| choice.set(at, amount.to));
            if amount.varies() {
                both.extend(with(&choices, |choice| choice.set(at, amount.from)));
            }
            choices = both;
        }
    }
    choices
}

fn with(choices: &[Choice], change: impl Fn(&mut Choice)) -> Vec<Choice> {
    let mut changed = choices.to_vec();
    changed.iter_mut().for_each(change);
    changed
}
