//! As built: what the record holds, station by station of the walk round the trailer; and a ruled box for whatever it does
//! not hold. What this build does not have is not asked for. Nothing is called good here: the findings say what is.

mod boxes;
mod gear;
mod inside;
mod papers;
mod systems;
mod weighed;

use maud::{Markup, html};
use pintle_finding::Stage;
use pintle_spec::field::Field;
use pintle_spec::record::Record;
use pintle_spec::schema::record;

use crate::aboard::Aboard;
use crate::worked::Worked;
use crate::{Sheet, frame};

/// What the stations share.
struct Walk<'s> {
    sheet: &'s Sheet<'s>,
    record: Option<&'s Record>,
    aboard: Aboard<'s>,
    anchor: Worked<'s>,
    scale: Worked<'s>,
    road: Worked<'s>,
}

/// A station: its heading, the fields of the record that stand in it, and what it prints.
struct Station {
    heading: &'static str,
    /// Fields of the record's own; a test sees that none of the schema is left out.
    fields: &'static [&'static Field],
    /// Nothing where this build has no such thing.
    body: fn(&Walk<'_>) -> Markup,
}

/// The stations in the order of the walk.
static STATIONS: [Station; 16] = [
    Station { heading: "Road gear", fields: gear::FIELDS, body: gear::station },
    Station { heading: "Weights", fields: weighed::FIELDS, body: weighed::station },
    Station { heading: "Body", fields: &[], body: inside::body },
    Station { heading: "Openings", fields: &[], body: inside::openings },
    Station { heading: "Beds", fields: &[], body: inside::beds },
    Station { heading: "Modules and anchors", fields: inside::FIELDS, body: inside::modules },
    Station { heading: "Roof", fields: inside::FIELDS, body: inside::roof },
    Station { heading: "Gas", fields: systems::GAS, body: systems::gas },
    Station { heading: "12 V", fields: &[], body: systems::low_voltage },
    Station { heading: "Mains", fields: systems::MAINS, body: systems::mains },
    Station { heading: "Water", fields: &[], body: systems::water },
    Station { heading: "Alarms", fields: systems::ALARMS, body: systems::alarms },
    Station { heading: "Serial numbers and photographs", fields: papers::KEPT, body: papers::kept },
    Station { heading: "To look at again", fields: papers::AGAIN, body: papers::again },
    Station { heading: "Changes since it was handed over", fields: papers::CHANGES, body: papers::changes },
    Station { heading: "Papers and signatures", fields: papers::FIELDS, body: papers::station },
];

/// The section.
pub(crate) fn section(sheet: &Sheet<'_>) -> Markup {
    let record = sheet.build.record.as_ref();
    let body = if record.is_none() && sheet.build.stage.value < Stage::Build {
        html! {
            p {
                "Nothing is recorded: this build is at the stage " (sheet.build.stage.value) ". From the stage build on, boxes to \
                 fill in by hand stand here."
            }
        }
    } else {
        walk(sheet, record)
    };
    frame::section("built", "As built", &body)
}

fn walk(sheet: &Sheet<'_>, record: Option<&Record>) -> Markup {
    let walk = Walk {
        sheet,
        record,
        aboard: Aboard::of(sheet.build),
        anchor: Worked::new(sheet, "anchor"),
        scale: Worked::new(sheet, "scale"),
        road: Worked::new(sheet, "road"),
    };
    html! {
        p {
            "What was measured and tried on the finished trailer, in the order of the walk round it. "
            @if record.is_none() { "Nothing of it is recorded in the spec yet. " }
            "A ruled box is to be filled in by hand: it says that nothing is recorded, not that anything is right."
        }
        @for station in &STATIONS {
            @let body = (station.body)(&walk);
            @if !body.0.is_empty() {
                section .station {
                    h3 { (station.heading) }
                    (body)
                }
            }
        }
        (besides(sheet, record))
    }
}

/// What the record holds that no station prints: nothing, as long as every field of the schema has its station.
fn besides(sheet: &Sheet<'_>, record: Option<&Record>) -> Markup {
    let placed = |key: &str| STATIONS.iter().flat_map(|station| station.fields).any(|field| field.key == key);
    let left: Vec<&Field> = record::SCHEMA.all().filter(|field| !placed(field.key)).collect();
    html! { @if !left.is_empty() { (boxes::rows(sheet, "Recorded besides", &left, record, &[])) } }
}

#[cfg(test)]
mod tests;
