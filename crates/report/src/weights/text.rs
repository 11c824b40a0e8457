//! The weights of a build as tables for people.

use std::fmt::Write as _;

use super::document;
use super::shown::Shown;
use super::states::State;
use super::table::table;
use crate::{Look, safe};
use pintle_calc::uncertainty::Tolerances;
use pintle_spec::Build;

/// The weights of a build as tables for people: a line a body, a line a state.
pub fn text(build: &Build, spec: &str, look: &Look, tolerances: &Tolerances) -> String {
    let document = document(build, spec, look, tolerances);
    let mut text = String::new();
    let mut line = |words: &str| {
        let _ = writeln!(text, "{}", safe::line(words));
    };
    line(&format!("{}: {}, {}", document.spec, document.number, document.title));
    line(&format!(
        "as built: unloaded {}, cargo capacity {}",
        document.as_built.unloaded.cell(),
        document.as_built.cargo_capacity.cell()
    ));
    for state in &document.states {
        line("");
        line(&format!("{} state `{}`", state.used, state.name));
        let rows: Vec<Vec<String>> = state
            .moments
            .iter()
            .map(|row| {
                vec![
                    row.body.clone(),
                    row.mass.cell(),
                    row.x.cell(),
                    row.y.cell(),
                    row.z.cell(),
                    row.about_ball.cell(),
                ]
            })
            .collect();
        for row in table(&["", "weight", "behind ball", "right of centre", "above ground", "moment"], &rows) {
            line(&row);
        }
        line(&format!(
            "  gross {}, tongue {} ({}), axles {}, left {}, right {}, cargo left {}",
            state.gross.cell(),
            state.tongue.cell(),
            state.tongue_share.cell(),
            state.axles.cell(),
            state.left.cell(),
            state.right.cell(),
            state.cargo_left.cell(),
        ));
        line(&format!(
            "  centre of gravity {} behind the ball, {} right of the centreline, {} above the ground",
            state.cg.x.cell(),
            state.cg.y.cell(),
            state.cg.z.cell()
        ));
        for missing in state_missing(state) {
            line(&format!("  not known: {missing}"));
        }
    }
    line("");
    line("figures are computed, not measured: weigh the real trailer");
    text
}

/// What keeps a state's figures from being known, each once.
fn state_missing(state: &State) -> Vec<&str> {
    let figures =
        [&state.gross, &state.tongue, &state.axles, &state.left, &state.cargo_left, &state.cg.y, &state.cg.z];
    let mut missing: Vec<&str> = Vec::new();
    for figure in figures {
        if let Shown::Missing { missing: what } = figure
            && !missing.contains(&what.as_str())
        {
            missing.push(what);
        }
    }
    missing
}
