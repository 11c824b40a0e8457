//! A checked table: fields with values, each at its place, some of them from stock.

use std::sync::Arc;

use pintle_quantity::Quantity;
use pintle_source::{Span, Spanned};

use crate::field::Field;
use crate::node::Node;
use crate::schema::item;

/// A checked value.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// A quantity.
    Quantity(Quantity),
    /// Free text.
    Text(String),
    /// One of a closed list of words.
    Word(&'static str),
    /// Several of a closed list.
    Words(Vec<Spanned<&'static str>>),
    /// True or false.
    Flag(bool),
    /// A whole number.
    Count(u32),
    /// A list of free texts.
    Texts(Vec<Spanned<String>>),
    /// A table.
    Table(Record),
    /// A list of tables.
    Tables(Vec<Record>),
    /// Tables under names of the author's.
    Named(Vec<(Spanned<String>, Record)>),
    /// Quantities under names of the author's.
    ByName(Vec<(Spanned<String>, Spanned<Quantity>)>),
    /// As it stood.
    Raw(Node),
}

/// A checked table.
#[derive(Debug, Clone, PartialEq)]
pub struct Record {
    /// What it describes, such as "item `galley`"; used in messages about what is missing.
    pub what: Arc<str>,
    /// The place to point at when something is missing.
    pub span: Span,
    entries: Vec<(&'static str, Spanned<Value>)>,
    /// Fields that were written and could not be read: they are not missing.
    refused: Vec<&'static str>,
}

/// A value that was asked for and is not given.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Missing {
    /// What is missing, such as "`mass` of item `galley`".
    pub what: String,
    /// Where it would be given.
    pub span: Option<Span>,
    /// What to write.
    pub help: String,
}

impl Missing {
    /// Something missing that has no field of its own.
    pub fn new(what: impl Into<String>, span: Option<Span>, help: impl Into<String>) -> Self {
        Self { what: what.into(), span, help: help.into() }
    }
}

impl Record {
    /// An empty record.
    pub fn new(what: impl Into<Arc<str>>, span: Span) -> Self {
        Self { what: what.into(), span, entries: Vec::new(), refused: Vec::new() }
    }

    /// Sets a field.
    pub fn set(&mut self, field: &'static Field, value: Spanned<Value>) {
        match self.entries.iter_mut().find(|(key, _)| *key == field.key) {
            Some((_, held)) => *held = value,
            None => self.entries.push((field.key, value)),
        }
    }

    /// Notes a field that was written, perhaps misspelt, and could not be read.
    pub(crate) fn refuse(&mut self, key: &'static str) {
        if !self.refused.contains(&key) {
            self.refused.push(key);
        }
    }

    /// Whether a field was written and could not be read.
    pub(crate) fn is_refused(&self, key: &str) -> bool {
        self.refused.contains(&key)
    }

    /// Whether anything in the record could not be read.
    pub(crate) fn has_refused(&self) -> bool {
        !self.refused.is_empty()
    }

    /// The value of a field, by its key.
    pub fn value(&self, key: &str) -> Option<&Spanned<Value>> {
        self.entries.iter().find(|(held, _)| *held == key).map(|(_, value)| value)
    }

    /// The value of a field, by its key, to be named anew.
    pub(crate) fn value_mut(&mut self, key: &str) -> Option<&mut Value> {
        self.entries.iter_mut().find(|(held, _)| *held == key).map(|(_, value)| &mut value.value)
    }

    /// Keys that have a value, in the order written.
    pub fn keys(&self) -> impl Iterator<Item = &'static str> {
        self.entries.iter().map(|(key, _)| *key)
    }

    /// Fills in from `under` what is not given here; tables are filled in field by field. How a mass is known goes with
    /// the mass: the basis of the one below says nothing of one that is restated.
    pub fn fill_from(&mut self, under: &Record) {
        let restated = self.value(item::MASS.key).is_some();
        for (key, below) in &under.entries {
            if restated && *key == item::MASS_BASIS.key {
                continue;
            }
            match self.entries.iter_mut().find(|(held, _)| held == key) {
                None => self.entries.push((key, below.clone())),
                Some((_, Spanned { value: Value::Table(mine), .. })) => {
                    if let Value::Table(theirs) = &below.value {
                        mine.fill_from(theirs);
                    }
                }
                Some((_, Spanned { value: Value::Raw(mine), .. })) => {
                    if let Value::Raw(theirs) = &below.value {
                        mine.fill_from(theirs);
                    }
                }
                Some(_) => {}
            }
        }
    }

    /// Gives the record, and the tables in it, another name.
    pub fn rename(&mut self, what: &str) {
        self.what = Arc::from(what);
        for (key, value) in &mut self.entries {
            if let Value::Table(inner) = &mut value.value {
                inner.rename(&format!("`{key}` of {what}"));
            }
        }
    }

    /// A quantity, if it is given.
    pub fn quantity(&self, field: &'static Field) -> Option<Spanned<Quantity>> {
        match self.value(field.key)? {
            Spanned { value: Value::Quantity(quantity), span } => Some(Spanned::new(*quantity, *span)),
            _ => None,
        }
    }

    /// A quantity, or what is missing.
    pub fn need(&self, field: &'static Field) -> Result<Spanned<Quantity>, Missing> {
        self.quantity(field).ok_or_else(|| self.missing(field))
    }

    /// Free text.
    pub fn text(&self, field: &'static Field) -> Option<Spanned<&str>> {
        match self.value(field.key)? {
            Spanned { value: Value::Text(text), span } => Some(Spanned::new(text.as_str(), *span)),
            _ => None,
        }
    }

    /// A word of a closed list.
    pub fn word(&self, field: &'static Field) -> Option<Spanned<&'static str>> {
        match self.value(field.key)? {
            Spanned { value: Value::Word(word), span } => Some(Spanned::new(*word, *span)),
            _ => None,
        }
    }

    /// A word of a closed list, or what is missing.
    pub fn need_word(&self, field: &'static Field) -> Result<Spanned<&'static str>, Missing> {
        self.word(field).ok_or_else(|| self.missing(field))
    }

    /// Several words of a closed list.
    pub fn words(&self, field: &'static Field) -> Option<&[Spanned<&'static str>]> {
        match &self.value(field.key)?.value {
            Value::Words(words) => Some(words),
            _ => None,
        }
    }

    /// True or false.
    pub fn flag(&self, field: &'static Field) -> Option<Spanned<bool>> {
        match self.value(field.key)? {
            Spanned { value: Value::Flag(flag), span } => Some(Spanned::new(*flag, *span)),
            _ => None,
        }
    }

    /// True or false, or what is missing.
    pub fn need_flag(&self, field: &'static Field) -> Result<Spanned<bool>, Missing> {
        self.flag(field).ok_or_else(|| self.missing(field))
    }

    /// A whole number.
    pub fn count(&self, field: &'static Field) -> Option<Spanned<u32>> {
        match self.value(field.key)? {
            Spanned { value: Value::Count(count), span } => Some(Spanned::new(*count, *span)),
            _ => None,
        }
    }

    /// A whole number, or what is missing.
    pub fn need_count(&self, field: &'static Field) -> Result<Spanned<u32>, Missing> {
        self.count(field).ok_or_else(|| self.missing(field))
    }

    /// A list of texts; empty when not given.
    pub fn texts(&self, field: &'static Field) -> &[Spanned<String>] {
        match self.value(field.key).map(|value| &value.value) {
            Some(Value::Texts(texts)) => texts,
            _ => &[],
        }
    }

    /// A table.
    pub fn table(&self, field: &'static Field) -> Option<&Record> {
        match &self.value(field.key)?.value {
            Value::Table(record) => Some(record),
            _ => None,
        }
    }

    /// A table, or what is missing.
    pub fn need_table(&self, field: &'static Field) -> Result<&Record, Missing> {
        self.table(field).ok_or_else(|| self.missing(field))
    }

    /// A list of tables; empty when not given.
    pub fn tables(&self, field: &'static Field) -> &[Record] {
        match self.value(field.key).map(|value| &value.value) {
            Some(Value::Tables(tables)) => tables,
            _ => &[],
        }
    }

    /// Tables under names; empty when not given.
    pub fn named(&self, field: &'static Field) -> &[(Spanned<String>, Record)] {
        match self.value(field.key).map(|value| &value.value) {
            Some(Value::Named(named)) => named,
            _ => &[],
        }
    }

    /// Quantities under names; empty when not given.
    pub fn by_name(&self, field: &'static Field) -> &[(Spanned<String>, Spanned<Quantity>)] {
        match self.value(field.key).map(|value| &value.value) {
            Some(Value::ByName(shares)) => shares,
            _ => &[],
        }
    }

    /// What to say when a field is asked for and is not given.
    pub fn missing(&self, field: &'static Field) -> Missing {
        Missing {
            what: format!("`{}` of {}", field.key, self.what),
            span: Some(self.span),
            help: match field.kind {
                crate::field::Kind::Quantity(dimension, _) => {
                    format!("give it, such as `{} = \"{}\"`: {}", field.key, dimension.example(), field.doc)
                }
                _ => format!("give `{}`: {}", field.key, field.doc),
            },
        }
    }
}
