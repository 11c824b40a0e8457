//! Every figure of the topic, with how it came about.

mod speeds;

use std::cell::OnceCell;

use pintle_quantity::{Dimension, Unit};
use pintle_spec::{Known, Missing, State, Use};

use super::arranged;
use super::inertia::{Yaw, yaw};
use super::model::{Kind, Sign, TOP_SPEED, TrailerAxle, Train, heavy_vehicle};
use super::vehicle::{self, vehicle};
use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::constant;
use crate::weights::Weights;
use crate::working::{Outcome, Work, Working};

/// What a reader must know of every figure of the model.
const CAUTION: &str = "a tool for trends: rigid bodies, tires that never let go, a driver who does nothing, a dry and level \
     road without wind; compare arrangements with it, and take no speed from it as safe";

/// Workings of one state, of which some are wanted; what is not wanted is not worked out.
pub(super) struct Listing<'w> {
    of: &'w str,
    wanted: &'w dyn Fn(&str) -> bool,
    all: Vec<Working>,
}

impl Listing<'_> {
    fn add<O: Into<Outcome>>(
        &mut self,
        key: &'static str,
        says: &'static str,
        work: impl FnOnce(&mut Work) -> Known<O>,
    ) {
        if (self.wanted)(key) {
            self.all.push(Working::of("sway", key, self.of, says, work).warned(CAUTION));
        }
    }
}

/// What is told of an arrangement; a state is told of with all there is.
const OF_ARRANGEMENTS: &[&str] = &[
    "yaw_inertia",
    "heavy_ends",
    "stability_factor",
    "damping_at_100_km_h",
    "settles_at_100_km_h",
    "damping_at_towing_speed",
    "settles_at_towing_speed",
    "critical_speed",
    "critical_kind",
];

/// Every figure of this topic for a build.
pub fn workings(case: &Case<'_>) -> Vec<Working> {
    let mut all = of_vehicle(case);
    let road = || case.build.states.iter().filter(|state| state.used == Use::Road);
    for state in road() {
        all.extend(of_state(case, state, &format!("state `{}`", state.name.value), &|_| true));
    }
    if road().next().is_none() {
        return all;
    }
    match arranged::worst(case) {
        Ok(states) => {
            for state in states {
                let of = format!("arrangement `{}`", state.name.value);
                all.extend(of_state(case, &state, &of, &|key| OF_ARRANGEMENTS.contains(&key)));
            }
        }
        Err(missing) => {
            let says = "the arrangements with the least and most on the ball, and the greatest yaw inertia";
            all.push(Working::of("sway", "worst_arrangements", "the build", says, |_| {
                Err::<Outcome, _>(missing)
            }));
        }
    }
    all
}

type Part = fn(&Case<'_>, &mut Work) -> Known<Figure>;

pub(super) fn of_vehicle(case: &Case<'_>) -> Vec<Working> {
    let parts: [(&'static str, &'static str, &str, Part); 6] = [
        ("vehicle_front", "centre of gravity behind the front axle", "in", vehicle::front),
        ("vehicle_rear", "centre of gravity ahead of the rear axle", "in", vehicle::rear),
        ("vehicle_ball", "centre of gravity ahead of the ball", "in", vehicle::ball),
        ("vehicle_inertia", "yaw inertia", "kg·m²", vehicle::inertia),
        (
            "vehicle_front_stiffness",
            "side force of the front tires per angle of slip",
            "N/rad",
            vehicle::front_stiffness,
        ),
        (
            "vehicle_rear_stiffness",
            "side force of the rear tires per angle of slip",
            "N/rad",
            vehicle::rear_stiffness,
        ),
    ];
    let of = "the tow vehicle";
    let working = |(key, says, unit, part): (_, _, &str, Part)| {
        Working::of("sway", key, of, says, |work| Ok(part(case, work)?.shown_in(unit))).warned(CAUTION)
    };
    parts.into_iter().map(working).collect()
}

/// How many figures a train is made of.
const INPUTS: usize = 13;

/// The trailer's part of the model in one state.
#[derive(Clone)]
struct Trailer {
    yaw: Yaw,
    l: Figure,
    c: Figure,
    spread: Figure,
    count: u32,
}

/// The whole model in one state, with the speeds at which it shows what is looked for.
struct Model {
    inputs: [Figure; INPUTS],
    count: u32,
    lowest: OnceCell<Lowest>,
}

/// The lowest speeds at which what is looked for is seen.
#[derive(Default)]
struct Lowest {
    snaking: Option<f64>,
    divergence: Option<f64>,
    slow: Option<f64>,
}

/// The damping that ISO 9815 asks a speed of, from memory.
const SLOW_DAMPING: f64 = 0.05;

impl Trailer {
    fn of(case: &Case<'_>, state: &State) -> Known<Self> {
        let (spread, count) = vehicle::spread(case.build)?;
        Ok(Self {
            yaw: yaw(case, state)?,
            l: Figure::coordinate(&case.build.surfaces.axle.clone()?),
            c: vehicle::trailer_stiffness(case, load(case, state), &mut Work::default())?,
            spread,
            count,
        })
    }
}

/// What rests on the axles. Axles that do not share their load through an equaliser are not taken as axles of equal load.
fn load(case: &Case<'_>, state: &State) -> Known<Figure> {
    let (_, count) = vehicle::spread(case.build)?;
    Ok(Weights::of(case.build, state).each_axle()?.scaled(f64::from(count)))
}

impl Model {
    fn of(case: &Case<'_>, trailer: &Known<Trailer>) -> Known<Self> {
        let v = vehicle(case)?;
        let Trailer { yaw, l, c, spread, count } = trailer.clone()?;
        let Yaw { mass, centre, about_centre, .. } = yaw;
        let inputs = [v.m, v.i, v.a, v.b, v.d, v.cf, v.cr, mass, about_centre, centre, l, c, spread];
        let model = Self { inputs, count, lowest: OnceCell::new() };
        model.train(model.values()).roots(1.0).ok_or_else(unsolved)?;
        Ok(model)
    }

    fn lowest(&self) -> &Lowest {
        let signs =
            [Sign::Grows(Kind::Snaking), Sign::Grows(Kind::Divergence), Sign::DampedLess(SLOW_DAMPING)];
        self.lowest.get_or_init(|| match self.train(self.values()).lowest(&signs).as_slice() {
            [snaking, divergence, slow] => Lowest { snaking: *snaking, divergence: *divergence, slow: *slow },
            _ => Lowest::default(),
        })
    }

    fn values(&self) -> [f64; INPUTS] {
        self.inputs.each_ref().map(|input| input.quantity.si())
    }

    fn train(&self, values: [f64; INPUTS]) -> Train {
        let [mass, inertia, front, rear, ball, cf, cr, mt, it, centre, axle, stiffness, spread] = values;
        let axles = axles(axle, stiffness, spread, self.count);
        Train { m: mass, i: inertia, a: front, b: rear, d: ball, cf, cr, mt, it, e: centre, axles }
    }

    /// A figure of the model; how it depends on each of the model's own is found by trying.
    fn figure(&self, dimension: Dimension, formula: impl Fn(&Train) -> f64) -> Figure {
        Figure::by(dimension, self.inputs.each_ref(), |values| formula(&self.train(values)))
    }

    /// Notes what the model is made of.
    fn note(&self, work: &mut Work) -> Known<()> {
        let names = [
            ("m", "mass of the tow vehicle"),
            ("I", "its yaw inertia"),
            ("a", "its front axle to its centre of gravity"),
            ("b", "its centre of gravity to its rear axle"),
            ("d", "its centre of gravity to the ball"),
            ("c₁", "stiffness of its front tires"),
            ("c₂", "stiffness of its rear tires"),
            ("mₜ", "mass of the trailer"),
            ("Iₜ", "its yaw inertia"),
            ("e", "ball to its centre of gravity"),
            ("l", "ball to its axle line"),
            ("c₃", "stiffness of its tires"),
            ("s", "between its axles"),
        ];
        for ((symbol, what), input) in names.into_iter().zip(&self.inputs) {
            work.step(symbol, what, "", Ok(input.clone()), elsewhere())?;
        }
        Ok(())
    }

    /// The lowest speed at which anything grows, and how.
    fn critical(&self) -> Option<(f64, Kind)> {
        let Lowest { snaking, divergence, .. } = self.lowest();
        let found = [(*snaking, Kind::Snaking), (*divergence, Kind::Divergence)];
        let found = found.into_iter().filter_map(|(speed, kind)| Some((speed?, kind)));
        found.min_by(|one, other| one.0.total_cmp(&other.0))
    }
}

/// A figure that stands in the list above by itself, with its own steps.
const fn elsewhere() -> Origin {
    Origin::derived("worked out above")
}

fn axles(l: f64, c: f64, spread: f64, count: u32) -> Vec<TrailerAxle> {
    let number = f64::from(count);
    let place = |at: u32| l + spread * (f64::from(at) - (number - 1.0) / 2.0);
    (0..count).map(|at| TrailerAxle { l: place(at), c: c / number }).collect()
}

/// A model that cannot be solved, as of a trailer without weight.
fn unsolved() -> Missing {
    Missing::new(
        "a model that can be solved",
        None,
        "correct the masses and measures: some of them cannot be real",
    )
}

fn none_below(what: &str) -> Outcome {
    let top = |unit: &str| Unit::find(unit).map_or(TOP_SPEED, |unit| unit.from_si(TOP_SPEED));
    Outcome::None(format!("{what} up to {:.0} mph ({:.0} km/h)", top("mph"), top("km/h")))
}

pub(super) fn of_state(
    case: &Case<'_>,
    state: &State,
    of: &str,
    wanted: &dyn Fn(&str) -> bool,
) -> Vec<Working> {
    let mut listing = Listing { of, wanted, all: Vec::new() };
    let yaw = yaw(case, state);
    let trailer = Trailer::of(case, state);
    of_yaw(case, state, &yaw, &mut listing);
    heavy(&trailer, &mut listing);
    speeds::list(case, &Model::of(case, &trailer), &mut listing);
    listing.all
}

fn of_yaw(case: &Case<'_>, state: &State, yaw: &Known<Yaw>, listing: &mut Listing<'_>) {
    let parallel = || Origin::derived("parallel axes; statics");
    let weights = Weights::of(case.build, state);
    listing.add("yaw_inertia", "yaw inertia about its centre of gravity", |work| {
        let yaw = yaw.clone()?;
        let note =
            "of the empty trailer by itself: as stated, or a plate of its box's size times an assumption";
        work.step("I₀", note, "m/12 · (l² + b²)", Ok(yaw.empty.shown_in("kg·m²")), parallel())?;
        let formula = "Σ (m/12 · (l² + b²) + m · r²)";
        work.step("Iₜ", "of all that is aboard", formula, Ok(yaw.about_centre.shown_in("kg·m²")), parallel())
    });
    listing.add("yaw_inertia_at_ball", "yaw inertia about the ball", |work| {
        let yaw = yaw.clone()?;
        let about = yaw.about_centre.shown_in("kg·m²");
        work.step("Iₜ", "about its centre of gravity", "", Ok(about), elsewhere())?;
        work.step("W", "weight", "", Ok(yaw.mass.clone()), Origin::derived("sum"))?;
        work.step("e", "centre of gravity behind the ball", "", Ok(yaw.centre.clone()), parallel())?;
        let about = yaw.about_ball.shown_in("kg·m²");
        work.step("Iₕ", "about the ball", "Iₜ + W · e²", Ok(about), parallel())
    });
    listing.add("yaw_radius", "radius of gyration in yaw", |work| {
        let yaw = yaw.clone()?;
        work.step("Iₜ", "yaw inertia", "", Ok(yaw.about_centre.shown_in("kg·m²")), elsewhere())?;
        work.step("W", "weight", "", Ok(yaw.mass.clone()), Origin::derived("sum"))?;
        let radius = Figure::by(Dimension::LENGTH, [&yaw.about_centre, &yaw.mass], |[i, w]| (i / w).sqrt());
        let definition = Origin::derived("definition of the radius of gyration");
        work.step("k", "radius", "√(Iₜ / W)", Ok(radius.shown_in("in")), definition)
    });
    listing.add("heavy_ends", "yaw inertia, over that with all aboard at the axle", |work| {
        let yaw = yaw.clone()?;
        work.step("Iₜ", "yaw inertia", "", Ok(yaw.about_centre.shown_in("kg·m²")), elsewhere())?;
        let what = "the same with the middle of all that is aboard at the axle line";
        work.step("I₁", what, "", Ok(yaw.at_axle.shown_in("kg·m²")), parallel())?;
        let ratio = yaw.about_centre.over(&yaw.at_axle).as_share();
        work.step("", "heavy ends", "Iₜ / I₁", Ok(ratio), Origin::derived("definition, ours"))
    });
    listing.add("stability_factor", "half the track over the height of the centre of gravity", |work| {
        work.step("h", "height of the centre of gravity", "", weights.centre_z(), parallel())?;
        let nhtsa = Origin::published("NHTSA, rollover rating notice, chapter V");
        work.step("", "static stability factor", "t / 2h", weights.stability_factor(), nhtsa)
    });
    listing.add("stiffness", "side force of the trailer's tires per angle of slip", |work| {
        Ok(vehicle::trailer_stiffness(case, load(case, state), work)?.shown_in("N/rad"))
    });
}

fn heavy(trailer: &Known<Trailer>, listing: &mut Listing<'_>) {
    let says = "damping ratio at 100 km/h behind a vehicle that nothing moves, in closed form";
    listing.add("damping_heavy_vehicle", says, |work| {
        let Trailer { yaw, l, c, spread, count } = trailer.clone()?;
        work.step("Iₕ", "yaw inertia about the ball", "", Ok(yaw.about_ball.shown_in("kg·m²")), elsewhere())?;
        work.step("l", "ball to the axle line", "", Ok(l.clone()), elsewhere())?;
        work.step("c", "stiffness of the tires", "", Ok(c.shown_in("N/rad")), elsewhere())?;
        let u =
            work.know("u", "speed", constant(100.0, "km/h")?, Origin::derived("the question")).quantity.si();
        let damping = Figure::by(Dimension::NONE, [&yaw.about_ball, &l, &c, &spread], |[i, l, c, s]| {
            heavy_vehicle(i, &axles(l, c, s, count), u).0
        });
        let limit = Origin::derived("the model for a vehicle of no end of weight");
        work.step("ζ", "damping ratio", "Σ c·l² / (2·u·√(Σ c·l · Iₕ))", Ok(damping.as_share()), limit)
    });
}
