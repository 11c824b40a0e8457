//! A rulebook file with those that it stands on: found, read once each, and put in order.

use std::collections::BTreeMap;

use camino::{Utf8Component, Utf8Path, Utf8PathBuf};
use pintle_finding::{Label, Problem, Role};
use pintle_rulebook::{Settings, read_layer};
use pintle_source::{SourceId, Sources, Spanned};

use crate::files::{self, Root};
use crate::shop::take;

/// So many files may stand on each other in a row.
const DEEPEST: usize = 8;
/// So many files a rulebook may be put together from.
const MOST: usize = 32;

/// The layers of a rulebook, with where each stands.
#[derive(Debug, Default)]
pub(crate) struct Layers {
    pub(crate) settings: Settings,
    folders: BTreeMap<SourceId, Utf8PathBuf>,
    /// The files, absolute: they are no specs.
    pub(crate) files: Vec<Utf8PathBuf>,
}

impl Layers {
    /// The folder that a path counts from which a layer has written.
    pub(crate) fn folder(&self, written: &Spanned<String>) -> &Utf8Path {
        self.folders.get(&written.span.source).map_or(Utf8Path::new("."), Utf8PathBuf::as_path)
    }
}

/// Reads a rulebook file and all that it stands on.
pub(crate) fn read(
    file: &Utf8Path,
    from: &Root,
    sources: &mut Sources,
    problems: &mut Vec<Problem>,
) -> Layers {
    let mut reading = Reading {
        from,
        repository: from.repository(folder_of(file)),
        sources,
        problems,
        layers: Layers::default(),
        open: Vec::new(),
        full: false,
    };
    reading.file(file, None);
    reading.layers
}

/// The folder that a file stands in.
pub(crate) fn folder_of(file: &Utf8Path) -> &Utf8Path {
    match file.parent() {
        Some(folder) if !folder.as_str().is_empty() => folder,
        _ => Utf8Path::new("."),
    }
}

/// A path without `.`, and without each `..` that only takes back the folder before it.
fn without_dots(path: &Utf8Path) -> Utf8PathBuf {
    let mut short = Utf8PathBuf::new();
    for part in path.components() {
        match (part, short.file_name()) {
            (Utf8Component::CurDir, _) => {}
            (Utf8Component::ParentDir, Some(_)) => {
                short.pop();
            }
            (part, _) => short.push(part),
        }
    }
    short
}

struct Reading<'r> {
    from: &'r Root,
    repository: Utf8PathBuf,
    sources: &'r mut Sources,
    problems: &'r mut Vec<Problem>,
    layers: Layers,
    /// The files under way, each named by the one before it.
    open: Vec<Utf8PathBuf>,
    full: bool,
}

impl Reading<'_> {
    /// Reads a file and, before it takes its place, those that it stands on. One that stands there already is under this
    /// one too.
    fn file(&mut self, path: &Utf8Path, named: Option<&Spanned<String>>) {
        let absolute = match self.found(path, named) {
            Ok(absolute) => absolute,
            Err(problem) => {
                self.problems.push(match named {
                    Some(named) => problem.at(Label::new(named.span, Role::Subject, "named here")),
                    None => problem,
                });
                return;
            }
        };
        if self.layers.files.contains(&absolute) {
            return;
        }
        // `shop/../company` is shown as `company`, where no link makes it something else.
        let short = without_dots(path);
        let path = if self.from.absolute(&short).is_ok_and(|held| held == absolute) { &short } else { path };
        let id = match take(path, self.from, self.sources) {
            Ok(id) => id,
            Err(problem) => {
                self.problems.push(problem);
                return;
            }
        };
        let layer = read_layer(self.sources, id, self.problems);
        let folder = folder_of(path).to_owned();
        self.open.push(absolute.clone());
        for under in &layer.from {
            if self.full {
                break;
            }
            self.file(&folder.join(&under.value), Some(under));
        }
        self.open.pop();
        self.layers.folders.insert(id, folder);
        self.layers.files.push(absolute);
        self.layers.settings.layers.push(layer);
    }

    fn found(&mut self, path: &Utf8Path, named: Option<&Spanned<String>>) -> Result<Utf8PathBuf, Problem> {
        let shown = self.from.shown(path);
        if named.is_none() {
            return Ok(self.from.absolute(path).unwrap_or_else(|_| path.to_owned()));
        }
        let absolute = self.from.absolute(path).map_err(|error| {
            let message = format!("the rulebook `{shown}` cannot be opened: {}", files::reason(&error));
            Problem::new("no-rulebook", message)
                .help("correct the name; it counts from the folder of the file that names it")
        })?;
        if !absolute.starts_with(&self.repository) {
            let message = format!("the rulebook `{shown}` leads out of the repository");
            return Err(Problem::new("out-of-repository", message)
                .help("copy it into the repository: what is judged must be what is committed"));
        }
        if !self.from.is_file(&absolute) {
            return Err(Problem::new("no-rulebook", format!("the rulebook `{shown}` is not a file"))
                .help("name the file itself, such as `../company/pintle.toml`"));
        }
        if let Some(at) = self.open.iter().position(|held| *held == absolute) {
            let round = self.open.iter().skip(at).chain([&absolute]);
            let round: Vec<String> = round.map(|file| format!("`{}`", self.within(file))).collect();
            let message = format!("rulebooks stand on each other in a ring: {}", round.join(" on "));
            return Err(Problem::new("ring-of-rulebooks", message).help("take one of them out of `from`"));
        }
        if self.open.len() >= DEEPEST {
            let message = format!("more than {DEEPEST} rulebooks stand on each other in a row");
            return Err(Problem::new("many-rulebooks", message).help("put some of them together"));
        }
        if self.layers.files.len() + self.open.len() >= MOST && !self.layers.files.contains(&absolute) {
            self.full = true;
            let message = format!("a rulebook is put together from more than {MOST} files");
            return Err(Problem::new("many-rulebooks", message).help("put some of them together"));
        }
        Ok(absolute)
    }

    /// A file as it lies in the repository.
    fn within(&self, file: &Utf8Path) -> String {
        files::shown(file.strip_prefix(&self.repository).unwrap_or(file))
    }
}
