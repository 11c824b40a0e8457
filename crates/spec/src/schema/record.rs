//! `[record]`: what was measured and tested on the built trailer.

use pintle_quantity::Dimension;

use crate::field::Kind::{Quantity, Table, Tables, Text};
use crate::field::Range::NotNegative;

crate::schema! {
    /// `[record]`.
    "the record";
    OUTLET_TEST = "outlet_test": Table(&super::electric::outlet_test::SCHEMA); "the test of the mains outlets"
    SKIN_TEST = "skin_test": Table(&super::electric::skin_test::SCHEMA); "the voltage of the trailer's skin against the ground, plugged in"
    BREAKAWAY_HOLD = "breakaway_hold": Quantity(Dimension::TIME, NotNegative); "how long the breakaway held the brakes when it was tried"
    TICKETS = "ticket": Tables(&ticket::SCHEMA); "what a scale said of one state; one `[[record.ticket]]` table each"
    DELIVERED = "delivered": Text; "the day the trailer is or was handed over, as in 2026-05-04"
    SEEN = "seen": Text; "the last day on which the shop had it back, as in 2026-11-03"
    DRIVEN = "driven": Quantity(Dimension::LENGTH, NotNegative); "how far it has been towed since it was handed over"
    LEAK_TEST = "leak_test": Table(&super::gas::leak_test::SCHEMA); "the leak test of the gas system"
    VIN = "vin": Text; "the trailer's identification number, copied from its plate"
    LABEL = "label": Table(&label::SCHEMA); "what the labels on the finished trailer say"
    LUGS = "lugs": Table(&lugs::SCHEMA); "how the wheel nuts were drawn up"
    BRAKE_TEST = "brake_test": Table(&brake_test::SCHEMA); "how the brakes took hold when they were tried"
    LAMP_TEST = "lamp_test": Table(&lamp_test::SCHEMA); "which lamps came on when they were tried behind a tow vehicle"
    ALARM_TESTS = "alarm_test": Tables(&alarm_test::SCHEMA); "how one alarm answered its test; one `[[record.alarm_test]]` table each"
    TORQUES = "torque": Tables(&torque::SCHEMA); "how one part's bolts were drawn up; one `[[record.torque]]` table each"
    SERIALS = "serial": Tables(&serial::SCHEMA); "the number on one part's plate; one table each"
    PHOTOS = "photo": Tables(&photo::SCHEMA); "a photograph that is kept; one table each"
    RECHECKS = "recheck": Tables(&recheck::SCHEMA); "something to look at again; one `[[record.recheck]]` table each"
    CHANGES = "change": Tables(&change::SCHEMA); "what was changed after it was handed over; one `[[record.change]]` table each"
    SIGN_OFF = "sign_off": Tables(&sign_off::SCHEMA); "who signed for what; one table each"
    NOTE = "note": Text; "anything a reader should know"
}

/// `label`.
pub mod label {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Flag, Quantity};
    use crate::field::Range::NotNegative;

    crate::schema! {
        /// `[record.label]`.
        "the labels";
        CARGO = "cargo": Quantity(Dimension::MASS, NotNegative); "weight of cargo that the placard states, in the pounds or kilograms that it prints"
        WATER = "water": Quantity(Dimension::MASS, NotNegative); "weight of full fresh water that a label states, in the pounds or kilograms that it prints"
        ALTERER = "alterer": Flag; "whether the label of who altered it before its first retail sale is on it"
    }
}

/// `lugs`.
pub mod lugs {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Quantity, Words};
    use crate::field::Range::Positive;

    crate::schema! {
        /// `[record.lugs]`.
        "the wheel nuts as drawn up";
        TORQUE = "torque": Quantity(Dimension::ENERGY, Positive); "torque to which they were drawn up"
        AGAIN = "again": Words(&["10 mi", "25 mi", "50 mi"]); "the distances after which the owner is told in writing to draw them up again"
    }
}

/// `ticket`.
pub mod ticket {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Quantity, Text, Word};
    use crate::field::Range::{NotNegative, Positive};

    crate::schema! {
        /// `[[record.ticket]]`. A reading states how sure it is by a ± of its own, or by the step of the display.
        "a scale ticket";
        STATE = "state": Text, required; "the state in which the trailer stood on the scale, by its name"
        GROSS = "gross": Quantity(Dimension::MASS, Positive); "the whole trailer, by itself on the scale"
        TONGUE = "tongue": Quantity(Dimension::MASS, NotNegative); "weight on the ball or the jack"
        AXLES = "axles": Quantity(Dimension::MASS, Positive); "weight on all wheels, the tongue held up beside the scale"
        LEFT = "left": Quantity(Dimension::MASS, NotNegative); "weight on the left wheels"
        RIGHT = "right": Quantity(Dimension::MASS, NotNegative); "weight on the right wheels"
        TONGUE_BY = "tongue_by": Word(&["read", "difference"]); "whether `tongue` was read off a scale or is the difference of two other readings; read when not given"
        RESOLUTION = "resolution": Quantity(Dimension::MASS, Positive); "step of the scale's display"
        TONGUE_RESOLUTION = "tongue_resolution": Quantity(Dimension::MASS, Positive); "step of the display that `tongue` was read off; that of `resolution` when not given"
        DATE = "date": Text; "the day it was weighed, as in 2026-05-02"
        INSTRUMENT = "instrument": Text; "which scale"
        NOTE = "note": Text; "anything a reader should know"
    }
}

/// `brake_test`.
pub mod brake_test {
    use crate::field::Kind::{Count, Flag, Text};

    crate::schema! {
        /// `[record.brake_test]`.
        "the brake test";
        DATE = "date": Text; "the day it was done, as in 2026-05-02"
        BY = "by": Text; "who did it"
        WHEELS = "wheels": Count(0); "how many wheels took hold"
        FROM_VEHICLE = "from_vehicle": Flag; "whether they were worked from a tow vehicle, on the road"
        STRAIGHT = "straight": Flag; "whether it stopped straight"
        NOTE = "note": Text; "anything a reader should know"
    }
}

/// `lamp_test`.
pub mod lamp_test {
    use crate::field::Kind::{Text, Words};

    /// What can be seen to come on.
    pub const CIRCUITS: &[&str] = &[
        "tail",
        "stop",
        "left turn",
        "right turn",
        "plate",
        "side marker",
        "clearance",
        "identification",
        "reverse",
        "fog",
    ];

    crate::schema! {
        /// `[record.lamp_test]`.
        "the lamp test";
        DATE = "date": Text; "the day it was done, as in 2026-05-02"
        BY = "by": Text; "who did it"
        LIT = "lit": Words(CIRCUITS); "what came on, and nothing else with it"
        NOTE = "note": Text; "anything a reader should know"
    }
}

/// `alarm_test`.
pub mod alarm_test {
    use crate::field::Kind::{Flag, Text};

    crate::schema! {
        /// `[[record.alarm_test]]`.
        "the test of an alarm";
        ALARM = "alarm": Text, required; "tag of the alarm"
        SOUNDED = "sounded": Flag; "whether it sounded when its test button was pressed"
        DATE = "date": Text; "the day it was done, as in 2026-05-02"
        BY = "by": Text; "who did it"
        REPLACE = "replace": Text; "the last day on which it is of use, from its plate, as in 2033-04-30"
        NOTE = "note": Text; "anything a reader should know"
    }
}

/// `torque`.
pub mod torque {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Quantity, Text};
    use crate::field::Range::Positive;

    crate::schema! {
        /// `[[record.torque]]`.
        "the torque of bolts";
        ITEM = "item": Text, required; "tag of the part that the bolts hold"
        REACHED = "reached": Quantity(Dimension::ENERGY, Positive); "torque at which the wrench let go, or that it showed, of the bolt that differed most"
        WANTED = "wanted": Quantity(Dimension::ENERGY, Positive); "torque that the maker of fitting or bolt asks for; worked out from the bolt when not given"
        DATE = "date": Text; "the day it was done, as in 2026-05-02"
        BY = "by": Text; "who did it"
        WRENCH = "wrench": Text; "which wrench"
        NOTE = "note": Text; "anything a reader should know"
    }
}

/// `serial`.
pub mod serial {
    use crate::field::Kind::Text;

    crate::schema! {
        /// `[[record.serial]]`.
        "a serial number";
        ITEM = "item": Text, required; "tag of the part"
        NUMBER = "number": Text, required; "the number on its plate"
        NOTE = "note": Text; "anything a reader should know"
    }
}

/// `photo`.
pub mod photo {
    use crate::field::Kind::{Text, Word};

    /// What a photograph can be of.
    pub const VIEWS: &[&str] = &[
        "label",
        "tires",
        "coupler",
        "left side",
        "right side",
        "inside",
        "scale",
        "gas",
        "wiring",
        "anchors",
        "roof",
    ];

    crate::schema! {
        /// `[[record.photo]]`.
        "a photograph";
        SHOWS = "shows": Word(VIEWS), required; "what it shows"
        FILE = "file": Text, required; "where it is kept"
        DATE = "date": Text; "the day it was taken, as in 2026-05-02"
        NOTE = "note": Text; "anything a reader should know"
    }
}

/// `recheck`.
pub mod recheck {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Quantity, Text, Word};
    use crate::field::Range::Positive;

    /// What works loose, leaks, dries out or ages.
    pub const MATTERS: &[&str] =
        &["lug nuts", "anchors", "sealant", "gas", "alarms", "brakes", "wheel bearings", "tires", "scale"];

    crate::schema! {
        /// `[[record.recheck]]`.
        "a recheck";
        WHAT = "what": Word(MATTERS), required; "what is to be looked at again"
        DUE = "due": Text; "the day by which, as in 2026-11-04"
        AFTER = "after": Quantity(Dimension::LENGTH, Positive); "the distance towed after which"
        DONE = "done": Text; "the day it was done, as in 2026-11-03"
        BY = "by": Text; "who did it"
        NOTE = "note": Text; "anything a reader should know"
    }
}

/// `change`.
pub mod change {
    use pintle_quantity::Dimension;

    use crate::field::Kind::{Quantity, Text, Words};
    use crate::field::Range::Any;

    /// What a change can touch that somebody must look over again.
    pub const SYSTEMS: &[&str] =
        &["gas", "fire", "plumbing", "electric", "structure", "brakes", "nothing of these"];

    crate::schema! {
        /// `[[record.change]]`.
        "a change";
        WHAT = "what": Text, required; "what was changed"
        DATE = "date": Text; "the day it was done, as in 2026-10-20"
        TOUCHES = "touches": Words(SYSTEMS); "what it touches"
        MASS = "mass": Quantity(Dimension::MASS, Any); "weight that it added; negative where it took some away"
        REVIEWED = "reviewed": Text; "the day on which somebody looked it over, as in 2026-11-03"
        REVIEWED_BY = "reviewed_by": Text; "who did"
        NOTE = "note": Text; "anything a reader should know"
    }
}

/// `sign_off`.
pub mod sign_off {
    use crate::field::Kind::{Text, Word};

    crate::schema! {
        /// `[[record.sign_off]]`.
        "a signature";
        ROLE = "role": Word(&["builder", "inspector", "customer"]), required; "as what"
        NAME = "name": Text, required; "who"
        DATE = "date": Text; "the day, as in 2026-05-04"
        NOTE = "note": Text; "anything a reader should know"
    }
}
