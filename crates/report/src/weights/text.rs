//! The weights of a build as tables for people.

mod arranged;
mod sensitivity;

use pintle_spec::Build;

use super::states::State;
use super::table::{hung, table};
use super::{Terms, document};
use crate::safe;
use crate::wrap::wrapped;

/// Lines of text, made harmless one by one.
struct Lines {
    text: String,
    /// Columns that they may take.
    width: usize,
}

impl Lines {
    fn line(&mut self, words: &str) {
        self.text.push_str(&safe::line(words));
        self.text.push('\n');
    }

    fn lines(&mut self, all: impl IntoIterator<Item = String>) {
        all.into_iter().for_each(|line| self.line(&line));
    }

    /// Words from the margin, which go on two spaces further in.
    fn title(&mut self, words: &str) {
        self.indented("", words);
    }

    /// Words two spaces in, which go on two spaces further in.
    fn words(&mut self, words: &str) {
        self.indented("  ", words);
    }

    fn indented(&mut self, indent: &str, words: &str) {
        let lines = wrapped(words, self.width.saturating_sub(indent.len() + 2));
        for (number, line) in lines.iter().enumerate() {
            let further = if number == 0 { "" } else { "  " };
            self.line(&format!("{indent}{further}{line}"));
        }
    }

    fn not_known<'m>(&mut self, missing: impl IntoIterator<Item = &'m str>) {
        let mut said: Vec<&str> = Vec::new();
        for what in missing {
            if !said.contains(&what) {
                said.push(what);
                let lines = hung("  not known: ", what, self.width);
                self.lines(lines);
            }
        }
    }
}

/// The weights of a build as tables for people: a line a body, a line a state; then every arrangement, and what small
/// changes do.
pub fn text(build: &Build, spec: &str, terms: Terms<'_>) -> String {
    let document = document(build, spec, terms);
    let mut lines = Lines { text: String::new(), width: terms.look.columns() };
    lines.title(&format!("{}: {}, {}", document.spec, document.number, document.title));
    lines.line(&format!(
        "as built: unloaded {}, cargo capacity {}",
        document.as_built.unloaded.cell(),
        document.as_built.cargo_capacity.cell()
    ));
    for state in &document.states {
        a_state(state, &mut lines);
    }
    lines.line("");
    arranged::arranged(&document.arrangements, terms.band, &mut lines);
    lines.line("");
    sensitivity::sensitivity(&document.sensitivity, &mut lines);
    lines.line("");
    if lines.text.contains('±') {
        lines.title("± is twice the standard uncertainty, from the ± of every value that a figure stands on");
    }
    lines.line("figures are computed, not measured: weigh the real trailer");
    lines.text
}

fn a_state(state: &State, lines: &mut Lines) {
    lines.line("");
    lines.title(&format!("{} state `{}`", state.used, state.name));
    let rows: Vec<Vec<String>> = state
        .moments
        .iter()
        .map(|row| {
            let figures = [&row.mass, &row.x, &row.y, &row.z, &row.about_ball].map(super::Shown::cell);
            std::iter::once(row.body.clone()).chain(figures).collect()
        })
        .collect();
    let head = ["", "weight", "behind ball", "right of centre", "above ground", "moment"];
    lines.lines(table(&head, &rows, lines.width));
    lines.words(&format!(
        "gross {}, tongue {} ({}), axles {}, left {}, right {}, cargo left {}",
        state.gross.with_certainty(),
        state.tongue.with_certainty(),
        state.tongue_share.with_certainty(),
        state.axles.with_certainty(),
        state.left.with_certainty(),
        state.right.with_certainty(),
        state.cargo_left.with_certainty(),
    ));
    lines.words(&format!(
        "centre of gravity {} behind the ball, {} right of the centreline, {} above the ground",
        state.cg.x.with_certainty(),
        state.cg.y.with_certainty(),
        state.cg.z.with_certainty()
    ));
    let figures =
        [&state.gross, &state.tongue, &state.axles, &state.left, &state.cargo_left, &state.cg.y, &state.cg.z];
    lines.not_known(figures.into_iter().filter_map(|figure| figure.missing()));
}
