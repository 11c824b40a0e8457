//! A TOML document as a tree in which every key and value knows its place.
//!
//! The tree owns its text, so parts of one file can stand in another's place: a stock part's fields under a
//! spec's item, a trial's change in its base spec. Each node keeps the file it came from.

mod grammar;

pub(crate) use grammar::section;
use pintle_finding::Problem;
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

    /// Fills in from `under` what a table has not; anything else stays as it is.
    pub(crate) fn fill_from(&mut self, under: &Node) {
        let NodeValue::Table(mine) = &mut self.value else { return };
        for entry in under.entries() {
            if mine.iter().all(|held| held.key != entry.key) {
                mine.push(entry.clone());
            }
        }
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
            NodeValue::Text { verbatim: true, text } if range.start < range.end => {
                let opening = opening_len(self.span.range().len(), text.len());
                self.span.part(range.start + opening..range.end + opening)
            }
            _ => self.span,
        }
    }
}

/// How many bytes stand before the text: one quote, or three and perhaps a line end after them.
fn opening_len(whole: usize, text: usize) -> usize {
    let around = whole.saturating_sub(text);
    if around <= 2 { 1 } else { around.saturating_sub(3) }
}

/// Reads a file of `sources` as TOML, as much of it as can be read, with every fault of its grammar.
pub fn parse(sources: &Sources, source: SourceId, problems: &mut Vec<Problem>) -> Node {
    let text = sources.text(source);
    let (table, errors) = DeTable::parse_recoverable(text);
    problems.extend(grammar::problems(source, text, &errors));
    // The parser takes a header that is not closed and the next one for one table: better read without the first.
    let without = grammar::without_broken_headers(text, &errors);
    let table = without.as_deref().map_or(table, |text| DeTable::parse_recoverable(text).0);
    let first_line = text.lines().next().unwrap_or("");
    let mark = if first_line.starts_with('\u{feff}') { '\u{feff}'.len_utf8() } else { 0 };
    let whole = span(source, &(mark..first_line.len()));
    Node { span: whole, value: table_value(source, text, table.get_ref()) }
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
            let start = range.start + opening_len(range.len(), content.len());
            let inside = text.get(start..start + content.len());
            // A bare word that was to be quoted is all its own text.
            let quoted = range.len() >= content.len() + 2;
            NodeValue::Text {
                verbatim: quoted && inside == Some(content.as_ref()),
                text: content.to_string(),
            }
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
