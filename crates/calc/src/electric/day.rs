//! Day by day and hour by hour: what is used, what the sun brings, and how full that leaves the bank.

use pintle_quantity::{Dimension, Quantity};
use pintle_spec::schema::assume::{self, electric};
use pintle_spec::schema::electric as schema;
use pintle_spec::{Known, Missing, Record};

use super::course::{Course, HOURLY, Stay, stay};
use super::system::{System, TOPIC};
use super::{array, sun, usage};
use crate::case::Case;
use crate::figure::Figure;
use crate::origin::Origin;
use crate::working::{Outcome, Work, Working};

const GROUND: Origin = Origin::published(
    "FAO-56, equations 21 to 25 and 35 (as worked by the NCAR Command Language's documentation, seen)",
);

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

/// The stay in a month, or without sun.
fn stay_in(system: System<'_>, month: Option<u32>, work: &mut Work) -> Known<Stay> {
    usage::daily(system, work)?;
    match month {
        None => stay(system, None, work),
        Some(month) => {
            let whole = from_the_sun(system, month, work)?;
            let phi = latitude(system.need()?, &mut Work::default())?.quantity.si();
            stay(system, Some((&whole, sun::by_the_hour(phi, sun::middle_day(month)))), work)
        }
    }
}

/// A figure of a stay in a month, or without sun.
fn of_a_stay(
    system: System<'_>,
    month: Option<u32>,
    work: &mut Work,
    wanted: fn(&Stay, &mut Work) -> Known<Outcome>,
) -> Known<Outcome> {
    let stay = stay_in(system, month, work)?;
    wanted(&stay, work)
}

/// What the courses of a build are of where it has panels and does not say in which months it is used.
const NO_MONTH: &str = "the months that it is used in";

/// The bank hour by hour through the stay, by what it is of: without sun, and where there are panels in each month that
/// the build is used in. Empty where it has no battery.
pub fn courses(case: &Case<'_>) -> Vec<(String, Known<Course>)> {
    let system = System::of(case);
    if system.build.of_kind("battery").next().is_none() {
        return Vec::new();
    }
    let of = |month| stay_in(system, month, &mut Work::default()).map(|stay| stay.course);
    let mut all = vec![(WITHOUT_SUN.to_owned(), of(None))];
    if array::arrays(system).map_or(true, |arrays| !arrays.is_empty()) {
        match system.need().and_then(months) {
            Ok(months) => {
                all.extend(months.into_iter().map(|(month, word)| (of_month(word), of(Some(month)))));
            }
            Err(missing) => all.push((NO_MONTH.to_owned(), Err(missing))),
        }
    }
    all
}

/// What figures are of that reckon with no sun at all.
pub const WITHOUT_SUN: &str = "without sun";

fn of_month(word: &str) -> String {
    format!("month `{word}`")
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
    stays(&mut all, WITHOUT_SUN, None);
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
        let of = of_month(word);
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
