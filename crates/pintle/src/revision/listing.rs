//! Which files a revision has.

use std::collections::BTreeMap;
use std::io::Read;

use camino::{Utf8Path, Utf8PathBuf};
use pintle_finding::Problem;

use super::{git, not_run};
use crate::files;

/// The longest list of files that is taken, in bytes: some hundred thousand names.
const MOST: u64 = 64 << 20;

/// What stands under a path.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Entry {
    /// A file, under the number that git keeps it by.
    File(String),
    /// A link.
    Link,
    /// Another repository.
    Submodule,
    /// Something whose name no path here can have.
    Unnameable,
}

impl Entry {
    /// Why it is not read.
    pub(super) const fn why(&self) -> &'static str {
        match self {
            Self::File(_) => "it is a file",
            Self::Link => "it is a link, and links in a revision are not followed",
            Self::Submodule => "it is a submodule, whose files are in another repository",
            Self::Unnameable => "its name is not UTF-8, or leads elsewhere",
        }
    }
}

/// Every entry of a tree that is no folder.
pub(super) fn list(
    folder: &Utf8Path,
    tree: &str,
    name: &str,
) -> Result<BTreeMap<Utf8PathBuf, Entry>, Problem> {
    let mut run = git(folder)
        .args(["ls-tree", "-r", "-z", "--full-tree", tree])
        .stderr(std::process::Stdio::null())
        .spawn()
        .map_err(|error| not_run(&error, name))?;
    let mut bytes = Vec::new();
    let read = run.stdout.take().map_or(Ok(0), |out| out.take(MOST + 1).read_to_end(&mut bytes));
    let too_long = u64::try_from(bytes.len()).unwrap_or(u64::MAX) > MOST;
    if too_long {
        // It waits for a reader that has gone.
        let _ = run.kill();
    }
    let ended = run.wait();
    if too_long {
        let message =
            format!("revision `{name}` has too many files to list: the list is longer than {MOST} bytes");
        return Err(Problem::new("too-large", message)
            .help("take the old version of the specs out yourself and name its path"));
    }
    match read.and(ended) {
        Ok(status) if status.success() => Ok(parse(&bytes)),
        Ok(_) => {
            Err(Problem::new("unknown-revision", format!("git cannot list the files of revision `{name}`"))
                .help("the repository is damaged or a partial copy: `git fsck` says which"))
        }
        Err(error) => Err(not_run(&error, name)),
    }
}

/// Reads `mode type number<tab>path<nul>` lines.
fn parse(bytes: &[u8]) -> BTreeMap<Utf8PathBuf, Entry> {
    let mut entries = BTreeMap::new();
    for line in bytes.split(|byte| *byte == 0).filter(|line| !line.is_empty()) {
        let mut halves = line.splitn(2, |byte| *byte == b'\t');
        let (Some(facts), Some(path)) = (halves.next(), halves.next()) else { continue };
        let facts = String::from_utf8_lossy(facts);
        let mut facts = facts.split(' ');
        let (mode, _, number) = (facts.next(), facts.next(), facts.next());
        let entry = match (mode, number) {
            (Some("120000"), _) => Entry::Link,
            (Some("160000"), _) => Entry::Submodule,
            (_, Some(number)) => Entry::File(number.to_owned()),
            _ => Entry::Unnameable,
        };
        let known = std::str::from_utf8(path).ok().map(Utf8PathBuf::from).filter(|path| stays_inside(path));
        match known {
            Some(path) => entries.insert(path, entry),
            None => entries.insert(stand_in(path), Entry::Unnameable),
        };
    }
    entries
}

/// Whether a path of git's leads where it seems to: names only, none of which this system takes for two.
fn stays_inside(path: &Utf8Path) -> bool {
    let named = path.as_str().split('/').all(|part| !matches!(part, "" | "." | ".."));
    named && (!cfg!(windows) || !path.as_str().contains(['\\', ':']))
}

/// The folder is kept, so that what lies in a folder that is looked into is said there.
fn stand_in(path: &[u8]) -> Utf8PathBuf {
    let text = String::from_utf8_lossy(path);
    let parts = text.split(['/', '\\']).filter(|part| !part.is_empty() && *part != "." && *part != "..");
    Utf8PathBuf::from(files::shown(&parts.collect::<Utf8PathBuf>()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(mode: &str, path: &[u8]) -> Vec<u8> {
        let mut line = format!("{mode} blob 0123456789abcdef0123456789abcdef01234567\t").into_bytes();
        line.extend_from_slice(path);
        line.push(0);
        line
    }

    #[test]
    fn every_sort_of_entry_is_told_apart() {
        let mut bytes = line("100644", b"specs/a b\tc.toml");
        bytes.extend(line("100755", b"x.toml"));
        bytes.extend(line("120000", b"link.toml"));
        bytes.extend(line("160000", b"vendor"));
        let entries = parse(&bytes);
        let file = Entry::File("0123456789abcdef0123456789abcdef01234567".to_owned());
        let at = |path: &str| entries.get(Utf8Path::new(path)).cloned();
        assert_eq!(at("specs/a b\tc.toml"), Some(file.clone()), "a tab in a name is part of it");
        assert_eq!(at("x.toml"), Some(file));
        assert_eq!(at("link.toml"), Some(Entry::Link));
        assert_eq!(at("vendor"), Some(Entry::Submodule));
        assert_eq!(entries.len(), 4);
    }

    #[test]
    fn a_path_that_leads_out_or_is_no_text_is_never_a_file() {
        for path in [
            &b"../x.toml"[..],
            b"/etc/x.toml",
            b"specs/../../x.toml",
            b"specs/./x.toml",
            b"specs//x.toml",
            b"specs/x.toml/",
            b"specs/\xff.toml",
        ] {
            let entries = parse(&line("100644", path));
            let shown = String::from_utf8_lossy(path).into_owned();
            assert_eq!(entries.len(), 1, "{shown} must not vanish");
            assert!(entries.values().all(|entry| *entry == Entry::Unnameable), "{shown}");
            assert!(entries.keys().all(|path| stays_inside(path)), "{shown}");
        }
    }
}
