//! Figures of each camp state: what sleepers breathe through a night, and where the damp settles.

use pintle_quantity::Dimension;
use pintle_spec::schema::assume;
use pintle_spec::schema::assume::air as given_air;
use pintle_spec::{Known, Missing, State, Use};

use super::burners::{Fumes, fumes};
use super::draught::draught;
use super::{AIR, known};
use crate::air::{
    dew_point, humidity_ratio, inside_volume, mean_share, saturation_pressure, seconds_to_share, share_after,
    sleeper_carbon_dioxide, sleepers, vapour_pressure_of,
};
use crate::case::Case;
use crate::figure::Figure;
use crate::gas::ATMOSPHERE;
use crate::origin::Origin;
use crate::space::alike;
use crate::working::{Outcome, Work, Working};

/// Carbon dioxide that may not be exceeded over eight hours at work, as a share: 5,000 ppm (OSHA).
pub const WORK_LIMIT: f64 = 5000e-6;
const WORK_LIMIT_SOURCE: &str =
    "OSHA limit over 8 h at work, 29 CFR 1910.1000 (quoted); chemicals 1.5.2 has the same";
/// Gas constant of dry air, in J/(kg·K).
const DRY_AIR: f64 = 287.042;

const MIXED: &str = "V dC/dt = G − Q(C − Co), air well mixed, solved";
const CAUTION: &str = "reckoned, not measured, for well-mixed air and vents kept clear; carbon monoxide is no part of it: fit alarms";

pub(super) fn workings(case: &Case<'_>) -> Vec<Working> {
    let camps = case.build.states.iter().filter(|state| state.used == Use::Camp);
    camps.flat_map(|state| of_state(case, state)).collect()
}

fn of_state(case: &Case<'_>, state: &State) -> Vec<Working> {
    let of = || format!("state `{}`", state.name.value);
    let night = |key: &'static str,
                 says: &'static str,
                 what: fn(&mut Work, &Case<'_>, &Sleeping) -> Known<Outcome>| {
        Working::of(AIR, key, of(), says, |work| match sleeping(work, case, state)? {
            Some(sleeping) => what(work, case, &sleeping),
            None => Ok(Outcome::None("nobody sleeps inside".to_owned())),
        })
        .warned(CAUTION)
    };
    vec![
        night("carbon_dioxide", "carbon dioxide that the sleepers inside give off", |_, _, sleeping| {
            Ok(Outcome::Figure(sleeping.g.clone()))
        }),
        night("air_each", "air that each sleeper inside gets on a mild, still night", air_each),
        night(
            "co2_steady",
            "carbon dioxide in the end, on a mild, still night with the fixed vents open",
            steady,
        ),
        night("co2_morning", "carbon dioxide in the morning", |work, case, sleeping| {
            night_share(work, case, sleeping, "C₂", "carbon dioxide in the morning", share_after)
        }),
        night("co2_mean", "carbon dioxide through the night, on average", |work, case, sleeping| {
            night_share(work, case, sleeping, "Cm", "carbon dioxide on average", mean_share)
        }),
        night("shut_time", "how long all can be shut until there are 5,000 ppm", shut),
        night("moisture", "water given off inside through the evening and the night", moisture),
        night("dew_point", "highest dew point inside on a cold, still night", highest_dew_point),
        night("humidity", "relative humidity inside in the morning of a cold, still night", humidity),
        night("surface", "temperature of the coldest surface inside on a cold night", |work, case, _| {
            surface(work, case).map(Outcome::Figure)
        }),
        night("dew_margin", "coldest surface above the dew point; below it water settles", dew_margin),
    ]
}

/// Who sleeps inside, and what they give off.
pub(super) struct Sleeping {
    pub(super) n: Figure,
    pub(super) g: Figure,
}

pub(super) fn sleeping(work: &mut Work, case: &Case<'_>, state: &State) -> Known<Option<Sleeping>> {
    let count = sleepers(case.build, state)?.inside;
    if count == 0 {
        return Ok(None);
    }
    let n = Figure::constant(pintle_quantity::Quantity::from_si(f64::from(count), Dimension::NONE));
    let n = work.take("N", "sleepers inside", Ok(n))?;
    let bmr = work.assume("BMR", case, &assume::AIR, &given_air::BASAL_RATE)?;
    let m = work.assume("M", case, &assume::AIR, &given_air::ASLEEP)?;
    let t = work.assume("Ti", case, &assume::AIR, &given_air::INSIDE)?;
    let each = Figure::by(Dimension::FLOW, [&bmr, &m, &t], |[bmr, m, t]| sleeper_carbon_dioxide(bmr, m, t));
    let source =
        "Persily and de Jonge 2017, Indoor Air 27:868, quoted in public code (seen), at 0 °C; brought to Ti";
    let formula = "0.000484 · BMR[MJ/d] · M · Ti/273.15 K, in L/s";
    let each = work.step(
        "G₁",
        "carbon dioxide from each",
        formula,
        Ok(each.shown_in("L/min")),
        Origin::published(source),
    )?;
    let g = Ok(each.times(&n).shown_in("L/min"));
    let g = work.step("G", "carbon dioxide from all", "N · G₁", g, Origin::derived("sum"))?;
    Ok(Some(Sleeping { n, g }))
}

fn air_each(work: &mut Work, case: &Case<'_>, sleeping: &Sleeping) -> Known<Outcome> {
    let q = draught(work, case, &given_air::MILD_NIGHT)?;
    let each = Ok(q.over(&sleeping.n).shown_in("cfm"));
    work.step("q", "air for each", "Q / N", each, Origin::derived("shared alike")).map(Outcome::Figure)
}

fn ppm(figure: &Figure) -> Figure {
    figure.shown_in("ppm")
}

fn outdoors(work: &mut Work, case: &Case<'_>) -> Known<Figure> {
    work.assume("Co", case, &assume::AIR, &given_air::OUTDOOR_CO2).map(|share| ppm(&share))
}

fn steady(work: &mut Work, case: &Case<'_>, sleeping: &Sleeping) -> Known<Outcome> {
    let q = draught(work, case, &given_air::MILD_NIGHT)?;
    let outside = outdoors(work, case)?;
    if q.quantity.si() <= 0.0 {
        return Ok(Outcome::None("without a flow it rises as long as people sleep".to_owned()));
    }
    let end = alike(outside.plus(&sleeping.g.over(&q))).map(|share| ppm(&share));
    work.step("Css", "in the end", "Co + G / Q", end, Origin::derived(MIXED)).map(Outcome::Figure)
}

/// The room's volume in m³.
pub(super) fn volume(work: &mut Work, case: &Case<'_>) -> Known<Figure> {
    let v =
        work.take("V", "air in the living space", inside_volume(case.build).map(|v| v.shown_in("ft³")))?;
    if v.quantity.si() > 0.0 {
        return Ok(v);
    }
    Err(Missing::new(
        "a living space with air in it",
        None,
        "the modules inside take up more than the room: correct their sizes",
    ))
}

/// How it comes on with time: share at the start and outside, what is given off, flow, volume, time.
type Course = fn(f64, f64, f64, f64, f64, f64) -> f64;

/// The share after flueless burners have burnt before people lie down; that outside, where there are none.
pub(super) fn at_bedtime(
    work: &mut Work,
    case: &Case<'_>,
    sleeping: &Sleeping,
    q: &Figure,
    v: &Figure,
) -> Known<Figure> {
    let outside = outdoors(work, case)?;
    let Fumes { carbon_dioxide, burners, .. } = fumes(work, case)?;
    if burners == 0 {
        return Ok(outside);
    }
    let t = work.assume("tc", case, &assume::AIR, &given_air::COOKING)?;
    let g = alike(carbon_dioxide.plus(&sleeping.g))?;
    let share = Figure::by(Dimension::NONE, [&outside, &g, q, v, &t], |[out, g, q, v, t]| {
        share_after(out, out, g, q, v, t)
    });
    work.step(
        "C₁",
        "carbon dioxide at bedtime",
        "Co + (G + Gb)/V · (1 − e^(−n·tc))/n",
        Ok(ppm(&share)),
        Origin::derived(MIXED),
    )
}

fn night_share(
    work: &mut Work,
    case: &Case<'_>,
    sleeping: &Sleeping,
    symbol: &'static str,
    what: &'static str,
    course: Course,
) -> Known<Outcome> {
    let q = draught(work, case, &given_air::MILD_NIGHT)?;
    let v = volume(work, case)?;
    let start = at_bedtime(work, case, sleeping, &q, &v)?;
    let outside = case.assumed(&assume::AIR, &given_air::OUTDOOR_CO2)?.0;
    let t = work.assume("t", case, &assume::AIR, &given_air::NIGHT)?;
    let inputs = [&start, &outside, &sleeping.g, &q, &v, &t];
    let share =
        Figure::by(Dimension::NONE, inputs, |[start, out, g, q, v, t]| course(start, out, g, q, v, t));
    let formula = if symbol == "Cm" {
        "mean of C(t) from 0 to t"
    } else {
        "Co + (C₁ − Co)e^(−n·t) + G/V · (1 − e^(−n·t))/n, n = Q/V"
    };
    work.step(symbol, what, formula, Ok(ppm(&share)), Origin::derived(MIXED)).map(Outcome::Figure)
}

fn shut(work: &mut Work, case: &Case<'_>, sleeping: &Sleeping) -> Known<Outcome> {
    let v = volume(work, case)?;
    let outside = outdoors(work, case)?;
    let limit = work.know(
        "C",
        "limit",
        known(WORK_LIMIT, Dimension::NONE, "ppm"),
        Origin::published(WORK_LIMIT_SOURCE),
    );
    let time = Figure::by(Dimension::TIME, [&outside, &limit, &sleeping.g, &v], |[out, limit, g, v]| {
        seconds_to_share(out, limit, g, v)
    });
    let origin = Origin::derived("no flow at all; a limit for eight hours at work, no goal for a bedroom");
    work.step("t", "time", "(C − Co) · V / G", Ok(time.shown_in("h")), origin).map(Outcome::Figure)
}

/// Water given off: before people lie down and for how long, and through the night and for how long.
struct Water {
    evening: Figure,
    cooking: Figure,
    night: Figure,
    asleep: Figure,
}

fn water(work: &mut Work, case: &Case<'_>, sleeping: &Sleeping) -> Known<Water> {
    let each = work.assume("ṁ₁", case, &assume::AIR, &given_air::PERSON_MOISTURE)?;
    let night = Ok(each.times(&sleeping.n));
    let night = work.step("ṁ", "water from sleepers", "N · ṁ₁", night, Origin::derived("sum"))?;
    let asleep = work.assume("t", case, &assume::AIR, &given_air::NIGHT)?;
    let Fumes { water, burners, cooks, .. } = fumes(work, case)?;
    if burners == 0 {
        let cooking = known(0.0, Dimension::TIME, "min");
        return Ok(Water { evening: night.clone(), cooking, night, asleep });
    }
    let cooking = work.assume("tc", case, &assume::AIR, &given_air::COOKING)?;
    let flames = alike(night.plus(&water));
    let evening = if cooks {
        let steam = work.assume("ṁs", case, &assume::AIR, &given_air::STEAM)?;
        let all = flames.and_then(|sum| alike(sum.plus(&steam)));
        work.step("ṁe", "water while burners burn", "ṁ + ṁb + ṁs", all, Origin::derived("sum"))?
    } else {
        work.step("ṁe", "water while burners burn", "ṁ + ṁb", flames, Origin::derived("sum"))?
    };
    Ok(Water { evening, cooking, night, asleep })
}

fn moisture(work: &mut Work, case: &Case<'_>, sleeping: &Sleeping) -> Known<Outcome> {
    let water = water(work, case, sleeping)?;
    let all = alike(water.evening.times(&water.cooking).plus(&water.night.times(&water.asleep)));
    let all = all.map(|all| all.shown_in("lb"));
    work.step("m", "water", "ṁe · tc + ṁ · t", all, Origin::derived("sum")).map(Outcome::Figure)
}

/// Water in each weight of dry air at bedtime and in the morning of a cold, still night.
fn courses(work: &mut Work, case: &Case<'_>, sleeping: &Sleeping) -> Known<[Figure; 2]> {
    let q = draught(work, case, &given_air::COLD_NIGHT)?;
    let v = volume(work, case)?;
    let water = water(work, case, sleeping)?;
    let ti = case.assumed(&assume::AIR, &given_air::INSIDE)?.0;
    let to = case.assumed(&assume::AIR, &given_air::COLD_NIGHT)?.0;
    let outdoors = work.assume("φo", case, &assume::AIR, &given_air::OUTDOOR_HUMIDITY)?;
    let hyland = "ASHRAE Fundamentals 2017, chapter 1, equations 5, 6 and 20, as in psychrolib 2.5.0";
    let out = Figure::by(Dimension::NONE, [&outdoors, &to], |[share, to]| {
        humidity_ratio(share * saturation_pressure(to), ATMOSPHERE)
    });
    let wo = work.step(
        "wo",
        "water in the air outside",
        "0.621945 · p/(p₀ − p), p = φo · ps(To)",
        Ok(out),
        Origin::published(hyland),
    )?;
    // Dry air in the room, by its weight.
    let ratio = |g: f64, q: f64, v: f64, ti: f64, start: f64, out: f64, t: f64| {
        let density = ATMOSPHERE / (DRY_AIR * ti);
        share_after(start, out, g / density, q, v, t)
    };
    let inputs = [&wo, &water.evening, &q, &v, &ti, &water.cooking];
    let evening =
        Figure::by(Dimension::NONE, inputs, |[out, g, q, v, ti, t]| ratio(g, q, v, ti, out, out, t));
    let balance = "water and dry air each in balance; dry air of one atmosphere at Ti";
    let formula = "wo + ṁe/(ρ·V) · (1 − e^(−n·tc))/n, n = Q/V";
    let w1 =
        work.step("w₁", "water in the air at bedtime", formula, Ok(evening), Origin::derived(balance))?;
    let inputs = [&w1, &wo, &water.night, &q, &v, &ti, &water.asleep];
    let morning =
        Figure::by(Dimension::NONE, inputs, |[start, out, g, q, v, ti, t]| ratio(g, q, v, ti, start, out, t));
    let formula = "wo + (w₁ − wo)e^(−n·t) + ṁ/(ρ·V) · (1 − e^(−n·t))/n";
    let w2 =
        work.step("w₂", "water in the air in the morning", formula, Ok(morning), Origin::derived(balance))?;
    Ok([w1, w2])
}

fn dew_of(work: &mut Work, w: &Figure) -> Known<Figure> {
    let dew = Figure::by(Dimension::TEMPERATURE, [w], |[w]| dew_point(vapour_pressure_of(w, ATMOSPHERE)));
    if !dew.quantity.si().is_finite() {
        return Err(Missing::new(
            "a dew point between -100 °C and 200 °C",
            None,
            "correct what is assumed of water given off",
        ));
    }
    let source =
        "ASHRAE Fundamentals 2017, chapter 1, equations 5 and 6, solved for T; nothing settles on the way";
    work.step(
        "Td",
        "dew point",
        "ps(Td) = p₀ · w/(0.621945 + w)",
        Ok(dew.shown_in("°F")),
        Origin::published(source),
    )
}

/// The highest dew point of the night: at bedtime or in the morning, since it goes one way in between.
fn highest(work: &mut Work, case: &Case<'_>, sleeping: &Sleeping) -> Known<Figure> {
    let [evening, morning] = courses(work, case, sleeping)?;
    let most = alike(evening.greater(&morning));
    let w = work.step(
        "w",
        "the most water",
        "the greater of w₁ and w₂",
        most,
        Origin::derived("it goes one way in between"),
    )?;
    dew_of(work, &w)
}

fn highest_dew_point(work: &mut Work, case: &Case<'_>, sleeping: &Sleeping) -> Known<Outcome> {
    highest(work, case, sleeping).map(Outcome::Figure)
}

fn humidity(work: &mut Work, case: &Case<'_>, sleeping: &Sleeping) -> Known<Outcome> {
    let [_, morning] = courses(work, case, sleeping)?;
    let ti = case.assumed(&assume::AIR, &given_air::INSIDE)?.0;
    let share = Figure::by(Dimension::NONE, [&morning, &ti], |[w, ti]| {
        vapour_pressure_of(w, ATMOSPHERE) / saturation_pressure(ti)
    });
    let origin = Origin::derived("more than 100 % means that water has settled by then");
    work.step("φ", "relative humidity", "p(w₂)/ps(Ti)", Ok(share.as_share()), origin).map(Outcome::Figure)
}

fn surface(work: &mut Work, case: &Case<'_>) -> Known<Figure> {
    let ti = work.assume("Ti", case, &assume::AIR, &given_air::INSIDE)?;
    let to = work.assume("To", case, &assume::AIR, &given_air::COLD_NIGHT)?;
    let f = work.assume("f", case, &assume::AIR, &given_air::SURFACE)?;
    let t =
        Figure::by(Dimension::TEMPERATURE, [&ti, &to, &f], |[ti, to, f]| to + f * (ti - to)).shown_in("°F");
    work.step(
        "Ts",
        "coldest surface",
        "To + f · (Ti − To)",
        Ok(t),
        Origin::derived("definition of the temperature factor"),
    )
}

fn dew_margin(work: &mut Work, case: &Case<'_>, sleeping: &Sleeping) -> Known<Outcome> {
    let dew = highest(work, case, sleeping)?;
    let surface = surface(work, case)?;
    let margin = alike(surface.minus(&dew));
    work.step("ΔT", "margin", "Ts − Td", margin, Origin::derived("water settles where this is below zero"))
        .map(Outcome::Figure)
}
