//! What stands below a drawing: every number in it with its part and its findings, every mark with its state, and what
//! could not be drawn.

use maud::{Markup, html};
use pintle_calc::{Figure, Known};

use super::canvas::Canvas;
use super::layout::number;
use super::scene::{Scene, Weighed};
use crate::about::Findings;
use crate::markup::{name, text};

/// The list of a drawing's numbers.
pub(super) fn parts(scene: &Scene<'_>, canvas: &Canvas, found: &Findings<'_>) -> Markup {
    html! {
        ul .legend aria-label="Parts in this drawing" {
            @for part in canvas.parts.keys() {
                @if let Some(item) = scene.build.items.get(*part) {
                    li data-part=(part) {
                        span .key { (number(*part)) }
                        " " bdi { (name(&item.tag.value)) } " "
                        span .kind { (item.kind) }
                        @for finding in found.about(*part) {
                            " " a .badge href=(format!("#finding-{finding}")) title=(format!("finding {finding}")) {
                                "!" (finding)
                            }
                        }
                    }
                }
            }
        }
    }
}

/// The list of a drawing's marks.
pub(super) fn marks(scene: &Scene<'_>) -> Markup {
    html! {
        ul .legend.marks aria-label="Centres of gravity" {
            @for weighed in &scene.road {
                li {
                    span .key { "G" (weighed.number) }
                    " " bdi { (scene.build.states.get(weighed.state).map(|state| name(&state.name.value)).unwrap_or_default()) }
                    ": " (where_it_is(scene, weighed))
                }
            }
        }
    }
}

fn where_it_is(scene: &Scene<'_>, weighed: &Weighed) -> String {
    let shown = |figure: &Known<Figure>, what: &str| match figure {
        Ok(figure) => format!("{} {what}", scene.shown(figure.quantity)),
        Err(missing) => format!("{what} not known: {} is missing", text(&missing.what)),
    };
    let across = match &weighed.y {
        Ok(figure) if figure.quantity.si() < 0.0 => {
            format!("{} left of the centreline", scene.shown(figure.quantity.abs()))
        }
        _ => shown(&weighed.y, "right of the centreline"),
    };
    let (behind, high) = (shown(&weighed.x, "behind the ball"), shown(&weighed.z, "high"));
    format!("{behind}, {across}, {high}; {}", shown(&weighed.gross, "in all"))
}

/// What is not in a drawing, or in none of them.
pub(super) fn missing(scene: &Scene<'_>, heading: &str, lacking: &[(Option<usize>, String)]) -> Markup {
    html! {
        @if !lacking.is_empty() {
            div .lacking {
                p { strong { (heading) } }
                ul {
                    @for (part, told) in lacking {
                        li data-part=[*part] {
                            @if let Some(item) = part.and_then(|part| scene.build.items.get(part)) {
                                @if let Some(part) = part { span .key { (number(*part)) } " " }
                                bdi { (name(&item.called())) } ": "
                            }
                            (text(told)) " is missing"
                        }
                    }
                }
            }
        }
    }
}
