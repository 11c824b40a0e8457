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
    workings: fn(&Case<'_>) -> Vec<Working>,
    /// Figures that are counts, classes or ratios: shown as numbers. All others without a dimension are shares.
    numbers: &'static [&'static str],
}

impl Topic {
    /// Every figure of it for a build, in the order in which a reader wants them.
    pub fn figures(&self, case: &Case<'_>) -> Vec<Working> {
        let shown = |working: Working| {
            if self.numbers.contains(&working.key) { working.in_numbers() } else { working }
        };
        (self.workings)(case).into_iter().map(shown).collect()
    }
}

/// All topics, in the order of a walk round the trailer.
pub const ALL: &[Topic] = &[
    Topic {
        name: "space",
        title: "room inside, ways out, and ways in for modules",
        workings: space::workings,
        numbers: &[],
    },
    Topic { name: "roof", title: "rack, roof bows and tent", workings: roof::workings, numbers: &[] },
    Topic {
        name: "anchor",
        title: "how parts are held in a stop",
        workings: anchor::workings,
        numbers: &["count", "count_needed", "steady_ahead", "steady_aft", "steady_aside"],
    },
    Topic { name: "gas", title: "propane", workings: gas::workings, numbers: &[] },
    Topic { name: "air", title: "breathing, fumes and damp", workings: air::workings, numbers: &[] },
    Topic {
        name: "electric",
        title: "batteries, wires and the sun",
        workings: electric::workings,
        numbers: &[],
    },
    Topic { name: "water", title: "tanks and how long they last", workings: water::workings, numbers: &[] },
    Topic { name: "road", title: "size, lamps, brakes and labels", workings: road::workings, numbers: &[] },
    Topic {
        name: "tow",
        title: "coupler, hitch and tow vehicle",
        workings: tow::workings,
        numbers: &["coupler_class"],
    },
    Topic {
        name: "sway",
        title: "how it follows at speed",
        workings: sway::workings,
        numbers: &[
            "damping_at_80_km_h",
            "damping_at_100_km_h",
            "damping_at_towing_speed",
            "damping_heavy_vehicle",
            "stability_factor",
            "heavy_ends",
        ],
    },
    Topic {
        name: "scale",
        title: "what the scale said",
        workings: scale::workings,
        numbers: &[
            "gross_residual_over_spread",
            "tongue_residual_over_spread",
            "axles_residual_over_spread",
            "left_residual_over_spread",
            "right_residual_over_spread",
            "chi_square_before",
            "chi_square_after",
            "mass_change_chi_square",
            "mass_change_over_spread",
        ],
    },
];

/// The topic with a name.
pub fn find(name: &str) -> Option<&'static Topic> {
    ALL.iter().find(|topic| topic.name == name)
}
