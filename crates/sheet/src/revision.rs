//! Which spec, stock and rulebook a sheet was made from, as one short number: their hash.

use std::fmt;

use pintle_source::Sources;
use sha2::{Digest as _, Sha256};

/// The hash of every file that a sheet was made from, by name and content.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Revision([u8; 32]);

impl Revision {
    /// Of all files of a build: spec, stock list, rulebook and rules.
    pub fn of(sources: &Sources) -> Self {
        let mut files: Vec<_> = sources.iter().map(|source| (source.name(), source.text())).collect();
        files.sort_unstable();
        let mut hash = Sha256::new();
        for (name, text) in files {
            // With the lengths, no two sets of files run together to the same bytes.
            for part in [name, text] {
                hash.update(part.len().to_be_bytes());
                hash.update(part.as_bytes());
            }
        }
        Self(hash.finalize().into())
    }

    /// The first twelve digits, which is what a person compares.
    pub fn short(&self) -> String {
        self.to_string().chars().take(12).collect()
    }
}

impl fmt::Display for Revision {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|byte| write!(f, "{byte:02x}"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(files: &[(&str, &str)]) -> Revision {
        let mut sources = Sources::new();
        for (name, text) in files {
            sources.add(name, text);
        }
        Revision::of(&sources)
    }

    #[test]
    fn it_changes_with_any_file_and_with_nothing_else() {
        let first = of(&[("a.toml", "x"), ("b.toml", "y")]);
        assert_eq!(first, of(&[("b.toml", "y"), ("a.toml", "x")]), "order of reading");
        assert_ne!(first, of(&[("a.toml", "xy"), ("b.toml", "")]));
        assert_ne!(first, of(&[("a.toml", "x"), ("b.toml", "z")]));
        assert_ne!(first, of(&[("a.tom", "lx"), ("b.toml", "y")]));
        assert_eq!(first.short().len(), 12);
    }
}
