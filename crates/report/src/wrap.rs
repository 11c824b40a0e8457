//! A text in lines of a given width.

use unicode_width::{UnicodeWidthChar, UnicodeWidthStr};

/// A text in lines of at most so many columns, broken at spaces; a word that is wider than a line is broken where the
/// line ends. There is one line at least.
pub(crate) fn wrapped(text: &str, most: usize) -> Vec<String> {
    let most = most.max(1);
    let mut lines = vec![String::new()];
    for word in text.split_whitespace() {
        let mut rest = word;
        while !rest.is_empty() {
            let Some(line) = lines.last_mut() else { break };
            let room = most.saturating_sub(line.width() + usize::from(!line.is_empty()));
            let whole = rest.width() <= room;
            // A word that would fit on a line of its own is not broken.
            if !whole && !line.is_empty() {
                lines.push(String::new());
                continue;
            }
            let (piece, after) = if whole { (rest, "") } else { rest.split_at(fitting(rest, most)) };
            if !line.is_empty() {
                line.push(' ');
            }
            line.push_str(piece);
            rest = after;
        }
    }
    lines
}

/// How many bytes of a word fit in so many columns; one letter at least.
fn fitting(word: &str, most: usize) -> usize {
    let mut width = 0;
    for (at, letter) in word.char_indices() {
        width += letter.width().unwrap_or(0);
        if width > most && at > 0 {
            return at;
        }
    }
    word.len()
}

#[cfg(test)]
mod tests;
