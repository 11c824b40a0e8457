//! From a script's line and column to the token that stands there.

use pintle_source::{Location, SourceId, Sources, Span};
use rhai::Position;

/// The span of the token at a position of a script; none for a position that is not known.
pub fn place(sources: &Sources, script: SourceId, position: Position) -> Option<Span> {
    let count = |number: usize| u32::try_from(number).ok();
    let location =
        Location { line: count(position.line()?)?, column: count(position.position().unwrap_or(1))? };
    let mut start = sources.at(script, location)?;
    let mut rest = sources.text(script).get(start.start as usize..)?;
    // Of `state.gross` the language points at the point; what is meant is the name after it.
    if let Some(name) = rest.strip_prefix('.').filter(|name| name.starts_with(char::is_alphabetic)) {
        rest = name;
        start.start += 1;
    }
    let word = |c: char| c.is_alphanumeric() || c == '_';
    let width = match rest.chars().next() {
        Some(first) if word(first) => rest.find(|c| !word(c)).unwrap_or(rest.len()),
        Some(quote @ ('"' | '`')) => text_width(rest, quote),
        Some(_) if SIGNS.iter().any(|sign| rest.starts_with(sign)) => 2,
        Some(first) => first.len_utf8(),
        None => 0,
    };
    Some(Span { end: start.start + count(width)?, ..start })
}

/// Signs of two letters.
const SIGNS: [&str; 12] = ["==", "!=", "<=", ">=", "&&", "||", "+=", "-=", "*=", "/=", "**", ".."];

/// How wide a text is with its quotes, if it ends on its line; else the first quote alone.
fn text_width(text: &str, quote: char) -> usize {
    let mut escaped = false;
    for (at, letter) in text.char_indices().skip(1) {
        match letter {
            '\n' => break,
            _ if escaped => escaped = false,
            '\\' => escaped = true,
            _ if letter == quote => return at + quote.len_utf8(),
            _ => {}
        }
    }
    quote.len_utf8()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_token_at_a_position_is_underlined() {
        let mut sources = Sources::new();
        let text = "let a = 1;\n// größer\nreading(state.gross) + größe;\n\"a \\\" b\" >= `c\n`;\n";
        let script = sources.add("rule.rhai", text);
        let token = |line: u16, column: u16| {
            place(&sources, script, Position::new(line, column)).map(|span| sources.slice(span).to_owned())
        };
        assert_eq!(token(3, 1).as_deref(), Some("reading"));
        assert_eq!(token(3, 9).as_deref(), Some("state"));
        assert_eq!(token(3, 14).as_deref(), Some("gross"), "the name after the point");
        assert_eq!(token(3, 22).as_deref(), Some("+"));
        assert_eq!(token(3, 24).as_deref(), Some("größe"), "columns count letters");
        assert_eq!(token(4, 1).as_deref(), Some("\"a \\\" b\""), "a text as a whole");
        assert_eq!(token(4, 10).as_deref(), Some(">="));
        assert_eq!(token(4, 13).as_deref(), Some("`"), "a text that does not end on its line");
        assert_eq!(place(&sources, script, Position::NONE), None);
        assert_eq!(token(99, 1), None);
    }
}
