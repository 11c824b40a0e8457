//! What is decided about what is aboard, and what follows from each decision.

use std::collections::BTreeMap;

use super::plan::Plan;
use super::sums::Amount;

/// The search was given up: more was to be looked at than is allowed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Spent;

/// Units that may be looked at in one search, counting each time that one is.
pub(super) const MOST_WORK: usize = 1 << 22;

/// Decisions that may hang on each other.
const DEEPEST: usize = 256;

/// How many of several units are aboard and at home.
#[derive(Debug, Clone, Copy, Default)]
struct Tally {
    aboard: usize,
    home: usize,
}

impl Tally {
    fn count(&mut self, aboard: bool) -> &mut usize {
        if aboard { &mut self.aboard } else { &mut self.home }
    }
}

/// What is decided so far.
#[derive(Debug, Clone)]
pub(super) struct Held<'p> {
    plan: &'p Plan,
    aboard: Vec<Option<bool>>,
    /// Units in the order in which they were decided.
    trail: Vec<usize>,
    /// Of each group, its members.
    groups: Vec<Tally>,
    /// Of each unit that follows, those that it follows.
    followed: Vec<Tally>,
    /// How many of the tanks in order are not decided.
    unordered: usize,
    /// Which walk came by a unit, a group, or the tanks in order last.
    passed: Vec<usize>,
    walk: usize,
    /// What may still be looked at.
    left: usize,
}

impl<'p> Held<'p> {
    /// What can never be at home, and `pinned`, are aboard; nothing if that cannot be.
    pub(super) fn root(plan: &'p Plan, pinned: &[usize]) -> Option<Self> {
        let (units, groups) = (plan.units.len(), plan.groups.len());
        let mut root = Self {
            plan,
            aboard: vec![None; units],
            trail: Vec::new(),
            groups: vec![Tally::default(); groups],
            followed: vec![Tally::default(); units],
            unordered: plan.order.len(),
            passed: vec![0; units + groups + 1],
            walk: 0,
            left: MOST_WORK,
        };
        let always = plan.units.iter().enumerate().filter(|(_, unit)| unit.always).map(|(at, _)| at);
        let mut sound = always.chain(pinned.iter().copied()).all(|at| root.decide(at, true));
        for at in 0..groups {
            let mut open = Vec::new();
            sound = sound && root.settle_group(at, true, &mut open) && root.decide_all(open);
        }
        root.left = MOST_WORK;
        sound.then_some(root)
    }

    /// The same, with another number of units that may be looked at.
    #[must_use]
    pub(super) fn allowing(self, left: usize) -> Self {
        Self { left, ..self }
    }

    /// The plan that is decided on.
    pub(super) fn plan(&self) -> &'p Plan {
        self.plan
    }

    /// Whether a unit is aboard, where that is decided.
    pub(super) fn of(&self, unit: usize) -> Option<bool> {
        self.aboard.get(unit).copied().flatten()
    }

    /// Decides on a unit and on all that follows; false where that cannot be.
    pub(super) fn decide(&mut self, unit: usize, aboard: bool) -> bool {
        self.decide_all(vec![(unit, aboard)])
    }

    fn decide_all(&mut self, mut open: Vec<(usize, bool)>) -> bool {
        while let Some((at, aboard)) = open.pop() {
            let (Some(unit), Some(held)) = (self.plan.units.get(at), self.aboard.get_mut(at)) else {
                return false;
            };
            match *held {
                Some(known) if known == aboard => continue,
                Some(_) => return false,
                None => *held = Some(aboard),
            }
            self.trail.push(at);
            self.tally(at, aboard, |count| *count += 1);
            self.unordered -= usize::from(unit.in_order);
            let others = if aboard { &unit.brings } else { &unit.brought_by };
            self.left = self.left.saturating_sub(1 + others.len());
            open.extend(others.iter().map(|other| (*other, aboard)));
            let mut follow = unit.followers.iter().filter(|_| aboard).chain(unit.follows.then_some(&at));
            let mut groups = unit.groups.iter();
            if !follow.all(|follower| self.settle_follower(*follower, &mut open))
                || !groups.all(|group| self.settle_group(*group, aboard, &mut open))
            {
                return false;
            }
        }
        true
    }

    fn tally(&mut self, at: usize, aboard: bool, change: fn(&mut usize)) {
        let Some(unit) = self.plan.units.get(at) else { return };
        let groups = unit.groups.iter().map(|group| (true, *group));
        for (group, at) in groups.chain(unit.followers.iter().map(|follower| (false, *follower))) {
            let tallies = if group { &mut self.groups } else { &mut self.followed };
            tallies.get_mut(at).into_iter().for_each(|tally| change(tally.count(aboard)));
        }
    }

    /// What follows from all that a follower brings being aboard, or from the follower being at home.
    fn settle_follower(&self, at: usize, open: &mut Vec<(usize, bool)>) -> bool {
        let (Some(unit), Some(tally)) = (self.plan.units.get(at), self.followed.get(at)) else {
            return false;
        };
        if tally.home > 0 {
            return true;
        }
        match (unit.brings.len() - tally.aboard, self.of(at)) {
            (0, Some(false)) => return false,
            (0, _) => open.push((at, true)),
            (1, Some(false)) => {
                open.extend(unit.brings.iter().find(|to| self.of(**to).is_none()).map(|last| (*last, false)));
            }
            _ => {}
        }
        true
    }

    /// What follows in a group from one member being aboard, or from all but one being at home. That the others stay at
    /// home is said once, when the one has come aboard.
    fn settle_group(&self, at: usize, come: bool, open: &mut Vec<(usize, bool)>) -> bool {
        let (Some(group), Some(tally)) = (self.plan.groups.get(at), self.groups.get(at)) else {
            return false;
        };
        match (tally.aboard, group.of.len() - tally.aboard - tally.home) {
            (2.., _) => return false,
            (1, 1..) if come => {
                let others = group.of.iter().filter(|at| self.of(**at).is_none());
                open.extend(others.map(|at| (*at, false)));
            }
            (0, 0) => return group.none,
            (0, 1) if !group.none => {
                open.extend(group.of.iter().find(|at| self.of(**at).is_none()).map(|last| (*last, true)));
            }
            _ => {}
        }
        true
    }

    /// How far decisions have come.
    pub(super) fn mark(&self) -> usize {
        self.trail.len()
    }

    /// What was decided since a mark.
    pub(super) fn since(&self, mark: usize) -> Vec<(usize, bool)> {
        self.trail.iter().skip(mark).filter_map(|at| Some((*at, self.of(*at)?))).collect()
    }

    /// Takes decisions back.
    pub(super) fn undo(&mut self, mark: usize) {
        while self.trail.len() > mark {
            let Some(at) = self.trail.pop() else { return };
            if let Some(aboard) = self.aboard.get_mut(at).and_then(Option::take) {
                self.tally(at, aboard, |count| *count -= 1);
                let in_order = self.plan.units.get(at).is_some_and(|unit| unit.in_order);
                self.unordered += usize::from(in_order);
            }
        }
    }

    /// Counts what is looked at.
    pub(super) fn spend(&mut self, units: usize, depth: usize) -> Result<(), Spent> {
        self.left = self.left.saturating_sub(units);
        if self.left == 0 || depth > DEEPEST { Err(Spent) } else { Ok(()) }
    }

    /// Those that are not decided.
    pub(super) fn undecided(&self, units: impl IntoIterator<Item = usize>) -> Vec<usize> {
        units.into_iter().filter(|at| self.of(*at).is_none()).collect()
    }

    /// Whether it is decided which of the tanks in order are aboard.
    pub(super) fn is_ordered(&self) -> bool {
        self.unordered == 0
    }

    /// Those of the tanks in order that are aboard.
    pub(super) fn tanks_in_order(&mut self) -> Vec<(usize, Amount)> {
        self.left = self.left.saturating_sub(self.plan.order.len());
        let aboard = self.plan.order.iter().filter(|at| self.of(**at) == Some(true));
        aboard.filter_map(|at| Some((*at, self.plan.units.get(*at)?.amount?))).collect()
    }

    /// Undecided units as pieces that have nothing to do with each other, by their first unit.
    pub(super) fn pieces(&mut self, units: &[usize]) -> Vec<Vec<usize>> {
        self.walk += 1;
        let mut pieces = Vec::new();
        for start in units {
            let mut piece = Vec::new();
            self.reach(*start, &mut piece);
            let mut next = 0;
            while let Some(at) = piece.get(next).copied() {
                next += 1;
                self.reach_neighbours(at, &mut piece);
            }
            if !piece.is_empty() {
                piece.sort_unstable();
                pieces.push(piece);
            }
        }
        pieces
    }

    /// Whether this walk comes by for the first time.
    fn first_time(&mut self, place: usize) -> bool {
        let walk = self.walk;
        self.passed.get_mut(place).is_some_and(|passed| std::mem::replace(passed, walk) != walk)
    }

    fn reach(&mut self, at: usize, piece: &mut Vec<usize>) {
        self.left = self.left.saturating_sub(1);
        if self.of(at).is_none() && self.first_time(at) {
            piece.push(at);
        }
    }

    fn reach_neighbours(&mut self, at: usize, piece: &mut Vec<usize>) {
        let plan = self.plan;
        let Some(unit) = plan.units.get(at) else { return };
        let mut reach_all = |held: &mut Self, others: &[usize]| {
            for other in others {
                held.reach(*other, piece);
            }
        };
        reach_all(self, &unit.brings);
        reach_all(self, &unit.brought_by);
        for at in &unit.groups {
            if let Some(group) = plan.groups.get(*at).filter(|_| self.first_time(plan.units.len() + at)) {
                reach_all(self, &group.of);
            }
        }
        // A follower at home ties those that it follows: not all of them can be aboard.
        for at in &unit.followers {
            if self.of(*at) == Some(false)
                && self.followed.get(*at).is_some_and(|tally| tally.home == 0)
                && self.first_time(*at)
                && let Some(follower) = plan.units.get(*at)
            {
                reach_all(self, &follower.brings);
            }
        }
        if unit.in_order && self.first_time(plan.units.len() + plan.groups.len()) {
            reach_all(self, &plan.order);
        }
    }

    /// The unit of a piece on which most others hang; the first of those.
    pub(super) fn pivot(&self, piece: &[usize]) -> Option<usize> {
        let units = || piece.iter().filter_map(|at| Some((*at, self.plan.units.get(*at)?)));
        // Undecided members of a group all lie in one piece.
        let mut members: BTreeMap<usize, usize> = BTreeMap::new();
        for group in units().flat_map(|(_, unit)| &unit.groups) {
            *members.entry(*group).or_default() += 1;
        }
        let open = |others: &[usize]| others.iter().filter(|other| self.of(**other).is_none()).count();
        let ties = |(at, unit): (usize, &super::plan::Unit)| {
            let grouped: usize = unit.groups.iter().filter_map(|group| members.get(group)).sum();
            (open(&unit.brings) + open(&unit.brought_by) + grouped, std::cmp::Reverse(at))
        };
        units().max_by_key(|entry| ties(*entry)).map(|(at, _)| at)
    }
}
