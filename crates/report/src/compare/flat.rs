//! A checked table as a list of paths and values, so that two of them can be laid side by side.

use pintle_quantity::{Quantity, Units, show_apart};
use pintle_spec::node::{Node, NodeValue};
use pintle_spec::{Record, Span, Spanned, Value};

/// What a field says.
#[derive(Debug, Clone)]
pub enum Worth {
    /// A quantity.
    Quantity(Quantity),
    /// Anything else, as it is written.
    Words(String),
}

impl Worth {
    /// Whether both say the same. Quantities do when they compare as equal and their tolerances do.
    pub(super) fn is(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Quantity(left), Self::Quantity(right)) => {
                let tolerance = match (left.tolerance(), right.tolerance()) {
                    (Some(left), Some(right)) => left.equals(right) == Ok(true),
                    (None, None) => true,
                    _ => false,
                };
                left.equals(*right) == Ok(true) && tolerance
            }
            (Self::Words(left), Self::Words(right)) => left == right,
            _ => false,
        }
    }

    /// As a reader is shown it.
    pub fn show(&self, units: Units) -> String {
        match self {
            Self::Quantity(quantity) => quantity.show(units),
            Self::Words(words) => words.clone(),
        }
    }

    /// Two values as a reader is shown them, with digits enough to tell them apart.
    pub fn show_both(old: &Self, new: &Self, units: Units) -> (String, String) {
        match (old, new) {
            (Self::Quantity(old), Self::Quantity(new)) => show_apart(*old, *new, units),
            _ => (old.show(units), new.show(units)),
        }
    }
}

/// One field: its path, such as `anchors.count`, what it says, and where.
#[derive(Debug, Clone)]
pub(super) struct Flat {
    pub(super) path: String,
    pub(super) worth: Worth,
    pub(super) span: Span,
}

impl Flat {
    pub(super) fn words(path: impl Into<String>, words: impl Into<String>, span: Span) -> Self {
        Self { path: path.into(), worth: Worth::Words(words.into()), span }
    }

    pub(super) fn quantity(path: impl Into<String>, value: Spanned<Quantity>) -> Self {
        Self { path: path.into(), worth: Worth::Quantity(value.value), span: value.span }
    }
}

/// The fields of a record and of the tables in it, in the order written, but for those left out.
pub(super) fn flat(record: &Record, left_out: &[&str]) -> Vec<Flat> {
    let mut fields = Vec::new();
    for key in record.keys().filter(|key| !left_out.contains(key)) {
        if let Some(value) = record.value(key) {
            lay(key.to_owned(), &value.value, value.span, &mut fields);
        }
    }
    fields
}

fn lay(path: String, value: &Value, span: Span, into: &mut Vec<Flat>) {
    let table = |path: &str, record: &Record, into: &mut Vec<Flat>| {
        for key in record.keys() {
            if let Some(value) = record.value(key) {
                lay(format!("{path}.{key}"), &value.value, value.span, into);
            }
        }
    };
    match value {
        Value::Quantity(quantity) => into.push(Flat::quantity(path, Spanned::new(*quantity, span))),
        Value::Text(text) => into.push(Flat::words(path, text.clone(), span)),
        Value::Word(word) => into.push(Flat::words(path, *word, span)),
        Value::Words(words) => {
            into.push(Flat::words(path, listed(words.iter().map(|word| word.value)), span));
        }
        Value::Texts(texts) => {
            into.push(Flat::words(path, listed(texts.iter().map(|text| text.value.as_str())), span));
        }
        Value::Flag(flag) => into.push(Flat::words(path, flag.to_string(), span)),
        Value::Count(count) => into.push(Flat::words(path, count.to_string(), span)),
        Value::Table(record) => table(&path, record, into),
        Value::Tables(records) => {
            for (at, record) in records.iter().enumerate() {
                table(&format!("{path}[{}]", at + 1), record, into);
            }
        }
        Value::Named(named) => {
            for (name, record) in named {
                table(&format!("{path}.{}", name.value), record, into);
            }
        }
        Value::ByName(amounts) => {
            for (name, amount) in amounts {
                into.push(Flat::quantity(format!("{path}.{}", name.value), *amount));
            }
        }
        Value::Raw(node) => into.push(Flat::words(path, raw(node), span)),
    }
}

/// Words in a row; none at all is said.
pub(super) fn listed<'a>(words: impl Iterator<Item = &'a str>) -> String {
    let words: Vec<&str> = words.collect();
    if words.is_empty() { "none".to_owned() } else { words.join(", ") }
}

fn raw(node: &Node) -> String {
    match &node.value {
        NodeValue::Table(entries) => {
            let entries = entries.iter().map(|entry| format!("{} = {}", entry.key, raw(&entry.node)));
            format!("{{ {} }}", entries.collect::<Vec<_>>().join(", "))
        }
        NodeValue::Array(nodes) => format!("[{}]", nodes.iter().map(raw).collect::<Vec<_>>().join(", ")),
        NodeValue::Text { text, .. } => text.clone(),
        NodeValue::Integer(Some(number)) => number.to_string(),
        NodeValue::Integer(None) => "a number that does not fit".to_owned(),
        NodeValue::Float => "a number with a point".to_owned(),
        NodeValue::Flag(flag) => flag.to_string(),
        NodeValue::Date(date) => date.clone(),
    }
}
