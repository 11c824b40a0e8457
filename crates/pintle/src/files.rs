//! Finding and reading files.

use camino::{Utf8Path, Utf8PathBuf};
use pintle_finding::Problem;

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
        let message = format!("`{path}` is {} bytes long; a file may have at most {most} bytes", meta.len());
        return Err(
            Problem::new("too-large", message).help("split the file, or move what is not a spec elsewhere")
        );
    }
    std::fs::read(path).map_err(|error| wrong(reason(&error)))
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
pub(crate) fn below(folder: &Utf8Path, ending: &str, problems: &mut Vec<Problem>) -> Vec<Utf8PathBuf> {
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
