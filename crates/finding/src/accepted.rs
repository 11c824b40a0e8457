//! Findings that stay visible and stop no build: waived ones, and those of the backlog.

use std::sync::Arc;

use pintle_source::Span;

use crate::Setting;

/// What a finding is accepted by.
#[derive(Debug, Clone, PartialEq)]
pub enum Accepted {
    /// A waiver in force.
    Waived(Arc<Waived>),
    /// The list of findings that were there when the specs were taken in.
    Backlog(Listed),
}

impl Accepted {
    /// The word for it in every output.
    pub const fn word(&self) -> &'static str {
        match self {
            Self::Waived(_) => "waived",
            Self::Backlog(_) => "backlog",
        }
    }
}

/// Where a backlog lists a finding.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Listed {
    /// The file's name.
    pub file: String,
    /// Where it stands.
    pub span: Option<Span>,
}

/// A waiver in force, as findings show it.
#[derive(Debug, Clone, PartialEq)]
pub struct Waived {
    /// Whether it was given before the build or after.
    pub kind: WaiverKind,
    /// Why.
    pub reason: String,
    /// Who accepts the fault.
    pub who: String,
    /// The last day on which it is in force, as in 2026-12-31.
    pub until: String,
    /// The file's name.
    pub file: String,
    /// Where it stands.
    pub span: Option<Span>,
    /// Every file that set it, the last of which is in force.
    pub chain: Vec<Setting>,
}

/// When a waiver is given (ISO 9000).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum WaiverKind {
    /// Before the build: it may be built so.
    Deviation,
    /// After the build: what was built may be used so.
    Concession,
}

impl WaiverKind {
    /// The word it is written as.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Deviation => "deviation",
            Self::Concession => "concession",
        }
    }

    /// Reads the word.
    pub fn from_word(word: &str) -> Option<Self> {
        [Self::Deviation, Self::Concession].into_iter().find(|kind| kind.word() == word)
    }
}
