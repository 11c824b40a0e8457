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
use crate::markup::{name, text};
use crate::worked::quantity_words;

/// How far from axle or middle something may be and still be called over it, in metres: for words, not for reckoning.
const NEAR: f64 = 0.15;

/// More arrangements than these are counted and not listed.
const MOST: usize = 3;

pub(super) fn section(page: &Page<'_>) -> Markup {
    html! { (loads(page)) (not_together(page)) }
}

fn loads(page: &Page<'_>) -> Markup {
    let road: Vec<&State> = page.sheet.build.states.iter().filter(|state| state.used == Use::Road).collect();
    let gross = page.tow.about("gross_limit");
    let tongue = page.tow.about("tongue_limit");
    let cargo = page.road.about("cargo_capacity");
    let body = html! {
        p {
            @match gross { Some(gross) => { "The whole trailer: at most " strong { (gross) } ". " }, None => "The most it may weigh is not known: ask the shop. " }
            @match tongue { Some(tongue) => { "On the ball: at most " strong { (tongue) } ". " }, None => "The most on the ball is not known: ask the shop. " }
            @match cargo {
                Some(cargo) => { "Beyond what is built in you may load " strong { (cargo) } ", water and removable things counted as the label says." },
                None => "What you may load is not known: ask the shop.",
            }
        }
        @if let Ok(band) = page.sheet.terms.band {
            p {
                "Between " (quantity_words(page.sheet, band.least.share)) " and " (quantity_words(page.sheet, band.most.share))
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

/// What is aboard in a state besides what is always aboard.
fn aboard(page: &Page<'_>, build: &Build, state: &State) -> Vec<String> {
    let mut aboard = Vec::new();
    let tag = |at: usize| build.items.get(at).map(|item| plain(&item.tag.value)).unwrap_or_default();
    for (at, mass) in &state.carry {
        let place = build.items.get(*at).and_then(|item| place(build, &item.extent));
        aboard.push(loaded(&tag(*at), &quantity_words(page.sheet, mass.value), place));
    }
    for load in &state.loads {
        aboard.push(loaded(
            &name(&load.what.value),
            &quantity_words(page.sheet, load.mass.value),
            place(build, &load.extent),
        ));
    }
    for (at, fill) in &state.fill {
        aboard.push(format!("{} {} full", tag(*at), quantity_words(page.sheet, fill.value)));
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

fn loaded(what: &str, mass: &str, place: Option<String>) -> String {
    match place {
        Some(place) => format!("{what} {mass}, {place}"),
        None => format!("{what} {mass}"),
    }
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

fn not_together(page: &Page<'_>) -> Markup {
    let build = page.sheet.build;
    let tag = |at: usize| build.items.get(at).map(|item| plain(&item.tag.value)).unwrap_or_default();
    let mut lines: Vec<String> = Vec::new();
    for either in &build.eithers {
        let names: Vec<String> = either.of.iter().map(|at| tag(*at)).collect();
        let none = if either.none { "" } else { ", and one always" };
        lines.push(format!("Only one of {}{none}.", row(&names)));
    }
    for item in build.items.iter().filter(|item| !item.needs.is_empty()) {
        let names: Vec<String> = item.needs.iter().map(|at| tag(*at)).collect();
        lines.push(format!(
            "{} only together with {}.",
            super::capital(&plain(&item.tag.value)),
            row(&names)
        ));
    }
    for camp in build.head.texts(&head::CAMP_ONLY) {
        lines.push(format!(
            "{} only when parked: never aboard on the road.",
            super::capital(&plain(&camp.value))
        ));
    }
    for (_, item) in build.of_table(Table::Tank) {
        if let Some(held) = item.record.table(&tank::ON_ROAD)
            && let (Some(least), Some(most)) =
                (held.quantity(&tank::on_road::LEAST), held.quantity(&tank::on_road::MOST))
        {
            let (least, most) =
                (quantity_words(page.sheet, least.value), quantity_words(page.sheet, most.value));
            lines.push(format!(
                "{}: {least} to {most} full on the road.",
                super::capital(&plain(&item.tag.value))
            ));
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
                li { strong { "Not so: " } "“" (name(&reading.subject.name)) "”. " (text(&reading.rule.title)) "." }
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
