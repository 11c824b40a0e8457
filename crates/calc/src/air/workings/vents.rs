//! Figures of the fixed vents, and of what EN 721 asks for.

use pintle_spec::Known;

use super::{AIR, BUILD};
use crate::air::{Needed, Standing, Vents, appliance_kind, free_area, inside_volume, needed, vents_with};
use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::plan_area;
use crate::working::{Outcome, Work, Working};

pub(super) fn workings(case: &Case<'_>) -> Vec<Working> {
    let build = case.build;
    let vents = || vents_with(build, |opening| free_area(case, opening));
    let area = |key: &'static str, says: &'static str, pick: fn(Vents) -> Figure| {
        Working::of(AIR, key, BUILD, says, |work| work.take("A", says, vents().map(pick)))
    };
    let asked = |key: &'static str, says: &'static str, pick: fn(Needed) -> Option<Figure>| {
        Working::of(AIR, key, BUILD, says, |work| asked(work, case, says, pick))
            .warned("EN 721 binds caravans and motor homes in Europe; elsewhere it is a guideline")
    };
    vec![
        Working::of(AIR, "inside_volume", BUILD, "air in the living space, modules taken off", |work| {
            let origin = Origin::derived("plan area × height, less the boxes of modules inside");
            work.step(
                "V",
                "volume",
                "A · h − Σ l · w · h",
                inside_volume(build).map(|volume| volume.shown_in("ft³")),
                origin,
            )
        }),
        area("vents_roof", "fixed free area in the roof", |vents| vents.roof),
        area("vents_high_wall", "fixed free area high in the walls", |vents| vents.high_wall),
        area("vents_low", "fixed free area low down", |vents| vents.low),
        area("vents_between", "fixed free area neither high nor low", |vents| vents.between),
        area("vents_closable", "free area of vents that can be shut", |vents| vents.closable),
        asked("vents_needed_roof", "fixed free area that EN 721 asks for in the roof", |row| Some(row.roof)),
        asked(
            "vents_needed_high_wall",
            "fixed free area that it asks for high in the walls instead",
            |row| row.high_wall,
        ),
        asked("vents_needed_low", "fixed free area that it asks for low down", |row| Some(row.low)),
    ]
}

fn asked(
    work: &mut Work,
    case: &Case<'_>,
    says: &'static str,
    pick: fn(Needed) -> Option<Figure>,
) -> Known<Outcome> {
    let plan = work.take("A", "plan area inside", plan_area(case.build))?;
    let Some(row) = needed(&plan, appliance_kind(case.build)?)? else {
        return Ok(Outcome::None("no row of the table is known for so large a trailer".to_owned()));
    };
    let (standing, source) = (row.standing, row.source);
    let origin = match standing {
        Standing::Quoted => Origin::published(source),
        Standing::Memory => Origin::memory(source),
    };
    Ok(match pick(row) {
        Some(area) => Outcome::Figure(work.step("Amin", says, "table at A", Ok(area), origin)?),
        None => Outcome::None("the table gives no such choice with a burner open to the room".to_owned()),
    })
}
