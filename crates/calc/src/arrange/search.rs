//! The best arrangement for a linear aim: decide on one part, follow what that settles, let what is left fall apart into
//! pieces that have nothing to do with each other, and solve each.
//!
//! Exact: a branch is left out only when the best that it could promise is no better than what is found already.

use super::held::{Held, Spent};
use super::plan::{Plan, Unit};
use super::sums::{Aim, Sums, best_in_order};

/// What is aboard, and how much of what varies. Both count the units.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Choice {
    /// Whether each unit is aboard.
    pub(super) aboard: Vec<bool>,
    /// How much there is of each unit that varies; zero for others.
    pub(super) amounts: Vec<f64>,
}

impl Choice {
    /// Whether a unit is aboard.
    pub(super) fn has(&self, unit: usize) -> bool {
        self.aboard.get(unit).copied().unwrap_or_default()
    }

    /// How much there is of a unit.
    pub(super) fn amount(&self, unit: usize) -> f64 {
        self.amounts.get(unit).copied().unwrap_or_default()
    }

    /// Sets how much there is of a unit.
    pub(super) fn set(&mut self, unit: usize, amount: f64) {
        self.amounts.get_mut(unit).into_iter().for_each(|held| *held = amount);
    }

    /// What the units aboard add up to.
    pub(super) fn sums(&self, plan: &Plan) -> Sums {
        let units = plan.units.iter().enumerate().filter(|(at, _)| self.has(*at));
        units.fold(Sums::default(), |sums, (at, unit)| {
            let varied = unit.amount.map(|amount| amount.sums(self.amount(at)));
            sums.plus(unit.sums).plus(varied.unwrap_or_default())
        })
    }
}

/// How well an aim is served, and how much is aboard, or how little.
#[derive(Debug, Clone, Copy, Default)]
struct Score {
    value: f64,
    aboard: i64,
}

impl Score {
    fn plus(self, other: Self) -> Self {
        Self { value: self.value + other.value, aboard: self.aboard + other.aboard }
    }

    /// Whether this is better: by value, and where that is equal by how much is aboard.
    fn beats(self, other: Self, slack: f64) -> bool {
        let apart = self.value - other.value;
        apart > slack || (apart >= -slack && self.aboard > other.aboard)
    }
}

/// Units decided on.
#[derive(Debug, Clone, Default)]
struct Found {
    score: Score,
    decided: Vec<(usize, bool)>,
}

/// What a unit is worth.
#[derive(Debug, Clone, Copy, Default)]
struct Worth {
    /// By itself.
    own: f64,
    /// What varies of it, at its best; of a tank in order, if it had its own way.
    varied: f64,
    /// The amount for that.
    amount: f64,
    in_order: bool,
}

/// A search for the best arrangement.
#[derive(Debug)]
pub(super) struct Search<'p> {
    held: Held<'p>,
    aim: Aim,
    worths: Vec<Worth>,
}

/// The best choice for an aim, from what is decided already; nothing where there is none.
pub(super) fn best(root: &Held<'_>, pieces: &[Vec<usize>], aim: Aim) -> Result<Option<Choice>, Spent> {
    let units = root.plan().units.iter().enumerate();
    let aboard: Vec<bool> = units.clone().map(|(at, _)| root.of(at) == Some(true)).collect();
    let mut choice = Choice { amounts: vec![0.0; aboard.len()], aboard };
    for (at, amount) in units.filter_map(|(at, unit)| Some((at, unit.amount?))) {
        if choice.has(at) {
            choice.set(at, amount.best(aim).0);
        }
    }
    let mut search = Search::new(root.clone());
    let ordered = if root.is_ordered() { search.fills_in_order(aim) } else { Vec::new() };
    for (at, fill) in ordered {
        choice.set(at, fill);
    }
    for piece in pieces {
        let Some(aboard) = search.best_of(piece, aim)? else { return Ok(None) };
        for (at, amount) in aboard {
            choice.aboard.get_mut(at).into_iter().for_each(|here| *here = true);
            choice.set(at, amount);
        }
    }
    Ok(Some(choice))
}

fn worth(unit: &Unit, aim: Aim) -> Worth {
    let (amount, varied) = unit.amount.map_or((0.0, 0.0), |amount| amount.best(aim));
    Worth { own: unit.sums.dot(aim.of), varied, amount, in_order: unit.in_order }
}

impl<'p> Search<'p> {
    /// A search from what is decided already.
    pub(super) fn new(root: Held<'p>) -> Self {
        let aim = Aim { of: Sums::default(), slack: 0.0, fullest: true };
        let worths = vec![Worth::default(); root.plan().units.len()];
        Self { held: root, aim, worths }
    }

    /// Units of a piece that are aboard where an aim is served best, each with how much there is of it; nothing where
    /// the piece cannot be. Of the tanks in order all that are aboard, where the piece has any of them.
    pub(super) fn best_of(&mut self, piece: &[usize], aim: Aim) -> Result<Option<Vec<(usize, f64)>>, Spent> {
        let plan = self.held.plan();
        self.aim = aim;
        let ordered = piece.iter().any(|at| plan.units.get(*at).is_some_and(|unit| unit.in_order));
        let order = plan.order.iter().filter(|_| ordered);
        for at in piece.iter().chain(order) {
            if let (Some(worth), Some(unit)) = (self.worths.get_mut(*at), plan.units.get(*at)) {
                *worth = self::worth(unit, aim);
            }
        }
        let Some(found) = self.best(piece, 0)? else { return Ok(None) };
        let mark = self.held.mark();
        let aboard = found.decided.iter().filter(|(_, aboard)| *aboard);
        let mut aboard: Vec<(usize, f64)> = aboard.map(|(at, _)| (*at, self.worth(*at).amount)).collect();
        if ordered {
            found.decided.iter().for_each(|(at, aboard)| {
                self.held.decide(*at, *aboard);
            });
            aboard.retain(|(at, _)| !self.worth(*at).in_order);
            aboard.extend(self.fills_in_order(aim));
            self.held.undo(mark);
        }
        Ok(Some(aboard))
    }

    fn fills_in_order(&mut self, aim: Aim) -> Vec<(usize, f64)> {
        let (tanks, amounts): (Vec<usize>, Vec<_>) = self.held.tanks_in_order().into_iter().unzip();
        tanks.into_iter().zip(best_in_order(&amounts, aim).0).collect()
    }

    fn worth(&self, unit: usize) -> Worth {
        self.worths.get(unit).copied().unwrap_or_default()
    }

    fn best(&mut self, piece: &[usize], depth: usize) -> Result<Option<Found>, Spent> {
        self.held.spend(piece.len(), depth)?;
        let Some(pivot) = self.held.pivot(piece) else { return Ok(Some(Found::default())) };
        let ordered = self.held.is_ordered();
        let mut best: Option<Found> = None;
        for aboard in [self.aim.fullest, !self.aim.fullest] {
            let mark = self.held.mark();
            if self.held.decide(pivot, aboard) {
                let other = self.follow(piece, mark, ordered, best.as_ref(), depth)?;
                best = other.or(best);
            }
            self.held.undo(mark);
        }
        Ok(best)
    }

    /// The best of a piece once one of its units is decided, where it is better than what is `known`.
    fn follow(
        &mut self,
        piece: &[usize],
        mark: usize,
        ordered: bool,
        known: Option<&Found>,
        depth: usize,
    ) -> Result<Option<Found>, Spent> {
        let better = |score: Score, slack: f64| known.is_none_or(|known| score.beats(known.score, slack));
        let decided = self.held.since(mark);
        let rest = self.held.undecided(piece.iter().copied());
        let mut score = self.decided(&decided, ordered);
        if !better(score.plus(self.promise(&rest)), self.aim.slack) {
            return Ok(None);
        }
        let mut found = Found { score, decided };
        for piece in self.held.pieces(&rest) {
            let Some(part) = self.best(&piece, depth + 1)? else { return Ok(None) };
            score = score.plus(part.score);
            found.decided.extend(part.decided);
        }
        found.score = score;
        Ok(Some(found).filter(|found| better(found.score, self.aim.slack)))
    }

    /// What units just decided are worth. Tanks in order count once it is known which of them are aboard.
    fn decided(&mut self, decided: &[(usize, bool)], ordered: bool) -> Score {
        let mut score = Score::default();
        for (at, _) in decided.iter().filter(|(_, aboard)| *aboard) {
            let worth = self.worth(*at);
            score.value += worth.own + if worth.in_order { 0.0 } else { worth.varied };
            score.aboard += if self.aim.fullest { 1 } else { -1 };
        }
        if !ordered && self.held.is_ordered() {
            let tanks: Vec<_> = self.held.tanks_in_order().into_iter().map(|(_, tank)| tank).collect();
            score.value += best_in_order(&tanks, self.aim).1;
        }
        score
    }

    /// The most that the rest of a piece can be worth: each unit by itself, whatever hangs on it.
    fn promise(&mut self, rest: &[usize]) -> Score {
        let mut promise = Score::default();
        for at in rest {
            let worth = self.worth(*at);
            promise.value += (worth.own + worth.varied).max(0.0);
            promise.aboard += i64::from(self.aim.fullest);
        }
        // Tanks in order that are aboard, but do not count before it is decided which others are.
        if rest.iter().any(|at| self.worth(*at).in_order) {
            let aboard = self.held.tanks_in_order();
            promise.value += aboard.iter().map(|(at, _)| self.worth(*at).varied).sum::<f64>();
        }
        promise
    }
}
