//! The stations of the walk, in the order in which a trailer is handed over, and what is on record at each.

use pintle_spec::field::Field;
use pintle_spec::schema::record;

/// One station.
#[derive(Debug)]
pub(super) struct Station {
    pub(super) id: &'static str,
    pub(super) title: &'static str,
    /// What to mind there.
    pub(super) says: &'static [&'static str],
    pub(super) fields: &'static [&'static Field],
}

const fn station(
    id: &'static str,
    title: &'static str,
    says: &'static [&'static str],
    fields: &'static [&'static Field],
) -> Station {
    Station { id, title, says, fields }
}

/// All of them. Every field of the record stands at one.
pub(super) static STATIONS: &[Station] = &[
    station(
        "road",
        "Road gear",
        &["Chock the wheels before anything is loosened. Brakes are tried where nobody stands in the way."],
        &[&record::LUGS, &record::BRAKE_TEST, &record::BREAKAWAY_HOLD, &record::LAMP_TEST],
    ),
    station(
        "scale",
        "On the scale",
        &[
            "Weigh the trailer by itself, in a state that the spec names. Read the tongue directly: the difference of two \
             coarse readings is coarser still. Keep hands and feet from under the coupler.",
        ],
        &[&record::TICKETS],
    ),
    station(
        "body",
        "Body, openings, beds, water",
        &[
            "Nothing of these goes on record here: what eyes must check stands on the sheet, with room for a mark.",
        ],
        &[],
    ),
    station(
        "anchors",
        "What is bolted in",
        &["Roof and rack from a ladder that somebody holds."],
        &[&record::TORQUES],
    ),
    station(
        "gas",
        "Gas and alarms",
        &["Work on gas belongs to qualified people, and local codes come first. No flame near a leak test."],
        &[&record::LEAK_TEST, &record::ALARM_TESTS],
    ),
    station(
        "mains",
        "Mains",
        &[
            "Work on mains belongs to qualified people, and local codes come first. Until its voltage is measured, nobody \
             touches the trailer's bare metal.",
        ],
        &[&record::OUTLET_TEST, &record::SKIN_TEST],
    ),
    station("papers", "Papers", &[], &[&record::VIN, &record::LABEL, &record::SERIALS, &record::PHOTOS]),
    station("handing-over", "Handing over", &[], &[&record::DELIVERED, &record::RECHECKS]),
    station(
        "since",
        "Since it was handed over",
        &["Only for a trailer that has come back."],
        &[&record::SEEN, &record::DRIVEN, &record::CHANGES],
    ),
    station("signatures", "Signatures", &[], &[&record::SIGN_OFF, &record::NOTE]),
];
