//! A place in the text, moved one character at a time.

use std::ops::Range;

use super::number;

#[derive(Clone, Debug)]
pub(super) struct Cursor<'t> {
    text: &'t str,
    at: usize,
}

impl<'t> Cursor<'t> {
    pub(super) fn new(text: &'t str) -> Self {
        Self { text, at: 0 }
    }

    /// The byte it stands at.
    pub(super) fn at(&self) -> usize {
        self.at
    }

    pub(super) fn back_to(&self, at: usize) -> Self {
        Self { at, ..*self }
    }

    pub(super) fn rest(&self) -> &'t str {
        self.text.get(self.at..).unwrap_or_default()
    }

    pub(super) fn slice(&self, range: &Range<usize>) -> &'t str {
        self.text.get(range.clone()).unwrap_or_default()
    }

    pub(super) fn peek(&self) -> Option<char> {
        self.rest().chars().next()
    }

    pub(super) fn next(&mut self) -> Option<char> {
        let letter = self.peek()?;
        self.at += letter.len_utf8();
        Some(letter)
    }

    pub(super) fn take(&mut self, letter: char) -> bool {
        let there = self.peek() == Some(letter);
        if there {
            self.next();
        }
        there
    }

    pub(super) fn take_while(&mut self, keep: impl Fn(char) -> bool) -> &'t str {
        let start = self.at;
        while self.peek().is_some_and(&keep) {
            self.next();
        }
        self.slice(&(start..self.at))
    }

    pub(super) fn skip_spaces(&mut self) {
        self.take_while(char::is_whitespace);
    }

    /// Passes a sign; `Some(true)` for minus.
    pub(super) fn take_sign(&mut self) -> Option<bool> {
        let negative = match self.peek()? {
            '+' => false,
            dash if is_dash(dash) => true,
            _ => return None,
        };
        self.next();
        Some(negative)
    }

    pub(super) fn at_number(&self) -> bool {
        let mut letters = self.rest().chars();
        match letters.next() {
            Some('.' | '$') => letters.next().is_some_and(|digit| digit.is_ascii_digit()),
            Some(letter) => letter.is_ascii_digit() || number::vulgar(letter).is_some(),
            None => false,
        }
    }

    pub(super) fn at_tolerance(&self) -> bool {
        self.clone().take_tolerance()
    }

    pub(super) fn take_tolerance(&mut self) -> bool {
        for mark in ["±", "+/-", "+/−", "+-"] {
            if self.rest().starts_with(mark) {
                self.at += mark.len();
                return true;
            }
        }
        false
    }
}

/// Hyphen, minus and the dashes an editor puts in their place.
pub(super) fn is_dash(letter: char) -> bool {
    matches!(letter, '-' | '−' | '–' | '‐' | '‑')
}
