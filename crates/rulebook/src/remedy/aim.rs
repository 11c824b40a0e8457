//! What a weight finding asks for: which sum has to change, by how much, and what that sum is made of.

use std::rc::Rc;

use pintle_calc::arrange::{Arrangements, End, Extremum};
use pintle_calc::balance::Sum;
use pintle_calc::weights::{Body, Measure, Weights};
use pintle_finding::{Bound, Reading};
use pintle_quantity::Dimension;
use pintle_script::ARRANGEMENT;
use pintle_spec::{Build, State};

/// How far inside the limit a guess aims, as a share of the limit: ours, no source. Rounding comes on top.
const INSIDE: f64 = 0.01;
/// By how much more than a value could be off a sure guess aims inside the limit: ours, no source.
const SURE: f64 = 1.02;

/// How far inside a limit a guess aims.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Depth {
    /// As far as the value could be off, so that it passes as built and not only as computed.
    Sure,
    /// A little.
    Little,
}
/// Two sums that differ by no more than this share are the same sum.
const SAME: f64 = 1e-6;
/// No axle group has more axles than this.
const MOST_AXLES: f64 = 8.0;

/// What a weight finding asks for.
#[derive(Debug)]
pub(super) struct Aim {
    /// The sum that has to change.
    pub(super) measure: Measure,
    /// By how much it has to change, in SI, while the whole weight stays what it is.
    pub(super) change: f64,
    /// The value to come to, as the reading gives it, in SI.
    pub(super) target: f64,
    /// Whether the value is a share of a weight rather than a weight.
    pub(super) is_share: bool,
    /// Whether the state is an arrangement that the spec does not name.
    pub(super) arranged: bool,
    /// What was judged; none for the trailer as built.
    pub(super) state: Option<State>,
    /// What is aboard in it.
    pub(super) weights: Rc<Weights>,
    /// Weight and moment about the ball, fore and aft.
    pub(super) along: Sum,
    /// The axle behind the ball, in metres.
    pub(super) axle: f64,
    /// The track, in metres, where it is given.
    pub(super) track: Option<f64>,
}

impl Aim {
    /// What a fault asks for; none where its value is no sum over what is aboard.
    pub(super) fn of(build: &Build, reading: &Reading, depth: Depth) -> Option<Self> {
        let measure = Measure::from_word(reading.sum?)?;
        let value = reading.value?.si();
        let target = target(reading, depth)?;
        let sum: f64 = reading.contributions.iter().map(|part| part.amount.si()).sum();
        let (state, weights) = match state_of(build, reading, measure, sum)? {
            Judged::AsBuilt => (None, Weights::as_built(build)),
            Judged::State(state) => {
                let weights = Weights::of(build, &state);
                (Some(state), weights)
            }
        };
        let sum_along = along(&weights)?;
        let axle = build.surfaces.axle.as_ref().ok()?.metres;
        let is_share = reading.value?.dimension() == Dimension::NONE;
        // A value that is the sum itself, or the load of one of several axles, or a share of a weight.
        let times = sum / value;
        let counted = (times - times.round()).abs() <= SAME && (1.0..=MOST_AXLES).contains(&times.round());
        // A rule that judges the build may read a difference of two states: then this sum is not its value.
        let whole = (times - sum_along.weight).abs() <= SAME * sum_along.weight;
        if state.is_none() && !counted && !(is_share && whole) {
            return None;
        }
        let scale = match (is_share, counted) {
            (true, _) if value.abs() > SAME => times,
            (true, _) => sum_along.weight,
            (false, true) => times.round(),
            (false, false) => 1.0,
        };
        // More cargo left is less weight; a steadier stance is a lower centre.
        let falls = matches!(measure, Measure::Gross | Measure::Unloaded | Measure::CentreZ);
        let change = match measure {
            Measure::CentreZ => sum * value / target - sum,
            _ if falls && target > value => (value - target) * scale.abs(),
            _ => (target - value) * scale,
        };
        let group = build.trailer.table(&pintle_spec::schema::trailer::AXLE);
        let track = group.and_then(|group| group.quantity(&pintle_spec::schema::trailer::axle::TRACK));
        Some(Self {
            measure: heavier_side(measure, &weights),
            change,
            target,
            is_share,
            arranged: reading.subject.kind == ARRANGEMENT,
            state,
            weights,
            along: sum_along,
            axle,
            track: track.map(|track| track.value.si()),
        })
    }

    /// By how much the weight on the ball has to change, where that is what the finding asks for; moving weight fore
    /// and aft takes from the axles what it puts on the ball.
    pub(super) fn tongue_change(&self) -> Option<f64> {
        match self.measure {
            Measure::Tongue => Some(self.change),
            Measure::Axles => Some(-self.change),
            // Half of what an axle load loses, each side loses.
            Measure::Left | Measure::Right => Some(-2.0 * self.change),
            Measure::CentreX => Some(-self.change * self.along.weight / self.axle),
            _ => None,
        }
    }

    /// The centre of gravity, behind the ball, at which the weight on the ball is what is asked for.
    pub(super) fn centre(&self) -> Option<f64> {
        if self.is_share && self.measure == Measure::Tongue {
            return Some(self.axle * (1.0 - self.target));
        }
        let (tongue, _) = self.along.reactions(0.0, self.axle)?;
        Some(self.axle * (1.0 - (tongue + self.tongue_change()?) / self.along.weight))
    }

    /// By how much the right wheels' excess over the left ones has to change.
    pub(super) fn side_change(&self) -> Option<f64> {
        match self.measure {
            Measure::Side => Some(self.change),
            Measure::LeftSide => Some(-self.change),
            Measure::Right => Some(2.0 * self.change),
            Measure::Left => Some(-2.0 * self.change),
            Measure::CentreY => Some(2.0 * self.change * self.along.weight / self.track?),
            _ => None,
        }
    }

    /// How much the sum rises for each kilogram put at a place, by the lever rule.
    pub(super) fn rise(&self, x: f64, y: f64) -> Option<f64> {
        let lever = x / self.axle;
        let swing = || self.track.map(|track| y / track);
        Some(match self.measure {
            Measure::Gross | Measure::Unloaded => 1.0,
            Measure::Tongue => 1.0 - lever,
            Measure::Axles => lever,
            Measure::Left => 0.5 * lever - swing()?,
            Measure::Right => 0.5 * lever + swing()?,
            Measure::Side => 2.0 * swing()?,
            Measure::LeftSide => -2.0 * swing()?,
            Measure::CentreX | Measure::CentreY | Measure::CentreZ => return None,
        })
    }

    /// What some of the bodies aboard weigh, and where their common centre of gravity is, behind the ball and right of
    /// the centreline.
    pub(super) fn weight_of(&self, wanted: impl Fn(&Body) -> bool) -> Option<(f64, f64, f64)> {
        let (mut mass, mut x, mut y) = (0.0, 0.0, 0.0);
        for body in self.weights.bodies.iter().filter(|body| body.kilograms > 0.0 && wanted(body)) {
            mass += body.kilograms;
            x += body.kilograms * body.x.as_ref().ok()?.metres;
            y += body.kilograms * body.y.as_ref().ok()?.metres;
        }
        (mass > 0.0).then(|| (mass, x / mass, y / mass))
    }
}

/// The value that a fault has to come to, in SI: inside the limit that it is beyond.
pub(super) fn target(reading: &Reading, depth: Depth) -> Option<f64> {
    let value = reading.value?.si();
    let (limit, inwards) = match &reading.bound {
        Bound::AtLeast(limit) => (limit.si(), 1.0),
        Bound::AtMost(limit) => (limit.si(), -1.0),
        Bound::Between(least, _) if value < least.si() => (least.si(), 1.0),
        Bound::Between(_, most) => (most.si(), -1.0),
        Bound::Equal(_) | Bound::Holds(_) | Bound::None => return None,
    };
    let off =
        reading.value?.tolerance().filter(|_| depth == Depth::Sure).map_or(0.0, |half| half.si() * SURE);
    Some(limit + inwards * off.max(INSIDE * limit.abs()))
}

/// Of the wheels' loads the heavier side's, whichever is listed.
fn heavier_side(measure: Measure, weights: &Rc<Weights>) -> Measure {
    if !matches!(measure, Measure::Left | Measure::Right) {
        return measure;
    }
    match weights.side_difference() {
        Ok(side) if side.quantity.si() > 0.0 => Measure::Right,
        Ok(_) => Measure::Left,
        Err(_) => measure,
    }
}

fn along(weights: &Weights) -> Option<Sum> {
    let known = weights.bodies.iter().filter(|body| body.kilograms > 0.0);
    let mut sum = Sum::default();
    for body in known {
        sum = sum.with(body.kilograms, body.x.as_ref().ok()?.metres);
    }
    (sum.weight > 0.0 && weights.unknown.is_empty()).then_some(sum)
}

/// What a reading was taken on.
enum Judged {
    /// The trailer with everything fitted and nothing else aboard.
    AsBuilt,
    /// A state of the spec, or an arrangement.
    State(State),
}

/// What a reading was taken on; none where that is not found.
fn state_of(build: &Build, reading: &Reading, measure: Measure, sum: f64) -> Option<Judged> {
    if reading.subject.kind != ARRANGEMENT {
        let named = build.states.iter().find(|state| state.name.value == reading.subject.name);
        return match named {
            Some(state) => Some(Judged::State(state.clone())),
            None => amounts_to(&Weights::as_built(build), measure, sum).then_some(Judged::AsBuilt),
        };
    }
    let arrangements = Arrangements::of(build).ok()?;
    let ends = Extremum::ALL.iter().flat_map(|what| [(*what, End::Least), (*what, End::Most)]);
    let mut states = ends.filter_map(|(what, end)| arrangements.extreme(what, end).ok());
    let found = states.find(|state| {
        state.name.value == reading.subject.name && amounts_to(&Weights::of(build, state), measure, sum)
    });
    found.map(Judged::State)
}

/// Whether a sum over what is aboard comes to what a reading's contributions do.
fn amounts_to(weights: &Rc<Weights>, measure: Measure, sum: f64) -> bool {
    let figure = match measure {
        Measure::Gross => weights.gross(),
        Measure::Unloaded => weights.unloaded(),
        Measure::Tongue => weights.tongue(),
        Measure::Axles => weights.axles(),
        Measure::Left => weights.left(),
        Measure::Right => weights.right(),
        Measure::Side => weights.side_difference(),
        Measure::LeftSide => weights.side_difference().map(|side| side.scaled(-1.0)),
        Measure::CentreX => weights.centre_x(),
        Measure::CentreY => weights.centre_y(),
        Measure::CentreZ => weights.centre_z(),
    };
    figure.is_ok_and(|figure| (figure.quantity.si() - sum).abs() <= SAME * sum.abs().max(1.0))
}
