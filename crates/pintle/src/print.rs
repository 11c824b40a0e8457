//! The standard streams, and how to look on them.

use std::io::{IsTerminal, Write};

use pintle_finding::Problem;
use pintle_report::{Look, human};
use pintle_source::Sources;

use crate::call::{Call, ColourChoice};

/// How reports look on standard output.
pub(crate) fn look(call: &Call) -> Look {
    let terminal = std::io::stdout().is_terminal();
    let refused = environment("NO_COLOR").is_some_and(|value| !value.is_empty());
    let colour = match call.color {
        ColourChoice::Auto => terminal && !refused,
        ColourChoice::Always => true,
        ColourChoice::Never => false,
    };
    let width = environment("COLUMNS").and_then(|value| value.parse().ok());
    let width = width.or_else(|| terminal.then(terminal_width).flatten()).unwrap_or(100);
    Look { units: call.units.into(), colour, width: width.clamp(40, 200), unicode: unicode() }
}

fn unicode() -> bool {
    let locale =
        ["LC_ALL", "LC_CTYPE", "LANG"].into_iter().filter_map(environment).find(|value| !value.is_empty());
    // Pipes and logs take UTF-8 unless the locale says otherwise.
    locale.is_none_or(|locale| locale == "C" || locale == "POSIX" || locale.to_lowercase().contains("utf"))
}

fn terminal_width() -> Option<usize> {
    let (_, columns) = console::Term::stdout().size_checked()?;
    Some(usize::from(columns))
}

#[expect(clippy::disallowed_methods, reason = "this is the room that reads the environment")]
fn environment(name: &str) -> Option<String> {
    std::env::var(name).ok()
}

/// Writes to standard output. A reader that went away, such as `head`, is no fault.
pub(crate) fn out(text: &str) {
    let _ = std::io::stdout().lock().write_all(text.as_bytes());
}

/// Writes a line to standard error.
pub(crate) fn err(text: &str) {
    let _ = writeln!(std::io::stderr().lock(), "{text}");
}

/// Problems said on standard error, so that what a command prints stays what it is, and JSON stays JSON.
pub(crate) struct Aside {
    look: Look,
    /// Whether any of them makes the input wrong.
    pub(crate) wrong: bool,
}

impl Aside {
    /// Nothing said yet.
    pub(crate) fn new(look: Look) -> Self {
        Self { look, wrong: false }
    }

    /// Says problems, if there are any; warnings among them make nothing wrong.
    pub(crate) fn say(&mut self, problems: &[Problem], sources: &Sources) {
        if !problems.is_empty() {
            self.wrong |= Problem::any_wrong(problems);
            err(human::problems(problems, sources, &self.look).trim_end());
        }
    }
}
