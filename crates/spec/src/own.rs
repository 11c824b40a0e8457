//! Fields of a shop's own on its parts, `[part.shop]`: a pack of rules declares them, stock and specs state them.

use std::collections::BTreeSet;
use std::sync::Mutex;

use pintle_finding::{Label, Problem, Role, nearest};
use pintle_quantity::{Dimension, Quantity};
use pintle_source::Spanned;

use crate::node::{Node, NodeValue};
use crate::read::list;
use crate::record::{Record, Value};
use crate::schema::item;
use crate::{Build, Footing, Named, Stock};

/// What a field of a shop's own holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OwnKind {
    /// A quantity of a dimension.
    Quantity(Dimension),
    /// A text.
    Text,
    /// True or false.
    Flag,
    /// A whole number, zero or more.
    Count,
}

impl OwnKind {
    /// The kind that a declaration means by a word: "text", "flag", "count", or what a quantity measures, such as
    /// "mass" or "length".
    ///
    /// ```
    /// use pintle_quantity::Dimension;
    /// use pintle_spec::OwnKind;
    ///
    /// assert_eq!(OwnKind::from_word("mass"), Some(OwnKind::Quantity(Dimension::MASS)));
    /// assert_eq!(OwnKind::from_word("heft"), None);
    /// ```
    pub fn from_word(word: &str) -> Option<Self> {
        match word {
            "text" => Some(Self::Text),
            "flag" => Some(Self::Flag),
            "count" => Some(Self::Count),
            _ => Dimension::named(word).map(Self::Quantity),
        }
    }

    /// All words.
    pub fn words() -> impl Iterator<Item = &'static str> + Clone {
        ["text", "flag", "count"].into_iter().chain(Dimension::names())
    }

    fn noun(self) -> String {
        match self {
            Self::Quantity(dimension) => {
                format!("{}, such as `\"{}\"`", dimension.noun(), dimension.example())
            }
            Self::Text => "a text".to_owned(),
            Self::Flag => "true or false".to_owned(),
            Self::Count => "a whole number".to_owned(),
        }
    }
}

/// A field of a shop's own.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OwnField {
    /// Its key.
    pub key: &'static str,
    /// What it holds.
    pub kind: OwnKind,
    /// What it means.
    pub doc: String,
}

impl OwnField {
    /// A field. Keys live as long as the tool, each once: there are as many as packs declare.
    pub fn new(key: &str, kind: OwnKind, doc: &str) -> Self {
        Self { key: kept(key), kind, doc: doc.to_owned() }
    }
}

fn kept(key: &str) -> &'static str {
    static KEPT: Mutex<BTreeSet<&'static str>> = Mutex::new(BTreeSet::new());
    let mut kept = KEPT.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
    if let Some(held) = kept.get(key) {
        return held;
    }
    let held: &'static str = Box::leak(key.to_owned().into_boxed_str());
    kept.insert(held);
    held
}

/// A value of such a field.
#[derive(Debug, Clone, PartialEq)]
pub enum OwnValue {
    /// A quantity with its place.
    Quantity(Named),
    /// A text.
    Text(String),
    /// True or false.
    Flag(bool),
    /// A whole number.
    Count(u32),
}

/// The value of a declared field of a part; none where it is not stated, or not as declared.
pub fn own_value(record: &Record, field: &OwnField) -> Option<OwnValue> {
    let node = stated(record)?.child(field.key)?;
    read(node, field).map(|value| match value {
        OwnValue::Quantity(named) => OwnValue::Quantity(Named { owner: record.what.clone(), ..named }),
        other => other,
    })
}

fn stated(record: &Record) -> Option<&Node> {
    match &record.value(item::SHOP.key)?.value {
        Value::Raw(node) => Some(node),
        _ => None,
    }
}

fn read(node: &Node, field: &OwnField) -> Option<OwnValue> {
    match (field.kind, &node.value) {
        (OwnKind::Quantity(dimension), NodeValue::Text { text, .. }) => {
            let quantity = Quantity::parse(text).ok().filter(|quantity| quantity.dimension() == dimension)?;
            let value = Spanned::new(quantity, node.span);
            let footing = Footing::Other;
            Some(OwnValue::Quantity(Named { key: field.key, owner: "the shop".into(), value, footing }))
        }
        (OwnKind::Text, NodeValue::Text { text, .. }) => Some(OwnValue::Text(text.clone())),
        (OwnKind::Flag, NodeValue::Flag(flag)) => Some(OwnValue::Flag(*flag)),
        (OwnKind::Count, NodeValue::Integer(Some(count))) => u32::try_from(*count).ok().map(OwnValue::Count),
        _ => None,
    }
}

/// What is wrong with the shop's own fields of a build.
pub fn check_own_of_build(build: &Build, fields: &[OwnField]) -> Vec<Problem> {
    let parts = build.items.iter().map(|item| &item.record);
    let records = parts.chain([&build.trailer]).chain(build.tow.as_ref());
    let mut problems = Vec::new();
    records.for_each(|record| check(record, fields, &mut problems));
    // What stands in the stock list is said of the stock list.
    problems.retain(|problem| problem.labels.iter().any(|label| label.span.source == build.source));
    problems
}

/// What is wrong with the shop's own fields of its stock list.
pub fn check_own_of_stock(stock: &Stock, fields: &[OwnField]) -> Vec<Problem> {
    let mut problems: Vec<Problem> = Vec::new();
    for part in stock.parts() {
        let mut found = Vec::new();
        check(&part.record, fields, &mut found);
        // A variant has the fields of the part it is a variant of.
        let known = |problem: &Problem| problems.iter().any(|held| held.labels == problem.labels);
        found.retain(|problem| !known(problem));
        problems.extend(found);
    }
    problems
}

fn check(record: &Record, fields: &[OwnField], problems: &mut Vec<Problem>) {
    let Some(node) = stated(record) else { return };
    let what = &record.what;
    let NodeValue::Table(entries) = &node.value else {
        problems.push(
            Problem::new("wrong-type", format!("`shop` of {what} must be a table"))
                .at(Label::new(node.span, Role::Subject, "not a table"))
                .help("such as `shop = { hinges = 4 }`"),
        );
        return;
    };
    for entry in entries {
        let Some(field) = fields.iter().find(|field| field.key == entry.key) else {
            let names = || fields.iter().map(|field| field.key);
            let help = match nearest(&entry.key, names()) {
                Some(near) => format!("did you mean `{near}`?"),
                None if fields.is_empty() => {
                    "no pack in use declares fields of the shop's own: declare it as `[field.…]` in a pack's pack.toml".to_owned()
                }
                None => format!("the packs in use declare {}", list(names())),
            };
            problems.push(
                Problem::new(
                    "unknown-key",
                    format!("no pack in use declares a field `{}`, stated for {what}", entry.key),
                )
                .at(Label::new(entry.key_span, Role::Subject, "not declared"))
                .help(help),
            );
            continue;
        };
        if read(&entry.node, field).is_none() {
            problems.push(
                Problem::new(
                    "wrong-type",
                    format!("`{}` of {what} must be {}", field.key, field.kind.noun()),
                )
                .at(Label::new(entry.node.span, Role::Subject, "something else"))
                .help(format!("it is declared as: {}", field.doc)),
            );
        }
    }
}

#[cfg(test)]
mod tests;
