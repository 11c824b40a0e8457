//! The texts of one run, each under a number.

use std::sync::Arc;

use crate::{LineIndex, Location, Span};

/// The largest file taken, in bytes. A build spec is a few hundred lines; a megabyte is a mistake.
pub const MAX_BYTES: usize = 1 << 20;

/// The number of a file within one [`Sources`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SourceId(u32);

impl SourceId {
    /// The number itself, for ordering and for tables kept beside.
    pub const fn number(self) -> u32 {
        self.0
    }
}

/// One file: the name it is shown under, and its text.
#[derive(Debug, Clone)]
pub struct Source {
    name: String,
    text: String,
    lines: LineIndex,
}

impl Source {
    /// The name it is shown under: a path as the user gave it, with `/` between folders.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The whole text.
    pub fn text(&self) -> &str {
        &self.text
    }
}

/// Why bytes were not taken as a file.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum SourceError {
    /// Larger than [`MAX_BYTES`].
    #[error("`{name}` is {bytes} bytes long; a file may have at most {MAX_BYTES} bytes")]
    TooLarge {
        /// The file's name.
        name: String,
        /// Its size.
        bytes: usize,
    },
    /// Not UTF-8 text.
    #[error("`{name}` is not UTF-8 text: line {line} holds a byte that no UTF-8 text has there")]
    NotUtf8 {
        /// The file's name.
        name: String,
        /// The line, from 1, of the first bad byte.
        line: usize,
    },
}

impl SourceError {
    /// What to do about it.
    pub fn help(&self) -> &'static str {
        match self {
            Self::TooLarge { .. } => "split the file, or move what is not a spec elsewhere",
            Self::NotUtf8 { .. } => "save the file as UTF-8 in the editor",
        }
    }
}

/// All files of one run. Cheap to clone: the texts are shared.
#[derive(Debug, Clone, Default)]
pub struct Sources {
    files: Vec<Arc<Source>>,
}

impl Sources {
    /// No files yet.
    pub fn new() -> Self {
        Self::default()
    }

    /// Takes a file's bytes under a name.
    ///
    /// ```
    /// let mut sources = pintle_source::Sources::new();
    /// let id = sources.add_bytes("a.toml", b"[build]\n").unwrap();
    /// assert_eq!(sources.text(id), "[build]\n");
    /// assert!(sources.add_bytes("b.toml", b"\xff").is_err());
    /// ```
    pub fn add_bytes(&mut self, name: &str, bytes: &[u8]) -> Result<SourceId, SourceError> {
        if bytes.len() > MAX_BYTES {
            return Err(SourceError::TooLarge { name: name.to_owned(), bytes: bytes.len() });
        }
        match std::str::from_utf8(bytes) {
            Ok(text) => Ok(self.add(name, text)),
            Err(error) => {
                let good = bytes.get(..error.valid_up_to()).unwrap_or(&[]);
                let line = good.split(|byte| *byte == b'\n').count();
                Err(SourceError::NotUtf8 { name: name.to_owned(), line })
            }
        }
    }

    /// Takes a text under a name. A byte order mark stays in the text, so that offsets stay true.
    pub fn add(&mut self, name: &str, text: &str) -> SourceId {
        let id = SourceId(u32::try_from(self.files.len()).unwrap_or(u32::MAX));
        self.files.push(Arc::new(Source {
            name: name.to_owned(),
            text: text.to_owned(),
            lines: LineIndex::new(text),
        }));
        id
    }

    /// One file.
    pub fn file(&self, id: SourceId) -> Option<&Source> {
        self.files.get(id.0 as usize).map(Arc::as_ref)
    }

    /// A file's text; empty for a number that is not ours.
    pub fn text(&self, id: SourceId) -> &str {
        self.file(id).map_or("", Source::text)
    }

    /// A file's name; `?` for a number that is not ours.
    pub fn name(&self, id: SourceId) -> &str {
        self.file(id).map_or("?", Source::name)
    }

    /// The text that a span covers.
    pub fn slice(&self, span: Span) -> &str {
        self.text(span.source).get(span.range()).unwrap_or("")
    }

    /// The line and column at which a span starts.
    pub fn locate(&self, span: Span) -> Location {
        match self.file(span.source) {
            Some(file) => file.lines.locate(&file.text, span.start),
            None => Location { line: 1, column: 1 },
        }
    }

    /// The span of one place given as line and column, one character wide.
    pub fn at(&self, id: SourceId, location: Location) -> Option<Span> {
        let file = self.file(id)?;
        let start = file.lines.offset(&file.text, location)?;
        let width = file.text.get(start as usize..)?.chars().next().map_or(0, char::len_utf8);
        Some(Span::new(id, start, start + u32::try_from(width).unwrap_or(0)))
    }

    /// Files from first taken to last.
    pub fn iter(&self) -> impl Iterator<Item = &Source> {
        self.files.iter().map(Arc::as_ref)
    }
}

#[cfg(test)]
mod tests;
