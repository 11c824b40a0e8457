//! Changes of a spec written into its text, with comments and layout kept.

use pintle_finding::{Change, Written};
use pintle_spec::patch::told_apart_by;
use toml_edit::{Array, ArrayOfTables, DocumentMut, InlineTable, Item, Key, Table, TableLike, Value};

/// The text of a spec with changes made in it.
///
/// # Errors
/// Why the changes cannot be written and the rest kept as it is, in words.
pub(super) fn changed(text: &str, changes: &[Change]) -> Result<String, String> {
    rewritten(text, |root| {
        for change in changes {
            let steps: Vec<&str> = change.at.iter().map(String::as_str).collect();
            Place::Block(root)
                .make(&[], &steps, change.to.as_ref())
                .ok_or_else(|| format!("`{}` cannot be found in it", steps.join(".")))?;
        }
        Ok(())
    })
}

/// The text of a spec after something was made of its tables; marks, line ends and layout are kept.
///
/// # Errors
/// Why that cannot be, in words.
pub(crate) fn rewritten(
    text: &str,
    make: impl FnOnce(&mut Table) -> Result<(), String>,
) -> Result<String, String> {
    // The library writes plain line ends and no mark: both are put back as they were.
    let (mark, text) = match text.strip_prefix('\u{feff}') {
        Some(rest) => ("\u{feff}", rest),
        None => ("", text),
    };
    let returns = text.contains("\r\n");
    if returns && text.replace("\r\n", "").contains('\n') {
        return Err("some of its lines end in CR LF and some in LF; make them all alike first".to_owned());
    }
    let plain = if returns { text.replace("\r\n", "\n") } else { text.to_owned() };
    let ends = plain.ends_with('\n') || plain.is_empty();
    let mut document: DocumentMut =
        plain.parse().map_err(|error: toml_edit::TomlError| error.message().to_owned())?;
    if document.to_string().trim_end_matches('\n') != plain.trim_end_matches('\n') || plain.contains('\r') {
        return Err("its layout has something that would not be kept".to_owned());
    }
    make(document.as_table_mut())?;
    let mut new = document.to_string();
    if !ends {
        new.truncate(new.trim_end_matches('\n').len());
    }
    let new = if returns { new.replace('\n', "\r\n") } else { new };
    Ok(format!("{mark}{new}"))
}

/// A table with lines of its own, or one in braces.
pub(crate) enum Place<'d> {
    Block(&'d mut Table),
    Inline(&'d mut InlineTable),
}

impl<'d> Place<'d> {
    pub(crate) fn of(item: &'d mut Item) -> Option<Self> {
        match item {
            Item::Table(table) => Some(Self::Block(table)),
            Item::Value(Value::InlineTable(table)) => Some(Self::Inline(table)),
            _ => None,
        }
    }

    pub(crate) fn table(&mut self) -> &mut dyn TableLike {
        match self {
            Self::Block(table) => *table,
            Self::Inline(table) => *table,
        }
    }

    /// Makes one change in it; `way` are the keys that lead to it. None where the keys lead nowhere.
    fn make(&mut self, way: &[&str], steps: &[&str], to: Option<&Written>) -> Option<()> {
        let (first, rest) = steps.split_first()?;
        let here = [way, &[*first]].concat();
        if let (Some((tag, rest)), Some(key)) = (rest.split_first(), told_apart_by(&here)) {
            let inside = [&here[..], &[*tag]].concat();
            return in_list(self.table(), first, key, tag, &inside, rest, to);
        }
        if rest.is_empty() {
            return match to {
                Some(to) => self.set(first, to),
                None => self.remove(first),
            };
        }
        if !self.table().contains_key(first) {
            to?;
            self.add(first, Value::InlineTable(InlineTable::new()));
        }
        let inner = self.table().get_mut(first)?;
        Place::of(inner)?.make(&here, rest, to)
    }

    /// Writes a value under a key, in place of what is there, with the comment beside it kept.
    fn set(&mut self, key: &str, to: &Written) -> Option<()> {
        match self.table().get_mut(key) {
            Some(Item::Table(held)) => {
                // A table under a header of its own: its fields are replaced, so that the header stays.
                let Written::Table(entries) = to else { return None };
                held.clear();
                for (key, value) in entries {
                    held.insert(key, Item::Value(as_value(value)));
                }
            }
            Some(Item::ArrayOfTables(_)) => return None,
            _ => self.put(key, as_value(to)),
        }
        Some(())
    }

    /// The same of a value, where nothing but a value can be.
    pub(crate) fn put(&mut self, key: &str, new: Value) {
        match self.table().get_mut(key) {
            Some(Item::Value(held)) => {
                let decor = held.decor().clone();
                *held = new;
                *held.decor_mut() = decor;
            }
            _ => self.add(key, new),
        }
    }

    pub(crate) fn remove(&mut self, key: &str) -> Option<()> {
        self.table().remove(key)?;
        self.lay_out();
        Some(())
    }

    /// Adds a key laid out like its neighbours: equals signs in one column.
    fn add(&mut self, key: &str, value: Value) {
        let table = self.table();
        let neighbour = table.iter().filter(|(_, item)| item.is_value()).last();
        let column = neighbour.and_then(|(held, _)| {
            let held = table.key(held)?;
            Some(held.display_repr().len() + held.leaf_decor().suffix()?.as_str()?.len())
        });
        table.insert(key, Item::Value(value));
        if let (Some(column), Self::Block(table)) = (column, &mut *self)
            && let Some(mut new) = table.key_mut(key)
        {
            let width = new.display_repr().len();
            new.leaf_decor_mut().set_suffix(" ".repeat(column.saturating_sub(width).max(1)));
        }
        self.lay_out();
    }

    /// Lays a table in braces out anew after keys have come or gone, where it stands on one line.
    fn lay_out(&mut self) {
        let Self::Inline(table) = self else { return };
        // What stands after its brace, such as a comment, is none of its layout.
        let decor = std::mem::take(table.decor_mut());
        if !table.to_string().contains(['\n', '#']) {
            table.fmt();
        }
        *table.decor_mut() = decor;
    }
}

/// Makes a change in, or of, one table of a list.
fn in_list(
    table: &mut dyn TableLike,
    list: &str,
    key: &str,
    tag: &str,
    way: &[&str],
    rest: &[&str],
    to: Option<&Written>,
) -> Option<()> {
    if !table.contains_key(list) {
        table.insert(list, Item::ArrayOfTables(ArrayOfTables::new()));
    }
    match table.get_mut(list)? {
        Item::ArrayOfTables(tables) => {
            let named = |held: &Table| held.get(key).and_then(Item::as_str) == Some(tag);
            let at = tables.iter().position(named);
            match (at, rest.is_empty(), to) {
                (Some(at), true, None) => {
                    tables.remove(at);
                }
                (Some(at), false, _) => Place::Block(tables.get_mut(at)?).make(way, rest, to)?,
                (None, true, Some(Written::Table(entries))) => tables.push(new_table(key, tag, entries)),
                _ => return None,
            }
        }
        Item::Value(Value::Array(array)) => {
            let named = |held: &Value| {
                held.as_inline_table().and_then(|held| held.get(key)).and_then(Value::as_str) == Some(tag)
            };
            let at = array.iter().position(named);
            match (at, rest.is_empty(), to) {
                (Some(at), true, None) => remove_from(array, at),
                (Some(at), false, _) => {
                    Place::Inline(array.get_mut(at)?.as_inline_table_mut()?).make(way, rest, to)?;
                }
                (None, true, Some(Written::Table(entries))) => {
                    let mut inline = InlineTable::new();
                    inline.insert(key, Value::from(tag));
                    for (key, value) in entries {
                        inline.insert(key, as_value(value));
                    }
                    array.push(inline);
                }
                _ => return None,
            }
        }
        _ => return None,
    }
    Some(())
}

/// Takes a value out of a list. A comment after it on its line goes with it; one on the line before stays.
pub(crate) fn remove_from(array: &mut Array, at: usize) {
    let before = prefix(&array.remove(at)).to_owned();
    let after = match array.get(at) {
        Some(next) => prefix(next).to_owned(),
        None => array.trailing().as_str().unwrap_or_default().to_owned(),
    };
    // What stands after a value up to the end of its line belongs to it, and is kept with what follows.
    let joined = match (before.split_once('\n'), after.split_once('\n')) {
        (Some((of_last, _)), Some((_, of_next))) => format!("{of_last}\n{of_next}"),
        _ if at == 0 => before,
        _ => after,
    };
    match array.get_mut(at) {
        Some(next) => next.decor_mut().set_prefix(joined),
        None => array.set_trailing(joined),
    }
}

/// Puts a value at the end of a list, on a line of its own where the others stand so. A comment behind the last one stays
/// behind it.
pub(crate) fn push_to(array: &mut Array, value: impl Into<Value>) {
    let mut value = value.into();
    let lines = array.iter().any(|held| prefix(held).contains('\n'));
    let indent = array
        .iter()
        .filter_map(|held| prefix(held).rsplit_once('\n'))
        .last()
        .map_or("", |(_, indent)| indent);
    let indent = if lines { format!("\n{indent}") } else { " ".to_owned() };
    let comma = array.trailing_comma();
    let behind = if comma {
        array.trailing().as_str().unwrap_or_default().to_owned()
    } else {
        let last = array.len().checked_sub(1).and_then(|last| array.get_mut(last));
        let last = last.map(Value::decor_mut);
        let behind = last.as_ref().and_then(|decor| decor.suffix()?.as_str()).unwrap_or_default().to_owned();
        if let Some(decor) = last {
            decor.set_suffix("");
        }
        behind
    };
    if array.is_empty() {
        array.push(value);
        return;
    }
    let (of_last, end) = match behind.rsplit_once('\n') {
        Some((of_last, end)) => (of_last.to_owned(), format!("\n{end}")),
        None if behind.contains('#') => (behind.clone(), "\n".to_owned()),
        None => (String::new(), behind.clone()),
    };
    value.decor_mut().set_prefix(format!("{of_last}{indent}"));
    if comma {
        array.set_trailing(end);
        value.decor_mut().set_suffix("");
    } else {
        value.decor_mut().set_suffix(end);
    }
    array.push_formatted(value);
}

fn prefix(value: &Value) -> &str {
    value.decor().prefix().and_then(|prefix| prefix.as_str()).unwrap_or_default()
}

/// A table of a list with a header of its own, its equals signs in one column.
fn new_table(key: &str, tag: &str, entries: &[(String, Written)]) -> Table {
    let mut table = Table::new();
    let longest = entries.iter().map(|(key, _)| key.len()).chain([key.len()]).max().unwrap_or(0);
    let mut add = |key: &str, value: Value| {
        let mut padded = Key::new(key);
        padded.leaf_decor_mut().set_suffix(" ".repeat(longest - key.len().min(longest) + 1));
        table.insert_formatted(&padded, Item::Value(value));
    };
    add(key, Value::from(tag));
    for (key, value) in entries {
        add(key, as_value(value));
    }
    table.decor_mut().set_prefix("\n");
    table
}

fn as_value(written: &Written) -> Value {
    match written {
        Written::Text(text) => Value::from(text.as_str()),
        Written::Count(count) => Value::from(*count),
        Written::Flag(flag) => Value::from(*flag),
        Written::List(list) => Value::Array(list.iter().map(as_value).collect()),
        Written::Table(entries) => {
            let mut table = InlineTable::new();
            for (key, value) in entries {
                table.insert(key, as_value(value));
            }
            Value::InlineTable(table)
        }
    }
}

#[cfg(test)]
mod tests;
