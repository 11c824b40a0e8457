//! Damping at some speeds, and the speeds at which there is none or at which the tow vehicle turns in.

use pintle_quantity::{Dimension, Quantity};
use pintle_spec::Known;
use pintle_spec::schema::assume::{self, sway};

use super::{Model, SLOW_DAMPING, none_below, unsolved};
use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::constant;
use crate::sway::model::{Kind, Root, Roots, Sign};
use crate::working::{Outcome, Work, Working};

const MODEL: Origin = Origin::derived(
    "roots of the linear yaw-plane model of vehicle and trailer, steering fixed; see the page on sway",
);

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

    /// Something of the yaw mode at this speed; none where nothing swings.
    fn mode(
        &self,
        case: &Case<'_>,
        model: &Known<Model>,
        work: &mut Work,
        dimension: Dimension,
        pick: fn(Root) -> f64,
    ) -> Known<Option<Figure>> {
        let model = model.as_ref().map_err(Clone::clone)?;
        model.note(work)?;
        let u = self.speed(case, work)?;
        let roots = model.train(model.values()).roots(u).ok_or_else(unsolved)?;
        let of = |roots: Roots| roots.yaw_mode().map(pick);
        Ok(of(roots)
            .map(|_| model.figure(dimension, |train| train.roots(u).and_then(of).unwrap_or(f64::NAN))))
    }

    fn workings(&self, case: &Case<'_>, name: &str, model: &Known<Model>) -> [Working; 3] {
        let still = || Outcome::None("nothing swings at this speed".to_owned());
        let [key, says] = self.damping;
        let damping = Working::of("sway", key, name, says, |work| {
            let Some(figure) = self.mode(case, model, work, Dimension::NONE, Root::damping)? else {
                return Ok(still());
            };
            Ok(work.step("ζ", says, "−Re λ / |λ|", Ok(figure.as_share()), MODEL)?.into())
        });
        let [key, says] = self.frequency;
        let frequency = Working::of("sway", key, name, says, |work| {
            let Some(figure) = self.mode(case, model, work, Dimension::FREQUENCY, Root::frequency)? else {
                return Ok(still());
            };
            Ok(work.step("f", says, "|λ| / 2π", Ok(figure.shown_in("Hz")), MODEL)?.into())
        });
        let [key, says] = self.settles;
        let settles = Working::of("sway", key, name, says, |work| {
            let model = model.as_ref().map_err(Clone::clone)?;
            model.note(work)?;
            let u = self.speed(case, work)?;
            Ok(model.train(model.values()).roots(u).ok_or_else(unsolved)?.settles())
        });
        [damping, frequency, settles]
    }
}

/// Damping, and speeds, of one state or arrangement.
pub(super) fn workings(case: &Case<'_>, of: &str, model: &Known<Model>) -> Vec<Working> {
    let mut all: Vec<Working> = AT.iter().flat_map(|at| at.workings(case, of, model)).collect();
    let speed = |key, says, sign: fn(&Model) -> Option<(f64, Sign)>, none: &str| {
        Working::of("sway", key, of, says, |work| {
            let model = model.as_ref().map_err(Clone::clone)?;
            model.note(work)?;
            let Some((found, sign)) = sign(model) else { return Ok(none_below(none)) };
            // The speed as it was found; the train beside it says how it depends on what the model is made of.
            let by = model.figure(Dimension::SPEED, |train| train.near(sign, found));
            let figure = Figure::traced(Quantity::from_si(found, Dimension::SPEED), by.trace).shown_in("mph");
            Ok(work.step("u", says, "lowest u with such a root", Ok(figure), MODEL)?.into())
        })
    };
    all.push(speed(
        "critical_speed",
        "lowest speed at which a motion grows",
        |model| model.critical().map(|(speed, kind)| (speed, Sign::Grows(kind))),
        "nothing grows",
    ));
    all.push(Working::of("sway", "critical_kind", of, "how it becomes unstable", |work| {
        let model = model.as_ref().map_err(Clone::clone)?;
        model.note(work)?;
        let kind = model.critical().map(|(_, kind)| Outcome::Text(kind.word().to_owned()));
        Ok(kind.unwrap_or_else(|| none_below("nothing grows")))
    }));
    all.push(speed(
        "zero_damping_speed",
        "lowest speed at which it swings without damping",
        |model| Some((model.snaking?, Sign::Grows(Kind::Snaking))),
        "no swing grows",
    ));
    all.push(speed(
        "divergence_speed",
        "lowest speed at which the tow vehicle turns in and stays",
        |model| Some((model.divergence?, Sign::Grows(Kind::Divergence))),
        "the tow vehicle does not turn in",
    ));
    all.push(speed(
        "slow_damping_speed",
        "lowest speed at which the damping ratio is 5 %",
        |model| Some((model.slow?, Sign::DampedLess(SLOW_DAMPING))),
        "the damping ratio is more than 5 %",
    ));
    all
}
