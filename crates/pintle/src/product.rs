//! A file that the tool makes for people to look at: written beside its place, then renamed over an earlier one of the
//! same sort. What is anything else may be somebody's work, and is left alone.

use std::io::{Read as _, Write as _};

use camino::Utf8Path;
use pintle_finding::Problem;

use crate::files;

/// A sort of such files.
pub(crate) struct Product<'p> {
    /// What messages call it.
    pub(crate) called: &'p str,
    /// A name that such a file may have.
    pub(crate) such_as: &'p str,
    /// Whether a file that opens so is an earlier one.
    pub(crate) ours: &'p dyn Fn(&str) -> bool,
}

/// Writes it. Nothing is left behind, nor changed, where that fails.
pub(crate) fn save(path: &Utf8Path, text: &str, product: &Product<'_>) -> Result<(), Problem> {
    save_bytes(path, text.as_bytes(), product)
}

/// The same for what is no text.
pub(crate) fn save_bytes(path: &Utf8Path, bytes: &[u8], product: &Product<'_>) -> Result<(), Problem> {
    let unwritable = |why: &str, help: &str| {
        Problem::new("unwritable", format!("`{path}` cannot be written: {why}")).help(help)
    };
    let failed = |error: &std::io::Error| match error.kind() {
        std::io::ErrorKind::PermissionDenied => unwritable(
            "you may not write there",
            &format!(
                "name a file in a folder that is open to you; the {} is written beside it first",
                product.called
            ),
        ),
        std::io::ErrorKind::NotFound => unwritable("no file can be made there", "name another folder"),
        _ => unwritable(&files::reason(error), "name another file"),
    };
    if path.as_str().is_empty() || path.is_dir() {
        return Err(unwritable(
            "it is a folder",
            &format!("name a file in it, such as `{}`", product.such_as),
        ));
    }
    // A link is followed, so that it stays one.
    let target = path.canonicalize_utf8().unwrap_or_else(|_| path.to_owned());
    let folder = match target.parent() {
        None => {
            return Err(unwritable(
                "it names no file",
                &format!("name a file, such as `{}`", product.such_as),
            ));
        }
        Some(folder) if folder.as_str().is_empty() => Utf8Path::new("."),
        Some(folder) => folder,
    };
    if !folder.is_dir() {
        return Err(unwritable(
            &format!("there is no folder `{folder}`"),
            "make the folder, or name another",
        ));
    }
    refuse_what_is_not_ours(&target, product, &unwritable)?;
    let mut beside = beside(folder).map_err(|error| failed(&error))?;
    beside.write_all(bytes).map_err(|error| failed(&error))?;
    beside.as_file().sync_all().map_err(|error| failed(&error))?;
    beside.persist(&target).map_err(|error| failed(&error.error))?;
    Ok(())
}

/// An earlier one is replaced; what is anything else may be somebody's work.
fn refuse_what_is_not_ours(
    target: &Utf8Path,
    product: &Product<'_>,
    unwritable: &impl Fn(&str, &str) -> Problem,
) -> Result<(), Problem> {
    if target.symlink_metadata().is_err() {
        return Ok(());
    }
    if opening(target).is_ok_and(|opening| (product.ours)(&opening)) {
        return Ok(());
    }
    Err(unwritable(
        &format!("it is there already, and is no {} of this tool's", product.called),
        "name another file, or move that one out of the way",
    ))
}

/// How a file begins.
#[expect(clippy::disallowed_methods, reason = "this is the room that reads files")]
fn opening(file: &Utf8Path) -> std::io::Result<String> {
    // A pipe would have to be waited for.
    if !file.metadata()?.is_file() {
        return Err(std::io::ErrorKind::InvalidInput.into());
    }
    let mut opening = Vec::new();
    std::fs::File::open(file)?.take(1000).read_to_end(&mut opening)?;
    Ok(String::from_utf8_lossy(&opening).into_owned())
}

/// A file of its own in a folder, as open to others as any new file.
fn beside(folder: &Utf8Path) -> std::io::Result<tempfile::NamedTempFile> {
    let mut builder = tempfile::Builder::new();
    builder.prefix(".pintle-").suffix(".part");
    #[cfg(unix)]
    let open = std::os::unix::fs::PermissionsExt::from_mode(0o666);
    #[cfg(unix)]
    builder.permissions(open);
    builder.tempfile_in(folder)
}
