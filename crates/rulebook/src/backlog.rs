//! The backlog: findings that were there when an old collection of specs was taken in.
//!
//! They are listed by rule, build and item, never by line, so that a spec may be edited. A finding that is not listed
//! counts; one that is listed and no longer found must be taken off the list. The list can only shrink.

use std::collections::BTreeMap;

use pintle_finding::{Problem, Reading, Verdict};
use pintle_source::{SourceId, Sources, Span, Spanned};
use pintle_spec::node;
use pintle_spec::read::{read, require};

use crate::renamed::Renamed;
use crate::schema::{backlog, known};

/// What a listed finding is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Finds {
    /// A fault.
    Fault,
    /// Something that cannot be judged.
    CannotJudge,
}

impl Finds {
    /// The word it is written as.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Fault => "fault",
            Self::CannotJudge => "cannot judge",
        }
    }

    /// What a reading finds, where that can be listed.
    pub fn of(reading: &Reading) -> Option<Self> {
        match reading.verdict {
            Verdict::Fault => Some(Self::Fault),
            Verdict::CannotJudge => Some(Self::CannotJudge),
            _ => None,
        }
    }
}

/// Which findings are listed together: those of one rule in one build, of one sort.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Entry {
    /// The rule, `pack/rule`.
    pub rule: String,
    /// The build's number.
    pub build: String,
    /// What is found.
    pub finds: Finds,
}

/// What a finding is on, by its path, and where that is listed.
pub type Item = (String, Option<Span>);

/// The list.
#[derive(Debug, Clone, Default)]
pub struct Backlog {
    /// The file's name.
    pub file: String,
    /// On what each entry finds something, sorted, each as often as it does; with its place.
    pub entries: BTreeMap<Entry, Vec<Item>>,
}

/// Reads a backlog, whose rules may be named by ids that they had before; what is wrong with it is in `problems`.
pub fn read_backlog(
    sources: &Sources,
    file: SourceId,
    renamed: &Renamed,
    problems: &mut Vec<Problem>,
) -> Backlog {
    let root = node::parse(sources, file, problems);
    let record = read(&root, &backlog::SCHEMA, "the backlog", problems);
    require(&record, &backlog::SCHEMA, problems);
    let mut list = Backlog { file: sources.name(file).to_owned(), entries: BTreeMap::new() };
    for table in record.tables(&backlog::KNOWN) {
        let (Some(rule), Some(build)) = (table.text(&known::RULE), table.text(&known::BUILD)) else {
            continue;
        };
        let Some(finds) = table.word(&known::FINDS) else { continue };
        let finds = if finds.value == "fault" { Finds::Fault } else { Finds::CannotJudge };
        let mut rule: Spanned<String> = rule.map(str::to_owned);
        renamed.settle(&mut rule, problems);
        let entry = Entry { rule: rule.value, build: build.value.to_owned(), finds };
        let items = table.texts(&known::ITEMS).iter().map(|item| (item.value.clone(), Some(item.span)));
        list.entries.entry(entry).or_default().extend(items);
    }
    for items in list.entries.values_mut() {
        items.sort();
    }
    list
}

impl Backlog {
    /// The entries of one build.
    pub(crate) fn of_build(&self, number: &str) -> Vec<(&Entry, &[Item])> {
        let of = self.entries.iter().filter(|(entry, _)| entry.build == number);
        of.map(|(entry, items)| (entry, items.as_slice())).collect()
    }

    /// The findings listed, each as often as it is found.
    pub fn count(&self) -> usize {
        self.entries.values().map(Vec::len).sum()
    }
}
