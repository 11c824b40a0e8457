//! Damping at some speeds, and the speeds at which there is none or at which the tow vehicle turns in.

use pintle_quantity::{Dimension, Quantity};
use pintle_spec::Known;
use pintle_spec::schema::assume::{self, sway};

use super::{Listing, Model, SLOW_DAMPING, none_below, unsolved};
use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::constant;
use crate::sway::model::{Kind, Root, Roots, Sign};
use crate::working::{Outcome, Work};

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

    fn list(&self, case: &Case<'_>, model: &Known<Model>, listing: &mut Listing<'_>) {
        let still = || Outcome::None("nothing swings at this speed".to_owned());
        let [key, says] = self.damping;
        listing.add(key, says, |work| {
            let Some(figure) = self.mode(case, model, work, Dimension::NONE, Root::damping)? else {
                return Ok(still());
            };
            Ok(work.step("ζ", says, "−Re λ / |λ|", Ok(figure.as_share()), MODEL)?.into())
        });
        let [key, says] = self.frequency;
        listing.add(key, says, |work| {
            let Some(figure) = self.mode(case, model, work, Dimension::FREQUENCY, Root::frequency)? else {
                return Ok(still());
            };
            Ok(work.step("f", says, "|λ| / 2π", Ok(figure.shown_in("Hz")), MODEL)?.into())
        });
        let [key, says] = self.settles;
        listing.add(key, says, |work| {
            let model = model.as_ref().map_err(Clone::clone)?;
            model.note(work)?;
            let u = self.speed(case, work)?;
            Ok(model.train(model.values()).roots(u).ok_or_else(unsolved)?.settles())
        });
    }
}

/// A speed to look for, with its names.
struct Sought {
    key: &'static str,
    says: &'static str,
    /// The speed and the sign that is seen there.
    at: fn(&Model) -> Option<(f64, Sign)>,
    /// What to say where there is no such speed.
    none: &'static str,
}

const SOUGHT: [Sought; 4] = [
    Sought {
        key: "critical_speed",
        says: "lowest speed at which a motion grows",
        at: |model| model.critical().map(|(speed, kind)| (speed, Sign::Grows(kind))),
        none: "nothing grows",
    },
    Sought {
        key: "zero_damping_speed",
        says: "lowest speed at which it swings without damping",
        at: |model| Some((model.lowest().snaking?, Sign::Grows(Kind::Snaking))),
        none: "no swing grows",
    },
    Sought {
        key: "divergence_speed",
        says: "lowest speed at which the tow vehicle turns in and stays",
        at: |model| Some((model.lowest().divergence?, Sign::Grows(Kind::Divergence))),
        none: "the tow vehicle does not turn in",
    },
    Sought {
        key: "slow_damping_speed",
        says: "lowest speed at which the damping ratio is 5 %",
        at: |model| Some((model.lowest().slow?, Sign::DampedLess(SLOW_DAMPING))),
        none: "the damping ratio is more than 5 %",
    },
];

/// Damping, and speeds, of one state or arrangement.
pub(super) fn list(case: &Case<'_>, model: &Known<Model>, listing: &mut Listing<'_>) {
    for at in &AT {
        at.list(case, model, listing);
    }
    for Sought { key, says, at, none } in &SOUGHT {
        listing.add(key, says, |work| {
            let model = model.as_ref().map_err(Clone::clone)?;
            model.note(work)?;
            let Some((found, sign)) = at(model) else { return Ok(none_below(none)) };
            // The speed as it was found; the train beside it says how it depends on what the model is made of.
            let by = model.figure(Dimension::SPEED, |train| train.near(sign, found));
            let figure = Figure::traced(Quantity::from_si(found, Dimension::SPEED), by.trace).shown_in("mph");
            Ok(work.step("u", *says, "lowest u with such a root", Ok(figure), MODEL)?.into())
        });
    }
    listing.add("critical_kind", "how it becomes unstable", |work| {
        let model = model.as_ref().map_err(Clone::clone)?;
        model.note(work)?;
        let kind = model.critical().map(|(_, kind)| Outcome::Text(kind.word().to_owned()));
        Ok(kind.unwrap_or_else(|| none_below("nothing grows")))
    });
}
