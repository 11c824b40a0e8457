//! What can be asked of the build as a whole.

use super::{Found, Property};
use crate::thing::What;

/// What can be asked of the build.
pub(super) const PROPERTIES: &[Property] = &[
    Property {
        name: "unloaded",
        says: "unloaded weight",
        doc: "weight as built: all parts fitted, full propane, no water, no loads",
        get: |run, _| Ok(run.as_built().unloaded()?.into()),
    },
    Property {
        name: "cargo_capacity",
        says: "cargo capacity",
        doc: "GVWR less the unloaded weight: the placard's figure",
        get: |run, _| Ok(run.as_built().cargo_capacity()?.into()),
    },
    Property {
        name: "items",
        says: "parts",
        doc: "every part with a tag",
        get: |run, _| Ok(Found::Things((0..run.build.items.len()).map(What::Item).collect())),
    },
];
