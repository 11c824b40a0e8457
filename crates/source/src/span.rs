//! Places in files: a [`Span`] is a run of bytes in one file, a [`Spanned`] value remembers where it stands.

use crate::SourceId;

/// A run of bytes in one file. Offsets count bytes from the start of the file; `end` is one past the last.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Span {
    /// The file.
    pub source: SourceId,
    /// First byte.
    pub start: u32,
    /// One past the last byte.
    pub end: u32,
}

impl Span {
    /// A span over `start..end` of a file.
    pub const fn new(source: SourceId, start: u32, end: u32) -> Self {
        Self { source, start, end }
    }

    /// The same span cut down to `inner`, given in bytes from this span's start. Stays inside this span.
    #[must_use]
    pub fn part(self, inner: std::ops::Range<usize>) -> Self {
        let shift = |offset: usize| {
            let offset = u32::try_from(offset).unwrap_or(u32::MAX);
            self.start.saturating_add(offset).min(self.end)
        };
        Self { source: self.source, start: shift(inner.start), end: shift(inner.end) }
    }

    /// Whether `other` lies wholly inside this span.
    pub fn holds(self, other: Self) -> bool {
        self.source == other.source && self.start <= other.start && other.end <= self.end
    }

    /// Bytes as a range.
    pub fn range(self) -> std::ops::Range<usize> {
        self.start as usize..self.end as usize
    }
}

/// A value and the place in a file where its author wrote it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Spanned<T> {
    /// The value.
    pub value: T,
    /// Where it stands.
    pub span: Span,
}

impl<T> Spanned<T> {
    /// A value at a place.
    pub const fn new(value: T, span: Span) -> Self {
        Self { value, span }
    }

    /// Another value at the same place.
    pub fn map<U>(self, change: impl FnOnce(T) -> U) -> Spanned<U> {
        Spanned { value: change(self.value), span: self.span }
    }

    /// A borrowed value at the same place.
    pub fn as_ref(&self) -> Spanned<&T> {
        Spanned { value: &self.value, span: self.span }
    }
}

#[cfg(test)]
mod tests;
