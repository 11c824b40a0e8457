//! One reading: what was measured on what, against what, with what verdict, and why.

use pintle_finding::Accepted;
use pintle_source::Sources;
use serde::Serialize;

use super::{Bound, Label, Margin, Place, Remedy, SetBy, Setting, Tried, Value};
use crate::Look;

/// What one rule measured on one subject.
#[derive(Debug, Serialize)]
pub struct Reading<'a> {
    /// The rule, `pack/rule`.
    pub rule: &'a str,
    /// The rule's title: the fault in a few words.
    pub title: &'a str,
    /// Why the rule matters.
    pub why: &'a str,
    /// The grade in force: `critical`, `major`, `minor` or `advice`.
    pub grade: &'static str,
    /// Who set the grade, when that is not the rule itself.
    pub grade_set_by: Option<SetBy<'a>>,
    /// The stage from which the rule is judged.
    pub from: &'static str,
    /// Who set the stage, when that is not the rule itself.
    pub from_set_by: Option<SetBy<'a>>,
    /// What was judged.
    pub subject: Subject<'a>,
    /// What was measured, such as `tongue share`; empty where nothing was.
    pub what: &'a str,
    /// The value measured.
    pub value: Option<Value>,
    /// The comparison made.
    pub bound: Bound,
    /// The limit's name and grounds.
    pub limit: Limit<'a>,
    /// How far inside the limit the value lies; negative outside. `null` where there is no such distance.
    pub margin: Option<Margin>,
    /// `pass`, `not applicable`, `fault`, `cannot judge` or `broken`.
    pub verdict: &'static str,
    /// The waiver in force that accepts the fault, if one does: it then holds no build.
    pub waived: Option<Waived<'a>>,
    /// Where the backlog lists the finding, if it does: it then holds no build.
    pub backlog: Option<Listed<'a>>,
    /// Why it does not apply, what is missing, or how the rule failed.
    pub reason: Option<&'a str>,
    /// The reading in one sentence, in the units asked for.
    pub sentence: String,
    /// What would put it right.
    pub remedy: Option<&'a str>,
    /// Words set against places in the files, in the order they were given. All of them.
    pub labels: Vec<Label<'a>>,
    /// What the value was worked out from.
    pub inputs: Vec<Input<'a>>,
    /// Which items weigh most in the value, largest first.
    pub contributions: Vec<Contribution<'a>>,
    /// What the contributions add up to, such as `tongue weight`; `null` where there are none.
    pub sum: Option<&'a str>,
    /// Changes of the spec that were tried and clear the fault, cheapest first; `null` where none were sought.
    pub remedies: Option<Vec<Remedy<'a>>>,
    /// What was tried for the fault, in counts; `null` where none were sought.
    pub remedies_tried: Option<Tried<'a>>,
    /// What the rule rests on.
    pub citations: Vec<Citation<'a>>,
}

/// What was judged.
#[derive(Debug, Serialize)]
pub struct Subject<'a> {
    /// Its kind, such as `road state`.
    pub kind: &'a str,
    /// Its name; empty for the build as a whole.
    pub name: &'a str,
    /// What waivers and the backlog call it, such as `item.galley`.
    pub path: &'a str,
    /// Where it stands in the spec.
    pub place: Option<Place<'a>>,
}

/// A waiver that accepts a fault.
#[derive(Debug, Serialize)]
pub struct Waived<'a> {
    /// `deviation`, given before the build, or `concession`, given after.
    pub kind: &'static str,
    /// The last day on which it is in force.
    pub until: &'a str,
    /// Who accepts the fault.
    pub who: &'a str,
    /// Why.
    pub reason: &'a str,
    /// The file's name.
    pub file: &'a str,
    /// Where it stands.
    pub place: Option<Place<'a>>,
    /// Every file that set it, the last of which is in force.
    pub chain: Vec<Setting<'a>>,
}

/// Where a backlog lists a finding.
#[derive(Debug, Serialize)]
pub struct Listed<'a> {
    /// The file's name.
    pub file: &'a str,
    /// Where it stands.
    pub place: Option<Place<'a>>,
}

/// The limit's name and grounds. Its figure stands in the bound.
#[derive(Debug, Serialize)]
pub struct Limit<'a> {
    /// Its name, such as `least`; empty where it has none.
    pub name: &'a str,
    /// Where its figure comes from: `published`, `common practice`, `shop` or `memory`.
    pub basis: Option<&'static str>,
    /// Who set it, when that is not the rule itself.
    pub set_by: Option<SetBy<'a>>,
}

/// A value that a figure was worked out from.
#[derive(Debug, Serialize)]
pub struct Input<'a> {
    /// What it is.
    pub name: &'a str,
    /// Its value.
    pub value: Value,
    /// Where it was written; `null` for a figure of the rulebook's or of nature's.
    pub place: Option<Place<'a>>,
}

/// How much of a figure one item is answerable for.
#[derive(Debug, Serialize)]
pub struct Contribution<'a> {
    /// The item.
    pub name: &'a str,
    /// Its signed part of the figure.
    pub amount: Value,
    /// The item's place in the spec.
    pub place: Option<Place<'a>>,
}

/// A text, a habit or a memory that a rule rests on.
#[derive(Debug, Serialize)]
pub struct Citation<'a> {
    /// What kind of ground it is: `published`, `common practice`, `shop` or `memory`.
    pub basis: &'static str,
    /// The text and its section; empty for common practice.
    pub text: &'a str,
    /// What it says, in the rule author's words.
    pub says: &'a str,
    /// Whom the text binds, when that is somebody else and it is only a yardstick here.
    pub guideline: Option<&'a str>,
}

impl<'a> Citation<'a> {
    pub(crate) fn new(citation: &'a pintle_finding::Citation) -> Self {
        Self {
            basis: citation.basis.word(),
            text: &citation.text,
            says: &citation.says,
            guideline: citation.guideline.as_deref(),
        }
    }
}

impl<'a> Waived<'a> {
    pub(crate) fn new(waived: &'a pintle_finding::Waived, sources: &'a Sources) -> Self {
        Self {
            kind: waived.kind.word(),
            until: &waived.until,
            who: &waived.who,
            reason: &waived.reason,
            file: &waived.file,
            place: waived.span.map(|span| Place::new(span, sources)),
            chain: waived.chain.iter().map(|setting| Setting::new(setting, sources)).collect(),
        }
    }
}

impl<'a> Reading<'a> {
    pub(super) fn new(
        inspection: &'a pintle_finding::Inspection,
        number: usize,
        sources: &'a Sources,
        look: Look,
    ) -> Option<Self> {
        let reading = inspection.readings.get(number)?;
        let (rule, units) = (&*reading.rule, look.units);
        let place = |span: Option<_>| span.map(|span| Place::new(span, sources));
        Some(Self {
            rule: &rule.id,
            title: &rule.title,
            why: &rule.why,
            grade: rule.grade.word(),
            grade_set_by: rule.grade_set_by.as_ref().map(|by| SetBy::new(by, sources)),
            from: rule.from.word(),
            from_set_by: rule.from_set_by.as_ref().map(|by| SetBy::new(by, sources)),
            subject: Subject {
                kind: reading.subject.kind,
                name: &reading.subject.name,
                path: &reading.path,
                place: place(reading.subject.span),
            },
            what: &reading.what,
            value: reading.value.map(|value| Value::new(value, units)),
            bound: Bound::new(&reading.bound, units),
            limit: Limit {
                name: &reading.limit_name,
                basis: reading.limit_basis.map(pintle_finding::Basis::word),
                set_by: reading.limit_set_by.as_ref().map(|by| SetBy::new(by, sources)),
            },
            margin: reading.margin().map(|margin| Margin::new(margin, units)),
            verdict: reading.verdict.word(),
            waived: match &reading.accepted {
                Some(Accepted::Waived(waived)) => Some(Waived::new(waived, sources)),
                _ => None,
            },
            backlog: match &reading.accepted {
                Some(Accepted::Backlog(listed)) => {
                    Some(Listed { file: &listed.file, place: place(listed.span) })
                }
                _ => None,
            },
            reason: reading.reason.as_deref(),
            sentence: reading.sentence(units),
            remedy: reading.remedy.as_deref(),
            labels: reading.labels.iter().map(|label| Label::new(label, sources)).collect(),
            inputs: reading
                .inputs
                .iter()
                .map(|input| Input {
                    name: &input.name,
                    value: Value::new(input.value, units),
                    place: place(input.span),
                })
                .collect(),
            contributions: reading
                .contributions
                .iter()
                .map(|part| Contribution {
                    name: &part.name,
                    amount: Value::new(part.amount, units),
                    place: place(part.span),
                })
                .collect(),
            sum: reading.sum,
            remedies: Remedy::all(inspection, number, units),
            remedies_tried: inspection
                .remedies
                .as_ref()
                .and_then(|remedies| remedies.of(number))
                .map(Tried::new),
            citations: rule.citations.iter().map(Citation::new).collect(),
        })
    }
}
