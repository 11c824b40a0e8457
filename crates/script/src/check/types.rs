//! What can be said of a value before the script runs: what sort it is, and of a quantity what it measures.

use pintle_quantity::Dimension;

use super::things::Sort;

/// What a value is, as far as that is certain.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Type {
    /// Anything: nothing is said of it.
    Unknown,
    /// Nothing yet: the entries of a list that is still empty.
    Never,
    /// No value.
    Nothing,
    /// Yes or no.
    Flag,
    /// A whole number.
    Count,
    /// A number.
    Number,
    /// A quantity; of a dimension, where that is certain.
    Quantity(Option<Dimension>),
    /// A text; one of these words, where that is certain.
    Text(Option<Vec<&'static str>>),
    /// A letter.
    Letter,
    /// A list of such values.
    List(Box<Type>),
    /// A map.
    Map,
    /// A range of whole numbers.
    Range,
    /// Something of the build.
    Thing(Sort),
    /// The limits of the rule.
    Limits,
    /// A reading; which, where that is certain.
    Reading(Option<Read>),
}

/// A reading in the making.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Read {
    /// What was read.
    pub(crate) of: Of,
    /// Whether it has been compared.
    pub(crate) compared: bool,
}

/// What was read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Of {
    /// A bare condition.
    Condition,
    /// A quantity; of a dimension, where that is certain.
    Quantity(Option<Dimension>),
}

impl Type {
    /// A list of such values.
    pub(crate) fn list(self) -> Self {
        Self::List(Box::new(self))
    }

    /// A text of which nothing is known.
    pub(crate) const fn text() -> Self {
        Self::Text(None)
    }

    /// Whether nothing is known of it.
    pub(crate) const fn is_open(&self) -> bool {
        matches!(self, Self::Unknown | Self::Never)
    }

    /// What holds of a value that is either of two.
    pub(crate) fn or(self, other: Self) -> Self {
        match (self, other) {
            (Self::Never, other) | (other, Self::Never) => other,
            (Self::Quantity(one), Self::Quantity(other)) => {
                Self::Quantity(if one == other { one } else { None })
            }
            (Self::Text(one), Self::Text(other)) => Self::Text(one.zip(other).map(|(mut one, other)| {
                one.extend(other);
                one.sort_unstable();
                one.dedup();
                one
            })),
            (Self::List(one), Self::List(other)) => one.or(*other).list(),
            (Self::Thing(one), Self::Thing(other)) => one.or(other).map_or(Self::Unknown, Self::Thing),
            (Self::Reading(one), Self::Reading(other)) => {
                Self::Reading(if one == other { one } else { None })
            }
            (one, other) => {
                if one == other {
                    one
                } else {
                    Self::Unknown
                }
            }
        }
    }

    /// What messages call it.
    pub(crate) const fn noun(&self) -> &'static str {
        match self {
            Self::Unknown | Self::Never => "something",
            Self::Nothing => "nothing",
            Self::Flag => "a yes or no",
            Self::Count => "a whole number",
            Self::Number => "a number",
            Self::Quantity(_) => "a quantity",
            Self::Text(_) => "a text",
            Self::Letter => "a letter",
            Self::List(_) => "a list",
            Self::Map => "a map",
            Self::Range => "a range",
            Self::Thing(_) => "a part of the build",
            Self::Limits => "the limits",
            Self::Reading(_) => "a reading",
        }
    }

    /// The same, with what a quantity measures.
    pub(crate) fn detailed(&self) -> String {
        match self {
            Self::Quantity(Some(dimension)) => dimension.noun(),
            Self::Thing(sort) => sort.called(),
            other => other.noun().to_owned(),
        }
    }
}
