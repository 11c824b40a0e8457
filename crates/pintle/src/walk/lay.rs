//! A record laid into the text of a spec: only what differs is written, the rest stays as its author wrote it.

use pintle_finding::Written;
use pintle_spec::field::{Field, Kind, Schema};
use pintle_spec::node::{Node, NodeValue};
use pintle_spec::schema::{build, record};
use toml_edit::{Array, ArrayOfTables, InlineTable, Item, Key, Table, Value};

use super::tree::{Held, Row, Tree, flag};
use crate::mend::write::{Place, push_to, remove_from, rewritten};

/// The text of a spec whose record is `old` with the record `new` in it. Rows of `new` say which rows of `old` they were.
///
/// # Errors
/// Why it cannot be written and the rest kept as it is, in words.
pub(super) fn lay(text: &str, old: &Tree, new: &Tree) -> Result<String, String> {
    if old == new {
        return Ok(text.to_owned());
    }
    rewritten(text, |root| {
        let key = build::RECORD.key;
        if !root.contains_key(key) {
            let mut table = Table::new();
            table.set_implicit(true);
            table.set_position(Some(last_position(root).saturating_add(1)));
            root.insert(key, Item::Table(table));
        }
        let item = root.get_mut(key).ok_or_else(|| lost(key))?;
        if let Item::Table(table) = &mut *item {
            give_place(table);
        }
        let place = Place::of(item).ok_or_else(|| format!("its `{key}` is no table"))?;
        in_table(place, &record::SCHEMA, old, new)
    })
}

fn lost(key: &str) -> String {
    format!("`{key}` cannot be found in it")
}

/// The position of the table that stands last.
fn last_position(table: &Table) -> isize {
    let inner = table.iter().map(|(_, item)| match item {
        Item::Table(table) => last_position(table),
        Item::ArrayOfTables(tables) => tables.iter().map(last_position).max().unwrap_or_default(),
        _ => 0,
    });
    inner.chain(table.position()).max().unwrap_or_default()
}

/// A table that has no header yet, only tables within it, gets one before the first of those when it needs one.
fn give_place(table: &mut Table) {
    if table.is_implicit() && table.position().is_none() {
        let first = table.iter().filter_map(|(_, item)| match item {
            Item::Table(table) => table.position(),
            Item::ArrayOfTables(tables) => tables.iter().filter_map(Table::position).min(),
            _ => None,
        });
        let first = first.min();
        table.set_position(first);
    }
}

fn in_table(mut place: Place<'_>, schema: &'static Schema, old: &Tree, new: &Tree) -> Result<(), String> {
    // Tables with headers of their own cannot stand in braces, nor below a table that is made by dotted keys.
    let headers = matches!(&place, Place::Block(table) if !table.is_dotted());
    for field in schema.all() {
        let (was, now) = (old.get(field), new.get(field));
        if was == now {
            continue;
        }
        match (field.kind, now) {
            (_, None) => remove(&mut place, field.key),
            (Kind::Table(schema), Some(Held::Table(now))) => {
                if !place.table().contains_key(field.key) {
                    if headers {
                        place.table().insert(field.key, Item::Table(new_table(schema, now)?));
                    } else {
                        place.put(field.key, Value::InlineTable(inline(schema, now)?));
                    }
                    continue;
                }
                let inner = place.table().get_mut(field.key).ok_or_else(|| lost(field.key))?;
                let inner = Place::of(inner).ok_or_else(|| format!("its `{}` is no table", field.key))?;
                let empty = Tree::default();
                let was = if let Some(Held::Table(was)) = was { was } else { &empty };
                in_table(inner, schema, was, now)?;
            }
            (Kind::Tables(schema), Some(Held::Rows(now))) => {
                let was = if let Some(Held::Rows(was)) = was { was.as_slice() } else { &[] };
                in_rows(&mut place, headers, field, schema, was, now)?;
            }
            (_, Some(Held::List(list))) => match place.table().get_mut(field.key) {
                Some(Item::Value(Value::Array(array))) => in_list(array, list),
                _ => place.put(field.key, Value::Array(list.iter().map(|text| text_value(text)).collect())),
            },
            (kind, Some(held)) => {
                let value = value(kind, held).ok_or_else(|| format!("`{}` cannot be written", field.key))?;
                place.put(field.key, value);
            }
        }
    }
    Ok(())
}

/// Takes a key away. Comment lines above it stay: with the key after it, or above the table's header.
fn remove(place: &mut Place<'_>, key: &str) {
    let table = place.table();
    let above = table.key(key).and_then(|key| key.leaf_decor().prefix()?.as_str()).map(str::to_owned);
    let values = table.iter().filter(|(held, item)| *held == key || item.is_value());
    let values: Vec<String> = values.map(|(held, _)| held.to_owned()).collect();
    let next = values.into_iter().skip_while(|held| held != key).nth(1);
    place.remove(key);
    let Some(above) = above.filter(|above| above.contains('#')) else { return };
    let below = next.and_then(|next| {
        let key = place.table().key(&next)?;
        Some((
            key.leaf_decor().prefix().and_then(|prefix| prefix.as_str()).unwrap_or_default().to_owned(),
            next,
        ))
    });
    match (below, place) {
        (Some((below, next)), place) => {
            if let Some(mut key) = place.table().key_mut(&next) {
                key.leaf_decor_mut().set_prefix(format!("{above}{below}"));
            }
        }
        (None, Place::Block(table)) => {
            let header = table.decor().prefix().and_then(|prefix| prefix.as_str()).unwrap_or("\n");
            let joined = format!("{header}{above}");
            table.decor_mut().set_prefix(joined);
        }
        (None, Place::Inline(_)) => {}
    }
}

/// A list of words or texts, of which those stay as they are that stay.
fn in_list(array: &mut Array, now: &[String]) {
    let text = |array: &Array, at: usize| {
        array.get(at).and_then(Value::as_str).map(|text| text.replace("\r\n", "\n").trim().to_owned())
    };
    let mut at = 0;
    while at < array.len() {
        if text(array, at).is_some_and(|text| now.contains(&text)) {
            at += 1;
        } else {
            remove_from(array, at);
        }
    }
    let kept: Vec<Option<String>> = (0..array.len()).map(|at| text(array, at)).collect();
    for new in now.iter().filter(|new| !kept.contains(&Some((*new).clone()))) {
        push_to(array, text_value(new));
    }
}

fn in_rows(
    place: &mut Place<'_>,
    headers: bool,
    field: &Field,
    schema: &'static Schema,
    old: &[Row],
    new: &[Row],
) -> Result<(), String> {
    let kept: Vec<usize> = new.iter().filter_map(|row| row.was).collect();
    let fresh_last = new.iter().skip_while(|row| row.was.is_some()).all(|row| row.was.is_none());
    if !fresh_last || !kept.is_sorted() || kept.last().is_some_and(|last| *last >= old.len()) {
        return Err(format!("the entries of `{}` stand in another order than in the file", field.key));
    }
    if !place.table().contains_key(field.key) {
        if headers {
            place.table().insert(field.key, Item::ArrayOfTables(ArrayOfTables::new()));
        } else {
            place.put(field.key, Value::Array(Array::new()));
        }
    }
    let rows = || new.iter().filter_map(|row| Some((row, old.get(row.was?)?)));
    match place.table().get_mut(field.key).ok_or_else(|| lost(field.key))? {
        Item::ArrayOfTables(tables) => {
            for (now, was) in rows() {
                let table = was.was.and_then(|at| tables.get_mut(at)).ok_or_else(|| lost(field.key))?;
                in_table(Place::Block(table), schema, &was.tree, &now.tree)?;
            }
            for at in (0..old.len()).rev().filter(|at| !kept.contains(at)) {
                tables.remove(at);
            }
            for row in new.iter().filter(|row| row.was.is_none()) {
                tables.push(new_table(schema, &row.tree)?);
            }
        }
        Item::Value(Value::Array(array)) => {
            for (now, was) in rows() {
                let table = was.was.and_then(|at| array.get_mut(at)?.as_inline_table_mut());
                in_table(Place::Inline(table.ok_or_else(|| lost(field.key))?), schema, &was.tree, &now.tree)?;
            }
            for at in (0..old.len()).rev().filter(|at| !kept.contains(at)) {
                remove_from(array, at);
            }
            for row in new.iter().filter(|row| row.was.is_none()) {
                push_to(array, inline(schema, &row.tree)?);
            }
        }
        _ => return Err(format!("its `{}` is no list of tables", field.key)),
    }
    Ok(())
}

/// A table under a header of its own, its equals signs in one column.
fn new_table(schema: &'static Schema, tree: &Tree) -> Result<Table, String> {
    let mut table = Table::new();
    let given = schema.all().filter_map(|field| Some((field, tree.get(field)?)));
    let longest = given.clone().map(|(field, _)| field.key.len()).max().unwrap_or(0);
    for (field, held) in given {
        let mut key = Key::new(field.key);
        key.leaf_decor_mut().set_suffix(" ".repeat(longest - field.key.len().min(longest) + 1));
        let value = value(field.kind, held).ok_or_else(|| format!("`{}` cannot be written", field.key))?;
        table.insert_formatted(&key, Item::Value(value));
    }
    table.decor_mut().set_prefix("\n");
    Ok(table)
}

fn inline(schema: &'static Schema, tree: &Tree) -> Result<InlineTable, String> {
    let mut table = InlineTable::new();
    for (field, held) in schema.all().filter_map(|field| Some((field, tree.get(field)?))) {
        let value = value(field.kind, held).ok_or_else(|| format!("`{}` cannot be written", field.key))?;
        table.insert(field.key, value);
    }
    Ok(table)
}

fn value(kind: Kind, held: &Held) -> Option<Value> {
    match (kind, held) {
        (Kind::Flag, Held::Text(word)) => flag(word).map(Value::from),
        (Kind::Count(_), Held::Text(digits)) => digits.parse::<i64>().ok().map(Value::from),
        (Kind::Table(schema), Held::Table(tree)) => inline(schema, tree).ok().map(Value::InlineTable),
        (Kind::Tables(schema), Held::Rows(rows)) => {
            let tables: Result<Vec<InlineTable>, String> =
                rows.iter().map(|row| inline(schema, &row.tree)).collect();
            Some(Value::Array(tables.ok()?.into_iter().collect()))
        }
        (_, Held::Text(text)) => Some(text_value(text)),
        (_, Held::List(list)) => Some(Value::Array(list.iter().map(|text| text_value(text)).collect())),
        _ => None,
    }
}

/// A text between plain quotes on one line, whatever is in it.
fn text_value(text: &str) -> Value {
    let quoted = Written::Text(text.to_owned()).toml();
    match quoted.parse::<Value>() {
        Ok(mut value) => {
            value.decor_mut().clear();
            value
        }
        Err(_) => Value::from(text),
    }
}

/// Whether two tables of a spec say the same, wherever it stands, one key left out.
pub(super) fn same_but(left: &Node, right: &Node, key: &str) -> bool {
    let rest = |node: &Node| -> Vec<(String, Node)> {
        let entries = node.entries().iter().filter(|entry| entry.key != key);
        let mut rest: Vec<_> = entries.map(|entry| (entry.key.clone(), entry.node.clone())).collect();
        rest.sort_by(|one, other| one.0.cmp(&other.0));
        rest
    };
    let (left, right) = (rest(left), rest(right));
    left.len() == right.len()
        && left.iter().zip(&right).all(|((one, left), (other, right))| one == other && same(left, right))
}

fn same(left: &Node, right: &Node) -> bool {
    match (&left.value, &right.value) {
        (NodeValue::Table(_), NodeValue::Table(_)) => same_but(left, right, ""),
        (NodeValue::Array(left), NodeValue::Array(right)) => {
            left.len() == right.len() && left.iter().zip(right).all(|(left, right)| same(left, right))
        }
        (NodeValue::Text { text: left, .. }, NodeValue::Text { text: right, .. }) => left == right,
        (left, right) => left == right,
    }
}

#[cfg(test)]
pub(crate) mod tests;
