//! What every fitted part may state, whatever its kind.

use pintle_quantity::Dimension;

use crate::field::Kind::{Count, Flag, Quantity, Raw, Table, Text, Texts, Word, Words};
use crate::field::Range::{NotNegative, Positive};

/// What a part can ask for besides itself.
pub const ASKED_FOR: &[&str] = &[
    "cylinder",
    "gas line",
    "gas alarm",
    "monoxide alarm",
    "battery",
    "charger",
    "inverter",
    "fuse",
    "disconnect",
    "rack",
    "ladder",
    "fresh tank",
    "grey tank",
    "extinguisher",
];

/// How a mass can be known.
pub const MASS_BASES: &[&str] = &["weighed", "maker", "computed", "guessed"];

crate::schema! {
    /// Fields of every part with a place.
    "a part";
    TAG = "tag": Text, required; "the name of this one in this spec"
    PART = "part": Text; "the stock part it is"
    KIND = "kind": Text; "what it is, for a part that is not from stock"
    ZONE = "zone": Text; "where it is: inside when not given"
    AT = "at": Table(&super::place::SCHEMA); "its place"
    REMOVABLE = "removable": Flag; "whether the customer can take it out"
    MASS = "mass": Quantity(Dimension::MASS, NotNegative); "its weight; an empty weight for what is filled"
    MASS_BASIS = "mass_basis": Word(MASS_BASES); "how its mass is known"
    NEEDS = "needs": Texts; "tags of what must be aboard whenever this is"
    LENGTH = "length": Quantity(Dimension::LENGTH, Positive); "its size fore and aft"
    WIDTH = "width": Quantity(Dimension::LENGTH, Positive); "its size across"
    HEIGHT = "height": Quantity(Dimension::LENGTH, Positive); "its size upright"
    CG = "cg": Table(&super::place::cg::SCHEMA); "its centre of gravity, measured within the part"
    ANCHORS = "anchors": Table(&super::anchors::SCHEMA); "how it is held"
    ACCESS = "access": Table(&super::moves::access::SCHEMA); "a side of it that people must get at"
    CARRIERS = "carriers": Count(1); "how many people carry it in and out together"
    ROLLS = "rolls": Flag; "whether it rolls in and out on wheels of its own, so that nobody lifts it"
    PRICE = "price": Quantity(Dimension::MONEY, NotNegative); "what the shop asks for it"
    WITHDRAWN = "withdrawn": Text; "that it is sold no longer: since when, and what to use in its place"
    LEAD_TIME = "lead_time": Quantity(Dimension::TIME, NotNegative); "from ordering it to having it"
    ASKS_FOR = "asks_for": Words(ASKED_FOR); "what it cannot be used without, beyond what every part of its kind asks for"
    CLASHES = "clashes": Texts; "stock parts and kinds of parts that do not go with it, unless only one of the two is ever aboard"
    SHOP = "shop": Raw; "fields of the shop's own, as its packs of rules declare them"
    NOTE = "note": Text; "anything a reader should know"
}
