//! What all tanks hold together and how long it lasts.

use pintle_quantity::{Dimension, Quantity};
use pintle_spec::schema::assume;
use pintle_spec::schema::assume::water as assumed;
use pintle_spec::schema::build::water;
use pintle_spec::schema::build::water::pump;
use pintle_spec::schema::kinds::tank;
use pintle_spec::{Build, Known, Table};

use super::HABITS;
use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::{given, sum};
use crate::water::budget::{Budget, table, use_per_day};
use crate::water::label_water;
use crate::working::{Outcome, Work, Working};

const SUM: Origin = Origin::derived("sum");

pub(super) fn workings(case: &Case<'_>) -> Vec<Working> {
    let build = case.build;
    let of = |key, says| {
        move |work: &dyn Fn(&mut Work) -> Known<Outcome>| Working::of("water", key, "the build", says, work)
    };
    let mut all = vec![
        of("fresh_capacity", "what the fresh tanks hold")(&|work| {
            work.step("F", "fresh tanks", "Σ capacity", fresh(build), SUM).map(Outcome::from)
        }),
        of("grey_capacity", "what the grey tanks hold")(&|work| {
            work.step("G", "grey tanks", "Σ capacity", grey(build), SUM).map(Outcome::from)
        }),
        of("grey_to_fresh", "room for grey water against fresh water carried")(&|work| {
            let f = work.step("F", "fresh tanks", "Σ capacity", fresh(build), SUM)?;
            if f.quantity.si() <= 0.0 {
                return Ok(Outcome::None("there is no fresh tank".to_owned()));
            }
            let g = work.step("G", "grey tanks", "Σ capacity", grey(build), SUM)?;
            let share = Ok(g.over(&f).as_share());
            let origin = Origin::practice("grey tanks hold what the fresh ones do");
            work.step("g", "room for grey against fresh", "G / F", share, origin).map(Outcome::from)
        }),
        of("label_water", "weight of potable water for a label")(&|work| {
            let label = on_label(build);
            let origin =
                Origin::published("49 CFR 571.110 S9.3.5(d), 571.120 S10.4.5(d): 1 kg/L, 8.3 lb/gal");
            work.step("w", "weight for the label", "Σ capacity · 8.3 lb/gal, or 1 kg/L", label, origin)
                .map(Outcome::from)
        })
        .warned("for labels only: real water weighs half a per cent more"),
        of("use_per_day", "water used in a day")(&|work| use_per_day(case, work).map(Outcome::from))
            .warned(HABITS),
        of("days_of_water", "how long full fresh tanks last")(&|work| days(case, work, false)).warned(HABITS),
        of("days_of_grey", "how long empty grey tanks take what is used")(&|work| days(case, work, true))
            .warned(HABITS),
    ];
    let record = build.water.as_ref();
    if record.is_some_and(|record| record.quantity(&water::DAYS).is_some()) {
        all.push(of("water_for_stay", "water that the stated stay takes")(&|work| {
            let u = use_per_day(case, work)?;
            let d = work.take(
                "t",
                "how long it shall last",
                table(build).and_then(|own| given(own, &water::DAYS)),
            )?;
            let day = Figure::constant(Quantity::from_si(86_400.0, Dimension::TIME));
            let needed = u.times(&d.over(&day)).shown_in(unit(&u));
            work.step("V", "water needed", "u · t / 1 day", Ok(needed), SUM).map(Outcome::from)
        }));
    }
    if let Some(own) = record.and_then(|record| record.table(&water::PUMP)) {
        all.push(of("pump_time", "how long the pump takes to empty the fresh tanks")(&|work| {
            let q = work.take("q", "what the pump delivers", given(own, &pump::FLOW))?;
            let f = work.step("F", "fresh tanks", "Σ capacity", fresh(build), SUM)?;
            let time = Ok(f.over(&q).shown_in("min"));
            work.step("t", "time to empty them", "F / q", time, SUM).map(Outcome::from)
        }));
    }
    all
}

fn fresh(build: &Build) -> Known<Figure> {
    Ok(Budget::of(build)?.fresh)
}

fn grey(build: &Build) -> Known<Figure> {
    Ok(Budget::of(build)?.grey)
}

fn unit(figure: &Figure) -> &'static str {
    figure.quantity.unit().map_or("gal", pintle_quantity::Unit::name)
}

fn on_label(build: &Build) -> Known<Figure> {
    let mut weights = Vec::new();
    for (_, body) in build.of_table(Table::Tank) {
        if body.record.need_word(&tank::HOLDS)?.value == "fresh" {
            weights.push(label_water(&given(&body.record, &tank::CAPACITY)?)?);
        }
    }
    sum(Dimension::MASS, weights)
}

/// How long full fresh tanks last, or empty grey ones take what comes back.
fn days(case: &Case<'_>, work: &mut Work, back: bool) -> Known<Outcome> {
    let u = use_per_day(case, work)?;
    if u.quantity.si() <= 0.0 {
        return Ok(Outcome::None("no water is used".to_owned()));
    }
    let day = Figure::constant(Quantity::from_si(86_400.0, Dimension::TIME));
    if !back {
        let f = work.step("F", "fresh tanks", "Σ capacity", fresh(case.build), SUM)?;
        let lasts = Ok(f.over(&u).times(&day).shown_in("d"));
        return work.step("t", "how long it lasts", "F / u · 1 day", lasts, SUM).map(Outcome::from);
    }
    let r = work.assume("r", case, &assume::WATER, &assumed::RETURN)?;
    if r.quantity.si() <= 0.0 {
        return Ok(Outcome::None("none of the water comes back".to_owned()));
    }
    let g = work.step("G", "grey tanks", "Σ capacity", grey(case.build), SUM)?;
    let lasts = Ok(g.over(&u.times(&r)).times(&day).shown_in("d"));
    work.step("t", "how long they take it", "G / (u · r) · 1 day", lasts, SUM).map(Outcome::from)
}
