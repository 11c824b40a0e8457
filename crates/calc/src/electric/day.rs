//! Day by day and hour by hour: what is used, what the sun brings, and how full that leaves the bank.

use pintle_quantity::{Dimension, Quantity};
use pintle_spec::schema::assume::{self, electric};
use pintle_spec::schema::electric as schema;
use pintle_spec::{Known, Missing, Record};

use super::system::{System, TOPIC};
use super::{array, bank, sun, usage};
use crate::figure::Figure;
use crate::origin::Origin;
use crate::space::alike;
use crate::working::{Outcome, Work, Working};

const HOURLY: Origin = Origin::derived(
    "what comes in less what goes out, hour by hour, from a full bank; never over full, never under empty",
);
const GROUND: Origin = Origin::published(
    "FAO-56, equations 21 to 25 and 35 (as worked by the NCAR Command Language's documentation, seen)",
);

/// The longest stay that is reckoned.
const LONGEST: u32 = 30;

/// What the bank has gone through by the end of a stay.
struct Stay {
    /// Least energy in it at the end of any hour.
    lowest: Figure,
    /// Energy in it at the end.
    end: Figure,
    /// When it first held no more than its reserve; none where it never did.
    reserve_after: Option<Figure>,
    /// Energy of it when full.
    full: Figure,
}

/// The months that the build is used in, as numbers.
fn months(electric: &Record) -> Known<Vec<(u32, &'static str)>> {
    let words = electric.words(&schema::MONTHS_USED).filter(|words| !words.is_empty());
    let words = words.ok_or_else(|| electric.missing(&schema::MONTHS_USED))?;
    let number = |word: &'static str| schema::MONTHS.iter().position(|month| *month == word);
    let numbered = words.iter().filter_map(|word| {
        let number = u32::try_from(number(word.value)? + 1).ok()?;
        Some((number, word.value))
    });
    Ok(numbered.collect())
}

/// Where it is used.
fn latitude(electric: &Record, work: &mut Work) -> Known<Figure> {
    let phi = work.take("φ", schema::LATITUDE.doc, crate::space::given(electric, &schema::LATITUDE))?;
    if phi.quantity.si().abs() > std::f64::consts::FRAC_PI_2 {
        return Err(Missing::new(
            "a latitude on earth",
            electric.quantity(&schema::LATITUDE).map(|latitude| latitude.span),
            "give it from -90 ° to 90 °",
        ));
    }
    Ok(phi)
}

/// Sun hours of a month's middle day.
fn sun_hours(system: System<'_>, month: u32, work: &mut Work) -> Known<Figure> {
    let phi = latitude(system.need()?, work)?;
    let shine = work.assume("n/N", &system.case, &assume::ELECTRIC, &electric::SUNSHINE)?;
    let day = sun::middle_day(month);
    let j = Figure::constant(Quantity::from_si(day, Dimension::NONE));
    work.know("J", "day of the year in the middle of the month", j, Origin::memory("FAO-56, annex 2"));
    let found = sun::hours(&phi, &shine, day).shown_in("h");
    let formula = "(0.25 + 0.50 · n/N) · Ra(φ, J) / 1,000 W/m²";
    work.step("h", "sun hours on a flat panel", formula, Ok(found), GROUND)
}

/// What the sun brings on a month's middle day.
fn from_the_sun(system: System<'_>, month: u32, work: &mut Work) -> Known<Figure> {
    let hours = sun_hours(system, month, work)?;
    array::daily(system, &hours, work)
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
fn stay(system: System<'_>, sun: Option<(&Figure, [f64; 24])>, work: &mut Work) -> Known<Stay> {
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
        changes.push(if over.quantity.si() > 0.0 { over.times(&kept) } else { over });
    }
    let nothing = bank::none_of(Dimension::ENERGY);
    let mut now = full.clone();
    let mut lowest = full.clone();
    let mut reserve_after = None;
    for (passed, change) in
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
        now = next;
    }
    Ok(Stay { lowest, end: now, reserve_after, full })
}

/// A figure of a stay in a month, or without sun.
fn of_a_stay(
    system: System<'_>,
    month: Option<u32>,
    work: &mut Work,
    wanted: fn(&Stay, &mut Work) -> Known<Outcome>,
) -> Known<Outcome> {
    usage::daily(system, work)?;
    let stay = match month {
        None => stay(system, None, work)?,
        Some(month) => {
            let whole = from_the_sun(system, month, work)?;
            let phi = latitude(system.need()?, &mut Work::default())?.quantity.si();
            stay(system, Some((&whole, sun::by_the_hour(phi, sun::middle_day(month)))), work)?
        }
    };
    wanted(&stay, work)
}

fn lowest(stay: &Stay, work: &mut Work) -> Known<Outcome> {
    let share = Ok(stay.lowest.over(&stay.full).as_share());
    Ok(work.step("z", "how full it is at its emptiest", "least of E_t / E", share, HOURLY)?.into())
}

fn at_end(stay: &Stay, work: &mut Work) -> Known<Outcome> {
    let share = Ok(stay.end.over(&stay.full).as_share());
    Ok(work.step("z", "how full it is at the end", "E_t / E", share, HOURLY)?.into())
}

fn reserve(stay: &Stay, work: &mut Work) -> Known<Outcome> {
    match stay.reserve_after.clone() {
        Some(after) => Ok(work
            .step("t", "when what may be taken is gone", "E_t = E · (1 − u)", Ok(after), HOURLY)?
            .into()),
        None => Ok(Outcome::None("not within the stay".to_owned())),
    }
}

const FLAT: &str = "a flat panel in unbroken view of the sky on the month's middle day: shade, weather and place make it more or less";

/// The figures of days and months.
pub(crate) fn workings(system: System<'_>) -> Vec<Working> {
    let mut all = Vec::new();
    let has_battery = system.build.of_kind("battery").next().is_some();
    let stays = |all: &mut Vec<Working>, of: &str, month: Option<u32>| {
        if !has_battery {
            return;
        }
        let figure = |key, says, wanted| {
            let found = |work: &mut Work| of_a_stay(system, month, work, wanted);
            Working::of(TOPIC, key, of.to_owned(), says, found)
        };
        all.push(figure("lowest_charge", "how full the bank is at its emptiest", lowest));
        all.push(figure("charge_at_end", "how full the bank is at the end of the stay", at_end));
        all.push(figure("hours_to_reserve", "until what may be taken is gone", reserve));
    };
    stays(&mut all, "without sun", None);
    let has_sun = array::arrays(system).map_or(true, |arrays| !arrays.is_empty());
    if !has_sun {
        return all;
    }
    let months = match system.need().and_then(months) {
        Ok(months) => months,
        Err(missing) => {
            all.push(Working::of(TOPIC, "sun_hours", "the build", "sun hours a day", |_| {
                Err::<Figure, _>(missing)
            }));
            return all;
        }
    };
    for (month, word) in months {
        let of = format!("month `{word}`");
        let figure = |key, says, sum: &dyn Fn(&mut Work) -> Known<Figure>| {
            Working::of(TOPIC, key, of.clone(), says, |work| sum(work)).warned(FLAT)
        };
        all.push(figure("sun_hours", "sun hours a day", &|work| sun_hours(system, month, work)));
        all.push(figure("solar_yield", "energy from the sun a day", &|work| {
            from_the_sun(system, month, work)
        }));
        all.push(figure("solar_to_use", "energy from the sun for what is used", &|work| {
            let brought = from_the_sun(system, month, work)?;
            let used = usage::daily(system, work)?;
            if used.quantity.si() <= 0.0 {
                return Err(Missing::new(
                    "anything that is used",
                    None,
                    "give `power` and `hours` of each use",
                ));
            }
            let share = Ok(brought.over(&used).as_share());
            work.step("x", "from the sun for what is used", "E_s / E", share, Origin::derived("a ratio"))
        }));
        stays(&mut all, &of, Some(month));
    }
    all
}
