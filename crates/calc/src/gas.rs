//! Propane: cylinders, the lockers they stand in with their vents, the lines, what burns it, and leaks.

mod boil;
mod burning;
mod leak;
mod line;
mod near;
mod pipe;
mod propane;
mod workings;

pub use boil::{HUNDRED_POUND_DIAMETER, hundred_pound_draw, small_draw, wetted};
pub use burning::{connected, input, propane_appliances};
pub use leak::{LEAK_TESTS, LeakTest, leak_test, leak_weight};
pub use line::{
    LOW_PRESSURE, Section, bore, is_high, lines, load, longest, pressure, reckoned_length, run, sections,
    supply, way,
};
pub use near::{
    Gap, apart_in_plan, apart_in_space, behind_axle, can_ignite, ignition_in_same_air, locker_of,
    nearest_ignition, nearest_opening, to_rear,
};
pub use pipe::{
    CR_NATURAL_GAS, CR_PROPANE, PIPES, Size, TUBES, drop_nfpa, drop_spitzglass, flow_nfpa, flow_spitzglass,
    size, smallest,
};
pub use propane::{
    ATMOSPHERE, BUTANE_BOILS, DIP_TUBE, NEVER_FULL_AT, PROPANE_BOILS, WATER, filling_density, gauge_pressure,
    latent_heat, liquid_density, liquid_share, vapour_pressure,
};
pub use workings::{burn_time, enclosure_vent, energy, gas_rate, workings};

pub(crate) use boil::BTU_PER_HOUR;

use std::cmp::Ordering;

use pintle_quantity::{Dimension, Quantity};
use pintle_spec::schema::item;
use pintle_spec::schema::kinds::{cylinder, vent};
use pintle_spec::{Build, Item, Known, Table, Zone};

use crate::figure::Figure;
use crate::space::{alike, between_kin, elsewhere, given, least, part, sum};

/// A cylinder.
#[derive(Debug, Clone)]
pub struct Cylinder {
    /// Its index in [`Build::items`].
    pub item: usize,
    /// Weight of the gas in it when full, in kg.
    pub gas: Known<Figure>,
}

/// The cylinders of a build, in the order of the spec. Their number is the list's length.
pub fn cylinders(build: &Build) -> Vec<Cylinder> {
    let found = build.of_kind("cylinder");
    found.map(|(item, body)| Cylinder { item, gas: given(&body.record, &cylinder::GAS) }).collect()
}

/// The vents of a locker that lead outside and cannot be shut.
#[derive(Debug, Clone)]
pub struct LockerVents {
    /// Free area of those whose middle lies in the lower half of the locker's height, in m².
    pub low: Figure,
    /// Free area of the others, in m².
    pub high: Figure,
    /// Free area of both, in m².
    pub total: Figure,
    /// From the locker's floor up to the lower edge of the lowest low vent, in m; none without a low vent.
    pub low_gap: Option<Figure>,
    /// From the locker's ceiling down to the underside of the highest high vent, in m; none without a high vent.
    pub high_gap: Option<Figure>,
    /// Free area of vents that lead outside but can be shut, in m²: part of none of the above.
    pub closable: Figure,
}

fn the_locker(build: &Build, locker: usize) -> Known<&Item> {
    let body = part(build, locker)?;
    if body.table == Table::Locker { Ok(body) } else { Err(elsewhere(body, "a locker with the tag of")) }
}

/// Floor area of a locker, in m²: its length × its width. `locker` is an index of [`Build::items`].
///
/// # Errors
/// Its size, where that is not given.
pub fn locker_floor_area(build: &Build, locker: usize) -> Known<Figure> {
    let body = the_locker(build, locker)?;
    Ok(given(&body.record, &item::LENGTH)?.times(&given(&body.record, &item::WIDTH)?))
}

/// Free area that a locker's vents must have together, in m²: 2 % of its floor area (675 IAC 15-2-74(c), two vents, top
/// and bottom).
///
/// ```
/// use pintle_calc::{Figure, gas::vent_area_needed};
/// use pintle_quantity::{Quantity, Unit};
///
/// let floor = Quantity::inches(24.0).times(Quantity::inches(14.0));
/// let needed = vent_area_needed(&Figure::constant(floor)).quantity;
/// assert!((needed.value_in(Unit::find("in²").unwrap())? - 6.72).abs() < 1e-9);
/// # Ok::<(), pintle_quantity::DimensionMismatch>(())
/// ```
#[must_use]
pub fn vent_area_needed(floor_area: &Figure) -> Figure {
    floor_area.scaled(0.02)
}

/// The vents whose zone is a locker, that lead outside (as they do when `leads` is not given, as the schema says).
///
/// # Errors
/// The area, `closable`, place or height of a vent, or the locker's place or height, that is not given.
pub fn locker_vents(build: &Build, locker: usize) -> Known<LockerVents> {
    locker_vents_with(build, locker, |opening| given(&opening.record, &vent::AREA))
}

/// The same, with the free area of a vent worked out otherwise.
pub(crate) fn locker_vents_with(
    build: &Build,
    locker: usize,
    free_area: impl Fn(&Item) -> Known<Figure>,
) -> Known<LockerVents> {
    let body = the_locker(build, locker)?;
    let (mut low, mut high, mut closable) = (Vec::new(), Vec::new(), Vec::new());
    let (mut low_gaps, mut high_gaps) = (Vec::new(), Vec::new());
    let vents = build.of_table(Table::Vent).map(|(_, opening)| opening);
    for opening in vents.filter(|opening| opening.zone == Zone::Locker(locker)) {
        if !leads_outside(opening) || is_exhaust(opening) {
            continue;
        }
        let area = free_area(opening)?;
        if opening.record.need_flag(&vent::CLOSABLE)?.value {
            closable.push(area);
            continue;
        }
        let (bottom, top) = (body.extent.z.near.clone()?, body.extent.z.far.clone()?);
        let (under, over) = (opening.extent.z.near.clone()?, opening.extent.z.far.clone()?);
        let up = |end: f64| Quantity::from_si(end - bottom.metres, Dimension::LENGTH);
        let middle = up(f64::midpoint(under.metres, over.metres));
        if alike(middle.compare(up(f64::midpoint(bottom.metres, top.metres))))? == Ordering::Less {
            low.push(area);
            low_gaps.push(between_kin(&bottom, &under, ""));
        } else {
            high.push(area);
            high_gaps.push(between_kin(&under, &top, ""));
        }
    }
    let area = |areas: Vec<Figure>| sum(Dimension::AREA, areas);
    Ok(LockerVents {
        total: area(low.iter().chain(&high).cloned().collect())?,
        low: area(low)?,
        high: area(high)?,
        low_gap: least(low_gaps),
        high_gap: least(high_gaps),
        closable: area(closable)?,
    })
}

/// Whether a vent leads outside; it does when `leads` is not given, as the schema says.
pub(crate) fn leads_outside(opening: &Item) -> bool {
    opening.record.word(&vent::LEADS).is_none_or(|leads| leads.value == "outside")
}

/// Whether a vent is an appliance's exhaust, which gives no air.
pub(crate) fn is_exhaust(opening: &Item) -> bool {
    opening.record.text(&vent::EXHAUST_OF).is_some()
}

#[cfg(test)]
pub(crate) mod tests;
