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
    pub fn locate(&self, text: &str, offset: u32) -> Location {
        let offset = offset.min(u32::try_from(text.len()).unwrap_or(u32::MAX));
        let line = self.starts.partition_point(|start| *start <= offset).max(1);
        let start = self.starts.get(line - 1).copied().unwrap_or(0);
        let before = text.get(start as usize..offset as usize).unwrap_or("");
        Location {
            line: u32::try_from(line).unwrap_or(u32::MAX),
            column: u32::try_from(before.chars().count() + 1).unwrap_or(u32::MAX),
        }
    }

    /// The byte offset of a line and a column (both from 1), if the text has such a place.
    pub fn offset(&self, text: &str, location: Location) -> Option<u32> {
        let start = *self.starts.get(location.line.checked_sub(1)? as usize)? as usize;
        let rest = text.get(start..)?;
        let line = rest.split('\n').next().unwrap_or("");
        let skipped = location.column.saturating_sub(1) as usize;
        let within = line.char_indices().nth(skipped).map_or(line.len(), |(at, _)| at);
        u32::try_from(start + within).ok()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_count_characters_and_lines_count_from_one() {
        let text = "a = \"7½ in\"\nb = 2\n";
        let index = LineIndex::new(text);
        let second = u32::try_from(text.find('b').unwrap()).unwrap();
        assert_eq!(index.locate(text, second), Location { line: 2, column: 1 });
        let inch = u32::try_from(text.find("in").unwrap()).unwrap();
        assert_eq!(index.locate(text, inch), Location { line: 1, column: 9 });
        assert_eq!(index.offset(text, Location { line: 1, column: 9 }), Some(inch));
        assert_eq!(index.locate(text, 9_999).line, 3);
    }
}
