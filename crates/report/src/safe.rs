//! Makes text from specs, rules and stock lists harmless to a terminal and honest to the eye.
//!
//! Law 9: nothing a file contains can write an escape sequence. Characters that command a terminal, turn the
//! direction of writing, or cannot be seen are replaced by a visible character *of the same length in UTF-8*, so
//! that byte offsets into a source stay true.

use std::borrow::Cow;
use std::fmt::Write as _;

/// Whether a character commands the terminal, reorders the line, breaks it, or hides.
///
/// That is: the control characters (C0, DEL, C1), the marks and overrides of writing direction, line and paragraph
/// separators, and characters with no width that no shop writes on purpose.
///
/// ```
/// use pintle_report::safe::is_hidden;
///
/// assert!(is_hidden('\u{1b}') && is_hidden('\u{202e}') && is_hidden('\u{200b}'));
/// assert!(!is_hidden('½') && !is_hidden(' '));
/// ```
pub fn is_hidden(letter: char) -> bool {
    matches!(letter,
        '\u{0}'..='\u{1f}' | '\u{7f}'..='\u{9f}' | '\u{ad}' | '\u{34f}' | '\u{61c}'
        | '\u{115f}' | '\u{1160}' | '\u{17b4}' | '\u{17b5}' | '\u{180b}'..='\u{180f}'
        | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}'
        | '\u{3164}' | '\u{feff}' | '\u{ffa0}' | '\u{fff0}'..='\u{fffb}'
        | '\u{1bca0}'..='\u{1bca3}' | '\u{1d173}'..='\u{1d17a}' | '\u{e0000}'..='\u{e0fff}')
}

/// A visible character as long in UTF-8 as `letter`.
fn stand_in(letter: char) -> char {
    match letter.len_utf8() {
        1 => '?',
        2 => '\u{bf}',
        3 => '\u{fffd}',
        _ => '\u{1f6ab}',
    }
}

/// A text for one line: hidden characters replaced; tabs and line ends become spaces.
///
/// ```
/// assert_eq!(pintle_report::safe::line("a\nb\u{1b}[31m"), "a b?[31m");
/// ```
pub fn line(text: &str) -> Cow<'_, str> {
    replaced(text, |letter, _| match letter {
        '\n' | '\r' | '\t' => ' ',
        other => stand_in(other),
    })
}

/// A piece of a source: hidden characters replaced, tabs and line ends kept, every byte offset still true. The
/// carriage return of a CRLF becomes a space; one that stands alone is replaced.
///
/// ```
/// assert_eq!(pintle_report::safe::snippet("a\tb\r\nc\u{202e}"), "a\tb \nc\u{fffd}");
/// ```
pub fn snippet(text: &str) -> Cow<'_, str> {
    replaced(text, |letter, next| match letter {
        '\n' | '\t' => letter,
        '\r' if next == Some('\n') => ' ',
        other => stand_in(other),
    })
}

fn replaced(text: &str, replace: impl Fn(char, Option<char>) -> char) -> Cow<'_, str> {
    if !text.contains(is_hidden) {
        return Cow::Borrowed(text);
    }
    let mut letters = text.chars().peekable();
    let mut clean = String::with_capacity(text.len());
    while let Some(letter) = letters.next() {
        let next = letters.peek().copied();
        clean.push(if is_hidden(letter) { replace(letter, next) } else { letter });
    }
    Cow::Owned(clean)
}

/// Finished JSON with hidden characters written as `\u` escapes, which a reader turns back into themselves. The
/// line ends of the layout are kept.
///
/// ```
/// assert_eq!(pintle_report::safe::json("\"\u{202e}\"".to_owned()), r#""\u202e""#);
/// ```
pub fn json(text: String) -> String {
    let risky = |letter: char| letter != '\n' && is_hidden(letter);
    if !text.contains(risky) {
        return text;
    }
    let mut escaped = String::with_capacity(text.len() + 64);
    for letter in text.chars() {
        if risky(letter) {
            for unit in letter.encode_utf16(&mut [0; 2]) {
                let _ = write!(escaped, "\\u{unit:04x}");
            }
        } else {
            escaped.push(letter);
        }
    }
    escaped
}

#[cfg(test)]
mod tests;
