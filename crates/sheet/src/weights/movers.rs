//! The masses that move the tongue most, and by how much.

use maud::{Markup, html};
use pintle_calc::Known;
use pintle_calc::arrange::Arrangements;
use pintle_calc::sensitivity::{Row, Whole, of_axle, of_masses, of_places, of_wholes};
use pintle_calc::weights::Weights;
use pintle_quantity::{Quantity, Units};
use pintle_report::weights::steps;
use pintle_spec::{State, Use};

use super::lacking::Lacking;
use crate::Sheet;
use crate::markup::name;

/// How many are told.
const TOLD: usize = 10;

/// A mass, and what it and small changes of it do.
struct Mover {
    whole: Whole,
    heavier: Row,
    aft: Row,
}

/// The table.
pub(super) fn section(sheet: &Sheet<'_>, lacking: &mut Lacking) -> Markup {
    let build = sheet.build;
    let units = sheet.terms.look.units;
    let (place, mass) = steps(build);
    let named = Arrangements::of(build).and_then(|all| all.named()).unwrap_or_default();
    let road = build.states.iter().filter(|state| state.used == Use::Road);
    let states: Vec<&State> = named.iter().chain(road).collect();
    let mut movers: Vec<Mover> = Vec::new();
    for state in &states {
        match of_state(&Weights::of(build, state), place, mass) {
            Ok(found) => found.into_iter().for_each(|mover| keep(&mut movers, mover)),
            Err(missing) => lacking.note(&missing.what, "what moves the tongue"),
        }
    }
    if states.is_empty() {
        lacking.note("a state for the road", "what moves the tongue");
    }
    movers.sort_by(|one, other| size(other).total_cmp(&size(one)));
    movers.truncate(TOLD);
    let axle = states.first().map(|state| (state, of_axle(&Weights::of(build, state), place)));
    let (more, aft) = (format!("{} more", mass.show(units)), format!("{} further aft", place.show(units)));
    html! {
        h3 { "What moves the tongue most" }
        @if movers.is_empty() {
            p { "Not known: see below what is missing." }
        } @else {
            p {
                "The masses that put most on the ball, or lift it most, each in the arrangement in which it does so most. \
                 Correct these first when a ticket differs."
            }
            table .movers.stacked {
                thead {
                    tr {
                        th scope="col" { "mass" } th scope="col" .figure { "weighs" } th scope="col" .figure { "puts on the ball" }
                        th scope="col" .figure { (more) } th scope="col" .figure { (aft) }
                    }
                }
                tbody {
                    @for mover in &movers {
                        tr {
                            th scope="row" .wide { (name(&mover.whole.row.name)) }
                            td .figure data-label="weighs" { (mover.whole.mass.show(units)) }
                            td .figure data-label="puts on the ball" { (signed(mover.whole.row.tongue, units)) }
                            td .figure data-label=(more) { (signed(mover.heavier.tongue, units)) }
                            td .figure data-label=(aft) { (signed(mover.aft.tongue, units)) }
                        }
                    }
                }
            }
        }
        @if let Some((state, Ok(row))) = &axle {
            p {
                "The axle " (place.show(units)) " further aft: " (signed(row.tongue, units)) " on the ball, "
                (signed(row.share, units)) " of the gross weight (" (crate::markup::text(&state.name.value)) ")."
            }
        }
    }
}

fn of_state(weights: &Weights, place: Quantity, mass: Quantity) -> Known<Vec<Mover>> {
    let (heavier, aft) = (of_masses(weights, mass)?, of_places(weights, place)?);
    let beside = |rows: &[Row], name: &str| rows.iter().find(|row| row.name == name).cloned();
    let movers = of_wholes(weights)?.into_iter().filter_map(|whole| {
        let (heavier, aft) = (beside(&heavier, &whole.row.name)?, beside(&aft, &whole.row.name)?);
        Some(Mover { whole, heavier, aft })
    });
    Ok(movers.collect())
}

/// Of what is aboard in several states, the one that does most.
fn keep(movers: &mut Vec<Mover>, found: Mover) {
    match movers.iter_mut().find(|held| held.whole.row.name == found.whole.row.name) {
        Some(held) if size(held) >= size(&found) => {}
        Some(held) => *held = found,
        None => movers.push(found),
    }
}

fn size(mover: &Mover) -> f64 {
    mover.whole.row.tongue.si().abs()
}

/// With its sign, also where it adds.
fn signed(quantity: Quantity, units: Units) -> String {
    let shown = quantity.show(units);
    if quantity.si() > 0.0 { format!("+{shown}") } else { shown }
}
