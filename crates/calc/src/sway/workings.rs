//! Every figure of the topic, with how it came about.

use pintle_quantity::{Dimension, Quantity, Unit};
use pintle_spec::schema::assume::{self, sway};
use pintle_spec::{Known, Missing, State, Use};

use super::arranged;
use super::inertia::{Yaw, yaw};
use super::model::{Kind, Root, TOP_SPEED, TrailerAxle, Train, heavy_vehicle};
use super::vehicle::{self, Vehicle};
use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::constant;
use crate::weights::Weights;
use crate::working::{Outcome, Work, Working};

/// What a reader must know of every figure of the model.
const CAUTION: &str = "a tool for trends: rigid bodies, tires that never let go, a driver who does nothing, a dry and level \
     road without wind; compare arrangements with it, and take no speed from it as safe";

const MODEL: Origin = Origin::derived(
    "roots of the linear yaw-plane model of vehicle and trailer, steering fixed; see the page on sway",
);

/// Every figure of this topic for a build.
pub fn workings(case: &Case<'_>) -> Vec<Working> {
    let mut all = of_vehicle(case);
    let road = || case.build.states.iter().filter(|state| state.used == Use::Road);
    for state in road() {
        all.extend(of_state(case, state, &format!("state `{}`", state.name.value)));
    }
    if road().next().is_none() {
        return all;
    }
    match arranged::worst(case) {
        Ok(states) => {
            for state in states {
                all.extend(of_state(case, &state, &format!("arrangement `{}`", state.name.value)));
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

fn of_vehicle(case: &Case<'_>) -> Vec<Working> {
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

/// All that the model needs for one state.
#[derive(Clone)]
struct Ready {
    yaw: Yaw,
    l: Figure,
    c: Figure,
    spread: Figure,
    count: u32,
}

const INPUTS: usize = 13;

impl Ready {
    fn of(case: &Case<'_>, state: &State) -> Known<Self> {
        let weights = Weights::of(case.build, state);
        let (spread, count) = vehicle::spread(case.build)?;
        // Axles that do not share their load through an equaliser are no axles of equal load.
        let load = weights.each_axle().map(|each| each.scaled(f64::from(count)));
        Ok(Self {
            yaw: yaw(case, state)?,
            l: Figure::coordinate(&case.build.surfaces.axle.clone()?),
            c: vehicle::trailer_stiffness(case, load, &mut Work::default())?,
            spread,
            count,
        })
    }

    fn inputs<'f>(&'f self, v: &'f Vehicle) -> [&'f Figure; INPUTS] {
        let Yaw { mass, centre, about_centre, .. } = &self.yaw;
        [
            &v.m,
            &v.i,
            &v.a,
            &v.b,
            &v.d,
            &v.cf,
            &v.cr,
            mass,
            about_centre,
            centre,
            &self.l,
            &self.c,
            &self.spread,
        ]
    }
}

fn axles(l: f64, c: f64, spread: f64, count: u32) -> Vec<TrailerAxle> {
    let number = f64::from(count);
    let place = |at: u32| l + spread * (f64::from(at) - (number - 1.0) / 2.0);
    (0..count).map(|at| TrailerAxle { l: place(at), c: c / number }).collect()
}

fn train(values: [f64; INPUTS], count: u32) -> Train {
    let [mass, inertia, front, rear, ball, cf, cr, mt, it, centre, axle, stiffness, spread] = values;
    let axles = axles(axle, stiffness, spread, count);
    Train { m: mass, i: inertia, a: front, b: rear, d: ball, cf, cr, mt, it, e: centre, axles }
}

/// Notes what the model is made of, and gives its figures.
fn note<'f>(work: &mut Work, ready: &'f Ready, v: &'f Vehicle) -> Known<[&'f Figure; INPUTS]> {
    let elsewhere = || Origin::derived("worked out above");
    let inputs = ready.inputs(v);
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
    for ((symbol, what), input) in names.into_iter().zip(inputs) {
        work.step(symbol, what, "", Ok(input.clone()), elsewhere())?;
    }
    Ok(inputs)
}

/// A speed that figures are asked for at, with their names.
struct At {
    damping: [&'static str; 2],
    frequency: [&'static str; 2],
    settles: [&'static str; 2],
    /// In km/h; none for the towing speed that is assumed.
    speed: Option<f64>,
}

const AT: [At; 3] = [
    At {
        damping: ["damping_at_80_km_h", "damping ratio of the yaw mode at 80 km/h (50 mph)"],
        frequency: ["frequency_at_80_km_h", "frequency of the yaw mode at 80 km/h (50 mph)"],
        settles: ["settles_at_80_km_h", "every motion dies away at 80 km/h (50 mph)"],
        speed: Some(80.0),
    },
    At {
        damping: ["damping_at_100_km_h", "damping ratio of the yaw mode at 100 km/h (62 mph)"],
        frequency: ["frequency_at_100_km_h", "frequency of the yaw mode at 100 km/h (62 mph)"],
        settles: ["settles_at_100_km_h", "every motion dies away at 100 km/h (62 mph)"],
        speed: Some(100.0),
    },
    At {
        damping: ["damping_at_towing_speed", "damping ratio of the yaw mode at towing speed"],
        frequency: ["frequency_at_towing_speed", "frequency of the yaw mode at towing speed"],
        settles: ["settles_at_towing_speed", "every motion dies away at towing speed"],
        speed: None,
    },
];

impl At {
    /// A speed is what is asked about; how sure anybody is of it plays no part.
    fn speed(&self, case: &Case<'_>, work: &mut Work) -> Known<f64> {
        let figure = match self.speed {
            Some(speed) => work.know("u", "speed", constant(speed, "km/h")?, Origin::derived("the question")),
            None => work.assume("u", case, &assume::SWAY, &sway::SPEED)?,
        };
        Ok(figure.quantity.si())
    }
}

/// A model that cannot be solved, as of a trailer without weight.
fn unsolved() -> Missing {
    Missing::new(
        "a model that can be solved",
        None,
        "correct the masses and measures: some of them cannot be real",
    )
}

fn of_state(case: &Case<'_>, state: &State, of: &str) -> Vec<Working> {
    let ready = Ready::of(case, state);
    let yaw = yaw(case, state);
    let mut all = of_yaw(case, state, of, &yaw);
    let vehicle = vehicle::vehicle(case);
    let both = || -> Known<(Ready, Vehicle)> { Ok((ready.clone()?, vehicle.clone()?)) };
    for at in &AT {
        let root = |pick: fn(Root) -> f64, dimension: Dimension, work: &mut Work| -> Known<Outcome> {
            let (ready, v) = both()?;
            let inputs = note(work, &ready, &v)?;
            let u = at.speed(case, work)?;
            let mode = |values| train(values, ready.count).roots(u).map(|roots| roots.yaw_mode());
            if mode(inputs.map(|input| input.quantity.si())).ok_or_else(unsolved)?.is_none() {
                return Ok(Outcome::None("nothing swings at this speed".to_owned()));
            }
            let picked = |values| mode(values).flatten().map_or(f64::NAN, pick);
            Ok(Figure::by(dimension, inputs, picked).into())
        };
        let [key, says] = at.damping;
        all.push(Working::of("sway", key, of, says, |work| {
            let outcome = root(Root::damping, Dimension::NONE, work)?;
            settled(work, "ζ", says, "−Re λ / |λ|", outcome)
        }));
        let [key, says] = at.frequency;
        all.push(Working::of("sway", key, of, says, |work| {
            let outcome = root(Root::frequency, Dimension::FREQUENCY, work)?;
            settled(work, "f", says, "|λ| / 2π", outcome)
        }));
        let [key, says] = at.settles;
        all.push(Working::of("sway", key, of, says, |work| {
            let (ready, v) = both()?;
            let values = note(work, &ready, &v)?.map(|input| input.quantity.si());
            let u = at.speed(case, work)?;
            Ok(train(values, ready.count).roots(u).ok_or_else(unsolved)?.settles())
        }));
    }
    all.extend(speeds(of, &both));
    all.into_iter().map(|working| working.warned(CAUTION)).collect()
}

/// Notes the last step, where there is a figure.
fn settled(
    work: &mut Work,
    symbol: &'static str,
    says: &str,
    formula: &'static str,
    outcome: Outcome,
) -> Known<Outcome> {
    if let Outcome::Figure(figure) = &outcome {
        work.step(symbol, says, formula, Ok(figure.clone()), MODEL)?;
    }
    Ok(outcome)
}

fn none_below(what: &str) -> Outcome {
    let top = Unit::find("km/h").map_or(TOP_SPEED, |unit| unit.from_si(TOP_SPEED));
    Outcome::None(format!("{what} up to {top:.0} km/h"))
}

/// The damping that ISO 9815 asks a speed of, from memory.
const SLOW_DAMPING: f64 = 0.05;

fn speeds(of: &str, both: &dyn Fn() -> Known<(Ready, Vehicle)>) -> Vec<Working> {
    // What a train of nominal values has, and the same speed for one that is almost the same.
    type Nominal<'n> = &'n dyn Fn(&Train) -> Option<f64>;
    type Near<'n> = &'n dyn Fn(&Train, f64) -> f64;
    let speed = |work: &mut Work, nominal: Nominal<'_>, near: Near<'_>, none: &str| -> Known<Outcome> {
        let (ready, v) = both()?;
        let inputs = note(work, &ready, &v)?;
        let at = inputs.map(|input| input.quantity.si());
        let train_of = |values| train(values, ready.count);
        train_of(at).roots(1.0).ok_or_else(unsolved)?;
        let Some(found) = nominal(&train_of(at)) else { return Ok(none_below(none)) };
        let figure = Figure::by(Dimension::SPEED, inputs, |values| near(&train_of(values), found));
        let figure = Figure::traced(Quantity::from_si(found, Dimension::SPEED), figure.trace).shown_in("mph");
        settled(work, "u", "speed", "lowest u with such a root", figure.into())
    };
    let kind = |work: &mut Work, kind: Kind, none: &str| {
        let nominal = |train: &Train| train.crossing(kind).map(|crossing| crossing.speed);
        speed(work, &nominal, &|train, found| train.crossing_near(kind, found), none)
    };
    let critical = |train: &Train| train.critical();
    vec![
        Working::of("sway", "critical_speed", of, "lowest speed at which a motion grows", |work| {
            let (ready, v) = both()?;
            let at = ready.inputs(&v).map(|input| input.quantity.si());
            let first = critical(&train(at, ready.count)).map_or(Kind::Snaking, |crossing| crossing.kind);
            kind(work, first, "nothing grows")
        }),
        Working::of("sway", "critical_kind", of, "how it becomes unstable", |work| {
            let (ready, v) = both()?;
            let at = note(work, &ready, &v)?.map(|input| input.quantity.si());
            let found = critical(&train(at, ready.count));
            let word = |kind: Kind| Outcome::Text(kind.word().to_owned());
            Ok(found.map_or_else(|| none_below("nothing grows"), |crossing| word(crossing.kind)))
        }),
        Working::of(
            "sway",
            "zero_damping_speed",
            of,
            "lowest speed at which it swings without damping",
            |work| kind(work, Kind::Snaking, "no swing grows"),
        ),
        Working::of(
            "sway",
            "divergence_speed",
            of,
            "lowest speed at which the tow vehicle turns in and stays",
            |work| kind(work, Kind::Divergence, "the tow vehicle does not turn in"),
        ),
        Working::of("sway", "slow_damping_speed", of, "lowest speed at which damping is 0.05", |work| {
            let nominal = |train: &Train| train.damped_less(SLOW_DAMPING);
            let near = |train: &Train, found: f64| train.damped_less_near(SLOW_DAMPING, found);
            speed(work, &nominal, &near, "damping is more than 0.05")
        }),
    ]
}

fn of_yaw(case: &Case<'_>, state: &State, of: &str, yaw: &Known<Yaw>) -> Vec<Working> {
    let parallel = || Origin::derived("parallel axes; statics");
    let weights = Weights::of(case.build, state);
    vec![
        Working::of("sway", "yaw_inertia", of, "yaw inertia about its centre of gravity", |work| {
            let yaw = yaw.clone()?;
            let note =
                "of the empty trailer by itself: as stated, or a plate of its box's size times an assumption";
            work.step("I₀", note, "m/12 · (l² + b²)", Ok(yaw.empty), parallel())?;
            let formula = "Σ (m/12 · (l² + b²) + m · r²)";
            work.step(
                "Iₜ",
                "of all that is aboard",
                formula,
                Ok(yaw.about_centre.shown_in("kg·m²")),
                parallel(),
            )
        }),
        Working::of("sway", "yaw_inertia_at_ball", of, "yaw inertia about the ball", |work| {
            let yaw = yaw.clone()?;
            work.step("Iₜ", "about its centre of gravity", "", Ok(yaw.about_centre.clone()), parallel())?;
            work.step("W", "weight", "", Ok(yaw.mass.clone()), Origin::derived("sum"))?;
            work.step("e", "centre of gravity behind the ball", "", Ok(yaw.centre.clone()), parallel())?;
            let about = yaw.about_ball.shown_in("kg·m²");
            work.step("Iₕ", "about the ball", "Iₜ + W · e²", Ok(about), parallel())
        }),
        Working::of("sway", "yaw_radius", of, "radius of gyration in yaw", |work| {
            let yaw = yaw.clone()?;
            work.step("Iₜ", "yaw inertia", "", Ok(yaw.about_centre.clone()), parallel())?;
            work.step("W", "weight", "", Ok(yaw.mass.clone()), Origin::derived("sum"))?;
            let radius =
                Figure::by(Dimension::LENGTH, [&yaw.about_centre, &yaw.mass], |[i, w]| (i / w).sqrt());
            let definition = Origin::derived("definition of the radius of gyration");
            work.step("k", "radius", "√(Iₜ / W)", Ok(radius.shown_in("in")), definition)
        }),
        Working::of("sway", "heavy_ends", of, "yaw inertia, over that with all aboard at the axle", |work| {
            let yaw = yaw.clone()?;
            work.step("Iₜ", "yaw inertia", "", Ok(yaw.about_centre.clone()), parallel())?;
            let what = "the same with the middle of all that is aboard at the axle line";
            work.step("I₁", what, "", Ok(yaw.at_axle.clone()), parallel())?;
            let ratio = yaw.about_centre.over(&yaw.at_axle).as_share();
            work.step("", "heavy ends", "Iₜ / I₁", Ok(ratio), Origin::derived("definition, ours"))
        }),
        Working::of(
            "sway",
            "stability_factor",
            of,
            "half the track over the height of the centre of gravity",
            |work| {
                work.step("h", "height of the centre of gravity", "", weights.centre_z(), parallel())?;
                let nhtsa = Origin::published("NHTSA, rollover rating notice, chapter V");
                work.step("", "static stability factor", "t / 2h", weights.stability_factor(), nhtsa)
            },
        ),
        Working::of("sway", "stiffness", of, "side force of the trailer's tires per angle of slip", |work| {
            let load = weights
                .each_axle()
                .and_then(|each| Ok(each.scaled(f64::from(vehicle::spread(case.build)?.1))));
            Ok(vehicle::trailer_stiffness(case, load, work)?.shown_in("N/rad"))
        }),
        heavy(case, state, of, yaw),
    ]
}

fn heavy(case: &Case<'_>, state: &State, of: &str, yaw: &Known<Yaw>) -> Working {
    let says = "damping ratio at 100 km/h behind a vehicle that nothing moves, in closed form";
    Working::of("sway", "damping_heavy_vehicle", of, says, |work| {
        let yaw = yaw.clone()?;
        let ready = Ready::of(case, state)?;
        let elsewhere = || Origin::derived("worked out above");
        work.step("Iₕ", "yaw inertia about the ball", "", Ok(yaw.about_ball.clone()), elsewhere())?;
        work.step("l", "ball to the axle line", "", Ok(ready.l.clone()), elsewhere())?;
        work.step("c", "stiffness of the tires", "", Ok(ready.c.clone()), elsewhere())?;
        let u = constant(100.0, "km/h")?;
        let speed = u.quantity.si();
        work.know("u", "speed", u, Origin::derived("the question"));
        let count = ready.count;
        let inputs = [&yaw.about_ball, &ready.l, &ready.c, &ready.spread];
        let damping = Figure::by(Dimension::NONE, inputs, |[i, l, c, s]| {
            heavy_vehicle(i, &axles(l, c, s, count), speed).0
        });
        let limit = Origin::derived("the model for a vehicle of no end of weight");
        work.step("ζ", "damping ratio", "Σ c·l² / (2·u·√(Σ c·l · Iₕ))", Ok(damping), limit)
    })
}
