//! Replacing files: what is kept, and what is refused.

use camino::{Utf8Path, Utf8PathBuf};

use super::replace;

fn folder() -> (tempfile::TempDir, Utf8PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let path = Utf8Path::from_path(folder.path()).unwrap().join("a.toml");
    std::fs::write(&path, "old\n").unwrap();
    (folder, path)
}

fn names(folder: &tempfile::TempDir) -> Vec<String> {
    let mut names: Vec<String> = std::fs::read_dir(folder.path())
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}

#[test]
fn the_new_text_stands_in_the_old_ones_place_and_nothing_beside_it() {
    let (folder, path) = folder();
    replace(&path, b"old\n", b"new\n").unwrap();
    assert_eq!(std::fs::read_to_string(&path).unwrap(), "new\n");
    assert_eq!(names(&folder), ["a.toml"]);
}

#[test]
fn a_file_that_has_changed_meanwhile_is_left_alone() {
    let (folder, path) = folder();
    std::fs::write(&path, "somebody else's\n").unwrap();
    let problem = replace(&path, b"old\n", b"new\n").unwrap_err();
    assert_eq!(
        (problem.code, problem.message),
        ("changed", format!("`{path}` has changed since it was read"))
    );
    assert_eq!(std::fs::read_to_string(&path).unwrap(), "somebody else's\n");
    assert_eq!(names(&folder), ["a.toml"]);
    std::fs::remove_file(&path).unwrap();
    let problem = replace(&path, b"old\n", b"new\n").unwrap_err();
    assert_eq!(problem.message, format!("`{path}` cannot be written: there is no such file"));
}

#[cfg(unix)]
#[test]
fn permissions_are_kept_and_links_followed() {
    use std::os::unix::fs::PermissionsExt as _;

    let (folder, path) = folder();
    let mode = |path: &Utf8Path| path.metadata().unwrap().permissions().mode() & 0o777;
    std::fs::set_permissions(&path, std::fs::Permissions::from_mode(0o640)).unwrap();
    let link = path.with_file_name("link.toml");
    std::os::unix::fs::symlink("a.toml", &link).unwrap();
    replace(&link, b"old\n", b"new\n").unwrap();
    assert_eq!(std::fs::read_to_string(&path).unwrap(), "new\n");
    assert_eq!(mode(&path), 0o640);
    assert!(link.symlink_metadata().unwrap().file_type().is_symlink());
    assert_eq!(names(&folder), ["a.toml", "link.toml"]);
    std::fs::set_permissions(&path, std::fs::Permissions::from_mode(0o440)).unwrap();
    let problem = replace(&path, b"new\n", b"newer\n").unwrap_err();
    assert_eq!(problem.message, format!("`{path}` is marked as not to be written"));
    assert_eq!(std::fs::read_to_string(&path).unwrap(), "new\n");
}
