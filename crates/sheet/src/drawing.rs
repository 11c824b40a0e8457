//! Drawings to scale: a side elevation, the plan by day and by night, the roof, and an end view, all from the same data as
//! the figures. One unit in a drawing is one millimetre of the trailer.

mod canvas;
mod end;
mod form;
mod labels;
mod layout;
mod legend;
mod plan;
mod roof;
mod scene;
mod side;
mod svg;

use maud::{Markup, html};
use pintle_calc::space::{self, Hour, Night};
use pintle_spec::Use;

use crate::about::Findings;
use crate::markup::{name, text};
use crate::{Sheet, frame};
use canvas::Canvas;
use scene::Scene;

/// A drawing with what is said below it.
struct Figure {
    canvas: Canvas,
    heading: String,
    notes: Vec<String>,
}

/// The section.
pub(crate) fn section(sheet: &Sheet<'_>, found: &Findings<'_>) -> Markup {
    let scene = Scene::of(sheet);
    let figures = figures(&scene);
    let nowhere = nowhere(&scene, &figures);
    let body = html! {
        p {
            "To scale, from the same data as the figures: what the drawings show wrong is wrong in the spec. A number is \
             that of a part in the lists below; " span .badge { "!1" } " is the number of a finding about it."
        }
        (svg::patterns())
        @for figure in &figures { (drawn(&scene, figure, found)) }
        (legend::missing(&scene, "In none of the drawings, for want of a place or a size:", &nowhere))
    };
    frame::section("drawings", "Drawings", &body)
}

fn drawn(scene: &Scene<'_>, figure: &Figure, found: &Findings<'_>) -> Markup {
    let canvas = &figure.canvas;
    html! {
        figure .view id=(format!("drawing-{}", canvas.name)) {
            figcaption {
                h3 { (figure.heading) }
                @for note in &figure.notes { p { (text(note)) } }
            }
            @match layout::layout(scene, canvas, found) {
                Some(layout) => div .sheet-of-paper { (svg::svg(scene, canvas, &layout, found, &figure.heading)) }
                None => p { "Nothing of it can be drawn." }
            }
            (legend::parts(scene, canvas, found))
            @if canvas.name == "side" && !scene.road.is_empty() { (legend::marks(scene)) }
            (legend::missing(scene, "Not in this drawing:", &canvas.missing))
        }
    }
}

fn figures(scene: &Scene<'_>) -> Vec<Figure> {
    let mut all = vec![side(scene)];
    all.extend(plans(scene));
    all.push(Figure {
        canvas: roof::canvas(scene),
        heading: "Roof plan".to_owned(),
        notes: vec![
            "Seen from above, front on the left, right side on top. Dotted: tents open. Thin lines across: roof bows. \
             Small circles: feet of the rack, not their size."
                .to_owned(),
        ],
    });
    all.push(Figure {
        canvas: end::canvas(scene),
        heading: "End view".to_owned(),
        notes: vec![
            "Seen from behind, right side on the right. Parts inside the box are left out. Dotted: tents open, and how far \
             doors in the sides swing out. Tires are lines: their width is not among the data. Centres of gravity are \
             named below the side elevation."
                .to_owned(),
        ],
    });
    all
}

fn side(scene: &Scene<'_>) -> Figure {
    let canvas = side::canvas(scene);
    let front = if canvas.view == form::View::FromLeft { "left" } else { "right" };
    let mut notes = vec![format!(
        "Seen {}, front on the {front}, trailer level. Dashed: inside the box, in a locker or in a tent; what folds is folded, \
         as on the road. Dotted: tents open, and what swings up or down. The tongue's frame is a line along its top, the box \
         ends at the floor: their depth is not among the data.",
        svg::seen(canvas.view)
    )];
    if let Some(heaviest) = scene.heaviest() {
        let state =
            scene.build.states.get(heaviest.state).map(|state| name(&state.name.value)).unwrap_or_default();
        notes.push(format!(
            "Arrows: what rests on tongue and axles in the heaviest road state, G{} {state}.",
            heaviest.number
        ));
    }
    if scene.build.states.iter().any(|state| !state.loads.is_empty()) {
        notes.push(
            "Loads that only a state names count in its centre of gravity and are not drawn.".to_owned(),
        );
    }
    Figure { canvas, heading: "Side elevation".to_owned(), notes }
}

/// The plan by day and by night; one for both where nothing folds.
fn plans(scene: &Scene<'_>) -> Vec<Figure> {
    let seen = "Seen from above, front on the left, right side on top. Dotted: what doors, drawers and lids sweep, and holes \
                in the roof.";
    let (night, of_night) = night(scene);
    let folds = scene.build.items.iter().any(|item| item.folded.is_some());
    if !folds {
        return vec![Figure {
            canvas: plan::canvas(scene, "plan", Hour::Night, night.as_ref()),
            heading: "Plan, by day and by night alike".to_owned(),
            notes: vec![format!("{seen} Nothing folds."), of_night],
        }];
    }
    vec![
        Figure {
            canvas: plan::canvas(scene, "plan-day", Hour::Day, None),
            heading: "Plan by day: beds folded away".to_owned(),
            notes: vec![seen.to_owned()],
        },
        Figure {
            canvas: plan::canvas(scene, "plan-night", Hour::Night, night.as_ref()),
            heading: "Plan by night: beds in use".to_owned(),
            notes: vec![seen.to_owned(), of_night],
        },
    ]
}

/// The floor of the first state in which people sleep, and what is said of it.
fn night(scene: &Scene<'_>) -> (Option<Night>, String) {
    let camp = scene.build.states.iter().enumerate().filter(|(_, state)| state.used == Use::Camp);
    let Some((at, state)) = camp.min_by_key(|(_, state)| state.people.is_empty()) else {
        return (
            None,
            "No state is one in which people sleep: free floor and ways out are not drawn.".to_owned(),
        );
    };
    let state = name(&state.name.value);
    match space::night(&scene.sheet.case, at) {
        Ok(night) => {
            let told = format!("Shaded: floor on which nothing stands in state {state}. {}", ways(&night));
            (Some(night), told)
        }
        Err(missing) => (
            None,
            format!("Free floor and ways out in state {state} are not drawn: {} is missing.", missing.what),
        ),
    }
}

/// What is said of the ways out over the floor.
fn ways(night: &Night) -> String {
    let Ok(routes) = &night.routes else { return "Ways out are not drawn: see below.".to_owned() };
    let all = routes.len();
    let lines = routes.iter().filter(|route| matches!(route.line, Ok(Some(_)))).count();
    match (all, lines) {
        (0, _) => "There is no berth inside, or no way out: no way is drawn.".to_owned(),
        (_, 0) => {
            "No berth has a way over the floor to a way out; one beside its berth needs none.".to_owned()
        }
        _ => format!(
            "Broad lines: ways over the floor from a berth to a way out, {lines} of {all}, as broad as a path has to be or as \
             there is room for; a way out beside its berth needs none."
        ),
    }
}

/// Parts that are in none of the drawings, with what is missing.
fn nowhere(scene: &Scene<'_>, figures: &[Figure]) -> Vec<(Option<usize>, String)> {
    let shown = |part: &usize| figures.iter().any(|figure| figure.canvas.parts.contains_key(part));
    let unseen = (0..scene.build.items.len()).filter(|part| !shown(part));
    let told = |part: usize| {
        let lacks = figures.iter().flat_map(|figure| &figure.canvas.missing);
        let lack = lacks.filter(|(of, _)| *of == Some(part)).map(|(_, told)| told.clone()).next();
        (Some(part), lack.unwrap_or_else(|| "its place".to_owned()))
    };
    unseen.map(told).collect()
}

#[cfg(test)]
mod tests;
