//! What the user wants compared: two paths, each in the working tree or in a revision.

use std::sync::Arc;

use camino::{Utf8Path, Utf8PathBuf};
use pintle_finding::Problem;

use crate::call::Compare;
use crate::files::Root;
use crate::revision::Tree;

/// A file or a folder to compare.
#[derive(Debug)]
pub(super) struct Place {
    pub(super) root: Root,
    pub(super) path: Utf8PathBuf,
}

impl Place {
    fn working(path: &str) -> Self {
        Self { root: Root::Working, path: Utf8PathBuf::from(path) }
    }

    pub(super) fn is_folder(&self) -> bool {
        self.root.is_dir(&self.path)
    }

    /// How it is shown; the current folder by its point.
    pub(super) fn shown(&self) -> String {
        let shown = self.root.shown(&self.path);
        if shown.is_empty() { ".".to_owned() } else { shown }
    }
}

/// The old version and the new, or all that is wrong with the call.
pub(super) fn sides(call: &Compare) -> Result<[Place; 2], Vec<Problem>> {
    let wrong = |message: &str| {
        vec![Problem::new("wrong-call", message).help(
            "write `pintle compare OLD NEW`, each a path or `REV:PATH`, or `pintle compare --since REV PATH`",
        )]
    };
    let (old, new) = match (&call.since, call.sides.as_slice()) {
        (None, [old, new]) => (place(old), place(new)),
        (None, []) => return Err(wrong("there is nothing to compare: no version is named")),
        (None, [_]) => return Err(wrong("one version is named, and two are compared")),
        (Some(revision), []) => (since(revision, "."), here(".")),
        (Some(revision), [path]) => (since(revision, path), here(path)),
        (Some(_), _) => return Err(wrong("with `--since`, one path is compared, and two are named")),
        (None, _) => return Err(wrong("two versions are compared, and more are named")),
    };
    let sides = match (old, new) {
        (Ok(old), Ok(new)) => [old, new],
        (old, new) => {
            let mut problems: Vec<Problem> = Vec::new();
            for problem in [old.err(), new.err()].into_iter().flatten() {
                if !problems.contains(&problem) {
                    problems.push(problem);
                }
            }
            return Err(problems);
        }
    };
    let [old, new] = &sides;
    if old.is_folder() != new.is_folder() {
        let sort = |side: &Place| if side.is_folder() { "a folder" } else { "a file" };
        let message = format!(
            "`{}` is {} and `{}` is {}: they cannot be compared",
            old.shown(),
            sort(old),
            new.shown(),
            sort(new)
        );
        return Err(vec![Problem::new("wrong-call", message).help("name two files, or two folders")]);
    }
    Ok(sides)
}

/// A path, or `REV:PATH` where no file has that name.
fn place(written: &str) -> Result<Place, Problem> {
    if Utf8Path::new(written).exists() {
        return Ok(Place::working(written));
    }
    let Some((revision, path)) = split(written) else { return here(written) };
    let tree = Tree::open(Utf8Path::new(""), revision)?;
    let path = tree.find(path, false)?;
    Ok(Place { root: Root::Revision(Arc::new(tree)), path })
}

/// A path in the working tree.
fn here(written: &str) -> Result<Place, Problem> {
    if Utf8Path::new(written).exists() {
        return Ok(Place::working(written));
    }
    let problem = Problem::new("no-such-path", format!("there is no file and no folder `{written}`"));
    Err(problem.help(format!(
        "name a path; a path in a revision is written `REV:PATH`, such as `{}`",
        if written.contains(['/', '.', ':']) {
            "HEAD~1:specs".to_owned()
        } else {
            format!("{written}:specs")
        }
    )))
}

/// A path of the working tree as it was in a revision.
fn since(revision: &str, written: &str) -> Result<Place, Problem> {
    let path = here(written)?.path;
    let (folder, name) = if path.is_dir() {
        (path.as_path(), "")
    } else {
        (path.parent().unwrap_or(Utf8Path::new("")), path.file_name().unwrap_or_default())
    };
    let tree = Tree::open(folder, revision)?;
    let path = tree.find(name, true)?;
    Ok(Place { root: Root::Revision(Arc::new(tree)), path })
}

/// Splits `REV:PATH` at the first colon that is not within braces, as in `HEAD^{/fix: tongue}:specs`.
fn split(written: &str) -> Option<(&str, &str)> {
    let mut depth = 0_usize;
    for (at, letter) in written.char_indices() {
        match letter {
            '{' => depth += 1,
            '}' => depth = depth.saturating_sub(1),
            ':' if depth == 0 => {
                // `C:\specs` is a path.
                let drive = cfg!(windows) && at == 1;
                return if drive { None } else { Some((written.get(..at)?, written.get(at + 1..)?)) };
            }
            _ => {}
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::split;

    #[test]
    fn a_revision_ends_at_the_first_colon_outside_braces() {
        let rows = [
            ("HEAD~1:specs/a.toml", Some(("HEAD~1", "specs/a.toml"))),
            ("main:", Some(("main", ""))),
            (":specs", Some(("", "specs"))),
            ("HEAD^{/fix: tongue}:a:b", Some(("HEAD^{/fix: tongue}", "a:b"))),
            ("main@{1}:x", Some(("main@{1}", "x"))),
            ("specs/a.toml", None),
            ("HEAD^{/no end:x", None),
        ];
        for (written, wanted) in rows {
            assert_eq!(split(written), wanted, "{written}");
        }
    }
}
