//! Putting a file's new text in place: written beside it, then renamed over it.

use std::io::Write as _;

use camino::Utf8Path;
use pintle_finding::Problem;

use crate::files;

/// Replaces a file that was read as `old`. A link is followed; the file keeps its permissions. Nothing is changed when
/// anything fails, nor when the file no longer is what was read.
pub(crate) fn replace(path: &Utf8Path, old: &[u8], new: &[u8]) -> Result<(), Problem> {
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

/// Writes a file that is not there yet; one that has come to be in between is left as it is.
pub(crate) fn create(path: &Utf8Path, text: &[u8]) -> Result<(), Problem> {
    let wrong = |error: &std::io::Error| {
        let why = match error.kind() {
            std::io::ErrorKind::PermissionDenied => "you may not write there".to_owned(),
            std::io::ErrorKind::AlreadyExists => "it is there by now".to_owned(),
            _ => files::reason(error),
        };
        Problem::new("unwritable", format!("`{path}` cannot be written: {why}")).help("nothing was changed")
    };
    let folder = match path.parent() {
        Some(folder) if !folder.as_str().is_empty() => folder,
        _ => Utf8Path::new("."),
    };
    let mut builder = tempfile::Builder::new();
    builder.prefix(".pintle-").suffix(".part");
    #[cfg(unix)]
    let open = std::os::unix::fs::PermissionsExt::from_mode(0o666);
    #[cfg(unix)]
    builder.permissions(open);
    let mut beside = builder.tempfile_in(folder).map_err(|error| wrong(&error))?;
    beside.write_all(text).map_err(|error| wrong(&error))?;
    beside.as_file().sync_all().map_err(|error| wrong(&error))?;
    beside.persist_noclobber(path).map_err(|error| wrong(&error.error))?;
    Ok(())
}

#[cfg(test)]
#[expect(clippy::disallowed_methods, reason = "these tests make and read files of their own")]
mod tests;
