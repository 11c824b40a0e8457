//! The plan of the inside, seen from above, at one hour.

use pintle_calc::Known;
use pintle_calc::space::{Hour, Night, Outline, extent_at, wheel_boxes};
use pintle_spec::schema::trailer::{self, coupler};
use pintle_spec::{Coordinate, Item, Zone};

use super::canvas::{Canvas, Drawn, Edge, look, metres};
use super::form::{Form, View, plan};
use super::scene::{Scene, is_through};

/// How many letters' heights fit across it.
const LETTERS: f64 = 74.0;

/// The plan at an hour; `night` is the floor with the ways over it, where people sleep.
pub(super) fn canvas(scene: &Scene<'_>, name: &'static str, hour: Hour, night: Option<&Night>) -> Canvas {
    let mut canvas = Canvas::new(name, View::Above, LETTERS);
    trailer(scene, &mut canvas, night);
    for (part, item) in scene.parts().filter(|(_, item)| is_in_plan(scene, item)) {
        let what = if is_overhead(item) { "overhead" } else { "body" };
        canvas.part(part, what, look(item), canvas.view.extent(extent_at(item, hour)));
    }
    swings(scene, &mut canvas);
    if let Some(night) = night {
        routes(&mut canvas, night);
    }
    dimensions(scene, &mut canvas);
    canvas
}

/// Whether a part is seen in the plan of the inside: all but what is above the roof and is no hole in it.
fn is_in_plan(scene: &Scene<'_>, item: &Item) -> bool {
    !matches!(scene.root(item), Zone::Roof) || is_overhead(item)
}

fn is_overhead(item: &Item) -> bool {
    is_through(item) && item.zone == Zone::Roof
}

fn trailer(scene: &Scene<'_>, canvas: &mut Canvas, night: Option<&Night>) {
    let (build, view) = (scene.build, canvas.view);
    let s = &build.surfaces;
    canvas.base("box", "wall", Outline::outside(build).map(|outline| plan(&outline)));
    canvas.base("room", "room", Outline::inside(build).map(|outline| plan(&outline)));
    if let Some(night) = night.filter(|night| !night.free.is_empty()) {
        let ring = |ring: &Vec<(f64, f64)>| ring.iter().map(|(x, y)| view.at(*x, *y, 0.0)).collect();
        canvas.base("free", "free", Ok(Form::Rings(night.free.iter().map(ring).collect())));
    }
    match wheel_boxes(build) {
        Ok(boxes) => {
            for block in boxes.into_iter().flatten() {
                canvas.base("wheel box", "wheelbox", Ok(Form::Rect(view.boxed(block.x, block.y, block.z))));
            }
        }
        Err(missing) => canvas.lacks(None, "wheel box", &missing),
    }
    let tongue =
        metres(&s.nose_outside).map(|nose| Form::Line(vec![view.at(0.0, 0.0, 0.0), view.at(nose, 0.0, 0.0)]));
    canvas.base("tongue", "frame", tongue);
    let ball = || -> Known<Form> {
        let ball = build.trailer.need_table(&trailer::COUPLER)?.need(&coupler::BALL)?;
        Ok(Form::Circle(view.at(0.0, 0.0, 0.0), ball.value.si() * 500.0))
    };
    canvas.base("ball", "ball", ball());
    match (scene.axles(), metres(&s.wall_outside)) {
        (Ok(axles), Ok(wall)) => {
            for x in axles {
                canvas.base(
                    "axle",
                    "axle",
                    Ok(Form::Line(vec![view.at(x, -wall, 0.0), view.at(x, wall, 0.0)])),
                );
            }
        }
        (Err(missing), _) | (_, Err(missing)) => canvas.lacks(None, "axle", &missing),
    }
}

fn swings(scene: &Scene<'_>, canvas: &mut Canvas) {
    for swing in scene.swings.iter().filter(|swing| !swing.folds) {
        if !canvas.parts.contains_key(&swing.part) {
            continue;
        }
        match &swing.sweeps {
            Ok(sweeps) => {
                for sweep in sweeps {
                    canvas.part(swing.part, "swing", "swing", Ok(canvas.view.sweep(sweep)));
                }
            }
            Err(missing) => canvas.lacks(Some(swing.part), "swing", missing),
        }
    }
}

fn routes(canvas: &mut Canvas, night: &Night) {
    let routes = match &night.routes {
        Ok(routes) => routes,
        Err(missing) => return canvas.lacks(None, "ways out", missing),
    };
    for route in routes {
        match &route.line {
            Ok(Some(line)) => {
                let line = line.iter().map(|(x, y)| canvas.view.at(*x, *y, 0.0)).collect();
                let mut broad = Drawn::new("route", "way", Form::Line(line));
                broad.line = Some(route.width * 1000.0);
                canvas.over.push(broad.clone());
                canvas.over.push(Drawn { what: "route middle", class: "way-middle", line: None, ..broad });
            }
            Ok(None) => {}
            Err(missing) => canvas.lacks(None, "way out", missing),
        }
    }
}

fn dimensions(scene: &Scene<'_>, canvas: &mut Canvas) {
    let (s, view) = (&scene.build.surfaces, canvas.view);
    let half = metres(&s.wall_inside).unwrap_or(0.0);
    let outside = metres(&s.wall_outside).unwrap_or(0.0);
    let rear = metres(&s.rear_inside).unwrap_or(0.0);
    if let (Ok(square), Ok(end)) = (&s.square_inside, &s.rear_inside) {
        let text = format!("length inside {}", scene.between(square, end));
        canvas.dimension(
            view.at(square.metres, -half, 0.0),
            view.at(end.metres, -half, 0.0),
            Edge::Below,
            text,
        );
    }
    if let (Ok(nose), Ok(square)) = (&s.nose_inside, &s.square_inside)
        && square.metres > nose.metres
    {
        let text = format!("nose {}", scene.between(nose, square));
        canvas.dimension(
            view.at(nose.metres, -half, 0.0),
            view.at(square.metres, -half, 0.0),
            Edge::Below,
            text,
        );
    }
    for (what, half, known) in [("inside", half, &s.wall_inside), ("outside", outside, &s.wall_outside)] {
        if let Ok(right) = known {
            let left = Coordinate::ORIGIN.plus(-1.0, right);
            let text = format!("width {what} {}", scene.between(&left, right));
            canvas.dimension(view.at(rear, -half, 0.0), view.at(rear, half, 0.0), Edge::Right, text);
        }
    }
}
