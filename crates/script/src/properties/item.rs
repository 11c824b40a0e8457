//! What can be asked of a part, by its kind.

use super::{Found, Property};

/// Kinds of parts, in the order of the documentation.
pub(super) const KINDS: &[&str] = &[
    "module", "equipment", "rack", "tent", "ladder", "cylinder", "appliance", "battery", "alarm", "tank", "locker",
    "bulkhead", "berth", "vent",
];

/// What can be asked of a part of a kind.
pub(super) fn of_kind(_kind: &str) -> &'static [Property] {
    ANY
}

const ANY: &[Property] = &[Property {
    name: "kind",
    says: "kind",
    doc: "what it is",
    get: |run, at| Ok(Found::Text(run.build.items.get(at).map_or(String::new(), |item| item.kind.to_owned()))),
}];
