//! A rule explained for machines: what it judges, what is in force, and everybody who set it.

use pintle_finding::{Basis, Rule, SetBy, Waived};
use pintle_quantity::Quantity;
use pintle_source::{Sources, Span};
use serde::Serialize;

use crate::json::{self, Place, Value};
use crate::{Look, safe};

/// The name every document opens with.
pub const FORMAT: &str = "pintle-rule";

/// The version of the format. It rises when a key changes its meaning or goes; a new key does not raise it.
pub const VERSION: u32 = 1;

/// A rule with what is in force of it.
#[derive(Debug)]
pub struct Explained<'e> {
    /// The rule in force.
    pub rule: &'e Rule,
    /// Ids that it had before.
    pub was: Vec<&'e str>,
    /// What it judges.
    pub judges: &'e str,
    /// Whether a shop may accept its faults.
    pub waivable: bool,
    /// Its limits in force.
    pub limits: Vec<LimitInForce<'e>>,
    /// The waivers of its faults.
    pub waivers: Vec<WaiverOf<'e>>,
    /// Its trials: what is tried, and what must be said of it.
    pub trials: Vec<(&'e str, &'static str)>,
    /// The files that it is in; none for one of the tool's own.
    pub files: Vec<&'e str>,
}

/// A limit in force.
#[derive(Debug)]
pub struct LimitInForce<'e> {
    /// Its name.
    pub name: &'e str,
    /// Its value.
    pub value: Quantity,
    /// Where the figure comes from.
    pub basis: Basis,
    /// What a reader should know of it.
    pub note: Option<&'e str>,
    /// Who set it, when that is not the rule itself.
    pub set_by: Option<&'e SetBy>,
    /// Where the value in force stands.
    pub span: Option<Span>,
}

/// A waiver of the rule's faults.
#[derive(Debug)]
pub struct WaiverOf<'e> {
    /// What it is waived on; all of a build where there is none.
    pub item: Option<&'e str>,
    /// The builds that it is for; none where it is for all that have the item.
    pub builds: Vec<&'e str>,
    /// Whether its last day is past.
    pub has_run_out: bool,
    /// Whether the rule may be waived.
    pub allowed: bool,
    /// The waiver itself.
    pub waived: &'e Waived,
}

#[derive(Serialize)]
struct Document<'e> {
    format: &'static str,
    version: u32,
    rule: &'e str,
    was: &'e [&'e str],
    title: &'e str,
    why: &'e str,
    judges: &'e str,
    grade: &'static str,
    grade_set_by: Option<json::SetBy<'e>>,
    from: &'static str,
    from_set_by: Option<json::SetBy<'e>>,
    waivable: bool,
    limits: Vec<Limit<'e>>,
    waivers: Vec<Waiver<'e>>,
    citations: Vec<json::Citation<'e>>,
    trials: Vec<Trial<'e>>,
    files: &'e [&'e str],
}

#[derive(Serialize)]
struct Limit<'e> {
    name: &'e str,
    value: Value,
    basis: &'static str,
    note: Option<&'e str>,
    place: Option<Place<'e>>,
    set_by: Option<json::SetBy<'e>>,
}

#[derive(Serialize)]
struct Waiver<'e> {
    item: Option<&'e str>,
    builds: &'e [&'e str],
    expired: bool,
    allowed: bool,
    #[serde(flatten)]
    waived: json::Waived<'e>,
}

#[derive(Serialize)]
struct Trial<'e> {
    name: &'e str,
    expect: &'static str,
}

/// The document as text, laid out in lines and closed with a line end.
pub fn json(explained: &Explained<'_>, sources: &Sources, look: &Look) -> String {
    let rule = explained.rule;
    let limits = explained.limits.iter().map(|limit| Limit {
        name: limit.name,
        value: Value::new(limit.value, look.units),
        basis: limit.basis.word(),
        note: limit.note,
        place: limit.span.map(|span| Place::new(span, sources)),
        set_by: limit.set_by.map(|by| json::SetBy::new(by, sources)),
    });
    let waivers = explained.waivers.iter().map(|waiver| Waiver {
        item: waiver.item,
        builds: &waiver.builds,
        expired: waiver.has_run_out,
        allowed: waiver.allowed,
        waived: json::Waived::new(waiver.waived, sources),
    });
    let document = Document {
        format: FORMAT,
        version: VERSION,
        rule: &rule.id,
        was: &explained.was,
        title: &rule.title,
        why: &rule.why,
        judges: explained.judges,
        grade: rule.grade.word(),
        grade_set_by: rule.grade_set_by.as_ref().map(|by| json::SetBy::new(by, sources)),
        from: rule.from.word(),
        from_set_by: rule.from_set_by.as_ref().map(|by| json::SetBy::new(by, sources)),
        waivable: explained.waivable,
        limits: limits.collect(),
        waivers: waivers.collect(),
        citations: rule.citations.iter().map(json::Citation::new).collect(),
        trials: explained.trials.iter().map(|(name, expect)| Trial { name, expect }).collect(),
        files: &explained.files,
    };
    // Names are the only keys and every value can be written, so this does not fail.
    let text = serde_json::to_string_pretty(&document)
        .unwrap_or_else(|error| format!("the document could not be written: {error}"));
    safe::json(text + "\n")
}
