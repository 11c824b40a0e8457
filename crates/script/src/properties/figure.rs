//! What can be asked of a figure of a topic.

use pintle_spec::Missing;

use super::{Found, Gives, Property};
use crate::thing::What;
use crate::worked;

/// What can be asked of a figure.
pub(super) const PROPERTIES: &[Property] = &[
    Property {
        name: "value",
        says: "value",
        doc: "what it came to: a quantity, a yes or no, a text or a list of texts; where there is no such thing, the rule does not apply",
        gives: Gives::Value,
        get: |run, at| worked::value(run, at),
    },
    Property {
        name: "of",
        says: "of",
        doc: "what it is of, such as \"item `galley`\"",
        gives: Gives::Text,
        get: |run, at| Ok(Found::Text(worked::figure(run, at)?.of.clone())),
    },
    Property {
        name: "item",
        says: "item",
        doc: "the part that it is of; where it is of several, the one named first",
        gives: Gives::Part(None),
        get: |run, at| {
            let none = || Missing::new("a part that the figure is of", None, "");
            Ok(worked::part(run, at).map_or_else(|| Found::None(none()), |at| Found::Thing(What::Item(at))))
        },
    },
    Property {
        name: "state",
        says: "state",
        doc: "the state that it is of",
        gives: Gives::State,
        get: |run, at| {
            let none = || Missing::new("a state that the figure is of", None, "");
            Ok(worked::state(run, at).map_or_else(|| Found::None(none()), |at| Found::Thing(What::State(at))))
        },
    },
];
