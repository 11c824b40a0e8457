//! Tires.

use pintle_spec::schema::assume;
use pintle_spec::schema::trailer::{self, tire};
use pintle_spec::{Known, Use};

use super::{Loaded, TOPIC, of_build};
use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::place::figures;
use crate::ratings::{gawr, tire_rating, tires_a_side, tires_of_axle};
use crate::road::tires::{least_reserve, reserve};
use crate::space::{alike, given, greatest};
use crate::weights::Weights;
use crate::working::{Work, Working};

const RATED: Origin = Origin::published(
    "49 CFR 571.110 S4.2.2.1 and S4.2.2.2, 2015 edition: tires made for passenger cars count for 1/1.10",
);

/// The speed at which it is towed: in each place its limit, else what is assumed; of several places the fastest.
fn speed(work: &mut Work, case: &Case<'_>) -> Known<Figure> {
    let mut limits = Vec::new();
    for place in case.places.of(case.build)? {
        if place.figure(&figures::MOST_SPEED).is_ok() {
            limits.push(super::take_of(work, "v", place, &figures::MOST_SPEED)?);
        } else {
            limits.push(work.assume("v", case, &assume::ROAD, &assume::road::SPEED)?);
        }
    }
    // It is towed in all of them: the fastest counts.
    greatest(limits).map_or_else(|| work.assume("v", case, &assume::ROAD, &assume::road::SPEED), Ok)
}

pub(super) fn workings(case: &Case<'_>, _loaded: &Loaded<'_>) -> Vec<Working> {
    let build = case.build;
    let mut all =
        vec![of_build("tire_sum_margin", "what the tires of an axle carry beyond its rating", |work| {
            let t =
                work.step("R", "rating of the tires of one axle", "n · R₁", tires_of_axle(build), RATED)?;
            let g = work.take("GAWR", "rating of the axle", gawr(build))?;
            work.step("m", "what is left", "R − GAWR", alike(t.minus(&g)), Origin::derived("difference"))
        })];
    for (at, state) in build.states.iter().enumerate().filter(|(_, state)| state.used == Use::Road) {
        let of = format!("state `{}`", state.name.value);
        all.push(Working::of(
            TOPIC,
            "tire_reserve",
            of,
            "what the heaviest tire has left of its rating",
            |work| {
                let r = work.step("R", "rating of each tire", "", tire_rating(build), RATED)?;
                let wheel = Weights::of_state(build, at).heaviest_wheel();
                let load = wheel.and_then(|wheel| Ok(wheel.scaled(1.0 / tires_a_side(build)?)));
                let f = work.step(
                    "F",
                    "load of the heaviest tire",
                    "",
                    load,
                    Origin::derived("moments about the centreline"),
                )?;
                work.step("q", "what is left", "1 − F / R", Ok(reserve(&r, &f)), Origin::derived("share"))
            },
        ));
    }
    all.push(of_build(
        "least_tire_reserve",
        "what the heaviest tire has left over all road arrangements",
        |work| work.step("q", "what is left", "1 − F / R", least_reserve(build), RATED),
    ));
    let own = || build.trailer.need_table(&trailer::TIRE);
    all.push(of_build("tire_age", "age of the oldest tire", |work| {
        work.take("a", "age by its date code", given(own()?, &tire::AGE))
    }));
    all.push(of_build(
        "tire_speed_margin",
        "what the tires may beyond the speed at which it is towed",
        |work| {
            let v = speed(work, case)?;
            let tires = own()?;
            let rated = if tires.quantity(&tire::SPEED).is_some() {
                work.take("V", "speed marked on the tire", given(tires, &tire::SPEED))?
            } else if tires.need_word(&tire::MADE_FOR)?.value == "trailers" {
                work.assume("V", case, &assume::ROAD, &assume::road::TIRE_SPEED)?
            } else {
                return Err(tires.missing(&tire::SPEED));
            };
            work.step("m", "what is left", "V − v", alike(rated.minus(&v)), Origin::derived("difference"))
        },
    ));
    all.push(of_build("tires_alike", "whether all tires are of one size, construction and make", |_| {
        Ok(own()?.need_flag(&tire::ALIKE)?.value)
    }));
    all
}
