//! Figures of the lines, and of each appliance at the end of them.

use pintle_quantity::Dimension;
use pintle_spec::schema::assume;
use pintle_spec::schema::gas::line;
use pintle_spec::{Item, Known, Record};

use super::{GAS, known};
use crate::case::Case;
use crate::figure::Figure;
use crate::gas::burning::propane_appliances;
use crate::gas::line::{Section, called, is_high, lines, load, longest, sections, supply, way};
use crate::gas::pipe::{CR_PROPANE, PIPES, Size, TUBES, smallest};
use crate::origin::Origin;
use crate::space::{alike, given, sum};
use crate::working::{Outcome, Work, Working};

const NFPA: &str =
    "low-pressure equation of NFPA 54, constants from memory; it gives the published propane tables to 0.4 %";
/// Weight of dry air at 60 °F and one atmosphere, in kg/m³.
const AIR: f64 = 1.2232;
const NAMED: &str = "by NFPA 54; Spitzglass gives about a third less flow, and an older table of the same code 5 % less: compare like with like";

pub(super) fn workings(case: &Case<'_>) -> Vec<Working> {
    let build = case.build;
    let mut all = Vec::new();
    let burners = match propane_appliances(build) {
        Ok(burners) => burners,
        Err(missing) => {
            all.push(Working::of(
                GAS,
                "pressure_drop",
                "the build",
                "pressure lost between regulator and it, by NFPA 54",
                |_| Err::<Outcome, _>(missing),
            ));
            Vec::new()
        }
    };
    for (_, burner) in &burners {
        all.extend(of_appliance(case, burner));
    }
    if lines(build).is_empty() {
        return all;
    }
    all.push(longest_run(case));
    for record in lines(build) {
        all.extend(of_line(case, record));
    }
    all.extend(lists(case));
    all
}

fn vapour(work: &mut Work, case: &Case<'_>) -> Known<Figure> {
    let h = work.assume("H", case, &assume::GAS, &assume::gas::HEATING_VALUE)?;
    let rho = work.assume("ρ", case, &assume::GAS, &assume::gas::VAPOUR_DENSITY)?;
    let heat = Ok(h.times(&rho));
    work.step("h", "heat in a volume of vapour", "H · ρ", heat, Origin::derived("60 °F and one atmosphere"))
}

fn each(
    work: &mut Work,
    sections: &[Section],
    lost: impl Fn(&Section) -> Figure,
    origin: &Origin,
    formula: &'static str,
) -> Known<Figure> {
    let mut losses = Vec::new();
    for section in sections.iter().rev() {
        work.step(
            "Q",
            format!("flow in line `{}`", section.name),
            "Σ P / h",
            Ok(section.flow.clone().shown_in("cfm")),
            Origin::derived("all beyond it at full flame"),
        )?;
        work.take(
            "L",
            format!("length of line `{}` with its fittings", section.name),
            Ok(section.length.clone()),
        )?;
        work.take("D", format!("inside diameter of line `{}`", section.name), Ok(section.bore.clone()))?;
        losses.push(work.step(
            "ΔH",
            format!("lost in line `{}`", section.name),
            formula,
            Ok(lost(section)),
            origin.clone(),
        )?);
    }
    let lost = sum(Dimension::PRESSURE, losses).map(|lost| lost.shown_in("inH2O"));
    work.step("ΔH", "lost on the way", "Σ ΔH", lost, Origin::derived("sections one after another"))
}

const FORMULA: &str = "Cr · L · (Q^0.381 / (19.17 D))^(1/0.206)";

fn nfpa(work: &mut Work, case: &Case<'_>, burner: &Item) -> Known<Figure> {
    let vapour = vapour(work, case)?;
    let sections = sections(case.build, burner, &vapour)?;
    each(work, &sections, Section::lost, &Origin::memory(NFPA), FORMULA)
}

fn of_appliance(case: &Case<'_>, burner: &Item) -> Vec<Working> {
    let of = || burner.called();
    vec![
        Working::of(
            GAS,
            "pressure_drop",
            of(),
            "pressure lost between regulator and it, by NFPA 54",
            |work| nfpa(work, case, burner),
        )
        .warned(NAMED),
        Working::of(
            GAS,
            "pressure_drop_spitzglass",
            of(),
            "the same by Spitzglass, to compare with tables made by it",
            |work| {
                let vapour = vapour(work, case)?;
                let rho = work.assume("ρ", case, &assume::GAS, &assume::gas::VAPOUR_DENSITY)?;
                let air = known(AIR, Dimension::DENSITY, "lb/ft³");
                let air = work.know(
                    "ρa",
                    "weight of air",
                    air,
                    Origin::derived("dry air at 60 °F and one atmosphere, CoolProp 8.0.0"),
                );
                let s = work.step(
                    "S",
                    "weight against air",
                    "ρ / ρa",
                    Ok(rho.over(&air)),
                    Origin::derived("definition"),
                )?;
                let sections = sections(case.build, burner, &vapour)?;
                let origin = Origin::published("Spitzglass, low pressure, as in fluids 1.3.1");
                each(
                    work,
                    &sections,
                    |section| section.lost_by_spitzglass(&s),
                    &origin,
                    "(Q/3550)² · S · L · (1 + 3.6/D + 0.03 D) / D⁵",
                )
            },
        )
        .warned("no figure of this formula may be held against today's tables of NFPA 54"),
        Working::of(GAS, "pressure_left", of(), "pressure that reaches it when all burn", |work| {
            let p = work.take("p", "pressure at the regulator", supply(case.build))?;
            let lost = nfpa(work, case, burner)?;
            let left = alike(p.minus(&lost)).map(|left| left.shown_in("inH2O"));
            work.step("p₁", "pressure left", "p − ΔH", left, Origin::derived("what is lost is lost"))
        }),
        Working::of(GAS, "shutoff", of(), "whether a valve on the way shuts it off", |_| {
            let way = way(case.build, burner)?;
            let shuts = |record: &&Record| record.flag(&line::SHUTOFF).is_some_and(|flag| flag.value);
            if way.iter().any(shuts) {
                return Ok(true);
            }
            // None is known to shut it off: every line must say that it has none.
            way.into_iter()
                .try_fold(false, |_, record| record.need_flag(&line::SHUTOFF).map(|flag| flag.value))
        }),
    ]
}

fn longest_run(case: &Case<'_>) -> Working {
    Working::of(
        GAS,
        "longest_run",
        "the build",
        "length of the longest way from the regulator, with its fittings",
        |work| match longest(case.build)? {
            None => Ok(Outcome::None("nothing burns propane".to_owned())),
            Some(run) => work.take("L", "the longest way", Ok(run)).map(Outcome::Figure),
        },
    )
}

fn of_line(case: &Case<'_>, record: &Record) -> Vec<Working> {
    let of = || called(record);
    let loaded = Working::of(GAS, "load", of(), "heat input of all that it feeds", |work| {
        work.take("P", "heat input beyond it", load(case.build, record).map(|load| load.shown_in("Btu/h")))
    });
    let long = Working::of(GAS, "length", of(), "its own length", |work| {
        work.take("L", "its length", given(record, &line::LENGTH))
    });
    let sized = |key: &'static str, says: &'static str, sizes: &'static [Size]| {
        Working::of(GAS, key, of(), says, |work| {
            if is_high(case.build, record)? {
                return Ok(Outcome::None(
                    "it lies before the regulator, or has more than 14 in of water in it".to_owned(),
                ));
            }
            let vapour = vapour(work, case)?;
            let load = load(case.build, record)?;
            let flow = load.over(&vapour).shown_in("cfm");
            let q = work.step(
                "Q",
                "flow in it",
                "P / h",
                Ok(flow),
                Origin::derived("all beyond it at full flame"),
            )?;
            let Some(l) = longest(case.build)? else {
                return Ok(Outcome::None("nothing burns propane".to_owned()));
            };
            let l = work.take("L", "the longest way from the regulator", Ok(l))?;
            let dh = work.assume("ΔH", case, &assume::GAS, &assume::gas::DROP)?;
            let si = |figure: &Figure| figure.quantity.si();
            let found = smallest(sizes, si(&q), si(&l), si(&dh), CR_PROPANE)?;
            let d = crate::space::constant(found.inside, "in")?;
            let origin = if found.seen {
                Origin::published("inside diameter as printed over a table of NFPA 54 (seen)")
            } else {
                Origin::memory("inside diameter of copper tube, type K")
            };
            work.know("D", format!("inside diameter of {}", found.name), d, origin);
            Ok(Outcome::Text(found.name.to_owned()))
        })
        .warned(NAMED)
    };
    vec![
        long,
        loaded,
        sized("pipe_needed", "smallest steel pipe that is enough, by the longest length", &PIPES),
        sized("tube_needed", "smallest copper tube that is enough, by the longest length", &TUBES),
    ]
}

/// Lines of which something is so; a line that does not say is missing.
fn those(case: &Case<'_>, so: impl Fn(&Record) -> Known<bool>) -> Known<Vec<String>> {
    let mut found = Vec::new();
    for record in lines(case.build) {
        if so(record)? {
            found.push(called(record));
        }
    }
    Ok(found)
}

fn runs(record: &Record, place: &str) -> Known<bool> {
    let places = record.words(&line::RUNS).ok_or_else(|| record.missing(&line::RUNS))?;
    Ok(places.iter().any(|held| held.value == place))
}

fn is_hose(record: &Record) -> Known<bool> {
    Ok(record.need_word(&line::KIND)?.value == "hose")
}

fn lists(case: &Case<'_>) -> Vec<Working> {
    let build = case.build;
    let list = |key: &'static str, says: &'static str, so: &dyn Fn(&Record) -> Known<bool>| {
        Working::of(GAS, key, "the build", says, |_| those(case, so))
    };
    vec![
        list(
            "high_pressure_inside",
            "lines inside with more than 14 in of water in them, or before the regulator",
            &|record| Ok(runs(record, "inside")? && is_high(build, record)?),
        ),
        list("hoses_inside", "hoses that run inside", &|record| {
            Ok(is_hose(record)? && runs(record, "inside")?)
        }),
        list("hoses_concealed", "hoses that cannot all be seen", &|record| {
            Ok(is_hose(record)? && record.need_flag(&line::CONCEALED)?.value)
        }),
        list("unsleeved", "lines that pass a wall or the floor without a sleeve", &|record| {
            let places = record.words(&line::RUNS).ok_or_else(|| record.missing(&line::RUNS))?;
            Ok(places.len() > 1 && !record.need_flag(&line::SLEEVED)?.value)
        }),
    ]
}
