//! The envelope into a file: written beside it, then renamed over it.

use std::io::{Read as _, Write as _};

use camino::Utf8Path;
use pintle_finding::{Label, Problem, Role};
use pintle_report::plot;
use pintle_report::weights::{self, Terms};
use pintle_spec::Build;

use crate::files;

/// Draws a build's envelope into a file. Nothing is left behind, nor changed, where that fails.
pub(super) fn draw(build: &Build, terms: Terms<'_>, path: &Utf8Path) -> Result<(), Problem> {
    let drawn = weights::drawing(build, terms).map_err(|missing| {
        let message = format!("the envelope cannot be drawn without {}", missing.what);
        let problem = Problem::new("cannot-draw", message).help(missing.help);
        match missing.span {
            Some(span) => problem.at(Label::new(span, Role::Missing, "needed for it")),
            None => problem,
        }
    })?;
    save(path, &drawn.svg())
}

fn save(path: &Utf8Path, svg: &str) -> Result<(), Problem> {
    let unwritable = |why: &str, help: &str| {
        Problem::new("unwritable", format!("`{path}` cannot be written: {why}")).help(help)
    };
    let failed = |error: &std::io::Error| match error.kind() {
        std::io::ErrorKind::PermissionDenied => unwritable(
            "you may not write there",
            "name a file in a folder that is open to you; the drawing is written beside it first",
        ),
        std::io::ErrorKind::NotFound => unwritable("no file can be made there", "name another folder"),
        _ => unwritable(&files::reason(error), "name another file"),
    };
    if path.as_str().is_empty() || path.is_dir() {
        return Err(unwritable("it is a folder", "name a file in it, such as `envelope.svg`"));
    }
    // A link is followed, so that it stays one.
    let target = path.canonicalize_utf8().unwrap_or_else(|_| path.to_owned());
    let folder = match target.parent() {
        None => return Err(unwritable("it names no file", "name a file, such as `envelope.svg`")),
        Some(folder) if folder.as_str().is_empty() => Utf8Path::new("."),
        Some(folder) => folder,
    };
    if !folder.is_dir() {
        return Err(unwritable(
            &format!("there is no folder `{folder}`"),
            "make the folder, or name another",
        ));
    }
    refuse_what_is_not_ours(&target, &unwritable)?;
    let mut beside = beside(folder).map_err(|error| failed(&error))?;
    beside.write_all(svg.as_bytes()).map_err(|error| failed(&error))?;
    beside.as_file().sync_all().map_err(|error| failed(&error))?;
    beside.persist(&target).map_err(|error| failed(&error.error))?;
    Ok(())
}

/// An earlier drawing is replaced; what is anything else may be somebody's work.
fn refuse_what_is_not_ours(
    target: &Utf8Path,
    unwritable: &impl Fn(&str, &str) -> Problem,
) -> Result<(), Problem> {
    if target.symlink_metadata().is_err() {
        return Ok(());
    }
    let id = format!("id=\"{}\"", plot::ID);
    if opening(target).is_ok_and(|opening| opening.starts_with("<svg ") && opening.contains(&id)) {
        return Ok(());
    }
    Err(unwritable(
        "it is there already, and is no drawing of this tool's",
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
