//! Figures of burners that take their air from the room, or give their fumes to it.

use pintle_quantity::Dimension;
use pintle_spec::schema::assume;
use pintle_spec::schema::kinds::appliance;
use pintle_spec::{Build, Item, Known, Missing};

use super::{AIR, BUILD, known};
use crate::air::breath::WATER_OF_PROPANE;
use crate::air::{burner_carbon_dioxide, combustion_area};
use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::{given, sum};
use crate::working::{Outcome, Work, Working};

const CODE: &str =
    "US fuel gas codes, all air from outdoors (NYC Mechanical Code appendix A, seen); written for buildings";

/// What a single opening, and each of two level ducts, need against each of two openings: 3,000 and 2,000 Btu/h for a square inch
/// in place of 4,000.
pub(super) const SINGLE: f64 = 4.0 / 3.0;
pub(super) const DUCTS: f64 = 2.0;

/// Burners used inside of one of the given sorts of flue.
fn inside<'b>(build: &'b Build, flues: &[&str]) -> Known<Vec<&'b Item>> {
    let mut found = Vec::new();
    for (_, burner) in build.of_kind("appliance") {
        let used = burner.record.need_word(&appliance::USED)?;
        if used.value == "inside" && flues.contains(&burner.record.need_word(&appliance::FLUE)?.value) {
            found.push(burner);
        }
    }
    Ok(found)
}

fn input(burners: &[&Item]) -> Known<Figure> {
    let inputs = burners.iter().map(|burner| given(&burner.record, &appliance::INPUT));
    sum(Dimension::POWER, inputs.collect::<Known<Vec<_>>>()?)
}

/// What flueless burners used inside give off together, at full flame.
#[derive(Debug, Clone)]
pub(super) struct Fumes {
    /// Carbon dioxide, in m³/s.
    pub(super) carbon_dioxide: Figure,
    /// Water, in kg/s.
    pub(super) water: Figure,
    /// How many burners.
    pub(super) burners: usize,
    /// Whether any of them cooks, by its purpose; one whose purpose is not stated does, which errs on the safe side.
    pub(super) cooks: bool,
}

/// What flueless burners used inside give off.
///
/// # Errors
/// A fuel other than propane; the input; the heating value.
pub(super) fn fumes(work: &mut Work, case: &Case<'_>) -> Known<Fumes> {
    let burners = inside(case.build, &["flueless"])?;
    for burner in &burners {
        let fuel = burner.record.need_word(&appliance::FUEL)?;
        if fuel.value != "propane" {
            let help = "only propane's fumes are reckoned; keep a burner of another fuel outside";
            return Err(Missing::new(
                format!("the fumes of {} in {}", fuel.value, burner.called()),
                Some(fuel.span),
                help,
            ));
        }
    }
    if burners.is_empty() {
        let nothing = known(0.0, Dimension::MASS.over(Dimension::TIME), "kg/h");
        return Ok(Fumes {
            carbon_dioxide: known(0.0, Dimension::FLOW, "L/s"),
            water: nothing,
            burners: 0,
            cooks: false,
        });
    }
    let p = work.take("P", "heat input of flueless burners inside", input(&burners))?;
    let h = work.assume("H", case, &assume::GAS, &assume::gas::HEATING_VALUE)?;
    let t = work.assume("Ti", case, &assume::AIR, &assume::air::INSIDE)?;
    let stoichiometry = || Origin::derived("C₃H₈ + 5 O₂ → 3 CO₂ + 4 H₂O");
    let flow =
        Figure::by(Dimension::FLOW, [&p, &h, &t], |[p, h, t]| burner_carbon_dioxide(p, h, t)).shown_in("L/s");
    let carbon_dioxide =
        work.step("Gb", "carbon dioxide from them", "2.994 · P/H · R·T/(M·p)", Ok(flow), stoichiometry())?;
    let water = Ok(p.over(&h).scaled(WATER_OF_PROPANE).shown_in("lb/h"));
    let water = work.step("ṁb", "water from them", "1.634 · P/H", water, stoichiometry())?;
    let cooks = |burner: &&Item| {
        burner.record.word(&appliance::PURPOSE).is_none_or(|purpose| purpose.value == "cooking")
    };
    Ok(Fumes { carbon_dioxide, water, burners: burners.len(), cooks: burners.iter().any(cooks) })
}

pub(super) fn workings(case: &Case<'_>) -> Vec<Working> {
    let build = case.build;
    if build.of_kind("appliance").next().is_none() {
        return Vec::new();
    }
    let open = |work: &mut Work| -> Known<Option<Figure>> {
        let burners = inside(build, &["flueless", "open-flued"])?;
        if burners.is_empty() {
            return Ok(None);
        }
        work.take("P", "heat input of burners open to the room", input(&burners)).map(Some)
    };
    let none = || Outcome::None("no burner used inside takes its air from the room".to_owned());
    let share = |key: &'static str,
                 says: &'static str,
                 formula: &'static str,
                 of: fn(&Figure) -> Known<Figure>| {
        Working::of(AIR, key, BUILD, says, |work| match open(work)? {
            None => Ok(none()),
            Some(p) => work.step("A", says, formula, of(&p), Origin::published(CODE)).map(Outcome::Figure),
        })
    };
    vec![
        share("combustion_each", "area of each of two openings, low and high, for combustion air", "P / (4,000 Btu/h per in²)", |p| {
            combustion_area(p)
        }),
        share("combustion_single", "area of a single opening for combustion air", "P / (3,000 Btu/h per in²)", |p| {
            Ok(combustion_area(p)?.scaled(SINGLE))
        }),
        share("combustion_ducts", "area of each of two level ducts for combustion air", "P / (2,000 Btu/h per in²)", |p| {
            Ok(combustion_area(p)?.scaled(DUCTS))
        }),
        share("combustion_room", "room that needs no opening for combustion air", "P · 50 ft³ / (1,000 Btu/h)", |p| {
            Ok(Figure::by(Dimension::VOLUME, [p], |[p]| unconfined_room(p)).shown_in("ft³"))
        }),
        Working::of(AIR, "fumes", BUILD, "carbon dioxide that flueless burners inside give off at full flame", |work| {
            let fumes = fumes(work, case)?;
            Ok(if fumes.burners == 0 {
                Outcome::None("no flueless burner is used inside".to_owned())
            } else {
                Outcome::Figure(fumes.carbon_dioxide)
            })
        })
        .warned("a burner short of air gives off carbon monoxide, which kills long before carbon dioxide does: never sleep with one lit"),
    ]
}

/// Room in m³ in which a heat input `p` in W needs no opening: 50 ft³ for each 1,000 Btu/h (US fuel gas codes, as in a calculator
/// page).
pub(super) fn unconfined_room(p: f64) -> f64 {
    p / crate::gas::BTU_PER_HOUR / 1000.0 * 50.0 * 0.3048_f64.powi(3)
}
