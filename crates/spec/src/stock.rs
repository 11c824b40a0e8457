//! The shop's parts, by name.

use std::collections::BTreeMap;
use std::sync::Arc;

use pintle_finding::{Label, Problem, Role, nearest};
use pintle_source::{SourceId, Sources, Span, Spanned};

use crate::field::Schema;
use crate::node::{Entry, Node, NodeValue, parse};
use crate::read::{list, read};
use crate::record::Record;
use crate::schema::{item, kinds, stock, tow, trailer};

/// A kind of part: its name and its fields.
#[derive(Debug)]
pub(crate) struct PartKind {
    pub(crate) name: &'static str,
    pub(crate) schema: &'static Schema,
}

/// Every kind a part may have.
pub(crate) static KINDS: &[PartKind] = &[
    PartKind { name: "trailer", schema: &trailer::SCHEMA },
    PartKind { name: "tow vehicle", schema: &tow::SCHEMA },
    PartKind { name: "module", schema: &kinds::module::SCHEMA },
    PartKind { name: "equipment", schema: &kinds::module::SCHEMA },
    PartKind { name: "rack", schema: &kinds::rack::SCHEMA },
    PartKind { name: "tent", schema: &kinds::tent::SCHEMA },
    PartKind { name: "ladder", schema: &kinds::ladder::SCHEMA },
    PartKind { name: "cylinder", schema: &kinds::cylinder::SCHEMA },
    PartKind { name: "appliance", schema: &kinds::appliance::SCHEMA },
    PartKind { name: "battery", schema: &kinds::battery::SCHEMA },
    PartKind { name: "alarm", schema: &kinds::alarm::SCHEMA },
    PartKind { name: "tank", schema: &kinds::tank::SCHEMA },
    PartKind { name: "locker", schema: &kinds::locker::SCHEMA },
    PartKind { name: "bulkhead", schema: &kinds::bulkhead::SCHEMA },
    PartKind { name: "berth", schema: &kinds::berth::SCHEMA },
    PartKind { name: "vent", schema: &kinds::vent::SCHEMA },
];

/// The kind with a name, or the problem of there being none.
pub(crate) fn kind_named(
    name: &str,
    span: Span,
    allowed: impl Fn(&str) -> bool,
    problems: &mut Vec<Problem>,
) -> Option<&'static PartKind> {
    let found = KINDS.iter().find(|kind| kind.name == name && allowed(kind.name));
    if found.is_none() {
        let names = || KINDS.iter().map(|kind| kind.name).filter(|name| allowed(name));
        let help = match nearest(name, names()) {
            Some(near) => format!("did you mean `{near}`? the kinds are {}", list(names())),
            None => format!("the kinds are {}", list(names())),
        };
        problems.push(
            Problem::new("unknown-kind", format!("no kind of part is called `{name}` here"))
                .at(Label::new(span, Role::Subject, "not a kind that can stand here"))
                .help(help),
        );
    }
    found
}

/// One part of the shop's.
#[derive(Debug, Clone)]
pub struct Part {
    /// Its name and where it stands.
    pub name: Spanned<String>,
    /// What it is.
    pub kind: &'static str,
    /// Its fields, over those of the part it is a variant of.
    pub record: Record,
}

/// The shop's parts, by name. Cheap to clone.
#[derive(Debug, Clone, Default)]
pub struct Stock {
    parts: Arc<BTreeMap<String, Part>>,
}

impl Stock {
    /// The part with a name.
    pub fn part(&self, name: &str) -> Option<&Part> {
        self.parts.get(name)
    }

    /// All parts by name.
    pub fn parts(&self) -> impl Iterator<Item = &Part> + Clone {
        self.parts.values()
    }
}

/// A part as written, before variants are resolved.
struct Written<'n> {
    name: Spanned<String>,
    kind: Option<Spanned<String>>,
    part: Option<Spanned<String>>,
    entries: &'n [Entry],
    span: Span,
}

/// Reads stock files into one list. A part with problems is left out of the list and said in `problems`.
pub fn read_stock(sources: &Sources, files: &[SourceId], problems: &mut Vec<Problem>) -> Stock {
    let roots: Vec<Node> = files.iter().map(|file| parse(sources, *file, problems)).collect();
    let mut written: BTreeMap<String, Written<'_>> = BTreeMap::new();
    for root in &roots {
        for part in written_parts(root, problems) {
            if let Some(first) = written.get(&part.name.value) {
                let message = format!("two stock parts are called `{}`", part.name.value);
                problems.push(
                    Problem::new("duplicate-part", message)
                        .at(Label::new(part.name.span, Role::Subject, "called so again here"))
                        .at(Label::new(first.name.span, Role::Subject, "called so here"))
                        .help("give one of them another name"),
                );
            } else {
                written.insert(part.name.value.clone(), part);
            }
        }
    }
    let mut parts = BTreeMap::new();
    for name in written.keys() {
        resolve(name, &written, &mut parts, &mut Vec::new(), problems);
    }
    let parts = parts.into_iter().filter_map(|(name, part)| Some((name, part?))).collect();
    Stock { parts: Arc::new(parts) }
}

fn written_parts<'n>(root: &'n Node, problems: &mut Vec<Problem>) -> Vec<Written<'n>> {
    for entry in root.entries().iter().filter(|entry| entry.key != stock::PARTS.key) {
        problems.push(
            Problem::new("unknown-key", format!("a stock list has no table `{}`", entry.key))
                .at(Label::new(entry.key_span, Role::Subject, "not part of a stock list"))
                .help("a stock list holds only [[part]] tables"),
        );
    }
    let nodes = match root.child(stock::PARTS.key).map(|node| (&node.value, node.span)) {
        None => &[],
        Some((NodeValue::Array(nodes), _)) => nodes.as_slice(),
        Some((_, span)) => {
            problems.push(
                Problem::new("wrong-type", "`part` of a stock list must be a list of tables")
                    .at(Label::new(span, Role::Subject, "a single table"))
                    .help("write [[part]] with two brackets on each side"),
            );
            &[]
        }
    };
    let text = |node: &Node, key: &str, problems: &mut Vec<Problem>| {
        let child = node.child(key)?;
        if child.text().is_none() {
            problems.push(
                Problem::new(
                    "wrong-type",
                    format!("`{key}` of a stock part must be text, not {}", child.kind()),
                )
                .at(Label::new(child.span, Role::Subject, "must be text"))
                .help("put it in quotes"),
            );
        }
        child.text().map(|text| Spanned::new(text.to_owned(), child.span))
    };
    let mut parts = Vec::new();
    for node in nodes {
        let kind = text(node, "kind", problems);
        let part = text(node, "part", problems);
        match text(node, "name", problems) {
            Some(name) => parts.push(Written { name, kind, part, entries: node.entries(), span: node.span }),
            None if node.child("name").is_some() => {}
            None => problems.push(
                Problem::new("missing-value", "a stock part has no `name`")
                    .at(Label::new(node.span, Role::Missing, "`name` is missing here"))
                    .help("give it the name that specs will call it by, such as `name = \"galley-72\"`"),
            ),
        }
    }
    parts
}

fn resolve(
    name: &str,
    written: &BTreeMap<String, Written<'_>>,
    parts: &mut BTreeMap<String, Option<Part>>,
    path: &mut Vec<String>,
    problems: &mut Vec<Problem>,
) {
    if parts.contains_key(name) {
        return;
    }
    let Some(part) = written.get(name) else { return };
    path.push(name.to_owned());
    let base = part.part.as_ref().and_then(|base| {
        if path.contains(&base.value) {
            let message =
                format!("stock part `{}` refers to itself: {} → `{}`", base.value, arrows(path), base.value);
            problems.push(
                Problem::new("stock-loop", message)
                    .at(Label::new(base.span, Role::Subject, "closes the loop"))
                    .help("name the part it is a variant of, or state its `kind` and all its fields"),
            );
            return None;
        }
        if !written.contains_key(&base.value) {
            problems.push(unknown_part(&base.value, base.span, written.keys().map(String::as_str)));
            return None;
        }
        resolve(&base.value, written, parts, path, problems);
        parts.get(&base.value).cloned().flatten()
    });
    path.pop();
    if parts.contains_key(name) {
        return;
    }
    let built = build_part(part, base, problems);
    parts.insert(name.to_owned(), built);
}

fn build_part(part: &Written<'_>, base: Option<Part>, problems: &mut Vec<Problem>) -> Option<Part> {
    let kind = match (&part.kind, &base) {
        (Some(kind), _) => kind_named(&kind.value, kind.span, |_| true, problems)?,
        (None, Some(base)) => KINDS.iter().find(|kind| kind.name == base.kind)?,
        // A variant of a part that is itself refused: its own problem has been said.
        (None, None) if part.part.is_some() => return None,
        (None, None) => {
            problems.push(
                Problem::new("missing-value", format!("stock part `{}` has no `kind`", part.name.value))
                    .at(Label::new(part.span, Role::Missing, "`kind` is missing here"))
                    .help(format!("the kinds are {}", list(KINDS.iter().map(|kind| kind.name)))),
            );
            return None;
        }
    };
    let what = format!("stock part `{}`", part.name.value);
    let mut own = Vec::new();
    for entry in part.entries {
        match entry.key.as_str() {
            "name" | "kind" | "part" => {}
            key if key == item::TAG.key || key == item::AT.key => problems.push(
                Problem::new("unknown-key", format!("{what} cannot have `{key}`"))
                    .at(Label::new(entry.key_span, Role::Subject, "belongs in a spec"))
                    .help("tags and places are given where the part is fitted, in the spec"),
            ),
            _ => own.push(entry.clone()),
        }
    }
    let before = problems.len();
    let node = Node { span: part.name.span, value: NodeValue::Table(own) };
    let mut record = read(&node, kind.schema, &what, problems);
    if let Some(base) = base {
        if base.kind != kind.name {
            problems.push(
                Problem::new(
                    "wrong-kind",
                    format!("{what} is a {}, its base `{}` a {}", kind.name, base.name.value, base.kind),
                )
                .at(Label::new(part.name.span, Role::Subject, format!("a {}", kind.name)))
                .at(Label::new(base.name.span, Role::Subject, format!("a {}", base.kind)))
                .help("leave `kind` out of a variant"),
            );
        }
        record.fill_from(&base.record);
        record.rename(&what);
    }
    (problems.len() == before).then_some(Part { name: part.name.clone(), kind: kind.name, record })
}

/// The problem of a part that is not in stock.
pub(crate) fn unknown_part<'a>(
    name: &str,
    span: Span,
    known: impl Iterator<Item = &'a str> + Clone,
) -> Problem {
    let help = match nearest(name, known.clone()) {
        Some(near) => format!("did you mean `{near}`?"),
        None if known.count() == 0 => {
            "the stock list is empty; name its folder in pintle.toml, `stock = [\"stock\"]`".to_owned()
        }
        None => "add it to the stock list, or state its `kind` and its fields here".to_owned(),
    };
    Problem::new("unknown-part", format!("the stock list has no part `{name}`"))
        .at(Label::new(span, Role::Subject, "not in stock"))
        .help(help)
}

fn arrows(path: &[String]) -> String {
    path.iter().map(|name| format!("`{name}`")).collect::<Vec<_>>().join(" → ")
}
