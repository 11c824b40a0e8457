//! A TOML document as a tree in which every key and value knows its place.
//!
//! The tree owns its text, so parts of one file can stand in another's place: a stock part's fields under a
//! spec's item, a trial's change in its base spec. Each node keeps the file it came from.

use pintle_finding::{Label, Problem, Role};
use pintle_source::{SourceId, Sources, Span};
use toml::de::{DeTable, DeValue};

/// A value and its place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Node {
    /// The place. For a table with a header, its header line; for a table made by dotted keys, the first key.
    pub span: Span,
    /// The value.
    pub value: NodeValue,
}

/// What a node holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NodeValue {
    /// Keys and values in the order written.
    Table(Vec<Entry>),
    /// Values in order.
    Array(Vec<Node>),
    /// Text. `verbatim` says that the bytes between its quotes are the text itself, so that a part of the text
    /// can be found in the file.
    Text {
        /// The text without quotes, escapes resolved.
        text: String,
        /// Whether an offset in the text is an offset in the file.
        verbatim: bool,
    },
    /// A whole number, or nothing when it does not fit.
    Integer(Option<i64>),
    /// A number with a point or an exponent.
    Float,
    /// True or false.
    Flag(bool),
    /// A date or a time, as written.
    Date(String),
}

/// A key with its value.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// The key.
    pub key: String,
    /// Where the key stands.
    pub key_span: Span,
    /// The value.
    pub node: Node,
}

impl Node {
    /// The entries of a table; none for anything else.
    pub fn entries(&self) -> &[Entry] {
        match &self.value {
            NodeValue::Table(entries) => entries,
            _ => &[],
        }
    }

    /// The value under a key of a table.
    pub fn child(&self, key: &str) -> Option<&Node> {
        self.entries().iter().find(|entry| entry.key == key).map(|entry| &entry.node)
    }

    /// The text of a text node.
    pub fn text(&self) -> Option<&str> {
        match &self.value {
            NodeValue::Text { text, .. } => Some(text),
            _ => None,
        }
    }

    /// What kind of value this is, in words for messages.
    pub fn kind(&self) -> &'static str {
        match &self.value {
            NodeValue::Table(_) => "a table",
            NodeValue::Array(_) => "a list",
            NodeValue::Text { .. } => "text",
            NodeValue::Integer(_) => "a bare whole number",
            NodeValue::Float => "a bare number",
            NodeValue::Flag(_) => "true or false",
            NodeValue::Date(_) => "a date",
        }
    }

    /// The place of a part of a text node, given in bytes of the text; the whole node where that is not known.
    pub fn part(&self, range: std::ops::Range<usize>) -> Span {
        match &self.value {
            NodeValue::Text { verbatim: true, .. } if range.start < range.end => {
                self.span.part(range.start + 1..range.end + 1)
            }
            _ => self.span,
        }
    }
}

/// Reads a file of `sources` as TOML, as much of it as can be read, with every fault of its grammar.
pub fn parse(sources: &Sources, source: SourceId, problems: &mut Vec<Problem>) -> Node {
    let text = sources.text(source);
    let (table, errors) = DeTable::parse_recoverable(text);
    for error in errors {
        problems.push(grammar_problem(source, text, &error));
    }
    let whole = span(source, &(0..text.lines().next().map_or(0, str::len)));
    Node { span: whole, value: table_value(source, text, table.get_ref()) }
}

fn grammar_problem(source: SourceId, text: &str, error: &toml::de::Error) -> Problem {
    let mut range = error.span().unwrap_or(0..0);
    if range.is_empty() {
        // Point at something that can be seen: the character there, or the one before the line's end.
        let here = text.get(range.start..).and_then(|rest| rest.chars().next());
        match here {
            Some(seen) if seen != '\n' && seen != '\r' => range.end = range.start + seen.len_utf8(),
            _ => {
                let before = text.get(..range.start).and_then(|front| front.chars().next_back());
                range.start -= before.map_or(0, char::len_utf8);
            }
        }
    }
    let message = error.message().lines().next().unwrap_or("unreadable");
    let (code, help) = match message {
        "duplicate key" => ("duplicate-key", "keep one of the two"),
        told if told.contains("must be quoted") => ("not-toml", "put the value in quotes"),
        _ => (
            "not-toml",
            "correct the line; a value with an inch mark needs '''…''' or \\\" inside its quotes",
        ),
    };
    Problem::new(code, format!("this is not TOML: {message}"))
        .at(Label::new(span(source, &range), Role::Subject, "here"))
        .help(help)
}

fn span(source: SourceId, range: &std::ops::Range<usize>) -> Span {
    let offset = |bytes: usize| u32::try_from(bytes).unwrap_or(u32::MAX);
    Span::new(source, offset(range.start), offset(range.end))
}

fn table_value(source: SourceId, text: &str, table: &DeTable<'_>) -> NodeValue {
    let entries = table.iter().map(|(key, value)| Entry {
        key: key.get_ref().to_string(),
        key_span: span(source, &key.span()),
        node: node(source, text, value.span(), value.get_ref()),
    });
    NodeValue::Table(entries.collect())
}

fn node(source: SourceId, text: &str, range: std::ops::Range<usize>, value: &DeValue<'_>) -> Node {
    let value = match value {
        DeValue::String(content) => {
            let inside = text.get(range.start + 1..range.end.saturating_sub(1));
            NodeValue::Text { verbatim: inside == Some(content.as_ref()), text: content.to_string() }
        }
        DeValue::Integer(number) => {
            NodeValue::Integer(i64::from_str_radix(number.as_str(), number.radix()).ok())
        }
        DeValue::Float(_) => NodeValue::Float,
        DeValue::Boolean(flag) => NodeValue::Flag(*flag),
        DeValue::Datetime(date) => NodeValue::Date(date.to_string()),
        DeValue::Array(list) => NodeValue::Array(
            list.iter().map(|item| node(source, text, item.span(), item.get_ref())).collect(),
        ),
        DeValue::Table(table) => table_value(source, text, table),
    };
    Node { span: span(source, &range), value }
}
