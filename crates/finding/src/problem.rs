//! What is wrong with a file that was to be read: a spec, a stock list, a rule, a rulebook.

use crate::Label;

/// One thing wrong with the input, or one to be changed although it is taken as it is plainly meant. Problems are
/// collected, never thrown one at a time.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// Short name of the kind of problem, such as `unknown-key`.
    pub code: &'static str,
    /// Whether the input is taken all the same: then it makes nothing wrong, and no verdict hangs on it.
    pub is_warning: bool,
    /// What is wrong: lower case, no full stop, the user's text in backticks.
    pub message: String,
    /// What to change.
    pub help: Option<String>,
    /// Where. The first label is the place itself; none when the file could not be opened at all.
    pub labels: Vec<Label>,
}

impl Problem {
    /// A problem with no place and no help yet.
    pub fn new(code: &'static str, message: impl Into<String>) -> Self {
        Self { code, is_warning: false, message: message.into(), help: None, labels: Vec::new() }
    }

    /// The same of what is taken all the same.
    pub fn warning(code: &'static str, message: impl Into<String>) -> Self {
        Self { is_warning: true, ..Self::new(code, message) }
    }

    /// How many of them make the input wrong.
    ///
    /// ```
    /// use pintle_finding::Problem;
    ///
    /// let said = [Problem::new("syntax", "no value"), Problem::warning("renamed-rule", "it is `b` now")];
    /// assert_eq!(Problem::count_wrong(&said), 1);
    /// ```
    pub fn count_wrong(problems: &[Self]) -> usize {
        problems.iter().filter(|problem| !problem.is_warning).count()
    }

    /// Whether any of them makes the input wrong.
    pub fn any_wrong(problems: &[Self]) -> bool {
        Self::count_wrong(problems) > 0
    }

    /// Adds a place.
    #[must_use]
    pub fn at(mut self, label: Label) -> Self {
        self.labels.push(label);
        self
    }

    /// Says what to change.
    #[must_use]
    pub fn help(mut self, help: impl Into<String>) -> Self {
        self.help = Some(help.into());
        self
    }
}

/// The name among `known` nearest to `given`, if one is near enough to offer.
///
/// ```
/// assert_eq!(pintle_finding::nearest("gvrw", ["gvwr", "gawr"]), Some("gvwr"));
/// assert_eq!(pintle_finding::nearest("zebra", ["gvwr", "gawr"]), None);
/// ```
pub fn nearest<'a>(given: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let given_low = given.to_lowercase();
    let mut best: Option<(f64, &str)> = None;
    for name in known {
        let mut score = strsim::damerau_levenshtein(&given_low, &name.to_lowercase());
        let longest = given_low.chars().count().max(name.chars().count()).max(1);
        // A name that contains the other is near, however much longer it is.
        if given_low.len() >= 3 && (name.contains(&given_low) || given_low.contains(name)) {
            score = score.min(longest / 3);
        }
        let share = f64::from(u32::try_from(score).unwrap_or(u32::MAX))
            / f64::from(u32::try_from(longest).unwrap_or(u32::MAX));
        if share <= 0.4 && best.is_none_or(|(least, _)| share < least) {
            best = Some((share, name));
        }
    }
    best.map(|(_, name)| name)
}
