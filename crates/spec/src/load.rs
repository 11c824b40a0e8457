//! A spec file into a [`Build`], with every problem of the file.

mod aboard;
mod amounts;
mod electric;
mod gas;
mod items;
mod papers;
mod states;
mod tags;
mod tickets;
mod ties;
mod zones;

use std::collections::BTreeMap;

use pintle_finding::{Label, Problem, Role, Stage};
use pintle_source::{SourceId, Sources, Span, Spanned};

use crate::build::Build;
use crate::field::Schema;
use crate::node::{Entry, Node, NodeValue, parse};
use crate::read::{not_a_table, read, require, text};
use crate::record::{Record, Value};
use crate::say::{a, hush_echoes, in_order, shown};
use crate::schema::build::{self, head};
use crate::schema::{tow, trailer};
use crate::stock::{Part, Stock, refused_part, unknown_part};
use crate::surfaces::Surfaces;

/// Reads a spec. Gives a build only when nothing is wrong with the file; everything that is wrong is in `problems`.
pub fn read_build(
    sources: &Sources,
    source: SourceId,
    stock: &Stock,
    problems: &mut Vec<Problem>,
) -> Option<Build> {
    let mut said = Vec::new();
    let root = parse(sources, source, &mut said);
    let mut found = Vec::new();
    let build = read_build_node(&root, source, stock, &mut found);
    hush_echoes(&mut found, &said, sources.text(source));
    said.append(&mut found);
    in_order(&mut said, source);
    let build = build.filter(|_| said.is_empty());
    problems.append(&mut said);
    build
}

/// Reads a spec that has been parsed, and perhaps patched.
pub fn read_build_node(
    root: &Node,
    source: SourceId,
    stock: &Stock,
    problems: &mut Vec<Problem>,
) -> Option<Build> {
    let mut found = Vec::new();
    let build = read_tables(root, source, stock, &mut found);
    in_order(&mut found, source);
    let build = build.filter(|_| found.is_empty());
    problems.append(&mut found);
    build
}

fn read_tables(root: &Node, source: SourceId, stock: &Stock, problems: &mut Vec<Problem>) -> Option<Build> {
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
    // Where nothing is known of the trailer, places can still be checked, though not worked out.
    let surfaces = match &trailer {
        Some(trailer) => Surfaces::of(trailer),
        None => Surfaces::of(&Record::new("the trailer", root.span)),
    };
    if let Some(trailer) = &trailer {
        refuse_two_centres(trailer, problems);
    }
    let mut fitted = items::read_items(&spec, &surfaces, stock, problems);
    ties::read_needs(&mut fitted, problems);
    ties::check_keepers(&fitted, problems);
    let eithers = ties::read_eithers(raw(&build::EITHERS), &fitted, problems);
    let use_order = ties::read_use_order(spec.table(&build::WATER), &fitted, problems);
    gas::check(spec.table(&build::GAS), &fitted, problems);
    let rules = aboard::Rules::of(&fitted, &eithers, &use_order);
    let electric =
        spec.table(&build::ELECTRIC).map(|written| electric::read_electric(written, &fitted, problems));
    let states = states::read_states(raw(&build::STATES), &fitted, &rules, &surfaces, problems);
    papers::check(spec.table(&build::RECORD), &fitted, problems);
    papers::check_quote(spec.table(&build::QUOTE), &fitted, problems);
    tickets::check_tickets(spec.table(&build::RECORD), raw(&build::STATES), problems);
    if !problems.is_empty() {
        return None;
    }
    let head = spec.table(&build::HEAD)?.clone();
    let given = |field| head.text(field).map(|text| text.map(str::to_owned));
    let stage = head.word(&head::STAGE)?;
    Some(Build {
        source,
        number: given(&head::NUMBER)?,
        title: given(&head::TITLE)?,
        stage: Spanned::new(Stage::from_word(stage.value)?, stage.span),
        trailer: trailer?,
        tow,
        people: spec.table(&build::PEOPLE).cloned(),
        gas: spec.table(&build::GAS).map(gas::with_names),
        electric,
        water: spec.table(&build::WATER).cloned(),
        quote: spec.table(&build::QUOTE).map(papers::with_names),
        record: spec.table(&build::RECORD).map(papers::with_names),
        assume: spec.table(&build::ASSUME).cloned(),
        surfaces,
        items: fitted.items,
        states,
        eithers,
        use_order,
        stock: stock.clone(),
        head,
    })
}

/// A trailer's centre of gravity is given by its place or by the tongue weight; two figures for it may differ.
fn refuse_two_centres(trailer: &Record, problems: &mut Vec<Problem>) {
    let place = trailer.table(&trailer::CG).and_then(|cg| cg.quantity(&trailer::cg::BALL));
    if let (Some(tongue), Some(place)) = (trailer.quantity(&trailer::TONGUE), place) {
        problems.push(
            Problem::new("two-places", "the trailer gives its centre of gravity twice: by `tongue` and by `ball` of `cg`")
                .at(Label::new(tongue.span, Role::Subject, "by the weight on its tongue"))
                .at(Label::new(place.span, Role::Subject, "by its place"))
                .help("keep the one that was measured; where stock gives the other, restate both in a stock part of its own"),
        );
    }
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
        problems.push(match node.value {
            NodeValue::Array(_) => {
                Problem::new("wrong-type", format!("{what} must be one table, not {}", node.kind()))
                    .at(Label::new(node.span, Role::Subject, "must be a table"))
                    .help("write it with one bracket on each side")
            }
            _ => not_a_table(node, what),
        });
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
) -> Option<&'s Part> {
    let name = text(node, &format!("`part` of {what}"), problems)?;
    let Some(part) = stock.part(name) else {
        let mut problem = if let Some(place) = stock.refused(name) {
            refused_part(name, node.span, place)
        } else {
            let fit = stock.parts().filter(|part| allowed(part.kind));
            unknown_part(name, node.span, fit.map(|part| part.name.value.as_str()), problems.len())
        };
        if stock.is_empty() {
            problem = problem
                .help("the stock list is empty; name its folder in pintle.toml, `stock = [\"stock\"]`");
        }
        problems.push(problem);
        return None;
    };
    if !allowed(part.kind) {
        let kind = a(part.kind);
        problems.push(
            Problem::new("wrong-kind", format!("{what} cannot be `{}`, which is {kind}", shown(name)))
                .at(Label::new(node.span, Role::Subject, kind.clone()))
                .at(Label::new(part.name.span, Role::Subject, "from stock"))
                .help("name a part of the right kind"),
        );
        return None;
    }
    Some(part)
}

/// The list of tables under a key. A single table written with one bracket is said, and taken as a list of one.
fn tables<'n>(key: &str, node: &'n Node, problems: &mut Vec<Problem>) -> &'n [Node] {
    if let NodeValue::Array(nodes) = &node.value {
        return nodes;
    }
    problems.push(
        Problem::new("wrong-type", format!("`{key}` must be a list of tables, not {}", node.kind()))
            .at(Label::new(node.span, Role::Subject, "a single one"))
            .help(format!("write [[{key}]] with two brackets on each side")),
    );
    if matches!(node.value, NodeValue::Table(_)) { std::slice::from_ref(node) } else { &[] }
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
                format!("the {sort} `{}` is used twice", shown(&name.value)),
            )
            .at(Label::new(name.span, Role::Subject, "used again here"))
            .at(Label::new(*first, Role::Subject, "used here"))
            .help(format!("give one of them another {sort}")),
        );
    } else {
        seen.insert(name.value.clone(), name.span);
    }
}
