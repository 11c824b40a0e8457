//! Carbon dioxide through a night in which somebody sleeps inside: with the fixed vents as they are, and with them shut.

use maud::{Markup, html};
use pintle_calc::air::{Night, WORK_LIMIT, nights};
use pintle_finding::Bound;
use pintle_report::plot::{Curve, Curves, Mark, Scale, grouped};
use pintle_spec::Known;

use super::{cannot, drawn};
use crate::Sheet;
use crate::markup::{name, text};

/// Rules whose limits are drawn, with what each limit is for.
const MARKED: [(&str, &str, Is); 2] =
    [("air/stale-air", "in the morning", Is::OfMorning), ("air/foul-air", "on average", Is::OfMean)];
/// From one point of a line to the next, in s.
const EVERY: f64 = 300.0;

/// A level that a night is held against.
struct Level {
    share: f64,
    /// What it is a limit for.
    of: &'static str,
    basis: &'static str,
    is: Is,
}

/// What a level is a limit of.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Is {
    /// Of the share in the morning, in a rule in force.
    OfMorning,
    /// Of the mean of the night, in a rule in force.
    OfMean,
    /// Published, and judged by no rule here.
    Known,
}

/// The chart of each night; a sentence where nobody sleeps inside, or where something is missing.
pub(super) fn charts(sheet: &Sheet<'_>) -> Markup {
    let all = nights(&sheet.case);
    let nobody = all.iter().all(|(_, night)| matches!(night, Ok(None)));
    html! {
        h3 { "Carbon dioxide over the night" }
        @if nobody { p { "Nobody sleeps inside in any state of this spec." } }
        @for (at, (state, night)) in all.iter().enumerate() { (chart(sheet, at, state, night)) }
    }
}

fn chart(sheet: &Sheet<'_>, at: usize, state: &str, night: &Known<Option<Night>>) -> Markup {
    match night {
        Ok(None) => html! {},
        Ok(Some(night)) => figure(sheet, at, state, night),
        Err(missing) => cannot(&format!("carbon dioxide in state `{}`", name(state)), &missing.what),
    }
}

fn figure(sheet: &Sheet<'_>, at: usize, state: &str, night: &Night) -> Markup {
    let levels = levels(sheet, state);
    let says = says(state, night, &levels);
    html! {
        figure .breath {
            figcaption {
                (says)
                " Reckoned, not measured, for a mild and still night, well-mixed air and vents kept clear. Carbon monoxide is no part \
                 of it: fit alarms."
            }
            (drawn(&curves(at, state, night, &levels, &says).svg()))
        }
        details { summary { "Carbon dioxide in state " (name(state)) " in figures" } (table(night, &levels)) }
    }
}

/// The levels that rules in force hold this night against, a limit that a shop has changed as it has changed it. Where none
/// of them is of the mean, the published limit of a day at work is there to compare.
fn levels(sheet: &Sheet<'_>, state: &str) -> Vec<Level> {
    let called = format!("state `{state}`");
    let level = |(rule, of, is): (&str, &'static str, Is)| {
        let mut readings = sheet.inspection.readings.iter().filter(|reading| reading.rule.id == rule);
        readings.find_map(|reading| match &reading.bound {
            Bound::AtMost(limit) if reading.subject.name == state || reading.subject.called() == called => {
                let basis = reading.limit_basis.map_or("", |basis| basis.word());
                Some(Level { share: limit.si(), of, basis, is })
            }
            _ => None,
        })
    };
    let mut levels: Vec<Level> = MARKED.into_iter().filter_map(level).collect();
    if !levels.iter().any(|level| level.is == Is::OfMean) {
        levels.push(Level { share: WORK_LIMIT, of: "for 8 h at work", basis: "published", is: Is::Known });
    }
    levels
}

fn ppm(share: f64) -> String {
    format!("{} ppm", grouped(share * 1e6, 0))
}

/// A time in s, in whole hours where it is so many.
fn in_hours(seconds: f64) -> String {
    let hours = seconds / 3600.0;
    format!("{} h", grouped(hours, usize::from((hours - hours.round()).abs() > 0.01)))
}

fn hours(night: &Night) -> f64 {
    night.length.si() / 3600.0
}

/// What it shows, and what that means.
fn says(state: &str, night: &Night, levels: &[Level]) -> String {
    let end = night.length.si();
    let (asleep, bring) = if night.sleepers < 1.5 {
        ("one sleeper".to_owned(), "brings")
    } else {
        (format!("{} sleepers", grouped(night.sleepers, 0)), "bring")
    };
    let start = if night.bedtime > night.outside {
        format!("{}, which a flueless burner has left at bedtime,", ppm(night.bedtime))
    } else {
        ppm(night.bedtime)
    };
    let [mean, mean_shut] = night.means();
    let length = in_hours(end);
    let state = name(state);
    let shut = format!("{}{}", ppm(night.shut(end)), against(levels, night.shut(end), mean_shut));
    if night.drawn <= 0.0 {
        return format!(
            "In state `{state}` the fixed vents draw no air, since there is none low down or none high up: {asleep} {bring} it from \
             {start} to {shut}, after {length}."
        );
    }
    let vented =
        format!("{} after {length}{}", ppm(night.vented(end)), against(levels, night.vented(end), mean));
    let greatest = levels.iter().map(|level| level.share).reduce(f64::max);
    let until =
        greatest.filter(|share| night.bedtime < *share).map(|share| (share, night.shut_until(share).si()));
    let passes = until.filter(|(_, at)| *at < end).map_or_else(String::new, |(share, at)| {
        format!("passes {} after {} h and ", ppm(share), grouped(at / 3600.0, 1))
    });
    format!(
        "With the fixed vents as they are, {asleep} in state `{state}` {bring} the air from {start} to {vented}. With the vents shut it \
         {passes}reaches {shut}."
    )
}

/// How a night lies to what rules allow of it.
fn against(levels: &[Level], morning: f64, mean: f64) -> String {
    let judged: Vec<&Level> = levels.iter().filter(|level| level.is != Is::Known).collect();
    let passed: Vec<String> = judged
        .iter()
        .filter(|level| if level.is == Is::OfMean { mean > level.share } else { morning > level.share })
        .map(|level| format!("{} {} ({})", ppm(level.share), level.of, level.basis))
        .collect();
    match (judged.is_empty(), passed.is_empty()) {
        (true, _) => ", which no rule judges at this stage".to_owned(),
        (false, true) => ", within the limits in force".to_owned(),
        (false, false) => format!(", over the limit of {}", passed.join(" and of ")),
    }
}

fn curves(at: usize, state: &str, night: &Night, levels: &[Level], told: &str) -> Curves {
    let end = night.length.si();
    let points = |of: &dyn Fn(f64) -> f64| -> Vec<(f64, f64)> {
        let inner = std::iter::successors(Some(0.0), |at| Some(at + EVERY)).take_while(|at| *at < end);
        inner.chain(std::iter::once(end)).map(|at| (at / 3600.0, 1e6 * of(at))).collect()
    };
    let mut lines = Vec::new();
    let shut = format!("vents shut: {}", ppm(night.shut(end)));
    if night.drawn > 0.0 {
        let words = format!("vents as they are: {}", ppm(night.vented(end)));
        lines.push(Curve { key: "vented", words, points: points(&|at| night.vented(at)), dashes: "" });
        lines.push(Curve { key: "shut", words: shut, points: points(&|at| night.shut(at)), dashes: "7 4" });
    } else {
        lines.push(Curve {
            key: "shut",
            words: format!("no air comes in: {}", ppm(night.shut(end))),
            points: points(&|at| night.shut(at)),
            dashes: "",
        });
    }
    let highest = lines.iter().flat_map(|line| &line.points).map(|(_, share)| *share).fold(0.0, f64::max);
    let mark =
        |level: &Level| Mark { words: format!("{} {}", ppm(level.share), level.of), at: 1e6 * level.share };
    let marks: Vec<Mark> = levels.iter().map(mark).collect();
    // What rises far above every limit would press all that matters flat.
    let top = marks.iter().map(|mark| 1.4 * mark.at).reduce(f64::max);
    let begins = 1e6 * night.bedtime;
    let most = match top {
        Some(top) if begins < 0.9 * top => top.min(f64::max(1.1 * highest, top / 1.4 * 1.1)),
        _ => 1.1 * highest,
    };
    Curves {
        id: format!("night-{}", at + 1),
        title: format!("Carbon dioxide over the night, state `{}`", text(state)),
        told: told.to_owned(),
        across: Scale {
            words: "hours since lying down".to_owned(),
            least: 0.0,
            most: hours(night).ceil(),
            step: Some(1.0),
        },
        upright: Scale { words: "carbon dioxide, ppm".to_owned(), least: 0.0, most, step: None },
        lines,
        marks,
    }
}

/// The lines in figures.
fn table(night: &Night, levels: &[Level]) -> Markup {
    let end = night.length.si();
    let whole = std::iter::successors(Some(0.0), |at| Some(at + 3600.0)).take_while(|at| *at < end - 1.0);
    let [mean, mean_shut] = night.means();
    html! {
        table .hours {
            thead { tr { th scope="col" .figure { "after" } th scope="col" .figure { "vents as they are" } th scope="col" .figure { "vents shut" } } }
            tbody {
                @for at in whole.chain(std::iter::once(end)) {
                    tr {
                        th scope="row" .figure { (in_hours(at)) }
                        td .figure { (ppm(night.vented(at))) }
                        td .figure { (ppm(night.shut(at))) }
                    }
                }
                tr { th scope="row" .figure { "on average" } td .figure { (ppm(mean)) } td .figure { (ppm(mean_shut)) } }
                @for level in levels {
                    tr {
                        th scope="row" .figure { (ppm(level.share)) " " (level.of) " (" (level.basis) ") passed after" }
                        td .figure { (passed(night, level.share, &|at| night.vented(at))) }
                        td .figure { (passed(night, level.share, &|at| night.shut(at))) }
                    }
                }
            }
        }
    }
}

/// When a line first passes a level: it rises or falls all night, so that its end tells whether it does.
fn passed(night: &Night, level: f64, of: &dyn Fn(f64) -> f64) -> String {
    let end = night.length.si();
    if of(0.0) > level {
        return "before lying down".to_owned();
    }
    if of(end) <= level {
        return "never that night".to_owned();
    }
    let (mut before, mut after) = (0.0, end);
    for _ in 0..60 {
        let middle = f64::midpoint(before, after);
        if of(middle) > level { after = middle } else { before = middle }
    }
    format!("{} h", grouped(after / 3600.0, 2))
}
