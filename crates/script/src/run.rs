//! One build under inspection, with what has been worked out on it so far.

use std::cell::{OnceCell, RefCell};
use std::rc::Rc;
use std::sync::Arc;

use pintle_calc::arrange::{End, Extremum};
use pintle_calc::topics;
use pintle_calc::weights::Weights;
use pintle_calc::{Assumptions, Case, Places, Working};
use pintle_spec::{Build, Known, OwnField, State};

use crate::extremes::Extremes;
use crate::tight::Tight;

/// What the calculation of every build rests on besides the build. Cheap to clone.
#[derive(Debug, Clone, Default)]
pub struct Grounds {
    /// What is assumed where a build does not say.
    pub assumptions: Assumptions,
    /// The places there are.
    pub places: Places,
    /// Fields of the shop's own on its parts.
    pub own_fields: Arc<[OwnField]>,
}

/// One build under inspection. Weights are worked out once a state, the figures of a topic once a build.
#[derive(Debug)]
pub struct Run {
    /// The build.
    pub build: Build,
    /// Its extremes over all arrangements.
    pub extremes: Extremes,
    grounds: Grounds,
    figures: Vec<OnceCell<Vec<Working>>>,
    states: RefCell<Vec<Option<Rc<Weights>>>>,
    as_built: OnceCell<Rc<Weights>>,
    tight: RefCell<Vec<Rc<Tight>>>,
}

impl Run {
    /// Begins on a build. Besides its own states, its extreme arrangements can be judged: they count on after the last
    /// of those.
    pub fn new(build: Build, grounds: &Grounds) -> Rc<Self> {
        let extremes = Extremes::of(&build);
        let states = RefCell::new(vec![None; build.states.len() + extremes.count()]);
        Rc::new(Self {
            build,
            extremes,
            grounds: grounds.clone(),
            figures: vec![OnceCell::new(); topics::ALL.len()],
            states,
            as_built: OnceCell::new(),
            tight: RefCell::default(),
        })
    }

    /// The fields of the shop's own that its packs declare.
    pub(crate) fn own_fields(&self) -> &[OwnField] {
        &self.grounds.own_fields
    }

    /// The figures of a topic, by its place in [`topics::ALL`].
    pub fn figures(&self, topic: usize) -> &[Working] {
        let (Some(held), Some(topic)) = (self.figures.get(topic), topics::ALL.get(topic)) else { return &[] };
        held.get_or_init(|| {
            let Grounds { assumptions, places, .. } = &self.grounds;
            topic.figures(&Case { build: &self.build, assumptions, places })
        })
    }

    /// The figures of a name such as `gas/burn_time`, as [`Run::figure`] counts them.
    pub fn figures_named(&self, name: &str) -> Vec<usize> {
        let Some((topic, key)) = name.split_once('/') else { return Vec::new() };
        let Some(topic) = topics::ALL.iter().position(|held| held.name == topic) else { return Vec::new() };
        let figures = self.figures(topic).iter().enumerate();
        let named = figures.filter(|(_, figure)| figure.key == key);
        named.map(|(at, _)| at * topics::ALL.len() + topic).collect()
    }

    /// A figure: they count the first of every topic, then the second of every topic, and so on, so that no topic need
    /// be worked out to count those of another.
    pub fn figure(&self, at: usize) -> Option<&Working> {
        self.figures(at % topics::ALL.len()).get(at / topics::ALL.len())
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
