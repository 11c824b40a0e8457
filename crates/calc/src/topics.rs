//! The topics that a shop has to work out, each with all its figures.

use crate::case::Case;
use crate::working::Working;
use crate::{air, anchor, electric, gas, road, roof, scale, space, sway, tow, water};

/// A topic.
#[derive(Debug, Clone, Copy)]
pub struct Topic {
    /// Its name.
    pub name: &'static str,
    /// What it is about.
    pub title: &'static str,
    /// Every figure of it for a build, in the order in which a reader wants them.
    pub workings: fn(&Case<'_>) -> Vec<Working>,
}

/// All topics, in the order of a walk round the trailer.
pub const ALL: &[Topic] = &[
    Topic {
        name: "space",
        title: "room inside, ways out, and ways in for modules",
        workings: space::workings,
    },
    Topic { name: "roof", title: "rack, roof bows and tent", workings: roof::workings },
    Topic { name: "anchor", title: "how parts are held in a stop", workings: anchor::workings },
    Topic { name: "gas", title: "propane", workings: gas::workings },
    Topic { name: "air", title: "breathing, fumes and damp", workings: air::workings },
    Topic { name: "electric", title: "batteries, wires and the sun", workings: electric::workings },
    Topic { name: "water", title: "tanks and how long they last", workings: water::workings },
    Topic { name: "road", title: "size, lamps, brakes and labels", workings: road::workings },
    Topic { name: "tow", title: "coupler, hitch and tow vehicle", workings: tow::workings },
    Topic { name: "sway", title: "how it follows at speed", workings: sway::workings },
    Topic { name: "scale", title: "what the scale said", workings: scale::workings },
];

/// The topic with a name.
pub fn find(name: &str) -> Option<&'static Topic> {
    ALL.iter().find(|topic| topic.name == name)
}
