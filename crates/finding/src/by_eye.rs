//! Checks that only eyes can make, as plain data: what to look at on the walk round the trailer, and how.

use pintle_source::Span;

use crate::grade::words;
use crate::{Citation, Stage};

words! {
    /// A station of the walk round a trailer, in the order of the walk.
    Station {
        /// Tires, wheels, brakes, coupler, chains, lamps.
        RoadGear = "road gear",
        /// On the scale.
        Weights = "weights",
        /// Walls, roof skin, floor, frame.
        Body = "body",
        /// Doors, windows, hatches, vents.
        Openings = "openings",
        /// Where people sleep.
        Beds = "beds",
        /// What is taken out and put back, and what holds it.
        Modules = "modules",
        /// Rack, tent, ladder.
        Roof = "roof",
        /// Cylinders, lines, appliances.
        Gas = "gas",
        /// Batteries and what hangs on them.
        LowVoltage = "12 V",
        /// What is plugged in.
        Mains = "mains",
        /// Tanks, pump, drains.
        Water = "water",
        /// Alarms and extinguishers.
        Alarms = "alarms",
        /// Labels, numbers, what is handed over.
        Papers = "papers",
    }
}

/// What a check can be asked of: a build that has it.
pub const ASKED_OF: &[&str] = &[
    "brakes",
    "breakaway",
    "spring bars",
    "removable",
    "module",
    "roof",
    "rack",
    "tent",
    "ladder",
    "cylinder",
    "gas",
    "gas appliance",
    "flame inside",
    "diesel",
    "engine",
    "battery",
    "lithium battery",
    "inverter",
    "charger",
    "solar",
    "mains",
    "tank",
    "berth",
    "locker",
    "bulkhead",
    "door",
    "ramp",
    "window",
    "hatch",
    "bar lock",
    "vent",
    "alarm",
    "extinguisher",
    "load",
    "change",
];

/// One check that only eyes can make.
#[derive(Debug, Clone, PartialEq)]
pub struct ByEye {
    /// Where on the walk.
    pub station: Station,
    /// From which stage it is asked.
    pub from: Stage,
    /// What to look at: what is so when all is well.
    pub look: String,
    /// How.
    pub how: String,
    /// It is asked of a build that has any of these, by the words of [`ASKED_OF`]; of every build where there are none.
    pub of: Vec<String>,
    /// What it rests on.
    pub ground: Citation,
    /// The file of the shop's that asks it; none for one that is built in.
    pub set_by: Option<String>,
    /// Where it is written.
    pub span: Option<Span>,
}
