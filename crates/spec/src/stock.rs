//! The shop's parts, by name.

mod variants;
mod written;

pub use written::read_stock;

use std::collections::BTreeMap;
use std::sync::Arc;

use pintle_finding::{Label, Problem, Role};
use pintle_source::{Span, Spanned};

use crate::field::Schema;
use crate::node::{Node, NodeValue};
use crate::read::list;
use crate::record::Record;
use crate::say::{near, shown};
use crate::schema::{item, kinds, tow, trailer};

/// A kind of part: its name and its fields.
#[derive(Debug)]
pub(crate) struct PartKind {
    pub(crate) name: &'static str,
    pub(crate) schema: &'static Schema,
}

/// Every kind a part may have.
pub(crate) static KINDS: &[PartKind] = &[
    PartKind { name: "trailer", schema: &trailer::SCHEMA },
    PartKind { name: "tow vehicle", schema: &tow::SCHEMA },
    PartKind { name: "module", schema: &kinds::module::SCHEMA },
    PartKind { name: "equipment", schema: &kinds::equipment::SCHEMA },
    PartKind { name: "rack", schema: &kinds::rack::SCHEMA },
    PartKind { name: "tent", schema: &kinds::tent::SCHEMA },
    PartKind { name: "ladder", schema: &kinds::ladder::SCHEMA },
    PartKind { name: "cylinder", schema: &kinds::cylinder::SCHEMA },
    PartKind { name: "appliance", schema: &kinds::appliance::SCHEMA },
    PartKind { name: "battery", schema: &kinds::battery::SCHEMA },
    PartKind { name: "inverter", schema: &kinds::inverter::SCHEMA },
    PartKind { name: "charger", schema: &kinds::charger::SCHEMA },
    PartKind { name: "solar", schema: &kinds::solar::SCHEMA },
    PartKind { name: "alarm", schema: &kinds::alarm::SCHEMA },
    PartKind { name: "tank", schema: &kinds::tank::SCHEMA },
    PartKind { name: "locker", schema: &kinds::locker::SCHEMA },
    PartKind { name: "bulkhead", schema: &kinds::bulkhead::SCHEMA },
    PartKind { name: "berth", schema: &kinds::berth::SCHEMA },
    PartKind { name: "vent", schema: &kinds::vent::SCHEMA },
    PartKind { name: "opening", schema: &kinds::opening::SCHEMA },
    PartKind { name: "extinguisher", schema: &kinds::extinguisher::SCHEMA },
    PartKind { name: "load", schema: &kinds::load::SCHEMA },
];

/// The names of the kinds that parts with a place may have: all but the two vehicles.
pub fn item_kinds() -> impl Iterator<Item = &'static str> + Clone {
    KINDS.iter().map(|kind| kind.name).filter(|name| !matches!(*name, "trailer" | "tow vehicle"))
}

/// The fields of a kind of part.
pub fn schema_of_kind(name: &str) -> Option<&'static Schema> {
    KINDS.iter().find(|kind| kind.name == name).map(|kind| kind.schema)
}

/// The kind with a name, or the problem of there being none.
pub(crate) fn kind_named(
    name: &str,
    span: Span,
    allowed: impl Fn(&str) -> bool,
    problems: &mut Vec<Problem>,
) -> Option<&'static PartKind> {
    let found = KINDS.iter().find(|kind| kind.name == name && allowed(kind.name));
    if found.is_none() {
        let names = || KINDS.iter().map(|kind| kind.name).filter(|name| allowed(name));
        let help = match near(name, names(), problems.len()) {
            Some(near) => format!("did you mean `{near}`? the kinds are {}", list(names())),
            None => format!("the kinds are {}", list(names())),
        };
        problems.push(
            Problem::new("unknown-kind", format!("no kind of part is called `{}` here", shown(name)))
                .at(Label::new(span, Role::Subject, "not a kind that can stand here"))
                .help(help),
        );
    }
    found
}

/// One part of the shop's.
#[derive(Debug, Clone)]
pub struct Part {
    /// Its name and where it stands.
    pub name: Spanned<String>,
    /// What it is.
    pub kind: &'static str,
    /// Its fields, over those of the part it is a variant of.
    pub record: Record,
}

/// The shop's parts, by name. Cheap to clone.
#[derive(Debug, Clone, Default)]
pub struct Stock {
    parts: Arc<BTreeMap<String, Part>>,
    refused: Arc<BTreeMap<String, Span>>,
}

impl Stock {
    /// The part with a name.
    pub fn part(&self, name: &str) -> Option<&Part> {
        self.parts.get(name)
    }

    /// All parts by name.
    pub fn parts(&self) -> impl Iterator<Item = &Part> + Clone {
        self.parts.values()
    }

    /// Whether no stock list holds any part at all.
    pub(crate) fn is_empty(&self) -> bool {
        self.parts.is_empty() && self.refused.is_empty()
    }

    /// Where a part stands that is in the stock list and could not be read.
    pub(crate) fn refused(&self, name: &str) -> Option<Span> {
        self.refused.get(name).copied()
    }
}

/// Of a part whose kind is not known, what can still be checked: fields that every kind shares, and fields that
/// no kind has.
pub(crate) fn what_any_kind_knows(node: &Node) -> Node {
    let only_some_kinds = |key: &str| {
        item::SCHEMA.find(key).is_none() && KINDS.iter().any(|kind| kind.schema.find(key).is_some())
    };
    let kept = node.entries().iter().filter(|entry| !only_some_kinds(&entry.key)).cloned().collect();
    Node { span: node.span, value: NodeValue::Table(kept) }
}

/// The problem of a part that is not in stock.
pub(crate) fn unknown_part<'a>(
    name: &str,
    span: Span,
    known: impl Iterator<Item = &'a str>,
    said: usize,
) -> Problem {
    let help = match near(name, known, said) {
        Some(near) => format!("did you mean `{}`?", shown(near)),
        None => "add it to the stock list, or state its fields here instead".to_owned(),
    };
    Problem::new("unknown-part", format!("the stock list has no part `{}`", shown(name)))
        .at(Label::new(span, Role::Subject, "not in stock"))
        .help(help)
}

/// The problem of a part that is in stock and could not be read.
pub(crate) fn refused_part(name: &str, span: Span, place: Span) -> Problem {
    Problem::new("refused-part", format!("stock part `{}` has problems of its own", shown(name)))
        .at(Label::new(span, Role::Subject, "cannot be used"))
        .at(Label::new(place, Role::Subject, "the stock part"))
        .help("correct the stock list first")
}
