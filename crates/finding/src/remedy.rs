//! Changes of a spec that were tried, and what they did to the findings: plain data.

use std::cmp::Ordering;
use std::fmt::Write as _;

use pintle_quantity::Quantity;

use crate::Margin;

/// All that was tried on one spec.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Remedies {
    /// Each remedy once: those that make nothing less good first, and of each sort the cheapest first. They are numbered in
    /// this order, from 1.
    pub all: Vec<Remedy>,
    /// What was sought for each fault, in the order of the readings.
    pub sought: Vec<Sought>,
}

impl Remedies {
    /// What was sought for a reading, by its number in the inspection.
    pub fn of(&self, reading: usize) -> Option<&Sought> {
        self.sought.iter().find(|sought| sought.reading == reading)
    }

    /// The remedies for a reading, each with its number, cheapest first: those that were found for it; where there is
    /// none, those that were found for others and clear it too.
    pub fn clearing(&self, reading: usize) -> Vec<(usize, &Remedy, &Cleared)> {
        let all = self.all.iter().enumerate().filter_map(|(at, remedy)| {
            let cleared = remedy.clears.iter().find(|cleared| cleared.reading == reading)?;
            Some((at + 1, remedy, cleared))
        });
        let mut clearing: Vec<_> = all.collect();
        if let Some(sought) = self.of(reading).filter(|sought| !sought.found.is_empty()) {
            clearing.retain(|(number, ..)| sought.found.contains(number));
        }
        clearing
    }
}

/// What was sought for one fault, and why no more was found.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Sought {
    /// The reading, by its number in the inspection.
    pub reading: usize,
    /// The remedies found for it, by their numbers, cheapest first. Those found for other faults may clear it too.
    pub found: Vec<usize>,
    /// Changes that were tried for it.
    pub tried: usize,
    /// Of those, how many left the fault as it is, or not enough better.
    pub not_enough: usize,
    /// Of those, how many brought a fault, or something that cannot be judged, that was not there before, or made another
    /// fault worse.
    pub new_fault: usize,
    /// Of those, how many put a part where it meets another or a wall, or made a spec that cannot be read.
    pub no_room: usize,
    /// Changes that were thought of and not tried, since the number of trials is bounded.
    pub untried: usize,
    /// What kept changes from being thought of, in words.
    pub notes: Vec<String>,
    /// Of the changes that clear the fault and make something else worse the one that does the least harm, where no
    /// remedy was found.
    pub but: Option<But>,
}

/// A change that clears a fault and makes something else worse: no remedy.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct But {
    /// What to do.
    pub words: String,
    /// The rule that then finds something new or worse.
    pub rule: String,
    /// What it finds, in a sentence.
    pub finds: String,
}

/// A change of a spec that was tried: it clears at least one fault, brings none and makes none worse.
#[derive(Debug, Clone, PartialEq)]
pub struct Remedy {
    /// What to do, each step in words, such as "move item `galley` 14 in forward".
    pub steps: Vec<String>,
    /// The same as changes of the spec.
    pub changes: Vec<Change>,
    /// What it takes.
    pub cost: Cost,
    /// The faults that it clears.
    pub clears: Vec<Cleared>,
    /// Faults of arrangements that were hidden behind a state and remain, no worse, each with its rule and the reading in
    /// a sentence.
    pub leaves: Vec<String>,
    /// What it makes less good, each with its rule and the reading in a sentence: advice that gets worse, and readings that
    /// still pass but by less than they could be off by. Nothing else is ever made worse.
    pub worsens: Vec<String>,
}

impl Remedy {
    /// All steps in one line.
    pub fn words(&self) -> String {
        self.steps.join("; and ")
    }
}

/// What a remedy takes. Moving things comes before other changes, and of each sort the least.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Cost {
    /// Mass times distance moved, in kg·m. What is put in or taken off counts as carried the length of the box.
    pub moved: f64,
    /// By how much a stated value changes, as a share of itself; one for what is no number.
    pub changed: f64,
}

impl Cost {
    /// The cost of both.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        Self { moved: self.moved + other.moved, changed: self.changed + other.changed }
    }

    /// Which of two costs less.
    pub fn compare(&self, other: &Self) -> Ordering {
        self.changed.total_cmp(&other.changed).then(self.moved.total_cmp(&other.moved))
    }
}

/// A fault that a remedy clears, and how the reading stands then.
#[derive(Debug, Clone, PartialEq)]
pub struct Cleared {
    /// The reading, by its number in the inspection.
    pub reading: usize,
    /// The value after the change; none where the rule then measures nothing.
    pub value: Option<Quantity>,
    /// How far inside the limit it then lies.
    pub margin: Option<Margin>,
    /// What then holds, in words, where the rule measures nothing.
    pub holds: Option<String>,
    /// Whether it then passes by less than it could be off by, as far as a rule says so.
    pub tight: bool,
    /// Why the rule then does not apply, where it does not.
    pub not_applicable: Option<String>,
}

/// One change of a spec.
#[derive(Debug, Clone, PartialEq)]
pub struct Change {
    /// Keys from the top of the spec; after the name of a list of tables follows the tag or name of one of them.
    pub at: Vec<String>,
    /// The value to write; none to take away what stands there.
    pub to: Option<Written>,
}

impl Change {
    /// Writes a value.
    pub fn set(at: &[&str], to: Written) -> Self {
        Self { at: at.iter().map(|step| (*step).to_owned()).collect(), to: Some(to) }
    }

    /// Takes a value or table away.
    pub fn remove(at: &[&str]) -> Self {
        Self { at: at.iter().map(|step| (*step).to_owned()).collect(), to: None }
    }
}

/// A value as it is written into a spec.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Written {
    /// Text, quantities among it.
    Text(String),
    /// A whole number.
    Count(i64),
    /// True or false.
    Flag(bool),
    /// Values in a row.
    List(Vec<Written>),
    /// Keys and values.
    Table(Vec<(String, Written)>),
}

impl Written {
    /// As TOML writes it in one line.
    ///
    /// ```
    /// use pintle_finding::Written;
    ///
    /// let place = Written::Table(vec![("front".to_owned(), Written::Text("3 in".to_owned()))]);
    /// assert_eq!(place.toml(), "{ front = \"3 in\" }");
    /// ```
    pub fn toml(&self) -> String {
        match self {
            Self::Text(text) => quoted(text),
            Self::Count(count) => count.to_string(),
            Self::Flag(flag) => flag.to_string(),
            Self::List(list) => {
                format!("[{}]", list.iter().map(Self::toml).collect::<Vec<_>>().join(", "))
            }
            Self::Table(entries) if entries.is_empty() => "{}".to_owned(),
            Self::Table(entries) => {
                let entry =
                    |(key, value): &(String, Self)| format!("{} = {}", bare_or_quoted(key), value.toml());
                format!("{{ {} }}", entries.iter().map(entry).collect::<Vec<_>>().join(", "))
            }
        }
    }
}

fn bare_or_quoted(key: &str) -> String {
    let bare = |letter: char| letter.is_ascii_alphanumeric() || matches!(letter, '-' | '_');
    if !key.is_empty() && key.chars().all(bare) { key.to_owned() } else { quoted(key) }
}

/// A basic string of TOML 1.0: quotes, backslashes and control characters escaped.
fn quoted(text: &str) -> String {
    let mut quoted = String::from("\"");
    for letter in text.chars() {
        match letter {
            '"' => quoted.push_str("\\\""),
            '\\' => quoted.push_str("\\\\"),
            letter if letter.is_control() => {
                let _ = write!(quoted, "\\u{:04X}", u32::from(letter));
            }
            letter => quoted.push(letter),
        }
    }
    quoted.push('"');
    quoted
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_least_to_move_comes_first_and_other_changes_after_it() {
        let cost = |moved, changed| Cost { moved, changed };
        let mut costs = [cost(0.0, 0.5), cost(9.0, 0.0), cost(2.0, 0.1), cost(0.0, 0.1), cost(1.0, 0.0)];
        costs.sort_by(Cost::compare);
        assert_eq!(costs, [cost(1.0, 0.0), cost(9.0, 0.0), cost(0.0, 0.1), cost(2.0, 0.1), cost(0.0, 0.5)]);
    }

    #[test]
    fn values_are_written_as_toml_reads_them() {
        let text = |text: &str| Written::Text(text.to_owned());
        assert_eq!(text("a \"b\" \\ \u{1b}").toml(), "\"a \\\"b\\\" \\\\ \\u001B\"");
        assert_eq!(
            Written::List(vec![text("a"), Written::Count(-2), Written::Flag(true)]).toml(),
            "[\"a\", -2, true]"
        );
        let table = vec![("night, two".to_owned(), Written::Table(Vec::new()))];
        assert_eq!(Written::Table(table).toml(), "{ \"night, two\" = {} }");
    }
}
