//! One build under inspection, with what has been worked out on it so far.

use std::cell::{OnceCell, RefCell};
use std::rc::Rc;

use pintle_calc::weights::Weights;
use pintle_spec::Build;

/// One build under inspection. Weights are worked out once a state.
#[derive(Debug)]
pub struct Run {
    /// The build.
    pub build: Build,
    states: RefCell<Vec<Option<Rc<Weights>>>>,
    as_built: OnceCell<Rc<Weights>>,
}

impl Run {
    /// Begins on a build.
    pub fn new(build: Build) -> Rc<Self> {
        let states = RefCell::new(vec![None; build.states.len()]);
        Rc::new(Self { build, states, as_built: OnceCell::new() })
    }

    /// The weights of a state.
    pub fn weights(&self, state: usize) -> Rc<Weights> {
        if let Some(Some(known)) = self.states.borrow().get(state) {
            return Rc::clone(known);
        }
        let weights = Weights::of_state(&self.build, state);
        if let Some(place) = self.states.borrow_mut().get_mut(state) {
            *place = Some(Rc::clone(&weights));
        }
        weights
    }

    /// The weights of the trailer as built.
    pub fn as_built(&self) -> Rc<Weights> {
        Rc::clone(self.as_built.get_or_init(|| Weights::as_built(&self.build)))
    }
}
