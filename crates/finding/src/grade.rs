//! The closed lists: verdicts, grades, stages and bases, with the words they are written in.

/// A closed list of words: enum, every member, its word, and reading it back.
macro_rules! words {
    ($(#[$meta:meta])* $name:ident { $($(#[$doc:meta])* $variant:ident = $word:literal,)+ }) => {
        $(#[$meta])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name { $($(#[$doc])* $variant,)+ }

        impl $name {
            /// Every member, in rising order.
            pub const ALL: &'static [Self] = &[$(Self::$variant,)+];

            /// The word it is written as.
            pub const fn word(self) -> &'static str {
                match self { $(Self::$variant => $word,)+ }
            }

            /// Reads the word.
            pub fn from_word(word: &str) -> Option<Self> {
                match word { $($word => Some(Self::$variant),)+ _ => None }
            }

            /// All words, for messages.
            pub fn all_words() -> Vec<&'static str> {
                Self::ALL.iter().map(|member| member.word()).collect()
            }
        }

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.pad(self.word())
            }
        }
    };
}

pub(crate) use words;

words! {
    /// What a rule found on one subject.
    Verdict {
        /// Judged, and within the limit.
        Pass = "pass",
        /// The rule does not bear on this subject; the reading says why.
        NotApplicable = "not applicable",
        /// Judged, and beyond the limit.
        Fault = "fault",
        /// A value that the rule needs is not given.
        CannotJudge = "cannot judge",
        /// The rule itself failed.
        Broken = "broken",
    }
}

words! {
    /// How grave a fault is: the defect classes of inspection practice (ISO 2859), and advice below them.
    Grade {
        /// Worth knowing; no defect.
        Advice = "advice",
        /// A small departure that does not reduce use.
        Minor = "minor",
        /// Likely to fail, or much less usable.
        Major = "major",
        /// Likely unsafe, or against mandatory law.
        Critical = "critical",
    }
}

words! {
    /// How far a build has come. A rule is judged from its stage on.
    Stage {
        /// Being priced.
        Quote = "quote",
        /// Being drawn.
        Design = "design",
        /// In the shop.
        Build = "build",
        /// About to be handed over.
        Delivery = "delivery",
        /// Came back, changed.
        Service = "service",
    }
}

words! {
    /// Where a figure comes from.
    Basis {
        /// A text that was seen, with its section.
        Published = "published",
        /// A habit of the trade with no source.
        CommonPractice = "common practice",
        /// This shop's own.
        Shop = "shop",
        /// Somebody's memory of a text; to be checked.
        Memory = "memory",
    }
}

impl Verdict {
    /// Whether a reading with this verdict is a finding.
    pub const fn is_finding(self) -> bool {
        matches!(self, Self::Fault | Self::CannotJudge | Self::Broken)
    }
}
