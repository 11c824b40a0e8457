//! Air to breathe and to burn: fixed vents of the living space, and what they should come to.

mod breath;
mod damp;
mod flow;
mod room;
mod workings;

pub use breath::{burner_carbon_dioxide, mean_share, seconds_to_share, share_after, sleeper_carbon_dioxide};
pub use damp::{dew_point, humidity_ratio, saturation_pressure, vapour_pressure_of};
pub use flow::{in_series, stack_flow};
pub use room::{Sleepers, free_area, inside_volume, sleepers};
pub use workings::{Night, WORK_LIMIT, nights, workings};

#[cfg(test)]
pub(crate) use breath::{CARBON_DIOXIDE_OF_PROPANE, WATER_OF_PROPANE};

use pintle_quantity::{Dimension, Quantity};
use pintle_spec::schema::kinds::{appliance, vent};
use pintle_spec::{Build, Coordinate, Item, Known, Table, Zone};

use crate::figure::Figure;
use crate::gas::{is_exhaust, leads_outside};
use crate::space::{alike, berths_inside, constant, given, sum};

/// Free areas of the vents of the living space that lead outside, in m².
#[derive(Debug, Clone)]
pub struct Vents {
    /// Fixed, in the roof.
    pub roof: Figure,
    /// Fixed, in a wall, high up: its underside at least 300 mm above the top of the highest mattress inside (EN 721 as
    /// quoted in a German inspection leaflet). Without a berth inside, in the upper half of the inside height (ours, no
    /// source).
    pub high_wall: Figure,
    /// Fixed, `roof` and `high_wall` together.
    pub high: Figure,
    /// Fixed, its lower edge at most 100 mm above the floor (the same leaflet), or in the floor.
    pub low: Figure,
    /// Fixed, neither high nor low.
    pub between: Figure,
    /// Those that can be shut, wherever they are: part of none of the above.
    pub closable: Figure,
}

/// Least height of a high wall vent above the top mattress, in mm: EN 721 as quoted in a German inspection leaflet.
const ABOVE_MATTRESS: f64 = 300.0;
/// Greatest height of a low vent's lower edge above the floor, in mm: the same.
const ABOVE_FLOOR: f64 = 100.0;

#[derive(Clone, Copy, PartialEq, Eq)]
enum Height {
    Roof,
    High,
    Low,
    Between,
}

/// The vents of the living space that lead outside (as they do when `leads` is not given, as the schema says), by where
/// they are. Vents of lockers, and of racks and tents, are none of it.
///
/// # Errors
/// The area or `closable` of a vent; the height above the floor of a fixed wall vent, and what that is judged by: the
/// floor, the place and height of the berths, without berths the ceiling.
pub fn vents(build: &Build) -> Known<Vents> {
    vents_with(build, |opening| given(&opening.record, &vent::AREA))
}

/// A fixed vent with its height and its free area.
type Fixed<'b> = (Height, Figure, &'b Item);

/// The vents of the living space that give air from outside: those that cannot be shut, and the areas of the others.
fn sorted(build: &Build, free_area: impl Fn(&Item) -> Known<Figure>) -> Known<(Vec<Fixed<'_>>, Vec<Figure>)> {
    let mut fixed = Vec::new();
    let mut closable = Vec::new();
    for (_, opening) in build.of_table(Table::Vent) {
        if !in_the_box(opening.zone) || !leads_outside(opening) || is_exhaust(opening) {
            continue;
        }
        let area = free_area(opening)?;
        if opening.record.need_flag(&vent::CLOSABLE)?.value {
            closable.push(area);
        } else {
            fixed.push((height_of(build, opening)?, area, opening));
        }
    }
    Ok((fixed, closable))
}

/// The vents of the living space, with the free area of each worked out otherwise.
pub(crate) fn vents_with(build: &Build, free_area: impl Fn(&Item) -> Known<Figure>) -> Known<Vents> {
    let (fixed, closable) = sorted(build, free_area)?;
    let of = |heights: &[Height]| {
        let wanted = fixed.iter().filter(|(height, _, _)| heights.contains(height));
        sum(Dimension::AREA, wanted.map(|(_, area, _)| area.clone()))
    };
    Ok(Vents {
        roof: of(&[Height::Roof])?,
        high_wall: of(&[Height::High])?,
        high: of(&[Height::Roof, Height::High])?,
        low: of(&[Height::Low])?,
        between: of(&[Height::Between])?,
        closable: sum(Dimension::AREA, closable)?,
    })
}

/// Whether a vent in a zone is an opening of the box itself.
const fn in_the_box(zone: Zone) -> bool {
    match zone {
        Zone::Inside
        | Zone::Roof
        | Zone::FrontWall
        | Zone::RearDoor
        | Zone::LeftWall
        | Zone::RightWall
        | Zone::Floor => true,
        Zone::Tongue | Zone::Underside | Zone::Rack(_) | Zone::Locker(_) | Zone::Tent(_) => false,
    }
}

fn height_of(build: &Build, opening: &Item) -> Known<Height> {
    match opening.zone {
        Zone::Roof => return Ok(Height::Roof),
        Zone::Floor => return Ok(Height::Low),
        _ => {}
    }
    let under = opening.extent.z.near.clone()?;
    let floor = build.surfaces.floor.clone()?;
    let above = |place: &Coordinate, below: &Coordinate| {
        Quantity::from_si(place.metres - below.metres, Dimension::LENGTH)
    };
    let millimetres = |value: f64| Quantity::from_si(value / 1000.0, Dimension::LENGTH);
    if alike(above(&under, &floor).at_most(millimetres(ABOVE_FLOOR)))? {
        return Ok(Height::Low);
    }
    let mut tops = Vec::new();
    for (_, berth) in berths_inside(build)? {
        tops.push(berth.extent.z.far.clone()?);
    }
    let highest = tops.into_iter().reduce(|top, next| if next.metres > top.metres { next } else { top });
    let high = if let Some(top) = highest {
        above(&under, &top).at_least(millimetres(ABOVE_MATTRESS))
    } else {
        let ceiling = build.surfaces.ceiling.clone()?;
        above(&under, &floor).at_least(above(&ceiling, &floor).scaled(0.5))
    };
    Ok(if alike(high)? { Height::High } else { Height::Between })
}

/// How appliances used inside take their air. Indices count [`Build::items`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ApplianceKind {
    /// At least one is flueless or open-flued: this one, the first.
    OpenToRoom(usize),
    /// All are room-sealed: this one, the first.
    RoomSealed(usize),
    /// None is used inside.
    None,
}

/// The worst kind of the appliances that burn fuel and are used inside.
///
/// # Errors
/// `used`, or `flue` of one used inside, where it is not given and none is known to be open to the room.
pub fn appliance_kind(build: &Build) -> Known<ApplianceKind> {
    let mut worst = ApplianceKind::None;
    let mut unsure = None;
    for (at, burner) in build.of_kind("appliance") {
        let flue = || -> Known<Option<&'static str>> {
            if burner.record.need_word(&appliance::USED)?.value != "inside" {
                return Ok(None);
            }
            burner.record.need_word(&appliance::FLUE).map(|flue| Some(flue.value))
        };
        match flue() {
            Ok(None) => {}
            Ok(Some("room-sealed")) => {
                if worst == ApplianceKind::None {
                    worst = ApplianceKind::RoomSealed(at);
                }
            }
            Ok(Some(_)) => return Ok(ApplianceKind::OpenToRoom(at)),
            Err(missing) => unsure = unsure.or(Some(missing)),
        }
    }
    unsure.map_or(Ok(worst), Err)
}

/// How well a row of the table is vouched for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// Read in a text that quotes the standard.
    Quoted,
    /// From memory: nobody looked it up.
    Memory,
}

/// Least free areas of fixed vents, in m².
#[derive(Debug, Clone)]
pub struct Needed {
    /// In the roof.
    pub roof: Figure,
    /// High in the walls, where there is none in the roof; none where the table gives no such choice.
    pub high_wall: Option<Figure>,
    /// Low down.
    pub low: Figure,
    /// How well the row is vouched for.
    pub standing: Standing,
    /// The row and where it was read.
    pub source: &'static str,
}

/// A row of the table: plan area up to, in m²; areas in cm² of roof, high wall and low vents.
struct Row {
    up_to: f64,
    roof: f64,
    high_wall: Option<f64>,
    low: f64,
    standing: Standing,
    source: &'static str,
}

const fn row(
    up_to: f64,
    (roof, high_wall, low): (f64, Option<f64>, f64),
    standing: Standing,
    source: &'static str,
) -> Row {
    Row { up_to, roof, high_wall, low, standing, source }
}

const UP_TO_5: &str = "EN 721, up to 5 m², as quoted in a German inspection leaflet";
const UP_TO_10: &str = "EN 721, over 5 up to 10 m², as quoted in a German inspection leaflet";
const UP_TO_15: &str = "EN 721, over 10 up to 15 m², from memory";
const UP_TO_20: &str = "EN 721, over 15 up to 20 m², from memory";
const OVER_20: &str = "EN 721, over 20 m², from memory";

/// EN 721 for flueless or open-flued appliances.
const OPEN: [Row; 5] = [
    row(5.0, (75.0, None, 10.0), Standing::Quoted, UP_TO_5),
    row(10.0, (100.0, None, 15.0), Standing::Quoted, UP_TO_10),
    row(15.0, (125.0, None, 20.0), Standing::Memory, UP_TO_15),
    row(20.0, (150.0, None, 30.0), Standing::Memory, UP_TO_20),
    row(f64::INFINITY, (200.0, None, 50.0), Standing::Memory, OVER_20),
];

/// EN 721 for room-sealed appliances or none. No row beyond 15 m² is known; the low area of the last is doubtful even
/// as a memory.
const SEALED: [Row; 3] = [
    row(5.0, (15.0, Some(30.0), 5.0), Standing::Quoted, UP_TO_5),
    row(10.0, (15.0, Some(30.0), 5.0), Standing::Quoted, UP_TO_10),
    row(15.0, (20.0, Some(40.0), 5.0), Standing::Memory, UP_TO_15),
];

/// Least free areas of fixed vents for a plan area and a kind of appliance, by the table of EN 721: its rows up to 10 m²
/// as a German inspection leaflet quotes them, the others from memory. None where no row is known: room-sealed
/// appliances or none, beyond 15 m². The figures keep the plan area's trace.
///
/// ```
/// use pintle_calc::{Figure, air::{ApplianceKind, needed}};
/// use pintle_quantity::{Quantity, Unit, Units};
///
/// let plan = Figure::constant(Quantity::of(76.5, Unit::find("ft²").unwrap())); // 7.1 m²
/// let asleep = needed(&plan, ApplianceKind::None).unwrap().unwrap();
/// assert_eq!(asleep.low.quantity.show(Units::AsWritten), "5 cm²");
/// ```
///
/// # Errors
/// A plan area that is no area.
pub fn needed(plan_area: &Figure, kind: ApplianceKind) -> Known<Option<Needed>> {
    let rows: &[Row] = if matches!(kind, ApplianceKind::OpenToRoom(_)) { &OPEN } else { &SEALED };
    for row in rows {
        let limit = Quantity::from_si(row.up_to, Dimension::AREA);
        if alike(plan_area.quantity.at_most(limit))? {
            let area = |square_centimetres: f64| -> Known<Figure> {
                let area = constant(square_centimetres, "cm²")?;
                Ok(Figure::new(area.quantity, plan_area.trace.clone()))
            };
            return Ok(Some(Needed {
                roof: area(row.roof)?,
                high_wall: row.high_wall.map(area).transpose()?,
                low: area(row.low)?,
                standing: row.standing,
                source: row.source,
            }));
        }
    }
    Ok(None)
}

/// Heat input for each square inch of opening, in Btu/h: "all air from outdoors", two openings, direct or by vertical
/// ducts, in US fuel gas codes (New York City Mechanical Code, appendix A).
const BTU_PER_HOUR_A_SQUARE_INCH: f64 = 4000.0;

/// Free area of each of two openings to the outdoors, in m², for a heat input: 1 in² per 4,000 Btu/h ("all air from
/// outdoors" in US fuel gas codes, as in the New York City Mechanical Code, appendix A; written for buildings).
///
/// ```
/// use pintle_calc::{Figure, air::combustion_area};
/// use pintle_quantity::{Quantity, Unit};
///
/// let stove = Figure::constant(Quantity::parse("30000 Btu/h")?);
/// let area = combustion_area(&stove).unwrap().quantity.value_in(Unit::find("in²").unwrap())?;
/// assert!((area - 7.5).abs() < 1e-9);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// An input that is no power.
pub fn combustion_area(input: &Figure) -> Known<Figure> {
    let btu_per_hour = constant(1.0, "Btu/h")?.quantity;
    alike(input.quantity.compare(btu_per_hour))?;
    let square_inches = input.quantity.si() / btu_per_hour.si() / BTU_PER_HOUR_A_SQUARE_INCH;
    Ok(Figure::new(constant(square_inches, "in²")?.quantity, input.trace.clone()))
}

#[cfg(test)]
mod tests;
