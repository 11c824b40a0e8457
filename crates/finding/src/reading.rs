//! What one rule measured on one subject.

use std::sync::Arc;

use pintle_quantity::Quantity;
use pintle_source::Span;

use crate::{Accepted, Basis, Contribution, Grade, Input, Label, Stage, Verdict};

/// The facts of a rule that every one of its readings shares.
#[derive(Debug, Clone, PartialEq)]
pub struct Rule {
    /// `pack/rule`, such as `towing/light-tongue`.
    pub id: String,
    /// The fault in a few words.
    pub title: String,
    /// Why it matters, in a sentence.
    pub why: String,
    /// What it judges, one at a time, in the word of its file, such as `road state` or `gas/burn_time`.
    pub judges: String,
    /// The grade in force.
    pub grade: Grade,
    /// Who set the grade, when that is not the rule itself.
    pub grade_set_by: Option<SetBy>,
    /// Judged from this stage on.
    pub from: Stage,
    /// Who set the stage, when that is not the rule itself.
    pub from_set_by: Option<SetBy>,
    /// What the rule rests on.
    pub citations: Vec<Citation>,
    /// Whether it is one of the tool's own, on the rulebook rather than on a trailer.
    pub kept: bool,
}

/// A text, a habit or a memory that a rule rests on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Citation {
    /// What kind of ground it is.
    pub basis: Basis,
    /// The text and its section, such as "49 CFR 571.110 S4.2.2"; empty for common practice.
    pub text: String,
    /// What it says, in our words.
    pub says: String,
    /// Set when the text binds somebody else, such as commercial carriers: whom it binds.
    pub guideline: Option<String>,
}

/// Which file set a value in force, and why.
#[derive(Debug, Clone, PartialEq)]
pub struct SetBy {
    /// The file's name.
    pub file: String,
    /// The author's reason.
    pub reason: String,
    /// The value it replaced, in words.
    pub was: String,
    /// Where it stands.
    pub span: Option<Span>,
    /// Every file that set it, from the rule itself to the one in force.
    pub chain: Arc<[Setting]>,
}

/// One file's setting of a value.
#[derive(Debug, Clone, PartialEq)]
pub struct Setting {
    /// The file's name.
    pub file: String,
    /// The value, in words.
    pub value: String,
    /// The value itself, where it is a quantity.
    pub quantity: Option<Quantity>,
    /// The author's reason; what a reader should know of it, where it is the rule's own.
    pub reason: Option<String>,
    /// Where it stands.
    pub span: Option<Span>,
}

impl SetBy {
    /// A setting over whatever set the value before: `own` is the rule's own, where nobody did.
    pub fn over(under: Option<&Self>, own: impl FnOnce() -> Setting, setting: Setting) -> Self {
        let mut chain = under.map_or_else(|| vec![own()], |under| under.chain.to_vec());
        let was = chain.last().map(|last| last.value.clone()).unwrap_or_default();
        chain.push(setting.clone());
        Self {
            file: setting.file,
            reason: setting.reason.unwrap_or_default(),
            was,
            span: setting.span,
            chain: chain.into(),
        }
    }

    /// The value that the rule itself has, in words.
    pub fn own(&self) -> &str {
        self.chain.first().map_or(self.was.as_str(), |first| first.value.as_str())
    }
}

/// What was judged: one state, item, vent, or the build.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Subject {
    /// Its kind, such as "road state".
    pub kind: &'static str,
    /// Its name, such as the state's name or the item's tag; empty for the build as a whole.
    pub name: String,
    /// Where it stands in the spec.
    pub span: Option<Span>,
}

/// The kind of a subject that is a figure of a part of a part, such as of one foot of a rack: its name says all.
pub const FIGURE: &str = "figure";

impl Subject {
    /// How messages call it, such as "item `galley`"; empty for the build as a whole.
    pub fn called(&self) -> String {
        match (self.kind, self.name.as_str()) {
            (_, "") => String::new(),
            (FIGURE, name) => name.to_owned(),
            (kind, name) => format!("{kind} `{name}`"),
        }
    }
}

/// The comparison that was made.
#[derive(Debug, Clone, PartialEq)]
pub enum Bound {
    /// The value must be at least this.
    AtLeast(Quantity),
    /// The value must be at most this.
    AtMost(Quantity),
    /// The value must lie between these two, both included.
    Between(Quantity, Quantity),
    /// The value must equal this.
    Equal(Quantity),
    /// A condition with no number, in words that say what holds when all is well.
    Holds(String),
    /// Nothing was compared: not applicable, cannot judge, or broken.
    None,
}

/// How far a value lies inside its limit; negative when it lies outside.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Margin {
    /// In the value's own dimension.
    pub amount: Quantity,
    /// As a share of the limit; none when the limit is zero.
    pub share: Option<f64>,
}

/// What one rule measured on one subject. Every judgement leaves one, pass or fault.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// The rule.
    pub rule: Arc<Rule>,
    /// What was judged.
    pub subject: Subject,
    /// What waivers and the backlog call the subject, such as `item.galley`, `state.homeward` or `build`.
    pub path: String,
    /// What was measured, such as "tongue share"; empty where nothing was.
    pub what: String,
    /// The value measured.
    pub value: Option<Quantity>,
    /// The comparison made.
    pub bound: Bound,
    /// The name of the limit, such as "least" or "gvwr".
    pub limit_name: String,
    /// Where the limit's figure comes from.
    pub limit_basis: Option<Basis>,
    /// Who set the limit, when that is not the rule itself.
    pub limit_set_by: Option<SetBy>,
    /// The verdict.
    pub verdict: Verdict,
    /// What the finding is accepted by, where it is: it then stops no build.
    pub accepted: Option<Accepted>,
    /// Why it does not apply, what is missing, or how the rule failed.
    pub reason: Option<String>,
    /// What would put it right, in words.
    pub remedy: Option<String>,
    /// Words set against places in the files. Filled for findings.
    pub labels: Vec<Label>,
    /// What the value was worked out from.
    pub inputs: Vec<Input>,
    /// Which items weigh most in the value, largest first.
    pub contributions: Vec<Contribution>,
    /// What the contributions add up to, such as "tongue weight"; none where there are none.
    pub sum: Option<&'static str>,
}

impl Reading {
    /// The grade this finding counts at.
    pub fn grade(&self) -> Grade {
        self.rule.grade
    }

    /// Whether it is a finding at or above a grade that nobody has accepted.
    pub fn holds(&self, hold: Grade) -> bool {
        self.verdict.is_finding() && self.accepted.is_none() && self.grade() >= hold
    }

    /// How far inside the limit the value lies. For a band, the nearer end counts.
    pub fn margin(&self) -> Option<Margin> {
        let value = self.value?;
        let to = |limit: Quantity, amount: Quantity| Margin {
            amount: amount.with_unit_of(value),
            share: (limit.si() != 0.0).then(|| amount.si() / limit.si().abs()),
        };
        let above = |limit: Quantity| Some(to(limit, value.try_sub(limit).ok()?));
        let below = |limit: Quantity| Some(to(limit, limit.try_sub(value).ok()?));
        match &self.bound {
            Bound::AtLeast(limit) => above(*limit),
            Bound::AtMost(limit) => below(*limit),
            Bound::Between(least, most) => {
                let (low, high) = (above(*least)?, below(*most)?);
                Some(if low.amount.si() <= high.amount.si() { low } else { high })
            }
            Bound::Equal(_) | Bound::Holds(_) | Bound::None => None,
        }
    }
}
