//! Running the built program.

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// The top of the repository.
pub(crate) fn top() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..").canonicalize().unwrap()
}

/// What one run gave.
pub(crate) struct Ran {
    pub(crate) code: i32,
    pub(crate) out: String,
    pub(crate) err: String,
}

/// Runs the tool in a folder.
pub(crate) fn pintle_in(folder: &Path, arguments: &[&str]) -> Ran {
    let output: Output = Command::new(env!("CARGO_BIN_EXE_pintle"))
        .args(arguments)
        .current_dir(folder)
        .env_remove("NO_COLOR")
        .env("COLUMNS", "100")
        .env("LC_ALL", "C.UTF-8")
        .output()
        .unwrap();
    Ran {
        code: output.status.code().unwrap_or(-1),
        out: String::from_utf8(output.stdout).unwrap(),
        err: String::from_utf8(output.stderr).unwrap(),
    }
}

/// Runs the tool at the top of the repository.
pub(crate) fn pintle(arguments: &[&str]) -> Ran {
    pintle_in(&top(), arguments)
}

/// A folder of its own with a copy of the demo shop in it.
pub(crate) fn demo_shop() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    copy(&top().join("specs"), folder.path());
    folder
}

/// Copies a folder's contents into another.
pub(crate) fn copy(from: &Path, to: &Path) {
    for entry in std::fs::read_dir(from).unwrap() {
        let entry = entry.unwrap();
        let target = to.join(entry.file_name());
        if entry.file_type().unwrap().is_dir() {
            std::fs::create_dir_all(&target).unwrap();
            copy(&entry.path(), &target);
        } else {
            std::fs::copy(entry.path(), &target).unwrap();
        }
    }
}

/// Changes a file of a folder: every `from` becomes `to`, and there must be one.
pub(crate) fn edit(folder: &Path, file: &str, from: &str, to: &str) {
    let path = folder.join(file);
    let text = std::fs::read_to_string(&path).unwrap();
    assert!(text.contains(from), "{file} has no `{from}`");
    std::fs::write(&path, text.replace(from, to)).unwrap();
}
