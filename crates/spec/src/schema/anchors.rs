//! `anchors` of a part: bolts, fittings, track, straps and latches that hold it.

use crate::field::Kind::{Count, Flag, Quantity, Table, Tables, Text, Word, Words};
use crate::field::Range::Share;

/// The ways a part can be thrown: ahead in a stop, aft, and to either side.
pub const SIDES: &[&str] = &["ahead", "aft", "left", "right"];

crate::schema! {
    /// `anchors`.
    "the anchors";
    KIND = "kind": Text; "the sort of fastener"
    COUNT = "count": Count(1); "how many"
    BOLT = "bolt": Table(&bolt::SCHEMA); "the bolts that hold it"
    EACH = "each": Table(&strength::SCHEMA); "what each anchor or fitting may carry"
    TRACK = "track": Table(&track::SCHEMA); "the cargo track that its fittings stand in"
    MEMBER = "member": Table(&strength::SCHEMA); "what the wall, floor or frame may carry at each anchor"
    FIXED_TO = "fixed_to": Word(&["frame", "posts", "bows", "plywood", "skin"]); "what it, or its track, is fixed to"
    STRAPS = "straps": Tables(&strap::SCHEMA); "straps, chains and ropes over it or to it"
    BASE = "base": Table(&base::SCHEMA); "how its anchors are spread, in the middle under it"
    FRICTION = "friction": Quantity(pintle_quantity::Dimension::NONE, Share); "friction under it, as a share of what presses on it; as assumed when not given"
    HUNG = "hung": Flag; "whether it hangs on a wall or from the ceiling; it stands on its foot when not given"
    BLOCKED = "blocked": Words(SIDES); "to which sides a wall or another part keeps it from moving; to none when not given"
    LATCH = "latch": Table(&latch::SCHEMA); "what holds it folded on the road"
    LOOSE = "loose": Flag; "whether it rides with nothing to hold it; held when not given"
    HELD_BY = "held_by": Text; "tag of the part that it is kept in, whose anchors then carry it as well"
}

/// `bolt`.
pub mod bolt {
    use crate::field::Kind::{Count, Text, Word};

    crate::schema! {
        /// `bolt`.
        "the bolts";
        SIZE = "size": Text, required; "thread, such as `3/8-16`, or `M10` for a coarse and `M10x1.25` for a fine metric one"
        GRADE = "grade": Word(&["A307", "2", "5", "8", "8.8", "10.9"]); "grade or class, as marked on the head"
        COUNT = "count": Count(1); "how many; as many as there are anchors when not given"
        SHEARED = "sheared": Word(&["threads", "shank"]); "where the joint shears it; the threads when not given"
    }
}

/// What something may carry.
pub mod strength {
    use pintle_quantity::Dimension;

    use crate::field::Kind::Quantity;
    use crate::field::Range::Positive;

    crate::schema! {
        /// What something may carry.
        "what it may carry";
        BREAKING = "breaking": Quantity(Dimension::MASS, Positive); "the load that it breaks at"
        WORKING = "working": Quantity(Dimension::MASS, Positive); "its working load limit; a share of the breaking load when not given"
    }
}

/// `track`.
pub mod track {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Count, Quantity, Table};
    use crate::field::Range::Positive;

    crate::schema! {
        /// `track`.
        "the cargo track";
        BREAKING = "breaking": Quantity(Dimension::MASS, Positive); "the load of one fitting that it breaks at"
        WORKING = "working": Quantity(Dimension::MASS, Positive); "its working load limit for one fitting; a share of the breaking load when not given"
        FASTENERS = "fasteners": Count(1), required; "how many fasteners hold it where this part pulls"
        FASTENER = "fastener": Table(&super::strength::SCHEMA); "what each of these fasteners may carry, in what it is fixed to"
    }
}

/// `straps`.
pub mod strap {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Count, Quantity, Word};
    use crate::field::Range::Positive;

    crate::schema! {
        /// One sort of strap.
        "the straps";
        SORT = "sort": Word(&["webbing", "chain", "rope", "wire rope", "steel strap"]), required; "what sort of tie-down it is"
        COUNT = "count": Count(1), required; "how many"
        SIZE = "size": Quantity(Dimension::LENGTH, Positive); "width of webbing or steel strap, or nominal size of chain or rope"
        THICKNESS = "thickness": Quantity(Dimension::LENGTH, Positive); "thickness of a steel strap; the thinnest when not given"
        GRADE = "grade": Word(&["30", "43", "70", "80", "100"]); "grade of a chain, as marked; 30 when not given"
        MADE_OF = "made_of": Word(&["polyester", "nylon", "polypropylene"]); "what a rope is made of; polypropylene when not given"
        BREAKING = "breaking": Quantity(Dimension::MASS, Positive); "the load that it breaks at, with its hooks and buckle"
        WORKING = "working": Quantity(Dimension::MASS, Positive); "working load limit, as marked; that of its size when not given"
        RUNS = "runs": Word(&["to part", "same side", "across"]); "from the vehicle to the part, over it and back to the same side, or over it to the other side; to the part when not given"
        TENSION = "tension": Quantity(Dimension::MASS, Positive); "tension in each leg when tightened, of what runs across"
        ANGLE = "angle": Quantity(Dimension::ANGLE, Positive); "angle of its legs to the floor, of what runs across"
    }
}

/// `base`.
pub mod base {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Count, Quantity};
    use crate::field::Range::Positive;

    crate::schema! {
        /// `base`.
        "the spread of the anchors";
        LONG = "long": Quantity(Dimension::LENGTH, Positive); "from the foremost to the hindmost row of anchors"
        ACROSS = "across": Quantity(Dimension::LENGTH, Positive); "from the leftmost to the rightmost row of anchors"
        ROWS_LONG = "rows_long": Count(2); "how many rows fore and aft, evenly spread; two when not given"
        ROWS_ACROSS = "rows_across": Count(2); "how many rows across, evenly spread; two when not given"
        HEIGHT = "height": Quantity(Dimension::LENGTH, Positive); "how high over its underside it is held, for what a ring or a strap holds against tipping"
    }
}

/// `latch`.
pub mod latch {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Count, Quantity, Word};
    use crate::field::Range::Positive;

    crate::schema! {
        /// `latch`.
        "the latch";
        COUNT = "count": Count(1), required; "how many"
        UNFOLDS = "unfolds": Word(super::SIDES), required; "to which side the folded part comes down"
        CG = "cg": Quantity(Dimension::LENGTH, Positive); "from the hinge line to the centre of gravity of what is folded"
        ARM = "arm": Quantity(Dimension::LENGTH, Positive); "from the hinge line to the latch"
        MASS = "mass": Quantity(Dimension::MASS, Positive); "weight of what is folded"
        BREAKING = "breaking": Quantity(Dimension::MASS, Positive); "the load that each breaks at"
        WORKING = "working": Quantity(Dimension::MASS, Positive); "working load limit of each; a share of the breaking load when not given"
    }
}
