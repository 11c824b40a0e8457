//! Ties the tags of `[gas]` and of exhausts to the parts they name, and the lines to each other.

use std::collections::BTreeMap;

use pintle_finding::{Label, Problem, Role};
use pintle_source::{Span, Spanned};

use super::items::Fitted;
use super::only_one;
use super::tags::{Sort, Tags};
use crate::build::Table;
use crate::read::list;
use crate::record::{Record, Value};
use crate::say::{full, near, shown};
use crate::schema::gas::{self, line};
use crate::schema::kinds::vent;

/// Says of tags that name nothing or the wrong thing, of lines that begin at nothing, and of an appliance on two lines.
pub(super) fn check(gas: Option<&Record>, fitted: &Fitted, problems: &mut Vec<Problem>) {
    for item in fitted.items.iter().filter(|item| item.table == Table::Vent) {
        if full(problems) {
            return;
        }
        if let Some(tag) = item.record.text(&vent::EXHAUST_OF) {
            let what = format!("`{}` of {}", vent::EXHAUST_OF.key, item.called());
            Tags { fitted, what: &what }.find(tag.value, tag.span, Sort::Appliance, problems);
        }
    }
    let Some(gas) = gas else { return };
    let connected = gas.texts(&gas::CONNECTED);
    Tags { fitted, what: "`connected` of the gas system" }.find_all(connected, Sort::Cylinder, problems);
    let lines = gas.tables(&gas::LINES);
    let mut names = BTreeMap::new();
    let mut fed: BTreeMap<&str, Span> = BTreeMap::new();
    for record in lines {
        if full(problems) {
            return;
        }
        if let Some(name) = record.text(&line::NAME) {
            only_one(&name.map(str::to_owned), "line name", &mut names, problems);
            refuse_source_as_name(name, problems);
        }
        let what = called(record);
        for tag in record.texts(&line::TO) {
            if let Some(first) = fed.get(tag.value.as_str()) {
                problems.push(hangs_twice(tag, *first));
                continue;
            }
            fed.insert(tag.value.as_str(), tag.span);
            Tags { fitted, what: &what }.find(&tag.value, tag.span, Sort::Appliance, problems);
        }
    }
    let lines_by_name = by_name(lines);
    for record in lines {
        if full(problems) {
            return;
        }
        check_source(record, lines, &lines_by_name, problems);
    }
}

/// How messages call a line.
fn called(record: &Record) -> String {
    match record.text(&line::NAME) {
        Some(name) => format!("line `{}`", shown(name.value)),
        None => "a gas line".to_owned(),
    }
}

/// The gas system with each line called by its name, so that what is missing of it says of which.
pub(super) fn with_names(gas: &Record) -> Record {
    let mut named = gas.clone();
    if let Some(Spanned { value: Value::Tables(lines), span }) = gas.value(gas::LINES.key) {
        let rename = |record: &Record| {
            let mut renamed = record.clone();
            renamed.rename(&called(record));
            renamed
        };
        named.set(&gas::LINES, Spanned::new(Value::Tables(lines.iter().map(rename).collect()), *span));
    }
    named
}

fn hangs_twice(tag: &Spanned<String>, first: Span) -> Problem {
    Problem::new("named-twice", format!("`{}` is at the end of two gas lines", shown(&tag.value)))
        .at(Label::new(tag.span, Role::Subject, "named again here"))
        .at(Label::new(first, Role::Subject, "named here"))
        .help("leave it out of one of them; an appliance hangs on one line")
}

fn refuse_source_as_name(name: Spanned<&str>, problems: &mut Vec<Problem>) {
    if line::SOURCES.contains(&name.value) {
        problems.push(
            Problem::new("wrong-name", format!("a line cannot be called `{}`", name.value))
                .at(Label::new(name.span, Role::Subject, "a word for what lines begin at"))
                .help("give it another name"),
        );
    }
}

/// The most lines that may follow one another.
const LONGEST_WAY: usize = 64;

/// Lines by name; of two with one name, the first.
fn by_name(lines: &[Record]) -> BTreeMap<&str, &Record> {
    let mut named = BTreeMap::new();
    for record in lines {
        if let Some(name) = record.text(&line::NAME) {
            named.entry(name.value).or_insert(record);
        }
    }
    named
}

/// A line must lead back to the cylinder or the regulator.
fn check_source(
    record: &Record,
    lines: &[Record],
    named: &BTreeMap<&str, &Record>,
    problems: &mut Vec<Problem>,
) {
    let Some(from) = record.text(&line::FROM) else { return };
    let mut at = from;
    for _ in 0..=LONGEST_WAY {
        if line::SOURCES.contains(&at.value) {
            return;
        }
        match named.get(at.value) {
            // A line further up that begins at nothing is said by itself.
            None if at.span != from.span => return,
            None => return problems.push(unknown_source(record, from, lines, problems.len())),
            Some(before) => match before.text(&line::FROM) {
                Some(next) => at = next,
                None => return,
            },
        }
    }
    problems.push(loops(record, from.span));
}

fn unknown_source(record: &Record, from: Spanned<&str>, lines: &[Record], said: usize) -> Problem {
    let names = || {
        let named = lines.iter().filter_map(|record| record.text(&line::NAME)).map(|name| name.value);
        line::SOURCES.iter().copied().chain(named)
    };
    let help = match near(from.value, names(), said) {
        Some(near) => format!("did you mean `{}`?", shown(near)),
        None => format!("a line begins at {}", list(names())),
    };
    Problem::new(
        "unknown-line",
        format!("{} begins at `{}`, and nothing is called so", called(record), shown(from.value)),
    )
    .at(Label::new(from.span, Role::Subject, "no line has this name"))
    .help(help)
}

fn loops(record: &Record, span: Span) -> Problem {
    Problem::new("line-loop", format!("{} leads back to no cylinder and no regulator", called(record)))
        .at(Label::new(span, Role::Subject, "part of a loop, or of a chain without end"))
        .help("let one of the lines begin at `regulator` or `cylinder`")
}
