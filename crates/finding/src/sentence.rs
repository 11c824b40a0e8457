//! A reading in one sentence, the same in every output.

use std::fmt::Write as _;

use pintle_quantity::{Units, show_apart};

use crate::{Bound, Reading, Verdict};

impl Reading {
    /// The reading as a sentence without its full stop, such as
    /// "tongue share of road state `homeward` is 8.1 %, less than 10 % (least)".
    pub fn sentence(&self, units: Units) -> String {
        let mut text = String::new();
        match self.verdict {
            Verdict::Pass | Verdict::Fault => self.judged(units, &mut text),
            Verdict::NotApplicable => {
                let _ =
                    write!(text, "{}does not apply: {}", self.opening(), self.reason_or("no reason given"));
            }
            Verdict::CannotJudge => {
                let _ = write!(
                    text,
                    "{}cannot be judged: {}",
                    self.opening(),
                    self.reason_or("a value is missing")
                );
            }
            Verdict::Broken => {
                let _ = write!(
                    text,
                    "the rule failed{}: {}",
                    self.of_subject(" on "),
                    self.reason_or("no reason given")
                );
            }
        }
        text
    }

    fn judged(&self, units: Units, text: &mut String) {
        let pass = self.verdict == Verdict::Pass;
        let named = |bound: &str| match self.limit_name.as_str() {
            "" => bound.to_owned(),
            name => format!("{bound} ({name})"),
        };
        let Some(value) = self.value else {
            if let Bound::Holds(condition) = &self.bound {
                let _ = write!(text, "{}{}{condition}", self.opening(), if pass { "" } else { "not so: " });
            }
            return;
        };
        let opening = self.opening();
        match &self.bound {
            Bound::AtLeast(limit) => {
                let (shown, bound) = show_apart(value, *limit, units);
                let relation = if pass { "at least" } else { "less than" };
                let _ = write!(text, "{opening}is {shown}, {relation} {}", named(&bound));
            }
            Bound::AtMost(limit) => {
                let (shown, bound) = show_apart(value, *limit, units);
                let relation = if pass { "at most" } else { "more than" };
                let _ = write!(text, "{opening}is {shown}, {relation} {}", named(&bound));
            }
            Bound::Between(least, most) => {
                let (shown, low) = show_apart(value, *least, units);
                let (finer, high) = show_apart(value, *most, units);
                let shown = if finer.len() > shown.len() { finer } else { shown };
                let relation = if pass { "within" } else { "outside" };
                let _ = write!(text, "{opening}is {shown}, {relation} {low} to {high}");
            }
            Bound::Equal(to) => {
                let (shown, bound) = show_apart(value, *to, units);
                let relation = if pass { "equal to" } else { "not equal to" };
                let _ = write!(text, "{opening}is {shown}, {relation} {}", named(&bound));
            }
            Bound::Holds(condition) => {
                let _ = write!(
                    text,
                    "{opening}is {}: {}{condition}",
                    value.show(units),
                    if pass { "" } else { "not so: " }
                );
            }
            Bound::None => {
                let _ = write!(text, "{opening}is {}", value.show(units));
            }
        }
    }

    fn opening(&self) -> String {
        match (self.what.is_empty(), self.subject.name.is_empty()) {
            (true, true) => String::new(),
            (true, false) => format!("{}: ", self.of_subject("").trim_start()),
            (false, true) => format!("{} ", self.what),
            (false, false) => format!("{}{} ", self.what, self.of_subject(" of ")),
        }
    }

    fn of_subject(&self, link: &str) -> String {
        if self.subject.name.is_empty() {
            return String::new();
        }
        format!("{link}{}", self.subject.called())
    }

    fn reason_or<'a>(&'a self, otherwise: &'a str) -> &'a str {
        self.reason.as_deref().unwrap_or(otherwise)
    }
}
