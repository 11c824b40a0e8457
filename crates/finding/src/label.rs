//! Words set against a place in a file.

use pintle_quantity::Quantity;
use pintle_source::Span;

/// What a label is there to show.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Role {
    /// Where the fault is.
    Subject,
    /// The limit that is broken.
    Limit,
    /// A value that the reading was worked out from.
    Input,
    /// An item that weighs most in the reading.
    Contributor,
    /// What is missing would stand here.
    Missing,
    /// Where a script failed.
    Script,
}

impl Role {
    /// The word for it in machine-readable output.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Subject => "subject",
            Self::Limit => "limit",
            Self::Input => "input",
            Self::Contributor => "contributor",
            Self::Missing => "missing",
            Self::Script => "script",
        }
    }
}

/// Words set against a place in a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Label {
    /// The place.
    pub span: Span,
    /// The words.
    pub text: String,
    /// What the label shows.
    pub role: Role,
}

impl Label {
    /// A label.
    pub fn new(span: Span, role: Role, text: impl Into<String>) -> Self {
        Self { span, text: text.into(), role }
    }
}

/// A value that a figure was worked out from.
#[derive(Debug, Clone, PartialEq)]
pub struct Input {
    /// What it is, such as "mass of `galley`".
    pub name: String,
    /// Its value.
    pub value: Quantity,
    /// Where it was written; none for a figure of the rulebook's or of nature's.
    pub span: Option<Span>,
}

/// How much of a figure one item is answerable for. The amounts of all contributions add up to the figure.
#[derive(Debug, Clone, PartialEq)]
pub struct Contribution {
    /// The item, such as "`galley`".
    pub name: String,
    /// Its signed part of the figure.
    pub amount: Quantity,
    /// The item's place in the spec.
    pub span: Option<Span>,
}
