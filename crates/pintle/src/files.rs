//! Finding and reading files, in the working tree or in a revision of it.

use std::io;
use std::sync::Arc;

use camino::{Utf8Path, Utf8PathBuf};
use pintle_finding::Problem;

use crate::revision::Tree;

/// Where paths lead: into the folders of this machine, or into a revision, where they count from its top.
#[derive(Debug, Clone, Default)]
pub(crate) enum Root {
    /// The folders of this machine.
    #[default]
    Working,
    /// A revision of a repository.
    Revision(Arc<Tree>),
}

impl Root {
    /// A file's bytes.
    pub(crate) fn read(&self, path: &Utf8Path) -> Result<Vec<u8>, Problem> {
        match self {
            Self::Working => read(path),
            Self::Revision(tree) => tree.read(path),
        }
    }

    /// Every file with an ending below a folder, as [`below`] gives them.
    pub(crate) fn below(
        &self,
        folder: &Utf8Path,
        ending: &str,
        problems: &mut Vec<Problem>,
    ) -> Vec<Utf8PathBuf> {
        match self {
            Self::Working => below(folder, ending, problems),
            Self::Revision(tree) => tree.below(folder, ending, problems),
        }
    }

    /// How a path is shown: see [`shown`]; of a revision as `REV:path`.
    pub(crate) fn shown(&self, path: &Utf8Path) -> String {
        match self {
            Self::Working => shown(path),
            Self::Revision(tree) => tree.shown(path),
        }
    }

    /// The path without `.`, `..` and links; what is not there is an error.
    pub(crate) fn absolute(&self, path: &Utf8Path) -> io::Result<Utf8PathBuf> {
        match self {
            Self::Working => path.canonicalize_utf8(),
            Self::Revision(tree) => tree.absolute(path),
        }
    }

    /// Whether a path is in one of some folders, absolute ones of this root or, for a rulebook that is taken from the
    /// working tree, of that.
    pub(crate) fn is_in_any(&self, path: &Utf8Path, folders: &[Utf8PathBuf]) -> bool {
        let absolute = self.absolute(path).unwrap_or_else(|_| path.to_owned());
        let laid_out = match self {
            Self::Working => None,
            Self::Revision(tree) => tree.laid_out(path),
        };
        let all = || std::iter::once(&absolute).chain(&laid_out);
        folders.iter().any(|folder| all().any(|path| path.starts_with(folder)))
    }

    /// Whether a file, or a link to one, is there. A link in a revision is there as well: reading it says that it is
    /// not followed.
    pub(crate) fn is_file(&self, path: &Utf8Path) -> bool {
        match self {
            Self::Working => path.is_file(),
            Self::Revision(tree) => tree.is_file(path) || tree.is_link(path),
        }
    }

    /// Whether a folder is there.
    pub(crate) fn is_dir(&self, path: &Utf8Path) -> bool {
        match self {
            Self::Working => path.is_dir(),
            Self::Revision(tree) => tree.is_dir(path),
        }
    }

    /// Whether a folder, or a link, is there.
    pub(crate) fn is_dir_or_link(&self, path: &Utf8Path) -> bool {
        match self {
            Self::Working => path.is_dir() || path.is_symlink(),
            Self::Revision(tree) => tree.is_dir(path) || tree.is_link(path),
        }
    }

    /// The folder of the repository that a rulebook's folder is in: the nearest above it with a `.git`, or its own.
    pub(crate) fn repository(&self, folder: &Utf8Path) -> Utf8PathBuf {
        match self {
            Self::Working => {
                let absolute = folder.canonicalize_utf8().unwrap_or_else(|_| folder.to_owned());
                let found = absolute.ancestors().find(|above| above.join(".git").exists());
                found.map_or(absolute.clone(), Utf8Path::to_owned)
            }
            Self::Revision(_) => Utf8PathBuf::new(),
        }
    }
}

/// Reads a file's bytes, refusing what is not a plain file or is far too large to be one of ours.
#[expect(clippy::disallowed_methods, reason = "this is the room that reads files")]
pub(crate) fn read(path: &Utf8Path) -> Result<Vec<u8>, Problem> {
    let wrong = |why: String| Problem::new("unreadable", format!("`{path}` cannot be read: {why}"));
    let meta = path.metadata().map_err(|error| wrong(reason(&error)))?;
    if !meta.is_file() {
        return Err(wrong("it is not a file".to_owned()));
    }
    let most = u64::try_from(pintle_source::MAX_BYTES).unwrap_or(u64::MAX);
    if meta.len() > most {
        return Err(too_large(path.as_str(), meta.len()));
    }
    std::fs::read(path).map_err(|error| wrong(reason(&error)))
}

/// What is said of a file that is far too large to be one of ours.
pub(crate) fn too_large(shown: &str, bytes: u64) -> Problem {
    let most = pintle_source::MAX_BYTES;
    let message = format!("`{shown}` is {bytes} bytes long; a file may have at most {most} bytes");
    Problem::new("too-large", message).help("split the file, or move what is not a spec elsewhere")
}

/// An error of the operating system in plain words.
pub(crate) fn reason(error: &std::io::Error) -> String {
    match error.kind() {
        std::io::ErrorKind::NotFound => "there is no such file".to_owned(),
        std::io::ErrorKind::PermissionDenied => "you may not read it".to_owned(),
        _ => error.to_string().to_lowercase(),
    }
}

/// Every file with an ending below a folder, sorted by path; hidden files and folders are passed over. Links are
/// not followed.
fn below(folder: &Utf8Path, ending: &str, problems: &mut Vec<Problem>) -> Vec<Utf8PathBuf> {
    let mut found = Vec::new();
    let walk = ignore::WalkBuilder::new(folder)
        .standard_filters(false)
        .hidden(true)
        .follow_links(false)
        .sort_by_file_path(std::cmp::Ord::cmp)
        .build();
    for entry in walk {
        match entry {
            Ok(entry) => {
                let Some(path) = Utf8Path::from_path(entry.path()) else {
                    let shown = entry.path().to_string_lossy().into_owned();
                    problems.push(
                        Problem::new("unreadable", format!("`{shown}` has a name that is not UTF-8"))
                            .help("rename it"),
                    );
                    continue;
                };
                let plain = entry.file_type().is_some_and(|kind| !kind.is_dir());
                if plain && (ending.is_empty() || path.extension() == Some(ending)) {
                    found.push(path.to_owned());
                }
            }
            Err(error) => {
                problems.push(Problem::new("unreadable", format!("a folder cannot be read: {error}")));
            }
        }
    }
    found
}

/// How a path is shown: with `/`, and without a leading `./`.
pub(crate) fn shown(path: &Utf8Path) -> String {
    let plain: Utf8PathBuf =
        path.components().filter(|part| !matches!(part, camino::Utf8Component::CurDir)).collect();
    plain.as_str().replace('\\', "/")
}
