//! The README and the book say what is so: commands run, and what they are shown to print is the tool's own.

use crate::tool::{Ran, pintle, pintle_in, top};

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

fn page(name: &str) -> String {
    std::fs::read_to_string(top().join("docs/src").join(name)).unwrap()
}

/// Each piece of what is shown stands in what is printed, in that order; a line with an ellipsis leaves something out.
fn shows(shown: &str, ran: &Ran) {
    let mut rest = ran.out.as_str();
    for piece in shown.split("…\n").map(str::trim_end) {
        let found =
            rest.split_once(piece).unwrap_or_else(|| panic!("shown is\n{piece}\nthe tool says\n{}", ran.out));
        rest = found.1;
    }
}

#[test]
fn the_page_on_arrangements_shows_what_is_printed() {
    let page = page("arrangements.md");
    let shown = block(&page, "How a finding reads");
    let (command, shown) = shown.split_once('\n').unwrap();
    let command = command.strip_prefix("$ pintle ").unwrap();
    assert!(shown.contains("\n…\n"), "several pieces of a longer text");
    shows(shown, &pintle(&command.split(' ').collect::<Vec<_>>()));
}

#[test]
fn the_page_on_output_shows_what_is_printed() {
    let page = page("output.md");
    let shown = block(&page, "From\n`specs/builds/slid-axle-5x8.toml`");
    shows(shown, &pintle(&["weigh", "specs/builds/slid-axle-5x8.toml"]));
    let shown = block(&page, "both may be given several\ntimes.");
    let (command, shown) = shown.split_once('\n').unwrap();
    let ran = pintle(&command.strip_prefix("$ pintle ").unwrap().split(' ').collect::<Vec<_>>());
    assert_eq!(ran.out.trim_end(), shown);
}

#[test]
fn the_first_steps_come_out_as_they_are_told() {
    let page = page("first-steps.md");
    let steps = top().join("docs/examples/first-steps");
    let first = pintle_in(&steps, &["inspect", "builds/first.toml"]);
    shows(block(&page, "The first begins:"), &first);
    let findings = first.out.lines().filter(|line| line.starts_with("towing/"));
    assert_eq!(findings.count(), 4, "`Four findings come back`: {}", first.out);
    let second = pintle_in(&steps, &["inspect", "builds/second.toml"]);
    assert_eq!(second.code, 0, "`Nothing is found`: {}", second.out);
    assert!(second.out.contains(" 0 faults"), "{}", second.out);
}
