//! What cannot be compared is said, with what to change; names that would be obeyed are not.

use std::process::Command;

use super::{AHEAD, BEHIND, Repository, SOUND, git_in};
use crate::tool::pintle_in;

/// Runs and gives the lines of problems.
fn said(repository: &Repository, arguments: &[&str]) -> String {
    let ran = repository.compare(&[arguments, &["--format", "plain"]].concat());
    assert_eq!(ran.code, 2, "{arguments:?}: {}", ran.out);
    ran.out.lines().filter(|line| line.contains("input wrong: ")).collect::<Vec<_>>().join("\n")
}

#[test]
fn wrong_calls_are_said() {
    let repository = Repository::new();
    let rows: [(&[&str], &str); 16] = [
        (&[], "no version is named; write `pintle compare OLD NEW`"),
        (&[SOUND], "one version is named, and two are compared"),
        (&["--since", "HEAD", "specs", "specs"], "with `--since`, one path is compared, and two are named"),
        (&["nope:specs", "specs"], "git knows no revision `nope` in this repository; name a commit"),
        (&["--since", "HEAD..main", "specs"], "git knows no revision `HEAD..main`"),
        (&["--since=-x", "specs"], "`-x` is no revision: a revision does not open with `-`"),
        (&["--since=--output=x", "specs"], "`--output=x` is no revision"),
        (&[":specs", "specs"], "`` is no revision: no revision is named"),
        (&["HEAD:spec", "specs"], "`HEAD:spec` is not in revision `HEAD`"),
        (
            &["HEAD:specs/builds/sound-6x12-rond.toml", SOUND],
            "did you mean `HEAD:specs/builds/sound-6x12-round.toml`?",
        ),
        (&["HEAD:../specs", "specs"], "`HEAD:../specs` leads out of the repository"),
        (&["HEAD:/etc", "specs"], "`HEAD:/etc` leads out of the repository; count the path from the top"),
        (
            &["HEAD:specs", SOUND],
            "`HEAD:specs` is a folder and `specs/builds/sound-6x12-round.toml` is a file",
        ),
        (
            &["HEAD~1", "specs"],
            "no file and no folder `HEAD~1`; name a path; a path in a revision is written `REV:PATH`",
        ),
        (&["--since", "HEAD", "nowhere"], "there is no file and no folder `nowhere`"),
        (&["HEAD:rules", "nowhere"], "`HEAD:rules` is not in revision `HEAD`"),
    ];
    for (arguments, wanted) in rows {
        let said = said(&repository, arguments);
        assert!(said.contains(wanted), "{arguments:?}: {said}");
    }
    let both = said(&repository, &["HEAD:rules", "nowhere"]);
    assert_eq!(
        both.lines().filter(|line| line.starts_with("input wrong: no-such-path")).count(),
        2,
        "{both}"
    );
    assert!(!repository.path().join("x").exists());
    assert_eq!(repository.compare(&["--since", "HEAD", "--hold", "grave"]).code, 2);
    assert_eq!(repository.compare(&["a", "b", "c"]).code, 2);
}

#[test]
fn a_spec_that_is_new_since_the_revision_is_said_not_to_be_in_it() {
    let repository = Repository::new();
    let new = "specs/builds/new.toml";
    std::fs::copy(repository.path().join(SOUND), repository.path().join(new)).unwrap();
    let said = said(&repository, &["--since", "HEAD", new]);
    assert!(said.contains("`HEAD:specs/builds/new.toml` is not in revision `HEAD`"), "{said}");
}

#[test]
fn folders_without_specs_are_not_a_pass() {
    let repository = Repository::new();
    let said = said(&repository, &["HEAD:specs/stock", "specs/stock"]);
    assert!(said.contains("no spec is found in `HEAD:specs/stock` or in `specs/stock`"), "{said}");
}

#[test]
fn without_a_repository_or_without_git_it_is_said() {
    let repository = Repository::new();
    let alone = tempfile::tempdir().unwrap();
    let lone = alone.path().join("a.toml");
    std::fs::copy(repository.path().join(SOUND), &lone).unwrap();
    let ran = pintle_in(alone.path(), &["compare", "--since", "HEAD", "a.toml", "--format", "plain"]);
    assert_eq!(ran.code, 2);
    assert!(ran.out.contains("this folder is in no git repository that git opens"), "{}", ran.out);
    assert!(ran.out.contains("take the old version out yourself and name its path"), "{}", ran.out);
    let output = Command::new(env!("CARGO_BIN_EXE_pintle"))
        .args(["compare", "--since", "HEAD", "specs", "--format", "plain"])
        .current_dir(repository.path())
        .env("PATH", alone.path())
        .output()
        .unwrap();
    let words = String::from_utf8(output.stdout).unwrap();
    assert_eq!(output.status.code(), Some(2));
    assert!(
        words.contains("git is not found, and is needed to look up revision `HEAD`; install git"),
        "{words}"
    );
}

#[test]
fn a_repository_without_a_commit_knows_no_revision() {
    let folder = tempfile::tempdir().unwrap();
    git_in(folder.path(), &["init", "--quiet"]);
    let ran = pintle_in(folder.path(), &["compare", "--since", "HEAD", "--format", "plain"]);
    assert_eq!(ran.code, 2);
    assert!(ran.out.contains("git knows no revision `HEAD`"), "{}", ran.out);
}

/// Puts an entry into the index as it could never be written by hand, and commits it.
fn commit_entry(repository: &Repository, mode: &str, content: &str, path: &str) {
    std::fs::write(repository.path().join("content"), content).unwrap();
    let number = repository.git(&["hash-object", "-w", "content"]);
    std::fs::remove_file(repository.path().join("content")).unwrap();
    let entry = format!("{mode},{},{path}", number.trim());
    repository.git(&["update-index", "--add", "--cacheinfo", &entry]);
    repository.git(&["commit", "--quiet", "--message", "an entry"]);
}

#[test]
fn links_in_a_revision_are_not_followed() {
    let outside = tempfile::tempdir().unwrap();
    let secret = outside.path().join("secret.toml");
    std::fs::write(&secret, "secret = \"do not print\"\n").unwrap();
    let to = secret.to_str().unwrap();
    let why = "it is a link, and links in a revision are not followed";

    let repository = Repository::new();
    commit_entry(&repository, "120000", to, "specs/builds/link.toml");
    for arguments in [&["HEAD:specs/builds/link.toml", SOUND][..], &["HEAD:specs", "HEAD~1:specs"]] {
        let said = said(&repository, arguments);
        assert!(said.contains(&format!("`HEAD:specs/builds/link.toml` cannot be read: {why}")), "{said}");
        assert!(!said.contains("do not print"), "{said}");
    }
    let repository = Repository::new();
    commit_entry(&repository, "120000", to, "specs/stock/link.toml");
    let words = said(&repository, &["--since", "HEAD", SOUND]);
    assert!(words.contains(&format!("`HEAD:specs/stock/link.toml` cannot be read: {why}")), "{words}");

    // A stock folder, and a rulebook.
    for link in ["specs/stock", "specs/pintle.toml"] {
        let repository = Repository::new();
        repository.git(&["rm", "--quiet", "-r", "--cached", link]);
        commit_entry(&repository, "120000", to, link);
        let words = said(&repository, &[&format!("HEAD:{SOUND}"), SOUND]);
        assert!(words.contains(why) && words.contains(&format!("HEAD:{link}")), "{link}: {words}");
    }
}

#[test]
fn a_submodule_and_a_file_that_is_far_too_large_are_said() {
    let repository = Repository::new();
    let head = repository.git(&["rev-parse", "HEAD"]);
    let entry = format!("160000,{},specs/builds/vendor", head.trim());
    repository.git(&["update-index", "--add", "--cacheinfo", &entry]);
    repository.git(&["commit", "--quiet", "--message", "a submodule"]);
    let words = said(&repository, &["HEAD:specs", "HEAD~1:specs"]);
    assert!(words.contains("`HEAD:specs/builds/vendor` cannot be read: it is a submodule"), "{words}");

    let repository = Repository::new();
    let large = repository.path().join("specs/builds/large.toml");
    std::fs::write(&large, vec![b'#'; (1 << 20) + 1]).unwrap();
    repository.edit(SOUND, AHEAD, BEHIND);
    repository.commit();
    std::fs::remove_file(&large).unwrap();
    let ran = repository.compare(&["--since", "HEAD", "--format", "plain"]);
    assert_eq!(ran.code, 2);
    assert!(
        ran.out.contains(
            "`HEAD:specs/builds/large.toml` is 1048577 bytes long; a file may have at most 1048576 bytes"
        ),
        "{}",
        ran.out
    );
    // What comes after it is still read rightly.
    assert!(ran.out.contains("looked at 13 specs: 1 that cannot be read, 12 as before"), "{}", ran.out);
}

/// As in a partial copy, or a damaged one.
#[test]
fn what_this_copy_does_not_hold_is_said() {
    let repository = Repository::new();
    let lose = |name: &str| {
        let number = repository.git(&["rev-parse", name]);
        let (folder, file) = number.trim().split_at(2);
        std::fs::remove_file(repository.path().join(".git/objects").join(folder).join(file)).unwrap();
    };
    lose(&format!("HEAD:{SOUND}"));
    let words = said(&repository, &["--since", "HEAD"]);
    let wanted =
        format!("`HEAD:{SOUND}` cannot be read: this copy of the repository does not hold it; the copy is");
    assert!(words.contains(&wanted), "{words}");
    assert_eq!(
        words.lines().filter(|line| line.contains("unreadable")).count(),
        1,
        "the others are read: {words}"
    );
    lose("HEAD:specs");
    let words = said(&repository, &["--since", "HEAD"]);
    assert!(words.contains("git cannot list the files of revision `HEAD`"), "{words}");
}

#[cfg(unix)]
#[test]
fn a_name_that_is_no_text_is_said() {
    use std::os::unix::ffi::OsStrExt as _;
    let repository = Repository::new();
    let name = std::ffi::OsStr::from_bytes(b"specs/builds/caf\xe9.toml");
    if std::fs::write(repository.path().join(name), "[build]\n").is_err() {
        return; // This file system has no such names.
    }
    repository.commit();
    std::fs::remove_file(repository.path().join(name)).unwrap();
    let words = said(&repository, &["--since", "HEAD"]);
    assert!(words.contains("its name is not UTF-8, or leads elsewhere; rename it"), "{words}");
}

/// What a spec's author, or whoever names a branch, could try.
#[test]
fn hostile_names_are_shown_and_not_obeyed() {
    let repository = Repository::new();
    let evil = "<img src=x onerror=alert(1)> | @everyone #1 `tick` **b** https://example.invalid &lt;";
    repository.edit(SOUND, "name  = \"homeward\"", &format!("name  = '{evil}'"));
    repository.git(&["branch", "a<b>|c"]);
    repository.edit(SOUND, AHEAD, BEHIND);
    let run = |format: &str| repository.compare(&["--since", "a<b>|c", SOUND, "--format", format]);
    for format in ["human", "plain", "json", "markdown"] {
        let ran = run(format);
        assert_eq!(ran.code, 1, "{format}: {}", ran.out);
        assert!(!ran.out.contains('\u{1b}'), "{format}");
    }
    assert!(run("plain").out.contains(evil), "people see the name as it is");
    let document: serde_json::Value = serde_json::from_str(&run("json").out).unwrap();
    let readings = document["specs"][0]["readings"].as_array().unwrap();
    assert!(readings.iter().any(|reading| reading["subject"]["name"] == evil));
    let markdown = run("markdown").out;
    assert!(
        !markdown.contains("<img") && !markdown.contains("https:") && !markdown.contains("**b"),
        "{markdown}"
    );
    let outside: String = markdown
        .split("<code>")
        .map(|part| part.split_once("</code>").map_or(part, |(_, after)| after))
        .collect();
    assert!(!outside.contains("@everyone") && !outside.contains("#1 "), "{outside}");
    for line in markdown.lines().filter(|line| line.starts_with("| critical") || line.starts_with("| major"))
    {
        assert_eq!(line.matches('|').count(), 6, "{line}");
    }
}

#[test]
fn escape_sequences_in_a_spec_of_a_revision_reach_no_terminal() {
    let repository = Repository::new();
    repository.edit(SOUND, "title  = \"6x12", "title  = \"\\u001b[31m\\u202e6x12");
    repository.commit();
    repository.edit(SOUND, "title  = \"\\u001b[31m\\u202e6x12", "title  = \"6x12");
    for format in ["human", "plain", "json", "markdown"] {
        let ran = repository.compare(&["--since", "HEAD", SOUND, "--format", format]);
        assert_eq!(ran.code, 2, "{format}");
        for bad in ['\u{1b}', '\u{202e}'] {
            assert!(!ran.out.contains(bad), "{format} passes {bad:?} on");
        }
    }
}
