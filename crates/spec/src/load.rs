//! A spec file into a [`Build`], with every problem of the file.

mod items;
mod states;

use std::collections::BTreeMap;

use pintle_finding::{Label, Problem, Role, Stage};
use pintle_source::{SourceId, Sources, Span, Spanned};

use crate::build::Build;
use crate::field::Schema;
use crate::node::{Entry, Node, NodeValue, parse};
use crate::read::{read, require};
use crate::record::{Record, Value};
use crate::schema::build::{self, head};
use crate::schema::{tow, trailer};
use crate::stock::{Stock, unknown_part};
use crate::surfaces::Surfaces;

/// Reads a spec. Gives a build only when nothing is wrong with the file; everything that is wrong is in `problems`.
pub fn read_build(
    sources: &Sources,
    source: SourceId,
    stock: &Stock,
    problems: &mut Vec<Problem>,
) -> Option<Build> {
    let before = problems.len();
    let root = parse(sources, source, problems);
    let build = read_build_node(&root, source, stock, problems);
    build.filter(|_| problems.len() == before)
}

/// Reads a spec that has been parsed, and perhaps patched.
pub fn read_build_node(
    root: &Node,
    source: SourceId,
    stock: &Stock,
    problems: &mut Vec<Problem>,
) -> Option<Build> {
    let before = problems.len();
    if root.child(build::HEAD.key).is_none() && root.child(build::TRAILER.key).is_none() {
        problems.push(
            Problem::new("not-a-spec", "this is not a build spec: it has neither [build] nor [trailer]")
                .at(Label::new(root.span, Role::Subject, "no [build] in this file"))
                .help("a build spec opens with [build]; keep stock lists in the folders that pintle.toml names as `stock`"),
        );
        return None;
    }
    let spec = read(root, &build::SCHEMA, "the spec", problems);
    require(&spec, &build::SCHEMA, problems);
    let raw = |field: &'static crate::field::Field| match spec.value(field.key).map(|value| &value.value) {
        Some(Value::Raw(node)) => Some(node),
        _ => None,
    };
    let trailer = raw(&build::TRAILER)
        .and_then(|node| from_stock(node, "the trailer", "trailer", &trailer::SCHEMA, stock, problems));
    let tow = raw(&build::TOW)
        .and_then(|node| from_stock(node, "the tow vehicle", "tow vehicle", &tow::SCHEMA, stock, problems));
    let surfaces = trailer.as_ref().map(Surfaces::of);
    let mut tags = BTreeMap::new();
    let items = items::read_items(&spec, surfaces.as_ref(), stock, &mut tags, problems);
    let states = states::read_states(raw(&build::STATES), &items, surfaces.as_ref(), problems);
    if problems.len() > before {
        return None;
    }
    let head = spec.table(&build::HEAD)?.clone();
    let text = |field| head.text(field).map(|text| text.map(str::to_owned));
    let stage = head.word(&head::STAGE)?;
    Some(Build {
        source,
        number: text(&head::NUMBER)?,
        title: text(&head::TITLE)?,
        stage: Spanned::new(Stage::from_word(stage.value)?, stage.span),
        trailer: trailer?,
        tow,
        people: spec.table(&build::PEOPLE).cloned(),
        surfaces: surfaces?,
        items,
        states,
        head,
    })
}

/// A table that may name a stock part and restate its fields.
fn from_stock(
    node: &Node,
    what: &str,
    kind: &str,
    schema: &'static Schema,
    stock: &Stock,
    problems: &mut Vec<Problem>,
) -> Option<Record> {
    let NodeValue::Table(entries) = &node.value else {
        problems.push(
            Problem::new("wrong-type", format!("{what} must be one table, not {}", node.kind()))
                .at(Label::new(node.span, Role::Subject, "must be a table"))
                .help("write it with one bracket on each side"),
        );
        return None;
    };
    let (part, own): (Vec<&Entry>, Vec<&Entry>) = entries.iter().partition(|entry| entry.key == "part");
    let own = Node { span: node.span, value: NodeValue::Table(own.into_iter().cloned().collect()) };
    let mut record = read(&own, schema, what, problems);
    if let Some(entry) = part.first() {
        let part = named_part(&entry.node, what, |name| name == kind, stock, problems)?;
        record.span = entry.node.span;
        record.fill_from(&part.record);
        record.rename(what);
    }
    require(&record, schema, problems);
    Some(record)
}

/// The stock part that a `part = "…"` names, if there is one and it is of a kind that can stand here.
fn named_part<'s>(
    node: &Node,
    what: &str,
    allowed: impl Fn(&str) -> bool,
    stock: &'s Stock,
    problems: &mut Vec<Problem>,
) -> Option<&'s crate::stock::Part> {
    let Some(name) = node.text() else {
        problems.push(
            Problem::new("wrong-type", format!("`part` of {what} must be text, not {}", node.kind()))
                .at(Label::new(node.span, Role::Subject, "must be the name of a stock part"))
                .help("put it in quotes"),
        );
        return None;
    };
    match stock.part(name) {
        None => {
            problems.push(unknown_part(name, node.span, stock.parts().map(|part| part.name.value.as_str())));
            None
        }
        Some(part) if !allowed(part.kind) => {
            problems.push(
                Problem::new("wrong-kind", format!("{what} cannot be `{name}`, which is a {}", part.kind))
                    .at(Label::new(node.span, Role::Subject, format!("a {}", part.kind)))
                    .at(Label::new(part.name.span, Role::Subject, "from stock"))
                    .help("name a part of the right kind"),
            );
            None
        }
        Some(part) => Some(part),
    }
}

/// Notes a name that must be the only one of its sort, and says when it is not.
fn only_one(
    name: &Spanned<String>,
    sort: &str,
    seen: &mut BTreeMap<String, Span>,
    problems: &mut Vec<Problem>,
) {
    if let Some(first) = seen.get(&name.value) {
        problems.push(
            Problem::new(
                if sort == "tag" { "duplicate-tag" } else { "duplicate-name" },
                format!("the {sort} `{}` is used twice", name.value),
            )
            .at(Label::new(name.span, Role::Subject, "used again here"))
            .at(Label::new(*first, Role::Subject, "used here"))
            .help(format!("give one of them another {sort}")),
        );
    } else {
        seen.insert(name.value.clone(), name.span);
    }
}
