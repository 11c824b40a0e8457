//! Figures of what the fixed vents draw on a still night, by warmth alone.

use pintle_quantity::Dimension;
use pintle_spec::field::Field;
use pintle_spec::schema::assume;
use pintle_spec::{Item, Known, Zone};

use super::{AIR, BUILD};
use crate::air::{Height, free_area, in_series, sorted, stack_flow};
use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::{alike, between, sum};
use crate::working::{Work, Working};

pub(super) fn workings(case: &Case<'_>) -> Vec<Working> {
    let caution =
        "by warmth alone, on a still night; wind may help or hinder, bedding in front of a vent shuts it";
    vec![
        Working::of(
            AIR,
            "draught_mild",
            BUILD,
            "air that the fixed vents draw on a mild, still night",
            |work| draught(work, case, &assume::air::MILD_NIGHT),
        )
        .warned(caution),
        Working::of(
            AIR,
            "draught_cold",
            BUILD,
            "air that the fixed vents draw on a cold, still night",
            |work| draught(work, case, &assume::air::COLD_NIGHT),
        )
        .warned(caution),
    ]
}

/// Middle of a vent above the floor: of one in the roof the ceiling, of one in the floor the floor.
fn middle(case: &Case<'_>, opening: &Item) -> Known<Figure> {
    let surfaces = &case.build.surfaces;
    let floor = surfaces.floor.clone()?;
    let up = |place| -> Known<Figure> { Ok(between(&floor, &place)) };
    match opening.zone {
        Zone::Roof => up(surfaces.ceiling.clone()?),
        Zone::Floor => up(floor.clone()),
        _ => {
            let ends = alike(up(opening.extent.z.near.clone()?)?.plus(&up(opening.extent.z.far.clone()?)?))?;
            Ok(ends.scaled(0.5))
        }
    }
}

/// Free area of the low or the high vents, and their mean height above the floor, each counted by its area; no height where there
/// is no area.
fn ends(case: &Case<'_>, heights: &[Height]) -> Known<(Figure, Option<Figure>)> {
    let (fixed, _) = sorted(case.build, |opening| free_area(case, opening))?;
    let mut areas = Vec::new();
    let mut moments = Vec::new();
    for (_, area, opening) in fixed.into_iter().filter(|(height, _, _)| heights.contains(height)) {
        if area.quantity.si() > 0.0 {
            moments.push(area.times(&middle(case, opening)?));
            areas.push(area);
        }
    }
    let area = sum(Dimension::AREA, areas)?;
    if area.quantity.si() <= 0.0 {
        return Ok((area, None));
    }
    let mean = sum(Dimension::VOLUME, moments)?.over(&area);
    Ok((area, Some(mean)))
}

/// What the fixed vents draw, in m³/s: nothing where there are none low down, or none high up.
pub(super) fn draught(work: &mut Work, case: &Case<'_>, night: &'static Field) -> Known<Figure> {
    let (low, at_low) = ends(case, &[Height::Low])?;
    let (high, at_high) = ends(case, &[Height::Roof, Height::High])?;
    let a = work.take("a", "free area of low vents", Ok(low))?;
    let b = work.take("b", "free area of high vents", Ok(high))?;
    let laws = Origin::derived("Bernoulli; losses of both openings add");
    let both = Figure::by(Dimension::AREA, [&a, &b], |[a, b]| in_series(a, b)).shown_in("in²");
    let area = work.step("A", "one opening that passes as much", "1/√(1/a² + 1/b²)", Ok(both), laws)?;
    let (Some(at_low), Some(at_high)) = (at_low, at_high) else {
        let nothing = super::known(0.0, Dimension::FLOW, "cfm");
        let origin = Origin::derived(
            "air that comes in must get out: nothing flows without a low vent and a high one",
        );
        return work.step("Q", "flow", "0", Ok(nothing), origin);
    };
    let places = Origin::derived("mean heights, each vent by its area");
    let h = work.step(
        "H",
        "height between low and high vents",
        "z(high) − z(low)",
        alike(at_high.minus(&at_low)),
        places,
    )?;
    let cd = work.assume("Cd", case, &assume::AIR, &assume::air::DISCHARGE)?;
    let ti = work.assume("Ti", case, &assume::AIR, &assume::air::INSIDE)?;
    let to = work.assume("To", case, &assume::AIR, night)?;
    let flow = Figure::by(Dimension::FLOW, [&cd, &area, &h, &ti, &to], |[cd, a, h, ti, to]| {
        stack_flow(cd, a, h, ti, to)
    });
    let source = "stack effect, as in the encyclopedia article of that name (seen)";
    work.step(
        "Q",
        "flow",
        "Cd · A · √(2 · g · H · (Ti − To)/Ti)",
        Ok(flow.shown_in("cfm")),
        Origin::published(source),
    )
}
