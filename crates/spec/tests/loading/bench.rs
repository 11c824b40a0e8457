//! The test bench: a spec and a stock list as text, and what must be said of them.

use std::fmt::Write as _;

use pintle_finding::Problem;
use pintle_source::{Sources, Spanned};
use pintle_spec::{Build, Item, read_build, read_stock};

/// What is said: code, message, help, the text that is underlined, and its line.
pub(crate) type Said<'a> = (&'a str, &'a str, &'a str, &'a str, u32);

/// A spec that has been read over a stock list.
#[derive(Debug)]
pub(crate) struct Read {
    pub(crate) sources: Sources,
    pub(crate) problems: Vec<Problem>,
    pub(crate) build: Option<Build>,
}

/// Reads a stock list and a spec over it.
pub(crate) fn load(spec: &str, stock: &str) -> Read {
    let mut sources = Sources::new();
    let stock_id = sources.add("stock.toml", stock);
    let spec_id = sources.add("spec.toml", spec);
    let mut problems = Vec::new();
    let stock = read_stock(&sources, &[stock_id], &mut problems);
    let build = read_build(&sources, spec_id, &stock, &mut problems);
    Read { sources, problems, build }
}

impl Read {
    /// What is said of each problem.
    pub(crate) fn said(&self) -> Vec<Said<'_>> {
        let said = |problem: &'_ Problem| -> (&str, u32) {
            problem.labels.first().map_or(("", 0), |label| {
                (self.sources.slice(label.span), self.sources.locate(label.span).line)
            })
        };
        let all = self.problems.iter().map(|problem| {
            let (underlined, line) = said(problem);
            (problem.code, &*problem.message, problem.help.as_deref().unwrap_or(""), underlined, line)
        });
        all.collect()
    }

    /// The codes alone.
    pub(crate) fn codes(&self) -> Vec<&str> {
        self.problems.iter().map(|problem| problem.code).collect()
    }
}

/// Asserts that exactly these problems are said, in this order, that each is worded as the house words them, and that
/// there is a build only where there are none.
#[track_caller]
pub(crate) fn says(spec: &str, stock: &str, expected: &[Said<'_>]) {
    let read = load(spec, stock);
    let said = read.said();
    if said != expected {
        let mut told = String::new();
        for (code, message, help, underlined, line) in &said {
            let _ = writeln!(told, "    ({code:?}, {message:?}, {help:?}, {underlined:?}, {line}),");
        }
        panic!("of\n{spec}\n--- over\n{stock}\n--- this is said:\n{told}--- and not:\n{expected:#?}");
    }
    for problem in &read.problems {
        worded(problem);
    }
    let in_spec = |problem: &Problem| {
        // What no part of stock gives is missing in the spec, though it would stand in the stock list.
        problem.message.contains("of the trailer has no")
            || problem.labels.first().is_none_or(|label| read.sources.name(label.span.source) == "spec.toml")
    };
    let refused = read.problems.iter().any(in_spec);
    assert_eq!(
        read.build.is_none(),
        refused,
        "a build is given when nothing is said of the spec, and only then"
    );
}

/// The house's words: lower case, no full stop, no names of the language, help, a place.
#[track_caller]
pub(crate) fn worded(problem: &Problem) {
    let message = &problem.message;
    let first = message.chars().next().unwrap();
    assert!(!first.is_uppercase(), "{message}");
    let help = problem.help.as_deref().unwrap_or_else(|| panic!("no help with: {message}"));
    for text in [message.as_str(), help].into_iter().chain(problem.labels.iter().map(|label| &*label.text)) {
        assert!(!text.ends_with('.') && !text.is_empty(), "{text:?}");
        for name in ["Node", "Some(", "None", "Option", "u32", "f64", "enum", "struct", "Table("] {
            assert!(!text.contains(name), "{text:?} holds {name}");
        }
        assert!(!text.contains(|letter: char| letter.is_control()), "{text:?}");
        for wrong in [" a a", " a e", " a i", " a o"] {
            assert!(!text.contains(wrong), "{text:?}");
        }
    }
    assert!(!problem.labels.is_empty(), "no place for: {message}");
}

/// `[build]` on lines 1 to 4.
pub(crate) const HEAD: &str = "[build]\nnumber = \"T-1\"\ntitle = \"trial\"\nstage = \"design\"\n";
/// `[trailer]` on lines 5 and 6, of the stock below.
pub(crate) const TRAILER: &str = "[trailer]\npart = \"box\"\n";
/// A stock list with a trailer, a rack, a tent, a tank and a module.
pub(crate) const STOCK: &str = "\
[[part]]
name = \"box\"
kind = \"trailer\"
mass = \"1000 lb\"
tongue = \"120 lb\"
gvwr = \"2990 lb\"
ball_to_box = \"40 in\"
length = \"144 in\"
width = \"70 in\"
height = \"72 in\"
wall = \"1 in\"
roof = \"2 in\"
floor_height = \"20 in\"
frame_height = \"18 in\"
nose = { shape = \"flat\" }
axle = { ball = \"130 in\", count = 1, gawr = \"3500 lb\" }

[[part]]
name = \"galley\"
kind = \"module\"
mass = \"150 lb\"
length = \"40 in\"
width = \"20 in\"
height = \"36 in\"
removable = true

[[part]]
name = \"rack-low\"
kind = \"rack\"
mass = \"60 lb\"
length = \"60 in\"
width = \"50 in\"
height = \"5 in\"

[[part]]
name = \"tent-soft\"
kind = \"tent\"
mass = \"130 lb\"
length = \"56 in\"
width = \"48 in\"
height = \"12 in\"
floor = \"3 in\"

[[part]]
name = \"tank-20\"
kind = \"tank\"
mass = \"12 lb\"
capacity = \"20 gal\"
length = \"30 in\"
width = \"16 in\"
height = \"10 in\"
";

/// A sound head and trailer with more tables after them, which begin on line 7.
pub(crate) fn with(more: &str) -> String {
    format!("{HEAD}{TRAILER}{more}")
}

/// Asserts what is said of tables after a sound head and trailer; line 1 is the first line of `more`.
#[track_caller]
pub(crate) fn says_of(more: &str, expected: &[Said<'_>]) {
    let moved: Vec<Said<'_>> = expected
        .iter()
        .map(|(code, message, help, at, line)| (*code, *message, *help, *at, line + 6))
        .collect();
    says(&with(more), STOCK, &moved);
}

/// The build of a sound spec.
#[track_caller]
pub(crate) fn sound(spec: &str, stock: &str) -> Build {
    let read = load(spec, stock);
    assert_eq!(read.said(), [], "of\n{spec}");
    read.build.unwrap()
}

/// The part with a tag.
#[track_caller]
pub(crate) fn part<'b>(build: &'b Build, tag: &str) -> &'b Item {
    build.item(tag).unwrap_or_else(|| panic!("no part `{tag}`"))
}

/// The text of a place that a value was written at, and the file's name.
pub(crate) fn written<'s, T>(sources: &'s Sources, value: &Spanned<T>) -> (&'s str, &'s str) {
    (sources.name(value.span.source), sources.slice(value.span))
}
