//! The weights that coupler and tow vehicle are held against: of every road state, and the most of any arrangement.

use std::rc::Rc;

use pintle_spec::{Build, Known, Use};

use crate::arrange::{Arrangements, End, Extremum};
use crate::figure::Figure;
use crate::weights::Weights;

/// Who a figure over all arrangements is of.
pub(super) const ANY: &str = "any arrangement";

/// The trailer in one state, or at its heaviest in any.
#[derive(Debug, Clone)]
pub(super) struct Loaded {
    /// Who its figures are of.
    pub(super) of: String,
    /// Gross weight.
    pub(super) gross: Known<Figure>,
    /// Weight on the ball.
    pub(super) tongue: Known<Figure>,
}

/// The trailer in each road state, in the order of the spec, and then with the most gross weight and the most weight on the ball
/// that any arrangement has.
pub(super) fn loaded(build: &Build) -> Vec<Loaded> {
    let on_road = |(at, state): (usize, &pintle_spec::State)| {
        (state.used == Use::Road).then(|| {
            let weights: Rc<Weights> = Weights::of_state(build, at);
            let of = format!("state `{}`", state.name.value);
            Loaded { of, gross: weights.gross(), tongue: weights.tongue() }
        })
    };
    let mut all: Vec<Loaded> = build.states.iter().enumerate().filter_map(on_road).collect();
    let most = |what: Extremum| -> Known<Rc<Weights>> {
        Ok(Weights::of(build, &Arrangements::of(build)?.extreme(what, End::Most)?))
    };
    all.push(Loaded {
        of: ANY.to_owned(),
        gross: most(Extremum::Gross).and_then(|weights| weights.gross()),
        tongue: most(Extremum::Tongue).and_then(|weights| weights.tongue()),
    });
    all
}
