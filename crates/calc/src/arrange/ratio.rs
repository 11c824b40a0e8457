//! The best ratio of two sums over all arrangements, by Dinkelbach's method.

use super::sums::Sums;

/// Rounds of the method at most. It gains digits twice as fast each round; more than ten are not known to happen.
const MOST_ROUNDS: usize = 64;

/// What is to be greatest.
#[derive(Debug, Clone, Copy)]
pub(super) enum Goal {
    /// A sum.
    Sum(Sums),
    /// A sum over another that is positive in every arrangement.
    Ratio(Sums, Sums),
}

impl Goal {
    /// What the goal comes to for sums.
    pub(super) fn of(self, sums: Sums) -> f64 {
        match self {
            Self::Sum(goal) => sums.dot(goal),
            Self::Ratio(over, under) => sums.dot(over) / sums.dot(under),
        }
    }

    /// The goal whose most is this one's least, but for the sign.
    #[must_use]
    pub(super) fn reversed(self) -> Self {
        match self {
            Self::Sum(goal) => Self::Sum(goal.times(-1.0)),
            Self::Ratio(over, under) => Self::Ratio(over.times(-1.0), under),
        }
    }
}

/// The greatest ratio `over`/`under`, with what it is reached by. `best` gives the best choice for a linear aim, and
/// the choice's sums; `start` are the sums of any choice.
///
/// W. Dinkelbach, "On nonlinear fractional programming", Management Science 13 (1967), from memory: for the greatest
/// ratio q, and for no other, the most of `over` − q·`under` is zero. From a ratio that can be reached, the choice with
/// the most of `over` − q·`under` has a greater one, until there is none.
pub(super) fn greatest<C, E>(
    over: Sums,
    under: Sums,
    start: Sums,
    mut best: impl FnMut(Sums) -> Result<(C, Sums), E>,
) -> Result<Option<C>, E> {
    let goal = Goal::Ratio(over, under);
    let mut ratio = goal.of(start);
    for _ in 0..MOST_ROUNDS {
        let (choice, sums) = best(over.plus(under.times(-ratio)))?;
        let next = goal.of(sums);
        // Nothing is gained but by rounding.
        if next <= ratio + 1e-14 * ratio.abs().max(1.0) {
            return Ok(Some(choice));
        }
        ratio = next;
    }
    Ok(None)
}
