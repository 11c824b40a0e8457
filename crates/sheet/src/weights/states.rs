//! Each state: what it weighs and where, against the limits in force.

use std::rc::Rc;

use maud::{Markup, html};
use pintle_calc::arrange::{Allowed, Bounded, allowed};
use pintle_calc::ratings::tires_of_side;
use pintle_calc::weights::Weights;
use pintle_calc::{Figure, Known};
use pintle_quantity::Quantity;
use pintle_report::weights::name_of;
use pintle_spec::{Missing, State, Use};

use super::lacking::Lacking;
use super::{certain, plain};
use crate::Sheet;
use crate::markup::{name, text};

/// All states.
pub(super) fn section(sheet: &Sheet<'_>, lacking: &mut Lacking) -> Markup {
    let states: Vec<Markup> = sheet
        .build
        .states
        .iter()
        .enumerate()
        .map(|(at, state)| card(sheet, state, &Weights::of_state(sheet.build, at), lacking))
        .collect();
    for missing in limits(sheet).not_given {
        lacking.note(&missing.what, "a rating that would be a limit here");
    }
    html! {
        h3 { "State by state" }
        @if states.is_empty() {
            p { "The spec names no state, so nothing is known of what it weighs when it is used." }
        }
        div .states { @for state in &states { (state) } }
    }
}

/// The ratings that are given, and those that are not.
fn limits(sheet: &Sheet<'_>) -> Allowed {
    let (least, most) = match sheet.terms.band {
        Ok(band) => (band.least.share, band.most.share),
        Err(_) => (Quantity::share(-1.0), Quantity::share(1.0)),
    };
    allowed(sheet.build, least, most, 1.0)
}

/// A line of a state's table.
struct Line {
    what: &'static str,
    value: Known<Figure>,
    limit: Limit,
}

/// What bounds a figure.
enum Limit {
    /// No more than this, and what sets it.
    AtMost(Figure, String),
    /// The band of tongue shares.
    Band,
    /// A limit that is not given.
    NotGiven(String),
    /// There is none.
    None(&'static str),
}

fn card(sheet: &Sheet<'_>, state: &State, weights: &Rc<Weights>, lacking: &mut Lacking) -> Markup {
    let road = state.used == Use::Road;
    let called = format!("{} state `{}`", if road { "road" } else { "camp" }, state.name.value);
    let limits = limits(sheet);
    let rated = |bounded| if road { least_rating(&limits, bounded) } else { Limit::None("parked") };
    let side = || match tires_of_side(sheet.build) {
        _ if !road => Limit::None("parked"),
        Ok(rating) => Limit::AtMost(rating, "tires of one side".to_owned()),
        Err(missing) => Limit::NotGiven(missing.what),
    };
    let lines = [
        Line { what: "gross weight", value: weights.gross(), limit: rated(Bounded::Gross) },
        Line { what: "tongue weight", value: weights.tongue(), limit: rated(Bounded::Tongue) },
        Line {
            what: "tongue share",
            value: weights.tongue_share(),
            limit: if road { Limit::Band } else { Limit::None("parked") },
        },
        Line { what: "axle load", value: weights.axles(), limit: rated(Bounded::Axles) },
        Line { what: "left wheels", value: weights.left(), limit: side() },
        Line { what: "right wheels", value: weights.right(), limit: side() },
        Line {
            what: "height of the centre of gravity",
            value: weights.centre_z(),
            limit: Limit::None("none of its own"),
        },
    ];
    html! {
        table .state.keep {
            caption {
                strong { (name(&state.name.value)) } @if road { ", on the road" } @else { ", parked: the limits of the road do not apply" }
            }
            thead {
                tr { th scope="col" { "figure" } th scope="col" .figure { "computed" } th scope="col" { "limit" } th scope="col" { "margin" } }
            }
            tbody { @for line in &lines { (row(sheet, line, &called, lacking)) } }
        }
    }
}

/// The least of the ratings that bound a figure: it is the one in force.
fn least_rating(limits: &Allowed, wanted: Bounded) -> Limit {
    let given = limits.ratings.iter().filter(|(bounded, _)| *bounded == wanted).map(|(_, rating)| rating);
    let least =
        given.reduce(|least, next| if next.quantity.si() < least.quantity.si() { next } else { least });
    match least {
        Some(rating) => Limit::AtMost(rating.clone(), plain(&name_of(rating))),
        None => Limit::NotGiven("a rating".to_owned()),
    }
}

fn row(sheet: &Sheet<'_>, line: &Line, state: &str, lacking: &mut Lacking) -> Markup {
    let units = sheet.terms.look.units;
    let value = sheet.terms.shown(sheet.build, line.value.clone());
    lacking.of(&value, &format!("{} in {state}", line.what));
    let (limit, margin) = match &line.limit {
        Limit::AtMost(rating, of) => (
            html! { (beside(sheet, &line.value, rating)) " " span .of { (text(of)) } },
            below(sheet, &line.value, rating),
        ),
        Limit::Band => match sheet.terms.band {
            Ok(band) => {
                let ends = format!("{} to {}", band.least.share.show(units), band.most.share.show(units));
                (html! { (ends) }, within(sheet, &line.value, [band.least.share, band.most.share]))
            }
            Err(missing) => {
                lacking.note(&missing.what, "the band of the tongue share");
                (html! { "no band is in force" }, html! { "not known" })
            }
        },
        Limit::NotGiven(what) => {
            lacking.note(what, &format!("a limit for the {} in {state}", line.what));
            (html! { "not known: " (text(what)) " is not given" }, html! { "not known" })
        }
        Limit::None(words) => (html! { (words) }, html! { "–" }),
    };
    html! {
        tr {
            th scope="row" { (line.what) }
            td .figure { (certain(&value)) }
            td { (limit) }
            td { (margin) }
        }
    }
}

/// A limit in the unit of what it bounds, with how it is written where that is another.
fn beside(sheet: &Sheet<'_>, value: &Known<Figure>, limit: &Figure) -> String {
    let units = sheet.terms.look.units;
    let written = limit.quantity.show(units);
    let alike = value.as_ref().map(|value| limit.shown_as(value.quantity).quantity.show(units));
    match alike {
        Ok(alike) if alike != written => format!("{alike} ({written})"),
        _ => written,
    }
}

/// How far a figure lies below a limit, or by how much it is over it.
fn below(sheet: &Sheet<'_>, value: &Known<Figure>, limit: &Figure) -> Markup {
    let room = value.clone().and_then(|value| less(&limit.shown_as(value.quantity), &value));
    match room {
        Ok(room) if room.quantity.si() < 0.0 => told(sheet, &room, "over by "),
        Ok(room) => told(sheet, &room, ""),
        Err(_) => html! { "not known" },
    }
}

/// How far a share lies within a band, from its nearer end.
fn within(sheet: &Sheet<'_>, value: &Known<Figure>, [least, most]: [Quantity; 2]) -> Markup {
    let room = |value: &Figure| -> Known<Markup> {
        let above = less(value, &Figure::constant(least))?.as_share();
        let beneath = less(&Figure::constant(most), value)?.as_share();
        let (nearer, words) = if above.quantity.si() <= beneath.quantity.si() {
            (above, ["too light by ", " above the least"])
        } else {
            (beneath, ["too heavy by ", " below the most"])
        };
        let [outside, inside] = words;
        Ok(if nearer.quantity.si() < 0.0 {
            told(sheet, &nearer, outside)
        } else {
            html! { (told(sheet, &nearer, "")) (inside) }
        })
    };
    value.clone().and_then(|value| room(&value)).unwrap_or_else(|_| html! { "not known" })
}

fn less(from: &Figure, what: &Figure) -> Known<Figure> {
    from.minus(what).map_err(|mismatch| Missing::new(mismatch.to_string(), None, "report this"))
}

/// A margin, in words that say when it is none, or none to rely on.
fn told(sheet: &Sheet<'_>, margin: &Figure, over: &str) -> Markup {
    let short = margin.quantity.si() < 0.0;
    let shown = sheet.terms.shown(sheet.build, Ok(margin.abs()));
    let unsure = shown.expanded().is_some_and(|width| shown.si().is_some_and(|si| si < width));
    html! {
        @if short { strong .over { (over) (certain(&shown)) } } @else { (certain(&shown)) }
        @if unsure { ", less than its ±" }
    }
}
