//! A record as a form holds it: what was typed, by the keys of its schema. It comes out of a spec's tree, goes to the
//! browser and comes back as JSON, and is laid into the spec's text by `lay`.

use std::collections::BTreeMap;

use pintle_spec::field::{Field, Kind, Schema};
use pintle_spec::node::{Node, NodeValue};
use serde_json::{Map, Value, json};

/// The key under which an entry of a list says which entry of the file it was; no key of a schema begins so.
const WAS: &str = "@was";
/// What a form says of a flag.
const YES: &str = "yes";
const NO: &str = "no";

/// A table: only fields in which something stands.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Tree(pub(super) BTreeMap<&'static str, Held>);

/// What stands in a field.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Held {
    /// A quantity, text, word, flag or count, as typed.
    Text(String),
    /// Words or texts.
    List(Vec<String>),
    Table(Tree),
    Rows(Vec<Row>),
}

/// One entry of a list of tables.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Row {
    /// Which entry of the file it was; none of a new one.
    pub(super) was: Option<usize>,
    pub(super) tree: Tree,
}

impl Tree {
    pub(super) fn get(&self, field: &Field) -> Option<&Held> {
        self.0.get(field.key)
    }

    pub(super) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Whether two say the same, whichever entries of a file they were.
    pub(super) fn says_the_same(&self, other: &Self) -> bool {
        self.nameless() == other.nameless()
    }

    fn nameless(&self) -> Self {
        let nameless = |held: &Held| match held {
            Held::Table(tree) => Held::Table(tree.nameless()),
            Held::Rows(rows) => {
                Held::Rows(rows.iter().map(|row| Row { was: None, tree: row.tree.nameless() }).collect())
            }
            held => held.clone(),
        };
        Self(self.0.iter().map(|(key, held)| (*key, nameless(held))).collect())
    }

    /// A table of a spec that could be read.
    pub(super) fn of(node: &Node, schema: &'static Schema) -> Self {
        let held =
            schema.all().filter_map(|field| Some((field.key, held(node.child(field.key)?, field.kind)?)));
        Self(held.collect())
    }

    /// What a browser sent; what is no such tree says why.
    pub(super) fn from_json(value: &Value, schema: &'static Schema) -> Result<Self, String> {
        let entries = value.as_object().ok_or_else(|| format!("{} is no table", schema.name))?;
        let mut tree = Self::default();
        for (key, value) in entries.iter().filter(|(key, _)| *key != WAS) {
            let field = schema.find(key).ok_or_else(|| format!("{} has no such field", schema.name))?;
            let wrong = || format!("`{}` of {} is not what its kind asks for", field.key, schema.name);
            if let Some(held) = from_json(value, field.kind, wrong)? {
                tree.0.insert(field.key, held);
            }
        }
        Ok(tree)
    }

    pub(super) fn to_json(&self) -> Value {
        Value::Object(self.0.iter().map(|(key, held)| ((*key).to_owned(), held.to_json())).collect())
    }
}

impl Held {
    pub(super) fn to_json(&self) -> Value {
        match self {
            Self::Text(text) => json!(text),
            Self::List(list) => json!(list),
            Self::Table(tree) => tree.to_json(),
            Self::Rows(rows) => rows.iter().map(Row::to_json).collect(),
        }
    }
}

impl Row {
    fn to_json(&self) -> Value {
        let mut entries = match self.tree.to_json() {
            Value::Object(entries) => entries,
            _ => Map::new(),
        };
        if let Some(was) = self.was {
            entries.insert(WAS.to_owned(), json!(was));
        }
        Value::Object(entries)
    }
}

/// What a flag's word stands for.
pub(super) fn flag(word: &str) -> Option<bool> {
    match word {
        YES => Some(true),
        NO => Some(false),
        _ => None,
    }
}

fn held(node: &Node, kind: Kind) -> Option<Held> {
    match (kind, &node.value) {
        (Kind::Table(schema), NodeValue::Table(_)) => {
            Some(Tree::of(node, schema)).filter(|tree| !tree.is_empty()).map(Held::Table)
        }
        (Kind::Tables(schema), NodeValue::Array(nodes)) => {
            let rows = nodes.iter().enumerate();
            let rows: Vec<Row> =
                rows.map(|(at, node)| Row { was: Some(at), tree: Tree::of(node, schema) }).collect();
            Some(Held::Rows(rows)).filter(|_| !nodes.is_empty())
        }
        (Kind::Words(words), NodeValue::Array(nodes)) => {
            let named = |word: &&&str| nodes.iter().any(|node| node.text() == Some(**word));
            let list: Vec<String> = words.iter().filter(named).map(|word| (*word).to_owned()).collect();
            Some(Held::List(list)).filter(|_| !nodes.is_empty())
        }
        (Kind::Texts, NodeValue::Array(nodes)) => {
            let list: Vec<String> = nodes.iter().filter_map(|node| node.text().map(plain)).collect();
            Some(Held::List(list)).filter(|_| !nodes.is_empty())
        }
        (_, NodeValue::Text { text, .. }) => Some(Held::Text(plain(text))),
        (_, NodeValue::Integer(Some(number))) => Some(Held::Text(number.to_string())),
        (_, NodeValue::Flag(flag)) => Some(Held::Text(if *flag { YES } else { NO }.to_owned())),
        _ => None,
    }
}

/// A text as a form shows it: with plain line ends, and nothing around it.
fn plain(text: &str) -> String {
    text.replace("\r\n", "\n").trim().to_owned()
}

fn from_json(value: &Value, kind: Kind, wrong: impl Fn() -> String) -> Result<Option<Held>, String> {
    match kind {
        Kind::Table(schema) => {
            let tree = Tree::from_json(value, schema)?;
            Ok(Some(tree).filter(|tree| !tree.is_empty()).map(Held::Table))
        }
        Kind::Tables(schema) => {
            let mut rows: Vec<Row> = Vec::new();
            for value in value.as_array().ok_or_else(&wrong)? {
                let tree = Tree::from_json(value, schema)?;
                let was = match value.get(WAS) {
                    None => None,
                    Some(was) => {
                        Some(was.as_u64().and_then(|was| usize::try_from(was).ok()).ok_or_else(&wrong)?)
                    }
                };
                if was.is_some() && rows.iter().any(|row| row.was == was) {
                    return Err(wrong());
                }
                // An entry that was added and in which nothing was typed is none.
                if !tree.is_empty() {
                    rows.push(Row { was, tree });
                }
            }
            Ok(Some(Held::Rows(rows)).filter(|held| *held != Held::Rows(Vec::new())))
        }
        Kind::Words(words) => {
            let given = strings(value).ok_or_else(&wrong)?;
            if given.iter().any(|given| !words.contains(&given.as_str())) {
                return Err(wrong());
            }
            let list: Vec<String> = words
                .iter()
                .filter(|word| given.iter().any(|given| given == *word))
                .map(|word| (*word).to_owned())
                .collect();
            Ok(Some(Held::List(list)).filter(|_| !given.is_empty()))
        }
        Kind::Texts => {
            let given = strings(value).ok_or_else(&wrong)?;
            let list: Vec<String> =
                given.iter().map(|text| plain(text)).filter(|text| !text.is_empty()).collect();
            Ok(Some(list).filter(|list| !list.is_empty()).map(Held::List))
        }
        _ => {
            let text = plain(value.as_str().ok_or_else(&wrong)?);
            Ok(Some(text).filter(|text| !text.is_empty()).map(Held::Text))
        }
    }
}

fn strings(value: &Value) -> Option<Vec<String>> {
    value.as_array()?.iter().map(|value| value.as_str().map(str::to_owned)).collect()
}

#[cfg(test)]
mod tests;
