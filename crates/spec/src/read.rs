//! A node checked against a schema: every unknown key, wrong type, unit, dimension and range, all at once.

use pintle_finding::{Label, Problem, Role, nearest};
use pintle_quantity::{Dimension, Quantity};
use pintle_source::Spanned;

use crate::field::{Field, Kind, Range, Schema};
use crate::node::{Entry, Node, NodeValue};
use crate::record::{Record, Value};

/// Reads a table by a schema. What cannot be read is left out of the record and said in `problems`; a record read
/// without new problems is complete. Required fields are not asked for: [`require`] does that, since a stock part
/// may yet supply them.
pub fn read(node: &Node, schema: &Schema, what: &str, problems: &mut Vec<Problem>) -> Record {
    let mut record = Record::new(what, node.span);
    let NodeValue::Table(entries) = &node.value else {
        problems.push(wrong_type(node, &format!("{what} must be a table")));
        return record;
    };
    for entry in entries {
        match schema.find(&entry.key) {
            Some(field) => {
                if let Some(value) = read_field(entry, field, what, problems) {
                    record.set(field, Spanned::new(value, entry.node.span));
                }
            }
            None => problems.push(unknown_key(entry, schema, what)),
        }
    }
    record
}

/// Says which required fields a record lacks, here and in the tables within it.
pub fn require(record: &Record, schema: &Schema, problems: &mut Vec<Problem>) {
    for field in schema.all() {
        match record.value(field.key).map(|held| &held.value) {
            None if field.required => {
                let missing = record.missing(field);
                problems.push(
                    Problem::new("missing-value", format!("{} has no `{}`", record.what, field.key))
                        .at(Label::new(
                            record.span,
                            Role::Missing,
                            format!("`{}` is missing here", field.key),
                        ))
                        .help(missing.help),
                );
            }
            Some(Value::Table(inner)) => {
                if let Kind::Table(schema) = field.kind {
                    require(inner, schema, problems);
                }
            }
            Some(Value::Tables(list)) => {
                if let Kind::Tables(schema) = field.kind {
                    list.iter().for_each(|inner| require(inner, schema, problems));
                }
            }
            Some(Value::Named(list)) => {
                if let Kind::Named(schema) = field.kind {
                    list.iter().for_each(|(_, inner)| require(inner, schema, problems));
                }
            }
            _ => {}
        }
    }
}

fn unknown_key(entry: &Entry, schema: &Schema, what: &str) -> Problem {
    let mut problem = Problem::new("unknown-key", format!("{what} has no field `{}`", entry.key))
        .at(Label::new(entry.key_span, Role::Subject, "not a field of this table"));
    let known = schema.all().map(|field| field.key);
    problem.help = Some(match nearest(&entry.key, known.clone()) {
        Some(name) => format!("did you mean `{name}`?"),
        None => format!("its fields are {}", list(known)),
    });
    problem
}

/// Names in a row: "`a`, `b` and `c`".
pub fn list<'a>(names: impl Iterator<Item = &'a str>) -> String {
    let mut names: Vec<String> = names.map(|name| format!("`{name}`")).collect();
    names.dedup();
    match names.pop() {
        None => "none".to_owned(),
        Some(last) if names.is_empty() => last,
        Some(last) => format!("{} and {last}", names.join(", ")),
    }
}

fn wrong_type(node: &Node, message: &str) -> Problem {
    Problem::new("wrong-type", format!("{message}, not {}", node.kind())).at(Label::new(
        node.span,
        Role::Subject,
        format!("this is {}", node.kind()),
    ))
}

fn read_field(entry: &Entry, field: &Field, what: &str, problems: &mut Vec<Problem>) -> Option<Value> {
    let node = &entry.node;
    let name = format!("`{}` of {what}", field.key);
    match field.kind {
        Kind::Quantity(dimension, range) => {
            quantity(node, &name, Some((dimension, range)), problems).map(Value::Quantity)
        }
        Kind::AnyQuantity => quantity(node, &name, None, problems).map(Value::Quantity),
        Kind::Text => text(node, &name, problems).map(|text| Value::Text(text.to_owned())),
        Kind::Word(words) => word(node, &name, words, problems).map(Value::Word),
        Kind::Words(words) => {
            let nodes = array(node, &name, problems)?;
            let read = nodes.iter().filter_map(|node| {
                word(node, &name, words, problems).map(|word| Spanned::new(word, node.span))
            });
            Some(Value::Words(read.collect()))
        }
        Kind::Flag => match node.value {
            NodeValue::Flag(flag) => Some(Value::Flag(flag)),
            _ => {
                problems.push(
                    wrong_type(node, &format!("{name} must be true or false"))
                        .help("write true or false, without quotes"),
                );
                None
            }
        },
        Kind::Count => match node.value {
            NodeValue::Integer(Some(number)) if u32::try_from(number).is_ok_and(|count| count <= 10_000) => {
                u32::try_from(number).ok().map(Value::Count)
            }
            NodeValue::Integer(_) => {
                problems.push(
                    Problem::new("impossible-number", format!("{name} must be a count from 0 to 10,000"))
                        .at(Label::new(node.span, Role::Subject, "not such a count")),
                );
                None
            }
            _ => {
                problems.push(
                    wrong_type(node, &format!("{name} must be a count"))
                        .help("write a whole number without quotes, such as 2"),
                );
                None
            }
        },
        Kind::Texts => {
            let nodes = array(node, &name, problems)?;
            let read = nodes.iter().filter_map(|node| {
                text(node, &name, problems).map(|text| Spanned::new(text.to_owned(), node.span))
            });
            Some(Value::Texts(read.collect()))
        }
        Kind::Table(schema) => {
            let before = problems.len();
            let record = read(node, schema, &name, problems);
            (problems.len() == before || matches!(node.value, NodeValue::Table(_)))
                .then_some(Value::Table(record))
        }
        Kind::Tables(schema) => {
            let nodes = array(node, &name, problems)?;
            Some(Value::Tables(nodes.iter().map(|node| read(node, schema, &name, problems)).collect()))
        }
        Kind::Named(schema) => {
            let NodeValue::Table(entries) = &node.value else {
                problems.push(wrong_type(node, &format!("{name} must be a table")));
                return None;
            };
            let read = entries.iter().map(|entry| {
                let what = format!("`{}.{}` of {what}", field.key, entry.key);
                (Spanned::new(entry.key.clone(), entry.key_span), read(&entry.node, schema, &what, problems))
            });
            Some(Value::Named(read.collect()))
        }
        Kind::Shares => {
            let NodeValue::Table(entries) = &node.value else {
                problems.push(
                    wrong_type(node, &format!("{name} must be a table"))
                        .help("such as `{ fresh = \"100 %\" }`"),
                );
                return None;
            };
            let read = entries.iter().filter_map(|entry| {
                let name = format!("`{}` in {name}", entry.key);
                let share = quantity(&entry.node, &name, Some((Dimension::NONE, Range::Share)), problems)?;
                Some((Spanned::new(entry.key.clone(), entry.key_span), Spanned::new(share, entry.node.span)))
            });
            Some(Value::Shares(read.collect()))
        }
        Kind::Raw => Some(Value::Raw(node.clone())),
    }
}

fn array<'n>(node: &'n Node, name: &str, problems: &mut Vec<Problem>) -> Option<&'n [Node]> {
    match &node.value {
        NodeValue::Array(nodes) => Some(nodes),
        _ => {
            problems
                .push(wrong_type(node, &format!("{name} must be a list")).help("put it in square brackets"));
            None
        }
    }
}

fn text<'n>(node: &'n Node, name: &str, problems: &mut Vec<Problem>) -> Option<&'n str> {
    let read = node.text();
    match read {
        None => problems.push(wrong_type(node, &format!("{name} must be text")).help("put it in quotes")),
        Some(text) if text.trim().is_empty() => {
            problems.push(
                Problem::new("empty-text", format!("{name} is empty"))
                    .at(Label::new(node.span, Role::Subject, "nothing in here"))
                    .help("write something, or leave the field out"),
            );
            return None;
        }
        Some(_) => {}
    }
    read
}

fn word(
    node: &Node,
    name: &str,
    words: &'static [&'static str],
    problems: &mut Vec<Problem>,
) -> Option<&'static str> {
    let written = text(node, name, problems)?;
    let found = words.iter().find(|word| **word == written).copied();
    if found.is_none() {
        let help = match nearest(written, words.iter().copied()) {
            Some(near) => format!("did you mean `{near}`? the words are {}", list(words.iter().copied())),
            None => format!("the words are {}", list(words.iter().copied())),
        };
        problems.push(
            Problem::new("unknown-word", format!("{name} cannot be `{written}`"))
                .at(Label::new(node.span, Role::Subject, "not one of its words"))
                .help(help),
        );
    }
    found
}

/// Reads a quantity, and checks its dimension and range where they are given.
pub fn quantity(
    node: &Node,
    name: &str,
    expected: Option<(Dimension, Range)>,
    problems: &mut Vec<Problem>,
) -> Option<Quantity> {
    let example = expected.map_or("150 lb", |(dimension, _)| dimension.example());
    let Some(written) = node.text() else {
        let message = format!("{name} must be a quantity in quotes, with its unit");
        problems
            .push(wrong_type(node, &message).help(format!("write it with a unit, such as `\"{example}\"`")));
        return None;
    };
    let quantity = match Quantity::parse(written) {
        Ok(quantity) => quantity,
        Err(error) => {
            let mut problem = Problem::new("bad-quantity", format!("{name} cannot be read: {error}"))
                .at(Label::new(node.part(error.range()), Role::Subject, "here"));
            problem.help = error.help().or_else(|| Some(format!("write it such as `{example}`")));
            problems.push(problem);
            return None;
        }
    };
    let Some((dimension, range)) = expected else { return Some(quantity) };
    if quantity.dimension() != dimension {
        let (wanted, found) = (dimension.noun(), quantity.dimension().noun());
        problems.push(
            Problem::new("wrong-dimension", format!("{name} must be {wanted}; `{written}` is {found}"))
                .at(Label::new(node.span, Role::Subject, format!("this is {found}")))
                .help(format!("write {wanted}, such as `{example}`")),
        );
        return None;
    }
    if let Some(refused) = out_of_range(quantity, range) {
        problems.push(
            Problem::new("impossible-number", format!("{name} cannot be `{written}`: it must be {refused}"))
                .at(Label::new(node.span, Role::Subject, format!("must be {refused}")))
                .help("check the sign and the size of the number"),
        );
        return None;
    }
    Some(quantity)
}

fn out_of_range(quantity: Quantity, range: Range) -> Option<&'static str> {
    let value = quantity.si();
    match range {
        Range::NotNegative if value < 0.0 => Some("zero or more"),
        Range::Positive if value <= 0.0 => Some("more than zero"),
        Range::Share if !(0.0..=1.0).contains(&value) => Some("from 0 % to 100 %"),
        _ => None,
    }
}
