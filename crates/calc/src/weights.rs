//! What a state weighs, where its centre of gravity lies, and what rests on ball, axles and wheels.
//!
//! The trailer stands level on its ball and on one axle line (the middle of a group). With the ball as datum, total
//! weight W and its centre of gravity x behind the ball, and the axle line L behind the ball, moments about the ball
//! give the axle load W·x/L and the tongue weight W·(L − x)/L (statics of a beam on two supports; the same form as
//! FAA-H-8083-1's nose-wheel reaction).

pub(crate) mod bodies;
mod slopes;

use std::rc::Rc;

use pintle_quantity::{Dimension, Quantity, Unit};
use pintle_spec::schema::trailer::{self, axle};
use pintle_spec::{Build, Coordinate, Known, Missing, Named, Span, State};

pub use bodies::{Body, BodyKind, WATER_POUNDS_PER_GALLON};

use crate::balance::Sum;
use crate::figure::{Figure, Part, Trace};

/// All that is aboard in one state, and what follows from it.
#[derive(Debug)]
pub struct Weights {
    /// What is aboard: the trailer first, then fitted parts, water, loads and people.
    pub bodies: Vec<Body>,
    /// Masses that are not given.
    pub unknown: Vec<Missing>,
    axle: Known<Coordinate>,
    track: Known<Coordinate>,
    axles: Known<u32>,
    shares_load: Known<()>,
    gvwr: Known<Named>,
    unit: Option<Quantity>,
    dependences: slopes::Lazy,
}

/// Total weight, its centre of gravity behind the ball, and the axle's distance behind the ball, in SI.
pub(crate) struct OnOneLine {
    pub(crate) weight: f64,
    pub(crate) centre: f64,
    pub(crate) length: f64,
}

/// What is measured on a state.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measure {
    /// Total weight.
    Gross,
    /// Weight without water, loads and people.
    Unloaded,
    /// Weight on the ball.
    Tongue,
    /// Weight on the axles.
    Axles,
    /// Weight on the left wheels.
    Left,
    /// Weight on the right wheels.
    Right,
    /// Right wheels less left wheels.
    Side,
    /// Left wheels less right wheels.
    LeftSide,
    /// Centre of gravity behind the ball.
    CentreX,
    /// Centre of gravity right of the centreline.
    CentreY,
    /// Centre of gravity above the ground.
    CentreZ,
}

impl Measure {
    /// Every measure.
    pub const ALL: &'static [Self] = &[
        Self::Gross,
        Self::Unloaded,
        Self::Tongue,
        Self::Axles,
        Self::Left,
        Self::Right,
        Self::Side,
        Self::LeftSide,
        Self::CentreX,
        Self::CentreY,
        Self::CentreZ,
    ];

    /// The measure with a name.
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|measure| measure.word() == word)
    }

    /// What it is called.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Gross => "gross weight",
            Self::Unloaded => "unloaded weight",
            Self::Tongue => "tongue weight",
            Self::Axles => "axle load",
            Self::Left => "load of the left wheels",
            Self::Right => "load of the right wheels",
            Self::Side => "excess of the right wheels",
            Self::LeftSide => "excess of the left wheels",
            Self::CentreX => "distance of the centre of gravity behind the ball",
            Self::CentreY => "distance of the centre of gravity right of the centreline",
            Self::CentreZ => "height of the centre of gravity",
        }
    }
}

impl Weights {
    /// The weights of one of a build's states.
    pub fn of_state(build: &Build, state: usize) -> Rc<Self> {
        Self::gather(build, build.states.get(state))
    }

    /// The weights of a state that the spec need not name: an arrangement.
    pub fn of(build: &Build, state: &State) -> Rc<Self> {
        Self::gather(build, Some(state))
    }

    /// The weights of the trailer as built: everything fitted, no water, no loads, nobody aboard.
    pub fn as_built(build: &Build) -> Rc<Self> {
        Self::gather(build, None)
    }

    fn gather(build: &Build, state: Option<&State>) -> Rc<Self> {
        let (bodies, unknown) = bodies::aboard(build, state);
        let group = build.trailer.need_table(&trailer::AXLE);
        let of = |field| group.clone().and_then(|group| Coordinate::of(group, field));
        let axles = group.clone().and_then(|group| group.need_count(&axle::COUNT)).map(|count| count.value);
        let shares_load = match &axles {
            Ok(count) if *count > 1 => {
                group.clone().and_then(|group| match group.need_word(&axle::SUSPENSION)?.value {
                    "equalised" => Ok(()),
                    _ => Err(Missing::new(
                        "how the axles of the group share the load",
                        group.value(axle::SUSPENSION.key).map(|value| value.span),
                        "independent axles share it by ride height and springs: weigh each axle on a scale",
                    )),
                })
            }
            Ok(_) => Ok(()),
            Err(missing) => Err(missing.clone()),
        };
        Rc::new(Self {
            unit: bodies.first().and_then(|body| body.inputs.first()).map(|input| input.value.value),
            bodies,
            unknown,
            axle: of(&axle::BALL),
            track: of(&axle::TRACK),
            axles,
            shares_load,
            gvwr: Named::of(&build.trailer, &trailer::GVWR),
            dependences: slopes::Lazy::new(),
        })
    }

    /// Total weight.
    pub fn gross(self: &Rc<Self>) -> Known<Figure> {
        self.mass_figure(Measure::Gross)
    }

    /// Weight without water, loads and people. Full propane is part of it (49 CFR 571.110 S9.3.2 counts it so);
    /// water is cargo.
    pub fn unloaded(self: &Rc<Self>) -> Known<Figure> {
        self.mass_figure(Measure::Unloaded)
    }

    /// Weight of water, loads and people.
    pub fn cargo(self: &Rc<Self>) -> Known<Figure> {
        combine(self.gross()?.minus(&self.unloaded()?))
    }

    /// What may be loaded at most: GVWR less the unloaded weight (49 CFR 571.110 S4.3.5).
    pub fn cargo_capacity(self: &Rc<Self>) -> Known<Figure> {
        combine(self.gvwr_figure()?.minus(&self.unloaded()?))
    }

    /// What may still be loaded: GVWR less the gross weight; negative when over it.
    pub fn cargo_left(self: &Rc<Self>) -> Known<Figure> {
        combine(self.gvwr_figure()?.minus(&self.gross()?))
    }

    /// Weight on the ball; negative when the tongue lifts.
    pub fn tongue(self: &Rc<Self>) -> Known<Figure> {
        self.mass_figure(Measure::Tongue)
    }

    /// Tongue weight as a share of gross weight.
    pub fn tongue_share(self: &Rc<Self>) -> Known<Figure> {
        Ok(self.tongue()?.over(&self.gross()?).as_share())
    }

    /// Weight on all axles together.
    pub fn axles(self: &Rc<Self>) -> Known<Figure> {
        self.mass_figure(Measure::Axles)
    }

    /// Weight on each axle, where the axles share it evenly.
    pub fn each_axle(self: &Rc<Self>) -> Known<Figure> {
        Ok(self.axles()?.scaled(1.0 / self.even_axles()?))
    }

    /// Weight on all left wheels: half the axle load less W·y / track.
    pub fn left(self: &Rc<Self>) -> Known<Figure> {
        self.mass_figure(Measure::Left)
    }

    /// Weight on all right wheels: half the axle load and W·y / track.
    pub fn right(self: &Rc<Self>) -> Known<Figure> {
        self.mass_figure(Measure::Right)
    }

    /// Right wheels less left wheels; negative when the left side is heavier.
    pub fn side_difference(self: &Rc<Self>) -> Known<Figure> {
        self.mass_figure(Measure::Side)
    }

    /// Side difference without its sign, as a share of the axle load.
    pub fn side_share(self: &Rc<Self>) -> Known<Figure> {
        // Of the two differences the one that is positive, so that the parts that add to it are those to move.
        let right = self.side_difference()?;
        let side = if right.quantity.si() < 0.0 { self.mass_figure(Measure::LeftSide)? } else { right };
        Ok(side.over(&self.axles()?).as_share())
    }

    /// Load of each wheel on the heavier side, where the axles share evenly.
    pub fn heaviest_wheel(self: &Rc<Self>) -> Known<Figure> {
        let axles = self.even_axles()?;
        Ok(combine(self.left()?.greater(&self.right()?))?.scaled(1.0 / axles))
    }

    /// Centre of gravity behind the ball.
    pub fn centre_x(self: &Rc<Self>) -> Known<Figure> {
        self.length_figure(Measure::CentreX)
    }

    /// Centre of gravity right of the centreline; negative to the left.
    pub fn centre_y(self: &Rc<Self>) -> Known<Figure> {
        self.length_figure(Measure::CentreY)
    }

    /// Centre of gravity above the ground.
    pub fn centre_z(self: &Rc<Self>) -> Known<Figure> {
        self.length_figure(Measure::CentreZ)
    }

    /// Static stability factor: half the track over the height of the centre of gravity (NHTSA, Rollover
    /// rating notice, chapter V).
    pub fn stability_factor(self: &Rc<Self>) -> Known<Figure> {
        let track = Figure::coordinate(&self.track.clone()?);
        Ok(track.over(&self.centre_z()?.scaled(2.0)).as_number())
    }

    fn even_axles(&self) -> Known<f64> {
        let count = self.axles.clone()?;
        self.shares_load.clone()?;
        Ok(f64::from(count))
    }

    fn gvwr_figure(&self) -> Known<Figure> {
        Ok(Figure::given(self.gvwr.clone()?))
    }

    /// Weight and moment about the zero of one axis.
    fn sum(&self, along: impl Fn(&Body) -> &Known<Coordinate>) -> Known<Sum> {
        self.all_masses()?;
        let mut sum = Sum::default();
        let mut missing = Vec::new();
        for body in &self.bodies {
            match along(body) {
                Ok(place) => sum = sum.with(body.kilograms, place.metres),
                Err(_) if body.kilograms <= 0.0 => {}
                Err(unplaced) => missing.push(unplaced.clone()),
            }
        }
        match gathered(&missing) {
            Some(missing) => Err(missing),
            None => Ok(sum),
        }
    }

    fn all_masses(&self) -> Known<()> {
        gathered(&self.unknown).map_or(Ok(()), Err)
    }

    fn amount(&self, measure: Measure) -> Known<f64> {
        let gross = |wanted: fn(&Body) -> bool| -> Known<f64> {
            self.all_masses()?;
            Ok(self.bodies.iter().filter(|body| wanted(body)).map(|body| body.kilograms).sum())
        };
        let supports = || -> Known<(f64, f64)> {
            let axle = self.axle.clone()?;
            self.sum(|body| &body.x)?.reactions(0.0, axle.metres).ok_or_else(|| no_axle(&axle))
        };
        let side =
            || -> Known<f64> { Ok(2.0 * self.sum(|body| &body.y)?.moment / self.track.clone()?.metres) };
        let centre = |sum: Sum| sum.centre().ok_or_else(weightless);
        match measure {
            Measure::Gross => gross(|_| true),
            Measure::Unloaded => gross(|body| body.kind.is_fitted()),
            Measure::Tongue => Ok(supports()?.0),
            Measure::Axles => Ok(supports()?.1),
            Measure::Side => side(),
            Measure::LeftSide => side().map(|right| -right),
            Measure::Right => Ok(f64::midpoint(supports()?.1, side()?)),
            Measure::Left => Ok(f64::midpoint(supports()?.1, -side()?)),
            Measure::CentreX => centre(self.sum(|body| &body.x)?),
            Measure::CentreY => centre(self.sum(|body| &body.y)?),
            Measure::CentreZ => centre(self.sum(|body| &body.z)?),
        }
    }

    fn mass_figure(self: &Rc<Self>, measure: Measure) -> Known<Figure> {
        let quantity = self.in_author_unit(self.amount(measure)?);
        Ok(Figure::traced(quantity, Trace::weights(self, measure)))
    }

    /// What the weight on the tongue follows from.
    pub(crate) fn on_one_line(&self) -> Known<OnOneLine> {
        let sum = self.sum(|body| &body.x)?;
        let axle = self.axle.as_ref().map_err(Clone::clone)?;
        if axle.metres <= 0.0 {
            return Err(no_axle(axle));
        }
        let centre = sum.centre().ok_or_else(weightless)?;
        Ok(OnOneLine { weight: sum.weight, centre, length: axle.metres })
    }

    /// Where the axle's distance is stated.
    pub(crate) fn axle_span(&self) -> Option<Span> {
        self.axle.as_ref().ok()?.inputs().next().map(|input| input.value.span)
    }

    pub(crate) fn in_author_unit(&self, kilograms: f64) -> Quantity {
        let plain = Quantity::from_si(kilograms, Dimension::MASS);
        self.unit.map_or(plain, |unit| plain.with_unit_of(unit))
    }

    fn length_figure(self: &Rc<Self>, measure: Measure) -> Known<Figure> {
        let metres = Quantity::from_si(self.amount(measure)?, Dimension::LENGTH);
        let inch = Unit::find("in").map(|inch| Quantity::of(0.0, inch));
        let metric = self.unit.and_then(Quantity::unit).is_some_and(|unit| unit.name() == "kg");
        let shown = match (metric, inch) {
            (false, Some(inch)) => metres.with_unit_of(inch),
            _ => metres,
        };
        Ok(Figure::traced(shown, Trace::weights(self, measure)))
    }

    /// Values that a measure was worked out from.
    pub(crate) fn inputs(&self, measure: Measure) -> Vec<Named> {
        let mut inputs = Vec::new();
        let place = |body: &Body, inputs: &mut Vec<Named>| {
            let along = match measure {
                Measure::Gross | Measure::Unloaded => return,
                Measure::Tongue | Measure::Axles | Measure::CentreX => [Some(&body.x), None],
                Measure::Left | Measure::Right => [Some(&body.x), Some(&body.y)],
                Measure::Side | Measure::LeftSide | Measure::CentreY => [Some(&body.y), None],
                Measure::CentreZ => [Some(&body.z), None],
            };
            for coordinate in along.into_iter().flatten().flatten() {
                inputs.extend(coordinate.inputs().cloned());
            }
        };
        for body in &self.bodies {
            inputs.extend(body.inputs.iter().cloned());
            place(body, &mut inputs);
        }
        if matches!(measure, Measure::Tongue | Measure::Axles | Measure::Left | Measure::Right) {
            inputs.extend(self.axle.iter().flat_map(|axle| axle.inputs().cloned()));
        }
        if matches!(measure, Measure::Side | Measure::LeftSide | Measure::Left | Measure::Right) {
            inputs.extend(self.track.iter().flat_map(|track| track.inputs().cloned()));
        }
        inputs
    }

    /// Each body's part in a measure; the parts add up to it.
    pub(crate) fn parts(&self, measure: Measure) -> Vec<Part> {
        let (Ok(gross), axle, track) = (self.amount(Measure::Gross), &self.axle, &self.track) else {
            return Vec::new();
        };
        let at = |place: &Known<Coordinate>| place.as_ref().map_or(0.0, |place| place.metres);
        let length = at(axle);
        let lever = |body: &Body| at(&body.x) / length;
        let swing = |body: &Body| at(&body.y) / at(track);
        let part = |body: &Body| -> Quantity {
            let mass = body.kilograms;
            let metres = |along: f64| Quantity::from_si(mass * along / gross, Dimension::LENGTH);
            match measure {
                Measure::Gross => self.in_author_unit(mass),
                Measure::Unloaded => self.in_author_unit(if body.kind.is_fitted() { mass } else { 0.0 }),
                Measure::Tongue => self.in_author_unit(mass * (1.0 - lever(body))),
                Measure::Axles => self.in_author_unit(mass * lever(body)),
                Measure::Left => self.in_author_unit(mass * (0.5 * lever(body) - swing(body))),
                Measure::Right => self.in_author_unit(mass * (0.5 * lever(body) + swing(body))),
                Measure::Side => self.in_author_unit(mass * 2.0 * swing(body)),
                Measure::LeftSide => self.in_author_unit(mass * -2.0 * swing(body)),
                Measure::CentreX => metres(at(&body.x)),
                Measure::CentreY => metres(at(&body.y)),
                Measure::CentreZ => metres(at(&body.z)),
            }
        };
        let bodies = self.bodies.iter();
        let part = |body: &Body| Part {
            name: body.name.clone(),
            amount: part(body),
            span: body.span,
            inputs: body.inputs.clone(),
        };
        bodies.map(part).collect()
    }
}

pub(crate) fn no_axle(axle: &Coordinate) -> Missing {
    let span = axle.inputs().next().map(|input| input.value.span);
    Missing::new("an axle behind the ball", span, "give the distance from the ball to the axle")
}

fn weightless() -> Missing {
    Missing::new("any weight at all", None, "give the trailer's `mass`")
}

/// Sums of masses have one dimension; a mismatch cannot come from a spec.
fn combine(result: Result<Figure, pintle_quantity::DimensionMismatch>) -> Known<Figure> {
    result.map_err(|mismatch| {
        Missing::new(format!("a figure in one dimension: {mismatch}"), None, "report this")
    })
}

/// Several missing values as one: the first by name, the others by number.
pub(crate) fn gathered(missing: &[Missing]) -> Option<Missing> {
    let (first, others) = missing.split_first()?;
    let mut gathered = first.clone();
    if !others.is_empty() {
        let names: Vec<&str> = others.iter().take(3).map(|other| other.what.as_str()).collect();
        let rest = others.len() - names.len();
        gathered.what = format!("{}, {}", first.what, names.join(", "));
        if rest > 0 {
            gathered.what = format!("{} and {rest} more", gathered.what);
        }
    }
    Some(gathered)
}

#[cfg(test)]
mod outside;
#[cfg(test)]
mod tests;
