//! A revision of a git repository, read as if its files lay in a folder.
//!
//! Git itself is asked, without a shell: which files there are (`ls-tree`), and what is in those that are needed
//! (`cat-file`). Nothing is checked out, no filter or hook runs, and no link is followed.

mod batch;
mod listing;

use std::collections::BTreeMap;
use std::io;
use std::process::{Command, Stdio};
use std::sync::{Mutex, PoisonError};

use camino::{Utf8Component, Utf8Path, Utf8PathBuf};
use pintle_finding::{Problem, nearest};

use crate::files;
use batch::{Batch, Blob};
use listing::{Entry, list};

/// So many names at most are searched for the one nearest to a misspelt path.
const MOST_OFFERED: usize = 5_000;

/// The files of one revision, by their paths from the top of the repository.
#[derive(Debug)]
pub(crate) struct Tree {
    /// The revision as the user wrote it.
    name: String,
    /// Where in the repository the folder lies that git was asked in.
    prefix: Utf8PathBuf,
    /// The top of the working tree; none in a repository without one.
    top: Option<Utf8PathBuf>,
    entries: BTreeMap<Utf8PathBuf, Entry>,
    blobs: Mutex<Batch>,
}

impl Tree {
    /// Opens a revision of the repository that a folder is in.
    pub(crate) fn open(folder: &Utf8Path, name: &str) -> Result<Self, Problem> {
        refuse_odd(name)?;
        let prefix = prefix(folder, name)?;
        let tree = tree_of(folder, name)?;
        let entries = list(folder, &tree, name)?;
        let blobs = Mutex::new(Batch::start(folder).map_err(|error| not_run(&error, name))?);
        let here = if folder.as_str().is_empty() { Utf8Path::new(".") } else { folder };
        let depth = prefix.components().count();
        let top = here.canonicalize_utf8().ok();
        let top = top.and_then(|here| Some(here.ancestors().nth(depth)?.to_owned()));
        Ok(Self { name: name.to_owned(), prefix, top, entries, blobs })
    }

    /// Where a path would lie in the working tree.
    pub(crate) fn laid_out(&self, path: &Utf8Path) -> Option<Utf8PathBuf> {
        Some(self.top.as_ref()?.join(plain(path).ok()?))
    }

    /// The path from the top of the repository to a path that is written after `REV:`, or that counts from the folder
    /// that the revision was opened in. As in git, one that opens with `./` or `../` counts from there as well.
    pub(crate) fn find(&self, path: &str, from_here: bool) -> Result<Utf8PathBuf, Problem> {
        let path = if cfg!(windows) { path.replace('\\', "/") } else { path.to_owned() };
        let here =
            from_here || path == "." || path == ".." || path.starts_with("./") || path.starts_with("../");
        let written = Utf8PathBuf::from(&path);
        let joined = if here { self.prefix.join(&written) } else { written.clone() };
        let whole = format!("{}:{path}", self.name);
        let Ok(found) = plain(&joined) else {
            let problem = Problem::new("no-such-path", format!("`{whole}` leads out of the repository"));
            return Err(problem.help("count the path from the top of the repository, without a leading `/`"));
        };
        match self.entries.get(&found) {
            Some(Entry::File(_)) => return Ok(found),
            Some(other) => return Err(not_followed(&self.shown(&found), other)),
            None if self.is_dir(&found) => return Ok(found),
            None => {}
        }
        let message = format!("`{}` is not in revision `{}`", self.shown(&found), self.name);
        let below = self.prefix.join(&written);
        let help = if !here && self.there(&below) {
            format!("paths after `:` count from the top of the repository: write `{}`", self.shown(&below))
        } else {
            let specs = self.entries.keys().filter(|path| path.extension() == Some("toml"));
            match nearest(found.as_str(), specs.take(MOST_OFFERED).map(|path| path.as_str())) {
                Some(near) => format!("did you mean `{}:{near}`?", self.name),
                None => "name a path that was there then; a spec that was renamed since is found when whole \
                         folders are compared"
                    .to_owned(),
            }
        };
        Err(Problem::new("no-such-path", message).help(help))
    }

    fn there(&self, path: &Utf8Path) -> bool {
        plain(path).is_ok_and(|path| self.entries.contains_key(&path) || self.is_dir(&path))
    }

    /// `REV:path`.
    pub(crate) fn shown(&self, path: &Utf8Path) -> String {
        match plain(path) {
            Ok(path) => format!("{}:{}", self.name, files::shown(&path)),
            Err(_) => format!("{}:{}", self.name, files::shown(path)),
        }
    }

    /// A file's bytes.
    pub(crate) fn read(&self, path: &Utf8Path) -> Result<Vec<u8>, Problem> {
        let shown = self.shown(path);
        let wrong = |why: &str| Problem::new("unreadable", format!("`{shown}` cannot be read: {why}"));
        let object = match plain(path).ok().and_then(|path| self.entries.get(&path)) {
            Some(Entry::File(object)) => object,
            Some(other) => return Err(not_followed(&shown, other)),
            None => return Err(wrong("there is no such file")),
        };
        let mut blobs = self.blobs.lock().unwrap_or_else(PoisonError::into_inner);
        match blobs.read(object).map_err(|error| wrong(&format!("git stopped: {}", files::reason(&error))))? {
            Blob::Bytes(bytes) => Ok(bytes),
            Blob::TooLarge(bytes) => Err(files::too_large(&shown, bytes)),
            Blob::Missing => Err(wrong("this copy of the repository does not hold it")
                .help("the copy is a partial one: fetch the revision in full")),
        }
    }

    /// Every file with an ending below a folder, by path; hidden files and folders are passed over. What cannot be
    /// looked into is said.
    pub(crate) fn below(
        &self,
        folder: &Utf8Path,
        ending: &str,
        problems: &mut Vec<Problem>,
    ) -> Vec<Utf8PathBuf> {
        let mut found = Vec::new();
        for (path, entry) in self.inside(folder) {
            let Ok(rest) = path.strip_prefix(plain(folder).unwrap_or_default()) else { continue };
            if rest.components().any(|part| part.as_str().starts_with('.')) {
                continue;
            }
            let wanted = ending.is_empty() || path.extension() == Some(ending);
            match entry {
                Entry::File(_) if wanted => found.push(path.clone()),
                Entry::File(_) => {}
                Entry::Link if !wanted => {}
                Entry::Link | Entry::Submodule | Entry::Unnameable => {
                    problems.push(not_followed(&self.shown(path), entry));
                }
            }
        }
        found
    }

    /// The entries below a folder.
    fn inside(&self, folder: &Utf8Path) -> impl Iterator<Item = (&Utf8PathBuf, &Entry)> {
        let folder = plain(folder).ok();
        let from = folder.clone().unwrap_or_default();
        let all = folder.is_some().then(|| self.entries.range(from.clone()..));
        all.into_iter()
            .flatten()
            .take_while(move |(path, _)| path.starts_with(&from))
            .filter(move |(path, _)| Some(*path) != folder.as_ref())
    }

    /// The path without `.` and `..`, where something is.
    pub(crate) fn absolute(&self, path: &Utf8Path) -> io::Result<Utf8PathBuf> {
        let path = plain(path)?;
        match self.entries.get(&path) {
            Some(Entry::File(_)) => Ok(path),
            Some(other) => Err(io::Error::other(other.why())),
            None if self.is_dir(&path) => Ok(path),
            None => Err(io::ErrorKind::NotFound.into()),
        }
    }

    /// Whether a file is there.
    pub(crate) fn is_file(&self, path: &Utf8Path) -> bool {
        plain(path).is_ok_and(|path| matches!(self.entries.get(&path), Some(Entry::File(_))))
    }

    /// Whether a link is there.
    pub(crate) fn is_link(&self, path: &Utf8Path) -> bool {
        plain(path).is_ok_and(|path| matches!(self.entries.get(&path), Some(Entry::Link)))
    }

    /// Whether a folder is there. Git keeps no empty ones; the top is always there.
    pub(crate) fn is_dir(&self, path: &Utf8Path) -> bool {
        plain(path).is_ok_and(|path| path.as_str().is_empty()) || self.inside(path).next().is_some()
    }
}

/// Git, in a folder. The variables that hooks set are left out: they name another folder's repository.
#[expect(clippy::disallowed_methods, reason = "this is the room that asks git")]
fn git(folder: &Utf8Path) -> Command {
    let mut git = Command::new("git");
    let folder = if folder.as_str().is_empty() { Utf8Path::new(".") } else { folder };
    git.arg("-C").arg(folder);
    for variable in ["GIT_DIR", "GIT_WORK_TREE", "GIT_INDEX_FILE", "GIT_PREFIX", "GIT_COMMON_DIR"] {
        git.env_remove(variable);
    }
    git.env("GIT_TERMINAL_PROMPT", "0").env("GIT_OPTIONAL_LOCKS", "0").env("LC_ALL", "C");
    git.stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped());
    git
}

/// A revision is handed to git as one word: it must not be taken for an option.
fn refuse_odd(name: &str) -> Result<(), Problem> {
    let odd = if name.is_empty() {
        "no revision is named"
    } else if name.starts_with('-') {
        "a revision does not open with `-`"
    } else if name.chars().any(char::is_control) {
        "a revision has no control characters"
    } else {
        return Ok(());
    };
    let problem = Problem::new("unknown-revision", format!("`{name}` is no revision: {odd}"));
    Err(problem.help("name a commit, a branch or a tag, such as `HEAD~1`, `main` or `v1`"))
}

/// Where in its repository a folder lies.
fn prefix(folder: &Utf8Path, name: &str) -> Result<Utf8PathBuf, Problem> {
    let run = git(folder).args(["rev-parse", "--show-prefix"]).output();
    let run = run.map_err(|error| not_run(&error, name))?;
    if !run.status.success() {
        let shown = files::shown(folder);
        let place = if shown.is_empty() { "this folder" } else { &format!("`{shown}`") };
        let words = String::from_utf8_lossy(&run.stderr);
        let said = words.lines().find(|line| !line.trim().is_empty()).unwrap_or("nothing");
        let message =
            format!("revision `{name}` cannot be looked up: {place} is in no git repository that git opens");
        return Err(Problem::new("no-repository", message).help(format!(
            "git says: {said}; without git, take the old version out yourself and name its path"
        )));
    }
    let text = String::from_utf8_lossy(&run.stdout);
    Ok(Utf8PathBuf::from(text.trim_end_matches(['\r', '\n'])))
}

/// The number of a revision's tree.
fn tree_of(folder: &Utf8Path, name: &str) -> Result<String, Problem> {
    let run = git(folder).args(["rev-parse", "--verify", "--quiet"]).arg(format!("{name}^{{tree}}")).output();
    let run = run.map_err(|error| not_run(&error, name))?;
    let number = String::from_utf8_lossy(&run.stdout).trim().to_owned();
    let is_number = number.len() >= 40 && number.chars().all(|letter| letter.is_ascii_hexdigit());
    if run.status.success() && is_number {
        return Ok(number);
    }
    let problem =
        Problem::new("unknown-revision", format!("git knows no revision `{name}` in this repository"));
    Err(problem.help(
        "name a commit, a branch or a tag that `git log` knows; a shallow copy, as build servers make them, holds \
         only the newest: fetch more of it",
    ))
}

fn not_run(error: &io::Error, name: &str) -> Problem {
    if error.kind() == io::ErrorKind::NotFound {
        let message = format!("git is not found, and is needed to look up revision `{name}`");
        return Problem::new("no-git", message)
            .help("install git, or take the old version out yourself and name its path");
    }
    Problem::new("no-git", format!("git cannot be run: {}", files::reason(error)))
}

fn not_followed(shown: &str, entry: &Entry) -> Problem {
    let problem = Problem::new("unreadable", format!("`{shown}` cannot be read: {}", entry.why()));
    match entry {
        Entry::Link => {
            problem.help("commit the file itself, or compare folders that you have laid out yourself")
        }
        Entry::Submodule => problem.help("compare it in its own repository"),
        Entry::Unnameable => problem.help("rename it"),
        Entry::File(_) => problem,
    }
}

/// A path without `.` and `..`; one that leaves the repository is an error.
fn plain(path: &Utf8Path) -> io::Result<Utf8PathBuf> {
    let mut found = Utf8PathBuf::new();
    for part in path.components() {
        match part {
            Utf8Component::CurDir => {}
            Utf8Component::Normal(name) => found.push(name),
            Utf8Component::ParentDir if found.pop() => {}
            Utf8Component::ParentDir | Utf8Component::RootDir | Utf8Component::Prefix(_) => {
                return Err(io::Error::other("it leads out of the repository"));
            }
        }
    }
    Ok(found)
}
