//! Revisions: names, shops as they were then, specs that were renamed, came or went, and repositories of every sort.

use super::{AHEAD, BEHIND, Repository, SOUND, git_in, of_news, texts};
use crate::tool::{pintle_in, top};

#[test]
fn a_revision_is_judged_with_the_shop_as_it_was_then() {
    let repository = Repository::new();
    // The first version has its own stock, rulebook and pack; all three are changed after it.
    repository.edit("specs/stock/modules.toml", "mass       = \"118 lb ± 1 lb\"", "mass       = \"123 lb\"");
    repository.edit("specs/pintle.toml", "value  = \"14 %\"", "value  = \"13.9 %\"");
    repository.commit();
    let then = |revision: &str| {
        let here = format!("{revision}:{SOUND}");
        let (_, document) = repository.json(&[&here, SOUND]);
        document
    };
    assert_eq!(then("HEAD")["specs"], serde_json::json!([]));
    let old = then("HEAD~1");
    assert_eq!(old["rulebooks"][0]["changes"][0]["by"]["shown"], "-0.1 %");
    let field = &old["specs"][0]["parts"][0]["fields"][0];
    assert_eq!((&field["old"]["shown"], &field["new"]["shown"]), (&"118 lb ± 1 lb".into(), &"123 lb".into()));
    // Nothing of it comes from the working tree: without it, two revisions compare as well.
    std::fs::remove_dir_all(repository.path().join("specs")).unwrap();
    let (_, both) = repository.json(&[&format!("HEAD~1:{SOUND}"), &format!("HEAD:{SOUND}")]);
    assert_eq!(both["specs"][0]["parts"], old["specs"][0]["parts"].clone().take_names());
}

/// The same with places in the revision, as they are named there.
trait TakeNames {
    fn take_names(self) -> Self;
}

impl TakeNames for serde_json::Value {
    fn take_names(self) -> Self {
        let text = self.to_string().replace("\"file\":\"specs/", "\"file\":\"HEAD:specs/");
        serde_json::from_str(&text).unwrap()
    }
}

#[test]
fn no_rulebook_above_the_repository_is_taken_for_a_revision() {
    let repository = Repository::new();
    let inner = repository.path().join("inner");
    std::fs::create_dir_all(inner.join("builds")).unwrap();
    git_in(&inner, &["init", "--quiet", "--initial-branch=main"]);
    let spec = std::fs::read_to_string(top().join("docs/examples/first-steps/builds/first.toml")).unwrap();
    std::fs::write(inner.join("builds/first.toml"), spec).unwrap();
    std::fs::copy(repository.path().join("specs/pintle.toml"), repository.path().join("pintle.toml"))
        .unwrap();
    git_in(&inner, &["add", "--all"]);
    git_in(&inner, &["commit", "--quiet", "--message", "a version"]);
    let ran = pintle_in(&inner, &["compare", "HEAD:builds", "HEAD:builds", "--format", "plain"]);
    // Without a rulebook there is no stock list, and the part is not known; the rulebook above has a stock list.
    assert!(ran.out.contains("HEAD:builds/first.toml:10:8: input wrong: unknown-part"), "{}", ran.out);
    assert!(ran.out.contains("the stock list is empty"), "{}", ran.out);
}

#[test]
fn a_spec_that_was_renamed_is_found_by_its_build_number() {
    let repository = Repository::new();
    let renamed = "specs/builds/kerb-side.toml";
    repository.git(&["mv", SOUND, renamed]);
    let (code, document) = repository.json(&["--since", "HEAD", "specs"]);
    assert_eq!(code, 0);
    let spec = &document["specs"][0];
    assert_eq!((&spec["spec"], &spec["matched"]), (&renamed.into(), &"number".into()));
    assert_eq!(spec["old"]["spec"], format!("HEAD:{SOUND}"));
    assert_eq!((&spec["readings"], &spec["parts"]), (&serde_json::json!([]), &serde_json::json!([])));
    for format in ["human", "plain", "markdown"] {
        let ran = repository.compare(&["--since", "HEAD", "--format", format]);
        assert!(
            ran.out.contains("its path is gone, it was found by its build number"),
            "{format}: {}",
            ran.out
        );
    }
    // Changed besides, it is still compared with what it was.
    repository.edit(renamed, AHEAD, BEHIND);
    let (code, document) = repository.json(&["--since", "HEAD", "specs"]);
    assert_eq!(code, 1);
    assert!(!of_news(&document, "new fault").is_empty());
    // Broken besides, it is found as well.
    repository.edit(renamed, "stage  = \"design\"", "stage  = \"desing\"");
    let (code, document) = repository.json(&["--since", "HEAD", "specs"]);
    assert_eq!((code, &document["specs"][0]["standing"]), (2, &"new cannot be read".into()));
    assert_eq!(document["specs"][0]["matched"], "number");
}

#[test]
fn a_number_that_two_specs_have_matches_nothing() {
    let repository = Repository::new();
    repository.git(&["mv", SOUND, "specs/builds/one.toml"]);
    std::fs::copy(
        repository.path().join("specs/builds/one.toml"),
        repository.path().join("specs/builds/two.toml"),
    )
    .unwrap();
    let (_, document) = repository.json(&["--since", "HEAD", "specs"]);
    let mut standing = texts(&document["specs"], "standing");
    standing.sort_unstable();
    assert_eq!(standing, ["added", "added", "removed"]);
}

#[test]
fn specs_that_come_and_go_are_said_and_their_faults_counted() {
    let repository = Repository::new();
    let heavy = "specs/builds/overload-6x12.toml";
    std::fs::remove_file(repository.path().join(heavy)).unwrap();
    let (code, gone) = repository.json(&["--since", "HEAD", "specs"]);
    assert_eq!((code, &gone["specs"][0]["standing"]), (0, &"removed".into()));
    assert_eq!(gone["specs"][0]["spec"], format!("HEAD:{heavy}"));
    let (code, back) = repository.json(&["specs", "HEAD:specs"]);
    assert_eq!((code, &back["specs"][0]["standing"]), (1, &"added".into()));
    assert_eq!(back["summary"]["gained"], gone["summary"]["lost"]);
    assert!(back["summary"]["gained"]["fault"]["at_or_above_hold"].as_u64().unwrap() > 2);
}

#[test]
fn a_spec_broken_at_one_side_says_what_can_be_said() {
    let repository = Repository::new();
    let spec = "specs/builds/overload-6x12.toml";
    repository.edit(spec, "stage  = \"design\"", "stage  = \"desing\"");
    repository.commit();
    repository.edit(spec, "stage  = \"desing\"", "stage  = \"design\"");
    repository.edit(SOUND, AHEAD, BEHIND);
    let (code, document) = repository.json(&["--since", "HEAD"]);
    assert_eq!((code, &document["verdict"]), (2, &"input wrong".into()));
    let [broken, sound] = document["specs"].as_array().unwrap().as_slice() else {
        panic!("two specs changed")
    };
    assert_eq!((&broken["spec"], &broken["standing"]), (&spec.into(), &"old cannot be read".into()));
    let problem = &broken["old"]["problems"][0];
    assert_eq!(problem["labels"][0]["file"], format!("HEAD:{spec}"));
    assert!(problem["help"].as_str().unwrap().contains("did you mean `design`?"));
    assert_eq!(broken["summary"]["gained"], broken["summary"]["lost"], "nothing is new, nothing gone");
    assert!(broken["summary"]["not_compared"]["fault"]["at_or_above_hold"].as_u64().unwrap() > 2);
    assert_eq!(sound["verdict"], "new fault", "the other specs are compared all the same");
    let human = repository.compare(&["--since", "HEAD"]).out;
    assert!(human.starts_with("input wrong: 1 problem; besides, "), "{human}");
    assert!(human.lines().next().unwrap().contains(" at or above major; "), "{human}");
    assert!(human.contains("findings with no other version to compare with"), "{human}");
    assert!(
        human.contains(&format!("[HEAD:{spec}:9:")),
        "the place of the mistake is named in the revision: {human}"
    );
    // The other way round.
    let (code, back) = repository.json(&["specs", "HEAD:specs"]);
    assert_eq!((code, &back["specs"][0]["standing"]), (2, &"new cannot be read".into()));
}

#[test]
fn a_rulebook_broken_at_one_side_is_said_with_its_revision() {
    let repository = Repository::new();
    repository.edit("specs/pintle.toml", "hold  = \"major\"", "hold  = \"grave\"");
    repository.commit();
    repository.edit("specs/pintle.toml", "hold  = \"grave\"", "hold  = \"major\"");
    let ran = repository.compare(&["--since", "HEAD", SOUND, "--format", "plain"]);
    assert_eq!(ran.code, 2);
    assert!(ran.out.contains("HEAD:specs/pintle.toml:4:9: input wrong: "), "{}", ran.out);
}

#[test]
fn paths_in_a_revision_count_from_the_top_and_with_a_point_from_here() {
    let repository = Repository::new();
    repository.edit(SOUND, AHEAD, BEHIND);
    let specs = repository.path().join("specs");
    let run =
        |arguments: &[&str]| pintle_in(&specs, &[&["compare", "--format", "plain"], arguments].concat());
    for arguments in [
        &["HEAD:specs/builds", "builds"][..],
        &["HEAD:./builds", "builds"],
        &["HEAD:./builds/../builds/", "./builds"],
        &["--since", "HEAD", "builds"],
        &["--since", "HEAD"],
        &["--since", "HEAD", "../specs"],
        &["HEAD:./builds/sound-6x12-round.toml", "builds/sound-6x12-round.toml"],
    ] {
        let ran = run(arguments);
        assert_eq!(ran.code, 1, "{arguments:?}: {}", ran.out);
        assert!(
            ran.out.contains("before: HEAD:specs/builds/sound-6x12-round.toml"),
            "{arguments:?}: {}",
            ran.out
        );
    }
    let ran = run(&["HEAD:builds", "builds"]);
    assert_eq!(ran.code, 2);
    assert!(
        ran.out.contains("count from the top of the repository: write `HEAD:specs/builds`"),
        "{}",
        ran.out
    );
}

#[test]
fn a_tag_a_branch_and_a_message_name_a_revision() {
    let repository = Repository::new();
    repository.git(&["tag", "--annotate", "--message", "as built", "v1"]);
    repository.git(&["commit", "--quiet", "--allow-empty", "--message", "fix: nothing {really}"]);
    repository.edit(SOUND, AHEAD, BEHIND);
    for revision in ["v1", "main", "HEAD~1", "HEAD^", "@", "main@{0}", "HEAD^{/fix: nothing}", "v1^{commit}"]
    {
        let ran = repository.compare(&[&format!("{revision}:{SOUND}"), SOUND, "--format", "plain"]);
        assert_eq!(ran.code, 1, "{revision}: {}", ran.out);
        assert!(ran.out.contains(&format!("before: {revision}:{SOUND}")), "{revision}: {}", ran.out);
        assert_eq!(repository.compare(&["--since", revision]).code, 1, "{revision}");
    }
}

#[test]
fn a_file_whose_name_has_a_colon_is_a_file() {
    let repository = Repository::new();
    std::fs::create_dir(repository.path().join("specs/HEAD:x")).unwrap();
    let odd = "specs/HEAD:x/a.toml";
    std::fs::copy(repository.path().join(SOUND), repository.path().join(odd)).unwrap();
    assert_eq!(repository.compare(&[odd, SOUND]).code, 0);
}

#[test]
fn a_bare_repository_and_one_that_a_hook_points_elsewhere() {
    let repository = Repository::new();
    repository.edit(SOUND, AHEAD, BEHIND);
    repository.commit();
    let bare = tempfile::tempdir().unwrap();
    let from = repository.path().to_str().unwrap().to_owned();
    git_in(bare.path(), &["clone", "--quiet", "--bare", &from, "bare"]);
    let ran = pintle_in(&bare.path().join("bare"), &["compare", "main~1:specs", "main:specs"]);
    assert_eq!(ran.code, 1, "{}", ran.out);
    // Hooks run with these set.
    let other = tempfile::tempdir().unwrap();
    git_in(other.path(), &["init", "--quiet"]);
    let output = std::process::Command::new(env!("CARGO_BIN_EXE_pintle"))
        .args(["compare", "--since", "HEAD~1", "builds"])
        .current_dir(repository.path().join("specs"))
        .env("GIT_DIR", other.path().join(".git"))
        .env("GIT_INDEX_FILE", "nowhere")
        .env("GIT_PREFIX", "elsewhere/")
        .output()
        .unwrap();
    assert_eq!(output.status.code(), Some(1), "{}", String::from_utf8_lossy(&output.stdout));
}

#[test]
fn a_rulebook_of_the_call_is_taken_for_both_versions() {
    let repository = Repository::new();
    repository.edit("specs/pintle.toml", "value  = \"14 %\"", "value  = \"12 %\"");
    let run = |arguments: &[&str]| repository.json(&[&["--since", "HEAD", "specs"], arguments].concat());
    assert_eq!(run(&[]).0, 1);
    let (code, document) = run(&["--rulebook", "specs/pintle.toml"]);
    assert_eq!((code, &document["rulebooks"]), (0, &serde_json::json!([])));
    assert_eq!(
        document["summary"]["unchanged_specs"], 12,
        "the stock list of a revision is no spec: {document}"
    );
}

#[test]
fn nothing_is_left_behind_and_nothing_is_changed() {
    let repository = Repository::new();
    repository.edit(SOUND, AHEAD, BEHIND);
    let before = repository.git(&["status", "--porcelain", "--ignored"]);
    let temporary = tempfile::tempdir().unwrap();
    let output = std::process::Command::new(env!("CARGO_BIN_EXE_pintle"))
        .args(["compare", "--since", "HEAD"])
        .current_dir(repository.path())
        .env("TMPDIR", temporary.path())
        .output()
        .unwrap();
    assert_eq!(output.status.code(), Some(1));
    assert_eq!(std::fs::read_dir(temporary.path()).unwrap().count(), 0);
    assert_eq!(repository.git(&["status", "--porcelain", "--ignored"]), before);
    let words = String::from_utf8(output.stdout).unwrap();
    assert!(!words.contains(temporary.path().to_str().unwrap()), "{words}");
}
