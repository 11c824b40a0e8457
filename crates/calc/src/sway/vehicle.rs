//! What the model needs of the tow vehicle and of the trailer's tires, from the spec or from assumptions that say so.

use pintle_quantity::{Dimension, Quantity};
use pintle_spec::schema::assume::{self, sway};
use pintle_spec::schema::{tow, trailer};
use pintle_spec::{Build, Known, Missing, Record};

use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::{alike, given};
use crate::working::Work;

/// What is known of the tow vehicle, as the model needs it.
#[derive(Debug, Clone)]
pub(super) struct Vehicle {
    pub(super) m: Figure,
    pub(super) i: Figure,
    pub(super) a: Figure,
    pub(super) b: Figure,
    pub(super) d: Figure,
    pub(super) cf: Figure,
    pub(super) cr: Figure,
}

pub(super) fn vehicle(case: &Case<'_>) -> Known<Vehicle> {
    let quiet = &mut Work::default();
    Ok(Vehicle {
        m: given(the_tow(case.build)?, &tow::MASS)?,
        i: inertia(case, quiet)?,
        a: front(case, quiet)?,
        b: rear(case, quiet)?,
        d: ball(case, quiet)?,
        cf: front_stiffness(case, quiet)?,
        cr: rear_stiffness(case, quiet)?,
    })
}

fn the_tow(build: &Build) -> Known<&Record> {
    build.tow.as_ref().ok_or_else(|| {
        Missing::new(
            "the tow vehicle",
            Some(build.number.span),
            "add `[tow]` with `mass`, `wheelbase` and `overhang`, or name a stock part in it",
        )
    })
}

/// Share of the tow vehicle's weight on its front axle.
fn front_share(case: &Case<'_>, work: &mut Work) -> Known<Figure> {
    let tow = the_tow(case.build)?;
    let weighed = [&tow::FRONT_AXLE, &tow::REAR_AXLE].into_iter().any(|axle| tow.value(axle.key).is_some());
    if !weighed {
        return work.assume("s", case, &assume::SWAY, &sway::FRONT_SHARE);
    }
    let front = work.take("F", "weight on the front axle", given(tow, &tow::FRONT_AXLE))?;
    let rear = work.take("R", "weight on the rear axle", given(tow, &tow::REAR_AXLE))?;
    let share = Ok(front.over(&alike(front.plus(&rear))?).as_share());
    work.step("s", "share on the front axle", "F / (F + R)", share, Origin::derived("definition"))
}

const BEAM: Origin = Origin::derived("statics of a beam on two supports");

/// From the front axle back to the centre of gravity.
pub(super) fn front(case: &Case<'_>, work: &mut Work) -> Known<Figure> {
    let w = work.take("w", "wheelbase", given(the_tow(case.build)?, &tow::WHEELBASE))?;
    let s = front_share(case, work)?;
    work.step("a", "front axle to centre of gravity", "w · (1 − s)", alike(w.minus(&w.times(&s))), BEAM)
}

/// From the centre of gravity back to the rear axle.
pub(super) fn rear(case: &Case<'_>, work: &mut Work) -> Known<Figure> {
    let w = work.take("w", "wheelbase", given(the_tow(case.build)?, &tow::WHEELBASE))?;
    let s = front_share(case, work)?;
    work.step("b", "centre of gravity to rear axle", "w · s", Ok(w.times(&s)), BEAM)
}

/// From the centre of gravity back to the ball.
pub(super) fn ball(case: &Case<'_>, work: &mut Work) -> Known<Figure> {
    let b = rear(case, work)?;
    let o = work.take("o", "rear axle to ball", given(the_tow(case.build)?, &tow::OVERHANG))?;
    work.step("d", "centre of gravity to ball", "b + o", alike(b.plus(&o)), Origin::derived("geometry"))
}

/// The vehicle's yaw inertia about its centre of gravity.
pub(super) fn inertia(case: &Case<'_>, work: &mut Work) -> Known<Figure> {
    let tow = the_tow(case.build)?;
    if tow.quantity(&tow::YAW_INERTIA).is_some() {
        return work.take("I", "yaw inertia", given(tow, &tow::YAW_INERTIA));
    }
    let m = work.take("m", "mass", given(tow, &tow::MASS))?;
    let quiet = &mut Work::default();
    let a = work.step("a", "front axle to centre of gravity", "", front(case, quiet), BEAM)?;
    let b = work.step("b", "centre of gravity to rear axle", "", rear(case, quiet), BEAM)?;
    let k = work.assume("k", case, &assume::SWAY, &sway::DYNAMIC_INDEX)?;
    let inertia = k.times(&m).times(&a).times(&b);
    work.step("I", "yaw inertia", "k · m · a · b", Ok(inertia), Origin::derived("definition of the index"))
}

/// Standard gravity.
fn gravity(work: &mut Work) -> Figure {
    let g = Figure::constant(Quantity::from_si(9.806_65, Dimension::ACCELERATION));
    work.know("g", "standard gravity", g, Origin::memory("ISO 80000-3, conventional value"))
}

const SLIP: Origin = Origin::derived("definition of the cornering coefficient");

pub(super) fn front_stiffness(case: &Case<'_>, work: &mut Work) -> Known<Figure> {
    let tow = the_tow(case.build)?;
    if tow.quantity(&tow::FRONT_STIFFNESS).is_some() {
        return work.take("c", "stiffness of the front tires", given(tow, &tow::FRONT_STIFFNESS));
    }
    let m = work.take("m", "mass", given(tow, &tow::MASS))?;
    let s = front_share(case, work)?;
    let g = gravity(work);
    let k = work.assume("k", case, &assume::SWAY, &sway::FRONT_COEFFICIENT)?;
    let stiffness = Ok(k.times(&s.times(&m).times(&g)));
    work.step("c", "stiffness of the front tires", "k · s · m · g", stiffness, SLIP)
}

pub(super) fn rear_stiffness(case: &Case<'_>, work: &mut Work) -> Known<Figure> {
    let tow = the_tow(case.build)?;
    if tow.quantity(&tow::REAR_STIFFNESS).is_some() {
        return work.take("c", "stiffness of the rear tires", given(tow, &tow::REAR_STIFFNESS));
    }
    let m = work.take("m", "mass", given(tow, &tow::MASS))?;
    let s = front_share(case, work)?;
    let g = gravity(work);
    let k = work.assume("k", case, &assume::SWAY, &sway::REAR_COEFFICIENT)?;
    let on_rear = alike(m.minus(&s.times(&m)))?;
    let stiffness = Ok(k.times(&on_rear.times(&g)));
    work.step("c", "stiffness of the rear tires", "k · (1 − s) · m · g", stiffness, SLIP)
}

/// Stiffness of all tires of the trailer, which `load` rests on.
pub(super) fn trailer_stiffness(case: &Case<'_>, load: Known<Figure>, work: &mut Work) -> Known<Figure> {
    let axle = case.build.trailer.need_table(&trailer::AXLE)?;
    let count = f64::from(axle.need_count(&trailer::axle::COUNT)?.value);
    if axle.quantity(&trailer::axle::STIFFNESS).is_some() {
        let each =
            work.take("c₁", "stiffness of the tires of one axle", given(axle, &trailer::axle::STIFFNESS))?;
        let all = Ok(each.scaled(count));
        return work.step("c", "of all axles", "n · c₁", all, Origin::derived("sum"));
    }
    let load = work.step("A", "load on the axles", "", load, BEAM)?;
    let g = gravity(work);
    let k = work.assume("k", case, &assume::SWAY, &sway::TRAILER_COEFFICIENT)?;
    work.step("c", "stiffness of the trailer's tires", "k · A · g", Ok(k.times(&load.times(&g))), SLIP)
}

/// Between the axles of a group, and how many there are. A group counts as axles of equal load.
pub(super) fn spread(build: &Build) -> Known<(Figure, u32)> {
    let axle = build.trailer.need_table(&trailer::AXLE)?;
    let count = axle.need_count(&trailer::axle::COUNT)?.value;
    if count < 2 {
        return Ok((Figure::constant(Quantity::from_si(0.0, Dimension::LENGTH)), count));
    }
    Ok((given(axle, &trailer::axle::SPREAD)?, count))
}
