//! `[assume]`: figures that no drawing shows, such as the coldest night, each with a default in the rulebook.
//!
//! One table a topic. Every field is a quantity; what stands here in a build goes before the rulebook's.

pub mod air;
pub mod anchor;
pub mod electric;
pub mod gas;
pub mod road;
pub mod roof;
pub mod scale;
pub mod space;
pub mod sway;
pub mod tow;
pub mod water;

use crate::field::Kind::Table;
use crate::field::{Field, Schema};

crate::schema! {
    /// `[assume]`.
    "the assumptions";
    SPACE = "space": Table(&space::SCHEMA); "what is assumed about room inside"
    ROOF = "roof": Table(&roof::SCHEMA); "what is assumed about the roof"
    ANCHOR = "anchor": Table(&anchor::SCHEMA); "what is assumed about how parts are held"
    GAS = "gas": Table(&gas::SCHEMA); "what is assumed about gas"
    AIR = "air": Table(&air::SCHEMA); "what is assumed about air and damp"
    ELECTRIC = "electric": Table(&electric::SCHEMA); "what is assumed about electricity"
    WATER = "water": Table(&water::SCHEMA); "what is assumed about water"
    ROAD = "road": Table(&road::SCHEMA); "what is assumed about the road"
    TOW = "tow": Table(&tow::SCHEMA); "what is assumed about towing"
    SWAY = "sway": Table(&sway::SCHEMA); "what is assumed about sway"
    SCALE = "scale": Table(&scale::SCHEMA); "what is assumed about scales"
}

/// The topics, each with its fields.
pub fn topics() -> impl Iterator<Item = (&'static Field, &'static Schema)> {
    SCHEMA.all().filter_map(|field| match field.kind {
        Table(schema) => Some((field, schema)),
        _ => None,
    })
}
