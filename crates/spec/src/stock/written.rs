//! Stock files into parts as they are written.

use std::collections::BTreeMap;
use std::sync::Arc;

use pintle_finding::{Label, Problem, Role};
use pintle_source::{SourceId, Sources, Span, Spanned};

use super::variants::build_all;
use super::{KINDS, Stock};
use crate::node::{Node, NodeValue, parse};
use crate::read::{not_a_table, text};
use crate::say::{full, hush_echoes, in_order, near, shown};
use crate::schema::stock;

/// A part as written, before variants are resolved.
pub(super) struct Written<'n> {
    /// The name; where it stands.
    pub(super) name: Spanned<String>,
    /// The kind that it states.
    pub(super) kind: Option<Spanned<String>>,
    /// The part that it is a variant of.
    pub(super) part: Option<Spanned<String>>,
    /// Whether a kind or a part is given that could not be read.
    pub(super) unread: bool,
    /// The key that `name` is misspelt as.
    pub(super) misspelt_name: Option<&'n str>,
    /// The whole table.
    pub(super) node: &'n Node,
}

/// Keys of a stock part beside those of its kind.
pub(super) const OWN_KEYS: [&str; 3] = ["name", "kind", "part"];

/// Reads stock files into one list. A part with problems is left out of the list and said in `problems`.
pub fn read_stock(sources: &Sources, files: &[SourceId], problems: &mut Vec<Problem>) -> Stock {
    let mut grammar: Vec<Vec<Problem>> = Vec::new();
    let roots: Vec<Node> = files
        .iter()
        .map(|file| {
            let mut said = Vec::new();
            let root = parse(sources, *file, &mut said);
            grammar.push(said);
            root
        })
        .collect();
    let mut found = Vec::new();
    let mut written: Vec<Written<'_>> = Vec::new();
    for root in &roots {
        written_parts(root, &mut written, &mut found);
    }
    let mut by_name: BTreeMap<&str, usize> = BTreeMap::new();
    for (at, part) in written.iter().enumerate().filter(|(_, part)| !part.name.value.is_empty()) {
        let first = *by_name.entry(&part.name.value).or_insert(at);
        if let (true, Some(first)) = (first != at, written.get(first)) {
            let message = format!("two stock parts are called `{}`", shown(&part.name.value));
            found.push(
                Problem::new("duplicate-part", message)
                    .at(Label::new(part.name.span, Role::Subject, "called so again here"))
                    .at(Label::new(first.name.span, Role::Subject, "called so here"))
                    .help("give one of them another name"),
            );
        }
    }
    let parts = build_all(&written, &by_name, &mut found);
    let refused: BTreeMap<String, Span> = written
        .iter()
        .filter(|part| !part.name.value.is_empty() && !parts.contains_key(&part.name.value))
        .map(|part| (part.name.value.clone(), part.name.span))
        .collect();
    // Problems of each file by themselves, in the order of the files.
    let mut of_file: BTreeMap<Option<SourceId>, Vec<Problem>> = BTreeMap::new();
    for problem in found {
        let file = problem.labels.first().map(|label| label.span.source);
        of_file.entry(file).or_default().push(problem);
    }
    for (file, mut said) in files.iter().zip(grammar) {
        let mut own = of_file.remove(&Some(*file)).unwrap_or_default();
        hush_echoes(&mut own, &said, sources.text(*file));
        said.append(&mut own);
        in_order(&mut said, *file);
        problems.append(&mut said);
    }
    problems.extend(of_file.into_values().flatten());
    Stock { parts: Arc::new(parts), refused: Arc::new(refused) }
}

fn written_parts<'n>(root: &'n Node, parts: &mut Vec<Written<'n>>, problems: &mut Vec<Problem>) {
    for entry in root.entries().iter().filter(|entry| entry.key != stock::PARTS.key) {
        if full(problems) {
            break;
        }
        problems.push(
            Problem::new("unknown-key", format!("a stock list has no table `{}`", shown(&entry.key)))
                .at(Label::new(entry.key_span, Role::Subject, "not part of a stock list"))
                .help("a stock list holds only [[part]] tables"),
        );
    }
    let Some(node) = root.child(stock::PARTS.key) else { return };
    let nodes = match &node.value {
        NodeValue::Array(nodes) => nodes.as_slice(),
        other => {
            let told = format!("`part` of a stock list must be a list of tables, not {}", node.kind());
            problems.push(
                Problem::new("wrong-type", told)
                    .at(Label::new(node.span, Role::Subject, "a single one"))
                    .help("write [[part]] with two brackets on each side"),
            );
            if matches!(other, NodeValue::Table(_)) { std::slice::from_ref(node) } else { &[] }
        }
    };
    for node in nodes {
        if full(problems) {
            break;
        }
        parts.extend(written_part(node, problems));
    }
}

fn written_part<'n>(node: &'n Node, problems: &mut Vec<Problem>) -> Option<Written<'n>> {
    if !matches!(node.value, NodeValue::Table(_)) {
        problems.push(not_a_table(node, "a stock part"));
        return None;
    }
    let read = |key: &str, problems: &mut Vec<Problem>| {
        let child = node.child(key)?;
        let text = text(child, &format!("`{key}` of a stock part"), problems)?;
        Some(Spanned::new(text.to_owned(), child.span))
    };
    let kind = read("kind", problems);
    let part = read("part", problems);
    let misspelt = |wanted: &str| {
        let near_one = |key: &str| {
            KINDS.iter().all(|kind| kind.schema.find(key).is_none())
                && !OWN_KEYS.contains(&key)
                && near(key, OWN_KEYS.iter().copied(), 0) == Some(wanted)
        };
        if node.child(wanted).is_some() {
            return None;
        }
        node.entries().iter().find(|entry| entry.key.len() <= 8 && near_one(&entry.key))
    };
    let unread = (node.child("kind").is_some() || misspelt("kind").is_some()) && kind.is_none()
        || (node.child("part").is_some() || misspelt("part").is_some()) && part.is_none();
    // A part whose `name` is only misspelt can still be found by it.
    let misspelt_name = misspelt("name");
    let name = match misspelt_name {
        Some(entry) => entry.node.text().map(|name| Spanned::new(name.to_owned(), entry.node.span)),
        None => read("name", problems),
    };
    if node.child("name").is_none() && misspelt_name.is_none() {
        problems.push(
            Problem::new("missing-value", "a stock part has no `name`")
                .at(Label::new(node.span, Role::Missing, "`name` is missing here"))
                .help("give it the name that specs will call it by, such as `name = \"galley-72\"`"),
        );
    }
    // What has no name is read as well, for the problems in it.
    let name = name.unwrap_or_else(|| Spanned::new(String::new(), node.span));
    Some(Written { name, kind, part, unread, misspelt_name: misspelt_name.map(|entry| &*entry.key), node })
}
