//! The arrangements of a trailer at which its figures are least and greatest, found once for all rules.

use std::collections::{BTreeMap, BTreeSet};

use pintle_calc::arrange::{Arrangements, End, Extremum};
use pintle_quantity::Quantity;
use pintle_spec::{Build, Known, Missing, Spanned, State};

/// The arrangements at which the figures of a trailer are least and greatest.
#[derive(Debug, Default)]
pub struct Extremes {
    states: Vec<State>,
    found: BTreeMap<(Extremum, End), Known<usize>>,
}

impl Extremes {
    /// Finds all extremes of a build.
    pub fn of(build: &Build) -> Self {
        let mut extremes = Self::default();
        let arrangements = Arrangements::of(build);
        for what in Extremum::ALL {
            for end in [End::Least, End::Most] {
                let found = arrangements
                    .as_ref()
                    .map_err(Clone::clone)
                    .and_then(|all| all.extreme(*what, end))
                    .map(|state| extremes.place(state));
                extremes.found.insert((*what, end), found);
            }
        }
        extremes
    }

    fn place(&mut self, state: State) -> usize {
        if let Some(at) = self.states.iter().position(|held| same(held, &state)) {
            return at;
        }
        self.states.push(state);
        self.states.len() - 1
    }

    /// An arrangement by its number.
    pub fn state(&self, at: usize) -> Option<&State> {
        self.states.get(at)
    }

    /// How many arrangements there are, each once.
    pub fn count(&self) -> usize {
        self.states.len()
    }

    /// The arrangement at one end of a figure.
    pub fn at(&self, what: Extremum, end: End) -> Known<usize> {
        let unknown = || Missing::new("the extremes over all arrangements", None, "");
        self.found.get(&(what, end)).cloned().unwrap_or_else(|| Err(unknown()))
    }

    /// The arrangements that matter to some figures, each once, and what keeps others from being known.
    pub fn for_figures(&self, figures: &[Extremum]) -> (BTreeSet<usize>, Vec<Missing>) {
        let mut at = BTreeSet::new();
        let mut missing: Vec<Missing> = Vec::new();
        for ((what, _), found) in &self.found {
            match found {
                _ if !figures.contains(what) => {}
                Ok(state) => {
                    at.insert(*state);
                }
                Err(unknown) if missing.iter().any(|said| said.what == unknown.what) => {}
                Err(unknown) => missing.push(unknown.clone()),
            }
        }
        (at, missing)
    }
}

/// Whether two states are the same arrangement.
fn same(left: &State, right: &State) -> bool {
    let amounts = |of: &[(usize, Spanned<Quantity>)]| -> Vec<(usize, u64)> {
        of.iter().map(|(at, value)| (*at, value.value.si().to_bits())).collect()
    };
    left.out == right.out
        && amounts(&left.fill) == amounts(&right.fill)
        && amounts(&left.carry) == amounts(&right.carry)
        && left.loads.len() == right.loads.len()
        && left.loads.iter().zip(&right.loads).all(|(left, right)| left.span == right.span)
}
