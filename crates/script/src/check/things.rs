//! What each sort of thing can be asked for, and what it answers with, before any build is seen.

use std::collections::BTreeSet;

use pintle_calc::topics;
use pintle_finding::nearest;
use pintle_spec::field::{Field, Kind, Schema};
use pintle_spec::schema::item;
use pintle_spec::{OwnField, OwnKind, item_kinds, schema, schema_of_kind};

use super::types::Type;
use crate::judges::Judges;
use crate::properties::{self, Gives, Property};
use crate::rows;

/// What a thing is.
#[derive(Debug, Clone)]
pub(crate) enum Sort {
    /// One of the things that every script is given, by its name.
    Given(&'static str),
    /// A state.
    State,
    /// A reading that passes with little to spare.
    Tight,
    /// A figure of a topic.
    Figure(Option<&'static topics::Sort>),
    /// An entry of one of the lists whose entries are judged.
    Row(usize),
    /// A part of one of these kinds.
    Part(BTreeSet<&'static str>),
    /// A table within another, with the field it stands under.
    Table(&'static str, &'static Schema),
    /// The fields of the shop's own on a part.
    Own,
}

impl PartialEq for Sort {
    fn eq(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Given(one), Self::Given(other)) => one == other,
            (Self::State, Self::State) | (Self::Tight, Self::Tight) | (Self::Own, Self::Own) => true,
            (Self::Figure(one), Self::Figure(other)) => one == other,
            (Self::Row(one), Self::Row(other)) => one == other,
            (Self::Part(one), Self::Part(other)) => one == other,
            (Self::Table(_, one), Self::Table(_, other)) => std::ptr::eq(*one, *other),
            _ => false,
        }
    }
}

/// A name that a thing cannot be asked for.
#[derive(Debug)]
pub(crate) struct Unheard {
    /// What is said of it.
    pub(crate) message: String,
    /// What to do about it.
    pub(crate) help: String,
}

/// So many names are listed when none of them is near; of more, only where they stand is said.
const FEW: usize = 14;

impl Unheard {
    /// With the nearest of the names that could have been meant, or all of them where they are few.
    fn of(message: String, name: &str, known: impl Iterator<Item = &'static str>) -> Self {
        let mut known: Vec<_> = known.collect();
        known.sort_unstable();
        known.dedup();
        let help = match nearest(name, known.iter().copied()) {
            Some(near) => format!("did you mean `{near}`?"),
            None if known.is_empty() => "there are none to be asked for".to_owned(),
            None if known.len() <= FEW => format!("there are: `{}`", known.join("`, `")),
            None => "the script reference lists what it can be asked for".to_owned(),
        };
        Self { message, help }
    }
}

impl Sort {
    /// A part of any kind, or of one.
    pub(crate) fn part(kind: Option<&'static str>) -> Self {
        Self::Part(kind.map_or_else(|| item_kinds().collect(), |kind| BTreeSet::from([kind])))
    }

    /// What a script finds under the name of a variable that a rule of this sort is given.
    pub(crate) fn of_variable(judges: Judges, variable: &'static str) -> Option<Self> {
        let kind = item_kinds().find(|kind| *kind == judges.word());
        match variable {
            "figure" => Some(Self::Figure(topics::find_sort(judges.word()))),
            "tight" => Some(Self::Tight),
            "state" => Some(Self::State),
            "item" => Some(Self::part(kind)),
            _ if kind == Some(variable) => Some(Self::part(kind)),
            _ => rows::ALL.iter().position(|rows| rows.variable == variable).map(Self::Row),
        }
    }

    /// What holds of a thing that is either of two.
    pub(crate) fn or(self, other: Self) -> Option<Self> {
        match (self, other) {
            (Self::Part(mut one), Self::Part(other)) => {
                one.extend(other);
                Some(Self::Part(one))
            }
            (Self::Figure(_), Self::Figure(_)) => Some(Self::Figure(None)),
            (one, other) => (one == other).then_some(one),
        }
    }

    /// What messages call it.
    pub(crate) fn called(&self) -> String {
        match self {
            Self::Given("people") => "`people`".to_owned(),
            Self::Given(name) => given_name(name).to_owned(),
            Self::State => "a state".to_owned(),
            Self::Tight => "a reading".to_owned(),
            Self::Figure(_) => "a figure".to_owned(),
            Self::Row(at) => rows::ALL.get(*at).map_or(String::new(), |rows| with_article(rows.word)),
            Self::Part(kinds) => match kinds.iter().collect::<Vec<_>>().as_slice() {
                [kind] => with_article(kind),
                _ => "a part".to_owned(),
            },
            Self::Table(key, _) => format!("`{key}`"),
            Self::Own => format!("`{}`", item::SHOP.key),
        }
    }

    /// What is worked out for it, and what is written of it: one pair for each kind that it may be.
    pub(crate) fn tables(&self) -> Vec<(&'static [Property], Option<&'static Schema>)> {
        let one = |properties, schema| vec![(properties, schema)];
        match self {
            Self::Given(name) => one(given_properties(name), given_schema(name)),
            Self::State => one(properties::STATE, None),
            Self::Tight => one(properties::TIGHT, None),
            Self::Figure(_) => one(properties::FIGURE, None),
            Self::Row(at) => {
                let schema = rows::ALL.get(*at).and_then(|rows| match rows.field.kind {
                    Kind::Tables(schema) => Some(schema),
                    _ => None,
                });
                one(&[], schema)
            }
            Self::Part(kinds) => {
                kinds.iter().map(|kind| (properties::of_kind(kind), schema_of_kind(kind))).collect()
            }
            Self::Table(_, schema) => one(&[], Some(schema)),
            Self::Own => Vec::new(),
        }
    }

    /// What it answers with when it is asked for a name. A part that may be of several kinds knows what any of them
    /// knows.
    pub(crate) fn ask(&self, name: &str, own_fields: Option<&[OwnField]>) -> Result<Type, Unheard> {
        if let Self::Own = self {
            return own_fields.map_or(Ok(Type::Unknown), |fields| own(fields, name));
        }
        if name.contains('/') {
            return figure(name);
        }
        let tables = self.tables();
        let answers = tables.iter().filter_map(|(properties, schema)| {
            let computed = properties.iter().find(|property| property.name == name);
            let written = || schema.and_then(|schema| schema.find(name));
            computed.map(|property| self.computed(property)).or_else(|| written().map(of_field))
        });
        answers.reduce(Type::or).ok_or_else(|| {
            let known = tables.iter().flat_map(|(properties, schema)| {
                let written = schema.iter().flat_map(|schema| schema.all()).map(|field| field.key);
                properties.iter().map(|property| property.name).chain(written)
            });
            Unheard::of(format!("{} has no `{name}`", self.called()), name, known)
        })
    }

    fn computed(&self, property: &Property) -> Type {
        match property.gives {
            Gives::Quantity(dimension) => Type::Quantity(Some(dimension)),
            Gives::Any => Type::Quantity(None),
            Gives::Flag => Type::Flag,
            Gives::Count => Type::Count,
            Gives::Text => Type::text(),
            Gives::Kind => Type::Text(Some(item_kinds().collect())),
            Gives::Word(words) => Type::Text(Some(words())),
            Gives::Texts => Type::text().list(),
            Gives::WordsOf(field) => of_field(field),
            Gives::Part(kind) => Type::Thing(Self::part(kind)),
            Gives::Parts(kind) => Type::Thing(Self::part(kind)).list(),
            Gives::State => Type::Thing(Self::State),
            Gives::Value => match self {
                Self::Figure(Some(sort)) => of_sort(sort),
                _ => Type::Unknown,
            },
        }
    }
}

/// What a field holds, as a script gets it. What a script cannot use is said when it asks for it.
fn of_field(field: &'static Field) -> Type {
    match field.kind {
        Kind::Quantity(dimension, _) => Type::Quantity(Some(dimension)),
        Kind::AnyQuantity => Type::Quantity(None),
        Kind::Text => Type::text(),
        Kind::Word(words) => Type::Text(Some(words.to_vec())),
        Kind::Words(words) => Type::Text(Some(words.to_vec())).list(),
        Kind::Flag => Type::Flag,
        Kind::Count(_) => Type::Count,
        Kind::Texts => Type::text().list(),
        Kind::Table(schema) => Type::Thing(Sort::Table(field.key, schema)),
        Kind::Tables(schema) => Type::Thing(Sort::Table(field.key, schema)).list(),
        Kind::Raw if field.key == item::SHOP.key => Type::Thing(Sort::Own),
        _ => Type::Unknown,
    }
}

/// What a figure of a topic comes to.
fn of_sort(sort: &topics::Sort) -> Type {
    match sort.gives {
        topics::Gives::Flag => Type::Flag,
        topics::Gives::Text => Type::text(),
        topics::Gives::Texts => Type::text().list(),
        _ => Type::Quantity(sort.gives.dimension()),
    }
}

/// A field of the shop's own.
fn own(fields: &[OwnField], name: &str) -> Result<Type, Unheard> {
    let field = fields.iter().find(|field| field.key == name).ok_or_else(|| {
        let known = fields.iter().map(|field| field.key);
        Unheard::of(format!("no pack declares a field `{name}`"), name, known)
    })?;
    Ok(match field.kind {
        OwnKind::Quantity(dimension) => Type::Quantity(Some(dimension)),
        OwnKind::Text => Type::text(),
        OwnKind::Flag => Type::Flag,
        OwnKind::Count => Type::Count,
    })
}

fn figure(name: &str) -> Result<Type, Unheard> {
    topics::find_sort(name).map(of_sort).ok_or_else(|| {
        Unheard::of(format!("there is no figure `{name}`"), name, topics::sorts().map(|sort| sort.name))
    })
}

fn given_name(name: &str) -> &str {
    match name {
        "build" => "the build",
        "trailer" => "the trailer",
        "tow" => "the tow vehicle",
        "gas" => "the gas system",
        "electric" => "the electric system",
        "water" => "`water`",
        "quote" => "the quote",
        "record" => "the record",
        other => other,
    }
}

fn given_properties(name: &str) -> &'static [Property] {
    match name {
        "build" => properties::BUILD,
        "trailer" => properties::TRAILER,
        _ => &[],
    }
}

fn given_schema(name: &str) -> Option<&'static Schema> {
    match name {
        "build" => Some(&schema::build::head::SCHEMA),
        "trailer" => Some(&schema::trailer::SCHEMA),
        "tow" => Some(&schema::tow::SCHEMA),
        "people" => Some(&schema::build::people::SCHEMA),
        "gas" => Some(&schema::gas::SCHEMA),
        "electric" => Some(&schema::electric::SCHEMA),
        "water" => Some(&schema::build::water::SCHEMA),
        "quote" => Some(&schema::quote::SCHEMA),
        "record" => Some(&schema::record::SCHEMA),
        _ => None,
    }
}

/// A noun of the trade with its article.
pub(crate) fn with_article(noun: &str) -> String {
    match noun.chars().next() {
        Some('a' | 'e' | 'i' | 'o') if noun != "equipment" => format!("an {noun}"),
        _ if noun == "equipment" => noun.to_owned(),
        _ => format!("a {noun}"),
    }
}
