//! What may be loaded where, state by state; and what is not allowed together on the road.

use maud::{Markup, html};
use pintle_calc::weights::Weights;
use pintle_finding::{Reading, Verdict};
use pintle_spec::Extent;
use pintle_spec::schema::build::head;
use pintle_spec::schema::kinds::tank;
use pintle_spec::schema::trailer;
use pintle_spec::schema::trailer::axle;
use pintle_spec::{Build, State, Table, Use};

use super::{Page, part, plain, row};
use crate::markup::{capital, name, sentence};
use crate::worked::plainly;

/// How far from axle or middle something may be and still be called over it, in metres: for words, not for reckoning.
const NEAR: f64 = 0.15;

/// More arrangements than these are counted and not listed.
const MOST: usize = 3;

pub(super) fn loads(page: &Page<'_>) -> Markup {
    let road: Vec<&State> = page.sheet.build.states.iter().filter(|state| state.used == Use::Road).collect();
    let gross = page.tow.about("gross_limit");
    let tongue = page.tow.about("tongue_limit");
    let cargo = page.road.about("cargo_capacity");
    let body = html! {
        p {
            @match gross { Some(gross) => { "The whole trailer: at most " strong { (gross) } ". " }, None => "The most it may weigh is not known: ask the shop. " }
            @match tongue { Some(tongue) => { "On the ball: at most " strong { (tongue) } ". " }, None => "The most on the ball is not known: ask the shop. " }
            @match cargo {
                Some(cargo) => { "With every part in its place you may load " strong { (cargo) } " more: bags, food and water together." },
                None => "What you may load is not known: ask the shop.",
            }
        }
        @if let Ok(band) = page.sheet.terms.band {
            p {
                "Between " (plainly(page.sheet, band.least.share)) " and " (plainly(page.sheet, band.most.share))
                " of its weight must rest on the ball. Less, and it may snake."
            }
        }
        @if road.is_empty() { p { "No way to load it for the road is written down: ask the shop." } } @else {
            table .loads {
                thead { tr { th scope="col" { "loaded for" } th scope="col" { "what, and where" } th scope="col" { "weighs" } th scope="col" { "on the ball" } } }
                tbody { @for state in road { (state_row(page, state)) } }
            }
        }
    };
    part("What you may load, and where", &body)
}

fn state_row(page: &Page<'_>, state: &State) -> Markup {
    let build = page.sheet.build;
    let weights = Weights::of(build, state);
    let told = |found: Result<String, String>| {
        found.map_or_else(|_| "not known".to_owned(), |found| format!("about {found}"))
    };
    html! {
        tr {
            td { (name(&state.name.value)) }
            td { (aboard(page, build, state).join("; ")) }
            td { (told(page.known(&weights.gross()))) }
            td { (told(page.known(&weights.tongue()))) }
        }
    }
}

/// What is aboard in a state besides what is always aboard: loads by their places, then tanks, then what is left at home.
fn aboard(page: &Page<'_>, build: &Build, state: &State) -> Vec<String> {
    let tag = |at: usize| build.items.get(at).map(|item| plain(&item.tag.value)).unwrap_or_default();
    let mut places: Vec<(String, Vec<String>)> = Vec::new();
    let mut load = |what: String, place: Option<String>| {
        let place = place.unwrap_or_else(|| "where, is not known".to_owned());
        match places.iter_mut().find(|(held, _)| *held == place) {
            Some((_, whats)) => whats.push(what),
            None => places.push((place, vec![what])),
        }
    };
    for (at, mass) in state.carry.iter().filter(|(_, mass)| mass.value.si() > 0.0) {
        let place = build.items.get(*at).and_then(|item| place(build, &item.extent));
        load(format!("{} {}", tag(*at), plainly(page.sheet, mass.value)), place);
    }
    for held in &state.loads {
        load(
            format!("{} {}", name(&held.what.value), plainly(page.sheet, held.mass.value)),
            place(build, &held.extent),
        );
    }
    let mut aboard: Vec<String> =
        places.into_iter().map(|(place, whats)| format!("{place}: {}", whats.join(", "))).collect();
    for (at, fill) in &state.fill {
        aboard.push(match fill.value.si() {
            share if share <= 0.0 => format!("{} empty", tag(*at)),
            share if share >= 1.0 => format!("{} full", tag(*at)),
            _ => format!("{} {} full", tag(*at), plainly(page.sheet, fill.value)),
        });
    }
    let out: Vec<String> = state.out.iter().map(|at| tag(*at)).collect();
    if !out.is_empty() {
        aboard.push(format!("left at home: {}", row(&out)));
    }
    if aboard.is_empty() {
        aboard.push("nothing but what is built in".to_owned());
    }
    aboard
}

/// Where something is, in words; nothing where that is not known.
fn place(build: &Build, extent: &Extent) -> Option<String> {
    let axle = build.trailer.table(&trailer::AXLE)?.quantity(&axle::BALL)?.value.si();
    let x = extent.x.cg.as_ref().ok()?.metres - axle;
    let along = if x < -NEAR {
        "ahead of the axle"
    } else if x > NEAR {
        "behind the axle"
    } else {
        "over the axle"
    };
    let across = match extent.y.cg.as_ref().ok().map(|y| y.metres) {
        Some(y) if y < -NEAR => " on the left",
        Some(y) if y > NEAR => " on the right",
        _ => "",
    };
    Some(format!("{along}{across}"))
}

pub(super) fn not_together(page: &Page<'_>) -> Markup {
    let build = page.sheet.build;
    let tag = |at: usize| build.items.get(at).map(|item| plain(&item.tag.value)).unwrap_or_default();
    let mut lines: Vec<String> = Vec::new();
    for either in &build.eithers {
        let names: Vec<String> = either.of.iter().map(|at| tag(*at)).collect();
        let none = if either.none {
            "only one of them rides along"
        } else {
            "one of them rides along, and only one"
        };
        lines.push(format!("{}: {none}.", capital(&names.join(" or "))));
    }
    for item in build.items.iter().filter(|item| !item.needs.is_empty()) {
        let names: Vec<String> = item.needs.iter().map(|at| tag(*at)).collect();
        lines.push(format!("{} only together with {}.", capital(&plain(&item.tag.value)), row(&names)));
    }
    for camp in build.head.texts(&head::CAMP_ONLY) {
        lines.push(format!("{} only when parked: never aboard on the road.", capital(&plain(&camp.value))));
    }
    for (_, item) in build.of_table(Table::Tank) {
        if let Some(held) = item.record.table(&tank::ON_ROAD)
            && let (Some(least), Some(most)) =
                (held.quantity(&tank::on_road::LEAST), held.quantity(&tank::on_road::MOST))
        {
            let tag = capital(&plain(&item.tag.value));
            let (empty, full) = (most.value.si() <= 0.0, least.value.si() >= 1.0);
            let (least, most) = (plainly(page.sheet, least.value), plainly(page.sheet, most.value));
            lines.push(match (empty, full) {
                (true, _) => format!("{tag}: empty on the road."),
                (_, true) => format!("{tag}: full on the road."),
                _ => format!("{tag}: {least} to {most} full on the road."),
            });
        }
    }
    let faults: Vec<&Reading> =
        page.sheet.inspection.readings.iter().filter(|reading| is_of_the_road(reading)).collect();
    if lines.is_empty() && faults.is_empty() {
        return html! {};
    }
    let more = faults.len().saturating_sub(MOST);
    let body = html! {
        ul {
            @for line in &lines { li { (line) } }
            @for reading in faults.iter().take(MOST) {
                li { strong { "Not so: " } "“" (name(&reading.subject.name)) "”. " (sentence(&reading.rule.title)) }
            }
            @if more > 0 { li { strong { "And " (more) " more" } ": the findings of this sheet name them." } }
        }
    };
    part("What is not allowed on the road", &body)
}

/// A fault of the trailer as it is loaded in some way, that nobody accepts.
fn is_of_the_road(reading: &Reading) -> bool {
    let loaded = matches!(reading.subject.kind, "arrangement" | "road state");
    loaded
        && reading.verdict == Verdict::Fault
        && reading.accepted.is_none()
        && reading.grade() > pintle_finding::Grade::Advice
}
