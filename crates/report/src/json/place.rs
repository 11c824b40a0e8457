//! Places in files.

use pintle_source::{Location, Sources, Span};
use serde::Serialize;

/// A run of characters in one file. Lines and columns count from 1; columns count characters.
#[derive(Debug, Serialize)]
pub struct Place<'a> {
    /// The file's name.
    pub file: &'a str,
    /// The first character.
    pub start: Point,
    /// One past the last character.
    pub end: Point,
}

/// A line and a column.
#[derive(Debug, Serialize)]
pub struct Point {
    /// Line, from 1.
    pub line: u32,
    /// Column in characters, from 1.
    pub column: u32,
}

/// Words set against a place.
#[derive(Debug, Serialize)]
pub struct Label<'a> {
    /// The place.
    #[serde(flatten)]
    pub place: Place<'a>,
    /// What it shows: `subject`, `limit`, `input`, `contributor`, `missing` or `script`.
    pub role: &'static str,
    /// The words.
    pub text: &'a str,
}

/// Which file set a value in force, and why.
#[derive(Debug, Serialize)]
pub struct SetBy<'a> {
    /// The file's name.
    pub file: &'a str,
    /// The author's reason.
    pub reason: &'a str,
    /// The value it replaced, in words.
    pub was: &'a str,
    /// Where it stands.
    pub place: Option<Place<'a>>,
    /// Every file that set it, from the rule itself to the one in force.
    pub chain: Vec<Setting<'a>>,
}

/// One file's setting of a value.
#[derive(Debug, Serialize)]
pub struct Setting<'a> {
    /// The file's name.
    pub file: &'a str,
    /// The value, in words.
    pub value: &'a str,
    /// The author's reason; of the rule itself what a reader should know of the value, or `null`.
    pub reason: Option<&'a str>,
    /// Where it stands.
    pub place: Option<Place<'a>>,
}

impl<'a> Setting<'a> {
    pub(crate) fn new(setting: &'a pintle_finding::Setting, sources: &'a Sources) -> Self {
        Self {
            file: &setting.file,
            value: &setting.value,
            reason: setting.reason.as_deref(),
            place: setting.span.map(|span| Place::new(span, sources)),
        }
    }
}

impl From<Location> for Point {
    fn from(at: Location) -> Self {
        Self { line: at.line, column: at.column }
    }
}

impl<'a> Place<'a> {
    pub(crate) fn new(span: Span, sources: &'a Sources) -> Self {
        let end = Span { start: span.end, ..span };
        Self {
            file: sources.name(span.source),
            start: sources.locate(span).into(),
            end: sources.locate(end).into(),
        }
    }
}

impl<'a> Label<'a> {
    pub(super) fn new(label: &'a pintle_finding::Label, sources: &'a Sources) -> Self {
        Self { place: Place::new(label.span, sources), role: label.role.word(), text: &label.text }
    }
}

impl<'a> SetBy<'a> {
    pub(crate) fn new(by: &'a pintle_finding::SetBy, sources: &'a Sources) -> Self {
        let place = by.span.map(|span| Place::new(span, sources));
        let chain = by.chain.iter().map(|setting| Setting::new(setting, sources)).collect();
        Self { file: &by.file, reason: &by.reason, was: &by.was, place, chain }
    }
}
