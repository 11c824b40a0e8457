//! Adding ballast: steel plates on the floor, as far from the axle or as far to the light side as there is room.

use pintle_calc::space::room;
use pintle_calc::weights::Measure;
use pintle_finding::{Change, Cost, Written};
use pintle_quantity::Units;
use pintle_spec::schema::trailer;

use super::less::length_of;
use super::{Draft, Ground, Lever, note};
use crate::remedy::measure::Tape;

/// The side of a plate, in metres: 12 in or 300 mm square.
const SIDE_US: f64 = 0.3048;
/// The same where the trailer was weighed in kilograms.
const SIDE_METRIC: f64 = 0.3;
/// Density of mild steel in kg/m³: from memory.
const STEEL: f64 = 7850.0;
/// No more than this share of the whole weight is put in as ballast: ours, no source. More is another layout.
const MOST_SHARE: f64 = 0.10;

/// How far from the ball a spot is, and its place across.
#[derive(Clone, Copy)]
struct Spot {
    /// Front end behind the ball, in metres.
    front: f64,
    /// The gap that states its place across.
    gap: &'static str,
}

/// Plates at the nose, at the rear, or at the wall of the lighter side.
pub(super) fn levers<'a>(ground: Ground<'a>, notes: &mut Vec<String>) -> Vec<Lever<'a>> {
    let aim = ground.aim;
    let lever = match aim.measure {
        Measure::Tongue => lengthways(ground),
        Measure::Side | Measure::LeftSide => across(ground),
        _ => return Vec::new(),
    };
    match lever {
        Ok(lever) => lever.into_iter().collect(),
        Err(missing) => {
            note(notes, format!("no ballast was tried with part of the places unknown: {missing}"));
            Vec::new()
        }
    }
}

/// Ballast for the tongue. For a share the permanent ballast formula of FAA-H-8083-1: weight × distance out of limits /
/// distance from the ballast to the limit; for a weight, what the lever asks for.
fn lengthways(ground: Ground<'_>) -> Result<Option<Lever<'_>>, String> {
    let aim = ground.aim;
    let forward = aim.change > 0.0;
    let half = ground.build.surfaces.wall_inside.clone().map_err(|missing| missing.what)?.metres;
    let side = plate(ground);
    let abreast = [(-side / 2.0, "centre"), (-half, "left"), (half - side, "right")];
    let find = move |height: f64| {
        let mut best: Option<Spot> = None;
        for (left, gap) in abreast {
            let free = room::floor_spots(ground.build, [side, side, height], left).ok()?;
            let front = if forward { free.first()?.0 } else { free.last()?.1 };
            let ahead =
                |best: &Spot| if forward { front < best.front - 1e-6 } else { front > best.front + 1e-6 };
            if best.as_ref().is_none_or(ahead) {
                best = Some(Spot { front, gap });
            }
        }
        best
    };
    room::floor_spots(ground.build, [side, side, 0.025], 0.0).map_err(|missing| missing.what)?;
    let Some(spot) = find(0.1) else { return Ok(None) };
    let station = spot.front + side / 2.0;
    let guess = if aim.is_share {
        aim.centre().and_then(|centre| aim.along.ballast(centre, station))
    } else {
        aim.rise(station, 0.0).map(|rise| aim.change / rise)
    };
    // A sign that is wrong means that ballast there makes it worse.
    let guess = guess.filter(|guess| *guess > super::DUST);
    Ok(guess.map(|guess| lever(ground, guess, find)))
}

/// Ballast for the side: at the lighter side's wall, beside the axle, where the tongue hardly feels it.
fn across(ground: Ground<'_>) -> Result<Option<Lever<'_>>, String> {
    let aim = ground.aim;
    let half = ground.build.surfaces.wall_inside.clone().map_err(|missing| missing.what)?.metres;
    let side = plate(ground);
    let Some(change) = aim.side_change() else { return Ok(None) };
    let (left, gap) = if change > 0.0 { (half - side, "right") } else { (-half, "left") };
    let axle = aim.axle;
    let find = move |height: f64| {
        let free = room::floor_spots(ground.build, [side, side, height], left).ok()?;
        let beside = |(from, to): &(f64, f64)| (axle - side / 2.0).clamp(*from, *to);
        let away = |front: &f64| (front + side / 2.0 - axle).abs();
        let front = free.iter().map(beside).min_by(|one, other| away(one).total_cmp(&away(other)))?;
        Some(Spot { front, gap })
    };
    room::floor_spots(ground.build, [side, side, 0.025], left).map_err(|missing| missing.what)?;
    let Some(track) = aim.track else { return Ok(None) };
    let guess = change * track / (2.0 * (left + side / 2.0));
    Ok((guess > super::DUST && find(0.1).is_some()).then(|| lever(ground, guess, find)))
}

fn scale(ground: Ground<'_>) -> Tape {
    ground.build.trailer.quantity(&trailer::MASS).map_or(Tape::Us, |mass| Tape::of(mass.value))
}

fn plate(ground: Ground<'_>) -> f64 {
    if scale(ground) == Tape::Us { SIDE_US } else { SIDE_METRIC }
}

fn lever<'a>(ground: Ground<'a>, guess: f64, find: impl Fn(f64) -> Option<Spot> + 'a) -> Lever<'a> {
    let (tape, side) = (scale(ground), plate(ground));
    let length = length_of(ground.build);
    Lever {
        range: vec![(0.0, ground.aim.along.weight * MOST_SHARE)],
        guess,
        up: Box::new(move |kilograms| tape.more(kilograms)),
        down: Box::new(move |kilograms| tape.less(kilograms)),
        draft: Box::new(move |kilograms| {
            // Whole inches, or tens of millimetres, of plates.
            let step = if tape == Tape::Us { 0.0254 } else { 0.01 };
            let height = (kilograms / (STEEL * side * side) / step).ceil().max(1.0) * step;
            draft(ground, kilograms, height, find(height)?, length)
        }),
    }
}

fn draft(ground: Ground<'_>, kilograms: f64, height: f64, spot: Spot, length: f64) -> Option<Draft> {
    let (tape, side) = (scale(ground), plate(ground));
    let surfaces = &ground.build.surfaces;
    let (square, rear) =
        (surfaces.square_inside.as_ref().ok()?.metres, surfaces.rear_inside.as_ref().ok()?.metres);
    // Measured from the nearer end, to what a tape shows and no nearer to the wall than there is room.
    let (gap, distance, words) = if spot.front + side / 2.0 < f64::midpoint(square, rear) {
        let front = spot.front - square;
        let measured = if front < 0.0 { tape.towards(front) } else { tape.away(front) };
        ("front", measured, "the front")
    } else {
        ("rear", tape.away((rear - side - spot.front).max(0.0)), "the rear door")
    };
    let shown = |metres: f64| tape.metres(metres);
    let place = if distance.abs() < super::DUST {
        format!("against {words}")
    } else {
        format!("{} from {words}", shown(distance))
    };
    let text = |metres: f64| Written::Text(shown(metres));
    let mass = tape.kilograms(kilograms).show(Units::AsWritten);
    let tag = free_tag(ground);
    let across = match spot.gap {
        "centre" => "on the centreline",
        "left" => "at the left wall",
        _ => "at the right wall",
    };
    let entry = |key: &str, value: Written| (key.to_owned(), value);
    let table = Written::Table(vec![
        entry("kind", Written::Text("equipment".to_owned())),
        entry("mass", Written::Text(mass.clone())),
        entry("length", text(side)),
        entry("width", text(side)),
        entry("height", text(height)),
        entry("at", Written::Table(vec![entry(gap, text(distance)), entry(spot.gap, text(0.0))])),
    ]);
    Some(Draft {
        words: format!(
            "fit {mass} of ballast on the floor, {place}, {across} (steel plates {} square, {} high)",
            shown(side),
            shown(height)
        ),
        changes: vec![Change::set(&["item", &tag], table)],
        cost: Cost { moved: kilograms * length, changed: 0.0 },
    })
}

/// A tag that no part has yet.
fn free_tag(ground: Ground<'_>) -> String {
    let taken = |tag: &str| ground.build.items.iter().any(|item| item.tag.value == tag);
    let mut numbered = (2..).map(|number| format!("ballast-{number}"));
    let first = "ballast".to_owned();
    if taken(&first) { numbered.find(|tag| !taken(tag)).unwrap_or(first) } else { first }
}

#[cfg(test)]
mod tests {
    use pintle_calc::balance::Sum;

    /// Worked examples of ballast, through the sum that the guess for a tongue share is taken from.
    #[test]
    fn handbook_examples_of_ballast() {
        // weight, its centre, the limit, station of what is added, weight to add, tolerance, source
        let rows = [
            (2900.0, 115.0, 116.0, 130.0, 207.1, 0.05, "FAA test item, on jetcareers.com thread 72797 (M3)"),
            (
                4954.0,
                30.5,
                32.0,
                162.0,
                57.16,
                0.005,
                "airframe and powerplant test item, on passetra.com (M4)",
            ),
            // First two inputs seen on flight-study.com; the rest from memory of FAA-H-8083-1.
            (
                1876.0,
                32.2,
                33.0,
                228.0,
                7.7,
                0.05,
                "FAA-H-8083-1, permanent ballast, partly from memory (M5)",
            ),
        ];
        for (weight, from, limit, station, expected, tolerance, source) in rows {
            let found = Sum::of([(weight, from)]).ballast(limit, station).unwrap();
            assert!((found - expected).abs() <= tolerance, "{source}: {found}");
        }
        let ahead = Sum::of([(2900.0, 115.0)]).ballast(116.0, 110.0);
        assert_eq!(ahead, None, "ballast ahead of the limit brings no centre aft: refused");
    }
}
