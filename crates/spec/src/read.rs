//! A node checked against a schema: every unknown key, wrong type, unit, dimension and range, all at once.

use pintle_finding::{Label, Problem, Role};
use pintle_quantity::{Dimension, Quantity};
use pintle_source::Spanned;

use crate::field::{Field, Kind, Range, Schema};
use crate::node::{Entry, Node, NodeValue};
use crate::record::{Record, Value};
use crate::say::{full, is_hidden, near, shown};
use crate::stock::KINDS;

/// The largest count that can be real.
const MOST_COUNTED: u32 = 10_000;
/// The longest text that is taken, in characters.
const LONGEST_TEXT: usize = 2_000;

/// Reads a table by a schema. What cannot be read is left out of the record and said in `problems`; a record read
/// without new problems is complete. Required fields are not asked for: [`require`] does that, since a stock part
/// may yet supply them.
pub fn read(node: &Node, schema: &Schema, what: &str, problems: &mut Vec<Problem>) -> Record {
    let mut record = Record::new(what, node.span);
    let NodeValue::Table(entries) = &node.value else {
        problems.push(not_a_table(node, what));
        schema.all().for_each(|field| record.refuse(field.key));
        return record;
    };
    for entry in entries {
        if full(problems) {
            break;
        }
        let Some(field) = schema.find(&entry.key) else {
            let meant = near_key(&entry.key, schema, problems.len());
            problems.push(unknown_key(entry, schema, what, meant));
            // A field that is only misspelt is not missing as well.
            if let Some(field) = meant {
                record.refuse(field.key);
            }
            continue;
        };
        match read_field(entry, field, what, problems) {
            Some(value) => record.set(field, Spanned::new(value, entry.node.span)),
            None => record.refuse(field.key),
        }
    }
    record
}

/// The field that a misspelt key was most likely meant to be.
pub(crate) fn near_key(key: &str, schema: &Schema, said: usize) -> Option<&'static Field> {
    if KINDS.iter().any(|kind| kind.schema.find(key).is_some()) && is_of_a_kind(schema) {
        return None;
    }
    near(key, schema.all().map(|field| field.key), said).and_then(|name| schema.find(name))
}

/// Whether a schema is one of a kind of part, or what they share.
fn is_of_a_kind(schema: &Schema) -> bool {
    schema.name == crate::schema::item::SCHEMA.name
        || KINDS.iter().any(|kind| kind.schema.name == schema.name)
}

/// Says which required fields a record lacks, here and in the tables within it.
pub fn require(record: &Record, schema: &Schema, problems: &mut Vec<Problem>) {
    for field in schema.all() {
        match record.value(field.key).map(|held| &held.value) {
            None if record.is_refused(field.key) => {}
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
                    for inner in list {
                        require(inner, schema, problems);
                    }
                }
            }
            Some(Value::Named(list)) => {
                if let Kind::Named(schema) = field.kind {
                    for (_, inner) in list {
                        require(inner, schema, problems);
                    }
                }
            }
            _ => {}
        }
    }
}

fn unknown_key(entry: &Entry, schema: &Schema, what: &str, meant: Option<&'static Field>) -> Problem {
    let key = shown(&entry.key);
    let mut problem = Problem::new("unknown-key", format!("{what} has no field `{key}`")).at(Label::new(
        entry.key_span,
        Role::Subject,
        "not a field of this table",
    ));
    let others = KINDS.iter().filter(|kind| kind.schema.find(&entry.key).is_some()).map(|kind| kind.name);
    let others: Vec<&str> = if is_of_a_kind(schema) { others.collect() } else { Vec::new() };
    problem.help = Some(match (meant, others.as_slice()) {
        (Some(field), _) => format!("did you mean `{}`?", field.key),
        (None, [_, ..]) => format!("`{key}` belongs to parts of the kind {}", list_or(&others)),
        (None, []) => format!("its fields are {}", list(schema.all().map(|field| field.key))),
    });
    problem
}

fn list_or(names: &[&str]) -> String {
    names.iter().map(|name| format!("`{name}`")).collect::<Vec<_>>().join(" or ")
}

/// The most names that are put in a row.
const LONGEST_ROW: usize = 40;

/// Names in a row: "`a`, `b` and `c`"; of very many only the first, and how many more there are.
pub fn list<'a>(names: impl Iterator<Item = &'a str>) -> String {
    let mut names = names.filter(|name| !name.is_empty());
    let mut row: Vec<String> =
        names.by_ref().take(LONGEST_ROW).map(|name| format!("`{}`", shown(name))).collect();
    row.dedup();
    let last = match names.count() {
        0 => row.pop(),
        more => Some(format!("{more} more")),
    };
    match last {
        None => "none".to_owned(),
        Some(last) if row.is_empty() => last,
        Some(last) => format!("{} and {last}", row.join(", ")),
    }
}

/// The problem of something that must be a table and is not.
pub(crate) fn not_a_table(node: &Node, what: &str) -> Problem {
    wrong_type(node, &format!("{what} must be a table"))
        .help("write its fields in curly brackets, `{ … }`, or under a header of its own")
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
            Some(Value::Words(each(nodes, problems, |node, problems| {
                word(node, &name, words, problems).map(|word| Spanned::new(word, node.span))
            })))
        }
        Kind::Flag => {
            let NodeValue::Flag(flag) = node.value else {
                problems.push(
                    wrong_type(node, &format!("{name} must be true or false"))
                        .help("write true or false, without quotes"),
                );
                return None;
            };
            Some(Value::Flag(flag))
        }
        Kind::Count(least) => match node.value {
            NodeValue::Integer(Some(number))
                if u32::try_from(number).is_ok_and(|count| (least..=MOST_COUNTED).contains(&count)) =>
            {
                u32::try_from(number).ok().map(Value::Count)
            }
            NodeValue::Integer(number) => {
                let told = number.map_or_else(String::new, |number| format!(", not {number}"));
                problems.push(
                    Problem::new(
                        "impossible-number",
                        format!("{name} must be a count from {least} to 10,000{told}"),
                    )
                    .at(Label::new(node.span, Role::Subject, "not such a count"))
                    .help("check the sign and the size of the number"),
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
            Some(Value::Texts(each(nodes, problems, |node, problems| {
                text(node, &name, problems).map(|text| Spanned::new(text.to_owned(), node.span))
            })))
        }
        Kind::Table(schema) => {
            let record = read(node, schema, &name, problems);
            matches!(node.value, NodeValue::Table(_)).then_some(Value::Table(record))
        }
        Kind::Tables(schema) => {
            let nodes = array(node, &name, problems)?;
            Some(Value::Tables(each(nodes, problems, |node, problems| {
                Some(read(node, schema, &name, problems))
            })))
        }
        Kind::Named(schema) => {
            let NodeValue::Table(entries) = &node.value else {
                problems.push(not_a_table(node, &name));
                return None;
            };
            let read = entries.iter().map(|entry| {
                let what = format!("`{}.{}` of {what}", field.key, shown(&entry.key));
                (Spanned::new(entry.key.clone(), entry.key_span), read(&entry.node, schema, &what, problems))
            });
            Some(Value::Named(read.collect()))
        }
        Kind::Shares => by_name(node, &name, (Dimension::NONE, Range::Share), "fresh = \"100 %\"", problems),
        Kind::Masses => {
            by_name(node, &name, (Dimension::MASS, Range::NotNegative), "bags = \"40 lb\"", problems)
        }
        Kind::Raw => Some(Value::Raw(node.clone())),
    }
}

/// A table of quantities under names of the author's.
fn by_name(
    node: &Node,
    name: &str,
    expected: (Dimension, Range),
    example: &str,
    problems: &mut Vec<Problem>,
) -> Option<Value> {
    let NodeValue::Table(entries) = &node.value else {
        problems.push(
            wrong_type(node, &format!("{name} must be a table")).help(format!("such as `{{ {example} }}`")),
        );
        return None;
    };
    let read = entries.iter().filter_map(|entry| {
        let name = format!("`{}` in {name}", shown(&entry.key));
        let value = quantity(&entry.node, &name, Some(expected), problems)?;
        Some((Spanned::new(entry.key.clone(), entry.key_span), Spanned::new(value, entry.node.span)))
    });
    Some(Value::ByName(read.collect()))
}

/// Reads every one of a list, until too much is wrong.
fn each<T>(
    nodes: &[Node],
    problems: &mut Vec<Problem>,
    read_one: impl Fn(&Node, &mut Vec<Problem>) -> Option<T>,
) -> Vec<T> {
    let mut read = Vec::new();
    for node in nodes {
        if full(problems) {
            break;
        }
        read.extend(read_one(node, problems));
    }
    read
}

fn array<'n>(node: &'n Node, name: &str, problems: &mut Vec<Problem>) -> Option<&'n [Node]> {
    let NodeValue::Array(nodes) = &node.value else {
        problems.push(wrong_type(node, &format!("{name} must be a list")).help("put it in square brackets"));
        return None;
    };
    Some(nodes)
}

/// Reads a text, which must have something in it, nothing that cannot be seen, and an end.
pub(crate) fn text<'n>(node: &'n Node, name: &str, problems: &mut Vec<Problem>) -> Option<&'n str> {
    let Some(text) = node.text() else {
        problems.push(wrong_type(node, &format!("{name} must be text")).help("put it in quotes"));
        return None;
    };
    if text.trim().is_empty() {
        problems.push(
            Problem::new("empty-text", format!("{name} is empty"))
                .at(Label::new(node.span, Role::Subject, "nothing in here"))
                .help("write something, or leave the field out"),
        );
        return None;
    }
    let long = text.chars().count();
    if long > LONGEST_TEXT {
        let message = format!("{name} is {long} characters long, and a text has at most {LONGEST_TEXT}");
        problems.push(
            Problem::new("too-long", message)
                .at(Label::new(node.span, Role::Subject, "too long"))
                .help("shorten it, or keep it in a file of its own"),
        );
        return None;
    }
    let hidden = |letter: char| is_hidden(letter) && !matches!(letter, '\n' | '\r' | '\t');
    if let Some((at, letter)) = text.char_indices().find(|(_, letter)| hidden(*letter)) {
        let message =
            format!("{name} holds the character `{}`, which cannot be seen", letter.escape_default());
        problems.push(
            Problem::new("hidden-character", message)
                .at(Label::new(node.part(at..at + letter.len_utf8()), Role::Subject, "in here"))
                .help("take it out"),
        );
        return None;
    }
    Some(text)
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
        let help = match near(written, words.iter().copied(), problems.len()) {
            Some(near) => format!("did you mean `{near}`? the words are {}", list(words.iter().copied())),
            None => format!("the words are {}", list(words.iter().copied())),
        };
        problems.push(
            Problem::new("unknown-word", format!("{name} cannot be `{}`", shown(written)))
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
        let written = shown(written);
        problems.push(
            Problem::new("wrong-dimension", format!("{name} must be {wanted}; `{written}` is {found}"))
                .at(Label::new(node.span, Role::Subject, format!("this is {found}")))
                .help(format!("write {wanted}, such as `{example}`")),
        );
        return None;
    }
    if let Some(refused) = range.refuses(quantity.si()) {
        let written = shown(written);
        problems.push(
            Problem::new("impossible-number", format!("{name} cannot be `{written}`: it must be {refused}"))
                .at(Label::new(node.span, Role::Subject, format!("must be {refused}")))
                .help("check the sign and the size of the number"),
        );
        return None;
    }
    Some(quantity)
}
