//! What the scale said, against what was computed.

use maud::{Markup, html};
use pintle_calc::scale::tickets;
use pintle_calc::working::{Outcome, Working};
use pintle_calc::{Figure, topics};
use pintle_spec::schema::record::ticket;

use super::capital;
use super::lacking::Lacking;
use crate::Sheet;
use crate::markup::{name, text};

/// Every ticket of the record.
pub(super) fn section(sheet: &Sheet<'_>, lacking: &mut Lacking) -> Markup {
    let figures = topics::find("scale").map(|topic| topic.figures(&sheet.case)).unwrap_or_default();
    let tickets = tickets(sheet.build);
    let unweighed: Vec<&str> = figures
        .iter()
        .filter(|figure| figure.key == "has_ticket" && matches!(figure.outcome, Ok(Outcome::Flag(false))))
        .map(|figure| figure.of.as_str())
        .collect();
    html! {
        h3 { "What the scale said" }
        @if tickets.is_empty() {
            p { strong { "No scale ticket is recorded." } " Nothing on this page has been weighed yet." }
        }
        @for held in &tickets {
            (card(sheet, &figures, &held.name, held.record.text(&ticket::DATE).map(|date| date.value), lacking))
        }
        @if !tickets.is_empty() && !unweighed.is_empty() {
            p { "Never on the scale: " @for (at, state) in unweighed.iter().enumerate() { @if at > 0 { ", " } (name(state)) } "." }
        }
    }
}

fn card(
    sheet: &Sheet<'_>,
    figures: &[Working],
    called: &str,
    date: Option<&str>,
    lacking: &mut Lacking,
) -> Markup {
    let own = |key: &str| figures.iter().find(move |figure| figure.of == called && figure.key == key);
    let residuals: Vec<&Working> =
        figures.iter().filter(|figure| figure.of == called && figure.key.ends_with("_residual")).collect();
    let rows: Vec<Markup> = residuals
        .iter()
        .map(|residual| row(sheet, residual, own(&format!("{}_over_spread", residual.key)), called, lacking))
        .collect();
    let agreed: Vec<Markup> = ["in_balance", "sides_in_balance"]
        .into_iter()
        .filter_map(own)
        .map(|flag| {
            html! {
                li { (capital(flag.says)) ": " (match &flag.outcome {
                    Ok(Outcome::Flag(true)) => "yes.".to_owned(),
                    Ok(Outcome::Flag(false)) => "no, so one of the readings is wrong.".to_owned(),
                    Ok(Outcome::None(why)) => format!("not to be told, since {why}."),
                    Ok(_) => String::new(),
                    Err(missing) => {
                        lacking.note(&missing.what, &format!("whether the readings of {called} agree"));
                        "not known.".to_owned()
                    }
                }) }
            }
        })
        .collect();
    html! {
        table .ticket.keep {
            caption {
                strong { (name(called)) }
                @match date { Some(date) => { ", " (text(date)) } None => ", no day is recorded" }
            }
            thead {
                tr {
                    th scope="col" { "reading" } th scope="col" .figure { "scale" } th scope="col" .figure { "computed" }
                    th scope="col" .figure { "differs by" } th scope="col" { "within its ±" }
                }
            }
            tbody {
                @if rows.is_empty() { tr { td colspan="5" { "No reading is recorded." } } }
                @for row in &rows { (row) }
            }
        }
        @if !agreed.is_empty() { ul { @for line in &agreed { (line) } } }
    }
}

/// A reading against what was computed. `over` is the difference over its ±.
fn row(
    sheet: &Sheet<'_>,
    residual: &Working,
    over: Option<&Working>,
    of: &str,
    lacking: &mut Lacking,
) -> Markup {
    let units = sheet.terms.look.units;
    let shown = |figure: Option<&Figure>| {
        figure.map_or_else(|| "not known".to_owned(), |figure| figure.quantity.show(units))
    };
    let step = |working: &Working, symbol: &str| {
        working.steps.iter().find(|step| step.symbol == symbol).map(|step| step.value.clone())
    };
    let computed = residual.steps.iter().find(|step| step.symbol == "c");
    let what = computed.map_or(residual.says, |step| step.what.as_str());
    if let Err(missing) = &residual.outcome {
        lacking.note(&missing.what, &format!("{} of {of}", residual.says));
    }
    let width = over.and_then(|over| step(over, "t"));
    let verdict = match over.map(|over| &over.outcome) {
        Some(Ok(Outcome::Figure(share))) => {
            let width = shown(width.as_ref());
            if share.quantity.si() <= 1.0 {
                html! { "yes, ± " (width) }
            } else {
                html! { strong .over { "no" } ", " (format!("{:.1}", share.quantity.si())) " times its ± of " (width) }
            }
        }
        Some(Err(missing)) => {
            lacking.note(&missing.what, &format!("whether the {what} of {of} lies within its ±"));
            html! { "not known" }
        }
        _ => html! { "not known" },
    };
    let difference = match residual.figure() {
        Ok(figure) if figure.quantity.si() > 0.0 => format!("+{}", shown(Some(figure))),
        Ok(figure) => shown(Some(figure)),
        Err(_) => "not known".to_owned(),
    };
    html! {
        tr {
            th scope="row" { (text(what)) }
            td .figure { (shown(step(residual, "r").as_ref())) }
            td .figure { (shown(computed.map(|step| &step.value))) }
            td .figure { (difference) }
            td { (verdict) }
        }
    }
}
