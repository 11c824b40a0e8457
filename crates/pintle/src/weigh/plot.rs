//! The envelope into a file.

use camino::Utf8Path;
use pintle_finding::{Label, Problem, Role};
use pintle_report::plot;
use pintle_report::weights::{self, Terms};
use pintle_spec::Build;

use crate::product::{self, Product};

/// Draws a build's envelope into a file. Nothing is left behind, nor changed, where that fails.
pub(super) fn draw(build: &Build, terms: Terms<'_>, path: &Utf8Path) -> Result<(), Problem> {
    let drawn = weights::drawing(build, terms).map_err(|missing| {
        let message = format!("the envelope cannot be drawn without {}", missing.what);
        let problem = Problem::new("cannot-draw", message).help(missing.help);
        match missing.span {
            Some(span) => problem.at(Label::new(span, Role::Missing, "needed for it")),
            None => problem,
        }
    })?;
    let id = format!("id=\"{}\"", plot::ID);
    let drawing = Product {
        called: "drawing",
        such_as: "envelope.svg",
        ours: &|opening| opening.starts_with("<svg ") && opening.contains(&id),
    };
    product::save(path, &drawn.svg(), &drawing)
}
