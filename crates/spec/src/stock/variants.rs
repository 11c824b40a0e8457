//! Parts that are variants of others: each over the one it names.

use std::collections::BTreeMap;

use pintle_finding::{Label, Problem, Role};

use super::written::{OWN_KEYS, Written};
use super::{KINDS, Part, PartKind, kind_named, unknown_part, what_any_kind_knows};
use crate::node::{Node, NodeValue};
use crate::read::{list, read};
use crate::record::Record;
use crate::say::{a, full, shown};
use crate::schema::item;

/// The most parts that may be variants of one another in a row.
const LONGEST_ROW: usize = 16;

/// How far a part has come.
enum Built {
    /// Not looked at.
    Open,
    /// On the way that is being followed.
    Here,
    /// Built, or refused; after so many others in a row.
    Done(Option<Part>, usize),
}

/// What a part is a variant of.
enum Base {
    /// It is not a variant.
    None,
    /// A part that is not in stock, or one of a loop, or one too many: said already.
    Refused,
    /// Another part, at an index.
    At(usize),
}

/// Builds every part over the one that it is a variant of. Of two with the same name, the first is kept.
pub(super) fn build_all(
    written: &[Written<'_>],
    by_name: &BTreeMap<&str, usize>,
    problems: &mut Vec<Problem>,
) -> BTreeMap<String, Part> {
    let mut built: Vec<Built> = written.iter().map(|_| Built::Open).collect();
    for start in 0..written.len() {
        if full(problems) {
            break;
        }
        build_row(start, written, by_name, &mut built, problems);
    }
    let mut parts = BTreeMap::new();
    for (at, built) in built.into_iter().enumerate() {
        if let Built::Done(Some(part), _) = built {
            let name = part.name.value.clone();
            if !name.is_empty() && by_name.get(name.as_str()) == Some(&at) {
                parts.insert(name, part);
            }
        }
    }
    parts
}

/// Builds a part, and before it those that it is a variant of.
fn build_row(
    start: usize,
    written: &[Written<'_>],
    by_name: &BTreeMap<&str, usize>,
    built: &mut [Built],
    problems: &mut Vec<Problem>,
) {
    let mut way: Vec<(usize, Base)> = Vec::new();
    let mut at = start;
    while let (Some(part), Some(state @ Built::Open)) = (written.get(at), built.get_mut(at)) {
        *state = Built::Here;
        let Some(named) = &part.part else {
            way.push((at, Base::None));
            break;
        };
        match by_name.get(named.value.as_str()) {
            None => {
                let known = by_name.keys().copied().filter(|name| !name.is_empty());
                problems.push(unknown_part(&named.value, named.span, known, problems.len()));
                way.push((at, Base::Refused));
                break;
            }
            Some(base) if matches!(built.get(*base), Some(Built::Here)) => {
                let row = way.iter().map(|(member, _)| *member).chain([at]);
                let looped = row.skip_while(|member| member != base).filter_map(|member| written.get(member));
                problems.push(stock_loop(looped, &named.value, named.span));
                way.push((at, Base::Refused));
                break;
            }
            Some(base) => {
                way.push((at, Base::At(*base)));
                at = *base;
            }
        }
    }
    for (at, base) in way.into_iter().rev() {
        let Some(part) = written.get(at) else { continue };
        let (base, refused, row) = match base {
            Base::None => (None, part.unread, 0),
            Base::Refused => (None, true, 0),
            Base::At(base) => match built.get(base) {
                Some(Built::Done(Some(base), row)) => (Some(base), false, row + 1),
                // What is refused has been said, and so what builds on it is not counted.
                _ => (None, true, 0),
            },
        };
        if row == LONGEST_ROW {
            problems.push(too_long(part));
        }
        let done = if row >= LONGEST_ROW { None } else { build_part(part, base, refused, problems) };
        if let Some(state) = built.get_mut(at) {
            *state = Built::Done(done, row);
        }
    }
}

fn stock_loop<'w>(
    row: impl Iterator<Item = &'w Written<'w>>,
    name: &str,
    span: pintle_source::Span,
) -> Problem {
    let mut row: Vec<String> = row.map(|part| format!("`{}`", shown(&part.name.value))).collect();
    let others = row.len();
    row.truncate(LONGEST_ROW);
    if row.len() < others {
        row.push("…".to_owned());
    }
    let name = shown(name);
    let message = format!("stock part `{name}` refers to itself: {} → `{name}`", row.join(" → "));
    Problem::new("stock-loop", message)
        .at(Label::new(span, Role::Subject, "closes the loop"))
        .help("name the part it is a variant of, or state its `kind` and all its fields")
}

fn too_long(part: &Written<'_>) -> Problem {
    let message = format!(
        "stock part `{}` is a variant of more than {} others in a row",
        shown(&part.name.value),
        LONGEST_ROW - 1
    );
    Problem::new("stock-loop", message)
        .at(Label::new(part.part.as_ref().unwrap_or(&part.name).span, Role::Subject, "one too many"))
        .help("state its `kind` and all its fields")
}

/// A part over its base. `refused` says that its base could not be read.
fn build_part(
    part: &Written<'_>,
    base: Option<&Part>,
    refused: bool,
    problems: &mut Vec<Problem>,
) -> Option<Part> {
    let before = problems.len();
    let what = match part.name.value.as_str() {
        "" => "a stock part".to_owned(),
        name => format!("stock part `{}`", shown(name)),
    };
    let kind = kind_of(part, base, refused, &what, problems);
    let mut own = Vec::new();
    for entry in part.node.entries() {
        match entry.key.as_str() {
            key if OWN_KEYS.contains(&key) => {}
            key if part.misspelt_name == Some(key) => problems.push(
                Problem::new("unknown-key", format!("{what} has no field `{}`", shown(key)))
                    .at(Label::new(entry.key_span, Role::Subject, "not a field of this table"))
                    .help("did you mean `name`?"),
            ),
            key if key == item::TAG.key || key == item::AT.key => problems.push(
                Problem::new("unknown-key", format!("{what} cannot have `{key}`"))
                    .at(Label::new(entry.key_span, Role::Subject, "belongs in a spec"))
                    .help("tags and places are given where the part is fitted, in the spec"),
            ),
            // Whose centre of gravity it is depends on the kind.
            "cg" if kind.is_none() => {}
            _ => own.push(entry.clone()),
        }
    }
    let node = Node { span: part.name.span, value: NodeValue::Table(own) };
    let Some(kind) = kind else {
        read(&what_any_kind_knows(&node), &item::SCHEMA, &what, problems);
        return None;
    };
    let mut record: Record = read(&node, kind.schema, &what, problems);
    if let Some(base) = base {
        if base.kind != kind.name {
            problems.push(
                Problem::new(
                    "wrong-kind",
                    format!(
                        "{what} is {}, its base `{}` {}",
                        a(kind.name),
                        shown(&base.name.value),
                        a(base.kind)
                    ),
                )
                .at(Label::new(part.kind.as_ref().unwrap_or(&part.name).span, Role::Subject, a(kind.name)))
                .at(Label::new(base.name.span, Role::Subject, a(base.kind)))
                .help("leave `kind` out of a variant"),
            );
        }
        record.fill_from(&base.record);
        record.rename(&what);
    }
    // A part that lacks what its base would have stated must not pass for whole.
    (problems.len() == before && !refused).then_some(Part {
        name: part.name.clone(),
        kind: kind.name,
        record,
    })
}

fn kind_of(
    part: &Written<'_>,
    base: Option<&Part>,
    refused: bool,
    what: &str,
    problems: &mut Vec<Problem>,
) -> Option<&'static PartKind> {
    match (&part.kind, base) {
        (Some(kind), _) => kind_named(&kind.value, kind.span, |_| true, problems),
        (None, Some(base)) => KINDS.iter().find(|kind| kind.name == base.kind),
        // A variant of a part that is itself refused: its own problem has been said.
        (None, None) if refused || part.unread => None,
        (None, None) => {
            problems.push(
                Problem::new("missing-value", format!("{what} has no `kind`"))
                    .at(Label::new(part.name.span, Role::Missing, "`kind` is missing here"))
                    .help(format!("the kinds are {}", list(KINDS.iter().map(|kind| kind.name)))),
            );
            None
        }
    }
}
