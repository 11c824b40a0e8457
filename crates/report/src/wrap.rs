//! A text in lines of a given width.

use unicode_width::UnicodeWidthChar;

/// A text in lines of at most so many columns, broken at spaces; a word that is wider than a line is broken where the
/// line ends. There is one line at least.
pub(crate) fn wrapped(text: &str, most: usize) -> Vec<String> {
    wrapped_by(text, most, |letter| letter.width().unwrap_or(0))
}

/// The same where letters have other widths than columns.
pub(crate) fn wrapped_by(text: &str, most: usize, width_of: impl Fn(char) -> usize) -> Vec<String> {
    let mut lines = Vec::new();
    let (mut line, mut taken) = (String::new(), 0);
    for word in text.split_whitespace() {
        let needed: usize = word.chars().map(&width_of).sum();
        if !line.is_empty() {
            if taken + width_of(' ') + needed <= most {
                line.push(' ');
                taken += width_of(' ');
            } else {
                lines.push(std::mem::take(&mut line));
                taken = 0;
            }
        }
        for letter in word.chars() {
            let width = width_of(letter);
            if taken + width > most && !line.is_empty() {
                lines.push(std::mem::take(&mut line));
                taken = 0;
            }
            line.push(letter);
            taken += width;
        }
    }
    lines.push(line);
    lines
}

#[cfg(test)]
mod tests;
