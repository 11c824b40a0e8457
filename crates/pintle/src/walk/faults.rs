//! What is wrong with a record that was typed in: what its form asks for and the file's reader would say of the file.

use pintle_finding::{Label, Problem};
use pintle_source::Span;
use pintle_spec::field::{Kind, Schema};
use pintle_spec::node::{Node, NodeValue};
use serde_json::{Value, json};

use super::tree::{Held, Tree, flag};

/// Something wrong, at a field.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Fault {
    /// The field, such as `ticket.0.gross`; empty for what belongs to no field of the record.
    pub(super) path: String,
    pub(super) message: String,
    pub(super) help: Option<String>,
}

impl Fault {
    pub(super) fn to_json(&self) -> Value {
        json!({ "path": self.path, "message": self.message, "help": self.help })
    }
}

/// What the form itself can tell, and the tree without what cannot be written at all.
pub(super) fn of_form(schema: &'static Schema, tree: &Tree) -> (Vec<Fault>, Tree) {
    let mut faults = Vec::new();
    let kept = of_table(schema, "", tree, &mut faults);
    (faults, kept)
}

fn of_table(schema: &'static Schema, path: &str, tree: &Tree, faults: &mut Vec<Fault>) -> Tree {
    let mut kept = Tree::default();
    for field in schema.all() {
        let path = format!("{path}{}", field.key);
        let mut fault = |message: String, help: &str| {
            faults.push(Fault { path: path.clone(), message, help: Some(help.to_owned()) });
        };
        let Some(held) = tree.get(field) else {
            if field.required {
                fault(format!("{} has no `{}`", schema.name, field.key), field.doc);
            }
            continue;
        };
        let kept_held = match (field.kind, held) {
            (Kind::Table(schema), Held::Table(tree)) => {
                let kept = of_table(schema, &format!("{path}."), tree, faults);
                if kept.is_empty() {
                    continue;
                }
                Held::Table(kept)
            }
            (Kind::Tables(schema), Held::Rows(rows)) => {
                let rows = rows.iter().enumerate().map(|(at, row)| {
                    let tree = of_table(schema, &format!("{path}.{at}."), &row.tree, faults);
                    super::tree::Row { was: row.was, tree }
                });
                Held::Rows(rows.collect())
            }
            (Kind::Flag, Held::Text(word)) if flag(word).is_none() => {
                fault(format!("`{}` is neither yes nor no", field.key), "answer yes or no, or leave it open");
                continue;
            }
            (Kind::Count(least), Held::Text(digits)) if digits.parse::<u32>().is_err() => {
                fault(
                    format!("`{}` is no whole number", field.key),
                    &format!("write digits alone, {least} or more"),
                );
                continue;
            }
            (_, held) => held.clone(),
        };
        kept.0.insert(field.key, kept_held);
    }
    kept
}

/// Where the fields of a record stand in a file.
#[derive(Debug, Default)]
pub(super) struct Places(Vec<(Span, String)>);

impl Places {
    /// Of the record's node.
    pub(super) fn of(record: Option<&Node>) -> Self {
        let mut places = Self::default();
        if let Some(record) = record {
            places.0.push((record.span, String::new()));
            places.within(record, "");
        }
        places
    }

    fn within(&mut self, node: &Node, path: &str) {
        let dot = if path.is_empty() { "" } else { "." };
        match &node.value {
            NodeValue::Table(entries) => {
                for entry in entries {
                    let path = format!("{path}{dot}{}", entry.key);
                    self.0.push((entry.key_span, path.clone()));
                    // The place of a list of tables may run over tables between them that are none of it.
                    if !is_list_of_tables(&entry.node) {
                        self.0.push((entry.node.span, path.clone()));
                    }
                    self.within(&entry.node, &path);
                }
            }
            NodeValue::Array(nodes) => {
                for (at, node) in nodes.iter().enumerate() {
                    // A word of a list belongs to the list's field.
                    let inner = matches!(node.value, NodeValue::Table(_));
                    let path = if inner { format!("{path}{dot}{at}") } else { path.to_owned() };
                    self.0.push((node.span, path.clone()));
                    self.within(node, &path);
                }
            }
            _ => {}
        }
    }

    /// The field that a place belongs to: the smallest that holds it. The record as a whole is the empty path.
    pub(super) fn path(&self, span: Span) -> Option<&str> {
        let holding = self.0.iter().filter(|(held, _)| held.holds(span));
        holding
            .min_by_key(|(held, path)| (held.end - held.start, std::cmp::Reverse(path.len())))
            .map(|(_, path)| path.as_str())
    }

    /// The first field that labels name.
    pub(super) fn of_labels(&self, labels: &[Label]) -> Option<&str> {
        labels.iter().find_map(|label| self.path(label.span))
    }
}

/// A message beside its field: which field of which table of the spec it is about need not be said there.
fn beside(message: &str) -> &str {
    let rest = message.strip_prefix('`').and_then(|rest| rest.split_once(" of the spec "));
    rest.filter(|(field, _)| !field.contains(' ') || field.contains("` of `"))
        .map_or(message, |(_, rest)| rest)
}

fn is_list_of_tables(node: &Node) -> bool {
    let NodeValue::Array(nodes) = &node.value else { return false };
    nodes.iter().any(|node| matches!(node.value, NodeValue::Table(_)))
}

/// What the file's reader says, each at its field. What the form told already is not told twice.
pub(super) fn of_file(problems: &[Problem], places: &Places, said: &[Fault]) -> Vec<Fault> {
    let told = problems.iter().filter_map(|problem| {
        let path = problem.labels.first().and_then(|label| places.path(label.span));
        if problem.code == "missing-value" && path.is_some() {
            return None;
        }
        let path = path.unwrap_or_default().to_owned();
        if !path.is_empty() && said.iter().any(|fault| fault.path == path) {
            return None;
        }
        let message = if path.is_empty() { &problem.message } else { beside(&problem.message) };
        Some(Fault { path, message: message.to_owned(), help: problem.help.clone() })
    });
    told.collect()
}

#[cfg(test)]
mod tests;
