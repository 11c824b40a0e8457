//! From bytes to lines and columns.

/// A line and a column as an editor shows them: both count from 1, columns count characters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Location {
    /// Line, from 1.
    pub line: u32,
    /// Column in characters, from 1.
    pub column: u32,
}

/// Where each line of a text starts.
#[derive(Debug, Clone)]
pub struct LineIndex {
    starts: Vec<u32>,
}

impl LineIndex {
    /// Finds the line starts of a text.
    pub fn new(text: &str) -> Self {
        let mut starts = vec![0];
        for (offset, byte) in text.bytes().enumerate() {
            if byte == b'\n' {
                starts.push(u32::try_from(offset + 1).unwrap_or(u32::MAX));
            }
        }
        Self { starts }
    }

    /// The line and column of a byte offset; an offset past the end is the end.
    ///
    /// An offset within a character is that character's.
    pub fn locate(&self, text: &str, offset: u32) -> Location {
        let offset = whole_character(text, offset);
        let line = self.starts.partition_point(|start| *start <= offset).max(1);
        let start = self.starts.get(line - 1).copied().unwrap_or(0);
        let before = text.get(start as usize..offset as usize).unwrap_or("");
        // An editor does not show a byte order mark, so it does not count as a column.
        let before = if start == 0 { before.strip_prefix('\u{feff}').unwrap_or(before) } else { before };
        Location {
            line: u32::try_from(line).unwrap_or(u32::MAX),
            column: u32::try_from(before.chars().count() + 1).unwrap_or(u32::MAX),
        }
    }

    /// The byte offset of a line and a column (both from 1), if the text has such a place.
    pub fn offset(&self, text: &str, location: Location) -> Option<u32> {
        let start = *self.starts.get(location.line.checked_sub(1)? as usize)? as usize;
        let rest = text.get(start..)?;
        let mark = if start == 0 && rest.starts_with('\u{feff}') { '\u{feff}'.len_utf8() } else { 0 };
        let start = start + mark;
        let line = rest.get(mark..)?.split('\n').next().unwrap_or("").trim_end_matches('\r');
        let skipped = location.column.saturating_sub(1) as usize;
        let within = line.char_indices().nth(skipped).map_or(line.len(), |(at, _)| at);
        u32::try_from(start + within).ok()
    }
}

/// An offset moved back to where a character starts, and to the end if it is past that.
fn whole_character(text: &str, offset: u32) -> u32 {
    let mut at = (offset as usize).min(text.len());
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    u32::try_from(at).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests;
