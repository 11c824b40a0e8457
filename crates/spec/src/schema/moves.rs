//! What of a part moves, and which side of it people must get at: `swings`, `folds` and `access`.

/// One of `swings`.
pub mod swing {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Quantity, Text, Word};
    use crate::field::Range::{NotNegative, Positive};

    crate::schema! {
        /// A door, drawer or lid of a part. Which is left and right is said as for the trailer, looking forward.
        "a swing";
        NAME = "name": Text, required; "what swings"
        KIND = "kind": Word(&["door", "drawer", "lid"]), required; "a door turns about its hinge, a drawer is drawn straight out, a lid turns up from the top"
        SIDE = "side": Word(&["front", "rear", "left", "right", "top"]), required; "the side of the part that it is on; the top for a lid"
        HINGE = "hinge": Word(&["front", "rear", "left", "right", "top", "bottom"]); "the edge that a door or lid is hung on"
        REACH = "reach": Quantity(Dimension::LENGTH, Positive); "how far it comes out of that side: a drawer's travel; of a door or lid its own size across the hinge when not given"
        START = "start": Quantity(Dimension::LENGTH, NotNegative); "from that side's front or left end to its near edge; zero when not given"
        WIDTH = "width": Quantity(Dimension::LENGTH, Positive); "its size along that side; the whole of it when not given"
        FLOOR = "floor": Quantity(Dimension::LENGTH, NotNegative); "from the part's underside to its lower edge; zero when not given"
        HEIGHT = "height": Quantity(Dimension::LENGTH, Positive); "its size upright; the whole height of the part when not given"
    }
}

/// `folds`.
pub mod folds {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Quantity, Table, Word};
    use crate::field::Range::Positive;

    crate::schema! {
        /// `folds`: where a bed or table is when it is folded away. Its own place and size are those in use.
        "the part folded away";
        AT = "at": Table(&crate::schema::place::SCHEMA), required; "its place when folded away, measured as the part's own"
        LENGTH = "length": Quantity(Dimension::LENGTH, Positive); "its size fore and aft when folded away; as in use when not given"
        WIDTH = "width": Quantity(Dimension::LENGTH, Positive); "its size across when folded away; as in use when not given"
        HEIGHT = "height": Quantity(Dimension::LENGTH, Positive); "its size upright when folded away; as in use when not given"
        HINGE = "hinge": Word(&["front", "rear", "left", "right"]); "the edge that it turns about"
        WAY = "way": Word(&["up", "down"]); "which way its free edge goes when it is folded away"
        NIGHT = "night": Word(&["in use", "folded"]); "how it is when people sleep; a berth in use and anything else folded when not given"
    }
}

/// `access`.
pub mod access {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Quantity, Word};
    use crate::field::Range::Positive;

    crate::schema! {
        /// `access`: a panel, valve, drain or hatch that people must get at.
        "the access";
        SIDE = "side": Word(&["front", "rear", "left", "right", "top", "bottom"]), required; "the side of it that people must get at"
        DEPTH = "depth": Quantity(Dimension::LENGTH, Positive); "room that must stay free before that side; the rulebook's when not given"
    }
}
