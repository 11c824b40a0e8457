//! The balance of power: what is used and what the sun brings, hour by hour through a stay, and what that leaves in the
//! bank; and what a day without sun does.

use maud::{Markup, html};
use pintle_calc::electric::{Course, Hour, WITHOUT_SUN, courses};
use pintle_calc::topics;
use pintle_calc::working::Working;
use pintle_quantity::{Quantity, Unit};
use pintle_report::plot::{Curve, Curves, Mark, Scale, grouped};

use super::{cannot, drawn};
use crate::Sheet;
use crate::markup::text;
use crate::weights::capital;

/// Days of which the hours are drawn one by one.
const DAYS_DRAWN: usize = 3;

/// A course with what it is of.
type Named = (String, Course);

/// The chart; a sentence where the build has no battery, or where something is missing.
pub(super) fn chart(sheet: &Sheet<'_>) -> Markup {
    let all = courses(&sheet.case);
    let mut missing: Vec<(String, String)> = Vec::new();
    let mut known: Vec<Named> = Vec::new();
    for (of, course) in all.iter().cloned() {
        match course {
            Ok(course) => known.push((of, course)),
            Err(lacks) => missing.push((of, lacks.what)),
        }
    }
    html! {
        h3 { "Balance of power" }
        @if all.is_empty() { p { "There is no battery aboard." } }
        @for (of, what) in &missing { (cannot(&format!("the bank {}", through(of)), what)) }
        @if !known.is_empty() { (figure(sheet, &known)) }
    }
}

/// How a course is called in a sentence.
fn through(of: &str) -> String {
    match of.split_once('`') {
        Some((_, month)) => format!("with the sun of {}", capital(month.trim_end_matches('`'))),
        None if of == WITHOUT_SUN => "without any sun".to_owned(),
        None => format!("through {}", text(of)),
    }
}

fn figure(sheet: &Sheet<'_>, known: &[Named]) -> Markup {
    let dark = known.iter().find(|(of, _)| of == WITHOUT_SUN);
    let sunny = known.iter().filter(|(of, _)| of != WITHOUT_SUN);
    let weakest = sunny.reduce(|weakest, next| if least(next) < least(weakest) { next } else { weakest });
    let Some(main) = weakest.or(dark) else { return html! {} };
    html! {
        figure .power {
            figcaption { (says(sheet, main, weakest.and(dark))) }
            (drawn(&bank(main, weakest.and(dark)).svg()))
            (drawn(&flow(main, weakest.is_some()).svg()))
        }
        details {
            summary { "The balance of power in figures" }
            (stays(sheet, known))
            (hours(main, weakest.and(dark)))
        }
    }
}

/// The least share of its bank that a course comes to.
fn least((_, course): &Named) -> f64 {
    course.lowest().map_or(1.0, |(_, held)| held.si() / course.full.quantity.si())
}

/// What it shows, and what that means.
fn says(sheet: &Sheet<'_>, main: &Named, dark: Option<&Named>) -> Markup {
    let days = crate::head::so_many(main.1.days(), "day");
    html! {
        "What the bank holds through " (days) " away, hour by hour from arrival at " (main.1.arrival) ":00 with a full bank, and \
         what is used " @if main.0 != WITHOUT_SUN { "and what the sun brings " } "in each hour"
        @if main.1.days() > DAYS_DRAWN { " of the first " (DAYS_DRAWN) " days, which are as all others" } ". "
        strong { (comes_to(main)) }
        @if let Some(dark) = dark { " " (comes_to(dark)) }
        " " (bad_day(sheet))
    }
}

/// What a course comes to at its emptiest, and when it takes from what has to stay.
fn comes_to((of, course): &Named) -> String {
    let through = capital(&through(of));
    let Some((after, held)) = course.lowest() else { return String::new() };
    let (held, floor) = (watt_hours(held), watt_hours(course.reserve.quantity));
    let (held_words, floor_words) = (energy(held), energy(floor));
    let below = course.hours.iter().position(|hour| hour.held.si() < course.reserve.quantity.si());
    match below {
        None => format!(
            "{through} it holds {held_words} at the least, after {after} h: more than the {floor_words} that have to stay in it."
        ),
        Some(at) => format!(
            "{through} what may be taken is gone in hour {}: the bank falls below the {floor_words} that have to stay in it, to \
             {held_words}.",
            at + 1
        ),
    }
}

/// What one day without sun takes, of what may be taken.
fn bad_day(sheet: &Sheet<'_>) -> String {
    let figures = topics::find("electric").map(|topic| topic.figures(&sheet.case)).unwrap_or_default();
    let of = |key: &str| -> Option<Quantity> {
        let found: &Working = figures.iter().find(|figure| figure.key == key)?;
        Some(found.figure().ok()?.quantity)
    };
    let units = sheet.terms.look.units;
    match (of("daily_use"), of("usable_energy"), of("days_of_autonomy")) {
        (Some(used), Some(usable), Some(days)) => format!(
            "A bad day, on which the sun brings nothing, takes {} of the {} that may be taken: a full bank lasts {} such days.",
            used.show(units),
            usable.show(units),
            grouped(days.si() / 86_400.0, 1)
        ),
        (Some(used), ..) => {
            format!("A bad day, on which the sun brings nothing, takes {}.", used.show(units))
        }
        _ => "What a bad day takes is not known.".to_owned(),
    }
}

fn watt_hours(energy: Quantity) -> f64 {
    // A unit of the vocabulary: where it were not there, joules would be told as such by nobody, so 3,600 J stand in.
    Unit::find("Wh").and_then(|unit| energy.value_in(unit).ok()).unwrap_or(energy.si() / 3600.0)
}

fn energy(watt_hours: f64) -> String {
    format!("{} Wh", grouped(watt_hours, usize::from(watt_hours.abs() < 9.95)))
}

fn number(count: usize) -> f64 {
    u32::try_from(count).map_or(f64::INFINITY, f64::from)
}

/// The axis of so many hours.
fn across(course: &Course, hours: usize) -> Scale {
    let step = match hours / 24 {
        0 | 1 => 4.0,
        2 => 6.0,
        3..=5 => 12.0,
        6..=10 => 24.0,
        11..=20 => 48.0,
        _ => 120.0,
    };
    let words = format!("hours since arrival at {}:00, solar time", course.arrival);
    Scale { words, least: 0.0, most: number(hours), step: Some(step) }
}

/// What the bank holds.
fn bank(main: &Named, dark: Option<&Named>) -> Curves {
    let full = watt_hours(main.1.full.quantity);
    let held = |course: &Course| {
        let ends = course.hours.iter().enumerate().map(|(at, hour)| (number(at + 1), watt_hours(hour.held)));
        std::iter::once((0.0, watt_hours(course.full.quantity))).chain(ends).collect()
    };
    // As short as can be: the words stand in the drawing.
    let line = |(of, course): &Named, key, dashes| {
        let words = through(of).replace("with the ", "").replace("without any sun", "no sun");
        Curve { key, words, points: held(course), dashes }
    };
    let mut lines = vec![line(main, "held", "")];
    lines.extend(dark.map(|dark| line(dark, "dark", "7 4")));
    let floor = watt_hours(main.1.reserve.quantity);
    let told = std::iter::once(main).chain(dark).map(comes_to).collect::<Vec<_>>().join(" ");
    Curves {
        id: "bank".to_owned(),
        title: "What the bank holds".to_owned(),
        told,
        across: across(&main.1, main.1.hours.len()),
        upright: Scale {
            words: "energy in the bank, Wh".to_owned(),
            least: 0.0,
            most: 1.12 * full,
            step: None,
        },
        lines,
        marks: vec![
            Mark { words: format!("full: {}", energy(full)), at: full },
            Mark { words: format!("floor: {} have to stay", energy(floor)), at: floor },
        ],
    }
}

/// What is used and what the sun brings in each hour, as steps. Days are alike, so that the first few tell all of it.
fn flow(main: &Named, has_sun: bool) -> Curves {
    let hours = main.1.hours.len().min(24 * DAYS_DRAWN);
    let steps = |of: fn(&Hour) -> Quantity| -> Vec<(f64, f64)> {
        let hours = main.1.hours.iter().take(hours).enumerate();
        hours
            .flat_map(|(at, hour)| {
                let level = watt_hours(of(hour));
                [(number(at), level), (number(at + 1), level)]
            })
            .collect()
    };
    let mut lines =
        vec![Curve { key: "used", words: "used".to_owned(), points: steps(|hour| hour.used), dashes: "" }];
    if has_sun {
        lines.push(Curve {
            key: "sun",
            words: "from the sun".to_owned(),
            points: steps(|hour| hour.brought),
            dashes: "2 3",
        });
    }
    let most = lines.iter().flat_map(|line| &line.points).map(|(_, level)| *level).fold(1.0, f64::max);
    let sum = |key: &str| -> f64 {
        let own = lines.iter().filter(|line| line.key == key).flat_map(|line| &line.points);
        // Each hour stands twice: at its beginning and at its end.
        own.map(|(_, level)| level).sum::<f64>() / 2.0
    };
    let told = format!(
        "{} are used and {} come from the sun in {hours} hours, {}",
        energy(sum("used")),
        energy(sum("sun")),
        through(&main.0)
    );
    Curves {
        id: "flow".to_owned(),
        title: "What is used and what the sun brings in each hour".to_owned(),
        told,
        across: across(&main.1, hours),
        upright: Scale {
            words: "energy in each hour, Wh".to_owned(),
            least: 0.0,
            most: 1.15 * most,
            step: None,
        },
        lines,
        marks: Vec::new(),
    }
}

/// Each stay by what it comes to.
fn stays(sheet: &Sheet<'_>, known: &[Named]) -> Markup {
    let units = sheet.terms.look.units;
    let sum = |course: &Course, of: fn(&Hour) -> Quantity| -> f64 {
        course.hours.iter().take(24).map(|hour| watt_hours(of(hour))).sum()
    };
    html! {
        table .stays {
            caption { "Each stay, from a full bank of " @if let Some((_, course)) = known.first() { (course.full.quantity.show(units)) } }
            thead {
                tr {
                    th scope="col" { "stay" } th scope="col" .figure { "sun a day" } th scope="col" .figure { "used a day" }
                    th scope="col" .figure { "least in the bank" } th scope="col" .figure { "after" } th scope="col" .figure { "at the end" }
                }
            }
            tbody {
                @for (of, course) in known {
                    tr {
                        th scope="row" { (through(of)) }
                        td .figure { (energy(sum(course, |hour| hour.brought))) }
                        td .figure { (energy(sum(course, |hour| hour.used))) }
                        @if let Some((after, held)) = course.lowest() {
                            td .figure { (energy(watt_hours(held))) }
                            td .figure { (after) " h" }
                        } @else { td { "–" } td { "–" } }
                        td .figure { @if let Some(last) = course.hours.last() { (energy(watt_hours(last.held))) } @else { "–" } }
                    }
                }
            }
        }
    }
}

/// The lines of the charts in figures: by the hour of a short stay, by several of a long one.
fn hours(main: &Named, dark: Option<&Named>) -> Markup {
    let step = match main.1.days() {
        0 | 1 => 1,
        2 | 3 => 3,
        4..=7 => 6,
        _ => 24,
    };
    let held = |course: &Course, at: usize| course.hours.get(at).map(|hour| energy(watt_hours(hour.held)));
    let rows = main.1.hours.chunks(step).scan(0, |end, hours| {
        *end += hours.len();
        let sum = |of: fn(&Hour) -> Quantity| -> f64 { hours.iter().map(|hour| watt_hours(of(hour))).sum() };
        Some((*end, sum(|hour| hour.used), sum(|hour| hour.brought)))
    });
    html! {
        table .hours {
            caption { "The drawn lines, " (through(&main.0)) @if dark.is_some() { " and without any sun" } }
            thead {
                tr {
                    th scope="col" .figure { "after" } th scope="col" .figure { "used" } th scope="col" .figure { "from the sun" }
                    th scope="col" .figure { "in the bank" } @if dark.is_some() { th scope="col" .figure { "without sun" } }
                }
            }
            tbody {
                @for (end, used, brought) in rows {
                    tr {
                        th scope="row" .figure { (end) " h" }
                        td .figure { (energy(used)) }
                        td .figure { (energy(brought)) }
                        td .figure { (held(&main.1, end - 1).unwrap_or_default()) }
                        @if let Some((_, dark)) = dark { td .figure { (held(dark, end - 1).unwrap_or_default()) } }
                    }
                }
            }
        }
    }
}
