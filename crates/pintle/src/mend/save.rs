//! Putting a file's new text in place: written beside it, then renamed over it.

use std::io::Write as _;

use camino::Utf8Path;
use pintle_finding::Problem;

use crate::files;

/// Replaces a file that was read as `old`. A link is followed; the file keeps its permissions. Nothing is changed when
/// anything fails, nor when the file no longer is what was read.
pub(super) fn replace(path: &Utf8Path, old: &[u8], new: &[u8]) -> Result<(), Problem> {
    let wrong = |error: &std::io::Error| {
        let why = match error.kind() {
            std::io::ErrorKind::PermissionDenied => "you may not write there".to_owned(),
            _ => files::reason(error),
        };
        Problem::new("unwritable", format!("`{path}` cannot be written: {why}"))
            .help("nothing was changed; a new file is written beside it first, so its folder must be open to writing")
    };
    let target = path.canonicalize_utf8().map_err(|error| wrong(&error))?;
    let folder = target.parent().unwrap_or(Utf8Path::new("."));
    let meta = target.metadata().map_err(|error| wrong(&error))?;
    if meta.permissions().readonly() {
        return Err(Problem::new("unwritable", format!("`{path}` is marked as not to be written"))
            .help("make it writable, or show the change with `--dry-run`"));
    }
    let mut beside = tempfile::Builder::new()
        .prefix(".pintle-")
        .suffix(".part")
        .tempfile_in(folder)
        .map_err(|error| wrong(&error))?;
    beside.write_all(new).map_err(|error| wrong(&error))?;
    beside.as_file().set_permissions(meta.permissions()).map_err(|error| wrong(&error))?;
    beside.as_file().sync_all().map_err(|error| wrong(&error))?;
    if files::read(&target)? != old {
        return Err(Problem::new("changed", format!("`{path}` has changed since it was read"))
            .help("nothing was written; run the same again on the file as it is now"));
    }
    beside.persist(&target).map_err(|error| wrong(&error.error))?;
    Ok(())
}

#[cfg(test)]
#[expect(clippy::disallowed_methods, reason = "these tests make and read files of their own")]
mod tests;
