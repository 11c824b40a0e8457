//! Road gear: tires, wheel nuts, brakes, breakaway, lamps.

use maud::{Markup, html};
use pintle_spec::field::Field;
use pintle_spec::schema::record::{self, brake_test, lamp_test, lugs};
use pintle_spec::schema::trailer::{self, brakes, tire};

use super::Walk;
use super::boxes::{blank, called, choices, empty, meaning, rows, rows_asking, sheet_of, value};
use crate::worked::{is_metric, quantity_words};

/// The fields of the record that stand here.
pub(super) const FIELDS: &[&Field] =
    &[&record::LUGS, &record::BRAKE_TEST, &record::BREAKAWAY_HOLD, &record::LAMP_TEST];

/// The circuits that are tried, and the lamps by which a trailer has them; none for those that every trailer has.
const CIRCUITS: &[(&str, &[&str])] = &[
    ("tail", &[]),
    ("stop", &[]),
    ("left turn", &[]),
    ("right turn", &[]),
    ("plate", &["plate"]),
    ("side marker", &["front side marker", "rear side marker", "middle side marker"]),
    ("clearance", &["front clearance", "rear clearance"]),
    ("identification", &["rear identification"]),
];

pub(super) fn station(walk: &Walk<'_>) -> Markup {
    let found = |field| walk.record.and_then(|record| record.table(field));
    let hold = walk.record.and_then(|record| record.quantity(&record::BREAKAWAY_HOLD));
    let brakes = walk.aboard.brakes();
    html! {
        (tires(walk))
        (sheet_of(walk.sheet, "Wheel nuts", &lugs::SCHEMA, found(&record::LUGS), &[
            (&lugs::TORQUE, nuts(walk)),
            (&lugs::AGAIN, html! { "after 10, 25 and 50 miles, in writing (common practice, no source)" }),
        ]))
        @if brakes || found(&record::BRAKE_TEST).is_some() {
            (sheet_of(walk.sheet, "Brake test", &brake_test::SCHEMA, found(&record::BRAKE_TEST), &[
                (&brake_test::WHEELS, braked(walk)),
            ]))
        } @else {
            p { "The spec says that it has no brakes: there is nothing to try." }
        }
        @if walk.aboard.has("breakaway") == Some(true) || hold.is_some() {
            (rows(walk.sheet, "Breakaway", &[&record::BREAKAWAY_HOLD], walk.record.filter(|_| hold.is_some()), &[
                (&record::BREAKAWAY_HOLD, html! { "15 min where it is asked for (49 CFR 393.43(d), written for carriers)" }),
            ]))
        }
        (lamps(walk))
    }
}

/// What the wheel's or axle's maker asks for.
fn nuts(walk: &Walk<'_>) -> Markup {
    let lugs = walk.sheet.build.trailer.table(&trailer::LUGS);
    let of =
        |field| lugs.and_then(|lugs| lugs.quantity(field)).map(|held| quantity_words(walk.sheet, held.value));
    match (of(&trailer::lugs::LEAST), of(&trailer::lugs::MOST)) {
        (Some(least), Some(most)) => html! { (least) " to " (most) " (maker)" },
        (Some(least), None) => html! { "at least " (least) " (maker)" },
        (None, Some(most)) => html! { "at most " (most) " (maker)" },
        (None, None) => html! { "what the maker of wheel or axle asks for: the spec does not say" },
    }
}

fn braked(walk: &Walk<'_>) -> Markup {
    let held = walk.sheet.build.trailer.table(&trailer::BRAKES);
    let axles = held.and_then(|held| held.count(&brakes::AXLES));
    axles.map_or_else(
        || html! { "all that are braked: the spec does not say how many" },
        |axles| html! { "two on each of " (axles.value) " braked axles" },
    )
}

/// What the spec says of the tires, and what is read off them.
fn tires(walk: &Walk<'_>) -> Markup {
    let held = walk.sheet.build.trailer.table(&trailer::TIRE);
    let of = |field: &'static Field| held.and_then(|held| held.value(field.key));
    let pressure = if is_metric(walk.sheet) { "kPa" } else { "psi" };
    html! {
        table .record {
            caption { "Tires" }
            tbody {
                @for field in [&tire::RATING, &tire::AGE, &tire::SPEED, &tire::ALIKE] {
                    tr {
                        th scope="row" { (called(field)) @if of(field).is_none() { span .what { (meaning(field)) } } }
                        td {
                            @match of(field) {
                                Some(held) => { (value(walk.sheet, &held.value)) " (spec)" },
                                None if field.key == tire::AGE.key => (blank("wk", "short")),
                                None => (empty(walk.sheet, field)),
                            }
                        }
                        td .against {}
                    }
                }
                tr { th scope="row" { "size" } td { (blank("", "long")) } td .against { "that of the placard" } }
                tr { th scope="row" { "date codes" } td { (blank("", "long")) } td .against { "week and year, of each, the spare too" } }
                tr { th scope="row" { "cold pressure" } td { (blank(pressure, "short")) } td .against { "that of the placard" } }
            }
        }
    }
}

fn lamps(walk: &Walk<'_>) -> Markup {
    let test = walk.record.and_then(|record| record.table(&record::LAMP_TEST));
    let fitted = walk.sheet.build.trailer.words(&trailer::LAMPS);
    let asked = |lamps: &[&str]| {
        lamps.is_empty() || fitted.is_none_or(|fitted| fitted.iter().any(|lamp| lamps.contains(&lamp.value)))
    };
    let circuits: Vec<&str> =
        CIRCUITS.iter().filter(|(_, lamps)| asked(lamps)).map(|(name, _)| *name).collect();
    let lit = test.and_then(|test| test.words(&lamp_test::LIT));
    let dark: Vec<&str> = match lit {
        Some(lit) => {
            circuits.iter().filter(|name| !lit.iter().any(|word| word.value == **name)).copied().collect()
        }
        None => Vec::new(),
    };
    let against = html! {
        @if lit.is_none() { "each by itself, and nothing else with it" }
        @else if !dark.is_empty() { "not among them: " (dark.join(", ")) }
    };
    let fields: Vec<&Field> = lamp_test::SCHEMA.all().collect();
    let (notes, asked) = ([(&lamp_test::LIT, against)], [(&lamp_test::LIT, choices(&circuits))]);
    rows_asking(walk.sheet, "Lamps, tried behind a tow vehicle", &fields, test, &notes, &asked)
}
