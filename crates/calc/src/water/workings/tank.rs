//! What can be said of a tank by itself.

use pintle_spec::schema::assume;
use pintle_spec::schema::assume::water as assumed;
use pintle_spec::schema::build::water;
use pintle_spec::schema::item;
use pintle_spec::schema::kinds::tank;
use pintle_spec::{Item, Known};

use super::{NO_WAVES, density};
use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::{Where, alike, between, constant, given, least, whereabouts};
use crate::water::budget::table;
use crate::water::fill_that_may_freeze;
use crate::water::near::apart;
use crate::water::road::{is_metric, most_slosh, water_at};
use crate::working::{Outcome, Working};

pub(super) fn workings(case: &Case<'_>, at: usize, body: &Item) -> Vec<Working> {
    let mut all = vec![
        full(body),
        behind_axle(case, body),
        slosh(case, body),
        frost_fill(case, body),
        could_freeze(case, at, body),
        to_battery(case, body),
    ];
    if body.removable {
        all.push(lift(body));
        all.push(of(body, "lift_height", "height of its underside, to which it is lifted", |work| {
            let height = body.extent.z.near.clone().map(|bottom| Figure::coordinate(&bottom));
            work.take("z", "underside above the ground", height).map(Outcome::from)
        }));
    }
    all
}

fn of(
    body: &Item,
    key: &'static str,
    says: &'static str,
    work: impl FnOnce(&mut crate::working::Work) -> Known<Outcome>,
) -> Working {
    Working::of("water", key, body.called(), says, work)
}

fn whole() -> Known<Figure> {
    Ok(constant(100.0, "%")?.as_share())
}

fn full(body: &Item) -> Working {
    of(body, "water_full", "weight of the water in it when full", |work| {
        work.take("V", "what it holds", given(&body.record, &tank::CAPACITY))?;
        work.step("m", "weight of water", "V · 8.34 lb/gal", water_at(body, &whole()?), density())
            .map(Outcome::from)
    })
}

fn behind_axle(case: &Case<'_>, body: &Item) -> Working {
    of(body, "behind_axle", "how far the middle of its water is behind the axle", |work| {
        let middle = || Ok(body.extent.x.near.clone()?.mean(&body.extent.x.far.clone()?));
        let middle = middle();
        let x = work.take("x", "middle of it behind the ball", as_figure(&middle))?;
        let axle = case.build.surfaces.axle.clone();
        work.take("L", "axle behind the ball", as_figure(&axle))?;
        let behind = between(&axle?, &middle?);
        let unit = x.quantity.unit().map_or("in", pintle_quantity::Unit::name);
        let origin = Origin::derived("difference; negative ahead of the axle");
        work.step("d", "behind the axle", "x − L", Ok(behind.shown_in(unit)), origin).map(Outcome::from)
    })
}

fn as_figure(place: &Known<pintle_spec::Coordinate>) -> Known<Figure> {
    place.as_ref().map(Figure::coordinate).map_err(Clone::clone)
}

fn slosh(case: &Case<'_>, body: &Item) -> Working {
    of(body, "slosh_moment", "greatest moment of its water's shift at any fill it may have on the road", |work| {
        let s = work.assume("s", case, &assume::WATER, &assumed::SLOSH)?;
        work.take("L", "its length fore and aft", given(&body.record, &item::LENGTH))?;
        work.take("H", "its height", given(&body.record, &item::HEIGHT))?;
        work.take("V", "what it holds", given(&body.record, &tank::CAPACITY))?;
        let unit = if is_metric(body) { "kg·m" } else { "lb·in" };
        let moment = most_slosh(body, &s).map(|moment| moment.shown_in(unit));
        let origin = Origin::derived("statics: at the fill nearest to one half, Δx = s L² / (12 h) while floor and roof leave the surface free");
        work.step("M", "weight × shift", "m · Δx", moment, origin).map(Outcome::from)
    })
    .warned(NO_WAVES)
}

fn frost_fill(case: &Case<'_>, body: &Item) -> Working {
    of(body, "fill_before_frost", "how full it may be for its water to freeze in it", |work| {
        let e = work.assume("e", case, &assume::WATER, &assumed::ICE)?;
        let share =
            Figure::by(pintle_quantity::Dimension::NONE, [&e], |[e]| fill_that_may_freeze(e)).as_share();
        work.step(
            "f",
            "greatest fill",
            "1 / (1 + e)",
            Ok(share),
            Origin::derived("water grows as it freezes"),
        )
        .map(Outcome::from)
    })
    .warned("pipes, pump and valves burst before a tank does: drain them")
}

fn could_freeze(case: &Case<'_>, at: usize, body: &Item) -> Working {
    of(body, "could_freeze", "whether its water could freeze", |_| {
        if !table(case.build)?.need_flag(&water::WINTER)?.value {
            return Ok(Outcome::Flag(false));
        }
        let guarded = |word| matches!(word, "drained" | "heated");
        if body.record.word(&tank::FROST).is_some_and(|frost| guarded(frost.value)) {
            return Ok(Outcome::Flag(false));
        }
        if whereabouts(case.build, at)?.place == Where::SleepingSpace {
            return Ok(Outcome::Flag(false));
        }
        // Insulation only delays it; but where nobody says what is done, nobody knows.
        body.record.need_word(&tank::FROST)?;
        Ok(Outcome::Flag(true))
    })
    .warned("the room that people sleep in is taken as heated while there is water aboard")
}

fn to_battery(case: &Case<'_>, body: &Item) -> Working {
    of(body, "battery_gap", "distance to the nearest battery", |work| {
        let mut gaps = Vec::new();
        for (_, battery) in case.build.of_kind("battery") {
            let gap = apart(&body.extent, &battery.extent);
            let what = format!("from box to box, to {}", battery.called());
            gaps.push(work.step("a", what, "", gap, Origin::derived("geometry"))?);
        }
        Ok(least(gaps).map_or_else(|| Outcome::None("there is no battery".to_owned()), Outcome::Figure))
    })
}

fn lift(body: &Item) -> Working {
    of(body, "can_lift", "what has to be lifted when it is full", |work| {
        let m = work.step("m", "weight of water", "V · 8.34 lb/gal", water_at(body, &whole()?), density())?;
        let own = work.take("e", "empty weight", given(&body.record, &item::MASS))?;
        work.step("w", "in all", "m + e", alike(m.plus(&own)), Origin::derived("sum")).map(Outcome::from)
    })
}
