//! What must never be done: by what the build has, and by what was found on it.

use maud::{Markup, html};
use pintle_finding::{Grade, Reading};
use pintle_spec::schema::kinds::{battery, rack};
use pintle_spec::schema::trailer;
use pintle_spec::schema::trailer::roof_rating;

use super::Page;
use crate::markup::{sentence, text};
use crate::worked::plainly;

/// More findings than these are counted and not listed.
const MOST: usize = 4;

pub(super) fn section(page: &Page<'_>) -> Markup {
    let has = |word| page.aboard.has(word) == Some(true);
    let always = |yes: bool, line: &str| yes.then(|| line.to_owned());
    let lines = [
        always(true, "Nobody rides in the trailer."),
        always(
            has("bar lock"),
            "Never bar or lock the door from outside while somebody is inside. Lock the bar open for the night.",
        ),
        always(
            has("berth"),
            "Never burn charcoal, or run an engine or a grill, in the trailer, under the tent or near an open window. The fumes have no smell and kill.",
        ),
        always(
            has("flame inside"),
            "Never sleep with a cooker or a heater burning that has no pipe to the outside. Never heat with the cooker.",
        ),
        always(has("vent") && has("berth"), "Never cover or shut the fixed vents, on a cold night neither."),
        always(
            page.aboard.gas(),
            "Never drive with the gas open. If you smell gas or its alarm sounds: no flame, no switch, everybody out, shut the cylinder.",
        ),
        always(has("cylinder"), "Never carry or keep a gas cylinder or a small gas can inside."),
        always(
            has("alarm"),
            "Never take an alarm down or its battery out. If it sounds, get everybody out first.",
        ),
        always(
            has("tent"),
            "Never drive with the tent open or unstrapped, or with anybody in it. One at a time on the ladder.",
        ),
        always(
            page.aboard.mains(),
            "If the metal tingles: pull the plug, touch nothing, call an electrician.",
        ),
        always(has("tank"), "Never drive off with a tap open, or leave water in it in frost."),
        always(
            has("load") || has("removable"),
            "Never drive with anything loose: strap every load, lock every part you put back.",
        ),
        cold(page),
        Some(roof(page)),
    ];
    let grave: Vec<&Reading> = page
        .sheet
        .inspection
        .readings
        .iter()
        .filter(|reading| {
            reading.verdict.is_finding() && reading.accepted.is_none() && reading.grade() == Grade::Critical
        })
        .collect();
    let mut titles: Vec<&str> = grave.iter().map(|reading| reading.rule.title.as_str()).collect();
    titles.dedup();
    let more = titles.len().saturating_sub(MOST);
    let body = html! {
        ul {
            @for title in titles.iter().take(MOST) { li .open { strong { "Not put right: " } (sentence(title)) " Do not use it so." } }
            @if more > 0 { li .open { strong { "And " (more) " more grave findings" } ": this sheet names them." } }
            @for line in lines.into_iter().flatten() { li { (text(&line)) } }
        }
    };
    html! { section .part .long { h3 { "Never" } (body) } }
}

/// A lithium battery that is not said to guard itself against the cold.
fn cold(page: &Page<'_>) -> Option<String> {
    let bare = page.sheet.build.of_kind("battery").any(|(_, item)| {
        item.record.word(&battery::CHEMISTRY).is_some_and(|word| word.value == "lithium iron phosphate")
            && item.record.flag(&battery::COLD_CUT_OFF).is_none_or(|flag| !flag.value)
    });
    bare.then(|| "Never charge the battery below freezing.".to_owned())
}

/// What the roof may carry, where something stands on it or may.
fn roof(page: &Page<'_>) -> String {
    let held = page.sheet.build.trailer.table(&trailer::ROOF_RATING);
    let of = |field| held.and_then(|held| held.quantity(field)).map(|held| plainly(page.sheet, held.value));
    let racked =
        page.sheet.build.of_kind("rack").any(|(_, item)| item.record.quantity(&rack::MOVING).is_some());
    match (of(&roof_rating::MOVING), of(&roof_rating::PARKED)) {
        (Some(moving), Some(parked)) => format!(
            "Never more on the roof, rack and tent counted, than {moving} on the road and {parked} when parked, sleepers counted."
        ),
        (Some(moving), None) => format!(
            "Never more on the roof than {moving} on the road. When parked: not known, so nobody up there."
        ),
        (None, Some(parked)) => format!(
            "Never more on the roof than {parked} when parked. On the road: not known, so nothing more."
        ),
        (None, None) if racked || page.aboard.has("roof") == Some(true) => {
            "Never put anything more on the roof: nobody has said what it carries.".to_owned()
        }
        (None, None) => "Never put anything on the roof: nobody has said what it carries.".to_owned(),
    }
}
