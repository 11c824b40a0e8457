//! Words on the page: how wide they are at most, and lines of them one below the other.

use svg::node::element::{Group, Text};

use crate::safe;
use crate::wrap::wrapped_by;

/// Size of letters.
pub(super) const SIZE: u16 = 13;
/// From one line to the next.
pub(super) const LINE: f64 = 17.0;

/// Words at a place, harmless to whoever reads the drawing.
pub(super) fn written_at(x: f64, y: f64, words: &str) -> Text {
    Text::new(safe::line(words)).set("x", at_tenth(x)).set("y", at_tenth(y))
}

/// A place as it is written.
pub(super) fn at_tenth(value: f64) -> f64 {
    (value * 10.0).round() / 10.0
}

/// Lines of words one below the other.
#[derive(Debug)]
pub(super) struct Sheet {
    group: Group,
    left: f64,
    next: f64,
}

impl Sheet {
    /// A sheet that begins at a place.
    pub(super) fn new(left: f64, top: f64) -> Self {
        Self { group: Group::new(), left, next: top }
    }

    /// Where the next line would stand.
    pub(super) fn bottom(&self) -> f64 {
        self.next
    }

    /// Words in lines of a width, further in by so much.
    pub(super) fn words(&mut self, words: &str, indent: f64, width: f64) {
        self.write(words, indent, width, SIZE, false);
    }

    /// The same in bold letters.
    pub(super) fn bold(&mut self, words: &str, indent: f64, width: f64) {
        self.write(words, indent, width, SIZE, true);
    }

    /// The same in the letters of a title.
    pub(super) fn title(&mut self, words: &str, width: f64) {
        self.write(words, 0.0, width, 17, true);
    }

    /// A sign at the left of the next line, drawn about its own middle.
    pub(super) fn sign(&mut self, sign: Group) {
        let (x, y) = (at_tenth(self.left + 10.0), at_tenth(self.next - 4.0));
        let group = std::mem::take(&mut self.group);
        self.group = group.add(sign.set("transform", format!("translate({x} {y})")));
    }

    /// Some space.
    pub(super) fn space(&mut self, height: f64) {
        self.next += height;
    }

    fn write(&mut self, words: &str, indent: f64, width: f64, size: u16, bold: bool) {
        for line in lines(words, size, width - indent) {
            let mut text = written_at(self.left + indent, self.next, &line);
            if bold {
                text = text.set("font-weight", "bold").set("font-size", size);
            }
            let group = std::mem::take(&mut self.group);
            self.group = group.add(text);
            self.next += LINE * f64::from(size) / f64::from(SIZE);
        }
    }

    /// Another sheet beside this one.
    pub(super) fn beside(self, other: Self) -> Self {
        let next = self.next.max(other.next);
        Self { group: self.group.add(other.group), left: self.left, next }
    }

    /// What has been written.
    pub(super) fn into_group(self) -> Group {
        self.group
    }
}

/// Words in lines that are no wider than so much, whichever sans-serif letters they are drawn with.
pub(super) fn lines(words: &str, size: u16, width: f64) -> Vec<String> {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a width on a page, not negative"
    )]
    let hundredths = (width / f64::from(size) * 100.0).max(0.0) as usize;
    wrapped_by(&safe::line(words), hundredths, letter_width)
}

/// How wide words are at the most.
pub(super) fn words_width(words: &str) -> f64 {
    let hundredths: usize = words.chars().map(letter_width).sum();
    f64::from(u32::try_from(hundredths).unwrap_or(u32::MAX)) / 100.0 * f64::from(SIZE)
}

/// The width of a letter at the most, in hundredths of its size. The letters of several free sans-serif typefaces are
/// no wider; bold ones are a tenth wider, which most words make good by their narrow letters.
fn letter_width(letter: char) -> usize {
    match letter {
        'i' | 'j' | 'l' | '.' | ',' | ':' | ';' | '\'' | '|' | '!' | ' ' => 34,
        'f' | 't' | 'r' | 'I' | '(' | ')' | '[' | ']' | '-' | '`' | '/' | '"' => 42,
        'm' | 'M' | 'w' | 'W' | '%' | '@' | 'Q' | 'O' | 'G' | 'D' | 'H' | 'N' | 'U' | '±' => 100,
        letter if letter.is_ascii_uppercase() => 74,
        letter if letter.is_ascii() => 64,
        letter => 100 * unicode_width::UnicodeWidthChar::width(letter).unwrap_or(1),
    }
}
