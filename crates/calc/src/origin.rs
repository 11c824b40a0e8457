//! Where a formula or a figure comes from, and how well it is vouched for.

use std::borrow::Cow;

/// How well something is vouched for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Standing {
    /// Read in a published text.
    Published,
    /// Follows from geometry, statics or another law of nature.
    Derived,
    /// What the trade does; no text was found.
    CommonPractice,
    /// The shop's own.
    Shop,
    /// From memory: nobody looked it up.
    Memory,
    /// Written in the spec or the stock list.
    Written,
}

impl Standing {
    /// As a reader is shown it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Published => "published",
            Self::Derived => "derived",
            Self::CommonPractice => "common practice",
            Self::Shop => "shop",
            Self::Memory => "memory",
            Self::Written => "written",
        }
    }

    /// The standing that a word of a data file means.
    pub fn from_word(word: &str) -> Option<Self> {
        let all = [Self::Published, Self::Derived, Self::CommonPractice, Self::Shop, Self::Memory];
        all.into_iter().find(|standing| standing.word() == word)
    }
}

/// Where a formula or a figure comes from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Origin {
    /// How well it is vouched for.
    pub standing: Standing,
    /// The text and its section, or the law; empty where the standing says it all.
    pub text: Cow<'static, str>,
}

impl Origin {
    /// Written in the spec or the stock list.
    pub const WRITTEN: Self = Self { standing: Standing::Written, text: Cow::Borrowed("") };

    /// Read in a text.
    pub const fn published(text: &'static str) -> Self {
        Self { standing: Standing::Published, text: Cow::Borrowed(text) }
    }

    /// Follows from a law.
    pub const fn derived(text: &'static str) -> Self {
        Self { standing: Standing::Derived, text: Cow::Borrowed(text) }
    }

    /// What the trade does.
    pub const fn practice(text: &'static str) -> Self {
        Self { standing: Standing::CommonPractice, text: Cow::Borrowed(text) }
    }

    /// From memory of a text.
    pub const fn memory(text: &'static str) -> Self {
        Self { standing: Standing::Memory, text: Cow::Borrowed(text) }
    }

    /// In one line, such as `published: 29 CFR 1910.110(b)(19)`.
    pub fn line(&self) -> String {
        if self.text.is_empty() {
            self.standing.word().to_owned()
        } else {
            format!("{}: {}", self.standing.word(), self.text)
        }
    }
}
