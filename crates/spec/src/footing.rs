//! What a written value stands on: how its author came to know it, as far as the spec says.

use std::ptr;

use crate::field::Field;
use crate::record::Record;
use crate::schema::anchors::{base, latch, strap, strength, track};
use crate::schema::assume::space as assumed;
use crate::schema::electric::{circuit, mains};
use crate::schema::kinds::{
    appliance, berth, charger, cylinder, equipment, inverter, ladder, load, opening, rack, tank, tent,
};
use crate::schema::moves::{access, folds, swing};
use crate::schema::record::{self, change, label, recheck, ticket};
use crate::schema::tow::hitch::{self, bars, pair};
use crate::schema::trailer::{
    self, axle, bows, chains, coupler, jack, lamp, nose, roof_rating, section, tire, wheel_box,
};
use crate::schema::{assume, build, build::people, gas, item, place, state, tow};

/// What a value stands on. Each but the last two has a name, under which a rulebook says how sure such a value is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Footing {
    /// A mass from a scale.
    Weighed,
    /// A mass from the maker's papers.
    Maker,
    /// A mass reckoned from sizes and materials.
    Computed,
    /// A mass that was guessed.
    Guessed,
    /// A mass of which the spec does not say how it is known: it counts as guessed.
    Unstated,
    /// The weight reckoned for a person.
    Person,
    /// How full a tank is.
    Fill,
    /// What a tank holds when full.
    Capacity,
    /// A gap or a size, as a tape measure gives it.
    Place,
    /// A stated centre of gravity.
    Centre,
    /// Where the axle is, and its track.
    Axle,
    /// Another measure of the trailer.
    Trailer,
    /// A rating or a nominal size: as sure as it is written.
    Exact,
    /// Anything else: how sure it is, is not known unless its author gives a ±.
    Other,
}

static MASSES: &[&Field] = &[&item::MASS, &trailer::MASS, &trailer::TONGUE, &load::LEAST, &state::load::MASS];
static READINGS: &[&Field] =
    &[&ticket::GROSS, &ticket::TONGUE, &ticket::AXLES, &ticket::LEFT, &ticket::RIGHT, &change::MASS];
static UNSTATED_MASSES: &[&Field] = &[
    &tent::BEDDING,
    &tow::MASS,
    &tow::ABOARD,
    &tow::FRONT_AXLE,
    &tow::REAR_AXLE,
    &bars::LIFT,
    &strap::TENSION,
    &latch::MASS,
];
static PLACES: &[&Field] = &[
    &build::head::PARKING_HEIGHT,
    &place::FRONT,
    &place::NOSE,
    &place::REAR,
    &place::BALL,
    &place::BOX,
    &place::AXLE,
    &place::LEFT,
    &place::RIGHT,
    &place::CENTRE,
    &place::FLOOR,
    &place::CEILING,
    &place::GROUND,
    &place::FRAME,
    &place::GAP,
    &item::LENGTH,
    &item::WIDTH,
    &item::HEIGHT,
    &state::load::LENGTH,
    &state::load::WIDTH,
    &state::load::HEIGHT,
    &tent::FLOOR,
    &tent::OPEN_REACH,
    &tent::LADDER,
    &tent::OPEN_HEIGHT,
    &rack::feet_at::FRONT,
    &rack::FOOT_FIRST,
    &rack::FOOT_SPACING,
    &rack::FOOT_GAUGE,
    &ladder::WORKING,
    &opening::CLEAR_WIDTH,
    &opening::CLEAR_HEIGHT,
    &opening::SILL,
    &opening::LATCH,
    &berth::GUARD,
    &swing::REACH,
    &swing::START,
    &swing::WIDTH,
    &swing::FLOOR,
    &swing::HEIGHT,
    &folds::LENGTH,
    &folds::WIDTH,
    &folds::HEIGHT,
    &access::DEPTH,
    &circuit::LENGTH,
    &circuit::FUSE_AT,
    &mains::CLEAR_WIDTH,
    &mains::CLEAR_DEPTH,
    &mains::INLET_FROM_REAR,
    &inverter::CLEARANCE,
    &charger::CLEARANCE,
    &base::LONG,
    &base::ACROSS,
    &base::HEIGHT,
    &latch::CG,
    &latch::ARM,
    &gas::line::LENGTH,
];
static CENTRES: &[&Field] = &[
    &place::cg::FRONT,
    &place::cg::LEFT,
    &place::cg::FLOOR,
    &trailer::cg::BALL,
    &trailer::cg::CENTRE,
    &trailer::cg::GROUND,
];
static AXLES: &[&Field] = &[&axle::BALL, &axle::TRACK, &axle::SPREAD];
static TRAILER: &[&Field] = &[
    &trailer::BALL_TO_BOX,
    &trailer::LENGTH,
    &trailer::WIDTH,
    &trailer::HEIGHT,
    &trailer::WALL,
    &trailer::ROOF,
    &trailer::FLOOR_HEIGHT,
    &trailer::FRAME_HEIGHT,
    &trailer::OVERALL_WIDTH,
    &trailer::OVERALL_LENGTH,
    &nose::DEPTH,
    &nose::FRONT_WIDTH,
    &bows::FIRST,
    &bows::SPACING,
    &bows::SPAN,
    &coupler::HEIGHT,
    &tow::BALL_HEIGHT,
    &trailer::GROUND_CLEARANCE,
    &trailer::REAR_CLEARANCE,
    &tire::RADIUS,
    &jack::BALL,
    &jack::CENTRE,
    &jack::TOP,
    &lamp::HEIGHT,
    &lamp::CENTRE,
    &lamp::BALL,
    &lamp::APART,
    &tow::TAILGATE,
    &tow::TAILGATE_HEIGHT,
    &tow::WHEELBASE,
    &tow::OVERHANG,
    &wheel_box::LENGTH,
    &wheel_box::WIDTH,
    &wheel_box::HEIGHT,
    &wheel_box::AXLE,
    &bars::LEVER,
];
static EXACT: &[&Field] = &[
    &trailer::GVWR,
    &trailer::ADDED_LABEL,
    &trailer::LABEL_GVWR,
    &trailer::RATED_CARGO,
    &trailer::TONGUE_LEAST,
    &label::CARGO,
    &label::WATER,
    &axle::GAWR,
    &tire::RATING,
    &coupler::RATING,
    &coupler::TONGUE_RATING,
    &coupler::BALL,
    &jack::RATING,
    &chains::STRENGTH,
    &roof_rating::MOVING,
    &roof_rating::PARKED,
    &rack::MOVING,
    &rack::PARKED,
    &rack::FOOT_RATING,
    &cylinder::GAS,
    &section::WIDTH,
    &section::HEIGHT,
    &section::WALL,
    &section::BRIM,
    &tank::VENT,
    &assume::roof::LANDING,
    &build::water::USE,
    &assume::water::DRINKING,
    &assume::water::DISHES,
    &assume::water::WASHING,
    &assume::water::SHOWER,
    &inverter::CLEARANCE_NEEDED,
    &charger::CLEARANCE_NEEDED,
    &cylinder::WATER_CAPACITY,
    &cylinder::RESTRAINT,
    &equipment::RUN_AWAY,
    &gas::line::FITTINGS,
    &gas::line::BORE,
    &tow::RATING,
    &tow::TONGUE_RATING,
    &tow::BALL,
    &tow::GCWR,
    &tow::PAYLOAD,
    &ticket::RESOLUTION,
    &ticket::TONGUE_RESOLUTION,
    &record::DRIVEN,
    &recheck::AFTER,
    &appliance::CLEARANCE_NEEDED,
    &people::TALLEST,
    &berth::TALLEST,
    &berth::RATED,
    &assumed::BAND,
    &assumed::STEP_OVER,
    &assumed::PATH,
    &assumed::DIRECT,
    &assumed::PASSING,
    &assumed::STANDING,
    &assumed::LIFT,
    &assumed::ACCESS,
    &assumed::STRIDE,
    &tow::GVWR,
    &tow::FRONT_GAWR,
    &tow::REAR_GAWR,
    &hitch::BALL_RATING,
    &pair::GROSS,
    &pair::TONGUE,
    &strength::BREAKING,
    &strength::WORKING,
    &track::BREAKING,
    &track::WORKING,
    &strap::SIZE,
    &strap::THICKNESS,
    &strap::BREAKING,
    &strap::WORKING,
    &latch::BREAKING,
    &latch::WORKING,
];

impl Footing {
    /// Those with a name, in the order in which a rulebook lists them.
    pub const NAMED: &'static [Self] = &[
        Self::Weighed,
        Self::Maker,
        Self::Computed,
        Self::Guessed,
        Self::Person,
        Self::Fill,
        Self::Capacity,
        Self::Place,
        Self::Centre,
        Self::Axle,
        Self::Trailer,
    ];

    /// Its name in a rulebook; a mass without a basis goes by that of a guess. None for what is exact, and for what no
    /// rulebook speaks of.
    pub const fn name(self) -> Option<&'static str> {
        Some(match self {
            Self::Weighed => "weighed",
            Self::Maker => "maker",
            Self::Computed => "computed",
            Self::Guessed | Self::Unstated => "guessed",
            Self::Person => "person",
            Self::Fill => "fill",
            Self::Capacity => "capacity",
            Self::Place => "place",
            Self::Centre => "centre",
            Self::Axle => "axle",
            Self::Trailer => "trailer",
            Self::Exact | Self::Other => return None,
        })
    }

    /// Whether it is a mass that a scale could give.
    pub const fn is_mass(self) -> bool {
        matches!(
            self,
            Self::Weighed | Self::Maker | Self::Computed | Self::Guessed | Self::Unstated | Self::Person
        )
    }

    /// That of a mass whose basis is stated in a word of [`item::MASS_BASES`], or is not stated.
    pub fn of_mass(basis: Option<&str>) -> Self {
        match basis {
            Some("weighed") => Self::Weighed,
            Some("maker") => Self::Maker,
            Some("computed") => Self::Computed,
            Some("guessed") => Self::Guessed,
            _ => Self::Unstated,
        }
    }

    /// That of a record's value.
    pub fn of(record: &Record, field: &'static Field) -> Self {
        let among = |fields: &[&'static Field]| fields.iter().any(|known| ptr::eq(*known, field));
        if among(PLACES) {
            Self::Place
        } else if among(TRAILER) {
            Self::Trailer
        } else if among(MASSES) {
            // Every table with a mass calls its basis the same.
            Self::of_mass(record.word(&item::MASS_BASIS).map(|basis| basis.value))
        } else if among(AXLES) {
            Self::Axle
        } else if among(CENTRES) {
            Self::Centre
        } else if among(EXACT) {
            Self::Exact
        } else if among(UNSTATED_MASSES) {
            Self::Unstated
        } else if among(READINGS) {
            Self::Weighed
        } else if among(&[&people::MASS]) {
            Self::Person
        } else if among(&[&tank::CAPACITY]) {
            Self::Capacity
        } else if among(&[&tank::on_road::LEAST, &tank::on_road::MOST]) {
            Self::Fill
        } else {
            Self::Other
        }
    }
}

#[cfg(test)]
mod tests;
