//! One build under inspection, with what has been worked out on it so far.

use std::cell::{OnceCell, RefCell};
use std::rc::Rc;

use pintle_calc::arrange::{End, Extremum};
use pintle_calc::weights::Weights;
use pintle_spec::{Build, Known, State};

use crate::extremes::Extremes;
use crate::tight::Tight;

/// One build under inspection. Weights are worked out once a state.
#[derive(Debug)]
pub struct Run {
    /// The build.
    pub build: Build,
    /// Its extremes over all arrangements.
    pub extremes: Extremes,
    states: RefCell<Vec<Option<Rc<Weights>>>>,
    as_built: OnceCell<Rc<Weights>>,
    tight: RefCell<Vec<Rc<Tight>>>,
}

impl Run {
    /// Begins on a build. Besides its own states, its extreme arrangements can be judged: they count on after the last
    /// of those.
    pub fn new(build: Build) -> Rc<Self> {
        let extremes = Extremes::of(&build);
        let states = RefCell::new(vec![None; build.states.len() + extremes.count()]);
        Rc::new(Self { build, extremes, states, as_built: OnceCell::new(), tight: RefCell::default() })
    }

    /// A state of the build, or an arrangement.
    pub fn state(&self, at: usize) -> Option<&State> {
        let own = &self.build.states;
        own.get(at).or_else(|| self.extremes.state(at.checked_sub(own.len())?))
    }

    /// Whether a state is an arrangement that the spec does not name.
    pub fn is_arrangement(&self, at: usize) -> bool {
        at >= self.build.states.len()
    }

    /// The weights of a state; as built where there is no such state.
    pub fn weights(&self, state: usize) -> Rc<Weights> {
        if let Some(Some(known)) = self.states.borrow().get(state) {
            return Rc::clone(known);
        }
        let Some(found) = self.state(state) else { return self.as_built() };
        let weights = Weights::of(&self.build, found);
        if let Some(place) = self.states.borrow_mut().get_mut(state) {
            *place = Some(Rc::clone(&weights));
        }
        weights
    }

    /// The weights of the arrangement at one end of a figure.
    pub fn extreme(&self, what: Extremum, end: End) -> Known<Rc<Weights>> {
        Ok(self.weights(self.build.states.len() + self.extremes.at(what, end)?))
    }

    /// Hands over the readings that pass with least to spare, once all rules but those that judge them have been run.
    pub fn note_tight(&self, readings: Vec<Tight>) {
        *self.tight.borrow_mut() = readings.into_iter().map(Rc::new).collect();
    }

    /// One of those readings.
    pub fn tight(&self, at: usize) -> Option<Rc<Tight>> {
        self.tight.borrow().get(at).cloned()
    }

    /// How many there are.
    pub fn tight_count(&self) -> usize {
        self.tight.borrow().len()
    }

    /// The weights of the trailer as built.
    pub fn as_built(&self) -> Rc<Weights> {
        Rc::clone(self.as_built.get_or_init(|| Weights::as_built(&self.build)))
    }
}
