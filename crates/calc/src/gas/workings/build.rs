//! Figures of the gas system as a whole.

use pintle_quantity::Dimension;
use pintle_spec::schema::gas::regulator;
use pintle_spec::schema::kinds::appliance;
use pintle_spec::schema::{assume, gas};
use pintle_spec::{Item, Known, Missing};

use super::cylinder::drawn;
use super::{GAS, burn_time, gas_rate};
use crate::air::inside_volume;
use crate::case::Case;
use crate::figure::Figure;
use crate::gas::burning::{connected, gas_in, input, propane_appliances};
use crate::gas::leak::leak_weight;
use crate::gas::line::supply;
use crate::gas::propane::latent_heat;
use crate::origin::Origin;
use crate::space::{given, greatest, least, sum};
use crate::working::{Outcome, Work, Working};

const BUILD: &str = "the build";

pub(super) fn workings(case: &Case<'_>) -> Vec<Working> {
    let build = case.build;
    let burns = propane_appliances(build).map_or(true, |found| !found.is_empty());
    let holds = build.of_kind("cylinder").next().is_some();
    if !burns && !holds {
        return Vec::new();
    }
    let mut all = vec![total(case), rate(case), boiling(case), lasts(case), days(case), drawn_together(case)];
    all.extend(regulator(case));
    all.extend(leaks(case));
    all
}

fn regulator(case: &Case<'_>) -> [Working; 3] {
    let held = || {
        let system = case.build.gas.as_ref();
        let system = system.ok_or_else(|| Missing::new("the gas system", None, "describe it in [gas]"))?;
        system.need_table(&gas::REGULATOR)
    };
    [
        Working::of(GAS, "supply_pressure", BUILD, "pressure that the regulator is set to", |work| {
            work.take("p", "pressure at the regulator", supply(case.build))
        }),
        Working::of(GAS, "regulator_capacity", BUILD, "heat input that the regulator can feed", |work| {
            work.take("P", "heat input it can feed", given(held()?, &regulator::CAPACITY))
        }),
        Working::of(GAS, "two_stage", BUILD, "whether the regulator has two stages", |_| {
            Ok(held()?.need_count(&regulator::STAGES)?.value >= 2)
        }),
    ]
}

fn heat_input(work: &mut Work, case: &Case<'_>) -> Known<Figure> {
    work.take(
        "P",
        "heat input of all propane appliances",
        input(case.build).map(|input| input.shown_in("Btu/h")),
    )
}

fn total(case: &Case<'_>) -> Working {
    Working::of(GAS, "input", BUILD, "heat input of all propane appliances at full flame", |work| {
        heat_input(work, case)
    })
}

fn rate(case: &Case<'_>) -> Working {
    Working::of(GAS, "gas_rate", BUILD, "gas burnt when all burn at full flame", |work| {
        let p = heat_input(work, case)?;
        let h = work.assume("H", case, &assume::GAS, &assume::gas::HEATING_VALUE)?;
        let origin = Origin::derived("definition of the heating value");
        work.step("ṁ", "gas burnt", "P / H", Ok(gas_rate(&p, &h)), origin)
    })
}

fn boiling(case: &Case<'_>) -> Working {
    Working::of(
        GAS,
        "boiling_heat",
        BUILD,
        "heat that boiling takes from the cylinders when all burn at full flame",
        |work| {
            let p = heat_input(work, case)?;
            let h = work.assume("H", case, &assume::GAS, &assume::gas::HEATING_VALUE)?;
            let t = work.assume("T", case, &assume::GAS, &assume::gas::COLDEST_USE)?;
            latent_heat(t.quantity.si())?;
            let q = Figure::by(Dimension::POWER, [&p, &h, &t], |[p, h, t]| {
                p / h * latent_heat(t).unwrap_or(f64::NAN)
            });
            let origin =
                Origin::published("heat of boiling r at T: saturated propane, CoolProp 8.0.0 (computed)");
            work.step("q", "heat to boil it", "P / H · r(T)", Ok(q.shown_in("Btu/h")), origin)
        },
    )
    .warned("it comes from the air about the cylinder; what does not, cools the gas until too little boils")
}

fn connected_bodies<'b>(case: &Case<'b>) -> Known<Vec<&'b Item>> {
    let build = case.build;
    Ok(connected(build)?.into_iter().filter_map(|at| build.items.get(at)).collect())
}

fn connected_gas(work: &mut Work, case: &Case<'_>) -> Known<Figure> {
    let bodies = connected_bodies(case)?;
    let all =
        bodies.into_iter().map(gas_in).collect::<Known<Vec<_>>>().and_then(|all| sum(Dimension::MASS, all));
    work.take("m", "gas in the connected cylinders when full", all)
}

fn lasts(case: &Case<'_>) -> Working {
    Working::of(GAS, "burn_time", BUILD, "how long it feeds every appliance at full flame", |work| {
        let m = connected_gas(work, case)?;
        let h = work.assume("H", case, &assume::GAS, &assume::gas::HEATING_VALUE)?;
        let p = heat_input(work, case)?;
        if p.quantity.si() <= 0.0 {
            return Ok(Outcome::None("nothing burns propane".to_owned()));
        }
        let origin = Origin::derived("definition of the heating value");
        work.step("t", "time", "m · H / P", Ok(burn_time(&m, &h, &p)), origin).map(Outcome::Figure)
    })
}

fn days(case: &Case<'_>) -> Working {
    Working::of(GAS, "days", BUILD, "how many days the connected cylinders last", |work| {
        let m = connected_gas(work, case)?;
        let h = work.assume("H", case, &assume::GAS, &assume::gas::HEATING_VALUE)?;
        let mut parts = Vec::new();
        for (_, burner) in propane_appliances(case.build)? {
            let input = given(&burner.record, &appliance::INPUT)?;
            parts.push(input.times(&given(&burner.record, &appliance::DAILY)?));
        }
        let daily = sum(Dimension::ENERGY, parts).map(|daily| daily.shown_in("Btu"));
        let e = work.step(
            "Ed",
            "heat used in a day",
            "Σ P · t",
            daily,
            Origin::derived("sum over the appliances"),
        )?;
        if e.quantity.si() <= 0.0 {
            return Ok(Outcome::None("no gas is used".to_owned()));
        }
        let day = Figure::by(Dimension::TIME, [&m, &h, &e], |[m, h, e]| m * h / e * 86_400.0).shown_in("d");
        work.step("n", "days", "m · H / Ed", Ok(day), Origin::derived("definition of the heating value"))
            .map(Outcome::Figure)
    })
}

fn drawn_together(case: &Case<'_>) -> Working {
    Working::of(
        GAS,
        "draw_cold",
        BUILD,
        "greatest lasting draw in the coldest use at the least fill",
        |work| {
            let bodies = connected_bodies(case)?;
            let in_turn = if bodies.len() > 1 {
                let system = case.build.gas.as_ref();
                let system =
                    system.ok_or_else(|| Missing::new("the gas system", None, "describe it in [gas]"))?;
                system.need_word(&gas::DRAWN)?.value == "in turn"
            } else {
                false
            };
            let draws = bodies.into_iter().map(|body| {
                let mut own = Work::default();
                drawn(&mut own, case, body)
            });
            let draws = draws.collect::<Known<Vec<_>>>()?;
            let given = if in_turn {
                least(draws)
                    .ok_or_else(|| Missing::new("a connected cylinder", None, "name one in `connected`"))
            } else {
                sum(Dimension::POWER, draws)
            };
            let formula = if in_turn { "the least of theirs" } else { "the sum of theirs" };
            let origin = Origin::derived("each as shown at the cylinder; those in turn feed one at a time");
            work.step("P", "draw", formula, given.map(|draw| draw.shown_in("Btu/h")), origin)
        },
    )
    .warned("an estimate: frost, wind and damp change it, and no table of cylinders below 100 lb was found")
}

fn leaks(case: &Case<'_>) -> [Working; 2] {
    let weight = |work: &mut Work| -> Known<Figure> {
        let v = work.take("V", "air in the living space", inside_volume(case.build))?;
        let limit = work.assume("L", case, &assume::GAS, &assume::gas::LOWER_LIMIT)?;
        let share = work.assume("a", case, &assume::GAS, &assume::gas::ALARM_SHARE)?;
        let rho = work.assume("ρ", case, &assume::GAS, &assume::gas::VAPOUR_DENSITY)?;
        let m = Figure::by(Dimension::MASS, [&v, &limit, &share, &rho], |[v, limit, share, rho]| {
            leak_weight(v, limit, share, rho)
        });
        work.step(
            "m",
            "gas",
            "a · L · V · ρ",
            Ok(m.shown_in("lb")),
            Origin::derived("gas spread evenly in the air"),
        )
    };
    let caution = "spread evenly; propane is heavier than air and lies in a thin layer on the floor, where much less is enough";
    [
        Working::of(
            GAS,
            "leak_to_alarm",
            BUILD,
            "gas that brings the living space to the alarm's limit",
            weight,
        )
        .warned(caution),
        Working::of(
            GAS,
            "leak_time",
            BUILD,
            "how soon the largest burner inside, open and unlit, does so",
            |work| {
                let mut inside = Vec::new();
                for (_, burner) in propane_appliances(case.build)? {
                    if burner.record.need_word(&appliance::USED)?.value == "inside" {
                        inside.push(given(&burner.record, &appliance::INPUT)?);
                    }
                }
                let Some(p) = greatest(inside) else {
                    return Ok(Outcome::None("no propane burner is used inside".to_owned()));
                };
                let p = work.take("P", "heat input of the largest burner inside", Ok(p))?;
                let h = work.assume("H", case, &assume::GAS, &assume::gas::HEATING_VALUE)?;
                let m = weight(work)?;
                let time = Ok(burn_time(&m, &h, &p).shown_in("min"));
                work.step("t", "time", "m · H / P", time, Origin::derived("all shut, gas spread evenly"))
                    .map(Outcome::Figure)
            },
        )
        .warned(caution),
    ]
}
