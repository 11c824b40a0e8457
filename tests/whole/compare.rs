//! `pintle compare`, in real git repositories.

mod agreement;
mod changes;
mod law;
mod refusals;
mod revisions;

use std::path::Path;
use std::process::Command;

use serde_json::Value;

use crate::tool::{Ran, copy, edit, pintle_in, top};

/// A repository of its own, with a small invented shop under `specs` committed in it: four builds, one of them sound.
struct Repository {
    folder: tempfile::TempDir,
}

impl Repository {
    fn new() -> Self {
        let folder = tempfile::tempdir().unwrap();
        std::fs::create_dir(folder.path().join("specs")).unwrap();
        copy(&top().join("tests/whole/compare/shop"), &folder.path().join("specs"));
        let repository = Self { folder };
        repository.git(&["init", "--quiet", "--initial-branch=main"]);
        repository.commit();
        repository
    }

    fn path(&self) -> &Path {
        self.folder.path()
    }

    fn git(&self, arguments: &[&str]) -> String {
        git_in(self.path(), arguments)
    }

    fn commit(&self) {
        self.git(&["add", "--all"]);
        self.git(&["commit", "--quiet", "--message", "a version"]);
    }

    fn edit(&self, file: &str, from: &str, to: &str) {
        edit(self.path(), file, from, to);
    }

    fn compare(&self, arguments: &[&str]) -> Ran {
        pintle_in(self.path(), &[&["compare"], arguments].concat())
    }

    /// Compares and reads the JSON.
    fn json(&self, arguments: &[&str]) -> (i32, Value) {
        let ran = self.compare(&[arguments, &["--format", "json"]].concat());
        assert_eq!(ran.err, "");
        (ran.code, serde_json::from_str(&ran.out).unwrap())
    }
}

/// Runs git as nobody in particular, whatever this machine's settings are.
fn git_in(folder: &Path, arguments: &[&str]) -> String {
    let output = Command::new("git")
        .args(["-c", "user.name=Shop", "-c", "user.email=shop@example.invalid"])
        .args(["-c", "commit.gpgsign=false", "-c", "core.autocrlf=false", "-c", "protocol.file.allow=always"])
        .args(arguments)
        .current_dir(folder)
        .env("GIT_CONFIG_GLOBAL", "")
        .env("GIT_CONFIG_NOSYSTEM", "1")
        .env_remove("GIT_DIR")
        .env_remove("GIT_WORK_TREE")
        .env_remove("GIT_INDEX_FILE")
        .output()
        .unwrap();
    let error = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "git {arguments:?}: {error}");
    String::from_utf8(output.stdout).unwrap()
}

/// The page shows what is so: each line of its transcript is the tool's, in its order; `…` stands for lines left out.
#[test]
fn the_transcript_in_the_book_is_real() {
    let folder = tempfile::tempdir().unwrap();
    copy(&top().join("docs/examples/first-steps"), folder.path());
    git_in(folder.path(), &["init", "--quiet", "--initial-branch=main"]);
    git_in(folder.path(), &["add", "--all"]);
    git_in(folder.path(), &["commit", "--quiet", "--message", "a version"]);
    edit(folder.path(), "builds/second.toml", "front = \"0 in\", centre", "front = \"40 in\", centre");
    let page = std::fs::read_to_string(top().join("docs/src/compare.md")).unwrap();
    let shown = page.split_once("```text\n$ pintle ").unwrap().1.split_once("\n```").unwrap().0;
    let (command, lines) = shown.split_once('\n').unwrap();
    let ran = pintle_in(folder.path(), &command.split(' ').collect::<Vec<_>>());
    assert_eq!(ran.code, 1);
    let mut said = ran.out.lines();
    let mut skipping = false;
    for line in lines.lines() {
        if line == "…" {
            skipping = true;
        } else if skipping {
            assert!(
                said.any(|one| one == line),
                "the tool does not say\n{line}\nin its place, but\n{}",
                ran.out
            );
            skipping = false;
        } else {
            assert_eq!(said.next(), Some(line), "{}", ran.out);
        }
    }
    assert_eq!(said.next(), None, "the transcript ends early");
}

const SOUND: &str = "specs/builds/sound-6x12-round.toml";
/// Where the reference build has its galley, and where it is moved to: the tongue gets light.
const AHEAD: &str = "at        = { front = \"3 in\", right = \"0 in\" }";
const BEHIND: &str = "at        = { rear = \"0 in\", right = \"0 in\" }";

fn texts<'v>(list: &'v Value, key: &str) -> Vec<&'v str> {
    list.as_array().unwrap().iter().map(|one| one[key].as_str().unwrap()).collect()
}

/// The readings of one sort of news.
fn of_news<'v>(document: &'v Value, news: &str) -> Vec<&'v Value> {
    let specs = document["specs"].as_array().unwrap().iter();
    let readings = specs.flat_map(|spec| spec["readings"].as_array().unwrap());
    readings.filter(|reading| reading["news"] == news).collect()
}
