//! From a script's line and column to the token that stands there.

use pintle_source::{Location, SourceId, Sources, Span};
use rhai::Position;

/// The span of the token at a position of a script; none for a position that is not known.
pub fn place(sources: &Sources, script: SourceId, position: Position) -> Option<Span> {
    let count = |number: usize| u32::try_from(number).ok();
    let location =
        Location { line: count(position.line()?)?, column: count(position.position().unwrap_or(1))? };
    let start = sources.at(script, location)?;
    let rest = sources.text(script).get(start.start as usize..)?;
    let word = |c: char| c.is_alphanumeric() || c == '_';
    let width = match rest.chars().next() {
        Some(first) if word(first) => rest.find(|c| !word(c)).unwrap_or(rest.len()),
        Some(first) => first.len_utf8(),
        None => 0,
    };
    Some(Span { end: start.start + count(width)?, ..start })
}
