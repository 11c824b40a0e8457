//! `[[state]]`: one way the trailer is used.

use crate::field::Kind::{Masses, Shares, Tables, Text, Texts, Word};

crate::schema! {
    /// `[[state]]`.
    "a state";
    NAME = "name": Text, required; "what the state is called"
    USE = "use": Word(&["road", "camp"]), required; "on the road or parked"
    FILL = "fill": Shares; "how full each tank is, by the tank's tag"
    CARRY = "carry": Masses; "how much of each load of the spec is aboard, by the load's tag"
    LOAD = "load": Tables(&load::SCHEMA); "what is aboard besides fitted parts"
    OUT = "out": Texts; "tags of removable parts left at home"
    PEOPLE = "people": Tables(&people::SCHEMA); "who is in which berth; for camp states"
}

/// One load.
pub mod load {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Quantity, Table, Text, Word};
    use crate::field::Range::{NotNegative, Positive};

    crate::schema! {
        /// A load. Without a size it is a point at its place.
        "a load";
        MASS = "mass": Quantity(Dimension::MASS, NotNegative), required; "its weight"
        WHAT = "what": Text, required; "what it is"
        MASS_BASIS = "mass_basis": Word(crate::schema::item::MASS_BASES); "how its mass is known"
        ZONE = "zone": Text; "where it is: inside when not given"
        AT = "at": Table(&crate::schema::place::SCHEMA), required; "its place"
        LENGTH = "length": Quantity(Dimension::LENGTH, Positive); "its size fore and aft; a point when not given"
        WIDTH = "width": Quantity(Dimension::LENGTH, Positive); "its size across; a point when not given"
        HEIGHT = "height": Quantity(Dimension::LENGTH, Positive); "its size upright; a point when not given"
    }
}

/// People in a berth.
pub mod people {
    use crate::field::Kind::{Count, Text};

    crate::schema! {
        /// People in a berth.
        "people in a berth";
        BERTH = "berth": Text, required; "the berth's tag"
        COUNT = "count": Count(0), required; "how many"
    }
}
