//! The README says what is so: its commands run, and its diagnostic is the tool's own.

use crate::tool::{pintle, top};

fn readme() -> String {
    std::fs::read_to_string(top().join("README.md")).unwrap()
}

/// The text of a fenced block that follows a marker.
fn block<'t>(text: &'t str, marker: &str) -> &'t str {
    let after = text.split_once(marker).unwrap_or_else(|| panic!("README has no `{marker}`")).1;
    let inside = after.split_once("```").unwrap().1;
    let inside = inside.split_once('\n').unwrap().1;
    inside.split_once("\n```").unwrap().0
}

#[test]
fn the_diagnostic_shown_is_real() {
    let readme = readme();
    let shown = block(&readme, "What a finding looks like");
    let command = shown.lines().next().unwrap().strip_prefix("$ pintle ").unwrap();
    let expected = shown.split_once('\n').unwrap().1;
    let ran = pintle(&command.split(' ').collect::<Vec<_>>());
    assert!(ran.out.contains(expected.trim_end()), "README shows\n{expected}\nthe tool says\n{}", ran.out);
}

#[test]
fn the_two_commands_are_those_that_are_tested() {
    let readme = readme();
    let commands: Vec<&str> = block(&readme, "Two commands").lines().collect();
    let [main, tests] = commands.as_slice() else {
        panic!("README must give two commands, not {commands:?}")
    };
    assert!(main.starts_with("cargo run") && main.ends_with("-- inspect specs"), "{main}");
    let gate = std::fs::read_to_string(top().join(".ci/run")).unwrap();
    assert!(gate.lines().any(|line| line.trim() == *tests), "`{tests}` is not run by .ci/run");
}
