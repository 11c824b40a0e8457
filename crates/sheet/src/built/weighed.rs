//! Weights: what the scale said, each reading with how far it is from what was worked out.

use maud::{Markup, html};
use pintle_calc::weights::Weights;
use pintle_calc::{Figure, Known, Working};
use pintle_spec::field::Field;
use pintle_spec::record::Record;
use pintle_spec::schema::record::{self, ticket};
use pintle_spec::{State, Use};

use super::Walk;
use super::boxes::{blank, called, choices, rows};
use crate::markup::name;
use crate::worked::{in_one_system, is_metric, told};

/// The fields of the record that stand here.
pub(super) const FIELDS: &[&Field] = &[&record::TICKETS];

/// What a ticket reads: the field, as weighed, and how far that is from what was worked out.
const READINGS: [(&Field, &str, &str); 5] = [
    (&ticket::GROSS, "weighed_gross", "gross_residual"),
    (&ticket::TONGUE, "weighed_tongue", "tongue_residual"),
    (&ticket::AXLES, "weighed_axles", "axles_residual"),
    (&ticket::LEFT, "weighed_left", "left_residual"),
    (&ticket::RIGHT, "weighed_right", "right_residual"),
];

/// How it was read.
const HOW: [&Field; 6] = [
    &ticket::TONGUE_BY,
    &ticket::RESOLUTION,
    &ticket::TONGUE_RESOLUTION,
    &ticket::DATE,
    &ticket::INSTRUMENT,
    &ticket::NOTE,
];

pub(super) fn station(walk: &Walk<'_>) -> Markup {
    let tickets = walk.record.map(|record| record.tables(&record::TICKETS)).unwrap_or_default();
    let weighed = |state: &State| {
        tickets
            .iter()
            .any(|ticket| ticket.text(&ticket::STATE).is_some_and(|name| name.value == state.name.value))
    };
    let road = walk.sheet.build.states.iter().filter(|state| state.used == Use::Road);
    let unweighed: Vec<&State> = road.filter(|state| !weighed(state)).collect();
    html! {
        @for (at, ticket) in tickets.iter().enumerate() { (one(walk, at, ticket)) }
        @if !unweighed.is_empty() {
            table .record .grid {
                caption { "Road states that no ticket is recorded of: weigh, and read the tongue directly" }
                thead {
                    tr {
                        th scope="col" { "state" } th scope="col" { "gross" } th scope="col" { "tongue" }
                        th scope="col" { "axles" } th scope="col" { "left" } th scope="col" { "right" } th scope="col" { "date, scale" }
                    }
                }
                tbody { @for state in unweighed { (by_hand(walk, state)) } }
            }
        }
    }
}

fn one(walk: &Walk<'_>, at: usize, ticket: &Record) -> Markup {
    let state = ticket.text(&ticket::STATE).map(|state| state.value).unwrap_or_default();
    let of = format!("ticket {}, ", at + 1);
    let figure = |key| walk.scale.all(key).find(|working: &&Working| working.of.starts_with(&of));
    html! {
        table .record .grid {
            caption { "Ticket " (at + 1) ": " (called(&ticket::STATE)) " “" (name(state)) "”" }
            thead { tr { th scope="col" { "reading" } th scope="col" .figure { "as weighed" } th scope="col" .figure { "scale less computed" } } }
            tbody {
                @for (field, weighed, residual) in READINGS {
                    tr {
                        th scope="row" { (called(field)) }
                        @if ticket.quantity(field).is_some() {
                            td .figure { @match figure(weighed) {
                                Some(found) => (told(walk.sheet, found).words()),
                                None => "not known",
                            } }
                            td .figure { @match figure(residual) {
                                Some(found) => (told(walk.sheet, found).words()),
                                None => "not known: what it is worked out from is missing",
                            } }
                        } @else {
                            td .figure { (blank(unit(walk), "short")) }
                            td .figure { "not read" }
                        }
                    }
                }
            }
        }
        (rows(walk.sheet, "How it was read", &HOW, Some(ticket), &[
            (&ticket::TONGUE_BY, html! { "read directly when not said otherwise" }),
            (&ticket::TONGUE_RESOLUTION, html! { "that of the scale when not said otherwise" }),
        ]))
    }
}

/// A state to be weighed, with what was worked out for it.
fn by_hand(walk: &Walk<'_>, state: &State) -> Markup {
    let weights = Weights::of(walk.sheet.build, state);
    let cell = |figure: Known<Figure>| {
        html! {
            td {
                (blank(unit(walk), "short"))
                span .what {
                    @match &figure {
                        Ok(figure) => { "computed " (in_one_system(walk.sheet, figure)) },
                        Err(missing) => { "not computed: " (missing.what) " is missing" },
                    }
                }
            }
        }
    };
    html! {
        tr {
            th scope="row" { (name(&state.name.value)) }
            (cell(weights.gross()))
            td {
                (blank(unit(walk), "short"))
                span .what {
                    @match weights.tongue() {
                        Ok(figure) => { "computed " (in_one_system(walk.sheet, &figure)) },
                        Err(missing) => { "not computed: " (missing.what) " is missing" },
                    }
                }
                (choices(&["read", "difference"]))
            }
            (cell(weights.axles()))
            (cell(weights.left()))
            (cell(weights.right()))
            td { (blank("", "day")) " " (blank("", "short")) }
        }
    }
}

fn unit(walk: &Walk<'_>) -> &'static str {
    if is_metric(walk.sheet) { "kg" } else { "lb" }
}
