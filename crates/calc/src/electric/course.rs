//! Through a stay hour by hour: what is used, what the sun brings, and what that leaves in the bank.

use pintle_quantity::{Dimension, Quantity};
use pintle_spec::schema::assume::{self, electric};
use pintle_spec::schema::electric as schema;
use pintle_spec::{Known, Missing};

use super::system::System;
use super::{bank, usage};
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::alike;
use crate::working::Work;

pub(crate) const HOURLY: Origin = Origin::derived(
    "what comes in less what goes out, hour by hour, from a full bank; never over full, never under empty",
);

/// The longest stay that is reckoned.
const LONGEST: u32 = 30;

/// The bank hour by hour through a stay.
#[derive(Debug, Clone)]
pub struct Course {
    /// The hour of the day, in solar time, at which the stay begins.
    pub arrival: usize,
    /// Energy of the full bank.
    pub full: Figure,
    /// Energy that has to stay in it: the full bank's less what may be taken.
    pub reserve: Figure,
    /// Each hour of the stay; the bank is full before the first.
    pub hours: Vec<Hour>,
}

/// One hour of a stay: energies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hour {
    /// What is taken from the bank.
    pub used: Quantity,
    /// What the sun brings into the bank's wires.
    pub brought: Quantity,
    /// What the bank holds at the hour's end.
    pub held: Quantity,
}

impl Course {
    /// How many whole days it runs.
    pub fn days(&self) -> usize {
        self.hours.len() / 24
    }

    /// The least that the bank holds at the end of any hour, and after how many hours it first does; none of a stay of
    /// no hours.
    pub fn lowest(&self) -> Option<(usize, Quantity)> {
        let held = self.hours.iter().enumerate().map(|(at, hour)| (at + 1, hour.held));
        held.reduce(|least, next| if next.1.si() < least.1.si() { next } else { least })
    }
}

/// A stay with the figures that rules ask for.
pub(crate) struct Stay {
    pub(crate) course: Course,
    /// Least energy in the bank at the end of any hour.
    pub(crate) lowest: Figure,
    /// Energy in it at the end.
    pub(crate) end: Figure,
    /// When it first held no more than its reserve; none where it never did.
    pub(crate) reserve_after: Option<Figure>,
    /// Energy of it when full.
    pub(crate) full: Figure,
}

/// How many days the bank has to last.
fn days(system: System<'_>, work: &mut Work) -> Known<u32> {
    let stated = system.written.and_then(|electric| electric.count(&schema::DAYS));
    let days = match stated {
        Some(days) => f64::from(days.value),
        None => work.assume("N", &system.case, &assume::ELECTRIC, &electric::AWAY)?.quantity.si() / 86_400.0,
    };
    let whole = (1..=LONGEST).find(|whole| f64::from(*whole) >= days - 1e-9);
    whole.ok_or_else(|| {
        Missing::new(
            format!("a stay of no more than {LONGEST} days"),
            stated.map(|days| days.span),
            "what holds for thirty days holds for more",
        )
    })
}

/// The hour of the day at which the stay begins.
fn arrival(system: System<'_>, work: &mut Work) -> Known<usize> {
    let at = work.assume("t_0", &system.case, &assume::ELECTRIC, &electric::ARRIVAL)?.quantity.si() / 3600.0;
    let hour = (0..24_u32).find(|hour| f64::from(*hour) >= at - 1e-9);
    hour.and_then(|hour| usize::try_from(hour).ok()).ok_or_else(|| {
        Missing::new("an hour of arrival within the day", None, "give `arrival` from 0 h to 23 h")
    })
}

/// Goes through a stay hour by hour. `sun` is a day's energy and the share of each hour.
pub(crate) fn stay(system: System<'_>, sun: Option<(&Figure, [f64; 24])>, work: &mut Work) -> Known<Stay> {
    let held = bank::need(system)?;
    let full = bank::energy(&held, work)?;
    let usable = bank::usable_energy(system, &held, &mut Work::default())?;
    let reserve = alike(full.minus(&usable))?;
    let kept = bank::charged_share(system, &held, work)?;
    let days = days(system, work)?;
    let start = arrival(system, work)?;
    let used = usage::by_the_hour(system)?;
    let mut changes = Vec::new();
    for (hour, used) in used.iter().enumerate() {
        let brought = sun.and_then(|(whole, shares)| Some(whole.scaled(*shares.get(hour)?)));
        let brought = brought.unwrap_or_else(|| bank::none_of(Dimension::ENERGY));
        let over = alike(brought.minus(used))?;
        let change = if over.quantity.si() > 0.0 { over.times(&kept) } else { over };
        changes.push((used.quantity, brought.quantity, change));
    }
    let nothing = bank::none_of(Dimension::ENERGY);
    let mut now = full.clone();
    let mut lowest = full.clone();
    let mut reserve_after = None;
    let mut hours = Vec::new();
    for (passed, (used, brought, change)) in
        changes.iter().cycle().skip(start).take(usize::try_from(days).unwrap_or(0) * 24).enumerate()
    {
        let next = alike(now.plus(change))?;
        let next = if next.quantity.si() > full.quantity.si() { full.clone() } else { next };
        let next = if next.quantity.si() < 0.0 { nothing.clone() } else { next };
        let edge = reserve.quantity.si();
        if reserve_after.is_none() && next.quantity.si() < edge && now.quantity.si() >= edge {
            let passed =
                Quantity::from_si(f64::from(u32::try_from(passed).unwrap_or(0)) * 3600.0, Dimension::TIME);
            let share = alike(now.minus(&reserve))?.over(&change.abs());
            let after = alike(Figure::constant(passed).plus(&share.times(&usage::hour())))?;
            reserve_after = Some(after.shown_in("h"));
        }
        if next.quantity.si() < lowest.quantity.si() {
            lowest = next.clone();
        }
        hours.push(Hour { used: *used, brought: *brought, held: next.quantity });
        now = next;
    }
    let course = Course { arrival: start, full: full.clone(), reserve, hours };
    Ok(Stay { course, lowest, end: now, reserve_after, full })
}
